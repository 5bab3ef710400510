package purgewright.hazard.criteria;

import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Deque;
import java.util.EnumSet;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import purgewright.fluids.Phase;
import purgewright.hazard.barrier.BarrierLayout;
import purgewright.hazard.barrier.StreamKind;
import purgewright.hazard.finding.Draft;
import purgewright.hazard.finding.Finding;
import purgewright.hazard.finding.Verdict;
import purgewright.sealflow.model.Cavity;
import purgewright.sealflow.model.PassageSpec;
import purgewright.sealflow.model.Role;
import purgewright.sealflow.network.SolveResult.CavityState;
import purgewright.sealflow.network.SolveResult.PassageState;
import purgewright.sealflow.passage.PassageType.SealKind;
import purgewright.sealflow.passage.PassageTypes;

/** Flow that goes the other way than its seal is for, hot gas where it is cold, and a case that contradicts itself. */
public final class ReversalRules {
    /** Key of a working seal through which its drain runs back. */
    public static final String SEAL = "seal-reverse";

    /** Key of hot gas in a drain or barrier beside something cold. */
    public static final String HOT = "hot-backflow";

    /** Key of a seal that is stated as shut. */
    public static final String SHUT = "shut-seal";

    /** Key of a cavity whose role and stream disagree. */
    public static final String ROLE = "role-stream";

    /** A stated gas above this counts as hot: well above what windage and compression make of a purge, K [invented]. */
    private static final double HOT_GAS = 600;

    /** A stated fluid below this counts as cold, K [invented]. */
    private static final double COLD = 250;

    private static final Set<Role> WORKING = EnumSet.of(Role.OXIDIZER, Role.FUEL, Role.HOT_GAS);

    private ReversalRules() {}

    /**
     * A seal between a working cavity and its drain through which the drain runs back: purge gas into the turbine's or the pump's side.
     * Its own fluid may come back. Thin by itself, since what it carries may be inert; a partner of a reactive pair in it is judged as ingestion.
     */
    public static List<Finding> seals(Setting s) {
        List<Finding> out = new ArrayList<>();
        double noise = 1e-9 * s.greatestFlow();
        for (PassageSpec p : s.model().passages()) {
            PassageState state = s.passage(p.name());
            if (state == null || p.closed() || state.kind() == SealKind.DUCT) {
                continue;
            }
            String working = working(s, p.from()) ? p.from() : working(s, p.to()) ? p.to() : null;
            Cavity drain = working == null ? null : s.model().cavity(BarrierLayout.other(p, working));
            if (drain == null || drain.fixed() || drain.role() != Role.DRAIN) {
                continue;
            }
            double back = Setting.outflow(state, drain.name());
            if (back > noise && foreign(s, drain.name(), working) > s.criteria().get(Limit.TRACE_LIMIT)) {
                out.add(Draft.of(SEAL, Setting.passagePlace(p.name()), s.scene())
                        .what("The seal " + p.name() + " runs the wrong way: " + drain.name() + " into " + working)
                        .unit("kg/s")
                        .how("flow from the drain into the working cavity; the limit is 0")
                        .source(
                                "a working seal leaks into its drain, and the drain carries off what leaks [common practice]")
                        .mend("a larger drain, less purge into it, or leave the drain out and let the barrier face "
                                + working)
                        .caution("purge gas is lost into " + working + " and nothing is drained there")
                        .as(Verdict.THIN, back, 0, Double.NaN));
            }
        }
        return out;
    }

    /** Mass share in a drain of all that is not the working cavity's own fluid: its own may come back. */
    private static double foreign(Setting s, String drain, String working) {
        CavityState c = s.cavity(drain);
        Cavity w = s.model().cavity(working);
        double share = 0;
        for (Map.Entry<String, Double> e : c == null
                ? Map.<String, Double>of().entrySet()
                : c.streamFractions().entrySet()) {
            share += s.streams().same(e.getKey(), w.stream()) ? 0 : e.getValue();
        }
        return share;
    }

    private static boolean working(Setting s, String cavity) {
        Cavity c = s.model().cavity(cavity);
        return c != null
                && c.fixed()
                && WORKING.contains(c.role())
                && !s.layout().inertFed(cavity);
    }

