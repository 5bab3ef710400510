package purgewright.sealflow.transients;

import java.util.function.ToDoubleFunction;
import purgewright.sealflow.network.NetworkDynamics;

/**
 * Something that happens when a function of the state passes through zero: a barrier's margin, a redline.
 *
 * @param key name in the result
 * @param value continuous function of the network at a moment; the event is its zero
 * @param ends true when the run stops there
 */
public record Event(String key, ToDoubleFunction<NetworkDynamics> value, boolean ends) {
    /** The pressure of one cavity falls to that of another plus a margin (Pa). */
    public static Event pressureMargin(String key, String high, String low, double margin, boolean ends) {
        return new Event(key, n -> n.state(high).pressure() - n.state(low).pressure() - margin, ends);
    }
}
