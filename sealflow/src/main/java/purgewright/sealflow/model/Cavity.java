package purgewright.sealflow.model;

/**
 * A space of one pressure, enthalpy and composition. SI; NaN where the case says nothing.
 *
 * @param name unique
 * @param role word of the case
 * @param stream name of the stream in it when fixed; null for a solved cavity
 * @param pressure absolute, Pa; NaN means solved for
 * @param temperature K; NaN for a solved cavity
 * @param volume m3
 * @param radius where {@code pressure} is meant, m; NaN: no radial gradient is taken
 * @param swirlRatio core swirl over rotor speed, 0 to 1; NaN: default 0.45 when a disc is given, else 0
 * @param disc rotating wall, or null
 * @param wall heat exchange, or null
 * @param circumferentialVariation half the peak-to-peak variation of pressure around the circumference, Pa; NaN none stated
 */
public record Cavity(
        String name,
        Role role,
        String stream,
        double pressure,
        double temperature,
        double volume,
        double radius,
        double swirlRatio,
        Disc disc,
        Wall wall,
        double circumferentialVariation) {

    /** True when pressure and temperature are given. */
    public boolean fixed() {
        return !Double.isNaN(pressure);
    }

    /**
     * A disc face that bounds the cavity.
     *
     * @param innerRadius m
     * @param outerRadius m
     * @param gap axial distance to the casing, m
     * @param swirlFromFlow true: the core swirl follows from the radial through-flow, where the cavity states none
     * @param looks which way the face looks along the shaft
     */
    public record Disc(double innerRadius, double outerRadius, double gap, boolean swirlFromFlow, Looks looks) {
        /** Beside which the core turns at the stated or the default share of the speed. */
        public Disc(double innerRadius, double outerRadius, double gap) {
            this(innerRadius, outerRadius, gap, false, Looks.UNSTATED);
        }

        /** +1 for a face that looks forward, so that its cavity pushes the rotor aft; -1 for one that looks aft; 0 where that is not stated. */
        public int aft() {
            return looks == Looks.FORWARD ? 1 : looks == Looks.AFT ? -1 : 0;
        }
    }

    /** Way that a disc face looks: towards the cavity in front of it. Which end of the shaft is forward is the user's to choose. */
    public enum Looks {
        UNSTATED,
        FORWARD,
        AFT
    }

    /**
     * Heat through a wall.
     *
     * @param conductance W/K over the whole wall
     * @param temperature K of the far side; NaN when {@code cavity} is given
     * @param cavity name of the cavity on the far side, or null
     */
    public record Wall(double conductance, double temperature, String cavity) {}
}
