package purgewright.sealflow.passage;

import java.util.Map;
import purgewright.fluids.Fluid;
import purgewright.fluids.FluidState;
import purgewright.fluids.Phase;
import purgewright.fluids.phase.StateBuffer;

/**
 * A liquid of constant density (for the equations: of a sound speed of 1e5 m/s): the incompressible limit that checks compare with.
 *
 * @param density kg/m3
 * @param constantViscosity Pa s
 */
record PerfectLiquid(double density, double constantViscosity) implements Fluid {
    private static final double SOUND = 1e5;
    private static final double HEAT = 2000;

    /** State at a pressure and 300 K. */
    FluidState at(double pressure) {
        return state(pressure, 300);
    }

    private FluidState state(double pressure, double temperature) {
        return new FluidState(
                this,
                pressure,
                temperature,
                density,
                HEAT * temperature + pressure / density,
                HEAT * Math.log(temperature / 300),
                HEAT,
                HEAT,
                SOUND,
                0,
                Phase.LIQUID,
                false);
    }

    @Override
    public String name() {
        return "incompressible liquid";
    }

    @Override
    public double molarMass() {
        return 0.018;
    }

    @Override
    public Map<String, Double> moleFractions() {
        return Map.of(name(), 1.0);
    }

    @Override
    public FluidState atPressureTemperature(double pressure, double temperature) {
        return state(pressure, temperature);
    }

    @Override
    public FluidState atPressureEnthalpy(double pressure, double enthalpy) {
        return state(pressure, (enthalpy - pressure / density) / HEAT);
    }

    @Override
    public FluidState atPressureEntropy(double pressure, double entropy) {
        return state(pressure, 300 * Math.exp(entropy / HEAT));
    }

    @Override
    public double viscosity(FluidState state) {
        return constantViscosity;
    }

    @Override
    public double viscosity(StateBuffer state) {
        return constantViscosity;
    }

    @Override
    public double conductivity(FluidState state) {
        return 0.1;
    }

    @Override
    public double idealGasHeatCapacityRatio(double temperature) {
        return 1.4;
    }

    @Override
    public double criticalDensity() {
        return density / 3;
    }
}
