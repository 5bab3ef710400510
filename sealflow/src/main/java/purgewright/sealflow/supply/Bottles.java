package purgewright.sealflow.supply;

import purgewright.fluids.FluidState;
import purgewright.fluids.PureFluid;

/**
 * Equal bottles emptied together: a real gas in a wall that gives heat to it.
 *
 * <p>What stays behind keeps its entropy but for the heat it gets,
 *
 * <pre>{@code dm/dt = -flow,   m T ds/dt = UA (Tw - T),   C dTw/dt = UA (T - Tw) + UA_out (Ta - Tw)}</pre>
 *
 * <p>so that UA = 0 is the adiabatic limit (constant entropy) and UA, C to infinity the isothermal one (checks SUP-05). One
 * temperature for the gas, one for the wall.
 *
 * @param gas what is in them
 * @param volume of one, m3
 * @param number of bottles
 * @param pressure at the start, Pa
 * @param temperature of gas and wall at the start, K
 * @param conductance from the walls to the gas, all bottles together, W/K
 * @param wallCapacity heat capacity of the walls, all bottles together, J/K; infinity for a wall that never cools
 * @param outsideConductance from the surroundings to the walls, all bottles together, W/K
 */
public record Bottles(
        PureFluid gas,
        double volume,
        int number,
        double pressure,
        double temperature,
        double conductance,
        double wallCapacity,
        double outsideConductance) {
    /** Checks. */
    public Bottles {
        if (!(volume > 0) || number < 1 || !(pressure > 0) || !(temperature > 0)) {
            throw new IllegalArgumentException("volume " + volume + " m3, number " + number + ", pressure " + pressure
                    + " Pa and temperature " + temperature + " K must be above 0");
        }
        if (!(conductance >= 0) || !(wallCapacity > 0) || !(outsideConductance >= 0)) {
            throw new IllegalArgumentException("conductances " + conductance + " and " + outsideConductance
                    + " W/K must be at least 0 and wall capacity " + wallCapacity + " J/K above 0");
        }
    }

    /** Gas in all bottles, kg. */
    public double filling() {
        return gas.atPressureTemperature(pressure, temperature).density() * volume * number;
    }

    /**
     * State of the gas left when the pressure has fallen without any heat.
     *
     * @param end Pa
     */
    public FluidState adiabatic(double end) {
        return gas.atPressureEntropy(
                end, gas.atPressureTemperature(pressure, temperature).entropy());
    }

    /** State of the gas left when the pressure has fallen at the first temperature. */
    public FluidState isothermal(double end) {
        return gas.atPressureTemperature(end, temperature);
    }

    /** Share of the filling that has been drawn when the gas left is in that state. */
    public double drawn(FluidState left) {
        return 1
                - left.density()
                        / gas.atPressureTemperature(pressure, temperature).density();
    }
}
