package purgewright.fluids.phase;

import java.nio.DoubleBuffer;
import java.util.Arrays;

/**
 * Bicubic splines of several fields over one region: uniform in {@code u} (a function of pressure) and in {@code v} in [0, 1], the
 * logarithmic distance of enthalpy from a base line, as a share of its largest value:
 *
 * <pre>{@code v = ln(1 + sign (h - base(u)) / scale) / extent(u)}</pre>
 *
 * <p>Tensor-product cubic splines (twice continuously differentiable inside the patch) kept in Hermite form: at each node every field's
 * value and its derivatives over u, v and both, times the step. Immutable after {@link #seal}.
 */
final class Patch {
    /** Values at a node for each field: f, f_u, f_v, f_uv. */
    private static final int PER_FIELD = 4;

    final double uStart;
    final double uStep;
    /** Reciprocals: a look-up divides as little as it can. */
    private final double perUStep;

    private final double perScale;
    private final double last;
    final int uCount;
    final int vCount;
    final int fields;
    final double scale;
    final double sign;
    /** base, base_u, extent, extent_u at each node of u. */
    final double[] lines;
    /** Node (i, j), field k, derivative d at ((i vCount + j) fields + k) 4 + d. */
    final double[] data;
    /** Cell (i, j) at i vCount + j. */
    private final boolean[] coarse;
    /** The fourth difference is taken at nodes, not at its largest in the cell. */
    private static final double SAFETY = 2;
    /** One-sided slopes at the ends of a spline are off by more. */
    private static final double EDGE_FACTOR = 12;

    Patch(double uStart, double uEnd, int uCount, int vCount, int fields, double scale, double sign) {
        this(
                uStart,
                (uEnd - uStart) / (uCount - 1),
                uCount,
                vCount,
                fields,
                scale,
                sign,
                new double[4 * uCount],
                new double[PER_FIELD * uCount * vCount * fields]);
    }

    Patch(
            double uStart,
            double uStep,
            int uCount,
            int vCount,
            int fields,
            double scale,
            double sign,
            double[] lines,
            double[] data) {
        this.uStart = uStart;
        this.uStep = uStep;
        perUStep = 1 / uStep;
        perScale = sign / scale;
        last = vCount - 1.0;
        this.uCount = uCount;
        this.vCount = vCount;
        this.fields = fields;
        this.scale = scale;
        this.sign = sign;
        this.lines = lines;
        this.data = data;
        this.coarse = new boolean[uCount * vCount];
    }

    double u(int i) {
        return uStart + i * uStep;
    }

    /** Sets base and far end of enthalpy at node i of u. */
    void line(int i, double base, double far) {
        lines[4 * i] = base;
        lines[4 * i + 2] = Math.log1p(sign * (far - base) / scale);
    }

    /** Enthalpy of node (i, j). */
    double enthalpy(int i, int j) {
        double v = j / (vCount - 1.0);
        return lines[4 * i] + sign * scale * Math.expm1(v * lines[4 * i + 2]);
    }

    void set(int i, int j, int field, double value) {
        data[index(i, j, field)] = value;
    }

    double value(int i, int j, int field) {
        return data[index(i, j, field)];
    }

    private int index(int i, int j, int field) {
        return ((i * vCount + j) * fields + field) * PER_FIELD;
    }

    /** Computes every derivative from the values. */
    void seal() {
        double[] values = new double[Math.max(uCount, vCount)];
        double[] slopes = new double[values.length];
        for (int column = 0; column < 4; column += 2) {
            for (int i = 0; i < uCount; i++) {
                values[i] = lines[4 * i + column];
            }
            splineSlopes(values, slopes, uCount);
            for (int i = 0; i < uCount; i++) {
                lines[4 * i + column + 1] = slopes[i];
            }
        }
        sealFields();
    }

