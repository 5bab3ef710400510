package purgewright.hazard.service;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.concurrent.CancellationException;
import java.util.function.Function;
import purgewright.fluids.unit.DidYouMean;
import purgewright.hazard.barrier.BarrierLayout;
import purgewright.hazard.fault.Edits;
import purgewright.hazard.fault.Fault;
import purgewright.hazard.fault.Faults;
import purgewright.hazard.fault.Scenario;
import purgewright.hazard.finding.Scene;
import purgewright.hazard.finding.Verdict;
import purgewright.hazard.service.DesignPoints.Cell;
import purgewright.hazard.service.DesignPoints.Edit;
import purgewright.hazard.service.DesignPoints.Outcome;
import purgewright.hazard.sizing.BarrierPrice;
import purgewright.hazard.sizing.DesignSearch;
import purgewright.hazard.sizing.DrillList;
import purgewright.hazard.sizing.Evaluation;
import purgewright.hazard.sizing.Interlocks;
import purgewright.hazard.sizing.Margin;
import purgewright.hazard.sizing.Objective;
import purgewright.hazard.sizing.Parameter;
import purgewright.hazard.sizing.Redline;
import purgewright.hazard.sizing.SizeResult;
import purgewright.hazard.sizing.SizeResult.Chosen;
import purgewright.hazard.sizing.SizeResult.Release;
import purgewright.hazard.sizing.SizeResult.Slack;
import purgewright.hazard.sizing.Variable;
import purgewright.hazard.sizing.WearLimit;
import purgewright.sealflow.campaign.DutyRun;
import purgewright.sealflow.model.Case;
import purgewright.sealflow.model.Cavity;
import purgewright.sealflow.model.PassageSpec;
import purgewright.sealflow.model.Role;
import purgewright.sealflow.model.Supply;
import purgewright.sealflow.passage.PassageType;
import purgewright.sealflow.passage.PassageType.SealKind;
import purgewright.sealflow.passage.PassageTypes;

/**
 * Sizes the purge: searches a design, looks only at the cells that may govern while it does, then checks the answer in all of them anew
 * and by the full check of the case.
 */
final class Sizing {
    /** Fields that are counts: only whole numbers make sense. */
    private static final Set<String> COUNTS = Set.of("rings", "teeth", "segments", "blades", "grooves");

    /** Margin from which a finding is no longer thin. */
    private static final double NOT_THIN = 0.25;

    /** Steps of 15 % that make threefold, and the most that are taken. */
    private static final int THREEFOLD = 8;

    private static final int FURTHEST = 24;

    /** Steps of changes that do not yet do together, and the most that are taken. */
    private static final double FURTHER_STEP = 0.01;

    private static final int FURTHER = 8;

    /** Margins beyond this are no candidates to govern elsewhere. */
    private static final double FAR = 1.5;

    private final DesignPoints points;
    private final Case whole;
    private final BarrierLayout layout;

    Sizing(DesignPoints points) {
        this.points = points;
        this.whole = points.whole;
        this.layout = points.layout;
    }

    // --- what is free
    // -----------------------------------------------------------------------------------------------------------

    /** The free values with their bounds filled in. */
    List<Variable> variables(SizeSettings settings) {
        List<SizeSettings.Free> free = settings.free();
        if (free.isEmpty()) {
            if (layout.sources().isEmpty()) {
                throw new IllegalArgumentException("the case has no inert source whose pressure could be sized");
            }
            String source = layout.sources().iterator().next();
            free = List.of(new SizeSettings.Free("/cavities/" + source + "/pressure", Double.NaN, Double.NaN, ""));
        }
        List<Variable> out = new ArrayList<>();
        List<Parameter> seen = new ArrayList<>();
        for (SizeSettings.Free f : free) {
            Parameter p = Parameter.of(whole, f.place());
            if (seen.stream().anyMatch(q -> q.same(p) && q.phase().equals(p.phase()))) {
                throw new IllegalArgumentException(f.place() + " is free twice");
            }
            seen.add(p);
            out.add(variable(f, p));
        }
        return out;
    }

    private Variable variable(SizeSettings.Free f, Parameter p) {
        double stated = stated(p);
        boolean clearance = "clearance".equals(p.field());
        boolean count = "passages".equals(p.section()) && COUNTS.contains(p.field());
        double lower = Double.isNaN(f.lower()) ? stated / (clearance ? 2 : count ? stated : 10) : f.lower();
        double upper = Double.isNaN(f.upper()) ? stated * (clearance ? 2 : 3) : f.upper();
        if ("pressure".equals(p.field())) {
            double air = whole.surroundings().pressure();
            if (Double.isNaN(f.lower())) {
                lower = Math.max(lower, 1.01 * air);
            }
            double most = available(p.name());
            if (upper > most) {
                if (!Double.isNaN(f.upper())) {
                    throw new IllegalArgumentException(String.format(
                            Locale.ROOT,
                            "%s: %.4g MPa cannot be set: of the %s, %.4g MPa can be had at most, the regulator's margin taken off",
                            f.place(),
                            upper / 1e6,
                            whole.supply().bottles() != null ? "bottles" : "main or tank",
                            most / 1e6));
                }
                upper = most;
            }
        }
        if (!f.list().isEmpty()) {
            DrillList list = DrillList.all().get(f.list());
            if (list == null) {
                throw new IllegalArgumentException("there is no list \"" + f.list() + "\"; there are "
                        + String.join(
                                ", ", new java.util.TreeSet<>(DrillList.all().keySet())));
            }
            return Variable.among(f.place(), lower, upper, list.diameters(), list.name() + ": " + list.source());
        }
        if (count) {
            List<Double> whole1 = new ArrayList<>();
            for (double v = Math.ceil(Math.max(1, lower)); v <= Math.floor(upper); v++) {
                whole1.add(v);
            }
            return Variable.among(f.place(), Math.max(1, lower), upper, whole1, "whole numbers");
        }
        return Variable.between(f.place(), lower, upper);
    }

