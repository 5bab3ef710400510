package purgewright.hazard.service;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.concurrent.Callable;
import java.util.concurrent.ExecutorService;
import java.util.function.UnaryOperator;
import purgewright.hazard.barrier.BarrierLayout;
import purgewright.hazard.criteria.BarrierRules;
import purgewright.hazard.criteria.CountRules;
import purgewright.hazard.criteria.Criteria;
import purgewright.hazard.criteria.FlammabilityRules;
import purgewright.hazard.criteria.Limit;
import purgewright.hazard.fault.Edits;
import purgewright.hazard.fault.Faults;
import purgewright.hazard.fault.Scenario;
import purgewright.hazard.finding.Finding;
import purgewright.hazard.finding.Scene;
import purgewright.hazard.finding.Verdict;
import purgewright.hazard.finding.Verdicts;
import purgewright.hazard.service.NearStart.Known;
import purgewright.hazard.service.PhaseSolve.Point;
import purgewright.hazard.sizing.Evaluation;
import purgewright.hazard.sizing.Margin;
import purgewright.hazard.sizing.Parameter;
import purgewright.sealflow.model.Case;
import purgewright.sealflow.model.Cavity;
import purgewright.sealflow.model.DutyPhase;
import purgewright.sealflow.model.PassageSpec;
import purgewright.sealflow.model.Role;
import purgewright.sealflow.network.SolveResult;
import purgewright.sealflow.network.SolveResult.Converged;
import purgewright.sealflow.passage.PassageType.SealKind;

/**
 * Solves and judges designs over phases and scenarios. A design is a change of the case; a cell is one phase under one scenario. Every
 * cell starts from its own nearest known solution; within one call only from what was known before it, so that results do not depend
 * on the threads.
 */
final class DesignPoints {
    /** Criteria whose margin has a fixed size by definition; they are met or not, and do not govern by their margin. */
    static final Set<String> YES_OR_NO = Set.of(
            CountRules.COUNT,
            BarrierRules.DIRECTION,
            BarrierRules.PURITY,
            FlammabilityRules.CAVITY,
            FlammabilityRules.VENT);

    /** Solutions kept for each cell to start from. */
    private static final int KEPT = 250;

    /** Guesses tried before the solver starts from nothing: the plane through the neighbours, then two of them. */
    private static final int GUESSES = 3;

    /** A design applied to the case of a phase. */
    @FunctionalInterface
    interface Edit {
        /** The case as stated. */
        Edit NONE = (phase, model, values) -> model;

        Case apply(String phase, Case model, double[] values);
    }

    /**
     * One phase under one scenario.
     *
     * @param base the phase's case, before design and scenario
     */
    record Cell(String phase, String scenario, Case base, UnaryOperator<Case> change) {
        String key() {
            return phase + "|" + scenario;
        }
    }

    /**
     * What came of one design in one cell.
     *
     * @param point null when it was solved but not judged
     */
    record Outcome(Cell cell, Case model, Converged solve, Point point) {}

    /** What was tried in one cell. A design means something only beside others of the same edit. */
    private static final class Tried {
        private Edit edit;
        private final List<Known> solved = new ArrayList<>();
        private final List<double[]> failed = new ArrayList<>();
        /** Of whatever edit: better than a start from nothing. */
        private Known last;
    }

    /**
     * Where a design starts from.
     *
     * @param guesses the best first; may be empty
     * @param opened start with the seals opened; may be null
     * @param hopeless its neighbours have no solution either
     */
    private record Start(List<Converged> guesses, Converged opened, boolean hopeless) {}

    final PhaseSolve points;
    final ExecutorService pool;
    final Case whole;
    final Map<String, Case> models;
    final BarrierLayout layout;
    final Criteria criteria;
    private final Map<String, DutyPhase> duty = new LinkedHashMap<>();
    /** Of each phase as it stands: inert gas in a working cavity counts as purge there, as it does in the check. */
    private final Map<String, BarrierLayout> phaseLayouts = new LinkedHashMap<>();

    private final Map<String, Tried> solutions = new LinkedHashMap<>();

    /** Phases whose purge flow and set pressure count as the design's; empty for all. */
    private Set<String> counted = Set.of();

    DesignPoints(PhaseSolve points, ExecutorService pool, Case whole, Map<String, Case> models) {
        this.points = points;
        this.pool = pool;
        this.whole = whole;
        this.models = models;
        this.layout = BarrierLayout.of(whole, points.streams(whole.streams()), Faults::kind);
        this.criteria = Criteria.of(whole.criteria());
        whole.duty().forEach(d -> duty.put(d.name(), d));
        models.forEach((phase, model) ->
                phaseLayouts.put(phase, BarrierLayout.of(model, points.streams(model.streams()), Faults::kind)));
    }

