package purgewright.sealflow.supply;

/**
 * A spring-loaded pressure regulator: its outlet falls with the flow, rises a little as the inlet falls, and it gives up when the
 * inlet comes too near.
 *
 * <pre>{@code p_out = p_set - droop m + effect (p_first - p_in),   at most p_in - margin}</pre>
 *
 * <p>Typical: 5 to 15 % droop over the range, 0.5 to 1 % of the fall in inlet pressure (SUP-09, common practice). The set pressure is
 * that at the first inlet pressure.
 *
 * @param setPressure outlet without flow at the first inlet pressure, Pa
 * @param droop Pa s/kg
 * @param margin least difference of inlet and outlet at which it still regulates, Pa
 * @param inletEffect rise of the outlet per fall of the inlet, 1
 * @param firstInlet inlet pressure at which it was set, Pa; NaN without inlet effect
 */
public record Regulator(double setPressure, double droop, double margin, double inletEffect, double firstInlet) {
    /** Checks. */
    public Regulator {
        if (!(setPressure > 0) || !(droop >= 0) || !(margin >= 0) || !(inletEffect >= 0)) {
            throw new IllegalArgumentException("set pressure " + setPressure + " Pa must be above 0, droop " + droop
                    + " Pa s/kg, margin " + margin + " Pa and inlet effect " + inletEffect + " at least 0");
        }
        if (inletEffect > 0 && !(firstInlet > 0)) {
            throw new IllegalArgumentException("an inlet effect needs the inlet pressure at which it was set");
        }
    }

    /** A regulator that does not feel its inlet. */
    public Regulator(double setPressure, double droop, double margin) {
        this(setPressure, droop, margin, 0, Double.NaN);
    }

    /** Outlet pressure at an inlet pressure and a flow, Pa. */
    public double outlet(double inlet, double flow) {
        return Math.min(regulated(inlet, flow), inlet - margin);
    }

    /** True when the inlet is too low to regulate at that flow. */
    public boolean droppedOut(double inlet, double flow) {
        return inlet - margin < regulated(inlet, flow);
    }

    private double regulated(double inlet, double flow) {
        double effect = inletEffect == 0 ? 0 : inletEffect * (firstInlet - inlet);
        return setPressure - droop * flow + effect;
    }

    /** Least bottle pressure that still gives the outlet at that flow, Pa: what is below is not usable. */
    public double leastInlet(double flow) {
        double effect = inletEffect == 0 ? 0 : inletEffect * firstInlet;
        return (setPressure - droop * flow + effect + margin) / (1 + inletEffect);
    }
}
