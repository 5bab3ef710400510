package purgewright.sealflow.passage;

import purgewright.fluids.Fluid;
import purgewright.fluids.FluidState;
import purgewright.fluids.PropertyException;
import purgewright.fluids.phase.StateBuffer;

/** States from a fluid itself, each searched from a state not far away. */
final class FluidSource implements StateSource {
    private Fluid fluid;
    private FluidState near;

    /** Begins with a state of the fluid that later ones are searched from. */
    FluidSource from(FluidState state) {
        fluid = state.fluid();
        near = state;
        return this;
    }

    @Override
    public boolean atPressureEnthalpy(double pressure, double enthalpy, StateBuffer out) {
        try {
            fluid.atPressureEnthalpy(pressure, enthalpy, near, out);
            return true;
        } catch (PropertyException e) {
            return false;
        }
    }

    @Override
    public boolean atPressureEntropy(double pressure, double entropy, StateBuffer out) {
        try {
            fluid.atPressureEntropy(pressure, entropy, near, out);
            return true;
        } catch (PropertyException e) {
            return false;
        }
    }

    @Override
    public double criticalDensity() {
        return fluid.criticalDensity();
    }

    @Override
    public double molarMass() {
        return fluid.molarMass();
    }
}
