package purgewright.fluids.unit;

/** Which family of units a text is written in. */
public enum UnitSystem {
    /** MPa, mm, g/s, K. */
    SI,
    /** US customary: psia, psi for differences, in, lb/s, degF. */
    US
}
