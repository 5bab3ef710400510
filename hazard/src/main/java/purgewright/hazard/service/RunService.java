package purgewright.hazard.service;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.InvalidPathException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.function.ToDoubleFunction;
import purgewright.fluids.PropertyEngine;
import purgewright.fluids.PureFluid;
import purgewright.fluids.mixture.StreamDefinition;
import purgewright.hazard.criteria.SupplyRules;
import purgewright.hazard.finding.Finding;
import purgewright.hazard.finding.Verdict;
import purgewright.hazard.finding.Verdicts;
import purgewright.hazard.service.RunResult.Closure;
import purgewright.hazard.service.RunResult.Event;
import purgewright.hazard.service.RunResult.Gas;
import purgewright.hazard.service.RunResult.Moment;
import purgewright.hazard.service.RunResult.Outcome;
import purgewright.hazard.service.RunResult.Overlay;
import purgewright.hazard.service.RunResult.PhaseUse;
import purgewright.hazard.service.RunResult.Timed;
import purgewright.hazard.service.RunSettings.BottleReading;
import purgewright.sealflow.campaign.Bank;
import purgewright.sealflow.campaign.Channel;
import purgewright.sealflow.campaign.Channel.Kind;
import purgewright.sealflow.campaign.DutyClock;
import purgewright.sealflow.campaign.DutyRun;
import purgewright.sealflow.campaign.DutyRun.Instant;
import purgewright.sealflow.campaign.Leg;
import purgewright.sealflow.campaign.SupplyFeed;
import purgewright.sealflow.casefile.CaseDocument;
import purgewright.sealflow.casefile.CaseException;
import purgewright.sealflow.casefile.CaseProblem;
import purgewright.sealflow.casefile.DataTable;
import purgewright.sealflow.model.Campaign;
import purgewright.sealflow.model.Case;
import purgewright.sealflow.model.Cavity;
import purgewright.sealflow.model.DutyPhase;
import purgewright.sealflow.model.Supply;
import purgewright.sealflow.network.NetworkSolver;
import purgewright.sealflow.network.SolverSettings;
import purgewright.sealflow.supply.BottleState;
import purgewright.sealflow.supply.Bottles;

/**
 * The duty through time: bottles, purge flow, every margin. Threads may share one service. An interrupt of the calling thread ends a
 * run early with what it has; the flag stays set.
 */
public final class RunService {
    /** Place of the purge flow in channels: the supply as a whole has no place of its own in the case. */
    static final String PURGE_FLOW = "/supply/flow";

    private final PropertyEngine engine;
    private final NetworkSolver solver;
    private final PhaseSolve points;

    /** A service on the network solver. */
    public RunService(PropertyEngine engine) {
        this.engine = engine;
        this.solver = new NetworkSolver(engine, SolverSettings.DEFAULT);
        this.points = new PhaseSolve(engine, solver::solve);
    }

    /**
     * Runs.
     *
     * @param folder in which boundary histories are looked for; null when the case was never a file
     * @throws CaseException when the case has no duty, a phase no duration, or a history that cannot be used
     */
    public RunResult run(CaseDocument document, Path folder, RunSettings settings, Progress progress) {
        Case whole = document.toCase(engine);
        List<Leg> legs = legs(document, whole, folder, settings.phases(), settings.histories());
        return run(whole, legs, settings, progress);
    }

    /** The same for phases at hand. */
    RunResult run(Case whole, List<Leg> legs, RunSettings settings, Progress progress) {
        DutyClock clock = new DutyClock(legs);
        Moments moments = new Moments(points, clock, settings.judge());
        double total = clock.start(legs.size());
        DutyRun.Result result = duty(whole, clock, settings, instant -> {
            moments.add(instant);
            progress.at(
                    Math.min(0.99, instant.time() / total),
                    legs.get(instant.leg()).name());
        });
        RunResult out = result(whole, clock, settings, moments, result);
        progress.at(1, "done");
        return out;
    }

