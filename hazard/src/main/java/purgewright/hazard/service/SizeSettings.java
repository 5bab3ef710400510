package purgewright.hazard.service;

import java.util.List;
import purgewright.hazard.sizing.LeastPurge;

/**
 * How the purge is sized.
 *
 * @param parameter pointer of what is free, for instance {@code /cavities/bottle line/pressure}; empty: the pressure of the first inert
 *     source
 * @param lower bound, SI; NaN: a tenth of the stated value, and above the surroundings for a pressure
 * @param upper bound, SI; NaN: three times the stated value
 * @param margin every criterion must keep, 0 to just meet it
 * @param worn also with all barrier seals worn: at their stated worn clearance, else at the clearance factor
 * @param extremes also with every working boundary pressure at its high end
 * @param wear find the wear limits too
 * @param search of the least value
 * @param phases names of the duty phases to look at; empty means all
 */
public record SizeSettings(
        String parameter,
        double lower,
        double upper,
        double margin,
        boolean worn,
        boolean extremes,
        boolean wear,
        LeastPurge.Settings search,
        List<String> phases) {

    /** The set pressure; as stated, worn and at high boundary pressures; criteria just met. */
    public static final SizeSettings DEFAULT =
            new SizeSettings("", Double.NaN, Double.NaN, 0, true, true, true, LeastPurge.Settings.DEFAULT, List.of());

    /** The same for another free parameter. */
    public SizeSettings withParameter(String pointer, double low, double high) {
        return new SizeSettings(pointer, low, high, margin, worn, extremes, wear, search, phases);
    }

    /** The same with another margin. */
    public SizeSettings withMargin(double value) {
        return new SizeSettings(parameter, lower, upper, value, worn, extremes, wear, search, phases);
    }

    /** The same with or without worn seals and high boundary pressures. */
    public SizeSettings withScenarios(boolean wornSeals, boolean highBoundaries) {
        return new SizeSettings(parameter, lower, upper, margin, wornSeals, highBoundaries, wear, search, phases);
    }

    /** The same with or without wear limits. */
    public SizeSettings withWear(boolean value) {
        return new SizeSettings(parameter, lower, upper, margin, worn, extremes, value, search, phases);
    }

    /** The same for some phases only. */
    public SizeSettings withPhases(List<String> names) {
        return new SizeSettings(parameter, lower, upper, margin, worn, extremes, wear, search, List.copyOf(names));
    }
}
