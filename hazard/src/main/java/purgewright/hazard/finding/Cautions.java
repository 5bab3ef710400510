package purgewright.hazard.finding;

import java.util.List;

/** What is said beside every result, once. */
public final class Cautions {
    /** The standing cautions, shown wherever a result is shown. */
    public static final List<String> ALWAYS = List.of(
            "A screening calculation: it does not replace a test or a hazard review.",
            "Design, test and operation follow the local codes, the oxygen and hydrogen safety standards, and licensed practice.",
            "Limits are defaults unless the case states its own; each finding names where its limit comes from.");

    private Cautions() {}
}