    /**
     * Marks the cells in which the splines are off by more than a tolerance, by the error term of a cubic spline, a 384th of the fourth
     * difference of neighbouring nodes, over u and over v.
     *
     * @param scales for each field: what its error is measured by, from a node's values
     * @param tolerance of the sum of a field's errors over its scale
     */
    void judge(Scale[] scales, double tolerance) {
        double[] errors = new double[uCount * vCount];
        for (int i = 0; i < uCount; i++) {
            for (int j = 0; j < vCount; j++) {
                double worst = 0;
                for (int k = 0; k < scales.length; k++) {
                    double error = fourth(i, j, k, true) + fourth(i, j, k, false);
                    worst = Math.max(worst, error / scales[k].at(this, i, j));
                }
                errors[i * vCount + j] = SAFETY * worst / 384;
            }
        }
        for (int i = 0; i < uCount - 1; i++) {
            for (int j = 0; j < vCount - 1; j++) {
                int at = i * vCount + j;
                double worst = Math.max(
                        Math.max(errors[at], errors[at + 1]), Math.max(errors[at + vCount], errors[at + vCount + 1]));
                coarse[at] = !(worst <= tolerance);
            }
        }
    }

    /** What an error in one field is measured by, at a node. */
    interface Scale {
        double at(Patch patch, int i, int j);
    }

    /** Largest fourth difference of a field about a node; at the ends the nearest there is, where a spline is worse too. */
    private double fourth(int i, int j, int field, boolean overV) {
        int count = overV ? vCount : uCount;
        int at = overV ? j : i;
        int middle = Math.max(2, Math.min(count - 3, at));
        double[] y = new double[5];
        for (int m = -2; m <= 2; m++) {
            y[m + 2] = overV ? value(i, middle + m, field) : value(middle + m, j, field);
        }
        double edge = at < 2 || at > count - 3 ? EDGE_FACTOR : 1;
        return edge * Math.abs(y[0] - 4 * y[1] + 6 * y[2] - 4 * y[3] + y[4]);
    }

    /** Is the cell of a place in interval i one that {@link #judge} marked? */
    boolean coarse(int i, double v) {
        int j = (int) (v * last);
        return coarse[i * vCount + (j < 0 ? 0 : Math.min(j, vCount - 2))];
    }

    /** Computes the fields' derivatives; for a patch that shares its lines with another. */
    void sealFields() {
        double[] values = new double[Math.max(uCount, vCount)];
        double[] slopes = new double[values.length];
        for (int k = 0; k < fields; k++) {
            for (int i = 0; i < uCount; i++) {
                along(values, slopes, i, k, 0, 2, true);
            }
            for (int j = 0; j < vCount; j++) {
                along(values, slopes, j, k, 0, 1, false);
                along(values, slopes, j, k, 2, 3, false);
            }
        }
    }

    private void along(double[] values, double[] slopes, int fixed, int field, int from, int to, boolean overV) {
        int count = overV ? vCount : uCount;
        for (int m = 0; m < count; m++) {
            values[m] = data[(overV ? index(fixed, m, field) : index(m, fixed, field)) + from];
        }
        splineSlopes(values, slopes, count);
        for (int m = 0; m < count; m++) {
            data[(overV ? index(fixed, m, field) : index(m, fixed, field)) + to] = slopes[m];
        }
    }

    /** Slopes, times the step, of the cubic spline through equally spaced values; not-a-knot ends. */
    static void splineSlopes(double[] y, double[] slopes, int n) {
        // interior: m[i-1] + 4 m[i] + m[i+1] = 3 (y[i+1] - y[i-1]); ends by the one-sided formula of fourth order
        double[] upper = new double[n];
        slopes[0] = (-25 * y[0] + 48 * y[1] - 36 * y[2] + 16 * y[3] - 3 * y[4]) / 12;
        slopes[n - 1] = (25 * y[n - 1] - 48 * y[n - 2] + 36 * y[n - 3] - 16 * y[n - 4] + 3 * y[n - 5]) / 12;
        upper[0] = 0;
        double[] right = Arrays.copyOf(slopes, n);
        for (int i = 1; i < n - 1; i++) {
            double pivot = 4 - upper[i - 1];
            upper[i] = 1 / pivot;
            right[i] = (3 * (y[i + 1] - y[i - 1]) - right[i - 1]) / pivot;
        }
        for (int i = n - 2; i > 0; i--) {
            slopes[i] = right[i] - upper[i] * slopes[i + 1];
        }
    }

