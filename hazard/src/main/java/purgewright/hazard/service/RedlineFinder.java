package purgewright.hazard.service;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
import java.util.concurrent.Callable;
import purgewright.hazard.barrier.BarrierLayout;
import purgewright.hazard.criteria.Criteria;
import purgewright.hazard.criteria.Limit;
import purgewright.hazard.criteria.Setting;
import purgewright.hazard.fault.Edits;
import purgewright.hazard.service.DesignPoints.Edit;
import purgewright.hazard.sizing.Interlocks;
import purgewright.hazard.sizing.Redline;
import purgewright.sealflow.model.Case;
import purgewright.sealflow.model.Cavity;
import purgewright.sealflow.model.PassageSpec;
import purgewright.sealflow.model.Role;
import purgewright.sealflow.network.SolveResult.CavityState;
import purgewright.sealflow.network.SolveResult.Converged;
import purgewright.sealflow.network.SolveResult.PassageState;

/**
 * Redlines and interlocks of a design.
 *
 * <p>Where separation is lost is found, not assumed: the purge supply is lowered in steps, then by bisection, until the pressure across
 * some boundary seal of the barrier is gone; what barrier pressure, purge flow and drain temperatures read there are the physical
 * limits. A drain's pressure is lost where it reaches that of the barrier beside it in normal running, which is on the safe side, since
 * the barrier rises with the drain.
 */
final class RedlineFinder {
    private static final double TOLERANCE = 3e-3;

    private static final String FAILURE = "a sudden loss of the drain";

    private final DesignPoints points;
    private final Edit design;
    private final BarrierLayout layout;
    private final Criteria criteria;

    RedlineFinder(DesignPoints points, Edit design) {
        this.points = points;
        this.design = design;
        this.layout = points.layout;
        this.criteria = points.criteria;
    }

    /** How a reading is taken: from the case's instruments, else the criteria's defaults. */
    private record Reading(
            double uncertainty, double time, double persistence, int sensors, int votes, boolean stated) {}

    private Reading reading(String measures, String place, double value) {
        double stop = criteria.get(Limit.SHUTDOWN_TIME) + criteria.get(Limit.COAST_DOWN_TIME);
        double uncertainty =
                switch (measures) {
                    case "pressure" -> criteria.get(Limit.INSTRUMENT_UNCERTAINTY);
                    case "temperature" -> criteria.get(Limit.TEMPERATURE_UNCERTAINTY);
                    default -> criteria.get(Limit.FLOW_UNCERTAINTY) * Math.abs(value);
                };
        if (points.whole.extras().get("instruments") instanceof List<?> stated) {
            for (Object each : stated) {
                if (each instanceof Map<?, ?> m
                        && measures.equals(m.get("measures"))
                        && place.equals(m.get("flow".equals(measures) ? "passage" : "cavity"))) {
                    double persistence = number(m, "persistence", 1) / number(m, "sample rate", Double.NaN);
                    double lag = number(m, "lag", Double.NaN);
                    boolean timed = !Double.isNaN(persistence) || !Double.isNaN(lag);
                    double detect = timed
                            ? (Double.isNaN(persistence) ? 0 : persistence) + (Double.isNaN(lag) ? 0 : lag)
                            : criteria.get(Limit.DETECTION_TIME);
                    int sensors = (int) number(m, "sensors", 1);
                    return new Reading(
                            number(m, "uncertainty", uncertainty),
                            detect + stop,
                            persistence,
                            sensors,
                            (int) number(m, "votes", sensors >= 3 ? 2 : 1),
                            true);
                }
            }
        }
        return new Reading(uncertainty, criteria.get(Limit.DETECTION_TIME) + stop, Double.NaN, 1, 1, false);
    }

    private static double number(Map<?, ?> m, String key, double fallback) {
        return m.get(key) instanceof Number n ? n.doubleValue() : fallback;
    }

