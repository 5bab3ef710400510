package purgewright.sealflow.passage;

import java.util.Map;
import purgewright.fluids.Fluid;
import purgewright.fluids.FluidState;
import purgewright.fluids.Phase;
import purgewright.fluids.PropertyException;
import purgewright.fluids.phase.StateBuffer;

/**
 * A gas with p = rho R T and constant heat capacity: the fluid of the closed forms that passages are checked against.
 *
 * <pre>{@code h = cp T,   s = cp ln(T / 300 K) - R ln(p / 100 kPa),   w = sqrt(k R T)}</pre>
 *
 * <p>Valid for T above 0 and p above 0. Never used for a real fluid.
 *
 * @param name shown in messages
 * @param gasConstant J/(kg K)
 * @param ratio cp/cv, above 1
 * @param constantViscosity Pa s
 */
public record PerfectGas(String name, double gasConstant, double ratio, double constantViscosity) implements Fluid {
    static final double MOLAR_GAS_CONSTANT = 8.31446261815324;

    /** Heat capacity at constant pressure, J/(kg K). */
    public double heatCapacity() {
        return gasConstant * ratio / (ratio - 1);
    }

    @Override
    public double molarMass() {
        return MOLAR_GAS_CONSTANT / gasConstant;
    }

    @Override
    public Map<String, Double> moleFractions() {
        return Map.of(name, 1.0);
    }

    @Override
    public FluidState atPressureTemperature(double pressure, double temperature) {
        StateBuffer out = new StateBuffer();
        fill(pressure, temperature, out);
        return out.toState(this);
    }

    private void fill(double pressure, double temperature, StateBuffer out) {
        if (!(pressure > 0) || !(temperature > 0)) {
            throw new PropertyException(
                    PropertyException.Key.NO_SUCH_STATE,
                    Map.of("fluid", name, "pressure", pressure, "temperature", temperature));
        }
        double cp = heatCapacity();
        out.set(
                pressure,
                temperature,
                pressure / (gasConstant * temperature),
                cp * temperature,
                cp * Math.log(temperature / 300) - gasConstant * Math.log(pressure / 1e5),
                cp,
                cp / ratio,
                Math.sqrt(ratio * gasConstant * temperature),
                1,
                Phase.GAS,
                false);
    }

    @Override
    public FluidState atPressureEnthalpy(double pressure, double enthalpy) {
        return atPressureTemperature(pressure, enthalpy / heatCapacity());
    }

    @Override
    public FluidState atPressureEntropy(double pressure, double entropy) {
        return atPressureTemperature(pressure, temperature(pressure, entropy));
    }

    @Override
    public void atPressureEnthalpy(double pressure, double enthalpy, FluidState near, StateBuffer out) {
        fill(pressure, enthalpy / heatCapacity(), out);
    }

    @Override
    public void atPressureEntropy(double pressure, double entropy, FluidState near, StateBuffer out) {
        fill(pressure, temperature(pressure, entropy), out);
    }

    private double temperature(double pressure, double entropy) {
        return 300 * Math.exp((entropy + gasConstant * Math.log(pressure / 1e5)) / heatCapacity());
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
        return constantViscosity * heatCapacity() / 0.7;
    }

    @Override
    public double idealGasHeatCapacityRatio(double temperature) {
        return ratio;
    }

    @Override
    public double criticalDensity() {
        return Double.POSITIVE_INFINITY;
    }
}
