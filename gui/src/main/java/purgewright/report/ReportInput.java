package purgewright.report;

import purgewright.hazard.fault.FaultResult;
import purgewright.hazard.service.CheckResult;
import purgewright.hazard.service.Comparison;

/**
 * What goes into a report; everything but the check may be absent.
 *
 * @param check what is reported
 * @param faults the sweep; null when it was not run
 * @param against what changed since an older case; null when there is none to compare with
 */
public record ReportInput(CheckResult check, FaultResult faults, Comparison against) {
    /** The check alone. */
    public static ReportInput of(CheckResult check) {
        return new ReportInput(check, null, null);
    }

    /** The same with a fault sweep. */
    public ReportInput with(FaultResult sweep) {
        return new ReportInput(check, sweep, against);
    }

    /** The same with a comparison. */
    public ReportInput with(Comparison comparison) {
        return new ReportInput(check, faults, comparison);
    }
}