    /** Redlines over all phases; of each reading one, or as many as its phases need. */
    List<Redline> redlines() {
        // Phases that are alike in every number are solved once, and so is each lowered supply, whichever barrier asks.
        Map<Case, List<String>> alike = new LinkedHashMap<>();
        points.models.forEach((phase, model) -> alike.computeIfAbsent(
                        design.apply(phase, model, new double[0]), m -> new ArrayList<>())
                .add(phase));
        List<Callable<Map<String, Map<String, List<Redline>>>>> tasks = new ArrayList<>();
        alike.forEach((model, phases) -> tasks.add(() -> {
            Map<String, Map<String, List<Redline>>> found = new LinkedHashMap<>();
            if (points.points.solve(model, null) instanceof Converged solve) {
                Map<Double, Optional<Converged>> lowered = new HashMap<>();
                for (Set<String> unit : layout.units()) {
                    Converged lost = separated(model, solve, unit) ? atLoss(model, solve, unit, lowered) : null;
                    for (String phase : phases) {
                        unit(found.computeIfAbsent(phase, p -> new LinkedHashMap<>()), phase, model, solve, lost, unit);
                    }
                }
            }
            return found;
        }));
        Map<String, Map<String, List<Redline>>> byPhase = new HashMap<>();
        Pool.all(points.pool, tasks).forEach(byPhase::putAll);
        Map<String, List<Redline>> out = new LinkedHashMap<>();
        for (String phase : points.models.keySet()) {
            byPhase.getOrDefault(phase, Map.of())
                    .forEach((name, single) ->
                            out.computeIfAbsent(name, n -> new ArrayList<>()).addAll(single));
        }
        List<Redline> all = new ArrayList<>();
        out.values().forEach(single -> all.addAll(Redline.together(single)));
        return List.copyOf(all);
    }

    /** False without separation by flow: then there is nothing to guard with these readings. */
    private boolean separated(Case model, Converged solve, Set<String> unit) {
        return margin(model, solve, unit) > 0 && outflow(model, solve, unit) > 0;
    }

    /** @param lost where separation is lost; null when that was not found */
    private void unit(
            Map<String, List<Redline>> out,
            String phase,
            Case model,
            Converged solve,
            Converged lost,
            Set<String> unit) {
        if (!separated(model, solve, unit)) {
            return;
        }
        double flow = outflow(model, solve, unit);
        Set<String> stores = stores(model, unit);
        double mass = 0;
        String receiver = null;
        for (String name : stores) {
            Cavity c = model.cavity(name);
            CavityState state = solve.cavities().get(name);
            if (c != null && state != null && !Double.isNaN(c.volume())) {
                mass += c.volume() * state.state().density();
                if (!unit.contains(name)) {
                    receiver = name;
                }
            }
        }
        double tau = mass / flow;
        for (String name : unit) {
            CavityState c = solve.cavities().get(name);
            if (c == null) {
                continue;
            }
            double nominal = c.state().pressure();
            double physical = lost == null ? neighbour(model, solve, unit) : pressure(lost, name);
            Reading r = reading("pressure", name, nominal);
            keep(
                    out,
                    Redline.lowest(
                            "pressure of " + name,
                            "/cavities/" + name,
                            physical,
                            r.uncertainty(),
                            r.time(),
                            tau,
                            nominal,
                            phase,
                            "Pa",
                            help(solve, receiver, physical + r.uncertainty(), r, nominal, flow, mass)));
        }
        for (Map.Entry<String, Boolean> feed : layout.feeds().entrySet()) {
            PassageState p = solve.passages().get(feed.getKey());
            boolean into = p != null && (unit.contains(p.to()) || unit.contains(p.from()));
            if (!into) {
                continue;
            }
            double nominal = Math.abs(p.flow().massFlow());
            double physical = lost == null || lost.passages().get(feed.getKey()) == null
                    ? nominal * neighbour(model, solve, unit) / least(solve, unit)
                    : Math.abs(lost.passages().get(feed.getKey()).flow().massFlow());
            Reading r = reading("flow", feed.getKey(), nominal);
            keep(
                    out,
                    Redline.lowest(
                            "purge flow through " + feed.getKey(),
                            "/passages/" + feed.getKey(),
                            physical,
                            r.uncertainty(),
                            r.time(),
                            tau,
                            nominal,
                            phase,
                            "kg/s",
                            help(solve, receiver, physical + r.uncertainty(), r, nominal, flow, mass)));
        }
        drains(out, phase, model, solve, lost, unit, tau);
    }