    /** The kernel's run alone, nothing judged. */
    DutyRun.Result duty(Case whole, DutyClock clock, RunSettings settings, DutyRun.Watcher watcher) {
        Supply supply = whole.supply();
        for (Leg leg : clock.legs()) {
            SupplyRules.contradiction(leg.model(), points.streams(leg.model().streams()))
                    .ifPresent(c -> {
                        throw place(c.place(), c.what() + ", in phase " + leg.name(), c.mend());
                    });
        }
        PureFluid gas = supply == null ? null : gas(whole, supply, engine);
        List<BottleState> banks = banks(supply, gas, settings.bottles());
        DutyRun run = new DutyRun(
                solver,
                points::solve,
                gas,
                new DutyRun.Settings(settings.pointsPerPhase(), settings.resolution(), settings.transients(), banks));
        return run.run(clock, watcher);
    }

    /** A reading of more gas than this share of a full bank is a slip, not a good filling: no answer rests on it. */
    private static final double OVERFILLED = 1.1;

    /** State of each bank from what its gauges show; empty when nothing was read. */
    static List<BottleState> banks(Supply supply, PureFluid gas, List<BottleReading> readings) {
        if (readings.isEmpty()) {
            return List.of();
        }
        if (supply == null || supply.bottles() == null) {
            throw place("/supply/bottles", "bottle readings are given, but the case has no bottles", "");
        }
        List<Bottles> banks = Bank.of(supply.bottles(), gas);
        if (readings.size() != banks.size()) {
            throw place(
                    "/supply/bottles/banks",
                    readings.size() + " readings for " + banks.size() + " banks",
                    "one reading a bank, in order");
        }
        List<BottleState> out = new ArrayList<>();
        for (int b = 0; b < banks.size(); b++) {
            BottleState read = banks.get(b)
                    .settled(readings.get(b).pressure(), readings.get(b).temperature());
            double filling = banks.get(b).filling();
            if (read.mass() > OVERFILLED * filling) {
                throw place(
                        "/supply/bottles/filling pressure",
                        String.format(
                                Locale.ROOT,
                                "the reading of bank %d, %.4g MPa at %.4g K, is %.0f %% more gas than its bottles hold when full"
                                        + " (%.4g MPa at %.4g K)",
                                b + 1,
                                readings.get(b).pressure() / 1e6,
                                readings.get(b).temperature(),
                                100 * (read.mass() / filling - 1),
                                banks.get(b).pressure() / 1e6,
                                banks.get(b).temperature()),
                        "look at the reading and its unit");
            }
            out.add(read);
        }
        return out;
    }

    /** The one gas of the supply. */
    static PureFluid gas(Case model, Supply supply, PropertyEngine engine) {
        for (StreamDefinition s : model.streams()) {
            if (s.name().equals(supply.gas()) && s instanceof StreamDefinition.Single single) {
                return engine.pure(single.fluid());
            }
        }
        throw place("/supply/gas", "the supply's gas " + supply.gas() + " is a mixture", "a stream of one fluid");
    }

    static CaseException place(String place, String message, String suggestion) {
        return new CaseException(List.of(new CaseProblem("SUPPLY", place, 0, 0, message, suggestion)));
    }

    /** The phases asked for, else those of one attempt, else all; each with its history read. */
    List<Leg> legs(
            CaseDocument document, Case whole, Path folder, List<String> phases, Map<String, List<Channel>> histories) {
        if (whole.duty().isEmpty()) {
            throw new CaseException(List.of(new CaseProblem(
                    "NO_DUTY",
                    "/duty",
                    0,
                    0,
                    "the case has no duty, so that there is nothing to run through time",
                    "a list of phases, each with name and duration")));
        }
        Campaign campaign = whole.campaign();
        List<String> wanted = !phases.isEmpty() ? phases : campaign == null ? List.of() : campaign.phases();
        List<DutyPhase> chosen = new ArrayList<>();
        if (wanted.isEmpty()) {
            chosen.addAll(whole.duty());
        }
        for (String name : wanted) {
            chosen.add(whole.duty().stream()
                    .filter(p -> p.name().equals(name))
                    .findFirst()
                    .orElseThrow(() -> new IllegalArgumentException("no phase '" + name + "'")));
        }
        List<CaseProblem> problems = new ArrayList<>();
        List<Leg> legs = new ArrayList<>();
        for (DutyPhase phase : chosen) {
            Case model = document.toCase(phase, engine);
            List<Channel> history = histories.containsKey(phase.name())
                    ? histories.get(phase.name())
                    : history(phase, model, folder, problems);
            double duration = phase.duration();
            if (Double.isNaN(duration) && !history.isEmpty()) {
                // A history that goes on to the end says how long the phase lasts.
                duration = history.get(0).time(history.get(0).size() - 1);
            }
            if (!(duration > 0)) {
                String at = "/duty/" + phase.name();
                problems.add(new CaseProblem(
                        "MISSING_FIELD",
                        at,
                        document.line(at),
                        document.column(at),
                        "phase " + phase.name() + " has no duration",
                        "\"duration\": \"30 s\""));
                continue;
            }
            legs.add(new Leg(
                    phase.name(), duration, model, phase.ramp(), history, SupplyFeed.setPressure(phase, model)));
        }
        if (!problems.isEmpty()) {
            throw new CaseException(problems);
        }
        return legs;
    }

