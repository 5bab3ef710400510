package purgewright.fluids.unit;

/** Density of the gas that a standard volume flow belongs to. */
@FunctionalInterface
public interface GasDensity {
    /**
     * @param pressure of the reference state, Pa
     * @param temperature of the reference state, K
     * @return kg/m3
     */
    double at(double pressure, double temperature);
}
