package purgewright.hazard.service;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.concurrent.Callable;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.atomic.AtomicInteger;
import java.util.function.UnaryOperator;
import purgewright.hazard.barrier.BarrierLayout;
import purgewright.hazard.criteria.BarrierRules;
import purgewright.hazard.criteria.CountRules;
import purgewright.hazard.criteria.Criteria;
import purgewright.hazard.criteria.FlammabilityRules;
import purgewright.hazard.criteria.Limit;
import purgewright.hazard.criteria.Setting;
import purgewright.hazard.fault.Edits;
import purgewright.hazard.fault.Faults;
import purgewright.hazard.finding.Finding;
import purgewright.hazard.finding.Scene;
import purgewright.hazard.finding.Verdict;
import purgewright.hazard.finding.Verdicts;
import purgewright.hazard.service.PhaseSolve.Point;
import purgewright.hazard.sizing.Evaluation;
import purgewright.hazard.sizing.LeastPurge;
import purgewright.hazard.sizing.Parameter;
import purgewright.hazard.sizing.PurgeWindow;
import purgewright.hazard.sizing.Redline;
import purgewright.hazard.sizing.SizeResult;
import purgewright.hazard.sizing.WearLimit;
import purgewright.sealflow.model.Case;
import purgewright.sealflow.model.Cavity;
import purgewright.sealflow.model.PassageSpec;
import purgewright.sealflow.model.Role;
import purgewright.sealflow.network.SolveResult.CavityState;
import purgewright.sealflow.network.SolveResult.Converged;
import purgewright.sealflow.network.SolveResult.PassageState;
import purgewright.sealflow.passage.PassageType.SealKind;

/** Evaluates designs for sizing, the purge window, wear limits and redlines. */
final class Sizing {
    /** Criteria whose margin has a fixed size by definition; they are met or not, and do not govern by their margin. */
    static final Set<String> YES_OR_NO = Set.of(
            CountRules.COUNT,
            BarrierRules.DIRECTION,
            BarrierRules.PURITY,
            FlammabilityRules.CAVITY,
            FlammabilityRules.VENT);

    private final PhaseSolve points;
    private final Map<String, Case> models;
    private final Map<String, Converged> guesses = new LinkedHashMap<>();
    private final BarrierLayout layout;
    private final Criteria criteria;

    Sizing(PhaseSolve points, Case whole, Map<String, Case> models) {
        this.points = points;
        this.models = models;
        this.layout = BarrierLayout.of(whole, points.streams(whole.streams()), Faults::kind);
        this.criteria = Criteria.of(whole.criteria());
        Converged guess = null;
        for (Map.Entry<String, Case> e : models.entrySet()) {
            if (points.solve(e.getValue(), guess) instanceof Converged c) {
                guess = c;
                guesses.put(e.getKey(), c);
            }
        }
    }

    /** Barrier seals that can open, by name. */
    Set<String> seals() {
        Set<String> out = new LinkedHashSet<>();
        for (Case c : models.values()) {
            for (Set<String> unit : layout.units()) {
                for (PassageSpec p : layout.boundary(c, unit)) {
                    if (Faults.kind(p) != SealKind.DUCT && Edits.opens(p)) {
                        out.add(p.name());
                    }
                }
            }
        }
        return out;
    }

    /** Scenarios that a design has to meet, by name. */
    private Map<String, UnaryOperator<Case>> scenarios(boolean worn, boolean extremes) {
        Map<String, UnaryOperator<Case>> out = new LinkedHashMap<>();
        out.put(Scene.AS_STATED, c -> c);
        Set<String> seals = seals();
        double factor = criteria.get(Limit.CLEARANCE_FACTOR);
        UnaryOperator<Case> open = c -> Edits.passages(
                c,
                p -> seals.contains(p.name()),
                p -> Edits.open(
                        p, Double.isNaN(p.wornClearance()) ? Edits.clearanceOf(p) * factor : p.wornClearance()));
        if (worn) {
            out.put("all barrier seals worn", open);
        }
        if (extremes) {
            out.put("boundary pressures high", this::high);
        }
        if (worn && extremes) {
            out.put("all barrier seals worn, boundary pressures high", c -> high(open.apply(c)));
        }
        return out;
    }