    private static List<Channel> history(DutyPhase phase, Case model, Path folder, List<CaseProblem> problems) {
        if (phase.history() == null) {
            return List.of();
        }
        String at = "/duty/" + phase.name() + "/history";
        if (folder == null) {
            problems.add(new CaseProblem(
                    "FILE", at, 0, 0, "the case is no file, so that " + phase.history() + " cannot be found", ""));
            return List.of();
        }
        Path file = beside(folder, phase.history());
        if (file == null) {
            problems.add(new CaseProblem(
                    "FILE",
                    at,
                    0,
                    0,
                    phase.history() + " is not beside the case",
                    "a file in the case's folder, or in the folder data next to it"));
            return List.of();
        }
        try {
            return Channels.history(DataTable.read(file, model.surroundings().pressure()), model);
        } catch (CaseException e) {
            for (CaseProblem p : e.problems()) {
                problems.add(new CaseProblem(
                        p.key(),
                        at,
                        0,
                        0,
                        p.place() + (p.line() > 0 ? ", line " + p.line() : "") + ": " + p.message(),
                        p.suggestion()));
            }
            return List.of();
        }
    }

    /**
     * The file that a case names; null when it lies neither in the case's folder nor in the folder data next to it, or is no file name. A case
     * may come from anywhere: it may name a file beside it, not one anywhere on the disk, neither by dots nor by a link.
     */
    private static Path beside(Path folder, String name) {
        try {
            Path base = folder.toRealPath();
            Path data = base.resolveSibling("data");
            Path file = base.resolve(name.strip()).normalize();
            if (!file.startsWith(base) && !file.startsWith(data)) {
                return null;
            }
            if (!Files.exists(file)) {
                return file; // the reader says so
            }
            Path real = file.toRealPath();
            boolean inside = real.startsWith(base) || (Files.isDirectory(data) && real.startsWith(data.toRealPath()));
            return inside && (Files.isRegularFile(real) || Files.isDirectory(real)) ? real : null;
        } catch (InvalidPathException | IOException bad) {
            return null;
        }
    }

    // --- from the kernel's run to the result
    // ------------------------------------------------------------------------------

