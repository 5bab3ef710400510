package purgewright.hazard.sizing;

import java.util.Locale;
import purgewright.hazard.fault.Edits;
import purgewright.sealflow.model.Case;
import purgewright.sealflow.model.Cavity;
import purgewright.sealflow.model.PassageSpec;

/**
 * One number of a case that may be varied, by its place.
 *
 * <p>{@code /rotor/speed}, {@code /cavities/NAME/pressure} and {@code temperature} (of a fixed cavity), {@code /passages/NAME/clearance}, and any number among
 * a passage's own fields, for instance {@code /passages/NAME/diameter}.
 *
 * @param pointer as given
 * @param section rotor, cavities or passages
 * @param name of cavity or passage; empty for the rotor
 * @param field last part
 */
public record Parameter(String pointer, String section, String name, String field) {
    /**
     * Reads a pointer and checks it against a case.
     *
     * @throws IllegalArgumentException when there is no such number in the case, with the place
     */
    public static Parameter of(Case model, String pointer) {
        String[] parts = pointer.split("/", -1);
        Parameter p = null;
        if (parts.length == 3 && parts[0].isEmpty() && "rotor".equals(parts[1])) {
            p = new Parameter(pointer, "rotor", "", parts[2]);
        } else if (parts.length == 4 && parts[0].isEmpty()) {
            p = new Parameter(pointer, parts[1], parts[2], parts[3]);
        }
        if (p == null || Double.isNaN(p.get(model))) {
            throw new IllegalArgumentException(String.format(
                    Locale.ROOT,
                    "%s is no number of the case that can be varied; wanted /rotor/speed, /cavities/NAME/pressure, or"
                            + " /passages/NAME/FIELD",
                    pointer));
        }
        return p;
    }

    /** The value, SI; NaN when the case has none. */
    public double get(Case model) {
        switch (section) {
            case "rotor":
                return "speed".equals(field) ? model.rotor().speed() : Double.NaN;
            case "cavities":
                Cavity c = model.cavity(name);
                if (c == null) {
                    return Double.NaN;
                }
                return "pressure".equals(field)
                        ? c.pressure()
                        : "temperature".equals(field) && c.fixed() ? c.temperature() : Double.NaN;
            case "passages":
                PassageSpec p = model.passage(name);
                if (p == null) {
                    return Double.NaN;
                }
                return "clearance".equals(field) ? Edits.clearanceOf(p) : p.number(field, Double.NaN);
            default:
                return Double.NaN;
        }
    }

    /** The case with another value, SI. */
    public Case set(Case model, double value) {
        switch (section) {
            case "rotor":
                return Edits.rotor(model, Edits.speed(model.rotor(), value));
            case "cavities":
                return Edits.cavity(
                        model,
                        name,
                        c -> "pressure".equals(field) ? Edits.pressure(c, value) : Edits.temperature(c, value));
            default:
                return Edits.passage(
                        model,
                        name,
                        p -> "clearance".equals(field) ? Edits.open(p, value) : Edits.field(p, field, value));
        }
    }
}
