package purgewright.hazard.service;

import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.concurrent.CancellationException;
import java.util.concurrent.ConcurrentHashMap;
import java.util.function.Supplier;
import purgewright.fluids.PropertyEngine;
import purgewright.fluids.PropertyException;
import purgewright.fluids.mixture.StreamDefinition;
import purgewright.hazard.barrier.BarrierLayout;
import purgewright.hazard.barrier.StreamTable;
import purgewright.hazard.criteria.Criteria;
import purgewright.hazard.criteria.Judge;
import purgewright.hazard.criteria.Limit;
import purgewright.hazard.criteria.Setting;
import purgewright.hazard.fault.Edits;
import purgewright.hazard.finding.Draft;
import purgewright.hazard.finding.Finding;
import purgewright.hazard.finding.Scene;
import purgewright.hazard.finding.Verdict;
import purgewright.hazard.sizing.Evaluation;
import purgewright.sealflow.model.Case;
import purgewright.sealflow.model.PassageSpec;
import purgewright.sealflow.network.NetworkSolver;
import purgewright.sealflow.network.SolveResult;
import purgewright.sealflow.network.SolveResult.Converged;
import purgewright.sealflow.network.SolveResult.Convergence;
import purgewright.sealflow.network.SolveResult.Method;
import purgewright.sealflow.network.SolveResult.NotConverged;
import purgewright.sealflow.network.SolveResult.Reason;
import purgewright.sealflow.network.SolverSettings;
import purgewright.sealflow.passage.PassageType.SealKind;

/** Solves and judges one operating point. Threads may share it. */
final class PhaseSolve {
    /** Key of a solve that gave up. */
    static final String SOLVE = Evaluation.SOLVE;

    private static final int STREAM_TABLES = 64;

    private final PropertyEngine engine;
    private final CaseSolver solver;
    private final NetworkSolver network;
    private final Map<List<StreamDefinition>, StreamTable> tables;

    /** On a solver of any kind: no runs over time, no ends of the models' bands. */
    PhaseSolve(PropertyEngine engine, CaseSolver solver) {
        this(engine, solver, null, new ConcurrentHashMap<>());
    }

    /** On the network solver. */
    PhaseSolve(PropertyEngine engine, NetworkSolver network) {
        this(engine, network::solve, network, new ConcurrentHashMap<>());
    }

    private PhaseSolve(
            PropertyEngine engine,
            CaseSolver solver,
            NetworkSolver networkOrNull,
            Map<List<StreamDefinition>, StreamTable> tables) {
        this.engine = engine;
        this.solver = solver;
        this.network = networkOrNull;
        this.tables = tables;
    }

    /** The same on another solver. */
    PhaseSolve with(CaseSolver other) {
        return new PhaseSolve(engine, other, null, tables);
    }

    /** The same with fewer iterations on each way of the solver's search; on another solver than the network's, the same. */
    PhaseSolve withIterations(int most) {
        if (network == null) {
            return this;
        }
        NetworkSolver other = new NetworkSolver(engine, SolverSettings.DEFAULT.withMaximumIterations(most));
        return new PhaseSolve(engine, other::solve, other, tables);
    }

    /** Where properties come from. */
    PropertyEngine engine() {
        return engine;
    }

    /** The network solver behind this; null when another solver answers. */
    NetworkSolver network() {
        return network;
    }

    /**
     * One operating point.
     *
     * @param setting null when it was not solved
     */
    record Point(Case model, SolveResult solve, Setting setting, List<Finding> findings) {
        Converged converged() {
            return solve instanceof Converged c ? c : null;
        }
    }

    /** Kinds of the streams; computed once for each list of streams. */
    StreamTable streams(List<StreamDefinition> definitions) {
        StreamTable known = tables.get(definitions);
        if (known != null) {
            return known;
        }
        StreamTable made = StreamTable.of(engine.mixer(definitions));
        if (tables.size() >= STREAM_TABLES) {
            tables.clear();
        }
        tables.put(definitions, made);
        return made;
    }

    /** Solves with every failure turned into a result; only a cancel is thrown. */
    SolveResult solve(Case model, Converged guess) {
        return answered(() -> solver.solve(model, guess));
    }

    /**
     * The same from the solutions of neighbours alone: quick, and a failure says only that the way from them is barred.
     *
     * @param guesses the nearest first; at least one
     */
    SolveResult solveNear(Case model, List<Converged> guesses) {
        return answered(
                () -> network == null ? solver.solve(model, guesses.get(0)) : network.solveNear(model, guesses));
    }

    private static SolveResult answered(Supplier<SolveResult> solve) {
        stopWhenInterrupted();
        try {
            SolveResult result = solve.get();
            if (result instanceof NotConverged n && n.reason() == Reason.CANCELLED) {
                throw new CancellationException("cancelled");
            }
            return result;
        } catch (PropertyException e) {
            return failed(Reason.PROPERTY_OUT_OF_RANGE, e.getMessage());
        } catch (IllegalArgumentException e) {
            return failed(Reason.BAD_GEOMETRY, e.getMessage());
        }
    }

