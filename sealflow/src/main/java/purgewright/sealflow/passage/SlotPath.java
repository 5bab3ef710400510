package purgewright.sealflow.passage;

import java.util.Arrays;
import purgewright.fluids.FluidState;
import purgewright.fluids.Phase;
import purgewright.fluids.PropertyException;

/**
 * Specific volume and viscosity along the adiabatic path of a duct: {@code v(p, h0 - G^2 v^2 / 2)} for any flux G, from a few states.
 *
 * <p>At given pressure v is taken linear in h: exact for a perfect gas and in the dome of a pure fluid. So {@code v + a G^2 v^2/2 = v0} with
 * v0 the volume at h0 and a = dv/dh at p. p v0 (for a liquid, v0) is a polynomial in p through Chebyshev-Lobatto points, four if the last
 * term is below 1e-4, else seven; through the dome, and where a polynomial will not do, p v0 is a monotone cubic in ln p. A liquid's path
 * takes the larger of the liquid's and the dome's volume, so the flash point moves with the kinetic energy.
 *
 * <p>Not shared between threads: {@link #at} leaves its answer in the fields.
 */
final class SlotPath {
    private static final double[] DOME_GRID = {
        0, -0.005, -0.015, -0.03, -0.055, -0.09, -0.14, -0.21, -0.31, -0.45, -0.65, -0.95, -1.4, -2.0, -2.8, -3.8, -5,
        -6.5
    };

    private final FluidState up;
    private final double lowest;
    private final boolean dense;
    // Polynomial (Newton form) of v0 (dense) or p v0 (gas) in p.
    private double[] node;
    private double[] term;
    private double slope0;
    private double slope1;
    private double viscosity0;
    private double viscosity1;
    // Table in ln(p / edge).
    private double edge = Double.NaN;
    private boolean liquidBefore;
    private double[] x;
    private double[] table;
    private double[] tableSlope;
    /** Coarser abscissae of what varies slowly. */
    private double[] coarse;

    private double[] shift;
    private double[] shiftSlope;
    private double[] logViscosity;
    private double[] logViscositySlope;
    private boolean extrapolated;

    /** Specific volume, m3/kg, and its derivative by pressure along the path; answers of {@link #at}. */
    double volume;

    double slope;

    SlotPath(FluidState up, double down, Throttle.Flashing flashing) {
        this.up = up;
        this.lowest = Math.max(down, 2e-3 * up.pressure());
        this.dense = Throttle.dense(up);
        double dp = up.pressure() - lowest;
        double w2 = up.soundSpeed() * up.soundSpeed();
        double most = 0.2 * w2;
        double scale = dp / up.density() + 0.002 * w2;
        double step = most * scale / (scale + most);
        if (up.phase() == Phase.TWO_PHASE) {
            tabulate(up.pressure(), step);
            return;
        }
        FluidState low = state(lowest, up.enthalpy());
        if (low == null) {
            extrapolated = true;
            frozen(dp);
            return;
        }
        if (low.phase() == Phase.TWO_PHASE) {
            if (dense) {
                if (flashing == Throttle.Flashing.FROZEN) {
                    frozen(dp);
                    return;
                }
                FluidState before = DomeEdge.find(up, low, p -> state(p, up.enthalpy()));
                liquidBefore = true;
                polynomial(before, 3, step);
                tabulate(before.pressure(), step);
                return;
            }
            tabulate(up.pressure(), step);
            return;
        }
        if (!polynomial(low, 4, step) && !polynomial(low, 7, step)) {
            tabulate(up.pressure(), step);
        }
    }

    double lowest() {
        return lowest;
    }

    boolean extrapolated() {
        return extrapolated;
    }

    /** Pressure below which the path may be in the dome; NaN when it has no liquid part. */
    double edge() {
        return liquidBefore ? edge : Double.NaN;
    }

