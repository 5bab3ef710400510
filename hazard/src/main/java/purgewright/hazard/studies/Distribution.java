package purgewright.hazard.studies;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import org.apache.commons.statistics.distribution.BetaDistribution;
import org.apache.commons.statistics.distribution.NormalDistribution;
import org.apache.commons.statistics.distribution.TriangularDistribution;

/**
 * What is known of a value. Sampled by its quantile, so that one number of the unit interval gives one value and strata stay strata.
 *
 * <p>Values are in the place's SI unit. All are immutable.
 */
public interface Distribution {
    /**
     * The value below which it lies with a probability.
     *
     * @param u probability, 0 to 1; the ends give the support's ends, which may be infinite
     */
    double quantile(double u);

    /** Probability of lying at or below a value; NaN in, NaN out. */
    double cumulative(double x);

    /** Words for a table, numbers in SI. */
    String words();

    /**
     * Every value between two ends alike.
     *
     * @param low end
     * @param high end, not below low
     */
    record Uniform(double low, double high) implements Distribution {
        /** Checks. */
        public Uniform {
            ordered(low, high);
        }

        @Override
        public double quantile(double u) {
            return low + u * (high - low);
        }

        @Override
        public double cumulative(double x) {
            return high > low ? Math.max(0, Math.min(1, (x - low) / (high - low))) : x < low ? 0 : 1;
        }

        @Override
        public String words() {
            return "uniform " + number(low) + " to " + number(high);
        }
    }

    /**
     * Gauss's.
     *
     * @param mean centre
     * @param sigma standard deviation, at least 0
     */
    record Normal(double mean, double sigma) implements Distribution {
        private static final NormalDistribution STANDARD = NormalDistribution.of(0, 1);

        /** Checks. */
        public Normal {
            if (!Double.isFinite(mean) || !(sigma >= 0) || Double.isInfinite(sigma)) {
                throw new IllegalArgumentException(
                        "mean " + mean + " and sigma " + sigma + " must be finite, sigma at least 0");
            }
        }

        /** Quantile of the standard normal. */
        static double standardQuantile(double u) {
            return STANDARD.inverseCumulativeProbability(u);
        }

        /** Lower tail of the standard normal. */
        static double standardTail(double z) {
            return STANDARD.cumulativeProbability(z);
        }

        @Override
        public double quantile(double u) {
            return sigma == 0 ? mean : mean + sigma * standardQuantile(u);
        }

        @Override
        public double cumulative(double x) {
            return sigma == 0 ? x < mean ? 0 : 1 : standardTail((x - mean) / sigma);
        }

        @Override
        public String words() {
            return "normal, mean " + number(mean) + ", sigma " + number(sigma);
        }
    }

    /**
     * The logarithm is normal.
     *
     * @param median above 0
     * @param geometricSigma exp of the standard deviation of the logarithm, above 1
     */
    record LogNormal(double median, double geometricSigma) implements Distribution {
        /** Checks. */
        public LogNormal {
            if (!(median > 0) || !(geometricSigma > 1) || Double.isInfinite(median * geometricSigma)) {
                throw new IllegalArgumentException(
                        "median " + median + " must be above 0 and geometric sigma " + geometricSigma + " above 1");
            }
        }

        @Override
        public double quantile(double u) {
            return median * Math.exp(Math.log(geometricSigma) * Normal.standardQuantile(u));
        }

        @Override
        public double cumulative(double x) {
            return x <= 0 ? 0 : Normal.standardTail(Math.log(x / median) / Math.log(geometricSigma));
        }

        @Override
        public String words() {
            return "lognormal, median " + number(median) + ", geometric sigma " + number(geometricSigma);
        }
    }

    /**
     * Rises to a peak and falls.
     *
     * @param low end
     * @param mode peak, within the ends
     * @param high end, above low
     */
    record Triangular(double low, double mode, double high) implements Distribution {
        /** Checks. */
        public Triangular {
            ordered(low, high);
            if (!(mode >= low && mode <= high && high > low)) {
                throw new IllegalArgumentException(
                        "mode " + number(mode) + " must lie within " + number(low) + " and " + number(high));
            }
        }

