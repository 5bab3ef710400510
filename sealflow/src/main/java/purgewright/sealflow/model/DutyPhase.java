package purgewright.sealflow.model;

import java.util.List;
import java.util.Map;

/**
 * A phase of the duty.
 *
 * @param name unique
 * @param duration s; NaN when not stated
 * @param set values by JSON Pointer, as typed; each replaces the case's own
 * @param closed passages (valves) shut in this phase
 */
public record DutyPhase(String name, double duration, Map<String, String> set, List<String> closed) {}