    private RunResult result(Case whole, DutyClock clock, RunSettings settings, Moments moments, DutyRun.Result run) {
        List<Instant> instants = run.instants();
        List<OtherSources.Given> others = OtherSources.of(clock, instants, points);
        List<Timed> worst = new ArrayList<>(moments.worst());
        if (settings.judge()) {
            OtherSources.findings(others).forEach(f -> worst.add(new Timed(begin(clock, f.phase()), f)));
            worst.sort((a, b) -> Verdicts.WORST_FIRST.compare(a.finding(), b.finding()));
        }
        List<Finding> findings =
                Waivers.apply(whole, worst.stream().map(Timed::finding).toList());
        List<Timed> timed = new ArrayList<>();
        for (int i = 0; i < worst.size(); i++) {
            timed.add(new Timed(worst.get(i).time(), findings.get(i)));
        }
        List<Channel> channels = instants.isEmpty() ? List.of() : channels(whole, settings, moments, run);
        double mass = 0;
        double energy = 0;
        for (Instant i : instants) {
            if (!i.inTransient()) {
                mass = Math.max(mass, i.solve().convergence().massClosure());
                energy = Math.max(energy, i.solve().convergence().energyClosure());
            }
        }
        // Of a run that did not come to its end nobody knows what the rest would have brought.
        Verdict verdict =
                switch (run.outcome()) {
                    case FINISHED -> Verdicts.of(findings);
                    case CANCELLED -> worstOf(Verdict.NOT_ESTABLISHED, Verdicts.of(findings));
                    case NOT_CONVERGED -> worstOf(Verdict.NOT_CONVERGED, Verdicts.of(findings));
                };
        List<String> notes = new ArrayList<>();
        others.forEach(g -> notes.add(g.words(g.gas(), "")));
        notes.addAll(notes(whole, instants));
        notes.addAll(run.remarks());
        return new RunResult(
                Outcome.valueOf(run.outcome().name()),
                run.note(),
                verdict,
                settings.judge() ? line(verdict, findings, clock, run) : "not judged",
                phases(clock, moments, run),
                channels,
                overlays(settings.measured(), channels),
                moments(whole, clock, moments, run),
                moments.least(),
                timed,
                gas(whole, clock, run, others),
                new Closure(mass, energy, run.massDefect(), run.energyDefect()),
                List.copyOf(notes));
    }

    private static double begin(DutyClock clock, String phase) {
        int leg = 0;
        while (!clock.legs().get(leg).name().equals(phase)) {
            leg++;
        }
        return clock.start(leg);
    }

    private static String line(Verdict verdict, List<Finding> findings, DutyClock clock, DutyRun.Result run) {
        String line = Verdicts.line(findings, false);
        if (run.outcome() == DutyRun.Outcome.FINISHED) {
            return line;
        }
        int last = clock.legs().size() - 1;
        String ended = String.format(
                Locale.ROOT,
                "%s at %.4g s of %.4g s",
                run.outcome() == DutyRun.Outcome.CANCELLED ? "the run was stopped" : "no solution was found",
                run.instants().isEmpty()
                        ? 0
                        : run.instants().get(run.instants().size() - 1).time(),
                clock.start(last) + clock.legs().get(last).duration());
        return verdict == Verdicts.of(findings)
                ? line + "; " + ended + ", what comes after is not known"
                : verdict.word() + ": " + ended + "; until then " + line;
    }

    private static Verdict worstOf(Verdict a, Verdict b) {
        return a.compareTo(b) <= 0 ? a : b;
    }

    private static List<String> notes(Case whole, List<Instant> instants) {
        List<String> notes = new ArrayList<>();
        Supply supply = whole.supply();
        if (supply == null) {
            notes.add(
                    "The case states no supply: the supply cavities keep the pressures of the phases, and no bottle empties.");
        } else if (supply.bottles() != null) {
            if (Double.isNaN(supply.bottles().wallConductance())) {
                notes.add(
                        "No wall conductance is stated: the bottles empty without heat, which is the cold, safe side.");
            } else if (Double.isNaN(supply.bottles().wallHeatCapacity())) {
                notes.add(
                        "No wall heat capacity is stated: the bottles' walls keep their temperature, which is the warm side.");
            }
        }
        if (supply != null && supply.bottles() == null && (supply.plant() != null || supply.liquid() != null)) {
            double most = DutyRun.greatestFlow(supply);
            if (Double.isNaN(most)) {
                notes.add(
                        "The greatest flow of the supply is not stated: it is taken to give whatever the purge takes.");
            } else if (instants.stream().anyMatch(i -> held(i, most))) {
                notes.add(
                        supply.plant() != null
                                ? "At its greatest flow the main's pressure is taken to fall until the purge takes no more."
                                : "At the most the vaporiser can warm, the flow is held there and the pressure falls; were it not"
                                        + " held, colder gas or liquid would come, which is not followed.");
            }
        }
        if (instants.stream().anyMatch(Instant::inTransient)) {
            notes.add(
                    "While volumes fill or empty after a valve has moved, open gaps are judged as they stand, not opened.");
        }
        notes.add(
                "Between valve movements the network is taken as settled at each moment; boundaries that change within"
                        + " milliseconds are not seen.");
        return notes;
    }

