package purgewright.sealflow.supply;

import purgewright.fluids.FluidState;

/**
 * From a source of gas through regulator and line to the cavity that they feed. The gas keeps its enthalpy (SUP-07): no heat comes
 * in on the way, so that helium arrives a little warmer than it stands behind the valve, and a cold bottle gives cold gas.
 *
 * @param regulator null when the source feeds the line directly
 * @param line null for none
 */
public record Feed(Regulator regulator, GasLine line) {
    /**
     * What arrives.
     *
     * @param pressure Pa; NaN when the line cannot pass the flow
     * @param temperature K
     * @param droppedOut true when the inlet is too low to regulate
     */
    public record Outlet(double pressure, double temperature, boolean droppedOut) {}

    /**
     * Pressure and temperature at the cavity.
     *
     * @param source state of the gas before the regulator, or in the main
     * @param flow kg/s
     */
    public Outlet outlet(FluidState source, double flow) {
        double m = Math.max(0, flow);
        double p = source.pressure();
        boolean dropped = false;
        if (regulator != null) {
            dropped = regulator.droppedOut(source.pressure(), m);
            p = regulator.outlet(source.pressure(), m);
        }
        // A source below the regulator's margin gives nothing; one thousandth of it keeps the states in range.
        p = Math.max(p, 1e-3 * source.pressure());
        FluidState behind = source.fluid().atPressureEnthalpy(p, source.enthalpy());
        double end = line == null ? p : line.outlet(behind, m);
        double temperature = Double.isNaN(end)
                ? behind.temperature()
                : source.fluid().atPressureEnthalpy(end, source.enthalpy()).temperature();
        return new Outlet(end, temperature, dropped);
    }

    /**
     * Least pressure of the source that still regulates at a flow; without a regulator the pressure that the line needs to deliver one.
     *
     * @param flow kg/s
     * @param wanted pressure at the cavity without a regulator, Pa
     */
    public double leastInlet(double flow, double wanted) {
        return regulator == null ? wanted : regulator.leastInlet(flow);
    }
}
