package purgewright.sealflow.network;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import purgewright.fluids.FluidState;
import purgewright.sealflow.Notice;
import purgewright.sealflow.gap.RunningGap;
import purgewright.sealflow.passage.PassageFlow;
import purgewright.sealflow.passage.PassageType;

/** What came of a solve. States to judge exist only in {@link Converged}: nobody can judge a failed solve by accident. */
public sealed interface SolveResult {
    /** How the solve went. */
    Convergence convergence();

    /**
     * @param cavities by name, in the order of the case
     * @param passages by name, in the order of the case
     * @param notices what the calculation wants known
     * @param memory what a solve of a similar case may start with; may be null
     */
    record Converged(
            Convergence convergence,
            Map<String, CavityState> cavities,
            Map<String, PassageState> passages,
            List<Notice> notices,
            SlopeMemory memory)
            implements SolveResult {
        /** A result without memory. */
        public Converged(
                Convergence convergence,
                Map<String, CavityState> cavities,
                Map<String, PassageState> passages,
                List<Notice> notices) {
            this(convergence, cavities, passages, notices, null);
        }
    }

    /**
     * @param worstCavity where the balance is worst
     * @param reason likely cause, a key
     * @param detail one sentence in plain words
     * @param best best iterate, for a look only
     */
    record NotConverged(
            Convergence convergence, String worstCavity, Reason reason, String detail, Map<String, CavityState> best)
            implements SolveResult {}

    /** Why a solve gave up. */
    enum Reason {
        ITERATION_LIMIT,
        /**
         * Refused, not failed: everything balances only with a cavity held at the hottest (or coldest) state that the property equations
         * give, and there more heat still goes in than can leave; or a part that one passage alone ties to the rest, so that nothing flows
         * there, is heated and has no wall.
         */
        BEYOND_RANGE,
        /** Solved with part of the heat of friction and windage, not with all of it: too little flows through to carry it away. */
        OVERHEATED,
        PROPERTY_OUT_OF_RANGE,
        ISOLATED_CAVITY,
        BAD_GEOMETRY,
        CANCELLED
    }

    /** Which kind of way answered. */
    enum Method {
        NEWTON,
        ALTERNATION,
        PSEUDO_TRANSIENT,
        HEATING,
        HOMOTOPY,
        NONE
    }

    /**
     * Closures are relative, recomputed from the result: mass to the largest flow, energy to the largest enthalpy flow, species to
     * the largest flow.
     *
     * @param residualHistory norm of the scaled balances, one number an iteration, over all ways that were tried
     * @param conditionEstimate ratio of the largest to the smallest pivot of the last matrix, each unknown and balance in its own
     *     unit; large where some unknown is hardly determined; NaN where no matrix was needed
     * @param choked names of the passages that were choked at the end, in the order of the case
     */
    record Convergence(
            Method answeredBy,
            int iterations,
            double massClosure,
            double energyClosure,
            double speciesClosure,
            List<Double> residualHistory,
            double conditionEstimate,
            List<String> choked) {
        /** A convergence of which condition and chokes are not known. */
        public Convergence(
                Method answeredBy,
                int iterations,
                double massClosure,
                double energyClosure,
                double speciesClosure,
                List<Double> residualHistory) {
            this(
                    answeredBy,
                    iterations,
                    massClosure,
                    energyClosure,
                    speciesClosure,
                    residualHistory,
                    Double.NaN,
                    List.of());
        }
    }

    /**
     * @param name cavity
     * @param fixed true for a boundary
     * @param state at the cavity's reference radius; enthalpy on the formation datum
     * @param streamFractions mass fractions of the case's streams, by name
     * @param massFractions species by mass
     * @param moleFractions species by mole
     * @param windage disc power that heats the cavity, W
     * @param netMassFlow what a fixed cavity takes up (positive) or gives, kg/s; about 0 for a solved one
     */
    record CavityState(
            String name,
            boolean fixed,
            FluidState state,
            Map<String, Double> streamFractions,
            Map<String, Double> massFractions,
            Map<String, Double> moleFractions,
            double windage,
            double netMassFlow) {}

    /**
     * @param name passage
     * @param from cavity
     * @param to cavity
     * @param kind for the criteria
     * @param flow as computed, calibrated
     * @param fromState end state at the passage's radius
     * @param toState end state at the passage's radius
     * @param gap running clearance; null for types without
     * @param surfaceSpeed m/s
     * @param upstream name of the cavity whose mixture the bulk of the flow carries
     * @param streamFlows kg/s of each stream, positive from {@code from}, convection and diffusion together
     * @param bulk what flows as a mixture; what the streams' flows are beyond it diffuses
     */
    record PassageState(
            String name,
            String from,
            String to,
            PassageType.SealKind kind,
            PassageFlow flow,
            FluidState fromState,
            FluidState toState,
            RunningGap gap,
            double surfaceSpeed,
            String upstream,
            Map<String, Double> streamFlows,
            Bulk bulk) {
        /**
         * What comes out of {@code upstream} as a mixture: what it holds, but for a separate liquid that the passage picks up unevenly.
         *
         * @param massFlow kg/s, positive from {@code from}
         * @param fractions mass fractions of streams
         * @param enthalpy J/kg
         */
        public record Bulk(double massFlow, Map<String, Double> fractions, double enthalpy) {}

        /** A passage in which nothing diffuses. */
        public PassageState(
                String name,
                String from,
                String to,
                PassageType.SealKind kind,
                PassageFlow flow,
                FluidState fromState,
                FluidState toState,
                RunningGap gap,
                double surfaceSpeed,
                String upstream,
                Map<String, Double> streamFlows) {
            this(
                    name,
                    from,
                    to,
                    kind,
                    flow,
                    fromState,
                    toState,
                    gap,
                    surfaceSpeed,
                    upstream,
                    streamFlows,
                    new Bulk(
                            flow.massFlow(),
                            shares(streamFlows),
                            (upstream.equals(from) ? fromState : toState).enthalpy()));
        }

        private static Map<String, Double> shares(Map<String, Double> flows) {
            double all =
                    flows.values().stream().mapToDouble(Double::doubleValue).sum();
            Map<String, Double> shares = new LinkedHashMap<>(flows);
            shares.replaceAll((name, flow) -> all == 0 ? 0 : flow / all);
            return shares;
        }
    }
}
