package purgewright.sealflow.passage;

import java.util.function.DoubleUnaryOperator;
import purgewright.fluids.FluidState;
import purgewright.fluids.Phase;
import purgewright.fluids.PropertyException;
import purgewright.fluids.phase.StateBuffer;

/**
 * Mass flux of an isentropic expansion from rest: what a short opening passes per effective area.
 *
 * <pre>{@code G(p0, h0 -> p) = max over p' in [p, p0] of rho(p', s0) sqrt(2 (h0 - h(p', s0)))}</pre>
 *
 * <p>The maximum is the choke. For a gas it is the sonic point, found by Newton on the squared Mach number; for a liquid that
 * flashes it is the homogeneous-equilibrium one, often at the saturation line itself, where the flux has a corner.
 *
 * <p>Near rest the square root is regularised: G is multiplied by (1 + delta^2/dp^2)^(-1/4) with delta = 1e-5 p0, so that the slope
 * at dp = 0 is sqrt(2 rho / delta) and the flux is low by 2.5e-5 at dp = 0.1 % of p0, by 2.5e-9 at 10 %.
 *
 * <p>Three ways to treat a liquid that flashes: {@link Flashing#EQUILIBRIUM} (lower bound), {@link Flashing#FROZEN} (upper bound,
 * no vapour forms) and {@link Flashing#RELAXED} between them: the vapour formed at equilibrium quality x counts by min(1, x/0.14)
 * (its corner rounded from 0.9 to 1.1), the form of R. E. Henry, H. K. Fauske, J. Heat Transfer 93 (1971) 179 [from memory], here within a homogeneous mixture.
 *
 * <p>Units: Pa, kg/(m2 s). The states' fluid is asked for about one state when the flow is subcritical, three to five when it is
 * choked, ten to twenty in the dome.
 */
public final class Throttle {
    /** Regularisation width over upstream pressure. */
    public static final double REST = 1e-5;

    /** Equilibrium quality at which vapour generation counts in full, after Henry and Fauske [from memory]. */
    private static final double FULL_GENERATION = 0.14;

    /** How near 1 the squared Mach number must be for the choke to follow from a state without a further one: within 1e-8 of the flux. */
    private static final double NEARLY_SONIC = 5e-3;

    /** Grid of ln(p / p at the kink) for the relaxed expansion; fine where vapour first forms. */
    private static final double[] DOME_GRID = {
        0, -0.008, -0.02, -0.04, -0.07, -0.11, -0.16, -0.23, -0.32, -0.44, -0.6, -0.8, -1.05, -1.4, -1.9, -2.6, -3.6
    };

    /** Where a thread's states along an isentrope are written. */
    private static final ThreadLocal<StateBuffer> STATE = ThreadLocal.withInitial(StateBuffer::new);

    private Throttle() {}

    /** How vapour forms in a liquid that is expanded below its saturation pressure. */
    public enum Flashing {
        /** At once and in full: homogeneous equilibrium, the lower bound. */
        EQUILIBRIUM,
        /** Partly, by equilibrium quality over 0.14: the mean in the sense of Henry and Fauske. */
        RELAXED,
        /** Not at all: the upper bound. */
        FROZEN
    }

    /**
     * @param flux kg/(m2 s)
     * @param throatPressure Pa; the downstream pressure unless choked
     * @param choked true when the maximum lies above the downstream pressure
     * @param machSquared square of the Mach number at the downstream pressure; infinite far below the choke, 0 where it means nothing
     * @param slope derivative of the flux by the downstream pressure, s/m; for use in Newton
     * @param extrapolated true when a state could not be had and an estimate took its place
     */
    public record Flux(
            double flux,
            double throatPressure,
            boolean choked,
            double machSquared,
            double slope,
            boolean extrapolated) {}

    /** Slope of the regularised flux at zero pressure difference by the upstream pressure, s/m. */
    public static double slopeAtRest(FluidState up) {
        return Math.sqrt(2 * up.density() / (REST * up.pressure()));
    }

