package purgewright.hazard.service;

import java.util.ArrayList;
import java.util.Collection;
import java.util.Comparator;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.concurrent.Callable;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.atomic.AtomicInteger;
import java.util.function.Supplier;
import purgewright.hazard.barrier.BarrierLayout;
import purgewright.hazard.criteria.AxialForce;
import purgewright.hazard.criteria.BarrierRules;
import purgewright.hazard.criteria.CountRules;
import purgewright.hazard.criteria.Criteria;
import purgewright.hazard.criteria.FlammabilityRules;
import purgewright.hazard.criteria.Limit;
import purgewright.hazard.criteria.ReversalRules;
import purgewright.hazard.fault.Fault;
import purgewright.hazard.fault.Fault.Kind;
import purgewright.hazard.fault.FaultResult;
import purgewright.hazard.fault.FaultResult.Row;
import purgewright.hazard.fault.Instrument;
import purgewright.hazard.fault.Loss;
import purgewright.hazard.fault.Scenario;
import purgewright.hazard.finding.Finding;
import purgewright.hazard.finding.Scene;
import purgewright.hazard.finding.Verdict;
import purgewright.hazard.finding.Verdicts;
import purgewright.hazard.service.PhaseSolve.Point;
import purgewright.sealflow.model.Case;
import purgewright.sealflow.network.NetworkSolver;
import purgewright.sealflow.network.SolveResult;
import purgewright.sealflow.network.SolveResult.Converged;
import purgewright.sealflow.network.SolveResult.PassageState;
import purgewright.sealflow.network.SolveResult.Reason;

/** Runs scenarios over phases on the pool; results come in the order of the scenarios whatever the threads do. */
final class FaultSweep {
    /** Criteria whose loss is the loss of separation itself, not of a margin. */
    private static final Set<String> SEPARATION = Set.of(
            CountRules.COUNT,
            CountRules.INGESTION,
            CountRules.SHARED_VENT,
            BarrierRules.REVERSE,
            FlammabilityRules.CAVITY,
            FlammabilityRules.VENT,
            FlammabilityRules.MIST,
            ReversalRules.HOT);

    private final PhaseSolve points;
    private final ExecutorService pool;

    /**
     * Iterations on a way of the search: most faults take 8 to 14 from the state as stated, and one without a steady state would take a
     * second at the usual sixty, as much as a hundred others.
     */
    private static final int ITERATIONS = 30;

    FaultSweep(PhaseSolve points, ExecutorService pool) {
        this.points = points.withIterations(ITERATIONS);
        this.pool = pool;
    }

    /** Gives the case of a phase with values of the document replaced. */
    interface Rebuild {
        Case phase(String phase, Map<String, String> set);
    }

    /**
     * One scenario in one phase.
     *
     * @param failed the case with the scenario in it
     */
    private record Cell(String phase, Case failed, Point point, List<String> seenBy) {}

