package purgewright.hazard.service;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Collection;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.Set;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import java.util.concurrent.atomic.AtomicInteger;
import java.util.function.UnaryOperator;
import java.util.stream.Stream;
import purgewright.fluids.PropertyEngine;
import purgewright.fluids.mixture.StreamDefinition;
import purgewright.fluids.unit.DidYouMean;
import purgewright.fluids.unit.UnitException;
import purgewright.fluids.unit.UnitSystem;
import purgewright.fluids.unit.Units;
import purgewright.hazard.barrier.BarrierLayout;
import purgewright.hazard.criteria.Assumptions;
import purgewright.hazard.criteria.CountRules;
import purgewright.hazard.criteria.Criteria;
import purgewright.hazard.criteria.Limit;
import purgewright.hazard.criteria.MaterialRules;
import purgewright.hazard.criteria.NoticeRules;
import purgewright.hazard.criteria.Preset;
import purgewright.hazard.criteria.Setting;
import purgewright.hazard.criteria.SupplyRules;
import purgewright.hazard.deficiency.Release;
import purgewright.hazard.deficiency.RoomHistory;
import purgewright.hazard.deficiency.RoomMixture;
import purgewright.hazard.fault.Fault;
import purgewright.hazard.fault.FaultResult;
import purgewright.hazard.fault.Faults;
import purgewright.hazard.fault.Instrument;
import purgewright.hazard.fault.Scenario;
import purgewright.hazard.finding.Cautions;
import purgewright.hazard.finding.Finding;
import purgewright.hazard.finding.Scene;
import purgewright.hazard.finding.Verdicts;
import purgewright.hazard.service.CheckResult.PhaseResult;
import purgewright.hazard.sizing.BarrierPrice;
import purgewright.hazard.sizing.Interlocks;
import purgewright.hazard.sizing.Parameter;
import purgewright.hazard.sizing.PurgeWindow;
import purgewright.hazard.sizing.Redline;
import purgewright.hazard.sizing.SizeResult;
import purgewright.hazard.sizing.WearLimit;
import purgewright.sealflow.Notice;
import purgewright.sealflow.campaign.DutyRun;
import purgewright.sealflow.casefile.CaseDocument;
import purgewright.sealflow.casefile.CaseException;
import purgewright.sealflow.casefile.CaseProblem;
import purgewright.sealflow.model.Case;
import purgewright.sealflow.model.DutyPhase;
import purgewright.sealflow.model.PassageSpec;
import purgewright.sealflow.model.Role;
import purgewright.sealflow.model.Supply;
import purgewright.sealflow.network.Explanation;
import purgewright.sealflow.network.NetworkSolver;
import purgewright.sealflow.network.SolveResult;
import purgewright.sealflow.network.SolveResult.Converged;
import purgewright.sealflow.network.SolverSettings;
import purgewright.sealflow.passage.PassageType.SealKind;

/**
 * The one door to everything that is done with a case.
 *
 * <p>Cancel by interrupting the calling thread: a {@link java.util.concurrent.CancellationException} comes back. A case that cannot be
 * read is a {@link purgewright.sealflow.casefile.CaseException}; a solve that fails is a finding, never an exception.
 *
 * <p>Threads may share one service. Results do not depend on the number of threads.
 */
public final class CaseService implements AutoCloseable {
    /** Name of the single phase of a case without a duty. */
    public static final String STEADY = "steady";

    private final PropertyEngine engine;
    /** The product's own solver: what every solve runs on, and whose matrix explains a cavity. */
    private final NetworkSolver network;

    private final PhaseSolve points;
    private final ExecutorService pool;

    /**
     * A service on the network solver.
     *
     * @param threads size of the pool for sweeps, at least 1
     */
    public CaseService(PropertyEngine engine, int threads) {
        this(engine, threads, new NetworkSolver(engine, SolverSettings.DEFAULT), null);
    }

    /** A service on another solver: for tests and studies. */
    public CaseService(PropertyEngine engine, int threads, CaseSolver solver) {
        this(engine, threads, new NetworkSolver(engine, SolverSettings.DEFAULT), solver);
    }

    private CaseService(PropertyEngine engine, int threads, NetworkSolver network, CaseSolver otherSolverOrNull) {
        if (threads < 1) {
            throw new IllegalArgumentException("threads " + threads + " is below 1");
        }
        this.engine = engine;
        this.network = network;
        this.points =
                otherSolverOrNull == null ? new PhaseSolve(engine, network) : new PhaseSolve(engine, otherSolverOrNull);
        AtomicInteger number = new AtomicInteger();
        this.pool = Executors.newFixedThreadPool(threads, r -> {
            Thread t = new Thread(r, "purgewright-" + number.incrementAndGet());
            t.setDaemon(true);
            return t;
        });
    }

