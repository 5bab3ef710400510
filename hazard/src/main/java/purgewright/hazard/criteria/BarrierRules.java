package purgewright.hazard.criteria;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Set;
import purgewright.fluids.unit.Dimension;
import purgewright.hazard.finding.Draft;
import purgewright.hazard.finding.Finding;
import purgewright.hazard.finding.Verdict;
import purgewright.sealflow.model.PassageSpec;
import purgewright.sealflow.network.SolveResult.CavityState;
import purgewright.sealflow.network.SolveResult.Converged;
import purgewright.sealflow.network.SolveResult.PassageState;
import purgewright.sealflow.passage.PassageType;
import purgewright.sealflow.passage.PassageType.SealKind;
import purgewright.sealflow.passage.PassageTypes;

/** The criteria a barrier has to meet: pressure, velocity, direction, purity, and no reverse flow into the supply. */
public final class BarrierRules {
    /** Key of the pressure criterion of close seals. */
    public static final String PRESSURE = "barrier-pressure";

    /** Key of the velocity criterion of open gaps. */
    public static final String VELOCITY = "gap-velocity";

    /** Key of the pressure difference over open gaps. */
    public static final String DIFFERENCE = "gap-difference";

    /** Key of the flow direction. */
    public static final String DIRECTION = "flow-direction";

    /** Key of a check valve that bounds a barrier. */
    public static final String VALVE = "barrier-valve";

    /** Why neither a check valve nor one shut valve is a barrier. */
    static final String CHECK_VALVES =
            "two block valves, or one block and one check valve, count as one barrier; check valves alone do not:"
                    + " Molten-Salt Reactor Experiment design report (ORNL) [published]";

    /** Key of the barrier's content. */
    public static final String PURITY = "barrier-purity";

    /** Key of reverse flow into the supply. */
    public static final String REVERSE = "supply-reverse";

    private static final String DIRECTION_SOURCE =
            "a barrier is a set of inert-fed cavities whose every boundary passage flows outward [common practice]";

    private BarrierRules() {}

    /**
     * Close seals (contact, ring, film): {@code p_barrier >= max(p_n + excess, ratio p_n)}, both at the passage's radius, plus the
     * variation of pressure around the circumference on both sides. Ducts that bound a barrier (an orifice, a line) are held to the
     * same: they have no gap whose velocity could be judged. A check valve is judged by {@link #valves} alone.
     */
    public static List<Finding> pressure(Setting s) {
        List<Finding> out = new ArrayList<>();
        forBoundary(s, (p, inside, state) -> {
            if (state.kind() == SealKind.OPEN || isCheckValve(p)) {
                return;
            }
            double barrier = pressureAt(state, inside, true);
            double neighbour = pressureAt(state, inside, false);
            double excess = s.criteria().get(Limit.BARRIER_EXCESS);
            double ratio = s.criteria().get(Limit.BARRIER_RATIO);
            double variation = s.variation(state.from()) + s.variation(state.to());
            boolean byExcess = neighbour + excess >= ratio * neighbour;
            double limit = Math.max(neighbour + excess, ratio * neighbour) + variation;
            out.add(Draft.of(PRESSURE, Setting.passagePlace(p.name()), s.scene())
                    .what("Pressure of " + inside + " against " + outside(state, inside) + " across " + p.name())
                    .unit("Pa")
                    .how("both pressures at the passage's radius; limit is the neighbour's pressure "
                            + (byExcess ? "plus the barrier excess" : "times the barrier ratio")
                            + (variation > 0 ? ", plus the variation around the circumference" : ""))
                    .source(s.criteria().origin(byExcess ? Limit.BARRIER_EXCESS : Limit.BARRIER_RATIO))
                    .mend(
                            "raise the purge set pressure or open its metering, tighten the barrier's seals, or enlarge the drain of "
                                    + outside(state, inside))
                    .atLeast(barrier, limit));
        });
        return out;
    }

