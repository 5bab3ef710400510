package purgewright.sealflow.passage;

import java.util.function.DoubleUnaryOperator;

/** Bracketed root and maximum of a function of one variable, after R. P. Brent (1973). */
final class Roots {
    private Roots() {}

    /**
     * Root between two points where the function has opposite signs.
     *
     * @param tolerance relative to the larger end
     */
    static double find(DoubleUnaryOperator f, double from, double fFrom, double to, double fTo, double tolerance) {
        double a = from;
        double b = to;
        double fa = fFrom;
        double fb = fTo;
        double c = a;
        double fc = fa;
        double d = b - a;
        double e = d;
        for (int i = 0; i < 100; i++) {
            if (Math.abs(fc) < Math.abs(fb)) {
                a = b;
                b = c;
                c = a;
                fa = fb;
                fb = fc;
                fc = fa;
            }
            double close = 2e-16 * Math.abs(b) + 0.5 * tolerance * Math.max(Math.abs(b), Math.abs(c));
            double m = 0.5 * (c - b);
            if (Math.abs(m) <= close || fb == 0) {
                return b;
            }
            if (Math.abs(e) < close || Math.abs(fa) <= Math.abs(fb)) {
                d = m;
                e = m;
            } else {
                double s = fb / fa;
                double p;
                double q;
                if (a == c) {
                    p = 2 * m * s;
                    q = 1 - s;
                } else {
                    double r = fb / fc;
                    double t = fa / fc;
                    p = s * (2 * m * t * (t - r) - (b - a) * (r - 1));
                    q = (t - 1) * (r - 1) * (s - 1);
                }
                if (p > 0) {
                    q = -q;
                } else {
                    p = -p;
                }
                if (2 * p < Math.min(3 * m * q - Math.abs(close * q), Math.abs(e * q))) {
                    e = d;
                    d = p / q;
                } else {
                    d = m;
                    e = m;
                }
            }
            a = b;
            fa = fb;
            b += Math.abs(d) > close ? d : Math.copySign(close, m);
            fb = f.applyAsDouble(b);
            if (fb > 0 == fc > 0) {
                c = a;
                fc = fa;
                d = b - a;
                e = d;
            }
        }
        return b;
    }

    /** Golden section with parabolic steps; the function has one maximum between the ends. */
    static double maximise(DoubleUnaryOperator f, double from, double to, double tolerance) {
        final double golden = 0.3819660112501051;
        double a = from;
        double b = to;
        double x = a + golden * (b - a);
        double w = x;
        double v = x;
        double fx = -f.applyAsDouble(x);
        double fw = fx;
        double fv = fx;
        double d = 0;
        double e = 0;
        for (int i = 0; i < 60; i++) {
            double m = 0.5 * (a + b);
            if (b - a < 4 * tolerance) {
                break;
            }
            boolean useGolden = true;
            if (Math.abs(e) > tolerance) {
                double r = (x - w) * (fx - fv);
                double q = (x - v) * (fx - fw);
                double p = (x - v) * q - (x - w) * r;
                q = 2 * (q - r);
                if (q > 0) {
                    p = -p;
                }
                q = Math.abs(q);
                double old = e;
                if (Math.abs(p) < Math.abs(0.5 * q * old) && p > q * (a - x) && p < q * (b - x)) {
                    e = d;
                    d = p / q;
                    useGolden = false;
                }
            }
            if (useGolden) {
                e = x < m ? b - x : a - x;
                d = golden * e;
            }
            double u = Math.abs(d) >= tolerance ? x + d : x + Math.copySign(tolerance, d);
            u = Math.max(a, Math.min(b, u));
            double fu = -f.applyAsDouble(u);
            if (fu <= fx) {
                if (u < x) {
                    b = x;
                } else {
                    a = x;
                }
                v = w;
                fv = fw;
                w = x;
                fw = fx;
                x = u;
                fx = fu;
            } else {
                if (u < x) {
                    a = u;
                } else {
                    b = u;
                }
                if (fu <= fw || w == x) {
                    v = w;
                    fv = fw;
                    w = u;
                    fw = fu;
                } else if (fu <= fv || v == x || v == w) {
                    v = u;
                    fv = fu;
                }
            }
        }
        return x;
    }
}