    /**
     * Sweeps. An interrupt of the calling thread ends it early: the scenarios that were done in every phase make a result that says so.
     *
     * @param base each phase as stated, solved and judged
     * @param check gives the check of the case as stated; asked for once the scenarios are solved, so that it may run beside them
     * @param moreCautions beside those of the check
     * @param scenarios in the order of the rows
     */
    FaultResult run(
            Case whole,
            Map<String, Case> models,
            Map<String, Point> base,
            Supplier<CheckResult> check,
            Rebuild rebuild,
            List<Scenario> scenarios,
            FailSettings settings,
            List<String> moreCautions,
            Progress progress) {
        List<String> phases = List.copyOf(models.keySet());
        Counter counter = new Counter(progress, scenarios.size() * (phases.size() + 1));
        // Singles first: each pair then starts from the solutions of its two faults alone.
        Map<String, Cell> alone = new HashMap<>();
        Map<Scenario, List<Cell>> done = new LinkedHashMap<>();
        for (boolean single : new boolean[] {true, false}) {
            List<Scenario> mine =
                    scenarios.stream().filter(s -> s.single() == single).toList();
            List<Callable<Cell>> tasks = new ArrayList<>();
            for (Scenario s : mine) {
                for (String phase : phases) {
                    Near near = single ? Near.NONE : near(s, phase, base.get(phase), alone);
                    tasks.add(counter.counted(
                            s.name(), () -> cell(s, phase, models.get(phase), rebuild, base.get(phase), near)));
                }
            }
            List<Cell> cells = Pool.some(pool, tasks);
            for (int i = 0; i < mine.size(); i++) {
                List<Cell> row = cells.subList(i * phases.size(), (i + 1) * phases.size());
                if (!row.contains(null)) {
                    done.put(mine.get(i), row);
                    if (mine.get(i).faults().size() == 1) {
                        String name = mine.get(i).name();
                        row.forEach(c -> alone.put(at(name, c.phase()), c));
                    }
                }
            }
            if (cells.contains(null)) {
                break;
            }
        }
        CheckResult stated = check.get();
        List<String> cautions = new ArrayList<>(stated.cautions());
        cautions.addAll(moreCautions);
        return rows(
                new Asked(whole, base, shortKeys(stated.findings()), settings),
                scenarios,
                done,
                stated.findings(),
                List.copyOf(cautions),
                counter);
    }

    /** What is the same for every row. */
    private record Asked(Case whole, Map<String, Point> base, Set<String> shortAsStated, FailSettings settings) {}

    private FaultResult rows(
            Asked asked,
            List<Scenario> scenarios,
            Map<Scenario, List<Cell>> done,
            List<Finding> asStated,
            List<String> cautions,
            Counter counter) {
        boolean stopped = done.size() < scenarios.size();
        List<Scenario> order = scenarios.stream().filter(done::containsKey).toList();
        List<Row> rows = new ArrayList<>();
        for (Scenario s : order) {
            rows.add(row(asked, s, done.get(s), null, stopped ? CANCELLED : s.single() ? NOT_ASKED : BEYOND));
        }
        if (asked.settings().times() && points.network() != null && !stopped) {
            List<Integer> timed = timed(order, rows, asked.settings().pairRuns());
            counter.skip(order.size() - timed.size());
            List<Callable<Row>> tasks = new ArrayList<>();
            for (int i : timed) {
                Scenario s = order.get(i);
                tasks.add(counter.counted(s.name(), () -> row(asked, s, done.get(s), points.network(), "")));
            }
            List<Row> run = Pool.some(pool, tasks);
            for (int i = 0; i < run.size(); i++) {
                int at = timed.get(i);
                boolean missing = run.get(i) == null;
                stopped |= missing;
                // One whose run over time was not reached keeps the bound, and says why.
                rows.set(
                        at, missing ? row(asked, order.get(at), done.get(order.get(at)), null, CANCELLED) : run.get(i));
            }
        }
        List<String> left = scenarios.stream()
                .filter(s -> !done.containsKey(s))
                .map(Scenario::name)
                .toList();
        return result(rows, asStated, cautions, stopped, left, times(asked.settings(), order));
    }

    /** Which scenarios are run over time: singles that lose separation, and the worst such pairs. */
    private static List<Integer> timed(List<Scenario> order, List<Row> rows, int pairRuns) {
        List<Integer> out = new ArrayList<>();
        List<Integer> pairs = new ArrayList<>();
        for (int i = 0; i < rows.size(); i++) {
            if (!rows.get(i).losses().isEmpty()) {
                (order.get(i).single() ? out : pairs).add(i);
            }
        }
        pairs.sort(Comparator.comparing(rows::get, WORST_FIRST));
        out.addAll(pairs.subList(0, Math.min(pairRuns, pairs.size())));
        return out;
    }

