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
        text.append("x_SI,y_SI,feasible,flow_kg_s,governing");
        for (String key : map.criteria()) {
            text.append(",margin_").append(key.replace('-', '_'));
        }
        text.append('\n');
        for (int j = 0; j < map.ys().size(); j++) {
            for (int i = 0; i < map.xs().size(); i++) {
                text.append(number(map.xs().get(i)))
                        .append(',')
                        .append(number(map.ys().get(j)));
                text.append(',').append(map.feasible()[j][i]);
                text.append(',').append(number(map.purge()[j][i]));
                text.append(',').append(map.governing()[j][i]);
                for (double[][] margin : map.margins()) {
                    text.append(',').append(number(margin[j][i]));
                }
                text.append('\n');
            }
        }
        return text.toString();
    }

    /** A name may hold a line feed; the heading must not end there. */
    private static String oneLine(String words) {
        return words.replaceAll("\\p{Cntrl}+", " ");
    }

    private static String number(double value) {
        return Double.isFinite(value) ? String.format(Locale.ROOT, "%.9g", value) : "";
    }
}