    /**
     * Flux from rest at the upstream state to a pressure.
     *
     * @param up upstream, at rest
     * @param down pressure behind the opening, Pa; at or above the upstream one gives zero
     * @param flashing how vapour forms
     */
    public static Flux flux(FluidState up, double down, Flashing flashing) {
        double p0 = up.pressure();
        if (!(down < p0)) {
            return new Flux(0, p0, false, 0, -slopeAtRest(up), false);
        }
        double lowest = Math.max(down, 1e-9 * p0);
        if (p0 - lowest < 1e-5 * p0) {
            return nearRest(up, lowest);
        }
        if (up.phase() == Phase.TWO_PHASE) {
            return regularised(up, lowest, fromDome(up, lowest, flashing));
        }
        return fromSinglePhase(up, lowest, lowest, dense(up), flashing);
    }

    /** True for what expands like a liquid: denser than the critical density and not in the dome. */
    static boolean dense(FluidState state) {
        return state.phase() != Phase.TWO_PHASE
                && state.density() > state.fluid().criticalDensity();
    }

    private static Flux nearRest(FluidState up, double down) {
        double p0 = up.pressure();
        double dp = p0 - down;
        double v0 = 1 / up.density();
        double kappa = compressibility(up);
        double v = v0 + kappa * dp;
        double flux = Math.sqrt(2 * dp * (v0 + kappa * dp / 2)) / v;
        double mach2 = 2 * dp * v0 / sq(up.soundSpeed());
        return regularised(up, down, flux, down, false, mach2, -flux / (2 * dp), false);
    }

    private static Flux regularised(FluidState up, double down, Flux bare) {
        return regularised(
                up, down, bare.flux, bare.throatPressure, bare.choked, bare.machSquared, bare.slope, bare.extrapolated);
    }

    /** Multiplies by (1 + delta^2/dp^2)^(-1/4), slope included. */
    private static Flux regularised(
            FluidState up,
            double down,
            double flux,
            double throat,
            boolean choked,
            double mach2,
            double slope,
            boolean extrapolated) {
        double dp = up.pressure() - down;
        double delta = REST * up.pressure();
        double factor = 1 / Math.sqrt(Math.sqrt(1 + sq(delta / dp)));
        double logSlope = 0.5 * sq(delta) / (dp * (sq(dp) + sq(delta)));
        return new Flux(flux * factor, throat, choked, mach2, factor * (slope - flux * logSlope), extrapolated);
    }