    /** The value as stated, of one phase alone that phase's own. */
    private double stated(Parameter p) {
        return p.get(points.models.getOrDefault(p.phase(), whole));
    }

    /** Highest pressure that the supply can give at a cavity, Pa; infinite for one that it does not feed. */
    private double available(String cavity) {
        Supply supply = whole.supply();
        return supply == null || !cavity.equals(supply.cavity())
                ? Double.POSITIVE_INFINITY
                : DutyRun.greatestPressure(supply);
    }

    /** Applies values to the case of a phase; a phase that states its own keeps it. */
    Edit edit(List<Parameter> parameters) {
        return (phase, model, values) -> {
            Case changed = model;
            for (int i = 0; i < values.length; i++) {
                Parameter p = parameters.get(i);
                if (points.applies(p, phase)) {
                    changed = p.set(changed, values[i]);
                }
            }
            return changed;
        };
    }

    /** The faults named. */
    List<Scenario> faults(List<String> names) {
        List<Fault> known = Faults.of(whole, layout, points.criteria);
        if (names.contains(SizeSettings.ALL_FAULTS)) {
            return known.stream().filter(Fault::credible).map(Scenario::of).toList();
        }
        List<Scenario> out = new ArrayList<>();
        for (String name : names) {
            out.add(known.stream()
                    .filter(f -> f.name().equals(name))
                    .findFirst()
                    .map(Scenario::of)
                    .orElseThrow(() -> new IllegalArgumentException("there is no fault \"" + name + "\""
                            + DidYouMean.nearest(
                                            name,
                                            known.stream().map(Fault::name).toList())
                                    .map(n -> "; did you mean \"" + n + "\"?")
                                    .orElse("; \"fail\" lists them"))));
        }
        return out;
    }

    // --- sizing
    // ---------------------------------------------------------------------------------------------------------------

    /**
     * Sizes.
     *
     * @param rebuild for faults that set values of the document; may be null
     * @param fullCheck the full check of the case with a design in it
     */
    SizeResult size(
            SizeSettings settings,
            FaultSweep.Rebuild rebuild,
            Function<double[], CheckResult> fullCheck,
            List<String> cautions,
            Progress progress) {
        List<Variable> variables = variables(settings);
        List<Parameter> parameters =
                variables.stream().map(v -> Parameter.of(whole, v.place())).toList();
        if (settings.objective() == Objective.GAS_PER_RUN) {
            for (String phase : points.models.keySet()) {
                if (points.duty(phase) == null || !(points.duty(phase).duration() > 0)) {
                    throw new IllegalArgumentException(
                            "the gas per run needs durations, the phase \"" + phase + "\" states none");
                }
            }
        }
        Edit edit = edit(parameters);
        Set<String> touched = new LinkedHashSet<>(points.models.keySet());
        touched.removeIf(phase -> parameters.stream().noneMatch(p -> points.applies(p, phase)));
        points.count(touched);
        List<Cell> cells = points.cells(settings.worn(), settings.extremes(), faults(settings.faults()), rebuild);
        List<Double> stated = parameters.stream().map(this::stated).toList();
        double[] asStated = stated.stream().mapToDouble(Double::doubleValue).toArray();
        Search search = new Search(settings, edit, cells, touched, variables, stated, progress);
        boolean complete = true;
        try {
            search.run(asStated);
        } catch (CancellationException e) {
            complete = false;
            Thread.interrupted(); // the answer so far is put together in peace
            if (search.so() == null) {
                throw e;
            }
        }
        return new Answer(settings, parameters, stated, edit, cells, fullCheck, cautions, progress)
                .of(search, complete);
    }

    /**
     * One run of the search with the cells that may govern, widened until the full evaluation agrees. Phases in which nothing free is set are
     * looked at once: no design moves them.
     */
    private final class Search {
        private final SizeSettings settings;
        private final Edit edit;
        private final List<Cell> cells;
        /** Cells of phases in which something free is set. */
        private final List<Cell> reached;
        /** What came of the others. */
        private List<Outcome> beyond = List.of();
        /** What is not met in them, by phase. */
        private final Map<String, List<Margin>> unreachable = new LinkedHashMap<>();

