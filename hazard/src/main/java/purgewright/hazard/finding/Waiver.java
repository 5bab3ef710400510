package purgewright.hazard.finding;

/**
 * Somebody has accepted a finding. The finding stays where it is and keeps its verdict.
 *
 * @param by name
 * @param date as typed
 * @param reason as typed
 */
public record Waiver(String by, String date, String reason) {
    /** Somebody by name, on a date, for a reason: less is no waiver and counts for nothing. */
    public boolean whole() {
        return !by.isBlank() && !date.isBlank() && !reason.isBlank();
    }

    /** One line. */
    public String text() {
        return "accepted by " + by + " on " + date + ": " + reason + "; the verdict stands";
    }
}
