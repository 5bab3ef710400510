package purgewright.sealflow.passage;

import purgewright.fluids.FluidState;

/**
 * Adiabatic flow with friction through a duct of constant area, from rest, with an inlet loss and a choked exit.
 *
 * <pre>{@code inlet:  (1 + xi) u1^2 / 2 = h0 - h(p1, s0)
 * duct:   integral from p2 to p1 of (rho + G^2 d ln v / dp) / f dp = G^2 L / (2 Dh)}</pre>
 *
 * <p>along h + G^2 v^2 / 2 = h0; with f constant this is {@code G^2 [ln(v2/v1) + f L/(2 Dh)] = integral of rho dp}. The exit chokes where
 * the integrand turns negative, dG/dp2 = 0. f is Churchill's with 96/Re for slots and 64/Re for pipes, rotation as in {@link Friction},
 * and eccentricity dividing it: by 1 + 1.5 e^2 laminar, by the average of (1 + e cos t)^(12/7) to the power 7/4 turbulent, blended between
 * Re 1000 and 4000 on the hydraulic diameter.
 *
 * <p>Valid for one-dimensional flow; a liquid that flashes is homogeneous and in equilibrium, or frozen. A perfect gas gives the Fanno
 * tables.
 *
 * @param hydraulicDiameter m; twice the gap of a slot
 * @param length m
 * @param laminar f Re: 96 for a slot, 64 for a pipe
 * @param roughness m
 * @param inletLoss xi, in velocity heads beyond the head itself
 * @param otherLosses further losses along the duct, in velocity heads (bends, valves), spread like friction
 * @param surfaceSpeed of the moving wall, m/s
 * @param laminarEccentricity factor on laminar flow, 1 when concentric
 * @param turbulentEccentricity factor on turbulent flow, 1 when concentric
 */
