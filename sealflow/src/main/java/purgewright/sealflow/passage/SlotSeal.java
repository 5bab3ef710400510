package purgewright.sealflow.passage;

import purgewright.fluids.FluidState;
import purgewright.fluids.Phase;
import purgewright.sealflow.model.PassageSpec;

/** A seal whose leak is one friction slot, perhaps with open joints beside it: bushings, floating and segmented rings, rim gaps. */
class SlotSeal extends DirectedPassage {
    private final FrictionSlot slot;
    private final double area;
    private final double joints;
    private final double radius;
    private final double gap;
    private final double length;
    private final double speed;
    private final Friction.Drag drag;
    private final Throttle.Flashing flashing;

    /** @param joints effective area of openings in parallel with the slot, m2 */
    SlotSeal(
            PassageSpec spec,
            FrictionSlot slot,
            double area,
            double joints,
            double radius,
            double gap,
            double length,
            double speed,
            Throttle.Flashing flashing) {
        super(spec);
        this.slot = slot;
        this.area = area;
        this.joints = joints;
        this.radius = radius;
        this.gap = gap;
        this.length = length;
        this.speed = speed;
        this.drag = new Friction.Drag(speed, radius, length, gap);
        this.flashing = flashing;
    }

    /** Notices of the type; the flow through the slot is given per passage. */
    void note(Notices notices, FluidState up, double down, double mass, double viscosity) {}

    @Override
    PassageFlow oneWay(FluidState up, double down, boolean forward) {
        FrictionSlot.Solver r = slot.flow(up, down, flashing);
        Notices notices = new Notices().extrapolated(r.extrapolated, up);
        double mass = r.flux * area;
        boolean choked = r.choked;
        if (joints > 0) {
            Throttle.Flux jet = Throttle.flux(up, down, flashing);
            mass += joints * jet.flux();
            choked |= jet.choked();
            notices.extrapolated(jet.extrapolated() && !r.extrapolated, up);
        }
        note(notices, up, down, mass, r.meanViscosity);
        double heat = drag.power(r.meanDensity, r.meanViscosity);
        return answer(up, forward, mass, area + joints, choked, r.exit, r.reynolds, heat, NO_STAGES, notices);
    }

    /** With hardly any flow the gap's means are those of what stands before it; a boiling one is left to the flow. */
    @Override
    double heatAtRest(FluidState up, boolean forward) {
        return up.phase() == Phase.TWO_PHASE
                ? super.heatAtRest(up, forward)
                : drag.power(up.density(), up.fluid().viscosity(up));
    }

    @Override
    double slopeAtRest(FluidState up, boolean forward) {
        return area * slot.slopeAtRest(up) + (joints > 0 ? joints * Throttle.slopeAtRest(up) : 0);
    }

    @Override
    double openArea() {
        return area + joints;
    }

    @Override
    public double diffusionLength() {
        return length;
    }

    @Override
    public double surfaceSpeed() {
        return Math.abs(speed) * radius;
    }

    @Override
    public double gap() {
        return gap;
    }
}