    /** @param rest downstream pressure that the regularisation near rest goes by */
    private static Flux fromSinglePhase(FluidState up, double down, double rest, boolean liquid, Flashing flashing) {
        double p0 = up.pressure();
        double exponent = up.density() * sq(up.soundSpeed()) / p0;
        double guess = liquid && up.phase() == Phase.LIQUID ? down : p0 * criticalRatio(exponent);
        double p = down > 0.9 * guess ? down : guess;
        double lowest = down;
        double highest = p0;
        double failed = 0;
        StateBuffer at = STATE.get();
        for (int i = 0; i < 40; i++) {
            if (!expand(up, p, at)) {
                if (p > 0.98 * p0 || i > 30) {
                    return regularised(up, rest, powerLaw(up, down, exponent));
                }
                failed = p;
                lowest = Math.max(lowest, p);
                p = Math.sqrt(p * highest);
                continue;
            }
            if (at.phase() == Phase.TWO_PHASE) {
                return intoDome(up, at.toState(up.fluid()), down, rest, liquid, flashing);
            }
            double density = at.density();
            double sound2 = sq(at.soundSpeed());
            double drop = drop(up, at);
            double mach2 = 2 * drop / sound2;
            double flux = density * Math.sqrt(2 * drop);
            if (mach2 <= 1 && p <= down) {
                return regularised(up, rest, flux, p, false, mach2, (mach2 - 1) / Math.sqrt(2 * drop), false);
            }
            double n = density * sound2 / p;
            double slope = -(2 + mach2 * (n - 1)) / n;
            double step = -(mach2 - 1) / slope;
            boolean settled = Math.abs(mach2 - 1) < NEARLY_SONIC || (failed > 0 && p < 1.001 * failed);
            if (settled) {
                // The flux is flat here: half the slope at this point times the way to the maximum is third order
                // exact.
                double choke = flux * (1 + 0.5 * (1 - 1 / mach2) / n * step);
                double throat = p * Math.exp(step);
                if (throat <= down) {
                    p = down;
                    lowest = down;
                    highest = p0;
                    if (i > 36) {
                        return regularised(up, rest, choke, down, false, 1, 0, false);
                    }
                    boolean known = expand(up, down, at);
                    if (!known || at.phase() == Phase.TWO_PHASE) {
                        return regularised(up, rest, choke, down, false, 1, 0, !known);
                    }
                    double u = Math.sqrt(2 * drop(up, at));
                    double m2 = sq(u / at.soundSpeed());
                    return regularised(up, rest, at.density() * u, down, false, m2, Math.min(0, (m2 - 1) / u), false);
                }
                // Below what could be had the throat is an estimate.
                boolean beyond = throat < failed;
                return regularised(up, rest, choke, throat, true, machBelow(up, down, throat, n), 0, beyond);
            }
            if (mach2 > 1) {
                lowest = Math.max(lowest, p);
            } else {
                highest = Math.min(highest, p);
            }
            double next = p * Math.exp(step);
            if (!(next > lowest && next < highest)) {
                next = next <= lowest && lowest > failed ? lowest : Math.sqrt(lowest * highest);
                if (Math.abs(next - p) < 1e-12 * p) {
                    next = Math.sqrt(lowest * highest);
                }
            }
            p = next;
        }
        return regularised(up, rest, powerLaw(up, down, exponent));
    }

    /** Squared Mach number at a pressure below the throat; needed only until a contraction is full. */
    private static double machBelow(FluidState up, double down, double throat, double exponent) {
        if (down < 0.8 * throat) {
            return Double.POSITIVE_INFINITY;
        }
        StateBuffer at = STATE.get();
        if (!expand(up, down, at) || at.phase() == Phase.TWO_PHASE) {
            return 1 + (2 + exponent - 1) / exponent * Math.log(throat / down);
        }
        return Math.max(1, 2 * drop(up, at) / sq(at.soundSpeed()));
    }

    /** The expansion meets the dome somewhere between the upstream pressure and the given two-phase state. */
    private static Flux intoDome(
            FluidState up, FluidState wet, double down, double rest, boolean liquid, Flashing flashing) {
        FluidState edge = DomeEdge.find(up, wet, p -> expand(up, p));
        double edgeDrop = drop(up, edge);
        double edgeFlux = edge.density() * Math.sqrt(2 * edgeDrop);
        double mach2 = 2 * edgeDrop / sq(edge.soundSpeed());
        if (mach2 > 1) {
            // Sonic before the dome is reached.
            return fromSinglePhase(up, Math.max(down, edge.pressure()), rest, liquid, flashing);
        }
        if (edge.pressure() <= down) {
            return regularised(up, rest, edgeFlux, down, false, mach2, (mach2 - 1) / Math.sqrt(2 * edgeDrop), false);
        }
        if (liquid && flashing == Flashing.FROZEN) {
            return regularised(up, rest, frozenLiquid(edge, edgeDrop, down));
        }
        if (liquid && flashing == Flashing.RELAXED) {
            return regularised(up, rest, relaxed(up, edge, edgeDrop, down));
        }
        return regularised(up, rest, equilibriumBelow(up, edge.pressure(), edgeFlux, down));
    }

    private static Flux fromDome(FluidState up, double down, Flashing flashing) {
        if (flashing == Flashing.FROZEN) {
            return frozenMixture(up, down);
        }
        if (flashing == Flashing.RELAXED) {
            // Where vapour counts in full from the start this is equilibrium too; one way for all, so that no jump lies
            // between.
            return relaxed(up, up, 0, down);
        }
        return equilibriumBelow(up, up.pressure(), 0, down);
    }

