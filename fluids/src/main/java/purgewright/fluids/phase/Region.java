package purgewright.fluids.phase;

import java.nio.DoubleBuffer;
import java.util.function.IntToDoubleFunction;

/** The states of one side of the dome, or of everything above the critical pressure: splines over pressure and enthalpy. Immutable. */
final class Region {
    /** Relative error of temperature, density, entropy (over cp) and speed of sound that a cell may have; worse ones go to the equations. */
    static final double TOLERANCE = 1e-6;

    /** Relative error of viscosity and conductivity that a cell may have. */
    static final double TRANSPORT_TOLERANCE = 1e-5;

    /** The fourth difference is taken at nodes, not at its largest in the cell. */
    private static final double SAFETY = 2;
    /** One-sided slopes at the ends of a spline are off by more. */
    private static final double EDGE_FACTOR = 4;

    /** Numbers a node: temperature, and density over pressure or, in a liquid, density. */
    static final int VOLUME_FIELDS = 2;
    /** Entropy, 1/cp (finite at the critical point), cv, speed of sound. */
    static final int CALORIC_FIELDS = 4;
    /** Logarithm of viscosity (a cold liquid's is steep), conductivity. */
    static final int TRANSPORT_FIELDS = 2;

    final Grid grid;
    final Splines volume;
    final Splines caloric;
    final Splines transport;
    /** Over pressure and entropy: the place over enthalpy, near enough for Newton's method to end in a step or two. */
    final Grid byEntropy;

    final Splines placeByEntropy;
    /** Whether the second field of volume is density. */
    final boolean liquid;

    private final int cells;
    private final long[] coarse;
    private final long[] coarseTransport;

    Region(
            Grid grid,
            Splines volume,
            Splines caloric,
            Splines transport,
            Grid byEntropy,
            Splines placeByEntropy,
            boolean liquid) {
        this.grid = grid;
        this.volume = volume;
        this.caloric = caloric;
        this.transport = transport;
        this.byEntropy = byEntropy;
        this.placeByEntropy = placeByEntropy;
        this.liquid = liquid;
        cells = grid.vCount;
        double[] volumes = volume.values();
        double[] calories = caloric.values();
        double[] carried = transport.values();
        double[] errors = new double[grid.uCount * grid.vCount];
        raise(errors, volumes, VOLUME_FIELDS, 0, node -> Math.abs(volumes[VOLUME_FIELDS * node]));
        raise(errors, volumes, VOLUME_FIELDS, 1, node -> Math.abs(volumes[VOLUME_FIELDS * node + 1]));
        raise(errors, calories, CALORIC_FIELDS, 0, node -> 1 / calories[CALORIC_FIELDS * node + 1]);
        raise(errors, calories, CALORIC_FIELDS, 3, node -> Math.abs(calories[CALORIC_FIELDS * node + 3]));
        coarse = mark(errors, TOLERANCE);
        errors = new double[errors.length];
        raise(errors, carried, TRANSPORT_FIELDS, 0, node -> 1);
        raise(errors, carried, TRANSPORT_FIELDS, 1, node -> Math.abs(carried[TRANSPORT_FIELDS * node + 1]));
        coarseTransport = mark(errors, TRANSPORT_TOLERANCE);
    }

    /** Whether the splines of states are off by more than the tolerance in a cell. */
    boolean coarse(int i, int j) {
        int cell = i * cells + j;
        return (coarse[cell >> 6] >>> cell & 1) != 0;
    }

    /** Whether those of viscosity and conductivity are. */
    boolean coarseTransport(int i, int j) {
        int cell = i * cells + j;
        return (coarseTransport[cell >> 6] >>> cell & 1) != 0;
    }

