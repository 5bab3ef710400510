package purgewright.fluids.burnt;

/**
 * Ideal-gas (or condensed) heat capacity, enthalpy and entropy at 1 bar as seven-coefficient polynomials in two ranges.
 *
 * <pre>{@code
 * cp/R   = a1 + a2 T + a3 T^2 + a4 T^3 + a5 T^4
 * h/(RT) = a1 + a2 T/2 + a3 T^2/3 + a4 T^3/4 + a5 T^4/5 + a6/T
 * s/R    = a1 ln T + a2 T + a3 T^2/2 + a4 T^3/3 + a5 T^4/4 + a7
 * }</pre>
 *
 * <p>Enthalpy is zero for the elements at 298.15 K (formation datum). Below {@code minimum} the heat capacity is held at its value
 * there, above {@code maximum} likewise, so that enthalpy and entropy go on C1. Valid from {@code minimum} to {@code maximum}.
 *
 * <p>Form: B. J. McBride, S. Gordon, M. A. Reno, NASA TM-4513 (1993).
 *
 * <p>All functions are per mole and divided by the gas constant, so that a weighted sum of coefficients is again such a function.
 */
public final class Nasa7 {
    /** Molar gas constant, J/(mol K). CODATA 2018, exact. */
    public static final double GAS_CONSTANT = 8.314462618;

    /** Temperature of the formation datum, K. */
    public static final double DATUM_TEMPERATURE = 298.15;

    private final double minimum;
    private final double middle;
    private final double maximum;
    private final double[] low;
    private final double[] high;

    /**
     * @param minimum lowest temperature of the fit, K
     * @param middle where the two ranges meet, K
     * @param maximum highest temperature of the fit, K
     * @param low seven coefficients below the middle
     * @param high seven coefficients above it
     */
    public Nasa7(double minimum, double middle, double maximum, double[] low, double[] high) {
        if (low.length != 7 || high.length != 7 || !(minimum > 0 && minimum < middle && middle <= maximum)) {
            throw new IllegalArgumentException(
                    "need seven coefficients per range and 0 < minimum < middle <= maximum, got " + low.length + ", "
                            + high.length + " coefficients and " + minimum + ", " + middle + ", " + maximum + " K");
        }
        this.minimum = minimum;
        this.middle = middle;
        this.maximum = maximum;
        this.low = low.clone();
        this.high = high.clone();
    }

    /**
     * The polynomial of an ideal mixture: the mole-weighted sum, without the entropy of mixing.
     *
     * <p>Species with one range (noble gases) take the common middle; all others have to share it.
     */
    static Nasa7 weighted(Nasa7[] parts, double[] weights) {
        double common = Double.NaN;
        double minimum = 0;
        double maximum = Double.MAX_VALUE;
        for (Nasa7 part : parts) {
            minimum = Math.max(minimum, part.minimum);
            maximum = Math.min(maximum, part.maximum);
            if (part.middle < part.maximum) {
                if (!Double.isNaN(common) && common != part.middle) {
                    throw new IllegalArgumentException("ranges meet at " + common + " and at " + part.middle + " K");
                }
                common = part.middle;
            }
        }
        double middle = Double.isNaN(common) ? maximum : common;
        double[] low = new double[7];
        double[] high = new double[7];
        for (int k = 0; k < parts.length; k++) {
            double[] upper = parts[k].middle < parts[k].maximum ? parts[k].high : parts[k].low;
            for (int i = 0; i < 7; i++) {
                low[i] += weights[k] * parts[k].low[i];
                high[i] += weights[k] * upper[i];
            }
        }
        return new Nasa7(minimum, middle, maximum, low, high);
    }

    /** Lowest temperature of the fit, K. */
    public double minimum() {
        return minimum;
    }

    /** Highest temperature of the fit, K. */
    public double maximum() {
        return maximum;
    }

    private double[] range(double temperature) {
        return temperature < middle ? low : high;
    }

    private double held(double temperature) {
        return temperature < minimum ? minimum : Math.min(temperature, maximum);
    }

    /** Heat capacity cp/R at temperature (K). */
    public double heatCapacity(double temperature) {
        double t = held(temperature);
        double[] a = range(t);
        return a[0] + t * (a[1] + t * (a[2] + t * (a[3] + t * a[4])));
    }

    /** Enthalpy h/R, K, at temperature (K), on the formation datum. */
    public double enthalpy(double temperature) {
        double t = held(temperature);
        double[] a = range(t);
        double inside = a[5] + t * (a[0] + t * (a[1] / 2 + t * (a[2] / 3 + t * (a[3] / 4 + t * a[4] / 5))));
        return t == temperature ? inside : inside + heatCapacity(t) * (temperature - t);
    }

    /** Entropy s/R at temperature (K) and 1 bar. */
    public double entropy(double temperature) {
        double t = held(temperature);
        double[] a = range(t);
        double inside = a[6] + a[0] * Math.log(t) + t * (a[1] + t * (a[2] / 2 + t * (a[3] / 3 + t * a[4] / 4)));
        return t == temperature ? inside : inside + heatCapacity(t) * Math.log(temperature / t);
    }

    /** Gibbs energy g/(RT) at temperature (K) and 1 bar. */
    public double gibbs(double temperature) {
        return enthalpy(temperature) / temperature - entropy(temperature);
    }
}
