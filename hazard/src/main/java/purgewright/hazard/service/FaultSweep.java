package purgewright.hazard.service;

import java.util.ArrayList;
import java.util.Collection;
import java.util.Comparator;
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
import purgewright.hazard.barrier.BarrierCount;
import purgewright.hazard.barrier.BarrierLayout;
import purgewright.hazard.barrier.Pair;
import purgewright.hazard.criteria.BarrierRules;
import purgewright.hazard.criteria.CountRules;
import purgewright.hazard.criteria.Criteria;
import purgewright.hazard.criteria.FlammabilityRules;
import purgewright.hazard.criteria.Limit;
import purgewright.hazard.criteria.Setting;
import purgewright.hazard.fault.Fault;
import purgewright.hazard.fault.Fault.Kind;
import purgewright.hazard.fault.FaultResult;
import purgewright.hazard.fault.FaultResult.Row;
import purgewright.hazard.fault.Instrument;
import purgewright.hazard.fault.Scenario;
import purgewright.hazard.finding.Draft;
import purgewright.hazard.finding.Finding;
import purgewright.hazard.finding.Scene;
import purgewright.hazard.finding.Verdict;
import purgewright.hazard.finding.Verdicts;
import purgewright.hazard.service.PhaseSolve.Point;
import purgewright.sealflow.model.Case;
import purgewright.sealflow.model.Cavity;
import purgewright.sealflow.model.PassageSpec;
import purgewright.sealflow.network.SolveResult.CavityState;
import purgewright.sealflow.network.SolveResult.Converged;
import purgewright.sealflow.network.SolveResult.PassageState;

/** Runs scenarios over phases on the pool; results come in the order of the scenarios whatever the threads do. */
final class FaultSweep {
    /** Criteria whose loss is the loss of separation itself, not of a margin. */
    private static final Set<String> SEPARATION = Set.of(
            CountRules.COUNT,
            CountRules.INGESTION,
            CountRules.SHARED_VENT,
            BarrierRules.REVERSE,
            FlammabilityRules.CAVITY,
            FlammabilityRules.VENT);

    /** What detection and time cannot excuse. */
    private static final Set<String> NEVER_EXCUSED = Set.of(BarrierRules.REVERSE, CountRules.SHARED_VENT);

    private final PhaseSolve points;
    private final ExecutorService pool;

    FaultSweep(PhaseSolve points, ExecutorService pool) {
        this.points = points;
        this.pool = pool;
    }

    /** Gives the case of a phase with values of the document replaced. */
    interface Rebuild {
        Case phase(String phase, Map<String, String> set);
    }

    /** One scenario in one phase. */
    private record Cell(String phase, Point point, double timeToLoss, List<String> seenBy) {}

    FaultResult run(
            Map<String, Case> models,
            Rebuild rebuild,
            List<Fault> faults,
            boolean pairs,
            List<String> cautions,
            Progress progress) {
        Map<String, Point> base = new LinkedHashMap<>();
        List<Finding> asStated = new ArrayList<>();
        Converged guess = null;
        for (Map.Entry<String, Case> e : models.entrySet()) {
            Point p = points.judge(
                    e.getValue(),
                    guess,
                    Scene.of(e.getKey()),
                    Criteria.of(e.getValue().criteria()));
            guess = p.converged() == null ? guess : p.converged();
            base.put(e.getKey(), p);
            asStated.addAll(p.findings());
        }
        List<Scenario> scenarios = Scenario.of(faults, pairs);
        List<Callable<Cell>> tasks = new ArrayList<>();
        AtomicInteger done = new AtomicInteger();
        int total = Math.max(1, scenarios.size() * models.size());
        for (Scenario s : scenarios) {
            for (String phase : models.keySet()) {
                tasks.add(() -> {
                    Cell cell = cell(s, phase, models.get(phase), rebuild, base.get(phase));
                    progress.at((double) done.incrementAndGet() / total, s.name());
                    return cell;
                });
            }
        }
        List<Cell> cells = Pool.all(pool, tasks);
        Set<String> shortAsStated = shortKeys(asStated);
        List<Row> rows = new ArrayList<>();
        for (int i = 0; i < scenarios.size(); i++) {
            List<Cell> mine = cells.subList(i * models.size(), (i + 1) * models.size());
            rows.add(row(scenarios.get(i), mine, shortAsStated, needed(models.values())));
        }
        return result(rows, asStated, cautions);
    }

