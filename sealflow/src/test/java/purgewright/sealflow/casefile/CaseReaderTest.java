package purgewright.sealflow.casefile;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.catchThrowableOfType;
import static org.assertj.core.api.Assertions.within;

import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import purgewright.fluids.Engines;
import purgewright.fluids.mixture.StreamDefinition;
import purgewright.sealflow.model.Case;
import purgewright.sealflow.model.Cavity;
import purgewright.sealflow.model.DutyPhase;
import purgewright.sealflow.model.PassageSpec;
import purgewright.sealflow.model.Role;

class CaseReaderTest {
    static final CaseDocument MINIMAL = CaseDocument.parse(resource("minimal.json"));

    static String resource(String name) {
        try (InputStream in = CaseReaderTest.class.getResourceAsStream(name)) {
            return new String(Objects.requireNonNull(in, name).readAllBytes(), StandardCharsets.UTF_8);
        } catch (IOException broken) {
            throw new IllegalStateException(broken);
        }
    }

    static Case read(CaseDocument document) {
        return new CaseReader(document, Engines.embedded(), TestTypes.LAYOUT).read(true);
    }

    static List<CaseProblem> problems(CaseDocument document) {
        CaseException wrong = catchThrowableOfType(CaseException.class, () -> read(document));
        return wrong == null ? List.of() : wrong.problems();
    }

    private static CaseProblem only(CaseDocument document) {
        List<CaseProblem> problems = problems(document);
        assertThat(problems).hasSize(1);
        return problems.get(0);
    }

    @Test
    void theMinimalExampleOfTheDesignReadsUnchanged() {
        Case read = read(MINIMAL);
        assertThat(read.about())
                .containsEntry("title", "Spaced pump, helium barrier")
                .containsEntry("note", "invented");
        assertThat(read.surroundings()).isEqualTo(new Case.Surroundings(101325, 288.15));
        assertThat(read.rotor().speed()).isCloseTo(32000 * Math.PI / 30, within(1e-9));
        assertThat(read.streams())
                .containsExactly(
                        new StreamDefinition.Single("feed oxygen", "oxygen"),
                        new StreamDefinition.Burn("drive gas", "methane", "oxygen", 0.4, 6e6, 120, 95, false),
                        new StreamDefinition.Single("barrier gas", "helium"),
                        new StreamDefinition.Mix(
                                "air", Map.of("nitrogen", 0.7812, "oxygen", 0.2096, "argon", 0.0092), true));
        assertThat(read.cavities()).hasSize(9);
        Cavity face = read.cavity("impeller back face");
        assertThat(face.role()).isEqualTo(Role.OXIDIZER);
        assertThat(face.pressure()).isEqualTo(2.6e6);
        assertThat(face.temperature()).isEqualTo(97);
        assertThat(face.stream()).isEqualTo("feed oxygen");
        Cavity barrier = read.cavity("barrier");
        assertThat(barrier.fixed()).isFalse();
        assertThat(barrier.stream()).isNull();
        assertThat(barrier.volume()).isEqualTo(2e-5);
        assertThat(read.cavity("fuel overboard").stream()).isEqualTo(Case.AIR);
        assertThat(read.passages()).hasSize(8);
        PassageSpec seal = read.passage("oxygen seal");
        assertThat(seal.type()).isEqualTo("labyrinth");
        assertThat(seal.radius()).isEqualTo(0.026);
        assertThat(seal.clearance()).isEqualTo(9e-5);
        assertThat(seal.number("clearance", 0)).isEqualTo(9e-5);
        assertThat(seal.number("teeth", 0)).isEqualTo(6);
        assertThat(seal.number("pitch", 0)).isEqualTo(2.5e-3);
        assertThat(seal.number("tip", 0)).isEqualTo(2.5e-4);
        assertThat(seal.word("arrangement", "")).isEqualTo("straight");
        assertThat(seal.count()).isEqualTo(1);
        assertThat(seal.calibrationFactor()).isEqualTo(1);
        assertThat(seal.closed()).isFalse();
        PassageSpec valve = read.passage("check valve");
        assertThat(valve.number("cracking pressure", 0)).isEqualTo(20e3);
        assertThat(valve.radius()).isNaN();
        assertThat(read.duty()).isEmpty();
    }

