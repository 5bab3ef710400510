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
}
