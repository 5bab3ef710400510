package purgewright.sealflow.network;

import java.util.Map;
import purgewright.sealflow.passage.Conditions.Bound;

/**
 * How a steady network is solved. Immutable.
 *
 * @param maximumIterations Newton iterations of one way of the search
 * @param massTolerance a mass balance counts as closed when its residual is below this share of the largest flow
 * @param localTolerance and also below this share of the flow through the cavity itself
 * @param stirring beta in D_eff = D + beta U c for passages that state none
 * @param swirlRatio core swirl of a cavity that has a disc and states none
 * @param swirlFromThroughflow true to take a swirl that is not stated from the through-flow instead
 * @param bound end of each passage model's band, for passages not named in {@code bounds}
 * @param bounds end of the band by passage name
 * @param fallbacks false to stop after Newton, for tests of the ways
 */
public record SolverSettings(
        int maximumIterations,
        double massTolerance,
        double localTolerance,
        double stirring,
        double swirlRatio,
        boolean swirlFromThroughflow,
        Bound bound,
        Map<String, Bound> bounds,
        boolean fallbacks) {

    /**
     * 60 iterations: a network that Newton can solve takes 4 to 12, one that needs more is better off on the next rung. 2e-10 and
     * 1e-7: five times tighter than the closure that is promised, and well above the rounding of the property equations. Beta
     * 0.02 (invented; band 0 to 0.05) and swirl 0.45 (common practice; band 0.2 to 0.7 between a rotating and a still wall).
     */
    public static final SolverSettings DEFAULT =
            new SolverSettings(60, 2e-10, 1e-7, 0.02, 0.45, false, Bound.NOMINAL, Map.of(), true);

    /** Checks and copies. */
    public SolverSettings {
        if (maximumIterations < 1) {
            throw new IllegalArgumentException("maximumIterations " + maximumIterations + " is below 1");
        }
        if (!(massTolerance > 0) || !(localTolerance > 0)) {
            throw new IllegalArgumentException(
                    "tolerances " + massTolerance + " and " + localTolerance + " must be positive");
        }
        if (!(stirring >= 0) || !(swirlRatio >= 0 && swirlRatio <= 1)) {
            throw new IllegalArgumentException(
                    "stirring " + stirring + " must be at least 0 and swirl ratio " + swirlRatio + " within 0 and 1");
        }
        bounds = Map.copyOf(bounds);
    }

    /** The same with another limit of iterations. */
    public SolverSettings withMaximumIterations(int value) {
        return new SolverSettings(
                value,
                massTolerance,
                localTolerance,
                stirring,
                swirlRatio,
                swirlFromThroughflow,
                bound,
                bounds,
                fallbacks);
    }

    /** The same with another default stirring constant. */
    public SolverSettings withStirring(double value) {
        return new SolverSettings(
                maximumIterations,
                massTolerance,
                localTolerance,
                value,
                swirlRatio,
                swirlFromThroughflow,
                bound,
                bounds,
                fallbacks);
    }

    /** The same with another default swirl ratio. */
    public SolverSettings withSwirlRatio(double value) {
        return new SolverSettings(
                maximumIterations,
                massTolerance,
                localTolerance,
                stirring,
                value,
                swirlFromThroughflow,
                bound,
                bounds,
                fallbacks);
    }

    /** The same with unstated swirl taken from the through-flow, or not. */
    public SolverSettings withSwirlFromThroughflow(boolean value) {
        return new SolverSettings(
                maximumIterations,
                massTolerance,
                localTolerance,
                stirring,
                swirlRatio,
                value,
                bound,
                bounds,
                fallbacks);
    }

    /** The same with other ends of the models' bands. */
    public SolverSettings withBounds(Bound all, Map<String, Bound> byPassage) {
        return new SolverSettings(
                maximumIterations,
                massTolerance,
                localTolerance,
                stirring,
                swirlRatio,
                swirlFromThroughflow,
                all,
                byPassage,
                fallbacks);
    }

    /** The same with or without the ways after Newton. */
    public SolverSettings withFallbacks(boolean value) {
        return new SolverSettings(
                maximumIterations,
                massTolerance,
                localTolerance,
                stirring,
                swirlRatio,
                swirlFromThroughflow,
                bound,
                bounds,
                value);
    }
}
