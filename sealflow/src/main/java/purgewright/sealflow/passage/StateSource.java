package purgewright.sealflow.passage;

import purgewright.fluids.phase.StateBuffer;

/** Where a jet takes its states from: the fluid itself, or a line of states along which they are known. Owned by one thread. */
interface StateSource {
    /** State at pressure (Pa) and specific enthalpy (J/kg); false where there is none. */
    boolean atPressureEnthalpy(double pressure, double enthalpy, StateBuffer out);

    /** State at pressure (Pa) and specific entropy (J/(kg K)); false where there is none. */
    boolean atPressureEntropy(double pressure, double entropy, StateBuffer out);

    /** As {@link purgewright.fluids.Fluid#criticalDensity}. */
    double criticalDensity();

    /** As {@link purgewright.fluids.Fluid#molarMass}. */
    double molarMass();
}
