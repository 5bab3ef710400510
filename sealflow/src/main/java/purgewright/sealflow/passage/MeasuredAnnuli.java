package purgewright.sealflow.passage;

import java.util.List;
import java.util.Map;
import org.apache.commons.csv.CSVRecord;

/**
 * Measured leakage of plain annuli with full geometry, and how far the bushing model is off: mean bias and scatter of ln(ours / measured).
 *
 * <p>The data file names its source and how it was copied; nothing of it is fitted: friction, inlet loss and roughness are the type's
 * defaults.
 */
final class MeasuredAnnuli {
    static final String SOURCE =
            "H. Kanki, T. Kawakami, IMechE (1984) 159-166, as a public repository's validation inputs give it (transcription)";

    private MeasuredAnnuli() {}

    /**
     * One test.
     *
     * @param seal name in the file
     * @param measured m3/s
     * @param ours m3/s
     */
    record Point(String seal, double measured, double ours) {
        double logarithm() {
            return Math.log(ours / measured);
        }
    }

    /** All tests of the file, ours computed. */
    static List<Point> points() {
        return MeasuredData.rows("annuli-water-1984.csv").stream()
                .map(MeasuredAnnuli::point)
                .toList();
    }

    private static Point point(CSVRecord row) {
        PerfectLiquid water = new PerfectLiquid(
                MeasuredData.number(row, "density_kg_m3"), MeasuredData.number(row, "viscosity_Pa_s"));
        Passage seal = PassageTypes.find("bushing")
                .orElseThrow()
                .build(
                        PassageChecks.spec(
                                "bushing",
                                MeasuredData.number(row, "radius_m"),
                                MeasuredData.number(row, "clearance_m"),
                                Map.of("length", MeasuredData.number(row, "length_m"))),
                        new Conditions(
                                MeasuredData.number(row, "speed_rpm") * Math.PI / 30,
                                Double.NaN,
                                Conditions.Bound.NOMINAL));
        double flow = seal.flow(
                                water.at(MeasuredData.number(row, "upstream_Pa")),
                                water.at(MeasuredData.number(row, "downstream_Pa")))
                        .massFlow()
                / water.density();
        return new Point(row.get("seal"), 1e-6 * MeasuredData.number(row, "flow_cm3_s"), flow);
    }

    /** Mean of ln(ours / measured). */
    static double bias() {
        return points().stream().mapToDouble(Point::logarithm).average().orElse(Double.NaN);
    }

    /** Standard deviation of ln(ours / measured) about its mean. */
    static double scatter() {
        double mean = bias();
        List<Point> points = points();
        double sum = 0;
        for (Point point : points) {
            sum += (point.logarithm() - mean) * (point.logarithm() - mean);
        }
        return Math.sqrt(sum / (points.size() - 1));
    }
}
