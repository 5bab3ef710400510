package purgewright.sealflow.gap;

/** Kinds of gap between rotor and stator. */
public enum GapKind {
    /** None, or one that is no running clearance: a film, an orifice. */
    NONE,
    /** Around the shaft: narrowed by growth, whirl, play, offset, run-out and tolerance. */
    RADIAL,
    /** The same of a ring that follows a steady offset and the play of the bearings. */
    FLOATING,
    /** Along the shaft: narrowed by thrust movement, run-out and tolerance. */
    AXIAL
}