    private static List<PhaseUse> phases(DutyClock clock, Moments moments, DutyRun.Result run) {
        List<PhaseUse> out = new ArrayList<>();
        List<Instant> all = run.instants();
        for (int leg = 0; leg < run.used().size(); leg++) {
            double start = clock.start(leg);
            double end = start;
            double peak = Double.NaN;
            double bottle = Double.NaN;
            Finding least = null;
            double when = Double.NaN;
            List<Finding> found = new ArrayList<>();
            boolean any = false;
            for (int i = 0; i < all.size(); i++) {
                Instant m = all.get(i);
                if (m.leg() != leg) {
                    continue;
                }
                any = true;
                end = m.time();
                peak = Double.isNaN(peak) ? m.flow() : Math.max(peak, m.flow());
                bottle = m.bank() < 0 ? Double.NaN : m.banks().get(m.bank()).pressure();
                for (Finding f : moments.at(i).values()) {
                    found.add(f);
                    if (Moments.continuous(f) && (least == null || f.margin() < least.margin())) {
                        least = f;
                        when = m.time();
                    }
                }
            }
            if (!any) {
                continue;
            }
            double gas = run.used().get(leg);
            out.add(new PhaseUse(
                    clock.legs().get(leg).name(),
                    start,
                    end,
                    gas,
                    end > start ? gas / (end - start) : peak,
                    peak,
                    bottle,
                    Verdicts.of(found),
                    least == null ? Double.NaN : least.margin(),
                    least == null ? "" : least.id().substring(0, least.id().indexOf(':')),
                    least == null ? "" : least.where(),
                    when));
        }
        return List.copyOf(out);
    }

    private List<Channel> channels(Case whole, RunSettings settings, Moments moments, DutyRun.Result run) {
        List<Instant> all = run.instants();
        double[] t = all.stream().mapToDouble(Instant::time).toArray();
        List<Channel> out = new ArrayList<>();
        int banks = run.bottles().size();
        for (int b = 0; b < banks; b++) {
            int k = b;
            String name = banks == 1 ? "bottle" : "bank " + (b + 1);
            String at = "/supply/bottles";
            add(out, t, all, name + " pressure", Kind.BOTTLE_PRESSURE, at + "/pressure", "Pa", i -> i.banks()
                    .get(k)
                    .pressure());
            add(out, t, all, name + " temperature", Kind.BOTTLE_TEMPERATURE, at + "/temperature", "K", i -> i.banks()
                    .get(k)
                    .temperature());
            add(out, t, all, name + " wall temperature", Kind.WALL_TEMPERATURE, at, "K", i -> i.banks()
                    .get(k)
                    .wall());
        }
        if (banks > 0) {
            add(out, t, all, "gas left", Kind.GAS_LEFT, "/supply/bottles", "kg", i -> i.banks().stream()
                    .mapToDouble(BottleState::mass)
                    .sum());
        }
        add(out, t, all, "gas used", Kind.GAS_USED, "/supply", "kg", Instant::used);
        add(out, t, all, "purge flow", Kind.PURGE_FLOW, PURGE_FLOW, "kg/s", Instant::flow);
        add(out, t, all, "speed", Kind.SPEED, "/rotor/speed", "rad/s", i -> i.model()
                .rotor()
                .speed());
        for (Cavity c : whole.cavities()) {
            if (settings.cavities() || !c.fixed()) {
                String n = c.name();
                String at = "/cavities/" + n;
                add(out, t, all, "pressure of " + n, Kind.PRESSURE, at + "/pressure", "Pa", i -> i.solve()
                        .cavities()
                        .get(n)
                        .state()
                        .pressure());
                add(out, t, all, "temperature of " + n, Kind.TEMPERATURE, at + "/temperature", "K", i -> i.solve()
                        .cavities()
                        .get(n)
                        .state()
                        .temperature());
            }
        }
        if (settings.cavities()) {
            whole.passages()
                    .forEach(p -> add(
                            out,
                            t,
                            all,
                            "flow of " + p.name(),
                            Kind.FLOW,
                            "/passages/" + p.name() + "/flow",
                            "kg/s",
                            i -> i.solve().passages().containsKey(p.name())
                                    ? i.solve().passages().get(p.name()).flow().massFlow()
                                    : 0));
        }
        Set<String> keys = new LinkedHashSet<>();
        Map<String, String> places = new LinkedHashMap<>();
        for (int i = 0; i < all.size(); i++) {
            moments.at(i).forEach((key, f) -> {
                if (!Double.isNaN(f.margin())) {
                    keys.add(key);
                    places.putIfAbsent(key, f.where());
                }
            });
        }
        for (String key : keys) {
            double[] v = new double[t.length];
            for (int i = 0; i < v.length; i++) {
                Finding f = moments.at(i).get(key);
                v[i] = f == null ? Double.NaN : f.margin();
            }
            out.add(new Channel(key, Kind.MARGIN, places.get(key), "1", t, v));
        }
        return List.copyOf(out);
    }

