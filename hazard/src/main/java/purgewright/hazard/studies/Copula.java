package purgewright.hazard.studies;

import org.apache.commons.math3.linear.Array2DRowRealMatrix;
import org.apache.commons.math3.linear.EigenDecomposition;
import org.apache.commons.math3.linear.RealMatrix;

/**
 * Inputs that go together: a Gaussian copula.
 *
 * <pre>{@code
 * z = Phi^-1(u),  z' = L z,  u' = Phi(z'),  L L' = R,  R = 2 sin(pi/6 rank correlation)
 * }</pre>
 *
 * <p>Rank correlations keep their meaning whatever the distributions are. Source of the sine: K. Pearson, "On further methods of
 * determining correlation", 1907 [from memory]. Immutable.
 */
public final class Copula {
    /** Below this an eigenvalue counts as negative: rounding of a singular matrix, as full correlation is, stays well above. */
    private static final double ROUNDING = 1e-10;

    private final double[][] lower;

    private Copula(double[][] lower) {
        this.lower = lower;
    }

    /** Inputs that have nothing to do with each other: null in place of a copula would say the same less clearly. */
    public static Copula independent(int inputs) {
        double[][] unit = new double[inputs][inputs];
        for (int i = 0; i < inputs; i++) {
            unit[i][i] = 1;
        }
        return new Copula(unit);
    }

    /**
     * For rank correlations.
     *
     * @param ranks symmetric, 1 on the diagonal
     * @throws Impossible when no set of random values can be correlated so; it carries the nearest that can
     */
    public static Copula of(double[][] ranks) {
        double[][] normal = map(ranks, Copula::toNormal);
        if (leastEigenvalue(normal) < -ROUNDING) {
            throw new Impossible(map(nearest(normal), Copula::toRank));
        }
        return new Copula(cholesky(normal));
    }

    /** Correlations that nothing can have. */
    public static final class Impossible extends IllegalArgumentException {
        private static final long serialVersionUID = 1L;

        private final transient double[][] nearest;

        Impossible(double[][] nearest) {
            super("no values can be correlated so: the matrix of correlations is not positive definite");
            this.nearest = nearest;
        }

        /** The nearest matrix of rank correlations that is possible. */
        public double[][] nearest() {
            return map(nearest, x -> x);
        }
    }

    /** True when no input is tied to another. */
    public boolean isIndependent() {
        for (int i = 0; i < lower.length; i++) {
            for (int j = 0; j < i; j++) {
                if (lower[i][j] != 0) {
                    return false;
                }
            }
        }
        return true;
    }

    /** Independent standard normals to correlated ones. */
    public double[] correlate(double[] normal) {
        double[] out = new double[normal.length];
        for (int i = 0; i < normal.length; i++) {
            for (int j = 0; j <= i; j++) {
                out[i] += lower[i][j] * normal[j];
            }
        }
        return out;
    }

    /** Independent uniform numbers, each within ]0, 1[, to uniform ones that go together. */
    public double[] join(double[] uniform) {
        if (isIndependent()) {
            return uniform.clone();
        }
        double[] z = new double[uniform.length];
        for (int i = 0; i < z.length; i++) {
            z[i] = Distribution.Normal.standardQuantile(uniform[i]);
        }
        z = correlate(z);
        for (int i = 0; i < z.length; i++) {
            z[i] = Distribution.Normal.standardTail(z[i]);
        }
        return z;
    }

    /** Rank correlation to that of normal values. */
    static double toNormal(double rank) {
        return 2 * Math.sin(Math.PI / 6 * rank);
    }

    private static double toRank(double normal) {
        return 6 / Math.PI * Math.asin(normal / 2);
    }

    private interface Change {
        double of(double x);
    }

    private static double[][] map(double[][] m, Change change) {
        double[][] out = new double[m.length][m.length];
        for (int i = 0; i < m.length; i++) {
            for (int j = 0; j < m.length; j++) {
                out[i][j] = i == j ? 1 : change.of(m[i][j]);
            }
        }
        return out;
    }

    static double leastEigenvalue(double[][] m) {
        double least = Double.POSITIVE_INFINITY;
        for (double v : new EigenDecomposition(new Array2DRowRealMatrix(m)).getRealEigenvalues()) {
            least = Math.min(least, v);
        }
        return least;
    }

    /** Lower triangle; a pivot of zero, as full correlation has, gives a column of zeros. */
    private static double[][] cholesky(double[][] m) {
        int n = m.length;
        double[][] l = new double[n][n];
        for (int j = 0; j < n; j++) {
            double pivot = m[j][j];
            for (int k = 0; k < j; k++) {
                pivot -= l[j][k] * l[j][k];
            }
            l[j][j] = pivot > ROUNDING ? Math.sqrt(pivot) : 0;
            for (int i = j + 1; i < n && l[j][j] > 0; i++) {
                double sum = m[i][j];
                for (int k = 0; k < j; k++) {
                    sum -= l[i][k] * l[j][k];
                }
                l[i][j] = sum / l[j][j];
            }
        }
        return l;
    }

    /**
     * The nearest correlation matrix in the sense of the sum of squares: alternating projections on the matrices without negative
     * eigenvalue and on those of unit diagonal, with Dykstra's correction. Source: N. J. Higham, IMA J. Numer. Anal. 22 (2002) 329
     * [from memory]. Afterwards drawn a hair towards no correlation, so that it is possible in spite of rounding to four digits.
     */
    static double[][] nearest(double[][] m) {
        int n = m.length;
        RealMatrix y = new Array2DRowRealMatrix(m);
        RealMatrix correction = new Array2DRowRealMatrix(n, n);
        for (int round = 0; round < 200; round++) {
            RealMatrix r = y.subtract(correction);
            EigenDecomposition e = new EigenDecomposition(r);
            RealMatrix d = e.getD();
            for (int i = 0; i < n; i++) {
                d.setEntry(i, i, Math.max(0, d.getEntry(i, i)));
            }
            RealMatrix x = e.getV().multiply(d).multiply(e.getVT());
            correction = x.subtract(r);
            RealMatrix next = x.copy();
            for (int i = 0; i < n; i++) {
                next.setEntry(i, i, 1);
            }
            double change = next.subtract(y).getFrobeniusNorm();
            y = next;
            if (change < 1e-12) {
                break;
            }
        }
        double[][] out = y.getData();
        for (int i = 0; i < n; i++) {
            for (int j = 0; j < n; j++) {
                double both = (out[i][j] + out[j][i]) / 2;
                out[i][j] = i == j ? 1 : both;
                out[j][i] = out[i][j];
            }
        }
        double hair = 0;
        double[][] drawn = out;
        while (leastEigenvalue(rounded(drawn)) < 0 && hair < 1) {
            hair = hair == 0 ? 1e-4 : hair * 2;
            double keep = 1 - hair;
            drawn = map(out, v -> v * keep);
        }
        return rounded(drawn);
    }

    /** To the digits that the error prints, in rank correlation, so that what is offered is what is accepted. */
    private static double[][] rounded(double[][] normal) {
        return map(normal, v -> toNormal(Math.rint(toRank(v) * 1e4) / 1e4));
    }
}
