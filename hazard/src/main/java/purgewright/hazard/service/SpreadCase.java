package purgewright.hazard.service;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.function.UnaryOperator;
import purgewright.fluids.PropertyEngine;
import purgewright.fluids.unit.Dimension;
import purgewright.fluids.unit.UnitException;
import purgewright.fluids.unit.Units;
import purgewright.hazard.barrier.BarrierLayout;
import purgewright.hazard.criteria.Criteria;
import purgewright.hazard.criteria.Limit;
import purgewright.hazard.deficiency.Release;
import purgewright.hazard.deficiency.RoomMixture;
import purgewright.hazard.fault.Edits;
import purgewright.hazard.fault.Faults;
import purgewright.hazard.finding.Draft;
import purgewright.hazard.finding.Finding;
import purgewright.hazard.finding.Scene;
import purgewright.hazard.finding.Verdict;
import purgewright.hazard.finding.Verdicts;
import purgewright.hazard.service.PhaseSolve.Point;
import purgewright.hazard.sizing.Parameter;
import purgewright.hazard.studies.Sample;
import purgewright.hazard.studies.UncertainInput;
import purgewright.hazard.studies.UncertainInput.Kind;
import purgewright.sealflow.casefile.CaseDocument;
import purgewright.sealflow.casefile.CaseException;
import purgewright.sealflow.model.Case;
import purgewright.sealflow.model.DutyPhase;
import purgewright.sealflow.network.NetworkSolver;
import purgewright.sealflow.network.SolveResult.Converged;
import purgewright.sealflow.network.SolverSettings;
import purgewright.sealflow.passage.Conditions.Bound;

/**
 * A case whose uncertain values can be set: from a vector of values to a point that is solved and judged in every phase.
 *
 * <p>Every solve starts from the nominal point of its phase, or from a surface through points that case and settings fix, and from
 * nothing else, so that the answer for a vector does not depend on what was looked at before it. Where a phase states a value of its own, the drawn value over the case's value multiplies it.
 *
 * <p>Immutable once made; threads may share it.
 */
final class SpreadCase {
    /** Kind of finding for a value that the case cannot have. */
    static final String REFUSED = "refused";

    private final PropertyEngine engine;
    private final PhaseSolve points;
    private final Case whole;
    private final List<UncertainInput> inputs;
    private final Map<String, Case> models;
    private final Map<String, CaseDocument> documents;
    private final Parameter[] parameters;
    private final Map<String, double[]> ratios;
    private final Map<String, Converged> guesses;
    private final Map<String, Converged> openedGuesses;
    /** Surfaces to start from, by phase; a phase without starts from its nominal point. */
    private final Map<String, Starts> starts;

    private final BarrierLayout layout;
    private final boolean rewritten;
    private final boolean forms;

    /**
     * One point, solved and judged.
     *
     * @param inputs SI
     * @param points by phase
     * @param findings of all phases, worst first
     */
    record Evaluated(double[] inputs, Map<String, Point> points, List<Finding> findings, BarrierLayout layout) {
        Converged solved(String phase) {
            Point p = points.get(phase);
            return p == null ? null : p.converged();
        }

        /** Purge flow, kg/s; without a phase the greatest. */
        double purge(String phaseOrNull) {
            double most = Double.NaN;
            for (Map.Entry<String, Point> e : points.entrySet()) {
                if (e.getValue().converged() != null && (phaseOrNull == null || phaseOrNull.equals(e.getKey()))) {
                    double flow = Purge.flow(e.getValue().model(), e.getValue().converged(), layout);
                    most = Double.isNaN(most) ? flow : Math.max(most, flow);
                }
            }
            return most;
        }

        Verdict verdict() {
            return Verdicts.of(findings);
        }

        /** What has the least margin, a solution that is missing first; null when nothing was judged. */
        Finding governing() {
            Finding worst = null;
            for (Finding f : findings) {
                if (worst == null || DesignPoints.worse(f, worst, 0)) {
                    worst = f;
                }
            }
            return worst;
        }
    }

