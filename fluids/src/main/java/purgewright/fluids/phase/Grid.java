package purgewright.fluids.phase;

import java.nio.DoubleBuffer;

/**
 * The coordinates of a region of states: uniform in {@code u} (a function of pressure) and in {@code v} in [0, 1], the logarithmic
 * distance of enthalpy, or of entropy, from a base line as a share of its largest value:
 *
 * <pre>{@code v = ln(1 + sign (h - base(u)) / scale) / extent(u)}</pre>
 *
 * <p>A place is v counted in nodes. Base, extent and the coldest temperature are cubic splines over u. Immutable.
 */
final class Grid {
    /** Numbers an interval of u: a cubic each for base, extent and coldest temperature. */
    private static final int PER_INTERVAL = 12;
    /** Vs a hair outside [0, 1] are on the edge: what is found from enthalpy and from entropy differs by the splines' error. */
    private static final double EDGE = 1e-6;

    final double uStart;
    final double uStep;
    final int uCount;
    final int vCount;
    final double sign;
    private final double scale;
    private final double[] base;
    private final double[] extent;
    private final double[] cold;
    /** Reciprocals: a look-up divides as little as it can. */
    private final double perUStep;

    private final double start;
    private final double perScale;
    private final double lastInterval;
    private final double last;
    private final double perLast;
    private final double lowest;
    private final double highest;
    private final double[] lines;

    /**
     * @param base first line of enthalpy or entropy, at each node of u
     * @param extent v = 1 of the logarithmic distance, at each node of u
     * @param cold coldest temperature that is answered, at each node of u
     */
    Grid(
            double uStart,
            double uStep,
            int vCount,
            double scale,
            double sign,
            double[] base,
            double[] extent,
            double[] cold) {
        this.uStart = uStart;
        this.uStep = uStep;
        this.uCount = base.length;
        this.vCount = vCount;
        this.scale = scale;
        this.sign = sign;
        this.base = base;
        this.extent = extent;
        this.cold = cold;
        perUStep = 1 / uStep;
        start = uStart / uStep;
        perScale = sign / scale;
        lastInterval = uCount - 2.0;
        last = vCount - 1.0;
        perLast = 1 / last;
        lowest = -EDGE * last;
        highest = last + EDGE * last;
        lines = new double[PER_INTERVAL * (uCount - 1)];
        double[][] columns = {base, extent, cold};
        for (int column = 0; column < columns.length; column++) {
            double[] c = Splines.coefficients(columns[column]);
            for (int i = 0; i < uCount - 1; i++) {
                int at = PER_INTERVAL * i + 4 * column;
                lines[at] = (c[i] + 4 * c[i + 1] + c[i + 2]) / 6;
                lines[at + 1] = (c[i + 2] - c[i]) / 2;
                lines[at + 2] = (c[i] - 2 * c[i + 1] + c[i + 2]) / 2;
                lines[at + 3] = (c[i + 3] - 3 * c[i + 2] + 3 * c[i + 1] - c[i]) / 6;
            }
        }
    }

    /** The logarithmic distance between two values. */
    static double extent(double from, double to, double scale) {
        return Math.log1p(Math.abs(to - from) / scale);
    }

    double u(int i) {
        return uStart + i * uStep;
    }

    /** Enthalpy or entropy at node (i, j). */
    double value(int i, int j) {
        return base[i] + sign * scale * Math.expm1(j / last * extent[i]);
    }

    /** Position of u among the nodes. */
    double position(double u) {
        return u * perUStep - start;
    }

    /** Number of a position's interval, to be made an {@link #index} or taken from the position; clipped. */
    double interval(double position) {
        return whole(position, lastInterval);
    }

    /**
     * Rounds down; left large, so that the number stands in the last bits, since converting to an integer and back takes longer. A whole
     * position may go to the interval below, as its end.
     */
    private static double whole(double position, double last) {
        return position < 0
                ? QuickLog.ROUND
                : position >= last + 1 ? last + QuickLog.ROUND : position - 0.5 + QuickLog.ROUND;
    }

    /** The index in a number found by {@link #interval} or {@link #cell}. */
    static int index(double whole) {
        return (int) Double.doubleToRawLongBits(whole);
    }

    /** What a position is beyond a number found by {@link #interval} or {@link #cell}. */
    static double share(double position, double whole) {
        return position - (whole - QuickLog.ROUND);
    }

    private static double cubic(double[] l, int k, double s) {
        return l[k] + s * l[k + 1] + s * s * (l[k + 2] + s * l[k + 3]);
    }

    /** Distance from the base line over the scale, in interval i at share s of it; negative on the other side of the line. */
    double distance(int i, double s, double value) {
        return (value - cubic(lines, PER_INTERVAL * i, s)) * perScale;
    }

    /** Place among the nodes of v, of a distance above -1. */
    double place(int i, double s, double distance) {
        return QuickLog.of(1 + distance) * (last / cubic(lines, PER_INTERVAL * i + 4, s));
    }

    /** Whether a place lies in the region; NaN does not. */
    boolean holds(double place) {
        return place >= lowest && place <= highest;
    }

    /** Number of a place's cell, to be made an {@link #index} or taken from the place; clipped. */
    double cell(double place) {
        return whole(place, last - 1);
    }

    /** Coldest temperature that is answered, in interval i at share s. */
    double coldest(int i, double s) {
        return cubic(lines, PER_INTERVAL * i + 8, s);
    }

    /** Enthalpy or entropy of a place, in interval i at share s. */
    double value(int i, double s, double place) {
        double extent = cubic(lines, PER_INTERVAL * i + 4, s);
        return cubic(lines, PER_INTERVAL * i, s) + sign * scale * (QuickLog.exp(place * perLast * extent) - 1);
    }

    int size() {
        return lines.length;
    }

    /** Numbers that {@link #write} needs. */
    int stored() {
        return 6 + 3 * uCount;
    }

    void write(DoubleBuffer out) {
        out.put(uStart).put(uStep).put(uCount).put(vCount).put(scale).put(sign);
        out.put(base).put(extent).put(cold);
    }

    static Grid read(DoubleBuffer in) {
        double uStart = in.get();
        double uStep = in.get();
        double[] base = new double[TableStore.count(in, 3)];
        double[] extent = new double[base.length];
        double[] cold = new double[base.length];
        int vCount = TableStore.count(in, 1);
        double scale = in.get();
        double sign = in.get();
        in.get(base).get(extent).get(cold);
        return new Grid(uStart, uStep, vCount, scale, sign, base, extent, cold);
    }
}
