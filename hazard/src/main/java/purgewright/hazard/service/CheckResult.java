package purgewright.hazard.service;

import java.util.List;
import java.util.Map;
import java.util.Optional;
import purgewright.hazard.criteria.CountRules;
import purgewright.hazard.finding.Finding;
import purgewright.hazard.finding.Verdict;
import purgewright.hazard.sizing.BarrierPrice;
import purgewright.sealflow.casefile.CaseDocument;
import purgewright.sealflow.model.Case;
import purgewright.sealflow.network.SolveResult;

/**
 * Everything {@code check} knows: what command, window and report show.
 *
 * @param document the case as typed
 * @param model the case in SI, before phases
 * @param engine property engine's name
 * @param verdict of the whole, by precedence
 * @param verdictLine in words; names every kind of verdict that occurs, and says when faults were not examined
 * @param phases in the order of the duty
 * @param purge flow of purge gas, windage and drag
 * @param price what the barrier costs, one for each phase that was solved
 * @param findings of all phases, worst first
 * @param cautions always shown
 */
public record CheckResult(
        CaseDocument document,
        Case model,
        String engine,
        Verdict verdict,
        String verdictLine,
        List<PhaseResult> phases,
        PurgeSummary purge,
        List<BarrierPrice> price,
        List<Finding> findings,
        List<String> cautions) {

    /**
     * What a reader must know first: the worst finding, or when everything holds the one nearest to its limit. A trace of exactly
     * nothing, a flow that only must not turn, and a count that is just met stand at a fixed margin however near the edge is; they
     * govern only when nothing else was judged. Empty when nothing was.
     */
    public Optional<Finding> governing() {
        if (!findings.isEmpty() && findings.get(0).verdict() != Verdict.HOLDS) {
            return Optional.of(findings.get(0));
        }
        Optional<Finding> near =
                findings.stream().filter(CheckResult::tellsNearness).findFirst();
        return near.isPresent() ? near : findings.stream().findFirst();
    }

    /** Whether the margin of a finding that holds says how near its limit is. */
    public static boolean tellsNearness(Finding f) {
        return Double.isFinite(f.margin())
                && f.value() != 0
                && f.limit() != 0
                && !FaultSweep.key(f).equals(CountRules.COUNT);
    }

    /**
     * One phase, solved and judged.
     *
     * @param opened the same with all open barrier seals worn, from which a later check may start; null where none was needed
     */
    public record PhaseResult(String name, Case model, SolveResult solve, SolveResult opened, List<Finding> findings) {}

    /**
     * @param flow greatest purge flow over the phases, kg/s, into all barrier cavities
     * @param flowByPhase kg/s
     * @param gas name of the purge stream(s)
     * @param governingPhase where {@code flow} occurs
     * @param windage W by cavity, in the governing phase
     * @param sealPower W by passage, in the governing phase
     */
    public record PurgeSummary(
            double flow,
            Map<String, Double> flowByPhase,
            String gas,
            String governingPhase,
            Map<String, Double> windage,
            Map<String, Double> sealPower) {}
}
