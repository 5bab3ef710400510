package purgewright.hazard.sizing;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import purgewright.fluids.unit.Dimension;

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
 * @param phases in which it holds; empty: in all in which flow separates
 * @param unit SI symbol of the reading; uncertainty, change and rate have {@link #differenceUnit}
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
        List<String> phases,
        String unit,
        String reason) {
    /** A common setting against slow changes is taken while it still protects against half of the rate that each phase's own would. */
    private static final double WORTH = 0.5;

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
                List.of(phase),
                unit,
                reason);
    }

    /** Symbol of uncertainty, change, and of the change in a second. */
    public String differenceUnit() {
        return Dimension.difference(unit);
    }

    /** The reading's name, with the phases where it does not hold in all. */
    public String label() {
        return phases.isEmpty() ? name : name + " in " + String.join(", ", phases);
    }

    /**
     * One reading's redlines of single phases, put together as far as one setting does for several: a number that is right while the
     * machine is purged and still would stop every run, or protect none. Phases go into the first set that stays possible: every
     * lowest-allowed value of the set is covered, and normal running of each phase is on the safe side of it.
     */
    public static List<Redline> together(List<Redline> single) {
        List<List<Redline>> sets = new ArrayList<>();
        List<Redline> out = new ArrayList<>();
        for (Redline r : single) {
            boolean taken = false;
            for (int i = 0; i < sets.size() && !taken; i++) {
                List<Redline> more = new ArrayList<>(sets.get(i));
                more.add(r);
                Redline common = common(more);
                if (common != null) {
                    sets.set(i, more);
                    out.set(i, common);
                    taken = true;
                }
            }
            if (!taken) {
                sets.add(new ArrayList<>(List.of(r)));
                out.add(r);
            }
        }
        return out.size() == 1 ? List.of(out.get(0).in(List.of())) : List.copyOf(out);
    }

    /** One for several phases of the same reading; null when no setting does for all. */
    private static Redline common(List<Redline> all) {
        List<String> names = all.stream().map(Redline::phase).toList();
        Redline first = all.get(0);
        boolean kind = all.stream()
                .allMatch(r ->
                        r.usable == first.usable && Double.isNaN(r.slowSetting) == Double.isNaN(first.slowSetting));
        if (!kind) {
            return null;
        }
        if (first.usable) {
            Redline decides = all.stream()
                    .reduce((a, b) -> (first.lowest ? a.redline >= b.redline : a.redline <= b.redline) ? a : b)
                    .orElseThrow();
            boolean possible = all.stream()
                    .allMatch(r -> first.lowest
                            ? decides.redline < r.nominal - r.uncertainty
                            : decides.redline > r.nominal + r.uncertainty);
            return possible ? decides.in(names) : null;
        }
        if (Double.isNaN(first.slowSetting)) {
            // Of two that cannot protect the one closer to its limit.
            return all.stream()
                    .reduce((a, b) -> Math.abs(a.nominal - a.physical) <= Math.abs(b.nominal - b.physical) ? a : b)
                    .orElseThrow()
                    .in(names);
        }
        Redline decides = all.stream()
                .reduce((a, b) ->
                        (first.lowest ? a.slowSetting <= b.slowSetting : a.slowSetting >= b.slowSetting) ? a : b)
                .orElseThrow();
        double setting = decides.slowSetting;
        double rate = Double.POSITIVE_INFINITY;
        double own = Double.POSITIVE_INFINITY;
        for (Redline r : all) {
            double room = (r.lowest ? setting - r.physical : r.physical - setting) - r.uncertainty;
            rate = Math.min(rate, room / r.time);
            own = Math.min(own, r.slowRate);
        }
        return rate >= WORTH * own ? decides.slow(rate, names) : null;
    }

    private Redline in(List<String> names) {
        return slow(slowRate, names);
    }

    private Redline slow(double rate, List<String> names) {
        return new Redline(
                name,
                place,
                lowest,
                physical,
                uncertainty,
                change,
                redline,
                nominal,
                usable,
                slowSetting,
                rate,
                lasts,
                time,
                phase,
                List.copyOf(names),
                unit,
                reason);
    }
}
