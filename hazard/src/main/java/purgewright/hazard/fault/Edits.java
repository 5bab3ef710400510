package purgewright.hazard.fault;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.function.Predicate;
import java.util.function.UnaryOperator;
import purgewright.fluids.mixture.StreamDefinition;
import purgewright.sealflow.model.Case;
import purgewright.sealflow.model.Cavity;
import purgewright.sealflow.model.PassageSpec;
import purgewright.sealflow.model.Rotor;

/** Small changes of a case; each gives a new one. */
public final class Edits {
    /** Fields that play the part of a clearance in types that have none, in the order they are looked for. */
    private static final List<String> GAP_FIELDS = List.of("gap", "pad gap", "effective clearance", "dam gap");

    private Edits() {}

    /** A case with other passages. */
    public static Case passages(Case c, Predicate<PassageSpec> which, UnaryOperator<PassageSpec> change) {
        List<PassageSpec> out = new ArrayList<>();
        for (PassageSpec p : c.passages()) {
            out.add(which.test(p) ? change.apply(p) : p);
        }
        return new Case(
                c.about(),
                c.surroundings(),
                c.rotor(),
                c.streams(),
                c.cavities(),
                List.copyOf(out),
                c.duty(),
                c.criteria(),
                c.extras());
    }

    /** A case with one passage changed. */
    public static Case passage(Case c, String name, UnaryOperator<PassageSpec> change) {
        return passages(c, p -> p.name().equals(name), change);
    }

    /** A case with one cavity changed. */
    public static Case cavity(Case c, String name, UnaryOperator<Cavity> change) {
        List<Cavity> out = new ArrayList<>();
        for (Cavity cavity : c.cavities()) {
            out.add(cavity.name().equals(name) ? change.apply(cavity) : cavity);
        }
        return new Case(
                c.about(),
                c.surroundings(),
                c.rotor(),
                c.streams(),
                List.copyOf(out),
                c.passages(),
                c.duty(),
                c.criteria(),
                c.extras());
    }

    /** A case with another rotor. */
    public static Case rotor(Case c, Rotor rotor) {
        return new Case(
                c.about(),
                c.surroundings(),
                rotor,
                c.streams(),
                c.cavities(),
                c.passages(),
                c.duty(),
                c.criteria(),
                c.extras());
    }

    /** A case with one stream replaced. */
    public static Case stream(Case c, String name, StreamDefinition replacement) {
        List<StreamDefinition> out = new ArrayList<>();
        for (StreamDefinition s : c.streams()) {
            out.add(s.name().equals(name) ? replacement : s);
        }
        return new Case(
                c.about(),
                c.surroundings(),
                c.rotor(),
                List.copyOf(out),
                c.cavities(),
                c.passages(),
                c.duty(),
                c.criteria(),
                c.extras());
    }

    /** The cavity with another pressure, Pa. */
    public static Cavity pressure(Cavity c, double pressure) {
        return new Cavity(
                c.name(),
                c.role(),
                c.stream(),
                pressure,
                c.temperature(),
                c.volume(),
                c.radius(),
                c.swirlRatio(),
                c.disc(),
                c.wall(),
                c.circumferentialVariation());
    }

    /** The passage shut. */
    public static PassageSpec closed(PassageSpec p) {
        return new PassageSpec(
                p.name(),
                p.from(),
                p.to(),
                p.type(),
                p.count(),
                p.radius(),
                p.clearance(),
                p.wornClearance(),
                p.clearanceGrowth(),
                p.calibrationFactor(),
                p.stirring(),
                true,
                p.fields());
    }

    /** The passage with another cold clearance, m. */
    public static PassageSpec clearance(PassageSpec p, double clearance) {
        Map<String, Object> fields = p.fields();
        if (fields.containsKey("clearance")) {
            fields = new LinkedHashMap<>(fields);
            fields.put("clearance", clearance);
        }
        return new PassageSpec(
                p.name(),
                p.from(),
                p.to(),
                p.type(),
                p.count(),
                p.radius(),
                clearance,
                p.wornClearance(),
                p.clearanceGrowth(),
                p.calibrationFactor(),
                p.stirring(),
                p.closed(),
                fields);
    }

    /** The passage without growth from cold to running. */
    public static PassageSpec withoutGrowth(PassageSpec p) {
        return new PassageSpec(
                p.name(),
                p.from(),
                p.to(),
                p.type(),
                p.count(),
                p.radius(),
                p.clearance(),
                p.wornClearance(),
                0,
                p.calibrationFactor(),
                p.stirring(),
                p.closed(),
                p.fields());
    }

    /** The passage with one of its type's own fields set. */
    public static PassageSpec field(PassageSpec p, String field, Object value) {
        Map<String, Object> fields = new LinkedHashMap<>(p.fields());
        fields.put(field, value);
        return new PassageSpec(
                p.name(),
                p.from(),
                p.to(),
                p.type(),
                p.count(),
                p.radius(),
                p.clearance(),
                p.wornClearance(),
                p.clearanceGrowth(),
                p.calibrationFactor(),
                p.stirring(),
                p.closed(),
                fields);
    }

    /** True when the passage has a clearance or gap that can open. */
    public static boolean opens(PassageSpec p) {
        return !Double.isNaN(p.clearance()) || gapField(p) != null;
    }

    /** The clearance or gap, m; NaN when the passage has none. */
    public static double clearanceOf(PassageSpec p) {
        if (!Double.isNaN(p.clearance())) {
            return p.clearance();
        }
        String gap = gapField(p);
        return gap == null ? Double.NaN : p.number(gap, Double.NaN);
    }

    /** The passage with its clearance or gap at a value, m; unchanged when it has none. */
    public static PassageSpec open(PassageSpec p, double clearance) {
        if (!Double.isNaN(p.clearance())) {
            return clearance(p, clearance);
        }
        String gap = gapField(p);
        return gap == null ? p : field(p, gap, clearance);
    }

    private static String gapField(PassageSpec p) {
        for (String field : GAP_FIELDS) {
            if (p.fields().get(field) instanceof Number) {
                return field;
            }
        }
        return null;
    }

    /** All passages named opened by a factor. */
    public static Case opened(Case c, Set<String> names, double factor) {
        return passages(c, p -> names.contains(p.name()) && opens(p), p -> open(p, clearanceOf(p) * factor));
    }
}
