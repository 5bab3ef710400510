package purgewright.hazard.sizing;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.List;
import java.util.function.Function;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.DoubleRange;
import net.jqwik.api.constraints.IntRange;
import org.junit.jupiter.api.Test;

class SizingLawTest {
    private static Margin margin(String key, double value) {
        return new Margin(key, "/x", "steady", "as stated", value, value >= 0);
    }

    private static Evaluation at(double margin, double purge) {
        return Evaluation.of(List.of(margin("k", margin), margin("other", margin + 1)), purge, Double.NaN, purge);
    }

    private static Evaluation.Batch batch(Function<double[], Evaluation> one) {
        return designs -> designs.stream().map(one).toList();
    }

    private static DesignSearch.Result find(Function<double[], Evaluation> one, Variable... variables) {
        List<Double> stated = new ArrayList<>();
        for (Variable v : variables) {
            stated.add(v.upper());
        }
        return DesignSearch.find(
                batch(one), List.of(variables), Objective.GAS_FLOW, 0, stated, DesignSearch.Settings.DEFAULT);
    }

    /** One criterion that grows with the value: the answer is where it is met, as bisection has it. */
    @Property(tries = 50, seed = "20261126")
    void theLeastValueIsWhereTheCriterionIsMet(@ForAll @DoubleRange(min = 1.1, max = 90) double edge) {
        DesignSearch.Result r = find(v -> at(v[0] / edge - 1, v[0]), Variable.between("/v", 1, 100));
        assertThat(r.feasible()).isTrue();
        assertThat(r.values().get(0)).isCloseTo(edge, within(edge * 1.2e-3)); // four digits
        assertThat(r.values().get(0)).isGreaterThanOrEqualTo(edge);
        assertThat(r.monotone()).isTrue();
        assertThat(r.below().governing()).isEqualTo("k");
        // Purge = value, margin = value/edge - 1: the price is the edge itself.
        assertThat(r.price().get("k")).isCloseTo(edge, within(edge * 0.02));
        assertThat(r.price().get("other")).isEqualTo(0);
    }

    @Test
    void aHoleInTheFeasibleRangeIsSaid() {
        DesignSearch.Result r =
                find(v -> at(v[0] > 3 && (v[0] < 10 || v[0] > 30) ? 1 : -1, v[0]), Variable.between("/v", 1, 100));
        assertThat(r.feasible()).isTrue();
        assertThat(r.values().get(0)).isCloseTo(3, within(4e-3));
        assertThat(r.monotone()).isFalse();
    }

    @Test
    void infeasibleGivesTheClosest() {
        DesignSearch.Result r = find(v -> at(-1 - Math.abs(Math.log(v[0] / 10)), 1), Variable.between("/v", 1, 100));
        assertThat(r.feasible()).isFalse();
        assertThat(r.values().get(0)).isCloseTo(10, within(0.5));
        assertThatThrownBy(() -> Variable.between("/v", 1, 1)).isInstanceOf(IllegalArgumentException.class);
    }

    /** Two values, two criteria that pull apart, a curved objective: no point of a dense grid is feasible and better. */
    @Property(tries = 25, seed = "20261126")
    void noPointOfADenseGridIsBetter(
            @ForAll @DoubleRange(min = 0.5, max = 3) double a, @ForAll @DoubleRange(min = 0.3, max = 2) double b) {
        Function<double[], Evaluation> one = v -> {
            double flow = v[0] * v[1] * v[1] + 0.1 * v[1];
            return Evaluation.of(
                    List.of(
                            margin("pressure", v[0] * v[1] / a - 1),
                            margin("velocity", v[1] * Math.sqrt(v[0]) / b - 1),
                            margin("least", 3 - v[1] - 0.1 * v[0])),
                    flow,
                    Double.NaN,
                    v[0]);
        };
        DesignSearch.Result r = find(one, Variable.between("/p", 0.5, 20), Variable.between("/d", 0.2, 4));
        double best = Double.POSITIVE_INFINITY;
        for (int i = 0; i <= 160; i++) {
            for (int j = 0; j <= 160; j++) {
                Evaluation e = one.apply(new double[] {0.5 * Math.pow(40, i / 160.0), 0.2 * Math.pow(20, j / 160.0)});
                if (e.feasible()) {
                    best = Math.min(best, e.purge() * Math.pow(e.setPressure(), 0.02));
                }
            }
        }
        assertThat(r.feasible()).isEqualTo(Double.isFinite(best));
        if (r.feasible()) {
            double cost = r.at().purge() * Math.pow(r.at().setPressure(), 0.02);
            assertThat(cost).isLessThanOrEqualTo(best * 1.003);
        }
    }

