package purgewright.sealflow.gap;

import purgewright.sealflow.model.PassageSpec;
import purgewright.sealflow.model.Rotor;

/**
 * Running clearance of a passage.
 *
 * <pre>{@code mean  = cold + stator growth - rotor growth      (or cold + the stated growth)
 * least = mean - (whirl + bearing play + offset + run-out + tolerance)}</pre>
 *
 * <p>The mean leaks, the least rubs. Rotor growth is that of the segment named by the passage's {@code segment}, else of the one whose
 * outer radius is nearest: by speed and, where expansion and temperature are given, by temperature from 293.15 K. The stator grows by its
 * {@code stator temperature} and {@code stator expansion}; without them it stays cold.
 *
 * <p>A floating ring follows a steady offset and the play of the bearings, so that only whirl, run-out and tolerance narrow it. An
 * axial gap (axial rim) is narrowed by thrust movement, run-out and tolerance; it grows by the stated growth only.
 */
public final class GapModel {
    /** Temperature at which cold clearances are measured, K. */
    public static final double COLD = 293.15;

    private static final double LEAST_LIMIT = 10e-6;
    private static final double LIMIT_SHARE = 0.1;

    private GapModel() {}

    /** Clearance in running; null for a passage without a running gap. */
    public static RunningGap running(GapKind kind, PassageSpec spec, Rotor rotor) {
        // A rim's or slinger's clearance is called gap in the case; a changed clearance (worn, drawn) counts before it.
        double cold = Double.isNaN(spec.clearance()) ? spec.number("gap", Double.NaN) : spec.clearance();
        if (kind == GapKind.NONE || Double.isNaN(cold)) {
            return null;
        }
        boolean axial = kind == GapKind.AXIAL;
        double growth = spec.clearanceGrowth();
        if (Double.isNaN(growth)) {
            growth = axial || Double.isNaN(spec.radius()) ? 0 : statorGrowth(spec) - rotorGrowth(spec, rotor);
        }
        double mean = cold + growth;
        double allowance = rotor.runOut() + rotor.tolerance();
        switch (kind) {
            case AXIAL:
                allowance += rotor.thrustMovement();
                break;
            case FLOATING:
                allowance += rotor.whirl();
                break;
            default:
                allowance += rotor.whirl() + rotor.bearingPlay() + rotor.offset();
                break;
        }
        return new RunningGap(mean, mean - allowance, Math.max(LEAST_LIMIT, LIMIT_SHARE * cold));
    }

    private static double statorGrowth(PassageSpec spec) {
        double temperature = spec.number("stator temperature", Double.NaN);
        double expansion = spec.number("stator expansion", Double.NaN);
        if (Double.isNaN(temperature) || Double.isNaN(expansion)) {
            return 0;
        }
        return Growth.thermal(spec.radius(), expansion, temperature - COLD);
    }

    /** Growth of the rotor's surface at a passage, m; 0 when the rotor has no segments. */
    public static double rotorGrowth(PassageSpec spec, Rotor rotor) {
        Rotor.Segment segment = segment(spec, rotor);
        if (segment == null) {
            return 0;
        }
        double radius = spec.radius();
        double growth = 0;
        if (segment.modulus() > 0 && segment.density() > 0) {
            if (segment.thin()) {
                growth = Growth.ring(radius, rotor.speed(), segment.density(), segment.modulus());
            } else {
                double poisson = Double.isNaN(segment.poisson()) ? 0.3 : segment.poisson();
                double bore = Double.isNaN(segment.boreRadius()) ? 0 : segment.boreRadius();
                double at = Math.max(bore, Math.min(segment.outerRadius(), radius));
                growth = Growth.disc(
                        bore, segment.outerRadius(), at, rotor.speed(), segment.density(), segment.modulus(), poisson);
            }
        }
        if (!Double.isNaN(segment.temperature()) && segment.expansion() > 0) {
            growth += Growth.thermal(radius, segment.expansion(), segment.temperature() - COLD);
        }
        return growth;
    }

    /** Segment that a passage belongs to; null when the rotor has none. */
    public static Rotor.Segment segment(PassageSpec spec, Rotor rotor) {
        String name = spec.word("segment", "");
        Rotor.Segment nearest = null;
        for (Rotor.Segment segment : rotor.segments()) {
            if (segment.name().equals(name)) {
                return segment;
            }
            if (nearest == null
                    || Math.abs(segment.outerRadius() - spec.radius())
                            < Math.abs(nearest.outerRadius() - spec.radius())) {
                nearest = segment;
            }
        }
        return nearest;
    }
}