    /** Position of u among the nodes: whole part the interval, rest the place in it. */
    double position(double u) {
        return (u - uStart) * perUStep;
    }

    /** Index of the interval of a position; clipped. */
    int interval(double position) {
        int i = (int) position;
        return i < 0 ? 0 : Math.min(i, uCount - 2);
    }

    /** v of an enthalpy in interval i at s in it; outside [0, 1] the state lies outside the patch. */
    double v(int i, double s, double enthalpy) {
        double[] l = lines;
        int k = 4 * i;
        double base = hermite(l[k], l[k + 1], l[k + 4], l[k + 5], s);
        double extent = hermite(l[k + 2], l[k + 3], l[k + 6], l[k + 7], s);
        double distance = (enthalpy - base) * perScale;
        return distance > -1 ? QuickLog.of(1 + distance) / extent : Double.NEGATIVE_INFINITY;
    }

    /** Enthalpy in interval i at s and v. */
    double enthalpy(int i, double s, double v) {
        double[] l = lines;
        int k = 4 * i;
        double base = hermite(l[k], l[k + 1], l[k + 4], l[k + 5], s);
        double extent = hermite(l[k + 2], l[k + 3], l[k + 6], l[k + 7], s);
        return base + sign * scale * Math.expm1(v * extent);
    }

    private static double hermite(double y0, double m0, double y1, double m1, double t) {
        double d = y1 - y0;
        return y0 + t * (m0 + t * (3 * d - 2 * m0 - m1 + t * (m0 + m1 - 2 * d)));
    }

    /**
     * Evaluates the first {@code count} fields.
     *
     * @param i interval of u
     * @param s place in it, 0 to 1
     */
    void evaluate(int i, double s, double v, double[] out, int count) {
        double position = v * last;
        int j = (int) position;
        j = j < 0 ? 0 : Math.min(j, vCount - 2);
        double t = position - j;
        double s1 = 1 - s;
        double a0 = s1 * s1 * (1 + 2 * s);
        double a1 = s * s1 * s1;
        double b0 = s * s * (3 - 2 * s);
        double b1 = -s * s * s1;
        double t1 = 1 - t;
        double c0 = t1 * t1 * (1 + 2 * t);
        double c1 = t * t1 * t1;
        double d0 = t * t * (3 - 2 * t);
        double d1 = -t * t * t1;
        double a0c0 = a0 * c0;
        double a1c0 = a1 * c0;
        double a0c1 = a0 * c1;
        double a1c1 = a1 * c1;
        double a0d0 = a0 * d0;
        double a1d0 = a1 * d0;
        double a0d1 = a0 * d1;
        double a1d1 = a1 * d1;
        double b0c0 = b0 * c0;
        double b1c0 = b1 * c0;
        double b0c1 = b0 * c1;
        double b1c1 = b1 * c1;
        double b0d0 = b0 * d0;
        double b1d0 = b1 * d0;
        double b0d1 = b0 * d1;
        double b1d1 = b1 * d1;
        int at = (i * vCount + j) * fields * PER_FIELD;
        int next = fields * PER_FIELD;
        int below = at + vCount * next;
        double[] f = data;
        for (int k = 0; k < count; k++) {
            int p = at + PER_FIELD * k;
            int q = p + next;
            int r = below + PER_FIELD * k;
            int w = r + next;
            out[k] = a0c0 * f[p]
                    + a1c0 * f[p + 1]
                    + a0c1 * f[p + 2]
                    + a1c1 * f[p + 3]
                    + (a0d0 * f[q] + a1d0 * f[q + 1] + a0d1 * f[q + 2] + a1d1 * f[q + 3])
                    + (b0c0 * f[r] + b1c0 * f[r + 1] + b0c1 * f[r + 2] + b1c1 * f[r + 3])
                    + (b0d0 * f[w] + b1d0 * f[w + 1] + b0d1 * f[w + 2] + b1d1 * f[w + 3]);
        }
    }

