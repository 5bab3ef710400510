package purgewright.hazard.service;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import purgewright.fluids.Engines;
import purgewright.hazard.criteria.SupplyRules;
import purgewright.hazard.finding.Finding;
import purgewright.hazard.finding.Verdict;
import purgewright.sealflow.casefile.CaseDocument;
import purgewright.sealflow.casefile.CaseException;
import purgewright.sealflow.network.SolveResult;

@DisplayName(
        "The stated supply is the purge: its gas, the cavity it feeds, what regulator and line let through, and all gas counted")
class SupplyGasTest {
    private static final String BOTTLES =
            "\"bottles\": {\"volume\": \"50 L\", \"filling pressure\": \"200 bar\", \"temperature\": \"15 degC\", \"number\": 4}";
    private static final String REGULATOR = ", \"regulator\": {\"set pressure\": \"%s\", \"droop\": \"%s MPa s/kg\"}";
    private static final PlanSettings QUICK =
            PlanSettings.DEFAULT.withSamples(0, 1).withRedline(false);

    private static String text(String sample) throws IOException {
        return Files.readString(Path.of("..", "samples", "cases", sample + ".json"));
    }

    /** The smallest case with a minute of duty, one attempt, and the supply given. */
    private static String asTyped(String supply) throws IOException {
        return text("minimal")
                .replace(
                        "\"purgewright\": 1,",
                        "\"purgewright\": 1, \"duty\": [{\"name\": \"steady\", \"duration\": \"60 s\"}],"
                                + " \"campaign\": {\"attempts\": 1}, \"supply\": {" + supply + "},");
    }

    private static CaseDocument minimal(String supply) throws IOException {
        return CaseDocument.parse(asTyped(supply));
    }

    private static CaseDocument fed(String rest) throws IOException {
        return minimal("\"gas\": \"barrier gas\", \"cavity\": \"bottle line\", " + rest);
    }

    private static CheckResult check(CaseDocument document) {
        try (CaseService service = new CaseService(Engines.embedded(), 1)) {
            return service.check(document, new CheckSettings(List.of(), false), Progress.NONE);
        }
    }

    private static List<Finding> lacks(CaseDocument document) {
        return check(document).findings().stream()
                .filter(f -> f.id().startsWith(SupplyRules.SUPPLY))
                .toList();
    }

    private static RunResult run(CaseDocument document) {
        return new RunService(Engines.embedded()).run(document, Path.of("."), RunSettings.DEFAULT, Progress.NONE);
    }

    private static PlanResult plan(CaseDocument document, PlanSettings settings) {
        return new PlanService(Engines.embedded()).plan(document, Path.of("."), settings, Progress.NONE);
    }

    private static void refused(CaseDocument document, String place, String words) {
        assertThatThrownBy(() -> run(document))
                .isInstanceOfSatisfying(
                        CaseException.class,
                        e -> assertThat(e.problems().get(0).place()).isEqualTo(place))
                .hasMessageContaining(words);
        assertThatThrownBy(() -> plan(document, QUICK))
                .isInstanceOf(CaseException.class)
                .hasMessageContaining(words);
    }

    @Test
    void bottlesOfAnotherGasAreNoPurge() throws IOException {
        String cavity = "\"cavity\": \"bottle line\", " + BOTTLES;
        CaseDocument oxygen = minimal("\"gas\": \"feed oxygen\", " + cavity);
        CheckResult result = check(oxygen);
        assertThat(result.verdict()).isEqualTo(Verdict.FALLS_SHORT);
        assertThat(lacks(oxygen)).singleElement().satisfies(f -> {
            assertThat(f.where()).isEqualTo("/supply/gas");
            assertThat(f.what()).contains("feed oxygen").contains("barrier gas").contains("not inert");
        });
        refused(oxygen, "/supply/gas", "feed oxygen");
        // Inert gas of another kind may part them or not: with it nothing was computed.
        CaseDocument nitrogen = CaseDocument.parse(minimal("\"gas\": \"bottle gas\", " + cavity)
                .toJson()
                .replace(
                        "\"barrier gas\": {\"fluid\": \"helium\"}",
                        "\"barrier gas\": {\"fluid\": \"helium\"}, \"bottle gas\": {\"fluid\": \"nitrogen\"}"));
        assertThat(check(nitrogen).verdict()).isEqualTo(Verdict.NOT_ESTABLISHED);
        refused(nitrogen, "/supply/gas", "bottle gas");
        // The same fluid by another name is the same gas.
        CaseDocument named =
                CaseDocument.parse(nitrogen.toJson().replace("\"fluid\": \"nitrogen\"", "\"fluid\": \"helium\""));
        assertThat(lacks(named)).isEmpty();
        assertThat(run(named).verdict()).isIn(Verdict.HOLDS, Verdict.THIN);
    }