    /** Change one value of the minimal example and look at what is said. */
    @ParameterizedTest(name = "{0} = {1}: {2}")
    @CsvSource(
            delimiter = '|',
            value = {
                "/passages/ring A/clearance | 0.025 | MISSING_UNIT | \"0.025 mm\"",
                "/passages/ring A/clearance | \"0.025 MM\" | UNKNOWN_UNIT | \"0.025 mm\"",
                "/passages/ring A/clearance | \"0,025 mm\" | DECIMAL_COMMA | \"0.025 mm\"",
                "/passages/ring A/clearance | \"25 kPa\" | WRONG_DIMENSION | 0.08 mm",
                "/passages/ring A/clearance | \"0 mm\" | OUT_OF_RANGE | ''",
                "/passages/ring A/length | \"-6 mm\" | OUT_OF_RANGE | ''",
                "/passages/ring A/clearance | true | WRONG_TYPE | 0.08 mm",
                "/passages/ring A/clearance | null | WRONG_TYPE | leave the field out",
                "/passages/ring A/worn clearance | \"24 um\" | CONFLICT | clearance factor",
                "/passages/metering/worn clearance | \"24 um\" | CONFLICT | leave the worn clearance out",
                "/instruments | [{\"name\": \"PT\", \"measures\": \"pressure\", \"cavity\": \"barrier\", \"sensors\": 2,"
                        + " \"votes\": 3}] | CONFLICT | sensors",
                "/instruments | [{\"name\": \"PT\", \"measures\": \"pressure\", \"cavity\": \"barrier\", \"votes\": 2}]"
                        + " | CONFLICT | sensors",
                "/instruments | [{\"name\": \"PT\", \"measures\": \"pressure\", \"cavity\": \"barrier\","
                        + " \"persistence\": 5}] | MISSING_FIELD | sample rate",
                "/passages/oxygen seal/teeth | 6.5 | OUT_OF_RANGE | ''",
                "/passages/oxygen seal/teeth | 0 | OUT_OF_RANGE | ''",
                "/passages/oxygen seal/teeth | 1e999 | OUT_OF_RANGE | ''",
                "/passages/oxygen seal/arrangement | \"steped\" | UNKNOWN_WORD | \"stepped\"",
                "/passages/oxygen seal/pich | \"2 mm\" | UNKNOWN_FIELD | \"pitch\"",
                "/passages/ring A/type | \"floating rng\" | UNKNOWN_TYPE | \"floating ring\"",
                "/passages/ring A/from | \"barier\" | UNKNOWN_CAVITY | \"barrier\"",
                "/passages/ring A/to | \"barrier\" | SAME_CAVITY | other side",
                "/passages/ring A/name | \"ring B\" | DUPLICATE_NAME | its own",
                "/passages/ring A/name | \"1234\" | BAD_NAME | ring A",
                "/passages/ring A/name | \"a/b\" | BAD_NAME | \"a-b\"",
                "/passages/ring A/name | \"a~b\" | BAD_NAME | \"a-b\"",
                "/passages/ring A/name | \"a\\u202eb\" | BAD_TEXT | right to left",
                "/about/title | \"a\\u2067b\" | BAD_TEXT | right to left",
                "/about/title | \"a\\u001b[2Jb\" | BAD_TEXT | type it anew",
                "/about/note | \"a\\u009b2Jb\" | BAD_TEXT | type it anew",
                "/passages/ring A/name | \" \" | BAD_NAME | ring A",
                "/passages/ring A/count | 0 | OUT_OF_RANGE | ''",
                "/passages/ring A/closed | \"yes\" | WRONG_TYPE | true or false",
                "/passages/check valve/discharge coefficient | \"0.7 mm\" | WRONG_DIMENSION | 0.7",
                "/cavities/barrier/role | \"barier\" | UNKNOWN_WORD | \"barrier\"",
                "/cavities/disc cavity/pressure | \"-2 bar gauge\" | BELOW_ABSOLUTE_ZERO | surroundings",
                "/cavities/disc cavity/temperature | \"-300 degC\" | BELOW_ZERO_KELVIN | -273.15",
                "/cavities/disc cavity/temperature | \"0 K\" | OUT_OF_RANGE | ''",
                "/cavities/disc cavity/stream | \"drive gass\" | UNKNOWN_STREAM | \"drive gas\"",
                "/cavities/barrier/stream | \"barrier gas\" | NOT_FIXED | pressure",
                "/cavities/barrier/temperature | \"288 K\" | NOT_FIXED | pressure",
                "/streams/barrier gas/fluid | \"heliun\" | UNKNOWN_FLUID | \"helium\"",
                "/streams/barrier gas/mix | {\"mole\": {\"helium\": 1}} | CONFLICT | fluid",
                "/streams/drive gas/burn/fuel | \"metane\" | UNKNOWN_WORD | \"methane\"",
                "/streams/drive gas/burn/mixture ratio | 0 | OUT_OF_RANGE | ''",
                "/streams/air | {\"fluid\": \"helium\"} | BAD_NAME | another name",
                "/surroundings/pressure | \"14 psig\" | GAUGE_NEEDS_SURROUNDINGS | absolute",
                "/rotor/speed | 32000 | MISSING_UNIT | \"32000 rpm\"",
                "/rotor/speed | \"-3 rpm\" | OUT_OF_RANGE | ''",
                "/cavitys | [] | UNKNOWN_FIELD | \"cavities\"",
                "/cavities/barrier/wall | {\"conductance\": \"4 W/K\"} | MISSING_FIELD | ''",
                "/cavities/barrier/wall | {\"conductance\": \"4 W/K\", \"cavity\": \"barrier\"} | SAME_CAVITY | ''",
                "/cavities/barrier/wall | {\"conductance\": \"4 W/K\", \"area\": \"3 cm2\", \"temperature\": \"9 K\"}"
                        + " | WRONG_DIMENSION | W/(m2 K)",
                "/cavities/barrier/disc | {\"inner radius\": \"9 mm\", \"outer radius\": \"8 mm\", \"gap\": \"1 mm\"}"
                        + " | OUT_OF_RANGE | ''",
                "/duty | [{\"name\": \"start\", \"set\": {\"/cavities/barier/pressure\": \"3 MPa\"}}]"
                        + " | UNKNOWN_PLACE | \"barrier\"",
                "/duty | [{\"name\": \"start\", \"set\": {\"/cavities/disc cavity/presure\": \"3 MPa\"}}]"
                        + " | UNKNOWN_PLACE | \"pressure\"",
                "/duty | [{\"name\": \"start\", \"set\": {\"cavities\": \"3 MPa\"}}] | UNKNOWN_PLACE | /passages",
                "/duty | [{\"name\": \"start\", \"set\": {\"/cavities/disc cavity\": \"3 MPa\"}}]"
                        + " | UNKNOWN_PLACE | field",
                "/duty | [{\"name\": \"start\", \"set\": {\"/cavities/disc cavity/pressure\": \"3 mm\"}}]"
                        + " | WRONG_DIMENSION | 3.1 MPa",
                "/duty | [{\"name\": \"start\", \"set\": {\"/cavities/disc cavity/pressure\": 3}}]"
                        + " | MISSING_UNIT | \"3 MPa\"",
                "/duty | [{\"name\": \"start\", \"duration\": \"-3 s\"}] | OUT_OF_RANGE | ''",
                "/duty | [{\"name\": \"start\", \"closed\": [\"chek valve\"]}] | UNKNOWN_PASSAGE | \"check valve\"",
                "/duty | [{\"name\": \"start\"}, {\"name\": \"start\"}] | DUPLICATE_NAME | its own",
                "/criteria | {\"ring pressure margin\": \"0.14 MPs\"} | UNKNOWN_UNIT | MPa",
                "/faults | \"automatik\" | UNKNOWN_WORD | \"automatic\"",
                "/uncertain | {\"/passages/ring A/clearanc\": {\"distribution\": \"normal\", \"mean\": \"1 um\","
                        + " \"sigma\": \"1 um\"}} | UNKNOWN_PLACE | \"clearance\"",
                "/uncertain | {\"/passages/ring A/clearance\": {\"distribution\": \"normal\", \"mean\": \"1 um\"}}"
                        + " | MISSING_FIELD | ''",
                "/uncertain | {\"/passages/ring A/clearance\": {\"distribution\": \"uniform\", \"low\": \"1 kPa\","
                        + " \"high\": \"2 um\"}} | WRONG_DIMENSION | 0.08 mm",
                "/uncertain | {\"/passages/ring A/type\": {\"distribution\": \"uniform\", \"low\": 1, \"high\": 2}}"
                        + " | UNKNOWN_PLACE | ''",
                "/supply | {\"gas\": \"barrier gass\"} | UNKNOWN_STREAM | \"barrier gas\"",
                "/campaign | {\"attempts\": 3, \"gas price\": \"9 EUR/kg\", \"bottle price\": \"9 USD\"}"
                        + " | CONFLICT | one",
                "/purgewright | \"1\" | WRONG_TYPE | write 1"
            })
    void aSlipIsNamedWithItsPlaceAndWhatWouldBeRight(String pointer, String json, String key, String suggestion) {
        CaseDocument document = at(pointer, json);
        CaseProblem problem = only(document);
        assertThat(problem.key()).isEqualTo(key);
        assertThat(problem.suggestion()).contains(suggestion);
        assertThat(problem.message()).isNotBlank();
        assertThat(problem.place()).isNotEmpty();
        assertThat(problem.line()).isEqualTo(document.line(problem.place())).isPositive();
        assertThat(problem.column()).isPositive();
    }

