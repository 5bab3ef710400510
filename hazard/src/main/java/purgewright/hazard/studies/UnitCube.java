package purgewright.hazard.studies;

import java.util.ArrayList;
import java.util.List;
import org.apache.commons.math3.random.SobolSequenceGenerator;
import org.apache.commons.rng.UniformRandomProvider;
import org.apache.commons.rng.sampling.PermutationSampler;
import org.apache.commons.rng.simple.RandomSource;
import purgewright.hazard.studies.SpreadSettings.Sampling;

/**
 * Points of the unit cube, each fixed by settings and index alone: whoever asks, in whatever order, on whatever thread, gets the same.
 *
 * <p>No coordinate is exactly 0 or 1, where a quantile may be infinite. Immutable.
 */
public final class UnitCube {
    /** Of the library's direction numbers (Joe and Kuo). */
    public static final int MOST_SOBOL_INPUTS = 1000;

    private static final double EDGE = 0x1p-53;

    private final Sampling sampling;
    private final long seed;
    private final int points;
    private final int inputs;
    private final List<int[]> strata;
    private final double[] shift;
    /** Reads a table when it is made; a skip depends on nothing that was drawn before. */
    private final SobolSequenceGenerator sequence;

    /**
     * @param points planned; strata of a Latin hypercube
     * @param inputs coordinates of a point
     */
    public UnitCube(Sampling sampling, long seed, int points, int inputs) {
        if (sampling == Sampling.SOBOL && inputs > MOST_SOBOL_INPUTS) {
            throw new IllegalArgumentException(inputs + " inputs are too many for Sobol's sequence, which has "
                    + MOST_SOBOL_INPUTS + "; take a Latin hypercube");
        }
        this.sampling = sampling;
        this.seed = seed;
        this.points = points;
        this.inputs = inputs;
        this.strata = new ArrayList<>();
        this.shift = new double[inputs];
        this.sequence = sampling == Sampling.SOBOL && inputs > 0 ? new SobolSequenceGenerator(inputs) : null;
        if (sampling == Sampling.LATIN_HYPERCUBE) {
            for (int k = 0; k < inputs; k++) {
                int[] order = PermutationSampler.natural(points);
                PermutationSampler.shuffle(stream(seed, -1 - k), order);
                strata.add(order);
            }
        } else if (sampling == Sampling.SOBOL) {
            UniformRandomProvider random = stream(seed, -1);
            for (int k = 0; k < inputs; k++) {
                shift[k] = random.nextDouble();
            }
        }
    }

    /** The generator of one sample, or for negative numbers of one input. */
    public static UniformRandomProvider stream(long seed, long number) {
        // Two rounds of a bijective mixer: neighbours in seed and number have nothing to do with each other.
        return RandomSource.XO_RO_SHI_RO_128_PP.create(mix(mix(seed) + number));
    }

    /** A fixed bijection of 64-bit numbers (the finaliser of SplitMix64). */
    static long mix(long z) {
        long x = z + 0x9e3779b97f4a7c15L;
        x = (x ^ (x >>> 30)) * 0xbf58476d1ce4e5b9L;
        x = (x ^ (x >>> 27)) * 0x94d049bb133111ebL;
        return x ^ (x >>> 31);
    }

    /**
     * One point.
     *
     * @param index 0 to points - 1
     */
    public double[] point(long index) {
        if (index < 0 || index >= points) {
            throw new IllegalArgumentException("point " + index + " of " + points);
        }
        double[] u = new double[inputs];
        if (sampling == Sampling.SOBOL) {
            double[] v = u;
            if (sequence != null) {
                synchronized (sequence) {
                    v = sequence.skipTo((int) index);
                }
            }
            for (int k = 0; k < inputs; k++) {
                double x = v[k] + shift[k];
                u[k] = inside(x >= 1 ? x - 1 : x);
            }
            return u;
        }
        UniformRandomProvider random = stream(seed, index);
        for (int k = 0; k < inputs; k++) {
            double x = random.nextDouble();
            u[k] = inside(sampling == Sampling.LATIN_HYPERCUBE ? (strata.get(k)[(int) index] + x) / points : x);
        }
        return u;
    }

    private static double inside(double u) {
        return Math.max(EDGE, Math.min(1 - EDGE, u));
    }
}
