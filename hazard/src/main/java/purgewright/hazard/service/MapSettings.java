package purgewright.hazard.service;

import java.util.List;

/**
 * A two-parameter sweep.
 *
 * @param x pointer of the first parameter
 * @param lowX SI
 * @param highX SI
 * @param y pointer of the second parameter
 * @param lowY SI
 * @param highY SI
 * @param points along each side, at least 2
 * @param phases names of the duty phases to look at; empty means all
 */
public record MapSettings(
        String x, double lowX, double highX, String y, double lowY, double highY, int points, List<String> phases) {
    /** Checks. */
    public MapSettings {
        if (points < 2 || !(highX > lowX) || !(highY > lowY)) {
            throw new IllegalArgumentException("a map needs at least 2 points a side and bounds in order; points "
                    + points + ", x " + lowX + " to " + highX + ", y " + lowY + " to " + highY);
        }
        phases = List.copyOf(phases);
    }
}
