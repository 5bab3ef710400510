package purgewright.hazard.service;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.concurrent.CancellationException;
import purgewright.fluids.PropertyException;
import purgewright.hazard.barrier.BarrierCount;
import purgewright.hazard.barrier.Pair;
import purgewright.hazard.criteria.Criteria;
import purgewright.hazard.criteria.Limit;
import purgewright.hazard.criteria.Setting;
import purgewright.hazard.fault.Fault.Kind;
import purgewright.hazard.fault.Instrument;
import purgewright.hazard.fault.Loss;
import purgewright.hazard.fault.Scenario;
import purgewright.hazard.service.PhaseSolve.Point;
import purgewright.sealflow.model.Case;
import purgewright.sealflow.model.Cavity;
import purgewright.sealflow.model.PassageSpec;
import purgewright.sealflow.network.NetworkDynamics;
import purgewright.sealflow.network.NetworkSolver;
import purgewright.sealflow.network.SolveResult.CavityState;
import purgewright.sealflow.network.SolveResult.Converged;
import purgewright.sealflow.network.SolveResult.PassageState;
import purgewright.sealflow.passage.PassageType.SealKind;
import purgewright.sealflow.transients.Event;
import purgewright.sealflow.transients.Schedule;
import purgewright.sealflow.transients.TransientResult;
import purgewright.sealflow.transients.TransientResult.Hit;
import purgewright.sealflow.transients.TransientResult.Outcome;
import purgewright.sealflow.transients.TransientResult.Step;
import purgewright.sealflow.transients.TransientSettings;
import purgewright.sealflow.transients.TransientSolver;

/**
 * Seconds from a fault until separation is lost, until fluids mix, and until an instrument sees it.
 *
 * <p>By a run over time from the state as stated with the fault in force from time 0: gas trapped in the barrier and in receivers
 * behind check valves, valves that shut, everything as the network has it. A unit of barrier cavities no longer counts when one of its
 * boundary passages misses its criterion; it lets fluids mix when the flow in one turns round or foreign fluid in it passes the trace
 * limit. A pair is lost when no unit is left on its weakest path. Shutdown is not part of the run: the neighbours keep their pressures,
 * which is on the safe side.
 *
 * <p>Where no barrier or supply cavity states its volume, where the gas itself is another, or where the run gives up: the gas stored
 * above the highest neighbour's pressure over the purge flow at the start, for faults of the supply; at once for all others. Both are
 * lower bounds, since the flow falls with the pressure.
 */
final class TimeToLoss {
    /** A hundred times coarser than a run on its own account: two figures are wanted, and 200 steps are some seconds [invented]. */
    private static final TransientSettings SETTINGS =
            new TransientSettings(1e-3, 1e-6, Double.POSITIVE_INFINITY, 200, TransientSettings.DEFAULT.defaultVolume());

    /** A run that finds no loss where there must be one goes on so many times as long, and so often [invented]. */
    private static final double LONGER = 8;

    private static final int LONGER_RUNS = 2;

    private static final String MISSED = "missed";
    private static final String MIXED = "mixed";

    private final Scenario scenario;
    private final String phase;
    private final Point base;
    private final Case failed;
    private final Criteria criteria;
    private final List<String> seenBy;
    private final Setting setting;

    private TimeToLoss(
            Scenario scenario, String phase, Point base, Case failed, Criteria criteria, List<String> seenBy) {
        this.seenBy = seenBy;
        this.scenario = scenario;
        this.phase = phase;
        this.base = base;
        this.failed = failed;
        this.criteria = criteria;
        this.setting = base.setting();
    }

    /**
     * The loss of separation of a scenario in a phase in which it is lost in the end.
     *
     * @param networkOrNull the solver that runs over time; null: the bound only
     * @param noRun why there is no run then, put before the bound's words
     * @param seenBy instruments that see the state that the fault ends in; the quickest counts where no run says which is first
     * @param mixesInTheEnd whether fluids mix in the steady state that the fault ends in: the run then goes on until they do, and one
     *     that finds no loss is run on, eight times as long and once more so; if there is none even then it is not believed
     */
    static Loss of(
            NetworkSolver networkOrNull,
            String noRun,
            Scenario scenario,
            String phase,
            Point base,
            Case failed,
            Criteria criteria,
            List<String> seenBy,
            boolean mixesInTheEnd) {
        return new TimeToLoss(scenario, phase, base, failed, criteria, seenBy)
                .loss(networkOrNull, noRun, mixesInTheEnd);
    }

