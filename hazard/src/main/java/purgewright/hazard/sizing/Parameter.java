package purgewright.hazard.sizing;

import java.util.List;
import java.util.Locale;
import purgewright.hazard.fault.Edits;
import purgewright.sealflow.model.Case;
import purgewright.sealflow.model.Cavity;
import purgewright.sealflow.model.DutyPhase;
import purgewright.sealflow.model.PassageSpec;

/**
 * One number of a case that may be varied, by its place, without going back to the text.
 *
 * <p>{@code /rotor/speed}, {@code /cavities/NAME/pressure} (of a fixed cavity), {@code /passages/NAME/clearance}, and any number among
 * a passage's own fields, for instance {@code /passages/NAME/diameter}; an index may stand for a name. The value of one phase alone is
 * {@code /duty/PHASE/set/} and the place with {@code ~1} for each slash, as JSON Pointer has it.
 *
 * @param pointer as given
 * @param section rotor, cavities or passages
 * @param name of cavity or passage; empty for the rotor
 * @param field last part
 * @param phase the only phase it is set in; empty: every phase that does not state its own
 */
public record Parameter(String pointer, String section, String name, String field, String phase) {
    /**
     * Reads a pointer and checks it against a case.
     *
     * @throws IllegalArgumentException when there is no such number in the case, with the place
     */
    public static Parameter of(Case model, String pointer) {
        Parameter p = find(model, pointer);
        if (p == null) {
            throw new IllegalArgumentException(String.format(
                    Locale.ROOT,
                    "%s is no number of the case that can be varied; wanted /rotor/speed, /cavities/NAME/pressure, or"
                            + " /passages/NAME/FIELD",
                    pointer));
        }
        return p;
    }

    /** The same; null when there is no such number. */
    public static Parameter find(Case model, String pointer) {
        String[] parts = pointer.split("/", -1);
        if (parts.length == 5 && parts[0].isEmpty() && "duty".equals(parts[1]) && "set".equals(parts[3])) {
            Parameter inner = find(model, parts[4].replace("~1", "/").replace("~0", "~"));
            boolean known = model.duty().stream().anyMatch(d -> d.name().equals(parts[2]));
            return inner == null || !known
                    ? null
                    : new Parameter(pointer, inner.section(), inner.name(), inner.field(), parts[2]);
        }
        Parameter p = null;
        if (parts.length == 3 && parts[0].isEmpty() && "rotor".equals(parts[1])) {
            p = new Parameter(pointer, "rotor", "", parts[2], "");
        } else if (parts.length == 4 && parts[0].isEmpty()) {
            p = new Parameter(pointer, parts[1], named(model, parts[1], parts[2]), parts[3], "");
        }
        return p == null || Double.isNaN(p.get(model)) ? null : p;
    }

    /** A name, or the name of the element with that index. */
    private static String named(Case model, String section, String part) {
        if (part.isEmpty() || !part.chars().allMatch(c -> c >= '0' && c <= '9') || part.length() > 6) {
            return part;
        }
        int index = Integer.parseInt(part);
        List<String> names = "passages".equals(section)
                ? model.passages().stream().map(PassageSpec::name).toList()
                : model.cavities().stream().map(Cavity::name).toList();
        return index < names.size() ? names.get(index) : part;
    }

    /** True when it is the same number, whatever its pointer looks like. */
    public boolean same(Parameter other) {
        return section.equals(other.section) && name.equals(other.name) && field.equals(other.field);
    }

    /** False in a phase that states its own value, and outside the phase it belongs to. */
    public boolean applies(Case whole, DutyPhase duty) {
        if (!phase.isEmpty()) {
            return duty != null && duty.name().equals(phase);
        }
        if (duty == null) {
            return true;
        }
        for (String place : duty.set().keySet()) {
            Parameter own = find(whole, place);
            if (own != null && same(own)) {
                return false;
            }
        }
        return true;
    }

    /** The value, SI; NaN when the case has none. */
    public double get(Case model) {
        switch (section) {
            case "rotor":
                return "speed".equals(field) ? model.rotor().speed() : Double.NaN;
            case "cavities":
                Cavity c = model.cavity(name);
                return c == null
                        ? Double.NaN
                        : "pressure".equals(field)
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
