package purgewright.hazard.studies;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collections;
import java.util.HashSet;
import java.util.List;
import java.util.Random;
import java.util.Set;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.DoubleRange;
import net.jqwik.api.constraints.IntRange;
import org.junit.jupiter.api.Test;
import purgewright.hazard.studies.Distribution.StackPart;
import purgewright.hazard.studies.Distribution.StackShape;
import purgewright.hazard.studies.SpreadSettings.Sampling;

class StudiesLawTest {
    private static final List<Distribution> FAMILIES = List.of(
            new Distribution.Uniform(1, 3),
            new Distribution.Normal(5, 2),
            new Distribution.LogNormal(2, 1.5),
            new Distribution.Triangular(1, 2, 6),
            new Distribution.Beta(10, 20, 2, 5),
            new Distribution.Empirical(List.of(3.0, 1.0, 4.0, 1.5, 9.0)),
            new Distribution.Stack(List.of(
                    new StackPart("bore", 50.02e-3, 50.04e-3, 0.5, StackShape.NORMAL),
                    new StackPart("shaft", 49.96e-3, 49.98e-3, -0.5, StackShape.UNIFORM))),
            new Distribution.Truncated(new Distribution.Normal(1, 2), 0, 4));

    @Property(tries = 200, seed = "20261126")
    void aQuantileIsWhereTheCumulativeReachesIt(
            @ForAll @IntRange(min = 0, max = 7) int family, @ForAll @DoubleRange(min = 0.01, max = 0.99) double u) {
        Distribution d = FAMILIES.get(family);
        assertThat(d.cumulative(d.quantile(u))).isCloseTo(u, within(1e-8));
    }

    @Property(tries = 200, seed = "20261126")
    void quantilesRise(
            @ForAll @IntRange(min = 0, max = 7) int family,
            @ForAll @DoubleRange(min = 0, max = 1) double a,
            @ForAll @DoubleRange(min = 0, max = 1) double b) {
        Distribution d = FAMILIES.get(family);
        assertThat(d.quantile(Math.min(a, b))).isLessThanOrEqualTo(d.quantile(Math.max(a, b)));
    }

    @Property(tries = 30, seed = "20261126")
    void sketchesOfPartsAreTheSketchOfTheWholeWhateverTheOrder(@ForAll long seed) {
        Random random = new Random(seed);
        List<Double> values = new ArrayList<>();
        for (int i = 0; i < 3000; i++) {
            double x = random.nextGaussian() * Math.pow(10, random.nextInt(12) - 6);
            values.add(random.nextInt(200) == 0 ? Double.POSITIVE_INFINITY : random.nextInt(50) == 0 ? 0.0 : x);
        }
        QuantileSketch whole = new QuantileSketch();
        values.forEach(whole::add);
        Collections.shuffle(values, random);
        List<QuantileSketch> parts = new ArrayList<>();
        for (int p = 0; p < 4; p++) {
            parts.add(new QuantileSketch());
        }
        for (int i = 0; i < values.size(); i++) {
            parts.get(random.nextInt(4)).add(values.get(i));
        }
        QuantileSketch joined = new QuantileSketch();
        parts.forEach(p -> joined.add(QuantileSketch.of(p.state())));
        assertThat(joined.state()).isEqualTo(whole.state());
        assertThat(joined.mean()).isEqualTo(whole.mean());
        assertThat(joined.deviation()).isEqualTo(whole.deviation());
    }

    @Test
    void aSketchThatRunsFullStaysSmallAndMergesExactlyToo() {
        Random random = new Random(1);
        QuantileSketch whole = new QuantileSketch();
        QuantileSketch odd = new QuantileSketch();
        QuantileSketch even = new QuantileSketch();
        for (int i = 0; i < 200_000; i++) {
            double x = Math.pow(10, 40 * random.nextDouble() - 20) * (random.nextBoolean() ? 1 : -1);
            whole.add(x);
            (i % 2 == 0 ? even : odd).add(x);
        }
        assertThat(whole.state().bins().size()).isLessThanOrEqualTo(QuantileSketch.MOST_BINS);
        assertThat(whole.state().bits()).isLessThan(QuantileSketch.FINEST);
        odd.add(even);
        assertThat(odd.state()).isEqualTo(whole.state());
    }

