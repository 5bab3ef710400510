package purgewright.fluids.mixture;

import purgewright.fluids.burnt.Nasa7;

/** Transport of gas mixtures from that of their components, and dilute-gas estimates. Low-density gas only. */
public final class GasTransport {
    private GasTransport() {}

    /**
     * Viscosity of a gas mixture, Pa s.
     *
     * <pre>{@code mu = sum_i x_i mu_i / sum_j x_j phi_ij,
     * phi_ij = [1 + sqrt(mu_i/mu_j) (M_j/M_i)^(1/4)]^2 / sqrt(8 (1 + M_i/M_j))}</pre>
     *
     * <p>Source: C. R. Wilke, J. Chem. Phys. 18 (1950) 517 [from memory].
     *
     * @param fractions mole fractions, sum 1
     * @param viscosities of the components, Pa s
     * @param molarMasses any common unit
     */
    public static double wilke(double[] fractions, double[] viscosities, double[] molarMasses) {
        return wilke(fractions, viscosities, new MassPairs(molarMasses));
    }

    static double wilke(double[] fractions, double[] viscosities, MassPairs pairs) {
        return mixed(fractions, viscosities, viscosities, pairs);
    }

    /**
     * Thermal conductivity of a gas mixture, W/(m K): as Wilke's rule, with the conductivities in the numerator and phi from the
     * viscosities.
     *
     * <p>Source: E. A. Mason, S. C. Saxena, Phys. Fluids 1 (1958) 361, with the factor 1.065 left out as in Bird, Stewart and
     * Lightfoot [from memory].
     *
     * @param fractions mole fractions, sum 1
     * @param viscosities of the components, Pa s
     * @param conductivities of the components, W/(m K)
     * @param molarMasses any common unit
     */
    public static double masonSaxena(
            double[] fractions, double[] viscosities, double[] conductivities, double[] molarMasses) {
        return masonSaxena(fractions, viscosities, conductivities, new MassPairs(molarMasses));
    }

    static double masonSaxena(double[] fractions, double[] viscosities, double[] conductivities, MassPairs pairs) {
        return mixed(fractions, viscosities, conductivities, pairs);
    }

    private static double mixed(double[] fractions, double[] viscosities, double[] values, MassPairs pairs) {
        double sum = 0;
        for (int i = 0; i < fractions.length; i++) {
            if (fractions[i] > 0) {
                sum += fractions[i] * values[i] / denominator(i, fractions, viscosities, pairs);
            }
        }
        return sum;
    }

    private static double denominator(int i, double[] fractions, double[] viscosities, MassPairs pairs) {
        double sum = 0;
        for (int j = 0; j < fractions.length; j++) {
            if (j == i) {
                sum += fractions[j];
            } else if (fractions[j] > 0) {
                sum += fractions[j] * pairs.phi(i, j, viscosities[i] / viscosities[j]);
            }
        }
        return sum;
    }

    /** What Wilke's rule asks of the molar masses of each pair; made once for components that stay. */
    static final class MassPairs {
        /** sqrt(M_i/M_j). */
        private final double[][] root;
        /** sqrt(8 (1 + M_i/M_j)). */
        private final double[][] weight;

        /** @param molarMasses any common unit */
        MassPairs(double[] molarMasses) {
            int n = molarMasses.length;
            root = new double[n][n];
            weight = new double[n][n];
            for (int i = 0; i < n; i++) {
                for (int j = 0; j < n; j++) {
                    double ratio = molarMasses[i] / molarMasses[j];
                    root[i][j] = Math.sqrt(ratio);
                    weight[i][j] = Math.sqrt(8 * (1 + ratio));
                }
            }
        }

        /** Wilke's interaction factor of two components with a ratio of viscosities. */
        private double phi(int i, int j, double viscosityRatio) {
            double sum = 1 + Math.sqrt(viscosityRatio / root[i][j]);
            return sum * sum / weight[i][j];
        }
    }

    /**
     * Viscosity of a dilute gas after Chapman and Enskog, Pa s.
     *
     * <pre>{@code mu = 2.6693e-6 sqrt(M T) / (sigma^2 Omega)     M g/mol, sigma angstrom}</pre>
     *
     * @param molarMass kg/mol
     * @param temperature K
     * @param diameter angstrom
     * @param wellDepth over the Boltzmann constant, K
     */
    public static double chapmanEnskogViscosity(
            double molarMass, double temperature, double diameter, double wellDepth) {
        return 2.6693e-6
                * Math.sqrt(molarMass * 1000 * temperature)
                / (diameter * diameter * viscosityIntegral(temperature / wellDepth));
    }

    /**
     * Thermal conductivity of a dilute gas from its viscosity, W/(m K): modified Eucken,
     *
     * <pre>{@code k = mu cv/M (1.32 + 1.77/(cv/R))}</pre>
     *
     * <p>Source: Poling, Prausnitz, O'Connell, The Properties of Gases and Liquids, 5th ed., chapter 10 [from memory]; exact
     * 2.5 mu cv for atoms.
     *
     * @param viscosity Pa s
     * @param molarMass kg/mol
     * @param cv ideal-gas isochoric heat capacity over the gas constant
     */
    public static double modifiedEucken(double viscosity, double molarMass, double cv) {
        double factor = cv <= 1.5 + 1e-6 ? 2.5 : 1.32 + 1.77 / cv;
        return viscosity * cv * Nasa7.GAS_CONSTANT / molarMass * factor;
    }

    /**
     * Collision integral for viscosity of the 12-6 potential.
     *
     * <p>Source: P. D. Neufeld, A. R. Janzen, R. A. Aziz, J. Chem. Phys. 57 (1972) 1100. Valid 0.3 to 100.
     *
     * @param reduced temperature over well depth
     */
    public static double viscosityIntegral(double reduced) {
        return 1.16145 * Math.pow(reduced, -0.14874)
                + 0.52487 * Math.exp(-0.77320 * reduced)
                + 2.16178 * Math.exp(-2.43787 * reduced);
    }

    /**
     * Collision integral for diffusion of the 12-6 potential. Source and range as {@link #viscosityIntegral}.
     *
     * @param reduced temperature over well depth
     */
    public static double diffusionIntegral(double reduced) {
        return 1.06036 * Math.pow(reduced, -0.15610)
                + 0.19300 * Math.exp(-0.47635 * reduced)
                + 1.03587 * Math.exp(-1.52996 * reduced)
                + 1.76474 * Math.exp(-3.89411 * reduced);
    }
}
