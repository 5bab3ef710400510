package purgewright.hazard.service;

import java.util.List;

/**
 * How a check is run.
 *
 * @param phases names of the duty phases to look at; empty means all
 * @param strict a thin verdict counts as falling short in the exit code
 */
public record CheckSettings(List<String> phases, boolean strict) {
    /** All phases; thin passes, as the design of the commands has it. */
    public static final CheckSettings DEFAULT = new CheckSettings(List.of(), false);

    /** The same for some phases only. */
    public CheckSettings withPhases(List<String> names) {
        return new CheckSettings(List.copyOf(names), strict);
    }

    /** The same with thin counted as falling short, or not. */
    public CheckSettings withStrict(boolean value) {
        return new CheckSettings(phases, value);
    }
}
