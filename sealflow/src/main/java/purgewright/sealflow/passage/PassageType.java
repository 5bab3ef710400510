package purgewright.sealflow.passage;

import java.util.List;
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
