package purgewright.sealflow.model;

import java.util.Map;

/**
 * A passage as the case describes it. The fields a type owns stand in {@code fields}: numbers as SI {@link Double}, words as
 * {@link String}, whole numbers too as Double.
 *
 * @param name unique
 * @param from name of the cavity from which flow counts positive
 * @param to name of the other cavity
 * @param type key of the passage type, for instance {@code labyrinth}
 * @param count number of equal passages in parallel, at least 1
 * @param radius rotor surface at the gap, m; NaN for a passage off the shaft
 * @param clearance cold radial (or axial) clearance, m; NaN for types without
 * @param wornClearance m; NaN when not stated
 * @param clearanceGrowth stated change of clearance from cold to running, m; NaN: from the rotor section, or zero
 * @param calibrationFactor multiplies the flow; 1 when not fitted
 * @param stirring beta in D_eff = D + beta U c; NaN: default
 * @param closed true when a valve is shut: no flow
 * @param fields the type's own fields
 */
public record PassageSpec(
        String name,
        String from,
        String to,
        String type,
        int count,
        double radius,
        double clearance,
        double wornClearance,
        double clearanceGrowth,
        double calibrationFactor,
        double stirring,
        boolean closed,
        Map<String, Object> fields) {

    /** Field of every passage: liquid over gas in what leaves through it, as a multiple of that in the cavity it leaves. */
    public static final String PICK_UP = "liquid pick-up";

    /** With less, a cavity would have to be full of liquid before any leaves. */
    public static final double LEAST_PICK_UP = 1e-3;

    public static final double MOST_PICK_UP = 1e3;

    /** How much of a cavity's separate liquid leaves through the passage with the gas; 1: as it is held. */
    public double pickUp() {
        return number(PICK_UP, 1);
    }

    /** Number of that name, or the fallback when the case does not give it. */
    public double number(String field, double fallback) {
        Object value = fields.get(field);
        return value instanceof Number n ? n.doubleValue() : fallback;
    }

    /** Word of that name, or the fallback when the case does not give it. */
    public String word(String field, String fallback) {
        Object value = fields.get(field);
        return value instanceof String s ? s : fallback;
    }
}