    @Test
    void aSizingWithBottlesOfAnotherGasFindsNoDesign() throws IOException {
        try (CaseService service = new CaseService(Engines.embedded(), 1)) {
            assertThat(service.size(
                                    minimal("\"gas\": \"feed oxygen\", \"cavity\": \"bottle line\", " + BOTTLES),
                                    SizeSettings.DEFAULT
                                            .withScenarios(false, false)
                                            .withWear(false)
                                            .withReleases(false),
                                    Progress.NONE)
                            .verdict())
                    .isEqualTo(Verdict.FALLS_SHORT);
        }
    }

    @Test
    void aSupplyLedToWhereNoPurgeComesFromIsNamed() throws IOException {
        for (String cavity : List.of("disc cavity", "impeller back face", "fuel overboard")) {
            CaseDocument led = minimal("\"gas\": \"barrier gas\", \"cavity\": \"" + cavity + "\", " + BOTTLES);
            assertThat(lacks(led)).as(cavity).singleElement().satisfies(f -> {
                assertThat(f.verdict()).isEqualTo(Verdict.FALLS_SHORT);
                assertThat(f.where()).isEqualTo("/supply/cavity");
                assertThat(f.what()).contains(cavity).contains("no purge");
            });
            refused(led, "/supply/cavity", cavity);
        }
        // A gas that stands in no supply cavity feeds none: what the barrier lives on is not known.
        assertThat(lacks(minimal("\"gas\": \"feed oxygen\", " + BOTTLES)))
                .singleElement()
                .satisfies(f -> assertThat(f.verdict()).isEqualTo(Verdict.NOT_ESTABLISHED));
    }

    @Test
    void aPressureThatTheRegulatorOrTheLineDoesNotLetThroughIsNotHeldByACheck() throws IOException {
        // 6.929 g/s at 3.5 MPa; by hand 3.5 MPa + 14 MPa s/kg x 6.929 g/s = 3.597 MPa must be set.
        assertThat(lacks(fed(BOTTLES + String.format(REGULATOR, "3.598 MPa", "14"))))
                .isEmpty();
        assertThat(lacks(fed(BOTTLES + String.format(REGULATOR, "3.59 MPa", "14"))))
                .singleElement()
                .satisfies(f -> {
                    assertThat(f.verdict()).isEqualTo(Verdict.FALLS_SHORT);
                    assertThat(f.value()).isCloseTo(3.493e6, within(1e3));
                    assertThat(f.limit()).isEqualTo(3.5e6);
                });
        assertThat(lacks(fed(BOTTLES + String.format(REGULATOR, "0.35 MPa", "0"))))
                .singleElement()
                .satisfies(f -> assertThat(f.value()).isCloseTo(0.35e6, within(1.0)));
        // 600 MPa s/kg x 6.929 g/s = 4.157 MPa of droop: nothing is left of 3.63 MPa.
        assertThat(lacks(fed(BOTTLES + String.format(REGULATOR, "3.63 MPa", "600"))))
                .singleElement()
                .satisfies(f -> assertThat(f.value()).isZero());
        // A line of 2 mm and 60 m cannot pass it; one of 20 mm and 1 m loses nothing to speak of.
        String set = BOTTLES + String.format(REGULATOR, "3.51 MPa", "0");
        assertThat(lacks(fed(set + ", \"line\": {\"diameter\": \"20 mm\", \"length\": \"1 m\"}")))
                .isEmpty();
        assertThat(lacks(fed(set + ", \"line\": {\"diameter\": \"2 mm\", \"length\": \"60 m\"}")))
                .hasSize(1);
        assertThat(
                        lacks(
                                fed(
                                        "\"plant\": {\"pressure\": \"3.51 MPa\"}, \"line\": {\"diameter\": \"2 mm\", \"length\": \"60 m\"}")))
                .hasSize(1);
    }

