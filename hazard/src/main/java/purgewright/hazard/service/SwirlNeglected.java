package purgewright.hazard.service;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import purgewright.hazard.criteria.Criteria;
import purgewright.hazard.fault.Edits;
import purgewright.hazard.finding.Finding;
import purgewright.hazard.finding.Scene;
import purgewright.hazard.finding.Verdict;
import purgewright.hazard.finding.Verdicts;
import purgewright.sealflow.model.Case;
import purgewright.sealflow.model.Cavity;
import purgewright.sealflow.network.SolveResult.CavityState;
import purgewright.sealflow.network.SolveResult.PassageState;

/**
 * What a check would say if the fluid beside a disc stood still: every phase that turns is solved and judged again with a swirl of zero.
 * The radial pressure gradient is as big as the margins of a barrier at large radius; a verdict that rests on it should say so.
 */
final class SwirlNeglected {
    /** Share by which a later passage or phase must be moved more to be named instead: phases of one speed differ by rounding. */
    private static final double CLEARLY_MORE = 1e-6;

    private SwirlNeglected() {}

    /** A sentence for the cautions; null for a case without a turning cavity that has a radius. */
    static String line(PhaseSolve points, String engine, Case whole, Map<String, PhaseSolve.Point> solved) {
        List<Finding> with = new ArrayList<>();
        List<Finding> without = new ArrayList<>();
        boolean any = false;
        String most = "";
        double largest = 0;
        for (Map.Entry<String, PhaseSolve.Point> e : solved.entrySet()) {
            PhaseSolve.Point point = e.getValue();
            Case model = point.model();
            Criteria criteria = Criteria.of(model.criteria());
            List<Finding> here = Evidences.of(points, engine, point, criteria, false);
            with.addAll(here);
            if (point.converged() == null || !turns(model)) {
                without.addAll(here);
                continue;
            }
            any = true;
            PhaseSolve.Point still = points.judge(still(model), point.converged(), Scene.of(e.getKey()), criteria);
            without.addAll(Evidences.of(points, engine, still, criteria, false));
            if (still.converged() == null) {
                continue;
            }
            for (PassageState p : point.converged().passages().values()) {
                PassageState other = still.converged().passages().get(p.name());
                for (boolean from : new boolean[] {true, false}) {
                    double own = (from ? p.fromState() : p.toState()).pressure();
                    double there = (from ? other.fromState() : other.toState()).pressure();
                    double moved = Math.abs(Math.log(there / own));
                    CavityState cavity = point.converged().cavities().get(from ? p.from() : p.to());
                    if (moved > (1 + CLEARLY_MORE) * largest && cavity != null) {
                        largest = moved;
                        most = String.format(
                                Locale.ROOT,
                                "'%s' would see %.3g in place of %.3g MPa in '%s' (%s)",
                                p.name(),
                                there / 1e6,
                                own / 1e6,
                                cavity.name(),
                                e.getKey());
                    }
                }
            }
        }
        if (!any) {
            return null;
        }
        Verdict now = Verdicts.of(Waivers.apply(whole, Verdicts.sorted(with)));
        Verdict then = Verdicts.of(Waivers.apply(whole, Verdicts.sorted(without)));
        return "With the radial pressure gradient of the rotating cavities neglected (swirl 0) the verdict of the nominal models would be "
                + (then == now ? "the same, " + then.word() : then.word() + " in place of " + now.word())
                + (most.isEmpty() ? "." : "; " + most + ".");
    }

    private static boolean turns(Case model) {
        return model.rotor().speed() != 0 && model.cavities().stream().anyMatch(SwirlNeglected::swirls);
    }

    private static boolean swirls(Cavity c) {
        return !Double.isNaN(c.radius()) && (c.disc() != null || c.swirlRatio() > 0);
    }

    private static Case still(Case model) {
        Case changed = model;
        for (Cavity c : model.cavities()) {
            if (swirls(c)) {
                changed = Edits.cavity(changed, c.name(), k -> Edits.swirl(k, 0));
            }
        }
        return changed;
    }
}
