package purgewright.result;

import java.util.Locale;
import purgewright.hazard.sizing.PurgeWindow;

/** {@code map -o}: the grid as CSV, one line a point, SI; what is not known is an empty cell. Lines of the heading begin with #. */
public final class MapCsv {
    private MapCsv() {}

    /**
     * The whole file.
     *
     * @param hash of the case
     * @param version of this program
     */
    public static String write(PurgeWindow map, String hash, String version, String engine) {
        StringBuilder text = new StringBuilder();
        text.append("# purgewright map, version ").append(version).append('\n');
        text.append("# case ").append(hash).append('\n');
        text.append("# properties ").append(engine).append('\n');
        text.append("# x ").append(oneLine(map.x())).append(", SI; as stated ").append(number(map.operatingX()));
        text.append("\n# y ")
                .append(oneLine(map.y()))
                .append(", SI; as stated ")
                .append(number(map.operatingY()));
        text.append("\n# margin_*: relative margin of each criterion, the least over all phases and places\n");
        text.append("# the survey grid first, row by row, then the points along the boundaries");
        text.append(map.complete() ? "" : "; cancelled before it was complete").append('\n');
        text.append("x_SI,y_SI,feasible,flow_kg_s,governing");
        for (String key : map.criteria()) {
            text.append(",margin_").append(key.replace('-', '_'));
        }
        text.append(",unmet\n");
        for (PurgeWindow.Sample s : map.samples()) {
            text.append(number(s.x())).append(',').append(number(s.y()));
            text.append(',').append(s.feasible());
            text.append(',').append(number(s.purge()));
            text.append(',').append(s.governing());
            for (String key : map.criteria()) {
                text.append(',').append(number(s.margins().getOrDefault(key, Double.NaN)));
            }
            text.append(',').append(String.join(" ", s.unmet())).append('\n');
        }
        return text.toString();
    }

    /**
     * A name may hold anything. Control characters, and what parts cells in one locale or another, are written as {@code \\u} and four
     * digits, so that a name can neither end the heading nor begin a cell with a formula.
     */
    private static String oneLine(String words) {
        StringBuilder out = new StringBuilder();
        for (char c : words.toCharArray()) {
            boolean parts = c < ' ' || c == 127 || c == ',' || c == ';' || c == '"' || c == '|';
            out.append(parts ? String.format(Locale.ROOT, "\\u%04x", (int) c) : String.valueOf(c));
        }
        return out.toString();
    }

    private static String number(double value) {
        return Double.isFinite(value) ? String.format(Locale.ROOT, "%.9g", value) : "";
    }
}
