package purgewright.fluids.phase;

import java.nio.DoubleBuffer;

/**
 * Bicubic splines of several fields over one rectangle of equally spaced nodes, twice continuously differentiable.
 *
 * <p>Kept as the coefficients of basis splines, one number a node and field, the fields of a node side by side: a value takes four rows of
 * four nodes, and the whole is a quarter of what values with slopes need, so that it stays in the caches nearest to the processor.
 * Immutable.
 */
final class Splines {
    private final int uCount;
    private final int vCount;
    private final int fields;
    /** Numbers in a row of u. */
    private final int row;
    /** Node (i, j), field k at (i + 1) row + (j + 1) fields + k: one node more on each side. */
    private final double[] c;

    private Splines(int uCount, int vCount, int fields, double[] c) {
        this.uCount = uCount;
        this.vCount = vCount;
        this.fields = fields;
        row = (vCount + 2) * fields;
        this.c = c;
    }

    /**
     * The splines through values.
     *
     * @param values node (i, j), field k at (i vCount + j) fields + k
     */
    static Splines through(int uCount, int vCount, int fields, double[] values) {
        int row = (vCount + 2) * fields;
        double[] c = new double[(uCount + 2) * row];
        double[] line = new double[vCount];
        double[] own = new double[vCount + 2];
        double[] upper = new double[Math.max(uCount, vCount)];
        for (int i = 0; i < uCount; i++) {
            for (int k = 0; k < fields; k++) {
                for (int j = 0; j < vCount; j++) {
                    line[j] = values[(i * vCount + j) * fields + k];
                }
                coefficients(line, own, upper);
                for (int j = 0; j < vCount + 2; j++) {
                    c[(i + 1) * row + j * fields + k] = own[j];
                }
            }
        }
        line = new double[uCount];
        own = new double[uCount + 2];
        for (int m = 0; m < row; m++) {
            for (int i = 0; i < uCount; i++) {
                line[i] = c[(i + 1) * row + m];
            }
            coefficients(line, own, upper);
            for (int i = 0; i < uCount + 2; i++) {
                c[i * row + m] = own[i];
            }
        }
        return new Splines(uCount, vCount, fields, c);
    }

    /** Coefficients, two more than values, of the cubic spline through equally spaced values. */
    static double[] coefficients(double[] values) {
        double[] own = new double[values.length + 2];
        coefficients(values, own, new double[values.length]);
        return own;
    }

    /** (c[i-1] + 4 c[i] + c[i+1]) / 6 = y[i]; at both ends the one-sided slope of sixth order. */
    private static void coefficients(double[] y, double[] c, double[] upper) {
        int n = y.length;
        double first = -2.45 * y[0] + 6 * y[1] - 7.5 * y[2] + 20 * y[3] / 3 - 3.75 * y[4] + 1.2 * y[5] - y[6] / 6;
        double end = 2.45 * y[n - 1]
                - 6 * y[n - 2]
                + 7.5 * y[n - 3]
                - 20 * y[n - 4] / 3
                + 3.75 * y[n - 5]
                - 1.2 * y[n - 6]
                + y[n - 7] / 6;
        // c[-1] = c[1] - 2 first, c[n] = c[n-2] + 2 end
        upper[0] = 0.5;
        c[1] = (6 * y[0] + 2 * first) / 4;
        for (int i = 1; i < n; i++) {
            double lower = i < n - 1 ? 1 : 2;
            double right = i < n - 1 ? 6 * y[i] : 6 * y[i] - 2 * end;
            double pivot = 4 - lower * upper[i - 1];
            upper[i] = 1 / pivot;
            c[i + 1] = (right - lower * c[i]) / pivot;
        }
        for (int i = n - 2; i >= 0; i--) {
            c[i + 1] -= upper[i] * c[i + 2];
        }
        c[0] = c[2] - 2 * first;
        c[n + 1] = c[n - 1] + 2 * end;
    }

    /** The values at the nodes, in the order in which they were given. */
    double[] values() {
        double[] values = new double[uCount * vCount * fields];
        for (int i = 0; i < uCount; i++) {
            for (int m = 0; m < vCount * fields; m++) {
                int p = i * row + m;
                values[i * vCount * fields + m] =
                        (acrossNode(p) + 4 * acrossNode(p + row) + acrossNode(p + 2 * row)) / 36;
            }
        }
        return values;
    }

    private double acrossNode(int p) {
        return c[p] + 4 * c[p + fields] + c[p + 2 * fields];
    }

    // ---- evaluation: in interval i at share s of it, in cell j at share t of it ----

    /** Both of two fields. */
    void pair(int i, double s, int j, double t, double[] out) {
        double s1 = 1 - s;
        double t1 = 1 - t;
        double s2 = s * s;
        double t2 = t * t;
        double r2 = s1 * s1;
        double q2 = t1 * t1;
        double a0 = r2 * (s1 * (1.0 / 6));
        double a1 = 2.0 / 3 - s2 * (1 - 0.5 * s);
        double a2 = 2.0 / 3 - r2 * (1 - 0.5 * s1);
        double a3 = s2 * (s * (1.0 / 6));
        double b0 = q2 * (t1 * (1.0 / 6));
        double b1 = 2.0 / 3 - t2 * (1 - 0.5 * t);
        double b2 = 2.0 / 3 - q2 * (1 - 0.5 * t1);
        double b3 = t2 * (t * (1.0 / 6));
        double[] f = c;
        int p = i * row + 2 * j;
        out[0] = sum(f, p, row, 2, a0, a1, a2, a3, b0, b1, b2, b3);
        out[1] = sum(f, p + 1, row, 2, a0, a1, a2, a3, b0, b1, b2, b3);
    }

