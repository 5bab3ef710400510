package purgewright.hazard.studies;

import java.math.BigDecimal;
import java.math.MathContext;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;

/**
 * Quantiles, histogram and moments of a stream of numbers in bounded memory, such that the order of the numbers has no say: two sketches
 * put together are exactly the sketch of all numbers.
 *
 * <p>Counts by bin. A bin is the numbers that share sign, exponent and the first {@code bits} bits of the mantissa, so it is never wider
 * than 2^-bits of its value. When more than {@link #MOST_BINS} bins are filled, neighbours join ({@code bits} falls by one); how often
 * depends on the set of numbers alone. Sums are exact decimals, so that mean and deviation do not depend on the order either.
 *
 * <p>NaN is not counted. Infinities have a bin of their own and no part in the moments. Owned by one thread.
 */
public final class QuantileSketch {
    /** Mantissa bits at the start: a bin is a relative 0.02 % wide. */
    public static final int FINEST = 12;
    /** 16,384 bins are some hundred kilobytes. */
    public static final int MOST_BINS = 16_384;

    private static final int MANTISSA = 52;
    private static final MathContext DIGITS = new MathContext(34);

    private final TreeMap<Long, Long> bins = new TreeMap<>();
    private int bits = FINEST;
    private long count;
    private long finite;
    private BigDecimal sum = BigDecimal.ZERO;
    private BigDecimal squares = BigDecimal.ZERO;
    private double least = Double.POSITIVE_INFINITY;
    private double greatest = Double.NEGATIVE_INFINITY;

    /**
     * What a sketch holds, to be written and read.
     *
     * @param sum exact decimal
     * @param squares exact decimal
     */
    public record State(
            int bits, long finite, String sum, String squares, double least, double greatest, Map<Long, Long> bins) {}

    /** Takes a number. */
    public void add(double value) {
        if (Double.isNaN(value)) {
            return;
        }
        double x = value == 0 ? 0 : value;
        bins.merge(bin(x), 1L, Long::sum);
        count++;
        least = Math.min(least, x);
        greatest = Math.max(greatest, x);
        if (Double.isFinite(x)) {
            finite++;
            BigDecimal exact = new BigDecimal(x);
            sum = sum.add(exact);
            squares = squares.add(exact.multiply(exact));
        }
        coarsen();
    }

    /** Takes all that another has taken. */
    public void add(QuantileSketch other) {
        while (bits > other.bits) {
            coarser();
        }
        int down = other.bits - bits;
        other.bins.forEach((bin, n) -> bins.merge(bin >> down, n, Long::sum));
        count += other.count;
        finite += other.finite;
        sum = sum.add(other.sum);
        squares = squares.add(other.squares);
        least = Math.min(least, other.least);
        greatest = Math.max(greatest, other.greatest);
        coarsen();
    }

    /** What it holds. */
    public State state() {
        return new State(bits, finite, sum.toString(), squares.toString(), least, greatest, new TreeMap<>(bins));
    }

    /** A sketch that holds what was written. @throws IllegalArgumentException for what no sketch holds */
    public static QuantileSketch of(State state) {
        QuantileSketch sketch = new QuantileSketch();
        if (state.bits() < 0 || state.bits() > FINEST) {
            throw new IllegalArgumentException("a sketch of " + state.bits() + " bits");
        }
        sketch.bits = state.bits();
        state.bins().forEach((bin, n) -> {
            if (n < 1) {
                throw new IllegalArgumentException("a bin with " + n + " numbers");
            }
            sketch.bins.put(bin, n);
            sketch.count = Math.addExact(sketch.count, n);
        });
        if (state.finite() < 0 || state.finite() > sketch.count) {
            throw new IllegalArgumentException(state.finite() + " finite numbers of " + sketch.count);
        }
        if (sketch.bins.size() > MOST_BINS || Double.isNaN(state.least()) || Double.isNaN(state.greatest())) {
            throw new IllegalArgumentException("a sketch that no run has made");
        }
        sketch.finite = state.finite();
        sketch.sum = decimal(state.sum());
        sketch.squares = decimal(state.squares());
        sketch.least = state.least();
        sketch.greatest = state.greatest();
        return sketch;
    }

    /** An exact sum of doubles or of their squares has some 2,200 digits at most; a short text may stand for billions of them. */
    private static BigDecimal decimal(String text) {
        if (text.length() <= 8000) {
            BigDecimal number = new BigDecimal(text);
            if (Math.abs((long) number.scale()) <= 8000) {
                return number;
            }
        }
        throw new IllegalArgumentException("a sum of more digits than there are");
    }