    /** Every working boundary at its high end. */
    private Case high(Case c) {
        double excess = 1 + criteria.get(Limit.BOUNDARY_EXCESS);
        Case changed = c;
        for (Cavity k : c.cavities()) {
            if (k.fixed() && !layout.sources().contains(k.name()) && k.role() != Role.VENT) {
                changed = Edits.cavity(changed, k.name(), x -> Edits.pressure(x, x.pressure() * excess));
            }
        }
        return changed;
    }

    /** Evaluates a change of the case over all phases and scenarios. */
    Evaluation evaluate(UnaryOperator<Case> change, Map<String, UnaryOperator<Case>> scenarios, double margin) {
        Map<String, Double> margins = new TreeMap<>();
        double purge = Double.NaN;
        Finding worst = null;
        boolean feasible = true;
        for (Map.Entry<String, UnaryOperator<Case>> s : scenarios.entrySet()) {
            for (Map.Entry<String, Case> e : models.entrySet()) {
                PhaseSolve.stopWhenInterrupted();
                Case model = s.getValue().apply(change.apply(e.getValue()));
                Scene scene = new Scene(e.getKey(), s.getKey());
                Point point = scene.asStated()
                        ? points.judge(model, guesses.get(e.getKey()), scene, criteria)
                        : points.judgeFailed(model, guesses.get(e.getKey()), scene, criteria, layout);
                if (point.converged() != null) {
                    double flow = Purge.flow(model, point.converged(), layout);
                    purge = Double.isNaN(purge) ? flow : Math.max(purge, flow);
                }
                for (Finding f : point.findings()) {
                    String key = FaultSweep.key(f);
                    boolean number = !Double.isNaN(f.margin()) && !YES_OR_NO.contains(key);
                    if (number) {
                        margins.merge(key, f.margin(), Math::min);
                    }
                    feasible &= !bad(f, margin);
                    if (worst == null || worse(f, worst, margin)) {
                        worst = f;
                    }
                }
            }
        }
        return new Evaluation(
                feasible,
                margins,
                purge,
                worst == null ? "" : FaultSweep.key(worst),
                worst == null ? "" : worst.where(),
                worst == null ? "" : worst.phase(),
                worst == null ? "" : worst.scenario(),
                worst == null ? "" : worst.what());
    }

    private static boolean bad(Finding f, double margin) {
        return f.verdict() == Verdict.FALLS_SHORT
                || f.verdict() == Verdict.NOT_CONVERGED
                || f.verdict() == Verdict.NOT_ESTABLISHED
                || (f.margin() < margin && !YES_OR_NO.contains(FaultSweep.key(f)));
    }

    /** What governs: a number that falls short before the yes-or-no findings that follow from it; else the least margin. */
    static boolean worse(Finding a, Finding b, double margin) {
        if (bad(a, margin) != bad(b, margin)) {
            return bad(a, margin);
        }
        boolean yesA = YES_OR_NO.contains(FaultSweep.key(a));
        boolean yesB = YES_OR_NO.contains(FaultSweep.key(b));
        return yesA == yesB ? Verdicts.WORST_FIRST.compare(a, b) < 0 : yesB;
    }

    SizeResult size(Case whole, SizeSettings settings, List<String> cautions, Progress progress) {
        String pointer = settings.parameter();
        if (pointer.isEmpty()) {
            if (layout.sources().isEmpty()) {
                throw new IllegalArgumentException("the case has no inert source whose pressure could be sized");
            }
            pointer = "/cavities/" + layout.sources().iterator().next() + "/pressure";
        }
        Parameter parameter = Parameter.of(whole, pointer);
        double stated = parameter.get(whole);
        double lower = Double.isNaN(settings.lower()) ? stated / 10 : settings.lower();
        double upper = Double.isNaN(settings.upper()) ? stated * 3 : settings.upper();
        if (Double.isNaN(settings.lower()) && "pressure".equals(parameter.field())) {
            lower = Math.max(lower, 1.01 * whole.surroundings().pressure());
        }
        Map<String, UnaryOperator<Case>> scenarios = scenarios(settings.worn(), settings.extremes());
        AtomicInteger done = new AtomicInteger();
        Evaluation.Evaluator evaluator = v -> {
            progress.at(Math.min(0.8, done.getAndIncrement() / 40.0), "sizing");
            return evaluate(c -> parameter.set(c, v[0]), scenarios, settings.margin());
        };
        LeastPurge.Result least = LeastPurge.find(evaluator, lower, upper, settings.search());
        UnaryOperator<Case> design = c -> least.feasible() ? parameter.set(c, least.value()) : c;
        Evaluation asStated = evaluate(c -> c, Map.of(Scene.AS_STATED, c -> c), settings.margin());
        progress.at(0.85, "wear limits");
        List<WearLimit> wear = settings.wear() && least.feasible() ? wear(design) : List.of();
        List<String> notes = new ArrayList<>(cautions);
        if (!least.monotone()) {
            notes.add(
                    "Feasibility is not monotone in " + pointer + ": larger values were found that fall short again.");
        }
        SizeResult result = new SizeResult(
                least.feasible() ? Verdict.HOLDS : Verdict.FALLS_SHORT,
                line(pointer, least),
                pointer,
                least,
                stated,
                asStated.purge(),
                redlines(design),
                wear,
                conflicts(least, evaluator, lower, upper),
                List.copyOf(notes));
        progress.at(1, "done");
        return result;
    }

