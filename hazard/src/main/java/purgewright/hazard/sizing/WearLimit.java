package purgewright.hazard.sizing;

/**
 * How far a clearance may wear.
 *
 * <pre>{@code life = (limit - drawing) / wear rate}</pre>
 *
 * @param passage name; "all together" for all of them by the same factor
 * @param clearance drawing clearance, m; NaN for all together, and for a seal without one in the case
 * @param limit clearance at which the first criterion is lost, m; infinite when none is lost within the range looked at; NaN without a
 *     drawing clearance
 * @param factor the same as a multiple of the drawing clearance; of a seal without one, of its opening, with the flow that its type
 *     takes from it as in the fault sweep
 * @param lost criterion lost first
 * @param where place of it
 * @param phase of it
 * @param rate of wear, m/s; NaN when not stated
 * @param life running time until the limit, s; NaN when no rate is stated, infinite when nothing is lost
 */
public record WearLimit(
        String passage,
        double clearance,
        double limit,
        double factor,
        String lost,
        String where,
        String phase,
        double rate,
        double life) {
    /** Largest factor looked at [invented: a seal twenty times open is no seal]. */
    public static final double LARGEST = 20;

    private static final double TOLERANCE = 1e-3;

    /** A limit of three digits must not read wider than it is: half a unit of the last is taken off first, at most half a per cent. */
    private static final double ROUNDED_DOWN = 0.995;

    /** Name of the row for all seals opened by one factor. */
    public static final String TOGETHER = "all together";

    /** True for one seal, false for all together. */
    public boolean seal() {
        return !passage.equals(TOGETHER) && !Double.isNaN(factor);
    }

    /** True when nothing is lost up to {@link #LARGEST}: then there is no limit to print, "infinite" would be more than was looked at. */
    public boolean beyond() {
        return factor >= LARGEST;
    }

    /** Limit to print with three digits, m: not above the limit once rounded; NaN when there is none. */
    public double printed() {
        return factor < LARGEST ? ROUNDED_DOWN * limit : Double.NaN;
    }

    /**
     * Finds the factor by bisection after going out from 1.
     *
     * @param evaluator takes the factor
     * @param clearance drawing value, m; NaN for several
     * @param rate of wear, m/s; NaN when not stated
     */
    public static WearLimit find(String passage, double clearance, double rate, Evaluation.Evaluator evaluator) {
        Found f = search(evaluator, LARGEST);
        double limit = clearance * f.most();
        return new WearLimit(
                passage,
                clearance,
                limit,
                f.most(),
                f.lost().governing(),
                f.lost().where(),
                f.lost().phase(),
                rate,
                (limit - clearance) / rate);
    }

    /**
     * Running time until the first criterion is lost when all seals wear at their own rates at once.
     *
     * @param evaluator takes the running time, s
     * @param longest time looked at, s
     */
    public static WearLimit life(String name, double longest, Evaluation.Evaluator evaluator) {
        Found f = search(v -> evaluator.at(longest * (v[0] - 1) / (LARGEST - 1)), LARGEST);
        double life = Double.isInfinite(f.most()) ? Double.POSITIVE_INFINITY : longest * (f.most() - 1) / (LARGEST - 1);
        return new WearLimit(
                name,
                Double.NaN,
                Double.NaN,
                Double.NaN,
                f.lost().governing(),
                f.lost().where(),
                f.lost().phase(),
                Double.NaN,
                life);
    }

    /**
     * @param most largest value met; infinite when all are
     * @param lost evaluation just beyond
     */
    private record Found(double most, Evaluation lost) {}

    private static final Evaluation NOTHING = Evaluation.of(java.util.List.of(), Double.NaN, Double.NaN, Double.NaN);

    private static Found search(Evaluation.Evaluator evaluator, double largest) {
        Evaluation here = evaluator.at(1);
        if (!here.feasible()) {
            return new Found(1, here);
        }
        double low = 1;
        double high = 1;
        Evaluation lost = null;
        while (high < largest && lost == null) {
            low = high;
            high = Math.min(largest, high * 1.5);
            Evaluation e = evaluator.at(high);
            lost = e.feasible() ? null : e;
        }
        if (lost == null) {
            return new Found(Double.POSITIVE_INFINITY, NOTHING);
        }
        while (high / low - 1 > TOLERANCE) {
            double middle = Math.sqrt(low * high);
            Evaluation e = evaluator.at(middle);
            if (e.feasible()) {
                low = middle;
            } else {
                high = middle;
                lost = e;
            }
        }
        return new Found(low, lost);
    }
}
