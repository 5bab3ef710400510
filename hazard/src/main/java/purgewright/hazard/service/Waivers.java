package purgewright.hazard.service;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Set;
import purgewright.hazard.finding.Finding;
import purgewright.hazard.finding.Waiver;
import purgewright.sealflow.model.Case;

/** Waivers of a case: shown with the finding they accept, never hiding it and never changing its verdict. */
final class Waivers {
    private Waivers() {}

    /**
     * Waivers that name a finding of one of the phases as stated that is not there: a wrong id, or a finding that has gone. A waiver of a
     * finding under a fault ends with the fault's name and is none of these.
     */
    static List<String> idle(Case model, Set<String> phases, List<Finding> findings) {
        List<String> out = new ArrayList<>();
        if (model.extras().get("waivers") instanceof List<?> waivers) {
            for (Object each : waivers) {
                if (each instanceof Map<?, ?> w && !waiver(w).whole()) {
                    out.add("A waiver of \"" + w.get("finding")
                            + "\" lacks a name, a date or a reason: it counts for nothing.");
                } else if (each instanceof Map<?, ?> w
                        && findings.stream().noneMatch(f -> f.id().equals(w.get("finding")))) {
                    out.add("A waiver by " + w.get("by") + " of " + w.get("date") + " names \"" + w.get("finding")
                            + "\", which is no finding of this result.");
                }
            }
        }
        return out;
    }

    static List<Finding> apply(Case model, List<Finding> findings) {
        if (!(model.extras().get("waivers") instanceof List<?> waivers)) {
            return findings;
        }
        List<Finding> out = new ArrayList<>();
        for (Finding f : findings) {
            Waiver accepted = null;
            for (Object each : waivers) {
                if (each instanceof Map<?, ?> w
                        && f.id().equals(w.get("finding"))
                        && waiver(w).whole()) {
                    accepted = waiver(w);
                }
            }
            out.add(accepted == null ? f : f.withWaiver(accepted));
        }
        return out;
    }

    private static Waiver waiver(Map<?, ?> stated) {
        return new Waiver(text(stated, "by"), text(stated, "date"), text(stated, "reason"));
    }

    private static String text(Map<?, ?> stated, String key) {
        return stated.get(key) == null ? "" : String.valueOf(stated.get(key));
    }
}
