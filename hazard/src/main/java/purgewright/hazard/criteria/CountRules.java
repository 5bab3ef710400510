package purgewright.hazard.criteria;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import purgewright.fluids.Phase;
import purgewright.hazard.barrier.BarrierCount;
import purgewright.hazard.barrier.Pair;
import purgewright.hazard.barrier.StreamKind;
import purgewright.hazard.finding.Draft;
import purgewright.hazard.finding.Finding;
import purgewright.hazard.finding.Scene;
import purgewright.hazard.finding.Verdict;
import purgewright.sealflow.model.Case;
import purgewright.sealflow.model.Cavity;
import purgewright.sealflow.model.PassageSpec;
import purgewright.sealflow.model.Role;
import purgewright.sealflow.network.SolveResult.PassageState;

/** How many barriers stand between each pair, which vents are shared, and what runs into a pumped fluid. */
public final class CountRules {
    /** Key of the count. */
    public static final String COUNT = "barriers";

    /** Key of a vent that oxygen and fuel share. */
    public static final String SHARED_VENT = "shared-vent";

    /** Key of a stream that enters a cavity whose own fluid must not meet it. */
    public static final String INGESTION = "ingestion";

    /** Key of purge gas that enters a pumped liquid. */
    public static final String PURGE_IN_LIQUID = "purge-in-liquid";

    /** Key of outside air that runs back through a vent. */
    public static final String VENT_REVERSE = "vent-reverse";

    /** Words before the name of a reactive pair in a finding of the count. */
    public static final String REACTIVE = "reactive pair ";

    private static final String WEAKEST = "weakest path: ";
    private static final String STEP = " - ";

    private static final Set<String> BARRIER_KEYS = Set.of(
            BarrierRules.PRESSURE,
            BarrierRules.VELOCITY,
            BarrierRules.DIFFERENCE,
            BarrierRules.DIRECTION,
            BarrierRules.VALVE);

    /** Of the cavity a barrier is fed in: what is not inert there, and purge that turns to liquid or ice and leaves the gap to others. */
    private static final Set<String> CAVITY_KEYS = Set.of(BarrierRules.PURITY, PhaseRules.CONDENSES);

    private CountRules() {}

    /**
     * Counts independent barriers for every pair, on the weakest path. A pair that no stated passage ties is not established when it is
     * reactive, else thin: it looks like one whose seal was left out.
     *
     * @param judged findings at the same operating point, those of {@link BarrierRules} and of condensing purge among them; a barrier
     *     counts only when it meets all its criteria
     */
    public static List<Finding> count(Setting s, List<Finding> judged) {
        // A boundary passage without a state was judged by no rule: not known to hold.
        List<Set<String>> sure = BarrierCount.holding(
                s.model(),
                s.layout(),
                (p, inside) -> s.passage(p.name()) != null && holds(judged, p.name(), inside, false));
        List<Set<String>> perhaps =
                BarrierCount.holding(s.model(), s.layout(), (p, inside) -> holds(judged, p.name(), inside, true));
        List<Finding> out = new ArrayList<>();
        for (Pair pair : s.pairs()) {
            BarrierCount least = BarrierCount.between(s.model(), pair, s.layout(), sure);
            Limit limit = pair.reactive() ? Limit.BARRIERS_REACTIVE : Limit.BARRIERS_CONTAMINATION;
            double required = s.criteria().get(limit);
            Draft draft = Draft.of(COUNT, "/streams/" + pair.first(), s.scene())
                    .part(pair.second())
                    .unit("1")
                    .how(
                            "least number of barriers met on any path, supply manifolds, vents and drain lines included; a barrier counts"
                                    + " only when every boundary passage meets its criteria; " + WEAKEST
                                    + (least.path().isEmpty() ? "none" : String.join(STEP, least.path())))
                    .source(s.criteria().origin(limit))
                    .mend(
                            "restore the barrier that falls short on the weakest path, or part the path that goes around it");
            String kind = pair.reactive() ? REACTIVE : "contaminating pair ";
            PassageSpec shut = shutAlone(s, pair, sure, required);
            if (shut != null && least.count() >= required) {
                out.add(draft.what("Only the shut passage " + shut.name() + " keeps apart the " + kind + pair.name())
                        .mend("a second shut valve with the way between bled, or a barrier on that way")
                        .source(BarrierRules.CHECK_VALVES)
                        .caution(
                                "one shut valve is no barrier: what it leaks, or does when it is opened by mistake, is not in the case")
                        .as(
                                pair.reactive() ? Verdict.NOT_ESTABLISHED : Verdict.THIN,
                                BarrierCount.between(
                                                s.model(), pair, s.layout(), sure, p -> !p.closed() || p.equals(shut))
                                        .count(),
                                required,
                                Double.NaN));
                continue;
            }
            if (!pair.withAir() && !tied(s, pair)) {
                out.add(draft.what("No stated passage ties the " + kind + pair.name())
                        .how("no path leads from one to the other over all passages of the case, shut ones included")
                        .source("two fluids at one shaft are parted by seals, and a gap at a shaft leaks [definition]")
                        .mend(
                                "state the seals and the barrier between the two; what is no part of this machine belongs into a case of its own")
                        .caution("a seal left out of the case looks like this")
                        .as(pair.reactive() ? Verdict.NOT_ESTABLISHED : Verdict.THIN));
                continue;
            }
            if (least.equals(BarrierCount.UNCONNECTED)) {
                boolean noBarrier = s.layout().units().isEmpty();
                if (pair.withAir()) {
                    draft.caution(
                            "what leaks runs to vents that no barrier stands before; whether they are fit for it is not asked here");
                }
                out.add(draft.what(
                                pair.withAir() && noBarrier
                                        ? "No barrier in this case stands before the " + kind + pair.name()
                                        : "No open path joins the " + kind + pair.name())
                        .as(!pair.withAir() ? Verdict.HOLDS : noBarrier ? Verdict.NOT_ESTABLISHED : Verdict.THIN));
                continue;
            }
            draft.what("Independent barriers between the " + kind + pair.name());
            if (least.count() >= required) {
                if (least.count() == 1) {
                    draft.caution("one barrier left: nothing stands behind it");
                }
                out.add(draft.as(Verdict.HOLDS, least.count(), required, margin(least.count(), required)));
                continue;
            }
            BarrierCount most = BarrierCount.between(s.model(), pair, s.layout(), perhaps);
            Verdict verdict = most.count() >= required ? Verdict.NOT_ESTABLISHED : Verdict.FALLS_SHORT;
            if (!pair.reactive()) {
                draft.caution("the two do not react with each other; where air gets in a fire may follow");
            }
            out.add(draft.as(verdict, least.count(), required, margin(least.count(), required)));
        }
        return out;
    }

