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
 * <p>Three regions of bicubic splines meet at the dome and at the critical pressure: vapour and liquid below it, everything above it.
 * Below, the coordinate of pressure is {@code sqrt(ln(pc/p))}, in which both sides of the dome are smooth up to the critical point;
 * above, {@code ln(p/pc)}. Inside the dome states are mixed from splines of the saturation line. Inside a region the splines are twice
 * continuously differentiable; across its edges they agree within the measured error. Limits of temperature, and cells in which the
 * splines are not within 1e-6, are left to the equations. Immutable; threads may share it.
 */
public final class TabulatedFluid implements PureFluid {
    /** Raised whenever the layout or what is computed changes, so that cached tables of another version are not read. */
    static final int VERSION = 3;

    // what a look-up gives, in this order
    static final int TEMPERATURE = 0;
    static final int DENSITY = 1;
    static final int ENTROPY = 2;
    static final int CP = 3;
    static final int CV = 4;
    static final int SOUND = 5;
    static final int FIELDS = 6;

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
    private final double tc;
    private final double pc;
    private final double perPc;
    private final double criticalEnthalpy;
    private final double criticalEntropy;
    private final double lowestPressure;
    private final double highestPressure;
    private final double hottest;
    // null where the range has none
    private final Dome dome;
    private final Region vapour;
    private final Region liquid;
    /** Vapour below the pressure of the saturation line's cold end. */
    private final Region thin;

    private final Region above;
    /** The dome's end in the coordinate of pressure. */
    private final double domeEnd;

    private final ThreadLocal<Scratch> scratch = ThreadLocal.withInitial(Scratch::new);

    /** Where the last {@link #locate} found a state. */
    private static final class Scratch {
        final StateBuffer exact = new StateBuffer();
        final double[] fields = new double[FIELDS];
        /** Null in the dome. */
        Region region;
        /** Coordinate of pressure. */
        double u;

        int interval;
        double share;
        double place;
        double quality;

        void look(int count) {
            double cell = region.grid.cell(place);
            int j = Grid.index(cell);
            if (count > DENSITY + 1) {
                region.volume.six(region.caloric, interval, share, j, Grid.share(place, cell), fields);
            } else {
                region.volume.pair(interval, share, j, Grid.share(place, cell), fields);
            }
        }
    }

    TabulatedFluid(
            EmbeddedFluid exact, Range range, Dome dome, Region vapour, Region liquid, Region thin, Region above) {
        this.exact = exact;
        this.range = range;
        this.dome = dome;
        this.vapour = vapour;
        this.liquid = liquid;
        this.thin = thin;
        this.above = above;
        tc = exact.criticalTemperature();
        pc = exact.criticalPressure();
        perPc = 1 / pc;
        criticalEnthalpy = exact.criticalEnthalpy();
        criticalEntropy = exact.criticalEntropy();
        lowestPressure = Math.max(range.minimumPressure(), 0);
        highestPressure = range.maximumPressure();
        hottest = range.maximumTemperature();
        domeEnd = dome == null ? Double.NEGATIVE_INFINITY : dome.end();
    }

    /** Numbers that {@link #write} needs. */
    int stored() {
        int numbers = 4 + 5 + (dome == null ? 0 : dome.stored());
        for (Region region : regions()) {
            numbers += region == null ? 0 : region.stored();
        }
        return numbers;
    }

    private Region[] regions() {
        return new Region[] {vapour, liquid, thin, above};
    }

    void write(DoubleBuffer out) {
        out.put(range.minimumPressure()).put(range.maximumPressure());
        out.put(range.minimumTemperature()).put(range.maximumTemperature());
        out.put(dome == null ? 0 : 1);
        if (dome != null) {
            dome.write(out);
        }
        for (Region region : regions()) {
            out.put(region == null ? 0 : 1);
            if (region != null) {
                region.write(out);
            }
        }
    }

