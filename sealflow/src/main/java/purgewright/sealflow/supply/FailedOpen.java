package purgewright.sealflow.supply;

import java.util.function.DoubleUnaryOperator;
import purgewright.fluids.FluidState;
import purgewright.fluids.PureFluid;

/**
 * A regulator that has failed open, with a relief valve behind it: the pressure at which what comes in goes out.
 *
 * <pre>{@code C_s A_s G(bottle -> p) = C_r A_r lift(p) G(p -> air) + purge(p)}</pre>
 *
 * <p>G is the greatest isentropic mass flux of the real gas; the relief valve begins to lift at its pressure and is full open 10 %
 * above it [common practice]. Discharge coefficients 0.9 of the open seat and 0.7 of the relief valve [common practice]; both to the
 * unsafe side of a mean on purpose. The gas behind the regulator has the bottle's enthalpy.
 *
 * @param seat diameter of the regulator's open seat, m
 * @param relief diameter of the relief valve's seat, m; 0 for none
 * @param reliefPressure at which it begins to lift, Pa
 */
public record FailedOpen(double seat, double relief, double reliefPressure) {
    private static final double SEAT_COEFFICIENT = 0.9;
    private static final double RELIEF_COEFFICIENT = 0.7;
    private static final double OVERPRESSURE = 0.1;

    /** Pressure over its own at which a relief valve is full open [common practice]. */
    public static final double FULL_OPEN = 1 + OVERPRESSURE;

    /** Checks. */
    public FailedOpen {
        if (!(seat > 0) || !(relief >= 0) || (relief > 0 && !(reliefPressure > 0))) {
            throw new IllegalArgumentException("seat " + seat + " m must be above 0, relief " + relief
                    + " m at least 0, and a relief valve needs its pressure: " + reliefPressure + " Pa");
        }
    }

    /**
     * Pressure behind the regulator, Pa.
     *
     * @param bottle state of the gas in the bottles
     * @param air pressure that the relief valve blows into, Pa
     * @param purge flow that the purge takes at a pressure, kg/s
     */
    public double pressure(FluidState bottle, double air, DoubleUnaryOperator purge) {
        double low = air * 1.0001;
        double high = bottle.pressure();
        for (int n = 0; n < 80 && high - low > 1e-9 * high; n++) {
            double p = (low + high) / 2;
            if (net(bottle, p, air, purge) > 0) {
                low = p;
            } else {
                high = p;
            }
        }
        return (low + high) / 2;
    }

    private double net(FluidState bottle, double p, double air, DoubleUnaryOperator purge) {
        double in = SEAT_COEFFICIENT * area(seat) * flux(bottle, p);
        double out = purge.applyAsDouble(p);
        if (relief > 0 && p > reliefPressure) {
            double lift = Math.min(1, (p - reliefPressure) / (OVERPRESSURE * reliefPressure));
            FluidState here = bottle.fluid().atPressureEnthalpy(p, bottle.enthalpy());
            out += RELIEF_COEFFICIENT * area(relief) * lift * flux(here, air);
        }
        return in - out;
    }

    private static double area(double diameter) {
        return Math.PI * diameter * diameter / 4;
    }

    /** Greatest isentropic mass flux to a pressure, kg/(m2 s), by golden section over the throat's pressure. */
    static double flux(FluidState up, double down) {
        if (down >= up.pressure()) {
            return 0;
        }
        double golden = (Math.sqrt(5) - 1) / 2;
        double a = Math.max(down, 0.3 * up.pressure());
        double b = up.pressure();
        double x = b - golden * (b - a);
        double y = a + golden * (b - a);
        double fx = at(up, x);
        double fy = at(up, y);
        for (int n = 0; n < 60 && b - a > 1e-9 * up.pressure(); n++) {
            if (fx >= fy) {
                b = y;
                y = x;
                fy = fx;
                x = b - golden * (b - a);
                fx = at(up, x);
            } else {
                a = x;
                x = y;
                fx = fy;
                y = a + golden * (b - a);
                fy = at(up, y);
            }
        }
        return Math.max(Math.max(fx, fy), at(up, a));
    }

    /** Throat pressure over that before it where the flux is greatest: below it a nozzle runs choked. */
    static double criticalRatio(FluidState up) {
        double choked = flux(up, 0.3 * up.pressure());
        double low = 0.3;
        double high = 1;
        for (int n = 0; n < 40; n++) {
            double middle = (low + high) / 2;
            if (flux(up, middle * up.pressure()) >= choked * (1 - 1e-9)) {
                low = middle;
            } else {
                high = middle;
            }
        }
        return low;
    }

    private static double at(FluidState up, double p) {
        FluidState throat = up.fluid().atPressureEntropy(p, up.entropy());
        return throat.density() * Math.sqrt(2 * Math.max(0, up.enthalpy() - throat.enthalpy()));
    }

    /** Temperature behind a regulator at a pressure: same enthalpy (SUP-07), K. */
    public static double behindRegulator(PureFluid gas, FluidState bottle, double pressure) {
        return gas.atPressureEnthalpy(pressure, bottle.enthalpy()).temperature();
    }
}
