package purgewright.hazard.fault;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.function.UnaryOperator;
import purgewright.fluids.Engines;
import purgewright.fluids.FluidState;
import purgewright.fluids.mixture.StreamDefinition;
import purgewright.fluids.unit.Dimension;
import purgewright.fluids.unit.UnitSystem;
import purgewright.fluids.unit.Units;
import purgewright.hazard.barrier.BarrierLayout;
import purgewright.hazard.criteria.Criteria;
import purgewright.hazard.criteria.Limit;
import purgewright.hazard.fault.Fault.Kind;
import purgewright.sealflow.model.Case;
import purgewright.sealflow.model.Cavity;
import purgewright.sealflow.model.PassageSpec;
import purgewright.sealflow.model.Role;
import purgewright.sealflow.model.Supply;
import purgewright.sealflow.passage.PassageType;
import purgewright.sealflow.passage.PassageType.SealKind;
import purgewright.sealflow.passage.PassageTypes;
import purgewright.sealflow.supply.FailedOpen;

/** The single faults of a case, automatic and stated, in a fixed order: passages, supply, rotor, boundaries, then the case's own. */
public final class Faults {
    private Faults() {}

    /** Kind of seal a passage's type is; a duct when the type is not known. */
    public static SealKind kind(PassageSpec p) {
        return PassageTypes.find(p.type()).map(t -> t.kind()).orElse(SealKind.DUCT);
    }

    /** Automatic single faults. */
    public static List<Fault> automatic(Case model, BarrierLayout layout, Criteria criteria) {
        List<Fault> out = new ArrayList<>();
        for (PassageSpec p : model.passages()) {
            passage(out, model, criteria, p);
        }
        for (String source : layout.sources()) {
            source(out, model, layout, criteria, source);
        }
        if (model.rotor().speed() > 0) {
            double factor = 1 + criteria.get(Limit.OVERSPEED);
            add(
                    out,
                    "overspeed",
                    Kind.OVERSPEED,
                    "/rotor",
                    c -> Edits.rotor(c, Edits.speed(c.rotor(), c.rotor().speed() * factor)));
            add(
                    out,
                    "standing still with cold clearances",
                    Kind.STANDSTILL,
                    "/rotor",
                    c -> Edits.passages(
                            Edits.rotor(c, Edits.coldAndStill(c.rotor())), p -> true, Edits::withoutGrowth));
        }
        for (Cavity c : model.cavities()) {
            if (c.fixed() && !layout.sources().contains(c.name())) {
                double factor = 1 + criteria.get(Limit.BOUNDARY_EXCESS);
                add(
                        out,
                        "pressure high: " + c.name(),
                        Kind.BOUNDARY_HIGH,
                        "/cavities/" + c.name(),
                        k -> Edits.cavity(k, c.name(), x -> x.fixed() ? Edits.pressure(x, x.pressure() * factor) : x));
            }
        }
        return out;
    }

