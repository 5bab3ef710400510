package purgewright.hazard.criteria;

import java.util.List;
import purgewright.hazard.finding.Finding;

/** Judges one thing at one solved operating point. Stateless. */
@FunctionalInterface
public interface Rule {
    /**
     * Findings, in any order; empty when the rule does not apply.
     *
     * @throws purgewright.fluids.PropertyException when a property it needs cannot be given; the judge makes "not established" of it
     */
    List<Finding> judge(Setting setting);
}