    private static void add(
            List<Channel> out,
            double[] t,
            List<Instant> all,
            String name,
            Kind kind,
            String place,
            String unit,
            ToDoubleFunction<Instant> value) {
        out.add(new Channel(
                name, kind, place, unit, t, all.stream().mapToDouble(value).toArray()));
    }

    private static List<Overlay> overlays(List<Channel> measured, List<Channel> computed) {
        List<Overlay> out = new ArrayList<>();
        for (Channel m : measured) {
            Channel own = computed.stream()
                    .filter(c -> !m.place().isEmpty() && c.place().equals(m.place()))
                    .findFirst()
                    .orElse(null);
            double sum = 0;
            double squares = 0;
            double most = 0;
            double when = Double.NaN;
            int n = 0;
            if (own != null) {
                double end = own.time(own.size() - 1);
                for (int i = 0; i < m.size(); i++) {
                    if (m.time(i) < own.time(0) || m.time(i) > end) {
                        continue;
                    }
                    double d = m.value(i) - own.at(m.time(i));
                    if (Double.isNaN(d)) {
                        continue;
                    }
                    sum += d;
                    squares += d * d;
                    n++;
                    if (Math.abs(d) >= Math.abs(most)) {
                        most = d;
                        when = m.time(i);
                    }
                }
            }
            out.add(new Overlay(
                    m,
                    own == null ? "" : own.name(),
                    n == 0 ? Double.NaN : sum / n,
                    n == 0 ? Double.NaN : Math.sqrt(squares / n),
                    n == 0 ? Double.NaN : most,
                    when));
        }
        return List.copyOf(out);
    }

    /** True when a main is at the most it can give; false where nothing limits it. */
    private static boolean held(Instant at, double most) {
        return at.flow() >= most * (1 - 1e-3);
    }

