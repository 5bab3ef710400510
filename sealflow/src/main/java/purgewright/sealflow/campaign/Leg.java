package purgewright.sealflow.campaign;

import java.util.List;
import java.util.Objects;
import purgewright.sealflow.model.Case;

/**
 * One phase of the duty, ready to be run.
 *
 * @param name of the phase
 * @param duration s
 * @param model the case with the phase's values set
 * @param ramp time in which values go linearly from those before to these, s
 * @param history boundary values over the time of this phase; each channel's place is a number of the case
 * @param setPressure of the regulator in this phase, Pa; NaN without a regulator
 */
public record Leg(String name, double duration, Case model, double ramp, List<Channel> history, double setPressure) {
    /** Checks. */
    public Leg {
        Objects.requireNonNull(model);
        if (!(duration > 0) || Double.isInfinite(duration)) {
            throw new IllegalArgumentException("phase " + name + " needs a duration, got " + duration + " s");
        }
        if (!(ramp >= 0)) {
            throw new IllegalArgumentException("ramp of phase " + name + " is " + ramp + " s");
        }
        history = List.copyOf(history);
    }
}
