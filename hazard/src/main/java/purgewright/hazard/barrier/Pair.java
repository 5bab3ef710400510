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
     * stands in a cavity that is no vent. What a vent is stated to hold - a flare's fuel, an oxygen stack's oxygen - counts against all
     * that it reacts with. A fuel that has no partner among the working streams, as in a compressor, is held against the air in the
     * vents that lie behind a barrier; its own vent is none of them. All other air that enters at a vent is judged by direction and
     * composition.
     */
    public static List<Pair> of(Case model, StreamTable streams) {
        Set<String> working = new LinkedHashSet<>();
        Set<String> vented = new LinkedHashSet<>();
        for (Cavity c : model.cavities()) {
            if (!c.fixed() || c.stream() == null || !streams.kinds().containsKey(c.stream())) {
                continue;
            }
            if (c.role() == Role.VENT) {
                if (!streams.air(c.stream())) {
                    vented.add(c.stream());
                }
            } else if (!BarrierLayout.source(model, c, streams)) {
                working.add(c.stream());
            }
        }
        Set<String> all = new LinkedHashSet<>(working);
        all.addAll(vented);
        if (all.remove(Case.AIR)) {
            all.add(Case.AIR); // last, so that the way is looked for from the other fluid
        }
        List<String> names = new ArrayList<>(all);
        List<Pair> pairs = new ArrayList<>();
        for (int i = 0; i < names.size(); i++) {
            for (int j = i + 1; j < names.size(); j++) {
                String a = names.get(i);
                String b = names.get(j);
                boolean reactive = streams.reactive(a, b);
                if (reactive || (working.contains(a) && working.contains(b) && !streams.same(a, b))) {
                    pairs.add(new Pair(a, b, reactive));
                }
            }
        }
        if (streams.kinds().containsKey(Case.AIR)) {
            for (String name : names) {
                boolean alone = working.contains(name)
                        && pairs.stream()
                                .filter(p -> working.contains(p.first()) && working.contains(p.second()))
                                .noneMatch(p ->
                                        p.first().equals(name) || p.second().equals(name));
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