public record FrictionSlot(
        double hydraulicDiameter,
        double length,
        double laminar,
        double roughness,
        double inletLoss,
        double otherLosses,
        double surfaceSpeed,
        double laminarEccentricity,
        double turbulentEccentricity) {

    /** Inlet pressures above (1 - FLAT^2) p0 are far from the inlet's own choke. */
    private static final double FLAT = 0.4;

    // Gauss-Legendre, six points on [-1, 1].
    private static final double[] POINT = {0.238619186083197, 0.661209386466265, 0.932469514203152};
    private static final double[] WEIGHT = {0.467913934572691, 0.360761573048139, 0.171324492379170};

    /**
     * @param flux kg/(m2 s)
     * @param inletPressure Pa behind the inlet
     * @param exitPressure Pa at the exit's end, above the back pressure when choked
     * @param choked whether the exit is
     * @param reynolds on the hydraulic diameter, upstream
     * @param meanDensity kg/m3
     * @param meanViscosity Pa s
     * @param exitVolume m3/kg at the exit
     * @param flashed whether liquid turned two-phase inside
     * @param extrapolated whether a state could not be had
     */
    public record Result(
            double flux,
            double inletPressure,
            double exitPressure,
            boolean choked,
            double reynolds,
            double meanDensity,
            double meanViscosity,
            double exitVolume,
            boolean flashed,
            boolean extrapolated) {}

    /** A smooth, concentric slot between still walls. */
    public static FrictionSlot still(double gap, double length, double inletLoss) {
        return new FrictionSlot(2 * gap, length, Friction.SLOT, 0, inletLoss, 0, 0, 1, 1);
    }

    /** Factor of eccentricity on turbulent flow, the average of (1 + e cos t)^(12/7). */
    public static double turbulentFactor(double eccentricity) {
        int n = 64;
        double sum = 0;
        for (int i = 0; i < n; i++) {
            double t = Math.PI * (i + 0.5) / n;
            sum += Math.pow(Math.max(0, 1 + eccentricity * Math.cos(t)), 12.0 / 7);
        }
        return sum / n;
    }

    /** Factor of eccentricity on laminar flow, 1 + 1.5 e^2. */
    public static double laminarFactor(double eccentricity) {
        return 1 + 1.5 * eccentricity * eccentricity;
    }

    /** Derivative of the flux by the upstream pressure at zero pressure difference: laminar, s/m. */
    public double slopeAtRest(FluidState up) {
        double mu = up.fluid().viscosity(up);
        return laminarEccentricity * 2 * hydraulicDiameter * hydraulicDiameter * up.density() / (laminar * mu * length);
    }

    /** Flow from rest at {@code up} to the pressure {@code down}. */
    public Result solve(FluidState up, double down, Throttle.Flashing flashing) {
        double p0 = up.pressure();
        if (!(down < p0)) {
            return new Result(
                    0, p0, p0, false, 0, up.density(), up.fluid().viscosity(up), 1 / up.density(), false, false);
        }
        if (p0 - down < 1e-7 * p0) {
            double flux = slopeAtRest(up) * (p0 - down);
            double mu = up.fluid().viscosity(up);
            double re = flux * hydraulicDiameter / mu;
            return new Result(flux, p0, down, false, re, up.density(), mu, 1 / up.density(), false, false);
        }
        SlotPath path = new SlotPath(up, down, flashing);
        Solver solver = new Solver(up, path);
        return solver.solve();
    }

    private final class Solver {
        private final SlotPath path;
        private final double p0;
        private final double rho0;
        private final double exponent;
        private final double back;
        private double flux;
        private double inlet;
        private double exit;
        private boolean choked;
        private final double turbulentPower = Math.pow(turbulentEccentricity, 1.75);
        private double driving;
        private double needed;

        Solver(FluidState up, SlotPath path) {
            this.path = path;
            this.p0 = up.pressure();
            this.rho0 = up.density();
            this.exponent = up.density() * up.soundSpeed() * up.soundSpeed() / p0;
            this.back = path.lowest();
        }

        Result solve() {
            double dp = p0 - back;
            double end = Math.sqrt(dp / p0);
            double high = end;
            boolean limited = false;
            boolean inletLimits = false;
            double mu = path.viscosity(p0);
            double scale = Math.sqrt(2 * p0 * rho0 / (1 + inletLoss));
            double laminarFlux = laminarEccentricity
                    * 2
                    * hydraulicDiameter
                    * hydraulicDiameter
                    * rho0
                    * dp
                    / (laminar * mu * length);
            double turbulentFlux =
                    Math.sqrt(2 * rho0 * dp / (1 + inletLoss + otherLosses + 0.03 * length / hydraulicDiameter));
            double guess = 1 / (1 / laminarFlux + 1 / turbulentFlux) / scale;
            guess = Math.min(guess, Math.min(0.9 * high, FLAT));
            double root = quick(guess, Math.min(high, FLAT));
            if (Double.isNaN(root)) {
                double low = guess;
                double fLow = balance(low);
                if (fLow == 0) {
                    root = low;
                } else if (fLow > 0) {
                    double upper = low;
                    double fUpper = fLow;
                    while (fUpper > 0 && upper < high) {
                        low = upper;
                        fLow = fUpper;
                        upper = upper * 1.6;
                        if (upper > FLAT && !limited) {
                            limited = true;
                            if (high > FLAT) {
                                high = Roots.maximise(this::inletFlux, FLAT, high, 1e-9);
                            }
                        }
                        upper = Math.min(high, upper);
                        fUpper = balance(upper);
                    }
                    if (fUpper > 0) {
                        // The inlet itself passes no more.
                        root = high;
                        inletLimits = high < end * (1 - 1e-6);
                    } else {
                        root = Roots.find(this::balance, low, fLow, upper, fUpper, 1e-11);
                    }
                } else {
                    double upper = low;
                    double fUpper = fLow;
                    for (int i = 0; fLow < 0 && i < 200; i++) {
                        upper = low;
                        fUpper = fLow;
                        low /= 1.6;
                        fLow = balance(low);
                    }
                    root = Roots.find(this::balance, low, fLow, upper, fUpper, 1e-11);
                }
            }
            balance(root);
            choked |= inletLimits;
            path.at(exit, flux);
            double exitVolume = path.volume;
            path.at(0.5 * (inlet + exit), flux);
            double meanDensity = 1 / path.volume;
            double meanViscosity = path.viscosity(0.5 * (inlet + exit));
            return new Result(
                    flux,
                    inlet,
                    exit,
                    choked,
                    flux * hydraulicDiameter / mu,
                    meanDensity,
                    meanViscosity,
                    exitVolume,
                    path.flashed(exit, flux),
                    path.extrapolated());
        }

        /**
         * Secant on ln(driving / needed) against ln q, which is nearly straight (slope -1 laminar, -2 turbulent); NaN where it leaves the
         * range in which the inlet is far from its own choke.
         */
        private double quick(double guess, double high) {
            double x0 = Math.log(guess);
            balance(guess);
            if (!(driving > 0)) {
                return Double.NaN;
            }
            double r0 = Math.log(driving / needed);
            double x1 = x0 + Math.max(-1.5, Math.min(1.5, 0.6 * r0));
            double limit = Math.log(high);
            for (int i = 0; i < 12; i++) {
                if (!(x1 < limit)) {
                    return Double.NaN;
                }
                double q = Math.exp(x1);
                balance(q);
                if (!(driving > 0)) {
                    return Double.NaN;
                }
                double r1 = Math.log(driving / needed);
                double step = x1 == x0 ? 0 : -r1 * (x1 - x0) / (r1 - r0);
                if (Math.abs(r1) < 1e-12 || Math.abs(step) < 1e-12) {
                    return q;
                }
                x0 = x1;
                r0 = r1;
                x1 += Math.max(-1, Math.min(1, step));
                if (Double.isNaN(x1)) {
                    return Double.NaN;
                }
            }
            return Double.NaN;
        }

        /** Flux that an inlet pressure p0 (1 - q^2) belongs to; the pressure goes into the field. Rises with q up to the inlet's choke. */
        private double inletFlux(double q) {
            double p1 = p0 * (1 - q * q);
            double a = 1 - 1 / exponent;
            double logR = Math.log1p(-q * q);
            double z = a * logR;
            // expm1(z)/a, with its limit at a = 0
            double drop = p0 / rho0 * (Math.abs(z) < 1e-12 ? -logR : -Math.expm1(z) / a);
            double u2 = 2 * drop / (1 + inletLoss);
            inlet = p1;
            double u1 = Math.sqrt(u2);
            // Volume at h0 - u1^2/2: with G = u1/v1 the path's own relation is met by one Newton-like pass or two.
            double g = u1 * rho0 * Math.exp(logR / exponent);
            for (int i = 0; i < 6; i++) {
                path.at(p1, g);
                double next = u1 / path.volume;
                boolean settled = Math.abs(next - g) < 1e-13 * next;
                g = next;
                if (settled) {
                    break;
                }
            }
            return g;
        }

        /** Excess of the driving integral over what friction needs, over p0 rho0; falls with q, where p1 = p0 (1 - q^2). */
        private double balance(double q) {
            double g = inletFlux(q);
            double p1 = inlet;
            flux = g;
            exit = Math.min(back, p1);
            choked = false;
            path.at(exit, g);
            if (1 + g * g * path.slope < 0) {
                path.at(p1, g);
                if (1 + g * g * path.slope <= 0) {
                    exit = p1;
                } else {
                    exit = sonic(back, p1);
                }
                choked = exit > back * (1 + 1e-9);
            }
            driving = exit < p1 ? integrate(exit, p1) : 0;
            needed = g * g * (length / (2 * hydraulicDiameter));
            return (driving - needed) / (p0 * rho0);
        }

        /** Pressure where 1 + G^2 dv/dp changes sign; at a flash point it jumps. */
        private double sonic(double from, double to) {
            double a = from;
            double b = to;
            path.at(a, flux);
            double fa = 1 + flux * flux * path.slope;
            path.at(b, flux);
            double fb = 1 + flux * flux * path.slope;
            // p* of a perfect gas is linear in G: the function is nearly 1 - (p*/p)^2, so work with that.
            int side = 0;
            for (int i = 0; i < 80 && b - a > 1e-13 * b; i++) {
                double fraction = fb / (fb - fa);
                double inverse = (1 - fraction) / (b * b) + fraction / (a * a);
                double c = 1 / Math.sqrt(inverse);
                if (!(c > a && c < b) || i % 8 == 7) {
                    c = 0.5 * (a + b);
                }
                path.at(c, flux);
                double fc = 1 + flux * flux * path.slope;
                if (fc == 0) {
                    return c;
                }
                if (fc > 0) {
                    b = c;
                    fb = fc;
                    if (side == 1) {
                        fa *= 0.5;
                    }
                    side = 1;
                } else {
                    a = c;
                    fa = fc;
                    if (side == -1) {
                        fb *= 0.5;
                    }
                    side = -1;
                }
            }
            return b;
        }

        private double integrate(double from, double to) {
            double edge = path.edge();
            if (Double.isNaN(edge) || from >= edge || !path.flashed(from, flux)) {
                return panel(from, to);
            }
            double wet = from;
            double dry = Math.min(edge, to);
            for (int i = 0; i < 50 && dry - wet > 1e-12 * dry; i++) {
                double middle = 0.5 * (wet + dry);
                if (path.flashed(middle, flux)) {
                    wet = middle;
                } else {
                    dry = middle;
                }
            }
            double split = Math.sqrt(from * wet);
            double inner = Math.sqrt(split * wet);
            return (dry < to ? panel(dry, to) : 0) + panel(inner, wet) + panel(split, inner) + panel(from, split);
        }

        private double panel(double from, double to) {
            double middle = 0.5 * (Math.log(from) + Math.log(to));
            double half = 0.5 * Math.log(to / from);
            if (half < 1e-9) {
                return 0;
            }
            // Friction varies slowly: 1/f by a parabola through the ends and the middle of the panel.
            double f0 = conductance(Math.exp(middle - half * POINT[2]));
            double f1 = conductance(Math.exp(middle));
            double f2 = conductance(Math.exp(middle + half * POINT[2]));
            double linear = 0.5 * (f2 - f0) / POINT[2];
            double square = (0.5 * (f2 + f0) - f1) / (POINT[2] * POINT[2]);
            double sum = 0;
            for (int i = 0; i < 3; i++) {
                double t = POINT[i];
                sum += WEIGHT[i]
                        * (drive(Math.exp(middle - half * t)) * (f1 - linear * t + square * t * t)
                                + drive(Math.exp(middle + half * t)) * (f1 + linear * t + square * t * t));
            }
            return sum * half;
        }

        private double drive(double p) {
            path.at(p, flux);
            return p * (1 + flux * flux * path.slope) / path.volume;
        }

        private double conductance(double p) {
            path.at(p, flux);
            return 1 / friction(p, path.volume);
        }

        private double friction(double p, double v) {
            double re = flux * hydraulicDiameter / path.viscosity(p);
            double f = Friction.rotating(re, flux * v, surfaceSpeed, roughness / hydraulicDiameter, laminar);
            if (laminarEccentricity != 1) {
                double t = Math.max(0, Math.min(1, (Math.log(re) - Math.log(1000)) / Math.log(4)));
                double blend = t * t * (3 - 2 * t);
                f /= laminarEccentricity + blend * (turbulentPower - laminarEccentricity);
            }
            if (otherLosses > 0 && length > 0) {
                f += otherLosses * hydraulicDiameter / length;
            }
            return f;
        }
    }
}
