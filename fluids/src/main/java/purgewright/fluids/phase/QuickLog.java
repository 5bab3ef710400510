package purgewright.fluids.phase;

/**
 * Natural logarithm for a table's coordinates: half the time of {@link Math#log}, because it is compiled in place.
 *
 * <p>The mantissa is brought within 1/256 of 1 by a table of 128 reciprocals, the rest is the series to the fifth power. Absolute error
 * below 3e-15 for normal positive numbers; near 1 the relative error grows, and for zero, negative numbers, NaN and infinity the answer
 * means nothing: callers have ruled those out.
 */
final class QuickLog {
    private static final int BITS = 7;
    private static final double LN2 = 0.6931471805599453;
    /** Reciprocal of the middle of each of the 128 parts of [1, 2), and the logarithm of that middle. */
    private static final double[] PART = new double[2 << BITS];

    static {
        for (int i = 0; i < 1 << BITS; i++) {
            PART[2 * i] = 1 / (1 + (i + 0.5) / (1 << BITS));
            PART[2 * i + 1] = -Math.log(PART[2 * i]);
        }
    }

    private QuickLog() {}

    static double of(double x) {
        long bits = Double.doubleToRawLongBits(x);
        int at = (int) (bits >>> (52 - BITS - 1)) & ((2 << BITS) - 2);
        double mantissa = Double.longBitsToDouble((bits & 0xfffffffffffffL) | 0x3ff0000000000000L);
        double r = mantissa * PART[at] - 1;
        double series = r * (1 - r * (0.5 - r * (1.0 / 3 - r * (0.25 - 0.2 * r))));
        return ((int) (bits >>> 52) - 1023) * LN2 + (PART[at + 1] + series);
    }
}