    /** A liquid that stays liquid, or a gas whose state could not be had: the upstream compressibility carries on. */
    private void frozen(double dp) {
        double v0 = 1 / up.density();
        if (dense) {
            node = new double[] {up.pressure(), up.pressure() - dp};
            double z = up.density() * up.soundSpeed();
            term = new double[] {v0, -1 / (z * z)};
        } else {
            node = new double[] {up.pressure()};
            term = new double[] {up.pressure() * v0};
            slope0 = 0.2;
            slope1 = 0.2;
        }
        viscosity0 = up.fluid().viscosity(up);
        viscosity1 = viscosity0;
    }

    private boolean polynomial(FluidState low, int points, double step) {
        double p0 = up.pressure();
        double p1 = low.pressure();
        double[] nodes = new double[points];
        double[] values = new double[points];
        double middle = 0.5 * (p0 + p1);
        double half = 0.5 * (p0 - p1);
        for (int j = 0; j < points; j++) {
            boolean first = j == 0;
            boolean last = j == points - 1;
            double p = first ? p0 : last ? p1 : middle + half * Math.cos(Math.PI * j / (points - 1));
            FluidState at = first ? up : last ? low : state(p, up.enthalpy());
            if (at == null || (at.phase() == Phase.TWO_PHASE && !liquidBefore)) {
                return false;
            }
            nodes[j] = p;
            values[j] = (dense ? 1 : p) / at.density();
        }
        double scale = Math.abs(values[0]);
        for (int k = 1; k < points; k++) {
            for (int j = points - 1; j >= k; j--) {
                values[j] = (values[j] - values[j - 1]) / (nodes[j] - nodes[j - k]);
            }
        }
        // Largest value of the last term is about 2 (range/4)^(n-1) times its coefficient.
        double last = 2 * Math.abs(values[points - 1]) * Math.pow(half / 2, points - 1);
        if (points > 3 && !(last < 1e-4 * scale) && half > 1e-6 * p0) {
            return false;
        }
        node = nodes;
        term = values;
        slope0 = slopeByEnthalpy(up, step) * (dense ? 1 : p0);
        slope1 = half > 0.02 * p0 ? slopeByEnthalpy(low, step) * (dense ? 1 : p1) : slope0;
        viscosity0 = up.fluid().viscosity(up);
        viscosity1 = half > 1e-4 * p0 ? low.fluid().viscosity(low) : viscosity0;
        return true;
    }

    private void tabulate(double from, double step) {
        edge = from;
        double end = Math.log(lowest / from);
        int size = 1;
        while (size < DOME_GRID.length && DOME_GRID[size - 1] > end) {
            size++;
        }
        size = Math.min(DOME_GRID.length, Math.max(3, size + 1));
        x = new double[size];
        table = new double[size];
        FluidState[] states = new FluidState[size];
        int filled = 0;
        for (int i = 0; i < size; i++) {
            double p = from * Math.exp(DOME_GRID[i]);
            FluidState at = i == 0 && from == up.pressure() ? up : state(i == 0 ? p * (1 - 1e-6) : p, up.enthalpy());
            if (at == null) {
                extrapolated = true;
                break;
            }
            x[i] = DOME_GRID[i];
            table[i] = p / at.density();
            states[i] = at;
            filled++;
        }
        if (filled < 2) {
            x = null;
            edge = Double.NaN;
            liquidBefore = false;
            frozen(up.pressure() - lowest);
            return;
        }
        if (filled < size) {
            x = Arrays.copyOf(x, filled);
        }
        tableSlope = Pchip.slopes(x, table, filled);
        // dv/dh and viscosity vary slowly: every third point and the last.
        int count = (filled + 1) / 3 + 1;
        coarse = new double[count];
        shift = new double[count];
        logViscosity = new double[count];
        for (int k = 0; k < count; k++) {
            int i = k == count - 1 ? filled - 1 : 3 * k;
            FluidState at = states[i];
            coarse[k] = x[i];
            shift[k] = at.pressure() * slopeByEnthalpy(at, step);
            logViscosity[k] = Math.log(at.fluid().viscosity(at));
        }
        shiftSlope = Pchip.slopes(coarse, shift, count);
        logViscositySlope = Pchip.slopes(coarse, logViscosity, count);
    }