    private static final String CANCELLED = "the sweep was cancelled before the run over time: ";
    private static final String NOT_ASKED = "no run over time was asked for: ";
    private static final String BEYOND = "only the worst pairs are run over time: ";

    /** How the times of this result were found, in words. */
    private String times(FailSettings settings, List<Scenario> order) {
        long pairs = order.stream().filter(s -> !s.single()).count();
        if (points.network() == null || !settings.times()) {
            return "No fault was run over time: times are bounds from the gas stored, else the worst, at once.";
        }
        if (pairs == 0) {
            return "Single faults that lose separation are run over time.";
        }
        return pairs <= settings.pairRuns()
                ? "Faults and pairs that lose separation are run over time."
                : "Single faults that lose separation are run over time, and so are the " + settings.pairRuns()
                        + " worst pairs of the ranking by the bound; all other pairs have the bound from stored gas alone.";
    }

    private static String at(String scenario, String phase) {
        return scenario + "\n" + phase;
    }

    /** Tells how far the sweep has come. */
    private record Counter(Progress progress, int total, AtomicInteger done) {
        Counter(Progress progress, int total) {
            this(progress, Math.max(1, total), new AtomicInteger());
        }

        <T> Callable<T> counted(String what, Callable<T> task) {
            return () -> {
                T answer = task.call();
                progress.at((double) done.incrementAndGet() / total, what);
                return answer;
            };
        }

        void skip(int steps) {
            done.addAndGet(steps);
        }
    }

    /**
     * What is known near a pair.
     *
     * @param starts the nearest first; empty for a single
     * @param unsolved name of a fault that has no solution even alone; empty when all have
     */
    private record Near(List<Converged> starts, String unsolved) {
        static final Near NONE = new Near(List.of(), "");
    }

    /** What both faults change, added up; then each alone, the one that took the longer way first. */
    private static Near near(Scenario scenario, String phase, Point base, Map<String, Cell> alone) {
        List<Converged> out = new ArrayList<>();
        for (Fault f : scenario.faults()) {
            Cell cell = alone.get(at(f.name(), phase));
            if (cell != null && cell.point().converged() != null) {
                out.add(cell.point().converged());
            } else if (cell != null && base.converged() != null) {
                return new Near(List.of(), f.name());
            }
        }
        out.sort(Comparator.comparingInt((Converged c) -> -c.convergence().iterations()));
        if (out.size() == 2 && base.converged() != null) {
            out.add(0, Starts.together(base.converged(), out.get(0), out.get(1)));
        }
        return new Near(out, "");
    }

    /**
     * A single gets the solver's whole search; a pair the ways from its two faults, which is what all pairs in a few seconds take. A pair
     * with a fault that has no solution even alone is not tried: it would cost as much as a hundred others and end the same way.
     */
    private SolveResult solve(Scenario scenario, Case failed, Converged base, Near near) {
        if (!near.unsolved().isEmpty()) {
            return PhaseSolve.failed(
                    Reason.ITERATION_LIMIT,
                    "\"" + near.unsolved() + "\" has no solution even alone, so the pair was not tried");
        }
        if (scenario.single() || (near.starts().isEmpty() && base == null)) {
            return points.solve(failed, base);
        }
        return points.solveNear(failed, near.starts().isEmpty() ? List.of(base) : near.starts());
    }

