package purgewright.sealflow.passage;

import java.util.List;
import purgewright.fluids.unit.Dimension;

/**
 * One field of a passage type, from which the reader, the schema, the reference page and the window's form are made.
 *
 * @param name as in the case file
 * @param dimension what it measures; {@code NUMBER} for pure and whole numbers; null for a word
 * @param required true when the type cannot do without
 * @param fallback the default as typed in a case, or null
 * @param minimum smallest allowed SI value
 * @param exclusive true when the minimum itself is not allowed
 * @param maximum largest allowed SI value
 * @param whole true for whole numbers
 * @param choices allowed words; empty for numbers
 * @param description one sentence
 */
public record PassageField(
        String name,
        Dimension dimension,
        boolean required,
        String fallback,
        double minimum,
        boolean exclusive,
        double maximum,
        boolean whole,
        List<String> choices,
        String description) {

    /** A positive quantity that must be given. */
    public static PassageField positive(String name, Dimension dimension, String description) {
        return new PassageField(
                name, dimension, true, null, 0, true, Double.POSITIVE_INFINITY, false, List.of(), description);
    }

    /** A quantity with a default. */
    public static PassageField optional(
            String name, Dimension dimension, String fallback, double minimum, double maximum, String description) {
        return new PassageField(
                name, dimension, false, fallback, minimum, false, maximum, false, List.of(), description);
    }

    /** A whole number that must be given. */
    public static PassageField count(String name, int minimum, int maximum, String description) {
        return new PassageField(
                name, Dimension.NUMBER, true, null, minimum, false, maximum, true, List.of(), description);
    }

    /** A whole number with a default. */
    public static PassageField optionalCount(
            String name, String fallback, int minimum, int maximum, String description) {
        return new PassageField(
                name, Dimension.NUMBER, false, fallback, minimum, false, maximum, true, List.of(), description);
    }

    /** A word out of a list, with a default. */
    public static PassageField choice(String name, String fallback, List<String> choices, String description) {
        return new PassageField(name, null, false, fallback, 0, false, 0, false, choices, description);
    }
}
