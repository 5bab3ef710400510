package purgewright.sealflow.passage;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStream;
import java.io.InputStreamReader;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import org.apache.commons.csv.CSVFormat;
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

    private static final String RESOURCE = "/purgewright/sealflow/measured/annuli-water-1984.csv";

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
        List<Point> points = new ArrayList<>();
        CSVFormat format = CSVFormat.DEFAULT
                .builder()
                .setCommentMarker('#')
                .setHeader()
                .setSkipHeaderRecord(true)
                .get();
        try (InputStream stream = MeasuredAnnuli.class.getResourceAsStream(RESOURCE);
                BufferedReader reader = new BufferedReader(new InputStreamReader(stream, StandardCharsets.UTF_8))) {
            for (CSVRecord row : format.parse(reader)) {
                points.add(point(row));
            }
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
        return points;
    }

    private static Point point(CSVRecord row) {
        PerfectLiquid water = new PerfectLiquid(number(row, "density_kg_m3"), number(row, "viscosity_Pa_s"));
        Passage seal = PassageTypes.find("bushing")
                .orElseThrow()
                .build(
                        PassageChecks.spec(
                                "bushing",
                                number(row, "radius_m"),
                                number(row, "clearance_m"),
                                Map.of("length", number(row, "length_m"))),
                        new Conditions(number(row, "speed_rpm") * Math.PI / 30, Double.NaN, Conditions.Bound.NOMINAL));
        double flow = seal.flow(water.at(number(row, "upstream_Pa")), water.at(number(row, "downstream_Pa")))
                        .massFlow()
                / water.density();
        return new Point(row.get("seal"), 1e-6 * number(row, "flow_cm3_s"), flow);
    }

    private static double number(CSVRecord row, String column) {
        return Double.parseDouble(row.get(column));
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