    /** Reads a case file; @throws purgewright.sealflow.casefile.CaseException with all its problems. */
    public CaseDocument open(Path file) {
        return CaseDocument.read(file);
    }

    /** The property engine in use. */
    public PropertyEngine engine() {
        return engine;
    }

    /** Solves every phase of a case and judges it. */
    public CheckResult check(CaseDocument document, CheckSettings settings, Progress progress) {
        return check(document, null, settings, progress);
    }

    /**
     * The same, each phase started from the phase of the same name of an earlier result: for a case of which little has changed since.
     * Where that does not lead to a solution the solver starts afresh, so that the answer does not depend on what was known before
     * (to the closure of the balances, 1e-9 of the largest flow).
     *
     * @param previousOrNull result of this case or one like it; null to start cold
     */
    public CheckResult check(
            CaseDocument document, CheckResult previousOrNull, CheckSettings settings, Progress progress) {
        Map<String, Case> models = models(document, settings);
        return check(document, document.toCase(), models, starts(previousOrNull), settings.bounds(), progress);
    }

    /**
     * Where the solves of a phase start; either may be null.
     *
     * @param opened with all open barrier seals worn
     */
    private record Start(Converged stated, Converged opened) {
        private static final Start NONE = new Start(null, null);

        private static Start of(SolveResult stated, SolveResult opened) {
            return stated instanceof Converged c ? new Start(c, opened instanceof Converged o ? o : null) : NONE;
        }
    }

    private static Map<String, Start> starts(CheckResult previousOrNull) {
        Map<String, Start> out = new LinkedHashMap<>();
        if (previousOrNull != null) {
            for (PhaseResult phase : previousOrNull.phases()) {
                Start start = Start.of(phase.solve(), phase.opened());
                if (start.stated() != null) {
                    out.put(phase.name(), start);
                }
            }
        }
        return out;
    }

    /**
     * Why a cavity stands where it stands: its balance, and what moves its pressure most for small changes. Solves with the network
     * solver whatever solver the service was made with, since the slopes are those of the network's own matrix.
     *
     * @param phaseOrNull name of a phase; null for the first
     * @throws IllegalArgumentException when the case has no such cavity or phase
     */
    public CavityExplanation explain(CaseDocument document, String cavity, String phaseOrNull) {
        Map<String, Case> models =
                models(document, new CheckSettings(phaseOrNull == null ? List.of() : List.of(phaseOrNull), false));
        Map.Entry<String, Case> first = models.entrySet().iterator().next();
        return explain(first.getValue(), cavity, first.getKey());
    }

    /** The same for a model at hand. */
    CavityExplanation explain(Case model, String cavity, String phase) {
        if (model.cavity(cavity) == null) {
            throw new IllegalArgumentException("no cavity '" + cavity + "'");
        }
        SolveResult result = new PhaseSolve(engine, network).solve(model, null);
        if (!(result instanceof Converged converged)) {
            return new CavityExplanation(cavity, phase, null, ((SolveResult.NotConverged) result).detail());
        }
        try {
            return new CavityExplanation(cavity, phase, Explanation.of(network, model, converged, cavity), "");
        } catch (IllegalArgumentException e) {
            // A singular matrix at the solution, say: the check still stands, only the slopes are not known.
            return new CavityExplanation(cavity, phase, null, String.valueOf(e.getMessage()));
        }
    }

    /** The phases of a case in the order of the duty, as cases of their own. */
    static Map<String, Case> models(CaseDocument document, CheckSettings settings) {
        Case whole = document.toCase();
        checkCriteria(document, whole);
        Map<String, Case> models = new LinkedHashMap<>();
        if (whole.duty().isEmpty()) {
            models.put(STEADY, whole);
        }
        for (DutyPhase phase : whole.duty()) {
            Case model = document.toCase(phase);
            if (!model.criteria().equals(whole.criteria())) {
                String place = "/duty/" + phase.name() + "/set";
                throw new CaseException(List.of(new CaseProblem(
                        "OUT_OF_RANGE",
                        place,
                        document.line(place),
                        0,
                        "the phase " + phase.name()
                                + " changes criteria; what separation needs is the same in every phase",
                        "state the criteria once, under \"criteria\"")));
            }
            models.put(phase.name(), model);
        }
        if (!settings.phases().isEmpty()) {
            models.keySet().retainAll(settings.phases());
            if (models.isEmpty()) {
                throw new IllegalArgumentException("no phase of the case is among " + settings.phases());
            }
        }
        return models;
    }