    /** Equilibrium flux in the dome below a pressure at which the flux is known (zero at rest). */
    private static Flux equilibriumBelow(FluidState up, double edge, double edgeFlux, double down) {
        FluidState end = expand(up, down);
        double endFlux = end == null ? 0 : plainFlux(up, end);
        double nudge = Math.min(1e-3, 0.1 * (edge - down) / edge);
        if (end != null) {
            double before = fluxAt(up, down * (1 + nudge));
            if (before < endFlux && endFlux > edgeFlux) {
                double slope = (before - endFlux) / (down * nudge);
                return new Flux(endFlux, down, false, 0, Math.min(0, slope), false);
            }
        }
        double inside = fluxAt(up, edge * (1 - nudge));
        if (edgeFlux > 0 && inside < edgeFlux && !secondRise(up, edge, edgeFlux, down)) {
            return new Flux(edgeFlux, edge, true, Double.POSITIVE_INFINITY, 0, false);
        }
        double x =
                Roots.maximise(logPressure -> fluxAt(up, Math.exp(logPressure)), Math.log(down), Math.log(edge), 1e-6);
        double best = fluxAt(up, Math.exp(x));
        if (best < edgeFlux) {
            return new Flux(edgeFlux, edge, true, Double.POSITIVE_INFINITY, 0, end == null);
        }
        return new Flux(best, Math.exp(x), true, Double.POSITIVE_INFINITY, 0, end == null);
    }

    /** Near the critical point the flux can fall at the dome's edge and rise again to a higher maximum inside. */
    private static boolean secondRise(FluidState up, double edge, double edgeFlux, double down) {
        if (up.density() > 1.8 * up.fluid().criticalDensity()) {
            return false;
        }
        for (double share : new double[] {0.97, 0.93, 0.88, 0.8}) {
            double p = Math.max(down, edge * share);
            if (fluxAt(up, p) > edgeFlux) {
                return true;
            }
        }
        return false;
    }

    private static double fluxAt(FluidState up, double pressure) {
        FluidState at = expand(up, pressure);
        return at == null ? 0 : plainFlux(up, at);
    }

    private static double plainFlux(FluidState up, FluidState at) {
        return at.density() * Math.sqrt(Math.max(0, 2 * (up.enthalpy() - at.enthalpy())));
    }

    /**
     * Flux with retarded vapour generation. Volume along the expansion is {@code v_f + N (v - v_f)} with {@code v_f} that of the
     * unflashed fluid and {@code N = min(1, x/0.14)}; the velocity follows from its integral over pressure.
     */
    private static Flux relaxed(FluidState up, FluidState edge, double edgeDrop, double down) {
        int size = DOME_GRID.length;
        double[] x = new double[size];
        double[] volume = new double[size];
        int filled = 0;
        double startVolume = 1 / edge.density();
        double kappa = up == edge ? 0 : compressibility(edge);
        double vapourVolume = up == edge ? vapourShare(up) : 0;
        double edgePressure = edge.pressure();
        boolean extrapolated = false;
        int beyond = 0;
        // One node more than needed, so that the interpolant does not change when the downstream pressure does.
        for (int i = 0; i < size && beyond < 3; i++) {
            double p = edgePressure * Math.exp(DOME_GRID[i]);
            double v = startVolume;
            if (i > 0) {
                FluidState at = expand(up, p);
                if (at == null) {
                    extrapolated = true;
                    break;
                }
                double unflashed = startVolume
                        + kappa * (edgePressure - p)
                        + vapourVolume * Math.expm1(-DOME_GRID[i] / FROZEN_EXPONENT);
                double share = Contraction.capped(at.quality() / FULL_GENERATION);
                v = unflashed + share * Math.max(0, 1 / at.density() - unflashed);
            }
            x[i] = DOME_GRID[i];
            volume[i] = v;
            filled = i + 1;
            if (p < down) {
                beyond++;
            }
        }
        if (filled < 3) {
            return frozenLiquid(edge, edgeDrop, down);
        }
        double[] slope = Pchip.slopes(x, volume, filled);
        double target = Math.max(Math.log(down / edgePressure), x[filled - 1]);
        double energy = edgeDrop;
        for (int i = 1; i < filled; i++) {
            boolean last = x[i] <= target;
            double to = last ? target : x[i];
            double end = energy + work(x, volume, slope, i, x[i - 1], to, edgePressure);
            if (excess(x, volume, slope, i, to, end, edgePressure) > 0) {
                double high = x[i - 1];
                double low = to;
                for (int k = 0; k < 60 && high - low > 1e-13; k++) {
                    double middle = 0.5 * (high + low);
                    double there = energy + work(x, volume, slope, i, x[i - 1], middle, edgePressure);
                    if (excess(x, volume, slope, i, middle, there, edgePressure) > 0) {
                        low = middle;
                    } else {
                        high = middle;
                    }
                }
                double there = energy + work(x, volume, slope, i, x[i - 1], high, edgePressure);
                double flux = Math.sqrt(2 * there) / Pchip.value(x, volume, slope, i, high);
                return new Flux(flux, edgePressure * Math.exp(high), true, Double.POSITIVE_INFINITY, 0, extrapolated);
            }
            energy = end;
            if (last) {
                double v = Pchip.value(x, volume, slope, i, target);
                double u = Math.sqrt(2 * energy);
                double dvdp = Pchip.derivative(x, volume, slope, i, target) / down;
                return new Flux(u / v, down, false, 0, Math.min(0, -1 / u - u * dvdp / sq(v)), extrapolated);
            }
        }
        return new Flux(
                Math.sqrt(2 * energy) / volume[filled - 1],
                edgePressure * Math.exp(x[filled - 1]),
                true,
                Double.POSITIVE_INFINITY,
                0,
                extrapolated);
    }

