package purgewright.hazard.sizing;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

/**
 * The smallest value of one parameter that meets all criteria.
 *
 * <p>A grid from the lower to the upper bound (logarithmic) finds the first feasible point and shows whether feasibility is monotone;
 * bisection between it and the point before closes in. Nothing is assumed about the criteria beyond that: where the grid shows a hole
 * the result says so.
 */
public final class LeastPurge {
    private LeastPurge() {}

    /**
     * @param points of the grid, at least 2; bounds included
     * @param tolerance relative, at which bisection stops
     */
    public record Settings(int points, double tolerance) {
        /** 13 points: steps of a fifth over a decade. 1e-4: far below what a regulator or a drill can be set to. */
        public static final Settings DEFAULT = new Settings(13, 1e-4);
    }

    /**
     * The answer.
     *
     * @param feasible false when no point of the grid meets all criteria
     * @param value least feasible value, SI; when infeasible the point that comes closest
     * @param at evaluation there
     * @param below evaluation just below it, which names what governs; null when the lower bound itself is feasible
     * @param monotone feasibility does not come back and go again along the grid
     * @param slack margin of every other criterion at the answer
     * @param price purge flow per unit of the governing margin, kg/s; NaN when it cannot be told
     * @param grid values looked at, and whether each was feasible
     */
    public record Result(
            boolean feasible,
            double value,
            Evaluation at,
            Evaluation below,
            boolean monotone,
            Map<String, Double> slack,
            double price,
            Map<Double, Boolean> grid) {}

    /** Finds the least value in [lower, upper], both above 0. */
    public static Result find(Evaluation.Evaluator evaluator, double lower, double upper, Settings settings) {
        if (!(lower > 0) || !(upper > lower) || settings.points() < 2) {
            throw new IllegalArgumentException("bounds " + lower + " and " + upper
                    + " must be positive and in order, points " + settings.points() + " at least 2");
        }
        List<Double> values = new ArrayList<>();
        List<Evaluation> found = new ArrayList<>();
        Map<Double, Boolean> grid = new LinkedHashMap<>();
        for (int i = 0; i < settings.points(); i++) {
            double v = lower * Math.pow(upper / lower, (double) i / (settings.points() - 1));
            Evaluation e = evaluator.at(v);
            values.add(v);
            found.add(e);
            grid.put(v, e.feasible());
        }
        int first = -1;
        int changes = 0;
        for (int i = 0; i < found.size(); i++) {
            if (found.get(i).feasible() && first < 0) {
                first = i;
            }
            if (i > 0 && found.get(i).feasible() != found.get(i - 1).feasible()) {
                changes++;
            }
        }
        boolean monotone = changes == 0 || (changes == 1 && !found.get(0).feasible());
        if (first < 0) {
            int best = 0;
            for (int i = 1; i < found.size(); i++) {
                if (worst(found.get(i)) > worst(found.get(best))) {
                    best = i;
                }
            }
            Evaluation e = found.get(best);
            return new Result(false, values.get(best), e, null, monotone, others(e), Double.NaN, grid);
        }
        if (first == 0) {
            Evaluation e = found.get(0);
            return new Result(true, values.get(0), e, null, monotone, others(e), Double.NaN, grid);
        }
        double low = values.get(first - 1);
        double high = values.get(first);
        Evaluation below = found.get(first - 1);
        Evaluation at = found.get(first);
        while (high / low - 1 > settings.tolerance()) {
            double middle = Math.sqrt(low * high);
            Evaluation e = evaluator.at(middle);
            if (e.feasible()) {
                high = middle;
                at = e;
            } else {
                low = middle;
                below = e;
            }
        }
        // What governs is what fails just below; at the answer itself every margin is met.
        Map<String, Double> slack = new LinkedHashMap<>(at.margins());
        slack.remove(below.governing());
        double reference = upper == high ? low : Math.min(upper, high * 1.05);
        Evaluation aside = evaluator.at(reference);
        double margin = aside.margins().getOrDefault(below.governing(), Double.NaN)
                - at.margins().getOrDefault(below.governing(), Double.NaN);
        double price = (aside.purge() - at.purge()) / margin;
        return new Result(true, high, at, below, monotone, slack, Double.isInfinite(price) ? Double.NaN : price, grid);
    }

    private static double worst(Evaluation e) {
        double least = Double.POSITIVE_INFINITY;
        for (double m : e.margins().values()) {
            if (!Double.isNaN(m)) {
                least = Math.min(least, m);
            }
        }
        return Double.isInfinite(least) ? Double.NEGATIVE_INFINITY : least;
    }

    private static Map<String, Double> others(Evaluation e) {
        Map<String, Double> slack = new LinkedHashMap<>(e.margins());
        slack.remove(e.governing());
        return slack;
    }
}