    /** The changed document, written and read again, so that lines count. */
    private static CaseDocument at(String pointer, String json) {
        return CaseDocument.parse(MINIMAL.withJson(pointer, json).toJson());
    }

    @ParameterizedTest(name = "without {0}: {1}")
    @CsvSource(
            delimiter = '|',
            value = {
                "/passages/ring A/clearance | MISSING_FIELD | /passages/ring A",
                "/passages/ring A/type | MISSING_FIELD | /passages/ring A",
                "/passages/ring A/name | MISSING_FIELD | /passages/1",
                "/cavities/barrier/role | MISSING_FIELD | /cavities/barrier",
                "/cavities/disc cavity/stream | STREAM_NEEDED | /cavities/disc cavity",
                "/cavities/disc cavity/temperature | TEMPERATURE_NEEDED | /cavities/disc cavity",
                "/cavities/fuel overboard/temperature | TEMPERATURE_NEEDED | /cavities/fuel overboard",
                "/streams/barrier gas/fluid | MISSING_FIELD | /streams/barrier gas",
                "/streams/drive gas/burn/pressure | MISSING_FIELD | /streams/drive gas/burn",
                "/purgewright | MISSING_FIELD | ''"
            })
    void whatIsMissingIsNamed(String pointer, String key, String place) {
        CaseProblem problem = only(MINIMAL.without(pointer));
        assertThat(problem.key()).isEqualTo(key);
        assertThat(problem.place()).isEqualTo(place);
        assertThat(problem.line()).isPositive();
    }

