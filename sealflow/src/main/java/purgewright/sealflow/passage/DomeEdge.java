package purgewright.sealflow.passage;

import purgewright.fluids.Phase;
import purgewright.fluids.phase.StateBuffer;

/** Where a path of falling pressure enters the dome. */
final class DomeEdge {
    private final StateBuffer wet = new StateBuffer();
    private final StateBuffer at = new StateBuffer();
    /** The last single-phase state found. */
    final StateBuffer edge = new StateBuffer();

    /**
     * A single-phase state within 2e-7 of the pressure at which the path turns two-phase. The volume in excess of the single-phase
     * one goes to zero there with a finite slope, so that secants from the wet side close in.
     *
     * @param dry single-phase state on the path
     * @param twoPhase state on the path, at a lower pressure
     * @param entropic whether entropy is constant along the path, else enthalpy
     * @param constant J/kg or J/(kg K)
     */
    void find(StateBuffer dry, StateBuffer twoPhase, StateSource source, boolean entropic, double constant) {
        edge.set(dry);
        wet.set(twoPhase);
        double wetInverse = 1 / wet.pressure();
        double wetExcess = excess(edge, wet);
        double olderInverse = Double.NaN;
        double olderExcess = Double.NaN;
        double low = wet.pressure();
        for (int i = 0; i < 60 && edge.pressure() - low > 2e-7 * low; i++) {
            double next;
            if (Double.isNaN(olderInverse)) {
                // Equilibrium compressibility gives the first slope: d v / d(1/p) = p^2 / (rho w)^2.
                double slope = wet.pressure() * wet.pressure() * (Jet.compressibility(wet) - Jet.compressibility(edge));
                next = 1 / (wetInverse - wetExcess / slope);
            } else {
                next = 1 / (wetInverse - wetExcess * (wetInverse - olderInverse) / (wetExcess - olderExcess));
            }
            next *= 1 + 1e-7;
            if (!(next > low && next < edge.pressure()) || i % 6 == 5) {
                next = Math.sqrt(low * edge.pressure());
            }
            boolean known = entropic
                    ? source.atPressureEntropy(next, constant, at)
                    : source.atPressureEnthalpy(next, constant, at);
            if (!known) {
                break;
            }
            if (at.phase() == Phase.TWO_PHASE) {
                olderInverse = wetInverse;
                olderExcess = wetExcess;
                wetInverse = 1 / next;
                wetExcess = excess(edge, at);
                low = next;
            } else {
                edge.set(at);
            }
        }
    }

    private static double excess(StateBuffer dry, StateBuffer wet) {
        double n = dry.density() * dry.soundSpeed() * dry.soundSpeed() / dry.pressure();
        double single = Math.pow(dry.pressure() / wet.pressure(), 1 / n) / dry.density();
        return 1 / wet.density() - single;
    }
}