        private TriangularDistribution library() {
            return TriangularDistribution.of(low, mode, high);
        }

        @Override
        public double quantile(double u) {
            return library().inverseCumulativeProbability(u);
        }

        @Override
        public double cumulative(double x) {
            return library().cumulativeProbability(x);
        }

        @Override
        public String words() {
            return "triangular " + number(low) + ", " + number(mode) + ", " + number(high);
        }
    }

    /**
     * Beta, stretched between two ends.
     *
     * @param low end
     * @param high end, above low
     * @param alpha first shape parameter, above 0
     * @param beta second shape parameter, above 0
     */
    record Beta(double low, double high, double alpha, double beta) implements Distribution {
        /** Checks. */
        public Beta {
            ordered(low, high);
            if (!(alpha > 0) || !(beta > 0) || Double.isInfinite(alpha + beta)) {
                throw new IllegalArgumentException("alpha " + alpha + " and beta " + beta + " must be above 0");
            }
        }

        private BetaDistribution library() {
            return BetaDistribution.of(alpha, beta);
        }

        @Override
        public double quantile(double u) {
            return low + (high - low) * library().inverseCumulativeProbability(u);
        }

        @Override
        public double cumulative(double x) {
            return high > low
                    ? library().cumulativeProbability(Math.max(0, Math.min(1, (x - low) / (high - low))))
                    : x < low ? 0 : 1;
        }

        @Override
        public String words() {
            return "beta " + number(alpha) + ", " + number(beta) + " on " + number(low) + " to " + number(high);
        }
    }

    /** What was observed: straight lines between the sorted values, the first at probability 0 and the last at 1. */
    final class Empirical implements Distribution {
        private final double[] sorted;

        /** Of at least one value, in any order. */
        public Empirical(List<Double> values) {
            sorted = values.stream().mapToDouble(Double::doubleValue).toArray();
            if (sorted.length == 0) {
                throw new IllegalArgumentException("an empirical distribution needs values");
            }
            Arrays.sort(sorted);
            if (!Double.isFinite(sorted[0]) || !Double.isFinite(sorted[sorted.length - 1])) {
                throw new IllegalArgumentException("an observed value is not finite");
            }
        }

        @Override
        public double quantile(double u) {
            double at = u * (sorted.length - 1);
            int i = (int) Math.min(Math.floor(at), sorted.length - 1);
            return i >= sorted.length - 1
                    ? sorted[sorted.length - 1]
                    : sorted[i] + (at - i) * (sorted[i + 1] - sorted[i]);
        }

        @Override
        public double cumulative(double x) {
            int last = sorted.length - 1;
            if (x < sorted[0]) {
                return 0;
            }
            if (x >= sorted[last]) {
                return 1;
            }
            int i = last - 1;
            while (i > 0 && sorted[i] > x) {
                i--;
            }
            return (i + (x - sorted[i]) / (sorted[i + 1] - sorted[i])) / last;
        }

        @Override
        public String words() {
            return "empirical, " + sorted.length + " values, " + number(sorted[0]) + " to "
                    + number(sorted[sorted.length - 1]);
        }
    }

    /**
     * Parts of a tolerance stack.
     *
     * @param name of the dimension on the drawing
     * @param low drawing limit, SI
     * @param high drawing limit, SI
     * @param factor with which it enters the stack, for instance 0.5 and -0.5 of two diameters
     * @param shape within the limits
     */
    record StackPart(String name, double low, double high, double factor, StackShape shape) {}

    /** How a dimension lies between its drawing limits. */
    enum StackShape {
        /** Limits are three sigma from the middle; rejects are sorted out. */
        NORMAL,
        /** Anywhere. */
        UNIFORM,
        /** Most in the middle. */
        TRIANGULAR;