    @Test
    void aCavityConnectedToNothingIsNamed() {
        CaseProblem problem = only(MINIMAL.withJson("/cavities/-", "{\"name\": \"lonely\", \"role\": \"other\"}"));
        assertThat(problem.key()).isEqualTo("ISOLATED_CAVITY");
        assertThat(problem.place()).isEqualTo("/cavities/lonely");
    }

    @Test
    void cavitiesThatNothingHoldsAreNamed() {
        CaseProblem problem = only(
                MINIMAL.withJson("/cavities/-", "{\"name\": \"p\", \"role\": \"other\"}")
                        .withJson("/cavities/-", "{\"name\": \"q\", \"role\": \"other\"}")
                        .withJson(
                                "/passages/-",
                                "{\"name\": \"pq\", \"from\": \"p\", \"to\": \"q\", \"type\": \"orifice\", \"diameter\": \"1 mm\"}"));
        assertThat(problem.key()).isEqualTo("NO_BOUNDARY");
        assertThat(problem.message()).contains("\"p\", \"q\"");
    }

    @Test
    void allErrorsOfAFileComeAtOnceInItsOrder() {
        CaseDocument bad = CaseDocument.parse(MINIMAL.withJson("/rotor/speed", "32000")
                .with("/streams/barrier gas/fluid", "heliun")
                .with("/cavities/disc cavity/pressure", "1.9 Mpa")
                .with("/passages/oxygen seal/from", "nowhere")
                .with("/passages/ring A/clearance", "0 mm")
                .withJson("/passages/ring B/colour", "\"red\"")
                .toJson());
        assertThat(problems(bad))
                .extracting(CaseProblem::key)
                .containsExactly(
                        "MISSING_UNIT",
                        "UNKNOWN_FLUID",
                        "UNKNOWN_UNIT",
                        "UNKNOWN_CAVITY",
                        "OUT_OF_RANGE",
                        "UNKNOWN_FIELD");
        assertThat(problems(bad)).extracting(CaseProblem::place).contains("/passages/ring A/clearance");
        assertThat(problems(bad)).extracting(CaseProblem::line).isSorted();
    }

