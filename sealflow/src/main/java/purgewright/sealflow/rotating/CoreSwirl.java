package purgewright.sealflow.rotating;

import purgewright.sealflow.SmoothStep;

/**
 * Share of the rotor's speed at which the core between a rotating and a still wall turns, from the flow that passes through
 * radially.
 *
 * <pre>{@code
 * Cqr = Q Re_r^(1/5) / (2 pi r^3 w),   Re_r = rho w r^2 / mu,   Q > 0 outward
 * k   = 2 (0.63 - 5.9 Cqr)^(5/7) - 1   for Cqr <= 0.03
 * k   = 0.032 + 0.32 exp(-Cqr / 0.028) beyond, joined to the first where they cross
 * }</pre>
 *
 * <p>For turbulent, separate boundary layers (regime IV), water tests with Cqr from -0.2 to 0.1; inward flow raises the swirl above
 * the rotor's speed, outward flow starves it. Source: S. Poncet, M.-P. Chauve, P. Le Gal, "Turbulent rotating disk flow with
 * inward throughflow", J. Fluid Mech. 522 (2005) 253 and S. Poncet, M.-P. Chauve, R. Schiestel, Phys. Fluids 17 (2005) 075110
 * [published, values recalled from memory].
 */
public final class CoreSwirl {
    /** Most negative flow-rate coefficient of the tests. */
    public static final double MINIMUM_COEFFICIENT = -0.2;
    /** Largest flow-rate coefficient of the tests. */
    public static final double MAXIMUM_COEFFICIENT = 0.1;

    private static final double SWITCH = 0.03;
    private static final double HALF_WIDTH = 0.01;

    private CoreSwirl() {}

    /**
     * Flow-rate coefficient Cqr.
     *
     * @param massFlow through the cavity, kg/s, positive outward
     * @param radius where the swirl is wanted, m
     * @param speed of the rotor, rad/s, not 0
     * @param density kg/m3
     * @param viscosity Pa s
     */
    public static double coefficient(double massFlow, double radius, double speed, double density, double viscosity) {
        double reynolds = DiscFriction.reynolds(radius, speed, density, viscosity);
        return massFlow
                / density
                * Math.pow(reynolds, 0.2)
                / (2 * Math.PI * radius * radius * radius * Math.abs(speed));
    }

    /**
     * Core swirl ratio; without through-flow 0.438. Held at the ends of the tested band.
     *
     * @param coefficient Cqr of {@link #coefficient}
     */
    public static double ratio(double coefficient) {
        double c = Math.max(MINIMUM_COEFFICIENT, Math.min(MAXIMUM_COEFFICIENT, coefficient));
        double inward = 2 * Math.pow(Math.max(0.63 - 5.9 * c, 0), 5.0 / 7) - 1;
        double outward = 0.032 + 0.32 * Math.exp(-c / 0.028);
        // A cubic ramp over the two forms' common band keeps the swirl C1 where the source changes from one fit to the
        // other.
        double weight = SmoothStep.of((c - SWITCH + HALF_WIDTH) / (2 * HALF_WIDTH));
        return (1 - weight) * inward + weight * outward;
    }
}
