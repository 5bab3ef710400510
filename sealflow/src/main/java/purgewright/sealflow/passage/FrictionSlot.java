package purgewright.sealflow.passage;

import purgewright.fluids.FluidState;
import purgewright.fluids.phase.QuickLog;
import purgewright.sealflow.SmoothStep;

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
    private static final double FLAT = 0.5;

    /** The same for a start in the dome, whose throttle may choke at 0.9 of the upstream pressure. */
    private static final double WET = 0.2;

    /** Relative drop of pressure that is looked at as such even where a liquid flashes at once: a search cannot begin at none. */
    private static final double LEAST_FLAT = 1e-8;

    /** Places at which an uneven path is looked at for a sonic point. */
    private static final int LOOKS = 12;

    /** Of a panel. */
    private static final int MOST_POINTS = 6;

    private static final double LOG_4 = Math.log(4);
    private static final double LOG_1000 = Math.log(1000);

    private static final Rule SIX =
            new Rule(0, new double[] {0.2386191860831969, 0.6612093864662645, 0.9324695142031521}, new double[] {
                0.4679139345726910, 0.3607615730481386, 0.1713244923791704
            });
    private static final Rule FOUR = new Rule(0, new double[] {0.3399810435848563, 0.8611363115940526}, new double[] {
        0.6521451548625461, 0.3478548451374539
    });
    private static final Rule THREE = new Rule(8.0 / 9, new double[] {0.7745966692414834}, new double[] {5.0 / 9});
    private static final Rule TWO = new Rule(0, new double[] {0.5773502691896258}, new double[] {1});

    /** Points and weights of Gauss-Legendre on [-1, 1], and what a smooth function's values there make of it at 1 (Lagrange). */
    static final class Rule {
        final double[] point;
        final double[] weight;
        final double[] ahead;

        /** Of the points above 0 and what 0 itself weighs. */
        Rule(double middle, double[] upper, double[] weights) {
            int half = upper.length;
            int size = 2 * half + (middle > 0 ? 1 : 0);
            point = new double[size];
            weight = new double[size];
            ahead = new double[size];
            if (middle > 0) {
                weight[half] = middle;
            }
            for (int i = 0; i < half; i++) {
                int low = half - 1 - i;
                int high = size - 1 - low;
                point[low] = -upper[i];
                point[high] = upper[i];
                weight[low] = weights[i];
                weight[high] = weights[i];
            }
            for (int i = 0; i < size; i++) {
                ahead[i] = 1;
                for (int k = 0; k < size; k++) {
                    ahead[i] *= k == i ? 1 : (1 - point[k]) / (point[i] - point[k]);
                }
            }
        }
    }

    /** Half the logarithm of the pressure ratio below which four points do: 1e-10 of the integral of a smooth friction. */
    private static final double SHORT = 0.25;

    /** The same for three points of a rough trial: 1e-4. */
    private static final double MIDDLING = 0.7;

    /** Expected error of ln q after a step from which on all points are used: those of fewer are off by about as much. */
    private static final double ROUGH = 3e-4;

    /** Expected error of ln q at which the last step is taken unseen. */
    private static final double UNSEEN = 1e-9;

    /** A thread's workspace: solving allocates nothing but states and the answer. */
    private static final ThreadLocal<Solver> SOLVER = ThreadLocal.withInitial(Solver::new);

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

    /**
     * Derivative of the flux by the upstream pressure at zero pressure difference, s/m: laminar, or against the friction of a film that
     * the moving wall keeps turbulent.
     */
    public double slopeAtRest(FluidState up) {
        double mu = up.fluid().viscosity(up);
        double swirl = 7.0 / 16 * surfaceSpeed;
        double reynolds = up.density() * swirl * hydraulicDiameter / mu;
        // f(Re) swirl rho Dh / mu is what stands in for the laminar constant as the axial flow vanishes.
        double constant = surfaceSpeed == 0
                ? laminar
                : Friction.churchill(reynolds, roughness / hydraulicDiameter, laminar) * reynolds;
        return laminarEccentricity
                * 2
                * hydraulicDiameter
                * hydraulicDiameter
                * up.density()
                / (constant * mu * length);
    }

    /** Flow from rest at {@code up} to the pressure {@code down}. */
    public Result solve(FluidState up, double down, Throttle.Flashing flashing) {
        Solver s = flow(up, down, flashing);
        return new Result(
                s.flux,
                s.inlet,
                s.exit,
                s.choked,
                s.reynolds,
                s.meanDensity,
                s.meanViscosity,
                s.exitVolume,
                s.flashed,
                s.extrapolated);
    }

    /** As {@link #solve}; the answer is in the fields of the thread's workspace until its next flow. */
    Solver flow(FluidState up, double down, Throttle.Flashing flashing) {
        return flow(up, down, flashing, 1);
    }

    /** As above, laminar flow multiplied by a factor of slip. */
    Solver flow(FluidState up, double down, Throttle.Flashing flashing, double slip) {
        Solver s = SOLVER.get();
        s.begin(this, up, slip);
        double p0 = up.pressure();
        double dp = p0 - down;
        if (!(dp >= 1e-7 * p0)) {
            double mu = up.fluid().viscosity(up);
            double flux = dp > 0 ? slip * slopeAtRest(up) * dp : 0;
            s.simple(flux, p0, Math.min(p0, down), mu);
            return s;
        }
        SlotPath path = s.path;
        path.set(up, down, flashing);
        if (path.wetFromStart()) {
            s.exponent = path.inletExponent();
        }
        if (flashing == Throttle.Flashing.FROZEN || !path.flashesNear(down)) {
            s.solve(path.lowest());
        } else {
            nearFlashing(s, up, down, flashing);
        }
        return s;
    }

    /**
     * Around the back pressure at which a liquid's exit chokes by flashing the flow would have a corner: the exit's pressure is rounded there,
     * {@code p* + (e + d)^2 / (4 d)} for {@code |e| < d}, with e the back pressure less the choke's p* and d 1 % of that.
     */
    private void nearFlashing(Solver s, FluidState up, double down, Throttle.Flashing flashing) {
        s.path.set(up, 0.7 * down, flashing);
        s.solve(s.path.lowest());
        double sonic = s.exit;
        double width = 0.01 * sonic;
        double over = down - sonic;
        if (!s.choked || over >= width) {
            s.solve(down);
        } else if (over > -width) {
            s.solve(sonic + (over + width) * (over + width) / (4 * width));
        }
    }

    /** One flow at a time; its answer stays in the fields. */
    static final class Solver {
        private final SlotPath path = new SlotPath();
        private final Friction.Factor factor = new Friction.Factor();
        private FrictionSlot slot;
        private FluidState up;
        private double hydraulicDiameter;
        private double length;
        private double inletLoss;
        /** With the factor of slip. */
        private double laminarEccentricity;

        private double relativeRoughness;
        private double p0;
        private double rho0;
        private double exponent;
        private double back;
        private double scale;
        private double turbulentPower;
        /** Heads of the losses along the duct as a friction factor. */
        private double lossFactor;

        private double driving;
        private double needed;
        /** d ln(driving / needed) / d ln q at the last trial. */
        private double steepness;

        /** Derivative of the driving integral by ln G, and its integrand by pressure at the inlet. */
        private double byFlux;

        private double atInlet;
        /** Whether all along the path is smooth. */
        private boolean even;

        /** Whether trials use fewer points: two to four, instead of four or six. */
        private boolean rough;

        /** How the exponent of f changes with ln G, near the inlet. */
        private double curvature;

        /** What the bend is likely to be, from one trial. */
        private double firstBend;

        /** d(slope)/d ln q of the curve that {@link #quick} looks for the zero of, from its last two trials. */
        private double bend;

        /** Whether the path is a liquid's from end to end: nearly even in p, where a gas is in ln p. */
        private boolean liquid;

        /** Whether the inlet chokes before the duct does. */
        private boolean inletLimits;

        /** Exit pressure over flux of the last choked trial; that of a perfect gas before one. */
        private double sonicRatio;

        /** kg/(m2 s). */
        double flux;
        /** Pa behind the inlet. */
        double inlet;
        /** Pa at the exit's end. */
        double exit;

        boolean choked;
        double reynolds;
        double meanDensity;
        double meanViscosity;
        double exitVolume;
        boolean flashed;
        boolean extrapolated;

        /** How often the last flow asked its path for a volume. */
        int asked() {
            return path.asked;
        }

        private void begin(FrictionSlot of, FluidState from, double slip) {
            up = from;
            p0 = up.pressure();
            rho0 = up.density();
            exponent = rho0 * up.soundSpeed() * up.soundSpeed() / p0;
            laminarEccentricity = of.laminarEccentricity * slip;
            if (slot == of) {
                return;
            }
            slot = of;
            hydraulicDiameter = of.hydraulicDiameter;
            length = of.length;
            inletLoss = of.inletLoss;
            relativeRoughness = of.roughness / hydraulicDiameter;
            turbulentPower = of.turbulentEccentricity == 1 ? 1 : Math.pow(of.turbulentEccentricity, 1.75);
            lossFactor = of.otherLosses > 0 && length > 0 ? of.otherLosses * hydraulicDiameter / length : 0;
        }

        /** Flow too small to change the state. */
        private void simple(double g, double behind, double end, double mu) {
            flux = g;
            inlet = behind;
            exit = end;
            choked = false;
            reynolds = g * hydraulicDiameter / mu;
            meanDensity = rho0;
            meanViscosity = mu;
            exitVolume = 1 / rho0;
            flashed = false;
            extrapolated = false;
        }

        private void solve(double backPressure) {
            back = backPressure;
            scale = Math.sqrt(2 * p0 * rho0 / (1 + inletLoss));
            // A perfect gas turns sonic at p* = G w* / n, w*^2 = 2 w0^2 / (n + 1).
            sonicRatio = up.soundSpeed() * Math.sqrt(2 / (exponent + 1)) / exponent;
            double dp = p0 - back;
            double end = Math.sqrt(dp / p0);
            inletLimits = false;
            double mu = path.viscosity(p0);
            liquid = path.noChokeBefore() && Double.isNaN(path.edge());
            // Up to here the inlet is far from its own choke: a gas by its pressure ratio, a liquid until it flashes, a
            // wet start hardly at all.
            double flat = path.noChokeBefore() ? end : path.wetFromStart() ? WET : FLAT;
            if (!Double.isNaN(path.edge())) {
                flat = Math.min(flat, Math.sqrt(Math.max(LEAST_FLAT, 1 - path.edge() / p0)));
            }
            double most = Math.min(end, flat);
            double guess = Math.min(guess(dp, mu), 0.9 * end);
            double root = guess < most ? quick(guess, most) : Double.NaN;
            if (Double.isNaN(root)) {
                root = bracket(guess, end, flat);
                balance(root);
            } else {
                flux = inletFlux(root);
                locateExit();
            }
            choked |= inletLimits;
            reynolds = flux * hydraulicDiameter / mu;
            path.at(exit, flux);
            exitVolume = path.volume;
            flashed = path.flash(exit, flux) > 0;
            double middle = 0.5 * (inlet + exit);
            path.at(middle, flux);
            meanDensity = 1 / path.volume;
            meanViscosity = path.viscosity(middle);
            extrapolated = path.extrapolated();
        }

        /** q of a flux from mean density and friction, the exit held at or above where it would choke: good to some per cent. */
        private double guess(double dp, double mu) {
            double g = laminarEccentricity
                    * 2
                    * hydraulicDiameter
                    * hydraulicDiameter
                    * rho0
                    * dp
                    / (slot.laminar * mu * length);
            double turbulent =
                    Math.sqrt(2 * rho0 * dp / (1 + inletLoss + slot.otherLosses + 0.03 * length / hydraulicDiameter));
            g = g * turbulent / (g + turbulent);
            double f = 0;
            double first = g;
            for (int i = 0; i < 2; i++) {
                double last = Math.min(0.98 * p0, Math.max(back, g * Math.sqrt(p0 / (rho0 * exponent))));
                // A dome's curve is known down to the back pressure only.
                last = path.wetFromStart() ? Math.max(back, last) : last;
                double middle = 0.5 * (p0 + last);
                path.at(middle, g);
                f = i == 0
                        ? friction(
                                g,
                                1 / path.volume,
                                path.viscosityHere(middle),
                                2 * g * g * path.volumeByFlux2 / path.volume)
                        : f * (1 + factor.exponent * Math.max(-0.3, Math.min(0.3, g / first - 1)));
                double expansion = liquid ? 0 : 2 * QuickLog.of(p0 / last);
                double heads = 1 + inletLoss + f * length / hydraulicDiameter + expansion;
                g = Math.sqrt(2 * (p0 - last) / (path.volume * heads));
            }
            double q = g / scale;
            if (q < 0.6) {
                q *= QuickLog.exp(-QuickLog.of(1 - q * q) / exponent);
            }
            return q;
        }

        private double bracket(double guess, double end, double flat) {
            double high = end;
            boolean limited = false;
            double low = Math.min(guess, 0.9 * flat);
            double fLow = balance(low);
            if (fLow == 0) {
                return low;
            }
            double upper = low;
            double fUpper = fLow;
            if (fLow > 0) {
                while (fUpper > 0 && upper < high) {
                    low = upper;
                    fLow = fUpper;
                    upper = upper * 1.6;
                    if (upper > flat && !limited) {
                        limited = true;
                        if (high > flat) {
                            high = Roots.maximise(this::inletFlux, flat, high, 1e-9);
                        }
                    }
                    upper = Math.min(high, upper);
                    fUpper = balance(upper);
                }
                if (fUpper > 0) {
                    // The inlet itself passes no more: choked where that is not for want of pressure difference.
                    inletLimits = high < end * (1 - 1e-6);
                    return high;
                }
            } else {
                for (int i = 0; fLow < 0 && i < 200; i++) {
                    upper = low;
                    fUpper = fLow;
                    low /= 1.6;
                    fLow = balance(low);
                }
            }
            return Roots.find(this::balance, low, fLow, upper, fUpper, 1e-11);
        }

        /**
         * Newton on ln(driving / needed) against ln q, which is nearly straight (slope -1 laminar, -2 turbulent); NaN where it leaves the
         * range in which the inlet is far from its own choke. It goes by few points until steps are short, then by all of them: their
         * difference hardly changes with q, so that as a rule one trial of all is enough. The slope is exact; what it changes by is known from
         * the trials before, and the last step is taken unseen once what it may miss is below 1e-9.
         */
        private double quick(double guess, double high) {
            even = !path.uneven() && Double.isNaN(path.edge()) && !path.wetFromStart();
            rough = even;
            double answer = newton(guess, high);
            rough = false;
            return answer;
        }

        private double newton(double guess, double high) {
            double limit = QuickLog.of(high);
            double x = QuickLog.of(guess);
            double q = guess;
            double lastX = Double.NaN;
            double lastSlope = 0;
            for (int i = 0; i < 16; i++) {
                balance(q);
                if (!(driving > 0)) {
                    return Double.NaN;
                }
                double r = QuickLog.of(driving / needed);
                if (Math.abs(r) < 1e-13 && !rough) {
                    return q;
                }
                double slope = Math.min(-0.4, steepness);
                double span = x - lastX;
                if (i == 0) {
                    bend = firstBend;
                } else if (Math.abs(span) > 1e-6) {
                    bend = (slope - lastSlope) / span;
                }
                double step = -r / slope;
                // The parabola's zero, to second order.
                double turn = -0.5 * bend / slope * step;
                step *= 1 + Math.max(-0.3, Math.min(0.3, turn));
                double size = Math.abs(step);
                // What is not known of the bend, and what comes after it.
                double miss = size * size * (0.2 * Math.abs(bend) + size);
                if (!rough && i > 0 && size < 1e-3 && miss < UNSEEN) {
                    return QuickLog.exp(x + step);
                }
                if (miss < ROUGH) {
                    rough = false;
                }
                lastX = x;
                lastSlope = slope;
                x += Math.max(-1.5, Math.min(1.5, step));
                if (!(x < limit)) {
                    return Double.NaN;
                }
                q = QuickLog.exp(x);
            }
            return Double.NaN;
        }

        /** Flux that an inlet pressure p0 (1 - q^2) belongs to; the pressure goes into the field. Rises with q up to the inlet's choke. */
        private double inletFlux(double q) {
            double logR = q > 0.1 ? QuickLog.of(1 - q * q) : Math.log1p(-q * q);
            double logEdge = path.edge() <= p0 ? Math.log(path.edge() / p0) : Double.NEGATIVE_INFINITY;
            double drop;
            if (logR >= logEdge || Double.isNaN(path.wetExponent())) {
                drop = p0 / rho0 * expansion(logR, exponent);
            } else {
                // On into the dome from its edge, with the exponent there.
                double v = Math.exp(-logEdge / exponent) / rho0;
                drop = p0 / rho0 * expansion(logEdge, exponent)
                        + path.edge() * v * wetExpansion(logR - logEdge, path.wetExponent());
            }
            double u2 = 2 * drop / (1 + inletLoss);
            inlet = p0 * (1 - q * q);
            double v = path.volumeAtVelocity(inlet, u2);
            // u^2 grows with the drop, -d(drop) = v dp on the isentrope; the pressure falls with q.
            double fall = 2 * q * q * p0;
            double ideal = logR >= logEdge
                    ? QuickLog.exp(-logR / exponent) / rho0
                    : QuickLog.exp(-logEdge / exponent) * wetVolume(logR - logEdge, path.wetExponent()) / rho0;
            double u2ByQ = 2 * fall * ideal / (1 + inletLoss);
            fluxByQ = 0.5 * u2ByQ / u2 - (path.inletByVelocity2 * u2ByQ - path.inletByPressure * fall) / v;
            return Math.sqrt(u2) / v;
        }

        /** Integral of v dp from 1 down to a ratio, over p v at the start: (1 - r^a)/a with a = 1 - 1/n, with its limit at a = 0. */
        static double expansion(double logRatio, double n) {
            double a = 1 - 1 / n;
            double z = a * logRatio;
            if (Math.abs(z) < 1e-12) {
                return -logRatio;
            }
            return Math.abs(z) > 0.01 ? (1 - QuickLog.exp(z)) / a : -Math.expm1(z) / a;
        }

        /**
         * As {@link #expansion} in the dome, where that exponent is met at its edge only. Of a liquid that flashes it is some hundredths there, and by
         * its power v would grow beyond all measure; v linear in 1/p with that slope is near what it does (J. C. Leung's omega [from memory]). Both
         * are the same at 1, from which on the power stands.
         */
        static double wetExpansion(double logRatio, double n) {
            return n >= 1 ? expansion(logRatio, n) : -logRatio / n - (1 - 1 / n) * Math.expm1(logRatio);
        }

        /** The volume that goes with it, over that at the edge. */
        private static double wetVolume(double logRatio, double n) {
            return n >= 1 ? QuickLog.exp(-logRatio / n) : 1 + Math.expm1(-logRatio) / n;
        }

        /** Excess of the driving integral over what friction needs, over p0 rho0; falls with q, where p1 = p0 (1 - q^2). */
        private double balance(double q) {
            flux = inletFlux(q);
            locateExit();
            byFlux = 0;
            atInlet = 0;
            driving = exit < inlet ? integrate(exit, inlet) : 0;
            needed = flux * flux * (length / (2 * hydraulicDiameter));
            double atConstantInlet = byFlux / driving - 2;
            double byInlet = -2 * q * q * p0 * atInlet / driving;
            steepness = atConstantInlet * fluxByQ + byInlet;
            // The inlet's share grows with q^2 over the driving integral, and the flux falls behind q as 1 - q^2 does.
            firstBend = byInlet * (2 - steepness - 2 * fluxByQ)
                    - 2 * atConstantInlet * (1 - fluxByQ)
                    - curvature * fluxByQ * fluxByQ;
            return (driving - needed) / (p0 * rho0);
        }

        /** d ln G / d ln q at the last trial. */
        private double fluxByQ;

        private double sonicFunction(double p) {
            path.at(p, flux);
            return 1 + flux * flux * path.slope;
        }

        /**
         * The exit's pressure: the back pressure, or where the flow first turns sonic before it. A path that crosses the dome, or passes near its
         * top, can be sonic inside and subsonic again at the back pressure: there it is looked at on the way.
         */
        private void locateExit() {
            exit = Math.min(back, inlet);
            choked = false;
            double atBack = sonicFunction(exit);
            if (path.inPieces() && exit < 0.9 * inlet && chokesAtFlash()) {
                return;
            }
            if (atBack >= 0 && path.uneven() && exit < 0.9 * inlet) {
                double high = inlet;
                double atHigh = sonicFunction(inlet);
                double inside = path.edge() * (1 - 1e-6);
                if (atHigh > 0 && path.sharpEdge() && inside < inlet && inside > exit && sonicFunction(inside) < 0) {
                    // The sound speed drops at the dome's edge.
                    double outside = sonicFunction(path.edge());
                    exit = outside < 0 ? sonic(path.edge(), outside, inlet, atHigh) : path.edge();
                    choked = true;
                    return;
                }
                double ratio = Math.pow(exit / inlet, 1.0 / LOOKS);
                for (int i = 1; i < LOOKS && atHigh > 0; i++) {
                    double p = i == 1 ? inlet * ratio : high * ratio;
                    double here = sonicFunction(p);
                    if (here < 0) {
                        exit = sonic(p, here, high, atHigh);
                        choked = true;
                        return;
                    }
                    high = p;
                    atHigh = here;
                }
                return;
            }
            if (atBack < 0) {
                double atInlet = sonicFunction(inlet);
                exit = atInlet <= 0 ? inlet : sonic(exit, atBack, inlet, atInlet);
                choked = exit > back * (1 + 1e-9);
            }
        }

        /** Where several liquids boil the sound speed is low in a narrow range behind the flash point only, which other looks would miss. */
        private boolean chokesAtFlash() {
            if (path.sharpEdge() || !(path.edge() < inlet)) {
                return false;
            }
            for (double depth = 1e-3; depth < 0.1; depth *= 2) {
                double p = path.edge() * (1 - depth);
                double here = p > exit ? sonicFunction(p) : 0;
                if (here < 0) {
                    double atInlet = sonicFunction(inlet);
                    exit = atInlet <= 0 ? inlet : sonic(p, here, inlet, atInlet);
                    choked = true;
                    return true;
                }
            }
            return false;
        }

        /**
         * Pressure where 1 + G^2 dv/dp changes sign; at a flash point it jumps. For a perfect gas the function is 1 - (p*{@code /}p)^2 with p*
         * in proportion to G: from there by secants, within the bracket.
         */
        private double sonic(double from, double fFrom, double to, double fTo) {
            double a = from;
            double b = to;
            double c = sonicRatio * flux;
            if (!(c > a && c < b)) {
                double fraction = fTo / (fTo - fFrom);
                c = a * b / Math.sqrt((1 - fraction) * a * a + fraction * b * b);
            }
            // The integrand is 0 there: the integral does not feel a miss of 1e-5.
            double close = rough ? 1e-3 : 1e-5;
            double last = Double.NaN;
            double fLast = Double.NaN;
            for (int i = 0; i < 80 && b - a > 1e-11 * b; i++) {
                if (!(c > a && c < b) || i > 6) {
                    c = 0.5 * (a + b);
                }
                double fc = sonicFunction(c);
                if (fc > 0) {
                    b = c;
                } else {
                    a = c;
                }
                double next = i == 0 ? c * Math.sqrt(Math.max(0.1, 1 - fc)) : c - fc * (c - last) / (fc - fLast);
                // On an even path a secant misses by the product of the last two values.
                boolean near = (even && i > 0)
                        ? Math.abs(fc * fLast) < 0.1 * close
                        : Math.abs(fc) < close && Math.abs(next - c) < close * c;
                if (near) {
                    sonicRatio = next / flux;
                    return next;
                }
                last = c;
                fLast = fc;
                c = next;
            }
            sonicRatio = b / flux;
            return b;
        }

        private double integrate(double from, double to) {
            double edge = path.edge();
            if (Double.isNaN(edge) || from >= edge) {
                return panel(from, to);
            }
            if (path.sharpEdge()) {
                return to <= edge ? panel(from, to) : panel(from, edge * (1 - 1e-9)) + panel(edge, to);
            }
            double wetExcess = path.flash(from, flux);
            if (!(wetExcess > 0)) {
                return panel(from, to);
            }
            double wet = from;
            double dry = Math.min(edge, to);
            double dryExcess = path.flash(Math.min(dry, edge * (1 - 1e-12)), flux);
            if (dryExcess > 0) {
                wet = dry;
            }
            int side = 0;
            for (int i = 0; i < 60 && dry - wet > 1e-12 * dry; i++) {
                double at = (wet * dryExcess - dry * wetExcess) / (dryExcess - wetExcess);
                if (!(at > wet && at < dry) || i % 5 == 4) {
                    at = 0.5 * (wet + dry);
                }
                double excess = path.flash(at, flux);
                if (excess > 0) {
                    wet = at;
                    wetExcess = excess;
                    if (side == 1) {
                        dryExcess *= 0.5;
                    }
                    side = 1;
                } else {
                    dry = at;
                    dryExcess = excess;
                    if (side == -1) {
                        wetExcess *= 0.5;
                    }
                    side = -1;
                }
                if (Math.abs(excess) < 1e-12 / rho0) {
                    dry = at;
                    wet = at;
                }
            }
            double split = Math.sqrt(from * wet);
            double inner = Math.sqrt(split * wet);
            return (dry < to ? panel(dry, to) : 0) + panel(inner, wet) + panel(split, inner) + panel(from, split);
        }

        /** Integral of the driving term over f, Gauss-Legendre in ln p; its derivative by ln G is added up beside it. */
        private double panel(double from, double to) {
            if (liquid) {
                return liquidPanel(from, to);
            }
            double half = 0.5 * QuickLog.of(to / from);
            if (half < 1e-9) {
                return 0;
            }
            double middle = Math.sqrt(from * to);
            Rule fine = half < SHORT ? FOUR : SIX;
            Rule coarse = half < SHORT ? TWO : half < MIDDLING ? THREE : FOUR;
            Rule rule = rough ? coarse : fine;
            for (int i = 0; i < rule.point.length; i++) {
                look(i, middle * QuickLog.exp(half * rule.point[i]));
            }
            double sum = 0;
            double slope = 0;
            double ahead = 0;
            for (int i = 0; i < rule.point.length; i++) {
                sum += rule.weight[i] * drive(i);
                slope += rule.weight[i] * driveSlope;
                ahead += rule.ahead[i] * factor.value;
            }
            behindInlet(to, ahead);
            byFlux += slope * half;
            return sum * half;
        }

        /** The same in p. */
        private double liquidPanel(double from, double to) {
            double half = 0.5 * (to - from);
            double middle = 0.5 * (from + to);
            Rule rule = rough ? TWO : FOUR;
            for (int i = 0; i < rule.point.length; i++) {
                look(i, middle + half * rule.point[i]);
            }
            double sum = 0;
            double slope = 0;
            double ahead = 0;
            for (int i = 0; i < rule.point.length; i++) {
                double share = rule.weight[i] / at[i];
                sum += share * drive(i);
                slope += share * driveSlope;
                ahead += rule.ahead[i] * factor.value;
            }
            behindInlet(to, ahead);
            byFlux += slope * half;
            return sum * half;
        }

        /** The integrand by pressure at the inlet, where the panel ends there; on an even path f comes from its values along the panel. */
        private void behindInlet(double p, double f) {
            curvature = factor.curvature();
            if (p != inlet) {
                return;
            }
            if (even) {
                path.at(p, flux);
                atInlet = (1 + flux * flux * path.slope) / (path.volume * f);
            } else {
                look(0, p);
                atInlet = drive(0) / p;
            }
        }

        // A panel's points: first all are asked of the path, then friction goes by what they hold, for a processor
        // works ahead in short loops.
        private final double[] at = new double[MOST_POINTS];
        private final double[] density = new double[MOST_POINTS];
        private final double[] reynoldsAt = new double[MOST_POINTS];
        /** What friction asks of a point's state, see {@link Friction.Factor}. */
        private final double[] swirl2 = new double[MOST_POINTS];

        private final double[] smooth = new double[MOST_POINTS];
        /** d ln v / dp, and both that and v by ln G. */
        private final double[] stretch = new double[MOST_POINTS];

        private final double[] stretchByFlux = new double[MOST_POINTS];
        private final double[] volumeByFlux = new double[MOST_POINTS];
        private double driveSlope;

        private void look(int i, double p) {
            double g2 = flux * flux;
            path.at(p, flux);
            double rho = 1 / path.volume;
            double longer = path.slope * rho;
            double byFlux2 = 2 * g2 * path.volumeByFlux2 * rho;
            at[i] = p;
            density[i] = rho;
            reynoldsAt[i] = flux * hydraulicDiameter / path.viscosityHere(p);
            swirl2[i] = Friction.Factor.stretch2(flux * path.volume, slot.surfaceSpeed);
            smooth[i] = Friction.Factor.smooth(reynoldsAt[i] * Math.sqrt(swirl2[i]));
            stretch[i] = longer;
            volumeByFlux[i] = byFlux2;
            stretchByFlux[i] = 2 * g2 * path.slopeByFlux2 * rho - longer * byFlux2;
        }

        /** The driving term over f by ln p at a point looked at, and its derivative by ln G in the field. */
        private double drive(int i) {
            double g2 = flux * flux;
            factor.stretched(reynoldsAt[i], swirl2[i], smooth[i], 1 + volumeByFlux[i], relativeRoughness, slot.laminar);
            double f = inThisGap(reynoldsAt[i]);
            double over = at[i] / f;
            double drive = (density[i] + g2 * stretch[i]) * over;
            driveSlope = (-density[i] * volumeByFlux[i] + g2 * (2 * stretch[i] + stretchByFlux[i])) * over
                    - drive * factor.exponent;
            return drive;
        }

        /**
         * Friction factor; its exponent by the flux is in {@link #factor}.
         *
         * @param byFlux d ln v / d ln g
         */
        private double friction(double g, double rho, double mu, double byFlux) {
            double re = g * hydraulicDiameter / mu;
            factor.rotating(re, g / rho, 1 + byFlux, slot.surfaceSpeed, relativeRoughness, slot.laminar);
            return inThisGap(re);
        }

        /** The last factor with eccentricity and the losses along the gap. */
        private double inThisGap(double re) {
            if (laminarEccentricity != 1) {
                double eccentric;
                if (re <= 1000) {
                    eccentric = laminarEccentricity;
                } else if (re >= 4000) {
                    eccentric = turbulentPower;
                } else {
                    double t = (QuickLog.of(re) - LOG_1000) / LOG_4;
                    double range = turbulentPower - laminarEccentricity;
                    eccentric = laminarEccentricity + SmoothStep.of(t) * range;
                    factor.exponent -= 6 * t * (1 - t) / LOG_4 * range / eccentric;
                }
                factor.value /= eccentric;
            }
            if (lossFactor > 0) {
                factor.exponent *= factor.value / (factor.value + lossFactor);
                factor.value += lossFactor;
            }
            return factor.value;
        }
    }
}
