package purgewright.hazard.service;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import purgewright.hazard.finding.Finding;
import purgewright.hazard.finding.Verdict;
import purgewright.sealflow.casefile.CaseDocument;
import purgewright.sealflow.network.SolveResult.Converged;

/**
 * What differs between two checks: an older case and the one at hand. Both were solved by the same engine, so that a difference is one of
 * the cases.
 *
 * @param inputs every value that was added, taken away or typed differently
 * @param results pressures, temperatures, flows and purge that moved by more than {@link #SEEN}
 * @param findings findings whose verdict changed, that came or went, or whose margin moved by more than {@link #MARGIN}
 */
public record Comparison(
        CheckResult before,
        CheckResult after,
        List<InputChange> inputs,
        List<ResultChange> results,
        List<FindingChange> findings) {
    /** Relative change that is reported [invented: below it the digits of a report would not differ]. */
    public static final double SEEN = 1e-4;

    /** Change of a margin that is reported, absolute [invented: a report shows whole percents]. */
    public static final double MARGIN = 0.005;

    /**
     * @param pointer place
     * @param before as typed; null when it was not there
     * @param after as typed; null when it is gone
     */
    public record InputChange(String pointer, String before, String after) {}

    /**
     * @param phase name
     * @param place JSON Pointer
     * @param quantity "pressure", "temperature", "flow", "gap"
     * @param unit SI symbol
     * @param before NaN when there was none
     * @param after NaN when there is none
     */
    public record ResultChange(String phase, String place, String quantity, String unit, double before, double after) {}

    /** One of the two is null when the finding came or went. */
    public record FindingChange(Finding before, Finding after) {
        /** The one that is there, the newer first. */
        public Finding any() {
            return after == null ? before : after;
        }

        /** True when the word changed, or it came or went. */
        public boolean verdictChanged() {
            return before == null || after == null || before.verdict() != after.verdict();
        }
    }

    /** Compares; neither result is changed. */
    public static Comparison of(CheckResult before, CheckResult after) {
        return new Comparison(
                before,
                after,
                inputs(before.document(), after.document()),
                results(before, after),
                findings(before.findings(), after.findings()));
    }

    /** Whether the whole's word changed. */
    public boolean verdictChanged() {
        return before.verdict() != after.verdict();
    }

    private static List<InputChange> inputs(CaseDocument before, CaseDocument after) {
        Map<String, String> old = new LinkedHashMap<>();
        Map<String, String> now = new LinkedHashMap<>();
        flatten(before, "", old);
        flatten(after, "", now);
        Set<String> places = new LinkedHashSet<>(now.keySet());
        places.addAll(old.keySet());
        List<InputChange> changes = new ArrayList<>();
        for (String place : places) {
            String a = old.get(place);
            String b = now.get(place);
            if (a == null || !a.equals(b)) {
                changes.add(new InputChange(place, a, b));
            }
        }
        return List.copyOf(changes);
    }

    private static void flatten(CaseDocument document, String at, Map<String, String> into) {
        List<String> children = document.children(at);
        for (String child : children) {
            flatten(document, at + "/" + child.replace("~", "~0").replace("/", "~1"), into);
        }
        if (children.isEmpty() && !at.isEmpty()) {
            // An empty object or array is a statement too.
            into.put(at, document.text(at).orElseGet(() -> document.json(at).orElse("")));
        }
    }

    private static List<ResultChange> results(CheckResult before, CheckResult after) {
        Map<String, Double> old = values(before);
        Map<String, Double> now = values(after);
        Set<String> keys = new LinkedHashSet<>(now.keySet());
        keys.addAll(old.keySet());
        List<ResultChange> changes = new ArrayList<>();
        for (String key : keys) {
            double a = old.getOrDefault(key, Double.NaN);
            double b = now.getOrDefault(key, Double.NaN);
            boolean both = !Double.isNaN(a) && !Double.isNaN(b);
            boolean neither = Double.isNaN(a) && Double.isNaN(b);
            if (neither || (both && Math.abs(b - a) <= SEEN * Math.max(Math.abs(a), Math.abs(b)))) {
                continue;
            }
            String[] parts = key.split("\n", -1);
            changes.add(new ResultChange(parts[0], parts[1], parts[2], parts[3], a, b));
        }
        return List.copyOf(changes);
    }

    /** By phase, place, quantity and unit, in the order of the result. */
    private static Map<String, Double> values(CheckResult check) {
        Map<String, Double> values = new LinkedHashMap<>();
        for (CheckResult.PhaseResult phase : check.phases()) {
            Double purge =
                    check.purge() == null ? null : check.purge().flowByPhase().get(phase.name());
            if (purge != null) {
                values.put(phase.name() + "\n\npurge\nkg/s", purge);
            }
            if (!(phase.solve() instanceof Converged converged)) {
                continue;
            }
            converged.cavities().values().forEach(c -> {
                String place = phase.name() + "\n/cavities/" + c.name();
                values.put(place + "\npressure\nPa", c.state().pressure());
                values.put(place + "\ntemperature\nK", c.state().temperature());
            });
            converged.passages().values().forEach(p -> {
                String place = phase.name() + "\n/passages/" + p.name();
                values.put(place + "\nflow\nkg/s", p.flow().massFlow());
                if (p.gap() != null) {
                    values.put(place + "\ngap\nm", p.gap().mean());
                }
            });
        }
        return values;
    }

    private static List<FindingChange> findings(List<Finding> before, List<Finding> after) {
        Map<String, Finding> old = new LinkedHashMap<>();
        before.forEach(f -> old.putIfAbsent(f.id() + "\n" + f.scenario(), f));
        List<FindingChange> changes = new ArrayList<>();
        Set<String> seen = new LinkedHashSet<>();
        for (Finding f : after) {
            String key = f.id() + "\n" + f.scenario();
            if (!seen.add(key)) {
                continue;
            }
            Finding was = old.remove(key);
            if (was == null || was.verdict() != f.verdict() || Math.abs(was.margin() - f.margin()) > MARGIN) {
                changes.add(new FindingChange(was, f));
            }
        }
        old.values().forEach(f -> changes.add(new FindingChange(f, null)));
        // What changed its word first; then by how bad it is now.
        changes.sort((a, b) -> {
            int word = Boolean.compare(b.verdictChanged(), a.verdictChanged());
            return word != 0 ? word : verdict(a).compareTo(verdict(b));
        });
        return List.copyOf(changes);
    }

    private static Verdict verdict(FindingChange change) {
        return change.any().verdict();
    }
}
