package purgewright.sealflow.passage;

import purgewright.fluids.FluidState;
import purgewright.fluids.Phase;

/**
 * Mass flux of an isentropic expansion from rest: what a short opening passes per effective area.
 *
 * <pre>{@code G(p0, h0 -> p) = max over p' in [p, p0] of rho(p', s0) sqrt(2 (h0 - h(p', s0)))}</pre>
 *
 * <p>The maximum is the choke. For a gas it is the sonic point, found by Newton on the squared Mach number; for a liquid that
 * flashes it is the homogeneous-equilibrium one, often at the saturation line itself, where the flux has a corner.
 *
 * <p>Near rest the square root is regularised: G is multiplied by (1 + delta^2/dp^2)^(-1/4) with delta = 1e-5 p0, so that the slope
 * at dp = 0 is sqrt(2 rho / delta) and the flux is low by 2.5e-5 at dp = 0.1 % of p0, by 2.5e-9 at 10 %.
 *
 * <p>Three ways to treat a liquid that flashes: {@link Flashing#EQUILIBRIUM} (lower bound), {@link Flashing#FROZEN} (upper bound,
 * no vapour forms) and {@link Flashing#RELAXED} between them: the vapour formed at equilibrium quality x counts by min(1, x/0.14)
 * (its corner rounded from 0.9 to 1.1), the form of R. E. Henry, H. K. Fauske, J. Heat Transfer 93 (1971) 179 [from memory], here within a homogeneous mixture.
 *
 * <p>Units: Pa, kg/(m2 s). The states' fluid is asked for about one state when the flow is subcritical, three to five when it is
 * choked, ten to twenty in the dome.
 */
public final class Throttle {
    /** Regularisation width over upstream pressure. */
    public static final double REST = 1e-5;

    private static final ThreadLocal<Jet> JET = ThreadLocal.withInitial(Jet::new);

    private Throttle() {}

    /** How vapour forms in a liquid that is expanded below its saturation pressure. */
    public enum Flashing {
        /** At once and in full: homogeneous equilibrium, the lower bound. */
        EQUILIBRIUM,
        /** Partly, by equilibrium quality over 0.14: the mean in the sense of Henry and Fauske. */
        RELAXED,
        /** Not at all: the upper bound. */
        FROZEN
    }

    /**
     * @param flux kg/(m2 s)
     * @param throatPressure Pa; the downstream pressure unless choked
     * @param choked true when the maximum lies above the downstream pressure
     * @param machSquared square of the Mach number at the downstream pressure; infinite far below the choke, in the dome that of the gas carried on
     * @param slope derivative of the flux by the downstream pressure, s/m; for use in Newton
     * @param extrapolated true when a state could not be had and an estimate took its place
     */
    public record Flux(
            double flux,
            double throatPressure,
            boolean choked,
            double machSquared,
            double slope,
            boolean extrapolated) {}

    /** Slope of the regularised flux at zero pressure difference by the upstream pressure, s/m. */
    public static double slopeAtRest(FluidState up) {
        return Math.sqrt(2 * up.density() / (REST * up.pressure()));
    }

    /**
     * Flux from rest at the upstream state to a pressure.
     *
     * @param up upstream, at rest
     * @param down pressure behind the opening, Pa; at or above the upstream one gives zero
     * @param flashing how vapour forms
     */
    public static Flux flux(FluidState up, double down, Flashing flashing) {
        Jet jet = JET.get();
        jet.flux(up, down, flashing);
        return new Flux(jet.flux, jet.throat, jet.choked, jet.machSquared, jet.slope, jet.extrapolated);
    }

    /** True for what expands like a liquid: denser than the critical density and not in the dome. */
    static boolean dense(FluidState state) {
        return state.phase() != Phase.TWO_PHASE
                && state.density() > state.fluid().criticalDensity();
    }

    /** Critical pressure ratio of a perfect gas of that exponent, with its limit at exponent 1. */
    static double criticalRatio(double exponent) {
        double n = Math.max(exponent, 1.001);
        return Math.pow(2 / (n + 1), n / (n - 1));
    }
}
