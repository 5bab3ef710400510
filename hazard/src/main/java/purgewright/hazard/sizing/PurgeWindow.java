package purgewright.hazard.sizing;

import java.util.List;
import java.util.Map;

/**
 * A sweep over two parameters: where every criterion is met, the boundary of each criterion as its own line, lines of equal purge flow.
 *
 * @param x pointer of the first parameter
 * @param y pointer of the second
 * @param xs values of the survey grid, SI, ascending
 * @param ys values of the survey grid, SI, ascending
 * @param criteria keys, sorted
 * @param margins on the survey grid by criterion, then y, then x; NaN where it was not solved or has no number
 * @param feasible by y, then x: every criterion met
 * @param purge flow by y, then x, kg/s
 * @param governing criterion by y, then x
 * @param operatingX of the case as stated, SI
 * @param operatingY of the case as stated, SI
 * @param samples every point looked at: the grid first, row by row, then those along the boundaries
 * @param boundaries one a criterion that changes between met and not met
 * @param contours of purge flow, kg/s
 * @param region convex pieces that together are where every criterion is met; corners x, y, SI
 * @param bandX range of x within the regulator's accuracy and droop; equal ends when there is none
 * @param bandY likewise
 * @param resolution boundaries are found to this share of each side; 0 when only the grid was looked at
 * @param complete false when it was cancelled: the samples so far
 */
public record PurgeWindow(
        String x,
        String y,
        List<Double> xs,
        List<Double> ys,
        List<String> criteria,
        List<double[][]> margins,
        boolean[][] feasible,
        double[][] purge,
        String[][] governing,
        double operatingX,
        double operatingY,
        List<Sample> samples,
        List<Line> boundaries,
        List<Line> contours,
        List<double[][]> region,
        Band bandX,
        Band bandY,
        double resolution,
        boolean complete) {

    /**
     * True when a criterion has a margin where it is met. One that is met or not, or speaks up only where it is not, has none there; away
     * from where it bounds the window its line is known to a step of the survey alone.
     */
    public boolean numbered(String criterion) {
        return samples.stream().anyMatch(s -> s.margins().getOrDefault(criterion, Double.NaN) >= 0);
    }

    /**
     * One point.
     *
     * @param x SI
     * @param y SI
     * @param feasible every criterion met
     * @param purge kg/s
     * @param governing criterion
     * @param margins by criterion key
     * @param unmet keys that are met or not, and are not here
     */
    public record Sample(
            double x,
            double y,
            boolean feasible,
            double purge,
            String governing,
            Map<String, Double> margins,
            List<String> unmet) {}

    /**
     * A line on the map.
     *
     * @param name criterion key, or "flow"
     * @param level margin 0, or the flow, kg/s
     * @param paths each a run of x, y, SI
     */
    public record Line(String name, double level, List<double[][]> paths) {}

    /**
     * A range of one parameter.
     *
     * @param low SI
     * @param high SI
     */
    public record Band(double low, double high) {
        /** True when it is one. */
        public boolean wide() {
            return high > low;
        }
    }
}
