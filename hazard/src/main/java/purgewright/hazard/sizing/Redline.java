package purgewright.hazard.sizing;

/**
 * A value at which the machine is stopped, moved to the safe side of where separation is lost.
 *
 * <pre>{@code
 * lowest allowed : redline = (physical + uncertainty) exp(time / tau)
 * highest allowed: redline = physical - uncertainty
 * }</pre>
 *
 * <p>tau is how fast the reading falls after the purge is lost: stored gas over purge flow. Time is detection with persistence and
 * shutdown with coast-down. Where the redline lies beyond what the reading is in normal running, no interlock on it protects.
 *
 * @param name of the reading, for instance "pressure of barrier"
 * @param place JSON Pointer
 * @param lowest true for a lowest-allowed value
 * @param physical where separation is lost, SI
 * @param uncertainty of the instrument, SI
 * @param change during lag, persistence, shutdown and coast-down, SI; infinite when the gas is gone before
 * @param redline SI; NaN when there is none
 * @param nominal reading in normal running, least (greatest) over the phases, SI
 * @param usable true when normal running is on the safe side of it by the uncertainty
 * @param unit SI
 * @param reason in words
 */
public record Redline(
        String name,
        String place,
        boolean lowest,
        double physical,
        double uncertainty,
        double change,
        double redline,
        double nominal,
        boolean usable,
        String unit,
        String reason) {

    /** A lowest-allowed value. */
    public static Redline lowest(
            String name,
            String place,
            double physical,
            double uncertainty,
            double time,
            double tau,
            double nominal,
            String unit) {
        double base = physical + uncertainty;
        double value = tau > 0 ? base * Math.exp(time / tau) : Double.POSITIVE_INFINITY;
        boolean usable = nominal - uncertainty > value;
        return new Redline(
                name,
                place,
                true,
                physical,
                uncertainty,
                value - base,
                Double.isInfinite(value) ? Double.NaN : value,
                nominal,
                usable,
                unit,
                usable
                        ? "separation is lost at the physical limit; raised by the uncertainty and by the fall until the rotor stands"
                        : "the stored gas is gone before the rotor stands: no interlock on this reading protects; store more gas behind"
                                + " the check valve or stop faster");
    }

    /** A highest-allowed value. */
    public static Redline highest(
            String name, String place, double physical, double uncertainty, double nominal, String unit) {
        double value = physical - uncertainty;
        boolean usable = nominal + uncertainty < value;
        return new Redline(
                name,
                place,
                false,
                physical,
                uncertainty,
                0,
                value,
                nominal,
                usable,
                unit,
                usable
                        ? "separation is lost at the physical limit; lowered by the uncertainty"
                        : "normal running is too close to the limit for this instrument");
    }
}