    private Cell cell(Scenario scenario, String phase, Case model, Rebuild rebuild, Point base, Near near) {
        Map<String, String> set = scenario.set();
        Case failed = scenario.apply(set.isEmpty() ? model : rebuild.phase(phase, set));
        Criteria criteria = Criteria.of(model.criteria());
        Scene scene = new Scene(phase, scenario.name());
        BarrierLayout designed = base.setting() == null ? null : base.setting().layout();
        SolveResult solved = solve(scenario, failed, base.converged(), near);
        Point point = points.judge(failed, solved, scene, criteria, designed);
        List<String> seen = new ArrayList<>();
        if (point.converged() != null && base.converged() != null && base.setting() != null) {
            Map<Instrument, Double> significance = new LinkedHashMap<>();
            Converged after = point.converged();
            for (Instrument i : Instrument.of(model, base.setting().layout(), criteria)) {
                significance.put(i, i.significance(base.converged(), after));
            }
            significance.entrySet().stream()
                    .filter(e -> e.getValue() > 1)
                    .sorted(Map.Entry.<Instrument, Double>comparingByValue(Comparator.reverseOrder()))
                    .forEach(e -> seen.add(e.getKey().name()));
        }
        if (point.converged() != null && base.setting() != null) {
            List<Finding> force = AxialForce.judge(base.setting(), point.converged(), scene);
            if (!force.isEmpty()) {
                List<Finding> more = new ArrayList<>(point.findings());
                more.addAll(force);
                point = new Point(point.model(), point.solve(), point.setting(), Verdicts.sorted(more));
            }
        }
        if (point.converged() == null && base.setting() != null) {
            seen.addAll(LostSupply.seen(base, failed, criteria));
            List<Finding> more = new ArrayList<>(point.findings());
            more.addAll(LostSupply.findings(base.setting(), failed, scene));
            point = new Point(point.model(), point.solve(), null, Verdicts.sorted(more));
        }
        return new Cell(phase, failed, point, seen);
    }

    static String key(Finding f) {
        return f.id().substring(0, f.id().indexOf(':'));
    }

    private static Set<String> shortKeys(List<Finding> findings) {
        Set<String> out = new TreeSet<>();
        for (Finding f : findings) {
            if (f.verdict() == Verdict.FALLS_SHORT) {
                out.add(key(f) + " " + f.where());
            }
        }
        return out;
    }

    /**
     * A row of the matrix.
     *
     * @param networkOrNull runs what loses separation over time; null: the bound only
     * @param noRun why there is no run, in words before the bound's
     */
    private Row row(Asked asked, Scenario s, List<Cell> cells, NetworkSolver networkOrNull, String noRun) {
        Case whole = asked.whole();
        Map<String, Point> base = asked.base();
        Map<String, Double> margins = new TreeMap<>();
        Map<String, Verdict> verdicts = new TreeMap<>();
        Set<String> lost = new TreeSet<>();
        Set<String> pairsLost = new TreeSet<>();
        List<String> weakestPath = List.of();
        List<Finding> bad = new ArrayList<>();
        Cell worst = cells.get(0);
        Finding worstFinding = null;
        Set<String> seen = null;
        boolean excusable = true;
        List<Loss> losses = new ArrayList<>();
        for (Cell cell : cells) {
            Set<String> here = new TreeSet<>();
            for (Finding f : cell.point().findings()) {
                String key = key(f);
                margins.merge(key, f.margin(), Math::min);
                verdicts.merge(key, f.verdict(), (a, b) -> a.compareTo(b) <= 0 ? a : b);
                if (worstFinding == null || Verdicts.WORSE.compare(f, worstFinding) < 0) {
                    worstFinding = f;
                    worst = cell;
                }
                if (f.verdict() != Verdict.HOLDS) {
                    bad.add(f);
                }
                if (f.verdict() == Verdict.FALLS_SHORT) {
                    if (!asked.shortAsStated().contains(key + " " + f.where())) {
                        lost.add(key);
                    }
                    if (SEPARATION.contains(key)) {
                        here.add(key);
                        // Gas that runs back into the supply is still there when the machine stands.
                        excusable &= !key.equals(BarrierRules.REVERSE);
                    }
                    if (CountRules.COUNT.equals(key) && f.what().contains(CountRules.REACTIVE)) {
                        pairsLost.add(f.what()
                                .substring(f.what().indexOf(CountRules.REACTIVE) + CountRules.REACTIVE.length()));
                        weakestPath = weakestPath.isEmpty() ? CountRules.weakestPath(f) : weakestPath;
                    }
                }
            }
            if (!here.isEmpty()) {
                Loss loss = TimeToLoss.of(
                        networkOrNull,
                        noRun,
                        s,
                        cell.phase(),
                        base.get(cell.phase()),
                        cell.failed(),
                        Criteria.of(cell.failed().criteria()),
                        cell.seenBy(),
                        mixes(here, cell));
                losses.add(loss);
                // Two fluids come to one vent once they mix: excused only where a run shows that they mix later.
                excusable &= !here.contains(CountRules.SHARED_VENT) || loss.mixing() >= loss.needed();
                Set<String> now = new LinkedHashSet<>(cell.seenBy());
                if (seen == null) {
                    seen = now;
                } else {
                    seen.retainAll(now);
                }
            }
        }
        if (seen == null) {
            seen = new LinkedHashSet<>(worst.seenBy());
        }
        boolean inTime = excusable && !seen.isEmpty() && losses.stream().allMatch(Loss::inTime);
        Verdict verdict = verdict(verdicts, !losses.isEmpty(), inTime);
        Loss fastest = Loss.fastest(losses);
        return new Row(
                s.name(),
                s.kinds(),
                s.single(),
                s.credible(),
                verdict,
                margins,
                verdicts,
                List.copyOf(lost),
                List.copyOf(pairsLost),
                worst.phase(),
                fastest == null ? Double.NaN : fastest.seconds(),
                fastest == null ? needed(Criteria.of(whole.criteria())) : fastest.needed(),
                List.copyOf(seen),
                !lost.isEmpty()
                        && seen.isEmpty()
                        && cells.stream().allMatch(c -> c.point().converged() != null),
                Waivers.apply(whole, Verdicts.sorted(bad)),
                List.copyOf(losses),
                weakestPath,
                wider(s, cells, base));
    }