    /**
     * Open gaps: outward velocity {@code >= max(5 m/s, 0.10 surface speed)} where it is lowest along the gap, with all barrier seals
     * opened together.
     */
    public static List<Finding> velocity(Setting s) {
        List<Finding> out = new ArrayList<>();
        forBoundary(s, SealKind.OPEN, (p, inside, state) -> {
            double floor = s.criteria().get(Limit.GAP_VELOCITY);
            double share = s.criteria().get(Limit.GAP_VELOCITY_SHARE) * state.surfaceSpeed();
            Draft draft = Draft.of(VELOCITY, Setting.passagePlace(p.name()), s.scene())
                    .what("Outward velocity in " + p.name() + " from " + inside
                            + (s.scene().asStated() ? " with all barrier seals opened" : ""))
                    .unit("m/s")
                    .how(
                            "lowest velocity along the gap, network solved again with every barrier seal at the clearance factor; limit by "
                                    + (floor >= share ? "the least velocity" : "the share of the surface speed"))
                    .source(s.criteria().origin(floor >= share ? Limit.GAP_VELOCITY : Limit.GAP_VELOCITY_SHARE))
                    .mend("more purge flow or a smaller gap");
            if (s.opened() instanceof Converged opened && opened.passages().containsKey(p.name())) {
                PassageState wide = opened.passages().get(p.name());
                double velocity = wide.from().equals(inside)
                        ? wide.flow().gapVelocity()
                        : -wide.flow().gapVelocity();
                out.add(draft.atLeast(velocity, Math.max(floor, share)));
            } else {
                out.add(draft.caution("the network with opened seals was not solved")
                        .as(Verdict.NOT_CONVERGED, Double.NaN, Math.max(floor, share), Double.NaN));
            }
        });
        return out;
    }

    /** Open gaps: pressure difference outward at least the variation around the circumference plus the reading's uncertainty. */
    public static List<Finding> difference(Setting s) {
        List<Finding> out = new ArrayList<>();
        forBoundary(s, SealKind.OPEN, (p, inside, state) -> {
            double variation = s.variation(state.from()) + s.variation(state.to());
            double limit = variation + s.criteria().get(Limit.INSTRUMENT_UNCERTAINTY);
            out.add(Draft.of(DIFFERENCE, Setting.passagePlace(p.name()), s.scene())
                    .what("Pressure difference outward across " + p.name() + " from " + inside)
                    .unit(Dimension.PRESSURE_DIFFERENCE.symbol())
                    .how(
                            "pressures at the passage's radius; limit is the variation around the circumference plus the uncertainty of a"
                                    + " reading")
                    .source(s.criteria().origin(Limit.INSTRUMENT_UNCERTAINTY))
                    .mend("more purge flow, a smaller gap, or a less uneven cavity beside it")
                    .atLeast(pressureAt(state, inside, true) - pressureAt(state, inside, false), limit));
        });
        return out;
    }

    /** Every boundary passage of a barrier flows outward; the band is a thousandth of the greatest flow across the barrier's boundary. */
    public static List<Finding> direction(Setting s) {
        List<Finding> out = new ArrayList<>();
        for (Set<String> unit : s.layout().units()) {
            List<PassageSpec> boundary = s.layout().boundary(s.model(), unit);
            double most = 0;
            for (PassageSpec p : boundary) {
                PassageState state = s.passage(p.name());
                most = state == null
                        ? most
                        : Math.max(most, Math.abs(state.flow().massFlow()));
            }
            for (PassageSpec p : boundary) {
                PassageState state = s.passage(p.name());
                if (state == null) {
                    continue;
                }
                String inside = unit.contains(p.from()) ? p.from() : p.to();
                double flow = Setting.outflow(state, inside);
                out.add(Draft.of(DIRECTION, Setting.passagePlace(p.name()), s.scene())
                        .what((flow > 0 ? "Purge flows outward through " : "Flow comes INTO the barrier through ")
                                + p.name() + " between " + inside + " and " + outside(state, inside))
                        .unit("kg/s")
                        .how(
                                "flow out of the barrier; the limit is 0, the margin refers to a band of a thousandth of the greatest"
                                        + " boundary flow")
                        .source(DIRECTION_SOURCE)
                        .mend("raise the barrier's pressure above " + outside(state, inside))
                        .above0(flow, Math.max(1e-3 * most, Double.MIN_NORMAL)));
            }
        }
        return out;
    }