    @Test
    void manyErrorsAreCutOff() {
        CaseDocument bad = MINIMAL;
        for (int i = 0; i < 300; i++) {
            bad = bad.withJson("/rotor/x" + i, "1");
        }
        List<CaseProblem> problems = problems(bad);
        assertThat(problems).hasSize(201);
        assertThat(problems.get(200).message()).contains("may be more");
    }

    @Test
    void fractionsMustAddUp() {
        CaseProblem low =
                only(at("/streams/barrier gas", "{\"mix\": {\"mole\": {\"helium\": 0.9, \"nitrogen\": 0.07}}}"));
        assertThat(low.key()).isEqualTo("FRACTIONS_SUM");
        assertThat(low.place()).isEqualTo("/streams/barrier gas/mix/mole");
        assertThat(low.suggestion()).contains("0.03 is missing");
        Case good =
                read(at("/streams/barrier gas", "{\"mix\": {\"mass\": {\"helium\": \"90 %\", \"nitrogen\": 0.1}}}"));
        assertThat(good.streams())
                .contains(new StreamDefinition.Mix("barrier gas", Map.of("helium", 0.9, "nitrogen", 0.1), false));
        Case measured = read(at("/streams/drive gas", "{\"measured\": {\"H2\": 0.25, \"CO\": 0.75}}"));
        assertThat(measured.streams())
                .contains(new StreamDefinition.Measured("drive gas", Map.of("H2", 0.25, "CO", 0.75)));
    }

    @Test
    void gaugePressuresAreAboveTheSurroundingsOfTheCase() {
        Case read = read(MINIMAL.with("/surroundings/pressure", "90 kPa")
                .with("/cavities/disc cavity/pressure", "10 bar gauge"));
        assertThat(read.cavity("disc cavity").pressure()).isEqualTo(1.09e6);
        Case standard = read(MINIMAL.without("/surroundings").with("/cavities/disc cavity/pressure", "10 bar gauge"));
        assertThat(standard.cavity("disc cavity").pressure()).isEqualTo(1.101325e6);
        assertThat(standard.surroundings()).isEqualTo(new Case.Surroundings(101325, 288.15));
    }

    @Test
    void aPhaseSetsItsValues() {
        CaseDocument with = MINIMAL.withJson("/duty", """
                [{"name": "start", "duration": "3 s", "speed": "20000 rpm", "ramp": "1 s",
                  "set": {"/cavities/disc cavity/pressure": "1 MPa", "/passages/ring A/count": 2}},
                 {"name": "chill", "closed": ["check valve"]}]""");
        Case read = read(with);
        assertThat(read.duty()).hasSize(2);
        DutyPhase start = read.duty().get(0);
        assertThat(start.duration()).isEqualTo(3);
        assertThat(start.ramp()).isEqualTo(1);
        assertThat(start.set())
                .containsEntry("/rotor/speed", "20000 rpm")
                .containsEntry("/cavities/disc cavity/pressure", "1 MPa");
        Case inStart = read(with.with(start));
        assertThat(inStart.rotor().speed()).isCloseTo(20000 * Math.PI / 30, within(1e-9));
        assertThat(inStart.cavity("disc cavity").pressure()).isEqualTo(1e6);
        assertThat(inStart.passage("ring A").count()).isEqualTo(2);
        assertThat(read(with.with(read.duty().get(1))).passage("check valve").closed())
                .isTrue();
        assertThat(read.passage("check valve").closed()).isFalse();
    }

    @Test
    void aPhaseThatMakesNoSenseIsNamed() {
        List<CaseProblem> problems = problems(MINIMAL.withJson(
                "/duty", "[{\"name\": \"start\", \"set\": {\"/cavities/barrier/pressure\": \"3 MPa\"}}]"));
        assertThat(problems).extracting(CaseProblem::key).containsExactly("STREAM_NEEDED", "TEMPERATURE_NEEDED");
        assertThat(problems).extracting(CaseProblem::place).containsOnly("/duty/start");
        assertThat(problems.get(0).message()).contains("/cavities/barrier");
    }

