package purgewright.sealflow.transients;

/**
 * How a run over time is computed. Immutable.
 *
 * @param tolerance error of ln p, of h in units of 2e5 J/kg, and of a mass fraction, per step
 * @param firstStep s
 * @param longestStep s
 * @param maximumSteps a run that needs more ends as not finished
 * @param defaultVolume of a free cavity that states none, m3
 */
public record TransientSettings(
        double tolerance, double firstStep, double longestStep, int maximumSteps, double defaultVolume) {
    /**
     * 1e-5: ten times finer than any seal model; first step 1 us: a 1 cm3 cavity changes in tenths of a millisecond; 20,000 steps are
     * minutes of computing; 5 cm3 is the order of a drain pocket of a small seal package (invented; state volumes).
     */
    public static final TransientSettings DEFAULT =
            new TransientSettings(1e-5, 1e-6, Double.POSITIVE_INFINITY, 20_000, 5e-6);

    /** Checks. */
    public TransientSettings {
        if (!(tolerance > 0) || !(firstStep > 0) || !(longestStep > 0) || maximumSteps < 1 || !(defaultVolume > 0)) {
            throw new IllegalArgumentException("tolerance " + tolerance + ", first step " + firstStep
                    + " s, longest step " + longestStep + " s, steps " + maximumSteps + " and default volume "
                    + defaultVolume + " m3 must all be above 0");
        }
    }

    /** The same with another tolerance. */
    public TransientSettings withTolerance(double value) {
        return new TransientSettings(value, firstStep, longestStep, maximumSteps, defaultVolume);
    }
}
