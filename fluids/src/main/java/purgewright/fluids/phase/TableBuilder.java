package purgewright.fluids.phase;

import java.util.Arrays;
import purgewright.fluids.Phase;

/** Computes the numbers of a {@link TabulatedFluid} from the equations. */
final class TableBuilder {
    /** Regions reach this much beyond the coldest and the hottest temperature, where splines are at their worst. */
    private static final double BEYOND = 1.005;
    /** Of the exponential along which the coldest temperature rises above the critical pressure. */
    private static final double MOST_BENT = 20;

    private final EmbeddedFluid fluid;
    private final TabulatedFluid.Range range;
    private final double fineness;
    private final double pc;
    private final double tc;
    private final double cold;
    private final double hot;
    /** Of enthalpy's logarithmic distance. */
    private final double scale;

    private final StateBuffer buffer = new StateBuffer();

    /** @param fineness 1 is standard; the error goes with its fourth power */
    TableBuilder(EmbeddedFluid fluid, TabulatedFluid.Range asked, double fineness) {
        this.fluid = fluid;
        this.fineness = fineness;
        pc = fluid.criticalPressure();
        tc = fluid.criticalTemperature();
        range = new TabulatedFluid.Range(
                asked.minimumPressure(),
                Math.min(asked.maximumPressure(), fluid.maximumPressure()),
                Math.max(asked.minimumTemperature(), fluid.tripleTemperature()),
                Math.min(asked.maximumTemperature(), fluid.maximumTemperature()));
        cold = range.minimumTemperature();
        hot = range.maximumTemperature();
        if (!(hot > tc * 1.02)) {
            throw new IllegalArgumentException("a table's highest temperature must lie above the critical one");
        }
        scale = 2 * fluid.equation().gasConstant() * tc;
    }

    TabulatedFluid build() {
        double lowest = Math.sqrt(Math.max(Math.log(pc / Math.min(range.maximumPressure(), pc)), 0));
        double highest = Math.sqrt(Math.max(Math.log(pc / range.minimumPressure()), 0));
        double domeEnd = Math.min(Math.sqrt(Math.log(pc / fluid.triplePressure())), highest);
        if (cold < tc && cold > fluid.tripleTemperature()) {
            domeEnd = Math.min(domeEnd, Math.sqrt(Math.log(pc / fluid.saturationPressure(cold))));
        }
        boolean saturated = cold < tc && domeEnd > lowest + 1e-9;
        if (!saturated) {
            domeEnd = lowest;
        }
        return new TabulatedFluid(
                fluid,
                range,
                saturated ? Dome.of(fluid, domeEnd, 1 + count(300)) : null,
                saturated ? vapour(lowest, domeEnd) : null,
                saturated ? liquid(lowest, domeEnd) : null,
                highest > domeEnd + 1e-9 ? thin(domeEnd, highest) : null,
                range.maximumPressure() > pc ? above() : null);
    }

    private int count(int standard) {
        return Math.max(8, (int) Math.round(standard * fineness));
    }

    private Region vapour(double from, double to) {
        double[] u = nodes(from, to, count(160));
        double[] starts = new double[u.length];
        double[] ends = new double[u.length];
        for (int i = 0; i < u.length; i++) {
            double p = pressure(u[i], 1);
            starts[i] = saturated(p, 1);
            fluid.tableEnd(p, hot * BEYOND, 1, buffer);
            ends[i] = buffer.enthalpy();
        }
        return region(u, starts, ends, same(u.length, cold), 1, scale, 0.013);
    }

    /** On the vapour's nodes of pressure, so that a look-up that asks both for the dome's edges finds its place once. */
    private Region liquid(double from, double to) {
        double[] u = nodes(from, to, count(160));
        double[] starts = new double[u.length];
        double[] ends = new double[u.length];
        for (int i = 0; i < u.length; i++) {
            double p = pressure(u[i], -1);
            starts[i] = saturated(p, 0);
            // the corner at the triple point has no width of its own
            fluid.tableEnd(p, cold / BEYOND, -1, buffer);
            ends[i] = buffer.enthalpy();
        }
        return region(u, starts, ends, same(u.length, melted(pc)), -1, scale, 0.005);
    }

