package purgewright.sealflow.model;

import java.util.List;
import java.util.Map;

/**
 * A phase of the duty.
 *
 * @param name unique
 * @param duration s; NaN when not stated
 * @param set values by JSON Pointer, as typed; each replaces the case's own. A stated speed and opened valves are in it too
 * @param closed passages (valves) shut in this phase
 * @param ramp time in which values go linearly from those of the phase before to these, s; 0 is a step
 * @param history CSV file of boundary values over the time of this phase, in the case's folder; null when there is none
 */
public record DutyPhase(
        String name, double duration, Map<String, String> set, List<String> closed, double ramp, String history) {

    /** A phase that starts with a step. */
    public DutyPhase(String name, double duration, Map<String, String> set, List<String> closed) {
        this(name, duration, set, closed, 0, null);
    }
}