    /** A criterion that there is none of is an error of the case, like any other unknown field. */
    private static void checkCriteria(CaseDocument document, Case model) {
        List<String> known = new ArrayList<>();
        for (Limit limit : Limit.values()) {
            known.add(limit.key());
        }
        known.add(Criteria.MONITORED);
        known.add(Criteria.PRESET);
        List<CaseProblem> problems = new ArrayList<>();
        for (String key : Criteria.of(model.criteria()).unknown()) {
            String place = "/criteria/" + key;
            boolean badValue = known.contains(key);
            problems.add(new CaseProblem(
                    badValue ? "WRONG_TYPE" : "UNKNOWN_FIELD",
                    place,
                    document.line(place),
                    0,
                    badValue
                            ? Criteria.PRESET.equals(key)
                                    ? "there is no such preset of criteria"
                                    : "the criterion \"" + key
                                            + "\" must be one quantity, or an object of value and origin"
                            : "there is no criterion \"" + key + "\"",
                    badValue
                            ? Criteria.find(key) == null
                                    ? Criteria.PRESET.equals(key)
                                            ? "one of: " + String.join(", ", Preset.names())
                                            : "true or false"
                                    : "in " + Criteria.find(key).dimension().si()
                            : DidYouMean.nearest(key, known)
                                    .map(n -> "did you mean \"" + n + "\"?")
                                    .orElse("see the guide's page on criteria")));
        }
        for (String key : model.criteria().keySet()) {
            Limit limit = Criteria.find(key);
            if (limit != null && Criteria.of(model.criteria()).stated(limit)) {
                wrongValue(document, limit, Criteria.of(model.criteria()).get(limit))
                        .ifPresent(problems::add);
            }
        }
        if (!problems.isEmpty()) {
            throw new CaseException(problems);
        }
    }

    /** A limit in a unit of something else, or beyond what means something: it would be met by anything. */
    private static Optional<CaseProblem> wrongValue(CaseDocument document, Limit limit, double read) {
        String place = "/criteria/" + limit.key();
        String typed =
                document.text(place).or(() -> document.text(place + "/value")).orElse("");
        double value;
        try {
            // A number without a unit would be taken for pascals or seconds.
            value = Units.parse(typed, limit.dimension());
        } catch (UnitException e) {
            return Optional.of(
                    new CaseProblem(e.key().name(), place, document.line(place), 0, e.getMessage(), e.suggestion()));
        }
        if (!(Math.abs(value - read) <= 1e-9 * Math.abs(value))) {
            return Optional.of(new CaseProblem(
                    "WRONG_DIMENSION",
                    place,
                    document.line(place),
                    0,
                    "\"" + typed + "\" reads in two ways here, where " + Units.describe(limit.dimension())
                            + " is expected",
                    "write it like \"" + Units.example(limit.dimension()) + "\""));
        }
        if (!(value >= limit.lowest() && value <= limit.highest())) {
            boolean low = !(value >= limit.lowest());
            return Optional.of(new CaseProblem(
                    "OUT_OF_RANGE",
                    place,
                    document.line(place),
                    0,
                    "\"" + typed + "\" is " + (low ? "below " : "above ")
                            + Units.format(low ? limit.lowest() : limit.highest(), limit.dimension(), UnitSystem.SI, 3)
                            + ": as " + limit.key() + " it would mean nothing",
                    limit.description()));
        }
        return Optional.empty();
    }

    /** The same for models at hand: for tests and for cases that were never text. */
    CheckResult check(CaseDocument document, Case whole, Map<String, Case> models, Progress progress) {
        return check(document, whole, models, Map.of(), true, progress);
    }

    /** A check with the solved points it rests on, by phase: what a fault sweep starts from. */
    private record Checked(CheckResult result, Map<String, PhaseSolve.Point> points) {}

    private CheckResult check(
            CaseDocument document,
            Case whole,
            Map<String, Case> models,
            Map<String, Start> starts,
            boolean bounds,
            Progress progress) {
        return checked(document, whole, models, starts, Map.of(), Set.of(), bounds, progress)
                .result();
    }

