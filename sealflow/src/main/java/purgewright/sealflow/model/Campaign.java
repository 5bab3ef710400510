package purgewright.sealflow.model;

import java.util.List;

/**
 * What the gas must last for. SI; money in the case's currency; NaN where the case says nothing.
 *
 * @param attempts runs to be made, at least 1
 * @param attemptsPerDay whole number; NaN when not stated
 * @param abortProbability of one attempt, 0 to 1
 * @param phases of the duty that one attempt goes through, in order; empty: all
 * @param holds waiting times with purge on
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
        List<Hold> holds,
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
     * @param duration s
     * @param phase of the duty whose purge flow it takes; null: the first
     * @param perAttempt true when it comes with each attempt, false when once a campaign
     */
    public record Hold(String name, double duration, String phase, boolean perAttempt) {}
}