    private static void passage(List<Fault> out, Case model, Criteria criteria, PassageSpec p) {
        String place = "/passages/" + p.name();
        SealKind kind = kind(p);
        if (p.closed()) {
            add(out, "open: " + p.name(), Kind.VALVE_OPEN, place, c -> Edits.passage(c, p.name(), Edits::opened));
            return;
        }
        if (Edits.opens(p) || kind != SealKind.DUCT) {
            double factor = criteria.get(Limit.CLEARANCE_FACTOR);
            double worn = !Edits.opens(p)
                    ? Double.NaN
                    : !Double.isNaN(p.wornClearance()) ? p.wornClearance() : Edits.clearanceOf(p) * factor;
            add(
                    out,
                    "worn: " + p.name(),
                    Kind.WORN,
                    place,
                    c -> Edits.passage(
                            c, p.name(), x -> Double.isNaN(worn) ? Edits.wider(x, factor) : Edits.open(x, worn)));
        }
        if (kind != SealKind.DUCT) {
            double factor = criteria.get(Limit.FAILED_OPEN_FACTOR);
            double gone = Edits.opensByGap(p) ? Edits.clearanceOf(p) * factor : Double.NaN;
            double capacity = criteria.get(Limit.DRAIN_CAPACITY);
            add(
                    out,
                    "failed open: " + p.name(),
                    Kind.FAILED_OPEN,
                    place,
                    c -> Edits.passages(
                            Edits.passage(
                                    c,
                                    p.name(),
                                    x -> Double.isNaN(gone) ? Edits.failedOpen(x, factor) : Edits.open(x, gone)),
                            x -> drain(c, x),
                            x -> Edits.scaled(x, capacity)));
            return;
        }
        if (drain(model, p)) {
            add(out, "blocked: " + p.name(), Kind.DRAIN_BLOCKED, place, c -> Edits.passage(c, p.name(), Edits::closed));
            if (PassageTypes.are(p, PassageType::pipe)) {
                add(
                        out,
                        "broken: " + p.name(),
                        Kind.DRAIN_BROKEN,
                        place,
                        c -> Edits.passage(c, p.name(), Faults::broken));
            }
            return;
        }
        add(out, "plugged or shut: " + p.name(), Kind.PLUGGED, place, c -> Edits.passage(c, p.name(), Edits::closed));
        if (PassageTypes.are(p, PassageType::checks)) {
            double leak = criteria.get(Limit.CHECK_VALVE_LEAK);
            add(
                    out,
                    "leaking: " + p.name(),
                    Kind.CHECK_VALVE,
                    place,
                    c -> Edits.passage(
                            c,
                            p.name(),
                            x -> Edits.field(x, "reverse leak", Math.max(leak, x.number("reverse leak", 0)))));
            add(
                    out,
                    "stuck open: " + p.name(),
                    Kind.CHECK_VALVE,
                    place,
                    c -> Edits.passage(c, p.name(), x -> Edits.field(x, "reverse leak", 1.0)));
        }
    }

    /** How the sweep opens the seals that state no gap for it, each by name; one line, or none. */
    public static List<String> openedWithoutGap(Case model, Criteria criteria) {
        double worn = criteria.get(Limit.CLEARANCE_FACTOR);
        double failed = criteria.get(Limit.FAILED_OPEN_FACTOR);
        List<String> parts = new ArrayList<>();
        for (PassageSpec p : model.passages()) {
            if (kind(p) == SealKind.DUCT || p.closed() || Edits.opensByGap(p)) {
                continue;
            }
            double gap = Edits.clearanceOf(Edits.failedOpen(p, failed));
            parts.add(p.name()
                    + (Edits.opens(p) ? ": " : ": worn " + times(Edits.flowFactor(p, worn)) + ", ")
                    + "failed open "
                    + (Double.isNaN(gap)
                            ? times(Edits.flowFactor(p, failed))
                            : "a gap of " + Units.format(gap, Dimension.LENGTH, UnitSystem.SI, 3)));
        }
        return parts.isEmpty()
                ? List.of()
                : List.of("Seals whose case states no gap that opens them fail by a convention [invented]: "
                        + String.join("; ", parts) + ".");
    }

    private static String times(double factor) {
        return String.format(Locale.ROOT, factor < 100 ? "%.3g times the flow" : "%.0f times the flow", factor);
    }

    /** A line that ends one diameter from the drain, with the loss of a torn end. */
    private static PassageSpec broken(PassageSpec p) {
        PassageSpec cut = Edits.field(p, "length", p.number("diameter", p.number("length", 0)));
        return Edits.field(Edits.field(cut, "loss coefficient", 1.0), "elevation", 0.0);
    }

    /** A duct between a solved drain and a vent. */
    private static boolean drain(Case model, PassageSpec p) {
        Cavity from = model.cavity(p.from());
        Cavity to = model.cavity(p.to());
        return kind(p) == SealKind.DUCT
                && from != null
                && to != null
                && ((from.role() == Role.DRAIN && to.role() == Role.VENT)
                        || (to.role() == Role.DRAIN && from.role() == Role.VENT)
                        || (from.role() == Role.DRAIN && to.fixed())
                        || (to.role() == Role.DRAIN && from.fixed() && from.role() != Role.SUPPLY));
    }

