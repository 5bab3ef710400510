package purgewright.hazard.criteria;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.stream.Collectors;
import purgewright.hazard.finding.Draft;
import purgewright.hazard.finding.Finding;
import purgewright.hazard.finding.Verdict;
import purgewright.sealflow.Notice;

/**
 * What the solver wants known, as findings: a regime no model covers is not established; something that freezes falls short. A
 * correlation outside its range and an extrapolated property do not change the verdict by themselves; they are cautions of the
 * result.
 */
public final class NoticeRules {
    /** Key for a regime no model covers. */
    public static final String REGIME = "regime";

    /** Key for something that would freeze. */
    public static final String FREEZES = "freezes";

    private static final Set<Notice.Key> CAUTIONS =
            Set.of(Notice.Key.OUT_OF_RANGE, Notice.Key.EXTRAPOLATED, Notice.Key.ESTIMATE);

    private NoticeRules() {}

    /** Findings from notices. */
    public static List<Finding> judge(Setting s) {
        Map<String, Finding> out = new LinkedHashMap<>();
        for (Notice n : s.solve().notices()) {
            Finding f =
                    switch (n.key()) {
                        case NOT_ESTABLISHED ->
                            Draft.of(REGIME, n.place(), s.scene())
                                    .part(String.valueOf(n.values().get("model")))
                                    .what("No model covers the regime at " + last(n.place()) + ": "
                                            + n.values()
                                                    .getOrDefault(
                                                            "reason", n.values().get("model")))
                                    .how("as reported by the solver")
                                    .source("range of the model [its own documentation]")
                                    .mend("measured data for this place, or another geometry")
                                    .as(Verdict.NOT_ESTABLISHED);
                        case FREEZES -> {
                            double temperature =
                                    ClearanceRules.number(n.values().get("temperature"));
                            double triple = ClearanceRules.number(n.values().get("tripleTemperature"));
                            yield Draft.of(FREEZES, n.place(), s.scene())
                                    .part(String.valueOf(n.values().get("species")))
                                    .what(n.values().get("species") + " would freeze at " + last(n.place()))
                                    .unit("K")
                                    .how("temperature of the cavity against the triple point")
                                    .source("triple point of the species [published, reference equation of state]")
                                    .mend("a warmer or drier gas, or another purge gas")
                                    .as(
                                            Verdict.FALLS_SHORT,
                                            temperature,
                                            triple,
                                            Math.min((temperature - triple) / triple, -Double.MIN_NORMAL));
                        }
                        default -> null;
                    };
            if (f != null) {
                out.putIfAbsent(f.id(), f);
            }
        }
        return new ArrayList<>(out.values());
    }

    /** Cautions from notices, one line a kind and model, sorted. */
    public static List<String> cautions(List<Notice> notices) {
        Map<String, List<String>> places = new TreeMap<>();
        for (Notice n : notices) {
            if (!CAUTIONS.contains(n.key())) {
                continue;
            }
            String text =
                    switch (n.key()) {
                        case OUT_OF_RANGE ->
                            "Outside the range of " + n.values().get("model") + " ("
                                    + n.values().get("quantity") + ")";
                        case EXTRAPOLATED ->
                            "Properties of " + n.values().get("fluid")
                                    + " are used outside the range of their equation";
                        default ->
                            "Estimated constant in use: " + n.values().get("model") + ", " + named(n) + amount(n);
                    };
            places.computeIfAbsent(text, k -> new ArrayList<>()).add(last(n.place()));
        }
        return places.entrySet().stream()
                .map(e -> {
                    List<String> where = e.getValue().stream()
                            .filter(w -> !w.isEmpty())
                            .distinct()
                            .sorted()
                            .collect(Collectors.toList());
                    return where.isEmpty() ? e.getKey() + "." : e.getKey() + ": " + String.join(", ", where) + ".";
                })
                .toList();
    }

    /** Value and origin of an estimated constant, where the notice says both. */
    /** What is estimated; a film's thickness and a face's closing force with their values, which is what one wants to know of them. */
    private static String named(Notice n) {
        String constant = String.valueOf(n.values().get("constant"));
        if (!(n.values().get("value") instanceof Double value)) {
            return constant;
        }
        if (constant.endsWith(" radius, m")) {
            return constant.replaceFirst(", m$", String.format(Locale.ROOT, " %.4g mm", 1e3 * value));
        }
        return constant.matches(".*(force|face|speed|difference), (N|rad/s|Pa)")
                ? constant.replaceFirst(", (\\S+)$", String.format(Locale.ROOT, " %.3g $1", value))
                : constant.matches(".* gap, m\\b.*")
                        ? constant.replaceFirst(", m\\b", String.format(Locale.ROOT, " %.3g um", 1e6 * value))
                        : constant;
    }

    private static String amount(Notice n) {
        return n.values().get("origin") instanceof String origin && n.values().get("value") instanceof Double value
                ? String.format(Locale.ROOT, " %.3g (%s)", value, origin)
                : "";
    }

    private static String last(String place) {
        return place.substring(place.lastIndexOf('/') + 1);
    }
}
