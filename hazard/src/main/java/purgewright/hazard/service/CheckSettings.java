package purgewright.hazard.service;

import java.util.List;

/**
 * How a check is run.
 *
 * @param phases names of the duty phases to look at; empty means all
 * @param strict a thin verdict counts as falling short in the exit code
 * @param bounds solve at the ends of the seal models' bands too, so that a verdict that changes between them is called thin
 */
public record CheckSettings(List<String> phases, boolean strict, boolean bounds) {
    /** All phases, at the ends of the bands too; thin passes, as the design of the commands has it. */
    public static final CheckSettings DEFAULT = new CheckSettings(List.of(), false, true);

    /** With the ends of the bands. */
    public CheckSettings(List<String> phases, boolean strict) {
        this(phases, strict, true);
    }

    /** The same for some phases only. */
    public CheckSettings withPhases(List<String> names) {
        return new CheckSettings(List.copyOf(names), strict, bounds);
    }

    /** The same with thin counted as falling short, or not. */
    public CheckSettings withStrict(boolean value) {
        return new CheckSettings(phases, value, bounds);
    }

    /** The same with the ends of the bands, or without: a quicker look. */
    public CheckSettings withBounds(boolean value) {
        return new CheckSettings(phases, strict, value);
    }
}