    /**
     * Raises each node's error to that of one field: the error term of a cubic spline, a 384th of the fourth difference of neighbouring
     * nodes, over u and over v together.
     *
     * @param scale what a field's error is measured by at a node
     */
    private void raise(double[] errors, double[] values, int fields, int field, IntToDoubleFunction scale) {
        int nodes = grid.vCount;
        for (int i = 0; i < grid.uCount; i++) {
            for (int j = 0; j < nodes; j++) {
                int node = i * nodes + j;
                double error = fourth(values, node * fields + field, i, grid.uCount, nodes * fields)
                        + fourth(values, node * fields + field, j, nodes, fields);
                double share = SAFETY / 384 * error / scale.applyAsDouble(node);
                errors[node] = Math.max(errors[node], share); // NaN stays
            }
        }
    }

    /** Largest fourth difference of a field about a node; at the ends the nearest there is, where a spline is worse too. */
    private static double fourth(double[] values, int at, int index, int count, int step) {
        int middle = at + (Math.max(2, Math.min(count - 3, index)) - index) * step;
        double difference = values[middle - 2 * step]
                - 4 * values[middle - step]
                + 6 * values[middle]
                - 4 * values[middle + step]
                + values[middle + 2 * step];
        return (index < 2 || index > count - 3 ? EDGE_FACTOR : 1) * Math.abs(difference);
    }

    /** One bit a cell, set where a corner's error is above the tolerance. */
    private long[] mark(double[] errors, double tolerance) {
        int nodes = grid.vCount;
        long[] marks = new long[((grid.uCount * nodes) >> 6) + 1];
        for (int i = 0; i < grid.uCount - 1; i++) {
            for (int j = 0; j < nodes - 1; j++) {
                int at = i * nodes + j;
                double worst = Math.max(
                        Math.max(errors[at], errors[at + 1]), Math.max(errors[at + nodes], errors[at + nodes + 1]));
                if (!(worst <= tolerance)) {
                    marks[at >> 6] |= 1L << at;
                }
            }
        }
        return marks;
    }

    /**
     * Place over enthalpy at which the entropy spline has a value; NaN where the region does not hold it.
     *
     * @param i interval of u
     * @param s share of it
     * @param distance of the entropy from the base line, above -1
     */
    double placeOfEntropy(int i, double s, double distance, double entropy) {
        double there = byEntropy.place(i, s, distance);
        if (!byEntropy.holds(there)) {
            return Double.NaN;
        }
        double cell = byEntropy.cell(there);
        double place = placeByEntropy.at(i, s, Grid.index(cell), Grid.share(there, cell), 0);
        for (int n = 0; n < 3; n++) {
            cell = grid.cell(place);
            int j = Grid.index(cell);
            double share = caloric.find(i, s, j, Grid.share(place, cell), 0, entropy);
            place = j + share;
            if (share >= 0 && share <= 1) {
                break;
            }
        }
        return place;
    }

    int size() {
        int numbers = grid.size() + byEntropy.size() + coarse.length + coarseTransport.length;
        for (Splines splines : new Splines[] {volume, caloric, transport, placeByEntropy}) {
            numbers += splines.size();
        }
        return numbers;
    }

    /** Numbers that {@link #write} needs. */
    int stored() {
        int numbers = 1 + grid.stored() + byEntropy.stored();
        for (Splines splines : new Splines[] {volume, caloric, transport, placeByEntropy}) {
            numbers += splines.stored();
        }
        return numbers;
    }

    void write(DoubleBuffer out) {
        out.put(liquid ? 1 : 0);
        grid.write(out);
        volume.write(out);
        caloric.write(out);
        transport.write(out);
        byEntropy.write(out);
        placeByEntropy.write(out);
    }

    static Region read(DoubleBuffer in) {
        boolean liquid = in.get() != 0;
        Grid grid = Grid.read(in);
        Splines volume = Splines.read(in);
        Splines caloric = Splines.read(in);
        Splines transport = Splines.read(in);
        Grid byEntropy = Grid.read(in);
        return new Region(grid, volume, caloric, transport, byEntropy, Splines.read(in), liquid);
    }
}