    /** The two fields of these splines and, after them, the four of others over the same nodes. */
    void six(Splines four, int i, double s, int j, double t, double[] out) {
        double s1 = 1 - s;
        double t1 = 1 - t;
        double s2 = s * s;
        double t2 = t * t;
        double r2 = s1 * s1;
        double q2 = t1 * t1;
        double a0 = r2 * (s1 * (1.0 / 6));
        double a1 = 2.0 / 3 - s2 * (1 - 0.5 * s);
        double a2 = 2.0 / 3 - r2 * (1 - 0.5 * s1);
        double a3 = s2 * (s * (1.0 / 6));
        double b0 = q2 * (t1 * (1.0 / 6));
        double b1 = 2.0 / 3 - t2 * (1 - 0.5 * t);
        double b2 = 2.0 / 3 - q2 * (1 - 0.5 * t1);
        double b3 = t2 * (t * (1.0 / 6));
        double[] f = c;
        int p = i * row + 2 * j;
        out[0] = sum(f, p, row, 2, a0, a1, a2, a3, b0, b1, b2, b3);
        out[1] = sum(f, p + 1, row, 2, a0, a1, a2, a3, b0, b1, b2, b3);
        f = four.c;
        p = 2 * p;
        int r = 2 * row;
        out[2] = sum(f, p, r, 4, a0, a1, a2, a3, b0, b1, b2, b3);
        out[3] = sum(f, p + 1, r, 4, a0, a1, a2, a3, b0, b1, b2, b3);
        out[4] = sum(f, p + 2, r, 4, a0, a1, a2, a3, b0, b1, b2, b3);
        out[5] = sum(f, p + 3, r, 4, a0, a1, a2, a3, b0, b1, b2, b3);
    }

    /** Rows first: their weights are known before the place is. */
    private static double sum(
            double[] f,
            int p,
            int row,
            int step,
            double a0,
            double a1,
            double a2,
            double a3,
            double b0,
            double b1,
            double b2,
            double b3) {
        int q = p + row;
        int r = q + row;
        int w = r + row;
        return b0 * (a0 * f[p] + a1 * f[q] + (a2 * f[r] + a3 * f[w]))
                + b1 * (a0 * f[p + step] + a1 * f[q + step] + (a2 * f[r + step] + a3 * f[w + step]))
                + (b2 * (a0 * f[p + 2 * step] + a1 * f[q + 2 * step] + (a2 * f[r + 2 * step] + a3 * f[w + 2 * step]))
                        + b3
                                * (a0 * f[p + 3 * step]
                                        + a1 * f[q + 3 * step]
                                        + (a2 * f[r + 3 * step] + a3 * f[w + 3 * step])));
    }

    /** One field. */
    double at(int i, double s, int j, double t, int field) {
        double t1 = 1 - t;
        double b0 = t1 * t1 * t1 * (1.0 / 6);
        double b1 = 2.0 / 3 - t * t * (1 - 0.5 * t);
        double b2 = 2.0 / 3 - t1 * t1 * (1 - 0.5 * t1);
        double b3 = t * t * t * (1.0 / 6);
        int p = i * row + fields * j + field;
        return b0 * along(p, s)
                + b1 * along(p + fields, s)
                + (b2 * along(p + 2 * fields, s) + b3 * along(p + 3 * fields, s));
    }

    /**
     * Place t in cell j at which one field, monotone there, has a value: Newton's method on the cubic that the splines are in the cell. May
     * lie outside [0, 1]: the value then belongs to a neighbouring cell.
     */
    double find(int i, double s, int j, double start, int field, double wanted) {
        int p = i * row + fields * j + field;
        double c0 = along(p, s);
        double c1 = along(p + fields, s);
        double c2 = along(p + 2 * fields, s);
        double c3 = along(p + 3 * fields, s);
        double y0 = (c0 + 4 * c1 + c2) * (1.0 / 6) - wanted;
        double y1 = 0.5 * (c2 - c0);
        double y2 = 0.5 * (c0 + c2) - c1;
        double y3 = (c3 - c0) * (1.0 / 6) + 0.5 * (c1 - c2);
        double t = start;
        for (int n = 0; n < 4; n++) {
            double move = (y0 + t * (y1 + t * (y2 + t * y3))) / (y1 + t * (2 * y2 + t * (3 * y3)));
            t -= move;
            // the field is all but straight in a cell: the next move would be less than a hundredth of this one's
            // square
            if (Math.abs(move) < 1e-4) {
                break;
            }
        }
        return t;
    }

    private double along(int p, double s) {
        double s1 = 1 - s;
        double[] f = c;
        return s1 * s1 * s1 * (1.0 / 6) * f[p]
                + (2.0 / 3 - s * s * (1 - 0.5 * s)) * f[p + row]
                + ((2.0 / 3 - s1 * s1 * (1 - 0.5 * s1)) * f[p + 2 * row] + s * s * s * (1.0 / 6) * f[p + 3 * row]);
    }

    int size() {
        return c.length;
    }

    /** Numbers that {@link #write} needs. */
    int stored() {
        return 3 + c.length;
    }

    void write(DoubleBuffer out) {
        out.put(uCount).put(vCount).put(fields).put(c);
    }

    static Splines read(DoubleBuffer in) {
        int uCount = TableStore.count(in, 1);
        int vCount = TableStore.count(in, 1);
        int fields = TableStore.count(in, 1);
        long numbers = (uCount + 2L) * (vCount + 2L) * fields;
        if (numbers > in.remaining()) {
            throw new IllegalArgumentException("a table promises " + numbers + " numbers and has " + in.remaining());
        }
        double[] c = new double[(int) numbers];
        in.get(c);
        return new Splines(uCount, vCount, fields, c);
    }
}