    /** Vapour below the pressure of the saturation line's cold end. */
    private Region thin(double from, double to) {
        double[] u = nodes(from, to, count(40));
        double[] starts = new double[u.length];
        double[] ends = new double[u.length];
        for (int i = 0; i < u.length; i++) {
            double p = pressure(u[i], 1);
            starts[i] = cold < tc
                    ? fluid.metastable(Phase.GAS, p, cold).enthalpy()
                    : fluid.atPressureTemperature(p, cold).enthalpy();
            fluid.tableEnd(p, hot * BEYOND, 1, buffer);
            ends[i] = buffer.enthalpy();
        }
        return region(u, starts, ends, same(u.length, cold), 1, scale, 0.015);
    }

    private Region above() {
        double[] u = nodes(
                Math.max(0, Math.log(range.minimumPressure() / pc)),
                Math.log(range.maximumPressure() / pc),
                count(140));
        double[] colds = coldest(u);
        double[] starts = new double[u.length];
        double[] ends = new double[u.length];
        for (int i = 0; i < u.length; i++) {
            double p = pressure(u[i], 0);
            fluid.tableEnd(p, colds[i] / BEYOND, 0, buffer);
            starts[i] = buffer.enthalpy();
            fluid.tableEnd(p, hot * BEYOND, 0, buffer);
            ends[i] = buffer.enthalpy();
        }
        // nodes close together at the cold end, where liquid helium is steep
        return region(u, starts, ends, colds, 0, 0.25 * scale, 0.0125);
    }

    /**
     * Coldest temperatures above the critical pressure: from the one at the first node to the one at the last along an exponential of u,
     * as bent as it can be within the fluid. A melting line is hollow over ln p, so that a straight line does.
     */
    private double[] coldest(double[] u) {
        int n = u.length;
        double[] melting = new double[n];
        for (int i = 0; i < n; i++) {
            melting[i] = melted(pressure(u[i], 0));
        }
        double[] best = between(melting[0], melting[n - 1], 0, n);
        double low = 0;
        double high = MOST_BENT;
        for (int trial = 0; trial < 12 && melting[n - 1] > melting[0]; trial++) {
            double bend = 0.5 * (low + high);
            double[] curve = between(melting[0], melting[n - 1], bend, n);
            boolean fluidEverywhere = true;
            for (int i = 1; i < n - 1; i++) {
                fluidEverywhere &= curve[i] >= melting[i];
            }
            if (fluidEverywhere) {
                low = bend;
                best = curve;
            } else {
                high = bend;
            }
        }
        return best;
    }

    private static double[] between(double first, double last, double bend, int n) {
        double[] curve = new double[n];
        for (int i = 0; i < n; i++) {
            double share = i / (n - 1.0);
            curve[i] = first + (last - first) * (bend == 0 ? share : Math.expm1(bend * share) / Math.expm1(bend));
        }
        curve[n - 1] = last;
        return curve;
    }

    private static double[] nodes(double from, double to, int count) {
        double[] u = new double[count];
        for (int i = 0; i < count; i++) {
            u[i] = from + (to - from) / (count - 1) * i;
        }
        return u;
    }

    private static double[] same(int count, double value) {
        double[] values = new double[count];
        Arrays.fill(values, value);
        return values;
    }

    private double saturated(double p, double quality) {
        return fluid.atPressureQuality(Math.max(Math.min(p, pc), fluid.triplePressure()), quality)
                .enthalpy();
    }