    private static String line(String pointer, LeastPurge.Result least) {
        if (!least.feasible()) {
            return "falls short: no value of " + pointer
                    + " between the bounds meets every criterion; the closest is held up by " + at(least.at());
        }
        return least.below() == null
                ? "holds: even the lower bound of " + pointer + " meets every criterion"
                : "holds: least " + pointer + " is governed by " + at(least.below());
    }

    private static String at(Evaluation e) {
        return e.governing() + " at " + e.where() + " (" + e.scenario() + ", " + e.phase() + ")";
    }

    /** Infeasible: what holds up either end of the range. */
    private static List<String> conflicts(
            LeastPurge.Result least, Evaluation.Evaluator evaluator, double lower, double upper) {
        return least.feasible()
                ? List.of()
                : List.of(
                        "at the lower bound: " + at(evaluator.at(lower)),
                        "at the upper bound: " + at(evaluator.at(upper)));
    }

    /** Wear limits of every barrier seal alone, and of all together, by the criteria as stated. */
    List<WearLimit> wear(UnaryOperator<Case> design) {
        Map<String, UnaryOperator<Case>> stated = Map.of(Scene.AS_STATED, c -> c);
        List<WearLimit> out = new ArrayList<>();
        Case any = models.values().iterator().next();
        Set<String> seals = seals();
        for (String name : seals) {
            out.add(WearLimit.find(
                    name,
                    Edits.clearanceOf(any.passage(name)),
                    v -> evaluate(c -> Edits.opened(design.apply(c), Set.of(name), v[0]), stated, 0)));
        }
        if (seals.size() > 1) {
            out.add(WearLimit.find(
                    "all together",
                    Double.NaN,
                    v -> evaluate(c -> Edits.opened(design.apply(c), seals, v[0]), stated, 0)));
        }
        return out;
    }

    /**
     * Redlines over all phases: lowest pressure of each barrier (lost at the highest neighbour), lowest purge flow (lost where the
     * barrier would fall to that pressure, flow in proportion to pressure), highest pressure of each drain beside a barrier.
     */
    List<Redline> redlines(UnaryOperator<Case> design) {
        double time = criteria.get(Limit.DETECTION_TIME)
                + criteria.get(Limit.SHUTDOWN_TIME)
                + criteria.get(Limit.COAST_DOWN_TIME);
        Map<String, Redline> out = new LinkedHashMap<>();
        for (Map.Entry<String, Case> e : models.entrySet()) {
            Case model = design.apply(e.getValue());
            if (points.solve(model, guesses.get(e.getKey())) instanceof Converged solve) {
                for (Set<String> unit : layout.units()) {
                    unit(out, model, solve, unit, time);
                }
            }
        }
        return List.copyOf(out.values());
    }

