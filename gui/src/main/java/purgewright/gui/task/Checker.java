package purgewright.gui.task;

import purgewright.hazard.service.CheckResult;
import purgewright.hazard.service.Progress;
import purgewright.sealflow.casefile.CaseDocument;

/** Solves and judges a case; ends early when its thread is interrupted. */
@FunctionalInterface
public interface Checker {
    /**
     * The result; throws {@link purgewright.sealflow.casefile.CaseException} for a case that is none.
     *
     * @param previousOrNull the last result there was, to start from: an edit changes little
     */
    CheckResult check(CaseDocument document, CheckResult previousOrNull, Progress progress);

    /**
     * One phase alone, without the ends of the models' bands: what can be shown a moment after a key, while {@link #check} takes its
     * time. Null where the case has no such phase, or where nothing is gained by it.
     */
    default CheckResult glance(CaseDocument document, CheckResult previous, String phase) {
        return null;
    }
}