    /** A listed and a free value: the same as trying every listed one with the free one by bisection. */
    @Property(tries = 25, seed = "20261126")
    void listedValuesAreTheBestOfTheList(@ForAll @IntRange(min = 1, max = 9) int seed) {
        List<Double> list = new ArrayList<>();
        for (int i = 0; i < 40; i++) {
            list.add(0.5 + 0.1 * i);
        }
        // Least flow where the pressure just drives enough through the hole; small holes cannot, by the bound of the
        // pressure.
        double need = 0.7 + 0.35 * seed;
        Function<double[], Evaluation> one = v -> Evaluation.of(
                List.of(
                        margin("k", v[0] * v[1] * v[1] / need - 1),
                        margin("small", 1 - Math.abs(v[1] - 1.63 - 0.1 * seed))),
                v[0] * v[1] * v[1] * (1 + 0.2 * v[1]),
                Double.NaN,
                v[0]);
        DesignSearch.Result r = find(one, Variable.between("/p", 0.2, 3), Variable.among("/d", 0.5, 4.4, list, "test"));
        double best = Double.POSITIVE_INFINITY;
        for (double d : list) {
            double p = need / d / d;
            if (p >= 0.2 && p <= 3 && 1 - Math.abs(d - 1.63 - 0.1 * seed) >= 0) {
                best = Math.min(best, need * (1 + 0.2 * d) * Math.pow(p, 0.02));
            }
        }
        assertThat(r.feasible()).isTrue();
        assertThat(list).contains(r.values().get(1));
        assertThat(r.at().purge() * Math.pow(r.at().setPressure(), 0.02)).isLessThanOrEqualTo(best * 1.002);
    }

    @Property(tries = 50, seed = "20261126")
    void wearIsFoundToATenthOfAPercent(@ForAll @DoubleRange(min = 1.1, max = 15) double edge) {
        WearLimit w = WearLimit.find("ring", 25e-6, 1e-9, v -> at(edge - v[0], 0));
        assertThat(w.factor()).isCloseTo(edge, within(edge * 2e-3));
        assertThat(w.limit()).isCloseTo(25e-6 * edge, within(25e-6 * edge * 2e-3));
        assertThat(w.life()).isCloseTo((w.limit() - 25e-6) / 1e-9, within(1e-3));
        assertThat(w.lost()).isEqualTo("k");
        assertThat(WearLimit.find("ring", 25e-6, Double.NaN, v -> at(1, 0)).factor())
                .isInfinite();
        double life =
                WearLimit.life("all", 1000, v -> at(1 - v[0] / (50 * edge), 0)).life();
        assertThat(life).isCloseTo(50 * edge, within(0.01 * 50 * edge + 1));
    }

    @Test
    void redlinesMoveToTheSafeSide() {
        Redline low = Redline.lowest("p", "/x", 0.30e6, 0.035e6, 0.1, 1, 1.5e6, "steady", "Pa", "");
        assertThat(low.redline()).isGreaterThan(0.335e6);
        assertThat(low.redline()).isCloseTo(0.335e6 * Math.exp(0.1), within(1e-6));
        assertThat(low.change()).isCloseTo(0.335e6 * (Math.exp(0.1) - 1), within(1e-6));
        assertThat(low.usable()).isTrue();
        Redline high = Redline.highest("p", "/x", 1.5e6, 0.035e6, 0.5, 0.2e6, 0.3e6, "steady", "Pa", "a rise");
        assertThat(high.redline()).isCloseTo(1.365e6, within(1e-6));
        assertThat(high.usable()).isTrue();
        // A bare barrier that empties in milliseconds cannot be guarded by its pressure: no figure at all, and the
        // reason.
        Redline none = Redline.lowest("p", "/x", 0.30e6, 0.035e6, 2, 0.01, 1.5e6, "steady", "Pa", "");
        assertThat(none.usable()).isFalse();
        assertThat(none.redline()).isNaN();
        assertThat(none.change()).isNaN();
        assertThat(none.reason()).contains("lasts 0.010 s").contains("2.00 s");
        assertThat(none.slowSetting()).isCloseTo(1.43e6, within(1.0));
        assertThat(none.slowRate()).isCloseTo((1.2e6 - 0.105e6) / 2, within(1.0));
        // What rises at an unknown rate, or too near, has none either.
        assertThat(Redline.highest("p", "/x", 1.5e6, 0.035e6, 0.5, Double.NaN, 0.3e6, "steady", "Pa", "a rise")
                        .redline())
                .isNaN();
        assertThat(Redline.highest("p", "/x", 0.33e6, 0.035e6, 0.5, 0, 0.3e6, "steady", "Pa", "a rise")
                        .redline())
                .isNaN();
    }

    /** Higher uncertainty, longer time or less stored gas never move a redline to the unsafe side. */
    @Property(tries = 200, seed = "20261126")
    void redlinesAreMonotone(
            @ForAll @DoubleRange(min = 0, max = 5e4) double u,
            @ForAll @DoubleRange(min = 0.01, max = 2) double time,
            @ForAll @DoubleRange(min = 1, max = 3) double more) {
        double a =
                Redline.lowest("p", "/x", 3e5, u, time, 5, 1e7, "s", "Pa", "").redline();
        double b = Redline.lowest("p", "/x", 3e5, u * more, time * more, 5 / more, 1e7, "s", "Pa", "")
                .redline();
        assertThat(Double.isNaN(b) || b >= a - 1e-6).isTrue();
        double c = Redline.highest("p", "/x", 9e6, u, time, 1e4, 3e5, "s", "Pa", "")
                .redline();
        double d = Redline.highest("p", "/x", 9e6, u * more, time * more, 1e4 * more, 3e5, "s", "Pa", "")
                .redline();
        assertThat(Double.isNaN(d) || d <= c + 1e-6).isTrue();
        assertThat(c).isLessThanOrEqualTo(9e6);
        assertThat(a).isGreaterThanOrEqualTo(3e5);
    }
}
