package purgewright.gui.findings;

/**
 * Who accepts a finding, and why.
 *
 * @param by name
 * @param date as typed, for instance 2026-03-14
 * @param reason in words
 */
public record Waiver(String by, String date, String reason) {
    /** A waiver without a name, a date or a reason is none. */
    public boolean whole() {
        return !by.isBlank() && !date.isBlank() && !reason.isBlank();
    }
}