    /**
     * @param known points that are solved already, by phase: judged as they are
     * @param regulatorFree phases in which the pressure that the supply holds is chosen, and its regulator set for it
     */
    private Checked checked(
            CaseDocument document,
            Case whole,
            Map<String, Case> models,
            Map<String, Start> starts,
            Map<String, PhaseSolve.Point> known,
            Set<String> regulatorFree,
            boolean bounds,
            Progress progress) {
        List<PhaseResult> phases = new ArrayList<>();
        Map<String, BarrierLayout> layouts = new LinkedHashMap<>();
        List<Finding> all = new ArrayList<>();
        List<Notice> notices = new ArrayList<>();
        List<BarrierPrice> price = new ArrayList<>();
        Map<String, PhaseSolve.Point> solved = new LinkedHashMap<>();
        Start last = Start.NONE;
        double oxygen = Release.FRESH;
        RoomMixture room = RoomMixture.FRESH_AIR;
        int done = 0;
        for (Map.Entry<String, Case> e : models.entrySet()) {
            progress.at((double) done / models.size(), e.getKey());
            Criteria criteria = Criteria.of(e.getValue().criteria());
            Start start = starts.getOrDefault(e.getKey(), last);
            PhaseSolve.Point point = known.containsKey(e.getKey())
                    ? known.get(e.getKey())
                    : points.judge(e.getValue(), start.stated(), start.opened(), Scene.of(e.getKey()), criteria);
            SolveResult opened =
                    point.setting() == null ? null : point.setting().opened();
            solved.put(e.getKey(), point);
            if (point.converged() != null) {
                last = Start.of(point.converged(), opened);
                notices.addAll(point.converged().notices());
            }
            if (point.setting() != null) {
                layouts.put(e.getKey(), point.setting().layout());
                price.add(Price.of(
                        e.getKey(),
                        e.getValue(),
                        point.converged(),
                        point.setting().layout(),
                        point.setting().streams()));
            }
            List<Finding> found = new ArrayList<>(Evidences.of(points, engine.name(), point, criteria, bounds));
            if (solved.size() == 1) {
                found.addAll(Release.bankBreak(e.getValue(), Scene.of(e.getKey())));
            }
            if (point.converged() != null) {
                Map<String, Double> vented = Purge.ventedMoles(e.getValue(), point.converged());
                double duration = duration(whole, e.getKey());
                found.addAll(Release.judge(e.getValue(), vented, duration, Scene.of(e.getKey()), oxygen));
                oxygen = Release.after(e.getValue(), vented, duration, oxygen);
                RoomMixture then = room.after(e.getValue(), Purge.vented(e.getValue(), point.converged()), duration);
                found.addAll(room.judge(then, Double.isNaN(duration), Scene.of(e.getKey())));
                room = then;
            }
            if (point.setting() != null) {
                found.addAll(MaterialRules.hydrogen(point.setting(), materials(document)));
                found.addAll(SupplyRules.delivered(
                        point.setting(), phase(whole, e.getKey()), regulatorFree.contains(e.getKey())));
            }
            boolean everyPhase = solved.size() == models.size();
            if (everyPhase && nothingToKeepApart(solved.values())) {
                found.add(CountRules.nothingToKeepApart(Scene.of(e.getKey())));
            }
            found = Waivers.apply(whole, Verdicts.sorted(found));
            phases.add(new PhaseResult(e.getKey(), e.getValue(), point.solve(), opened, found));
            all.addAll(found);
            done++;
        }
        String swirl = bounds ? SwirlNeglected.line(points, engine.name(), whole, solved) : null;
        progress.at(1, "done");
        List<Finding> findings = Verdicts.sorted(all, List.copyOf(models.keySet()));
        List<Setting> settings = settings(solved.values());
        List<String> cautions = joined(
                notLookedAt(whole, models.keySet()),
                cautions(whole, notices),
                Assumptions.assumedPressures(settings),
                Assumptions.otherSources(settings),
                tripped(solved),
                Waivers.idle(whole, models.keySet(), findings));
        CheckResult result = new CheckResult(
                document,
                whole,
                engine.name(),
                Verdicts.of(findings),
                Verdicts.line(findings, false),
                List.copyOf(phases),
                Purge.summary(phases, layouts),
                List.copyOf(price),
                findings,
                swirl == null ? cautions : joined(cautions, List.of(swirl)));
        return new Checked(result, solved);
    }

