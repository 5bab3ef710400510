package purgewright.hazard.service;

import java.util.List;
import java.util.Map;

/**
 * A campaign of attempts: what has to be ordered, when it is swapped, what it costs. SI; NaN where there is none.
 *
 * @param complete false when it was cancelled: the distribution then rests on fewer samples than asked for
 * @param gas library name of the gas
 * @param use what one attempt takes
 * @param supply what the bank gives
 * @param events the sequence without aborts and with the durations stated: the calendar
 * @param order bottles for that sequence
 * @param spread over aborts and durations; null when the case states neither
 * @param again answer to "can we go again"; null when it was not asked
 * @param alternatives other ways of supply that the case states
 * @param unestablished why it is not established that the supply is enough, one reason an entry; empty when it is known either way
 * @param notes what the reader has to know
 */
public record PlanResult(
        boolean complete,
        String gas,
        Use use,
        SupplyUse supply,
        List<PlanEvent> events,
        Order order,
        Spread spread,
        Again again,
        List<Alternative> alternatives,
        List<String> unestablished,
        List<String> notes) {

    /**
     * Gas of one attempt.
     *
     * @param byPhase kg, phases of one attempt in order, then holds and leak checks by name
     * @param perAttempt all of them that come with each attempt, kg
     * @param perCampaign what comes once, kg
     * @param duration of one attempt with its holds, s
     * @param peakFlow kg/s
     * @param elsewhere what other fixed cavities of inert gas give besides in one attempt with its holds, kg by cavity: not drawn from the
     *     supply, and in none of the other figures
     */
    public record Use(
            Map<String, Double> byPhase,
            double perAttempt,
            double perCampaign,
            double duration,
            double peakFlow,
            Map<String, Double> elsewhere) {}

    /**
     * What the bank gives.
     *
     * @param bottles in the bank
     * @param banks switched one after the other
     * @param filling of the whole bank, kg
     * @param usable of the whole bank, drawn in one go as one attempt draws, kg
     * @param leastInlet least usable bottle pressure, Pa
     * @param leastInletReason what sets it
     * @param dropout bottle pressure at which the regulator gives up at the peak flow, Pa
     * @param redline bottle pressure at which the first criterion is lost at the worst moment, Pa; NaN when not looked for
     * @param startPressure least settled pressure of a single bank that still makes a whole attempt, Pa; NaN when even a full one does not
     * @param attemptsPerBank whole attempts from a full bank without a swap
     */
    public record SupplyUse(
            int bottles,
            int banks,
            double filling,
            double usable,
            double leastInlet,
            String leastInletReason,
            double dropout,
            double redline,
            double startPressure,
            int attemptsPerBank) {}

    /**
     * One line of the calendar.
     *
     * @param day 1, 2, ...
     * @param attempt 1, 2, ...; 0 for what belongs to the campaign as a whole
     * @param what "attempt", "swap", "hold", "leak check", or "short" where the banks did not have it
     * @param detail in words
     * @param gas drawn, kg
     * @param pressures of the banks afterwards, settled, Pa
     * @param left in the banks, kg
     * @param bottles new bottles put on at this point
     */
    public record PlanEvent(
            int day,
            int attempt,
            String what,
            String detail,
            double gas,
            List<Double> pressures,
            double left,
            int bottles) {}

    /**
     * What is ordered.
     *
     * @param bottles in all, those of the first bank included
     * @param swaps number of times a bank is swapped
     * @param gasUsed kg
     * @param gasBought kg
     * @param gasReturned kg left in bottles that go back
     * @param currency empty when no price is stated
     * @param costGas NaN when no price is stated
     * @param costRental NaN when no rent is stated
     * @param cost of all that is stated; NaN when nothing is
     * @param days of the campaign
     * @param enough false when the supply as stated cannot make the campaign (the figures are then of what was played until it was given up), or
     *     is not established to
     */
    public record Order(
            int bottles,
            int swaps,
            double gasUsed,
            double gasBought,
            double gasReturned,
            String currency,
            double costGas,
            double costRental,
            double cost,
            int days,
            boolean enough) {}

    /**
     * The distribution over aborts and durations.
     *
     * @param samples number of campaigns played
     * @param seed of the random numbers
     * @param p50 bottles that are enough in half of the campaigns
     * @param p90 in nine of ten
     * @param p95 in nineteen of twenty
     * @param mean bottles
     * @param histogram number of campaigns by bottles
     * @param gas50 kg used in half of the campaigns at most
     * @param gas90 kg
     * @param gas95 kg
     * @param attempts95 attempts, aborted ones included, in nineteen of twenty campaigns at most
     * @param ranShort campaigns in which an attempt outran the banks, reserve included
     * @param unfinished campaigns given up because one attempt takes more than a full bank
     */
    public record Spread(
            int samples,
            long seed,
            int p50,
            int p90,
            int p95,
            double mean,
            Map<Integer, Integer> histogram,
            double gas50,
            double gas90,
            double gas95,
            int attempts95,
            int ranShort,
            int unfinished) {}

    /**
     * "Can we go again today?"
     *
     * @param answer yes or no
     * @param readings as given, one a bank
     * @param inBanks kg
     * @param usable kg, drawn as one attempt draws
     * @param needed for one attempt with holds, kg
     * @param reserve kept back, kg
     * @param endPressure of the bank in use at the end of one more attempt, Pa
     * @param attempts whole attempts that remain
     * @param what in words: which bank to swap when the answer is no
     */
    public record Again(
            boolean answer,
            List<RunSettings.BottleReading> readings,
            double inBanks,
            double usable,
            double needed,
            double reserve,
            double endPressure,
            int attempts,
            String what) {}

    /**
     * Another way of supply.
     *
     * @param name "plant" or "liquid"
     * @param enough whether it carries the peak flow and, for liquid, the whole campaign
     * @param quantity kg of gas, or m3 of liquid
     * @param unit "kg" or "m3"
     * @param what in words
     */
    public record Alternative(String name, boolean enough, double quantity, String unit, String what) {}
}
