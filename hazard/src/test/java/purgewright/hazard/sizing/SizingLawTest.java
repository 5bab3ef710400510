package purgewright.hazard.sizing;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.Map;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.DoubleRange;
import org.junit.jupiter.api.Test;

class SizingLawTest {
    private static Evaluation at(double margin, double purge) {
        return new Evaluation(
                margin >= 0, Map.of("k", margin, "other", margin + 1), purge, "k", "/x", "steady", "as stated", "");
    }

    /** One criterion that grows with the parameter: the answer is where it is met, and no grid point below it is feasible. */
    @Property(tries = 50)
    void theLeastValueIsWhereTheCriterionIsMet(@ForAll @DoubleRange(min = 1.1, max = 90) double edge) {
        LeastPurge.Result r = LeastPurge.find(v -> at(v[0] / edge - 1, v[0]), 1, 100, LeastPurge.Settings.DEFAULT);
        assertThat(r.feasible()).isTrue();
        assertThat(r.value()).isCloseTo(edge, within(edge * 2e-4));
        assertThat(r.value()).isGreaterThanOrEqualTo(edge);
        assertThat(r.monotone()).isTrue();
        assertThat(r.slack()).containsOnlyKeys("other");
        // Purge = value, margin = value/edge - 1: the price is the edge itself.
        assertThat(r.price()).isCloseTo(edge, within(edge * 1e-6));
        r.grid().forEach((v, ok) -> assertThat(ok).isEqualTo(v >= edge));
    }

    @Test
    void aHoleInTheFeasibleRangeIsSaid() {
        LeastPurge.Result r = LeastPurge.find(
                v -> at(v[0] > 3 && (v[0] < 10 || v[0] > 30) ? 1 : -1, v[0]), 1, 100, LeastPurge.Settings.DEFAULT);
        assertThat(r.feasible()).isTrue();
        assertThat(r.value()).isCloseTo(3, within(1e-3));
        assertThat(r.monotone()).isFalse();
    }

    @Test
    void infeasibleGivesTheClosest() {
        LeastPurge.Result r =
                LeastPurge.find(v -> at(-1 - Math.abs(v[0] - 10), 0), 1, 100, new LeastPurge.Settings(21, 1e-3));
        assertThat(r.feasible()).isFalse();
        assertThat(r.value()).isCloseTo(10, within(0.5));
        assertThatThrownBy(() -> LeastPurge.find(v -> at(1, 1), 0, 1, LeastPurge.Settings.DEFAULT))
                .isInstanceOf(IllegalArgumentException.class);
    }

    @Property(tries = 50)
    void wearIsFoundToATenthOfAPercent(@ForAll @DoubleRange(min = 1.1, max = 15) double edge) {
        WearLimit w = WearLimit.find("ring", 25e-6, v -> at(edge - v[0], 0));
        assertThat(w.factor()).isCloseTo(edge, within(edge * 2e-3));
        assertThat(w.limit()).isCloseTo(25e-6 * edge, within(25e-6 * edge * 2e-3));
        assertThat(w.lost()).isEqualTo("k");
        assertThat(WearLimit.find("ring", 25e-6, v -> at(1, 0)).factor()).isInfinite();
    }

    @Test
    void redlinesMoveToTheSafeSide() {
        Redline low = Redline.lowest("p", "/x", 0.30e6, 0.035e6, 0.1, 1, 1.5e6, "Pa");
        assertThat(low.redline()).isGreaterThan(0.335e6);
        assertThat(low.redline()).isCloseTo(0.335e6 * Math.exp(0.1), within(1e-6));
        assertThat(low.usable()).isTrue();
        Redline high = Redline.highest("p", "/x", 1.5e6, 0.035e6, 0.3e6, "Pa");
        assertThat(high.redline()).isCloseTo(1.465e6, within(1e-6));
        // A bare barrier that empties in milliseconds cannot be guarded by its pressure.
        assertThat(Redline.lowest("p", "/x", 0.30e6, 0.035e6, 2, 0.01, 1.5e6, "Pa")
                        .usable())
                .isFalse();
    }
}