    /**
     * Fault sweep: every automatic and stated single fault, and pairs when asked for, in every phase, on the pool. The order of the
     * rows never depends on the threads. An interrupt once the case as stated is solved gives the scenarios done so far, marked incomplete.
     */
    public FaultResult fail(CaseDocument document, FailSettings settings, Progress progress) {
        Case whole = document.toCase();
        Map<String, Case> models = models(document, new CheckSettings(settings.phases(), false));
        return fail(document, whole, models, rebuild(document, whole), settings, UnaryOperator.identity(), progress);
    }

    /** The case of a phase with values of the document replaced. */
    private static FaultSweep.Rebuild rebuild(CaseDocument document, Case whole) {
        Map<String, DutyPhase> duty = new LinkedHashMap<>();
        whole.duty().forEach(p -> duty.put(p.name(), p));
        return (phase, set) -> {
            CaseDocument changed = document;
            for (Map.Entry<String, String> e : set.entrySet()) {
                changed = opened(changed, e.getKey()).with(e.getKey(), e.getValue());
            }
            return duty.containsKey(phase) ? changed.toCase(duty.get(phase)) : changed.toCase();
        };
    }

    /** The document without the worn clearance of a passage of which a fault sets a value: the fault may well open it further. */
    private static CaseDocument opened(CaseDocument document, String place) {
        String[] parts = place.split("/", -1);
        if (parts.length < 4 || !"passages".equals(parts[1])) {
            return document;
        }
        String worn = "/passages/" + parts[2] + "/worn clearance";
        return place.equals(worn) || document.text(worn).isEmpty() ? document : document.without(worn);
    }

    /** The same for models at hand. */
    FaultResult fail(
            Case whole,
            Map<String, Case> models,
            FaultSweep.Rebuild rebuild,
            FailSettings settings,
            Progress progress) {
        return fail(null, whole, models, rebuild, settings, UnaryOperator.identity(), progress);
    }

    /**
     * The same for some of the scenarios.
     *
     * @param which of all scenarios, in their order
     */
    FaultResult fail(
            Case whole,
            Map<String, Case> models,
            FaultSweep.Rebuild rebuild,
            FailSettings settings,
            UnaryOperator<List<Scenario>> which,
            Progress progress) {
        return fail(null, whole, models, rebuild, settings, which, progress);
    }

    private FaultResult fail(
            CaseDocument documentOrNull,
            Case whole,
            Map<String, Case> models,
            FaultSweep.Rebuild rebuild,
            FailSettings settings,
            UnaryOperator<List<Scenario>> which,
            Progress progress) {
        BarrierLayout layout = BarrierLayout.of(whole, points.streams(whole.streams()), Faults::kind);
        List<Fault> faults = Faults.of(whole, layout, Criteria.of(whole.criteria()));
        // The points are what every scenario starts from. As stated it is judged like a check (ends of the bands, room,
        // waivers), which
        // takes longer than the points do: beside the scenarios.
        Checked stated = checked(null, whole, models, Map.of(), Map.of(), Set.of(), false, Progress.NONE);
        Future<CheckResult> check = pool.submit(
                () -> checked(documentOrNull, whole, models, Map.of(), stated.points(), Set.of(), true, Progress.NONE)
                        .result());
        Set<String> leftOut = leftOut(Faults.automatic(whole, layout, Criteria.of(whole.criteria())), faults);
        return new FaultSweep(points, pool)
                .run(
                        whole,
                        models,
                        stated.points(),
                        () -> Pool.answer(check),
                        rebuild,
                        which.apply(Scenario.of(faults, settings.pairs() || Faults.pairs(whole))),
                        settings,
                        joined(
                                keptOut(leftOut),
                                Faults.openedWithoutGap(whole, Criteria.of(whole.criteria())),
                                assumedInstruments(whole)),
                        progress)
                .without(leftOut.size());
    }

    /** A phase of the duty by name; null for a case without one. */
    private static DutyPhase phase(Case whole, String name) {
        return whole.duty().stream()
                .filter(p -> p.name().equals(name))
                .findFirst()
                .orElse(null);
    }

    /** What the rotor's segments are made of, by name, where the case says it. */
    private static Map<String, String> materials(CaseDocument documentOrNull) {
        Map<String, String> out = new LinkedHashMap<>();
        if (documentOrNull == null) {
            return out;
        }
        for (String at : documentOrNull.children("/rotor/segments")) {
            String place = "/rotor/segments/" + at;
            documentOrNull
                    .text(place + "/material")
                    .ifPresent(m -> out.put(documentOrNull.text(place + "/name").orElse(at), m));
        }
        return out;
    }

