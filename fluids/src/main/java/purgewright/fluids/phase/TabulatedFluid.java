package purgewright.fluids.phase;

import java.nio.DoubleBuffer;
import java.util.Arrays;
import java.util.Map;
import java.util.SplittableRandom;
import purgewright.fluids.FluidState;
import purgewright.fluids.Phase;
import purgewright.fluids.PropertyException;
import purgewright.fluids.PureFluid;

/**
 * A pure fluid whose states over (p, h) and (p, s) come from splines, for solvers that ask for millions. Everything else, and every
 * state outside the table's range, comes from the equations behind it.
 *
 * <p>Three patches of bicubic splines meet at the dome and at the critical pressure: vapour and liquid below it, everything above it.
 * Below, the coordinate of pressure is {@code sqrt(ln(pc/p))}, in which both sides of the dome are smooth up to the critical point;
 * above, {@code ln(p/pc)}. Inside the dome states are mixed from splines of the saturation line. Inside a patch the splines are twice
 * continuously differentiable; across its edges they agree within the measured error. Immutable; threads may share it.
 */
public final class TabulatedFluid implements PureFluid {
    /** Raised whenever the layout or what is computed changes, so that cached tables of another version are not read. */
    static final int VERSION = 2;

    static final int TEMPERATURE = 0;
    /** Compressibility factor p/(rho R T), in the liquid patch density. */
    static final int VOLUME = 1;

    static final int ENTROPY = 2;
    /** Held as its reciprocal, which stays finite at the critical point. */
    static final int CP = 3;

    static final int CV = 4;
    static final int SOUND = 5;
    static final int FIELDS = 6;
    // fields of the transport patches, on the same nodes
    /** Held as its logarithm: a cold liquid's viscosity is steep. */
    static final int VISCOSITY = 0;

    static final int CONDUCTIVITY = 1;
    static final int TRANSPORT_FIELDS = 2;

    private static final int VAPOUR = 0;
    private static final int LIQUID = 1;
    private static final int SUPER = 2;
    /** Vapour below the pressure of the saturation line's cold end. */
    private static final int THIN = 3;

    private static final int KINDS = 4;
    private static final int TRANSPORT = KINDS;
    private static final int INVERSE = 2 * KINDS;

    /** Splines along the saturation line. */
    private static final int SAT_T = 0;

    private static final int SAT_HL = 1;
    private static final int SAT_HV = 2;
    private static final int SAT_RHOL = 3;
    private static final int SAT_ZV = 4;
    private static final int SAT_SL = 5;
    private static final int SAT_SV = 6;
    private static final int SAT_SLOPE = 7;
    private static final int SAT_HEATL = 8;
    private static final int SAT_HEATV = 9;
    private static final int SAT_MUL = 10;
    private static final int SAT_MUV = 11;
    private static final int SAT_FIELDS = 12;

    /**
     * What a table covers.
     *
     * @param minimumPressure Pa
     * @param maximumPressure Pa
     * @param minimumTemperature K; cold states in the solid are left to the equations
     * @param maximumTemperature K
     */
    public record Range(
            double minimumPressure, double maximumPressure, double minimumTemperature, double maximumTemperature) {
        /** A wide range for a fluid: 1 kPa to 100 MPa, from the triple point up, within the published limits. */
        public static Range of(PureFluid fluid) {
            return new Range(
                    1e3,
                    Math.min(1e8, fluid.publishedMaximumPressure()),
                    fluid.tripleTemperature(),
                    fluid.publishedMaximumTemperature());
        }
    }

    /**
     * Largest relative deviation from the equations at random points (temperature, density and speed of sound relative, entropy over cp,
     * viscosity relative).
     *
     * @param temperature away from the critical point
     * @param density away from the critical point
     * @param entropy away from the critical point
     * @param soundSpeed away from the critical point
     * @param viscosity away from the critical point
     * @param nearCritical the worst of temperature and density within 5 % of the critical temperature and 30 % of its pressure
     * @param points compared
     * @param leftToEquations share of the points in the range that lie in cells which are not within the tolerance
     */
    public record MeasuredError(
            double temperature,
            double density,
            double entropy,
            double soundSpeed,
            double viscosity,
            double nearCritical,
            int points,
            double leftToEquations) {}

    private final EmbeddedFluid exact;
    private final Range range;
    private final double gasConstant;
    private final double tc;
    private final double pc;
    private final double perPc;
    /** Coldest temperature that the table answers below the critical pressure, and at both ends of pressure above it. */
    private final double coldBelow;

    private final double coldAbove;
    private final double coldRise;
    private final double lowestPressure;
    private final double highestPressure;
    /**
     * One for each kind: states, then transport, then v over entropy (a starting value that Newton's method sharpens); null where the range
     * has none.
     */
    private final Patch[] patches;

    private final double satStart;
    private final double satStep;
    private final double perSatStep;
    private final int satCount;
    private final double[] sat;
    private final ThreadLocal<Scratch> scratch = ThreadLocal.withInitial(Scratch::new);

    private static final class Scratch {
        final StateBuffer exact = new StateBuffer();
        final double[] fields = new double[FIELDS];
        /** Where the last {@link #locate} found a state. */
        Patch patch;