    private void drains(
            Map<String, List<Redline>> out,
            String phase,
            Case model,
            Converged solve,
            Converged lost,
            Set<String> unit,
            double tau) {
        for (PassageSpec p : layout.boundary(model, unit)) {
            PassageState state = solve.passages().get(p.name());
            String drain = unit.contains(p.from()) ? p.to() : p.from();
            Cavity cavity = model.cavity(drain);
            CavityState here = solve.cavities().get(drain);
            if (state == null || cavity == null || cavity.fixed() || here == null) {
                continue;
            }
            double nominal = here.state().pressure();
            double limit = (unit.contains(p.from()) ? state.fromState() : state.toState()).pressure();
            Reading r = reading("pressure", drain, nominal);
            double inflow = 0;
            for (PassageState q : solve.passages().values()) {
                if (q.from().equals(drain) || q.to().equals(drain)) {
                    inflow += Math.max(0, -Setting.outflow(q, drain));
                }
            }
            // Filling at the present inflow: p rises in proportion to what is in it.
            double rate = Double.isNaN(cavity.volume())
                    ? Double.NaN
                    : nominal * inflow / (cavity.volume() * here.state().density());
            keep(
                    out,
                    Redline.highest(
                            "pressure of " + drain,
                            "/cavities/" + drain,
                            limit,
                            r.uncertainty(),
                            r.time(),
                            rate,
                            nominal,
                            phase,
                            "Pa",
                            FAILURE));
            keep(out, temperature(phase, drain, here, lost, tau));
        }
    }

    /** A drain warms where less cold purge dilutes hot gas; where it cools or stays, its temperature tells nothing in time. */
    private Redline temperature(String phase, String drain, CavityState here, Converged lost, double tau) {
        double nominal = here.state().temperature();
        Reading r = reading("temperature", drain, nominal);
        double physical = lost == null || lost.cavities().get(drain) == null
                ? Double.NaN
                : lost.cavities().get(drain).state().temperature();
        String name = "temperature of " + drain;
        String place = "/cavities/" + drain;
        if (Double.isNaN(physical)) {
            return Redline.none(
                    name,
                    place,
                    false,
                    physical,
                    r.uncertainty(),
                    r.time(),
                    nominal,
                    phase,
                    "K",
                    "the drain's temperature where separation is lost was not found");
        }
        if (!(physical - nominal > 2 * r.uncertainty())) {
            return Redline.none(
                    name,
                    place,
                    false,
                    physical,
                    r.uncertainty(),
                    r.time(),
                    nominal,
                    phase,
                    "K",
                    String.format(
                            Locale.ROOT,
                            "it would read %.4g K where separation is lost, against %.4g K in running: no rise that this"
                                    + " instrument tells in time",
                            physical,
                            nominal));
        }
        double rate = tau > 0 ? (physical - nominal) / tau : Double.POSITIVE_INFINITY;
        return Redline.highest(
                name,
                place,
                physical,
                r.uncertainty(),
                r.time(),
                rate,
                nominal,
                phase,
                "K",
                "a sudden loss of the purge");
    }

    /** How much receiver would make a lowest-allowed reading protect. */
    private String help(
            Converged solve, String receiver, double base, Reading r, double nominal, double flow, double mass) {
        double room = Math.log((nominal - r.uncertainty()) / base);
        if (!(room > 0)) {
            return "normal running is too close to where separation is lost";
        }
        double more = 1.05 * r.time() / room * flow - mass;
        if (receiver == null) {
            return "gas stored behind a check valve near the barrier would help";
        }
        double density = solve.cavities().get(receiver).state().density();
        return String.format(
                Locale.ROOT,
                "about %.2g L more in %s behind its check valve would do, or a faster stop",
                Math.max(0, more / density) * 1e3,
                receiver);
    }

    // --- where separation is lost
    // ---------------------------------------------------------------------------------------------

    /** Least pressure difference outward over the boundary, relative to the neighbour. */
    private double margin(Case model, Converged solve, Set<String> unit) {
        double least = Double.POSITIVE_INFINITY;
        for (PassageSpec p : layout.boundary(model, unit)) {
            PassageState state = solve.passages().get(p.name());
            if (state != null) {
                boolean from = unit.contains(p.from());
                double inside = (from ? state.fromState() : state.toState()).pressure();
                double outside = (from ? state.toState() : state.fromState()).pressure();
                least = Math.min(least, inside / outside - 1);
            }
        }
        return Double.isInfinite(least) ? Double.NaN : least;
    }