    /** Whether any path over stated passages, open or shut, leads from one of a pair to the other. */
    private static boolean tied(Setting s, Pair pair) {
        return !BarrierCount.between(s.model(), pair, s.layout(), List.of(), p -> true)
                .equals(BarrierCount.UNCONNECTED);
    }

    /** A shut passage that by itself makes up for a missing barrier of a pair; null for none. */
    private static PassageSpec shutAlone(Setting s, Pair pair, List<Set<String>> held, double required) {
        for (PassageSpec shut : s.model().passages()) {
            if (shut.closed()
                    && BarrierCount.between(s.model(), pair, s.layout(), held, p -> !p.closed() || p == shut)
                                    .count()
                            < required) {
                return shut;
            }
        }
        return null;
    }

    /** Said once of a case in which no phase has a pair: the other fluid may have been forgotten. */
    public static Finding nothingToKeepApart(Scene scene) {
        return Draft.of(COUNT, "/streams", scene)
                .what("No two streams of this case must be kept apart")
                .how(
                        "pairs are made from streams that stand in stated cavities other than vents and purge supplies; no phase has one")
                .source("element balance of the species")
                .mend("state the other fluid of the machine (oil, fuel, drive gas) in a cavity of its own")
                .caution("whether a barrier holds is not asked where nothing has to be held apart")
                .as(Verdict.THIN);
    }

    /** Cavities of the weakest path that a finding of the count names; empty when it names none. */
    public static List<String> weakestPath(Finding count) {
        int at = count.how().lastIndexOf(WEAKEST);
        return at < 0
                ? List.of()
                : List.of(count.how().substring(at + WEAKEST.length()).split(STEP, -1));
    }

    private static double margin(double count, double required) {
        return required > 0 ? (count - required) / required : count > 0 ? 1 : 0;
    }

    private static boolean holds(List<Finding> judged, String passage, String inside, boolean benefitOfDoubt) {
        String place = Setting.passagePlace(passage);
        String cavity = Setting.cavityPlace(inside);
        for (Finding f : judged) {
            String key = f.id().substring(0, f.id().indexOf(':'));
            boolean mine = (f.where().equals(place) && BARRIER_KEYS.contains(key))
                    || (f.where().equals(cavity) && CAVITY_KEYS.contains(key));
            if (mine
                    && (f.verdict() == Verdict.FALLS_SHORT
                            || (!benefitOfDoubt
                                    && (f.verdict() == Verdict.NOT_ESTABLISHED
                                            || f.verdict() == Verdict.NOT_CONVERGED)))) {
                return false;
            }
        }
        return true;
    }

