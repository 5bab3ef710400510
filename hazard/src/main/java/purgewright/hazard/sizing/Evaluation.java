package purgewright.hazard.sizing;

import java.util.Map;

/**
 * What a design gives, over all phases and scenarios looked at.
 *
 * @param feasible every criterion is met with the margin wanted, and everything was solved and established
 * @param margins least margin by criterion key; NaN where it has no number
 * @param purge greatest purge flow, kg/s; NaN when nothing was solved
 * @param governing criterion with the least margin, or what stood in the way
 * @param where place of it
 * @param phase of it
 * @param scenario of it
 * @param what the finding's sentence
 */
public record Evaluation(
        boolean feasible,
        Map<String, Double> margins,
        double purge,
        String governing,
        String where,
        String phase,
        String scenario,
        String what) {

    /** Evaluates a design. */
    @FunctionalInterface
    public interface Evaluator {
        /** At these values of the free parameters, SI, in their order. */
        Evaluation at(double... values);
    }
}
