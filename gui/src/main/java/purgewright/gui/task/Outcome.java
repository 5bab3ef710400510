package purgewright.gui.task;

import java.util.List;
import purgewright.hazard.service.CheckResult;
import purgewright.sealflow.casefile.CaseDocument;
import purgewright.sealflow.casefile.CaseProblem;

/** What came of one run of the solve lane. */
public sealed interface Outcome {
    /** The case that was run. */
    CaseDocument document();

    /** How long it took, s. */
    double seconds();

    /** Solved and judged; single phases may still not have converged. */
    record Checked(CaseDocument document, CheckResult result, double seconds) implements Outcome {}

    /** One phase solved and judged without the ends of the models' bands; the whole follows. */
    record Glanced(CaseDocument document, CheckResult result, double seconds) implements Outcome {}

    /** The case cannot be read as one. */
    record Bad(CaseDocument document, List<CaseProblem> problems, double seconds) implements Outcome {}

    /** Something broke; the text is for the status line. */
    record Broken(CaseDocument document, String message, double seconds) implements Outcome {}
}
