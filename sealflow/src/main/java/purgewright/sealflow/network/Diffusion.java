package purgewright.sealflow.network;

import purgewright.fluids.Fluid;
import purgewright.fluids.FluidState;
import purgewright.fluids.Phase;
import purgewright.fluids.PureFluid;
import purgewright.sealflow.SmoothStep;

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
    /** Share of liquid by mass that shuts a way for diffusion. */
    private static final double LEAST_WETNESS = 0.05;

    /** Density over the critical one that does. */
    private static final double DENSEST = 1.2;

    /** How far below its saturation pressure a pure vapour is taken. */
    private static final double BELOW_SATURATION = 1e-6;

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

    /**
     * Bulk molar flow B that, with what diffuses on top of it, makes N moles in all: {@code B + sum_k G_k(|B|) difference_k = N}. The
     * left side grows with B, so there is one. Where all conductances are alike, B = N.
     *
     * @param flow N, mol/s, positive from a to b
     * @param conductance g of each species, mol/s
     * @param difference of the mole fractions of each species, a less b; adds up to nothing
     */
    static double bulk(double flow, double[] conductance, double[] difference) {
        double most = 0;
        for (double g : conductance) {
            most = Math.max(most, g);
        }
        double low = flow - most;
        double high = flow + most;
        double b = flow;
        for (int n = 0; n < 60; n++) {
            double left = b - flow;
            double slope = 1;
            for (int k = 0; k < conductance.length; k++) {
                if (conductance[k] > 0 && difference[k] != 0) {
                    double peclet = Math.abs(b) / conductance[k];
                    left += beyondUpwind(b, conductance[k]) * difference[k];
                    slope += bernoulliSlope(peclet) * (b < 0 ? -difference[k] : difference[k]);
                }
            }
            if (Math.abs(left) <= 1e-15 * (Math.abs(flow) + most)) {
                return b;
            }
            if (left > 0) {
                high = b;
            } else {
                low = b;
            }
            double next = b - left / slope;
            next = next > low && next < high ? next : (low + high) / 2;
            if (next == b) {
                return b;
            }
            b = next;
        }
        return b;
    }

    /**
     * How far what an end holds lets anything diffuse through a passage: 1 for a gas; 0 with more than 5 % of liquid by mass or from 1.2
     * times the critical density on, with a smooth way between. Across liquid nothing diffuses here that counts beside a purge; at the
     * dew line itself a step would leave a cavity that stands on it without a steady state. The two widths are invented; both err
     * towards more diffusion.
     */
    static double openness(FluidState s) {
        double dry = s.phase() == Phase.LIQUID ? 0 : (s.quality() - (1 - LEAST_WETNESS)) / LEAST_WETNESS;
        double thin = (DENSEST - s.density() / s.fluid().criticalDensity()) / (DENSEST - 1);
        return SmoothStep.of(dry) * SmoothStep.of(thin);
    }

    /**
     * State of what a stream diffuses as: by itself, a gas at its partial pressure. On the dew line the partial pressure in a real mixture may
     * pass the stream's own saturation pressure by a hair, and the liquid's enthalpy in place of the vapour's would be a step that no balance
     * closes on: there it is the saturated vapour.
     *
     * @param pressure partial pressure, Pa
     * @param temperature K
     */
    static FluidState carrier(Fluid stream, double pressure, double temperature) {
        FluidState own = stream.atPressureTemperature(pressure, temperature);
        if (own.phase() == Phase.LIQUID
                && stream instanceof PureFluid pure
                && temperature < pure.criticalTemperature()) {
            return stream.atPressureTemperature(
                    (1 - BELOW_SATURATION) * pure.saturationPressure(temperature), temperature);
        }
        return own;
    }

    /** True far inside what {@link #openness} calls shut. */
    static boolean barred(FluidState s) {
        return s.phase() == Phase.LIQUID
                || s.quality() < 1 - 4 * LEAST_WETNESS
                || s.density() > 2 * DENSEST * s.fluid().criticalDensity();
    }

    /** Derivative of the Bernoulli function at x of 0 or more. */
    private static double bernoulliSlope(double x) {
        if (x < 1e-3) {
            return -0.5 + x / 6;
        }
        if (x > 1e4) {
            return 0;
        }
        double b = bernoulli(x);
        return b * (1 - b - x) / x;
    }
}
