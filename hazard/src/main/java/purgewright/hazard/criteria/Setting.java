package purgewright.hazard.criteria;

import java.util.List;
import purgewright.fluids.Phase;
import purgewright.fluids.PropertyEngine;
import purgewright.hazard.barrier.BarrierLayout;
import purgewright.hazard.barrier.Pair;
import purgewright.hazard.barrier.StreamTable;
import purgewright.hazard.finding.Scene;
import purgewright.sealflow.model.Case;
import purgewright.sealflow.model.Cavity;
import purgewright.sealflow.model.PassageSpec;
import purgewright.sealflow.network.SolveResult;
import purgewright.sealflow.network.SolveResult.CavityState;
import purgewright.sealflow.network.SolveResult.Converged;
import purgewright.sealflow.network.SolveResult.PassageState;
import purgewright.sealflow.passage.PassageType.SealKind;

/**
 * All that a rule may look at: one solved operating point. Immutable.
 *
 * @param engine for saturation lines
 * @param model as solved
 * @param solve its states
 * @param opened the same point with all barrier seals opened by the clearance factor; null when it was not computed
 * @param criteria limits in force
 * @param streams kinds of the streams
 * @param layout where the barriers are
 * @param pairs what must not meet
 * @param scene phase and scenario
 */
public record Setting(
        PropertyEngine engine,
        Case model,
        Converged solve,
        SolveResult opened,
        Criteria criteria,
        StreamTable streams,
        BarrierLayout layout,
        List<Pair> pairs,
        Scene scene) {

    /** Makes the pairs from the case. */
    public static Setting of(
            PropertyEngine engine,
            Case model,
            Converged solve,
            SolveResult opened,
            Criteria criteria,
            StreamTable streams,
            BarrierLayout layout,
            Scene scene) {
        return new Setting(engine, model, solve, opened, criteria, streams, layout, Pair.of(model, streams), scene);
    }

    /** Where the barriers are, with the seal kinds of a solve. */
    public static BarrierLayout layout(Case model, Converged solve, StreamTable streams) {
        return BarrierLayout.of(model, streams, p -> kind(solve, p.name()));
    }

    private static SealKind kind(Converged solve, String passage) {
        PassageState state = solve.passages().get(passage);
        return state == null ? SealKind.DUCT : state.kind();
    }

    /** Kind of a passage. */
    public SealKind kind(PassageSpec passage) {
        return kind(solve, passage.name());
    }

    /** State of a passage; null when it was not solved. */
    public PassageState passage(String name) {
        return solve.passages().get(name);
    }

    /** State of a cavity; null when it was not solved. */
    public CavityState cavity(String name) {
        return solve.cavities().get(name);
    }

    /** True for liquid in whole or part, and for fluid above its critical pressure that is as dense. */
    static boolean dense(CavityState c) {
        return c.state().phase() == Phase.LIQUID
                || c.state().phase() == Phase.TWO_PHASE
                || (c.state().phase() == Phase.SUPERCRITICAL
                        && c.state().density() > c.state().fluid().criticalDensity());
    }

    /** Pressure variation around the circumference of a cavity, Pa; 0 when none is stated. */
    public double variation(String cavity) {
        Cavity c = model.cavity(cavity);
        return c == null || Double.isNaN(c.circumferentialVariation()) ? 0 : c.circumferentialVariation();
    }

    /** Flow out of a cavity through a passage, kg/s. */
    public static double outflow(PassageState state, String inside) {
        return state.from().equals(inside)
                ? state.flow().massFlow()
                : -state.flow().massFlow();
    }

    /** Greatest flow (absolute) of any passage, kg/s; the scale of "no flow". */
    public double greatestFlow() {
        double most = 0;
        for (PassageState p : solve.passages().values()) {
            most = Math.max(most, Math.abs(p.flow().massFlow()));
        }
        return most;
    }

    /** Place of a passage. */
    public static String passagePlace(String name) {
        return "/passages/" + name;
    }

    /** Place of a cavity. */
    public static String cavityPlace(String name) {
        return "/cavities/" + name;
    }
}
