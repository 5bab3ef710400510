package purgewright.sealflow.passage;

import java.util.Map;
import purgewright.fluids.Fluid;
import purgewright.fluids.FluidState;
import purgewright.fluids.Phase;

/** A slightly compressible liquid (stiffened gas), thermodynamically consistent: water-like by default. For tests only. */
record StiffLiquid(double heatCapacity, double ratio, double stiffness, double constantViscosity) implements Fluid {
    static final StiffLiquid WATER = new StiffLiquid(4180, 2.35, 1e9, 1e-3);

    private double cv() {
        return heatCapacity / ratio;
    }

    @Override
    public String name() {
        return "stiff liquid";
    }

    @Override
    public double molarMass() {
        return 0.018;
    }

    @Override
    public Map<String, Double> moleFractions() {
        return Map.of("stiff liquid", 1.0);
    }

    @Override
    public FluidState atPressureTemperature(double pressure, double temperature) {
        double raised = pressure + stiffness;
        double density = raised / ((ratio - 1) * cv() * temperature);
        double entropy = cv() * Math.log(Math.pow(temperature / 300, ratio) / Math.pow(raised / 1e9, ratio - 1));
        return new FluidState(
                this,
                pressure,
                temperature,
                density,
                heatCapacity * temperature,
                entropy,
                heatCapacity,
                cv(),
                Math.sqrt(ratio * raised / density),
                0,
                Phase.LIQUID,
                false);
    }

    @Override
    public FluidState atPressureEnthalpy(double pressure, double enthalpy) {
        return atPressureTemperature(pressure, enthalpy / heatCapacity);
    }

    @Override
    public FluidState atPressureEntropy(double pressure, double entropy) {
        double power = Math.exp(entropy / cv()) * Math.pow((pressure + stiffness) / 1e9, ratio - 1);
        return atPressureTemperature(pressure, 300 * Math.pow(power, 1 / ratio));
    }

    @Override
    public double viscosity(FluidState state) {
        return constantViscosity;
    }

    @Override
    public double conductivity(FluidState state) {
        return 0.6;
    }

    @Override
    public double idealGasHeatCapacityRatio(double temperature) {
        return 1.33;
    }

    @Override
    public double criticalDensity() {
        return 322;
    }
}