        private final List<Variable> variables;
        private final List<Double> stated;
        private final Progress progress;
        private int designs;
        private DesignSearch.Result result;
        private Evaluation full;
        private Evaluation asStated;
        /** Best feasible design of a search that was cancelled. */
        private double[] best;

        private Evaluation bestAt;

        /** The design of a cancelled search that falls least short; the case as stated until one does better. */
        private double[] closest;

        private Evaluation closestAt;

        Search(
                SizeSettings settings,
                Edit edit,
                List<Cell> cells,
                Set<String> touched,
                List<Variable> variables,
                List<Double> stated,
                Progress progress) {
            this.settings = settings;
            this.edit = edit;
            this.cells = cells;
            this.reached =
                    cells.stream().filter(c -> touched.contains(c.phase())).toList();
            this.variables = variables;
            this.stated = stated;
            this.progress = progress;
        }

        /** What is known so far: the answer, else the best design, else the closest; null before there is any. */
        double[] so() {
            if (result != null) {
                return result.values().stream().mapToDouble(Double::doubleValue).toArray();
            }
            return best != null ? best : closest;
        }

        void run(double[] here) {
            List<double[]> anchors = new ArrayList<>(List.of(here));
            anchors.add(variables.stream().mapToDouble(Variable::lower).toArray());
            anchors.add(variables.stream().mapToDouble(Variable::upper).toArray());
            Set<String> judged = new LinkedHashSet<>();
            for (int i = 0; i < anchors.size(); i++) {
                // One after the other: what is known of the case as stated is a first answer.
                progress.at(0.05 * i / anchors.size(), i == 0 ? "as stated" : "bounds");
                List<Outcome> outcomes = points.solve(List.of(anchors.get(i)), edit, i == 0 ? cells : reached, null)
                        .get(0);
                designs++;
                if (i == 0) {
                    asStated = points.evaluation(outcomes, settings.margin());
                    outcomes = part(outcomes);
                    keep(here, points.evaluation(outcomes, settings.margin()));
                }
                judged.addAll(governing(outcomes));
            }
            progress.at(0.05, "sizing");
            for (int round = 0; round < 4; round++) {
                best = null;
                result = DesignSearch.find(
                        list -> batch(list, judged),
                        variables,
                        settings.objective(),
                        settings.margin(),
                        stated,
                        settings.search());
                double[] answer = result.values().stream()
                        .mapToDouble(Double::doubleValue)
                        .toArray();
                List<Outcome> all =
                        points.solve(List.of(answer), edit, reached, null).get(0);
                boolean met = points.evaluation(all, settings.margin()).feasible();
                full = whole(all);
                if (met == result.feasible()) {
                    return;
                }
                // A cell that was left out governs after all.
                if (!judged.addAll(governing(all))) {
                    return;
                }
            }
        }

        /** Keeps what no design moves, and gives the rest. */
        private List<Outcome> part(List<Outcome> outcomes) {
            beyond = outcomes.stream().filter(o -> !reached.contains(o.cell())).toList();
            for (Margin m : points.evaluation(beyond, settings.margin()).each()) {
                if (!m.met()) {
                    unreachable
                            .computeIfAbsent(m.phase(), k -> new ArrayList<>())
                            .add(m);
                }
            }
            return outcomes.stream().filter(o -> reached.contains(o.cell())).toList();
        }

        /** A design in every phase: where nothing free is set, as stated. */
        private Evaluation whole(List<Outcome> outcomes) {
            List<Outcome> all = new ArrayList<>(outcomes);
            all.addAll(beyond);
            return points.evaluation(all, settings.margin());
        }

        private void keep(double[] design, Evaluation e) {
            boolean better = bestAt == null
                    || settings.objective().of(e) < settings.objective().of(bestAt);
            if (e.feasible() && better) {
                best = design;
                bestAt = e;
            }
            if (closestAt == null || DesignSearch.closer(e, closestAt, settings.margin())) {
                closest = design;
                closestAt = e;
            }
        }

        private List<Evaluation> batch(List<double[]> list, Set<String> judged) {
            List<Cell> looked = reached.stream()
                    .filter(c -> judged.contains(c.key()) || Scene.AS_STATED.equals(c.scenario()))
                    .toList();
            boolean run = settings.objective() == Objective.GAS_PER_RUN;
            List<Outcome> gas = beyond.stream()
                    .filter(o -> run && Scene.AS_STATED.equals(o.cell().scenario()))
                    .map(o -> new Outcome(o.cell(), o.model(), o.solve(), null)) // for its flow, not to be judged
                    .toList();
            List<Evaluation> out = new ArrayList<>();
            for (List<Outcome> each : points.solve(list, edit, looked, judged)) {
                List<Outcome> all = new ArrayList<>(each);
                all.addAll(gas);
                out.add(points.evaluation(all, settings.margin()));
            }
            for (int i = 0; i < out.size(); i++) {
                Evaluation e = out.get(i);
                designs++;
                keep(list.get(i), e);
            }
            progress.at(0.05 + 0.75 * (1 - Math.exp(-designs / 60.0)), "sizing");
            return out;
        }
    }

