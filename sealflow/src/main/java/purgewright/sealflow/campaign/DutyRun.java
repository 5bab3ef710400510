package purgewright.sealflow.campaign;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Objects;
import purgewright.fluids.FluidState;
import purgewright.fluids.PropertyException;
import purgewright.fluids.PureFluid;
import purgewright.sealflow.model.Case;
import purgewright.sealflow.model.CaseValue;
import purgewright.sealflow.model.Cavity;
import purgewright.sealflow.model.Role;
import purgewright.sealflow.model.Supply;
import purgewright.sealflow.network.NetworkDynamics;
import purgewright.sealflow.network.NetworkSolver;
import purgewright.sealflow.network.SolveResult;
import purgewright.sealflow.network.SolveResult.Converged;
import purgewright.sealflow.network.SolveResult.NotConverged;
import purgewright.sealflow.network.SolveResult.Reason;
import purgewright.sealflow.supply.BottleState;
import purgewright.sealflow.supply.Bottles;
import purgewright.sealflow.supply.Feed;
import purgewright.sealflow.transients.Schedule;
import purgewright.sealflow.transients.TransientResult;
import purgewright.sealflow.transients.TransientSettings;
import purgewright.sealflow.transients.TransientSolver;

/**
 * A duty through time. The network is quasi-steady at each moment (its volumes empty in milliseconds), coupled to the bottles, whose
 * gas changes over minutes:
 *
 * <pre>{@code
 * p_supply = line(regulator(p_bottle, m)),   m = network(p_supply)      at each moment, by secants
 * dm_bottle/dt = -m, with the walls' heat                                 between moments, m linear (Heun)
 * }</pre>
 *
 * <p>Where a phase shuts or opens a valve the cavities' own volumes are followed (TR-BDF2) for up to a few seconds, with the supply
 * held at its pressure. The step is halved where purge flow or supply pressure changes by more than the resolution, doubled where it
 * hardly changes.
 *
 * <p>A cancelled run (interrupt) returns what it has.
 */
public final class DutyRun {
    /** Longest time for which volumes are followed after a valve has moved, s: a litre behind a check valve is empty by then. */
    private static final double TRANSIENT_WINDOW = 5;

    /** Moments looked at within that time. */
    private static final int TRANSIENT_POINTS = 12;

    /** A cavity that is further from its steady pressure than this after the window is told of. */
    private static final double SETTLED = 0.02;

    private static final double COUPLING = 1e-6;
    private static final int COUPLING_STEPS = 25;
    /** A plot of a bottle wants a point at least at each tenth of its pressure. */
    private static final double BOTTLE_CHANGE = 0.10;

    private final NetworkSolver solver;
    private final PointSolver points;
    private final PureFluid gas;
    private final Settings settings;

    /** Solves one moment; the network solver, or one that stands round it. */
    @FunctionalInterface
    public interface PointSolver {
        /** @param guess a nearby solution, or null */
        SolveResult solve(Case model, Converged guess);
    }

    /** Told of each moment as it is found. */
    @FunctionalInterface
    public interface Watcher {
        /** Once a moment, in order. */
        void at(Instant moment);
    }

    /**
     * @param pointsPerPhase least number of steps where boundaries move
     * @param resolution relative change a step
     * @param transients follow volumes where a valve moves
     * @param banks state of each bank at the start; empty: as filled
     */
    public record Settings(int pointsPerPhase, double resolution, boolean transients, List<BottleState> banks) {}

    /**
     * One moment.
     *
     * @param time s from the start
     * @param leg number of the phase
     * @param model the case as solved
     * @param solve its states
     * @param banks what each bank holds; empty without bottles
     * @param bank number of the one in use; -1 without bottles
     * @param supplyPressure Pa
     * @param flow from the supply, kg/s
     * @param used since the start, kg
     * @param droppedOut true when the regulator no longer regulates
     * @param inTransient true when the cavities are filling or emptying
     */
    public record Instant(
            double time,
            int leg,
            Case model,
            Converged solve,
            List<BottleState> banks,
            int bank,
            double supplyPressure,
            double flow,
            double used,
            boolean droppedOut,
            boolean inTransient) {}

    /** A change of banks. */
    public record Switch(double time, int from, int to) {}