    private Cell cell(Scenario scenario, String phase, Case model, Rebuild rebuild, Point base) {
        Map<String, String> set = scenario.set();
        Case failed = scenario.apply(set.isEmpty() ? model : rebuild.phase(phase, set));
        Criteria criteria = Criteria.of(model.criteria());
        Scene scene = new Scene(phase, scenario.name());
        Point point = points.judgeFailed(
                failed,
                base.converged(),
                scene,
                criteria,
                base.setting() == null ? null : base.setting().layout());
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
        if (point.converged() == null && base.setting() != null) {
            seen.addAll(seenWithoutSolution(base, failed, criteria));
            List<Finding> more = new ArrayList<>(point.findings());
            more.addAll(supplyLost(base.setting(), failed, scene));
            point = new Point(point.model(), point.solve(), null, Verdicts.sorted(more));
        }
        return new Cell(phase, point, timeToLoss(scenario, base, point), seen);
    }

    /** Units that no source above their neighbours' pressure (as stated) feeds any more. */
    private static List<Set<String>> unfed(Setting base, Case failed) {
        List<Set<String>> out = new ArrayList<>();
        for (Set<String> unit : base.layout().units()) {
            double limit = neighbour(base, unit);
            boolean reached = reach(failed, base.layout(), unit).stream()
                    .map(failed::cavity)
                    .anyMatch(c -> c != null && c.fixed() && c.pressure() > limit);
            if (!reached) {
                out.add(unit);
            }
        }
        return out;
    }

    /** Highest pressure beside a unit, Pa. */
    private static double neighbour(Setting base, Set<String> unit) {
        double highest = 0;
        for (PassageSpec p : base.layout().boundary(base.model(), unit)) {
            PassageState state = base.passage(p.name());
            if (state != null) {
                highest = Math.max(highest, (unit.contains(p.from()) ? state.toState() : state.fromState()).pressure());
            }
        }
        return highest;
    }

    /** Pressure readings in a barrier without supply, which fall at least to the highest neighbour by more than their uncertainty. */
    private static List<String> seenWithoutSolution(Point base, Case failed, Criteria criteria) {
        List<String> out = new ArrayList<>();
        for (Set<String> unit : unfed(base.setting(), failed)) {
            for (Instrument i : Instrument.of(base.model(), base.setting().layout(), criteria)) {
                if ("pressure".equals(i.measures()) && unit.contains(i.place())) {
                    CavityState c = base.converged().cavities().get(i.place());
                    if (c != null && c.state().pressure() - neighbour(base.setting(), unit) > i.uncertainty()) {
                        out.add(i.name());
                    }
                }
            }
        }
        return out;
    }

    /**
     * Where a failed case could not be solved: a barrier that no source above its neighbours' pressure feeds any more is lost whatever
     * the flows are. Counted for each reactive pair that has no other barrier.
     */
    private static List<Finding> supplyLost(Setting base, Case failed, Scene scene) {
        List<Set<String>> fed = new ArrayList<>(base.layout().units());
        fed.removeAll(unfed(base, failed));
        List<Finding> out = new ArrayList<>();
        for (Pair pair : base.pairs()) {
            if (!pair.reactive()) {
                continue;
            }
            BarrierCount left = BarrierCount.between(failed, pair, base.layout(), fed);
            if (left.count() < 1) {
                out.add(Draft.of(CountRules.COUNT, "/streams/" + pair.first(), scene)
                        .part(pair.second())
                        .what("Independent barriers between the reactive pair " + pair.name())
                        .unit("1")
                        .how("no open feed joins the barrier to a source above its neighbours' pressure; weakest path: "
                                + String.join(" - ", left.path()))
                        .source("a barrier that depends on flow alone is not counted as holding with its supply lost"
                                + " [common practice]")
                        .mend("a second supply, or a seal that holds without flow")
                        .as(Verdict.FALLS_SHORT, left.count(), 1, left.count() - 1.0));
            }
        }
        return out;
    }

