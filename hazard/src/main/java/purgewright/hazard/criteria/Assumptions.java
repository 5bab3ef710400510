package purgewright.hazard.criteria;

import java.util.ArrayList;
import java.util.Collection;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;
import purgewright.hazard.barrier.BarrierLayout;
import purgewright.sealflow.model.Case;
import purgewright.sealflow.model.Cavity;
import purgewright.sealflow.model.PassageSpec;
import purgewright.sealflow.model.Rotor;
import purgewright.sealflow.passage.PassageType;
import purgewright.sealflow.passage.PassageTypes;

/** What a result takes for granted because the case says nothing of it, in words for the cautions. No verdict changes by it. */
public final class Assumptions {
    private static final String SPEED = "/rotor/speed";

    private Assumptions() {}

    /** Speed, allowances and growth that the case does not state, so that they were taken as zero. One line each, or none. */
    public static List<String> notStated(Case model) {
        List<String> out = new ArrayList<>();
        List<String> seals = new ArrayList<>();
        List<String> rubbing = new ArrayList<>();
        boolean clearances = false;
        boolean growth = !model.rotor().segments().isEmpty();
        for (PassageSpec p : model.passages()) {
            if (!Double.isNaN(p.radius())) {
                seals.add(p.name());
            }
            if (PassageTypes.are(p, PassageType::rubs)) {
                rubbing.add(p.name());
            }
            clearances |= !Double.isNaN(p.clearance());
            growth |= !Double.isNaN(p.clearanceGrowth());
        }
        boolean turns = model.rotor().speed() != 0
                || model.duty().stream().anyMatch(d -> d.set().containsKey(SPEED));
        if (!turns && !seals.isEmpty()) {
            out.add(
                    "The case states no speed of the rotor: all that depends on it was judged at standstill (growth by speed, stirring,"
                            + " surface speed at open gaps"
                            + (rubbing.isEmpty()
                                    ? ""
                                    : "; the speed of " + String.join(", ", rubbing) + " was not judged at all")
                            + ").");
        }
        List<String> zero = new ArrayList<>();
        if (allowances(model.rotor()) == 0) {
            zero.add("whirl, bearing play, run-out, offset and tolerance");
        }
        if (!growth) {
            zero.add("growth from cold to running");
        }
        if (clearances && !zero.isEmpty()) {
            out.add("Least clearances were judged without " + String.join(", and without ", zero)
                    + ": the case states none.");
        }
        return out;
    }

    private static double allowances(Rotor r) {
        return r.whirl() + r.bearingPlay() + r.runOut() + r.offset() + r.tolerance() + r.thrustMovement();
    }

    /**
     * Barrier cavities whose pressure the case states and that are not what its supply feeds, where a pair has to be kept apart: one line, or
     * none.
     */
    public static List<String> assumedPressures(Collection<Setting> settings) {
        Set<String> names = new LinkedHashSet<>();
        for (Setting s : settings) {
            if (s.pairs().isEmpty()) {
                continue;
            }
            String fed = s.model().supply() == null ? null : s.model().supply().cavity();
            for (String name : s.layout().barrierCavities()) {
                Cavity c = s.model().cavity(name);
                if (c != null && c.fixed() && !name.equals(fed)) {
                    names.add(name);
                }
            }
        }
        return names.isEmpty()
                ? List.of()
                : List.of(
                        "No supply feeds " + String.join(", ", names)
                                + ": that inert gas stands there at the stated pressure, however much runs off, is assumed and not shown.");
    }

    /**
     * Inert cavities besides the one that the stated supply feeds, from which barriers are fed too (a barrier of stated pressure is told of by
     * {@link #assumedPressures}): one line, or none; nothing where no supply is stated at all.
     */
    public static List<String> otherSources(Collection<Setting> settings) {
        Set<String> names = new LinkedHashSet<>();
        for (Setting s : settings) {
            if (s.model().supply() == null || s.pairs().isEmpty()) {
                continue;
            }
            String fed = s.model().supply().cavity();
            for (String name : s.layout().sources()) {
                Cavity c = s.model().cavity(name);
                if (fed != null
                        && !name.equals(fed)
                        && BarrierLayout.FEEDING.contains(c.role())
                        && !s.layout().barrierCavities().contains(name)) {
                    names.add(name);
                }
            }
        }
        return names.isEmpty()
                ? List.of()
                : List.of("The stated supply does not feed " + String.join(", ", names)
                        + ": whether that gas lasts is not looked at here; run and plan count it apart.");
    }
}
