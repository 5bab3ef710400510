package purgewright.hazard.barrier;

import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;
import purgewright.sealflow.model.Case;
import purgewright.sealflow.model.Cavity;
import purgewright.sealflow.model.Role;

/**
 * Two streams that must not meet.
 *
 * @param first stream, earlier in the case
 * @param second stream
 * @param reactive true when one gives oxygen and the other takes it; else they only contaminate each other
 */
public record Pair(String first, String second, boolean reactive) {
    /** "A | B", for ids and places. */
    public String name() {
        return first + " | " + second;
    }

    /**
     * All pairs among the working streams: those that stand in a fixed cavity that is no vent, and are no purge gas. Streams of the same
     * composition are one fluid; an inert fluid that drives or is pumped counts, unless it is the purge gas itself. Air counts where it
     * stands in a cavity that is no vent. A fuel that has no partner in the case, as in a compressor, is held against the air in the
     * vents that lie behind a barrier; its own vent is none of them. All other air that enters at a vent is judged by direction and
     * composition.
     */
    public static List<Pair> of(Case model, StreamTable streams) {
        Set<String> working = new LinkedHashSet<>();
        for (Cavity c : model.cavities()) {
            if (c.fixed()
                    && c.stream() != null
                    && c.role() != Role.VENT
                    && streams.kinds().containsKey(c.stream())
                    && !BarrierLayout.source(model, c, streams)) {
                working.add(c.stream());
            }
        }
        if (working.remove(Case.AIR)) {
            working.add(Case.AIR); // last, so that the way is looked for from the other fluid
        }
        List<String> names = new ArrayList<>(working);
        List<Pair> pairs = new ArrayList<>();
        for (int i = 0; i < names.size(); i++) {
            for (int j = i + 1; j < names.size(); j++) {
                if (!streams.same(names.get(i), names.get(j))) {
                    StreamKind a = streams.kinds().get(names.get(i));
                    StreamKind b = streams.kinds().get(names.get(j));
                    boolean reactive = (a == StreamKind.OXIDIZER && b == StreamKind.FUEL)
                            || (a == StreamKind.FUEL && b == StreamKind.OXIDIZER);
                    pairs.add(new Pair(names.get(i), names.get(j), reactive));
                }
            }
        }
        if (streams.kinds().containsKey(Case.AIR)) {
            for (String name : names) {
                boolean alone = pairs.stream()
                        .noneMatch(p -> p.first().equals(name) || p.second().equals(name));
                if (alone && streams.kinds().get(name) == StreamKind.FUEL) {
                    pairs.add(new Pair(name, Case.AIR, true));
                }
            }
        }
        return pairs;
    }

    /** True for a fluid held against air: where air stands in the machine, or in the vents behind a barrier. */
    public boolean withAir() {
        return Case.AIR.equals(second);
    }
}
