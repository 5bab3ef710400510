package purgewright.sealflow.passage;

import purgewright.fluids.FluidState;
import purgewright.fluids.Phase;
import purgewright.sealflow.SmoothStep;
import purgewright.sealflow.model.PassageSpec;

/**
 * A short opening: area times coefficient times the throttle's flux.
 *
 * <p>Where no coefficient is given it is that of a jet from a sharp edge ({@link Contraction}) for thin walls, going over to 0.81 for
 * walls two diameters thick (short cylindrical mouthpiece, Weisbach: Encyclopaedia Britannica 11th ed., "Hydraulics" section 63: 0.81 to
 * 0.84).
 *
 * <p>Chaplygin's jet ends at the sonic line; sharp openings were measured to reach 0.839 far beyond the choke (J. A. Perry, Trans. ASME 71
 * (1949) [from memory]). So the high bound of a thin opening goes over to 0.86 as the back pressure falls from the throat's to zero.
 */
final class OpeningPassage extends DirectedPassage {
    private static final double MOUTHPIECE = 0.81;
    /** What no sharp opening exceeds, LAB-04. */
    private static final double SHARP_MOST = 0.86;

    private final double area;
    private final double coefficient;
    private final double thick;
    private final double factor;
    private final Throttle.Flashing flashing;
    private final double length;
    private final double diameter;
    private final boolean judged;

    /**
     * @param area of one opening, m2
     * @param coefficient NaN: by contraction
     * @param thick 0 thin to 1 thick wall; counts where no coefficient is given
     * @param factor on the flow, for bounds
     * @param judged true where a stated coefficient below 0.5 or above 1 is no plain hole's (LAB-05); valves' may be anything
     */
    OpeningPassage(
            PassageSpec spec,
            double area,
            double coefficient,
            double thick,
            double factor,
            Throttle.Flashing flashing,
            double diameter,
            double length,
            boolean judged) {
        super(spec);
        this.area = area;
        this.coefficient = coefficient;
        this.thick = thick;
        this.factor = factor;
        this.flashing = flashing;
        this.diameter = diameter;
        this.length = length;
        this.judged = judged;
    }

    @Override
    PassageFlow oneWay(FluidState up, double down, boolean forward) {
        Throttle.Flux jet = Throttle.flux(up, down, flashing);
        double c = coefficient;
        boolean full = true;
        if (Double.isNaN(c)) {
            double fade = up.phase() == Phase.TWO_PHASE
                    ? Contraction.fade(up.quality())
                    : Contraction.fade(up.density(), up.fluid().criticalDensity());
            double thin = fade == 0
                    ? Contraction.INCOMPRESSIBLE
                    : Contraction.ofJet(
                            jet.machSquared(), up.fluid().idealGasHeatCapacityRatio(up.temperature()), fade);
            full = fade == 0 || thick >= 1 || jet.machSquared() >= 1.1;
            // Only the high bound has a factor above 1.
            if (factor > 1 && fade > 0 && jet.choked() && thin * factor < SHARP_MOST) {
                thin += SmoothStep.of(1 - down / jet.throatPressure()) * (SHARP_MOST / factor - thin);
                full = thick >= 1;
            }
            c = thin + thick * (MOUTHPIECE - thin);
        }
        double mass = factor * area * c * jet.flux();
        Notices notices = new Notices().extrapolated(jet.extrapolated(), up);
        if (judged && !Double.isNaN(coefficient)) {
            notices.range("opening", "discharge coefficient", coefficient, 0.5, 1);
        }
        double re = Double.NaN;
        return answer(up, forward, mass, area, jet.choked() && full, jet.throatPressure(), re, 0, NO_STAGES, notices);
    }

    @Override
    double slopeAtRest(FluidState up, boolean forward) {
        double c = Double.isNaN(coefficient)
                ? Contraction.INCOMPRESSIBLE + thick * (MOUTHPIECE - Contraction.INCOMPRESSIBLE)
                : coefficient;
        return factor * area * c * Throttle.slopeAtRest(up);
    }

    @Override
    double openArea() {
        return area;
    }

    @Override
    public double diffusionLength() {
        return length + 0.8 * diameter;
    }

    @Override
    public double surfaceSpeed() {
        return 0;
    }

    @Override
    public double gap() {
        return 0;
    }
}