    @Test
    void theOtherSectionsAreReadInSi() {
        CaseDocument full = MINIMAL.withJson("/rotor", """
                        {"speed": "600 Hz", "whirl": "10 um", "bearing play": "0.4 mil", "segments": [
                          {"name": "disc", "material": "nickel alloy", "outer radius": "85 mm", "temperature": "700 K",
                           "E": "200 GPa", "density": "8190 kg/m3", "expansion": "13e-6 1/K"}]}""")
                .withJson("/duty", "[{\"name\": \"run\", \"duration\": \"2 min\"}]")
                .withJson("/supply", """
                        {"gas": "barrier gas", "cavity": "bottle line", "metering": "metering", "receiver": "purge inlet",
                         "bottles": {"volume": "50 L", "filling pressure": "200 bar", "temperature": "15 degC", "number": 12,
                                     "banks": 2},
                         "regulator": {"set pressure": "3.5 MPa", "droop": "12 kPa s/g", "minimum inlet margin": "1 MPa"},
                         "line": {"diameter": "10 mm", "length": "20 m"}}""")
                .withJson("/campaign", """
                        {"attempts": 5, "reserve": "20 %", "duty per attempt": ["run"], "gas price": "95 EUR/kg",
                         "holds": [{"name": "wait", "duration": "10 min", "phase": "run"}]}""")
                .withJson("/criteria", """
                        {"ring pressure margin": "0.14 MPa", "ring pressure ratio": 1.1, "monitored": true, "preset": "open",
                         "detection time": "20 ms", "note": "ours"}""")
                .withJson(
                        "/faults",
                        "[{\"name\": \"ring A gone\", \"set\": {\"/passages/ring A/clearance\": \"0.3 mm\"}, \"closed\": [\"check valve\"]}]")
                .withJson("/uncertain", """
                        {"/passages/ring A/clearance": {"distribution": "normal", "mean": "25 um", "sigma": "3 um"},
                         "/cavities/disc cavity/temperature": {"distribution": "normal", "mean": "960 K", "sigma": "20 degC"}}""")
                .withJson(
                        "/correlations",
                        "[{\"between\": [\"/passages/ring A/clearance\", \"/passages/ring B/clearance\"], \"coefficient\": 0.5}]")
                .withJson(
                        "/room",
                        "{\"volume\": \"400 m3\", \"ventilation\": \"0.2 m3/s\", \"vents\": [\"fuel overboard\"]}")
                .withJson(
                        "/waivers",
                        "[{\"finding\": \"F-1\", \"by\": \"A\", \"date\": \"2026-03-14\", \"reason\": \"test\"}]")
                .withJson("/instruments", """
                        [{"name": "PT1", "measures": "pressure", "cavity": "barrier", "uncertainty": "10 kPa",
                          "low redline": "5 bar gauge", "lag": "5 ms", "sample rate": "1 kHz", "persistence": 3}]""")
                .withJson("/plots", "{\"skyline\": {\"colour\": \"blue\", \"top\": 3, \"shown\": [true, \"4 mm\"]}}");
        Case read = read(full);
        assertThat(read.rotor().segments()).hasSize(1);
        assertThat(read.rotor().segments().get(0).modulus()).isEqualTo(200e9);
        assertThat(read.rotor().segments().get(0).poisson()).isEqualTo(0.3);
        assertThat(read.rotor().bearingPlay()).isCloseTo(1.016e-5, within(1e-12));
        assertThat(read.supply().bottles().fillingPressure()).isEqualTo(20e6);
        assertThat(read.supply().bottles().banks()).isEqualTo(2);
        assertThat(read.supply().regulator().droop()).isEqualTo(1.2e7);
        assertThat(read.supply().receiver()).isEqualTo("purge inlet");
        assertThat(read.campaign().reserve()).isEqualTo(0.2);
        assertThat(read.campaign().currency()).isEqualTo("EUR");
        assertThat(read.campaign().holds().get(0).duration()).isEqualTo(600);
        assertThat(read.criteria())
                .containsEntry("ring pressure margin", 0.14e6)
                .containsEntry("ring pressure ratio", 1.1)
                .containsEntry("monitored", true)
                .containsEntry("preset", "open")
                .containsEntry("detection time", 0.02)
                .doesNotContainKey("note");
        assertThat(read.extras())
                .containsOnlyKeys(
                        "supply",
                        "campaign",
                        "faults",
                        "uncertain",
                        "correlations",
                        "room",
                        "waivers",
                        "instruments",
                        "plots");
        assertThat(read.extras().get("faults").toString())
                .contains("automatic=true")
                .contains("ring A gone");
        assertThat(read.extras().get("uncertain").toString())
                .contains("sigma=20.0")
                .contains("mean=2.5E-5");
        assertThat(read.extras().get("instruments").toString())
                .contains("low redline=601325.0")
                .contains("uncertainty=10000.0");
        assertThat(read.extras().get("room").toString()).contains("volume=400.0");
    }