    /** The phase of that name in the duty; null when the case has none. */
    DutyPhase duty(String phase) {
        return duty.get(phase);
    }

    /** Barrier seals, by name; each can open. */
    Set<String> seals() {
        Set<String> out = new LinkedHashSet<>();
        for (Case c : models.values()) {
            for (Set<String> unit : layout.units()) {
                for (PassageSpec p : layout.boundary(c, unit)) {
                    if (Faults.kind(p) != SealKind.DUCT) {
                        out.add(p.name());
                    }
                }
            }
        }
        return out;
    }

    /** Every seal, at a barrier or not, by name in the order of the case; one without a clearance in the case opens by its flow. */
    Set<String> wearing() {
        Set<String> out = new LinkedHashSet<>();
        for (Case c : models.values()) {
            for (PassageSpec p : c.passages()) {
                if (Faults.kind(p) != SealKind.DUCT) {
                    out.add(p.name());
                }
            }
        }
        return out;
    }

    /** The case as stated, in every phase. */
    List<Cell> asStated() {
        List<Cell> out = new ArrayList<>();
        models.forEach((phase, model) -> out.add(new Cell(phase, Scene.AS_STATED, model, c -> c)));
        return out;
    }

    /**
     * The cells that a design has to meet: as stated, all barrier seals worn, working boundaries high and low, both together, and
     * faults.
     *
     * @param rebuild for faults that set values of the document
     */
    List<Cell> cells(boolean worn, boolean extremes, List<Scenario> faults, FaultSweep.Rebuild rebuild) {
        List<Cell> out = asStated();
        UnaryOperator<Case> open = this::worn;
        Map<String, UnaryOperator<Case>> changes = new LinkedHashMap<>();
        if (worn) {
            changes.put("all barrier seals worn", open);
        }
        if (extremes) {
            changes.put("boundary pressures high", c -> boundaries(c, 1 + criteria.get(Limit.BOUNDARY_EXCESS)));
            changes.put("boundary pressures low", c -> boundaries(c, 1 - criteria.get(Limit.BOUNDARY_EXCESS)));
        }
        if (worn && extremes) {
            changes.put(
                    "all barrier seals worn, boundary pressures high",
                    c -> boundaries(open.apply(c), 1 + criteria.get(Limit.BOUNDARY_EXCESS)));
            changes.put(
                    "all barrier seals worn, boundary pressures low",
                    c -> boundaries(open.apply(c), 1 - criteria.get(Limit.BOUNDARY_EXCESS)));
        }
        changes.forEach(
                (name, change) -> models.forEach((phase, model) -> out.add(new Cell(phase, name, model, change))));
        for (Scenario s : faults) {
            models.forEach((phase, model) -> {
                Map<String, String> set = s.set();
                Case base = set.isEmpty() || rebuild == null ? model : rebuild.phase(phase, set);
                out.add(new Cell(phase, s.name(), base, s::apply));
            });
        }
        return out;
    }

    /**
     * All barrier seals worn: to the stated worn clearance, else by the clearance factor, or by the flow that it gives. A design with another clearance than the
     * case's keeps the depth of wear.
     */
    private Case worn(Case c) {
        Set<String> seals = seals();
        double factor = criteria.get(Limit.CLEARANCE_FACTOR);
        return Edits.passages(c, p -> seals.contains(p.name()), p -> {
            double here = Edits.clearanceOf(p);
            if (Double.isNaN(p.wornClearance()) || !Edits.opens(p)) {
                return Edits.wider(p, factor);
            }
            PassageSpec drawing = whole.passage(p.name());
            double depth = p.wornClearance() - (drawing == null ? here : Edits.clearanceOf(drawing));
            return Edits.open(p, here + Math.max(0, depth));
        });
    }

    /** Every working boundary at another pressure; the purge supply and the vents stay. */
    private Case boundaries(Case c, double factor) {
        Case changed = c;
        for (Cavity k : c.cavities()) {
            if (k.fixed() && !layout.sources().contains(k.name()) && k.role() != Role.VENT) {
                changed = Edits.cavity(changed, k.name(), x -> Edits.pressure(x, x.pressure() * factor));
            }
        }
        return changed;
    }