    /** The last solution with separation, when all purge supplies are lowered together; null when none was found. */
    private Converged atLoss(
            Case model, Converged running, Set<String> unit, Map<Double, Optional<Converged>> lowered) {
        double good = 1;
        double bad = Double.NaN;
        Converged last = running;
        for (double factor = 0.85; factor > 0.02 && Double.isNaN(bad); factor *= 0.85) {
            Converged c = solved(model, factor, last, lowered);
            if (c != null && margin(model, c, unit) > 0) {
                good = factor;
                last = c;
            } else {
                bad = factor;
            }
        }
        if (Double.isNaN(bad)) {
            return null;
        }
        while (good / bad - 1 > TOLERANCE) {
            double middle = Math.sqrt(good * bad);
            Converged c = solved(model, middle, last, lowered);
            if (c != null && margin(model, c, unit) > 0) {
                good = middle;
                last = c;
            } else {
                bad = middle;
            }
        }
        // A solve that gave up on the way is no loss of separation.
        return margin(model, last, unit) < 0.1 ? last : null;
    }

    /** @param known solutions by factor, null ones too; added to */
    private Converged solved(Case model, double factor, Converged guess, Map<Double, Optional<Converged>> known) {
        Optional<Converged> there = known.get(factor);
        if (there != null) {
            return there.orElse(null);
        }
        Case low = model;
        for (String source : layout.sources()) {
            low = Edits.cavity(low, source, c -> c.fixed() ? Edits.pressure(c, c.pressure() * factor) : c);
        }
        // Beside a solution the way from it alone is tried first: a start from nothing costs ten of them.
        Converged found = points.points.solveNear(low, List.of(guess)) instanceof Converged near
                ? near
                : points.points.solve(low, null) instanceof Converged c ? c : null;
        known.put(factor, Optional.ofNullable(found));
        return found;
    }

    private double neighbour(Case model, Converged solve, Set<String> unit) {
        double most = 0;
        for (PassageSpec p : layout.boundary(model, unit)) {
            PassageState state = solve.passages().get(p.name());
            if (state != null) {
                most = Math.max(most, (unit.contains(p.from()) ? state.toState() : state.fromState()).pressure());
            }
        }
        return most;
    }

    private double outflow(Case model, Converged solve, Set<String> unit) {
        double flow = 0;
        for (PassageSpec p : layout.boundary(model, unit)) {
            PassageState state = solve.passages().get(p.name());
            if (state != null) {
                flow += Setting.outflow(state, unit.contains(p.from()) ? p.from() : p.to());
            }
        }
        return flow;
    }

    private static double least(Converged solve, Set<String> unit) {
        double least = Double.POSITIVE_INFINITY;
        for (String name : unit) {
            least = Math.min(least, pressure(solve, name));
        }
        return least;
    }

    private static double pressure(Converged solve, String name) {
        CavityState c = solve.cavities().get(name);
        return c == null ? Double.NaN : c.state().pressure();
    }

    /** Solved inert-fed cavities on the unit's side of its closed valves. */
    private Set<String> stores(Case model, Set<String> unit) {
        Set<String> out = new TreeSet<>(unit);
        boolean grown = true;
        while (grown) {
            grown = false;
            for (PassageSpec p : model.passages()) {
                if (layout.feeds().containsKey(p.name())
                        && !p.closed()
                        && out.contains(p.from()) != out.contains(p.to())) {
                    String next = out.contains(p.from()) ? p.to() : p.from();
                    Cavity c = model.cavity(next);
                    grown |= c != null && !c.fixed() && out.add(next);
                }
            }
        }
        return out;
    }

    /** Of the seals to one drain in one phase the one that decides. */
    private static void keep(Map<String, List<Redline>> out, Redline r) {
        List<Redline> phases = out.computeIfAbsent(r.name(), n -> new ArrayList<>());
        for (int i = 0; i < phases.size(); i++) {
            Redline there = phases.get(i);
            if (there.phase().equals(r.phase())) {
                boolean closer = Math.abs(r.nominal() - r.physical()) < Math.abs(there.nominal() - there.physical());
                phases.set(i, closer ? r : there);
                return;
            }
        }
        phases.add(r);
    }