    /** Cells that at this design have the least margin of some criterion at some place, or something that is not met. */
    private Set<String> governing(List<Outcome> outcomes) {
        Map<String, Margin> least = new LinkedHashMap<>();
        Set<String> out = new LinkedHashSet<>();
        Evaluation all = points.evaluation(outcomes, 0);
        for (Margin m : all.each()) {
            String key = m.phase() + "|" + m.scenario();
            if (Double.isNaN(m.value())) {
                if (!m.met()) {
                    out.add(key);
                }
            } else if (m.value() < FAR) {
                least.merge(m.criterion() + "|" + m.where(), m, (a, b) -> b.value() < a.value() - 1e-9 ? b : a);
            }
        }
        least.values().forEach(m -> out.add(m.phase() + "|" + m.scenario()));
        return out;
    }

    /** Puts the answer together: full check, slack, what would release it, redlines, wear. */
    private final class Answer {
        private final SizeSettings settings;
        private final List<Parameter> parameters;
        private final List<Double> stated;
        private final Edit edit;
        private final List<Cell> cells;
        private final Function<double[], CheckResult> fullCheck;
        private final List<String> cautions;
        private final Progress progress;

        Answer(
                SizeSettings settings,
                List<Parameter> parameters,
                List<Double> stated,
                Edit edit,
                List<Cell> cells,
                Function<double[], CheckResult> fullCheck,
                List<String> cautions,
                Progress progress) {
            this.settings = settings;
            this.parameters = parameters;
            this.stated = stated;
            this.edit = edit;
            this.cells = cells;
            this.fullCheck = fullCheck;
            this.cautions = cautions;
            this.progress = progress;
        }

        SizeResult of(Search search, boolean complete) {
            boolean reached = search.result == null ? search.best != null : search.result.feasible();
            boolean feasible = reached && search.unreachable.isEmpty();
            double[] design = search.so();
            Evaluation at = search.full != null
                    ? search.full
                    : search.result != null
                            ? search.result.at()
                            : search.best != null ? search.bestAt : search.closestAt;
            Verdict verdict = Verdict.NOT_ESTABLISHED;
            String confirmation = "not checked again: the search was cancelled";
            List<BarrierPrice> price = List.of();
            List<String> notes = new ArrayList<>(cautions);
            boolean confirmed = false;
            boolean all = complete;
            try {
                if (complete && feasible) {
                    progress.at(0.8, "checking");
                    points.forget();
                    at = points.evaluate(List.of(design), edit, cells, null, settings.margin())
                            .get(0);
                    CheckResult check = fullCheck.apply(design);
                    price = check.price();
                    confirmation = check.verdictLine();
                    confirmed = at.feasible() && check.verdict().compareTo(Verdict.THIN) >= 0;
                    boolean thin = at.margins().values().stream().anyMatch(m -> m < NOT_THIN);
                    verdict = confirmed
                            ? thin ? Verdict.THIN : check.verdict()
                            : check.verdict().compareTo(Verdict.THIN) < 0 ? check.verdict() : Verdict.NOT_ESTABLISHED;
                } else if (complete) {
                    verdict = Verdict.FALLS_SHORT;
                    confirmation = "no design to check";
                    progress.at(0.8, "price of the case as stated");
                    price = fullCheck
                            .apply(stated.stream()
                                    .mapToDouble(Double::doubleValue)
                                    .toArray())
                            .price();
                }
            } catch (CancellationException e) {
                Thread.interrupted();
                all = false;
                complete = feasible ? false : complete;
            }
            Edit found = feasible ? (phase, model, v) -> edit.apply(phase, model, design) : Edit.NONE;
            List<Redline> redlines = List.of();
            Interlocks interlocks = Interlocks.NONE;
            List<WearLimit> wear = List.of();
            List<Release> releases = new ArrayList<>();
            List<String> conflicts = complete && !feasible ? conflicts(search) : List.of();
            if (all) {
                try {
                    progress.at(0.85, "redlines");
                    RedlineFinder finder = new RedlineFinder(points, found);
                    redlines = finder.redlines();
                    interlocks = finder.interlocks(redlines);
                    if (settings.wear() && feasible) {
                        progress.at(0.9, "wear limits");
                        wear = wear(found);
                    }
                    if (!feasible) {
                        if (settings.releases()) {
                            releases(search, design, releases, notes);
                        }
                    }
                } catch (CancellationException e) {
                    Thread.interrupted();
                    all = false;
                }
            }
            if (!all) {
                notes.add("Cancelled before everything was looked at: prices, redlines, wear limits or releases may be"
                        + " missing.");
            }
            notes.addAll(remarks(search, feasible, complete));
            progress.at(1, "done");
            DesignSearch.Result r = search.result;
            return new SizeResult(
                    verdict,
                    line(search, at, feasible, complete, confirmed, verdict),
                    feasible,
                    all,
                    settings.objective(),
                    settings.objective().of(at),
                    search.asStated == null ? Double.NaN : settings.objective().of(search.asStated),
                    chosen(search.variables, design),
                    at,
                    r == null ? null : r.below(),
                    r == null || r.monotone(),
                    slack(at, r),
                    confirmation,
                    conflicts,
                    List.copyOf(releases),
                    price,
                    redlines,
                    interlocks,
                    wear,
                    search.asStated == null ? Double.NaN : search.asStated.purge(),
                    search.designs,
                    List.copyOf(notes));
        }

