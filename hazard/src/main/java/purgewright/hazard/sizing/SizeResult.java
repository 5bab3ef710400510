package purgewright.hazard.sizing;

import java.util.List;
import purgewright.hazard.finding.Verdict;

/**
 * What {@code size} knows.
 *
 * @param verdict holds when feasible, falls short when not
 * @param line in words
 * @param parameter pointer of what was varied
 * @param least the least value and what governs it
 * @param stated value in the case, SI
 * @param statedPurge purge flow as stated, kg/s
 * @param redlines for the design found; for the case as stated when infeasible
 * @param wear limits for the design found; empty when not asked for
 * @param conflicts when infeasible: criteria that fall short at every point looked at, or at one end each
 * @param cautions always shown
 */
public record SizeResult(
        Verdict verdict,
        String line,
        String parameter,
        LeastPurge.Result least,
        double stated,
        double statedPurge,
        List<Redline> redlines,
        List<WearLimit> wear,
        List<String> conflicts,
        List<String> cautions) {}
