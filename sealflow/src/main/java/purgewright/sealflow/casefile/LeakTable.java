package purgewright.sealflow.casefile;

import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.CharacterCodingException;
import java.nio.file.Files;
import java.nio.file.InvalidPathException;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.apache.commons.csv.CSVFormat;
import org.apache.commons.csv.CSVParser;
import org.apache.commons.csv.CSVRecord;

/**
 * A leak test in a CSV file beside the case: comment lines that name the test fluid, columns that name their unit.
 *
 * <pre>{@code
 * # test gas: helium
 * # test temperature: 20 degC
 * upstream [MPa],downstream [MPa],flow [g/s]
 * 0.4,0.1,1.2
 * }</pre>
 *
 * <p>The file lies in the case's folder or below; a path that leads out of it, by dots or by a link, is refused.
 *
 * @param rows as the field {@code table} holds them
 * @param header what the comment lines say, by field name
 */
record LeakTable(String rows, Map<String, String> header) {
    private static final int LARGEST = 1024 * 1024;
    private static final List<String> COLUMNS = List.of("upstream", "downstream", "flow");
    private static final List<String> KNOWN = List.of("test gas", "test temperature", "law");
    private static final Pattern NUMBER = Pattern.compile("[-+]?(\\d+\\.?\\d*|\\.\\d+)([eE][-+]?\\d+)?");

    /** A unit has none of the signs that part rows and values where the table goes into the case. */
    private static final Pattern COLUMN = Pattern.compile("\\s*([a-z]+)\\s*\\[([^\\]>;:]+)\\]\\s*");

    /** Why a table cannot be had. */
    static final class Refused extends Exception {
        private static final long serialVersionUID = 1L;
        final String suggestion;

        Refused(String message, String suggestion) {
            super(message);
            this.suggestion = suggestion;
        }
    }

    /** True for what names a file and is no table itself. */
    static boolean names(Object table) {
        return table instanceof String text
                && text.indexOf('>') < 0
                && text.strip().toLowerCase(Locale.ROOT).endsWith(".csv");
    }

    /**
     * @param folder of the case file; null for a case that is in no folder
     * @param name as typed
     */
    static LeakTable read(Path folder, String name) throws Refused {
        String text = text(folder, name);
        Map<String, String> header = new LinkedHashMap<>();
        for (String line : text.split("\\R")) {
            int colon = line.indexOf(':');
            if (line.startsWith("#") && colon > 0) {
                String key = line.substring(1, colon).strip().toLowerCase(Locale.ROOT);
                if (KNOWN.contains(key)) {
                    header.put(key, line.substring(colon + 1).strip());
                }
            }
        }
        if (!header.containsKey("test gas")) {
            throw new Refused(
                    name + " does not say its test gas", "begin it with a line such as '# test gas: nitrogen'");
        }
        return new LeakTable(rows(name, text), Map.copyOf(header));
    }

    private static String text(Path folder, String name) throws Refused {
        if (folder == null) {
            throw new Refused(
                    "the table " + name + " is looked for beside the case file, and this case is in no folder",
                    "save the case first, or type the rows");
        }
        Path file;
        try {
            Path home = folder.toRealPath();
            file = home.resolve(name.strip()).normalize();
            if (!file.startsWith(home)) {
                throw outside(name);
            }
            file = file.toRealPath();
            if (!file.startsWith(home)) {
                throw outside(name);
            }
        } catch (InvalidPathException bad) {
            throw new Refused(name + " is no file name", "name a CSV file beside the case");
        } catch (NoSuchFileException missing) {
            throw new Refused("there is no file " + name + " beside the case", "look at the folder and the spelling");
        } catch (IOException broken) {
            throw new Refused(name + " cannot be read", "");
        }
        if (!Files.isRegularFile(file)) {
            throw new Refused(name + " is no file", "name a CSV file beside the case");
        }
        try (InputStream in = Files.newInputStream(file)) {
            byte[] bytes = in.readNBytes(LARGEST + 1);
            if (bytes.length > LARGEST) {
                throw new Refused(name + " is larger than 1 MB", "a leak test has some tens of rows");
            }
            return Utf8.decode(bytes);
        } catch (CharacterCodingException notUtf8) {
            throw new Refused(name + " is no UTF-8 text", "save the file as UTF-8");
        } catch (IOException broken) {
            throw new Refused(name + " cannot be read", "");
        }
    }

    private static Refused outside(String name) {
        return new Refused(name + " lies outside the case's folder", "copy it beside the case");
    }

    private static String rows(String name, String text) throws Refused {
        CSVFormat format = CSVFormat.DEFAULT
                .builder()
                .setCommentMarker('#')
                .setIgnoreEmptyLines(true)
                .setTrim(true)
                .get();
        StringBuilder rows = new StringBuilder();
        int[] at = null;
        String[] unit = new String[COLUMNS.size()];
        try (CSVParser parser = CSVParser.parse(text, format)) {
            for (CSVRecord row : parser) {
                if (at == null) {
                    at = columns(name, row, unit);
                    continue;
                }
                if (rows.length() > 0) {
                    rows.append("; ");
                }
                rows.append(cell(name, parser, row, at[0]))
                        .append(' ')
                        .append(unit[0])
                        .append(" > ")
                        .append(cell(name, parser, row, at[1]))
                        .append(' ')
                        .append(unit[1])
                        .append(": ")
                        .append(cell(name, parser, row, at[2]))
                        .append(' ')
                        .append(unit[2]);
            }
        } catch (IOException | IllegalStateException | java.io.UncheckedIOException broken) {
            throw new Refused(name + " is no CSV file: " + broken.getMessage(), "");
        }
        if (rows.length() == 0) {
            throw new Refused(name + " has no rows", "columns: upstream [MPa],downstream [MPa],flow [g/s]");
        }
        return rows.toString();
    }

    private static int[] columns(String name, CSVRecord row, String[] unit) throws Refused {
        int[] at = {-1, -1, -1};
        for (int i = 0; i < row.size(); i++) {
            Matcher m = COLUMN.matcher(row.get(i).toLowerCase(Locale.ROOT));
            int known = m.matches() ? COLUMNS.indexOf(m.group(1)) : -1;
            if (known >= 0) {
                at[known] = i;
                String typed = row.get(i);
                unit[known] = typed.substring(typed.indexOf('[') + 1, typed.indexOf(']'))
                        .strip();
            }
        }
        for (int k = 0; k < at.length; k++) {
            if (at[k] < 0) {
                throw new Refused(
                        name + " has no column '" + COLUMNS.get(k) + " [unit]'",
                        "columns: upstream [MPa],downstream [MPa],flow [g/s]");
            }
        }
        return at;
    }

    private static String cell(String name, CSVParser parser, CSVRecord row, int column) throws Refused {
        String text = column < row.size() ? row.get(column) : "";
        // Digits and an exponent only: Java's own reader would take "1f", "0x1p3" and "NaN" as well.
        if (NUMBER.matcher(text).matches() && Double.isFinite(Double.parseDouble(text))) {
            return text;
        }
        throw new Refused(
                String.format(Locale.ROOT, "%s, line %d: '%s' is no number", name, parser.getCurrentLineNumber(), text),
                "write numbers with a point; the unit stands in the column's name");
    }
}
