package purgewright.fluids.mixture;

import java.util.Map;

/**
 * One component of a mixture, alone in the volume that the gas has: its pressure, enthalpy and entropy at its own partial density,
 * and its pure liquid. Immutable.
 */
abstract class Component {
    /** Coldest temperature any component answers for, K. */
    static final double COLDEST = 1;

    /** Hottest temperature any component answers for, K: end of the species table. */
    static final double HOTTEST = 6000;

    private final String name;
    private final double molarMass;
    private final double gasConstant;

    Component(String name, double molarMass, double gasConstant) {
        this.name = name;
        this.molarMass = molarMass;
        this.gasConstant = gasConstant;
    }

    final String name() {
        return name;
    }

    /** kg/mol. */
    final double molarMass() {
        return molarMass;
    }

    /** Specific, J/(kg K). */
    final double gasConstant() {
        return gasConstant;
    }

    /** Species by mole fraction within the component. */
    abstract Map<String, Double> species();

    /** Can it condense at this temperature (K)? */
    abstract boolean condensable(double temperature);

    /** Critical temperature (K), 0 for an ideal gas. */
    abstract double criticalTemperature();

    /** Critical pressure (Pa), 0 for an ideal gas. */
    abstract double criticalPressure();

    /** Critical molar volume or its estimate, m3/mol. */
    abstract double criticalMolarVolume();

    /** Critical temperature (K), pressure (Pa), molar volume (m3/mol) and acentric factor, for pairs of unlike molecules. */
    abstract double[] criticalConstants();

    /** Temperature (K) below which it would freeze, 0 when it never does here. */
    abstract double tripleTemperature();

    /** State as a gas at temperature (K) and density (kg/m3); {@code saturated} is set instead when that lies beyond the dew point. */
    abstract void gas(double temperature, double density, Point point);

    /**
     * As {@link #gas}, but only pressure and its slope with density need be set, and the vapour pressure where it is saturated: what a
     * search for the volume asks.
     */
    void gasPressure(double temperature, double density, Point point) {
        gas(temperature, density, point);
        if (point.saturated) {
            point.saturationPressure = saturationPressure(temperature);
        }
    }

    /** Vapour pressure, Pa. Only where {@link #condensable}. */
    abstract double saturationPressure(double temperature);

    /** Saturated vapour at temperature (K), with its slopes along the saturation line. Only where {@link #condensable}. */
    abstract void saturatedVapour(double temperature, Point point);

    /**
     * Both phases on the saturation line, enthalpies or entropies alone and no slopes, for a first guess; false where that is as dear as
     * the state itself. Only where {@link #condensable}.
     */
    boolean edges(double temperature, boolean entropic, Point liquid, Point vapour) {
        return false;
    }

    /** Liquid at temperature (K) and the mixture's pressure (Pa). Only where {@link #condensable}. */
    abstract void liquid(double temperature, double pressure, Point point);

    /** Ideal-gas enthalpy on the formation datum, J/kg. */
    abstract double idealEnthalpy(double temperature);

    /** Ideal-gas entropy at temperature (K) and density (kg/m3), J/(kg K); for first guesses. */
    abstract double idealEntropy(double temperature, double density);

    /** Ideal-gas heat capacity, J/(kg K). */
    abstract double idealHeatCapacity(double temperature);

    /** Viscosity of the gas at temperature (K) and density (kg/m3), Pa s. */
    abstract double gasViscosity(double temperature, double density);

    /** Thermal conductivity of the gas at temperature (K) and density (kg/m3), W/(m K). */
    abstract double gasConductivity(double temperature, double density);

    /** Viscosity of the liquid, Pa s. */
    abstract double liquidViscosity(double temperature, double pressure);

    /** Thermal conductivity of the liquid, W/(m K). */
    abstract double liquidConductivity(double temperature, double pressure);
}
