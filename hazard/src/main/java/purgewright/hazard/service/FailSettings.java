package purgewright.hazard.service;

import java.util.List;

/**
 * How a fault sweep is run.
 *
 * @param pairs all pairs of single faults too, beside what the case asks for
 * @param phases names of the duty phases to look at; empty means all
 */
public record FailSettings(boolean pairs, List<String> phases) {
    /** Singles in every phase; pairs only when the case asks for them. */
    public static final FailSettings DEFAULT = new FailSettings(false, List.of());

    /** The same with pairs, or without. */
    public FailSettings withPairs(boolean value) {
        return new FailSettings(value, phases);
    }

    /** The same for some phases only. */
    public FailSettings withPhases(List<String> names) {
        return new FailSettings(pairs, List.copyOf(names));
    }
}
