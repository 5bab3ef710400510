package purgewright.hazard.service;

import com.sun.management.OperatingSystemMXBean;
import java.io.IOException;
import java.lang.management.ManagementFactory;
import java.nio.file.Path;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import purgewright.fluids.Engines;
import purgewright.hazard.fault.Edits;
import purgewright.hazard.fault.FaultResult;
import purgewright.hazard.finding.Verdict;
import purgewright.sealflow.casefile.CaseDocument;
import purgewright.sealflow.model.Case;

/**
 * Time of a fault sweep: all single faults of a case and as many pairs as make 200 scenarios, in five phases (a duty of fewer gets a
 * phase at nine tenths of the speed), on two threads, in a new process. Arguments: case file, number of scenarios,
 * threads, "bounds" or "runs", and names of the phases with commas between (all of the duty when left out).
 */
public final class FaultTime {
    private static final OperatingSystemMXBean SYSTEM =
            (OperatingSystemMXBean) ManagementFactory.getOperatingSystemMXBean();

    private FaultTime() {}

    /** Prints one line for each sweep. */
    public static void main(String[] arguments) throws IOException {
        CaseDocument document = CaseDocument.read(Path.of(arguments[0]));
        int count = Integer.parseInt(arguments[1]);
        int threads = Integer.parseInt(arguments[2]);
        boolean times = arguments.length < 4 || !"bounds".equals(arguments[3]);
        long wall = System.nanoTime();
        long processor = SYSTEM.getProcessCpuTime();
        try (CaseService service = new CaseService(Engines.embedded(), threads)) {
            Case whole = document.toCase();
            Map<String, Case> models = new LinkedHashMap<>(CaseService.models(document, CheckSettings.DEFAULT));
            if (arguments.length > 4) {
                models.keySet().retainAll(List.of(arguments[4].split(",")));
            }
            while (models.size() < 5) {
                Case steady = models.getOrDefault("steady", models.values().iterator().next());
                models.put(
                        "added " + models.size(),
                        Edits.rotor(steady, Edits.speed(steady.rotor(), steady.rotor().speed() * (1 - 0.05 * models.size()))));
            }
            FaultResult result = service.fail(
                    whole,
                    models,
                    (phase, set) -> models.get(phase),
                    FailSettings.DEFAULT.withTimes(times).withPairs(true),
                    all -> all.subList(0, Math.min(count, all.size())),
                    Progress.NONE);
            long lost = result.rows().stream().filter(r -> !r.losses().isEmpty()).count();
            long open = result.rows().stream().filter(r -> r.verdicts().containsValue(Verdict.NOT_CONVERGED)).count();
            System.out.printf(
                    Locale.ROOT,
                    "%s: %d scenarios (%d single) x %d phases, %d threads, %s: %.2f s on the wall, %.2f s of processor; %d lose separation, %d not solved%n",
                    arguments[0],
                    result.rows().size(),
                    result.rows().stream().filter(FaultResult.Row::single).count(),
                    models.size(),
                    threads,
                    times ? "runs over time" : "bounds only",
                    (System.nanoTime() - wall) / 1e9,
                    (SYSTEM.getProcessCpuTime() - processor) / 1e9,
                    lost,
                    open);
        }
    }
}
