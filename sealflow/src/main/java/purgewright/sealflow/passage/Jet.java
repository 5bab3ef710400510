package purgewright.sealflow.passage;

import java.util.function.DoubleUnaryOperator;
import purgewright.fluids.FluidState;
import purgewright.fluids.Phase;
import purgewright.fluids.phase.QuickLog;
import purgewright.fluids.phase.StateBuffer;
import purgewright.sealflow.SmoothStep;
import purgewright.sealflow.passage.Throttle.Flashing;

/**
 * The expansion that {@link Throttle} describes, with a workspace that is used again and again: the answer is in the fields until the next
 * one. Owned by one thread.
 */
final class Jet {
    /** Equilibrium quality at which vapour generation counts in full, after Henry and Fauske [from memory]. */
    private static final double FULL_GENERATION = 0.14;

    /** How near 1 the squared Mach number must be for the choke to follow from a state without a further one: within 1e-8 of the flux. */
    private static final double NEARLY_SONIC = 5e-3;

    /** How many times faster or slower than a perfect gas's a squared Mach number may change with ln p, for the next guess at the choke. */
    private static final double MOST_UNLIKE = 5;

    /** Way in ln p below which two states do not tell how fast it changes. */
    private static final double LEAST_WAY = 1e-5;

    /** How often the way of a liquid's expansion is halved at most. */
    private static final int HALVINGS = 6;

    /** Exponent of the vapour in a mixture that neither evaporates nor condenses [invented, near that of cold vapours]. */
    static final double FROZEN_EXPONENT = 1.2;

    /** Way of a gas to its dew line, in ln p, from which on its own exponent counts in full behind it [invented]. */
    private static final double DRY_WAY = 0.05;

    /** Grid of ln(p / p at the kink) for the relaxed expansion; fine where vapour first forms. */
    private static final double[] DOME_GRID = {
        0, -0.008, -0.02, -0.04, -0.07, -0.11, -0.16, -0.23, -0.32, -0.44, -0.6, -0.8, -1.05, -1.4, -1.9, -2.6, -3.6
    };

    private final FluidSource fluid = new FluidSource();
    private final StateBuffer up = new StateBuffer();
    private final StateBuffer at = new StateBuffer();
    private final StateBuffer between = new StateBuffer();
    private final DomeEdge dome = new DomeEdge();
    private final StateBuffer edge = dome.edge;
    private final double[] x = new double[DOME_GRID.length];
    private final double[] volume = new double[DOME_GRID.length];
    private final double[] volumeSlope = new double[DOME_GRID.length];
    private final DoubleUnaryOperator fluxByLogPressure = y -> fluxAt(Math.exp(y));
    private final DoubleUnaryOperator frozenFlux = this::frozenFlux;
    private StateSource source;
    private double vapour;
    private double liquid;

    /** kg/(m2 s). */
    double flux;
    /** Pa; the downstream pressure unless choked. */
    double throat;

    boolean choked;
    /** At the downstream pressure, infinite far below the choke; in the dome that of the gas carried on. */
    double machSquared;
    /** Of the flux by the downstream pressure, s/m. */
    double slope;

    boolean extrapolated;

    /** Flux from rest at a state of a fluid. */
    void flux(FluidState from, double down, Flashing flashing) {
        up.set(from);
        source = fluid.from(from);
        flux(down, flashing);
    }

    /** Flux from rest at a state of a source. */
    void flux(StateBuffer from, StateSource states, double down, Flashing flashing) {
        up.set(from);
        source = states;
        flux(down, flashing);
    }

    private void flux(double down, Flashing flashing) {
        double p0 = up.pressure();
        if (!(down < p0)) {
            bare(0, p0, false, 0, -Math.sqrt(2 * up.density() / (Throttle.REST * p0)), false);
            return;
        }
        double lowest = Math.max(down, 1e-9 * p0);
        if (p0 - lowest < 1e-5 * p0) {
            nearRest(lowest);
        } else if (up.phase() == Phase.TWO_PHASE) {
            fromDome(lowest, flashing);
        } else {
            singlePhase(lowest, up.density() > source.criticalDensity(), flashing);
        }
        regularise(lowest);
    }

