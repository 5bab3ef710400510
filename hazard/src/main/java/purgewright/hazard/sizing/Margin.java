package purgewright.hazard.sizing;

/**
 * How well one criterion is met at one place, in one phase and scenario.
 *
 * @param criterion key
 * @param where JSON Pointer
 * @param phase of the duty
 * @param scenario "as stated", or what is worn, raised or failed
 * @param value relative margin; NaN where the criterion is met or not, without a number
 * @param met with the margin that was asked for, and established
 */
public record Margin(String criterion, String where, String phase, String scenario, double value, boolean met) {
    /** What makes two margins of different designs the same one. */
    public String id() {
        return criterion + "|" + where + "|" + phase + "|" + scenario;
    }

    /** In words: criterion at place (scenario, phase). */
    public String words() {
        return criterion.replace('-', ' ') + " at " + where + " (" + scenario + ", " + phase + ")";
    }
}
