package purgewright.sealflow.passage;

import java.util.List;
import purgewright.fluids.FluidState;
import purgewright.sealflow.gap.GapKind;
import purgewright.sealflow.model.PassageSpec;

/** A kind of passage: what it wants to know, and how to make one. */
public interface PassageType {
    /** Key in the case file, for instance {@code floating ring}. */
    String key();

    /** One sentence for schema, help and tooltips. */
    String description();

    /** Own fields beyond the common ones (name, from, to, type, count, calibration factor, closed). Includes radius and clearance where used. */
    List<PassageField> fields();

    /** What kind of seal it is for the criteria. */
    SealKind kind();

    /** Page under {@code docs/theory}, without its ending, that tells the type's law; ducts share one. */
    default String page() {
        return "passages";
    }

    /** How the passage's gap changes between cold and running. */
    default GapKind gap(PassageSpec spec) {
        return GapKind.NONE;
    }

    /** True for a seal that rubs on the rotor by design. */
    default boolean rubs() {
        return false;
    }

    /** True for a seal of segments, whose pressure difference practice limits. */
    default boolean segmented() {
        return false;
    }

    /** True where the running gap follows from forces, so that a gap in the case opens nothing. */
    default boolean balances(PassageSpec spec) {
        return false;
    }

    /**
     * Power of its opening with which the flow of a seal grows whose case states no gap that could open; a fault opens it all the same.
     * 3, as of a laminar film, is the most that a gap's flow grows by; a type that knows its law says so.
     */
    default double growth(PassageSpec spec) {
        return 3;
    }

    /**
     * The seal with nothing left that holds it closed, for a type whose case states no gap that could open but says how far it can.
     *
     * @param factor how many times its opening a seal is that failed open
     * @return null where the opening, or the flow by {@link #growth}, stands for it
     */
    default PassageSpec failedOpen(PassageSpec spec, double factor) {
        return null;
    }

    /** True for a run of pipe: it can break, and air condenses on it when it is cold. */
    default boolean pipe() {
        return false;
    }

    /** True for what a moving part holds shut against flow backwards: it can leak ({@code reverse leak}) or stick open, and is no barrier. */
    default boolean checks() {
        return false;
    }

    /** True for a fixed opening that meters what is fed. */
    default boolean meters() {
        return false;
    }

    /** Which of its laws a passage goes by; empty where the type has one. */
    default String method(PassageSpec spec) {
        return "";
    }

    /** Name of the field that may be a table in a file of its own; null where there is none. */
    default String table() {
        return null;
    }

    /** What to do about geometry that the type refuses, for the one who wrote the case. */
    default String mend() {
        return "change one of the numbers named";
    }

    /**
     * What drives flow through it: the pressures at its ends, unless rotor or gravity add to them. Written by other code than the
     * passage's own, so that a result can be held against it.
     *
     * @param gap running clearance, m
     * @param speed of the rotor, rad/s
     */
    default DrivingHead drive(PassageSpec spec, double gap, double speed, FluidState from, FluidState to) {
        return DrivingHead.pressures(from, to);
    }

    /**
     * Makes the passage.
     *
     * @param spec as in the case, fields complete and in range
     * @param conditions speed and running clearance
     * @throws IllegalArgumentException for geometry the model refuses, with value, unit and limit in the text
     */
    Passage build(PassageSpec spec, Conditions conditions);

    /** Families that criteria tell apart. */
    enum SealKind {
        /** Contact, ring and film seals: judged by pressure. */
        CLOSE,
        /** Labyrinths and rim gaps: judged by velocity. */
        OPEN,
        /** Orifices, lines, valves: not seals. */
        DUCT
    }
}
