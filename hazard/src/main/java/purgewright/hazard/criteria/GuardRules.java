package purgewright.hazard.criteria;

import java.util.ArrayList;
import java.util.List;
import purgewright.hazard.finding.Draft;
import purgewright.hazard.finding.Finding;
import purgewright.hazard.finding.Verdict;
import purgewright.sealflow.network.SelfCheck;

/**
 * A result that contradicts itself establishes nothing, whatever its numbers say. Looked at for every judged point; a sound result gets
 * no finding.
 */
public final class GuardRules {
    /** Key. */
    public static final String CONTRADICTION = "self-check";

    private GuardRules() {}

    /** One finding for each law that is broken. */
    public static List<Finding> judge(Setting s) {
        List<Finding> out = new ArrayList<>();
        for (SelfCheck.Contradiction c : SelfCheck.of(s.model(), s.solve())) {
            out.add(Draft.of(CONTRADICTION, c.place(), s.scene())
                    .part(c.law())
                    .what("The result contradicts itself at "
                            + c.place().substring(c.place().lastIndexOf('/') + 1) + ": " + c.words())
                    .how("recomputed from the result's own states and flows; found " + c.value() + ", believed "
                            + c.limit())
                    .source("conservation, second law, definition of the state [definition]")
                    .mend("not yours to mend: keep the case and report it; nothing here is to be used")
                    .as(Verdict.NOT_ESTABLISHED));
        }
        return out;
    }
}
