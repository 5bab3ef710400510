package purgewright.hazard.barrier;

import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Collections;
import java.util.Deque;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.function.Predicate;
import purgewright.sealflow.model.Case;
import purgewright.sealflow.model.Cavity;
import purgewright.sealflow.model.PassageSpec;
import purgewright.sealflow.model.Role;

/**
 * How many independent barriers stand between two streams.
 *
 * <p>The greatest number of disjoint sets that each cut every path equals the least number of them met on any path (cuts and paths
 * are dual), so the count is a shortest path over the undirected passages in which a barrier unit that holds weighs 1 and everything
 * else - drains, vents, supply manifolds - weighs 0.
 *
 * @param count barriers on the weakest path; {@link Integer#MAX_VALUE} when no path joins the two at all
 * @param path cavities along the weakest path
 */
public record BarrierCount(int count, List<String> path) {
    /** No path joins the two. */
    public static final BarrierCount UNCONNECTED = new BarrierCount(Integer.MAX_VALUE, List.of());

    /**
     * Barrier cavities that hold: the greatest set in which every boundary passage is good, found by striking out a cavity with a bad
     * boundary passage until none is left (then its neighbours' passages towards it are boundary too).
     *
     * @param good tells whether a boundary passage, seen from the barrier cavity named, meets all its criteria
     */
    public static List<Set<String>> holding(Case model, BarrierLayout layout, Good good) {
        List<Set<String>> held = new ArrayList<>();
        for (Set<String> unit : layout.units()) {
            Set<String> left = new LinkedHashSet<>(unit);
            boolean changed = true;
            while (changed && !left.isEmpty()) {
                changed = false;
                for (PassageSpec p : layout.boundary(model, left)) {
                    String inside = left.contains(p.from()) ? p.from() : p.to();
                    if (!good.holds(p, inside)) {
                        left.remove(inside);
                        changed = true;
                        break;
                    }
                }
            }
            if (!left.isEmpty()) {
                held.add(left);
            }
        }
        return held;
    }

    /** Whether a boundary passage of a barrier meets its criteria. */
    @FunctionalInterface
    public interface Good {
        /** Seen from the barrier cavity {@code inside}. */
        boolean holds(PassageSpec passage, String inside);
    }

    /**
     * Counts the barriers between two streams.
     *
     * @param held sets of barrier cavities that hold; joined cavities count once
     */
    public static BarrierCount between(Case model, String first, String second, List<Set<String>> held) {
        return between(model, first, held, c -> c.fixed() && second.equals(c.stream()), p -> !p.closed());
    }

    /**
     * Counts the barriers of a pair. Of the air, cavities count that are no vents, and vents that lie behind a barrier while all of them
     * hold: the vent that a fuel's own drain leads to is where it is meant to go. {@link #UNCONNECTED} when there is none of either.
     */
    public static BarrierCount between(Case model, Pair pair, BarrierLayout layout, List<Set<String>> held) {
        return between(model, pair, layout, held, p -> !p.closed());
    }

    /**
     * The same with other passages taken as open.
     *
     * @param open tells which passages are paths
     */
    public static BarrierCount between(
            Case model, Pair pair, BarrierLayout layout, List<Set<String>> held, Predicate<PassageSpec> open) {
        if (!pair.withAir()) {
            return between(
                    model, pair.first(), held, c -> c.fixed() && pair.second().equals(c.stream()), open);
        }
        Set<String> behind = new HashSet<>();
        for (Cavity c : model.cavities()) {
            if (c.fixed() && Case.AIR.equals(c.stream())) {
                if (c.role() != Role.VENT) {
                    behind.add(c.name());
                    continue;
                }
                BarrierCount all = between(
                        model, pair.first(), layout.units(), x -> x.name().equals(c.name()), open);
                if (all.count() >= 1 && !all.equals(UNCONNECTED)) {
                    behind.add(c.name());
                }
            }
        }
        return between(model, pair.first(), held, x -> behind.contains(x.name()), open);
    }

    private static BarrierCount between(
            Case model, String first, List<Set<String>> held, Predicate<Cavity> goal, Predicate<PassageSpec> passable) {
        Map<String, Integer> unitOf = new HashMap<>();
        for (int i = 0; i < held.size(); i++) {
            for (String c : held.get(i)) {
                unitOf.put(c, i);
            }
        }
        Map<String, List<String>> next = new HashMap<>();
        for (PassageSpec p : model.passages()) {
            if (passable.test(p)) {
                next.computeIfAbsent(p.from(), k -> new ArrayList<>()).add(p.to());
                next.computeIfAbsent(p.to(), k -> new ArrayList<>()).add(p.from());
            }
        }
        Map<String, Integer> best = new HashMap<>();
        Map<String, String> back = new HashMap<>();
        Deque<String> open = new ArrayDeque<>();
        Set<String> done = new HashSet<>();
        for (Cavity c : model.cavities()) {
            if (c.fixed() && first.equals(c.stream())) {
                best.put(c.name(), 0);
                open.add(c.name());
            }
        }
        while (!open.isEmpty()) {
            String here = open.pollFirst();
            if (!done.add(here)) {
                continue;
            }
            Cavity cavity = model.cavity(here);
            if (cavity != null && goal.test(cavity)) {
                List<String> path = new ArrayList<>();
                for (String at = here; at != null; at = back.get(at)) {
                    path.add(at);
                }
                Collections.reverse(path);
                return new BarrierCount(best.get(here), path);
            }
            for (String there : next.getOrDefault(here, List.of())) {
                // A unit counts once, on entering; inside it the way is free.
                Integer unit = unitOf.get(there);
                int weight = unit == null || unit.equals(unitOf.get(here)) ? 0 : 1;
                int cost = best.get(here) + weight;
                if (cost < best.getOrDefault(there, Integer.MAX_VALUE)) {
                    best.put(there, cost);
                    back.put(there, here);
                    if (weight == 0) {
                        open.addFirst(there);
                    } else {
                        open.addLast(there);
                    }
                }
            }
        }
        return UNCONNECTED;
    }
}
