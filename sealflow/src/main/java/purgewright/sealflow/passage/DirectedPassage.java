package purgewright.sealflow.passage;

import java.util.List;
import purgewright.fluids.FluidState;
import purgewright.sealflow.Notice;
import purgewright.sealflow.model.PassageSpec;

/**
 * A passage made of two one-way flows, one for each direction, joined C1 through zero pressure difference.
 *
 * <p>The slopes of the two at rest differ when the two ends hold different fluids. The steeper one is eased near rest: its pressure
 * difference x is replaced by {@code x - (1 - r) x e^2 / (x^2 + e^2)} with r the ratio of the slopes and e = 1e-5 of the mean pressure;
 * the join is C1 and monotone, and at x = 0.1 % of the pressure the flow is low by less than 1e-4.
 *
 * <p>The heat of drag, too, differs with the fluid that fills the gap. Near rest (below {@link #NEAR} times e, and a flow that the heat
 * would warm by less than {@link PassageFlow#UNCARRIED} fades it out) it goes smoothly to the mean of both fluids', which is its value at
 * rest.
 *
 * <p>A specific head (elevation, centrifugal field) shifts the driving difference by density times head; the density goes smoothly from
 * the one end's to the other's as the flow turns.
 *
 * <p>Here, once for all types, flow is multiplied by the number of parallel passages and by the calibration factor, and a passage held
 * shut passes nothing.
 */
abstract class DirectedPassage implements Passage {
    /** Drive, in units of e, up to which the other end's fluid is looked at. */
    private static final double NEAR = 300;

    /** Relative drop at which the heat of a gap at rest is taken. */
    private static final double AT_REST = 1e-9;

    private final double scale;
    private final int count;
    private final boolean closed;

    DirectedPassage(PassageSpec spec) {
        this.count = Math.max(1, spec.count());
        double factor = Double.isNaN(spec.calibrationFactor()) ? 1 : spec.calibrationFactor();
        this.scale = count * factor;
        this.closed = spec.closed();
    }

    static final double[] NO_STAGES = {};

    /** Flow from rest at {@code up} to a lower pressure: what {@link #answer} makes of it. */
    abstract PassageFlow oneWay(FluidState up, double down, boolean forward);

    /**
     * The answer from what passes one passage in one direction.
     *
     * @param massFlow kg/s, at least 0
     * @param area that the gap velocity is formed with, m2; 0 where there is none
     * @param heat W
     * @param notices null where there are none
     */
    final PassageFlow answer(
            FluidState up,
            boolean forward,
            double massFlow,
            double area,
            boolean choked,
            double throatPressure,
            double reynolds,
            double heat,
            double[] stages,
            Notices notices) {
        double sign = forward ? 1 : -1;
        double velocity = area > 0 ? massFlow / (up.density() * area) : 0;
        return new PassageFlow(
                sign * massFlow * scale,
                choked,
                sign * velocity,
                throatPressure,
                reynolds,
                heat * count,
                stages,
                notices == null ? List.of() : notices.list());
    }

    /**
     * Heat of one passage's drag while hardly anything flows, W; by a tiny flow unless a type knows it without one, which is quicker.
     *
     * @param up what fills the gap
     */
    double heatAtRest(FluidState up, boolean forward) {
        return oneWay(up, up.pressure() * (1 - AT_REST), forward).heat() / count;
    }

    /** Derivative of the flow by the upstream pressure where both pressures are equal, kg/(s Pa). */
    abstract double slopeAtRest(FluidState up, boolean forward);

    /** Specific head that flow from {@code from} to {@code to} works against, J/kg. */
    double head() {
        return 0;
    }

    /** Open area of one passage for diffusion, m2. */
    abstract double openArea();

    @Override
    public final double diffusionArea() {
        return closed ? 0 : count * openArea();
    }

    @Override
    public final PassageFlow flow(FluidState from, FluidState to) {
        if (closed) {
            return new PassageFlow(0, false, 0, from.pressure(), Double.NaN, 0, NO_STAGES, List.<Notice>of());
        }
        double x = drive(from, to);
        boolean forward = x >= 0;
        FluidState up = forward ? from : to;
        FluidState other = forward ? to : from;
        double drop = Math.abs(x);
        double size = drop;
        double ease = 0.5e-5 * (from.pressure() + to.pressure());
        if (size < NEAR * ease && up.fluid() != null) {
            double here = slopeAtRest(up, forward);
            double there = slopeAtRest(other, !forward);
            if (here > there) {
                double relative = size / ease;
                size -= (1 - there / here) * size / (relative * relative + 1) * taper(relative / NEAR);
            }
        }
        PassageFlow flow = oneWay(up, up.pressure() - size, forward);
        if (drop < NEAR * ease && surfaceSpeed() != 0 && other.fluid() != null) {
            double there = count * heatAtRest(other, !forward);
            double carried = Math.abs(flow.massFlow()) / scale * count * PassageFlow.UNCARRIED;
            double largest = Math.max(flow.heat(), there);
            if (carried < largest) {
                double turned = 0.5 * (there - flow.heat()) * taper(drop / (NEAR * ease)) * taper(carried / largest);
                return flow.withHeat(flow.heat() + turned);
            }
        }
        return flow;
    }

    /** 1 at 0 and 0 at 1 with zero slope there, so that the easing ends where it is no longer computed. */
    private static double taper(double t) {
        return t >= 1 ? 0 : (1 - t * t) * (1 - t * t);
    }

    /** Pressure difference that drives flow, Pa, positive from {@code from}: that of the ends less the head. */
    double drive(FluidState from, FluidState to) {
        return from.pressure() - to.pressure() - headPressure(from, to);
    }

    private double headPressure(FluidState from, FluidState to) {
        double head = head();
        if (head == 0) {
            return 0;
        }
        double mean = 0.5 * (from.density() + to.density());
        double half = 0.5 * (from.density() - to.density());
        double bare = from.pressure() - to.pressure() - mean * head;
        double width = Math.abs(half * head) + 1e-6 * (from.pressure() + to.pressure());
        return (mean + half * Math.tanh(bare / (2 * width))) * head;
    }
}