    /** A wider seal that raises a barrier's margin somewhere is explained by the pressures on both sides, or something is wrong. */
    private static List<String> wider(Scenario s, List<Cell> cells, Map<String, Point> base) {
        List<String> out = new ArrayList<>();
        if (!s.faults().stream().allMatch(f -> f.kind() == Kind.WORN || f.kind() == Kind.FAILED_OPEN)) {
            return out;
        }
        for (Cell cell : cells) {
            Point before = base.get(cell.phase());
            if (before.setting() == null || cell.point().setting() == null) {
                continue;
            }
            for (Finding f : cell.point().findings()) {
                double was = before.findings().stream()
                        .filter(x -> x.where().equals(f.where()) && key(x).equals(key(f)))
                        .mapToDouble(Finding::margin)
                        .findFirst()
                        .orElse(Double.NaN);
                if (key(f).equals(BarrierRules.PRESSURE) && f.margin() > was + 1e-3) {
                    String passage = f.where().substring(f.where().lastIndexOf('/') + 1);
                    PassageState a = before.setting().passage(passage);
                    PassageState b = cell.point().setting().passage(passage);
                    out.add(String.format(
                            Locale.ROOT,
                            "%s: the margin across %s rises from %.2f to %.2f, since %s goes from %.4g to %.4g MPa and %s from %.4g to %.4g MPa",
                            cell.phase(),
                            passage,
                            was,
                            f.margin(),
                            a.from(),
                            a.fromState().pressure() / 1e6,
                            b.fromState().pressure() / 1e6,
                            a.to(),
                            a.toState().pressure() / 1e6,
                            b.toState().pressure() / 1e6));
                }
            }
        }
        return out;
    }

    /** Whether fluids mix in the state that a fault ends in; a state that could not be solved counts as one where they do. */
    private static boolean mixes(Set<String> lostHere, Cell cell) {
        return !lostHere.equals(Set.of(CountRules.COUNT))
                || cell.point().converged() == null
                || cell.point().findings().stream()
                        .anyMatch(f -> f.verdict() == Verdict.FALLS_SHORT
                                && (key(f).equals(BarrierRules.DIRECTION) || key(f).equals(BarrierRules.PURITY)));
    }

