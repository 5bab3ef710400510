package purgewright.hazard.sizing;

import java.util.List;

/**
 * A sweep over two parameters: margin of every criterion on a grid, so that each criterion's boundary is its own line of margin 0.
 *
 * @param x pointer of the first parameter
 * @param y pointer of the second
 * @param xs values, SI, ascending
 * @param ys values, SI, ascending
 * @param criteria keys, sorted
 * @param margins by criterion, then y, then x; NaN where it was not solved or has no number
 * @param feasible by y, then x: every criterion met
 * @param purge flow by y, then x, kg/s
 * @param governing criterion by y, then x
 * @param operatingX of the case as stated, SI
 * @param operatingY of the case as stated, SI
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
        double operatingY) {}
