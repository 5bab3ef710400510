package purgewright.fluids.validation;

import java.util.function.DoubleSupplier;

/**
 * One number from outside, and how to compute ours.
 *
 * @param id short identifier, unique within a set, for instance "SUP-01 He 288.15 K 20 MPa Z"
 * @param quantity what is compared, in words
 * @param source author, title, number, year, table; or the formula of a derived value
 * @param label where the number comes from
 * @param expected the outside number, in {@code unit}
 * @param ours computes our number; may throw what the computation throws
 * @param tolerance largest deviation allowed: relative to {@code expected}, or in {@code unit} when absolute
 * @param relative true when the tolerance is relative
 * @param unit SI unit, "1" for none
 * @param kind verification or validation
 */
public record Check(
        String id,
        String quantity,
        String source,
        Label label,
        double expected,
        DoubleSupplier ours,
        double tolerance,
        boolean relative,
        String unit,
        Kind kind) {
    /** Whether the equations are solved right, or are the right equations. */
    public enum Kind {
        /** Against a closed form, an exact solution or the same equations elsewhere: is the computation right? */
        VERIFICATION,
        /** Against measurements or values accepted by others: is the model right? */
        VALIDATION
    }

    /** Where an outside number comes from. */
    public enum Label {
        /** Read in a stored public copy of the publication. */
        PUBLISHED("published"),
        /** A publication's number, recalled and believed, not read again. */
        FROM_MEMORY("published, value recalled from memory"),
        /** A book's own worked example. */
        TEXTBOOK("textbook worked example"),
        /** A closed form or an exact numerical solution; a property library's value names the library. */
        DERIVED("derived"),
        /** A fact of the trade without a source. */
        COMMON_PRACTICE("common practice");

        private final String text;

        Label(String text) {
            this.text = text;
        }

        /** The label in words. */
        public String text() {
            return text;
        }
    }

    /** A check with a relative tolerance. */
    public static Check relative(
            String id,
            String quantity,
            String source,
            Label label,
            double expected,
            DoubleSupplier ours,
            double tolerance,
            String unit,
            Kind kind) {
        return new Check(id, quantity, source, label, expected, ours, tolerance, true, unit, kind);
    }

    /** A check with an absolute tolerance. */
    public static Check absolute(
            String id,
            String quantity,
            String source,
            Label label,
            double expected,
            DoubleSupplier ours,
            double tolerance,
            String unit,
            Kind kind) {
        return new Check(id, quantity, source, label, expected, ours, tolerance, false, unit, kind);
    }

    /**
     * True when deviation and tolerance are shares of the expected value. A share of 0 is none: there a relative tolerance is taken in
     * the unit.
     */
    public boolean asShare() {
        return relative && expected != 0;
    }

    /** Deviation of a computed value, in the sense of the tolerance: relative or in the unit. NaN when the value is. */
    public double deviation(double computed) {
        double difference = Math.abs(computed - expected);
        return asShare() ? difference / Math.abs(expected) : difference;
    }

    /** True when the computed value lies within the tolerance; false for NaN. */
    public boolean passes(double computed) {
        return deviation(computed) <= tolerance;
    }
}
