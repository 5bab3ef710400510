package purgewright.hazard.service;

import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;
import purgewright.hazard.barrier.BarrierCount;
import purgewright.hazard.barrier.BarrierLayout;
import purgewright.hazard.barrier.Pair;
import purgewright.hazard.criteria.CountRules;
import purgewright.hazard.criteria.Criteria;
import purgewright.hazard.criteria.Setting;
import purgewright.hazard.fault.Instrument;
import purgewright.hazard.finding.Draft;
import purgewright.hazard.finding.Finding;
import purgewright.hazard.finding.Scene;
import purgewright.hazard.finding.Verdict;
import purgewright.hazard.service.PhaseSolve.Point;
import purgewright.sealflow.model.Case;
import purgewright.sealflow.model.Cavity;
import purgewright.sealflow.model.PassageSpec;
import purgewright.sealflow.network.SolveResult.CavityState;
import purgewright.sealflow.network.SolveResult.PassageState;

/** What can be said of a failed case that could not be solved: a barrier that no source feeds any more is lost whatever the flows are. */
final class LostSupply {
    private LostSupply() {}

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

    /** Pressure readings in a barrier without supply that see it: they fall at least to the highest neighbour. */
    static List<String> seen(Point base, Case failed, Criteria criteria) {
        List<String> out = new ArrayList<>();
        for (Set<String> unit : unfed(base.setting(), failed)) {
            for (Instrument i : Instrument.of(base.model(), base.setting().layout(), criteria)) {
                if ("pressure".equals(i.measures()) && unit.contains(i.place())) {
                    CavityState c = base.converged().cavities().get(i.place());
                    double left = neighbour(base.setting(), unit);
                    if (c != null
                            && c.state().pressure() > left
                            && i.significance(c.state().pressure(), left) > 1) {
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
    static List<Finding> findings(Setting base, Case failed, Scene scene) {
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

    /** Solved inert-fed cavities that still reach a unit through open feeds. */
    static Set<String> stores(Case failed, BarrierLayout layout, Set<String> unit) {
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
}