    /** Whether a place is set in a phase: not where the phase states its own, unless all phases looked at do. */
    boolean applies(Parameter p, String phase) {
        boolean any = models.keySet().stream().anyMatch(each -> p.applies(whole, duty.get(each)));
        return p.applies(whole, duty.get(phase)) || (!any && p.phase().isEmpty());
    }

    /**
     * Lets flow and set pressure be those of some phases alone: one that states its own pressure would hide what a design does in the
     * others. The gas of a run is that of all phases.
     */
    void count(Set<String> phases) {
        counted = Set.copyOf(phases);
    }

    private boolean counts(Outcome o) {
        return Scene.AS_STATED.equals(o.cell().scenario())
                && (counted.isEmpty() || counted.contains(o.cell().phase()));
    }

    /** Forgets every known solution: the next answers owe nothing to those before. */
    void forget() {
        solutions.clear();
    }

    /** Designs over cells; one list of outcomes for each design. */
    List<List<Outcome>> solve(List<double[]> designs, Edit edit, List<Cell> cells, Set<String> judged) {
        return solve(designs, edit, designs.stream().map(d -> cells).toList(), judged, false);
    }

    /**
     * Designs, each over cells of its own.
     *
     * @param judged keys of the cells to be judged, not only solved; null for all
     * @param sweep among neighbours that have no solution a design is given up early, as a picture of many points can afford
     */
    List<List<Outcome>> solve(
            List<double[]> designs, Edit edit, List<List<Cell>> cells, Set<String> judged, boolean sweep) {
        List<Callable<Outcome>> tasks = new ArrayList<>();
        for (int i = 0; i < designs.size(); i++) {
            double[] design = designs.get(i);
            for (Cell cell : cells.get(i)) {
                Start start = start(cell, edit, design);
                boolean judge = judged == null || judged.contains(cell.key());
                tasks.add(() -> solve(design, edit, cell, start, judge, sweep));
            }
        }
        List<Outcome> all = Pool.all(pool, tasks);
        List<List<Outcome>> out = new ArrayList<>();
        int from = 0;
        for (int i = 0; i < designs.size(); i++) {
            List<Outcome> mine = all.subList(from, from + cells.get(i).size());
            from += mine.size();
            for (Outcome o : mine) {
                remember(o, edit, designs.get(i));
            }
            out.add(mine);
        }
        return out;
    }

    private Outcome solve(double[] design, Edit edit, Cell cell, Start start, boolean judge, boolean sweep) {
        PhaseSolve.stopWhenInterrupted();
        Case model = cell.change().apply(edit.apply(cell.phase(), cell.base(), design));
        SolveResult result = null;
        if (!start.guesses().isEmpty()) {
            result = points.solveNear(model, start.guesses());
        }
        if (!(result instanceof Converged) && !(sweep && start.hopeless() && result != null)) {
            result = points.solve(model, null);
        }
        if (!judge) {
            return new Outcome(cell, model, result instanceof Converged c ? c : null, null);
        }
        Scene scene = new Scene(cell.phase(), cell.scenario());
        Point point = points.judge(model, result, start.opened(), scene, criteria, scene.asStated() ? null : layout);
        return new Outcome(cell, model, point.converged(), point);
    }

    private Start start(Cell cell, Edit edit, double[] design) {
        Tried tried = solutions.get(cell.key());
        if (tried == null) {
            return new Start(List.of(), null, false);
        }
        if (tried.edit != edit || tried.solved.isEmpty()) {
            return tried.last == null
                    ? new Start(List.of(), null, false)
                    : new Start(List.of(tried.last.solve()), tried.last.opened(), false);
        }
        List<Known> near = NearStart.nearest(tried.solved, design);
        List<Converged> guesses = new ArrayList<>();
        guesses.add(NearStart.at(design, near, near.stream().map(Known::solve).toList()));
        near.stream().limit(GUESSES - 1).forEach(k -> guesses.add(k.solve()));
        Converged opened = NearStart.at(
                design, near, Arrays.asList(near.stream().map(Known::opened).toArray(Converged[]::new)));
        double second =
                NearStart.distance(near.get(Math.min(1, near.size() - 1)).values(), design);
        long closer = tried.failed.stream()
                .filter(f -> NearStart.distance(f, design) <= second)
                .count();
        return new Start(guesses, opened, closer >= 1 && tried.failed.size() >= 2);
    }

