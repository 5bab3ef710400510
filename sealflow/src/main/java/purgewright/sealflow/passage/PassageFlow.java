package purgewright.sealflow.passage;

import java.util.List;
import purgewright.sealflow.Notice;

/**
 * What flows through a passage. SI.
 *
 * <p>Heat of the rotor's drag leaves with the flow, to the downstream end, as long as the flow carries it. A film at rest carries nothing
 * and gives half to each end. Between the two the share goes smoothly, as a cubic over the flows that the heat would warm by more than
 * {@link #UNCARRIED}:
 *
 * <pre>{@code
 * t = m 1e6 J/kg / Q,   heat at the to end = Q (1/2 + 3/4 t - 1/4 t^3)   for |t| < 1,   Q or 0 beyond
 * }</pre>
 *
 * so that neither end's energy jumps where a flow turns round. What one end gets is Q less what the other gets.
 *
 * @param massFlow kg/s, positive from {@code from} to {@code to}, all parallel passages together
 * @param choked true when a lower downstream pressure would not raise the flow
 * @param gapVelocity lowest velocity along the gap, m/s, with the sign of the flow
 * @param throatPressure Pa at the narrowest or last section
 * @param reynolds of the gap (2 m / (perimeter mu) for slots, Re_D for pipes); NaN where it means nothing
 * @param heat power that rotor drag adds to the fluid in the gap, W
 * @param heatAtTo the part of it that reaches the {@code to} end, W
 * @param stagePressures Pa after each tooth or section, in the direction of flow; empty for single passages
 * @param notices range and regime notices; place is left empty and filled by the network, which also notes a choke
 */
public record PassageFlow(
        double massFlow,
        boolean choked,
        double gapVelocity,
        double throatPressure,
        double reynolds,
        double heat,
        double heatAtTo,
        double[] stagePressures,
        List<Notice> notices) {
    /**
     * Warming above which heat is not taken to leave with the flow alone, J/kg (190 K of helium, 1000 K of oxygen): beyond it the walls
     * would carry most of it. The value is ours [invented]; real flows that carry a film's heat lie one to three orders below it.
     */
    public static final double UNCARRIED = 1e6;

    /** With the heat shared between the ends as the flow says. */
    public PassageFlow(
            double massFlow,
            boolean choked,
            double gapVelocity,
            double throatPressure,
            double reynolds,
            double heat,
            double[] stagePressures,
            List<Notice> notices) {
        this(
                massFlow,
                choked,
                gapVelocity,
                throatPressure,
                reynolds,
                heat,
                heat * shareAtTo(massFlow, heat),
                stagePressures,
                notices);
    }

    /** The same flow with another heat, shared between the ends as the flow says. */
    PassageFlow withHeat(double other) {
        return new PassageFlow(massFlow, choked, gapVelocity, throatPressure, reynolds, other, stagePressures, notices);
    }

    /** The part of the heat that reaches the {@code from} end, W. */
    public double heatAtFrom() {
        return heat - heatAtTo;
    }

    private static double shareAtTo(double massFlow, double heat) {
        if (heat == 0) {
            return massFlow >= 0 ? 1 : 0;
        }
        double t = massFlow * UNCARRIED / heat;
        return t >= 1 ? 1 : t <= -1 ? 0 : 0.5 + t * (0.75 - 0.25 * t * t);
    }

    /** Derivative of {@link #heatAtTo} by the mass flow at one heat, J/kg. */
    public double heatTurning() {
        double t = heat == 0 ? 1 : massFlow * UNCARRIED / heat;
        return Math.abs(t) >= 1 ? 0 : UNCARRIED * 0.75 * (1 - t * t);
    }
}