    private void unit(Map<String, Redline> out, Case model, Converged solve, Set<String> unit, double time) {
        double u = criteria.get(Limit.INSTRUMENT_UNCERTAINTY);
        double flow = 0;
        double neighbour = 0;
        Map<String, Double> drains = new LinkedHashMap<>();
        for (PassageSpec p : layout.boundary(model, unit)) {
            PassageState state = solve.passages().get(p.name());
            if (state == null) {
                continue;
            }
            boolean from = unit.contains(p.from());
            String beside = from ? p.to() : p.from();
            flow += Setting.outflow(state, from ? p.from() : p.to());
            neighbour = Math.max(neighbour, (from ? state.toState() : state.fromState()).pressure());
            Cavity cavity = model.cavity(beside);
            if (cavity != null && !cavity.fixed()) {
                drains.merge(beside, (from ? state.fromState() : state.toState()).pressure(), Math::min);
            }
        }
        double mass = 0;
        for (String name : stores(model, unit)) {
            Cavity c = model.cavity(name);
            CavityState state = solve.cavities().get(name);
            if (c != null && state != null && !Double.isNaN(c.volume())) {
                mass += c.volume() * state.state().density();
            }
        }
        double tau = flow > 0 ? mass / flow : 0;
        double least = Double.POSITIVE_INFINITY;
        for (String name : unit) {
            CavityState c = solve.cavities().get(name);
            if (c != null) {
                least = Math.min(least, c.state().pressure());
                keep(
                        out,
                        Redline.lowest(
                                "pressure of " + name,
                                "/cavities/" + name,
                                neighbour,
                                u,
                                time,
                                tau,
                                c.state().pressure(),
                                "Pa"));
            }
        }
        String name = unit.iterator().next();
        keep(
                out,
                Redline.lowest(
                        "purge flow into " + name,
                        "/cavities/" + name,
                        neighbour / least * flow,
                        criteria.get(Limit.FLOW_UNCERTAINTY) * flow,
                        0,
                        1,
                        flow,
                        "kg/s"));
        drains.forEach((drain, barrier) -> {
            CavityState c = solve.cavities().get(drain);
            if (c != null) {
                keep(
                        out,
                        Redline.highest(
                                "pressure of " + drain,
                                "/cavities/" + drain,
                                barrier,
                                u,
                                c.state().pressure(),
                                "Pa"));
            }
        });
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

    /** Of the phases the one on the safe side: the highest of the lowest-allowed, the lowest of the highest-allowed. */
    private static void keep(Map<String, Redline> out, Redline r) {
        out.merge(r.name(), r, (a, b) -> {
            double x = Double.isNaN(a.redline()) ? Double.POSITIVE_INFINITY : a.redline();
            double y = Double.isNaN(b.redline()) ? Double.POSITIVE_INFINITY : b.redline();
            return a.lowest() == (x >= y) ? a : b;
        });
    }

    PurgeWindow map(Case whole, MapSettings settings, ExecutorService pool, Progress progress) {
        Parameter x = Parameter.of(whole, settings.x());
        Parameter y = Parameter.of(whole, settings.y());
        int n = settings.points();
        List<Double> xs = line(settings.lowX(), settings.highX(), n);
        List<Double> ys = line(settings.lowY(), settings.highY(), n);
        Map<String, UnaryOperator<Case>> stated = Map.of(Scene.AS_STATED, c -> c);
        AtomicInteger done = new AtomicInteger();
        List<Callable<List<Evaluation>>> rows = new ArrayList<>();
        for (double yv : ys) {
            rows.add(() -> {
                List<Evaluation> row = new ArrayList<>();
                for (double xv : xs) {
                    row.add(evaluate(c -> y.set(x.set(c, xv), yv), stated, 0));
                }
                progress.at(done.incrementAndGet() / (double) n, "map");
                return row;
            });
        }
        List<List<Evaluation>> all = Pool.all(pool, rows);
        Set<String> keys = new TreeSet<>();
        all.forEach(r -> r.forEach(e -> keys.addAll(e.margins().keySet())));
        List<double[][]> margins = new ArrayList<>();
        for (String key : keys) {
            double[][] m = new double[n][n];
            for (int j = 0; j < n; j++) {
                for (int i = 0; i < n; i++) {
                    m[j][i] = all.get(j).get(i).margins().getOrDefault(key, Double.NaN);
                }
            }
            margins.add(m);
        }
        boolean[][] feasible = new boolean[n][n];
        double[][] purge = new double[n][n];
        String[][] governing = new String[n][n];
        for (int j = 0; j < n; j++) {
            for (int i = 0; i < n; i++) {
                feasible[j][i] = all.get(j).get(i).feasible();
                purge[j][i] = all.get(j).get(i).purge();
                governing[j][i] = all.get(j).get(i).governing();
            }
        }
        return new PurgeWindow(
                settings.x(),
                settings.y(),
                xs,
                ys,
                List.copyOf(keys),
                margins,
                feasible,
                purge,
                governing,
                x.get(whole),
                y.get(whole));
    }

    private static List<Double> line(double low, double high, int n) {
        List<Double> out = new ArrayList<>();
        for (int i = 0; i < n; i++) {
            out.add(low + (high - low) * i / (n - 1));
        }
        return out;
    }
}