    private static void source(List<Fault> out, Case model, BarrierLayout layout, Criteria criteria, String source) {
        String place = "/cavities/" + source;
        double low = 1 - criteria.get(Limit.SUPPLY_LOW);
        add(
                out,
                "regulator low: " + source,
                Kind.SUPPLY_LOW,
                place,
                c -> Edits.cavity(c, source, x -> Edits.pressure(x, x.pressure() * low)));
        add(
                out,
                "regulator failed open: " + source,
                Kind.SUPPLY_HIGH,
                place,
                c -> Edits.cavity(c, source, x -> Edits.pressure(x, failedOpen(c, x, criteria))));
        add(
                out,
                "bottle empty: " + source,
                Kind.SUPPLY_EMPTY,
                place,
                c -> Edits.cavity(
                        c, source, x -> Edits.pressure(x, c.surroundings().pressure())));
        double bias = criteria.get(Limit.INSTRUMENT_UNCERTAINTY);
        add(
                out,
                "sensor biased: " + source,
                Kind.SENSOR_BIASED,
                place,
                c -> Edits.cavity(
                        c,
                        source,
                        x -> Edits.pressure(
                                x,
                                Math.max(x.pressure() - bias, c.surroundings().pressure()))));
        Set<String> users = new LinkedHashSet<>();
        for (PassageSpec p : model.passages()) {
            if (layout.feeds().containsKey(p.name()) && BarrierLayout.other(p, source) != null) {
                users.add(p.name());
            }
        }
        if (users.size() > 1) {
            add(
                    out,
                    "manifold cross-feeding: " + source,
                    Kind.CROSS_FEED,
                    place,
                    c -> Edits.passages(
                            Edits.cavity(c, source, Edits::released),
                            p -> users.contains(p.name()) && PassageTypes.are(p, PassageType::checks),
                            p -> Edits.field(p, "reverse leak", 1.0)));
        }
        String stream = model.cavity(source).stream();
        for (StreamDefinition s : model.streams()) {
            if (s.name().equals(stream) && s instanceof StreamDefinition.Single single) {
                String wrong = "nitrogen".equals(single.fluid().toLowerCase(Locale.ROOT)) ? "argon" : "nitrogen";
                add(
                        out,
                        "wrong gas: " + wrong + " as " + stream,
                        Kind.WRONG_GAS,
                        "/streams/" + stream,
                        c -> Edits.stream(c, stream, new StreamDefinition.Single(stream, wrong)));
            }
        }
    }

    private static double failedOpen(Case c, Cavity source, Criteria criteria) {
        Supply supply = c.supply();
        if (supply != null && source.name().equals(supply.cavity())) {
            double before = beforeRegulator(supply);
            Supply.Regulator r = supply.regulator();
            if (r != null && !Double.isNaN(r.reliefPressure())) {
                double relieved = relieved(c, supply, before);
                return Math.max(source.pressure(), Double.isNaN(before) ? relieved : Math.min(before, relieved));
            }
            if (!Double.isNaN(before)) {
                return Math.max(source.pressure(), before);
            }
        }
        return source.pressure() * (1 + criteria.get(Limit.SUPPLY_HIGH));
    }

    /** The highest pressure that may stand before the regulator: of full bottles, the main or the tank; NaN when none is stated. */
    private static double beforeRegulator(Supply supply) {
        double highest = Double.NaN;
        if (supply.bottles() != null) {
            highest = supply.bottles().fillingPressure();
        }
        if (supply.plant() != null && !(supply.plant().pressure() <= highest)) {
            highest = supply.plant().pressure();
        }
        if (supply.liquid() != null && !(supply.liquid().pressure() <= highest)) {
            highest = supply.liquid().pressure();
        }
        return highest;
    }

