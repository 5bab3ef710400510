package purgewright.hazard.service;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import java.util.Map;
import java.util.concurrent.atomic.AtomicBoolean;
import java.util.concurrent.atomic.AtomicInteger;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import purgewright.fluids.Engines;
import purgewright.hazard.MinimalCase;
import purgewright.hazard.fault.Edits;
import purgewright.hazard.finding.Verdict;
import purgewright.hazard.sizing.DesignSearch;
import purgewright.hazard.sizing.PurgeWindow;
import purgewright.hazard.sizing.Redline;
import purgewright.hazard.sizing.SizeResult;
import purgewright.hazard.sizing.WearLimit;
import purgewright.sealflow.model.Case;
import purgewright.sealflow.model.PassageSpec;

/** Sizing of the minimal case with the real engine and solver. */
class SizeTest {
    private static final CaseService SERVICE = new CaseService(Engines.embedded(), 2);

    @AfterAll
    static void close() {
        SERVICE.close();
    }

    private static SizeResult size(SizeSettings settings) {
        Case model = MinimalCase.model();
        return SERVICE.size(model, Map.of(CaseService.STEADY, model), settings, Progress.NONE);
    }

    private static SizeSettings quick() {
        return SizeSettings.DEFAULT
                .withScenarios(true, false)
                .withWear(false)
                .withReleases(false)
                .withSearch(new DesignSearch.Settings(4, 2e-3, 12));
    }

    /** Worst verdict of the case with all barrier seals worn, by the ordinary check. */
    private static boolean fallsShort(double pressure, double diameter, double ringA, double ringB) {
        Case worn = MinimalCase.model(pressure, diameter, ringA, ringB);
        return SERVICE.check(null, worn, Map.of(CaseService.STEADY, worn), Progress.NONE)
                        .verdict()
                == Verdict.FALLS_SHORT;
    }

    /** A ring stated by its leakage alone is no seal that cannot wear. */
    @Test
    void aSealWithoutAClearanceHasAFactorToWearTo() {
        PassageSpec byLeak = new PassageSpec(
                "ring A",
                "barrier",
                "oxygen drain",
                "static seal",
                1,
                Double.NaN,
                Double.NaN,
                Double.NaN,
                Double.NaN,
                1,
                Double.NaN,
                false,
                Map.of("test flow", 1e-3, "test pressure", 1e6, "test gas", "helium"));
        Case model = Edits.passage(MinimalCase.model(), "ring A", p -> byLeak);
        SizeResult r = SERVICE.size(model, Map.of(CaseService.STEADY, model), quick().withWear(true), Progress.NONE);
        assertThat(r.wear())
                .extracting(WearLimit::passage)
                .containsExactly("oxygen seal", "ring A", "ring B", "hot seal", WearLimit.TOGETHER);
        WearLimit ring = r.wear().get(1);
        assertThat(ring.clearance()).isNaN();
        assertThat(ring.printed()).isNaN();
        assertThat(ring.seal()).isTrue();
        assertThat(ring.factor()).isBetween(1.5, 10.0);
        assertThat(r.wear().get(4).factor()).isLessThanOrEqualTo(ring.factor());
        // Its flow by the cube of the factor, by the ordinary check: a little less is met, a little more is not.
        double supply = r.design().get(0).value();
        for (double side : new double[] {0.98, 1.02}) {
            double flow = Math.pow(side * ring.factor(), 3);
            Case opened = Edits.passage(
                    MinimalCase.model(supply, 1.8e-3, 25e-6, 35e-6), "ring A", p -> Edits.scaled(byLeak, flow));
            Verdict verdict = SERVICE.check(null, opened, Map.of(CaseService.STEADY, opened), Progress.NONE)
                    .verdict();
            assertThat(verdict == Verdict.FALLS_SHORT).as("factor x %s", side).isEqualTo(side > 1);
        }
    }