        int kind;
        int interval;
        double u;
        double v;
        double quality;
        /** Place in the interval of pressure. */
        double share;

        void place(double position) {
            interval = patch.interval(position);
            share = position - interval;
        }
    }

    TabulatedFluid(EmbeddedFluid exact, Range range, Patch[] patches, double[] satGrid, double[] sat) {
        this.exact = exact;
        this.range = range;
        this.patches = patches;
        gasConstant = exact.equation().gasConstant();
        tc = exact.criticalTemperature();
        pc = exact.criticalPressure();
        perPc = 1 / pc;
        lowestPressure = Math.max(range.minimumPressure(), 0);
        highestPressure = range.maximumPressure();
        satStart = satGrid[0];
        satStep = satGrid[1];
        perSatStep = satStep > 0 ? 1 / satStep : 0;
        satCount = (int) satGrid[2];
        this.sat = sat;
        for (int kind = 0; kind < KINDS; kind++) {
            if (patches[kind] != null) {
                judge(patches[kind]);
                Patch.Scale logarithm = (p, i, j) -> 1;
                Patch.Scale own = (p, i, j) -> p.value(i, j, CONDUCTIVITY);
                patches[TRANSPORT + kind].judge(new Patch.Scale[] {logarithm, own}, TRANSPORT_TOLERANCE);
            }
        }
        coldBelow = melted(exact, pc, range.minimumTemperature());
        Patch above = patches[SUPER];
        double last = melted(exact, highestPressure, range.minimumTemperature());
        double first = above == null ? last : melted(exact, pc * Math.exp(above.uStart), range.minimumTemperature());
        coldAbove = first;
        coldRise = above == null ? 0 : (last - first) / (above.uStep * (above.uCount - 1));
    }

    /** Relative error of temperature, density, entropy (over cp) and speed of sound that a cell may have; worse ones go to the equations. */
    static final double TOLERANCE = 1e-6;

    /** Relative error of viscosity and conductivity that a cell may have. */
    static final double TRANSPORT_TOLERANCE = 1e-5;

    private static void judge(Patch patch) {
        Patch.Scale[] scales = new Patch.Scale[SOUND + 1];
        for (int k = 0; k < scales.length; k++) {
            int field = k;
            scales[k] = (p, i, j) -> Math.abs(p.value(i, j, field));
        }
        scales[ENTROPY] = (p, i, j) -> 1 / p.value(i, j, CP);
        Patch.Scale never = (p, i, j) -> Double.POSITIVE_INFINITY;
        scales[CP] = never;
        scales[CV] = never;
        patch.judge(scales, TOLERANCE);
    }

    int stored() {
        int numbers = 4 + 3 + 1 + sat.length + patches.length;
        for (int i = 0; i < patches.length; i++) {
            numbers += patches[i] == null ? 0 : patches[i].stored();
        }
        return numbers;
    }

    void write(DoubleBuffer out) {
        out.put(range.minimumPressure()).put(range.maximumPressure());
        out.put(range.minimumTemperature()).put(range.maximumTemperature());
        out.put(satStart).put(satStep).put(satCount).put(sat.length).put(sat);
        for (Patch patch : patches) {
            out.put(patch == null ? 0 : 1);
            if (patch != null) {
                patch.write(out);
            }
        }
    }

    static TabulatedFluid read(EmbeddedFluid fluid, DoubleBuffer in) {
        Range range = new Range(in.get(), in.get(), in.get(), in.get());
        double[] grid = {in.get(), in.get(), in.get()};
        double[] sat = new double[(int) in.get()];
        in.get(sat);
        Patch[] patches = new Patch[3 * KINDS];
        for (int i = 0; i < patches.length; i++) {
            patches[i] = in.get() == 0 ? null : Patch.read(in);
        }
        return new TabulatedFluid(fluid, range, patches, grid, sat);
    }

    /** The equations behind the table. */
    public PureFluid exact() {
        return exact;
    }

    /** What the table covers. */
    public Range range() {
        return range;
    }

    /** Bytes of its numbers. */
    public long size() {
        long numbers = sat.length;
        for (Patch patch : patches) {
            numbers += patch == null ? 0 : patch.data.length + patch.lines.length;
        }
        return 8 * numbers;
    }

    // ---- building ----

    /** Builds a table of standard fineness; takes some tenths of a second. */
    public static TabulatedFluid build(EmbeddedFluid fluid, Range range) {
        return build(fluid, range, 1);
    }

