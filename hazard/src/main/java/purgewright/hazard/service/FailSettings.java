package purgewright.hazard.service;

import java.util.List;

/**
 * How a fault sweep is run.
 *
 * @param pairs all pairs of single faults too, beside what the case asks for
 * @param times run the lost singles over time; else only the bound from stored gas is given (pairs always have the bound alone)
 * @param phases names of the duty phases to look at; empty means all
 */
public record FailSettings(boolean pairs, boolean times, List<String> phases) {
    /** Singles in every phase, with times; pairs only when the case asks for them. */
    public static final FailSettings DEFAULT = new FailSettings(false, true, List.of());

    /** The same with pairs, or without. */
    public FailSettings withPairs(boolean value) {
        return new FailSettings(value, times, phases);
    }

    /** The same with runs over time, or without. */
    public FailSettings withTimes(boolean value) {
        return new FailSettings(pairs, value, phases);
    }

    /** The same for some phases only. */
    public FailSettings withPhases(List<String> names) {
        return new FailSettings(pairs, times, List.copyOf(names));
    }
}
