package purgewright.hazard.studies;

import java.util.ArrayList;
import java.util.List;

/** Evaluates points; how many at once is its own affair, the answers come in the order of the points. */
@FunctionalInterface
public interface Batch {
    /**
     * @param points each a vector of inputs
     * @return the quantities at each point; NaN where there is none
     */
    List<double[]> at(List<double[]> points);

    /** One after the other, for functions that cost nothing. */
    static Batch of(java.util.function.Function<double[], double[]> function) {
        return points -> {
            List<double[]> out = new ArrayList<>();
            points.forEach(p -> out.add(function.apply(p)));
            return out;
        };
    }
}
