package purgewright.fluids;

/**
 * One equilibrium state of a fluid. SI: Pa, K, kg/m3, J/kg, J/(kg K), m/s.
 *
 * <p>In the dome {@code cp} and {@code cv} are NaN and {@code soundSpeed} is the homogeneous-equilibrium one.
 *
 * @param fluid the fluid this is a state of; a passage asks it for further states along an isentrope
 * @param pressure absolute, Pa
 * @param temperature K
 * @param density kg/m3, homogeneous in the dome
 * @param enthalpy J/kg, on the datum the fluid states
 * @param entropy J/(kg K)
 * @param cp isobaric heat capacity, J/(kg K)
 * @param cv isochoric heat capacity, J/(kg K)
 * @param soundSpeed m/s
 * @param quality vapour's share of the mass, 0 liquid to 1 gas or supercritical
 * @param phase where the state lies
 * @param extrapolated true when any property lies outside the range its equation was published for
 */
public record FluidState(
        Fluid fluid,
        double pressure,
        double temperature,
        double density,
        double enthalpy,
        double entropy,
        double cp,
        double cv,
        double soundSpeed,
        double quality,
        Phase phase,
        boolean extrapolated) {}
