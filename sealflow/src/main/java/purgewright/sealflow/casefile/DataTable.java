package purgewright.sealflow.casefile;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStreamReader;
import java.io.Reader;
import java.io.StringReader;
import java.io.UncheckedIOException;
import java.nio.charset.CharacterCodingException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import purgewright.fluids.unit.Dimension;
import purgewright.fluids.unit.UnitException;
import purgewright.fluids.unit.Units;

/**
 * A table of measured or computed values, read from CSV. The first line that is no comment names the columns, each with its unit:
 *
 * <pre>{@code
 * time [s], /cavities/disc cavity/pressure [MPa], speed [rpm]
 * 0.0,      0.16,                                 0
 * }</pre>
 *
 * <p>Separated by commas, semicolons or tabs (the header decides); lines that begin with {@code #} are comments; an empty cell is "not
 * measured" (NaN). Numbers have a decimal point: a decimal comma is refused, since nobody can tell it from a separator or from
 * thousands. Units stand in the header alone. A column without a unit holds words, or plain numbers.
 *
 * @param name of the file, for messages
 * @param columns in the order of the file
 * @param lines of the rows in the file, 1-based
 * @param headerLine line that names the columns, 1-based
 */
public record DataTable(String name, List<Column> columns, int[] lines, int headerLine) {
    /** Cells as numbers: 64 MB, a third more while a column grows. A million rows of eight columns. */
    private static final int MOST_CELLS = 8_000_000;

    /** Cells that stay text, with some 60 bytes of house-keeping each, and characters in all of them. */
    private static final int MOST_WORDS = 500_000;

    private static final int MOST_LETTERS = 16_000_000;

    /** A line is held whole; a file without line ends must not fill the memory. */
    private static final int LONGEST_LINE = 1 << 20;

    private static final int MOST_COLUMNS = 4096;
    private static final int MOST_PROBLEMS = 4;

    /**
     * One column.
     *
     * @param name without its unit
     * @param unit as typed; empty when there is none
     * @param dimension of the unit; null without one
     * @param values SI, one a row; NaN for an empty cell and for words
     * @param words cells as typed, for a column without unit; else empty
     */
    public record Column(String name, String unit, Dimension dimension, double[] values, List<String> words) {}

    /** Number of rows. */
    public int rows() {
        return lines.length;
    }

    /** The column of that name, upper and lower case alike; null when there is none. */
    public Column column(String wanted) {
        return columns.stream()
                .filter(c -> c.name().equalsIgnoreCase(wanted))
                .findFirst()
                .orElse(null);
    }