    /** How a run ended. */
    public enum Outcome {
        FINISHED,
        CANCELLED,
        NOT_CONVERGED
    }

    /**
     * @param outcome how it ended
     * @param note why it did not finish, else empty
     * @param instants in order
     * @param switches of banks, in order
     * @param bottles the banks; empty without
     * @param used by phase, kg
     * @param massDefect gas at the start less at the end less used, of the filling
     * @param energyDefect the same for the energy of the gas, of its thermal energy
     * @param remarks what could not be done as asked, in words
     */
    public record Result(
            Outcome outcome,
            String note,
            List<Instant> instants,
            List<Switch> switches,
            List<Bottles> bottles,
            List<Double> used,
            double massDefect,
            double energyDefect,
            List<String> remarks) {}

    /**
     * @param solver for the transients
     * @param points solves each moment
     * @param gas of the supply, pure; null when the case states no bottles or liquid
     * @param settings of the run
     */
    public DutyRun(NetworkSolver solver, PointSolver points, PureFluid gas, Settings settings) {
        this.solver = Objects.requireNonNull(solver);
        this.points = Objects.requireNonNull(points);
        this.gas = gas;
        this.settings = Objects.requireNonNull(settings);
    }

    /** Runs; the watcher may be null. */
    public Result run(DutyClock clock, Watcher watcher) {
        return new Run(clock, watcher).go();
    }

    /**
     * The cavity that the supply holds at pressure: the one stated, else the one fixed supply cavity with the gas.
     *
     * @throws IllegalArgumentException when that is none or several
     */
    public static String cavity(Case model, Supply supply) {
        if (supply.cavity() != null) {
            Cavity c = model.cavity(supply.cavity());
            if (c == null || !c.fixed()) {
                throw new IllegalArgumentException("/supply/cavity: " + supply.cavity()
                        + " has no pressure of its own, so that no regulator can hold it");
            }
            return supply.cavity();
        }
        List<String> found = model.cavities().stream()
                .filter(c ->
                        c.fixed() && c.role() == Role.SUPPLY && supply.gas().equals(c.stream()))
                .map(Cavity::name)
                .toList();
        if (found.size() != 1) {
            throw new IllegalArgumentException("/supply/cavity: the case has " + found.size()
                    + " fixed supply cavities with " + supply.gas() + "; say which the regulator feeds");
        }
        return found.get(0);
    }

    /**
     * Most that a main or a vaporiser that stands alone can give, kg/s; NaN beside bottles, which are then what is run, and where none is
     * stated.
     */
    public static double greatestFlow(Supply supply) {
        if (supply == null || supply.bottles() != null) {
            return Double.NaN;
        }
        if (supply.plant() != null) {
            return supply.plant().greatestFlow();
        }
        return supply.liquid() == null ? Double.NaN : supply.liquid().vaporiserFlow();
    }

    /**
     * Highest pressure that a supply can give at the cavity, Pa: full bottles, the main or the tank, less the regulator's minimum inlet
     * margin; infinite where no source is stated.
     */
    public static double greatestPressure(Supply supply) {
        double source = supply.bottles() != null
                ? supply.bottles().fillingPressure()
                : supply.plant() != null
                        ? supply.plant().pressure()
                        : supply.liquid() != null ? supply.liquid().pressure() : Double.POSITIVE_INFINITY;
        return supply.regulator() == null ? source : source - supply.regulator().minimumInletMargin();
    }

    /** What stands before the regulator, in words. */
    public static String source(Supply supply) {
        return supply.bottles() != null
                ? "full bottles"
                : supply.plant() != null ? "the main's pressure" : "the tank's pressure";
    }

    /** The network at a supply, coupled. */
    private record Coupled(Case model, SolveResult solve, double pressure, double flow, boolean dropped) {
        Converged converged() {
            return solve instanceof Converged c ? c : null;
        }
    }

    /** One run; owned by one thread. */
    private final class Run {
        private final DutyClock clock;
        private final Watcher watcher;
        private final Supply supply;
        private final String cavity;
        private final List<Bottles> bottles;
        private final List<BottleState> banks = new ArrayList<>();
        private final double surroundings;
        /** A supply of steady pressure instead of bottles; null for none. */
        private final FluidState main;

