package purgewright.fluids;

/**
 * Where to look for a state when one nearby is known: temperature and density to first order in the logarithms. A first guess for a
 * search, never an answer.
 *
 * <pre>{@code
 * kT = cp/(cv rho w^2),   a = sqrt((cp - cv) kT rho / T)
 * at constant h  d ln T / d ln p = (a T - 1) p / (rho cp T),   then + (h - h0)/cp
 * at constant s  d ln T / d ln p = a p / (rho cp),              then times exp((s - s0)/cp)
 * d ln rho = kT p d ln p - a T d ln T
 * }</pre>
 *
 * <p>Thermal expansion counts as positive. Nothing is said from a state in the dome, nor across phases.
 *
 * @param temperature K
 * @param density kg/m3
 */
public record Nearby(double temperature, double density) {
    private static final double FARTHEST = 1.5;
    /** A much denser state is not reached in a straight line: equations bend there. */
    private static final double DENSEST = 1.5;

    /** A guess at pressure (Pa) and enthalpy (J/kg), or null where the state known says nothing. */
    public static Nearby atPressureEnthalpy(double pressure, double enthalpy, FluidState known) {
        return guess(pressure, enthalpy, known, false);
    }

    /** A guess at pressure (Pa) and entropy (J/(kg K)), or null where the state known says nothing. */
    public static Nearby atPressureEntropy(double pressure, double entropy, FluidState known) {
        return guess(pressure, entropy, known, true);
    }

    private static Nearby guess(double pressure, double target, FluidState known, boolean entropy) {
        double cp = known.cp();
        double cv = known.cv();
        if (known.phase() == Phase.TWO_PHASE || !(cp > 0) || !(cv > 0)) {
            return null;
        }
        double t = known.temperature();
        double rho = known.density();
        double compressibility = cp / (cv * rho * known.soundSpeed() * known.soundSpeed());
        double expansion = Math.sqrt(Math.max(0, (cp - cv) * compressibility * rho / t));
        double ratio = Math.log(pressure / known.pressure());
        double perPressure = known.pressure() / (rho * cp) * (entropy ? expansion : expansion - 1 / t);
        double guess = entropy
                ? t * Math.exp(perPressure * ratio + (target - known.entropy()) / cp)
                : t * Math.exp(perPressure * ratio) + (target - known.enthalpy()) / cp;
        if (!(guess > t / FARTHEST && guess < t * FARTHEST)) {
            return null;
        }
        double density =
                rho * Math.exp(compressibility * known.pressure() * ratio - expansion * t * Math.log(guess / t));
        return density > 0 && density < DENSEST * rho ? new Nearby(guess, density) : null;
    }
}