    /** Hot gas, stated above 600 K, in a solved cavity that touches a stated fluid below 250 K: at most the trace limit. */
    public static List<Finding> hotBackflow(Setting s) {
        Set<String> hot = new LinkedHashSet<>();
        for (Cavity c : s.model().cavities()) {
            if (c.fixed() && c.stream() != null && c.temperature() > HOT_GAS) {
                hot.add(c.stream());
            }
        }
        List<Finding> out = new ArrayList<>();
        double limit = s.criteria().get(Limit.TRACE_LIMIT);
        for (Cavity c : s.model().cavities()) {
            CavityState state = s.cavity(c.name());
            String cold = c.fixed() || state == null ? null : coldNeighbour(s, c.name());
            if (cold == null) {
                continue;
            }
            double share = 0;
            for (Map.Entry<String, Double> e : state.streamFractions().entrySet()) {
                share += hot.contains(e.getKey()) ? e.getValue() : 0;
            }
            if (share > limit) {
                out.add(Draft.of(HOT, Setting.cavityPlace(c.name()), s.scene())
                        .what("Hot gas comes back into " + c.name() + ", beside " + cold)
                        .unit("1")
                        .how(
                                "mass fraction of streams stated above 600 K in a cavity beside a fluid stated below 250 K")
                        .source(s.criteria().origin(Limit.TRACE_LIMIT))
                        .mend("a barrier between the two, or a drain of its own for the hot side")
                        .atMost(share, limit));
            }
        }
        return out;
    }

    private static String coldNeighbour(Setting s, String cavity) {
        for (PassageSpec p : s.model().passages()) {
            String next = BarrierLayout.other(p, cavity);
            CavityState n = next == null ? null : s.cavity(next);
            Cavity c = next == null ? null : s.model().cavity(next);
            if (n != null
                    && c != null
                    && c.fixed()
                    && c.role() != Role.VENT
                    && !s.layout().inertFed(next)
                    && (n.state().temperature() < COLD || n.state().phase() == Phase.LIQUID)) {
                return next;
            }
        }
        return null;
    }

    /**
     * A seal that the case says is shut: what runs past a shaft cannot be shut, and a passage that is shut is judged by no criterion. Not
     * established as stated; a fault may plug what it likes.
     */
    public static List<Finding> shutSeals(Setting s) {
        List<Finding> out = new ArrayList<>();
        for (PassageSpec p : s.model().passages()) {
            if (p.closed()
                    && s.scene().asStated()
                    && PassageTypes.find(p.type())
                            .map(t -> t.kind() != SealKind.DUCT)
                            .orElse(false)) {
                out.add(Draft.of(SHUT, Setting.passagePlace(p.name()), s.scene())
                        .what("The case says that the seal " + p.name() + " is shut")
                        .how("a shut passage carries no flow and is judged by no criterion")
                        .source("a gap at a shaft leaks [definition]")
                        .mend("take \"closed\" out, or put a valve in its place")
                        .as(Verdict.NOT_ESTABLISHED));
            }
        }
        return out;
    }

    /**
     * A role that says the opposite of what the stream's elements say. The pairs follow the elements, whatever the words; but one of the
     * two is a mistake, and a case that contradicts itself establishes nothing.
     */
    public static List<Finding> roles(Setting s) {
        List<Finding> out = new ArrayList<>();
        for (Cavity c : s.model().cavities()) {
            StreamKind kind =
                    c.fixed() && c.stream() != null ? s.streams().kinds().get(c.stream()) : null;
            boolean inert = kind == StreamKind.INERT;
            if (kind == null || (inert && c.role() != Role.OXIDIZER && c.role() != Role.FUEL)) {
                continue;
            }
            boolean against = inert
                    || (c.role() == Role.OXIDIZER && kind == StreamKind.FUEL)
                    || (c.role() == Role.FUEL && kind == StreamKind.OXIDIZER)
                    || c.role() == Role.BARRIER
                    || (c.role() == Role.SUPPLY && feedsBarrier(s, c.name()));
            if (against) {
                out.add(Draft.of(ROLE, Setting.cavityPlace(c.name()), s.scene())
                        .what("The role of " + c.name() + " is " + c.role().text() + ", but its stream " + c.stream()
                                + (inert
                                        ? " neither gives nor takes oxygen"
                                        : kind == StreamKind.FUEL ? " takes oxygen" : " gives oxygen"))
                        .how("element balance of the stream's species against the word in the case")
                        .source("element balance of the species")
                        .mend("put the right stream or the right role; pairs are made from the stream")
                        .caution("one of the two is a mistake")
                        .as(Verdict.NOT_ESTABLISHED));
            }
        }
        return out;
    }

    /** Whether a supply reaches a cavity called barrier through ducts and other supply. */
    private static boolean feedsBarrier(Setting s, String supply) {
        Set<String> seen = new LinkedHashSet<>(List.of(supply));
        Deque<String> open = new ArrayDeque<>(seen);
        while (!open.isEmpty()) {
            String here = open.poll();
            for (PassageSpec p : s.model().passages()) {
                String next = BarrierLayout.other(p, here);
                Cavity c = next == null || s.kind(p) != SealKind.DUCT
                        ? null
                        : s.model().cavity(next);
                if (c == null || c.fixed() || !seen.add(next)) {
                    continue;
                }
                if (c.role() == Role.BARRIER) {
                    return true;
                }
                if (c.role() == Role.SUPPLY) {
                    open.add(next);
                }
            }
        }
        return false;
    }
}
