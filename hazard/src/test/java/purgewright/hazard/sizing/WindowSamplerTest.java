package purgewright.hazard.sizing;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import java.util.concurrent.CancellationException;
import java.util.concurrent.atomic.AtomicInteger;
import java.util.function.Function;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;

@DisplayName("The purge window's sampling")
class WindowSamplerTest {
    private static final WindowSampler.Settings SETTINGS =
            new WindowSampler.Settings(0, 10, 100, 300, 11, 1 / 200.0, 4000);

    private static Margin margin(String key, double value) {
        return new Margin(key, "/x", "steady", "as stated", value, value >= 0);
    }

    private static Margin flag(String key, boolean met) {
        return new Margin(key, "/x", "steady", "as stated", Double.NaN, met);
    }

    /** A curved boundary, a slanted one, a criterion without a number that follows the first, and one that stands alone. */
    private static Evaluation model(double[] v) {
        double x = v[0] / 10;
        double y = (v[1] - 100) / 200;
        double curved = x * x + y * y - 0.25;
        return Evaluation.of(
                List.of(
                        margin("curved", Math.exp(curved) - 1),
                        margin("slanted", 1.45 - x - y),
                        flag("follows", curved >= 0),
                        flag("alone", x < 0.93)),
                1e-3 * (1 + v[0]),
                Double.NaN,
                v[0]);
    }

    private static PurgeWindow sample(Function<double[], Evaluation> one, AtomicInteger count) {
        return WindowSampler.sample(
                list -> {
                    count.addAndGet(list.size());
                    return list.stream().map(one).toList();
                },
                "/x",
                "/y",
                SETTINGS);
    }

    private static boolean inside(PurgeWindow w, double x, double y) {
        return w.region().stream().anyMatch(piece -> {
            boolean in = false;
            for (int i = 0, j = piece.length - 1; i < piece.length; j = i++) {
                double[] a = piece[i];
                double[] b = piece[j];
                if (a[1] > y != b[1] > y && x < (b[0] - a[0]) * (y - a[1]) / (b[1] - a[1]) + a[0]) {
                    in = !in;
                }
            }
            return in;
        });
    }

    @Test
    void eachCriterionHasItsOwnLineWithinATwoHundredthOfASide() {
        AtomicInteger count = new AtomicInteger();
        PurgeWindow w = sample(WindowSamplerTest::model, count);
        assertThat(w.complete()).isTrue();
        assertThat(w.boundaries())
                .extracting(PurgeWindow.Line::name)
                .containsExactlyInAnyOrder("curved", "slanted", "alone");
        for (PurgeWindow.Line line : w.boundaries()) {
            for (double[][] path : line.paths()) {
                for (double[] p : path) {
                    double x = p[0] / 10;
                    double y = (p[1] - 100) / 200;
                    double off =
                            switch (line.name()) {
                                case "curved" -> Math.hypot(x, y) - 0.5;
                                case "slanted" -> (1.45 - x - y) / Math.sqrt(2);
                                default -> x - 0.93;
                            };
                    boolean window = Math.hypot(x, y) > 0.55 && 1.4 - x - y > 0;
                    // Without a number: fine where it bounds the window, else between points of the survey.
                    double most = !line.name().equals("alone") ? 1 / 200.0 : window ? 4 / 200.0 : 1 / 20.0;
                    assertThat(Math.abs(off)).as(line.name()).isLessThan(most);
                }
            }
        }
        // A full grid of that fineness would be 40 000.
        assertThat(count.get()).isLessThan(500);
        assertThat(w.samples()).hasSize(count.get());
        assertThat(w.contours())
                .isNotEmpty()
                .allSatisfy(c -> assertThat(c.paths().get(0)[0][0]).isCloseTo(c.level() * 1e3 - 1, within(1e-6)));
    }

    @Test
    void theRegionIsWhereADenseGridFindsEveryCriterionMet() {
        PurgeWindow w = sample(WindowSamplerTest::model, new AtomicInteger());
        int wrong = 0;
        for (int j = 0; j < 100; j++) {
            for (int i = 0; i < 100; i++) {
                double x = 10 * (i + 0.5) / 100;
                double y = 100 + 200 * (j + 0.5) / 100;
                wrong += inside(w, x, y) != model(new double[] {x, y}).feasible() ? 1 : 0;
            }
        }
        // Of ten thousand points only some on the boundaries themselves.
        assertThat(wrong).isLessThan(60);
    }

    @Test
    void aCancelKeepsWhatIsKnown() {
        AtomicInteger count = new AtomicInteger();
        PurgeWindow w = sample(
                v -> {
                    if (count.incrementAndGet() > 70) {
                        throw new CancellationException("cancelled");
                    }
                    return model(v);
                },
                new AtomicInteger());
        assertThat(w.complete()).isFalse();
        assertThat(w.samples()).hasSizeBetween(48, 70);
        assertThat(w.boundaries()).isNotEmpty();
        assertThat(w.feasible()).hasDimensions(11, 11);
    }

    @Test
    void withoutASolutionThereIsNoLine() {
        PurgeWindow w = sample(
                v -> Evaluation.of(
                        List.of(flag("solve", v[0] < 5), margin("k", v[0] < 5 ? v[0] - 2 : Double.NaN)),
                        v[0] < 5 ? 1e-3 : Double.NaN,
                        Double.NaN,
                        1),
                new AtomicInteger());
        PurgeWindow.Line k = w.boundaries().stream()
                .filter(l -> l.name().equals("k"))
                .findFirst()
                .orElseThrow();
        assertThat(k.paths()).allSatisfy(p -> assertThat(p[0][0]).isCloseTo(2, within(0.05)));
        assertThat(inside(w, 3, 150)).isTrue();
        assertThat(inside(w, 6, 150)).isFalse();
    }