    /** Phases of the duty that were left out; one line, or none. */
    private static List<String> notLookedAt(Case whole, Set<String> phases) {
        List<String> left = whole.duty().stream()
                .map(DutyPhase::name)
                .filter(p -> !phases.contains(p))
                .toList();
        return left.isEmpty()
                ? List.of()
                : List.of("Only some phases were looked at; nothing is said of " + String.join(", ", left) + ".");
    }

    /** Automatic faults that the case keeps out of the sweep, by name. */
    private static Set<String> leftOut(List<Fault> all, List<Fault> wanted) {
        Set<String> names = new LinkedHashSet<>();
        all.forEach(f -> names.add(f.name()));
        wanted.forEach(f -> names.remove(f.name()));
        return names;
    }

    /** One line that names them, or none. */
    private static List<String> keptOut(Set<String> names) {
        return names.isEmpty()
                ? List.of()
                : List.of("The case keeps " + names.size() + " automatic fault" + (names.size() == 1 ? "" : "s")
                        + " out of the sweep: " + String.join(", ", names) + ".");
    }

    /** Redlines that are passed with nothing failed: what they cannot do; one line an instrument. */
    private static List<String> tripped(Map<String, PhaseSolve.Point> solved) {
        Map<String, List<String>> phases = new LinkedHashMap<>();
        solved.forEach((phase, point) -> {
            if (point.converged() != null && point.setting() != null) {
                Instrument.of(
                                point.model(),
                                point.setting().layout(),
                                point.setting().criteria())
                        .stream()
                        .filter(i -> i.tripped(point.converged()))
                        .forEach(i -> phases.computeIfAbsent(i.name(), n -> new ArrayList<>())
                                .add(phase));
            }
        });
        List<String> out = new ArrayList<>();
        phases.forEach((name, where) -> out.add("The redline of " + name + " is passed with nothing failed ("
                + String.join(", ", where) + "): it tells no fault there."));
        return out;
    }

    /** What "seen by" rests on where the case is silent. */
    private static List<String> assumedInstruments(Case whole) {
        return whole.extras().get("instruments") instanceof List<?> stated && !stated.isEmpty()
                ? List.of()
                : List.of(
                        "The case states no instruments: a pressure and a temperature in every free barrier, supply and drain"
                                + " cavity and a flow in every feed are assumed to be measured; what is seen, and in time, rests on that.");
    }

    /** The design that meets every criterion with the least of an objective; redlines, interlocks and wear limits of that design. */
    public SizeResult size(CaseDocument document, SizeSettings settings, Progress progress) {
        Case whole = document.toCase();
        Map<String, Case> models = models(document, new CheckSettings(settings.phases(), false));
        return size(document, whole, models, rebuild(document, whole), settings, progress);
    }

    /** The same for models at hand. */
    SizeResult size(Case whole, Map<String, Case> models, SizeSettings settings, Progress progress) {
        return size(null, whole, models, null, settings, progress);
    }

    private SizeResult size(
            CaseDocument document,
            Case whole,
            Map<String, Case> models,
            FaultSweep.Rebuild rebuild,
            SizeSettings settings,
            Progress progress) {
        DesignPoints designs = new DesignPoints(points, pool, whole, models);
        Sizing sizing = new Sizing(designs);
        List<Parameter> parameters = sizing.variables(settings).stream()
                .map(v -> Parameter.of(whole, v.place()))
                .toList();
        DesignPoints.Edit edit = sizing.edit(parameters);
        Set<String> regulatorFree = new LinkedHashSet<>();
        models.forEach((phase, model) -> {
            if (parameters.stream().anyMatch(p -> designs.applies(p, phase) && suppliesAt(p, model))) {
                regulatorFree.add(phase);
            }
        });
        List<String> cautions = cautions(whole, List.of());
        if (!regulatorFree.isEmpty() && whole.supply().regulator() != null) {
            cautions = joined(
                    cautions,
                    List.of(
                            "The regulator is taken to be set for the pressures found: set it higher by its droop and the"
                                    + " line's loss at the flow drawn."));
        }
        return sizing.size(
                settings,
                rebuild,
                design -> {
                    Map<String, Case> changed = new LinkedHashMap<>();
                    models.forEach((phase, model) -> changed.put(phase, edit.apply(phase, model, design)));
                    return checked(document, whole, changed, Map.of(), Map.of(), regulatorFree, true, Progress.NONE)
                            .result();
                },
                cautions,
                progress);
    }

