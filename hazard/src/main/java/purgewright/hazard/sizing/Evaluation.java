package purgewright.hazard.sizing;

import java.util.List;
import java.util.Map;
import java.util.TreeMap;

/**
 * What a design gives, over all phases and scenarios looked at.
 *
 * @param feasible every criterion is met with the margin wanted, and everything was solved and established
 * @param each every margin found
 * @param margins least margin by criterion key; NaN where it has no number
 * @param purge greatest purge flow over the phases as stated, kg/s; NaN when nothing was solved
 * @param perRun purge gas for one run of the duty as stated, kg; NaN when a duration or a solution is missing
 * @param setPressure greatest pressure of a purge supply over the phases as stated, Pa
 * @param governing criterion with the least margin, or what stood in the way
 * @param where place of it
 * @param phase of it
 * @param scenario of it
 * @param what the finding's sentence
 */
public record Evaluation(
        boolean feasible,
        List<Margin> each,
        Map<String, Double> margins,
        double purge,
        double perRun,
        double setPressure,
        String governing,
        String where,
        String phase,
        String scenario,
        String what) {
    /** Criterion of a point that has no solution. */
    public static final String SOLVE = "solve";

    /** From a list of margins alone: the governing one is the first unmet, else the least. */
    public static Evaluation of(List<Margin> each, double purge, double perRun, double setPressure) {
        Map<String, Double> least = new TreeMap<>();
        Margin worst = null;
        boolean feasible = true;
        for (Margin m : each) {
            if (!Double.isNaN(m.value())) {
                least.merge(m.criterion(), m.value(), Math::min);
            }
            feasible &= m.met();
            worst = worst == null || worse(m, worst) ? m : worst;
        }
        return new Evaluation(
                feasible,
                List.copyOf(each),
                least,
                purge,
                perRun,
                setPressure,
                worst == null ? "" : worst.criterion(),
                worst == null ? "" : worst.where(),
                worst == null ? "" : worst.phase(),
                worst == null ? "" : worst.scenario(),
                "");
    }

    /** Unmet before met; a number before the yes-or-no findings that follow from it; then the smaller. */
    private static boolean worse(Margin a, Margin b) {
        if (a.met() != b.met()) {
            return !a.met();
        }
        if (Double.isNaN(a.value()) != Double.isNaN(b.value())) {
            return !Double.isNaN(a.value());
        }
        return a.value() < b.value();
    }

    /** What governs, in words. */
    public String words() {
        return governing.replace('-', ' ') + " at " + where + " (" + scenario + ", " + phase + ")";
    }

    /** Evaluates one design. */
    @FunctionalInterface
    public interface Evaluator {
        /** At these values of the free parameters, SI, in their order. */
        Evaluation at(double... values);
    }

    /** Evaluates several designs at once, which may run side by side. */
    @FunctionalInterface
    public interface Batch {
        /** One evaluation for each design, in their order. */
        List<Evaluation> at(List<double[]> designs);
    }
}
