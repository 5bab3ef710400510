package purgewright.sealflow.casefile;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.catchThrowableOfType;
import static org.assertj.core.api.Assertions.within;

import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import purgewright.fluids.Engines;
import purgewright.fluids.unit.Dimension;
import purgewright.sealflow.gap.GapKind;
import purgewright.sealflow.model.Case;
import purgewright.sealflow.model.PassageSpec;
import purgewright.sealflow.network.NetworkSolver;
import purgewright.sealflow.network.SolveResult;
import purgewright.sealflow.network.SolverSettings;
import purgewright.sealflow.passage.Conditions;
import purgewright.sealflow.passage.Passage;
import purgewright.sealflow.passage.PassageField;
import purgewright.sealflow.passage.PassageType;
import purgewright.sealflow.passage.PassageTypes;

/** The reader with the passage types of the product. */
class PassageTypesInCaseTest {
    @Test
    void theMinimalExampleReadsWithTheRealTypes() {
        Case read = CaseDocument.parse(CaseReaderTest.resource("minimal.json")).toCase();
        assertThat(read.passages()).hasSize(8);
        assertThat(read.passage("oxygen seal").clearance()).isEqualTo(9e-5);
        assertThat(read.passage("hot seal").word("arrangement", "")).isEqualTo("stepped");
        assertThat(read.cavities().get(0).pressure()).isEqualTo(2.6e6);
    }

    /** Whatever a passage's law refuses is said when the file is read, at the field that it names. */
    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "labyrinth | 'radius': '26 mm', 'clearance': '0.1 mm', 'teeth': 4, 'pitch': '1 mm', 'tip': '1.5 mm' | tip",
                "labyrinth | 'radius': '26 mm', 'clearance': '1 mm', 'teeth': 4, 'pitch': '1.5 mm', 'tip': '0.3 mm', 'carry-over': 'vermes' | pitch",
                "face | 'inner radius': '20 mm', 'outer radius': '18 mm', 'gap': '5 um' | outer radius",
                "face | 'inner radius': '20 mm', 'outer radius': '28 mm' | ",
                "hydrodynamic face | 'inner radius': '20 mm', 'outer radius': '28 mm', 'groove radius': '30 mm', 'groove depth': '5 um', 'balance radius': '24 mm' | groove radius",
                "slinger | 'inner radius': '30 mm', 'outer radius': '20 mm', 'gap': '0.3 mm' | outer radius",
                "brush | 'radius': '26 mm' | ",
                "measured | 'table': '0.1 MPa > 0.4 MPa: 1.2 g/s', 'test gas': 'nitrogen' | table",
            })
    void geometryThatALawRefusesIsBadInputAtItsField(String type, String fields, String field) {
        String own = fields.replace('\'', '"');
        String text = """
                {"purgewright": 1, "streams": {"gas": {"fluid": "nitrogen"}}, "cavities": [
                 {"name": "a", "role": "supply", "stream": "gas", "pressure": "4 bar", "temperature": "300 K"},
                 {"name": "b", "role": "supply", "stream": "gas", "pressure": "1 bar", "temperature": "300 K"}],
                 "passages": [{"name": "p", "from": "a", "to": "b", "type": "TYPE", OWN}]}
                """.replace("TYPE", type).replace("OWN", own);
        CaseException wrong = catchThrowableOfType(
                CaseException.class, () -> CaseDocument.parse(text).toCase());
        assertThat(wrong.problems()).hasSize(1);
        CaseProblem problem = wrong.problems().get(0);
        assertThat(problem.key()).isEqualTo("GEOMETRY");
        assertThat(problem.place()).isEqualTo("/passages/p" + (field == null ? "" : "/" + field));
        assertThat(problem.line()).isEqualTo(4);
    }

    /** A type in one class: an orifice of a gap's area, cut by wires. What other rooms ask of it stands in the class too. */
    private record WireScreen() implements PassageType {
        @Override
        public String key() {
            return "wire screen";
        }

        @Override
        public String description() {
            return "A screen of wires around the shaft.";
        }

        @Override
        public List<PassageField> fields() {
            return List.of(
                    PassageField.positive("radius", Dimension.LENGTH, "Radius of the rotor's surface."),
                    PassageField.positive("clearance", Dimension.LENGTH, "Cold clearance."),
                    PassageField.optional("open share", Dimension.NUMBER, "0.5", 0, 1, "Between the wires."));
        }

        @Override
        public SealKind kind() {
            return SealKind.OPEN;
        }

        @Override
        public GapKind gap(PassageSpec spec) {
            return GapKind.RADIAL;
        }

        @Override
        public Passage build(PassageSpec spec, Conditions conditions) {
            double area = 2 * Math.PI * spec.radius() * conditions.runningClearance() * spec.number("open share", 1);
            Map<String, Object> bore = new HashMap<>(Map.of("diameter", Math.sqrt(4 * area / Math.PI)));
            PassageSpec orifice = new PassageSpec(
                    spec.name(),
                    spec.from(),
                    spec.to(),
                    "orifice",
                    1,
                    Double.NaN,
                    Double.NaN,
                    Double.NaN,
                    Double.NaN,
                    1,
                    Double.NaN,
                    false,
                    bore);
            return PassageTypes.find("orifice").orElseThrow().build(orifice, conditions);
        }
    }

    @Test
    void aNewTypeIsReadOfferedGrownAndSolvedByItsOneClass() {
        PassageType screen = new WireScreen();
        Layout layout = new Layout(List.of(screen));
        assertThat(CaseSchema.generate(layout)).contains("\"wire screen\"", "\"open share\"");
        CaseDocument document = CaseDocument.parse("""
                {"purgewright": 1, "streams": {"gas": {"fluid": "nitrogen"}},
                 "rotor": {"speed": "36000 rpm", "bearing play": "10 um", "segments": [{"name": "disc", "outer radius": "100 mm", "temperature": "20 degC",
                 "E": "200 GPa", "density": "7850 kg/m3", "expansion": "12e-6 1/K"}]}, "cavities": [
                 {"name": "a", "role": "supply", "stream": "gas", "pressure": "4 bar", "temperature": "300 K"},
                 {"name": "b", "role": "supply", "stream": "gas", "pressure": "1 bar", "temperature": "300 K"}],
                 "passages": [{"name": "p", "from": "a", "to": "b", "type": "wire screen", "radius": "100 mm", "clearance": "0.3 mm"}]}
                """);
        Case read = new CaseReader(document, Engines.embedded(), layout).read(true);
        SolveResult.Converged solved = (SolveResult.Converged) new NetworkSolver(
                        Engines.embedded(), SolverSettings.DEFAULT, key -> key.equals(screen.key()) ? screen : null)
                .solve(read, null);
        SolveResult.PassageState p = solved.passages().get("p");
        // The disc's rim by the closed form, as in the gap model's own test.
        assertThat(p.gap().mean()).isCloseTo(0.3e-3 - 9.76203e-5, within(1e-9));
        assertThat(p.gap().mean() - p.gap().least()).isCloseTo(10e-6, within(1e-12));
        assertThat(p.flow().massFlow()).isPositive();
        assertThat(p.flow().choked()).isTrue();
    }
}
