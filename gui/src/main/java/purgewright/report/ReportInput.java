package purgewright.report;

import java.util.List;
import purgewright.hazard.fault.FaultResult;
import purgewright.hazard.service.CheckResult;
import purgewright.hazard.service.Comparison;
import purgewright.hazard.service.PlanResult;
import purgewright.hazard.service.RunResult;
import purgewright.hazard.sizing.Interlocks;
import purgewright.hazard.sizing.PurgeWindow;
import purgewright.hazard.sizing.Redline;
import purgewright.hazard.sizing.WearLimit;
import purgewright.hazard.studies.SpreadResult;

/**
 * What goes into a report; everything but the check may be null, which leaves its section out.
 *
 * @param check what is reported
 * @param faults the sweep
 * @param against what changed since an older case
 * @param redlines with interlocks and how far seals may wear
 * @param window purge window
 * @param run duty through time
 * @param plan campaign
 * @param spread uncertainty
 */
public record ReportInput(
        CheckResult check,
        FaultResult faults,
        Comparison against,
        Redlines redlines,
        Window window,
        RunResult run,
        PlanResult plan,
        SpreadResult spread) {

    /** What a test procedure needs. */
    public record Redlines(List<Redline> redlines, Interlocks interlocks, List<WearLimit> wear) {}

    /**
     * A purge window.
     *
     * @param unitX SI symbol of the lower axis
     * @param unitY SI symbol of the left axis
     */
    public record Window(PurgeWindow map, String unitX, String unitY) {}

    /** The check alone. */
    public static ReportInput of(CheckResult check) {
        return new ReportInput(check, null, null, null, null, null, null, null);
    }

    /** The same with a fault sweep. */
    public ReportInput with(FaultResult value) {
        return new ReportInput(check, value, against, redlines, window, run, plan, spread);
    }

    /** The same with a comparison. */
    public ReportInput with(Comparison value) {
        return new ReportInput(check, faults, value, redlines, window, run, plan, spread);
    }

    /** The same with redlines. */
    public ReportInput with(Redlines value) {
        return new ReportInput(check, faults, against, value, window, run, plan, spread);
    }

    /** The same with a purge window. */
    public ReportInput with(Window value) {
        return new ReportInput(check, faults, against, redlines, value, run, plan, spread);
    }

    /** The same with the duty through time. */
    public ReportInput with(RunResult value) {
        return new ReportInput(check, faults, against, redlines, window, value, plan, spread);
    }

    /** The same with a campaign. */
    public ReportInput with(PlanResult value) {
        return new ReportInput(check, faults, against, redlines, window, run, value, spread);
    }

    /** The same with a spread. */
    public ReportInput with(SpreadResult value) {
        return new ReportInput(check, faults, against, redlines, window, run, plan, value);
    }
}