        private final List<Instant> instants = new ArrayList<>();
        private final List<Switch> switches = new ArrayList<>();
        private final List<Double> usedByLeg = new ArrayList<>();
        private final List<String> remarks = new ArrayList<>();
        private final double firstMass;
        private final double firstEnergy;
        private final double energyScale;
        private final double[] firstInlet;
        private int bank = -1;
        private double used;
        private double carried;
        private Converged last;
        private double lastPressure = Double.NaN;
        /** How what the regulator wants less what it gets changes with the latter: from moment to moment the same. */
        private double slope = -1;

        Run(DutyClock clock, Watcher watcher) {
            this.clock = clock;
            this.watcher = watcher;
            Case first = clock.legs().get(0).model();
            supply = first.supply();
            surroundings = first.surroundings().temperature();
            cavity = supply == null ? null : cavity(first, supply);
            bottles = supply == null || supply.bottles() == null ? List.of() : Bank.of(supply.bottles(), gas);
            main = supply == null || !bottles.isEmpty() ? null : SupplyFeed.main(supply, gas);
            if (!bottles.isEmpty()) {
                bank = 0;
                for (int b = 0; b < bottles.size(); b++) {
                    banks.add(
                            settings.banks().isEmpty()
                                    ? bottles.get(b).start()
                                    : settings.banks().get(b));
                }
            }
            firstInlet = banks.stream().mapToDouble(BottleState::pressure).toArray();
            firstMass = banks.stream().mapToDouble(BottleState::mass).sum();
            firstEnergy = banks.stream().mapToDouble(BottleState::energy).sum();
            energyScale = banks.stream()
                    .mapToDouble(s -> s.mass() * s.gas().cv() * s.temperature())
                    .sum();
        }

        Result go() {
            try {
                for (int leg = 0; leg < clock.legs().size(); leg++) {
                    double before = used;
                    String failed = leg(leg);
                    usedByLeg.add(used - before);
                    if (failed != null) {
                        return result(failed.isEmpty() ? Outcome.CANCELLED : Outcome.NOT_CONVERGED, failed);
                    }
                }
                return result(Outcome.FINISHED, "");
            } catch (java.util.concurrent.CancellationException e) {
                while (usedByLeg.size() < clock.legs().size()) {
                    double sum =
                            usedByLeg.stream().mapToDouble(Double::doubleValue).sum();
                    usedByLeg.add(used - sum);
                }
                return result(Outcome.CANCELLED, "");
            }
        }

        private Result result(Outcome outcome, String note) {
            double mass = banks.stream().mapToDouble(BottleState::mass).sum();
            double energy = banks.stream().mapToDouble(BottleState::energy).sum();
            boolean have = !banks.isEmpty();
            return new Result(
                    outcome,
                    outcome == Outcome.CANCELLED ? "cancelled" : note,
                    List.copyOf(instants),
                    List.copyOf(switches),
                    bottles,
                    List.copyOf(usedByLeg),
                    have ? (firstMass - mass - used) / firstMass : 0,
                    have ? (energy - firstEnergy - carried) / energyScale : 0,
                    List.copyOf(remarks));
        }

        private Feed feed(int leg, double since) {
            return SupplyFeed.of(supply, clock.setPressure(leg, since), bank >= 0 ? firstInlet[bank] : Double.NaN);
        }

        /** Solves a moment; null result parts say what failed. A main that cannot give the flow holds it and lets the pressure fall. */
        private Coupled couple(int leg, double since, FluidState source) {
            Coupled free = coupled(leg, since, source);
            double most = source == null ? Double.NaN : greatestFlow(supply);
            return free != null && free.converged() != null && free.flow() > most * (1 + COUPLING)
                    ? held(free, source, most)
                    : free;
        }