    private double after(double seen, double delay) {
        double detection = criteria.get(Limit.DETECTION_TIME);
        return (Double.isNaN(seen) ? 0 : seen)
                + (Double.isNaN(delay)
                        ? detection
                        : Math.max(delay, criteria.stated(Limit.DETECTION_TIME) ? detection : 0))
                + criteria.get(Limit.SHUTDOWN_TIME)
                + criteria.get(Limit.COAST_DOWN_TIME);
    }

    private Loss loss(NetworkSolver networkOrNull, String noRun, boolean mixesInTheEnd) {
        if (setting == null || base.converged() == null) {
            return bound(0, Loss.Method.AT_ONCE, "the case as stated has no solution to start from");
        }
        double stored = stored();
        Loss.Method otherwise = supplyOnly() ? Loss.Method.BOUND : Loss.Method.AT_ONCE;
        String bound = supplyOnly()
                ? "gas stored above the highest neighbour's pressure over the purge flow at the start"
                : "no gas stored can be counted on";
        if (networkOrNull == null) {
            return bound(stored, otherwise, noRun + bound);
        }
        if (!volumeStated()) {
            return bound(stored, otherwise, "no barrier or supply cavity states its volume: " + bound);
        }
        if (scenario.faults().stream().anyMatch(f -> f.kind() == Kind.WRONG_GAS)) {
            return bound(stored, otherwise, "the gas itself changes: " + bound);
        }
        try {
            return run(networkOrNull, stored, otherwise, bound, mixesInTheEnd);
        } catch (PropertyException | IllegalArgumentException e) {
            return bound(stored, otherwise, "the run over time gave up (" + e.getMessage() + "): " + bound);
        }
    }

    private Loss bound(double seconds, Loss.Method method, String how) {
        return new Loss(phase, seconds, Double.NaN, method, how, Double.NaN, "", quickest());
    }

    /** Seconds that are needed where nobody knows when the fault is seen: as if at once by the quickest instrument that sees it. */
    private double quickest() {
        return setting == null
                ? after(Double.NaN, Double.NaN)
                : Instrument.of(base.model(), setting.layout(), criteria).stream()
                        .filter(i -> seenBy.contains(i.name()))
                        .mapToDouble(i -> after(Double.NaN, i.delay()))
                        .min()
                        .orElse(after(Double.NaN, Double.NaN));
    }

    private boolean volumeStated() {
        for (Cavity c : base.model().cavities()) {
            if (!c.fixed() && c.volume() > 0 && setting.layout().inertFed(c.name())) {
                return true;
            }
        }
        return false;
    }

