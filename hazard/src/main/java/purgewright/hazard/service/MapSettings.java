package purgewright.hazard.service;

import java.util.List;
import purgewright.hazard.sizing.Parameter;
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
     * The map people ask for first: pressure of the first purge supply against the back pressure of the first vent, each over {@link
     * #usual(Case, String)}; null when the case states no such pair.
     */
    public static MapSettings usual(Case model) {
        Cavity supply = first(model, Role.SUPPLY);
        String other = usualOther(model);
        if (supply == null || other == null) {
            return null;
        }
        String place = "/cavities/" + supply.name() + "/pressure";
        Range x = usual(model, place);
        Range y = usual(model, other);
        return new MapSettings(place, x.low(), x.high(), other, y.low(), y.high(), 21, List.of());
    }

    /** The number that is usually looked at beside the purge supply's pressure, as {@link #usual(Case)} says; null where there is none. */
    public static String usualOther(Case model) {
        Cavity vent = first(model, Role.VENT);
        return vent == null ? null : "/cavities/" + vent.name() + "/pressure";
    }

    /**
     * A range to look at.
     *
     * @param low SI
     * @param high SI
     */
    public record Range(double low, double high) {}

    /**
     * The usual range of a number of the case, around what it states: of a vent's pressure from half of it, or of the surroundings, to six
     * times it; of a clearance from a fifth to four times it; of anything else from a tenth to nearly twice it.
     */
    public static Range usual(Case model, String place) {
        Parameter p = Parameter.of(model, place);
        double value = p.get(model);
        boolean everyPhase = p.phase().isEmpty();
        if (everyPhase
                && p.section().equals("cavities")
                && model.cavity(p.name()).role() == Role.VENT) {
            return new Range(0.5 * Math.min(value, model.surroundings().pressure()), 6 * value);
        }
        return everyPhase && p.field().equals("clearance")
                ? new Range(0.2 * value, 4 * value)
                : new Range(0.1 * value, 1.8 * value);
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