    @Test
    void theGapOfAFaceIsItsClearance() {
        CaseDocument face = MINIMAL.withJson(
                "/passages/ring A",
                "{\"name\": \"ring A\", \"from\": \"barrier\", \"to\": \"oxygen drain\", \"type\": \"face\", \"gap\": \"3 um\"}");
        assertThat(read(face).passage("ring A").clearance()).isEqualTo(3e-6);
    }

    @Test
    void defaultsOfATypeAreFilledIn() {
        assertThat(read(MINIMAL.without("/passages/metering/discharge coefficient"))
                        .passage("metering")
                        .number("discharge coefficient", Double.NaN))
                .isEqualTo(0.62);
        assertThat(read(MINIMAL.without("/passages/oxygen seal/arrangement"))
                        .passage("oxygen seal")
                        .word("arrangement", ""))
                .isEqualTo("straight");
    }

    @Test
    void aStandardFlowBecomesMassWithItsGas() {
        CaseDocument measured = MINIMAL.withJson("/passages/ring A", """
                {"name": "ring A", "from": "barrier", "to": "oxygen drain", "type": "measured", "test fluid": "nitrogen",
                 "flow": "40 L/min at 0 degC"}""");
        double nitrogen = Engines.embedded()
                .pure("nitrogen")
                .atPressureTemperature(101325, 273.15)
                .density();
        assertThat(read(measured).passage("ring A").number("flow", 0)).isCloseTo(0.04 / 60 * nitrogen, within(1e-15));
        // Elsewhere the gas is that of the supply.
        double helium = Engines.embedded()
                .pure("helium")
                .atPressureTemperature(101325, 273.15)
                .density();
        CaseDocument criterion = MINIMAL.withJson("/criteria", "{\"purge flow\": \"40 L/min at 0 degC\"}");
        assertThat((Double) read(criterion).criteria().get("purge flow")).isCloseTo(0.04 / 60 * helium, within(1e-15));
        CaseProblem slang = only(measured.with("/passages/ring A/flow", "12 scfm"));
        assertThat(slang.key()).isEqualTo("NEEDS_REFERENCE_STATE");
    }

    @Test
    void aStandardFlowOfAnUnknownGasIsRefusedAndNotGuessed() {
        CaseProblem problem = only(MINIMAL.withJson("/criteria", "{\"purge flow\": \"40 L/min at 0 degC\"}")
                .withJson("/streams/barrier gas", "{\"mix\": {\"mole\": {\"helium\": 0.5, \"argon\": 0.5}}}"));
        assertThat(problem.key()).isEqualTo("NEEDS_GAS");
    }

    @Test
    void aliasesOfFluidsAreTaken() {
        assertThat(read(MINIMAL.with("/streams/feed oxygen/fluid", "LOX")).streams())
                .contains(new StreamDefinition.Single("feed oxygen", "LOX"));
    }

    @Test
    void manyPhasesAndCavitiesAreReadQuickly() {
        CaseDocument big = MINIMAL.withJson("/duty", "[]");
        for (int i = 0; i < 20; i++) {
            big = big.withJson(
                    "/duty/-",
                    "{\"name\": \"phase " + i + "\", \"set\": {\"/cavities/disc cavity/pressure\": \"1." + i
                            + " MPa\"}}");
        }
        assertThat(read(big).duty()).hasSize(20);
    }
}
