package purgewright.fluids.mixture;

/** What a component says about itself at one temperature and density. Owned by one solve, overwritten at each evaluation. */
final class Point {
    /** Pressure, Pa. */
    double pressure;

    /** Slope of pressure with temperature at constant density, Pa/K. */
    double pressureByTemperature;

    /** Slope of pressure with density at constant temperature, J/kg. */
    double pressureByDensity;

    /** kg/m3. */
    double density;

    /** On the formation datum, J/kg. */
    double enthalpy;

    /** J/(kg K). */
    double entropy;

    /** Slope of the vapour pressure with temperature, Pa/K; set for saturated vapour only, as are the next three. */
    double saturationSlope;

    /** Along the saturation line, kg/(m3 K). */
    double densityByTemperature;

    /** Along the saturation line, J/(kg K). */
    double enthalpyByTemperature;

    /** Along the saturation line, J/(kg K2). */
    double entropyByTemperature;

    /** Isobaric, J/(kg K); set for liquids only. */
    double cp;

    /** Isochoric, J/(kg K). */
    double cv;

    /** Thermal expansion times volume, (dv/dT) at constant pressure, m3/(kg K); set for liquids only. */
    double volumeByTemperature;

    /** (dv/dp) at constant temperature, m3/(kg Pa); set for liquids only. */
    double volumeByPressure;

    /** True when the asked density lies in the dome or on the liquid's side: part of the component is condensed. */
    boolean saturated;

    /** True outside the range of the equation. */
    boolean extrapolated;

    /** The vapour pressure, set by the saturation functions, Pa. */
    double saturationPressure;
}
