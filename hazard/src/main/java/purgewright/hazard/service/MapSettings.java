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
 * @param points of the survey along each side, at least 2
 * @param resolution share of a side to which boundaries are found; 0 for the survey alone
 * @param worn also with all barrier seals worn
 * @param extremes also with working boundary pressures at their ends
 * @param phases names of the duty phases to look at; empty means all
 */
public record MapSettings(
        String x,
        double lowX,
        double highX,
        String y,
        double lowY,
        double highY,
        int points,
        double resolution,
        boolean worn,
        boolean extremes,
        List<String> phases) {
    /** As fine as a grid of 200 x 200. */
    public static final double FINE = 1 / 200.0;

    /** Checks. */
    public MapSettings {
        if (points < 2 || !(highX > lowX) || !(highY > lowY) || !(resolution >= 0)) {
            throw new IllegalArgumentException("a map needs at least 2 points a side and bounds in order; points "
                    + points + ", x " + lowX + " to " + highX + ", y " + lowY + " to " + highY);
        }
        phases = List.copyOf(phases);
    }

    /** Seals as stated, boundaries followed. */
    public MapSettings(
            String x, double lowX, double highX, String y, double lowY, double highY, int points, List<String> phases) {
        this(x, lowX, highX, y, lowY, highY, points, FINE, false, false, phases);
    }

    /** The same with another resolution. */
    public MapSettings withResolution(double value) {
        return new MapSettings(x, lowX, highX, y, lowY, highY, points, value, worn, extremes, phases);
    }

    /** The same with or without worn seals and extreme boundary pressures. */
    public MapSettings withScenarios(boolean wornSeals, boolean extremeBoundaries) {
        return new MapSettings(
                x, lowX, highX, y, lowY, highY, points, resolution, wornSeals, extremeBoundaries, phases);
    }
}
