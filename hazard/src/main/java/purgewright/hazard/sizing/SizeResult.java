package purgewright.hazard.sizing;

import java.util.List;
import purgewright.hazard.finding.Verdict;

/**
 * What {@code size} knows.
 *
 * @param verdict holds or thin when the full check of the case confirms the design, thin when some margin over all phases and scenarios
 *     is below a quarter; falls short when infeasible; not established when the search was cancelled or the check disagrees
 * @param line in words
 * @param feasible a design was found that meets every criterion with the margin wanted
 * @param complete false when it was cancelled before everything was looked at; a design that was not checked again says so
 * @param objective what was to be least
 * @param value of the objective at the design, SI
 * @param statedValue of the objective as stated, SI
 * @param design one for each free value
 * @param at evaluation of the design over all phases and scenarios
 * @param below just outside, where a criterion is lost: it names what governs; null when the bounds alone stop the search
 * @param monotone with one free value: feasible values are all on one side
 * @param slack one a criterion, smallest first
 * @param confirmation verdict line of the full check of the case with the design in it
 * @param conflicts when infeasible: what stands in the way, and which way each wants the free values moved
 * @param releases when infeasible: single changes of the case or of a bound, each of which would do
 * @param price of the barrier at the design, one a phase
 * @param redlines for the design; for the case as stated when infeasible
 * @param interlocks for the test procedure
 * @param wear limits for the design; empty when not asked for
 * @param statedPurge purge flow as stated, kg/s
 * @param evaluations designs looked at
 * @param cautions always shown
 */
public record SizeResult(
        Verdict verdict,
        String line,
        boolean feasible,
        boolean complete,
        Objective objective,
        double value,
        double statedValue,
        List<Chosen> design,
        Evaluation at,
        Evaluation below,
        boolean monotone,
        List<Slack> slack,
        String confirmation,
        List<String> conflicts,
        List<Release> releases,
        List<BarrierPrice> price,
        List<Redline> redlines,
        Interlocks interlocks,
        List<WearLimit> wear,
        double statedPurge,
        int evaluations,
        List<String> cautions) {

    /**
     * One free value.
     *
     * @param variable its place, bounds and choices
     * @param value chosen, SI
     * @param stated in the case, SI
     */
    public record Chosen(Variable variable, double value, double stated) {
        /** Whether a bound stopped it. */
        public boolean atBound() {
            double span = variable.upper() - variable.lower();
            return value <= variable.lower() + 1e-6 * span || value >= variable.upper() - 1e-6 * span;
        }
    }

    /**
     * How much of a criterion is left at the design.
     *
     * @param criterion key
     * @param margin least over places, phases and scenarios
     * @param where place of it
     * @param phase of it
     * @param scenario of it
     * @param price what one more unit of its margin costs, in the objective's unit, first order; 0 when it does not govern, NaN when the
     *     free values cannot give it
     */
    public record Slack(String criterion, double margin, String where, String phase, String scenario, double price) {}

    /**
     * A single change that makes the sizing feasible, or one phase of it.
     *
     * @param place JSON Pointer of what changes
     * @param bound true when it is a bound of the search, false when it is a number of the case
     * @param stated SI
     * @param needed SI, on the safe side of the least that does
     * @param phase that nothing free reaches, which it releases and loses no other; empty when it releases all that something free reaches
     * @param criterion key of the only one it releases there, where no single change releases all; empty for all
     */
    public record Release(String place, boolean bound, double stated, double needed, String phase, String criterion) {}

    /** What governs. */
    public Evaluation governs() {
        return below != null && feasible ? below : at;
    }
}
