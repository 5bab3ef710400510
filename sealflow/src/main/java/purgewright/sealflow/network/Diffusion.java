package purgewright.sealflow.network;

/**
 * Species that cross a passage by convection and diffusion together: the exact solution of one-dimensional steady transport
 * between two stirred ends (the exponential scheme), in moles.
 *
 * <pre>{@code n = N [x_a + (x_a - x_b) / (exp(Pe) - 1)],   Pe = N L / (c D A)}</pre>
 *
 * <p>With the Bernoulli function B(Pe) = Pe/(exp(Pe) - 1) and the conductance g = c D A / L this is {@code n = N x_a + g B(Pe)
 * (x_a - x_b)}, which needs no division by N and loses no digits as N goes to zero.
 *
 * <p>Source: S. V. Patankar, Numerical Heat Transfer and Fluid Flow, Hemisphere, 1980, section 5.2-3 [from memory]; checks DIF-11
 * and DIF-12.
 */
public final class Diffusion {
    private Diffusion() {}

    /**
     * Bernoulli function x/(exp(x) - 1); 1 at 0, falls to 0 for large x, tends to -x for large negative x.
     *
     * @param x any number; NaN gives NaN
     */
    public static double bernoulli(double x) {
        if (Math.abs(x) < 1e-5) {
            return 1 - x / 2 + x * x / 12;
        }
        if (x > 700) {
            return x * Math.exp(-x);
        }
        return x / Math.expm1(x);
    }

    /**
     * Molar flow of one species, mol/s, positive from a to b.
     *
     * @param flow total molar flow N, mol/s, positive from a to b
     * @param conductance g = c D A / L, mol/s
     * @param fractionA mole fraction at a
     * @param fractionB mole fraction at b
     */
    public static double flow(double flow, double conductance, double fractionA, double fractionB) {
        return flow * fractionA + exchange(flow, conductance) * (fractionA - fractionB);
    }

    /**
     * Factor of (x_a - x_b) in {@link #flow}: g B(N/g) for N from a to b, mol/s. For N from b to a it holds the convection from b as
     * well, so that {@code N x_a + exchange (x_a - x_b)} is right for both signs.
     */
    public static double exchange(double flow, double conductance) {
        if (!(conductance > 0)) {
            return flow < 0 ? -flow : 0;
        }
        double peclet = flow / conductance;
        if (peclet > 1e4) {
            return 0;
        }
        return conductance * bernoulli(peclet);
    }

    /**
     * Diffusive part beyond upwind convection: conductance G such that n = N x_up + G (x_a - x_b). Symmetric in the sign of N.
     *
     * @param flow total molar flow, mol/s
     * @param conductance c D A / L, mol/s
     */
    public static double beyondUpwind(double flow, double conductance) {
        return conductance > 0 ? exchange(Math.abs(flow), conductance) : 0;
    }
}