    /**
     * Builds a table.
     *
     * @param fineness 1 is standard; the error goes with its fourth power
     */
    public static TabulatedFluid build(EmbeddedFluid fluid, Range asked, double fineness) {
        double pc = fluid.criticalPressure();
        double tc = fluid.criticalTemperature();
        Range range = new Range(
                asked.minimumPressure(),
                Math.min(asked.maximumPressure(), fluid.maximumPressure()),
                Math.max(asked.minimumTemperature(), fluid.tripleTemperature()),
                Math.min(asked.maximumTemperature(), fluid.maximumTemperature()));
        Patch[] patches = new Patch[3 * KINDS];
        StateBuffer buffer = new StateBuffer();
        double cold = range.minimumTemperature();
        double hot = range.maximumTemperature();
        double yTriple = Math.sqrt(Math.log(pc / fluid.triplePressure()));
        double satEnd = Math.min(yTriple, Math.sqrt(Math.max(Math.log(pc / range.minimumPressure()), 0)));
        if (cold < tc && cold > fluid.tripleTemperature()) {
            satEnd = Math.min(satEnd, Math.sqrt(Math.log(pc / fluid.saturationPressure(cold))));
        }
        if (!(hot > tc * 1.02)) {
            throw new IllegalArgumentException("a table's highest temperature must lie above the critical one");
        }
        double scale = 2 * fluid.equation().gasConstant() * tc;
        double yLow = Math.sqrt(Math.max(Math.log(pc / Math.min(range.maximumPressure(), pc)), 0));
        double yHigh = Math.sqrt(Math.max(Math.log(pc / range.minimumPressure()), 0));
        boolean dome = cold < tc && satEnd > yLow + 1e-9;
        if (!dome) {
            satEnd = yLow;
        }
        int satCount = 1 + count(300, fineness);
        double satStep = satEnd / (satCount - 1);
        double[] sat = dome ? saturation(fluid, satStep, satCount, buffer) : new double[0];
        if (dome) {
            double[] starts = new double[count(130, fineness)];
            double[] ends = new double[starts.length];
            for (int i = 0; i < starts.length; i++) {
                double p = pressure(fluid, yLow + (satEnd - yLow) * i / (starts.length - 1), VAPOUR);
                starts[i] = saturated(fluid, p, 1);
                fluid.tableEnd(p, hot * BEYOND, 1, buffer);
                ends[i] = buffer.enthalpy();
            }
            fill(fluid, patches, patch(yLow, satEnd, starts, ends, scale, 1, 0.02 / fineness), VAPOUR, buffer);
            starts = new double[count(120, fineness)];
            ends = new double[starts.length];
            for (int i = 0; i < starts.length; i++) {
                double p = pressure(fluid, yLow + (satEnd - yLow) * i / (starts.length - 1), LIQUID);
                starts[i] = saturated(fluid, p, 0);
                // the corner at the triple point has no width of its own
                fluid.tableEnd(p, cold / BEYOND, -1, buffer);
                ends[i] = buffer.enthalpy();
            }
            fill(fluid, patches, patch(yLow, satEnd, starts, ends, scale, -1, 0.008 / fineness), LIQUID, buffer);
        }
        if (yHigh > satEnd + 1e-9) {
            double[] starts = new double[count(40, fineness)];
            double[] ends = new double[starts.length];
            for (int i = 0; i < starts.length; i++) {
                double p = pressure(fluid, satEnd + (yHigh - satEnd) * i / (starts.length - 1), THIN);
                starts[i] = base(fluid, p, cold);
                fluid.tableEnd(p, hot * BEYOND, 1, buffer);
                ends[i] = buffer.enthalpy();
            }
            fill(fluid, patches, patch(satEnd, yHigh, starts, ends, scale, 1, 0.03 / fineness), THIN, buffer);
        }
        if (range.maximumPressure() > pc) {
            double end = Math.log(range.maximumPressure() / pc);
            double start = Math.max(0, Math.log(range.minimumPressure() / pc));
            double coldLow = melted(fluid, pc * Math.exp(start), cold);
            double coldHigh = melted(fluid, range.maximumPressure(), cold);
            double[] starts = new double[count(110, fineness)];
            double[] ends = new double[starts.length];
            for (int i = 0; i < starts.length; i++) {
                double share = i / (starts.length - 1.0);
                double p = pressure(fluid, start + (end - start) * share, SUPER);
                // a melting line is hollow over ln p: the chord lies in the fluid
                fluid.tableEnd(p, (coldLow + (coldHigh - coldLow) * share) / BEYOND, 0, buffer);
                starts[i] = buffer.enthalpy();
                fluid.tableEnd(p, hot * BEYOND, 0, buffer);
                ends[i] = buffer.enthalpy();
            }
            fill(fluid, patches, patch(start, end, starts, ends, scale, 1, 0.015 / fineness), SUPER, buffer);
        }
        return new TabulatedFluid(fluid, range, patches, new double[] {0, satStep, satCount}, sat);
    }

    private static int count(int standard, double fineness) {
        return Math.max(8, (int) Math.round(standard * fineness));
    }

    private static double saturated(EmbeddedFluid fluid, double p, double quality) {
        return fluid.atPressureQuality(Math.max(Math.min(p, fluid.criticalPressure()), fluid.triplePressure()), quality)
                .enthalpy();
    }

    /** Lowest temperature of the fluid at a pressure, a little inside the melting line. */
    private static double melted(EmbeddedFluid fluid, double pressure, double cold) {
        double low = cold;
        if (fluid.meltingPressure(low) >= pressure) {
            return low;
        }
        double high = 2 * low;
        while (fluid.meltingPressure(high) < pressure) {
            high *= 1.5;
        }
        for (int i = 0; i < 60; i++) {
            double middle = 0.5 * (low + high);
            if (fluid.meltingPressure(middle) < pressure) {
                low = middle;
            } else {
                high = middle;
            }
        }
        return high * (1 + 1e-9);
    }

