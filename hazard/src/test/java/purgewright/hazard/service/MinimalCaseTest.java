package purgewright.hazard.service;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import java.util.Map;
import java.util.stream.Collectors;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.Test;
import purgewright.fluids.Engines;
import purgewright.hazard.MinimalCase;
import purgewright.hazard.fault.FaultResult;
import purgewright.hazard.fault.FaultResult.Row;
import purgewright.hazard.finding.Verdict;
import purgewright.sealflow.model.Case;
import purgewright.sealflow.model.Cavity;
import purgewright.sealflow.model.PassageSpec;

/** The minimal case with the real engine and the real solver. */
class MinimalCaseTest {
    private static final CaseService SERVICE = new CaseService(Engines.embedded(), 2);

    @AfterAll
    static void close() {
        SERVICE.close();
    }

    private static CheckResult check(Case model) {
        return SERVICE.check(null, model, Map.of(CaseService.STEADY, model), Progress.NONE);
    }

    private static FaultResult fail(Case model, List<String> only) {
        return SERVICE.fail(
                Edit.onlyFaults(model, only),
                Map.of(CaseService.STEADY, model),
                (phase, set) -> model,
                FailSettings.DEFAULT,
                Progress.NONE);
    }

    @Test
    void theExampleHoldsAndItsPurgeIsOfTheExpectedScale() {
        CheckResult r = check(MinimalCase.model());
        // All holds but one: the gas of its oxygen drain is half oxygen, at 0.29 MPa, and full of drops.
        assertThat(r.findings().stream().filter(f -> f.verdict() != Verdict.HOLDS))
                .singleElement()
                .satisfies(f -> {
                    assertThat(f.id()).isEqualTo("oxygen-velocity:oxygen drain line:steady");
                    assertThat(f.verdict()).isEqualTo(Verdict.THIN);
                });
        // The design's estimate without the check valve is 7 g/s at 1.7 MPa.
        assertThat(r.purge().flow()).isCloseTo(7e-3, within(1e-3));
        assertThat(r.purge().gas()).isEqualTo("helium");
    }

    @Test
    void aSmallerMeteringOrificeFallsShortAndSaysWhere() {
        CheckResult r = check(MinimalCase.model(3.5e6, 1.0e-3, 50e-6, 50e-6));
        assertThat(r.verdict()).isEqualTo(Verdict.FALLS_SHORT);
        assertThat(r.findings()).anySatisfy(f -> assertThat(f.id()).isEqualTo("barrier-pressure:ring A:steady"));
        assertThat(r.verdictLine()).startsWith("falls short: ");
    }

    @Test
    void checkValvesInPlaceOfTheRingsAreNoBarrier() {
        Case rings = MinimalCase.model();
        List<PassageSpec> passages = rings.passages().stream()
                .map(p -> p.type().equals("floating ring") ? checkValve(p) : p)
                .toList();
        CheckResult r = check(new Case(
                rings.about(),
                rings.surroundings(),
                rings.rotor(),
                rings.streams(),
                rings.cavities(),
                passages,
                rings.duty(),
                rings.criteria(),
                rings.extras()));
        assertThat(r.verdict()).isEqualTo(Verdict.FALLS_SHORT);
        assertThat(r.findings())
                .anySatisfy(f -> assertThat(f.id()).startsWith("barrier-valve:ring A"))
                .anySatisfy(f -> {
                    assertThat(f.id()).startsWith("barriers:");
                    assertThat(f.value()).isZero();
                });
    }

    @Test
    void driveGasHotterThanItsBurnerIsNotEstablished() {
        Case cool = MinimalCase.model();
        List<Cavity> cavities = cool.cavities().stream()
                .map(c -> c.name().equals("disc cavity") ? atTemperature(c, 1500) : c)
                .toList();
        CheckResult r = check(new Case(
                cool.about(),
                cool.surroundings(),
                cool.rotor(),
                cool.streams(),
                cavities,
                cool.passages(),
                cool.duty(),
                cool.criteria(),
                cool.extras()));
        assertThat(r.verdict()).isNotEqualTo(Verdict.HOLDS);
        assertThat(r.findings()).anySatisfy(f -> {
            assertThat(f.id()).startsWith("hotter-than-burner:disc cavity");
            assertThat(f.verdict()).isEqualTo(Verdict.NOT_ESTABLISHED);
        });
    }

    private static Cavity atTemperature(Cavity c, double temperature) {
        return new Cavity(
                c.name(),
                c.role(),
                c.stream(),
                c.pressure(),
                temperature,
                c.volume(),
                c.radius(),
                c.swirlRatio(),
                c.disc(),
                c.wall(),
                c.circumferentialVariation());
    }

    private static PassageSpec checkValve(PassageSpec ring) {
        return new PassageSpec(
                ring.name(),
                ring.from(),
                ring.to(),
                "check valve",
                1,
                Double.NaN,
                Double.NaN,
                Double.NaN,
                Double.NaN,
                1,
                Double.NaN,
                false,
                Map.of("diameter", 4e-3, "cracking pressure", 20e3, "discharge coefficient", 0.7));
    }

    @Test
    void aWornRingIsSurvivedAndARingFailedOpenIsNot() {
        FaultResult r =
                fail(MinimalCase.model(), List.of("worn: ring A", "failed open: ring A", "sensor biased: bottle line"));
        Map<String, Row> rows = r.rows().stream().collect(Collectors.toMap(Row::scenario, x -> x));
        assertThat(rows.get("worn: ring A").lost()).isEmpty();
        Row open = rows.get("failed open: ring A");
        assertThat(open.pairsLost()).containsExactly("feed oxygen | drive gas");
        assertThat(open.verdict()).isEqualTo(Verdict.FALLS_SHORT);
        assertThat(open.seenBy()).contains("pressure of barrier");
        assertThat(rows.get("sensor biased: bottle line").seenBy()).isEmpty();
        assertThat(r.ranking()).containsExactly("failed open: ring A");
        assertThat(r.verdict()).isEqualTo(Verdict.FALLS_SHORT);
    }
}