    static void stopWhenInterrupted() {
        if (Thread.currentThread().isInterrupted()) {
            throw new CancellationException("cancelled");
        }
    }

    /** No solution, with words. */
    static NotConverged failed(Reason reason, String detail) {
        return new NotConverged(
                new Convergence(Method.NONE, 0, Double.NaN, Double.NaN, Double.NaN, List.of()),
                "",
                reason,
                detail,
                new LinkedHashMap<>());
    }

    /** Solves and judges the case as stated; open gaps are judged with all barrier seals opened by the clearance factor. */
    Point judge(Case model, Converged guess, Scene scene, Criteria criteria) {
        return judge(model, guess, null, scene, criteria);
    }

    /**
     * The same with a start of its own for the case with its seals opened; null to start that from the case itself.
     */
    Point judge(Case model, Converged guess, Converged openedGuess, Scene scene, Criteria criteria) {
        return judge(model, solve(model, guess), openedGuess, scene, criteria, null);
    }

    /** Solves and judges a failed case, with the barriers where they are as stated. */
    Point judgeFailed(Case model, Converged guess, Scene scene, Criteria criteria, BarrierLayout designed) {
        return judge(model, solve(model, guess), scene, criteria, designed);
    }

    /**
     * Judges a failed case; open gaps are judged as they stand, since the fault is the allowance.
     *
     * @param designed where the barriers are as stated; null to find them in the failed case
     */
    Point judge(Case model, SolveResult result, Scene scene, Criteria criteria, BarrierLayout designed) {
        return judge(model, result, null, scene, criteria, designed);
    }

    /** The same with a start of its own for the case with its seals opened. */
    Point judge(
            Case model,
            SolveResult result,
            Converged openedGuess,
            Scene scene,
            Criteria criteria,
            BarrierLayout designed) {
        if (!(result instanceof Converged converged)) {
            NotConverged n = (NotConverged) result;
            return new Point(model, result, null, List.of(notConverged(n, scene)));
        }
        return judgeSolved(model, converged, openedGuess, scene, criteria, designed, !scene.asStated());
    }

    /**
     * Judges a point that is solved already.
     *
     * @param openedGuess start for the case with its seals opened; null to start that from the case itself
     * @param designed where the barriers are as stated; null to find them in the case
     * @param asTheyStand open gaps are judged as they stand, not with all barrier seals opened
     */
    Point judgeSolved(
            Case model,
            Converged converged,
            Converged openedGuess,
            Scene scene,
            Criteria criteria,
            BarrierLayout designed,
            boolean asTheyStand) {
        SolveResult result = converged;
        StreamTable streams;
        try {
            streams = streams(model.streams());
        } catch (PropertyException e) {
            Finding f = Draft.of(Judge.UNJUDGED, "/streams", scene)
                    .what("The streams' composition cannot be given")
                    .how(e.getMessage())
                    .source("range of the property equations")
                    .as(Verdict.NOT_ESTABLISHED);
            return new Point(model, result, null, List.of(f));
        }
        BarrierLayout layout = designed != null ? designed : Setting.layout(model, converged, streams);
        Set<String> seals = openSeals(model, converged, layout);
        SolveResult opened = null;
        if (asTheyStand) {
            opened = converged;
        } else if (seals.stream().anyMatch(n -> converged.passages().get(n).kind() == SealKind.OPEN)) {
            opened = solve(
                    Edits.opened(model, seals, criteria.get(Limit.CLEARANCE_FACTOR)),
                    openedGuess == null ? converged : openedGuess);
        }
        Setting setting = Setting.of(engine, model, converged, opened, criteria, streams, layout, scene);
        return new Point(model, result, setting, Judge.judge(setting));
    }

    /** Seals on the boundary of a barrier, by name. */
    private static Set<String> openSeals(Case model, Converged solve, BarrierLayout layout) {
        Set<String> names = new LinkedHashSet<>();
        for (Set<String> unit : layout.units()) {
            for (PassageSpec p : layout.boundary(model, unit)) {
                var state = solve.passages().get(p.name());
                if (state != null && state.kind() != SealKind.DUCT) {
                    names.add(p.name());
                }
            }
        }
        return names;
    }

    static Finding notConverged(NotConverged n, Scene scene) {
        boolean known = n.worstCavity() != null && !n.worstCavity().isEmpty();
        return Draft.of(SOLVE, known ? Setting.cavityPlace(n.worstCavity()) : "/cavities", scene)
                .what("No solution was found" + (known ? "; the balance is worst in " + n.worstCavity() : "") + ": "
                        + n.detail())
                .how("reason " + n.reason() + " after " + n.convergence().iterations() + " iterations by "
                        + n.convergence().answeredBy())
                .source("closure of the balances [definition]")
                .mend("look at the named cavity: its passages, its boundary pressures, the range of its fluid")
                .as(Verdict.NOT_CONVERGED);
    }
}