    /** Enthalpy of the vapour at the cold end where there is no saturation line. */
    private static double base(EmbeddedFluid fluid, double p, double cold) {
        return cold < fluid.criticalTemperature()
                ? fluid.metastable(Phase.GAS, p, cold).enthalpy()
                : fluid.atPressureTemperature(p, cold).enthalpy();
    }

    /** An empty patch between two lines of enthalpy, its nodes at most {@code spacing} apart in the logarithm of the distance. */
    private static Patch patch(
            double from, double to, double[] starts, double[] ends, double scale, double sign, double spacing) {
        double extent = 0;
        for (int i = 0; i < starts.length; i++) {
            extent = Math.max(extent, Math.log1p(Math.abs(ends[i] - starts[i]) / scale));
        }
        int nodes = Math.max(8, 1 + (int) Math.ceil(extent / spacing));
        Patch patch = new Patch(from, to, starts.length, nodes, FIELDS, scale, sign);
        for (int i = 0; i < starts.length; i++) {
            patch.line(i, starts[i], ends[i]);
        }
        return patch;
    }

    private static void fill(EmbeddedFluid fluid, Patch[] patches, Patch patch, int kind, StateBuffer buffer) {
        double r = fluid.equation().gasConstant();
        Patch transport = new Patch(
                patch.uStart,
                patch.uStep,
                patch.uCount,
                patch.vCount,
                TRANSPORT_FIELDS,
                patch.scale,
                patch.sign,
                patch.lines,
                new double[4 * TRANSPORT_FIELDS * patch.uCount * patch.vCount]);
        for (int i = 0; i < patch.uCount; i++) {
            double p = pressure(fluid, patch.u(i), kind);
            for (int j = 0; j < patch.vCount; j++) {
                fluid.tableNode(p, patch.enthalpy(i, j), kind == SUPER ? 0 : kind == LIQUID ? -1 : 1, j > 0, buffer);
                patch.set(i, j, TEMPERATURE, buffer.temperature());
                double rho = buffer.density();
                patch.set(i, j, VOLUME, kind == LIQUID ? rho : p / (rho * r * buffer.temperature()));
                patch.set(i, j, ENTROPY, buffer.entropy());
                patch.set(i, j, CP, 1 / buffer.cp());
                patch.set(i, j, CV, buffer.cv());
                patch.set(i, j, SOUND, buffer.soundSpeed());
                transport.set(i, j, VISCOSITY, Math.log(fluid.viscosityAt(buffer.temperature(), rho)));
                transport.set(i, j, CONDUCTIVITY, fluid.conductivityAt(buffer.temperature(), rho));
            }
        }
        patch.seal();
        transport.sealFields();
        patches[kind] = patch;
        patches[TRANSPORT + kind] = transport;
        patches[INVERSE + kind] = inverse(patch, 8 * r);
    }

    private static double pressure(EmbeddedFluid fluid, double u, int kind) {
        double pc = fluid.criticalPressure();
        return kind == SUPER
                ? Math.min(pc * Math.exp(u), fluid.maximumPressure())
                : pc * Math.min(Math.exp(-u * u), 1 - 1e-8);
    }

    /** v over entropy: bisection and the secant method on the entropy spline at every node. */
    private static Patch inverse(Patch patch, double scale) {
        Patch inverse = new Patch(
                patch.uStart,
                patch.uStep,
                patch.uCount,
                patch.vCount,
                1,
                scale,
                patch.sign,
                new double[4 * patch.uCount],
                new double[4 * patch.uCount * patch.vCount]);
        int n = patch.vCount;
        for (int i = 0; i < patch.uCount; i++) {
            inverse.line(i, patch.value(i, 0, ENTROPY), patch.value(i, n - 1, ENTROPY));
            int j = 0;
            for (int k = 0; k < n; k++) {
                double wanted = inverse.enthalpy(i, k);
                while (j < n - 2 && patch.sign * (patch.value(i, j + 1, ENTROPY) - wanted) < 0) {
                    j++;
                }
                double lo = j / (n - 1.0);
                double hi = (j + 1) / (n - 1.0);
                int interval = Math.min(i, patch.uCount - 2);
                for (int m = 0; m < 45; m++) {
                    double middle = 0.5 * (lo + hi);
                    if (patch.sign * (patch.field(interval, i - interval, middle, ENTROPY) - wanted) < 0) {
                        lo = middle;
                    } else {
                        hi = middle;
                    }
                }
                inverse.set(i, k, 0, k == 0 ? 0 : k == n - 1 ? 1 : lo);
            }
        }
        inverse.seal();
        return inverse;
    }

