package purgewright.hazard.service;

import java.util.List;

/**
 * How a fault sweep is run.
 *
 * @param pairs all pairs of single faults too, beside what the case asks for
 * @param times run the lost singles over time; else only the bound from stored gas is given
 * @param pairRuns so many pairs, the worst of the ranking by the bound, are run over time too; the others have the bound alone
 * @param phases names of the duty phases to look at; empty means all
 */
public record FailSettings(boolean pairs, boolean times, int pairRuns, List<String> phases) {
    /** Enough to see whether the worst pairs leave time; all of them would take longer than the sweep itself [invented]. */
    public static final int PAIR_RUNS = 10;

    /** Singles in every phase, with times; pairs only when the case asks for them. */
    public static final FailSettings DEFAULT = new FailSettings(false, true, PAIR_RUNS, List.of());

    /** Checks. */
    public FailSettings {
        if (pairRuns < 0) {
            throw new IllegalArgumentException("pair runs " + pairRuns + " are below 0");
        }
        phases = List.copyOf(phases);
    }

    /** The same with pairs, or without. */
    public FailSettings withPairs(boolean value) {
        return new FailSettings(value, times, pairRuns, phases);
    }

    /** The same with runs over time, or without. */
    public FailSettings withTimes(boolean value) {
        return new FailSettings(pairs, value, pairRuns, phases);
    }

    /** The same with so many pairs run over time. */
    public FailSettings withPairRuns(int value) {
        return new FailSettings(pairs, times, value, phases);
    }

    /** The same for some phases only. */
    public FailSettings withPhases(List<String> names) {
        return new FailSettings(pairs, times, pairRuns, names);
    }
}