    /** Positive once the local flux falls with falling pressure: u^2 (-dv/dp) - v^2. */
    private static double excess(
            double[] x, double[] volume, double[] slope, int interval, double at, double energy, double edgePressure) {
        double v = Pchip.value(x, volume, slope, interval, at);
        double dvdp = Pchip.derivative(x, volume, slope, interval, at) / (edgePressure * Math.exp(at));
        return -2 * energy * dvdp - v * v;
    }

    /** Integral of v dp from {@code to} up to {@code from}, both in ln(p / edge), within one interval; Simpson on four panels. */
    private static double work(
            double[] x, double[] volume, double[] slope, int interval, double from, double to, double edgePressure) {
        double width = (from - to) / 8;
        double sum = 0;
        for (int k = 0; k <= 8; k++) {
            double at = to + k * width;
            int weight = k == 0 || k == 8 ? 1 : k % 2 == 1 ? 4 : 2;
            sum += weight * Pchip.value(x, volume, slope, interval, at) * Math.exp(at);
        }
        return sum * width / 3 * edgePressure;
    }

    /** Exponent of the vapour in a mixture that neither evaporates nor condenses [invented, near that of cold vapours]. */
    private static final double FROZEN_EXPONENT = 1.2;

    /** Volume of the vapour in a kilogram of two-phase fluid, estimated as a perfect gas, m3/kg. */
    private static double vapourShare(FluidState state) {
        double vapour = 8.31446261815324
                * state.temperature()
                / (state.pressure() * state.fluid().molarMass());
        return Math.min(state.quality() * vapour, 0.999 / state.density());
    }

    private static Flux frozenMixture(FluidState up, double down) {
        double p0 = up.pressure();
        double vapour = vapourShare(up);
        double liquid = 1 / up.density() - vapour;
        double m = 1 / FROZEN_EXPONENT;
        DoubleUnaryOperator flux = x -> {
            double r = Math.exp(x);
            double energy = p0 * (liquid * (1 - r) + vapour * (1 - Math.pow(r, 1 - m)) / (1 - m));
            return Math.sqrt(2 * energy) / (liquid + vapour * Math.pow(r, -m));
        };
        double end = Math.log(down / p0);
        double nudge = 1e-6;
        double endFlux = flux.applyAsDouble(end);
        double before = flux.applyAsDouble(end + nudge);
        if (before < endFlux) {
            return new Flux(endFlux, down, false, 0, (before - endFlux) / (down * nudge), false);
        }
        double x = Roots.maximise(flux, end, 0, 1e-9);
        return new Flux(flux.applyAsDouble(x), p0 * Math.exp(x), true, Double.POSITIVE_INFINITY, 0, false);
    }

