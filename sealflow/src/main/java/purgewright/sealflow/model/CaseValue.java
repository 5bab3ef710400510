package purgewright.sealflow.model;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.function.UnaryOperator;
import purgewright.fluids.unit.Dimension;

/**
 * One number of a case by its place: what a boundary history drives and a fit moves.
 *
 * <p>Known places: {@code /rotor/speed}; {@code /cavities/NAME/pressure} and {@code .../temperature} of a fixed cavity; {@code
 * /passages/NAME/clearance}, {@code .../calibration factor}, {@code .../clearance growth} and any number among a passage's own
 * fields; {@code /supply/regulator/set pressure}.
 *
 * @param pointer as given, the escapes of JSON Pointer allowed
 * @param section rotor, cavities, passages or supply
 * @param name of cavity or passage; empty for others
 * @param field last part
 */
public record CaseValue(String pointer, String section, String name, String field) {
    /** Fields that play the part of a clearance in types that have none, in the order they are looked for. */
    private static final List<String> GAPS = List.of("gap", "pad gap", "effective clearance", "dam gap");

    /** The number at a place; null when the case has none there. */
    public static CaseValue find(Case model, String pointer) {
        String[] parts = pointer.split("/", -1);
        for (int i = 0; i < parts.length; i++) {
            parts[i] = parts[i].replace("~1", "/").replace("~0", "~");
        }
        CaseValue value = null;
        if (parts.length == 3 && parts[0].isEmpty() && "rotor".equals(parts[1])) {
            value = new CaseValue(pointer, "rotor", "", parts[2]);
        } else if (parts.length == 4 && parts[0].isEmpty() && "supply".equals(parts[1])) {
            value = new CaseValue(pointer, "supply", parts[2], parts[3]);
        } else if (parts.length == 4 && parts[0].isEmpty()) {
            value = new CaseValue(pointer, parts[1], parts[2], parts[3]);
        }
        return value == null || Double.isNaN(value.get(model)) ? null : value;
    }

    /** The value, SI; NaN when the case has none. */
    public double get(Case model) {
        switch (section) {
            case "rotor":
                return "speed".equals(field) ? model.rotor().speed() : Double.NaN;
            case "cavities":
                Cavity c = model.cavity(name);
                if (c == null || !c.fixed()) {
                    return Double.NaN;
                }
                return "pressure".equals(field)
                        ? c.pressure()
                        : "temperature".equals(field) ? c.temperature() : Double.NaN;
            case "passages":
                PassageSpec p = model.passage(name);
                return p == null ? Double.NaN : of(p);
            case "supply":
                Supply s = model.supply();
                return s != null && s.regulator() != null && "regulator".equals(name) && "set pressure".equals(field)
                        ? s.regulator().setPressure()
                        : Double.NaN;
            default:
                return Double.NaN;
        }
    }

    private double of(PassageSpec p) {
        return switch (field) {
            case "clearance" -> clearance(p);
            case "calibration factor" -> p.calibrationFactor();
            case "clearance growth" -> Double.isNaN(p.clearanceGrowth()) ? 0 : p.clearanceGrowth();
            default -> p.number(field, Double.NaN);
        };
    }

    /** What the number is measured in, where its place tells; null for a passage's own field. */
    public Dimension dimension() {
        return switch (field) {
            case "speed" -> Dimension.ANGULAR_SPEED;
            case "pressure", "set pressure" -> Dimension.PRESSURE;
            case "temperature" -> Dimension.TEMPERATURE;
            case "clearance", "clearance growth" -> Dimension.LENGTH;
            case "calibration factor" -> Dimension.NUMBER;
            default -> null;
        };
    }

    /** The case with another value, SI. */
    public Case set(Case model, double value) {
        switch (section) {
            case "rotor":
                return rotor(model, speed(model.rotor(), value));
            case "cavities":
                return cavity(
                        model,
                        name,
                        c -> "pressure".equals(field)
                                ? state(c, value, c.temperature())
                                : state(c, c.pressure(), value));
            case "passages":
                return passage(model, name, p -> with(p, value));
            default:
                return model;
        }
    }