        /** Quantile on [-1, 1]. */
        double quantile(double u) {
            return switch (this) {
                case UNIFORM -> 2 * u - 1;
                case TRIANGULAR -> u < 0.5 ? Math.sqrt(2 * u) - 1 : 1 - Math.sqrt(2 * (1 - u));
                case NORMAL -> {
                    double outside = Normal.standardTail(-3);
                    yield Normal.standardQuantile(outside + u * (1 - 2 * outside)) / 3;
                }
            };
        }
    }

    /**
     * A value that is a sum of dimensions between drawing limits: {@code x = sum factor * dimension}.
     *
     * <p>The sum's distribution is convolved on a grid of {@link #CELLS} cells between worst cases, each part spread over cells by its
     * own quantiles; error of a quantile about the width of the stack over {@link #CELLS}.
     */
    final class Stack implements Distribution {
        /** Of the grid; a stack of 100 um is then resolved to 0.05 um, below what can be measured. */
        static final int CELLS = 2000;
        /** Points that stand for one part; the parts' own widths are resolved this finely. */
        private static final int POINTS = 400;

        private final double low;
        private final double high;
        private final int parts;
        private final double[] cumulative;

        /** Of at least one part. */
        public Stack(List<StackPart> parts) {
            if (parts.isEmpty()) {
                throw new IllegalArgumentException("a tolerance stack needs parts");
            }
            double lowest = 0;
            double highest = 0;
            for (StackPart p : parts) {
                ordered(p.low(), p.high());
                lowest += Math.min(p.factor() * p.low(), p.factor() * p.high());
                highest += Math.max(p.factor() * p.low(), p.factor() * p.high());
            }
            this.low = lowest;
            this.high = highest;
            this.parts = parts.size();
            double width = highest - lowest;
            // Mass at grid points 0..CELLS, starting with all of it at the sum of the parts' lower ends.
            double[] mass = new double[CELLS + 1];
            mass[0] = 1;
            if (width > 0) {
                for (StackPart p : parts) {
                    mass = convolve(mass, p, width);
                }
            }
            this.cumulative = new double[CELLS + 2];
            for (int i = 0; i <= CELLS; i++) {
                cumulative[i + 1] = cumulative[i] + mass[i];
            }
            for (int i = 0; i < cumulative.length; i++) {
                cumulative[i] /= cumulative[CELLS + 1];
            }
        }

        private static double[] convolve(double[] mass, StackPart p, double width) {
            double half = Math.abs(p.factor()) * (p.high() - p.low()) / 2;
            double[] kernel = new double[CELLS + 2];
            int top = 0;
            for (int k = 0; k < POINTS; k++) {
                double x = half * (1 + p.shape().quantile((k + 0.5) / POINTS)) / width * CELLS;
                int cell = (int) Math.floor(x);
                double share = x - cell;
                kernel[cell] += (1 - share) / POINTS;
                kernel[cell + 1] += share / POINTS;
                top = Math.max(top, cell + 1);
            }
            double[] sum = new double[CELLS + 1];
            for (int i = 0; i <= CELLS; i++) {
                if (mass[i] != 0) {
                    for (int j = 0; j <= top; j++) {
                        sum[Math.min(CELLS, i + j)] += mass[i] * kernel[j];
                    }
                }
            }
            return sum;
        }

        @Override
        public double quantile(double u) {
            if (!(high > low)) {
                return low;
            }
            int i = Arrays.binarySearch(cumulative, u);
            if (i < 0) {
                i = -i - 2;
            }
            i = Math.max(0, Math.min(CELLS, i));
            double step = cumulative[i + 1] - cumulative[i];
            double share = step > 0 ? (u - cumulative[i]) / step : 0;
            // The mass at a grid point stands for the cell around it.
            double at = i - 0.5 + Math.max(0, Math.min(1, share));
            return low + (high - low) * Math.max(0, Math.min(1, at / CELLS));
        }

        @Override
        public double cumulative(double x) {
            if (x < low) {
                return 0;
            }
            if (x >= high) {
                return 1;
            }
            double at = (x - low) / (high - low) * CELLS + 0.5;
            int i = (int) Math.floor(at);
            return cumulative[i] + (at - i) * (cumulative[i + 1] - cumulative[i]);
        }