    /**
     * Least time until a barrier fed from stored gas has fallen to its neighbour's limit after its supply failed: the gas stored above
     * that pressure in barrier and receivers over the purge flow at the start. A lower bound, since the flow falls with the pressure.
     * Zero for any other fault.
     */
    private static double timeToLoss(Scenario scenario, Point base, Point failed) {
        if (base.converged() == null || base.setting() == null) {
            return 0;
        }
        boolean supply = scenario.faults().stream()
                .allMatch(
                        f -> f.kind() == Kind.SUPPLY_EMPTY || f.kind() == Kind.SUPPLY_LOW || f.kind() == Kind.PLUGGED);
        if (!supply) {
            return 0;
        }
        BarrierLayout layout = base.setting().layout();
        Converged before = base.converged();
        double least = Double.POSITIVE_INFINITY;
        for (Set<String> unit : layout.units()) {
            double flow = 0;
            double limit = 0;
            for (PassageSpec p : layout.boundary(base.model(), unit)) {
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
            Set<String> store = stores(failed.model(), layout, unit);
            for (String name : store) {
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

    /** Solved inert-fed cavities that still reach a unit through open feeds. */
    private static Set<String> stores(Case failed, BarrierLayout layout, Set<String> unit) {
        Set<String> out = reach(failed, layout, unit);
        out.removeIf(name -> failed.cavity(name) == null || failed.cavity(name).fixed());
        return out;
    }

    /** A unit and all inert-fed cavities that still reach it through open feeds, sources included but not passed through. */
    private static Set<String> reach(Case failed, BarrierLayout layout, Set<String> unit) {
        Set<String> out = new LinkedHashSet<>(unit);
        boolean grown = true;
        while (grown) {
            grown = false;
            for (PassageSpec p : failed.passages()) {
                if (layout.feeds().containsKey(p.name()) && !p.closed()) {
                    grown |= passes(failed, out, p.from()) && out.add(p.to());
                    grown |= passes(failed, out, p.to()) && out.add(p.from());
                }
            }
        }
        return out;
    }

    private static boolean passes(Case failed, Set<String> reached, String name) {
        Cavity c = failed.cavity(name);
        return reached.contains(name) && c != null && !c.fixed();
    }

    private static double needed(Collection<Case> models) {
        double most = 0;
        for (Case c : models) {
            Criteria k = Criteria.of(c.criteria());
            most = Math.max(
                    most, k.get(Limit.DETECTION_TIME) + k.get(Limit.SHUTDOWN_TIME) + k.get(Limit.COAST_DOWN_TIME));
        }
        return most;
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

    private static Row row(Scenario s, List<Cell> cells, Set<String> shortAsStated, double needed) {
        Map<String, Double> margins = new TreeMap<>();
        Map<String, Verdict> verdicts = new TreeMap<>();
        Set<String> lost = new TreeSet<>();
        Set<String> pairsLost = new TreeSet<>();
        List<Finding> bad = new ArrayList<>();
        Cell worst = cells.get(0);
        Finding worstFinding = null;
        double time = Double.POSITIVE_INFINITY;
        Set<String> seen = null;
        boolean excusable = true;
        boolean separationLost = false;
        for (Cell cell : cells) {
            boolean here = false;
            for (Finding f : cell.point().findings()) {
                String key = key(f);
                margins.merge(key, f.margin(), Math::min);
                verdicts.merge(key, f.verdict(), (a, b) -> a.compareTo(b) <= 0 ? a : b);
                if (worstFinding == null || Verdicts.WORST_FIRST.compare(f, worstFinding) < 0) {
                    worstFinding = f;
                    worst = cell;
                }
                if (f.verdict() != Verdict.HOLDS) {
                    bad.add(f);
                }
                if (f.verdict() == Verdict.FALLS_SHORT) {
                    if (!shortAsStated.contains(key + " " + f.where())) {
                        lost.add(key);
                    }
                    if (SEPARATION.contains(key)) {
                        here = true;
                        excusable &= !NEVER_EXCUSED.contains(key);
                    }
                    if (CountRules.COUNT.equals(key) && f.what().contains("reactive pair ")) {
                        pairsLost.add(f.what().substring(f.what().indexOf("reactive pair ") + 14));
                    }
                }
            }
            if (here) {
                separationLost = true;
                time = Math.min(time, cell.timeToLoss());
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
        boolean inTime = separationLost && excusable && !seen.isEmpty() && time >= needed;
        Verdict verdict = verdict(verdicts, separationLost, inTime);
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
                separationLost ? time : Double.NaN,
                needed,
                List.copyOf(seen),
                !lost.isEmpty()
                        && seen.isEmpty()
                        && cells.stream().allMatch(c -> c.point().converged() != null),
                Verdicts.sorted(bad));
    }

    /** Separation lost falls short unless it is seen in time; a margin lost under a fault is thin. */
    private static Verdict verdict(Map<String, Verdict> verdicts, boolean separationLost, boolean inTime) {
        if (separationLost && !inTime) {
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

    private static FaultResult result(List<Row> rows, List<Finding> asStated, List<String> cautions) {
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
        StringBuilder line = new StringBuilder(verdict.word());
        line.append(": as stated ")
                .append(Verdicts.of(asStated).word())
                .append("; of ")
                .append(counted.size());
        line.append(" single faults ");
        List<String> parts = new ArrayList<>();
        kinds.forEach((v, n) -> parts.add(n + " " + v.word()));
        line.append(String.join(", ", parts));
        List<String> ranking = rows.stream()
                .filter(r -> !r.lost().isEmpty())
                .sorted(Comparator.comparing((Row r) -> r.verdict())
                        .thenComparing(r -> -r.pairsLost().size())
                        .thenComparingDouble(r -> Double.isNaN(r.timeToLoss()) ? Double.MAX_VALUE : r.timeToLoss())
                        .thenComparing(r -> !r.hidden())
                        .thenComparing(r -> -r.lost().size())
                        .thenComparing(Row::scenario))
                .map(Row::scenario)
                .toList();
        return new FaultResult(
                verdict,
                line.toString(),
                List.copyOf(keys),
                List.copyOf(rows),
                ranking,
                Verdicts.sorted(asStated),
                cautions);
    }
}