    private Loss run(NetworkSolver network, double stored, Loss.Method otherwise, String bound, boolean mixesInTheEnd) {
        NetworkDynamics start = new NetworkDynamics(network, failed, SETTINGS.defaultVolume());
        start.set(start.point(base.converged()));
        List<Set<String>> units = setting.layout().units();
        Map<Integer, Double> missedAt = new LinkedHashMap<>();
        Map<Integer, Double> mixedAt = new LinkedHashMap<>();
        List<Event> events = new ArrayList<>();
        // Where losing one unit loses a pair, the run need not go on after it.
        boolean decided = false;
        for (int u = 0; u < units.size(); u++) {
            boolean decides = Double.isFinite(pairLost(units, Map.of(u, 0.0)));
            add(events, start, missedAt, u, criteria(u, units.get(u), decides && !mixesInTheEnd));
            add(events, start, mixedAt, u, mixing(u, units.get(u), decides));
            decided |= decides && (mixesInTheEnd ? mixedAt : missedAt).containsKey(u);
        }
        // Of instruments with one delay only the first to see counts: they make one event.
        Map<Double, List<Instrument>> byDelay = new LinkedHashMap<>();
        for (Instrument i : Instrument.of(base.model(), setting.layout(), criteria)) {
            if (follows(i)) {
                byDelay.computeIfAbsent(i.delay(), d -> new ArrayList<>()).add(i);
            }
        }
        Map<String, List<Instrument>> instruments = new LinkedHashMap<>();
        double horizon = 0.1 + 1.2 * after(0, Double.NaN);
        String first = "";
        double seenAt = Double.NaN;
        double needed = Double.POSITIVE_INFINITY;
        for (Map.Entry<Double, List<Instrument>> e : byDelay.entrySet()) {
            List<Instrument> group = e.getValue();
            Instrument most = first(start, group);
            if (significance(start, most) > 1) {
                // A flow that stops with the fault is seen the moment it comes; no crossing will follow.
                double until = after(0, e.getKey());
                if (until < needed) {
                    needed = until;
                    seenAt = 0;
                    first = most.name();
                }
            } else {
                String key = "seen with a delay of " + e.getKey();
                instruments.put(key, group);
                events.add(new Event(key, n -> significance(n, first(n, group)) - 1, false));
            }
        }
        boolean finished = true;
        double reached = 0;
        String trigger = "";
        if (!decided) {
            TransientResult result = run(network, horizon, events);
            // The end is known to be mixed: a run that stops short of it says no more than "not yet", and goes on where
            // a machine could stand before.
            for (int i = 0; i < LONGER_RUNS && mixesInTheEnd && notYet(result, instruments.keySet()); i++) {
                horizon *= LONGER;
                result = run(network, horizon, events);
            }
            finished = result.outcome() == Outcome.FINISHED || result.outcome() == Outcome.STOPPED_BY_EVENT;
            reached = result.steps().isEmpty()
                    ? 0
                    : result.steps().get(result.steps().size() - 1).end();
            for (Hit hit : result.hits()) {
                if (instruments.containsKey(hit.key())) {
                    List<Instrument> group = instruments.get(hit.key());
                    double until = after(hit.time(), group.get(0).delay());
                    if (hit.rising() && until < needed) {
                        needed = until;
                        seenAt = hit.time();
                        start.set(at(result, hit.time()));
                        first = first(start, group).name();
                    }
                } else {
                    String[] key = hit.key().split(":", 3);
                    (MISSED.equals(key[0]) ? missedAt : mixedAt).putIfAbsent(Integer.parseInt(key[1]), hit.time());
                    trigger = trigger.isEmpty() ? key[2] : trigger;
                }
            }
        }
        double missed = Math.min(pairLost(units, missedAt), pairLost(units, mixedAt));
        double mixed = pairLost(units, mixedAt);
        if (Double.isInfinite(needed)) {
            // Not seen before it is lost: at the earliest then.
            needed = after(Double.isFinite(missed) ? missed : 0, Double.NaN);
        }
        double never = mixesInTheEnd || !finished ? Double.NaN : Double.POSITIVE_INFINITY;
        if (Double.isFinite(missed)) {
            String how = missed == 0
                    ? "a criterion of the barrier is missed the moment the fault comes"
                    : "run over time; the first to be lost: " + trigger;
            return new Loss(
                    phase,
                    missed,
                    Double.isFinite(mixed) ? mixed : never,
                    Loss.Method.RUN,
                    how + assumed(),
                    seenAt,
                    first,
                    needed);
        }
        String until = String.format(Locale.ROOT, "%.3g s", reached);
        if (finished && !mixesInTheEnd) {
            return new Loss(
                    phase,
                    reached,
                    never,
                    Loss.Method.RUN,
                    "no criterion is missed within the run over time of " + until + assumed(),
                    seenAt,
                    first,
                    needed);
        }
        return new Loss(
                phase,
                Math.max(stored, finished ? 0 : reached),
                Double.NaN,
                !finished && reached > stored ? Loss.Method.RUN : otherwise,
                "nothing lost in the run over time until " + until + (finished ? "" : ", where it gave up") + "; "
                        + bound,
                seenAt,
                first,
                needed);
    }

    private TransientResult run(NetworkSolver network, double seconds, List<Event> events) {
        TransientResult result = new TransientSolver(network, SETTINGS)
                .run(Schedule.constant(failed), base.converged(), seconds, events);
        if (result.outcome() == Outcome.CANCELLED) {
            throw new CancellationException("cancelled");
        }
        return result;
    }

