package purgewright.sealflow.passage;

import java.util.List;
import java.util.Locale;
import purgewright.fluids.unit.Dimension;
import purgewright.sealflow.model.PassageSpec;

/** Fields that several types share, and reading them. */
final class Fields {
    /** A gap that has closed still leaks: m [invented]. */
    static final double CLOSED_GAP = 1e-6;

    static final PassageField RADIUS =
            PassageField.positive("radius", Dimension.LENGTH, "Radius of the rotor's surface at the gap.");
    static final PassageField CLEARANCE =
            PassageField.positive("clearance", Dimension.LENGTH, "Radial clearance, cold, as built.");
    static final PassageField DIAMETER = PassageField.positive("diameter", Dimension.LENGTH, "Bore.");
    static final PassageField INLET_LOSS = PassageField.optional(
            "inlet loss",
            Dimension.NUMBER,
            "0.3",
            0,
            10,
            "Inlet loss in velocity heads beyond the head itself: 0.1 to 0.5 for annuli, 0.5 a sharp flush pipe (common practice).");
    static final PassageField ROUGHNESS =
            PassageField.optional("roughness", Dimension.LENGTH, "0.8 um", 0, 1e-2, "Roughness of the walls.");
    static final PassageField SEGMENT = new PassageField(
            "segment",
            null,
            false,
            null,
            0,
            false,
            0,
            false,
            List.of(),
            "Rotor segment whose growth moves this gap; else the one with the nearest outer radius.");
    static final PassageField STATOR_TEMPERATURE = new PassageField(
            "stator temperature",
            Dimension.TEMPERATURE,
            false,
            null,
            0,
            true,
            Double.POSITIVE_INFINITY,
            false,
            List.of(),
            "Temperature of the stationary part in running; grows the gap with the stator's expansion.");
    static final PassageField STATOR_EXPANSION = new PassageField(
            "stator expansion",
            Dimension.EXPANSION,
            false,
            null,
            0,
            false,
            1e-3,
            false,
            List.of(),
            "Thermal expansion coefficient of the stationary part.");

    private Fields() {}

    /** An optional quantity without a default. */
    static PassageField maybe(String name, Dimension dimension, String description) {
        return new PassageField(
                name, dimension, false, null, 0, true, Double.POSITIVE_INFINITY, false, List.of(), description);
    }

    /** A value that must be a positive number. */
    static double positive(String type, String name, double value, String unit) {
        if (!(value > 0) || Double.isInfinite(value)) {
            throw new IllegalArgumentException(
                    String.format(Locale.ROOT, "%s: %s is %g %s; it must be above 0", type, name, value, unit));
        }
        return value;
    }

    static double positive(PassageSpec spec, String name, String unit) {
        return positive(spec.type(), name, spec.number(name, Double.NaN), unit);
    }

    /** Running clearance, or the cold one; a closed gap is held at {@link #CLOSED_GAP}. */
    static double clearance(PassageSpec spec, Conditions conditions, double cold) {
        double c = Double.isNaN(conditions.runningClearance()) ? cold : conditions.runningClearance();
        if (Double.isNaN(c)) {
            positive(spec.type(), "clearance", c, "m");
        }
        return Math.max(c, CLOSED_GAP);
    }

    static double radius(PassageSpec spec) {
        return positive(spec.type(), "radius", spec.radius(), "m");
    }

    static Throttle.Flashing thin(Conditions.Bound bound) {
        switch (bound) {
            case LOW:
                return Throttle.Flashing.EQUILIBRIUM;
            case HIGH:
                return Throttle.Flashing.FROZEN;
            default:
                return Throttle.Flashing.RELAXED;
        }
    }

    static Throttle.Flashing slot(Conditions.Bound bound) {
        return bound == Conditions.Bound.HIGH ? Throttle.Flashing.FROZEN : Throttle.Flashing.EQUILIBRIUM;
    }

    /** Factor of a model's own relative band. */
    static double band(Conditions.Bound bound, double below, double above) {
        switch (bound) {
            case LOW:
                return 1 - below;
            case HIGH:
                return 1 + above;
            default:
                return 1;
        }
    }
}
