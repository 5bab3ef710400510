package purgewright.result;

import purgewright.sealflow.casefile.HiddenMarks;

/**
 * Words of the user's in a table that a spreadsheet may open: a name may hold anything and must not be computed. One place for every CSV that
 * is written.
 *
 * <p>A cell that begins with one of {@code = + - @}, wide forms included, and is no number gets an apostrophe before it, which spreadsheets show as text. The same
 * within a cell behind what parts cells in another language ({@code ;}, {@code |}): there the quotes of RFC 4180 do not help.
 */
public final class CsvText {
    private static final String NUMBER = "[+-]?\\d+(\\.\\d+)?([eE][+-]?\\d+)?( %)?";

    /** What a spreadsheet takes for the beginning of a formula; the wide forms too, which some take for the narrow ones. Minus last: a class of characters. */
    private static final String STARTS = "=+@\uff1d\uff0b\uff0d\uff20-";

    private CsvText() {}

    /** A cell on one line: control characters become a space; quoted where it must be. Numbers stay numbers. */
    public static String cell(String words) {
        String line = HiddenMarks.blanked(words).strip();
        boolean number = line.matches(NUMBER);
        String safe = number ? line : behind(line, ";|");
        if (!number && !safe.isEmpty() && STARTS.indexOf(safe.charAt(0)) >= 0) {
            safe = "'" + safe;
        }
        return safe.matches("[^\",;|]*") ? safe : '"' + safe.replace("\"", "\"\"") + '"';
    }

    /** Words of a heading line, behind a {@code #}: they stand unquoted, so that a comma parts cells too. */
    public static String line(String words) {
        return behind(HiddenMarks.blanked(words).strip(), ",;|");
    }

    private static String behind(String words, String separators) {
        return words.replaceAll("([" + separators + "][\\s\"]*)([" + STARTS + "])", "$1'$2");
    }
}
