package purgewright.hazard.studies;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import org.apache.commons.rng.UniformRandomProvider;
import org.apache.commons.rng.sampling.distribution.ZigguratSampler;
import purgewright.hazard.studies.SpreadResult.RareFailure;

/**
 * Probability of a rare failure, {@code g(z) < 0} with z independent standard normal, as a product of probabilities that are not rare.
 *
 * <pre>{@code P = p0^(levels - 1) * share below 0 at the last level,  p0 = 0.1}</pre>
 *
 * <p>Each level starts from the tenth of the level before that came closest to failure and moves each by conditional sampling,
 * {@code z' = r z + sqrt(1 - r^2) xi}, kept when g(z') is not above the level. Chains are drawn from streams fixed by seed, level and
 * number, so threads have no say.
 *
 * <p>The interval is lognormal with the coefficient of variation by the chains' correlation; it is an estimate, good to about a third of
 * its width for some thousand samples a level. An evaluation without an answer (NaN) counts as a failure.
 *
 * <p>Sources: S.-K. Au, J. L. Beck, Prob. Eng. Mech. 16 (2001) 263; I. Papaioannou et al., Prob. Eng. Mech. 41 (2015) 89 [from memory].
 */
public final class SubsetSimulation {
    private static final double SHARE = 0.1;
    /** Correlation of a move; near the best acceptance (about 0.44) over the usual numbers of inputs. */
    private static final double KEEP = 0.8;

    private static final int MOST_LEVELS = 12;

    private SubsetSimulation() {}

    /** One state of a chain. */
    private record State(double[] z, double g) {}

    /**
     * @param limit first quantity at each point is g
     * @param dimensions of z
     * @param samples a level, a multiple of 10 of at least 100
     * @param confidence of the interval
     */
    public static RareFailure find(Batch limit, int dimensions, int samples, long seed, double confidence) {
        if (samples < 100 || samples % 10 != 0) {
            throw new IllegalArgumentException(
                    "samples a level " + samples + " must be a multiple of 10, at least 100");
        }
        long[] count = new long[2];
        List<double[]> first = new ArrayList<>();
        for (int i = 0; i < samples; i++) {
            first.add(normals(UnitCube.stream(seed, i), dimensions));
        }
        List<State> level = states(limit, first, count);
        int seeds = (int) Math.round(SHARE * samples);
        int length = samples / seeds;
        List<Double> thresholds = new ArrayList<>();
        double logarithm = 0;
        double variation = 0;
        for (int l = 0; ; l++) {
            List<State> sorted = new ArrayList<>(level);
            sorted.sort(Comparator.comparingDouble(State::g));
            double threshold =
                    Math.max(0, (sorted.get(seeds - 1).g() + sorted.get(seeds).g()) / 2);
            if (Double.isNaN(threshold)) {
                // Infinite on both sides of the border: all of them are failures.
                threshold = 0;
            }
            boolean last = threshold <= 0 || l == MOST_LEVELS - 1;
            thresholds.add(threshold);
            double border = last ? 0 : threshold;
            long below = level.stream()
                    .filter(s -> last ? s.g() < 0 : s.g() <= border)
                    .count();
            double share = (double) below / samples;
            variation += variation(level, border, last, share, l == 0 ? samples : seeds, l == 0 ? 1 : length);
            if (last) {
                return result(below, logarithm, share, variation, thresholds, count, confidence, samples);
            }
            logarithm += Math.log(share);
            level = next(limit, sorted, seeds, length, border, seed, l + 1, dimensions, count);
        }
    }

