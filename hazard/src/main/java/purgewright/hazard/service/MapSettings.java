package purgewright.hazard.service;

import java.util.List;
import purgewright.sealflow.model.Case;
import purgewright.sealflow.model.Cavity;
import purgewright.sealflow.model.Role;

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

    /**
     * The map people ask for first: pressure of the first purge supply against the back pressure of the first vent, from well below
     * to well above what the case states; null when it states no such pair.
     */
    public static MapSettings usual(Case model) {
        Cavity supply = first(model, Role.SUPPLY);
        Cavity vent = first(model, Role.VENT);
        if (supply == null || vent == null) {
            return null;
        }
        return new MapSettings(
                "/cavities/" + supply.name() + "/pressure",
                0.1 * supply.pressure(),
                1.8 * supply.pressure(),
                "/cavities/" + vent.name() + "/pressure",
                0.5 * Math.min(vent.pressure(), model.surroundings().pressure()),
                6 * vent.pressure(),
                21,
                List.of());
    }

    private static Cavity first(Case model, Role role) {
        return model.cavities().stream()
                .filter(c -> c.fixed() && c.role() == role && !c.name().contains("/"))
                .findFirst()
                .orElse(null);
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
