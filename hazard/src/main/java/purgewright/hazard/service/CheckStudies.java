package purgewright.hazard.service;

import java.util.List;
import purgewright.hazard.sizing.Interlocks;
import purgewright.hazard.sizing.Redline;
import purgewright.hazard.sizing.WearLimit;

/**
 * What a check can be asked for beyond itself, all of the case as stated.
 *
 * @param wear how far each barrier seal may wear; empty when it was not asked for
 * @param redlines where separation is lost, moved to the safe side; empty when it was not asked for
 * @param interlocks the same as a table for the test procedure
 */
public record CheckStudies(List<WearLimit> wear, List<Redline> redlines, Interlocks interlocks) {
    /** Nothing asked for. */
    public static final CheckStudies NONE = new CheckStudies(List.of(), List.of(), Interlocks.NONE);
}