    @Property(tries = 30, seed = "20261126")
    void aSketchesQuantileIsWithinABinOfTheTrueOne(@ForAll long seed) {
        Random random = new Random(seed);
        double[] x = new double[5000];
        QuantileSketch sketch = new QuantileSketch();
        for (int i = 0; i < x.length; i++) {
            x[i] = 1e6 + 1e5 * random.nextGaussian();
            sketch.add(x[i]);
        }
        Arrays.sort(x);
        for (double share : Tally.SHARES) {
            double exact = x[(int) Math.ceil(share * x.length) - 1];
            assertThat(sketch.quantile(share)).isCloseTo(exact, within(Math.abs(exact) * 0x1p-11 + 1e3));
        }
        double mean = Arrays.stream(x).average().orElseThrow();
        assertThat(sketch.mean()).isCloseTo(mean, within(1e-6));
    }

    @Test
    void barsOfAHistogramAddUp() {
        QuantileSketch sketch = new QuantileSketch();
        Random random = new Random(2);
        for (int i = 0; i < 1000; i++) {
            sketch.add(random.nextGaussian());
        }
        List<Double> edges = new ArrayList<>();
        List<Long> bars = sketch.histogram(40, edges);
        assertThat(edges).hasSize(41).isSorted();
        assertThat(bars.stream().mapToLong(Long::longValue).sum()).isEqualTo(1000);
    }

    @Test
    void aLatinHypercubeHasOnePointInEveryStratumOfEveryInput() {
        UnitCube cube = new UnitCube(Sampling.LATIN_HYPERCUBE, 9, 500, 3);
        for (int k = 0; k < 3; k++) {
            Set<Integer> strata = new HashSet<>();
            for (int i = 0; i < 500; i++) {
                strata.add((int) Math.floor(500 * cube.point(i)[k]));
            }
            assertThat(strata).hasSize(500);
        }
    }

    @Test
    void aPointDoesNotDependOnWhoAskedBefore() {
        for (Sampling sampling : Sampling.values()) {
            UnitCube a = new UnitCube(sampling, 4, 100, 5);
            UnitCube b = new UnitCube(sampling, 4, 100, 5);
            double[] alone = b.point(57);
            for (int i = 0; i < 57; i++) {
                a.point(i);
            }
            assertThat(a.point(57)).isEqualTo(alone);
            assertThat(new UnitCube(sampling, 5, 100, 5).point(57)).isNotEqualTo(alone);
        }
    }

    @Property(tries = 60, seed = "20261126")
    void theNearestCorrelationsOfAnImpossibleSetAreAccepted(@ForAll long seed) {
        Random random = new Random(seed);
        int n = 3 + random.nextInt(4);
        double[][] r = new double[n][n];
        for (int i = 0; i < n; i++) {
            r[i][i] = 1;
            for (int j = 0; j < i; j++) {
                r[i][j] = 2 * random.nextDouble() - 1;
                r[j][i] = r[i][j];
            }
        }
        try {
            Copula.of(r);
        } catch (Copula.Impossible e) {
            Copula.of(e.nearest());
        }
    }

    @Test
    void threeInputsCannotAllOpposeEachOther() {
        double[][] r = {{1, -0.9, -0.9}, {-0.9, 1, -0.9}, {-0.9, -0.9, 1}};
        assertThatThrownBy(() -> Copula.of(r))
                .isInstanceOfSatisfying(Copula.Impossible.class, e -> assertThat(e.nearest()[0][1])
                        // The best that three can do is a normal correlation of -1/2 each.
                        .isCloseTo(6 / Math.PI * Math.asin(-0.25), within(5e-3)));
    }