    @Test
    void aCriterionThatSpeaksUpOnlyWhereItIsNotMetHasItsLineAllTheSame() {
        PurgeWindow w = sample(
                v -> Evaluation.of(
                        v[1] > 220
                                ? List.of(
                                        margin("k", v[0] - 2), new Margin("silent", "/x", "steady", "worn", -40, false))
                                : List.of(margin("k", v[0] - 2)),
                        1e-3,
                        Double.NaN,
                        1),
                new AtomicInteger());
        PurgeWindow.Line silent = w.boundaries().stream()
                .filter(l -> l.name().equals("silent"))
                .findFirst()
                .orElseThrow();
        // Where it bounds the window; in the corner that falls short anyway it lies between points of the survey.
        for (double[][] path : silent.paths()) {
            for (double[] p : path) {
                assertThat(p[1]).isCloseTo(220, within(p[0] > 3.1 ? 200 * 4 / 200.0 : 21.0));
            }
        }
        assertThat(inside(w, 6, 225)).isFalse();
        assertThat(inside(w, 6, 214)).isTrue();
    }

    /** As purge gas in liquid: asked only where there is liquid, met there at first, and far from met a little further. */
    @Test
    void everyEdgeOfTheRegionLiesOnTheLineOfACriterion() {
        PurgeWindow w = sample(
                v -> Evaluation.of(
                        v[1] > 200
                                ? List.of(margin("k", v[0] - 2), margin("in liquid", v[1] < 221 ? 1 : -80))
                                : List.of(margin("k", v[0] - 2)),
                        1e-3,
                        Double.NaN,
                        1),
                new AtomicInteger());
        assertThat(w.boundaries()).extracting(PurgeWindow.Line::name).containsExactly("in liquid", "k");
        assertThat(inside(w, 6, 216)).isTrue();
        assertThat(inside(w, 6, 226)).isFalse();
        int checked = 0;
        for (double[][] piece : w.region()) {
            for (int i = 0; i < piece.length; i++) {
                double[] a = piece[i];
                double[] b = piece[(i + 1) % piece.length];
                double[] middle = {(a[0] + b[0]) / 2, (a[1] + b[1]) / 2};
                boolean frame =
                        middle[0] < 1e-6 || middle[0] > 10 - 1e-6 || middle[1] < 100 + 1e-6 || middle[1] > 300 - 1e-6;
                if (!frame && outer(w, a, b)) {
                    checked++;
                    assertThat(w.boundaries().stream()
                                    .mapToDouble(line -> off(line, middle))
                                    .min()
                                    .orElse(1))
                            .as("edge at %s, %s", middle[0], middle[1])
                            .isLessThan(1e-6);
                }
            }
        }
        assertThat(checked).isGreaterThan(20);
    }

    /** True for an edge of one piece alone. */
    private static boolean outer(PurgeWindow w, double[] a, double[] b) {
        return w.region().stream()
                        .filter(piece -> {
                            for (int i = 0; i < piece.length; i++) {
                                double[] c = piece[i];
                                double[] d = piece[(i + 1) % piece.length];
                                if ((near(a, c) && near(b, d)) || (near(a, d) && near(b, c))) {
                                    return true;
                                }
                            }
                            return false;
                        })
                        .count()
                == 1;
    }

    private static boolean near(double[] a, double[] b) {
        return Math.hypot((a[0] - b[0]) / 10, (a[1] - b[1]) / 200) < 1e-9;
    }

    /** Distance of a point from a line, in shares of the sides. */
    private static double off(PurgeWindow.Line line, double[] p) {
        double least = 1;
        for (double[][] path : line.paths()) {
            for (int i = 1; i < path.length; i++) {
                least = Math.min(
                        least,
                        java.awt.geom.Line2D.ptSegDist(
                                path[i - 1][0] / 10,
                                path[i - 1][1] / 200,
                                path[i][0] / 10,
                                path[i][1] / 200,
                                p[0] / 10,
                                p[1] / 200));
            }
        }
        return least;
    }

    @Test
    void aCriterionThatIsAskedInOnePlaceOnlyCutsNothingOffElsewhere() {
        PurgeWindow w = sample(
                v -> Evaluation.of(
                        v[0] < 1.5
                                ? List.of(margin("k", v[0] - 2.3), margin("now and then", 3))
                                : List.of(margin("k", v[0] - 2.3)),
                        1e-3,
                        Double.NaN,
                        1),
                new AtomicInteger());
        assertThat(inside(w, 2.4, 150)).isTrue();
        assertThat(inside(w, 2.2, 150)).isFalse();
    }

    @Test
    void pointsAlongTheBoundariesMayBeEvaluatedOnTheirOwn() {
        AtomicInteger survey = new AtomicInteger();
        AtomicInteger along = new AtomicInteger();
        WindowSampler.sample(
                list -> {
                    survey.addAndGet(list.size());
                    return list.stream().map(WindowSamplerTest::model).toList();
                },
                list -> {
                    along.addAndGet(list.size());
                    return list.stream().map(WindowSamplerTest::model).toList();
                },
                "/x",
                "/y",
                SETTINGS);
        assertThat(survey).hasValue(121);
        assertThat(along.get()).isPositive();
    }
}
