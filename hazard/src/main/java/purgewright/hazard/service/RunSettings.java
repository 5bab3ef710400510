package purgewright.hazard.service;

import java.util.List;
import java.util.Map;
import purgewright.sealflow.campaign.Channel;

/**
 * How a duty is run.
 *
 * @param phases names of the duty phases to run; empty means all
 * @param pointsPerPhase least number of moments looked at in a phase that moves (ramps, histories)
 * @param resolution relative change of purge flow or supply pressure from one moment to the next that halves the step
 * @param transients follow the cavities' volumes where a phase shuts or opens a valve
 * @param judge look at every criterion at every moment; false for consumption alone
 * @param cavities all cavities and passages as channels too, not only the barriers and the supply
 * @param bottles measured pressure and temperature of each bank at the start, in their order; empty: as filled
 * @param measured channels of a test to lay over the prediction
 * @param histories boundary values over the time of a phase, by its name; each replaces the phase's own history
 */
public record RunSettings(
        List<String> phases,
        int pointsPerPhase,
        double resolution,
        boolean transients,
        boolean judge,
        boolean cavities,
        List<BottleReading> bottles,
        List<Channel> measured,
        Map<String, List<Channel>> histories) {
    /** Eight points draw a ramp; 3 per cent a step keeps the sum of the gas within a thousandth. */
    public static final RunSettings DEFAULT =
            new RunSettings(List.of(), 8, 0.03, true, true, true, List.of(), List.of(), Map.of());

    /** Checks. */
    public RunSettings {
        if (pointsPerPhase < 2 || !(resolution > 0)) {
            throw new IllegalArgumentException("points per phase " + pointsPerPhase + " must be at least 2, resolution "
                    + resolution + " above 0");
        }
        phases = List.copyOf(phases);
        bottles = List.copyOf(bottles);
        measured = List.copyOf(measured);
        histories = Map.copyOf(histories);
    }

    /** What a gauge on a bank shows: pressure, Pa absolute; temperature, K. */
    public record BottleReading(double pressure, double temperature) {}

    /** The same for some phases only. */
    public RunSettings withPhases(List<String> names) {
        return new RunSettings(
                names, pointsPerPhase, resolution, transients, judge, cavities, bottles, measured, histories);
    }

    /** The same for consumption alone, or with every criterion. */
    public RunSettings withJudge(boolean value) {
        return new RunSettings(
                phases, pointsPerPhase, resolution, transients, value, cavities, bottles, measured, histories);
    }

    /** The same with or without the volumes' transients. */
    public RunSettings withTransients(boolean value) {
        return new RunSettings(
                phases, pointsPerPhase, resolution, value, judge, cavities, bottles, measured, histories);
    }

    /** The same with another number of points. */
    public RunSettings withPoints(int value) {
        return new RunSettings(phases, value, resolution, transients, judge, cavities, bottles, measured, histories);
    }

    /** The same from measured bottles. */
    public RunSettings withBottles(List<BottleReading> readings) {
        return new RunSettings(
                phases, pointsPerPhase, resolution, transients, judge, cavities, readings, measured, histories);
    }

    /** The same with measured channels laid over. */
    public RunSettings withMeasured(List<Channel> channels) {
        return new RunSettings(
                phases, pointsPerPhase, resolution, transients, judge, cavities, bottles, channels, histories);
    }

    /** The same with histories of phases. */
    public RunSettings withHistories(Map<String, List<Channel>> byPhase) {
        return new RunSettings(
                phases, pointsPerPhase, resolution, transients, judge, cavities, bottles, measured, byPhase);
    }
}
