package purgewright.sealflow.transients;

import java.util.List;
import java.util.function.DoubleFunction;
import purgewright.sealflow.model.Case;

/** The case at every moment. Cavities and streams keep their names throughout; which cavities are fixed does not change. */
public interface Schedule {
    /** The case that holds from this moment on; the same object while nothing changes. */
    Case at(double time);

    /** The next moment after {@code time} at which the case jumps, s; infinity when it never does again. */
    double nextJump(double time);

    /** Longest step at a time where the case changes gradually, s; infinity where it stands still until the next jump. */
    default double rampStep(double time) {
        return Double.POSITIVE_INFINITY;
    }

    /**
     * A case that changes gradually: a speed that runs up, a valve that opens.
     *
     * @param start of the ramp, s; before it the case at share 0 holds
     * @param end of the ramp, s; after it the case at share 1 holds
     * @param pieces in which the ramp is taken at least
     * @param at the case at a share of the ramp from 0 to 1, linear in time
     */
    static Schedule ramp(double start, double end, int pieces, DoubleFunction<Case> at) {
        if (!(start >= 0 && end > start) || pieces < 1) {
            throw new IllegalArgumentException("a ramp from " + start + " to " + end + " s in " + pieces
                    + " pieces: it must begin at 0 or later, last, and have a piece");
        }
        Case before = at.apply(0);
        Case after = at.apply(1);
        return new Schedule() {
            @Override
            public Case at(double time) {
                return time <= start ? before : time >= end ? after : at.apply((time - start) / (end - start));
            }

            @Override
            public double nextJump(double time) {
                return time < start ? start : time < end ? end : Double.POSITIVE_INFINITY;
            }

            @Override
            public double rampStep(double time) {
                return time >= start && time < end ? (end - start) / pieces : Double.POSITIVE_INFINITY;
            }
        };
    }

    /** One case for the whole run. */
    static Schedule constant(Case model) {
        return steps(List.of(0.0), List.of(model));
    }

    /**
     * Cases that follow each other.
     *
     * @param times ascending, the first at most 0, s
     * @param cases one a time
     */
    static Schedule steps(List<Double> times, List<Case> cases) {
        List<Double> t = List.copyOf(times);
        List<Case> c = List.copyOf(cases);
        if (t.isEmpty() || t.size() != c.size() || t.get(0) > 0) {
            throw new IllegalArgumentException(
                    "a schedule needs one case a time, the first at 0 or before; got " + t.size() + " and " + c.size());
        }
        for (int i = 1; i < t.size(); i++) {
            if (!(t.get(i) > t.get(i - 1))) {
                throw new IllegalArgumentException("times must ascend: " + t);
            }
        }
        return new Schedule() {
            @Override
            public Case at(double time) {
                int i = t.size() - 1;
                while (i > 0 && t.get(i) > time) {
                    i--;
                }
                return c.get(i);
            }

            @Override
            public double nextJump(double time) {
                return t.stream().filter(x -> x > time).findFirst().orElse(Double.POSITIVE_INFINITY);
            }
        };
    }
}
