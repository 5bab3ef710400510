package purgewright.sealflow.passage;

import purgewright.fluids.Fluid;
import purgewright.fluids.FluidState;
import purgewright.fluids.Nearby;
import purgewright.fluids.Phase;
import purgewright.fluids.PropertyException;
import purgewright.fluids.PureFluid;
import purgewright.fluids.phase.StateBuffer;

/** States from a fluid itself, each searched from a state not far away: along an isentrope in the dome from those found on it before. */
final class FluidSource implements StateSource {
    /** Way in ln p below which two states do not tell how temperature and density go on. */
    private static final double LEAST_WAY = 1e-6;

    private Fluid fluid;
    private FluidState near;
    /** Whether states in the dome are searched for; a pure fluid reads them off its saturation line. */
    private boolean searches;

    /** The last two wet states of one entropy, the later first; their number. */
    private final double[] logPressure = new double[2];

    private final double[] logTemperature = new double[2];
    private final double[] logDensity = new double[2];
    private double entropy;
    private int known;

    /** Begins with a state of the fluid that later ones are searched from. */
    FluidSource from(FluidState state) {
        fluid = state.fluid();
        near = state;
        searches = !(fluid instanceof PureFluid);
        known = 0;
        if (searches && state.phase() == Phase.TWO_PHASE) {
            entropy = state.entropy();
            remember(state.pressure(), state.temperature(), state.density());
        }
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
    public boolean atPressureEntropy(double pressure, double s, StateBuffer out) {
        if (s != entropy) {
            known = 0;
        }
        try {
            fluid.atPressureEntropyFrom(ahead(pressure), pressure, s, near, out);
        } catch (PropertyException e) {
            return false;
        }
        if (searches && out.phase() == Phase.TWO_PHASE) {
            entropy = s;
            remember(pressure, out.temperature(), out.density());
        }
        return true;
    }

    private void remember(double pressure, double temperature, double density) {
        double p = Math.log(pressure);
        if (known > 0 && Math.abs(p - logPressure[0]) > LEAST_WAY) {
            logPressure[1] = logPressure[0];
            logTemperature[1] = logTemperature[0];
            logDensity[1] = logDensity[0];
            known = 2;
        }
        logPressure[0] = p;
        logTemperature[0] = Math.log(temperature);
        logDensity[0] = Math.log(density);
        known = Math.max(1, known);
    }

    /** Where the state of a pressure should lie, in a straight line of logarithms; null where nothing is known. */
    private Nearby ahead(double pressure) {
        if (known == 0) {
            return null;
        }
        double way = Math.log(pressure) - logPressure[0];
        double byTemperature = 0;
        double byDensity = 1;
        if (known == 2) {
            double between = logPressure[0] - logPressure[1];
            byTemperature = (logTemperature[0] - logTemperature[1]) / between;
            byDensity = (logDensity[0] - logDensity[1]) / between;
        }
        return new Nearby(Math.exp(logTemperature[0] + byTemperature * way), Math.exp(logDensity[0] + byDensity * way));
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