    SpreadCase(
            PropertyEngine engine,
            PhaseSolve points,
            CaseDocument document,
            List<UncertainInput> inputs,
            Map<String, Case> models) {
        this.engine = engine;
        this.points = points;
        this.starts = Map.of();
        this.documents = new LinkedHashMap<>();
        this.ratios = new LinkedHashMap<>();
        this.guesses = new LinkedHashMap<>();
        this.openedGuesses = new LinkedHashMap<>();
        this.whole = document.toCase();
        this.inputs = inputs;
        this.models = models;
        this.layout = BarrierLayout.of(whole, points.streams(whole.streams()), Faults::kind);
        Map<String, DutyPhase> duty = new LinkedHashMap<>();
        whole.duty().forEach(p -> duty.put(p.name(), p));
        for (String phase : models.keySet()) {
            documents.put(phase, duty.containsKey(phase) ? document.with(duty.get(phase)) : document);
        }
        this.parameters = new Parameter[inputs.size()];
        boolean text = false;
        boolean bands = false;
        for (int i = 0; i < parameters.length; i++) {
            UncertainInput in = inputs.get(i);
            if (in.kind() == Kind.VALUE) {
                parameters[i] = direct(in);
                text |= parameters[i] == null;
            }
            bands |= in.kind() == Kind.MODEL_FORM;
        }
        this.rewritten = text;
        this.forms = bands;
        for (String phase : models.keySet()) {
            double[] ratio = new double[parameters.length];
            for (int i = 0; i < ratio.length; i++) {
                ratio[i] = ratio(phase, i);
            }
            ratios.put(phase, ratio);
        }
        nominal();
    }

    private SpreadCase(SpreadCase other, Map<String, Starts> starts) {
        this.engine = other.engine;
        this.points = other.points;
        this.whole = other.whole;
        this.inputs = other.inputs;
        this.models = other.models;
        this.documents = other.documents;
        this.parameters = other.parameters;
        this.ratios = other.ratios;
        this.guesses = other.guesses;
        this.openedGuesses = other.openedGuesses;
        this.layout = other.layout;
        this.rewritten = other.rewritten;
        this.forms = other.forms;
        this.starts = starts;
    }

    /** A value that can be set in the model; null for one that has to be written into the text and read again. */
    private Parameter direct(UncertainInput in) {
        try {
            Parameter p = Parameter.of(whole, in.place());
            // The surroundings' pressure and a few others are used while a case is read; those do not come this way.
            return p.get(whole) == in.nominal() ? p : null;
        } catch (IllegalArgumentException e) {
            return null;
        }
    }

    private double ratio(String phase, int i) {
        UncertainInput in = inputs.get(i);
        if (in.kind() != Kind.VALUE || in.nominal() == 0) {
            return 1;
        }
        double here = in.nominal();
        if (parameters[i] != null) {
            here = parameters[i].get(models.get(phase));
        } else if (documents.get(phase).text(in.place()).isPresent()) {
            try {
                here = Units.parse(
                        documents.get(phase).text(in.place()).get(),
                        in.dimension(),
                        whole.surroundings().pressure());
            } catch (UnitException e) {
                here = in.nominal();
            }
        }
        double ratio = here / in.nominal();
        return Double.isNaN(ratio) ? 1 : ratio;
    }

    /** Solves the nominal point, cold, as a start for all others. */
    private void nominal() {
        Converged last = null;
        for (Map.Entry<String, Case> e : models.entrySet()) {
            Point p = points.judge(
                    e.getValue(),
                    last,
                    Scene.of(e.getKey()),
                    Criteria.of(e.getValue().criteria()));
            if (p.converged() != null) {
                last = p.converged();
                guesses.put(e.getKey(), last);
                if (p.setting() != null && p.setting().opened() instanceof Converged o) {
                    openedGuesses.put(e.getKey(), o);
                }
            }
        }
    }

