package purgewright.hazard.fault;

import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import purgewright.hazard.finding.Finding;
import purgewright.hazard.finding.Verdict;

/**
 * Everything a fault sweep knows.
 *
 * @param verdict over the case as stated and every credible single fault
 * @param verdictLine in words; names every kind that occurs
 * @param criteria keys of all criteria that occur, sorted: the columns of the matrix
 * @param rows one a scenario, in the order of the faults: singles, common causes, pairs
 * @param ranking names of scenarios that lose something, worst first
 * @param asStated findings with nothing failed, all phases
 * @param cautions always shown
 * @param times how times to loss were found, one sentence
 * @param incomplete empty; else why the sweep ended early, in words: the verdict is then at best "not established"
 * @param notExamined names of the scenarios that a cancelled sweep did not reach
 */
public record FaultResult(
        Verdict verdict,
        String verdictLine,
        List<String> criteria,
        List<Row> rows,
        List<String> ranking,
        List<Finding> asStated,
        List<String> cautions,
        String times,
        String incomplete,
        List<String> notExamined) {

    /** The same, its line telling how many automatic faults the case keeps out: "holds" is then said of the others alone. */
    public FaultResult without(int faults) {
        return faults == 0
                ? this
                : new FaultResult(
                        verdict,
                        verdictLine + "; the case keeps " + faults + " automatic fault" + (faults == 1 ? "" : "s")
                                + " out",
                        criteria,
                        rows,
                        ranking,
                        asStated,
                        cautions,
                        times,
                        incomplete,
                        notExamined);
    }

    /** What the sweep says beyond what a reader has been told already: who sees a fault, and when, rests on it. */
    public List<String> cautionsBeyond(List<String> known) {
        return cautions.stream().filter(c -> !known.contains(c)).toList();
    }

    /** All rows, worst first: what loses something as ranked, then what else does not hold, then what holds. */
    public List<Row> worstFirst() {
        Set<Row> out = new LinkedHashSet<>();
        ranking.forEach(
                name -> rows.stream().filter(r -> r.scenario().equals(name)).forEach(out::add));
        rows.stream().filter(r -> r.verdict() != Verdict.HOLDS).forEach(out::add);
        out.addAll(rows);
        return List.copyOf(out);
    }

    /**
     * One scenario over all phases.
     *
     * @param scenario its name
     * @param kinds sorts of fault, in words
     * @param single one fault, or several of one cause
     * @param credible enters the verdict when single
     * @param verdict of the scenario, detection and time taken into account
     * @param margins least margin by criterion key over all phases; NaN where it was judged without a number
     * @param verdicts worst verdict by criterion key
     * @param lost criteria that fall short here and did not as stated, sorted
     * @param pairsLost reactive pairs without a barrier left, "A | B"
     * @param phase where it is worst
     * @param timeToLoss least time until separation is lost, s; 0 when at once, NaN when nothing is lost
     * @param timeNeeded until it is seen, detection, shutdown and coast-down together, in that phase, s
     * @param seenBy instruments whose reading changes by more than its uncertainty, most significant first
     * @param hidden something is lost and no instrument sees it
     * @param findings that do not hold, worst first, all phases
     * @param losses one for each phase in which separation is lost, in the order of the duty: how fast, and how that was found
     * @param weakestPath cavities along the path with the fewest barriers of the first pair lost; empty when no pair is lost
     * @param notes where a wider seal raises a margin: what the network says to that
     */
    public record Row(
            String scenario,
            String kinds,
            boolean single,
            boolean credible,
            Verdict verdict,
            Map<String, Double> margins,
            Map<String, Verdict> verdicts,
            List<String> lost,
            List<String> pairsLost,
            String phase,
            double timeToLoss,
            double timeNeeded,
            List<String> seenBy,
            boolean hidden,
            List<Finding> findings,
            List<Loss> losses,
            List<String> weakestPath,
            List<String> notes) {
        /** The loss that {@link #timeToLoss} stands for: the fastest; null when nothing is lost. */
        public Loss fastest() {
            return Loss.fastest(losses);
        }
    }
}