    /**
     * Reads a file (UTF-8).
     *
     * @param surroundings pressure that gauge units refer to, Pa
     * @throws CaseException with every problem of the file, each with its line and what would be right
     */
    public static DataTable read(Path file, double surroundings) {
        if (!Files.isRegularFile(file)) {
            throw problem(
                    "FILE", file.toString(), 0, Files.isDirectory(file) ? "a folder, not a table" : "no such file", "");
        }
        String name = String.valueOf(file.getFileName());
        Parse parse = new Parse(name, surroundings);
        try (BufferedReader reader =
                new BufferedReader(new InputStreamReader(Files.newInputStream(file), Utf8.strict()), 1 << 16)) {
            return parse.run(reader);
        } catch (CharacterCodingException notUtf8) {
            throw problem("NOT_UTF8", name, parse.number + 1, "this is not UTF-8 text", "save the file as UTF-8");
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    /** Reads a text. */
    public static DataTable parse(String name, String text, double surroundings) {
        try (Reader reader = new StringReader(text)) {
            return new Parse(name, surroundings).run(new BufferedReader(reader));
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    /** A problem of a table, as an exception. */
    public static CaseException problem(String key, String file, int line, String message, String suggestion) {
        return new CaseException(List.of(new CaseProblem(key, file, line, 0, message, suggestion)));
    }

    /** One reading; owned by one thread. */
    private static final class Parse {
        private final String name;
        private final double surroundings;
        private final List<CaseProblem> problems = new ArrayList<>();

        private char separator;
        private String[] titles;
        private String[] units;
        private Dimension[] dimensions;
        private double[] offset;
        private double[] factor;
        private double[][] values;
        private List<List<String>> words;
        private int[] lines = new int[1024];
        private int rows;
        private int number;
        private int headerLine;
        private int kept;
        private int letters;

        Parse(String name, double surroundings) {
            this.name = name;
            this.surroundings = surroundings;
        }

        DataTable run(BufferedReader reader) throws IOException {
            for (String line = line(reader); line != null; line = line(reader)) {
                number++;
                if (line.length() >= LONGEST_LINE) {
                    report("TOO_LARGE", number, "this line has no end", "is this a table of text?");
                    break;
                }
                String text = number == 1 && line.startsWith("\uFEFF") ? line.substring(1) : line;
                if (text.isBlank() || text.stripLeading().startsWith("#")) {
                    continue;
                }
                if (titles == null) {
                    header(text, number);
                } else {
                    row(text, number);
                }
                if (problems.size() >= MOST_PROBLEMS) {
                    report("MORE", number, "there may be more problems", "mend these first");
                    break;
                }
                if (titles != null && (long) rows * titles.length > MOST_CELLS) {
                    report("TOO_LARGE", number, "the table has more than " + MOST_CELLS + " cells", "thin it out");
                    break;
                }
                if (kept > MOST_WORDS || letters > MOST_LETTERS) {
                    report(
                            "TOO_LARGE",
                            number,
                            "the columns without a unit hold more text than is kept",
                            "give columns of numbers their unit, [1] where there is none, and leave remarks out");
                    break;
                }
            }
            if (titles == null && problems.isEmpty()) {
                report("EMPTY", 0, "the table is empty", "a first line like: time [s], speed [rpm]");
            } else if (rows == 0 && problems.isEmpty()) {
                report("EMPTY", 0, "the table has a header but no rows", "");
            }
            if (!problems.isEmpty()) {
                throw new CaseException(problems);
            }
            List<Column> columns = new ArrayList<>();
            for (int c = 0; c < titles.length; c++) {
                columns.add(new Column(
                        titles[c], units[c], dimensions[c], Arrays.copyOf(values[c], rows), List.copyOf(words.get(c))));
                // Given away column by column: what is read is not held twice.
                values[c] = null;
                words.set(c, null);
            }
            return new DataTable(name, List.copyOf(columns), Arrays.copyOf(lines, rows), headerLine);
        }

        /** A line without its end, cut off where it is too long; null at the end of the file. */
        private static String line(BufferedReader reader) throws IOException {
            int c = reader.read();
            if (c < 0) {
                return null;
            }
            StringBuilder line = new StringBuilder();
            while (c >= 0 && c != '\n' && c != '\r' && line.length() < LONGEST_LINE) {
                line.append((char) c);
                c = reader.read();
            }
            if (c == '\r') {
                reader.mark(1);
                if (reader.read() != '\n') {
                    reader.reset();
                }
            }
            return line.toString();
        }

        private void report(String key, int line, String message, String suggestion) {
            problems.add(new CaseProblem(key, name, line, 0, message, suggestion));
        }

        private void header(String text, int line) {
            headerLine = line;
            separator = text.indexOf('\t') >= 0 ? '\t' : outsideQuotes(text, ';') ? ';' : ',';
            List<String> cells = split(text, separator);
            if (cells.size() > MOST_COLUMNS) {
                report("TOO_LARGE", line, "the table has more than " + MOST_COLUMNS + " columns", "split it");
                throw new CaseException(problems);
            }
            int n = cells.size();
            titles = new String[n];
            units = new String[n];
            dimensions = new Dimension[n];
            offset = new double[n];
            factor = new double[n];
            values = new double[n][1024];
            words = new ArrayList<>();
            Map<String, Integer> seen = new LinkedHashMap<>();
            for (int c = 0; c < n; c++) {
                words.add(new ArrayList<>());
                title(c, cells.get(c).strip(), line);
                Integer before = seen.put(titles[c].toLowerCase(java.util.Locale.ROOT), c);
                if (before != null && !titles[c].isEmpty()) {
                    report(
                            "DUPLICATE",
                            line,
                            "two columns are called \"" + titles[c] + "\""
                                    + (units[before].equals(units[c])
                                            ? ""
                                            : " (in " + units[before] + " and in " + units[c] + ")"),
                            "keep one");
                }
            }
        }

        private static boolean outsideQuotes(String text, char wanted) {
            boolean quoted = false;
            for (int i = 0; i < text.length(); i++) {
                char ch = text.charAt(i);
                if (ch == '"') {
                    quoted = !quoted;
                } else if (ch == wanted && !quoted) {
                    return true;
                }
            }
            return false;
        }

        private void title(int c, String cell, int line) {
            String text = cell;
            String unit = "";
            int end = text.length() - 1;
            if (end > 0 && (text.charAt(end) == ']' || text.charAt(end) == ')')) {
                int open = text.lastIndexOf(text.charAt(end) == ']' ? '[' : '(');
                if (open >= 0) {
                    unit = text.substring(open + 1, end).strip();
                    text = text.substring(0, open).strip();
                }
            }
            titles[c] = text;
            units[c] = unit;
            if (text.isEmpty()) {
                report("NO_NAME", line, "column " + (c + 1) + " has no name", "name [unit]");
            } else if (isNumber(text)) {
                report(
                        "NO_HEADER",
                        line,
                        "the first line must name the columns, here stands the number " + text,
                        "for instance: time [s], speed [rpm]");
            }
            if (unit.isEmpty()) {
                return;
            }
            if (unit.equals("1") || unit.equals("-")) {
                dimensions[c] = Dimension.NUMBER;
                factor[c] = 1;
                return;
            }
            try {
                // Every unit is a straight line: two points tell it, and a million cells need no parser of units.
                Units.Quantity zero = Units.parseAny("0 " + unit, surroundings);
                Units.Quantity one = Units.parseAny("1 " + unit, surroundings);
                dimensions[c] = one.dimension();
                offset[c] = zero.si();
                factor[c] = one.si() - zero.si();
            } catch (UnitException e) {
                report(
                        e.key().name(),
                        line,
                        "column \"" + text + "\": " + e.getMessage(),
                        e.suggestion().isEmpty() ? "for instance [MPa], [K], [g/s], [rpm]" : e.suggestion());
            }
        }

        private void row(String text, int line) {
            List<String> cells = split(text, separator);
            int n = titles.length;
            while (cells.size() > n && cells.get(cells.size() - 1).isBlank()) {
                cells.remove(cells.size() - 1);
            }
            if (cells.size() != n) {
                report(
                        "COLUMNS",
                        line,
                        "here are " + cells.size() + " cells, the header names " + n + " columns",
                        cells.size() > n && separator == ','
                                ? "a decimal comma? write 0.5, not 0,5"
                                : "an empty cell still needs its separator");
                return;
            }
            if (rows == lines.length) {
                int longer = rows * 2;
                lines = Arrays.copyOf(lines, longer);
                for (int c = 0; c < n; c++) {
                    values[c] = Arrays.copyOf(values[c], longer);
                }
            }
            for (int c = 0; c < n; c++) {
                values[c][rows] = cell(c, cells.get(c).strip(), line);
            }
            lines[rows] = line;
            rows++;
        }

        private double cell(int c, String cell, int line) {
            if (dimensions[c] == null) {
                List<String> column = words.get(c);
                String before = column.isEmpty() ? "" : column.get(column.size() - 1);
                if (cell.equals(before)) {
                    column.add(before); // the same text again costs nothing
                } else {
                    column.add(cell);
                    kept++;
                    letters += cell.length();
                }
                return isNumber(cell) ? Double.parseDouble(cell) : Double.NaN;
            }
            if (cell.isEmpty()) {
                return Double.NaN;
            }
            if (!isNumber(cell)) {
                boolean comma = cell.matches("[-+]?\\d+(\\.\\d{3})*,\\d+([eE][-+]?\\d+)?");
                boolean unit = cell.matches("[-+]?[\\d.]+([eE][-+]?\\d+)?\\s*[^\\d\\s].*");
                report(
                        comma ? "DECIMAL_COMMA" : unit ? "UNIT_IN_CELL" : "NOT_A_NUMBER",
                        line,
                        "column \"" + titles[c] + "\": \"" + shorten(cell) + "\" is no number",
                        comma
                                ? "a decimal comma? write a point"
                                : unit ? "the unit of a column stands in its header alone" : "");
                return Double.NaN;
            }
            double x = Double.parseDouble(cell);
            double si = offset[c] + factor[c] * x;
            if (Double.isInfinite(si)) {
                report("OUT_OF_RANGE", line, "column \"" + titles[c] + "\": " + shorten(cell) + " is too large", "");
            } else if ((dimensions[c] == Dimension.PRESSURE || dimensions[c] == Dimension.TEMPERATURE) && !(si > 0)) {
                report(
                        "OUT_OF_RANGE",
                        line,
                        "column \"" + titles[c] + "\": " + shorten(cell) + " " + units[c]
                                + " is not above absolute zero",
                        dimensions[c] == Dimension.PRESSURE ? "pressures are absolute unless the unit says gauge" : "");
            }
            return si;
        }

        private static String shorten(String cell) {
            String plain = HiddenMarks.blanked(cell);
            return plain.length() > 40 ? plain.substring(0, 40) + " ..." : plain;
        }

        /** Digits, a point, an exponent: what a measuring system writes; no NaN, no hexadecimal, no grouping. */
        private static boolean isNumber(String s) {
            int n = s.length();
            int i = 0;
            if (i < n && (s.charAt(i) == '-' || s.charAt(i) == '+')) {
                i++;
            }
            int digits = 0;
            while (i < n && s.charAt(i) >= '0' && s.charAt(i) <= '9') {
                i++;
                digits++;
            }
            if (i < n && s.charAt(i) == '.') {
                i++;
                while (i < n && s.charAt(i) >= '0' && s.charAt(i) <= '9') {
                    i++;
                    digits++;
                }
            }
            if (digits == 0) {
                return false;
            }
            if (i < n && (s.charAt(i) == 'e' || s.charAt(i) == 'E')) {
                i++;
                if (i < n && (s.charAt(i) == '-' || s.charAt(i) == '+')) {
                    i++;
                }
                int exponent = i;
                while (i < n && s.charAt(i) >= '0' && s.charAt(i) <= '9') {
                    i++;
                }
                if (i == exponent) {
                    return false;
                }
            }
            return i == n;
        }

        private static List<String> split(String line, char separator) {
            List<String> out = new ArrayList<>();
            if (line.indexOf('"') < 0) {
                int from = 0;
                for (int at = line.indexOf(separator); at >= 0; at = line.indexOf(separator, from)) {
                    out.add(line.substring(from, at));
                    from = at + 1;
                }
                out.add(line.substring(from));
                return out;
            }
            StringBuilder cell = new StringBuilder();
            boolean quoted = false;
            for (int i = 0; i < line.length(); i++) {
                char ch = line.charAt(i);
                if (quoted) {
                    if (ch == '"' && i + 1 < line.length() && line.charAt(i + 1) == '"') {
                        cell.append('"');
                        i++;
                    } else if (ch == '"') {
                        quoted = false;
                    } else {
                        cell.append(ch);
                    }
                } else if (ch == '"') {
                    quoted = true;
                } else if (ch == separator) {
                    out.add(cell.toString());
                    cell.setLength(0);
                } else {
                    cell.append(ch);
                }
            }
            out.add(cell.toString());
            return out;
        }
    }
}