    /** Evaluates one field in interval i at s and v. */
    double field(int i, double s, double v, int field) {
        double position = v * last;
        int j = (int) position;
        j = j < 0 ? 0 : Math.min(j, vCount - 2);
        double t = position - j;
        int p = index(i, j, field);
        int q = p + fields * PER_FIELD;
        int r = p + vCount * fields * PER_FIELD;
        int w = r + fields * PER_FIELD;
        double[] f = data;
        double left = hermite(f[p], f[p + 1], f[r], f[r + 1], s);
        double leftSlope = hermite(f[p + 2], f[p + 3], f[r + 2], f[r + 3], s);
        double right = hermite(f[q], f[q + 1], f[w], f[w + 1], s);
        double rightSlope = hermite(f[q + 2], f[q + 3], f[w + 2], f[w + 3], s);
        return hermite(left, leftSlope, right, rightSlope, t);
    }

    /** Newton's step in v towards a value of one field, in interval i at s. */
    double newton(int i, double s, double v, int field, double wanted) {
        double position = v * last;
        int j = (int) position;
        j = j < 0 ? 0 : Math.min(j, vCount - 2);
        double t = position - j;
        int p = index(i, j, field);
        int q = p + fields * PER_FIELD;
        int r = p + vCount * fields * PER_FIELD;
        int w = r + fields * PER_FIELD;
        double[] f = data;
        double y0 = hermite(f[p], f[p + 1], f[r], f[r + 1], s);
        double m0 = hermite(f[p + 2], f[p + 3], f[r + 2], f[r + 3], s);
        double y1 = hermite(f[q], f[q + 1], f[w], f[w + 1], s);
        double m1 = hermite(f[q + 2], f[q + 3], f[w + 2], f[w + 3], s);
        double d = y1 - y0;
        double c2 = 3 * d - 2 * m0 - m1;
        double c3 = m0 + m1 - 2 * d;
        double value = y0 + t * (m0 + t * (c2 + t * c3));
        double slope = m0 + t * (2 * c2 + 3 * t * c3);
        return (wanted - value) / (slope * last);
    }

    /** Numbers that {@link #write} needs. */
    int stored() {
        return 7 + 2 * uCount + uCount * vCount * fields;
    }

    /** Writes what cannot be computed again quickly: grid and values. */
    void write(DoubleBuffer out) {
        out.put(uStart)
                .put(uStep)
                .put(uCount)
                .put(vCount)
                .put(fields)
                .put(scale)
                .put(sign);
        for (int i = 0; i < uCount; i++) {
            out.put(lines[4 * i]).put(lines[4 * i + 2]);
        }
        for (int i = 0; i < data.length; i += PER_FIELD) {
            out.put(data[i]);
        }
    }

    /** Reads and seals a patch. */
    static Patch read(DoubleBuffer in) {
        double uStart = in.get();
        double uStep = in.get();
        int uCount = (int) in.get();
        int vCount = (int) in.get();
        int fields = (int) in.get();
        double scale = in.get();
        double sign = in.get();
        Patch patch = new Patch(
                uStart,
                uStep,
                uCount,
                vCount,
                fields,
                scale,
                sign,
                new double[4 * uCount],
                new double[PER_FIELD * uCount * vCount * fields]);
        for (int i = 0; i < uCount; i++) {
            patch.lines[4 * i] = in.get();
            patch.lines[4 * i + 2] = in.get();
        }
        for (int i = 0; i < patch.data.length; i += PER_FIELD) {
            patch.data[i] = in.get();
        }
        patch.seal();
        return patch;
    }
}
