package purgewright.sealflow.passage;

import purgewright.fluids.FluidState;

/** A flow path between two cavities at given geometry, speed and running clearance. Immutable, so that threads may share it. */
public interface Passage {
    /**
     * Flow at two end states, each at this passage's own radius; mass flow is positive from {@code from} and smooth through zero
     * pressure difference. What flows has the composition and total enthalpy of the upstream end.
     */
    PassageFlow flow(FluidState from, FluidState to);

    /** Open area for diffusion, m2; 0 where nothing diffuses (a valve held shut). */
    double diffusionArea();

    /** Length over which species diffuse, m. */
    double diffusionLength();

    /** Surface speed of the rotor at the gap, m/s; 0 off the shaft. */
    double surfaceSpeed();

    /** The film of a face seal between two states; null for everything else. For results only: it may cost much more than a flow. */
    default Film film(FluidState from, FluidState to) {
        return null;
    }

    /**
     * A film between two faces.
     *
     * @param gap m, at the inner edge
     * @param force of the film, and of contact, on each face, N
     * @param liftOffSpeed least speed at which a film holds at these pressures, rad/s: 0 where it holds at rest, NaN where the gap is stated or no
     *     speed up to the running one lifts
     * @param liftOffPressure least pressure difference at which a film holds at this speed, Pa; NaN where the gap is stated or none up to
     *     the present one lifts
     */
    record Film(double gap, double force, double liftOffSpeed, double liftOffPressure) {}

    /** Radius to which a slinger's liquid reaches between two states, m; NaN for everything else, and where it leaks. For results only. */
    default double interfaceRadius(FluidState from, FluidState to) {
        return Double.NaN;
    }

    /** Gap that enters D_eff = D + beta U c, m; 0 off the shaft. */
    double gap();
}