        private List<Chosen> chosen(List<Variable> variables, double[] design) {
            List<Chosen> out = new ArrayList<>();
            for (int i = 0; i < design.length; i++) {
                out.add(new Chosen(variables.get(i), design[i], stated.get(i)));
            }
            return out;
        }

        private List<Slack> slack(Evaluation at, DesignSearch.Result result) {
            Map<String, Margin> least = new LinkedHashMap<>();
            for (Margin m : at.each()) {
                if (!Double.isNaN(m.value())) {
                    least.merge(m.criterion(), m, (a, b) -> b.value() < a.value() ? b : a);
                }
            }
            List<Slack> out = new ArrayList<>();
            for (Margin m : least.values()) {
                Double price = result == null ? null : result.price().get(m.criterion());
                out.add(new Slack(
                        m.criterion(),
                        m.value(),
                        m.where(),
                        m.phase(),
                        m.scenario(),
                        price != null ? price : result != null && result.feasible() ? 0 : Double.NaN));
            }
            out.sort((a, b) -> Double.compare(a.margin(), b.margin()));
            return out;
        }

        private String line(
                Search search, Evaluation at, boolean feasible, boolean complete, boolean confirmed, Verdict verdict) {
            String free = String.join(
                    ", ", search.variables.stream().map(Variable::place).toList());
            if (!complete) {
                return feasible
                        ? "not established: cancelled; the best design so far meets every criterion looked at, it was not checked again"
                        : "not established: cancelled before a design was found that meets every criterion";
            }
            if (!search.unreachable.isEmpty()) {
                String own = String.join(", ", search.unreachable.keySet());
                boolean several = search.unreachable.size() > 1;
                return "falls short: whatever " + free + " is, " + own
                        + (several
                                ? ", which it does not reach, fall short ("
                                : ", which it does not reach, falls short (")
                        + points.evaluation(search.beyond, settings.margin()).words() + "); "
                        + (search.result.feasible()
                                ? "the other phases are met by the design below"
                                : "in the other phases no value within the bounds meets every criterion either");
            }
            if (!feasible) {
                return "falls short: no value of " + free
                        + " within the bounds meets every criterion; the closest is held up by " + at.words();
            }
            Evaluation governs = search.result.below() == null ? at : search.result.below();
            if (!confirmed) {
                return verdict.word() + ": a design was found, but the full check does not confirm it: "
                        + (at.feasible() ? "see the check" : at.words());
            }
            String start = verdict.word() + ": least " + settings.objective().words();
            boolean bound = search.result.below() == null
                    && search.variables.size() == 1
                    && new Chosen(
                                    search.variables.get(0),
                                    search.result.values().get(0),
                                    stated.get(0))
                            .atBound();
            return bound
                    ? verdict.word() + ": even the bound of " + free + " meets every criterion"
                    : start + " is governed by " + governs.words();
        }

        private List<String> remarks(Search search, boolean feasible, boolean complete) {
            List<String> out = new ArrayList<>();
            if (!feasible && complete) {
                out.add("No design meets every phase: price, redlines and interlocks are of the case as stated.");
            }
            if (feasible && settings.margin() < NOT_THIN) {
                out.add(
                        "Sized to a margin of " + Math.round(100 * settings.margin())
                                + " % in the scenario that governs: thin by construction. --margin 0.25 asks for one that is not.");
            }
            if (search.result != null && !search.result.monotone()) {
                out.add("Feasibility is not monotone in "
                        + search.variables.get(0).place()
                        + ": values were found on the far side that fall short again.");
            }
            for (Parameter p : parameters) {
                List<String> own = new ArrayList<>();
                for (String phase : points.models.keySet()) {
                    if (!points.applies(p, phase) && p.phase().isEmpty()) {
                        own.add(phase);
                    }
                }
                if (!own.isEmpty()) {
                    out.add(p.pointer() + " was not changed in " + String.join(", ", own)
                            + ", which state their own value; least flow and set pressure are of the other phases.");
                }
            }
            return out;
        }

        private List<String> conflicts(Search search) {
            List<String> out = new ArrayList<>();
            search.unreachable.forEach((phase, margins) -> {
                Map<String, List<Margin>> each = new LinkedHashMap<>();
                margins.forEach(m -> each.computeIfAbsent(m.criterion(), k -> new ArrayList<>())
                        .add(m));
                each.forEach((criterion, some) -> {
                    Margin worst = some.stream()
                            .min((x, y) -> Double.compare(x.value(), y.value()))
                            .orElseThrow();
                    out.add(phase + ", which nothing free reaches: " + criterion.replace('-', ' ') + " at "
                            + worst.where() + " (" + worst.scenario() + ")"
                            + (some.size() > 1 ? " and " + (some.size() - 1) + " more" : ""));
                });
            });
            search.result
                    .wants()
                    .forEach((what, ways) ->
                            out.add(what + (ways.isEmpty() ? "" : " wants " + String.join(", ", ways))));
            return out;
        }