    private PassageSpec with(PassageSpec p, double value) {
        return switch (field) {
            case "clearance" -> open(p, value);
            case "calibration factor" -> copy(p, p.clearance(), p.clearanceGrowth(), value, p.closed(), p.fields());
            case "clearance growth" -> copy(p, p.clearance(), value, p.calibrationFactor(), p.closed(), p.fields());
            default -> {
                Map<String, Object> fields = new LinkedHashMap<>(p.fields());
                fields.put(field, value);
                yield copy(p, p.clearance(), p.clearanceGrowth(), p.calibrationFactor(), p.closed(), fields);
            }
        };
    }

    // --- small changes of a case
    // ----------------------------------------------------------------------------------------

    /** The fixed cavity at another pressure (Pa) and temperature (K). */
    public static Cavity state(Cavity c, double pressure, double temperature) {
        return new Cavity(
                c.name(),
                c.role(),
                c.stream(),
                pressure,
                temperature,
                c.volume(),
                c.radius(),
                c.swirlRatio(),
                c.disc(),
                c.wall(),
                c.circumferentialVariation());
    }

    /** The rotor at another speed, rad/s. */
    public static Rotor speed(Rotor r, double speed) {
        return new Rotor(
                speed,
                r.whirl(),
                r.bearingPlay(),
                r.runOut(),
                r.offset(),
                r.tolerance(),
                r.thrustMovement(),
                r.segments());
    }

    /** A case with another rotor. */
    public static Case rotor(Case c, Rotor rotor) {
        return parts(c, rotor, c.cavities(), c.passages());
    }

    /** A case with one cavity changed. */
    public static Case cavity(Case c, String name, UnaryOperator<Cavity> change) {
        List<Cavity> out = new ArrayList<>();
        for (Cavity cavity : c.cavities()) {
            out.add(cavity.name().equals(name) ? change.apply(cavity) : cavity);
        }
        return parts(c, c.rotor(), List.copyOf(out), c.passages());
    }

    /** A case with one passage changed. */
    public static Case passage(Case c, String name, UnaryOperator<PassageSpec> change) {
        List<PassageSpec> out = new ArrayList<>();
        for (PassageSpec p : c.passages()) {
            out.add(p.name().equals(name) ? change.apply(p) : p);
        }
        return parts(c, c.rotor(), c.cavities(), List.copyOf(out));
    }

    /** A case with other rotor, cavities and passages; the rest is kept. */
    public static Case parts(Case c, Rotor rotor, List<Cavity> cavities, List<PassageSpec> passages) {
        return new Case(
                c.about(),
                c.surroundings(),
                rotor,
                c.streams(),
                cavities,
                passages,
                c.duty(),
                c.criteria(),
                c.extras());
    }

    /** Name of the field that holds the passage's clearance or gap; null when it has none. */
    public static String clearanceField(PassageSpec p) {
        if (!Double.isNaN(p.clearance())) {
            return "clearance";
        }
        for (String field : GAPS) {
            if (p.fields().get(field) instanceof Number) {
                return field;
            }
        }
        return null;
    }

    /** The clearance or gap, m; NaN when the passage has none. */
    public static double clearance(PassageSpec p) {
        String field = clearanceField(p);
        return field == null ? Double.NaN : "clearance".equals(field) ? p.clearance() : p.number(field, Double.NaN);
    }

    /** The passage with its clearance or gap at a value, m; unchanged when it has none. */
    public static PassageSpec open(PassageSpec p, double clearance) {
        String field = clearanceField(p);
        if (field == null) {
            return p;
        }
        Map<String, Object> fields = p.fields();
        if (fields.containsKey(field)) {
            fields = new LinkedHashMap<>(fields);
            fields.put(field, clearance);
        }
        return copy(
                p,
                "clearance".equals(field) ? clearance : p.clearance(),
                p.clearanceGrowth(),
                p.calibrationFactor(),
                p.closed(),
                fields);
    }

    /** The passage with other clearance, growth, factor, valve position and fields. */
    public static PassageSpec copy(
            PassageSpec p,
            double clearance,
            double growth,
            double calibration,
            boolean closed,
            Map<String, Object> fields) {
        return new PassageSpec(
                p.name(),
                p.from(),
                p.to(),
                p.type(),
                p.count(),
                p.radius(),
                clearance,
                p.wornClearance(),
                growth,
                calibration,
                p.stirring(),
                closed,
                fields);
    }
}
