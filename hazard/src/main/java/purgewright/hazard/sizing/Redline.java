package purgewright.hazard.sizing;

import java.util.Locale;

/**
 * A value at which the machine is stopped, moved to the safe side of where separation is lost.
 *
 * <pre>{@code
 * lowest allowed : redline = (physical + uncertainty) exp(time / tau)     stored gas running down, reading falls by e in tau
 * highest allowed: redline = physical - uncertainty - rate time           reading rises by rate
 * }</pre>
 *
 * <p>Time is lag, persistence, shutdown and coast-down. Where the redline lies beyond what the reading is in normal running, no
 * interlock on it protects against that failure: then there is none, and the reason says what would help. Against a slow change the
 * reading may still protect: set two uncertainties from normal running it stops the machine in time while the change is slower than
 *
 * <pre>{@code slow rate = |nominal - physical| - 3 uncertainty, over time}</pre>
 *
 * @param name of the reading, for instance "pressure of barrier"
 * @param place JSON Pointer
 * @param lowest true for a lowest-allowed value
 * @param physical where separation is lost, SI; NaN when that was not found
 * @param uncertainty of the instrument, SI
 * @param change of the reading during lag, persistence, shutdown and coast-down, SI; NaN when there is no redline
 * @param redline SI; NaN when there is none
 * @param nominal reading in normal running, of the phase that decides, SI
 * @param usable true when there is a redline and normal running is on the safe side of it by the uncertainty
 * @param slowSetting setting that protects against a slow change, SI; NaN when there is none
 * @param slowRate the fastest change it protects against, SI per second; NaN when there is none
 * @param lasts how long the stored gas lasts at the purge flow, s: the tau above; NaN where it plays no part
 * @param time s from the reading to standstill
 * @param phase that decides
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
        double slowSetting,
        double slowRate,
        double lasts,
        double time,
        String phase,
        String unit,
        String reason) {

    /** Exponents beyond this mean that the gas is long gone. */
    private static final double GONE = 20;

    /**
     * A lowest-allowed value.
     *
     * @param tau how long the stored gas lasts at the purge flow, s
     * @param help what would make it protect; may be empty
     */
    public static Redline lowest(
            String name,
            String place,
            double physical,
            double uncertainty,
            double time,
            double tau,
            double nominal,
            String phase,
            String unit,
            String help) {
        double base = physical + uncertainty;
        double exponent = tau > 0 ? time / tau : Double.POSITIVE_INFINITY;
        double value = exponent < GONE ? base * Math.exp(exponent) : Double.NaN;
        boolean usable = nominal - uncertainty > value;
        String reason = usable
                ? String.format(
                        Locale.ROOT,
                        "raised by the uncertainty and by the fall in the %.3g s until the rotor stands; stored gas lasts %.3g s",
                        time,
                        tau)
                : String.format(
                        Locale.ROOT,
                        "no redline on this reading protects against a sudden loss of the supply: the stored gas lasts %.2g s,"
                                + " stopping takes %.3g s%s",
                        tau,
                        time,
                        help.isEmpty() ? "" : "; " + help);
        return of(name, place, true, physical, uncertainty, value, nominal, usable, tau, time, phase, unit, reason);
    }

    /**
     * A highest-allowed value.
     *
     * @param rate of rise when what it watches for happens at once, SI per second; NaN when that is not known
     * @param what the failure that it watches for, for the reason
     */
    public static Redline highest(
            String name,
            String place,
            double physical,
            double uncertainty,
            double time,
            double rate,
            double nominal,
            String phase,
            String unit,
            String what) {
        double value = physical - uncertainty - rate * time;
        boolean usable = nominal + uncertainty < value;
        String reason;
        if (usable) {
            reason = String.format(
                    Locale.ROOT,
                    "lowered by the uncertainty and by the rise in the %.3g s until the rotor stands",
                    time);
        } else if (Double.isNaN(physical)) {
            reason = "where separation is lost was not found";
        } else if (!(nominal + 2 * uncertainty < physical)) {
            reason = "normal running is too close to the limit for this instrument";
        } else if (Double.isNaN(rate)) {
            reason = "how fast it rises after " + what + " is not known: the volume is not stated";
        } else {
            reason = String.format(
                    Locale.ROOT,
                    "no redline on this reading protects after %s: it rises to the limit in %.2g s, stopping takes %.3g s",
                    what,
                    (physical - nominal) / rate,
                    time);
        }
        return of(
                name,
                place,
                false,
                physical,
                uncertainty,
                value,
                nominal,
                usable,
                Double.NaN,
                time,
                phase,
                unit,
                reason);
    }

    /** A reading on which there can be none, with the reason. */
    public static Redline none(
            String name,
            String place,
            boolean lowest,
            double physical,
            double uncertainty,
            double time,
            double nominal,
            String phase,
            String unit,
            String reason) {
        return of(
                name,
                place,
                lowest,
                physical,
                uncertainty,
                Double.NaN,
                nominal,
                false,
                Double.NaN,
                time,
                phase,
                unit,
                reason);
    }

    private static Redline of(
            String name,
            String place,
            boolean lowest,
            double physical,
            double uncertainty,
            double value,
            double nominal,
            boolean usable,
            double lasts,
            double time,
            String phase,
            String unit,
            String reason) {
        double rate = ((lowest ? nominal - physical : physical - nominal) - 3 * uncertainty) / time;
        boolean slow = !usable && rate > 0 && Double.isFinite(rate);
        double base = lowest ? physical + uncertainty : physical - uncertainty;
        return new Redline(
                name,
                place,
                lowest,
                physical,
                uncertainty,
                usable ? Math.abs(value - base) : Double.NaN,
                usable ? value : Double.NaN,
                nominal,
                usable,
                slow ? (lowest ? nominal - 2 * uncertainty : nominal + 2 * uncertainty) : Double.NaN,
                slow ? rate : Double.NaN,
                lasts,
                time,
                phase,
                unit,
                reason);
    }
}
