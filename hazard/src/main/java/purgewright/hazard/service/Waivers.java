package purgewright.hazard.service;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import purgewright.hazard.finding.Finding;
import purgewright.sealflow.model.Case;

/** Waivers of a case: shown with the finding they accept, never hiding it and never changing its verdict. */
final class Waivers {
    private Waivers() {}

    static List<Finding> apply(Case model, List<Finding> findings) {
        if (!(model.extras().get("waivers") instanceof List<?> waivers)) {
            return findings;
        }
        List<Finding> out = new ArrayList<>();
        for (Finding f : findings) {
            String note = "";
            for (Object each : waivers) {
                if (each instanceof Map<?, ?> w && f.id().equals(w.get("finding"))) {
                    note = "accepted by " + w.get("by") + " on " + w.get("date") + ": " + w.get("reason")
                            + "; the verdict stands";
                }
            }
            out.add(note.isEmpty() ? f : f.withCaution(f.caution().isEmpty() ? note : f.caution() + "; " + note));
        }
        return out;
    }
}
