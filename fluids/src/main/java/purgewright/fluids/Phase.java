package purgewright.fluids;

/** Which phase a state is in. */
public enum Phase {
    /** Below the critical temperature and denser than the saturated liquid, or metastable liquid. */
    LIQUID,
    /** A vapour or gas; for a mixture, nothing is condensed. */
    GAS,
    /** Above the critical temperature and the critical pressure. */
    SUPERCRITICAL,
    /** Liquid and vapour side by side; for a mixture, at least one component is partly condensed. */
    TWO_PHASE
}
