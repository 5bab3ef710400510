package purgewright.hazard.sizing;

/**
 * How far a clearance may wear.
 *
 * @param passage name; "all together" for all of them by the same factor
 * @param clearance drawing clearance, m; NaN for all together
 * @param limit clearance at which the first criterion is lost, m; infinite when none is lost within the range looked at; NaN for all
 *     together
 * @param factor the same as a multiple of the drawing clearance
 * @param lost criterion lost first
 * @param where place of it
 * @param phase of it
 */
public record WearLimit(
        String passage, double clearance, double limit, double factor, String lost, String where, String phase) {
    /** Largest factor looked at [invented: a seal twenty times open is no seal]. */
    public static final double LARGEST = 20;

    private static final double TOLERANCE = 1e-3;

    /**
     * Finds the factor by bisection after doubling out from 1.
     *
     * @param evaluator takes the factor
     * @param clearance drawing value, m; NaN for several
     */
    public static WearLimit find(String passage, double clearance, Evaluation.Evaluator evaluator) {
        Evaluation here = evaluator.at(1);
        if (!here.feasible()) {
            return new WearLimit(passage, clearance, clearance, 1, here.governing(), here.where(), here.phase());
        }
        double low = 1;
        double high = 1;
        Evaluation lost = null;
        while (high < LARGEST && lost == null) {
            low = high;
            high = Math.min(LARGEST, high * 1.5);
            Evaluation e = evaluator.at(high);
            lost = e.feasible() ? null : e;
        }
        if (lost == null) {
            return new WearLimit(
                    passage, clearance, Double.POSITIVE_INFINITY, Double.POSITIVE_INFINITY, "", "", here.phase());
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
        return new WearLimit(passage, clearance, clearance * low, low, lost.governing(), lost.where(), lost.phase());
    }
}