    @Test
    void aCheckAsksTheRegulatorThatARunFollows() throws IOException {
        CaseDocument document = fed(BOTTLES + String.format(REGULATOR, "3.55 MPa", "14")
                + ", \"line\": {\"diameter\": \"8 mm\", \"length\": \"12 m\", \"loss coefficient\": 15}");
        double given = lacks(document).get(0).value();
        // What a run settles at lies between that, at the flow of the full pressure, and the pressure judged; judged
        // there, the two agree.
        double[] ran = run(document).channel("pressure of bottle line").values();
        assertThat(ran[0]).isBetween(given, 3.5e6);
        double settled = ran[0];
        double warm = run(document).channel("temperature of bottle line").values()[0];
        CaseDocument there = document.with("/cavities/bottle line/temperature", warm + " K");
        assertThat(lacks(there.with("/cavities/bottle line/pressure", settled * (1 - 1e-4) + " Pa")))
                .isEmpty();
        assertThat(lacks(there.with("/cavities/bottle line/pressure", settled * (1 + 1e-3) + " Pa")))
                .hasSize(1);
    }

    @Test
    void aPhaseThatSetsThePressureAloneSetsTheRegulatorToItInCheckAndRunAlike() throws IOException {
        String spaced = text("spaced-lox-methane");
        assertThat(lacks(CaseDocument.parse(spaced))).isEmpty();
        CaseDocument alone =
                CaseDocument.parse(spaced.replaceAll(",\\s*\"/supply/regulator/set pressure\": \"2.08 MPa\"", ""));
        assertThat(lacks(alone)).hasSize(4).allSatisfy(f -> {
            assertThat(f.limit()).isEqualTo(2.0e6);
            assertThat(f.mend()).contains("/supply/regulator/set pressure");
        });
    }

    @Test
    void aSizingMovesTheRegulatorWithThePressureItChooses() throws IOException {
        try (CaseService service = new CaseService(Engines.embedded(), 1)) {
            // Set to 0.35 MPa the barrier is lost; the design needs more, and says that the regulator must be set for
            // it.
            var size = service.size(
                    fed(BOTTLES + String.format(REGULATOR, "0.35 MPa", "14")),
                    SizeSettings.DEFAULT.withScenarios(false, false).withWear(false),
                    Progress.NONE);
            assertThat(size.feasible()).isTrue();
            assertThat(size.design().get(0).value()).isGreaterThan(0.36e6);
            assertThat(size.verdict()).isIn(Verdict.HOLDS, Verdict.THIN);
            assertThat(size.cautions()).anySatisfy(c -> assertThat(c).contains("regulator is taken to be set"));
        }
    }

    /** A second line to the barrier, with gas that no supply is stated for. */
    private static CaseDocument twoSources() throws IOException {
        return CaseDocument.parse(
                asTyped("\"gas\": \"barrier gas\", \"cavity\": \"bottle line\", " + BOTTLES
                                + String.format(REGULATOR, "3.5 MPa", "0"))
                        .replace(
                                "{\"name\": \"purge inlet\",",
                                "{\"name\": \"second line\", \"role\": \"supply\", \"stream\": \"barrier gas\", \"pressure\": \"3.5 MPa\","
                                        + " \"temperature\": \"288 K\"}, {\"name\": \"purge inlet\",")
                        .replace(
                                "{\"name\": \"metering\",",
                                "{\"name\": \"second metering\", \"from\": \"second line\", \"to\": \"barrier\", \"type\": \"orifice\","
                                        + " \"diameter\": \"1.8 mm\", \"discharge coefficient\": 0.84}, {\"name\": \"metering\","));
    }

    @Test
    void aSecondSourceWithoutASupplyIsCountedAndNoPlainAnswer() throws IOException {
        assertThat(check(twoSources()).cautions())
                .anyMatch(c -> c.startsWith("The stated supply does not feed second line:"));
        RunResult run = run(twoSources());
        double second = run.gas().elsewhere().get("second line");
        // One minute of what a check has through the second orifice; the two are alike, but for a check valve's loss
        // before one of them.
        double rate = ((SolveResult.Converged)
                        check(twoSources()).phases().get(0).solve())
                .passages()
                .get("second metering")
                .flow()
                .massFlow();
        assertThat(second)
                .isCloseTo(60 * rate, within(0.01 * second))
                .isCloseTo(run.gas().used(), within(0.05 * second));
        assertThat(run.verdict()).isEqualTo(Verdict.NOT_ESTABLISHED);
        assertThat(run.findings().get(0).finding().where()).isEqualTo("/cavities/second line");
        assertThat(run.notes().get(0)).contains("second line gives 0.3").contains("not drawn from the supply");
        PlanResult plan = plan(twoSources(), QUICK);
        assertThat(plan.use().elsewhere().get("second line")).isCloseTo(second, within(1e-9));
        assertThat(plan.use().perAttempt()).isCloseTo(run.gas().used(), within(1e-9));
        assertThat(plan.order().enough()).isFalse();
        assertThat(plan.unestablished()).singleElement().satisfies(why -> assertThat(why)
                .contains("second line"));
        PlanResult again = plan(twoSources(), QUICK.withReadings(List.of(new RunSettings.BottleReading(2e7, 288))));
        assertThat(again.again().answer()).isFalse();
        assertThat(again.again().what()).contains("not established").contains("second line");
        assertThat(plan(fed(BOTTLES + String.format(REGULATOR, "3.5 MPa", "0")), QUICK)
                        .order()
                        .enough())
                .isTrue();
    }