    /** True for the pressure at which the supply holds a cavity. */
    private static boolean suppliesAt(Parameter p, Case model) {
        Supply supply = model.supply();
        if (supply == null || !p.section().equals("cavities") || !p.field().equals("pressure")) {
            return false;
        }
        try {
            return p.name().equals(DutyRun.cavity(model, supply));
        } catch (IllegalArgumentException unknown) {
            return false; // the check says so
        }
    }

    /** Margins of every criterion over two parameters, on the pool: the purge window. */
    public PurgeWindow map(CaseDocument document, MapSettings settings, Progress progress) {
        Case whole = document.toCase();
        Map<String, Case> models = models(document, new CheckSettings(settings.phases(), false));
        return new WindowMap(new DesignPoints(points, pool, whole, models), document).map(settings, progress);
    }

    /** The same for models at hand. */
    PurgeWindow map(Case whole, Map<String, Case> models, MapSettings settings, Progress progress) {
        return new WindowMap(new DesignPoints(points, pool, whole, models), null).map(settings, progress);
    }

    /** How far each barrier seal of the case as stated may wear, alone and all together, and how long that lasts. */
    public List<WearLimit> wear(CaseDocument document, CheckSettings settings) {
        return new Sizing(new DesignPoints(points, pool, document.toCase(), models(document, settings)))
                .wear(DesignPoints.Edit.NONE);
    }

    /** Redlines of the case as stated. */
    public List<Redline> redlines(CaseDocument document, CheckSettings settings) {
        return finder(document, settings).redlines();
    }

    /** Redlines of the case as stated, as a table for the test procedure. */
    public Interlocks interlocks(CaseDocument document, CheckSettings settings) {
        RedlineFinder finder = finder(document, settings);
        return finder.interlocks(finder.redlines());
    }

    /** Wear limits, and redlines with their interlocks, of the case as stated; what was not asked for is empty. */
    public CheckStudies studies(
            CaseDocument document, CheckSettings settings, boolean wear, boolean redlines, Progress progress) {
        List<Redline> found = List.of();
        Interlocks table = Interlocks.NONE;
        if (redlines) {
            progress.at(0, "redlines");
            RedlineFinder finder = finder(document, settings);
            found = finder.redlines();
            table = finder.interlocks(found);
        }
        List<WearLimit> limits = List.of();
        if (wear) {
            progress.at(0.5, "wear limits");
            limits = wear(document, settings);
        }
        progress.at(1, "done");
        return new CheckStudies(limits, found, table);
    }

    /** Names of the fixed cavities that give a case's purge gas, in the order of the case; by what the case says, nothing is solved. */
    public static List<String> purgeSources(CaseDocument document) {
        Case whole = document.toCase();
        List<String> out = new ArrayList<>();
        whole.cavities().stream()
                .filter(c -> c.fixed() && c.role() == Role.SUPPLY)
                .forEach(c -> out.add(c.name()));
        return out;
    }

    private RedlineFinder finder(CaseDocument document, CheckSettings settings) {
        return new RedlineFinder(
                new DesignPoints(points, pool, document.toCase(), models(document, settings)), DesignPoints.Edit.NONE);
    }

    /** Solves and judges points; for the services of this package. */
    PhaseSolve points() {
        return points;
    }

    /** The pool; for the services of this package. */
    ExecutorService pool() {
        return pool;
    }

    /** Oxygen in the case's room over the duty; null when the case states no room or no phase was solved. */
    public static RoomHistory room(CheckResult result) {
        List<RoomHistory.Phase> phases = new ArrayList<>();
        for (PhaseResult p : result.phases()) {
            if (p.solve() instanceof Converged c) {
                phases.add(new RoomHistory.Phase(
                        p.name(), duration(result.model(), p.name()), Purge.ventedMoles(p.model(), c)));
            }
        }
        return RoomHistory.of(result.model(), phases, Release.FRESH);
    }

    static double duration(Case whole, String phase) {
        return whole.duty().stream()
                .filter(p -> p.name().equals(phase))
                .mapToDouble(DutyPhase::duration)
                .findFirst()
                .orElse(Double.NaN);
    }

    private static List<Setting> settings(Collection<PhaseSolve.Point> phases) {
        return phases.stream()
                .map(PhaseSolve.Point::setting)
                .filter(Objects::nonNull)
                .toList();
    }

