package purgewright.sealflow.network;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.Map;
import org.junit.jupiter.api.Test;
import purgewright.fluids.Engines;
import purgewright.sealflow.casefile.CaseDocument;
import purgewright.sealflow.model.Case;

/** A disc between two cavities, from the case file to the thrust. */
class AxialForcesTest {
    private static final double AREA = Math.PI * (0.08 * 0.08 - 0.03 * 0.03);

    private static Map<String, AxialForces.Face> faces(String front, String rear, String frontLooks, String rearLooks) {
        String json = """
                {"purgewright": 1, "surroundings": {"pressure": "100 kPa", "temperature": "300 K"},
                 "rotor": {"speed": "20000 rpm"}, "streams": {"gas": {"fluid": "nitrogen"}},
                 "cavities": [
                  {"name": "front", "role": "hot gas", "stream": "gas", "pressure": "%s", "temperature": "300 K",
                   "disc": {"inner radius": "30 mm", "outer radius": "80 mm", "gap": "5 mm"%s}},
                  {"name": "rear", "role": "hot gas", "stream": "gas", "pressure": "%s", "temperature": "300 K",
                   "disc": {"inner radius": "30 mm", "outer radius": "80 mm", "gap": "5 mm"%s}},
                  {"name": "between", "role": "drain"}],
                 "passages": [
                  {"name": "a", "from": "front", "to": "between", "type": "orifice", "diameter": "2 mm", "discharge coefficient": 0.8},
                  {"name": "b", "from": "between", "to": "rear", "type": "orifice", "diameter": "2 mm", "discharge coefficient": 0.8}]}
                """.formatted(
                        front,
                        frontLooks.isEmpty() ? "" : ", \"looks\": \"" + frontLooks + "\"",
                        rear,
                        rearLooks.isEmpty() ? "" : ", \"looks\": \"" + rearLooks + "\"");
        Case model = CaseDocument.parse(json).toCase();
        SolveResult result = new NetworkSolver(Engines.embedded(), SolverSettings.DEFAULT).solve(model, null);
        return AxialForces.of(model, (SolveResult.Converged) result, SolverSettings.DEFAULT.swirlRatio());
    }

    @Test
    void facesThatLookBothWaysLeaveTheDifferenceOfTheirPressures() {
        Map<String, AxialForces.Face> both = faces("1.2 MPa", "0.9 MPa", "forward", "aft");
        assertThat(AxialForces.thrust(both)).isCloseTo(0.3e6 * AREA, within(1e-6 * AREA));
        assertThat(AxialForces.thrust(faces("1 MPa", "1 MPa", "forward", "aft")))
                .isCloseTo(0, within(1e-6));
        assertThat(AxialForces.thrust(faces("1.2 MPa", "0.9 MPa", "aft", "forward")))
                .isCloseTo(-0.3e6 * AREA, within(1e-6 * AREA));
        // What the sum is made of.
        assertThat(both.get("front").force() - both.get("rear").force()).isCloseTo(0.3e6 * AREA, within(1e-6 * AREA));
    }

    @Test
    void facesThatLookOneWayAddUp() {
        assertThat(AxialForces.thrust(faces("1.2 MPa", "0.9 MPa", "forward", "forward")))
                .isCloseTo(2.1e6 * AREA, within(1e-6 * AREA));
    }

    @Test
    void noSumIsMadeWhereAFaceDoesNotSayWhichWayItLooks() {
        assertThat(AxialForces.thrust(faces("1.2 MPa", "0.9 MPa", "forward", "")))
                .isNaN();
        assertThat(AxialForces.thrust(Map.of())).isNaN();
    }
}
