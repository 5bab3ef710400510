package purgewright.hazard.criteria;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import purgewright.hazard.finding.Draft;
import purgewright.hazard.finding.Finding;
import purgewright.hazard.finding.Verdict;
import purgewright.sealflow.network.SolveResult.CavityState;

/** Whether a stream is what its definition says it is in the place where it is found. */
public final class StreamRules {
    /** Key of burnt gas hotter than the burner it is said to come from. */
    public static final String HOTTER = "hotter-than-burner";

    /** Share of a cavity's mass from which a burnt stream is looked at [invented]. */
    private static final double NOTICEABLE = 0.01;

    /** How much hotter than its burner gas may be, K: room for windage and a stated temperature's rounding [invented]. */
    private static final double ALLOWANCE = 50;

    private StreamRules() {}

    /**
     * Burnt gas keeps the composition of its burner. Where it is hotter than that burner, neither the composition nor the fixed
     * mixture of species can be right: not established.
     */
    public static List<Finding> hotterThanBurner(Setting s) {
        List<Finding> out = new ArrayList<>();
        for (CavityState c : s.solve().cavities().values()) {
            String cavity = c.name();
            for (Map.Entry<String, Double> burner : s.streams().burners().entrySet()) {
                double limit = burner.getValue() + ALLOWANCE;
                double temperature = c.state().temperature();
                if (c.streamFractions().getOrDefault(burner.getKey(), 0.0) > NOTICEABLE && !(temperature <= limit)) {
                    out.add(Draft.of(HOTTER, Setting.cavityPlace(cavity), s.scene())
                            .part(burner.getKey())
                            .what("Gas in " + cavity + " is hotter than the burner of " + burner.getKey())
                            .unit("K")
                            .how("burnt gas keeps its burner's composition; the limit is the burner's temperature and "
                                    + (int) ALLOWANCE + " K")
                            .source("project default [invented]")
                            .mend("state the mixture ratio that gives this temperature, or the gas as measured")
                            .as(Verdict.NOT_ESTABLISHED, temperature, limit, (limit - temperature) / limit));
                }
            }
        }
        return out;
    }
}