    private static double[] saturation(EmbeddedFluid fluid, double step, int count, StateBuffer buffer) {
        double pc = fluid.criticalPressure();
        double r = fluid.equation().gasConstant();
        double[] data = new double[count * SAT_FIELDS * 2];
        double[][] columns = new double[SAT_FIELDS][count];
        for (int i = 0; i < count; i++) {
            double y = i * step;
            double p = Math.max(pc * Math.exp(-y * y), fluid.triplePressure());
            FluidState liquid = fluid.atPressureQuality(p, 0);
            FluidState vapour = fluid.atPressureQuality(p, 1);
            double t = liquid.temperature();
            columns[SAT_T][i] = t;
            columns[SAT_HL][i] = liquid.enthalpy();
            columns[SAT_HV][i] = vapour.enthalpy();
            columns[SAT_RHOL][i] = liquid.density();
            columns[SAT_ZV][i] = p / (vapour.density() * r * t);
            columns[SAT_SL][i] = liquid.entropy();
            columns[SAT_SV][i] = vapour.entropy();
            columns[SAT_MUL][i] = fluid.viscosity(liquid);
            columns[SAT_MUV][i] = fluid.viscosity(vapour);
            double[] line = fluid.saturationSlopes(p);
            // the slope over p is of order ten at any pressure; the heats are finite but at the critical point
            columns[SAT_SLOPE][i] = line[0] / p;
            columns[SAT_HEATL][i] = line[1];
            columns[SAT_HEATV][i] = line[2];
        }
        // the heats diverge at the critical point, and slope and heats are lost to rounding there: hold the first node
        for (int k : new int[] {SAT_SLOPE, SAT_HEATL, SAT_HEATV}) {
            columns[k][0] = columns[k][1];
        }
        double[] slopes = new double[count];
        for (int k = 0; k < SAT_FIELDS; k++) {
            Patch.splineSlopes(columns[k], slopes, count);
            for (int i = 0; i < count; i++) {
                data[(i * SAT_FIELDS + k) * 2] = columns[k][i];
                data[(i * SAT_FIELDS + k) * 2 + 1] = slopes[i];
            }
        }
        return data;
    }

    private double line(int field, int i, double t) {
        int p = (i * SAT_FIELDS + field) * 2;
        int q = p + 2 * SAT_FIELDS;
        double y0 = sat[p];
        double m0 = sat[p + 1];
        double m1 = sat[q + 1];
        double d = sat[q] - y0;
        return y0 + t * (m0 + t * (3 * d - 2 * m0 - m1 + t * (m0 + m1 - 2 * d)));
    }

    // ---- looking up ----

    /** Where an enthalpy or entropy lies at a pressure; false when it is not in the table. */
    private boolean locate(Scratch s, double pressure, double value, boolean entropy) {
        if (!(pressure >= lowestPressure && pressure <= highestPressure)) {
            return false;
        }
        if (pressure >= pc) {
            s.kind = SUPER;
            s.patch = patches[SUPER];
            if (s.patch == null) {
                return false;
            }
            s.u = QuickLog.of(pressure * perPc);
            s.place(s.patch.position(s.u));
            return inPatch(s, value, entropy);
        }
        double y = Math.sqrt(Math.max(-QuickLog.of(pressure * perPc), 0));
        s.u = y;
        double position = y * perSatStep;
        int i = (int) position;
        if (i < satCount - 1 && sat.length > 0) {
            double t = position - i;
            double liquid = line(entropy ? SAT_SL : SAT_HL, i, t);
            double vapour = line(entropy ? SAT_SV : SAT_HV, i, t);
            if (value > liquid && value < vapour) {
                s.kind = -1;
                s.interval = i;
                s.v = t;
                s.quality = (value - liquid) / (vapour - liquid);
                return true;
            }
            s.kind = value <= liquid ? LIQUID : VAPOUR;
        } else {
            s.kind = THIN;
        }
        s.patch = patches[s.kind];
        if (s.patch == null) {
            return false;
        }
        s.place(s.patch.position(y));
        return inPatch(s, value, entropy);
    }

    /**
     * Patches reach this much beyond the coldest and the hottest temperature, where splines are at their worst; states there are left to
     * the equations, which know the limits.
     */
    private static final double BEYOND = 1.005;

    private boolean inRange(int kind, double u, double temperature) {
        double cold = kind == SUPER
                ? coldAbove + coldRise * (u - patches[SUPER].uStart)
                : kind == LIQUID ? coldBelow : range.minimumTemperature();
        return temperature >= cold && temperature <= range.maximumTemperature();
    }

    /** Vs a hair outside [0, 1] are on the edge: the dome's two splines differ by their error. */
    private static final double EDGE = 1e-6;

    private boolean inPatch(Scratch s, double value, boolean entropy) {
        if (!entropy) {
            s.v = s.patch.v(s.interval, s.share, value);
            return s.v >= -EDGE && s.v <= 1 + EDGE;
        }
        return findEntropy(s, value);
    }

    /** Is the place that was located in the dome, or in a cell within the tolerance? */
    private static boolean fine(Scratch s) {
        return s.kind < 0 || !s.patch.coarse(s.interval, s.v);
    }

    /** v where the entropy spline has a value: the inverse spline, then Newton's method. */
    private boolean findEntropy(Scratch s, double value) {
        Patch patch = s.patch;
        Patch inverse = patches[INVERSE + s.kind];
        int i = s.interval;
        double share = s.share;
        double guess = inverse.v(i, share, value);
        if (!(guess >= -EDGE && guess <= 1 + EDGE)) {
            return false;
        }
        double v = inverse.field(i, share, guess, 0);
        for (int n = 0; n < 3; n++) {
            double move = patch.newton(i, share, v, ENTROPY, value);
            v += move;
            if (Math.abs(move) < 1e-9) {
                break;
            }
        }
        s.v = v;
        return v >= -2 * EDGE && v <= 1 + 2 * EDGE;
    }

