package purgewright.sealflow.supply;

/**
 * A spring-loaded pressure regulator: its outlet falls with the flow, and it gives up when the inlet comes too near.
 *
 * <pre>{@code p_out = p_set - droop m,   at most p_in - margin}</pre>
 *
 * <p>Typical: 5 to 15 % droop over the range (SUP-09, common practice).
 *
 * @param setPressure outlet without flow, Pa
 * @param droop Pa s/kg
 * @param margin least difference of inlet and outlet at which it still regulates, Pa
 */
public record Regulator(double setPressure, double droop, double margin) {
    /** Checks. */
    public Regulator {
        if (!(setPressure > 0) || !(droop >= 0) || !(margin >= 0)) {
            throw new IllegalArgumentException("set pressure " + setPressure + " Pa must be above 0, droop " + droop
                    + " Pa s/kg and margin " + margin + " Pa at least 0");
        }
    }

    /** Outlet pressure at an inlet pressure and a flow, Pa. */
    public double outlet(double inlet, double flow) {
        return Math.min(setPressure - droop * flow, inlet - margin);
    }

    /** True when the inlet is too low to regulate at that flow. */
    public boolean droppedOut(double inlet, double flow) {
        return inlet - margin < setPressure - droop * flow;
    }

    /** Least bottle pressure that still gives the outlet at that flow, Pa: what is below is not usable. */
    public double leastInlet(double flow) {
        return setPressure - droop * flow + margin;
    }
}
