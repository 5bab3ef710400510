package purgewright.hazard.service;

import java.util.ArrayList;
import java.util.List;
import purgewright.hazard.sizing.DesignSearch;
import purgewright.hazard.sizing.Objective;

/**
 * How the purge is sized.
 *
 * @param free values that may be chosen; empty: the pressure of the first inert source
 * @param objective what is to be least
 * @param margin every criterion must keep, 0 to just meet it
 * @param worn also with all barrier seals worn: at their stated worn clearance, else at the clearance factor
 * @param extremes also with every working boundary pressure at its high and at its low end
 * @param faults names of faults under which every criterion must be met too; {@link #ALL_FAULTS} for all that are credible
 * @param wear find the wear limits too
 * @param releases when infeasible, look for what would make it feasible
 * @param search of the design
 * @param phases names of the duty phases to look at; empty means all
 */
public record SizeSettings(
        List<Free> free,
        Objective objective,
        double margin,
        boolean worn,
        boolean extremes,
        List<String> faults,
        boolean wear,
        boolean releases,
        DesignSearch.Settings search,
        List<String> phases) {

    /** In place of a fault's name: all credible single faults. */
    public static final String ALL_FAULTS = "all";

    /** The set pressure for the least flow; as stated, worn and at extreme boundary pressures; criteria just met. */
    public static final SizeSettings DEFAULT = new SizeSettings(
            List.of(),
            Objective.GAS_FLOW,
            0,
            true,
            true,
            List.of(),
            true,
            true,
            DesignSearch.Settings.DEFAULT,
            List.of());

    /** Checks. */
    public SizeSettings {
        free = List.copyOf(free);
        faults = List.copyOf(faults);
        phases = List.copyOf(phases);
    }

    /**
     * A value that may be chosen.
     *
     * @param place JSON Pointer
     * @param lower bound, SI; NaN: a tenth of the stated value (a clearance half), and above the surroundings for a pressure
     * @param upper bound, SI; NaN: three times the stated value (a clearance twice)
     * @param list name of a drill list; empty: any value, or whole numbers where the case has a count
     */
    public record Free(String place, double lower, double upper, String list) {}

    /** The same for one free value. */
    public SizeSettings withParameter(String pointer, double low, double high) {
        return withFree(pointer.isEmpty() ? List.of() : List.of(new Free(pointer, low, high, "")));
    }

    /** The same with other free values. */
    public SizeSettings withFree(List<Free> values) {
        return new SizeSettings(values, objective, margin, worn, extremes, faults, wear, releases, search, phases);
    }

    /** The same with one more free value. */
    public SizeSettings with(Free value) {
        List<Free> more = new ArrayList<>(free);
        more.add(value);
        return withFree(more);
    }

    /** The same with another objective. */
    public SizeSettings withObjective(Objective value) {
        return new SizeSettings(free, value, margin, worn, extremes, faults, wear, releases, search, phases);
    }

    /** The same with another margin. */
    public SizeSettings withMargin(double value) {
        return new SizeSettings(free, objective, value, worn, extremes, faults, wear, releases, search, phases);
    }

    /** The same with or without worn seals and extreme boundary pressures. */
    public SizeSettings withScenarios(boolean wornSeals, boolean extremeBoundaries) {
        return new SizeSettings(
                free, objective, margin, wornSeals, extremeBoundaries, faults, wear, releases, search, phases);
    }

    /** The same with faults. */
    public SizeSettings withFaults(List<String> names) {
        return new SizeSettings(free, objective, margin, worn, extremes, names, wear, releases, search, phases);
    }

    /** The same with or without wear limits. */
    public SizeSettings withWear(boolean value) {
        return new SizeSettings(free, objective, margin, worn, extremes, faults, value, releases, search, phases);
    }

    /** The same with or without looking for what would make it feasible. */
    public SizeSettings withReleases(boolean value) {
        return new SizeSettings(free, objective, margin, worn, extremes, faults, wear, value, search, phases);
    }

    /** The same with another search. */
    public SizeSettings withSearch(DesignSearch.Settings value) {
        return new SizeSettings(free, objective, margin, worn, extremes, faults, wear, releases, value, phases);
    }

    /** The same for some phases only. */
    public SizeSettings withPhases(List<String> names) {
        return new SizeSettings(free, objective, margin, worn, extremes, faults, wear, releases, search, names);
    }
}