    static TabulatedFluid read(EmbeddedFluid fluid, DoubleBuffer in) {
        Range range = new Range(in.get(), in.get(), in.get(), in.get());
        Dome dome = in.get() == 0 ? null : Dome.read(fluid, in);
        Region[] regions = new Region[4];
        for (int i = 0; i < regions.length; i++) {
            regions[i] = in.get() == 0 ? null : Region.read(in);
        }
        return new TabulatedFluid(fluid, range, dome, regions[0], regions[1], regions[2], regions[3]);
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
        long numbers = dome == null ? 0 : dome.size();
        for (Region region : regions()) {
            numbers += region == null ? 0 : region.size();
        }
        return Double.BYTES * numbers;
    }

    /** Builds a table of standard fineness; takes some tenths of a second. */
    public static TabulatedFluid build(EmbeddedFluid fluid, Range range) {
        return build(fluid, range, 1);
    }

    /**
     * Builds a table.
     *
     * @param fineness 1 is standard; the error goes with its fourth power
     */
    public static TabulatedFluid build(EmbeddedFluid fluid, Range range, double fineness) {
        return new TableBuilder(fluid, range, fineness).build();
    }

    // ---- looking up ----

    /**
     * Where an enthalpy or entropy lies at a pressure; false when it is not in the table. The edges of the dome are those of the regions
     * on both sides of it.
     */
    private boolean locate(Scratch s, double pressure, double value, boolean entropy) {
        if (!(pressure >= lowestPressure && pressure <= highestPressure)) {
            return false;
        }
        Region region;
        double u;
        if (pressure >= pc) {
            u = QuickLog.of(pressure * perPc);
            region = above;
        } else {
            u = root(-QuickLog.of(pressure * perPc));
            // most likely side first
            region = u > domeEnd ? thin : value >= (entropy ? criticalEntropy : criticalEnthalpy) ? vapour : liquid;
        }
        if (region == null) {
            return false;
        }
        Grid grid = entropy ? region.byEntropy : region.grid;
        double position = grid.position(u);
        double whole = grid.interval(position);
        int i = Grid.index(whole);
        double share = Grid.share(position, whole);
        double distance = grid.distance(i, share, value);
        if (distance < 0 && pressure < pc && u <= domeEnd) {
            region = region == vapour ? liquid : vapour;
            grid = entropy ? region.byEntropy : region.grid;
            distance = grid.distance(i, share, value);
            if (distance < 0) {
                s.region = null;
                s.u = u;
                s.quality = dome.quality(u, value, entropy);
                return true;
            }
        }
        if (!(distance > -1)) {
            return false;
        }
        s.region = region;
        s.u = u;
        s.interval = i;
        s.share = share;
        s.place = entropy ? region.placeOfEntropy(i, share, distance, value) : grid.place(i, share, distance);
        return region.grid.holds(s.place);
    }

    /** At the critical pressure rounding may make the logarithm negative. */
    private static double root(double x) {
        return x > 0 ? Math.sqrt(x) : 0;
    }

    /** Whether the located place lies in a cell that is within the tolerance. */
    private static boolean fine(Scratch s) {
        return !s.region.coarse(s.interval, Grid.index(s.region.grid.cell(s.place)));
    }

    /** Limits of temperature are left to the equations, which know them. */
    private boolean inRange(Region region, int interval, double share, double temperature) {
        return temperature >= region.grid.coldest(interval, share) && temperature <= hottest;
    }

    private static double density(Region region, double pressure, double field) {
        return region.liquid ? field : pressure * field;
    }

    /** Fills the scratch's fields with the state that was located; false when the equations have to answer. */
    private boolean look(Scratch s, double pressure, int count) {
        if (s.region == null) {
            dome.state(s.u, pressure, s.quality, s.fields, count > DENSITY + 1);
            return true;
        }
        if (!fine(s)) {
            return false;
        }
        s.look(count);
        double[] f = s.fields;
        f[DENSITY] = density(s.region, pressure, f[DENSITY]);
        f[CP] = 1 / f[CP];
        return inRange(s.region, s.interval, s.share, f[TEMPERATURE]);
    }

