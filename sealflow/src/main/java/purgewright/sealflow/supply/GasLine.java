package purgewright.sealflow.supply;

import purgewright.fluids.Fluid;
import purgewright.fluids.FluidState;
import purgewright.fluids.PropertyException;

/**
 * Pressure at the end of a gas line with wall friction and losses, isothermal:
 *
 * <pre>{@code p1^2 - p2^2 = (G^2 p1/rho1) (f L/d + K + 2 ln(p1/p2)),   1/sqrt f = -2 log10(eps/(3.7 d) + 2.51/(Re sqrt f))}</pre>
 *
 * <p>Colebrook's friction (64/Re below Re 2300); density and viscosity of the inlet, p/rho constant along the line, so that it is
 * good for falls up to a few tenths. A line that cannot pass the flow has no end pressure: NaN. Check SUP-08.
 *
 * @param diameter m
 * @param length m
 * @param roughness m
 * @param lossCoefficient sum of bends, filter and fittings, in velocity heads
 */
public record GasLine(double diameter, double length, double roughness, double lossCoefficient) {
    /** Roughness of drawn tube, m [common practice]. */
    public static final double DRAWN = 1.5e-6;

    /** Checks. */
    public GasLine {
        if (!(diameter > 0) || !(length > 0) || !(roughness >= 0) || !(lossCoefficient >= 0)) {
            throw new IllegalArgumentException("diameter " + diameter + " m and length " + length
                    + " m must be above 0, roughness " + roughness + " m and loss coefficient " + lossCoefficient
                    + " at least 0");
        }
    }

    /** Pressure at the end, Pa; NaN when the line cannot pass the flow. */
    public double outlet(FluidState inlet, double flow) {
        if (!(flow > 0)) {
            return inlet.pressure();
        }
        Fluid fluid = inlet.fluid();
        double viscosity;
        try {
            viscosity = fluid.viscosity(inlet);
        } catch (PropertyException e) {
            return Double.NaN;
        }
        return outlet(inlet.pressure(), inlet.density(), viscosity, flow);
    }

    /**
     * The same from numbers.
     *
     * @param pressure of the inlet, Pa
     * @param density of the inlet, kg/m3
     * @param viscosity Pa s
     * @param flow kg/s
     */
    public double outlet(double pressure, double density, double viscosity, double flow) {
        double flux = flow / (Math.PI * diameter * diameter / 4);
        double re = flux * diameter / viscosity;
        double resistance = friction(re) * length / diameter + lossCoefficient;
        double unit = flux * flux * pressure / density;
        double p2 = pressure;
        for (int n = 0; n < 200; n++) {
            double square = pressure * pressure - unit * (resistance + 2 * Math.log(pressure / p2));
            // Beyond the isothermal choke, where p2^2 = G^2 p/rho, there is no steady flow.
            if (!(square > unit)) {
                return Double.NaN;
            }
            double next = Math.sqrt(square);
            if (Math.abs(next - p2) < 1e-12 * pressure) {
                return next;
            }
            p2 = next;
        }
        return p2;
    }

    /** Darcy friction factor. */
    double friction(double re) {
        if (re < 2300) {
            return 64 / Math.max(re, 1e-9);
        }
        double x = 8;
        for (int n = 0; n < 100; n++) {
            double next = -2 * Math.log10(roughness / (3.7 * diameter) + 2.51 * x / re);
            if (Math.abs(next - x) < 1e-14 * x) {
                break;
            }
            x = next;
        }
        return 1 / (x * x);
    }
}