    @Test
    void aDiscCavityFilledFromElsewhereBeforeAStartIsToldOfWithItsKilograms() throws IOException {
        CaseDocument spaced = CaseDocument.parse(text("spaced-lox-methane"));
        RunResult run = run(spaced);
        // 1.297 g/s through the hot seal for 60, 180 and 60 s.
        assertThat(run.gas().elsewhere().get("disc cavity")).isCloseTo(1.297e-3 * 300, within(1e-3));
        assertThat(run.verdict()).isEqualTo(Verdict.HOLDS);
        assertThat(run.notes().get(0)).contains("disc cavity gives 0.389").contains("must hold that besides");
        PlanResult plan = plan(spaced, QUICK);
        // The hold of four minutes before each attempt besides.
        assertThat(plan.use().elsewhere().get("disc cavity")).isCloseTo(1.297e-3 * 540, within(1e-3));
        assertThat(plan.notes()).anySatisfy(n -> assertThat(n).contains("disc cavity gives 0.700"));
        assertThat(plan.unestablished()).isEmpty();
    }

    @Test
    void withoutARegulatorBottlesAreOfUseAsFarDownAsTheBarrierHolds() throws IOException {
        String small = asTyped(
                        "\"gas\": \"barrier gas\", \"cavity\": \"bottle line\", \"bottles\": {\"volume\": \"50 L\","
                                + " \"filling pressure\": \"%s\", \"temperature\": \"15 degC\", \"number\": %s}")
                .replace("\"diameter\": \"1.8 mm\"", "\"diameter\": \"0.8 mm\"");
        PlanSettings looked = QUICK.withRedline(true);
        PlanResult full = plan(CaseDocument.parse(String.format(small, "60 bar", "4")), looked);
        double least = full.supply().leastInlet();
        assertThat(least).isGreaterThan(1e6).isEqualTo(full.supply().redline());
        assertThat(full.unestablished()).isEmpty();
        // Judged by itself the barrier holds there and is lost below; the plan's gas is at another temperature.
        CaseDocument judged =
                CaseDocument.parse(text("minimal").replace("\"diameter\": \"1.8 mm\"", "\"diameter\": \"0.8 mm\""));
        assertThat(check(judged.with("/cavities/bottle line/pressure", 1.01 * least + " Pa"))
                        .verdict())
                .isIn(Verdict.HOLDS, Verdict.THIN);
        assertThat(check(judged.with("/cavities/bottle line/pressure", 0.85 * least + " Pa"))
                        .verdict())
                .isEqualTo(Verdict.FALLS_SHORT);
        // Bottles that end the phase below it are still looked at up to their filling.
        PlanResult low = plan(CaseDocument.parse(String.format(small, (least * 1.05 / 1e5) + " bar", "2")), looked);
        assertThat(low.supply().leastInlet()).isBetween(least, 1.05 * least); // the gas is colder then
        // And never so high: nothing is known of where they are of use.
        PlanResult never = plan(CaseDocument.parse(String.format(small, "11 bar", "400")), looked);
        assertThat(never.order().enough()).isFalse();
        assertThat(never.notes())
                .anySatisfy(n -> assertThat(n).contains("Not established").contains("full bottles"));
        // Not looked for is not known.
        PlanResult blind = plan(CaseDocument.parse(String.format(small, "60 bar", "4")), QUICK);
        assertThat(blind.order().enough()).isFalse();
        assertThat(blind.unestablished()).singleElement().satisfies(why -> assertThat(why)
                .contains("was not looked for"));
    }
}
