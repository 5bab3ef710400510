package purgewright.sealflow;

/** The cubic between 0 and 1 that is level at both ends: what fades from one law to another without a corner. */
public final class SmoothStep {
    private SmoothStep() {}

    /**
     * {@code t^2 (3 - 2 t)}.
     *
     * @param t 0 and below gives 0, 1 and above gives 1; NaN gives NaN
     */
    public static double of(double t) {
        double c = Math.max(0, Math.min(1, t));
        return c * c * (3 - 2 * c);
    }
}