    /** Ascending with the value: the bits of a double do so for positive ones, turned over for negative ones. */
    private long bin(double x) {
        long raw = Double.doubleToLongBits(x);
        long ordered = raw >= 0 ? raw : Long.MIN_VALUE - raw;
        return ordered >> (MANTISSA - bits);
    }

    private double edge(long bin) {
        long ordered = bin << (MANTISSA - bits);
        return Double.longBitsToDouble(ordered >= 0 ? ordered : Long.MIN_VALUE - ordered);
    }

    private void coarsen() {
        while (bins.size() > MOST_BINS && bits > 0) {
            coarser();
        }
    }

    private void coarser() {
        TreeMap<Long, Long> joined = new TreeMap<>();
        bins.forEach((bin, n) -> joined.merge(bin >> 1, n, Long::sum));
        bins.clear();
        bins.putAll(joined);
        bits--;
    }

    /** Numbers taken. */
    public long count() {
        return count;
    }

    /** Smallest; NaN before the first. */
    public double least() {
        return count == 0 ? Double.NaN : least;
    }

    /** Largest; NaN before the first. */
    public double greatest() {
        return count == 0 ? Double.NaN : greatest;
    }

    /** Mean of the finite ones; NaN before the first. */
    public double mean() {
        return finite == 0
                ? Double.NaN
                : sum.divide(BigDecimal.valueOf(finite), DIGITS).doubleValue();
    }

    /** Standard deviation of the finite ones (divided by their number less one); NaN before the second. */
    public double deviation() {
        if (finite < 2) {
            return Double.NaN;
        }
        BigDecimal n = BigDecimal.valueOf(finite);
        BigDecimal centred = squares.multiply(n).subtract(sum.multiply(sum));
        return Math.sqrt(centred.divide(n.multiply(BigDecimal.valueOf(finite - 1)), DIGITS)
                .doubleValue());
    }

    /**
     * The value below which a share of the numbers lies, by a straight line within its bin.
     *
     * @param share 0 to 1
     */
    public double quantile(double share) {
        if (count == 0) {
            return Double.NaN;
        }
        double wanted = share * count;
        long before = 0;
        for (Map.Entry<Long, Long> e : bins.entrySet()) {
            if (before + e.getValue() >= wanted) {
                double low = Math.max(least, edge(e.getKey()));
                double high = Math.min(greatest, edge(e.getKey() + 1));
                double at = (wanted - before) / e.getValue();
                double x = Double.isFinite(low) && Double.isFinite(high) ? low + at * (high - low) : low;
                return Math.max(least, Math.min(greatest, x));
            }
            before += e.getValue();
        }
        return greatest;
    }

    /**
     * Bars of equal width between the smallest and the largest finite number.
     *
     * @param wanted bars, at least 1; a single one when all numbers are alike
     * @param edges filled with one more edge than bars
     * @return samples by bar; a bin's numbers are shared between the bars it spans
     */
    public List<Long> histogram(int wanted, List<Double> edges) {
        List<Long> bars = new ArrayList<>();
        edges.clear();
        double low = Double.NaN;
        double high = Double.NaN;
        for (Map.Entry<Long, Long> e : bins.entrySet()) {
            double a = Math.max(least, edge(e.getKey()));
            double b = Math.min(greatest, edge(e.getKey() + 1));
            if (Double.isFinite(a) && Double.isFinite(b)) {
                low = Double.isNaN(low) ? a : low;
                high = b;
            }
        }
        if (Double.isNaN(low)) {
            return bars;
        }
        int n = high > low ? wanted : 1;
        for (int i = 0; i <= n; i++) {
            edges.add(i == n ? high : low + (high - low) * i / n);
        }
        double[] share = new double[n];
        for (Map.Entry<Long, Long> e : bins.entrySet()) {
            double a = Math.max(least, edge(e.getKey()));
            double b = Math.min(greatest, edge(e.getKey() + 1));
            if (!Double.isFinite(a) || !Double.isFinite(b)) {
                continue;
            }
            int first = index(a, low, high, n);
            int last = index(b, low, high, n);
            for (int i = first; i <= last; i++) {
                double overlap = Math.min(b, edges.get(i + 1)) - Math.max(a, edges.get(i));
                share[i] += e.getValue() * (first == last ? 1 : b > a ? Math.max(0, overlap) / (b - a) : 0);
            }
        }
        // Whole numbers that add up: each bar is the step of the rounded running sum.
        double running = 0;
        long before = 0;
        for (int i = 0; i < n; i++) {
            running += share[i];
            long now = Math.round(running);
            bars.add(now - before);
            before = now;
        }
        return bars;
    }

    private static int index(double x, double low, double high, int n) {
        return high > low ? (int) Math.max(0, Math.min(n - 1, Math.floor((x - low) / (high - low) * n))) : 0;
    }
}