    private void bare(
            double newFlux,
            double newThroat,
            boolean isChoked,
            double newMachSquared,
            double newSlope,
            boolean isExtrapolated) {
        flux = newFlux;
        throat = newThroat;
        choked = isChoked;
        machSquared = newMachSquared;
        slope = newSlope;
        extrapolated = isExtrapolated;
    }

    private void nearRest(double down) {
        double dp = up.pressure() - down;
        double v0 = 1 / up.density();
        double kappa = compressibility(up);
        double v = v0 + kappa * dp;
        double g = Math.sqrt(2 * dp * (v0 + kappa * dp / 2)) / v;
        double mach2 = 2 * dp * v0 / sq(up.soundSpeed());
        bare(g, down, false, mach2, -g / (2 * dp), false);
    }

    /** Multiplies by (1 + delta^2/dp^2)^(-1/4), slope included. */
    private void regularise(double down) {
        double dp = up.pressure() - down;
        double delta = Throttle.REST * up.pressure();
        double factor = 1 / Math.sqrt(Math.sqrt(1 + sq(delta / dp)));
        double logSlope = 0.5 * sq(delta) / (dp * (sq(dp) + sq(delta)));
        slope = factor * (slope - flux * logSlope);
        flux *= factor;
    }

    private void singlePhase(double down, boolean dense, Flashing flashing) {
        double p0 = up.pressure();
        double exponent = up.density() * sq(up.soundSpeed()) / p0;
        double guess = dense && up.phase() == Phase.LIQUID ? down : p0 * Throttle.criticalRatio(exponent);
        double p = down > 0.9 * guess ? down : guess;
        double lowest = down;
        double highest = p0;
        double failed = 0;
        double before = Double.NaN;
        double machBefore = 0;
        double slopeBefore = 0;
        for (int i = 0; i < 40; i++) {
            if (!expand(p)) {
                if (p > 0.98 * p0 || i > 30) {
                    powerLaw(down, exponent);
                    return;
                }
                failed = p;
                lowest = Math.max(lowest, p);
                p = Math.sqrt(p * highest);
                continue;
            }
            if (at.phase() == Phase.TWO_PHASE) {
                intoDome(down, dense, flashing);
                return;
            }
            double density = at.density();
            double sound2 = sq(at.soundSpeed());
            double drop = drop(at);
            double mach2 = 2 * drop / sound2;
            double g = density * Math.sqrt(2 * drop);
            if (mach2 <= 1 && p <= down) {
                bare(g, p, false, mach2, (mach2 - 1) / Math.sqrt(2 * drop), false);
                return;
            }
            double n = density * sound2 / p;
            double perfectSlope = -(2 + mach2 * (n - 1)) / n;
            double machSlope = perfectSlope;
            double way = Math.log(p / before);
            if (Math.abs(way) > LEAST_WAY) {
                // By what the last step found: near a critical point the Mach number changes twice as fast as a perfect
                // gas's, and steps went to and fro without end.
                double found = (mach2 - machBefore) / (0.5 * way * (perfectSlope + slopeBefore));
                machSlope *= Math.max(1 / MOST_UNLIKE, Math.min(MOST_UNLIKE, found));
            }
            before = p;
            machBefore = mach2;
            slopeBefore = perfectSlope;
            double step = -(mach2 - 1) / machSlope;
            boolean settled = Math.abs(mach2 - 1) < NEARLY_SONIC || (failed > 0 && p < 1.001 * failed);
            if (settled) {
                // The flux is flat here: half the slope at this point times the way to the maximum is third order
                // exact.
                double choke = g * (1 + 0.5 * (1 - 1 / mach2) / n * step);
                double end = p * Math.exp(step);
                if (end > down) {
                    // Below what could be had the throat is an estimate.
                    bare(choke, end, true, machBelow(down, end, n), 0, end < failed);
                    return;
                }
                p = down;
                lowest = down;
                highest = p0;
                if (i > 36) {
                    bare(choke, down, false, 1, 0, false);
                    return;
                }
                boolean known = expand(down);
                if (!known || at.phase() == Phase.TWO_PHASE) {
                    bare(choke, down, false, 1, 0, !known);
                    return;
                }
                double u = Math.sqrt(2 * drop(at));
                double m2 = sq(u / at.soundSpeed());
                bare(at.density() * u, down, false, m2, Math.min(0, (m2 - 1) / u), false);
                return;
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
        powerLaw(down, exponent);
    }

    /** Squared Mach number at a pressure below the throat; needed only until a contraction is full. */
    private double machBelow(double down, double end, double exponent) {
        if (down < 0.8 * end) {
            return Double.POSITIVE_INFINITY;
        }
        if (!expand(down) || at.phase() == Phase.TWO_PHASE) {
            return 1 + (2 + exponent - 1) / exponent * Math.log(end / down);
        }
        return Math.max(1, 2 * drop(at) / sq(at.soundSpeed()));
    }

    /** The expansion meets the dome somewhere between the upstream pressure and the two-phase state just asked for. */
    private void intoDome(double down, boolean dense, Flashing flashing) {
        dome.find(up, at, source, true, up.entropy());
        double edgeDrop = drop(edge);
        double edgeFlux = edge.density() * Math.sqrt(2 * edgeDrop);
        double mach2 = 2 * edgeDrop / sq(edge.soundSpeed());
        if (mach2 > 1) {
            // Sonic before the dome is reached.
            singlePhase(Math.max(down, edge.pressure()), dense, flashing);
        } else if (edge.pressure() <= down) {
            bare(edgeFlux, down, false, mach2, (mach2 - 1) / Math.sqrt(2 * edgeDrop), false);
        } else {
            if (dense && flashing == Flashing.FROZEN) {
                frozenLiquid(edge, edgeDrop, down);
            } else if (dense && flashing == Flashing.RELAXED) {
                relaxed(edge, edgeDrop, down);
            } else {
                equilibriumBelow(edge.pressure(), edgeFlux, down);
            }
            double own = edge.density() * sq(edge.soundSpeed()) / edge.pressure();
            // A gas that is about to condense passes what it does once it is wet: its Mach number must not jump there.
            double dry = SmoothStep.of(Math.log(up.pressure() / edge.pressure()) / DRY_WAY);
            double exponent = FROZEN_EXPONENT + dry * (own - FROZEN_EXPONENT);
            machSquared = carriedOn(mach2, exponent, edge.pressure() / down);
        }
    }

    /**
     * Squared Mach number that a perfect gas of that exponent goes on to from a given one: in the dome it is what the contraction goes by,
     * which would jump with the sound speed there.
     *
     * <pre>{@code d M^2 / d ln p = -(2 + (n - 1) M^2) / n}</pre>
     */
    static double carriedOn(double mach2, double n, double ratio) {
        double x = Math.log(ratio) / n;
        double growth = Math.expm1((n - 1) * x);
        return mach2 * (1 + growth) + 2 * (Math.abs(n - 1) < 1e-9 ? x : growth / (n - 1));
    }

    private void fromDome(double down, Flashing flashing) {
        if (flashing == Flashing.FROZEN) {
            frozenMixture(down);
        } else if (flashing == Flashing.RELAXED) {
            // Where vapour counts in full from the start this is equilibrium too; one way for all, so that no jump lies
            // between.
            relaxed(up, 0, down);
        } else {
            equilibriumBelow(up.pressure(), 0, down);
        }
        machSquared = carriedOn(0, FROZEN_EXPONENT, up.pressure() / down);
    }

    /** Equilibrium flux in the dome below a pressure at which the flux is known (zero at rest). */
    private void equilibriumBelow(double edgePressure, double edgeFlux, double down) {
        boolean known = expand(down);
        double endFlux = known ? plainFlux() : 0;
        double nudge = Math.min(1e-3, 0.1 * (edgePressure - down) / edgePressure);
        if (known) {
            double before = fluxAt(down * (1 + nudge));
            if (before < endFlux && endFlux > edgeFlux) {
                bare(endFlux, down, false, 0, Math.min(0, (before - endFlux) / (down * nudge)), false);
                return;
            }
        }
        double inside = fluxAt(edgePressure * (1 - nudge));
        if (edgeFlux > 0 && inside < edgeFlux && !secondRise(edgePressure, edgeFlux, down)) {
            bare(edgeFlux, edgePressure, true, Double.POSITIVE_INFINITY, 0, false);
            return;
        }
        double y = Roots.maximise(fluxByLogPressure, Math.log(down), Math.log(edgePressure), 1e-6);
        double best = fluxAt(Math.exp(y));
        if (best < edgeFlux) {
            bare(edgeFlux, edgePressure, true, Double.POSITIVE_INFINITY, 0, !known);
        } else {
            bare(best, Math.exp(y), true, Double.POSITIVE_INFINITY, 0, !known);
        }
    }

    /** Near the critical point the flux can fall at the dome's edge and rise again to a higher maximum inside. */
    private boolean secondRise(double edgePressure, double edgeFlux, double down) {
        if (up.density() > 1.8 * source.criticalDensity()) {
            return false;
        }
        return fluxAt(Math.max(down, edgePressure * 0.97)) > edgeFlux
                || fluxAt(Math.max(down, edgePressure * 0.93)) > edgeFlux
                || fluxAt(Math.max(down, edgePressure * 0.88)) > edgeFlux
                || fluxAt(Math.max(down, edgePressure * 0.8)) > edgeFlux;
    }

    private double fluxAt(double pressure) {
        return expand(pressure) ? plainFlux() : 0;
    }

    private double plainFlux() {
        return at.density() * Math.sqrt(Math.max(0, 2 * (up.enthalpy() - at.enthalpy())));
    }

    /**
     * Flux with retarded vapour generation. Volume along the expansion is {@code v_f + N (v - v_f)} with {@code v_f} that of the
     * unflashed fluid and {@code N = min(1, x/0.14)}; the velocity follows from its integral over pressure.
     */
    private void relaxed(StateBuffer from, double edgeDrop, double down) {
        int size = DOME_GRID.length;
        int filled = 0;
        double startVolume = 1 / from.density();
        double kappa = from == up ? 0 : compressibility(from);
        double vapourVolume = from == up ? vapourShare() : 0;
        double edgePressure = from.pressure();
        boolean beyondFluid = false;
        int beyond = 0;
        // One node more than needed, so that the interpolant does not change when the downstream pressure does.
        for (int i = 0; i < size && beyond < 3; i++) {
            double p = edgePressure * Math.exp(DOME_GRID[i]);
            double v = startVolume;
            if (i > 0) {
                if (!expand(p)) {
                    beyondFluid = true;
                    break;
                }
                double unflashed = startVolume
                        + kappa * (edgePressure - p)
                        + vapourVolume * Math.expm1(-DOME_GRID[i] / FROZEN_EXPONENT);
                double share = generation(at.quality());
                // Vapour that condenses on the way leaves less volume than it would by itself.
                v = unflashed + share * (1 / at.density() - unflashed);
            }
            x[i] = DOME_GRID[i];
            volume[i] = v;
            filled = i + 1;
            if (p < down) {
                beyond++;
            }
        }
        if (filled < 3) {
            frozenLiquid(from, edgeDrop, down);
            return;
        }
        Pchip.slopes(x, volume, filled, volumeSlope);
        double target = Math.max(Math.log(down / edgePressure), x[filled - 1]);
        double energy = edgeDrop;
        for (int i = 1; i < filled; i++) {
            boolean last = x[i] <= target;
            double to = last ? target : x[i];
            double end = energy + work(i, x[i - 1], to, edgePressure);
            double past = excess(i, to, end, edgePressure);
            if (past > 0) {
                double high = choke(i, to, past, energy, edgePressure);
                double there = energy + work(i, x[i - 1], high, edgePressure);
                double g = Math.sqrt(2 * there) / Pchip.value(x, volume, volumeSlope, i, high);
                bare(g, edgePressure * Math.exp(high), true, Double.POSITIVE_INFINITY, 0, beyondFluid);
                return;
            }
            energy = end;
            if (last) {
                double v = Pchip.value(x, volume, volumeSlope, i, target);
                double u = Math.sqrt(2 * energy);
                double dvdp = Pchip.derivative(x, volume, volumeSlope, i, target) / down;
                bare(u / v, down, false, 0, Math.min(0, -1 / u - u * dvdp / sq(v)), beyondFluid);
                return;
            }
        }
        bare(
                Math.sqrt(2 * energy) / volume[filled - 1],
                edgePressure * Math.exp(x[filled - 1]),
                true,
                Double.POSITIVE_INFINITY,
                0,
                beyondFluid);
    }

    /**
     * Where the local flux is greatest within one interval, in ln(p / edge), from the low side by less than 1e-13: by false position
     * with the standing end's value halved (Illinois), now and then by halves.
     */
    private double choke(int interval, double lowest, double past, double energy, double edgePressure) {
        double high = x[interval - 1];
        double low = lowest;
        double fLow = past;
        double fHigh = excess(interval, high, energy, edgePressure);
        if (!(fHigh <= 0)) {
            return high;
        }
        int side = 0;
        for (int k = 0; k < 60 && high - low > 1e-13; k++) {
            double y = (low * fHigh - high * fLow) / (fHigh - fLow);
            if (!(y > low && y < high) || k % 4 == 3) {
                y = 0.5 * (high + low);
            }
            double f = excess(interval, y, energy + work(interval, x[interval - 1], y, edgePressure), edgePressure);
            if (f > 0) {
                low = y;
                fLow = f;
                fHigh = side == 1 ? 0.5 * fHigh : fHigh;
                side = 1;
            } else {
                high = y;
                fHigh = f;
                fLow = side == -1 ? 0.5 * fLow : fLow;
                side = -1;
            }
        }
        return high;
    }

    /** Positive once the local flux falls with falling pressure: u^2 (-dv/dp) - v^2. */
    private double excess(int interval, double y, double energy, double edgePressure) {
        double v = Pchip.value(x, volume, volumeSlope, interval, y);
        double dvdp = Pchip.derivative(x, volume, volumeSlope, interval, y) / (edgePressure * QuickLog.exp(y));
        return -2 * energy * dvdp - v * v;
    }

    /** Integral of v dp from {@code to} up to {@code from}, both in ln(p / edge), within one interval; Simpson on four panels. */
    private double work(int interval, double from, double to, double edgePressure) {
        double width = (from - to) / 8;
        double sum = 0;
        for (int k = 0; k <= 8; k++) {
            double y = to + k * width;
            int weight = k == 0 || k == 8 ? 1 : k % 2 == 1 ? 4 : 2;
            sum += weight * Pchip.value(x, volume, volumeSlope, interval, y) * QuickLog.exp(y);
        }
        return sum * width / 3 * edgePressure;
    }

    /** Volume of the vapour in a kilogram of the two-phase fluid upstream, estimated as a perfect gas, m3/kg. */
    private double vapourShare() {
        return vapourShare(up.quality(), up.temperature(), up.pressure(), up.density(), source.molarMass());
    }

    static double vapourShare(double quality, double temperature, double pressure, double density, double molarMass) {
        double perfect = PerfectGas.MOLAR_GAS_CONSTANT * temperature / (pressure * molarMass);
        return Math.min(quality * perfect, 0.999 / density);
    }

    /** Share of the vapour that forms at once: smooth, and whole from a quality of 0.14 on. */
    static double generation(double quality) {
        return Contraction.capped(quality / FULL_GENERATION);
    }

    private double frozenFlux(double y) {
        double m = 1 / FROZEN_EXPONENT;
        double r = Math.exp(y);
        double energy = up.pressure() * (liquid * (1 - r) + vapour * (1 - Math.pow(r, 1 - m)) / (1 - m));
        return Math.sqrt(2 * energy) / (liquid + vapour * Math.pow(r, -m));
    }

    private void frozenMixture(double down) {
        double p0 = up.pressure();
        vapour = vapourShare();
        liquid = 1 / up.density() - vapour;
        double end = Math.log(down / p0);
        double nudge = 1e-6;
        double endFlux = frozenFlux(end);
        double before = frozenFlux(end + nudge);
        if (before < endFlux) {
            bare(endFlux, down, false, 0, (before - endFlux) / (down * nudge), false);
            return;
        }
        double y = Roots.maximise(frozenFlux, end, 0, 1e-9);
        bare(frozenFlux(y), p0 * Math.exp(y), true, Double.POSITIVE_INFINITY, 0, false);
    }

    /** Liquid carried on below its saturation line with the compressibility it had there; subsonic there, so never choked. */
    private void frozenLiquid(StateBuffer from, double edgeDrop, double down) {
        double dp = from.pressure() - down;
        double v0 = 1 / from.density();
        double kappa = compressibility(from);
        double v = v0 + kappa * dp;
        double u = Math.sqrt(2 * (edgeDrop + dp * (v0 + kappa * dp / 2)));
        bare(u / v, down, false, 0, -1 / u + u * kappa / sq(v), false);
    }

    /** Perfect-gas form with the upstream isentropic exponent, where the equations give no state. */
    private void powerLaw(double down, double exponent) {
        double p0 = up.pressure();
        double end = Math.max(down, p0 * Throttle.criticalRatio(exponent));
        double r = end / p0;
        double a = 1 - 1 / exponent;
        double drop = -(p0 / up.density()) * Math.expm1(a * Math.log(r)) / a;
        double g = up.density() * Math.pow(r, 1 / exponent) * Math.sqrt(2 * drop);
        boolean chokes = end > down;
        bare(g, end, chokes, chokes ? Double.POSITIVE_INFINITY : 1, chokes ? 0 : -g / (2 * (p0 - down)), true);
    }

    /** State on the isentrope, into the buffer; false where there is none. */
    private boolean expand(double pressure) {
        return source.atPressureEntropy(pressure, up.entropy(), at);
    }

    /** -dv/dp along the isentrope, m3/(kg Pa). */
    static double compressibility(StateBuffer state) {
        return 1 / sq(state.density() * state.soundSpeed());
    }

    /**
     * Enthalpy drop from upstream to a state of the same phase on the same isentrope. Where the pressure difference is small, or for
     * liquids, it is the integral of v dp by the trapezoid rule with end corrections, which has no cancellation.
     */
    private double drop(StateBuffer end) {
        double difference = up.enthalpy() - end.enthalpy();
        double dp = up.pressure() - end.pressure();
        double share = dp / up.pressure();
        boolean dense = end.density() > 1.5 * source.criticalDensity();
        if (share > 0.06 && !dense) {
            return difference;
        }
        double integral = workOfVolume(
                up.pressure(),
                1 / up.density(),
                compressibility(up),
                end.pressure(),
                1 / end.density(),
                compressibility(end),
                HALVINGS);
        if (dense) {
            return integral;
        }
        double weight = SmoothStep.of((share - 0.02) / 0.04);
        return weight * difference + (1 - weight) * integral;
    }

    /**
     * Integral of v dp along the isentrope between two pressures. Where the compressibilities of its ends are far apart, as of a liquid
     * that comes near its critical point, the trapezoid's corrections mean nothing (3 % for oxygen, 20 % for helium and dodecane), and the
     * way is halved in ln p: from a ratio of 2 on in part, from 4 on altogether. Pure fluids are then within 0.2 % of their enthalpies.
     *
     * @param volume m3/kg, at the higher pressure; {@code volumeBelow} at the lower
     * @param bend compressibility -dv/dp, m3/(kg Pa)
     */
    private double workOfVolume(
            double pressure,
            double volume,
            double bend,
            double below,
            double volumeBelow,
            double bendBelow,
            int halvings) {
        double dp = pressure - below;
        double whole = dp * (0.5 * volume + 0.5 * volumeBelow - dp / 12 * (bendBelow - bend));
        double ratio = bendBelow > bend ? bendBelow / bend : bend / bendBelow;
        if (!(ratio > 2) || halvings == 0) {
            return whole;
        }
        double middle = Math.sqrt(pressure * below);
        if (!source.atPressureEntropy(middle, up.entropy(), between) || between.phase() == Phase.TWO_PHASE) {
            return whole;
        }
        double v = 1 / between.density();
        double k = compressibility(between);
        double halves = workOfVolume(pressure, volume, bend, middle, v, k, halvings - 1)
                + workOfVolume(middle, v, k, below, volumeBelow, bendBelow, halvings - 1);
        double share = SmoothStep.of(Math.log(ratio / 2) / Math.log(2));
        return share * halves + (1 - share) * whole;
    }

    private static double sq(double a) {
        return a * a;
    }
}
