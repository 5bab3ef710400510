package purgewright.hazard.finding;

/**
 * Under what a finding was made.
 *
 * @param phase duty phase, "steady" when the case has no duty
 * @param scenario {@link #AS_STATED}, or the fault's name
 */
public record Scene(String phase, String scenario) {
    /** The case as it stands, nothing failed. */
    public static final String AS_STATED = "as stated";

    /** The phase with nothing failed. */
    public static Scene of(String phase) {
        return new Scene(phase, AS_STATED);
    }

    /** True when nothing is failed. */
    public boolean asStated() {
        return AS_STATED.equals(scenario);
    }
}