    /** The same case whose solves start from surfaces through solved points. */
    SpreadCase startingFrom(List<double[]> solvedInputs, List<Evaluated> solved) {
        double[] scale =
                inputs.stream().mapToDouble(i -> i.distribution().moments()[1]).toArray();
        Map<String, Starts> fitted = new LinkedHashMap<>();
        for (String phase : models.keySet()) {
            List<Converged> results = new ArrayList<>();
            solved.forEach(e -> results.add(e.solved(phase)));
            Converged nominal = guesses.get(phase);
            Starts fit = nominal == null ? null : Starts.fit(nominal, nominalInputs(), scale, solvedInputs, results);
            if (fit != null) {
                fitted.put(phase, fit);
            }
        }
        return new SpreadCase(this, fitted);
    }

    /** Where the solve of a phase starts. */
    Converged start(String phase, double[] x) {
        Starts surface = starts.get(phase);
        return surface == null ? guesses.get(phase) : surface.at(x);
    }

    Case whole() {
        return whole;
    }

    BarrierLayout layout() {
        return layout;
    }

    Map<String, Case> models() {
        return models;
    }

    List<String> phases() {
        return List.copyOf(models.keySet());
    }

    List<UncertainInput> inputs() {
        return inputs;
    }

    Map<String, Converged> guesses() {
        return guesses;
    }

    /** What a phase's own value is over the case's, by input. */
    double[] ratios(String phase) {
        return ratios.get(phase).clone();
    }

    double[] nominalInputs() {
        return inputs.stream().mapToDouble(UncertainInput::nominal).toArray();
    }

    /** The model of a phase with values set; @throws CaseException when the case cannot have one of them. */
    Case model(String phase, double[] x) {
        double[] ratio = ratios.get(phase);
        Case model = models.get(phase);
        if (rewritten) {
            CaseDocument text = documents.get(phase);
            for (int i = 0; i < x.length; i++) {
                UncertainInput in = inputs.get(i);
                if (in.kind() == Kind.VALUE && parameters[i] == null) {
                    text = text.with(in.place(), typed(x[i] * ratio[i], in.dimension()));
                }
            }
            model = text.toCase();
        }
        for (int i = 0; i < x.length; i++) {
            // A nominal value is left as it is read: a product with 1 would be the same, with another ratio not to the
            // last bit.
            if (parameters[i] != null && x[i] != inputs.get(i).nominal()) {
                model = parameters[i].set(model, x[i] * ratio[i]);
            }
        }
        return model;
    }

    private static String typed(double value, Dimension dimension) {
        return dimension == Dimension.NUMBER ? Double.toString(value) : value + " " + dimension.si();
    }

    private PhaseSolve points(double[] x) {
        if (!forms) {
            return points;
        }
        Map<String, Bound> bounds = new TreeMap<>();
        for (int i = 0; i < x.length; i++) {
            if (inputs.get(i).kind() == Kind.MODEL_FORM && x[i] != 0) {
                String place = inputs.get(i).place();
                bounds.put(place.substring(place.lastIndexOf('/') + 1), x[i] < 0 ? Bound.LOW : Bound.HIGH);
            }
        }
        return bounds.isEmpty()
                ? points
                : points.with(
                        new NetworkSolver(engine, SolverSettings.DEFAULT.withBounds(Bound.NOMINAL, bounds))::solve);
    }

    /** The case as stated with values set. */
    Evaluated evaluate(double[] x) {
        return evaluate(x, c -> c, Scene.AS_STATED);
    }