    @Test
    void fullCorrelationIsPossible() {
        double[][] r = {{1, 1}, {1, 1}};
        double[] u = Copula.of(r).join(new double[] {0.2, 0.9});
        assertThat(u[0]).isEqualTo(u[1]);
    }

    @Property(tries = 100, seed = "20261126")
    void moreSamplesTripMoreAndMorePersistenceLess(
            @ForAll @DoubleRange(min = 0, max = 1) double q,
            @ForAll @IntRange(min = 1, max = 20) int n,
            @ForAll @IntRange(min = 1, max = 9000) int samples) {
        double p = Trips.inARow(q, n, samples);
        assertThat(p).isBetween(0.0, 1.0);
        // Between the step by step and the asymptotic form there is a seam of relative 1e-4 at most, where both are
        // near 1.
        assertThat(Trips.inARow(q, n, samples + 1L)).isGreaterThanOrEqualTo(p * (1 - 1e-4) - 1e-12);
        assertThat(Trips.inARow(q, n + 1, samples)).isLessThanOrEqualTo(p + 1e-4);
    }

    @Property(tries = 100, seed = "20261126")
    void theTwoWaysToCountRunsAgree(
            @ForAll @DoubleRange(min = 0.01, max = 0.9) double q, @ForAll @IntRange(min = 1, max = 8) int n) {
        // One above the seam by the asymptotic form, the same by the form for differing probabilities.
        assertThat(Trips.within(k -> q, n, 4001)).isCloseTo(Trips.inARow(q, n, 4001), within(1e-4));
        double p = Trips.within(k -> q, n, 4001);
        if (p < 0.5) {
            assertThat(Trips.inARow(q, n, 4001)).isCloseTo(p, within(1e-9 + 1e-7 * p));
        }
    }

    @Property(tries = 40, seed = "20261126")
    void aFailureThatIsNotRareAgreesWithCounting(@ForAll @DoubleRange(min = -1, max = 2) double beta) {
        double exact = Distribution.Normal.standardTail(-beta);
        double found = SubsetSimulation.find(Batch.of(z -> new double[] {beta - z[0]}), 1, 2000, 3, 0.95)
                .probability();
        assertThat(found).isCloseTo(exact, within(0.25 * exact + 0.01));
    }

    @Test
    void whatCannotFailGivesAnUpperBoundOnly() {
        var found = SubsetSimulation.find(Batch.of(z -> new double[] {1}), 2, 100, 1, 0.95);
        assertThat(found.reached()).isFalse();
        assertThat(found.probability()).isNaN();
        assertThat(found.high()).isLessThanOrEqualTo(0.04);
    }

    @Test
    void whatHasNoAnswerCountsAsAFailure() {
        var found =
                SubsetSimulation.find(Batch.of(z -> new double[] {z[0] > 1 ? Double.NaN : 1 - z[0]}), 1, 2000, 1, 0.95);
        assertThat(found.unknown()).isPositive();
        assertThat(found.probability()).isCloseTo(Distribution.Normal.standardTail(-1), within(0.03));
    }

    @Test
    void moreNoiseMeansALowerSetPoint() {
        double last = Double.POSITIVE_INFINITY;
        for (double noise : new double[] {1e3, 1e4, 3e4}) {
            RedlineStudy.Reading r = new RedlineStudy.Reading(
                    "",
                    "",
                    "",
                    "Pa",
                    true,
                    0.3e6,
                    1.5e6,
                    5e4,
                    noise,
                    1e4,
                    0.01,
                    100,
                    3,
                    1,
                    1,
                    40,
                    0.5,
                    0.1,
                    0.05,
                    Double.NaN,
                    "");
            double s = RedlineStudy.proposed(r, 1e-4);
            assertThat(RedlineStudy.falseTrip(r, s)).isCloseTo(1e-4, within(1e-6));
            assertThat(s).isLessThan(last);
            assertThat(RedlineStudy.missedLoss(r, s)).isLessThan(0.5);
            last = s;
        }
    }
}
