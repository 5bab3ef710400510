package purgewright.fluids.mixture;

import purgewright.fluids.burnt.Nasa7;

/**
 * How far off a mixture's density is because molecules of different kinds do not attract each other here: an estimate by the second virial
 * coefficient of the unlike pairs.
 *
 * <pre>{@code B_ij = R Tc/pc (f0(T/Tc) + w f1(T/Tc)),   drho/rho = c sum_(i != j) x_i x_j B_ij}</pre>
 *
 * <p>with the combining rules {@code Tc = sqrt(Tci Tcj)}, {@code vc^(1/3)} and {@code w} and {@code zc} as means, {@code pc = zc R Tc/vc}.
 * First order in the molar concentration c. Against eight mixtures of another library it is good to a third of itself up to a few MPa, and
 * up to three times too large at 10 MPa and 300 K, where encounters of three molecules count. It warns of what the model leaves out, and
 * corrects nothing.
 *
 * <p>Source: C. Tsonopoulos, AIChE J. 20 (1974) 263, for f0 and f1; J. M. Prausnitz and co-workers for the combining rules [both from
 * memory; against the multi-fluid equation of another library see docs/theory/mixtures.md].
 */
final class UnlikePairs {
    private UnlikePairs() {}

    /**
     * Second virial coefficient of an unlike pair, m3/mol.
     *
     * @param temperature K
     * @param a critical temperature (K), critical pressure (Pa), critical molar volume (m3/mol) and acentric factor of one
     * @param b of the other
     */
    static double virial(double temperature, double[] a, double[] b) {
        double r = Nasa7.GAS_CONSTANT;
        double tc = Math.sqrt(a[0] * b[0]);
        double root = 0.5 * (Math.cbrt(a[2]) + Math.cbrt(b[2]));
        double vc = root * root * root;
        double zc = 0.5 * (a[1] * a[2] / (r * a[0]) + b[1] * b[2] / (r * b[0]));
        double omega = 0.5 * (a[3] + b[3]);
        double t = Math.max(temperature / tc, 0.5); // the series runs away below
        double t2 = t * t;
        double t8 = t2 * t2 * t2 * t2;
        double f0 = 0.1445 - 0.330 / t - 0.1385 / t2 - 0.0121 / (t2 * t) - 0.000607 / t8;
        double f1 = 0.0637 + 0.331 / t2 - 0.423 / (t2 * t) - 0.008 / t8;
        return vc / zc * (f0 + omega * f1);
    }
}