    private static double needed(Criteria k) {
        return k.get(Limit.DETECTION_TIME) + k.get(Limit.SHUTDOWN_TIME) + k.get(Limit.COAST_DOWN_TIME);
    }

    /** Separation lost falls short unless it is seen in time; a margin lost under a fault is thin. */
    private static Verdict verdict(Map<String, Verdict> verdicts, boolean separationLost, boolean inTime) {
        if ((separationLost && !inTime) || verdicts.get(AxialForce.KEY) == Verdict.FALLS_SHORT) {
            return Verdict.FALLS_SHORT;
        }
        if (verdicts.containsValue(Verdict.NOT_CONVERGED)) {
            return Verdict.NOT_CONVERGED;
        }
        if (verdicts.containsValue(Verdict.NOT_ESTABLISHED)) {
            return Verdict.NOT_ESTABLISHED;
        }
        return separationLost || verdicts.containsValue(Verdict.FALLS_SHORT) || verdicts.containsValue(Verdict.THIN)
                ? Verdict.THIN
                : Verdict.HOLDS;
    }

    private static FaultResult result(
            List<Row> rows,
            List<Finding> asStated,
            List<String> cautions,
            boolean stopped,
            List<String> left,
            String times) {
        Set<String> keys = new TreeSet<>();
        rows.forEach(r -> keys.addAll(r.verdicts().keySet()));
        List<Verdict> counted = new ArrayList<>();
        Verdict verdict = Verdicts.of(asStated);
        Map<Verdict, Integer> kinds = new TreeMap<>();
        for (Row r : rows) {
            if (r.single() && r.credible()) {
                counted.add(r.verdict());
                kinds.merge(r.verdict(), 1, Integer::sum);
                verdict = r.verdict().compareTo(verdict) < 0 ? r.verdict() : verdict;
            }
        }
        if ((stopped || counted.isEmpty()) && Verdict.NOT_ESTABLISHED.compareTo(verdict) < 0) {
            // What was not looked at may be lost.
            verdict = Verdict.NOT_ESTABLISHED;
        }
        StringBuilder line = new StringBuilder(verdict.word());
        line.append(": as stated ")
                .append(Verdicts.of(asStated).word())
                .append("; of ")
                .append(counted.size());
        line.append(" single faults ");
        List<String> parts = new ArrayList<>();
        kinds.forEach((v, n) -> parts.add(n + " " + v.word()));
        line.append(parts.isEmpty() ? "none was looked at" : String.join(", ", parts));
        String incomplete = !stopped
                ? ""
                : left.isEmpty()
                        ? "cancelled: every scenario was solved, but not every one was run over time"
                        : "cancelled: " + left.size() + " of " + (rows.size() + left.size())
                                + " scenarios were not examined";
        if (stopped) {
            line.append("; INCOMPLETE, ").append(incomplete);
        }
        return new FaultResult(
                verdict,
                line.toString(),
                List.copyOf(keys),
                List.copyOf(rows),
                ranking(rows),
                Verdicts.sorted(asStated),
                cautions,
                times,
                incomplete,
                left);
    }

    private static final Comparator<Row> WORST_FIRST = Comparator.comparing((Row r) -> r.verdict())
            .thenComparing(r -> -r.pairsLost().size())
            .thenComparingDouble(r -> Double.isNaN(r.timeToLoss()) ? Double.MAX_VALUE : r.timeToLoss())
            .thenComparing(r -> !r.hidden())
            .thenComparing(r -> -r.lost().size())
            .thenComparing(Row::scenario);

    /** Names of the scenarios that lose something, worst first. */
    private static List<String> ranking(Collection<Row> rows) {
        return rows.stream()
                .filter(r -> !r.lost().isEmpty())
                .sorted(WORST_FIRST)
                .map(Row::scenario)
                .toList();
    }
}