        // --- what would release it
        // ----------------------------------------------------------------------------------------------

        private record Candidate(String place, boolean bound, int index, boolean more, double stated) {}

        /**
         * What has to be released together.
         *
         * @param phase that nothing free reaches; empty for all that something does
         * @param criterion the only one to be released; empty for all
         */
        private record Obstacle(String phase, String criterion, List<Cell> cells) {}

        /**
         * Single changes, each tried with the free values at the closest design. Phases that nothing free reaches are released one by one, since
         * each may need its own; and where no change releases all of a phase, its criteria are, one by one.
         */
        private void releases(Search search, double[] design, List<Release> out, List<String> notes) {
            List<Obstacle> obstacles = new ArrayList<>();
            search.unreachable
                    .keySet()
                    .forEach(phase -> obstacles.add(new Obstacle(
                            phase,
                            "",
                            cells.stream().filter(c -> c.phase().equals(phase)).toList())));
            if (!search.result.feasible()) {
                obstacles.add(new Obstacle("", "", search.reached));
            }
            List<Cell> others = cells.stream()
                    .filter(c -> obstacles.stream().noneMatch(o -> o.cells().contains(c)))
                    .toList();
            for (Obstacle o : obstacles) {
                double from = 0.9 + 0.1 * obstacles.indexOf(o) / obstacles.size();
                if (release(o, search, others, design, from, out)) {
                    continue;
                }
                List<String> each = unmet(o, search, design);
                List<String> left = new ArrayList<>();
                for (String criterion : each) {
                    Obstacle one = new Obstacle(o.phase(), criterion, o.cells());
                    if (!release(one, search, List.of(), design, from, out)) {
                        left.add(criterion.replace('-', ' '));
                    }
                }
                if (left.isEmpty() && each.size() > 1) {
                    together(o, design, out, notes);
                }
                if (each.isEmpty() || !left.isEmpty()) {
                    String phase = o.phase().isEmpty() ? "the phases that the free values reach" : o.phase();
                    notes.add(
                            "No single change of a bound, drain, metering, seal or pressure up to threefold was found for "
                                    + (each.isEmpty() ? "" : String.join(", ", left) + " in ") + phase + ".");
                }
            }
        }

        /**
         * What releases one criterion may take from another: the first change of each is tried with the others', and taken further where
         * together they do not do.
         */
        private void together(Obstacle o, double[] design, List<Release> out, List<String> notes) {
            Map<String, Integer> first = new LinkedHashMap<>();
            for (int i = 0; i < out.size(); i++) {
                Release r = out.get(i);
                if (r.phase().equals(o.phase()) && !r.criterion().isEmpty()) {
                    first.putIfAbsent(r.criterion(), i);
                }
            }
            String phase = o.phase().isEmpty() ? "the phases that the free values reach" : o.phase();
            for (int round = 0; round <= FURTHER; round++) {
                List<Release> now = first.values().stream().map(out::get).toList();
                Edit all = (name, model, v) -> {
                    Case m = edit.apply(name, model, design);
                    for (Release r : now) {
                        Parameter p = Parameter.of(whole, r.place());
                        m = points.applies(p, name) ? p.set(m, r.needed()) : m;
                    }
                    return m;
                };
                Evaluation e = points.evaluate(List.of(design), all, o.cells(), null, settings.margin())
                        .get(0);
                if (e.feasible()) {
                    notes.add("The first changes named for each criterion of " + phase
                            + " were tried together: they release it.");
                    return;
                }
                Set<String> open = new LinkedHashSet<>();
                e.each().stream().filter(m -> !m.met()).forEach(m -> open.add(m.criterion()));
                boolean numbered = first.keySet().stream().anyMatch(open::contains);
                first.forEach((criterion, i) -> {
                    if (!numbered || open.contains(criterion)) {
                        Release r = out.get(i);
                        boolean more = r.needed() > r.stated();
                        double next = rounded(
                                r.needed() * (more ? 1 + FURTHER_STEP : 1 - FURTHER_STEP),
                                Parameter.of(whole, r.place()),
                                more);
                        out.set(i, new Release(r.place(), r.bound(), r.stated(), next, r.phase(), r.criterion()));
                    }
                });
            }
            notes.add("The changes named for each criterion of " + phase
                    + " do not release it together: each holds for its criterion alone.");
        }

