package purgewright.hazard.service;

import java.util.List;
import purgewright.hazard.service.RunSettings.BottleReading;

/**
 * How a campaign is planned.
 *
 * @param samples campaigns played for the distribution; 0: none
 * @param seed of the random numbers; results do not depend on the threads
 * @param readings measured pressure and temperature of each bank, for "can we go again"; empty: not asked
 * @param redline look for the bottle pressure at which the first criterion is lost
 */
public record PlanSettings(int samples, long seed, List<BottleReading> readings, boolean redline) {
    /** 10,000 campaigns put the 95th percentile within half a per cent of its rank. */
    public static final PlanSettings DEFAULT = new PlanSettings(10_000, 1, List.of(), true);

    /** Checks. */
    public PlanSettings {
        if (samples < 0) {
            throw new IllegalArgumentException("samples " + samples + " is below 0");
        }
        readings = List.copyOf(readings);
    }

    /** The same with other samples and seed. */
    public PlanSettings withSamples(int number, long start) {
        return new PlanSettings(number, start, readings, redline);
    }

    /** The same with measured bottles. */
    public PlanSettings withReadings(List<BottleReading> bottles) {
        return new PlanSettings(samples, seed, bottles, redline);
    }

    /** The same with or without the search for the redline. */
    public PlanSettings withRedline(boolean value) {
        return new PlanSettings(samples, seed, readings, value);
    }
}
