package purgewright.sealflow.casefile;

import java.util.List;
import purgewright.fluids.unit.Dimension;

/** What may stand at a place of a case. From this the reader, the JSON Schema and the reference page are made. */
sealed interface Shape {
    /**
     * A quantity: text with unit, or for pure numbers a JSON number.
     *
     * @param minimum in SI
     * @param exclusive true when the minimum itself is not allowed
     * @param maximum in SI
     * @param whole true for whole numbers
     */
    record Quantity(Dimension dimension, double minimum, boolean exclusive, double maximum, boolean whole)
            implements Shape {
        /** True for what is written as a bare number. */
        boolean plain() {
            return dimension == Dimension.NUMBER;
        }
    }

    /** One word out of a list. */
    record Word(List<String> choices) implements Shape {}

    /** Free text. */
    record Text() implements Shape {}

    /** A name: no "/" or "~", not all digits, not blank. */
    record Name() implements Shape {}

    /** The name of something else. */
    record Reference(Target target) implements Shape {}

    /** Yes or no. */
    record Flag() implements Shape {}

    /** An object with known fields; every one may also have a free "note". */
    record Fields(String title, List<Field> fields) implements Shape {}

    /** An object whose member names are free. */
    record Entries(Key key, Shape value) implements Shape {}

    /**
     * A list.
     *
     * @param named true when the elements have unique names
     */
    record Items(Shape element, int minimum, boolean named) implements Shape {}

    /** A passage: the common fields and those of its type. */
    record PassageShape() implements Shape {}

    /** One of several, told apart by what kind of JSON value stands there. */
    record Either(List<Shape> shapes) implements Shape {}

    /** Any scalar, turned into SI: a quantity of any dimension, a plain number, a word, yes or no. */
    record Scalar() implements Shape {}

    /** Any scalar, kept as typed. */
    record Typed() implements Shape {}

    /** Anything, kept as it is with quantities in SI. */
    record Free() implements Shape {}

    /** What a reference names. */
    enum Target {
        CAVITY("cavity"),
        PASSAGE("passage"),
        STREAM("stream"),
        FLUID("fluid"),
        PHASE("phase of the duty"),
        PLACE("place");

        final String word;

        Target(String word) {
            this.word = word;
        }
    }

    /** What the member names of {@link Entries} are. */
    enum Key {
        NAME,
        FLUID,
        FORMULA,
        PLACE,
        FREE
    }

    /**
     * A field of an object.
     *
     * @param fallback the default in words or as typed; null for none
     */
    record Field(String name, Shape shape, boolean required, String fallback, String description) {}
}
