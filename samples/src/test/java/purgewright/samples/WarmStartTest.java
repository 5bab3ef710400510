package purgewright.samples;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.nio.file.Path;
import java.util.Map;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import purgewright.fluids.Engines;
import purgewright.hazard.finding.Finding;
import purgewright.hazard.service.CaseService;
import purgewright.hazard.service.CheckResult;
import purgewright.hazard.service.CheckResult.PhaseResult;
import purgewright.hazard.service.CheckSettings;
import purgewright.hazard.service.Progress;
import purgewright.sealflow.casefile.CaseDocument;
import purgewright.sealflow.network.SolveResult.CavityState;
import purgewright.sealflow.network.SolveResult.Converged;
import purgewright.sealflow.network.SolveResult.PassageState;

@DisplayName("A check started from an earlier result")
class WarmStartTest {
    /** Of pressures and temperatures by their own size, of fractions by one, of flows by the largest flow. */
    private static final double SAME = 1e-9;

    private static final CaseService SERVICE = new CaseService(Engines.embedded(), 1);

    @AfterAll
    static void close() {
        SERVICE.close();
    }

    private static CaseDocument sample(String name) {
        return SERVICE.open(Path.of(ChildJvm.sample(name).toString()));
    }

    private static CheckResult check(CaseDocument document, CheckResult previous) {
        return SERVICE.check(document, previous, CheckSettings.DEFAULT, Progress.NONE);
    }

    @ParameterizedTest
    @ValueSource(strings = {"minimal", "spaced-lox-methane", "shared-rotor-kerosene"})
    void givesTheAnswerOfAColdStart(String name) {
        CaseDocument document = sample(name);
        CheckResult before = check(document, null);
        CaseDocument edited = edit(document);
        CheckResult cold = check(edited, null);
        CheckResult warm = check(edited, before);
        same(cold, warm);
        assertThat(iterations(warm)).isLessThan(iterations(cold));
    }

    @Test
    void givesTheSameAnswerWhenTheEarlierResultIsOfAnotherCase() {
        CaseDocument document = sample("minimal");
        CheckResult cold = check(document, null);
        same(cold, check(document, check(sample("spaced-lox-methane"), null)));
        CaseDocument far =
                document.with("/cavities/bottle line/pressure", "0.2 MPa").with("/passages/ring A/clearance", "0.2 mm");
        same(cold, check(document, check(far, null)));
    }

    @Test
    void startsTheCaseWithWornSealsFromTheEarlierOneToo() {
        // Labyrinths wear: the case is solved a second time with all of them opened.
        CaseDocument document = CaseDocument.parse("""
                {"purgewright": 1, "rotor": {"speed": "30000 rpm"},
                 "streams": {"gas": {"fluid": "nitrogen"}},
                 "cavities": [
                  {"name": "in", "role": "other", "stream": "gas", "pressure": "2 MPa", "temperature": "300 K"},
                  {"name": "between", "role": "drain"},
                  {"name": "out", "role": "other", "stream": "gas", "pressure": "1 MPa", "temperature": "300 K"}],
                 "passages": [
                  {"name": "a", "from": "in", "to": "between", "type": "labyrinth", "radius": "30 mm",
                   "clearance": "0.1 mm", "teeth": 4, "pitch": "3 mm", "tip": "0.3 mm"},
                  {"name": "b", "from": "between", "to": "out", "type": "labyrinth", "radius": "30 mm",
                   "clearance": "0.1 mm", "teeth": 4, "pitch": "3 mm", "tip": "0.3 mm"}]}
                """);
        CheckResult before = check(document, null);
        CaseDocument edited = edit(document);
        CheckResult cold = check(edited, null);
        CheckResult warm = check(edited, before);
        same(cold, warm);
        assertThat(cold.phases().get(0).opened()).isInstanceOf(Converged.class);
        assertThat(check(document, before)
                        .phases()
                        .get(0)
                        .opened()
                        .convergence()
                        .iterations())
                .as("started where it ends")
                .isZero();
    }

    /** The first clearance of the case, four per cent up. */
    private static CaseDocument edit(CaseDocument document) {
        for (var p : document.toCase().passages()) {
            if (!Double.isNaN(p.clearance())) {
                String place = "/passages/" + p.name() + "/clearance";
                return document.with(place, p.clearance() * 1.04e3 + " mm");
            }
        }
        throw new AssertionError("no clearance in the case");
    }

    private static int iterations(CheckResult r) {
        return r.phases().stream()
                .mapToInt(p -> p.solve().convergence().iterations())
                .sum();
    }

    private static void same(CheckResult a, CheckResult b) {
        assertThat(b.verdictLine()).isEqualTo(a.verdictLine());
        assertThat(b.findings().stream().map(Finding::id))
                .containsExactlyInAnyOrderElementsOf(
                        a.findings().stream().map(Finding::id).toList());
        assertThat(b.phases()).hasSameSizeAs(a.phases());
        for (int i = 0; i < a.phases().size(); i++) {
            PhaseResult phase = a.phases().get(i);
            PhaseResult other = b.phases().get(i);
            same(phase.name(), (Converged) phase.solve(), (Converged) other.solve());
            if (phase.opened() instanceof Converged worn) {
                same(phase.name() + ", seals worn", worn, (Converged) other.opened());
            } else {
                assertThat(other.opened()).as(phase.name()).isNull();
            }
        }
    }

    private static void same(String phase, Converged x, Converged y) {
        for (Map.Entry<String, CavityState> e : x.cavities().entrySet()) {
            CavityState s = e.getValue();
            CavityState t = y.cavities().get(e.getKey());
            String at = phase + ", " + e.getKey();
            near(at, t.state().pressure(), s.state().pressure(), s.state().pressure());
            near(at, t.state().temperature(), s.state().temperature(), s.state().temperature());
            s.streamFractions()
                    .forEach((k, v) -> near(at + ", " + k, t.streamFractions().get(k), v, 1));
        }
        double largest = x.passages().values().stream()
                .mapToDouble(p -> Math.abs(p.flow().massFlow()))
                .max()
                .orElse(0);
        for (Map.Entry<String, PassageState> e : x.passages().entrySet()) {
            near(
                    phase + ", " + e.getKey(),
                    y.passages().get(e.getKey()).flow().massFlow(),
                    e.getValue().flow().massFlow(),
                    largest);
        }
    }

    private static void near(String where, double actual, double expected, double size) {
        assertThat(actual).as(where).isCloseTo(expected, within(SAME * size));
    }
}