    @Override
    public void atPressureEnthalpy(double pressure, double enthalpy, FluidState near, StateBuffer out) {
        Scratch s = scratch.get();
        if (locate(s, pressure, enthalpy, false) && look(s, pressure, FIELDS)) {
            state(s, pressure, enthalpy, s.fields[ENTROPY], out);
        } else {
            exact.pressureEnthalpy(pressure, enthalpy, out);
        }
    }

    @Override
    public void atPressureEntropy(double pressure, double entropy, FluidState near, StateBuffer out) {
        Scratch s = scratch.get();
        if (locate(s, pressure, entropy, true) && look(s, pressure, FIELDS)) {
            state(s, pressure, enthalpy(s), entropy, out);
        } else {
            exact.pressureEntropy(pressure, entropy, out);
        }
    }

    private void state(Scratch s, double pressure, double enthalpy, double entropy, StateBuffer out) {
        double[] f = s.fields;
        double t = f[TEMPERATURE];
        Phase phase = s.region == null
                ? Phase.TWO_PHASE
                : s.region == liquid
                        ? Phase.LIQUID
                        : s.region != above ? Phase.GAS : t < tc ? Phase.LIQUID : Phase.SUPERCRITICAL;
        out.pressure = pressure;
        out.temperature = t;
        out.density = f[DENSITY];
        out.enthalpy = enthalpy;
        out.entropy = entropy;
        out.cp = f[CP];
        out.cv = f[CV];
        out.soundSpeed = f[SOUND];
        out.pressureByTemperature = Double.NaN;
        out.quality = phase == Phase.TWO_PHASE ? s.quality : phase == Phase.LIQUID ? 0 : 1;
        out.phase = phase;
        out.extrapolated = t > exact.publishedMaximumTemperature() || pressure > exact.publishedMaximumPressure();
    }

    /** Enthalpy of the place that was located. */
    private double enthalpy(Scratch s) {
        return s.region == null ? dome.enthalpy(s.u, s.quality) : s.region.grid.value(s.interval, s.share, s.place);
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
        // as in lookUp
        Region region = null;
        double u = 0;
        if (pressure >= pc) {
            u = QuickLog.of(pressure * perPc);
            region = above;
        } else if (pressure >= lowestPressure) {
            u = root(-QuickLog.of(pressure * perPc));
            region = u > domeEnd ? thin : entropy >= criticalEntropy ? vapour : liquid;
        }
        if (region != null && pressure <= highestPressure) {
            Grid grid = region.grid;
            double position = grid.position(u);
            double whole = grid.interval(position);
            int i = Grid.index(whole);
            double share = Grid.share(position, whole);
            double distance = region.byEntropy.distance(i, share, entropy);
            if (distance >= 0) {
                double place = region.placeOfEntropy(i, share, distance, entropy);
                double cell = grid.cell(place);
                int j = Grid.index(cell);
                if (grid.holds(place) && !region.coarse(i, j)) {
                    region.volume.pair(i, share, j, Grid.share(place, cell), out);
                    if (inRange(region, i, share, out[TEMPERATURE])) {
                        out[0] = density(region, pressure, out[DENSITY]);
                        out[1] = grid.value(i, share, place);
                        return;
                    }
                }
            }
        }
        isentropeRarely(pressure, entropy, out);
    }

