package purgewright.fluids;

import java.util.Map;
import purgewright.fluids.phase.StateBuffer;

/**
 * A working fluid of fixed composition: a pure fluid, a mixture, or combustion gas. Immutable; threads may share it.
 *
 * <p>Every state function throws {@link PropertyException} where the asked state lies outside what the equations can give; it
 * never returns NaN in density, temperature, enthalpy or entropy.
 */
public interface Fluid {
    /** Name as the library or the case spells it. */
    String name();

    /** Molar mass, kg/mol. */
    double molarMass();

    /** Species by mole fraction (sum 1), in a stable order; keys are library fluid names or formulae of burnt species. */
    Map<String, Double> moleFractions();

    /** State at pressure (Pa) and temperature (K), the stable phase. */
    FluidState atPressureTemperature(double pressure, double temperature);

    /** State at pressure (Pa) and specific enthalpy (J/kg), dome included. */
    FluidState atPressureEnthalpy(double pressure, double enthalpy);

    /** State at pressure (Pa) and specific entropy (J/(kg K)), dome included. */
    FluidState atPressureEntropy(double pressure, double entropy);

    /**
     * As {@link #atPressureEnthalpy(double, double)}, cheaper where a state not far away is known: the search starts there. The answer is
     * the same to the tolerance of the search (about 1e-12), and depends on nothing else that was asked before.
     *
     * @param near a state of this fluid, or of one of almost the same composition
     */
    default FluidState atPressureEnthalpy(double pressure, double enthalpy, FluidState near) {
        return atPressureEnthalpy(pressure, enthalpy);
    }

    /** As {@link #atPressureEntropy(double, double)}, from a state not far away. */
    default FluidState atPressureEntropy(double pressure, double entropy, FluidState near) {
        return atPressureEntropy(pressure, entropy);
    }

    /**
     * As {@link #atPressureEnthalpy(double, double, FluidState)}, into a buffer, for passages that ask thousands of times: tables and
     * equations of pure fluids allocate nothing.
     */
    default void atPressureEnthalpy(double pressure, double enthalpy, FluidState near, StateBuffer out) {
        out.set(atPressureEnthalpy(pressure, enthalpy, near));
    }

    /**
     * As {@link #atPressureEnthalpy(double, double, FluidState, StateBuffer)}, from where the state is thought to be: through the dome a state
     * known says nothing about its neighbours, while a line through several does.
     */
    default void atPressureEnthalpyFrom(Nearby start, double pressure, double enthalpy, StateBuffer out) {
        out.set(atPressureEnthalpy(pressure, enthalpy));
    }

    /** As {@link #atPressureEntropy(double, double, FluidState)}, into a buffer. */
    default void atPressureEntropy(double pressure, double entropy, FluidState near, StateBuffer out) {
        out.set(atPressureEntropy(pressure, entropy, near));
    }

    /**
     * As the other, from a start that is believed to lie next to the state; a fluid that finds its states without one goes by {@code near}.
     *
     * @param start where to look, null when nothing is known
     * @param near a state to search from otherwise, or null
     */
    default void atPressureEntropyFrom(
            Nearby start, double pressure, double entropy, FluidState near, StateBuffer out) {
        atPressureEntropy(pressure, entropy, near, out);
    }

    /** Dynamic viscosity, Pa s; homogeneous (McAdams: quality-weighted reciprocal) in the dome. */
    double viscosity(FluidState state);

    /** As {@link #viscosity(FluidState)}, of a state in a buffer; tables and equations of pure fluids allocate nothing. */
    default double viscosity(StateBuffer state) {
        return viscosity(state.toState(this));
    }

    /** Thermal conductivity, W/(m K). */
    double conductivity(FluidState state);

    /** Ratio cp/cv of the ideal gas at the temperature (K); enters the contraction of a jet. */
    double idealGasHeatCapacityRatio(double temperature);

    /** Temperature (K) below which no state is given, extrapolated ones included; NaN when the fluid does not say. */
    default double coldest() {
        return Double.NaN;
    }

    /** Temperature (K) above which no state is given, extrapolated ones included; NaN when the fluid does not say. */
    default double hottest() {
        return Double.NaN;
    }

    /** Density (kg/m3) at the critical point; of a mixture the mole-weighted pseudo-critical value. */
    double criticalDensity();
}
