package purgewright.hazard.service;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Path;
import org.junit.jupiter.api.Test;
import purgewright.fluids.Engines;
import purgewright.fluids.Phase;
import purgewright.hazard.criteria.ClearanceRules;
import purgewright.hazard.finding.Finding;
import purgewright.hazard.finding.Verdict;
import purgewright.sealflow.casefile.CaseDocument;
import purgewright.sealflow.network.SolveResult.Converged;

/** Seals that rub, in the minimal example with ring A replaced. */
class RubbingSealTest {
    private static CheckResult check(String type, String fields) throws IOException {
        CaseDocument document = CaseDocument.read(Path.of("..", "samples", "cases", "minimal.json"));
        document = document.withJson(
                "/passages/1",
                "{\"name\": \"ring A\", \"from\": \"barrier\", \"to\": \"oxygen drain\", \"type\": \"" + type + "\", "
                        + fields + "}");
        try (CaseService service = new CaseService(Engines.embedded(), 2)) {
            return service.check(document, CheckSettings.DEFAULT.withBounds(false), Progress.NONE);
        }
    }

    @Test
    void liquidOxygenBesidePurgeGasHasTheLimitOfLiquidOxygen() throws IOException {
        CheckResult r = check("segmented ring", "\"radius\": \"25 mm\", \"segments\": 3, \"joint area\": \"2 mm2\"");
        Converged solve = (Converged) r.phases().get(0).solve();
        assertThat(solve.cavities().get("oxygen drain").state().phase()).isEqualTo(Phase.TWO_PHASE);
        Finding speed = r.findings().stream()
                .filter(f -> f.id().startsWith(ClearanceRules.RUBBING))
                .findFirst()
                .orElseThrow();
        // 25 mm at 32000 rpm: 83.8 m/s, above 61 m/s.
        assertThat(speed.limit()).isEqualTo(61);
        assertThat(speed.verdict()).isEqualTo(Verdict.FALLS_SHORT);
    }

    @Test
    void aSealStatedByItsLeakAloneIsNamed() throws IOException {
        CheckResult r = check("static seal", "\"test flow\": \"0.5 g/s\", \"test pressure\": \"1 MPa\"");
        assertThat(r.cautions()).anyMatch(c -> c.startsWith("Stated by leakage alone, without a radius: ring A."));
    }
}
