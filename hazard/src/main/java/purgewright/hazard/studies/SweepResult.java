package purgewright.hazard.studies;

import java.util.List;
import purgewright.hazard.finding.Verdict;

/**
 * A sweep over one or two numbers of the case.
 *
 * @param identity which case, by which engine
 * @param axes one or two
 * @param outputs places of the quantities followed
 * @param units SI, of each output
 * @param points the first axis moves fastest
 * @param cautions always shown
 */
public record SweepResult(
        SpreadResult.Identity identity,
        List<Axis> axes,
        List<String> outputs,
        List<String> units,
        List<Point> points,
        List<String> cautions) {

    /**
     * @param place JSON Pointer
     * @param unit SI
     * @param nominal value in the case, SI
     * @param values SI, ascending
     */
    public record Axis(String place, String unit, double nominal, List<Double> values) {}

    /**
     * @param at value of each axis
     * @param verdict there
     * @param governing criterion with the least margin
     * @param margin least margin
     * @param outputs NaN where there is none
     */
    public record Point(List<Double> at, Verdict verdict, String governing, double margin, List<Double> outputs) {}
}
