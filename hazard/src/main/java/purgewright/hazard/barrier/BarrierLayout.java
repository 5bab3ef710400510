package purgewright.hazard.barrier;

import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Collections;
import java.util.Deque;
import java.util.EnumSet;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.function.Function;
import purgewright.sealflow.model.Case;
import purgewright.sealflow.model.Cavity;
import purgewright.sealflow.model.PassageSpec;
import purgewright.sealflow.model.Role;
import purgewright.sealflow.passage.PassageType.SealKind;

/**
 * Where a case's barriers are: which cavities inert gas is led to, through which feeds, and which passages bound them. Topology only:
 * whether a barrier holds is judged elsewhere. Immutable.
 *
 * <p>Inert-fed cavities are those that an inert source (a fixed cavity with an inert stream that is no vent, drain or
 * bearing, nor a working cavity with an inert fluid of its own) reaches through ducts, open or shut; drains, vents and the working cavities excluded. Those with a seal on them, or called barrier, are
 * <em>barrier cavities</em>; the rest is supply. A <em>feed</em> is a duct between two inert-fed cavities. Barrier cavities joined by
 * a seal or duct without supply in between form one <em>unit</em>: they are not independent of each other.
 *
 * @param sources fixed inert cavities
 * @param supply inert-fed cavities without a seal, sources included
 * @param units each a set of joined barrier cavities, in the order of the case
 * @param feeds ducts between inert-fed cavities, by passage name: true when {@code from} is the side nearer the source
 */
public record BarrierLayout(
        Set<String> sources, Set<String> supply, List<Set<String>> units, Map<String, Boolean> feeds) {

    /** What inert gas may be led to as a barrier or its supply; a purged drain or inlet is neither. */
    private static final Set<Role> FED = EnumSet.of(Role.BARRIER, Role.SUPPLY, Role.BEARING, Role.OTHER);

    /** What is no purge source however inert its fluid is. */
    private static final Set<Role> NO_SOURCE = EnumSet.of(Role.VENT, Role.DRAIN, Role.BEARING);

    private static final Set<Role> WORKING = EnumSet.of(Role.OXIDIZER, Role.FUEL, Role.HOT_GAS);

    /**
     * Finds the barriers of a case. A shut valve does not unmake a barrier: it is one without supply.
     *
     * @param kinds seal kind by passage name
     */
    public static BarrierLayout of(Case model, StreamTable streams, Function<PassageSpec, SealKind> kinds) {
        Set<String> sources = new LinkedHashSet<>();
        for (Cavity c : model.cavities()) {
            if (source(model, c, streams)) {
                sources.add(c.name());
            }
        }
        Map<String, Integer> distance = new LinkedHashMap<>();
        Deque<String> open = new ArrayDeque<>(sources);
        sources.forEach(s -> distance.put(s, 0));
        while (!open.isEmpty()) {
            String here = open.poll();
            for (PassageSpec p : model.passages()) {
                String next = other(p, here);
                if (next == null || kinds.apply(p) != SealKind.DUCT || distance.containsKey(next)) {
                    continue;
                }
                Cavity c = model.cavity(next);
                if (c == null || c.fixed() || !FED.contains(c.role())) {
                    continue;
                }
                distance.put(next, distance.get(here) + 1);
                open.add(next);
            }
        }
        Set<String> barriers = new LinkedHashSet<>();
        Set<String> supply = new LinkedHashSet<>();
        for (Cavity c : model.cavities()) {
            if (distance.containsKey(c.name())) {
                boolean sealed = model.passages().stream()
                        .anyMatch(p -> kinds.apply(p) != SealKind.DUCT && other(p, c.name()) != null);
                (sealed || c.role() == Role.BARRIER ? barriers : supply).add(c.name());
            }
        }
        Map<String, Boolean> feeds = new LinkedHashMap<>();
        for (PassageSpec p : model.passages()) {
            if (kinds.apply(p) == SealKind.DUCT
                    && distance.containsKey(p.from())
                    && distance.containsKey(p.to())
                    && !p.from().equals(p.to())) {
                int from = distance.get(p.from());
                int to = distance.get(p.to());
                // Two users of one manifold at equal distance are joined by a cross-feed: the side of the supply counts
                // as source.
                feeds.put(p.name(), from < to || (from == to && !barriers.contains(p.from())));
            }
        }
        return new BarrierLayout(sources, supply, units(model, barriers), feeds);
    }

    /** From sources of these roles barriers are fed; the others are what a machine is filled with from elsewhere, as before a start. */
    public static final Set<Role> FEEDING =
            Collections.unmodifiableSet(EnumSet.of(Role.SUPPLY, Role.BARRIER, Role.OTHER));

    /**
     * True for a fixed cavity that gives inert gas. A working cavity does where it is filled with the purge gas itself, as before a
     * start; one that another inert fluid drives or that pumps it (steam, nitrogen) does not.
     */
    public static boolean source(Case model, Cavity c, StreamTable streams) {
        if (!inert(c, streams)) {
            return false;
        }
        return !WORKING.contains(c.role())
                || model.cavities().stream()
                        .anyMatch(x -> inert(x, streams)
                                && !WORKING.contains(x.role())
                                && streams.same(x.stream(), c.stream()));
    }

    private static boolean inert(Cavity c, StreamTable streams) {
        return c.fixed() && c.stream() != null && streams.inert(c.stream()) && !NO_SOURCE.contains(c.role());
    }

    private static List<Set<String>> units(Case model, Set<String> barriers) {
        List<Set<String>> units = new ArrayList<>();
        Set<String> seen = new LinkedHashSet<>();
        for (String start : barriers) {
            if (seen.contains(start)) {
                continue;
            }
            Set<String> unit = new LinkedHashSet<>();
            Deque<String> open = new ArrayDeque<>(List.of(start));
            while (!open.isEmpty()) {
                String here = open.poll();
                if (unit.add(here)) {
                    for (PassageSpec p : model.passages()) {
                        String next = other(p, here);
                        if (next != null && barriers.contains(next)) {
                            open.add(next);
                        }
                    }
                }
            }
            seen.addAll(unit);
            units.add(unit);
        }
        return units;
    }

    /** The other end of a passage seen from a cavity; null when the passage does not touch it. */
    public static String other(PassageSpec p, String cavity) {
        if (p.from().equals(cavity)) {
            return p.to();
        }
        return p.to().equals(cavity) ? p.from() : null;
    }

    /** All barrier cavities, in the order of the case. */
    public Set<String> barrierCavities() {
        Set<String> all = new LinkedHashSet<>();
        units.forEach(all::addAll);
        return all;
    }

    /** True when the cavity is inert-fed: barrier or supply. */
    public boolean inertFed(String cavity) {
        return supply.contains(cavity) || barrierCavities().contains(cavity);
    }

    /** Passages that lead out of a set of cavities to somewhere that is not its supply, closed ones left out. */
    public List<PassageSpec> boundary(Case model, Set<String> cavities) {
        List<PassageSpec> out = new ArrayList<>();
        for (PassageSpec p : model.passages()) {
            boolean from = cavities.contains(p.from());
            boolean to = cavities.contains(p.to());
            if (from != to && !p.closed() && !supply.contains(from ? p.to() : p.from())) {
                out.add(p);
            }
        }
        return out;
    }
}
