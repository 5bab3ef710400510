package purgewright.sealflow.transients;

import java.util.List;
import purgewright.sealflow.model.Case;

/** The case at every moment. Cavities and streams keep their names throughout; which cavities are fixed does not change. */
public interface Schedule {
    /** The case that holds from this moment on; the same object while nothing changes. */
    Case at(double time);

    /** The next moment after {@code time} at which the case jumps, s; infinity when it never does again. */
    double nextJump(double time);

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