    /** True when every phase was solved, every stream is known, and no phase has a pair. */
    private static boolean nothingToKeepApart(Collection<PhaseSolve.Point> phases) {
        return phases.stream()
                .allMatch(p -> p.setting() != null
                        && p.setting().pairs().isEmpty()
                        && p.setting().streams().unknown().isEmpty());
    }

    @SafeVarargs
    private static List<String> joined(List<String>... parts) {
        return Stream.of(parts).flatMap(List::stream).toList();
    }

    static List<String> cautions(Case model, List<Notice> notices) {
        List<String> cautions = new ArrayList<>(Cautions.ALWAYS);
        for (StreamDefinition s : model.streams()) {
            if (s instanceof StreamDefinition.Single single
                    && (single.fluid().equals("n-dodecane") || single.fluid().equals("kerosene"))) {
                cautions.add("n-dodecane stands in for kerosene in stream " + s.name() + ".");
            }
            if (s instanceof StreamDefinition.Burn) {
                cautions.add(
                        "Burnt stream " + s.name()
                                + " is an equilibrium computed for the burner and frozen afterwards; very fuel-rich gas is far from it.");
            }
        }
        cautions.addAll(loosened(Criteria.of(model.criteria())));
        cautions.addAll(littleStirring(model));
        cautions.addAll(Assumptions.notStated(model));
        cautions.addAll(byLeakAlone(model));
        cautions.addAll(NoticeRules.cautions(notices));
        return List.copyOf(cautions);
    }

    /** Passages whose stirring is stated below the default: by diffusion alone any purge looks perfect. One line, or none. */
    private static List<String> littleStirring(Case model) {
        double usual = SolverSettings.DEFAULT.stirring();
        List<String> at = model.passages().stream()
                .filter(p -> p.stirring() < usual)
                .map(p -> p.name() + " " + p.stirring())
                .toList();
        return at.isEmpty()
                ? List.of()
                : List.of("The case states less stirring by the shaft than the default of " + usual
                        + ", which lets less through against the purge: " + String.join(", ", at) + ".");
    }

    /** Close seals that are stated by their leak alone beside a turning rotor: whether they touch it nobody can say. One line, or none. */
    private static List<String> byLeakAlone(Case model) {
        List<String> at = model.passages().stream()
                .filter(p -> Faults.kind(p) == SealKind.CLOSE
                        && Double.isNaN(p.radius())
                        && p.fields().keySet().stream().noneMatch(f -> f.contains("radius")))
                .map(PassageSpec::name)
                .toList();
        return at.isEmpty() || model.rotor().speed() == 0
                ? List.of()
                : List.of("Stated by leakage alone, without a radius: " + String.join(", ", at)
                        + ". Neither rubbing speed nor running clearance is judged there; a lip or ring on the turning shaft has limits of"
                        + " its own.");
    }

    /** What the case makes easier to meet than it is by default, each with where its value comes from; one line, or none. */
    static List<String> loosened(Criteria criteria) {
        List<String> parts = new ArrayList<>();
        for (Limit limit : criteria.loosened()) {
            String why = criteria.statedOrigin(limit);
            parts.add(String.format(
                    Locale.ROOT,
                    "%s %s instead of %s (%s)",
                    limit.key(),
                    Units.format(criteria.get(limit), limit.dimension(), UnitSystem.SI, 3),
                    Units.format(criteria.usual(limit), limit.dimension(), UnitSystem.SI, 3),
                    why.isEmpty() ? "no origin stated" : why));
        }
        if (criteria.preset() != null) {
            criteria.preset().values().forEach((limit, value) -> {
                if (!criteria.stated(limit) && limit.looser(value, limit.fallback())) {
                    parts.add(String.format(
                            Locale.ROOT,
                            "%s %s instead of %s (preset \"%s\")",
                            limit.key(),
                            Units.format(value, limit.dimension(), UnitSystem.SI, 3),
                            Units.format(limit.fallback(), limit.dimension(), UnitSystem.SI, 3),
                            criteria.preset().name()));
                }
            });
        }
        if (criteria.monitored()) {
            parts.add("oxygen is taken as monitored continuously, with the limits for that");
        }
        return parts.isEmpty()
                ? List.of()
                : List.of("The case asks less than the defaults do: " + String.join("; ", parts) + ".");
    }

    @Override
    public void close() {
        pool.shutdownNow();
    }
}
