package purgewright.hazard.fault;

import java.util.Comparator;
import java.util.List;

/**
 * How fast a scenario loses separation in one phase, and how soon that is seen.
 *
 * @param phase duty phase
 * @param seconds until the last barrier misses a criterion; 0 at once; a lower bound where {@code how} says so
 * @param mixing seconds until fluids mix: a seal of the last barrier turns round, or foreign fluid in it passes the trace limit;
 *     infinite when they do not in the state that the fault ends in, NaN when that is not known
 * @param method how that was found
 * @param how one sentence
 * @param seenAfter seconds until the first instrument has left its uncertainty (or passed its redline); NaN when that was not computed
 * @param seenFirst that instrument, empty when none
 * @param needed seconds from the fault until the machine stands: seen, detection (persistence included), shutdown, coast-down
 */
public record Loss(
        String phase,
        double seconds,
        double mixing,
        Method method,
        String how,
        double seenAfter,
        String seenFirst,
        double needed) {
    /** Where a time to loss comes from. */
    public enum Method {
        RUN("run over time"),
        BOUND("bound from stored gas"),
        AT_ONCE("not computed, the worst is taken");

        private final String text;

        Method(String text) {
            this.text = text;
        }

        /** In words. */
        public String text() {
            return text;
        }
    }

    /** True when the machine stands before separation is lost. */
    public boolean inTime() {
        return seconds >= needed;
    }

    /** The loss with the least time to spare; null when there is none. */
    public static Loss fastest(List<Loss> losses) {
        return losses.stream()
                .min(Comparator.comparingDouble(l -> l.seconds() - l.needed()))
                .orElse(null);
    }
}
