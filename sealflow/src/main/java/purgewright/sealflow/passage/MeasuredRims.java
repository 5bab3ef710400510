package purgewright.sealflow.passage;

import java.util.List;
import org.apache.commons.csv.CSVRecord;

/**
 * Measured effectiveness of a rim seal at a share of its measured least flow: a test of the curve's form, for the rig's own least flow is
 * used and the gap's geometry is not known.
 */
final class MeasuredRims {
    static final String SOURCE =
            "Choi et al. (2024), doi:10.1115/1.4064230, Table 4 and Fig. 9, as a public repository gives them (transcription)";

    private MeasuredRims() {}

    /**
     * One test.
     *
     * @param flow over the least flow
     * @param effectiveness measured
     */
    record Point(String configuration, double flow, double effectiveness) {
        double ours(RimSealing.Shape shape) {
            return RimSealing.effectivenessExternal(shape, flow);
        }
    }

    static List<Point> points() {
        return MeasuredData.rows("rim-seal-2024.csv").stream()
                .map(MeasuredRims::point)
                .toList();
    }

    private static Point point(CSVRecord row) {
        return new Point(
                row.get("configuration"),
                MeasuredData.number(row, "sealing_flow") / MeasuredData.number(row, "least_flow"),
                MeasuredData.number(row, "effectiveness"));
    }
}
