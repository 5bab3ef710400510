package purgewright.sealflow.supply;

import purgewright.fluids.FluidState;

/**
 * What equal bottles hold at a moment, all of them together.
 *
 * @param mass kg
 * @param wall temperature of the walls, K
 * @param gas its state
 */
public record BottleState(double mass, double wall, FluidState gas) {
    /** Internal energy of the gas, J, on the fluid's reference. */
    public double energy() {
        return mass * (gas.enthalpy() - gas.pressure() / gas.density());
    }

    /** Pa. */
    public double pressure() {
        return gas.pressure();
    }

    /** K. */
    public double temperature() {
        return gas.temperature();
    }
}
