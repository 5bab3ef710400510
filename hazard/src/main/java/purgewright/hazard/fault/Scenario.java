package purgewright.hazard.fault;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.stream.Collectors;
import purgewright.sealflow.model.Case;

/**
 * One or more faults together.
 *
 * @param name the faults' names joined by " + "
 * @param faults at different places
 */
public record Scenario(String name, List<Fault> faults) {
    /** A scenario of one fault. */
    public static Scenario of(Fault fault) {
        return new Scenario(fault.name(), List.of(fault));
    }

    /** The singles in order, then those of one common cause together, then, when asked for, all pairs of singles at different places. */
    public static List<Scenario> of(List<Fault> faults, boolean pairs) {
        List<Scenario> out = new ArrayList<>();
        faults.forEach(f -> out.add(of(f)));
        Map<String, List<Fault>> groups = new LinkedHashMap<>();
        for (Fault f : faults) {
            if (!f.group().isEmpty()) {
                groups.computeIfAbsent(f.group(), k -> new ArrayList<>()).add(f);
            }
        }
        groups.forEach((group, members) -> {
            if (members.size() > 1) {
                out.add(new Scenario("common cause: " + group, List.copyOf(members)));
            }
        });
        if (pairs) {
            for (int i = 0; i < faults.size(); i++) {
                for (int j = i + 1; j < faults.size(); j++) {
                    if (!faults.get(i).place().equals(faults.get(j).place())) {
                        out.add(new Scenario(
                                faults.get(i).name() + " + " + faults.get(j).name(),
                                List.of(faults.get(i), faults.get(j))));
                    }
                }
            }
        }
        return out;
    }

    /** True for one fault, or several of one cause: what the verdict has to survive. */
    public boolean single() {
        return faults.size() == 1 || name.startsWith("common cause: ");
    }

    /** True when every fault in it is credible. */
    public boolean credible() {
        return faults.stream().allMatch(Fault::credible);
    }

    /** Values to set in the document before it becomes a case. */
    public Map<String, String> set() {
        Map<String, String> out = new LinkedHashMap<>();
        faults.forEach(f -> out.putAll(f.set()));
        return out;
    }

    /** The case with all of it failed. */
    public Case apply(Case model) {
        Case out = model;
        for (Fault f : faults) {
            out = f.change().apply(out);
        }
        return out;
    }

    /** Sorts of fault in it, in words. */
    public String kinds() {
        Set<String> words =
                faults.stream().map(f -> f.kind().text()).collect(Collectors.toCollection(LinkedHashSet::new));
        return String.join(", ", words);
    }
}