    /** Liquid carried on below its saturation line with the compressibility it had there; subsonic there, so never choked. */
    private static Flux frozenLiquid(FluidState edge, double edgeDrop, double down) {
        double dp = edge.pressure() - down;
        double v0 = 1 / edge.density();
        double kappa = compressibility(edge);
        double v = v0 + kappa * dp;
        double u = Math.sqrt(2 * (edgeDrop + dp * (v0 + kappa * dp / 2)));
        return new Flux(u / v, down, false, 0, -1 / u + u * kappa / sq(v), false);
    }

    /** Perfect-gas form with the upstream isentropic exponent, where the equations give no state. */
    private static Flux powerLaw(FluidState up, double down, double exponent) {
        double p0 = up.pressure();
        double throat = Math.max(down, p0 * criticalRatio(exponent));
        double r = throat / p0;
        double a = 1 - 1 / exponent;
        double drop = -(p0 / up.density()) * Math.expm1(a * Math.log(r)) / a;
        double flux = up.density() * Math.pow(r, 1 / exponent) * Math.sqrt(2 * drop);
        boolean choked = throat > down;
        return new Flux(
                flux,
                throat,
                choked,
                choked ? Double.POSITIVE_INFINITY : 1,
                choked ? 0 : -flux / (2 * (p0 - down)),
                true);
    }

    /** Critical pressure ratio of a perfect gas of that exponent, with its limit at exponent 1. */
    static double criticalRatio(double exponent) {
        double n = Math.max(exponent, 1.001);
        return Math.pow(2 / (n + 1), n / (n - 1));
    }

    /** State on the isentrope; null where the equations give none. */
    private static FluidState expand(FluidState up, double pressure) {
        try {
            return up.fluid().atPressureEntropy(pressure, up.entropy(), up);
        } catch (PropertyException e) {
            return null;
        }
    }

    /** As {@link #expand(FluidState, double)}, into a buffer; false where the equations give none. */
    private static boolean expand(FluidState up, double pressure, StateBuffer out) {
        try {
            up.fluid().atPressureEntropy(pressure, up.entropy(), up, out);
            return true;
        } catch (PropertyException e) {
            return false;
        }
    }

    /** -dv/dp along the isentrope, m3/(kg Pa). */
    private static double compressibility(FluidState state) {
        return 1 / sq(state.density() * state.soundSpeed());
    }

    /**
     * Enthalpy drop between two states of one phase on one isentrope. Where the pressure difference is small, or for liquids, it
     * is the integral of v dp by the trapezoid rule with end corrections, which has no cancellation.
     */
    private static double drop(FluidState up, FluidState at) {
        return drop(up, at.pressure(), at.density(), at.enthalpy(), at.soundSpeed());
    }

    private static double drop(FluidState up, StateBuffer at) {
        return drop(up, at.pressure(), at.density(), at.enthalpy(), at.soundSpeed());
    }

    private static double drop(FluidState up, double pressure, double density, double enthalpy, double soundSpeed) {
        double difference = up.enthalpy() - enthalpy;
        double dp = up.pressure() - pressure;
        double share = dp / up.pressure();
        boolean liquid = density > 1.5 * up.fluid().criticalDensity();
        if (share > 0.06 && !liquid) {
            return difference;
        }
        double there = 1 / sq(density * soundSpeed);
        double integral = dp * (0.5 / up.density() + 0.5 / density - dp / 12 * (there - compressibility(up)));
        if (liquid) {
            return integral;
        }
        double t = Math.max(0, Math.min(1, (share - 0.02) / 0.04));
        double weight = t * t * (3 - 2 * t);
        return weight * difference + (1 - weight) * integral;
    }

    private static double sq(double a) {
        return a * a;
    }
}