    /**
     * A vent, or another boundary filled with inert gas, in which oxidizer and fuel meet: both run in above the trace limit, or one runs
     * into the other that the case says stands there.
     */
    public static List<Finding> sharedVents(Setting s) {
        List<Finding> out = new ArrayList<>();
        for (Cavity c : s.model().cavities()) {
            List<String> met = meet(s, c);
            if (met.isEmpty()) {
                continue;
            }
            boolean stands = stands(s, c) && met.get(0).equals(c.stream());
            String name = c.role() == Role.VENT ? "Vent " + c.name() : c.name();
            out.add(Draft.of(SHARED_VENT, Setting.cavityPlace(c.name()), s.scene())
                    .what(
                            stands
                                    ? name + ", where " + c.stream() + " stands, takes "
                                            + String.join(", ", met.subList(1, met.size()))
                                    : name + " takes oxidizer and fuel together: " + String.join(", ", met))
                    .how(
                            stands
                                    ? "streams of the other kind than what the case says stands there, that run in above the trace limit"
                                    : "streams that run into it above the trace limit")
                    .source(
                            "drain lines vent to separated places, oxygen and fuel vents metres apart [common practice]")
                    .mend("give each its own drain and vent")
                    .as(Verdict.FALLS_SHORT, 2, 1, -1));
        }
        return out;
    }

    /**
     * Streams that give and take oxygen and meet in a vent, or in a boundary filled with inert gas: those that run in above the trace
     * limit, and first of all what stands there. Empty when they are of one kind. Air that runs in counts where a fuel stands or where
     * air is a working fluid.
     */
    static List<String> meet(Setting s, Cavity c) {
        boolean vent = c.role() == Role.VENT;
        if (!vent && !(c.fixed() && c.stream() != null && s.streams().inert(c.stream()))) {
            return List.of();
        }
        Map<String, StreamKind> kinds = s.streams().kinds();
        boolean fuelStands = stands(s, c) && kinds.get(c.stream()) == StreamKind.FUEL;
        Map<String, Double> in = inflow(s, c.name());
        double total = in.values().stream().mapToDouble(Double::doubleValue).sum();
        List<String> names = new ArrayList<>();
        in.forEach((stream, flow) -> {
            boolean counts = !Case.AIR.equals(stream) || fuelStands || workingAir(s);
            if (counts && reacts(kinds.get(stream)) && flow > s.criteria().get(Limit.TRACE_LIMIT) * total) {
                names.add(stream);
            }
        });
        if (stands(s, c) && names.stream().anyMatch(n -> s.streams().reactive(n, c.stream()))) {
            names.removeIf(n -> !s.streams().reactive(n, c.stream()));
            names.add(0, c.stream());
            return names;
        }
        boolean both = names.stream().anyMatch(n -> kinds.get(n) == StreamKind.OXIDIZER)
                && names.stream().anyMatch(n -> kinds.get(n) == StreamKind.FUEL);
        return both ? names : List.of();
    }

    /** Whether a vent is stated to hold what gives or takes oxygen, other than air. */
    private static boolean stands(Setting s, Cavity c) {
        return c.stream() != null
                && reacts(s.streams().kinds().get(c.stream()))
                && !s.streams().air(c.stream());
    }

    private static boolean reacts(StreamKind kind) {
        return kind == StreamKind.OXIDIZER || kind == StreamKind.FUEL;
    }

    /** Whether air is a working fluid of this case, not only what stands outside its vents. */
    private static boolean workingAir(Setting s) {
        return s.pairs().stream().anyMatch(Pair::withAir)
                && s.model().cavities().stream()
                        .anyMatch(c -> c.fixed() && c.role() != Role.VENT && Case.AIR.equals(c.stream()));
    }

    /** Flow of each stream into a cavity, kg/s, over all passages that carry it in. */
    static Map<String, Double> inflow(Setting s, String cavity) {
        Map<String, Double> in = new HashMap<>();
        for (PassageState p : s.solve().passages().values()) {
            boolean to = p.to().equals(cavity);
            if (!to && !p.from().equals(cavity)) {
                continue;
            }
            p.streamFlows().forEach((stream, flow) -> {
                double inward = to ? flow : -flow;
                if (inward > 0) {
                    in.merge(stream, inward, Double::sum);
                }
            });
        }
        return in;
    }