    /** What is not inert in a barrier cavity, by mass, at most the trace limit. */
    public static List<Finding> purity(Setting s) {
        List<Finding> out = new ArrayList<>();
        for (String name : s.layout().barrierCavities()) {
            CavityState c = s.cavity(name);
            if (c == null || c.fixed()) {
                continue;
            }
            double foreign = 0;
            String worst = "";
            double most = 0;
            for (Map.Entry<String, Double> e : c.streamFractions().entrySet()) {
                if (!s.streams().inert(e.getKey())) {
                    foreign += e.getValue();
                    if (e.getValue() > most) {
                        most = e.getValue();
                        worst = e.getKey();
                    }
                }
            }
            double limit = s.criteria().get(Limit.TRACE_LIMIT);
            out.add(Draft.of(PURITY, Setting.cavityPlace(name), s.scene())
                    .what(
                            foreign > limit
                                    ? "Foreign fluid in " + name + ", mostly " + worst
                                    : "Only purge gas in " + name)
                    .unit("1")
                    .how("mass fraction of all streams that are not inert, convection and diffusion together")
                    .source(s.criteria().origin(Limit.TRACE_LIMIT))
                    .mend("more purge flow through the seal that lets it in")
                    .caution("diffusion against the purge rests on an estimated stirring constant")
                    .atMost(foreign, limit));
        }
        return out;
    }

    /**
     * Reverse flow into an inert supply falls short in every scenario; a check valve alone is no barrier. That holds for the feeds and
     * for whatever else the supply is led to: a pump, a drain, a vent.
     */
    public static List<Finding> reverse(Setting s) {
        List<Finding> out = new ArrayList<>();
        double band = 1e-9 * Math.max(s.greatestFlow(), Double.MIN_NORMAL);
        for (PassageSpec spec : s.model().passages()) {
            PassageState state = s.passage(spec.name());
            Boolean forward = s.layout().feeds().get(spec.name());
            if (forward == null) {
                boolean from = s.layout().supply().contains(spec.from());
                boolean user = !s.layout().inertFed(from ? spec.to() : spec.from());
                forward = (user && (from || s.layout().supply().contains(spec.to()))) ? from : null;
            }
            if (state == null || spec.closed() || forward == null) {
                continue;
            }
            double flow = forward ? state.flow().massFlow() : -state.flow().massFlow();
            if (flow < -band) {
                out.add(Draft.of(REVERSE, Setting.passagePlace(spec.name()), s.scene())
                        .what("Flow runs back into the inert supply through " + spec.name())
                        .unit("kg/s")
                        .how(
                                "flow away from the source; the limit is 0, solver noise of a billionth of the greatest flow left out")
                        .source(CHECK_VALVES)
                        .mend("raise the supply pressure, or part the users of the manifold")
                        .above0(flow, 1e-3 * Math.max(s.greatestFlow(), Double.MIN_NORMAL)));
            }
        }
        return out;
    }

    /** A check valve that bounds a barrier falls short, whatever flows: alone it is no barrier. */
    public static List<Finding> valves(Setting s) {
        List<Finding> out = new ArrayList<>();
        forBoundary(s, (p, inside, state) -> {
            if (isCheckValve(p)) {
                out.add(Draft.of(VALVE, Setting.passagePlace(p.name()), s.scene())
                        .what("Only the check valve " + p.name() + " stands between " + inside + " and "
                                + outside(state, inside))
                        .how("a check valve on the boundary of a barrier does not count as its seal")
                        .source(CHECK_VALVES)
                        .mend("a seal with purge flowing outward in its place, or a block valve with it")
                        .as(Verdict.FALLS_SHORT));
            }
        });
        return out;
    }

    private static boolean isCheckValve(PassageSpec p) {
        return PassageTypes.are(p, PassageType::checks);
    }

    /** What is done with each boundary passage. */
    @FunctionalInterface
    interface Boundary {
        void at(PassageSpec passage, String inside, PassageState state);
    }

    static void forBoundary(Setting s, SealKind kind, Boundary action) {
        forBoundary(s, (p, inside, state) -> {
            if (state.kind() == kind) {
                action.at(p, inside, state);
            }
        });
    }

    static void forBoundary(Setting s, Boundary action) {
        for (Set<String> unit : s.layout().units()) {
            for (PassageSpec p : s.layout().boundary(s.model(), unit)) {
                PassageState state = s.passage(p.name());
                if (state != null) {
                    action.at(p, unit.contains(p.from()) ? p.from() : p.to(), state);
                }
            }
        }
    }

    private static double pressureAt(PassageState state, String inside, boolean insideWanted) {
        return state.from().equals(inside) == insideWanted
                ? state.fromState().pressure()
                : state.toState().pressure();
    }

    private static String outside(PassageState state, String inside) {
        return state.from().equals(inside) ? state.to() : state.from();
    }
}