        /** The supply pressure at which the network takes no more than a main can give, by halving: the flow rises with the pressure. */
        private Coupled held(Coupled free, FluidState source, double most) {
            double low = 1.0001 * free.model().surroundings().pressure();
            double high = free.pressure();
            Coupled found = free;
            Converged guess = free.converged();
            for (int n = 0; n < 40 && high - low > COUPLING * high; n++) {
                double p = Math.sqrt(low * high);
                double t =
                        source.fluid().atPressureEnthalpy(p, source.enthalpy()).temperature();
                Case now = CaseValue.cavity(free.model(), cavity, c -> CaseValue.state(c, p, t));
                SolveResult solve = points.solve(now, guess);
                double m = flow(now, solve);
                found = new Coupled(now, solve, p, m, free.dropped());
                if (!(solve instanceof Converged c)) {
                    return found;
                }
                guess = c;
                if (Math.abs(m - most) <= COUPLING * most) {
                    return found;
                }
                if (m > most) {
                    high = p;
                } else {
                    low = p;
                }
            }
            if (found.flow() > most * (1 + 1e-3)) {
                remark("the main cannot give the flow at any pressure above that of the surroundings");
            }
            return found;
        }

        private Coupled coupled(int leg, double since, FluidState source) {
            Case model = clock.at(leg, since);
            if (source == null) {
                SolveResult solve = points.solve(model, last);
                return new Coupled(model, solve, pressureOf(model), flow(model, solve), false);
            }
            Feed feed = feed(leg, since);
            double lowest = 1.0001 * model.surroundings().pressure();
            double p = lastPressure;
            if (Double.isNaN(p)) {
                p = feed.outlet(source, 0).pressure();
            }
            p = Math.max(Math.min(p, source.pressure()), lowest);
            double pBefore = Double.NaN;
            double gBefore = Double.NaN;
            Coupled found = null;
            Converged guess = last;
            for (int n = 0; n < COUPLING_STEPS; n++) {
                double temperature =
                        source.fluid().atPressureEnthalpy(p, source.enthalpy()).temperature();
                double at = p;
                Case now = CaseValue.cavity(model, cavity, c -> CaseValue.state(c, at, temperature));
                SolveResult solve = points.solve(now, guess);
                double m = flow(now, solve);
                if (!(solve instanceof Converged c)) {
                    return new Coupled(now, solve, p, m, false);
                }
                guess = c;
                Feed.Outlet out = feed.outlet(source, m);
                found = new Coupled(now, solve, p, m, out.droppedOut());
                double wanted = Double.isNaN(out.pressure()) ? 0.7 * p : Math.max(out.pressure(), lowest);
                double g = wanted - p;
                if (Math.abs(g) <= COUPLING * p) {
                    break;
                }
                if (!Double.isNaN(gBefore) && g != gBefore && p != pBefore) {
                    double secant = (g - gBefore) / (p - pBefore);
                    // A regulator's outlet never rises with the flow: the slope lies at or below -1.
                    slope = secant < -0.5 && secant > -1e3 ? secant : -1;
                }
                double next = p - g / slope;
                if (!(next > lowest && next < source.pressure())) {
                    next = (p + wanted) / 2;
                }
                pBefore = p;
                gBefore = g;
                p = Math.max(next, lowest);
                if (n == COUPLING_STEPS - 1) {
                    remark("regulator and network were coupled to " + Math.abs(g) / p + " of the supply pressure only");
                }
            }
            return found;
        }

        private void remark(String words) {
            if (!remarks.contains(words) && remarks.size() < 20) {
                remarks.add(words);
            }
        }

        private double pressureOf(Case model) {
            return cavity != null && model.cavity(cavity) != null
                    ? model.cavity(cavity).pressure()
                    : model.cavities().stream()
                            .filter(c -> c.fixed() && c.role() == Role.SUPPLY)
                            .mapToDouble(Cavity::pressure)
                            .findFirst()
                            .orElse(Double.NaN);
        }

        /** Gas that the supply gives, kg/s: of the cavity fed, or of all fixed supply cavities. */
        private double flow(Case model, SolveResult solve) {
            if (!(solve instanceof Converged c)) {
                return Double.NaN;
            }
            double sum = 0;
            for (Cavity k : model.cavities()) {
                boolean counts = cavity != null ? k.name().equals(cavity) : k.fixed() && k.role() == Role.SUPPLY;
                if (counts) {
                    sum -= c.cavities().get(k.name()).netMassFlow();
                }
            }
            return Math.abs(sum) < 1e-15 ? 0 : sum;
        }

        private FluidState source() {
            return bank >= 0 ? banks.get(bank).gas() : main;
        }