    /**
     * The whole time was run without mixing, and nothing was lost sooner than a machine stands at the earliest; that an instrument saw
     * something is no loss.
     */
    private boolean notYet(TransientResult result, Set<String> seen) {
        double soonest = criteria.get(Limit.SHUTDOWN_TIME) + criteria.get(Limit.COAST_DOWN_TIME);
        return result.outcome() == Outcome.FINISHED
                && result.hits().stream().allMatch(h -> seen.contains(h.key()) || h.time() >= soonest);
    }

    private static void add(
            List<Event> events, NetworkDynamics start, Map<Integer, Double> lostAt, int unit, List<Event> more) {
        for (Event e : more) {
            if (!(e.value().applyAsDouble(start) > 0)) {
                lostAt.put(unit, 0.0);
            }
            events.add(e);
        }
    }

    /** The criterion of each boundary passage, over its scale; positive while it is met. Pressures differ from the cavity's as at first. */
    private List<Event> criteria(int number, Set<String> unit, boolean ends) {
        List<Event> out = new ArrayList<>();
        for (PassageSpec p : setting.layout().boundary(failed, unit)) {
            PassageState was = base.converged().passages().get(p.name());
            if (was == null) {
                continue;
            }
            boolean from = unit.contains(p.from());
            String inside = from ? p.from() : p.to();
            String outside = from ? p.to() : p.from();
            String key = MISSED + ":" + number + ":" + p.name();
            double headIn = head(
                    inside, from ? was.fromState().pressure() : was.toState().pressure());
            double headOut = head(
                    outside, from ? was.toState().pressure() : was.fromState().pressure());
            double variation = setting.variation(p.from()) + setting.variation(p.to());
            if (was.kind() == SealKind.OPEN) {
                double band = variation + criteria.get(Limit.INSTRUMENT_UNCERTAINTY);
                out.add(new Event(
                        key + "'s pressure difference",
                        n -> (pressure(n, inside) + headIn - pressure(n, outside) - headOut) / band - 1,
                        ends));
                double flow = Setting.outflow(was, inside);
                double limit = Math.max(
                        criteria.get(Limit.GAP_VELOCITY), criteria.get(Limit.GAP_VELOCITY_SHARE) * was.surfaceSpeed());
                double perFlow = Math.abs(was.flow().gapVelocity() / was.flow().massFlow())
                        * (from ? was.fromState().density() : was.toState().density());
                if (flow > 0 && perFlow > 0) {
                    double sign = from ? 1 : -1;
                    out.add(new Event(
                            key + "'s velocity",
                            n -> sign
                                            * n.massFlow(p.name())
                                            * perFlow
                                            / n.state(inside).density()
                                            / limit
                                    - 1,
                            ends));
                }
            } else {
                double excess = criteria.get(Limit.BARRIER_EXCESS);
                double ratio = criteria.get(Limit.BARRIER_RATIO);
                out.add(new Event(
                        key + "'s pressure",
                        n -> {
                            double neighbour = pressure(n, outside) + headOut;
                            double need = Math.max(neighbour + excess, ratio * neighbour) + variation;
                            return (pressure(n, inside) + headIn) / need - 1;
                        },
                        ends));
            }
        }
        return out;
    }

    /** Pressure at a passage's radius less that of its cavity, Pa. */
    private double head(String cavity, double atPassage) {
        CavityState c = base.converged().cavities().get(cavity);
        return c == null ? 0 : atPassage - c.state().pressure();
    }

    private static double pressure(NetworkDynamics n, String cavity) {
        return n.state(cavity).pressure();
    }

    /** Events that mix: a boundary flow that turns, foreign fluid above the trace limit. Positive while all is well. */
    private List<Event> mixing(int number, Set<String> unit, boolean ends) {
        List<Event> out = new ArrayList<>();
        for (PassageSpec p : setting.layout().boundary(failed, unit)) {
            double sign = unit.contains(p.from()) ? 1 : -1;
            PassageState was = base.converged().passages().get(p.name());
            double scale = was == null ? 0 : Math.abs(was.flow().massFlow());
            double size = Math.max(scale, 1e-9 * setting.greatestFlow());
            out.add(new Event(
                    MIXED + ":" + number + ":flow in " + p.name() + " turns",
                    n -> sign * n.massFlow(p.name()) / size,
                    ends));
        }
        double trace = criteria.get(Limit.TRACE_LIMIT);
        for (String cavity : unit) {
            CavityState was = base.converged().cavities().get(cavity);
            if (was == null || was.fixed()) {
                continue;
            }
            List<String> foreign = was.streamFractions().keySet().stream()
                    .filter(s -> !setting.streams().inert(s))
                    .toList();
            out.add(new Event(
                    MIXED + ":" + number + ":foreign fluid in " + cavity,
                    n -> 1
                            - foreign.stream()
                                            .mapToDouble(s -> n.fraction(cavity, s))
                                            .sum()
                                    / trace,
                    ends));
        }
        return out;
    }