    /** dv/dh at constant pressure by a one-sided difference towards lower enthalpy, or towards higher where there is no such state. */
    private double slopeByEnthalpy(FluidState at, double step) {
        FluidState colder = state(at.pressure(), at.enthalpy() - step);
        if (colder != null && samePhase(colder, at)) {
            return (1 / at.density() - 1 / colder.density()) / step;
        }
        FluidState warmer = state(at.pressure(), at.enthalpy() + step);
        if (warmer != null && samePhase(warmer, at)) {
            return (1 / warmer.density() - 1 / at.density()) / step;
        }
        FluidState any = colder != null ? colder : warmer;
        return any == null ? 0 : (1 / at.density() - 1 / any.density()) / (at.enthalpy() - any.enthalpy());
    }

    private static boolean samePhase(FluidState a, FluidState b) {
        return (a.phase() == Phase.TWO_PHASE) == (b.phase() == Phase.TWO_PHASE);
    }

    private FluidState state(double pressure, double enthalpy) {
        try {
            return up.fluid().atPressureEnthalpy(pressure, enthalpy);
        } catch (PropertyException e) {
            return null;
        }
    }

    /** Volume and slope at a pressure for a flux; into the fields. */
    void at(double p, double flux) {
        double g2 = flux * flux;
        boolean tabled = x != null && p < edge;
        if (tabled || (x != null && !liquidBefore)) {
            double at = Math.log(p / edge);
            int i = Pchip.interval(x, x.length, at);
            double a = Pchip.value(x, table, tableSlope, i, at);
            int j = Pchip.interval(coarse, coarse.length, at);
            double b = Pchip.value(coarse, shift, shiftSlope, j, at);
            double v0 = a / p;
            double dv0 = (Pchip.derivative(x, table, tableSlope, i, at) - a) / (p * p);
            double s = b / p;
            double ds = (Pchip.derivative(coarse, shift, shiftSlope, j, at) - b) / (p * p);
            kinetic(v0, dv0, s, ds, g2);
            if (!liquidBefore) {
                return;
            }
            double wetVolume = volume;
            double wetSlope = slope;
            smooth(p, g2);
            if (wetVolume > volume) {
                volume = wetVolume;
                slope = wetSlope;
            }
            return;
        }
        smooth(p, g2);
    }

    private void smooth(double p, double g2) {
        double value = term[term.length - 1];
        double derivative = 0;
        for (int k = term.length - 2; k >= 0; k--) {
            derivative = derivative * (p - node[k]) + value;
            value = value * (p - node[k]) + term[k];
        }
        double range = node.length > 1 ? node[0] - node[node.length - 1] : 0;
        double t = range > 0 ? (p - node[node.length - 1]) / range : 1;
        double s = slope1 + (slope0 - slope1) * t;
        double ds = range > 0 ? (slope0 - slope1) / range : 0;
        if (dense) {
            kinetic(value, derivative, s, ds, g2);
        } else {
            double v0 = value / p;
            kinetic(v0, (derivative - v0) / p, s / p, (ds - s / p) / p, g2);
        }
    }

    private void kinetic(double v0, double dv0, double s, double ds, double g2) {
        double root = Math.sqrt(Math.max(1e-12, 1 + 2 * s * g2 * v0));
        double v = 2 * v0 / (1 + root);
        volume = v;
        slope = (dv0 - 0.5 * ds * g2 * v * v) / (1 + s * g2 * v);
    }

    /** Viscosity at a pressure on the path, Pa s. */
    double viscosity(double p) {
        if (x != null && (p < edge || !liquidBefore)) {
            double at = Math.log(p / edge);
            int i = Pchip.interval(coarse, coarse.length, at);
            return Math.exp(Pchip.value(coarse, logViscosity, logViscositySlope, i, at));
        }
        double range = node.length > 1 ? node[0] - node[node.length - 1] : 0;
        double t = range > 0 ? (p - node[node.length - 1]) / range : 1;
        return viscosity1 + (viscosity0 - viscosity1) * t;
    }

    /** True where the liquid has begun to flash at this pressure and flux. */
    boolean flashed(double p, double flux) {
        if (!liquidBefore || p >= edge) {
            return false;
        }
        at(p, flux);
        double both = volume;
        smooth(p, flux * flux);
        return both > volume;
    }
}