        /** One phase; null when it went well, empty when cancelled, else what failed. */
        private String leg(int leg) {
            double duration = clock.legs().get(leg).duration();
            double t0 = clock.start(leg);
            double since = 0;
            if (settings.transients() && last != null && clock.jumps(leg)) {
                since = transientWindow(leg, Math.min(duration, TRANSIENT_WINDOW));
            }
            Converged filled = last;
            Coupled now = couple(leg, since, source());
            if (now.converged() == null) {
                return failed(now, leg, t0 + since);
            }
            if (since > 0) {
                tellUnsettled(leg, filled, now.converged());
            }
            keep(t0 + since, leg, now, false);
            List<Double> breaks = clock.breaks(leg);
            boolean moves = clock.moves(leg);
            double longest =
                    duration / (moves ? settings.pointsPerPhase() : Math.max(2, settings.pointsPerPhase() / 4));
            double shortest = duration * 1e-4;
            double h = Math.min(longest, moves ? longest / 2 : longest);
            while (since < duration * (1 - 1e-12)) {
                if (Thread.currentThread().isInterrupted()) {
                    return "";
                }
                double limit = duration;
                for (double b : breaks) {
                    if (b > since * (1 + 1e-12) + 1e-12) {
                        limit = Math.min(limit, b);
                        break;
                    }
                }
                double step = Math.min(h, limit - since);
                if (limit - since - step < 1e-6 * duration) {
                    step = limit - since;
                }
                Trial trial = attempt(leg, since, step, now);
                if (trial.next().converged() == null) {
                    if (step > shortest) {
                        h = step / 2;
                        continue;
                    }
                    return failed(trial.next(), leg, t0 + since + step);
                }
                double change = change(now, trial);
                // A step that ends with a bank at its least pressure is as long as its gas changes little, like any
                // other.
                if (change > settings.resolution() && step > shortest) {
                    h = step / 2;
                    continue;
                }
                if (trial.switchAfter() >= 0) {
                    step = trial.switchAfter();
                }
                commit(trial, now, step);
                since += step;
                now = trial.next();
                keep(t0 + since, leg, now, false);
                if (trial.switchAfter() >= 0) {
                    switches.add(new Switch(t0 + since, bank, bank + 1));
                    bank++;
                    lastPressure = Double.NaN;
                    now = couple(leg, since, source());
                    if (now.converged() == null) {
                        return failed(now, leg, t0 + since);
                    }
                    keep(t0 + since, leg, now, false);
                }
                boolean corner = breaks.contains(limit) && since >= limit * (1 - 1e-12);
                if (corner) {
                    h = longest / 2;
                } else if (change < settings.resolution() / 4) {
                    h = Math.min(longest, 2 * step);
                } else {
                    h = Math.min(longest, step);
                }
                h = Math.max(h, shortest);
            }
            return null;
        }

        private void tellUnsettled(int leg, Converged filled, Converged steady) {
            steady.cavities().forEach((name, c) -> {
                double p = filled.cavities().get(name).state().pressure();
                if (!c.fixed() && Math.abs(Math.log(p / c.state().pressure())) > SETTLED) {
                    remark("phase " + clock.legs().get(leg).name() + ": " + name + " had not settled "
                            + TRANSIENT_WINDOW + " s after the valve moved; from there on it is taken as settled");
                }
            });
        }

        private String failed(Coupled c, int leg, double time) {
            NotConverged n = (NotConverged) c.solve();
            if (n.reason() == Reason.CANCELLED) {
                return "";
            }
            return "no solution in phase " + clock.legs().get(leg).name() + " at " + Math.round(time * 1000) / 1000.0
                    + " s: " + n.detail();
        }

        /** A step tried out: what the bank holds then, and the network there. */
        private record Trial(Coupled next, Bottles.Drawn drawn, double switchAfter) {}

