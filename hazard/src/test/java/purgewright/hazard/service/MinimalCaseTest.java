package purgewright.hazard.service;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.Map;
import org.junit.jupiter.api.Test;
import purgewright.fluids.Engines;
import purgewright.hazard.MinimalCase;
import purgewright.hazard.fault.FaultResult;
import purgewright.hazard.finding.Verdict;
import purgewright.sealflow.model.Case;

/** The minimal case with the real engine and the real solver. */
class MinimalCaseTest {
    @Test
    void theExampleHoldsAndItsFaultsAreRanked() {
        Case model = MinimalCase.model();
        try (CaseService service = new CaseService(Engines.embedded(), 2)) {
            long t0 = System.nanoTime();
            CheckResult r = service.check(null, model, Map.of(CaseService.STEADY, model), Progress.NONE);
            System.err.println("check " + (System.nanoTime() - t0) / 1e6 + " ms " + r.verdictLine() + " " + r.purge());
            r.findings().forEach(f -> System.err.println(f.verdict() + " " + f.id() + " " + f.value() + " " + f.limit() + " " + f.margin() + " | " + f.what() + " | " + f.how() + " | " + f.caution()));
            System.err.println(r.cautions());
            t0 = System.nanoTime();
            FaultResult f = service.fail(model, Map.of(CaseService.STEADY, model), (p, s) -> model, FailSettings.DEFAULT, Progress.NONE);
            System.err.println("fail " + (System.nanoTime() - t0) / 1e6 + " ms " + f.verdictLine());
            f.rows().forEach(x -> System.err.println(x.verdict() + " " + x.scenario() + " lost " + x.lost() + " pairs " + x.pairsLost() + " t " + x.timeToLoss() + " seen " + x.seenBy().stream().limit(2).toList() + " hidden " + x.hidden() + x.findings().stream().filter(y -> y.id().startsWith("solve")).map(y -> y.what()).toList()));
            System.err.println(f.ranking());
            assertThat(r.verdict()).isNotEqualTo(Verdict.NOT_CONVERGED);
        }
    }
}