    @Test
    void theLeastSetPressureMeetsTheCriteriaAndAHundredthLessDoesNot() {
        SizeResult r = size(quick().withWear(true));
        assertThat(r.verdict()).as(r.line()).isEqualTo(Verdict.THIN);
        assertThat(r.feasible()).isTrue();
        assertThat(r.design().get(0).variable().place()).isEqualTo("/cavities/bottle line/pressure");
        assertThat(r.below().governing()).isEqualTo("barrier-pressure");
        assertThat(r.below().scenario()).isEqualTo("all barrier seals worn");
        double least = r.design().get(0).value();
        assertThat(least).isBetween(0.5e6, 3.5e6);
        assertThat(fallsShort(least, 1.8e-3, 50e-6, 70e-6)).isFalse();
        assertThat(fallsShort(0.99 * least, 1.8e-3, 50e-6, 70e-6)).isTrue();
        // The price of the governing criterion, against the next design along the line.
        double price = r.slack().get(0).price();
        SizeResult more = size(quick().withMargin(0.1));
        assertThat(more.value() - r.value()).isCloseTo(0.1 * price, within(0.05 * 0.1 * price));
        assertThat(r.wear())
                .extracting(WearLimit::passage)
                .containsExactly("oxygen seal", "ring A", "ring B", "hot seal", "all together");
        double alone = r.wear().get(1).factor();
        double together = r.wear().get(4).factor();
        // With the working seals open too the drains rise: the rings alone may go to twice their drawing.
        assertThat(together).isLessThan(alone).isBetween(1.6, 1.9);
        assertThat(r.price()).hasSize(1);
        assertThat(r.interlocks().start()).isNotEmpty();
        assertThat(r.redlines()).anySatisfy(x -> assertThat(x.name()).isEqualTo("pressure of oxygen drain"));
        Redline barrier = r.redlines().stream()
                .filter(x -> x.name().equals("pressure of barrier"))
                .findFirst()
                .orElseThrow();
        assertThat(barrier.physical()).isBetween(0.12e6, 0.4e6);
        assertThat(barrier.usable()).isFalse();
        assertThat(barrier.redline()).isNaN();
        assertThat(barrier.reason()).contains("stored gas lasts");
    }

    @Tag("long")
    @Test
    void anOrificeFromTheDrillListAndAPressureTogetherAreNoWorseThanAnyPointOfADenseGrid() {
        SizeResult r = size(quick().withFree(List.of(
                new SizeSettings.Free("/cavities/bottle line/pressure", 0.6e6, 3.5e6, ""),
                new SizeSettings.Free("/passages/metering/diameter", 1.5e-3, 2.5e-3, "metric drills"))));
        assertThat(r.feasible()).as(r.line()).isTrue();
        double bore = r.design().get(1).value();
        assertThat(r.design().get(1).variable().choices()).contains(bore).hasSize(21);
        double least = Double.POSITIVE_INFINITY;
        for (double d : new double[] {1.6e-3, 2.4e-3}) {
            double product = r.design().get(0).value() * bore * bore / d / d;
            for (double p = 0.85 * product; p <= 1.3 * product; p *= 1.04) {
                if (!fallsShort(p, d, 50e-6, 70e-6)) {
                    Case model = MinimalCase.model(p, d, 25e-6, 35e-6);
                    least = Math.min(
                            least,
                            SERVICE.check(null, model, Map.of(CaseService.STEADY, model), Progress.NONE)
                                    .purge()
                                    .flow());
                    break;
                }
            }
        }
        assertThat(r.value()).isLessThan(least * 1.002);
    }

    @Test
    void whatCannotBeMetNamesWhatWouldReleaseIt() {
        SizeResult r = size(quick().withReleases(true).withParameter("/cavities/bottle line/pressure", 0.3e6, 0.9e6));
        assertThat(r.verdict()).isEqualTo(Verdict.FALLS_SHORT);
        assertThat(r.conflicts())
                .anySatisfy(c -> assertThat(c).contains("barrier pressure").contains("at its bound"));
        SizeResult.Release metering = r.releases().stream()
                .filter(x -> x.place().equals("/passages/metering/diameter"))
                .findFirst()
                .orElseThrow();
        assertThat(fallsShort(0.9e6, metering.needed(), 50e-6, 70e-6)).isFalse();
        assertThat(fallsShort(0.9e6, metering.needed() - 0.3e-3, 50e-6, 70e-6)).isTrue();
    }

    @Test
    void aFaultThatIsNotKnownIsRefusedWithASuggestion() {
        assertThatThrownBy(() -> size(quick().withFaults(List.of("worn: ring C"))))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessageContaining("worn: ring");
    }