        private Trial attempt(int leg, double since, double step, Coupled now) {
            if (bank < 0) {
                return new Trial(couple(leg, since + step, main), null, -1);
            }
            double m0 = Math.max(0, now.flow());
            double guess = m0;
            Bottles.Drawn drawn = draw(m0, guess, step);
            Coupled next = null;
            for (int n = 0; n < 6; n++) {
                next = couple(
                        leg,
                        since + step,
                        drawn == null ? banks.get(bank).gas() : drawn.state().gas());
                if (next.converged() == null || drawn == null) {
                    return new Trial(next, drawn, -1);
                }
                double m1 = Math.max(0, next.flow());
                if (Math.abs(m1 - guess) <= 1e-6 * Math.max(Math.abs(m1), 1e-12)) {
                    break;
                }
                guess = m1;
                double before = drawn.state().pressure();
                drawn = draw(m0, guess, step);
                if (drawn == null || Math.abs(drawn.state().pressure() - before) < 1e-5 * before) {
                    break;
                }
            }
            if (drawn != null && bank + 1 < banks.size()) {
                double least = leastInlet(leg, since, now);
                if (drawn.state().pressure() < least && now.converged() != null) {
                    return switchWithin(leg, since, step, now, next, least);
                }
            }
            return new Trial(next, drawn, -1);
        }

        /** Bottle pressure at which the next bank is put on. */
        private double leastInlet(int leg, double since, Coupled at) {
            double stated = supply.bottles().unusablePressure();
            double by = feed(leg, since).leastInlet(Math.max(0, at.flow()), Double.NaN);
            double own = Double.isNaN(by) ? 0 : by;
            return Math.max(own, Double.isNaN(stated) ? 0 : stated);
        }

        /** Finds when the bank in use falls to its least pressure within a step. */
        private Trial switchWithin(int leg, double since, double step, Coupled now, Coupled next, double least) {
            double m0 = Math.max(0, now.flow());
            // The end of the whole step may lie beyond the drop-out; the flow at the switch itself is what counts.
            double end = m0;
            double after = step;
            Coupled at = next;
            Bottles.Drawn drawn = null;
            for (int round = 0; round < 4; round++) {
                double low = 0;
                double high = step;
                for (int n = 0; n < 40 && high - low > 1e-6 * step; n++) {
                    double middle = (low + high) / 2;
                    Bottles.Drawn d = draw(m0, end, middle);
                    if (d == null || d.state().pressure() < least) {
                        high = middle;
                    } else {
                        low = middle;
                    }
                }
                after = low;
                drawn = draw(m0, end, after);
                if (drawn == null) {
                    drawn = draw(m0, m0, 0);
                }
                at = couple(leg, since + after, drawn.state().gas());
                if (at.converged() == null) {
                    break;
                }
                double flow = Math.max(0, at.flow());
                if (Math.abs(flow - end) <= 1e-6 * Math.max(flow, 1e-12)) {
                    break;
                }
                end = flow;
            }
            return new Trial(at, drawn, after);
        }

        private Bottles.Drawn draw(double m0, double m1, double step) {
            try {
                return bottles.get(bank).draw(banks.get(bank), m0, m1, step, surroundings);
            } catch (IllegalArgumentException | PropertyException e) {
                return null;
            }
        }

        private double change(Coupled now, Trial trial) {
            Coupled next = trial.next();
            double flow = Math.abs(next.flow() - now.flow())
                    / Math.max(Math.max(Math.abs(next.flow()), Math.abs(now.flow())), 1e-9);
            double pressure = Math.abs(Math.log(next.pressure() / now.pressure()));
            double most = Math.max(Math.abs(next.flow()) < 1e-9 ? 0 : flow, pressure);
            if (trial.drawn() != null) {
                double bottle = Math.log(
                        banks.get(bank).pressure() / trial.drawn().state().pressure());
                most = Math.max(most, bottle * settings.resolution() / BOTTLE_CHANGE);
            } else if (bank >= 0) {
                most = Double.POSITIVE_INFINITY;
            }
            return most;
        }

        private void commit(Trial trial, Coupled now, double step) {
            double m0 = Math.max(0, now.flow());
            double m1 = Math.max(0, trial.next().flow());
            double mass = (m0 + m1) / 2 * step;
            if (bank >= 0 && trial.drawn() != null) {
                // What has been drawn is what the bottles lack; the flow of the network agrees to the coupling's
                // tolerance.
                mass = (m0 + m1) / 2 * step;
                Bottles.Drawn exact = draw(m0, m1, step);
                Bottles.Drawn d = exact == null ? trial.drawn() : exact;
                banks.set(bank, d.state());
                carried += d.heat() - d.enthalpy();
            } else if (bank >= 0) {
                remark("the bank is empty: nothing more can be drawn");
                mass = 0;
            }
            used += mass;
        }

