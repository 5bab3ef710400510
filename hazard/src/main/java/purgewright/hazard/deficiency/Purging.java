package purgewright.hazard.deficiency;

/** Purging a vessel of a gas by inert gas, perfectly mixed. Fractions by volume. */
public final class Purging {
    private Purging() {}

    /**
     * Vessel volumes of purge gas to dilute from one fraction to another: {@code ln((x1 - xp)/(x2 - xp))}.
     *
     * @param from fraction at the start
     * @param to fraction wanted, above {@code inPurge}
     * @param inPurge fraction of the same in the purge gas
     */
    public static double sweepVolumes(double from, double to, double inPurge) {
        return Math.log((from - inPurge) / (to - inPurge));
    }

    /**
     * Cycles of evacuating or pressurising with pure purge gas: {@code ln(to/from)/ln(low/high)}.
     *
     * @param low and {@code high} absolute pressures of the cycle, any unit
     */
    public static double cycles(double from, double to, double low, double high) {
        return Math.log(to / from) / Math.log(low / high);
    }

    /** Fraction left after whole cycles between two absolute pressures. */
    public static double afterCycles(double from, int cycles, double low, double high) {
        return from * Math.pow(low / high, cycles);
    }
}