    /** Lowest temperature of the fluid at a pressure, a little inside the melting line. */
    private double melted(double pressure) {
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

    private double pressure(double u, int side) {
        return side == 0
                ? Math.min(pc * Math.exp(u), fluid.maximumPressure())
                : pc * Math.min(Math.exp(-u * u), 1 - 1e-8);
    }

    /**
     * Fills a region between two lines of enthalpy.
     *
     * @param side -1 liquid, 1 vapour, 0 above the critical pressure
     * @param own scale of the distance of enthalpy: nodes are close together within it, then ever wider
     * @param spacing largest distance of nodes in the logarithm of the distance from the first line, at standard fineness
     */
    private Region region(
            double[] u, double[] starts, double[] ends, double[] colds, int side, double own, double spacing) {
        int sign = side < 0 ? -1 : 1;
        double widest = 0;
        double[] extent = new double[u.length];
        for (int i = 0; i < u.length; i++) {
            extent[i] = Grid.extent(starts[i], ends[i], own);
            widest = Math.max(widest, extent[i]);
        }
        int n = Math.max(8, 1 + (int) Math.ceil(widest / (spacing / fineness)));
        double step = (u[u.length - 1] - u[0]) / (u.length - 1);
        Grid grid = new Grid(u[0], step, n, own, sign, starts, extent, colds);
        double[] volume = new double[u.length * n * Region.VOLUME_FIELDS];
        double[] caloric = new double[u.length * n * Region.CALORIC_FIELDS];
        double[] transport = new double[u.length * n * Region.TRANSPORT_FIELDS];
        int a = 0;
        int b = 0;
        int c = 0;
        for (int i = 0; i < u.length; i++) {
            double p = pressure(u[i], side);
            for (int j = 0; j < n; j++) {
                fluid.tableNode(p, grid.value(i, j), side, j > 0, buffer);
                double t = buffer.temperature();
                double rho = buffer.density();
                volume[a++] = t;
                volume[a++] = side < 0 ? rho : rho / p;
                caloric[b++] = buffer.entropy();
                caloric[b++] = 1 / buffer.cp();
                caloric[b++] = buffer.cv();
                caloric[b++] = buffer.soundSpeed();
                transport[c++] = Math.log(fluid.viscosityAt(t, rho));
                transport[c++] = fluid.conductivityAt(t, rho);
            }
        }
        Splines calories = Splines.through(u.length, n, Region.CALORIC_FIELDS, caloric);
        Grid byEntropy = byEntropy(grid, caloric, colds);
        return new Region(
                grid,
                Splines.through(u.length, n, Region.VOLUME_FIELDS, volume),
                calories,
                Splines.through(u.length, n, Region.TRANSPORT_FIELDS, transport),
                byEntropy,
                placesByEntropy(byEntropy, calories, caloric),
                side < 0);
    }

    private Grid byEntropy(Grid grid, double[] caloric, double[] colds) {
        int n = grid.vCount;
        double own = 8 * fluid.equation().gasConstant();
        double[] base = new double[grid.uCount];
        double[] extent = new double[grid.uCount];
        for (int i = 0; i < grid.uCount; i++) {
            base[i] = caloric[Region.CALORIC_FIELDS * i * n];
            extent[i] = Grid.extent(base[i], caloric[Region.CALORIC_FIELDS * (i * n + n - 1)], own);
        }
        return new Grid(grid.uStart, grid.uStep, n, own, grid.sign, base, extent, colds);
    }

    private static Splines placesByEntropy(Grid byEntropy, Splines calories, double[] caloric) {
        int n = byEntropy.vCount;
        double[] places = new double[byEntropy.uCount * n];
        for (int i = 0; i < byEntropy.uCount; i++) {
            int interval = Math.min(i, byEntropy.uCount - 2);
            int row = i * n;
            int j = 0;
            for (int k = 0; k < n; k++) {
                double wanted = byEntropy.value(i, k);
                while (j < n - 2 && byEntropy.sign * (caloric[Region.CALORIC_FIELDS * (row + j + 1)] - wanted) < 0) {
                    j++;
                }
                double first = caloric[Region.CALORIC_FIELDS * (row + j)];
                double next = caloric[Region.CALORIC_FIELDS * (row + j + 1)];
                double start = Math.min(Math.max((wanted - first) / (next - first), 0), 1);
                double found = j + calories.find(interval, i - interval, j, start, 0, wanted);
                places[row + k] = k == 0 ? 0 : k == n - 1 ? n - 1 : found;
            }
        }
        return Splines.through(byEntropy.uCount, n, 1, places);
    }
}
