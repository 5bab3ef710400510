package purgewright.sealflow.network;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import org.junit.jupiter.api.Test;
import purgewright.fluids.Engines;
import purgewright.sealflow.Notice;
import purgewright.sealflow.casefile.CaseDocument;
import purgewright.sealflow.model.Case;

/** What a result says of a face's film: its gap, its force on the rotor, lift-off, and heat that a tiny leak cannot carry. */
class FaceFilmTest {
    private static final double AREA = Math.PI * (0.030 * 0.030 - 0.025 * 0.025);

    private static Case model(String speed, String back, String face) {
        return CaseDocument.parse(
                        """
                {"purgewright": 1, "rotor": {"speed": "SPEED"}, "streams": {"gas": {"fluid": "helium"}}, "cavities": [
                 {"name": "a", "role": "supply", "stream": "gas", "pressure": "1 MPa", "temperature": "300 K"},
                 {"name": "b", "role": "supply", "stream": "gas", "pressure": "BACK", "temperature": "300 K"}],
                 "passages": [{"name": "p", "from": "a", "to": "b", "inner radius": "25 mm", "outer radius": "30 mm", FACE}]}
                """.replace("SPEED", speed).replace("BACK", back).replace("FACE", face.replace('\'', '"')))
                .toCase();
    }

    private static SolveResult.Converged solve(Case model) {
        return NetworkSolverTest.converged(
                new NetworkSolver(Engines.embedded(), SolverSettings.DEFAULT).solve(model, null));
    }

    private static double estimate(SolveResult.Converged result, String constant) {
        return result.notices().stream()
                .filter(n -> n.key() == Notice.Key.ESTIMATE
                        && constant.equals(n.values().get("constant")))
                .mapToDouble(n -> (Double) n.values().get("value"))
                .findFirst()
                .orElse(Double.NaN);
    }

    private static final String CONED =
            "'type': 'face', 'balance radius': '26.5 mm', 'coning': '4 um', 'spring force': '20 N', 'looks': 'forward'";

    @Test
    void theGapThatTheForcesGiveIsTheResultsGapAndTheFilmsForceIsTheClosingForce() {
        Case model = model("10000 rpm", "0.1 MPa", CONED);
        SolveResult.Converged result = solve(model);
        double gap = result.passages().get("p").gap().mean();
        assertThat(gap).isBetween(0.5e-6, 50e-6).isCloseTo(estimate(result, "stable gap, m"), within(1e-12));
        assertThat(result.passages().get("p").gap().least()).isNaN();
        double closing =
                Math.PI * (1e6 * (0.030 * 0.030 - 0.0265 * 0.0265) + 0.1e6 * (0.0265 * 0.0265 - 0.025 * 0.025)) + 20;
        AxialForces.Face face = AxialForces.of(model, result, 0.45).get("p");
        assertThat(face.force()).isCloseTo(closing, within(1e-3 * closing));
        assertThat(face.area()).isCloseTo(AREA, within(1e-12));
        assertThat(AxialForces.thrust(AxialForces.of(model, result, 0.45))).isEqualTo(face.force());
    }

    @Test
    void aFilmLiftsAtThePressureThatIsNamedAndNotBelow() {
        double lift = estimate(solve(model("10000 rpm", "0.1 MPa", CONED)), "lift-off pressure difference, Pa");
        assertThat(lift).isBetween(1e3, 0.9e6);
        // The spring alone keeps it shut below.
        assertThat(gapAt(1e6 - 1.02 * lift)).isGreaterThan(0);
        assertThat(gapAt(1e6 - 0.95 * lift)).isNaN();
    }