    private static NetworkDynamics.Point at(TransientResult result, double time) {
        for (Step step : result.steps()) {
            if (time <= step.end()) {
                return step.at(time);
            }
        }
        throw new IllegalArgumentException("no step reaches " + time + " s");
    }

    /** Whether an instrument's reading is followed over time. */
    private boolean follows(Instrument i) {
        return List.of("pressure", "temperature", "flow").contains(i.measures())
                && !Double.isNaN(i.reading(base.converged()));
    }

    /** The instrument of a group that sees most. */
    private Instrument first(NetworkDynamics n, List<Instrument> group) {
        Instrument most = group.get(0);
        for (Instrument i : group) {
            most = significance(n, i) > significance(n, most) ? i : most;
        }
        return most;
    }

    private double significance(NetworkDynamics n, Instrument i) {
        double now = "flow".equals(i.measures())
                ? n.massFlow(i.place())
                : "pressure".equals(i.measures())
                        ? n.state(i.place()).pressure()
                        : n.state(i.place()).temperature();
        return i.significance(i.reading(base.converged()), now);
    }

    /** When the first pair has no unit left, s. */
    private double pairLost(List<Set<String>> units, Map<Integer, Double> lostAt) {
        List<Double> times = lostAt.values().stream().sorted().toList();
        for (double t : times) {
            List<Set<String>> left = new ArrayList<>();
            for (int u = 0; u < units.size(); u++) {
                if (lostAt.getOrDefault(u, Double.POSITIVE_INFINITY) > t) {
                    left.add(units.get(u));
                }
            }
            for (Pair pair : setting.pairs()) {
                if (BarrierCount.between(failed, pair, setting.layout(), left).count() < 1) {
                    return t;
                }
            }
        }
        return Double.POSITIVE_INFINITY;
    }

    /** Cavities of which no volume is stated, in words; empty when all are. */
    private String assumed() {
        List<String> names = failed.cavities().stream()
                .filter(c -> !c.fixed() && !(c.volume() > 0))
                .map(Cavity::name)
                .toList();
        return names.isEmpty()
                ? ""
                : "; 5 cm3 assumed where no volume is stated [invented]: " + String.join(", ", names);
    }

    private boolean supplyOnly() {
        return scenario.faults().stream()
                .allMatch(
                        f -> f.kind() == Kind.SUPPLY_EMPTY || f.kind() == Kind.SUPPLY_LOW || f.kind() == Kind.PLUGGED);
    }

    /** The bound: gas stored above the highest neighbour's pressure over the purge flow at the start, s; 0 for other than lost supplies. */
    private double stored() {
        if (!supplyOnly()) {
            return 0;
        }
        Converged before = base.converged();
        double least = Double.POSITIVE_INFINITY;
        for (Set<String> unit : setting.layout().units()) {
            double flow = 0;
            double limit = 0;
            for (PassageSpec p : setting.layout().boundary(base.model(), unit)) {
                PassageState state = before.passages().get(p.name());
                if (state == null) {
                    continue;
                }
                boolean from = unit.contains(p.from());
                flow += Setting.outflow(state, from ? p.from() : p.to());
                limit = Math.max(limit, (from ? state.toState() : state.fromState()).pressure());
            }
            if (flow <= 0) {
                return 0;
            }
            double mass = 0;
            for (String name : LostSupply.stores(failed, setting.layout(), unit)) {
                Cavity c = base.model().cavity(name);
                CavityState state = before.cavities().get(name);
                if (c == null || state == null || c.fixed() || Double.isNaN(c.volume())) {
                    continue;
                }
                double p = state.state().pressure();
                mass += c.volume() * state.state().density() * Math.max(0, 1 - limit / p);
            }
            least = Math.min(least, mass / flow);
        }
        return Double.isInfinite(least) ? 0 : least;
    }
}
