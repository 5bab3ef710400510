package purgewright.hazard.service;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.Test;
import purgewright.fluids.Engines;
import purgewright.hazard.MinimalCase;
import purgewright.hazard.finding.Verdict;
import purgewright.hazard.sizing.LeastPurge;
import purgewright.hazard.sizing.PurgeWindow;
import purgewright.hazard.sizing.Redline;
import purgewright.hazard.sizing.SizeResult;
import purgewright.hazard.sizing.WearLimit;
import purgewright.sealflow.model.Case;

/** Sizing of the minimal case with the real engine and solver. */
class SizeTest {
    private static final CaseService SERVICE = new CaseService(Engines.embedded(), 2);

    @AfterAll
    static void close() {
        SERVICE.close();
    }

    @Test
    void theLeastSetPressureMeetsTheCriteriaAndAHundredthLessDoesNot() {
        Case model = MinimalCase.model();
        SizeSettings settings = new SizeSettings(
                "", Double.NaN, Double.NaN, 0, true, false, true, new LeastPurge.Settings(4, 2e-3), List.of());
        SizeResult r = SERVICE.size(model, Map.of(CaseService.STEADY, model), settings, Progress.NONE);
        assertThat(r.verdict()).as(r.line()).isEqualTo(Verdict.HOLDS);
        assertThat(r.parameter()).isEqualTo("/cavities/bottle line/pressure");
        assertThat(r.least().below().governing()).isEqualTo("barrier-pressure");
        assertThat(r.least().below().scenario()).isEqualTo("all barrier seals worn");
        double least = r.least().value();
        assertThat(least).isBetween(0.5e6, 3.5e6);
        for (double share : new double[] {0.99, 1.0, 1.1}) {
            Case worn = MinimalCase.model(least * share, 1.8e-3, 50e-6, 70e-6);
            CheckResult check = SERVICE.check(null, worn, Map.of(CaseService.STEADY, worn), Progress.NONE);
            assertThat(check.verdict() == Verdict.FALLS_SHORT)
                    .as("share %s", share)
                    .isEqualTo(share < 1);
        }
        assertThat(r.wear()).extracting(WearLimit::passage).containsExactly("ring A", "ring B", "all together");
        double alone = r.wear().get(0).factor();
        double together = r.wear().get(2).factor();
        assertThat(together).isLessThan(alone).isBetween(1.9, 2.2);
        Redline barrier = r.redlines().stream()
                .filter(x -> x.name().equals("pressure of barrier"))
                .findFirst()
                .orElseThrow();
        assertThat(barrier.physical()).isBetween(0.2e6, 0.4e6);
        assertThat(barrier.usable()).isFalse();
        assertThat(r.redlines()).anySatisfy(x -> assertThat(x.name()).isEqualTo("pressure of oxygen drain"));
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
                List.of());
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
        assertThat(w.feasible()[0][2]).isTrue();
        assertThat(w.feasible()[2][0]).isFalse();
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
