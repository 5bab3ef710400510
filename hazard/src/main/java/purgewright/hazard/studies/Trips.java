package purgewright.hazard.studies;

import java.util.function.IntToDoubleFunction;

/**
 * When an interlock trips: n samples in a row beyond the set point.
 *
 * <pre>{@code
 * q      = Phi((setPoint - reading) / noise)          one sample below a lowest-allowed set point
 * f_k    = f_(k-1) + (1 - q) q^n (1 - f_(k-n-1))      trip within k samples, f_n = q^n
 * }</pre>
 *
 * <p>Samples are taken as independent: noise that is slow against the sample rate makes false trips more likely than this says. Long runs
 * go by Feller's asymptotic form, whose relative error dies out exponentially. Source: W. Feller, "An Introduction to Probability Theory
 * and Its Applications", vol. 1, chapter XIII.7 [from memory].
 */
public final class Trips {
    /** Up to here step by step. */
    private static final long STEPS = 4000;

    private Trips() {}

    /**
     * Probability that among so many samples there are n in a row beyond, each with the same probability.
     *
     * @param q of one sample, 0 to 1
     * @param n in a row, at least 1
     * @param samples in all
     */
    public static double inARow(double q, int n, long samples) {
        if (!(q >= 0 && q <= 1) || n < 1 || samples < 0) {
            throw new IllegalArgumentException("q " + q + ", n " + n + ", samples " + samples);
        }
        if (samples < n || q == 0) {
            return 0;
        }
        if (q == 1) {
            return 1;
        }
        if (samples <= STEPS || samples <= 20L * n) {
            return stepwise(q, n, (int) samples);
        }
        return asymptotic(q, n, samples);
    }

    private static double stepwise(double q, int n, int samples) {
        double[] f = new double[samples + 1];
        double run = Math.pow(q, n);
        for (int k = n; k <= samples; k++) {
            f[k] = k == n ? run : f[k - 1] + (1 - q) * run * (1 - f[k - n - 1]);
        }
        return Math.min(1, f[samples]);
    }

    private static double asymptotic(double q, int n, long samples) {
        double p = 1 - q;
        double rate = p * Math.pow(q, n);
        // Smallest root above 1 of 1 - x + p q^n x^(n+1) = 0, written for y = x - 1; from below it is approached
        // monotonically.
        double y = 0;
        for (int i = 0; i < 500; i++) {
            double next = rate * Math.exp((n + 1) * Math.log1p(y));
            if (!(Math.abs(next - y) > 1e-16 * next)) {
                y = next;
                break;
            }
            y = next;
        }
        // Beyond q = n / (n + 1) the root found is that of the numerator: so many samples then trip but for less than
        // 1e-4.
        if (!(y < 1.0 / n) || !(q * y < p)) {
            return 1;
        }
        // (1 - q x) / ((n + 1 - n x) p) x^-(samples+1)
        double ratio = Math.log1p(-q * y / p) - Math.log1p(-n * y);
        return -Math.expm1(ratio - (samples + 1) * Math.log1p(y));
    }

    /**
     * Probability of a trip within so many samples whose probabilities differ.
     *
     * @param q of sample k = 0, 1, ...
     */
    public static double within(IntToDoubleFunction q, int n, int samples) {
        if (samples < n) {
            return 0;
        }
        double[] f = new double[samples + 1];
        double[] one = new double[samples + 1];
        double logs = 0;
        int zeros = 0;
        for (int k = 1; k <= samples; k++) {
            one[k] = q.applyAsDouble(k - 1);
            logs += one[k] > 0 ? Math.log(one[k]) : 0;
            zeros += one[k] > 0 ? 0 : 1;
            if (k > n) {
                logs -= one[k - n] > 0 ? Math.log(one[k - n]) : 0;
                zeros -= one[k - n] > 0 ? 0 : 1;
            }
            if (k >= n) {
                double run = zeros > 0 ? 0 : Math.exp(Math.min(0, logs));
                double fresh = k == n ? 1 : (1 - one[k - n]) * (1 - f[k - n - 1]);
                f[k] = Math.min(1, f[k - 1] + run * fresh);
            }
        }
        return f[samples];
    }

    /**
     * Of several sensors so many must agree: probability that they do when each does with probability q.
     */
    public static double vote(double q, int sensors, int votes) {
        if (votes < 1 || votes > sensors) {
            throw new IllegalArgumentException(votes + " of " + sensors + " sensors cannot vote");
        }
        if (sensors == 1) {
            return q;
        }
        double sum = 0;
        double binomial = 1;
        for (int k = 0; k <= sensors; k++) {
            if (k >= votes) {
                sum += binomial * Math.pow(q, k) * Math.pow(1 - q, sensors - k);
            }
            binomial = binomial * (sensors - k) / (k + 1);
        }
        return Math.min(1, sum);
    }
}