    private void isentropeRarely(double pressure, double entropy, double[] out) {
        Scratch s = scratch.get();
        if (locate(s, pressure, entropy, true) && look(s, pressure, DENSITY + 1)) {
            out[0] = s.fields[DENSITY];
            out[1] = enthalpy(s);
            return;
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
        lookUp(pressure, enthalpy, out, true);
    }

    /** Temperature and density alone: what the inside of a passage asks most. Same numbers as {@link #lookUp}. */
    public void temperatureAndDensity(double pressure, double enthalpy, double[] out) {
        lookUp(pressure, enthalpy, out, false);
    }

    private void lookUp(double pressure, double enthalpy, double[] out, boolean all) {
        // as locate and look, written out for what is met most: one place after another, without a scratch
        Region region = null;
        double u = 0;
        if (pressure >= pc) {
            u = QuickLog.of(pressure * perPc);
            region = above;
        } else if (pressure >= lowestPressure) {
            u = root(-QuickLog.of(pressure * perPc));
            region = u > domeEnd ? thin : enthalpy >= criticalEnthalpy ? vapour : liquid;
        }
        if (region != null && pressure <= highestPressure) {
            Grid grid = region.grid;
            double position = grid.position(u);
            double whole = grid.interval(position);
            int i = Grid.index(whole);
            double share = Grid.share(position, whole);
            double distance = grid.distance(i, share, enthalpy);
            if (distance >= 0) {
                double place = grid.place(i, share, distance);
                double cell = grid.cell(place);
                int j = Grid.index(cell);
                if (grid.holds(place) && !region.coarse(i, j)) {
                    if (all) {
                        region.volume.six(region.caloric, i, share, j, Grid.share(place, cell), out);
                        out[CP] = 1 / out[CP];
                    } else {
                        region.volume.pair(i, share, j, Grid.share(place, cell), out);
                    }
                    if (inRange(region, i, share, out[TEMPERATURE])) {
                        out[DENSITY] = density(region, pressure, out[DENSITY]);
                        return;
                    }
                }
            }
        }
        lookUpRarely(pressure, enthalpy, out, all);
    }

    /** In the dome, at the edges, beyond the table. */
    private void lookUpRarely(double pressure, double enthalpy, double[] out, boolean all) {
        Scratch s = scratch.get();
        if (locate(s, pressure, enthalpy, false) && look(s, pressure, all ? FIELDS : DENSITY + 1)) {
            System.arraycopy(s.fields, 0, out, 0, all ? FIELDS : DENSITY + 1);
            return;
        }
        exact.pressureEnthalpy(pressure, enthalpy, s.exact);
        out[TEMPERATURE] = s.exact.temperature();
        out[DENSITY] = s.exact.density();
        if (all) {
            out[ENTROPY] = s.exact.entropy();
            out[CP] = s.exact.cp();
            out[CV] = s.exact.cv();
            out[SOUND] = s.exact.soundSpeed();
        }
    }

    @Override
    public double viscosity(FluidState state) {
        double known = viscosity(state.pressure(), state.enthalpy());
        return Double.isNaN(known) ? exact.viscosity(state) : known;
    }

    @Override
    public double viscosity(StateBuffer state) {
        double known = viscosity(state.pressure, state.enthalpy);
        return Double.isNaN(known) ? exact.viscosity(state) : known;
    }

    /** By the table; NaN where that does not say. */
    private double viscosity(double pressure, double enthalpy) {
        Scratch s = scratch.get();
        if (!locate(s, pressure, enthalpy, false)) {
            return Double.NaN;
        }
        if (s.region == null) {
            return dome.viscosity(s.u, s.quality);
        }
        double cell = s.region.grid.cell(s.place);
        int j = Grid.index(cell);
        return s.region.coarseTransport(s.interval, j)
                ? Double.NaN
                : QuickLog.exp(s.region.transport.at(s.interval, s.share, j, Grid.share(s.place, cell), 0));
    }

    @Override
    public double conductivity(FluidState state) {
        Scratch s = scratch.get();
        if (locate(s, state.pressure(), state.enthalpy(), false) && s.region != null) {
            double cell = s.region.grid.cell(s.place);
            int j = Grid.index(cell);
            if (!s.region.coarseTransport(s.interval, j)) {
                return s.region.transport.at(s.interval, s.share, j, Grid.share(s.place, cell), 1);
            }
        }
        return exact.conductivity(state);
    }

    /**
     * Temperature and density near a state, for a search to start from: two numbers into the array, or false when the table doesn't hold
     * it.
     */
    boolean guess(double pressure, double value, boolean entropy, double[] out) {
        Scratch s = scratch.get();
        if (!locate(s, pressure, value, entropy) || s.region == null) {
            return false;
        }
        s.look(DENSITY + 1);
        out[0] = s.fields[TEMPERATURE];
        out[1] = density(s.region, pressure, s.fields[DENSITY]);
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
            if (!locate(s, p, b.enthalpy(), false) || s.region == null || !inRange(s.region, s.interval, s.share, t)) {
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