    /**
     * The same with a further change.
     *
     * @param scenario as stated, or another: open gaps are then judged as they stand
     */
    Evaluated evaluate(double[] x, UnaryOperator<Case> change, String scenario) {
        Map<String, Point> solved = new LinkedHashMap<>();
        List<Finding> findings = new ArrayList<>();
        PhaseSolve solver = points(x);
        for (String phase : models.keySet()) {
            PhaseSolve.stopWhenInterrupted();
            Scene scene = new Scene(phase, scenario);
            Case model;
            try {
                model = change.apply(model(phase, x));
            } catch (CaseException e) {
                findings.add(Draft.of(REFUSED, "/" + UncertainInput.SECTION, scene)
                        .what("A drawn value is none that the case can have")
                        .how(String.valueOf(e.getMessage()))
                        .source("range of the field")
                        .mend("truncate the distribution")
                        .as(Verdict.NOT_ESTABLISHED));
                continue;
            }
            Criteria criteria = Criteria.of(model.criteria());
            Point p = scene.asStated()
                    ? solver.judge(model, start(phase, x), openedGuesses.get(phase), scene, criteria)
                    : solver.judgeFailed(model, guesses.get(phase), scene, criteria, layout);
            solved.put(phase, p);
            findings.addAll(p.findings());
            if (solved.size() == 1) {
                findings.addAll(Release.bankBreak(model, scene));
            }
            if (p.converged() != null) {
                double duration = CaseService.duration(whole, phase);
                findings.addAll(Release.judge(model, Purge.ventedMoles(model, p.converged()), duration, scene));
                RoomMixture then = RoomMixture.FRESH_AIR.after(model, Purge.vented(model, p.converged()), duration);
                findings.addAll(RoomMixture.FRESH_AIR.judge(then, Double.isNaN(duration), scene));
            }
        }
        return new Evaluated(x, solved, Verdicts.sorted(findings), layout);
    }

    /** True for a finding whose margin is a number that moves, not a yes or no. */
    static boolean numbered(Finding f) {
        return !Double.isNaN(f.margin()) && !DesignPoints.YES_OR_NO.contains(FaultSweep.key(f));
    }

    /** One sample of a plan. */
    Sample sample(long index, double[] x, List<Followed> outputs) {
        return sample(index, evaluate(x), outputs);
    }

    static Sample sample(long index, Evaluated e, List<Followed> outputs) {
        Map<String, Boolean> criteria = new TreeMap<>();
        boolean judged = e.points().values().stream().allMatch(p -> p.setting() != null)
                && !e.points().isEmpty();
        double margin = Double.NaN;
        for (Finding f : e.findings()) {
            String key = FaultSweep.key(f);
            judged &= !REFUSED.equals(key);
            switch (f.verdict()) {
                case FALLS_SHORT -> criteria.put(key, false);
                case NOT_CONVERGED, NOT_ESTABLISHED -> criteria.putIfAbsent(key, true);
                default -> {
                    // Met.
                }
            }
            if (numbered(f)) {
                margin = Double.isNaN(margin) ? f.margin() : Math.min(margin, f.margin());
            }
        }
        double[] values = new double[outputs.size()];
        for (int i = 0; i < values.length; i++) {
            values[i] = outputs.get(i).read().of(e);
        }
        Finding governing = e.governing();
        return new Sample(
                index,
                e.inputs(),
                e.verdict(),
                values,
                criteria,
                judged,
                margin,
                governing == null ? "" : FaultSweep.key(governing));
    }

    /** Keys of criteria that have a margin at the nominal point. */
    static Set<String> keys(Evaluated e) {
        Set<String> keys = new TreeSet<>();
        for (Finding f : e.findings()) {
            if (!Double.isNaN(f.margin())) {
                keys.add(FaultSweep.key(f));
            }
        }
        return keys;
    }

    /** Keys whose margin moves. */
    static Set<String> numberedKeys(Evaluated e) {
        Set<String> keys = new TreeSet<>();
        for (Finding f : e.findings()) {
            if (numbered(f)) {
                keys.add(FaultSweep.key(f));
            }
        }
        return keys;
    }

    /** Barrier seals opened: to their stated worn clearance, else by the clearance factor. */
    UnaryOperator<Case> worn(Set<String> seals) {
        double factor = Criteria.of(whole.criteria()).get(Limit.CLEARANCE_FACTOR);
        return c -> Edits.passages(
                c,
                p -> seals.contains(p.name()),
                p -> Double.isNaN(p.wornClearance()) || !Edits.opens(p)
                        ? Edits.wider(p, factor)
                        : Edits.open(p, p.wornClearance()));
    }
}