        private void keep(double time, int leg, Coupled c, boolean inTransient) {
            last = c.converged();
            lastPressure = c.pressure();
            Instant instant = new Instant(
                    time,
                    leg,
                    c.model(),
                    c.converged(),
                    List.copyOf(banks),
                    bank,
                    c.pressure(),
                    c.flow(),
                    used,
                    c.dropped(),
                    inTransient);
            instants.add(instant);
            if (watcher != null) {
                watcher.at(instant);
            }
        }

        /** Follows the volumes after a valve has moved; returns the time since the phase's start up to which that went. */
        private double transientWindow(int leg, double window) {
            double t0 = clock.start(leg);
            double pressure = lastPressure;
            // From a hundredth of a second on, equal ratios; boundaries that ramp move in steps between them.
            double[] times = new double[TRANSIENT_POINTS + 1];
            times[0] = Math.min(1e-6, window / 2);
            for (int n = 1; n <= TRANSIENT_POINTS; n++) {
                double share = (n - 1.0) / (TRANSIENT_POINTS - 1);
                times[n] = n == TRANSIENT_POINTS
                        ? window
                        : Math.min(0.01, window / 20) * Math.pow(window / Math.min(0.01, window / 20), share);
            }
            try {
                List<Double> from = new ArrayList<>();
                List<Case> cases = new ArrayList<>();
                for (int n = 0; n < TRANSIENT_POINTS; n++) {
                    boolean moves = clock.moves(leg);
                    if (n == 0 || moves) {
                        from.add(n == 0 ? 0 : times[n]);
                        double middle = moves ? (n == 0 ? times[1] / 2 : (times[n] + times[n + 1]) / 2) : 0;
                        cases.add(withSupply(clock.at(leg, middle), pressure));
                    }
                }
                Schedule schedule = Schedule.steps(from, cases);
                TransientResult r = new TransientSolver(solver, TransientSettings.DEFAULT.withTolerance(1e-4))
                        .run(schedule, last, window, List.of());
                if (r.outcome() == TransientResult.Outcome.CANCELLED) {
                    return 0;
                }
                if (r.outcome() != TransientResult.Outcome.FINISHED) {
                    remark("phase " + clock.legs().get(leg).name()
                            + ": the volumes could not be followed after the valve moved (" + r.detail()
                            + "); the phase begins at its quasi-steady state");
                    return 0;
                }
                if (!r.assumed().isEmpty()) {
                    remark(String.format(
                            Locale.ROOT,
                            "where a valve moves, %.3g cm3 are assumed for each cavity that states no volume [invented]: %s",
                            1e6 * r.assumedVolume(),
                            String.join(", ", r.assumed())));
                }
                double since = 0;
                double flow = Double.NaN;
                Case model = null;
                NetworkDynamics network = null;
                for (double to : times) {
                    Case then = schedule.at(Math.nextDown(to));
                    if (then != model) {
                        model = then;
                        network = new NetworkDynamics(solver, model, TransientSettings.DEFAULT.defaultVolume());
                    }
                    network.set(r.at(to));
                    Converged here = network.snapshot();
                    double m = flow(model, here);
                    Coupled b = new Coupled(model, here, pressure, m, false);
                    if (since > 0) {
                        Coupled a = new Coupled(model, here, pressure, flow, false);
                        Bottles.Drawn d = bank < 0 ? null : draw(Math.max(0, flow), Math.max(0, m), to - since);
                        commit(new Trial(b, d, -1), a, to - since);
                    }
                    flow = m;
                    since = to;
                    keep(t0 + since, leg, b, true);
                }
                return since;
            } catch (IllegalArgumentException | PropertyException e) {
                remark("phase " + clock.legs().get(leg).name()
                        + ": the volumes could not be followed after the valve moved (" + e.getMessage()
                        + "); the phase begins at its quasi-steady state");
                return 0;
            }
        }

        private Case withSupply(Case model, double pressure) {
            if (cavity == null || source() == null || Double.isNaN(pressure)) {
                return model;
            }
            double temperature = source().fluid()
                    .atPressureEnthalpy(pressure, source().enthalpy())
                    .temperature();
            return CaseValue.cavity(model, cavity, c -> CaseValue.state(c, pressure, temperature));
        }
    }
}
