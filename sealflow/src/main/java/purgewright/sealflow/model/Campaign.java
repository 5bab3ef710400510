package purgewright.sealflow.model;

import java.util.List;

/**
 * What the gas must last for. SI; money in the case's currency; NaN where the case says nothing.
 *
 * @param attempts runs to be made, at least 1; an aborted one is made again
 * @param attemptsPerDay whole number; NaN when not stated
 * @param abortProbability of one attempt, 0 to 1
 * @param phases of the duty that one attempt goes through, in order; empty: all
 * @param afterAbort phases that make safe after an abort, in order; empty: the last phase of an attempt
 * @param phaseSpread share by which a phase may last longer or shorter than stated, 0 to 1
 * @param holds waiting times with purge on
 * @param leakChecks gas that a test of tightness takes
 * @param reserve share of the gas kept back, 0 to 1
 * @param currency three letters or a sign; empty when no money is stated
 * @param gasPrice by mass, 1/kg
 * @param bottlePrice of one filled bottle
 * @param bottleRental of one bottle, 1/s
 * @param rentalTime for which the bottles are kept, s
 */
public record Campaign(
        int attempts,
        double attemptsPerDay,
        double abortProbability,
        List<String> phases,
        List<String> afterAbort,
        double phaseSpread,
        List<Hold> holds,
        List<LeakCheck> leakChecks,
        double reserve,
        String currency,
        double gasPrice,
        double bottlePrice,
        double bottleRental,
        double rentalTime) {

    /**
     * A waiting time with purge on.
     *
     * @param name as in the case
     * @param duration s, the likeliest
     * @param shortest s; NaN: the duration
     * @param longest s; NaN: the duration
     * @param phase of the duty whose purge flow it takes; null: the first
     * @param perAttempt true when it comes with each attempt, false when once a campaign
     */
    public record Hold(
            String name, double duration, double shortest, double longest, String phase, boolean perAttempt) {}

    /**
     * A test of tightness with the purge gas.
     *
     * @param name as in the case
     * @param gas that it takes, kg
     * @param every attempt, day or campaign
     */
    public record LeakCheck(String name, double gas, Every every) {}

    /** How often something comes. */
    public enum Every {
        ATTEMPT,
        DAY,
        CAMPAIGN
    }
}
