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
import purgewright.sealflow.model.CaseValue;
import purgewright.sealflow.model.Cavity;
import purgewright.sealflow.model.PassageSpec;
import purgewright.sealflow.model.Rotor;
import purgewright.sealflow.passage.PassageTypes;

/** Small changes of a case; each gives a new one. */
public final class Edits {
    private Edits() {}

    /** A case with other rotor, streams, cavities and passages; the rest is kept. */
    static Case with(
            Case c, Rotor rotor, List<StreamDefinition> streams, List<Cavity> cavities, List<PassageSpec> passages) {
        return new Case(
                c.about(), c.surroundings(), rotor, streams, cavities, passages, c.duty(), c.criteria(), c.extras());
    }

    /** A case with other passages. */
    public static Case passages(Case c, Predicate<PassageSpec> which, UnaryOperator<PassageSpec> change) {
        List<PassageSpec> out = new ArrayList<>();
        for (PassageSpec p : c.passages()) {
            out.add(which.test(p) ? change.apply(p) : p);
        }
        return with(c, c.rotor(), c.streams(), c.cavities(), List.copyOf(out));
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
        return with(c, c.rotor(), c.streams(), List.copyOf(out), c.passages());
    }

    /** A case with another rotor. */
    public static Case rotor(Case c, Rotor rotor) {
        return with(c, rotor, c.streams(), c.cavities(), c.passages());
    }

    /** A case with one stream replaced. */
    public static Case stream(Case c, String name, StreamDefinition replacement) {
        List<StreamDefinition> out = new ArrayList<>();
        for (StreamDefinition s : c.streams()) {
            out.add(s.name().equals(name) ? replacement : s);
        }
        return with(c, c.rotor(), List.copyOf(out), c.cavities(), c.passages());
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

    /** The rotor at rest and cold: no growth of any segment. */
    public static Rotor coldAndStill(Rotor r) {
        return new Rotor(
                0, r.whirl(), r.bearingPlay(), r.runOut(), r.offset(), r.tolerance(), r.thrustMovement(), List.of());
    }

    /** The cavity no longer held at a pressure: it is solved for. */
    public static Cavity released(Cavity c) {
        return new Cavity(
                c.name(),
                c.role(),
                null,
                Double.NaN,
                Double.NaN,
                c.volume(),
                c.radius(),
                c.swirlRatio(),
                c.disc(),
                c.wall(),
                c.circumferentialVariation());
    }

    /** The passage with its flow multiplied. */
    public static PassageSpec scaled(PassageSpec p, double factor) {
        return copy(p, p.clearance(), p.clearanceGrowth(), p.calibrationFactor() * factor, p.closed(), p.fields());
    }

    private static PassageSpec copy(
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

    /** The cavity with a stated core swirl over rotor speed. */
    public static Cavity swirl(Cavity c, double ratio) {
        return new Cavity(
                c.name(),
                c.role(),
                c.stream(),
                c.pressure(),
                c.temperature(),
                c.volume(),
                c.radius(),
                ratio,
                c.disc(),
                c.wall(),
                c.circumferentialVariation());
    }

    /** The cavity with another temperature, K. */
    public static Cavity temperature(Cavity c, double temperature) {
        return new Cavity(
                c.name(),
                c.role(),
                c.stream(),
                c.pressure(),
                temperature,
                c.volume(),
                c.radius(),
                c.swirlRatio(),
                c.disc(),
                c.wall(),
                c.circumferentialVariation());
    }

    /** The passage shut. */
    public static PassageSpec closed(PassageSpec p) {
        return copy(p, p.clearance(), p.clearanceGrowth(), p.calibrationFactor(), true, p.fields());
    }

    /** The passage open. */
    public static PassageSpec opened(PassageSpec p) {
        return copy(p, p.clearance(), p.clearanceGrowth(), p.calibrationFactor(), false, p.fields());
    }

    /** The passage with another cold clearance, m. */
    public static PassageSpec clearance(PassageSpec p, double clearance) {
        Map<String, Object> fields = p.fields();
        if (fields.containsKey("clearance")) {
            fields = new LinkedHashMap<>(fields);
            fields.put("clearance", clearance);
        }
        return copy(p, clearance, p.clearanceGrowth(), p.calibrationFactor(), p.closed(), fields);
    }

    /** The passage without growth from cold to running. */
    public static PassageSpec withoutGrowth(PassageSpec p) {
        return copy(p, p.clearance(), 0, p.calibrationFactor(), p.closed(), p.fields());
    }

    /** The passage with one of its type's own fields set. */
    public static PassageSpec field(PassageSpec p, String field, Object value) {
        Map<String, Object> fields = new LinkedHashMap<>(p.fields());
        fields.put(field, value);
        return copy(p, p.clearance(), p.clearanceGrowth(), p.calibrationFactor(), p.closed(), fields);
    }

    /** True when the case states a clearance or gap that opens the passage; one that forces set again does not. */
    public static boolean opens(PassageSpec p) {
        return !Double.isNaN(clearanceOf(p)) && !PassageTypes.are(p, t -> t.balances(p));
    }

    /**
     * The passage with its opening a factor as wide: its clearance or gap; where the case states none that opens it,
     * {@code flow x factor^n}, n as its type says (laminar film 3).
     */
    public static PassageSpec wider(PassageSpec p, double factor) {
        return opens(p) ? open(p, clearanceOf(p) * factor) : scaled(p, flowFactor(p, factor));
    }

    /** By what the flow of a seal without a gap in the case grows when its opening is a factor as wide. */
    static double flowFactor(PassageSpec p, double factor) {
        return Math.pow(
                factor, PassageTypes.find(p.type()).map(t -> t.growth(p)).orElse(3.0));
    }

    /** The seal failed open: as its type says, else its opening a factor as wide. */
    static PassageSpec failedOpen(PassageSpec p, double factor) {
        PassageSpec own = ownFailedOpen(p, factor);
        return own == null ? wider(p, factor) : own;
    }

    /** True when a clearance or gap in the case, a factor as wide, is the seal failed open. */
    static boolean opensByGap(PassageSpec p) {
        return opens(p) && ownFailedOpen(p, 1) == null;
    }

    private static PassageSpec ownFailedOpen(PassageSpec p, double factor) {
        return PassageTypes.find(p.type()).map(t -> t.failedOpen(p, factor)).orElse(null);
    }

    /** The clearance or gap, m; NaN when the passage has none. */
    public static double clearanceOf(PassageSpec p) {
        return CaseValue.clearance(p);
    }

    /** The passage with its clearance or gap at a value, m; unchanged when it has none. */
    public static PassageSpec open(PassageSpec p, double clearance) {
        return CaseValue.open(p, clearance);
    }

    /** All seals named opened by a factor. */
    public static Case opened(Case c, Set<String> names, double factor) {
        return passages(c, p -> names.contains(p.name()), p -> wider(p, factor));
    }
}
