package purgewright.sealflow.passage;

import java.util.Map;
import purgewright.fluids.Fluid;
import purgewright.fluids.FluidState;
import purgewright.fluids.PropertyException;

/** A perfect gas that gives no state below a pressure, as equations of state do at the end of their range. For tests only. */
record LimitedGas(PerfectGas gas, double least) implements Fluid {
    private FluidState of(FluidState s) {
        if (s.pressure() < least) {
            throw new PropertyException(
                    PropertyException.Key.NO_SUCH_STATE, Map.of("fluid", name(), "pressure", s.pressure()));
        }
        return new FluidState(
                this,
                s.pressure(),
                s.temperature(),
                s.density(),
                s.enthalpy(),
                s.entropy(),
                s.cp(),
                s.cv(),
                s.soundSpeed(),
                s.quality(),
                s.phase(),
                false);
    }

    @Override
    public String name() {
        return gas.name();
    }

    @Override
    public double molarMass() {
        return gas.molarMass();
    }

    @Override
    public Map<String, Double> moleFractions() {
        return gas.moleFractions();
    }

    @Override
    public FluidState atPressureTemperature(double pressure, double temperature) {
        return of(gas.atPressureTemperature(pressure, temperature));
    }

    @Override
    public FluidState atPressureEnthalpy(double pressure, double enthalpy) {
        return of(gas.atPressureEnthalpy(pressure, enthalpy));
    }

    @Override
    public FluidState atPressureEntropy(double pressure, double entropy) {
        return of(gas.atPressureEntropy(pressure, entropy));
    }

    @Override
    public double viscosity(FluidState state) {
        return gas.viscosity(state);
    }

    @Override
    public double conductivity(FluidState state) {
        return gas.conductivity(state);
    }

    @Override
    public double idealGasHeatCapacityRatio(double temperature) {
        return gas.ratio();
    }

    @Override
    public double criticalDensity() {
        return gas.criticalDensity();
    }
}