    /** The stable gap of the film at a back pressure, with the same lower pressure as at lift-off: both shifted down. */
    private static double gapAt(double back) {
        Case model = CaseDocument.parse(
                        """
                {"purgewright": 1, "rotor": {"speed": "10000 rpm"}, "streams": {"gas": {"fluid": "helium"}}, "cavities": [
                 {"name": "a", "role": "supply", "stream": "gas", "pressure": "HIGH Pa", "temperature": "300 K"},
                 {"name": "b", "role": "supply", "stream": "gas", "pressure": "0.1 MPa", "temperature": "300 K"}],
                 "passages": [{"name": "p", "from": "a", "to": "b", "inner radius": "25 mm", "outer radius": "30 mm", FACE}]}
                """.replace("HIGH", Double.toString(1.1e6 - back)).replace("FACE", CONED.replace('\'', '"')))
                .toCase();
        return estimate(solve(model), "stable gap, m");
    }

    @Test
    void aGroovedFaceLiftsAtTheSpeedThatIsNamedAndNotBelow() {
        String grooved = "'type': 'hydrodynamic face', 'groove radius': '27.5 mm', 'groove depth': '5 um', "
                + "'balance radius': '25.8 mm', 'spring force': '30 N'";
        double lift = estimate(solve(model("30000 rpm", "0.1 MPa", grooved)), "lift-off speed, rad/s");
        assertThat(lift).isBetween(1.0, 3000.0);
        double rpm = lift * 30 / Math.PI;
        assertThat(estimate(solve(model(1.01 * rpm + " rpm", "0.1 MPa", grooved)), "stable gap, m"))
                .isGreaterThan(0);
        assertThat(estimate(solve(model(0.98 * rpm + " rpm", "0.1 MPa", grooved)), "stable gap, m"))
                .isNaN();
    }

    @Test
    void heatThatATinyLeakCannotCarryIsNotEstablishedUntilItsShareIsStated() {
        String tight = "'type': 'face', 'gap': '1 um'";
        assertThat(notEstablished(solve(model("30000 rpm", "0.9 MPa", tight)))).isTrue();
        assertThat(notEstablished(solve(model("30000 rpm", "0.9 MPa", tight + ", 'film heat share': 0"))))
                .isFalse();
        assertThat(notEstablished(solve(model("300 rpm", "0.9 MPa", tight)))).isFalse();
    }

    private static boolean notEstablished(SolveResult.Converged result) {
        return result.notices().stream()
                .anyMatch(n -> n.key() == Notice.Key.NOT_ESTABLISHED
                        && "face film heat".equals(n.values().get("model")));
    }

    /** Against the closed form of a solid-body vortex, written out. */
    @Test
    void aSlingerThatHoldsNamesTheRadiusItsLiquidReaches() {
        String slinger = """
                {"purgewright": 1, "rotor": {"speed": "10000 rpm"}, "streams": {"gas": {"fluid": "helium"}, "water": {"fluid": "water"}}, "cavities": [
                 {"name": "a", "role": "supply", "stream": "water", "pressure": "HIGH MPa", "temperature": "300 K"},
                 {"name": "b", "role": "supply", "stream": "gas", "pressure": "0.2 MPa", "temperature": "300 K"}],
                 "passages": [{"name": "p", "from": "a", "to": "b", "type": "slinger", "inner radius": "20 mm", "outer radius": "40 mm",
                  "gap": "0.5 mm"}]}
                """;
        SolveResult.Converged holds =
                solve(CaseDocument.parse(slinger.replace("HIGH", "0.4")).toCase());
        double turning = 0.9 * 10000 * Math.PI / 30;
        double density = holds.cavities().get("a").state().density();
        assertThat(estimate(holds, "interface radius, m"))
                .isCloseTo(Math.sqrt(0.04 * 0.04 - 2 * 0.2e6 / (density * turning * turning)), within(1e-9));
        SolveResult.Converged leaks =
                solve(CaseDocument.parse(slinger.replace("HIGH", "2")).toCase());
        assertThat(estimate(leaks, "interface radius, m")).isNaN();
        assertThat(leaks.passages().get("p").flow().massFlow()).isGreaterThan(0.01);
    }
}
