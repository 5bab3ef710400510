package purgewright.hazard.service;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Map;
import java.util.function.Function;
import java.util.stream.Collectors;
import org.junit.jupiter.api.Test;
import purgewright.fluids.Engines;
import purgewright.hazard.criteria.AxialForce;
import purgewright.hazard.fault.FaultResult;
import purgewright.hazard.fault.FaultResult.Row;
import purgewright.hazard.finding.Verdict;
import purgewright.sealflow.casefile.CaseDocument;

/** Faults of the case's own, common causes, instruments with redlines, and the axial force, from the case's text. */
class StatedFaultsTest {
    private static Map<String, Row> rows(String extra, String... edits) throws IOException {
        return result(extra, edits).rows().stream().collect(Collectors.toMap(Row::scenario, Function.identity()));
    }

    private static FaultResult result(String extra, String... edits) throws IOException {
        String text = Files.readString(Path.of("..", "samples", "cases", "minimal.json"));
        for (int i = 0; i < edits.length; i += 2) {
            assertThat(text).contains(edits[i]);
            text = text.replace(edits[i], edits[i + 1]);
        }
        text = text.replaceFirst("\"purgewright\": 1,", "\"purgewright\": 1,\n" + extra);
        try (CaseService service = new CaseService(Engines.embedded(), 2)) {
            return service.fail(CaseDocument.parse(text), FailSettings.DEFAULT.withTimes(false), Progress.NONE);
        }
    }

    /** The verdict of a shut metering with runs over time, the barrier holding five litres. */
    private static Row raced(String criteria) throws IOException {
        String text = Files.readString(Path.of("..", "samples", "cases", "minimal.json"))
                .replace("\"20 cm3\"", "\"5 L\"")
                .replaceFirst(
                        "\"purgewright\": 1,",
                        "\"purgewright\": 1, \"criteria\": {" + criteria
                                + "}, \"faults\": {\"automatic\": false, \"extra\": [{\"name\": \"shut\", \"closed\": [\"metering\"]}]},");
        try (CaseService service = new CaseService(Engines.embedded(), 2)) {
            return service.fail(CaseDocument.parse(text), FailSettings.DEFAULT, Progress.NONE)
                    .rows()
                    .get(0);
        }
    }

    @Test
    void aLossSlowerThanDetectionShutdownAndCoastDownIsThinAndAQuickerOneFallsShort() throws IOException {
        Row slow = raced("\"detection time\": \"0.1 s\", \"shutdown time\": \"0.2 s\", \"coast-down time\": \"0.5 s\"");
        // 5 L of helium at 1.55 MPa and 289 K are 13 g; 6.9 g/s leave: below the greater neighbour's 0.43 MPa after
        // some tau ln(1.55/0.43) = 2.4 s, tau = 13/6.9 s, isothermal; adiabatic, the pressure falls quicker.
        assertThat(slow.timeToLoss()).isBetween(1.2, 2.6);
        assertThat(slow.timeNeeded()).isBetween(0.7, 0.81);
        assertThat(slow.verdict()).isEqualTo(Verdict.THIN);
        Row late = raced("\"detection time\": \"5 s\", \"shutdown time\": \"0.2 s\", \"coast-down time\": \"0.5 s\"");
        assertThat(late.timeToLoss()).isEqualTo(slow.timeToLoss());
        assertThat(late.timeNeeded()).isBetween(5.6, 5.71);
        assertThat(late.verdict()).isEqualTo(Verdict.FALLS_SHORT);
        // A machine that needs as long to stand as the gas lasts, and a little more.
        Row coasting =
                raced("\"detection time\": \"0.1 s\", \"shutdown time\": \"0.2 s\", \"coast-down time\": \"2.6 s\"");
        assertThat(coasting.verdict()).isEqualTo(Verdict.FALLS_SHORT);
    }

    private static final String RINGS =
            "{\"name\": \"%s\", \"set\": {\"/passages/%s/clearance\": \"%s\"}, \"common cause\": \"rub\"}";

    @Test
    void faultsOfOneCauseComeTogetherAndEnterTheVerdictAndWhatIsNotCredibleDoesNot() throws IOException {
        Map<String, Row> rows = rows("\"faults\": {\"automatic\": false, \"extra\": ["
                + String.format(RINGS, "ring A rubbed", "ring A", "0.06 mm") + ","
                + String.format(RINGS, "ring B rubbed", "ring B", "0.09 mm")
                + ", {\"name\": \"meteorite\", \"closed\": [\"metering\"], \"credible\": false}]},");
        assertThat(rows).containsOnlyKeys("ring A rubbed", "ring B rubbed", "meteorite", "common cause: rub");
        Row both = rows.get("common cause: rub");
        assertThat(both.single()).isTrue();
        double together = both.margins().get("barrier-pressure");
        assertThat(together)
                .isLessThan(rows.get("ring A rubbed").margins().get("barrier-pressure"))
                .isLessThan(rows.get("ring B rubbed").margins().get("barrier-pressure"));
        assertThat(rows.get("meteorite").credible()).isFalse();
        assertThat(rows.get("meteorite").pairsLost()).isNotEmpty();
    }