    /**
     * What runs into a fixed working cavity: another stream of a pair (ingestion), or purge gas into a liquid (volume share at the
     * entry, {@code 1 - (1 - x) rho / rho_liquid} with x the vapour's mass share upstream).
     */
    public static List<Finding> ingestion(Setting s) {
        List<Finding> out = new ArrayList<>();
        double noise = 1e-9 * s.greatestFlow();
        for (Cavity c : s.model().cavities()) {
            if (!c.fixed() || c.role() == Role.VENT || s.layout().inertFed(c.name()) || c.stream() == null) {
                continue;
            }
            Map<String, Double> in = inflow(s, c.name());
            for (Pair pair : s.pairs()) {
                String other = pair.first().equals(c.stream())
                        ? pair.second()
                        : pair.second().equals(c.stream()) ? pair.first() : null;
                double flow = other == null ? 0 : in.getOrDefault(other, 0.0);
                if (flow > noise) {
                    out.add(Draft.of(INGESTION, Setting.cavityPlace(c.name()), s.scene())
                            .part(other)
                            .what(other + " runs into " + c.name() + ", where " + c.stream() + " is")
                            .unit("kg/s")
                            .how("flow of that stream into the cavity; the limit is 0")
                            .source("the pair must not meet [definition]")
                            .mend("turn the flow in the passage that carries it in")
                            .as(Verdict.FALLS_SHORT, flow, 0, -1));
                }
            }
            out.addAll(purgeInLiquid(s, c, in, noise));
        }
        return out;
    }

    private static List<Finding> purgeInLiquid(Setting s, Cavity c, Map<String, Double> in, double noise) {
        List<Finding> out = new ArrayList<>();
        var receiver = s.cavity(c.name());
        if (receiver == null || !Setting.dense(receiver) || receiver.state().phase() == Phase.TWO_PHASE) {
            return out;
        }
        for (PassageState p : s.solve().passages().values()) {
            boolean to = p.to().equals(c.name());
            String from = to ? p.from() : p.from().equals(c.name()) ? p.to() : null;
            double inward = to ? p.flow().massFlow() : -p.flow().massFlow();
            var upstream = from == null ? null : s.cavity(from);
            if (upstream == null || inward <= noise || s.streams().inertShare(upstream.streamFractions()) <= 0) {
                continue;
            }
            double quality = upstream.state().quality();
            double share = Math.max(
                    0,
                    Math.min(
                            1,
                            1
                                    - (1 - quality)
                                            * upstream.state().density()
                                            / receiver.state().density()));
            if (in.values().stream().mapToDouble(Double::doubleValue).sum() > 0) {
                out.add(Draft.of(PURGE_IN_LIQUID, Setting.passagePlace(p.name()), s.scene())
                        .what("Gas carried through " + p.name() + " into the liquid in " + c.name())
                        .unit("1")
                        .how("volume share of gas at the entry, homogeneous, at the upstream state")
                        .source(s.criteria().origin(Limit.PURGE_IN_LIQUID))
                        .mend("lower the drain's pressure below the liquid's, so that the seal flows outward")
                        .atMost(share, s.criteria().get(Limit.PURGE_IN_LIQUID)));
            }
        }
        return out;
    }

    /** Air that comes back from a vent. */
    public static List<Finding> ventReverse(Setting s) {
        List<Finding> out = new ArrayList<>();
        double noise = 1e-9 * s.greatestFlow();
        for (PassageState p : s.solve().passages().values()) {
            Cavity from = s.model().cavity(p.from());
            Cavity to = s.model().cavity(p.to());
            boolean ventAtTo = to != null && to.role() == Role.VENT;
            boolean ventAtFrom = from != null && from.role() == Role.VENT;
            if (ventAtTo == ventAtFrom) {
                continue;
            }
            double out1 = ventAtTo ? p.flow().massFlow() : -p.flow().massFlow();
            if (out1 < -noise) {
                out.add(Draft.of(VENT_REVERSE, Setting.passagePlace(p.name()), s.scene())
                        .what("Outside air or vented gas comes back through " + p.name())
                        .unit("kg/s")
                        .how("flow towards the vent; the limit is 0")
                        .source("drains flow to their vents [common practice]")
                        .mend("purge the drain above the surroundings, or close its line")
                        .as(Verdict.FALLS_SHORT, out1, 0, -1));
            }
        }
        return out;
    }
}
