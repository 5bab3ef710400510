package purgewright.hazard.criteria;

import java.util.List;
import purgewright.hazard.finding.Draft;
import purgewright.hazard.finding.Finding;
import purgewright.hazard.finding.Scene;
import purgewright.hazard.finding.Verdict;
import purgewright.sealflow.model.Cavity;
import purgewright.sealflow.network.SolveResult.CavityState;
import purgewright.sealflow.network.SolveResult.Converged;

/**
 * What a fault changes of the axial force on the disc faces, against a stated capacity of the bearing.
 *
 * <pre>{@code |dF| <= |sum_j s_j pi (ro_j^2 - ri_j^2) dp_j| + sum_i pi (ro_i^2 - ri_i^2) |dp_i|}</pre>
 *
 * <p>over the cavities with a disc, j those whose case says which way the face looks (s = +1 or -1), i the others, whose changes are added
 * with the signs that hurt: a bound from above. With one disc face, or where all say it, it is the change itself; else the bound from below is the
 * largest term less the rest. The radial pressure gradient is taken as unchanged.
 */
public final class AxialForce {
    /** Key of the change of axial force. */
    public static final String KEY = "axial-force";

    private AxialForce() {}

    /**
     * The finding of a fault; empty when the case states no capacity or has no disc.
     *
     * @param base as stated
     * @param after the failed case's solution
     */
    public static List<Finding> judge(Setting base, Converged after, Scene scene) {
        double capacity = base.criteria().get(Limit.AXIAL_FORCE);
        if (!(capacity > 0)) {
            return List.of();
        }
        double most = 0;
        double largest = 0;
        double stated = 0;
        double single = 0;
        boolean unstated = false;
        String worst = "";
        for (Cavity c : base.model().cavities()) {
            CavityState before = base.cavity(c.name());
            CavityState now = after.cavities().get(c.name());
            if (c.disc() == null || before == null || now == null) {
                continue;
            }
            double area = Math.PI
                    * (c.disc().outerRadius() * c.disc().outerRadius()
                            - c.disc().innerRadius() * c.disc().innerRadius());
            double change = area * (now.state().pressure() - before.state().pressure());
            double size = Math.abs(change);
            if (c.disc().aft() == 0) {
                unstated = true;
                most += size;
                largest = Math.max(largest, size);
            } else {
                stated += c.disc().aft() * change;
            }
            if (size > single || !Double.isFinite(size)) {
                single = size;
                worst = c.name();
            }
        }
        most += Math.abs(stated);
        largest = Math.max(largest, Math.abs(stated));
        if (worst.isEmpty()) {
            return List.of();
        }
        double least = Math.max(0, 2 * largest - most);
        Draft draft = Draft.of(KEY, "/rotor", scene)
                .what("Change of the axial force on the disc faces, most of it in " + worst)
                .unit("N")
                .how("area of each disc face times the change of its cavity's pressure, "
                        + (unstated
                                ? "added with the signs that hurt; at least " + Math.round(least) + " N"
                                : "added with the way each looks"))
                .source(base.criteria().origin(Limit.AXIAL_FORCE))
                .mend("a balance piston, a bearing with more capacity, or a drain that cannot be blocked")
                .caution(
                        unstated
                                ? "the case does not say of each disc face which way it looks"
                                : "the disc faces alone: not the ends of the shaft, its steps, nor an impeller's inlet");
        return List.of(
                most > capacity && least <= capacity
                        ? draft.as(Verdict.NOT_ESTABLISHED, most, capacity, Double.NaN)
                        : draft.atMost(most, capacity));
    }
}
