package purgewright.hazard.studies;

import java.util.Map;
import purgewright.hazard.finding.Verdict;

/**
 * One point looked at.
 *
 * @param index in the plan
 * @param inputs SI
 * @param verdict over all phases
 * @param outputs SI; NaN where there is none
 * @param criteria those not met, by key: FALSE missed, TRUE not known; a criterion that is not named was met
 * @param judged false when at least one phase has no solution, so that of criteria not named nothing is known
 * @param margin least margin over all criteria that have a number; NaN where there is none
 * @param governing its criterion
 */
public record Sample(
        long index,
        double[] inputs,
        Verdict verdict,
        double[] outputs,
        Map<String, Boolean> criteria,
        boolean judged,
        double margin,
        String governing) {}