        @Override
        public String words() {
            return "stack of " + parts + (parts == 1 ? " dimension, " : " dimensions, ") + number(low) + " to "
                    + number(high);
        }
    }

    /**
     * Which end of a passage model's band is right: -1 low, 0 nominal, 1 high.
     *
     * @param lowShare probability of the low end
     * @param highShare probability of the high end
     */
    record ModelForm(double lowShare, double highShare) implements Distribution {
        /** Checks. */
        public ModelForm {
            if (!(lowShare >= 0) || !(highShare >= 0) || !(lowShare + highShare <= 1)) {
                throw new IllegalArgumentException(
                        "shares " + lowShare + " and " + highShare + " must be at least 0 and add up to at most 1");
            }
        }

        @Override
        public double quantile(double u) {
            return u < lowShare ? -1 : u >= 1 - highShare && highShare > 0 ? 1 : 0;
        }

        @Override
        public double cumulative(double x) {
            return x < -1 ? 0 : x < 0 ? lowShare : x < 1 ? 1 - highShare : 1;
        }

        @Override
        public String words() {
            return String.format(
                    Locale.ROOT,
                    "model form: low %s, nominal %s, high %s",
                    number(lowShare),
                    number(1 - lowShare - highShare),
                    number(highShare));
        }
    }

    /**
     * Another distribution, cut at two ends and scaled up between them.
     *
     * @param whole before
     * @param low end; minus infinity for none
     * @param high end; infinity for none
     */
    record Truncated(Distribution whole, double low, double high) implements Distribution {
        /** Checks that something is left. */
        public Truncated {
            if (!(low <= high)) {
                throw new IllegalArgumentException("nothing lies between " + number(low) + " and " + number(high));
            }
            if (!(mass(whole, low, high) > 0)) {
                throw new IllegalArgumentException(
                        whole.words() + ": nothing of it lies between " + number(low) + " and " + number(high));
            }
        }

        private static double below(Distribution d, double x) {
            return x == Double.NEGATIVE_INFINITY ? 0 : d.cumulative(x);
        }

        private static double mass(Distribution d, double low, double high) {
            return (high == Double.POSITIVE_INFINITY ? 1 : d.cumulative(high)) - below(d, low);
        }

        /** Probability that was cut away. */
        public double cut() {
            return 1 - mass(whole, low, high);
        }

        @Override
        public double quantile(double u) {
            double x = whole.quantile(below(whole, low) + u * mass(whole, low, high));
            // Rounding must not lead out again.
            return Math.max(low, Math.min(high, x));
        }

        @Override
        public double cumulative(double x) {
            return Math.max(0, Math.min(1, (whole.cumulative(x) - below(whole, low)) / mass(whole, low, high)));
        }

        @Override
        public String words() {
            List<String> ends = new ArrayList<>();
            if (low != Double.NEGATIVE_INFINITY) {
                ends.add("at least " + number(low));
            }
            if (high != Double.POSITIVE_INFINITY) {
                ends.add("at most " + number(high));
            }
            return whole.words() + (ends.isEmpty() ? "" : ", " + String.join(", ", ends));
        }
    }

    /** Mean and standard deviation, from 4000 quantiles at the middle of equal shares; tails beyond are left out. */
    default double[] moments() {
        int n = 4000;
        double mean = 0;
        double m2 = 0;
        for (int i = 0; i < n; i++) {
            double x = quantile((i + 0.5) / n);
            double d = x - mean;
            mean += d / (i + 1);
            m2 += d * (x - mean);
        }
        return new double[] {mean, Math.sqrt(m2 / n)};
    }

    private static void ordered(double low, double high) {
        if (!Double.isFinite(low) || !Double.isFinite(high) || !(low <= high)) {
            throw new IllegalArgumentException(
                    "low " + number(low) + " and high " + number(high) + " must be finite and in order");
        }
    }

    private static String number(double value) {
        String text = String.format(Locale.ROOT, "%.5g", value);
        return text.contains(".") ? text.replaceFirst("0+(e|$)", "$1").replaceFirst("\\.(e|$)", "$1") : text;
    }
}
