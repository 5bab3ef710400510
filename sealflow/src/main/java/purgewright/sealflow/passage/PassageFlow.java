package purgewright.sealflow.passage;

import java.util.List;
import purgewright.sealflow.Notice;

/**
 * What flows through a passage. SI.
 *
 * @param massFlow kg/s, positive from {@code from} to {@code to}, all parallel passages together
 * @param choked true when a lower downstream pressure would not raise the flow
 * @param gapVelocity lowest velocity along the gap, m/s, with the sign of the flow
 * @param throatPressure Pa at the narrowest or last section
 * @param reynolds of the gap (2 m / (perimeter mu) for slots, Re_D for pipes); NaN where it means nothing
 * @param heat power that rotor drag adds to the fluid in the gap, W
 * @param stagePressures Pa after each tooth or section, in the direction of flow; empty for single passages
 * @param notices range and regime notices; place is left empty and filled by the network
 */
public record PassageFlow(
        double massFlow,
        boolean choked,
        double gapVelocity,
        double throatPressure,
        double reynolds,
        double heat,
        double[] stagePressures,
        List<Notice> notices) {}