        /** Tries everything on one obstacle; false when nothing does. */
        private boolean release(
                Obstacle o, Search search, List<Cell> others, double[] design, double from, List<Release> out) {
            List<Candidate> candidates =
                    o.phase().isEmpty() ? candidates(search.variables, design) : own(o.phase(), design);
            boolean any = false;
            for (Candidate c : candidates) {
                PhaseSolve.stopWhenInterrupted();
                progress.at(from, "what would release " + (o.phase().isEmpty() ? "it" : o.phase()));
                Release r = release(c, o, others, design);
                if (r != null) {
                    out.add(r);
                    any = true;
                }
            }
            return any;
        }

        /** Criteria with a number that are not met in an obstacle's phases, when there are several. */
        private List<String> unmet(Obstacle o, Search search, double[] design) {
            Set<String> out = new LinkedHashSet<>();
            List<Margin> all = o.phase().isEmpty()
                    ? points.evaluate(List.of(design), edit, o.cells(), null, settings.margin())
                            .get(0)
                            .each()
                    : search.unreachable.get(o.phase());
            all.stream().filter(m -> !m.met() && !Double.isNaN(m.value())).forEach(m -> out.add(m.criterion()));
            return out.size() > 1 ? List.copyOf(out) : List.of();
        }

        /** Pressures that a phase states itself, supplies both ways; then drains, metering and seals, which every phase has. */
        private List<Candidate> own(String phase, double[] design) {
            List<Candidate> out = new ArrayList<>();
            for (String place : points.duty(phase).set().keySet()) {
                Parameter p = Parameter.find(whole, place);
                if (p == null || !p.section().equals("cavities") || !p.field().equals("pressure")) {
                    continue;
                }
                String pointer =
                        "/duty/" + phase + "/set/" + place.replace("~", "~0").replace("/", "~1");
                double stated = p.get(points.models.get(phase));
                out.add(new Candidate(pointer, false, -1, true, stated));
                if (layout.sources().contains(p.name())) {
                    out.add(new Candidate(pointer, false, -1, false, stated));
                }
            }
            candidates(List.of(), design).stream()
                    .filter(c -> c.place().startsWith("/passages/"))
                    .forEach(out::add);
            return out;
        }

        /** Bounds that stop the search, then drains, metering, seals and set pressures that are not free. */
        private List<Candidate> candidates(List<Variable> variables, double[] design) {
            List<Candidate> out = new ArrayList<>();
            Set<String> taken = new LinkedHashSet<>();
            for (int i = 0; i < variables.size(); i++) {
                Chosen c = new Chosen(variables.get(i), design[i], stated.get(i));
                taken.add(parameters.get(i).section()
                        + parameters.get(i).name()
                        + parameters.get(i).field());
                if (c.atBound()) {
                    boolean upper = design[i]
                            > 0.5 * (c.variable().lower() + c.variable().upper());
                    out.add(new Candidate(c.variable().place(), true, i, upper, design[i]));
                }
            }
            Set<String> seals = points.seals();
            for (PassageSpec p : whole.passages()) {
                boolean feed = layout.feeds().containsKey(p.name());
                boolean drain = touches(p, Role.DRAIN) && Faults.kind(p) == SealKind.DUCT && !feed;
                if ((drain || (feed && PassageTypes.are(p, PassageType::meters)))
                        && !taken.contains("passages" + p.name() + "diameter")
                        && !Double.isNaN(p.number("diameter", Double.NaN))) {
                    out.add(new Candidate(
                            "/passages/" + p.name() + "/diameter", false, -1, true, p.number("diameter", Double.NaN)));
                }
                if (seals.contains(p.name())
                        && Edits.opens(p)
                        && !taken.contains("passages" + p.name() + "clearance")) {
                    out.add(new Candidate(
                            "/passages/" + p.name() + "/clearance", false, -1, false, Edits.clearanceOf(p)));
                }
            }
            for (String source : layout.sources()) {
                Cavity c = whole.cavity(source);
                if (c != null && !taken.contains("cavities" + source + "pressure")) {
                    out.add(new Candidate("/cavities/" + source + "/pressure", false, -1, true, c.pressure()));
                }
            }
            return out;
        }

        private boolean touches(PassageSpec p, Role role) {
            Cavity a = whole.cavity(p.from());
            Cavity b = whole.cavity(p.to());
            return (a != null && a.role() == role) || (b != null && b.role() == role);
        }

        /** The least change of one number that does; null when none up to threefold (a clearance: down to a third) does. */
        private Release release(Candidate c, Obstacle obstacle, List<Cell> others, double[] design) {
            Parameter extra = Parameter.find(whole, c.place());
            if (extra == null) {
                return null;
            }
            Edit changed = (phase, model, v) -> {
                Case m = edit.apply(phase, model, design);
                return points.applies(extra, phase) ? extra.set(m, v[0]) : m;
            };
            double factor = c.more() ? 1.15 : 1 / 1.15;
            double last = c.stated();
            double most =
                    "pressure".equals(extra.field()) && !c.bound() ? available(extra.name()) : Double.POSITIVE_INFINITY;
            for (int k = 1; k <= steps(c, factor); k++) {
                double next = rounded(c.stated() * Math.pow(factor, k), extra, c.more());
                if (next == last || next > most) {
                    continue;
                }
                if (met(changed, next, obstacle.cells(), obstacle.criterion())) {
                    for (int halving = 0; halving < 4; halving++) {
                        double middle = rounded(Math.sqrt(last * next), extra, c.more());
                        if (middle == last || middle == next) {
                            break;
                        }
                        if (met(changed, middle, obstacle.cells(), obstacle.criterion())) {
                            next = middle;
                        } else {
                            last = middle;
                        }
                    }
                    // What holds must not be lost by it.
                    return others.isEmpty() || met(changed, next, others, "")
                            ? new Release(
                                    c.place(),
                                    c.bound(),
                                    c.bound() ? c.stated() : stated(extra),
                                    next,
                                    obstacle.phase(),
                                    obstacle.criterion())
                            : null;
                }
                last = next;
            }
            return null;
        }

