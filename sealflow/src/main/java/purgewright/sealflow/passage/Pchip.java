package purgewright.sealflow.passage;

/**
 * Monotone C1 cubic interpolation (F. N. Fritsch, J. Butland, SIAM J. Sci. Stat. Comput. 5 (1984) 300 [from memory]): between
 * monotone data the curve is monotone. Abscissae may rise or fall, all in one sense.
 */
final class Pchip {
    private Pchip() {}

    /** Slopes at the first {@code size} points. */
    static double[] slopes(double[] x, double[] y, int size) {
        double[] slope = new double[size];
        slopes(x, y, size, slope);
        return slope;
    }

    /** The same into an array. */
    static void slopes(double[] x, double[] y, int size, double[] slope) {
        if (size == 1) {
            slope[0] = 0;
            return;
        }
        if (size == 2) {
            slope[0] = (y[1] - y[0]) / (x[1] - x[0]);
            slope[1] = slope[0];
            return;
        }
        for (int i = 1; i < size - 1; i++) {
            double hl = x[i] - x[i - 1];
            double hr = x[i + 1] - x[i];
            double dl = (y[i] - y[i - 1]) / hl;
            double dr = (y[i + 1] - y[i]) / hr;
            slope[i] = 0;
            if (dl * dr > 0) {
                double wl = 2 * hr + hl;
                double wr = hr + 2 * hl;
                slope[i] = (wl + wr) / (wl / dl + wr / dr);
            }
        }
        slope[0] = end(x[1] - x[0], x[2] - x[1], (y[1] - y[0]) / (x[1] - x[0]), (y[2] - y[1]) / (x[2] - x[1]));
        int n = size - 1;
        slope[n] = end(
                x[n] - x[n - 1],
                x[n - 1] - x[n - 2],
                (y[n] - y[n - 1]) / (x[n] - x[n - 1]),
                (y[n - 1] - y[n - 2]) / (x[n - 1] - x[n - 2]));
    }

    private static double end(double h0, double h1, double d0, double d1) {
        double s = ((2 * h0 + h1) * d0 - h0 * d1) / (h0 + h1);
        if (s * d0 <= 0) {
            return 0;
        }
        if (d0 * d1 <= 0 && Math.abs(s) > 3 * Math.abs(d0)) {
            return 3 * d0;
        }
        return s;
    }

    /** Index i of the interval between points i - 1 and i that holds the abscissa; the nearest one outside. */
    static int interval(double[] x, int size, double at) {
        boolean rising = x[size - 1] > x[0];
        int i = 1;
        while (i < size - 1 && (rising ? at > x[i] : at < x[i])) {
            i++;
        }
        return i;
    }

    /** Value within interval i (between points i - 1 and i). */
    static double value(double[] x, double[] y, double[] slope, int i, double at) {
        double h = x[i] - x[i - 1];
        double t = (at - x[i - 1]) / h;
        double u = 1 - t;
        return u * u * ((1 + 2 * t) * y[i - 1] + t * h * slope[i - 1])
                + t * t * ((3 - 2 * t) * y[i] - u * h * slope[i]);
    }

    /** Derivative within interval i. */
    static double derivative(double[] x, double[] y, double[] slope, int i, double at) {
        double h = x[i] - x[i - 1];
        double t = (at - x[i - 1]) / h;
        return 6 * t * (1 - t) * (y[i] - y[i - 1]) / h
                + (1 - t) * (1 - 3 * t) * slope[i - 1]
                + t * (3 * t - 2) * slope[i];
    }
}
