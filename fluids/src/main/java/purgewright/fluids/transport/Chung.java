package purgewright.fluids.transport;

import purgewright.fluids.helmholtz.Coefficients;
import purgewright.fluids.helmholtz.HelmholtzEquation;

/**
 * The general estimate of T.-H. Chung, M. Ajlan, L. L. Lee, K. E. Starling, Ind. Eng. Chem. Res. 27 (1988) 671, for non-polar fluids,
 * from critical temperature, critical density and acentric factor, on top of the dilute gas of Chapman and Enskog. Constants from
 * memory. For fluids without a published correlation
 * in the library (carbon monoxide, neon); the authors claim a few per cent for gases, about ten for dense fluids. Immutable.
 */
final class Chung {
    static final String SOURCE =
            "estimate: T.-H. Chung, M. Ajlan, L. L. Lee, K. E. Starling, Generalized Multiparameter "
                    + "Correlation for Nonpolar and Polar Fluid Transport Properties, Ind. Eng. Chem. Res. 27 (1988) 671-679 "
                    + "[constants from memory]";

    private static final double[][] E = {
        {6.324, 50.412},
        {1.210e-3, -1.154e-3},
        {5.283, 254.209},
        {6.623, 38.096},
        {19.745, 7.630},
        {-1.900, -12.537},
        {24.275, 3.450},
        {0.7972, 1.117},
        {-0.2382, 0.06770},
        {0.06863, 0.3479}
    };
    private static final double[][] B = {
        {2.4166, 0.74824},
        {-0.50924, -1.5094},
        {6.6107, 5.6207},
        {14.543, -8.9139},
        {0.79274, 0.82019},
        {-5.8634, 12.801},
        {91.089, 128.11}
    };

    private final double tc;
    /** Critical molar volume, cm3/mol, as the authors have it. */
    private final double vc;

    private final double molarMass;
    private final double acentric;
    private final double rhoc;
    private final double diameter;
    private final double depth;
    private final double[] e = new double[E.length];
    private final double[] b = new double[B.length];

    Chung(Coefficients c, HelmholtzEquation equation, Anchors anchors) {
        tc = anchors.criticalTemperature();
        rhoc = anchors.criticalDensity();
        molarMass = equation.molarMass();
        diameter = c.number("estimate.diameter");
        depth = c.number("estimate.depth");
        vc = molarMass / rhoc * 1e6;
        acentric = c.number("acentric");
        for (int i = 0; i < e.length; i++) {
            e[i] = E[i][0] + E[i][1] * acentric;
        }
        for (int i = 0; i < b.length; i++) {
            b[i] = B[i][0] + B[i][1] * acentric;
        }
    }

    private double collision(double reduced) {
        return 1.16145 * Math.pow(reduced, -0.14874)
                + 0.52487 * Math.exp(-0.77320 * reduced)
                + 2.16178 * Math.exp(-2.43787 * reduced);
    }

    private double scale() {
        // the authors' 36.344 sqrt(M Tc)/Vc^(2/3) micropoise, M in g/mol; in Pa s
        return 36.344 * Math.sqrt(molarMass * 1e3 * tc) / Math.cbrt(vc * vc) * 1e-7;
    }

    /**
     * Viscosity of the dilute gas, Pa s: Chapman and Enskog's with P. D. Neufeld's collision integral and the file's Lennard-Jones
     * parameters, which are closer to measured gases than the ones from critical data.
     */
    double diluteViscosity(double temperature) {
        double nm = diameter * 1e9;
        return 2.6693e-8 * Math.sqrt(molarMass * 1e3 * temperature) / (nm * nm * collision(temperature / depth));
    }

    /** Viscosity, Pa s. */
    double viscosity(double temperature, double density) {
        double reduced = 1.2593 * temperature / tc;
        double y = density / (6 * rhoc);
        double g2 = contact(e, y);
        double dense = e[6] * y * y * g2 * Math.exp(e[7] + e[8] / reduced + e[9] / (reduced * reduced));
        return diluteViscosity(temperature) * (1 / g2 + e[5] * y) + scale() * dense;
    }

    /** Thermal conductivity, W/(m K); {@code heat} is cv over R of the ideal gas. */
    double conductivity(double temperature, double density, double heat) {
        double tr = temperature / tc;
        double y = density / (6 * rhoc);
        double alpha = heat - 1.5;
        double beta = 0.7862 - 0.7109 * acentric + 1.3168 * acentric * acentric;
        double z = 2 + 10.5 * tr * tr;
        double psi = 1
                + alpha
                        * (0.215 + 0.28288 * alpha - 1.061 * beta + 0.26665 * z)
                        / (0.6366 + beta * z + 1.061 * alpha * beta);
        double g2 = contact(b, y);
        double q = 3.586e-3 * Math.sqrt(tc / molarMass) / Math.cbrt(vc * vc);
        return 31.2 * diluteViscosity(temperature) * psi / molarMass * (1 / g2 + b[5] * y)
                + q * b[6] * y * y * Math.sqrt(tr) * g2;
    }

    private static double contact(double[] k, double y) {
        double g1 = (1 - 0.5 * y) / ((1 - y) * (1 - y) * (1 - y));
        double first = y < 1e-8 ? k[0] * k[3] : k[0] * -Math.expm1(-k[3] * y) / y;
        return (first + k[1] * g1 * Math.exp(k[4] * y) + k[2] * g1) / (k[0] * k[3] + k[1] + k[2]);
    }
}
