package purgewright.hazard.deficiency;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import purgewright.hazard.deficiency.RoomOxygen.Fan;
import purgewright.sealflow.model.Case;

/**
 * Oxygen in the case's room over the duty, phase after phase, well mixed; the fan counts as extracting.
 *
 * @param samples ascending in time, the ends of every phase among them
 * @param alarm oxygen at which the case's alarm sounds, 19.5 % where none is stated
 * @param alarmAt when it first does, s; NaN when never
 * @param dangerousAt when the oxygen first is below 18 %, s; NaN when never
 */
public record RoomHistory(List<Sample> samples, double alarm, double alarmAt, double dangerousAt) {
    private static final double GAS_CONSTANT = 8.314462618;
    private static final int PER_PHASE = 40;
    /** How long a phase without a duration is looked at, in air changes of the room by release and fan together. */
    private static final double CHANGES = 10;

    /**
     * @param time s from the start of the duty
     * @param phase name
     * @param oxygen volume fraction
     */
    public record Sample(double time, String phase, double oxygen) {}

    /**
     * A phase as the room sees it.
     *
     * @param name of the phase
     * @param duration s; NaN for ever
     * @param moles gas that runs into each vent, mol/s, by vent
     */
    public record Phase(String name, double duration, Map<String, Double> moles) {}

    /** Oxygen at the end, volume fraction. */
    public double last() {
        return samples.get(samples.size() - 1).oxygen();
    }

    /**
     * Follows the room.
     *
     * @param start oxygen at first, volume fraction
     * @return null when the case states no room
     */
    public static RoomHistory of(Case model, List<Phase> phases, double start) {
        if (!(model.extras().get("room") instanceof Map<?, ?> room)
                || !(number(room.get("volume"), Double.NaN) > 0)
                || phases.isEmpty()) {
            return null;
        }
        double volume = number(room.get("volume"), Double.NaN);
        double ventilation = number(room.get("ventilation"), 0);
        double temperature =
                number(room.get("temperature"), model.surroundings().temperature());
        double alarm = number(room.get("oxygen alarm"), RoomOxygen.DEFICIENT);
        RoomOxygen oxygen =
                new RoomOxygen(volume, ventilation, ventilation > 0 ? Fan.EXTRACTED : Fan.NONE, Release.FRESH);
        List<Sample> samples = new ArrayList<>();
        double time = 0;
        double at = start;
        double alarmAt = Double.NaN;
        double dangerousAt = Double.NaN;
        samples.add(new Sample(0, phases.get(0).name(), at));
        for (Phase phase : phases) {
            double total = 0;
            for (Map.Entry<String, Double> e : phase.moles().entrySet()) {
                boolean mine =
                        !(room.get("vents") instanceof List<?> vents) || vents.isEmpty() || vents.contains(e.getKey());
                total += mine ? Math.max(0, e.getValue()) : 0;
            }
            double release =
                    total * GAS_CONSTANT * temperature / model.surroundings().pressure();
            double duration = phase.duration() > 0 && Double.isFinite(phase.duration())
                    ? phase.duration()
                    : release + ventilation > 0 ? CHANGES * volume / (release + ventilation) : 0;
            double before = at;
            for (int i = 1; i <= PER_PHASE; i++) {
                double t = duration * i / PER_PHASE;
                double now = oxygen.from(before, t, release);
                alarmAt = first(alarmAt, samples, time + t, now, alarm);
                dangerousAt = first(dangerousAt, samples, time + t, now, RoomOxygen.DANGEROUS);
                samples.add(new Sample(time + t, phase.name(), now));
                at = now;
            }
            time += duration;
        }
        return new RoomHistory(List.copyOf(samples), alarm, alarmAt, dangerousAt);
    }

    /** When a level is first passed downwards, by a straight line between samples. */
    private static double first(double known, List<Sample> samples, double time, double now, double level) {
        if (!Double.isNaN(known)) {
            return known;
        }
        Sample last = samples.get(samples.size() - 1);
        if (last.oxygen() < level) {
            return last.time();
        }
        return now < level
                ? last.time() + (time - last.time()) * (last.oxygen() - level) / (last.oxygen() - now)
                : Double.NaN;
    }

    private static double number(Object value, double otherwise) {
        return value instanceof Number n ? n.doubleValue() : otherwise;
    }
}