    private static RareFailure result(
            long below,
            double logarithm,
            double share,
            double variation,
            List<Double> thresholds,
            long[] count,
            double confidence,
            int samples) {
        double z = -Distribution.Normal.standardQuantile((1 - confidence) / 2);
        if (below == 0) {
            // Nothing failed at the last level: an upper bound is all that is known.
            double high = Math.exp(logarithm)
                    * Intervals.of(SpreadSettings.Interval.CLOPPER_PEARSON, samples, 0, confidence)[1];
            return new RareFailure(
                    Double.NaN,
                    0,
                    high,
                    Double.NaN,
                    List.copyOf(thresholds),
                    count[0],
                    count[1],
                    false,
                    String.format(Locale.ROOT, "no failure was reached: the probability is below %.2g", high));
        }
        double p = Math.exp(logarithm) * share;
        double cov = Math.sqrt(variation);
        double sigma = Math.sqrt(Math.log1p(variation));
        return new RareFailure(
                p,
                p * Math.exp(-z * sigma),
                Math.min(1, p * Math.exp(z * sigma)),
                cov,
                List.copyOf(thresholds),
                count[0],
                count[1],
                true,
                String.format(
                        Locale.ROOT,
                        "failure probability %.3g, coefficient of variation %.2f, over %d levels",
                        p,
                        cov,
                        thresholds.size()));
    }

    private static List<State> next(
            Batch limit,
            List<State> sorted,
            int seeds,
            int length,
            double border,
            long seed,
            int level,
            int dimensions,
            long[] count) {
        State[][] chains = new State[seeds][length];
        UniformRandomProvider[] streams = new UniformRandomProvider[seeds];
        for (int c = 0; c < seeds; c++) {
            chains[c][0] = sorted.get(c);
            streams[c] = UnitCube.stream(UnitCube.mix(seed) + level, c);
        }
        for (int k = 1; k < length; k++) {
            List<double[]> moves = new ArrayList<>();
            for (int c = 0; c < seeds; c++) {
                double[] xi = normals(streams[c], dimensions);
                double[] from = chains[c][k - 1].z();
                for (int i = 0; i < dimensions; i++) {
                    xi[i] = KEEP * from[i] + Math.sqrt(1 - KEEP * KEEP) * xi[i];
                }
                moves.add(xi);
            }
            List<State> moved = states(limit, moves, count);
            for (int c = 0; c < seeds; c++) {
                chains[c][k] = moved.get(c).g() <= border ? moved.get(c) : chains[c][k - 1];
            }
        }
        List<State> all = new ArrayList<>();
        for (State[] chain : chains) {
            all.addAll(Arrays.asList(chain));
        }
        return all;
    }

    private static double[] normals(UniformRandomProvider random, int n) {
        ZigguratSampler.NormalizedGaussian gauss = ZigguratSampler.NormalizedGaussian.of(random);
        double[] z = new double[n];
        for (int i = 0; i < n; i++) {
            z[i] = gauss.sample();
        }
        return z;
    }

    private static List<State> states(Batch limit, List<double[]> points, long[] count) {
        List<double[]> values = limit.at(points);
        List<State> out = new ArrayList<>();
        for (int i = 0; i < points.size(); i++) {
            double g = values.get(i)[0];
            count[0]++;
            count[1] += Double.isNaN(g) ? 1 : 0;
            out.add(new State(points.get(i), Double.isNaN(g) ? Double.NEGATIVE_INFINITY : g));
        }
        return out;
    }

    /** Squared coefficient of variation of a level's share, with the correlation along its chains. */
    private static double variation(
            List<State> level, double border, boolean last, double share, int chains, int length) {
        int n = level.size();
        if (share <= 0 || share >= 1) {
            return 0;
        }
        double gamma = 0;
        for (int k = 1; k < length; k++) {
            double sum = 0;
            for (int c = 0; c < chains; c++) {
                for (int j = 0; j + k < length; j++) {
                    sum += in(level.get(c * length + j), border, last)
                            * in(level.get(c * length + j + k), border, last);
                }
            }
            double covariance = sum / (n - (double) k * chains) - share * share;
            gamma += 2 * (1 - (double) k / length) * covariance / (share * (1 - share));
        }
        return (1 - share) / (share * n) * (1 + Math.max(0, gamma));
    }

    private static int in(State s, double border, boolean last) {
        return (last ? s.g() < 0 : s.g() <= border) ? 1 : 0;
    }
}