    // --- interlocks
    // -----------------------------------------------------------------------------------------------------------

    /** The table for the test procedure. */
    Interlocks interlocks(List<Redline> redlines) {
        List<Interlocks.Row> rows = new ArrayList<>();
        for (Redline r : redlines) {
            boolean any = r.usable() || !Double.isNaN(r.slowSetting());
            if (!any) {
                continue;
            }
            String measures = r.name().substring(0, r.name().indexOf(' '));
            String place = r.place().substring(r.place().lastIndexOf('/') + 1);
            Reading reading = reading("purge".equals(measures) ? "flow" : measures, place, r.nominal());
            double value = r.usable() ? r.redline() : r.slowSetting();
            double permit = r.lowest() ? value + r.uncertainty() : value - r.uncertainty();
            boolean reachable = r.lowest() ? permit <= r.nominal() : permit >= r.nominal();
            boolean drain = !r.lowest();
            rows.add(new Interlocks.Row(
                    r.name(),
                    r.place(),
                    r.lowest(),
                    reachable ? permit : value,
                    value,
                    !r.usable(),
                    r.unit(),
                    drain ? criteria.get(Limit.SHUTDOWN_TIME) : 0,
                    reading.persistence(),
                    reading.sensors(),
                    reading.votes(),
                    r.phases(),
                    (reachable
                                    ? "permit one uncertainty inside the redline"
                                    : "permit at the redline itself: normal running leaves no room for more")
                            + (drain
                                    ? "; not armed while the start goes through, as drains swing then"
                                    : "; armed from the permit on")
                            + (reading.sensors() < 3
                                    ? "; with " + reading.sensors() + " of " + reading.sensors()
                                            + " sensors one failure of a sensor stops the run or blinds it"
                                    : "")));
        }
        return new Interlocks(rows, start(), stop(), notes());
    }

    private List<String> start() {
        List<String> out = new ArrayList<>();
        out.add("Open the drains and vents; see that none is blocked: drain pressures at the surroundings.");
        out.add("Purge on, before any cold or hot fluid is led in: " + String.join(", ", layout.sources()) + ".");
        out.add(
                "Wait for the permits of barrier pressure and purge flow; the redlines on them are armed from here on.");
        out.add("Chill-down with the purge on.");
        out.add("Permits of all readings again; start; the redlines on drains are armed after their blank-out.");
        return out;
    }

    private List<String> stop() {
        List<String> out = new ArrayList<>();
        out.add("Shut the drive gas, then the feed; the purge stays on.");
        out.add(String.format(
                Locale.ROOT,
                "Wait until the rotor stands: %.3g s after the valves are shut.",
                criteria.get(Limit.COAST_DOWN_TIME)));
        out.add("Purge on until the cavities are drained and the hardware is at the surroundings' temperature.");
        out.add("Purge off last.");
        return out;
    }

    private List<String> notes() {
        List<String> out = new ArrayList<>();
        out.add(
                "Purge on until the hardware is at ambient temperature: NASA SP-8121, sections 2.1.7-2.1.9, 3.1.7-3.1.9, pp. 14-15,"
                        + " 104-105 [published, transcription].");
        out.add(
                "A permit one uncertainty inside the redline: on a flown oxidizer pump 5 psi (34.5 kPa) lie between the two, 175 and"
                        + " 170 psia, 164 and 159 psia [published, second hand].");
        out.add(
                "Three sensors of which two must agree lose neither the run nor the protection to one failed sensor [common practice].");
        for (Map.Entry<String, Case> e : points.models.entrySet()) {
            Case model = design.apply(e.getKey(), e.getValue(), new double[0]);
            if (points.points.solve(model, null) instanceof Converged c
                    && !(Purge.flow(model, c, layout) > 0)
                    && wet(model)) {
                out.add("Phase " + e.getKey()
                        + " has no purge flow while a working fluid is in the machine: look at its verdict.");
            }
        }
        return out;
    }

    private static boolean wet(Case model) {
        return model.cavities().stream()
                .anyMatch(c ->
                        c.fixed() && (c.role() == Role.OXIDIZER || c.role() == Role.FUEL || c.role() == Role.HOT_GAS));
    }
}