    @Override
    public void atPressureEnthalpy(double pressure, double enthalpy, FluidState near, StateBuffer out) {
        Scratch s = scratch.get();
        if (locate(s, pressure, enthalpy, false) && fine(s)) {
            if (s.kind < 0) {
                dome(s, pressure, out);
                return;
            }
            s.patch.evaluate(s.interval, s.share, s.v, s.fields, FIELDS);
            if (inRange(s.kind, s.u, s.fields[TEMPERATURE])) {
                state(s, pressure, enthalpy, Double.NaN, out);
                return;
            }
        }
        exact.pressureEnthalpy(pressure, enthalpy, out);
    }

    @Override
    public void atPressureEntropy(double pressure, double entropy, FluidState near, StateBuffer out) {
        Scratch s = scratch.get();
        if (locate(s, pressure, entropy, true) && fine(s)) {
            if (s.kind < 0) {
                dome(s, pressure, out);
                return;
            }
            s.patch.evaluate(s.interval, s.share, s.v, s.fields, FIELDS);
            if (inRange(s.kind, s.u, s.fields[TEMPERATURE])) {
                state(s, pressure, s.patch.enthalpy(s.interval, s.share, s.v), entropy, out);
                return;
            }
        }
        exact.pressureEntropy(pressure, entropy, out);
    }

    /** @param enthalpy J/kg; @param entropy J/(kg K), NaN to take the table's */
    private void state(Scratch s, double pressure, double enthalpy, double entropy, StateBuffer out) {
        double[] f = s.fields;
        double t = f[TEMPERATURE];
        double rho = s.kind == LIQUID ? f[VOLUME] : pressure / (f[VOLUME] * gasConstant * t);
        Phase phase = s.kind == LIQUID
                ? Phase.LIQUID
                : s.kind != SUPER ? Phase.GAS : t < tc ? Phase.LIQUID : Phase.SUPERCRITICAL;
        out.pressure = pressure;
        out.temperature = t;
        out.density = rho;
        out.enthalpy = enthalpy;
        out.entropy = Double.isNaN(entropy) ? f[ENTROPY] : entropy;
        out.cp = 1 / f[CP];
        out.cv = f[CV];
        out.soundSpeed = f[SOUND];
        out.pressureByTemperature = Double.NaN;
        out.quality = phase == Phase.LIQUID ? 0 : 1;
        out.phase = phase;
        out.extrapolated = t > exact.publishedMaximumTemperature() || pressure > exact.publishedMaximumPressure();
    }

    private void dome(Scratch s, double pressure, StateBuffer out) {
        int i = s.interval;
        double t = s.v;
        double q = s.quality;
        double temperature = line(SAT_T, i, t);
        double liquid = 1 / line(SAT_RHOL, i, t);
        double vapour = line(SAT_ZV, i, t) * gasConstant * temperature / pressure;
        double volume = liquid + q * (vapour - liquid);
        double sl = line(SAT_SL, i, t);
        double entropy = sl + q * (line(SAT_SV, i, t) - sl);
        double hl = line(SAT_HL, i, t);
        double enthalpy = hl + q * (line(SAT_HV, i, t) - hl);
        double heatL = line(SAT_HEATL, i, t);
        double heat = heatL + q * (line(SAT_HEATV, i, t) - heatL);
        double slope = line(SAT_SLOPE, i, t) * pressure;
        out.pressure = pressure;
        out.temperature = temperature;
        out.density = 1 / volume;
        out.enthalpy = enthalpy;
        out.entropy = entropy;
        out.cp = Double.NaN;
        out.cv = Double.NaN;
        out.soundSpeed = volume * slope / Math.sqrt(heat);
        out.pressureByTemperature = Double.NaN;
        out.quality = q;
        out.phase = Phase.TWO_PHASE;
        out.extrapolated = false;
    }

    @Override
    public FluidState atPressureEnthalpy(double pressure, double enthalpy) {
        StateBuffer out = scratch.get().exact;
        atPressureEnthalpy(pressure, enthalpy, null, out);
        return out.toState(this);
    }

    @Override
    public FluidState atPressureEntropy(double pressure, double entropy) {
        StateBuffer out = scratch.get().exact;
        atPressureEntropy(pressure, entropy, null, out);
        return out.toState(this);
    }

    /**
     * Density (kg/m3) and enthalpy (J/kg) at a pressure along an isentrope into an array {density, enthalpy}: what a throttle asks, without
     * an object. Same numbers as {@link #atPressureEntropy}.
     */
    public void isentrope(double pressure, double entropy, double[] out) {
        Scratch s = scratch.get();
        if (locate(s, pressure, entropy, true) && fine(s)) {
            if (s.kind < 0) {
                double temperature = line(SAT_T, s.interval, s.v);
                double liquid = 1 / line(SAT_RHOL, s.interval, s.v);
                double vapour = line(SAT_ZV, s.interval, s.v) * gasConstant * temperature / pressure;
                double hl = line(SAT_HL, s.interval, s.v);
                out[0] = 1 / (liquid + s.quality * (vapour - liquid));
                out[1] = hl + s.quality * (line(SAT_HV, s.interval, s.v) - hl);
                return;
            }
            s.patch.evaluate(s.interval, s.share, s.v, s.fields, VOLUME + 1);
            if (inRange(s.kind, s.u, s.fields[TEMPERATURE])) {
                out[0] = s.kind == LIQUID
                        ? s.fields[VOLUME]
                        : pressure / (s.fields[VOLUME] * gasConstant * s.fields[TEMPERATURE]);
                out[1] = s.patch.enthalpy(s.interval, s.share, s.v);
                return;
            }
        }
        exact.pressureEntropy(pressure, entropy, s.exact);
        out[0] = s.exact.density();
        out[1] = s.exact.enthalpy();
    }