    /**
     * Pressure behind a regulator that stands open, of full bottles, main or tank: what the relief valve cannot pass raises it above the
     * valve's own pressure. Without the diameters nobody can say how far, and the valve is taken to hold it where it is full open, 10 % above
     * its pressure [common practice]. No purge is counted: it would only lower it.
     */
    private static double relieved(Case c, Supply supply, double before) {
        Supply.Regulator r = supply.regulator();
        double fullOpen = FailedOpen.FULL_OPEN * r.reliefPressure();
        if (Double.isNaN(before) || Double.isNaN(r.openDiameter()) || Double.isNaN(r.reliefDiameter())) {
            return fullOpen;
        }
        for (StreamDefinition s : c.streams()) {
            if (s.name().equals(supply.gas()) && s instanceof StreamDefinition.Single single) {
                FluidState gas = Engines.embedded()
                        .pure(single.fluid())
                        .atPressureTemperature(
                                before,
                                supply.bottles() != null
                                        ? supply.bottles().temperature()
                                        : c.surroundings().temperature());
                return new FailedOpen(r.openDiameter(), r.reliefDiameter(), r.reliefPressure())
                        .pressure(gas, c.surroundings().pressure(), p -> 0);
            }
        }
        return fullOpen;
    }

    /** Faults stated in the case's {@code faults} section, as the reader has put them. */
    public static List<Fault> stated(Case model) {
        List<Fault> out = new ArrayList<>();
        for (Object each : list(section(model).get("extra"))) {
            Map<?, ?> fault = each instanceof Map<?, ?> m ? m : Map.of();
            String name = String.valueOf(fault.get("name"));
            Set<String> open = words(fault.get("open"));
            Set<String> closed = words(fault.get("closed"));
            Map<String, String> set = new LinkedHashMap<>();
            if (fault.get("set") instanceof Map<?, ?> values) {
                values.forEach((k, v) -> set.put(String.valueOf(k), String.valueOf(v)));
            }
            out.add(new Fault(
                    name,
                    Kind.USER,
                    "/faults/" + name,
                    !Boolean.FALSE.equals(fault.get("credible")),
                    fault.get("common cause") instanceof String s ? s : "",
                    set,
                    c -> Edits.passages(
                            Edits.passages(c, p -> open.contains(p.name()), Edits::opened),
                            p -> closed.contains(p.name()),
                            Edits::closed)));
        }
        return out;
    }

    /** All single faults that the case wants looked at, in order; those it excludes by name left out. */
    public static List<Fault> of(Case model, BarrierLayout layout, Criteria criteria) {
        Map<String, Object> section = section(model);
        List<Fault> out = new ArrayList<>();
        if (!Boolean.FALSE.equals(section.get("automatic"))) {
            out.addAll(automatic(model, layout, criteria));
        }
        out.addAll(stated(model));
        Set<String> exclude = words(section.get("exclude"));
        out.removeIf(f -> exclude.contains(f.name()));
        return out;
    }

    /** True when the case asks for all pairs. */
    public static boolean pairs(Case model) {
        return Boolean.TRUE.equals(section(model).get("pairs"));
    }

    private static Map<String, Object> section(Case model) {
        Map<String, Object> out = new LinkedHashMap<>();
        if (model.extras().get("faults") instanceof Map<?, ?> map) {
            map.forEach((k, v) -> out.put(String.valueOf(k), v));
        }
        return out;
    }

    private static List<?> list(Object value) {
        return value instanceof List<?> l ? l : List.of();
    }

    private static Set<String> words(Object value) {
        Set<String> out = new LinkedHashSet<>();
        list(value).forEach(v -> out.add(String.valueOf(v)));
        return out;
    }

    private static void add(List<Fault> out, String name, Kind kind, String place, UnaryOperator<Case> change) {
        out.add(new Fault(name, kind, place, true, "", Map.of(), change));
    }
}