    private void remember(Outcome o, Edit edit, double[] design) {
        Tried tried = solutions.computeIfAbsent(o.cell().key(), k -> new Tried());
        if (tried.edit != edit) {
            tried.edit = edit;
            tried.solved.clear();
            tried.failed.clear();
        }
        if (o.solve() == null) {
            tried.failed.add(design.clone());
            return;
        }
        boolean open = o.point() != null
                && o.point().setting() != null
                && o.point().setting().opened() instanceof Converged;
        Known known = new Known(
                design.clone(),
                o.solve(),
                open ? (Converged) o.point().setting().opened() : null);
        tried.last = known;
        tried.solved.add(known);
        if (tried.solved.size() > KEPT) {
            tried.solved.remove(1);
        }
    }

    /** One evaluation out of the outcomes of a design. */
    Evaluation evaluation(List<Outcome> outcomes, double margin) {
        List<Margin> each = new ArrayList<>();
        double purge = Double.NaN;
        double perRun = 0;
        double set = Double.NaN;
        for (Outcome o : outcomes) {
            if (Scene.AS_STATED.equals(o.cell().scenario())) {
                double flow = o.solve() == null ? Double.NaN : flow(o);
                DutyPhase phase = duty.get(o.cell().phase());
                perRun += flow * (phase == null ? Double.NaN : phase.duration());
            }
            if (counts(o)) {
                double flow = o.solve() == null ? Double.NaN : flow(o);
                purge = Double.isNaN(purge) ? flow : Double.isNaN(flow) ? purge : Math.max(purge, flow);
                for (String source : layout.sources()) {
                    Cavity c = o.model().cavity(source);
                    set = c == null || !c.fixed()
                            ? set
                            : Double.isNaN(set) ? c.pressure() : Math.max(set, c.pressure());
                }
            }
            if (o.point() != null) {
                for (Finding f : o.point().findings()) {
                    String key = FaultSweep.key(f);
                    double value = YES_OR_NO.contains(key) ? Double.NaN : f.margin();
                    each.add(new Margin(
                            key, f.where(), o.cell().phase(), o.cell().scenario(), value, !bad(f, value, margin)));
                }
            }
        }
        return Evaluation.of(each, purge, perRun, set);
    }

    /**
     * Cells that at a design have the least margin of some criterion, something that is not met, or the greatest purge flow as stated.
     *
     * @param at the evaluation of these outcomes
     */
    Set<String> governing(List<Outcome> outcomes, Evaluation at) {
        Map<String, Margin> least = new LinkedHashMap<>();
        Set<String> out = new LinkedHashSet<>();
        for (Margin m : at.each()) {
            if (!Double.isNaN(m.value())) {
                least.merge(m.criterion(), m, (a, b) -> b.value() < a.value() - 1e-9 ? b : a);
            } else if (!m.met()) {
                out.add(m.phase() + "|" + m.scenario());
            }
        }
        least.values().forEach(m -> out.add(m.phase() + "|" + m.scenario()));
        for (Outcome o : outcomes) {
            if (counts(o) && o.solve() != null && flow(o) == at.purge()) {
                out.add(o.cell().key());
            }
        }
        return out;
    }

    private double flow(Outcome o) {
        return Purge.flow(
                o.model(), o.solve(), phaseLayouts.getOrDefault(o.cell().phase(), layout));
    }

    /** What governs: a number that falls short before the yes-or-no findings that follow from it; else the least margin. */
    static boolean worse(Finding a, Finding b, double margin) {
        String keyA = FaultSweep.key(a);
        String keyB = FaultSweep.key(b);
        boolean yesA = YES_OR_NO.contains(keyA);
        boolean yesB = YES_OR_NO.contains(keyB);
        boolean badA = bad(a, yesA ? Double.NaN : a.margin(), margin);
        boolean badB = bad(b, yesB ? Double.NaN : b.margin(), margin);
        if (badA != badB) {
            return badA;
        }
        return yesA == yesB ? Verdicts.WORST_FIRST.compare(a, b) < 0 : yesB;
    }

    private static boolean bad(Finding f, double value, double margin) {
        return f.verdict() == Verdict.FALLS_SHORT
                || f.verdict() == Verdict.NOT_CONVERGED
                || f.verdict() == Verdict.NOT_ESTABLISHED
                || value < margin;
    }

    /** Evaluations of designs, side by side. */
    List<Evaluation> evaluate(List<double[]> designs, Edit edit, List<Cell> cells, Set<String> judged, double margin) {
        return solve(designs, edit, cells, judged).stream()
                .map(o -> evaluation(o, margin))
                .toList();
    }
}