    private static List<Moment> moments(Case whole, DutyClock clock, Moments judged, DutyRun.Result run) {
        List<Moment> out = new ArrayList<>();
        List<Instant> all = run.instants();
        int leg = -1;
        for (int i = 0; i < all.size(); i++) {
            Instant now = all.get(i);
            while (leg < now.leg()) {
                leg++;
                String name = clock.legs().get(leg).name();
                out.add(new Moment(clock.start(leg), Event.PHASE, name + " begins", "/duty/" + name));
            }
            boolean first = i == 0;
            Instant before = first ? now : all.get(i - 1);
            double most = DutyRun.greatestFlow(whole.supply());
            if (held(now, most) && (first || !held(before, most))) {
                out.add(new Moment(
                        now.time(),
                        Event.FLOW_LIMIT,
                        "the supply gives no more than its greatest flow: its pressure falls",
                        whole.supply().plant() != null ? "/supply/plant" : "/supply/liquid"));
            }
            if (now.droppedOut() && (first || !before.droppedOut())) {
                out.add(new Moment(
                        now.time(),
                        Event.DROPOUT,
                        "the regulator drops out: its inlet is too near its outlet",
                        "/supply/regulator"));
            }
            if (first) {
                continue;
            }
            Supply supply = whole.supply();
            if (supply != null && supply.bottles() != null && now.bank() >= 0 && before.bank() == now.bank()) {
                double empty = supply.bottles().unusablePressure();
                if (now.banks().get(now.bank()).pressure() < empty
                        && before.banks().get(now.bank()).pressure() >= empty) {
                    out.add(new Moment(
                            now.time(),
                            Event.EMPTY,
                            "bank " + (now.bank() + 1) + " counts as empty",
                            "/supply/bottles"));
                }
            }
            for (Map.Entry<String, Finding> e : judged.at(i).entrySet()) {
                Finding f = e.getValue();
                Finding last = judged.at(i - 1).get(e.getKey());
                double was = last == null ? Double.NaN : last.margin();
                if (f.margin() < 0 && !(was < 0)) {
                    double share = was >= 0 ? was / (was - f.margin()) : 1;
                    out.add(new Moment(
                            before.time() + share * (now.time() - before.time()),
                            Event.CRITERION_LOST,
                            e.getKey() + " is lost",
                            f.where()));
                } else if (f.margin() >= 0 && was < 0) {
                    double share = was / (was - f.margin());
                    out.add(new Moment(
                            before.time() + share * (now.time() - before.time()),
                            Event.CRITERION_BACK,
                            e.getKey() + " is met again",
                            f.where()));
                }
            }
        }
        run.switches()
                .forEach(s -> out.add(new Moment(
                        s.time(),
                        Event.BANK_SWITCH,
                        "bank " + (s.from() + 1) + " is down to its least pressure, bank " + (s.to() + 1)
                                + " takes over",
                        "/supply/bottles")));
        out.sort(java.util.Comparator.comparingDouble(Moment::time));
        return List.copyOf(out);
    }

    private Gas gas(Case whole, DutyClock clock, DutyRun.Result run, List<OtherSources.Given> others) {
        Map<String, Double> elsewhere = new LinkedHashMap<>();
        others.forEach(g -> elsewhere.put(g.cavity(), g.gas()));
        List<Instant> all = run.instants();
        Supply supply = whole.supply();
        double used = all.isEmpty() ? 0 : all.get(all.size() - 1).used();
        if (supply == null) {
            return new Gas("", "", Double.NaN, used, Double.NaN, Double.NaN, Double.NaN, List.of(), elsewhere);
        }
        PureFluid gas = gas(whole, supply, engine);
        if (run.bottles().isEmpty() || all.isEmpty()) {
            return new Gas(
                    supply.gas(),
                    gas.name(),
                    Double.NaN,
                    used,
                    Double.NaN,
                    Double.NaN,
                    Double.NaN,
                    List.of(),
                    elsewhere);
        }
        double least = Double.isNaN(supply.bottles().unusablePressure())
                ? 0
                : supply.bottles().unusablePressure();
        for (Instant i : all) {
            least = Math.max(least, leastInlet(supply, clock, i));
        }
        double air = whole.surroundings().temperature();
        double start =
                all.get(0).banks().stream().mapToDouble(BottleState::mass).sum();
        List<BottleState> end = all.get(all.size() - 1).banks();
        double left = end.stream().mapToDouble(BottleState::mass).sum();
        double usable = 0;
        List<Double> settled = new ArrayList<>();
        for (int b = 0; b < end.size(); b++) {
            Bottles bank = run.bottles().get(b);
            settled.add(bank.settle(end.get(b), air).pressure());
            if (least > 0) {
                usable += Math.max(0, end.get(b).mass() - bank.held(least, air));
            }
        }
        return new Gas(
                supply.gas(),
                gas.name(),
                start,
                used,
                left,
                least > 0 ? usable : Double.NaN,
                least > 0 ? least : Double.NaN,
                List.copyOf(settled),
                elsewhere);
    }

    private static double leastInlet(Supply supply, DutyClock clock, Instant i) {
        if (supply.regulator() == null || !(i.flow() > 0)) {
            return 0;
        }
        double set = clock.setPressure(i.leg(), i.time() - clock.start(i.leg()));
        return SupplyFeed.leastInlet(supply, set, i.flow());
    }
}