    /**
     * Temperature, density, entropy, cp, cv and speed of sound at pressure and enthalpy into an array of six, without an object; cp and cv
     * are NaN in the dome. Same numbers as {@link #atPressureEnthalpy}.
     */
    public void lookUp(double pressure, double enthalpy, double[] out) {
        lookUp(pressure, enthalpy, out, FIELDS);
    }

    /** Temperature and density alone: what the inside of a passage asks most. Same numbers as {@link #lookUp}. */
    public void temperatureAndDensity(double pressure, double enthalpy, double[] out) {
        lookUp(pressure, enthalpy, out, VOLUME + 1);
    }

    private void lookUp(double pressure, double enthalpy, double[] out, int count) {
        // as locate and state, written out so that nothing is looked up twice
        int kind;
        double u;
        if (pressure >= pc) {
            kind = SUPER;
            u = QuickLog.of(pressure * perPc);
        } else {
            u = Math.sqrt(Math.max(-QuickLog.of(pressure * perPc), 0));
            double place = u * perSatStep;
            int i = (int) place;
            kind = THIN;
            if (i < satCount - 1 && sat.length > 0) {
                double t = place - i;
                kind = enthalpy >= line(SAT_HV, i, t) ? VAPOUR : enthalpy <= line(SAT_HL, i, t) ? LIQUID : KINDS;
            }
        }
        Patch patch = kind < KINDS && pressure >= lowestPressure && pressure <= highestPressure ? patches[kind] : null;
        if (patch != null) {
            double position = patch.position(u);
            int i = patch.interval(position);
            double share = position - i;
            double v = patch.v(i, share, enthalpy);
            if (v >= -EDGE && v <= 1 + EDGE && !patch.coarse(i, v)) {
                patch.evaluate(i, share, v, out, count);
                if (inRange(kind, u, out[TEMPERATURE])) {
                    if (kind != LIQUID) {
                        out[VOLUME] = pressure / (out[VOLUME] * gasConstant * out[TEMPERATURE]);
                    }
                    if (count > CP) {
                        out[CP] = 1 / out[CP];
                    }
                    return;
                }
            }
        }
        FluidState state = atPressureEnthalpy(pressure, enthalpy);
        out[TEMPERATURE] = state.temperature();
        out[VOLUME] = state.density();
        if (count == VOLUME + 1) {
            return;
        }
        out[ENTROPY] = state.entropy();
        out[CP] = state.cp();
        out[CV] = state.cv();
        out[SOUND] = state.soundSpeed();
    }

    @Override
    public double viscosity(FluidState state) {
        Scratch s = scratch.get();
        if (locate(s, state.pressure(), state.enthalpy(), false)) {
            if (s.kind >= 0) {
                Patch patch = patches[TRANSPORT + s.kind];
                return patch.coarse(s.interval, s.v)
                        ? exact.viscosity(state)
                        : Math.exp(patch.field(s.interval, s.share, s.v, VISCOSITY));
            }
            double liquid = line(SAT_MUL, s.interval, s.v);
            double vapour = line(SAT_MUV, s.interval, s.v);
            return 1 / ((1 - s.quality) / liquid + s.quality / vapour);
        }
        return exact.viscosity(state);
    }

    @Override
    public double conductivity(FluidState state) {
        Scratch s = scratch.get();
        if (locate(s, state.pressure(), state.enthalpy(), false)
                && s.kind >= 0
                && !patches[TRANSPORT + s.kind].coarse(s.interval, s.v)) {
            return patches[TRANSPORT + s.kind].field(s.interval, s.share, s.v, CONDUCTIVITY);
        }
        return exact.conductivity(state);
    }

    /**
     * Temperature and density near a state, for a search to start from: two numbers into the array, or false when the table doesn't hold
     * it.
     */
    boolean guess(double pressure, double value, boolean entropy, double[] out) {
        Scratch s = scratch.get();
        if (!locate(s, pressure, value, entropy) || s.kind < 0) {
            return false;
        }
        s.patch.evaluate(s.interval, s.share, s.v, out, VOLUME + 1);
        if (s.kind != LIQUID) {
            out[1] = pressure / (out[1] * gasConstant * out[0]);
        }
        return true;
    }

