package purgewright.sealflow.passage;

/**
 * Under what a passage runs.
 *
 * @param rotorSpeed rad/s
 * @param runningClearance mean clearance in running, m; NaN for types without
 * @param bound which end of the model's own band to use
 */
public record Conditions(double rotorSpeed, double runningClearance, Bound bound) {
    /** End of a model's band. */
    public enum Bound {
        LOW,
        NOMINAL,
        HIGH
    }
}
