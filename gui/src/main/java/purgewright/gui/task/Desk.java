package purgewright.gui.task;

import java.nio.file.Path;
import java.util.List;
import purgewright.fluids.Engines;
import purgewright.fluids.PropertyEngine;
import purgewright.hazard.fault.FaultResult;
import purgewright.hazard.finding.Finding;
import purgewright.hazard.service.CaseService;
import purgewright.hazard.service.CheckResult;
import purgewright.hazard.service.CheckSettings;
import purgewright.hazard.service.FailSettings;
import purgewright.hazard.service.MapSettings;
import purgewright.hazard.service.MendService;
import purgewright.hazard.service.PlanResult;
import purgewright.hazard.service.PlanService;
import purgewright.hazard.service.PlanSettings;
import purgewright.hazard.service.Progress;
import purgewright.hazard.service.RunResult;
import purgewright.hazard.service.RunService;
import purgewright.hazard.service.RunSettings;
import purgewright.hazard.service.SizeSettings;
import purgewright.hazard.service.SpreadService;
import purgewright.hazard.sizing.PurgeWindow;
import purgewright.hazard.sizing.SizeResult;
import purgewright.hazard.studies.SpreadResult;
import purgewright.hazard.studies.SpreadSettings;
import purgewright.sealflow.casefile.CaseDocument;

/** The one case service of the window, made when first needed and never on the window's own thread. */
public final class Desk implements Checker {
    private CaseService service;

    private synchronized CaseService service() {
        if (service == null) {
            service = new CaseService(Engines.embedded(), Runtime.getRuntime().availableProcessors());
        }
        return service;
    }

    @Override
    public CheckResult check(CaseDocument document, CheckResult previousOrNull, Progress progress) {
        return service().check(document, previousOrNull, CheckSettings.DEFAULT, progress);
    }

    @Override
    public CheckResult glance(CaseDocument document, CheckResult previous, String phase) {
        boolean there = document.children("/duty").contains(phase);
        return there || (document.children("/duty").isEmpty() && phase.equals(CaseService.STEADY))
                ? service()
                        .check(
                                document,
                                previous,
                                CheckSettings.DEFAULT.withPhases(List.of(phase)).withBounds(false),
                                Progress.NONE)
                : null;
    }

    /** Every single fault of a case, pairs when asked for. */
    public FaultResult fail(CaseDocument document, FailSettings settings, Progress progress) {
        return service().fail(document, settings, progress);
    }

    /** The least purge. */
    public SizeResult size(CaseDocument document, SizeSettings settings, Progress progress) {
        return service().size(document, settings, progress);
    }

    /** The purge window. */
    public PurgeWindow map(CaseDocument document, MapSettings settings, Progress progress) {
        return service().map(document, settings, progress);
    }

    /**
     * The duty through time.
     *
     * @param folderOrNull in which boundary histories are looked for
     */
    public RunResult run(CaseDocument document, Path folderOrNull, Progress progress) {
        return new RunService(engine()).run(document, folderOrNull, RunSettings.DEFAULT, progress);
    }

    /** What a campaign takes. */
    public PlanResult plan(CaseDocument document, Path folderOrNull, Progress progress) {
        return new PlanService(engine()).plan(document, folderOrNull, PlanSettings.DEFAULT, progress);
    }

    /** Changes of the case that make a finding hold. */
    public List<MendService.Mend> mend(CheckResult stated, Finding finding, Progress progress) {
        return new MendService(service()).mend(stated, finding, progress);
    }

    /** What the case's uncertain values make of it. */
    public SpreadResult spread(CaseDocument document, SpreadSettings settings, Progress progress) {
        return new SpreadService(service()).run(document, settings, progress);
    }

    /** Version of this program. */
    public String version() {
        String version = Desk.class.getPackage().getImplementationVersion();
        return version == null ? "unpackaged" : version;
    }

    /** The property engine. */
    public PropertyEngine engine() {
        return service().engine();
    }
}