    @Test
    void anInstrumentWithARedlineSeesOnlyWhatPassesItAndNoInstrumentMakesAFaultHidden() throws IOException {
        String faults =
                "\"faults\": {\"automatic\": false, \"extra\": [{\"name\": \"shut\", \"closed\": [\"metering\"]}]},";
        String low = ",\"low redline\": \"0.8 MPa\"}],";
        String gauge =
                "\"instruments\": [{\"name\": \"PT-1\", \"measures\": \"pressure\", \"cavity\": \"%s\", \"uncertainty\": \"20 kPa\"";
        assertThat(rows(faults + String.format(gauge, "barrier") + low)
                        .get("shut")
                        .seenBy())
                .containsExactly("PT-1");
        // Behind the shut orifice the pressure rises: the low redline is not passed.
        Row upstream = rows(faults + String.format(gauge, "purge inlet") + low).get("shut");
        assertThat(upstream.seenBy()).isEmpty();
        assertThat(upstream.hidden()).isTrue();
        assertThat(upstream.verdict()).isEqualTo(Verdict.FALLS_SHORT);
    }

    @Test
    void aRedlineThatIsPassedWithNothingFailedSeesNothing() throws IOException {
        String faults =
                "\"faults\": {\"automatic\": false, \"extra\": [{\"name\": \"shut\", \"closed\": [\"metering\"]}]},";
        String gauge =
                "\"instruments\": [{\"name\": \"PT-1\", \"measures\": \"pressure\", \"cavity\": \"barrier\", \"uncertainty\": \"20 kPa\", \"low redline\": \"9 MPa\"}],";
        Row shut = rows(faults + gauge).get("shut");
        assertThat(shut.seenBy()).isEmpty();
        assertThat(shut.hidden()).isTrue();
        assertThat(shut.verdict()).isEqualTo(Verdict.FALLS_SHORT);
        assertThat(result(faults + gauge).cautions())
                .anyMatch(c -> c.startsWith("The redline of PT-1 is passed with nothing failed (steady)"));
    }

    @Test
    void whereNoRunSaysWhenAFaultIsSeenTheInstrumentsOwnDelayCounts() throws IOException {
        String faults =
                "\"faults\": {\"automatic\": false, \"extra\": [{\"name\": \"shut\", \"closed\": [\"metering\"]}]},";
        String gauge =
                "\"instruments\": [{\"name\": \"PT-1\", \"measures\": \"pressure\", \"cavity\": \"barrier\", \"lag\": \"7 s\"}],";
        // 7 s, 0.5 s until valves are shut, 3 s until the rotor stands.
        assertThat(rows(faults + gauge).get("shut").timeNeeded()).isEqualTo(10.5);
    }

    @Test
    void aFaultMayOpenASealFurtherThanItWears() throws IOException {
        Map<String, Row> rows = rows(
                "\"faults\": {\"automatic\": false, \"extra\": ["
                        + String.format(RINGS, "ring A rubbed", "ring A", "0.06 mm") + "]},",
                "\"0.025 mm\"",
                "\"0.025 mm\", \"worn clearance\": \"0.03 mm\"");
        assertThat(rows.get("ring A rubbed").verdict()).isNotEqualTo(Verdict.NOT_CONVERGED);
    }

    @Test
    void theAxialForceIsHeldAgainstAStatedCapacityOnly() throws IOException {
        String faults =
                "\"faults\": {\"automatic\": false, \"extra\": [{\"name\": \"blocked\", \"closed\": [\"hot drain line\"]}]},";
        String disc = "{\"name\": \"hot drain\",     \"role\": \"drain\"}";
        String with =
                "{\"name\": \"hot drain\",     \"role\": \"drain\", \"disc\": {\"inner radius\": \"20 mm\", \"outer radius\": \"60 mm\", \"gap\": \"3 mm\"}}";
        Row silent = rows(faults, disc, with).get("blocked");
        assertThat(silent.verdicts()).doesNotContainKey(AxialForce.KEY);
        // pi (0.06^2 - 0.02^2) times a rise of about 1.4 MPa: some 14 kN.
        Row weak = rows(faults + "\"criteria\": {\"axial force capacity\": \"2 kN\"},", disc, with)
                .get("blocked");
        assertThat(weak.verdicts().get(AxialForce.KEY)).isEqualTo(Verdict.FALLS_SHORT);
        assertThat(weak.verdict()).isEqualTo(Verdict.FALLS_SHORT);
        Row strong = rows(faults + "\"criteria\": {\"axial force capacity\": \"100 kN\"},", disc, with)
                .get("blocked");
        assertThat(strong.verdicts().get(AxialForce.KEY)).isEqualTo(Verdict.HOLDS);
    }
}