    @Test
    void thePurgeWindowHasEachCriterionsMarginAndTheOperatingPointInside() {
        Case model = MinimalCase.model();
        MapSettings settings = new MapSettings(
                        "/cavities/bottle line/pressure",
                        0.5e6,
                        4e6,
                        "/passages/ring A/clearance",
                        20e-6,
                        120e-6,
                        3,
                        List.of())
                .withResolution(1 / 100.0);
        PurgeWindow w = SERVICE.map(model, Map.of(CaseService.STEADY, model), settings, Progress.NONE);
        assertThat(w.criteria()).contains("barrier-pressure");
        assertThat(w.operatingX()).isEqualTo(3.5e6);
        double[][] m = w.margins().get(w.criteria().indexOf("barrier-pressure"));
        for (int j = 0; j < 3; j++) {
            for (int i = 1; i < 3; i++) {
                assertThat(m[j][i]).isGreaterThan(m[j][i - 1]);
                assertThat(w.purge()[j][i]).isGreaterThan(w.purge()[j][i - 1]);
            }
        }
        PurgeWindow.Line pressure = w.boundaries().get(0);
        assertThat(pressure.name()).isEqualTo("barrier-pressure");
        // The line against bisection by the ordinary check at one of its corners in the middle.
        double[][] path = pressure.paths().get(0);
        double[] on = path[path.length / 2];
        double low = on[0] - 0.2e6;
        double high = on[0] + 0.2e6;
        for (int k = 0; k < 7; k++) {
            double middle = 0.5 * (low + high);
            if (fallsShort(middle, 1.8e-3, on[1], 35e-6)) {
                low = middle;
            } else {
                high = middle;
            }
        }
        assertThat(on[0]).isCloseTo(high, within(3.5e6 / 60));
        assertThat(w.feasible()[0][2]).isTrue();
        assertThat(w.feasible()[2][0]).isFalse();
    }

    @Test
    void aCancelLeavesTheBestDesignSoFarUnconfirmed() {
        AtomicInteger calls = new AtomicInteger();
        Case model = MinimalCase.model();
        SizeResult r = SERVICE.size(model, Map.of(CaseService.STEADY, model), quick(), (share, what) -> {
            if (calls.incrementAndGet() == 4) {
                Thread.currentThread().interrupt();
            }
        });
        assertThat(Thread.interrupted()).isFalse();
        assertThat(r.complete()).isFalse();
        assertThat(r.verdict()).isEqualTo(Verdict.NOT_ESTABLISHED);
        assertThat(r.line()).contains("cancelled");
        assertThat(r.design()).hasSize(1);
        assertThat(r.confirmation()).contains("not checked");
    }

    /** Wherever it is stopped once the case as stated is known, there is an answer, and it does not claim more than was looked at. */
    @ParameterizedTest
    @ValueSource(strings = {"bounds", "sizing", "checking", "redlines", "wear limits"})
    void aCancelAtAnyStageGivesWhatIsKnown(String stage) {
        Case model = MinimalCase.model();
        AtomicBoolean stopped = new AtomicBoolean();
        SizeResult r = SERVICE.size(model, Map.of(CaseService.STEADY, model), quick().withWear(true), (share, what) -> {
            if (what.equals(stage) && stopped.compareAndSet(false, true)) {
                Thread.currentThread().interrupt();
            }
        });
        assertThat(Thread.interrupted()).isFalse();
        assertThat(stopped).isTrue();
        assertThat(r.complete()).isFalse();
        assertThat(r.design()).hasSize(1);
        assertThat(r.statedValue()).isPositive();
        assertThat(r.cautions()).anySatisfy(c -> assertThat(c).startsWith("Cancelled"));
        boolean checked = stage.equals("redlines") || stage.equals("wear limits");
        assertThat(r.verdict() == Verdict.NOT_ESTABLISHED).isEqualTo(!checked);
        assertThat(r.confirmation().contains("not checked")).isEqualTo(!checked);
    }

    @Test
    void aCancelWhileNothingIsFeasibleGivesTheClosestSoFar() {
        Case model = MinimalCase.model();
        AtomicInteger calls = new AtomicInteger();
        SizeSettings settings =
                quick().withReleases(true).withParameter("/cavities/bottle line/pressure", 0.3e6, 0.9e6);
        SizeResult r = SERVICE.size(model, Map.of(CaseService.STEADY, model), settings, (share, what) -> {
            if (what.equals("what would release it") && calls.incrementAndGet() == 2) {
                Thread.currentThread().interrupt();
            }
        });
        assertThat(Thread.interrupted()).isFalse();
        assertThat(r.feasible()).isFalse();
        assertThat(r.complete()).isFalse();
        assertThat(r.verdict()).isEqualTo(Verdict.FALLS_SHORT);
        assertThat(r.conflicts()).isNotEmpty();
        assertThat(r.redlines()).isNotEmpty();
        assertThat(r.design().get(0).value()).isBetween(0.3e6, 0.9e6);
    }

    @Test
    void aPlaceThatIsNoNumberIsRefusedWithItsName() {
        Case model = MinimalCase.model();
        SizeSettings settings = SizeSettings.DEFAULT.withParameter("/passages/ring A/colour", 1, 2);
        assertThatThrownBy(() -> SERVICE.size(model, Map.of(CaseService.STEADY, model), settings, Progress.NONE))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessageContaining("/passages/ring A/colour");
    }
}