    /** Compares the table with the equations at random points of its range. */
    public MeasuredError measure(int points) {
        SplittableRandom random = new SplittableRandom(20240901);
        double[] worst = new double[6];
        int compared = 0;
        int inside = 0;
        StateBuffer b = new StateBuffer();
        double logLow = Math.log(Math.max(lowestPressure, 1));
        double logHigh = Math.log(highestPressure);
        for (int n = 0; n < points; n++) {
            double p = Math.exp(logLow + (logHigh - logLow) * random.nextDouble());
            double t = range.minimumTemperature()
                    * Math.pow(range.maximumTemperature() / range.minimumTemperature(), random.nextDouble());
            try {
                exact.pressureTemperature(p, t, b);
            } catch (PropertyException e) {
                continue; // solid
            }
            Scratch s = scratch.get();
            if (!locate(s, p, b.enthalpy(), false) || s.kind < 0 || !inRange(s.kind, s.u, t)) {
                continue;
            }
            inside++;
            if (!fine(s)) {
                continue;
            }
            compared++;
            FluidState f = atPressureEnthalpy(p, b.enthalpy());
            double temperature = Math.abs(f.temperature() / t - 1);
            double density = Math.abs(f.density() / b.density() - 1);
            if (Math.abs(t / tc - 1) < 0.05 && Math.abs(p / pc - 1) < 0.3) {
                worst[5] = Math.max(worst[5], Math.max(temperature, density));
                continue;
            }
            worst[0] = Math.max(worst[0], temperature);
            worst[1] = Math.max(worst[1], density);
            worst[2] = Math.max(worst[2], Math.abs(f.entropy() - b.entropy()) / b.cp());
            worst[3] = Math.max(worst[3], Math.abs(f.soundSpeed() / b.soundSpeed() - 1));
            worst[4] = Math.max(worst[4], Math.abs(viscosity(f) / exact.viscosityAt(t, b.density()) - 1));
        }
        return new MeasuredError(
                worst[0],
                worst[1],
                worst[2],
                worst[3],
                worst[4],
                worst[5],
                compared,
                1 - (double) compared / Math.max(1, inside));
    }

    // ---- what the equations answer ----

    private FluidState own(FluidState s) {
        return new FluidState(
                this,
                s.pressure(),
                s.temperature(),
                s.density(),
                s.enthalpy(),
                s.entropy(),
                s.cp(),
                s.cv(),
                s.soundSpeed(),
                s.quality(),
                s.phase(),
                s.extrapolated());
    }

    @Override
    public String name() {
        return exact.name();
    }

    @Override
    public double molarMass() {
        return exact.molarMass();
    }

    @Override
    public Map<String, Double> moleFractions() {
        return exact.moleFractions();
    }

    @Override
    public FluidState atPressureTemperature(double pressure, double temperature) {
        return own(exact.atPressureTemperature(pressure, temperature));
    }

    @Override
    public FluidState atDensityTemperature(double density, double temperature) {
        return own(exact.atDensityTemperature(density, temperature));
    }

    @Override
    public FluidState atPressureDensity(double pressure, double density) {
        return own(exact.atPressureDensity(pressure, density));
    }

    @Override
    public FluidState atEnthalpyEntropy(double enthalpy, double entropy) {
        return own(exact.atEnthalpyEntropy(enthalpy, entropy));
    }

    @Override
    public FluidState atTemperatureQuality(double temperature, double quality) {
        return own(exact.atTemperatureQuality(temperature, quality));
    }

    @Override
    public FluidState atPressureQuality(double pressure, double quality) {
        return own(exact.atPressureQuality(pressure, quality));
    }

    @Override
    public FluidState metastable(Phase phase, double pressure, double temperature) {
        return own(exact.metastable(phase, pressure, temperature));
    }

    @Override
    public double idealGasHeatCapacityRatio(double temperature) {
        return exact.idealGasHeatCapacityRatio(temperature);
    }

    @Override
    public double criticalDensity() {
        return exact.criticalDensity();
    }

    @Override
    public double criticalTemperature() {
        return tc;
    }

    @Override
    public double criticalPressure() {
        return pc;
    }

    @Override
    public double tripleTemperature() {
        return exact.tripleTemperature();
    }

    @Override
    public double maximumTemperature() {
        return exact.maximumTemperature();
    }

    @Override
    public double maximumPressure() {
        return exact.maximumPressure();
    }

    @Override
    public double publishedMaximumTemperature() {
        return exact.publishedMaximumTemperature();
    }

    @Override
    public double publishedMaximumPressure() {
        return exact.publishedMaximumPressure();
    }

    @Override
    public String referenceState() {
        return exact.referenceState();
    }

    @Override
    public String equationSource() {
        return exact.equationSource();
    }

    @Override
    public TransportSource transportSource() {
        return exact.transportSource();
    }

    @Override
    public double saturationPressure(double temperature) {
        return exact.saturationPressure(temperature);
    }

    @Override
    public double saturationTemperature(double pressure) {
        return exact.saturationTemperature(pressure);
    }

    @Override
    public double surfaceTension(double temperature) {
        return exact.surfaceTension(temperature);
    }

    @Override
    public double meltingPressure(double temperature) {
        return exact.meltingPressure(temperature);
    }

    @Override
    public double idealGasEnthalpy(double temperature) {
        return exact.idealGasEnthalpy(temperature);
    }

    @Override
    public String toString() {
        return exact.name() + " (table) " + Arrays.asList(range);
    }
}
