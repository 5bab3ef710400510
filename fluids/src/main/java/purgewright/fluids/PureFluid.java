package purgewright.fluids;

import java.util.Map;

/**
 * A pure fluid with a published equation of state. Enthalpy and entropy are on the engine's reference state, named by
 * {@link #referenceState()}.
 */
public interface PureFluid extends Fluid {
    /** Critical temperature, K. */
    double criticalTemperature();

    /** Critical pressure, Pa. */
    double criticalPressure();

    /** Triple-point temperature, K. */
    double tripleTemperature();

    /** Highest temperature of the equation, K. */
    double maximumTemperature();

    /** Highest pressure of the equation, Pa. */
    double maximumPressure();

    /** In words, for instance "ideal gas at 298.15 K and 101.325 kPa has h = s = 0". */
    String referenceState();

    /** State at density (kg/m3) and temperature (K); inside the dome the equilibrium mixture. */
    FluidState atDensityTemperature(double density, double temperature);

    /** State at pressure (Pa) and density (kg/m3). */
    FluidState atPressureDensity(double pressure, double density);

    /** State at enthalpy (J/kg) and entropy (J/(kg K)). */
    FluidState atEnthalpyEntropy(double enthalpy, double entropy);

    /** State on the saturation line at temperature (K) and quality (0 liquid to 1 vapour). */
    FluidState atTemperatureQuality(double temperature, double quality);

    /** State on the saturation line at pressure (Pa) and quality (0 liquid to 1 vapour). */
    FluidState atPressureQuality(double pressure, double quality);

    /** Vapour pressure, Pa, from the triple point to the critical point. */
    double saturationPressure(double temperature);

    /** Boiling temperature, K, from the triple-point pressure to the critical pressure. */
    double saturationTemperature(double pressure);

    /** Specific enthalpy of the ideal gas at temperature (K), J/kg, on the same reference as the states. */
    double idealGasEnthalpy(double temperature);

    /**
     * The metastable liquid or vapour at pressure (Pa) and temperature (K) below the critical one, up to the spinodal; beyond the
     * saturation line of the other phase this is a state that does not last.
     *
     * @param phase LIQUID or GAS
     * @throws PropertyException {@code NO_SUCH_STATE} beyond the spinodal, {@code NO_MODEL} where the engine has no such branch
     */
    default FluidState metastable(Phase phase, double pressure, double temperature) {
        throw new PropertyException(
                PropertyException.Key.NO_MODEL, Map.of("fluid", name(), "property", "metastable state"));
    }

    /** Surface tension (N/m) of the liquid against its vapour at temperature (K); 0 at the critical point. */
    default double surfaceTension(double temperature) {
        throw new PropertyException(
                PropertyException.Key.NO_MODEL, Map.of("fluid", name(), "property", "surface tension"));
    }

    /** Melting pressure (Pa) at temperature (K); infinite where no line is known. */
    default double meltingPressure(double temperature) {
        return Double.POSITIVE_INFINITY;
    }

    /** Where viscosity and conductivity come from. */
    default TransportSource transportSource() {
        return new TransportSource("not stated", false, "not stated", false);
    }

    /** Publications of the equation of state, in words; empty when not stated. */
    default String equationSource() {
        return "";
    }

    /** Highest temperature (K) for which the equation was published; above it states are flagged as extrapolated. */
    default double publishedMaximumTemperature() {
        return maximumTemperature();
    }

    /** Highest pressure (Pa) for which the equation was published; above it states are flagged as extrapolated. */
    default double publishedMaximumPressure() {
        return maximumPressure();
    }

    /**
     * Source of the transport properties.
     *
     * @param viscosity publication, or the name of the estimate
     * @param viscosityEstimated true when no correlation of this fluid was published and a general estimate is used
     * @param conductivity publication, or the name of the estimate
     * @param conductivityEstimated as for viscosity
     */
    record TransportSource(
            String viscosity, boolean viscosityEstimated, String conductivity, boolean conductivityEstimated) {}

    /**
     * How density changes with pressure and with enthalpy, from the state itself: with {@code a = (drho/dh)_p}
     *
     * <pre>{@code
     * one phase  a = -T-slope of density over cp, from cp - cv and the speed of sound
     * dome       a = -rho^2 (vv - vl)/(hv - hl)
     * both       (drho/dp)_h = 1/w^2 - a/rho
     * }</pre>
     */
    default DensitySlopes densitySlopes(FluidState state) {
        double rho = state.density();
        double overEnthalpy;
        if (state.phase() == Phase.TWO_PHASE) {
            FluidState liquid = atPressureQuality(state.pressure(), 0);
            FluidState vapour = atPressureQuality(state.pressure(), 1);
            overEnthalpy = -rho
                    * rho
                    * (1 / vapour.density() - 1 / liquid.density())
                    / (vapour.enthalpy() - liquid.enthalpy());
        } else {
            // cp - cv = T (dp/dT)^2/(rho^2 dp/drho), w^2 = cp/cv dp/drho; dp/dT is positive but for cold water
            double isothermal = state.soundSpeed() * state.soundSpeed() * state.cv() / state.cp();
            double difference = Math.max(state.cp() - state.cv(), 0);
            double overTemperature = -rho * Math.sqrt(difference / (state.temperature() * isothermal));
            overEnthalpy = overTemperature / state.cp();
        }
        return new DensitySlopes(1 / (state.soundSpeed() * state.soundSpeed()) - overEnthalpy / rho, overEnthalpy);
    }

    /**
     * Slopes of density.
     *
     * @param overPressure at constant enthalpy, kg/(m3 Pa)
     * @param overEnthalpy at constant pressure, kg2/(m3 J)
     */
    record DensitySlopes(double overPressure, double overEnthalpy) {}
}
