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

    /** Gap that enters D_eff = D + beta U c, m; 0 off the shaft. */
    double gap();
}
