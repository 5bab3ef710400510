package purgewright.hazard.service;

import java.util.List;

/**
 * A sweep over one or two numbers of a case.
 *
 * @param axes one or two
 * @param phases names of the duty phases to look at; empty means all
 * @param outputs places of the quantities to follow; empty means the usual ones
 */
public record SweepSettings(List<Axis> axes, List<String> phases, List<String> outputs) {
    /** Points of a sweep; more is a slip of the finger, not a picture. */
    public static final int MOST_POINTS = 40_000;

    /** Checks and copies. */
    public SweepSettings {
        axes = List.copyOf(axes);
        phases = List.copyOf(phases);
        outputs = List.copyOf(outputs);
        long points = 1;
        for (Axis a : axes) {
            points *= a.points();
        }
        if (axes.isEmpty() || axes.size() > 2 || points > MOST_POINTS) {
            throw new IllegalArgumentException(
                    "a sweep goes over one or two numbers and at most " + MOST_POINTS + " points");
        }
        if (axes.size() == 2 && axes.get(0).place().equals(axes.get(1).place())) {
            throw new IllegalArgumentException("both axes are " + axes.get(0).place());
        }
    }

    /**
     * @param place JSON Pointer
     * @param low SI
     * @param high SI
     * @param points at least 2, both ends among them
     */
    public record Axis(String place, double low, double high, int points) {
        /** Checks. */
        public Axis {
            if (points < 2 || !(high > low) || !Double.isFinite(low) || !Double.isFinite(high)) {
                throw new IllegalArgumentException("an axis needs at least 2 points and a range that rises; " + place
                        + " has " + points + " points from " + low + " to " + high);
            }
        }
    }
}