        /** Up to threefold; of a bound as far as the value stated, which may be known to do. */
        private int steps(Candidate c, double factor) {
            double beyond = c.bound() ? Math.log(stated.get(c.index()) / c.stated()) / Math.log(factor) : 0;
            return beyond > THREEFOLD ? (int) Math.min(FURTHEST, Math.ceil(beyond)) : THREEFOLD;
        }

        /** As stated first: most of what does not do fails there, or in the first scenario. */
        private boolean met(Edit changed, double value, List<Cell> wanted, String criterion) {
            Map<String, List<Cell>> scenarios = new LinkedHashMap<>();
            wanted.forEach(c -> scenarios
                    .computeIfAbsent(c.scenario(), k -> new ArrayList<>())
                    .add(c));
            for (List<Cell> part : scenarios.values()) {
                Evaluation e = points.evaluate(List.of(new double[] {value}), changed, part, null, settings.margin())
                        .get(0);
                boolean met = criterion.isEmpty()
                        ? e.feasible()
                        : e.each().stream()
                                .noneMatch(m -> !m.met()
                                        && (m.criterion().equals(criterion)
                                                || m.criterion().equals(Evaluation.SOLVE)));
                if (!met) {
                    return false;
                }
            }
            return true;
        }

        /** To a number that can be made or set: whole millimetres from 5 mm on, tenths below, micrometres of clearance, 10 kPa. */
        private double rounded(double value, Parameter p, boolean up) {
            double step = "clearance".equals(p.field())
                    ? 1e-6
                    : "pressure".equals(p.field()) ? 1e4 : value >= 5e-3 ? 1e-3 : 1e-4;
            double n = value / step;
            return step * (up ? Math.ceil(n - 1e-9) : Math.floor(n + 1e-9));
        }
    }

    // --- wear
    // -----------------------------------------------------------------------------------------------------------------

    /** Wear limits of every seal alone, whether it bounds a barrier or not, of all together, and the life of all at their own rates, by the criteria as stated. */
    List<WearLimit> wear(Edit design) {
        List<Cell> stated = points.asStated();
        List<WearLimit> out = new ArrayList<>();
        Set<String> seals = points.wearing();
        Map<String, Double> drawing = new LinkedHashMap<>();
        for (String name : seals) {
            // The design may have changed the clearance, so it is read where the design is in force.
            Map.Entry<String, Case> any = points.models.entrySet().iterator().next();
            Case changed = design.apply(any.getKey(), any.getValue(), new double[0]);
            PassageSpec seal = changed.passage(name);
            drawing.put(name, Edits.opens(seal) ? Edits.clearanceOf(seal) : Double.NaN);
        }
        for (String name : seals) {
            double gap = drawing.get(name);
            double rate = Double.isNaN(gap) ? Double.NaN : whole.wearRate(name);
            out.add(WearLimit.find(name, gap, rate, opened(design, Set.of(name), stated)));
        }
        if (seals.size() > 1) {
            out.add(WearLimit.find(WearLimit.TOGETHER, Double.NaN, Double.NaN, opened(design, seals, stated)));
        }
        double longest = 0;
        for (String name : seals) {
            double rate = whole.wearRate(name);
            if (rate > 0 && drawing.get(name) > 0) {
                longest = Math.max(longest, (WearLimit.LARGEST - 1) * drawing.get(name) / rate);
            }
        }
        if (longest > 0) {
            Edit worn = (phase, model, time) -> Edits.passages(
                    design.apply(phase, model, time),
                    p -> drawing.getOrDefault(p.name(), Double.NaN) > 0 && whole.wearRate(p.name()) > 0,
                    p -> Edits.open(p, Edits.clearanceOf(p) + whole.wearRate(p.name()) * time[0]));
            out.add(WearLimit.life(
                    "all at their own rates", longest, v -> points.evaluate(List.of(v), worn, stated, null, 0)
                            .get(0)));
        }
        return out;
    }

    private Evaluation.Evaluator opened(Edit design, Set<String> seals, List<Cell> cells) {
        Edit edit = (phase, model, v) -> Edits.opened(design.apply(phase, model, v), seals, v[0]);
        return v -> points.evaluate(List.of(v), edit, cells, null, 0).get(0);
    }
}
