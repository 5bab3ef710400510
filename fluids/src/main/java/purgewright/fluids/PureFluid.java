package purgewright.fluids;

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
}
