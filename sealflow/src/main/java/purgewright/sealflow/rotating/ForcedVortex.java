package purgewright.sealflow.rotating;

import java.util.Map;
import purgewright.fluids.Fluid;
import purgewright.fluids.FluidState;
import purgewright.fluids.PropertyException;

/**
 * Pressure over radius in fluid that turns as a solid body at a constant share of the rotor's speed, one form for liquid and gas.
 *
 * <pre>{@code h(p2, s1) - h(p1, s1) = (k w)^2 (r2^2 - r1^2) / 2}</pre>
 *
 * <p>Along an isentrope dh = dp/rho, so for a liquid this is dp = rho (k w)^2 (r2^2 - r1^2)/2, and for a perfect gas the adiabatic
 * column. Source: radial equilibrium dp/dr = rho (k w)^2 r of any text on fluid mechanics, integrated at constant entropy.
 */
public final class ForcedVortex {
    private static final int ITERATIONS = 30;
    /** Relative to the enthalpy step itself; the property equations hold about twelve digits of enthalpy. */
    private static final double TOLERANCE = 1e-11;

    /** Change of ln p that the last digits of entropy and enthalpy may go on making: the search then goes to and fro at the answer. */
    private static final double ROUNDING = 1e-10;

    private ForcedVortex() {}

    /**
     * Pressure at another radius, Pa.
     *
     * @param state state at {@code radius}
     * @param swirl angular speed of the fluid k w, rad/s
     * @param radius where the state is meant, m
     * @param otherRadius where the pressure is wanted, m
     * @throws PropertyException when no state on the isentrope has the enthalpy asked for, as when a liquid column would have to be
     *     pulled below zero pressure
     */
    public static double pressure(FluidState state, double swirl, double radius, double otherRadius) {
        double step = enthalpyStep(swirl, radius, otherRadius);
        if (step == 0) {
            return state.pressure();
        }
        Fluid fluid = state.fluid();
        double target = state.enthalpy() + step;
        double stiffness = state.density() * state.soundSpeed() * state.soundSpeed() / state.pressure();
        double logarithm = Math.log(state.pressure());
        // First guess: the perfect gas of the same isentropic exponent; for a stiff liquid it tends to p + rho dh.
        double base = 1 + step * (stiffness - 1) / (state.soundSpeed() * state.soundSpeed());
        double exponent = Math.abs(stiffness - 1) < 1e-6 ? 1 : stiffness / (stiffness - 1);
        logarithm += base > 1e-6
                ? Math.max(-7, Math.min(7, exponent * Math.log(base)))
                : Math.max(-7, Math.min(7, state.density() * step / state.pressure()));
        double floor = 1e-10 * Math.abs(target) * 1e-3;
        double change = Double.NaN;
        for (int i = 0; i < ITERATIONS; i++) {
            double pressure = Math.exp(logarithm);
            FluidState there = fluid.atPressureEntropy(pressure, state.entropy(), state);
            double miss = target - there.enthalpy();
            change = miss * there.density() / pressure;
            logarithm += Math.max(-2, Math.min(2, change));
            if (Math.abs(miss) <= Math.max(TOLERANCE * Math.abs(step), floor) || Math.abs(change) < 1e-14) {
                return Math.exp(logarithm);
            }
        }
        if (Math.abs(change) < ROUNDING) {
            return Math.exp(logarithm);
        }
        throw new PropertyException(
                PropertyException.Key.NO_SUCH_STATE,
                Map.of("fluid", fluid.name(), "entropy", state.entropy(), "enthalpy", target));
    }

    /** Enthalpy step (k w)^2 (r2^2 - r1^2)/2 between two radii, J/kg. */
    public static double enthalpyStep(double swirl, double radius, double otherRadius) {
        return swirl * swirl * (otherRadius - radius) * (otherRadius + radius) / 2;
    }
}
