package purgewright.hazard.studies;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.util.Locale;
import org.apache.commons.statistics.distribution.BetaDistribution;
import purgewright.hazard.studies.SpreadResult.Probability;
import purgewright.hazard.studies.SpreadSettings.Interval;

/**
 * Intervals of a probability from counting.
 *
 * <pre>{@code
 * Wilson         : (s + z^2/2n -+ z sqrt(s(1-s)/n + z^2/4n^2)) / (1 + z^2/n),  s = k/n
 * Clopper-Pearson: quantiles of Beta(k, n-k+1) and Beta(k+1, n-k)
 * }</pre>
 *
 * <p>Sources: E. B. Wilson, J. Am. Stat. Assoc. 22 (1927) 209; C. J. Clopper, E. S. Pearson, Biometrika 26 (1934) 404 [from memory].
 */
public final class Intervals {
    private Intervals() {}

    /**
     * Lower and upper end.
     *
     * @param done at least 1
     * @param good 0 to done
     */
    public static double[] of(Interval kind, long done, long good, double confidence) {
        if (!(done >= 1 && good >= 0 && good <= done)) {
            throw new IllegalArgumentException(good + " of " + done + " is no count");
        }
        double error = (1 - confidence) / 2;
        if (kind == Interval.CLOPPER_PEARSON) {
            double low = good == 0
                    ? 0
                    : BetaDistribution.of((double) good, done - good + 1.0).inverseCumulativeProbability(error);
            double high = good == done
                    ? 1
                    : BetaDistribution.of(good + 1.0, (double) done - good).inverseSurvivalProbability(error);
            return new double[] {low, high};
        }
        double z = -Distribution.Normal.standardQuantile(error);
        double share = (double) good / done;
        double centre = (share + z * z / (2.0 * done)) / (1 + z * z / done);
        double half = z / (1 + z * z / done) * Math.sqrt((share * (1 - share) + z * z / (4.0 * done)) / done);
        // At the ends of the scale the interval ends there, but for rounding.
        return new double[] {good == 0 ? 0 : Math.max(0, centre - half), good == done ? 1 : Math.min(1, centre + half)};
    }

    /**
     * What counting says in words, for instance {@code 50 of 50 draws hold; at least 0.928 with 95 % confidence}: ends rounded outwards, to two
     * figures of what they lack.
     */
    public static String words(long done, long good, Probability p, double confidence) {
        if (done == 0) {
            return "no draw was done";
        }
        String bound = good == done
                ? "at least " + atLeast(p.low())
                : good == 0 ? "at most " + atMost(p.high()) : atLeast(p.low()) + " to " + atMost(p.high());
        return String.format(Locale.ROOT, "%d of %d draws hold; %s with %.6g", good, done, bound, 100 * confidence)
                        .replaceFirst("\\.?0+$", "")
                + " % confidence";
    }

    /** A lower end, rounded down to two figures of what it lacks to 1, or of itself where that is less; a dash where it is not known. */
    public static String atLeast(double low) {
        return rounded(low, false);
    }

    /** An upper end, rounded up alike. */
    public static String atMost(double high) {
        return rounded(high, true);
    }

    private static String rounded(double p, boolean up) {
        if (Double.isNaN(p)) {
            return "-";
        }
        BigDecimal value = BigDecimal.valueOf(p);
        double small = Math.min(p, 1 - p);
        // Digits after the point at which the second figure of the smaller part stands.
        int digits = small <= 0 ? 0 : (int) Math.min(12, 1 - Math.floor(Math.log10(small)));
        return value.setScale(digits, up ? RoundingMode.CEILING : RoundingMode.FLOOR)
                .stripTrailingZeros()
                .toPlainString();
    }

    /** A probability where what is not known counts against it; NaN before the first sample. */
    public static Probability probability(Interval kind, long done, long good, long unknown, double confidence) {
        if (done == 0) {
            return new Probability(Double.NaN, Double.NaN, Double.NaN, Double.NaN);
        }
        double[] ends = of(kind, done, good, confidence);
        double[] held = unknown == 0 ? ends : of(kind, done, good + unknown, confidence);
        return new Probability((double) good / done, ends[0], ends[1], held[1]);
    }
}
