package purgewright.sealflow.network;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import purgewright.fluids.FluidState;
import purgewright.fluids.PropertyException;
import purgewright.sealflow.passage.PassageFlow;

/**
 * Derivatives of a network's balances by its unknowns (ln p, h, stream fractions of each free cavity), and their factored matrix.
 *
 * <p>A passage depends on its two end states alone, so its derivatives are taken by differences of the passage itself: by the
 * upstream ln p, h and composition and by the downstream ln p. The downstream enthalpy and composition cannot move the flow (what
 * flows is the upstream fluid), nor can the downstream pressure of a choked passage. Everything that is bilinear (convection,
 * diffusion, walls) is exact.
 */
final class Linearized {
    /** Enthalpy unit of the unknowns and of the energy rows, J/kg: makes the matrix's entries comparable. */
    static final double ENTHALPY_UNIT = 2e5;

    /** What is kept of the passages' flows while states change. */
    enum Held {
        NOTHING,
        MASSES,
        MOLES
    }

    private static final int CHORD_ROUNDS = 5;
    private static final double PRESSURE_STEP = 2e-6;
    /** For a passage whose ends differ by less than a hundred of the other: its law bends within a hundred thousandth. */
    private static final double FINE_STEP = 3e-8;

    private static final double ENTHALPY_STEP = 3.0;
    private static final double FRACTION_STEP = 1e-5;
    /** Below this share a stream's effect on the flow is left out of the derivatives (never out of the balances). */
    private static final double ACTIVE_FRACTION = 1e-5;

    /** Share of a step that must lie across the earlier ones for the slopes along those to be kept. */
    private static final double NEW_WAY = 0.1;

    /** Step, in column units, below which a change of the flow is rounding. */
    private static final double LEAST_WAY = 1e-10;

    private final Network net;
    private final int size;
    private final double activeFraction;
    private final BlockMatrix matrix;
    /** d massFlow by (ln p, h, y_1 ...) at the from end, then the to end, by link. */
    final double[][] flowSlope;

    /** d heat by the same: what reaches the from end, then what reaches the to end. */
    final double[][] heatSlope;
    /** d windage by (ln p, h, y ...) and d temperature likewise, by unknown cavity. */
    private final double[][] windageSlope;

    private final double[][] temperatureSlope;
    private final double[][] densitySlope;
    private final double[][] openSlope;
    private final double[][] crossingByFlow;
    /** By how far the way is open, 0 to 1. */
    private final double[][] crossingByOpening;

    private final double[][] crossingByFraction;
    private final double[][] diffused;
    private final double[] crossing;
    /** Enthalpy and fractions of what leaves the upstream cavity by its unknowns, by link; null where it is what the cavity holds. */
    private final double[][][] leavingSlope;

    /** Ways that each link's ends have gone since its slopes were taken, of length one and across each other, in column units. */
    private final List<List<double[]>> gone;

    private final boolean[] chord;
    private final boolean[] shut;
    private final double[] scale;
    private final FluidState[][] perturbed;
    private final FluidState[] nudged;
    private final double[][] steps;
    private Held held = Held.NOTHING;
    private boolean heldOpenings;

    Linearized(Network net) {
        this(net, ACTIVE_FRACTION);
    }

    /** @param activeFraction below this share, and above the rest of it, a stream's effect on flows and densities is left out */
    Linearized(Network net, double activeFraction) {
        this.net = net;
        this.activeFraction = activeFraction;
        size = 2 + net.streams;
        int[] a = Arrays.copyOf(unknowns(net.from), net.links + net.wallAt.length);
        int[] b = Arrays.copyOf(unknowns(net.to), net.links + net.wallAt.length);
        for (int w = 0; w < net.wallAt.length; w++) {
            a[net.links + w] = net.unknown[net.wallAt[w]];
            b[net.links + w] = net.wallOther[w] < 0 ? -1 : net.unknown[net.wallOther[w]];
        }
        matrix = new BlockMatrix(net.cavityOf.length, size, a, b);
        flowSlope = new double[net.links][2 * size];
        heatSlope = new double[net.links][4 * size];
        windageSlope = new double[net.cavities][size];
        densitySlope = new double[net.cavities][size];
        temperatureSlope = new double[net.cavities][size];
        openSlope = new double[net.cavities][size];
        crossingByFlow = new double[net.links][net.streams + 1];
        crossingByOpening = new double[net.links][net.streams + 1];
        crossingByFraction = new double[net.links][2 * net.streams * (net.streams + 1)];
        diffused = new double[net.links][net.streams];
        crossing = new double[net.streams + 1];
        leavingSlope = new double[net.links][][];
        gone = new ArrayList<>(net.links);
        for (int l = 0; l < net.links; l++) {
            gone.add(new ArrayList<>());
        }
        chord = new boolean[net.links];
        shut = new boolean[net.links];
        scale = new double[net.cavities];
        perturbed = new FluidState[net.cavities][size];
        nudged = new FluidState[net.cavities];
        steps = new double[net.cavities][size];
    }

    private int[] unknowns(int[] ends) {
        int[] result = new int[ends.length];
        for (int l = 0; l < ends.length; l++) {
            result[l] = net.unknown[ends[l]];
        }
        return result;
    }

    /** Flow by which a cavity's residuals are measured, kg/s. */
    double scale(int i) {
        return scale[i];
    }

    void setScales(Iterate x) {
        setScales(x, new double[scale.length]);
    }

    /** @param floor by cavity, kg/s */
    void setScales(Iterate x, double[] floor) {
        for (int i : net.cavityOf) {
            scale[i] =
                    Math.max(Math.max(x.through[i], 1e-9 * x.largestFlow), Math.max(floor[i], 1e-6 * Descent.NO_FLOW));
        }
    }

    /** Norm of the scaled residuals; the scales are those of the last {@link #setScales}. */
    double norm(Iterate x) {
        double sum = 0;
        for (int i : net.cavityOf) {
            double s = scale[i];
            double m = x.mass[i] / s;
            double e = x.held(i) ? 0 : x.energy[i] / (s * ENTHALPY_UNIT);
            sum += m * m + e * e;
            for (int k = 0; k < net.streams; k++) {
                double y = x.stream[i][k] / s;
                sum += y * y;
            }
        }
        return Math.sqrt(sum);
    }

    /** Takes all derivatives afresh by differences. */
    void differentiate(Iterate x) {
        forget();
        for (int i : net.cavityOf) {
            perturb(x, i);
        }
        for (int l = 0; l < net.links; l++) {
            if (net.flowing[l]) {
                differentiate(x, l);
                differentiateLeaving(x, l);
                if (x.conductance[l] != null) {
                    differentiateDiffusion(x, l);
                }
            }
        }
    }

    private void forget() {
        for (List<double[]> ways : gone) {
            ways.clear();
        }
    }

    /** Takes only what enthalpies and mixtures need when the flows are held: temperatures, windage, diffusion. */
    void differentiateStates(Iterate x) {
        for (int i : net.cavityOf) {
            perturb(x, i);
        }
        for (int l = 0; l < net.links; l++) {
            if (net.flowing[l]) {
                differentiateLeaving(x, l);
            }
            if (net.flowing[l] && x.conductance[l] != null) {
                differentiateDiffusion(x, l);
            }
        }
    }

    /**
     * The step of enthalpies and mixtures at the flows as they are, pressures unmoved.
     *
     * @param held what is kept of the flows
     * @param damping share of each cavity's through-flow by which it keeps what it holds
     * @param way whether that is a share of what its wall to the outside gives back too, and how far ways are open is held
     * @param given steps of enthalpy that are given in place of the energy balance, J/kg by unknown cavity, NaN where none is
     * @return null when the matrix is singular
     */
    double[] stepOfStates(Iterate x, Held held, double[] damping, Alternation.Manner manner, double[] given) {
        this.held = held;
        heldOpenings = manner.aid() == Alternation.Aid.OPENINGS_HELD;
        try {
            assemble(x, 0);
        } finally {
            this.held = Held.NOTHING;
            heldOpenings = false;
        }
        for (int u = 0; u < damping.length; u++) {
            double[] diagonal = matrix.at(u, u);
            for (int v = 1; v < size; v++) {
                diagonal[v * size + v] -= damping[u];
            }
        }
        for (int w = 0; manner.holdsWalls() && w < net.wallAt.length; w++) {
            int i = net.wallAt[w];
            int u = net.unknown[i];
            if (u >= 0 && net.wallOther[w] < 0) {
                // A wall may bring back more than what flows through.
                matrix.at(u, u)[size + 1] -= damping[u] * net.wallConductance[w] * temperatureSlope[i][1] / scale[i];
            }
        }
        for (int u = 0; u < net.cavityOf.length; u++) {
            matrix.clearRow(u, 0);
            matrix.at(u, u)[0] = -1;
        }
        double[] energy = balancedEnergy(x).clone();
        double[][] stream = x.stream;
        if (held == Held.MOLES) {
            stream = new double[net.cavities][];
            for (int u = 0; u < net.cavityOf.length; u++) {
                stream[net.cavityOf[u]] = countMoles(x, u, energy);
            }
        }
        for (int u = 0; u < given.length; u++) {
            if (!Double.isNaN(given[u])) {
                matrix.clearRow(u, 1);
                matrix.at(u, u)[size + 1] = -1;
                energy[net.cavityOf[u]] = given[u] * scale[net.cavityOf[u]];
            }
        }
        if (!matrix.factor()) {
            return null;
        }
        double[] right = solveFor(new double[net.cavities], energy, stream);
        for (double r : right) {
            if (!Double.isFinite(r)) {
                return null;
            }
        }
        return right;
    }

    /**
     * Turns a cavity's balances of mixture and enthalpy, which leave out what its mass changes by, into such as leave out what its moles
     * change by. With S_k what comes in of stream k beyond y_k times all that comes in, and M the molar mass of what the cavity holds:
     *
     * <pre>{@code S'_k = S_k - y_k M sigma,   E' = E - h M sigma,   sigma = sum_j S_j / M_j}</pre>
     *
     * <p>Both are the same once everything is balanced. On the way there a cavity holds so many moles at its pressure and temperature: a light
     * gas that takes a heavy one's place grows with time in its mole fraction, but slowly at first in its mass fraction, and a step of that would be a
     * wrong one.
     *
     * @param energy the cavity's own is changed
     * @return the balances of the streams
     */
    private double[] countMoles(Iterate x, int u, double[] energy) {
        int i = net.cavityOf[u];
        double molar = x.molarMass[i];
        double h = x.enthalpy[i];
        double[] y = x.fraction[i];
        double[] per = net.streamMolarMass;
        boolean warms = !x.held(i);
        double sigma = 0;
        for (int k = 0; k < net.streams; k++) {
            sigma += x.stream[i][k] / per[k];
        }
        double[] t = new double[size * size];
        t[0] = 1;
        t[size + 1] = 1;
        double[] result = new double[net.streams];
        for (int k = 0; k < net.streams; k++) {
            t[(2 + k) * size + 2 + k] = 1;
            for (int j = 0; j < net.streams; j++) {
                // The balances of all streams add up to nothing: taken in again, they keep the sum of the fractions.
                t[(2 + k) * size + 2 + j] += y[k] * (1 - molar / per[j]);
            }
            t[size + 2 + k] = warms ? h * (1 - molar / per[k]) / ENTHALPY_UNIT : 0;
            result[k] = x.stream[i][k] - y[k] * molar * sigma;
        }
        matrix.combineRows(u, t);
        double share = molar * sigma / scale[i];
        double[] diagonal = matrix.at(u, u);
        for (int k = 0; k < net.streams; k++) {
            diagonal[(2 + k) * size + 2 + k] -= share;
            for (int v = 0; v < net.streams; v++) {
                diagonal[(2 + k) * size + 2 + v] += share * y[k] * molar / per[v];
            }
        }
        if (warms) {
            energy[i] -= h * molar * sigma;
            diagonal[size + 1] -= share;
            for (int v = 0; v < net.streams; v++) {
                diagonal[size + 2 + v] += share * h * molar / per[v] / ENTHALPY_UNIT;
            }
        }
        return result;
    }

    /** The slopes as they are, for a later solve. */
    SlopeMemory memory(Iterate x) {
        return SlopeMemory.of(x, flowSlope, heatSlope, temperatureSlope);
    }

    /**
     * Takes the slopes of an earlier solve in place of differences; what costs nothing is taken afresh.
     *
     * @return false when that solve did not know all of them
     */
    boolean recall(SlopeMemory memory, Iterate x) {
        forget();
        if (!memory.recall(x, flowSlope, heatSlope, temperatureSlope)) {
            return false;
        }
        for (int i : net.cavityOf) {
            if (net.cavity[i].disc() != null || x.picksUp(i)) {
                perturb(x, i);
            }
        }
        for (int l = 0; l < net.links; l++) {
            if (net.flowing[l]) {
                differentiateLeaving(x, l);
            }
        }
        for (int l = 0; l < net.links; l++) {
            if (net.flowing[l] && x.conductance[l] != null) {
                differentiateDiffusion(x, l);
            }
        }
        return true;
    }

    /**
     * Brings each passage's slopes up to date with what it did on the last step: Broyden's update, passage by passage, across the ways its
     * ends have gone before (D. M. Gay, R. B. Schnabel, Nonlinear Programming 3 (1978) 245 [from memory]). Costs no evaluation.
     *
     * <pre>{@code
     * b' = b + (dm - b dz) w / (w dz),   w = dz less what of it lies along earlier steps
     * }</pre>
     *
     * <p>dz is what the law feels of a step: all unknowns upstream, the pressure alone downstream, and not that where it is choked.
     *
     * @param before mass flow of each link before the step
     * @param x after the step
     * @param step taken from there
     * @param share of the step that was taken
     */
    void update(double[] before, Iterate x, double[] step, double share) {
        double[] moved = new double[2 * size];
        for (int l = 0; l < net.links; l++) {
            if (!net.flowing[l]) {
                continue;
            }
            double expected = 0;
            for (int side = 0; side < 2; side++) {
                int u = net.unknown[side == 0 ? net.from[l] : net.to[l]];
                boolean upstream = (x.massFlow[l] >= 0) == (side == 0);
                int downstream = x.turns(side == 0 ? net.from[l] : net.to[l], l) ? size : 1;
                int felt = upstream ? size : x.flow[l].choked() ? 0 : downstream;
                for (int v = 0; v < size; v++) {
                    double d = u < 0 ? 0 : share * step[u * size + v];
                    expected += flowSlope[l][side * size + v] * d;
                    moved[side * size + v] = v < felt ? d / columnUnit(v) : 0;
                }
            }
            learn(l, moved, x.massFlow[l] - before[l] - expected);
            if ((leavingSlope[l] != null) != (x.leaving[x.bulk[l] >= 0 ? 2 * l : 2 * l + 1] != null)) {
                perturb(x, x.bulk[l] >= 0 ? net.from[l] : net.to[l]);
                differentiateLeaving(x, l);
            }
            if (x.conductance[l] != null) {
                differentiateDiffusion(x, l);
            }
        }
    }

    /**
     * One passage's slopes, put right.
     *
     * @param moved what the law feels of the step, in column units
     * @param miss by how much its flow changed beyond what the slopes told, kg/s
     */
    private void learn(int l, double[] moved, double miss) {
        double length = norm(moved);
        if (!(length > LEAST_WAY)) {
            return;
        }
        double[] across = moved.clone();
        for (double[] way : gone.get(l)) {
            addTo(across, way, -dot(way, moved));
        }
        double left = norm(across);
        if (left < NEW_WAY * length) {
            gone.get(l).clear();
            System.arraycopy(moved, 0, across, 0, moved.length);
            left = length;
        }
        for (int n = 0; n < 2 * size; n++) {
            across[n] /= left;
        }
        double along = dot(across, moved);
        for (int n = 0; n < 2 * size; n++) {
            flowSlope[l][n] += miss / along * across[n] / columnUnit(n % size);
        }
        gone.get(l).add(across);
    }

    private static double dot(double[] a, double[] b) {
        double sum = 0;
        for (int n = 0; n < a.length; n++) {
            sum += a[n] * b[n];
        }
        return sum;
    }

    private static double norm(double[] a) {
        return Math.sqrt(dot(a, a));
    }

    private static void addTo(double[] a, double[] b, double times) {
        for (int n = 0; n < a.length; n++) {
            a[n] += times * b[n];
        }
    }

    private void perturb(Iterate x, int i) {
        double p = x.pressure[i];
        double h = x.enthalpy[i];
        Arrays.fill(perturbed[i], null);
        nudged[i] = null;
        perturbedState(x, i, 0, p * Math.exp(PRESSURE_STEP), h, PRESSURE_STEP);
        perturbedState(x, i, 1, p, h + ENTHALPY_STEP, ENTHALPY_STEP);
        if (perturbed[i][0] == null) {
            perturbedState(x, i, 0, p * Math.exp(-PRESSURE_STEP), h, -PRESSURE_STEP);
        }
        if (perturbed[i][1] == null) {
            perturbedState(x, i, 1, p, h - ENTHALPY_STEP, -ENTHALPY_STEP);
        }
        for (int k = 0; k < net.streams; k++) {
            if (silent(x.fraction[i][k], activeFraction)) {
                continue;
            }
            try {
                perturbed[i][2 + k] = x.fluidOf(fractions(x, i, 2 + k)).atPressureEnthalpy(p, h, x.state[i]);
                steps[i][2 + k] = FRACTION_STEP;
            } catch (PropertyException e) {
                perturbed[i][2 + k] = null;
            }
        }
        FluidState s = x.state[i];
        for (int v = 0; v < size; v++) {
            FluidState t = perturbed[i][v];
            windageSlope[i][v] = windageSlope(x, i, v, t);
            densitySlope[i][v] = t == null ? 0 : (t.density() - s.density()) / steps[i][v];
            openSlope[i][v] = t == null ? 0 : (Diffusion.openness(t) - x.open[i]) / steps[i][v];
            temperatureSlope[i][v] = t == null ? 0 : (t.temperature() - s.temperature()) / steps[i][v];
        }
    }

    private double windageSlope(Iterate x, int i, int v, FluidState t) {
        try {
            return t == null ? 0 : (x.windage(i, t) - x.windage[i]) / steps[i][v];
        } catch (PropertyException e) {
            return 0;
        }
    }

    /** Fills the state with a hair more pressure, where there is one. */
    private boolean nudge(Iterate x, int i) {
        if (nudged[i] == null) {
            try {
                nudged[i] =
                        x.fluid[i].atPressureEnthalpy(x.pressure[i] * Math.exp(FINE_STEP), x.enthalpy[i], x.state[i]);
            } catch (PropertyException e) {
                return false;
            }
        }
        return true;
    }

    private void perturbedState(Iterate x, int i, int v, double p, double h, double step) {
        try {
            perturbed[i][v] = x.fluid[i].atPressureEnthalpy(p, h, x.state[i]);
            steps[i][v] = step;
        } catch (PropertyException e) {
            perturbed[i][v] = null;
        }
    }

    private void differentiateLeaving(Iterate x, int l) {
        boolean forward = x.bulk[l] >= 0;
        Leaving here = x.leaving[forward ? 2 * l : 2 * l + 1];
        leavingSlope[l] = null;
        if (here == null) {
            return;
        }
        int up = forward ? net.from[l] : net.to[l];
        double[][] slopes = new double[size][1 + net.streams];
        for (int v = 0; v < size; v++) {
            Leaving there = null;
            try {
                there = perturbed[up][v] == null ? null : x.leaving(up, l, perturbed[up][v], fractions(x, up, v));
            } catch (PropertyException e) {
                there = null;
            }
            if (there == null) {
                // As if it were what the cavity holds.
                slopes[v][Math.max(0, v - 1)] = v == 0 ? 0 : 1;
                continue;
            }
            slopes[v][0] = (there.state().enthalpy() - here.state().enthalpy()) / steps[up][v];
            for (int k = 0; k < net.streams; k++) {
                // The step keeps the sum of the fractions; where the sum grows, what leaves grows alike.
                slopes[v][1 + k] =
                        (there.fractions()[k] - here.fractions()[k]) / steps[up][v] + (v < 2 ? 0 : here.fractions()[k]);
            }
        }
        leavingSlope[l] = slopes;
    }

    /** Fractions of a cavity after the step of its unknown v. */
    private double[] fractions(Iterate x, int i, int v) {
        double[] y = x.fraction[i].clone();
        for (int j = 0; v >= 2 && j < y.length; j++) {
            y[j] = y[j] * (1 - FRACTION_STEP) + (j == v - 2 ? FRACTION_STEP : 0);
        }
        return y;
    }

    private void differentiate(Iterate x, int l) {
        double[] slope = flowSlope[l];
        double[] heat = heatSlope[l];
        Arrays.fill(slope, 0);
        Arrays.fill(heat, 0);
        PassageFlow here = x.flow[l];
        boolean forward =
                here.massFlow() > 0 || (here.massFlow() == 0 && x.pressure[net.from[l]] >= x.pressure[net.to[l]]);
        double drop = Math.log(x.endFrom[l].pressure() / x.endTo[l].pressure());
        boolean mirrored = false;
        boolean level = Math.abs(drop) < 20 * FINE_STEP;
        boolean near = Math.abs(drop) < 100 * PRESSURE_STEP;
        for (int side = 0; side < 2; side++) {
            int i = side == 0 ? net.from[l] : net.to[l];
            if (net.unknown[i] < 0) {
                continue;
            }
            boolean upstream = forward == (side == 0);
            int last = upstream ? size : here.choked() ? 0 : 1;
            if (level && !upstream && (net.unknown[side == 0 ? net.to[l] : net.from[l]] >= 0 || drop != 0)) {
                // A step here could turn the flow round, and the slope of the other fluid is another: both ends count
                // alike.
                mirrored = net.unknown[side == 0 ? net.to[l] : net.from[l]] >= 0;
                if (!mirrored) {
                    slope[side * size] = -Math.abs(x.massFlow[l] / drop) * (side == 0 ? -1 : 1);
                    turnHeat(here, heat, side * size, slope[side * size]);
                }
                continue;
            }
            for (int v = 0; v < last; v++) {
                if (v >= 2 && silent(x.fraction[i][v - 2], ACTIVE_FRACTION)) {
                    continue;
                }
                FluidState moved = perturbed[i][v];
                double by = steps[i][v];
                if (v == 0 && near && nudge(x, i)) {
                    moved = nudged[i];
                    by = FINE_STEP;
                }
                if (moved == null) {
                    continue;
                }
                try {
                    FluidState end = x.endState(i, l, moved, fractions(x, i, v));
                    PassageFlow there = side == 0 ? net.flow(l, end, x.endTo[l]) : net.flow(l, x.endFrom[l], end);
                    slope[side * size + v] = (there.massFlow() - here.massFlow()) / by;
                    heat[side * size + v] = (there.heatAtFrom() - here.heatAtFrom()) / by;
                    heat[(2 + side) * size + v] = (there.heatAtTo() - here.heatAtTo()) / by;
                } catch (PropertyException e) {
                    slope[side * size + v] = 0;
                }
            }
        }
        if (mirrored) {
            slope[forward ? size : 0] = -slope[forward ? 0 : size];
            turnHeat(here, heat, forward ? size : 0, slope[forward ? size : 0]);
        }
        followVortex(x, l, forward);
    }

    /**
     * Where a disc's vortex stands between the downstream cavity and the passage, what the cavity holds moves the pressure at the passage's end, and
     * the flow by as much as that pressure does.
     */
    private void followVortex(Iterate x, int l, boolean forward) {
        int side = forward ? 1 : 0;
        int i = forward ? net.to[l] : net.from[l];
        FluidState end = forward ? x.endTo[l] : x.endFrom[l];
        int at = side * size;
        if (!x.turns(i, l) || net.unknown[i] < 0 || flowSlope[l][at] == 0) {
            return;
        }
        double own = endSlope(x, i, l, end, 0);
        for (int v = 1; v < size && own > 0; v++) {
            double share = endSlope(x, i, l, end, v) / own;
            flowSlope[l][at + v] = share * flowSlope[l][at];
            heatSlope[l][at + v] = share * heatSlope[l][at];
            heatSlope[l][at + 2 * size + v] = share * heatSlope[l][at + 2 * size];
        }
    }

    /** What unknown v of a cavity makes of the logarithm of the pressure at a link's end in it. */
    private double endSlope(Iterate x, int i, int l, FluidState end, int v) {
        if (perturbed[i][v] == null || (v >= 2 && silent(x.fraction[i][v - 2], activeFraction))) {
            return 0;
        }
        try {
            FluidState moved = x.endState(i, l, perturbed[i][v], fractions(x, i, v));
            return Math.log(moved.pressure() / end.pressure()) / steps[i][v];
        } catch (PropertyException e) {
            return 0;
        }
    }

    /**
     * Whether a stream is so scarce, or so alone, that its share's effect is left out. On a flow it always is below {@link
     * #ACTIVE_FRACTION}, also where states want it: a trace of gas put into a liquid boils part of it, and the flow through that dome
     * takes fifty times as long as the liquid's.
     */
    private static boolean silent(double fraction, double least) {
        return fraction < least || fraction > 1 - least;
    }

    /** What a change of the flow near rest moves of the heat from the one end to the other. */
    private void turnHeat(PassageFlow here, double[] heat, int by, double slope) {
        double moved = here.heatTurning() * slope;
        heat[by] = -moved;
        heat[2 * size + by] = moved;
    }

    /**
     * Assembles and factors the matrix.
     *
     * @param x where
     * @param damping share of each cavity's through-flow put on the diagonal: a pseudo-transient step; 0 for Newton
     * @return false when the matrix is singular
     */
    boolean factor(Iterate x, double damping) {
        assemble(x, damping);
        return matrix.factor();
    }

    private void assemble(Iterate x, double damping) {
        matrix.clear();
        for (int l = 0; l < net.links; l++) {
            if (net.flowing[l]) {
                addLink(x, l, true);
                addLink(x, l, false);
            }
        }
        for (int i : net.cavityOf) {
            double[] diagonal = matrix.at(net.unknown[i], net.unknown[i]);
            for (int v = 0; v < size; v++) {
                diagonal[size + v] += net.heatShare * windageSlope[i][v] * columnUnit(v) / energyUnit(i);
            }
        }
        for (int w = 0; w < net.wallAt.length; w++) {
            addWall(net.wallAt[w], net.wallOther[w], net.wallConductance[w]);
            if (net.wallOther[w] >= 0) {
                addWall(net.wallOther[w], net.wallAt[w], net.wallConductance[w]);
            }
        }
        for (int i : net.cavityOf) {
            if (x.held(i)) {
                holdTemperature(i);
            }
        }
        for (int i : net.cavityOf) {
            double[] diagonal = matrix.at(net.unknown[i], net.unknown[i]);
            // The floor holds what nothing determines: the pressure between two shut valves, the mixture where nothing
            // moves.
            diagonal[0] -= damping + 1e-9;
            for (int v = 1; v < size; v++) {
                diagonal[v * size + v] -= damping + 1e-12;
            }
        }
    }

    /** In place of the energy balance of a cavity that is held at the end of its fluid's range: its temperature does not change. */
    private void holdTemperature(int i) {
        int u = net.unknown[i];
        matrix.clearRow(u, 1);
        double[] diagonal = matrix.at(u, u);
        double byEnthalpy = temperatureSlope[i][1] * ENTHALPY_UNIT;
        diagonal[size + 1] = -1;
        for (int v = 0; v < size && byEnthalpy > 0; v++) {
            diagonal[size + v] = -temperatureSlope[i][v] * columnUnit(v) / byEnthalpy;
        }
    }

    /**
     * Adds what the cavities hold to an assembled, not yet factored matrix, and factors it: balances less storage over a time.
     *
     * @param volume by cavity, m3
     * @param heldBefore mass that each cavity's balance starts from, kg
     * @param time the implicit share of the time step, s
     */
    boolean factorWithStorage(Iterate x, double[] volume, double[] heldBefore, double time) {
        assemble(x, 0);
        for (int i : net.cavityOf) {
            double[] diagonal = matrix.at(net.unknown[i], net.unknown[i]);
            double s = scale[i];
            for (int v = 0; v < size; v++) {
                diagonal[v] -= volume[i] * densitySlope[i][v] * columnUnit(v) / (time * s);
            }
            diagonal[size] += volume[i] * x.pressure[i] / (time * energyUnit(i));
            diagonal[size + 1] -= heldBefore[i] / (time * s);
            for (int k = 0; k < net.streams; k++) {
                diagonal[(2 + k) * size + 2 + k] -= heldBefore[i] / (time * s);
            }
        }
        return matrix.factor();
    }

    /** Solves with the factored matrix for given balances by cavity: mass, energy, streams; returns the step. */
    double[] solveFor(double[] mass, double[] energy, double[][] stream) {
        double[] right = new double[net.cavityOf.length * size];
        for (int u = 0; u < net.cavityOf.length; u++) {
            int i = net.cavityOf[u];
            right[u * size] = -mass[i] / scale[i];
            right[u * size + 1] = -energy[i] / energyUnit(i);
            for (int k = 0; k < net.streams; k++) {
                right[u * size + 2 + k] = -stream[i][k] / scale[i];
            }
        }
        matrix.solve(right);
        for (int u = 0; u < net.cavityOf.length; u++) {
            right[u * size + 1] *= ENTHALPY_UNIT;
        }
        return right;
    }

    private static double columnUnit(int v) {
        return v == 1 ? ENTHALPY_UNIT : 1;
    }

    private double energyUnit(int i) {
        return scale[i] * ENTHALPY_UNIT;
    }

    private void addWall(int i, int other, double conductance) {
        int row = net.unknown[i];
        if (row < 0) {
            return;
        }
        double[] own = matrix.at(row, row);
        for (int v = 0; v < size; v++) {
            own[size + v] -= conductance * temperatureSlope[i][v] * columnUnit(v) / energyUnit(i);
        }
        if (other >= 0 && net.unknown[other] >= 0) {
            double[] far = matrix.at(row, net.unknown[other]);
            for (int v = 0; v < size; v++) {
                far[size + v] += conductance * temperatureSlope[other][v] * columnUnit(v) / energyUnit(i);
            }
        }
    }

    /** Adds what a link does to the balances of one of its ends. */
    private void addLink(Iterate x, int l, boolean atFrom) {
        int i = atFrom ? net.from[l] : net.to[l];
        int row = net.unknown[i];
        if (row < 0) {
            return;
        }
        int a = net.from[l];
        int b = net.to[l];
        double sign = atFrom ? -1 : 1;
        double m = x.bulk[l];
        int up = m >= 0 ? a : b;
        boolean inflow = up != i;
        double s = scale[i];
        double eUnit = energyUnit(i);
        double[] heat = heatSlope[l];
        boolean diffuses = x.conductance[l] != null;
        double extra = 0;
        for (int k = 0; diffuses && k < net.streams; k++) {
            extra += diffused[l][k];
        }
        for (int side = 0; side < 2; side++) {
            int j = side == 0 ? a : b;
            int column = net.unknown[j];
            if (column < 0) {
                continue;
            }
            double[] block = matrix.at(row, column);
            for (int v = 0; v < size; v++) {
                double unit = columnUnit(v);
                double dm = flowSlope(x, l, side, v);
                if (diffuses) {
                    addDiffusion(x, l, side, v, dm, i, sign, block);
                } else if (dm != 0) {
                    addBulk(x, l, i, sign * dm * unit, v, block);
                }
                double warmed = held == Held.NOTHING ? heat[((atFrom ? 0 : 2) + side) * size + v] : 0;
                if (warmed != 0) {
                    block[size + v] += net.heatShare * warmed * unit / eUnit;
                }
            }
            double weight = j == i ? -sign * extra / s : 0;
            if (leavingSlope[l] != null) {
                weight -= j == i ? sign * m / s : 0;
                if (j == up) {
                    addLeaving(x, l, i, sign * m, block);
                }
            } else if (inflow) {
                weight += (j == up ? 1 : -1) * Math.abs(m) / s;
            }
            block[size + 1] += weight; // both units are ENTHALPY_UNIT
            for (int k = 0; k < net.streams; k++) {
                block[(2 + k) * size + 2 + k] += weight;
            }
        }
    }

    /** What a law's mass flow gains by unknown v of one side. */
    private double flowSlope(Iterate x, int l, int side, int v) {
        if (held == Held.NOTHING) {
            return flowSlope[l][side * size + v];
        }
        if (held == Held.MASSES || v < 2 || (x.massFlow[l] >= 0) != (side == 0)) {
            return 0;
        }
        // So many moles of a heavier mixture are more mass.
        return -x.massFlow[l] * x.molarMass[side == 0 ? net.from[l] : net.to[l]] / net.streamMolarMass[v - 2];
    }

    /** A change of the bulk flow into cavity i, by unknown v. */
    private void addBulk(Iterate x, int l, int i, double change, int v, double[] block) {
        block[v] += change / scale[i];
        double[] carried = x.carriedFractions(l);
        if (carried != x.fraction[i]) {
            block[size + v] += change * (x.carriedEnthalpy(l) - x.enthalpy[i]) / energyUnit(i);
            for (int k = 0; k < net.streams; k++) {
                block[(2 + k) * size + v] += change * (carried[k] - x.fraction[i][k]) / scale[i];
            }
        }
    }

    /** What a link that picks up liquid unevenly carries, by the unknowns of the cavity it leaves, into the balances of cavity i. */
    private void addLeaving(Iterate x, int l, int i, double flow, double[] block) {
        double[][] slopes = leavingSlope[l];
        for (int v = 0; v < size; v++) {
            double unit = flow * columnUnit(v);
            block[size + v] += unit * slopes[v][0] / energyUnit(i);
            for (int k = 0; k < net.streams; k++) {
                block[(2 + k) * size + v] += unit * slopes[v][1 + k] / scale[i];
            }
        }
    }

    /** Bulk and what diffuses through a link, by unknown v of one side, which moves the law's flow by dm, into the balances of cavity i. */
    private void addDiffusion(Iterate x, int l, int side, int v, double dm, int i, double sign, double[] block) {
        int streams = net.streams;
        int j = side == 0 ? net.from[l] : net.to[l];
        double unit = sign * columnUnit(v);
        double total = 0;
        double opening = heldOpenings ? 0 : openSlope[j][v] * x.open[side == 0 ? net.to[l] : net.from[l]];
        for (int k = 0; k <= streams; k++) {
            crossing[k] = crossingByFlow[l][k] * dm
                    + crossingByOpening[l][k] * opening
                    + (v < 2 ? 0 : crossingByFraction[l][(side * streams + v - 2) * (streams + 1) + k]);
            total += k < streams ? crossing[k] : 0;
        }
        addBulk(x, l, i, unit * crossing[streams], v, block);
        double carried = 0;
        for (int k = 0; k < streams; k++) {
            carried += crossing[k] * (x.carried(l, k) - x.enthalpy[i]);
            // Where the source of what diffuses is this side, its temperature moves the carried enthalpy.
            if (x.carriedSlope[l][k] != 0 && x.fromSide[l][k] == (side == 0)) {
                carried += diffused[l][k] * x.carriedSlope[l][k] * temperatureSlope[j][v];
            }
            block[(2 + k) * size + v] += unit * (crossing[k] - total * x.fraction[i][k]) / scale[i];
        }
        block[v] += unit * total / scale[i];
        block[size + v] += unit * carried / energyUnit(i);
    }

    /** What each stream's diffusion and, last, the bulk gain by the flow of a link's law. */
    double[] byFlow(Iterate x, int l) {
        if (x.conductance[l] != null) {
            return crossingByFlow[l];
        }
        double[] bulkOnly = new double[net.streams + 1];
        bulkOnly[net.streams] = 1;
        return bulkOnly;
    }

    /** Derivatives of what diffuses through a link, by its mass flow and by the fractions at both ends. */
    private void differentiateDiffusion(Iterate x, int l) {
        double share = x.opening(l);
        double[] g = x.openConductances(l);
        double[] ya = x.fraction[net.from[l]];
        double[] yb = x.fraction[net.to[l]];
        double m = x.massFlow[l];
        int streams = net.streams;
        double[] here = new double[streams + 1];
        double[] there = new double[streams + 1];
        here[streams] = x.diffuse(m, g, ya, yb, here);
        System.arraycopy(here, 0, diffused[l], 0, streams);
        double step = 1e-6 * Math.max(Math.abs(m), 1e-3 * largestConductance(x.conductance[l]));
        there[streams] = x.diffuse(m >= 0 ? m + step : m - step, g, ya, yb, there);
        for (int k = 0; k <= streams; k++) {
            crossingByFlow[l][k] = (there[k] - here[k]) / (m >= 0 ? step : -step);
        }
        Arrays.fill(crossingByOpening[l], 0);
        if (share < 1) {
            double more = 1e-6 * Math.max(share, 1e-3);
            there[streams] = x.diffuse(m, Iterate.shareOf(x.conductance[l], share + more), ya, yb, there);
            for (int k = 0; k <= streams; k++) {
                crossingByOpening[l][k] = (there[k] - here[k]) / more;
            }
        }
        for (int side = 0; side < 2; side++) {
            double[] y = (side == 0 ? ya : yb).clone();
            for (int v = 0; v < streams; v++) {
                double kept = y[v];
                double d = 1e-6 * Math.max(kept, 1e-3);
                y[v] = kept + d;
                there[streams] = x.diffuse(m, g, side == 0 ? y : ya, side == 0 ? yb : y, there);
                y[v] = kept;
                for (int k = 0; k <= streams; k++) {
                    crossingByFraction[l][(side * streams + v) * (streams + 1) + k] = (there[k] - here[k]) / d;
                }
            }
        }
    }

    private double largestConductance(double[] g) {
        double largest = 0;
        for (int k = 0; k < net.streams; k++) {
            largest = Math.max(largest, g[k] * net.streamMolarMass[k]);
        }
        return largest;
    }

    /**
     * Factors and solves. A passage whose pressure drop would change sign is taken with its chord to equal pressures instead of its
     * tangent, and the step is solved again: a root law's tangent overshoots zero as soon as the flow has to halve, its chord
     * never does. A shut valve that the step opens likewise.
     *
     * @return the step, or null when the matrix is singular
     */
    double[] solve(Iterate x, double damping) {
        Arrays.fill(chord, false);
        double[] step = null;
        for (int round = 0; round < CHORD_ROUNDS; round++) {
            if (!factor(x, damping)) {
                return null;
            }
            step = step(x);
            boolean more = false;
            for (int l = 0; l < net.links; l++) {
                if (!net.flowing[l] || chord[l]) {
                    continue;
                }
                if (round == 0) {
                    shut[l] = x.massFlow[l] == 0 && flowSlope[l][0] == 0 && flowSlope[l][size] == 0;
                }
                if (shut[l]) {
                    more |= opens(x, l, step);
                    continue;
                }
                double drop = Math.log(x.endFrom[l].pressure() / x.endTo[l].pressure());
                double next = drop + pressureStep(step, net.from[l]) - pressureStep(step, net.to[l]);
                double tangent = Math.abs(flowSlope[l][0]) + Math.abs(flowSlope[l][size]);
                if (next * drop < 0 && Math.abs(x.massFlow[l] / drop) > 0.55 * tangent) {
                    chord[l] = true;
                    double slope = x.massFlow[l] / drop;
                    flowSlope[l][0] = slope;
                    flowSlope[l][size] = -slope;
                    more = true;
                }
            }
            if (!more) {
                break;
            }
        }
        return step;
    }

    /**
     * A shut valve has no slope where it stands. Where the step would open it, it is taken with the chord from here to what flows there;
     * true when that changes its slope.
     */
    private boolean opens(Iterate x, int l, double[] step) {
        double atFrom = Math.max(-1, Math.min(1, pressureStep(step, net.from[l])));
        double atTo = Math.max(-1, Math.min(1, pressureStep(step, net.to[l])));
        double change = atFrom - atTo;
        if (Math.abs(change) < 1e-9) {
            return false;
        }
        double chordSlope;
        try {
            chordSlope = net.flow(l, moved(x.endFrom[l], atFrom), moved(x.endTo[l], atTo))
                            .massFlow()
                    / change;
        } catch (PropertyException e) {
            return false;
        }
        if (!(chordSlope > 0)) {
            return false;
        }
        // It opens within a hair: between the last chord and this one, by their geometric mean.
        double before = flowSlope[l][0];
        double slope = before > 0 ? Math.sqrt(before * chordSlope) : chordSlope;
        flowSlope[l][0] = slope;
        flowSlope[l][size] = -slope;
        return Math.abs(slope - before) > 0.1 * slope;
    }

    private static FluidState moved(FluidState s, double step) {
        return step == 0 ? s : s.fluid().atPressureEnthalpy(s.pressure() * Math.exp(step), s.enthalpy(), s);
    }

    private double pressureStep(double[] step, int cavity) {
        int u = net.unknown[cavity];
        return u < 0 ? 0 : step[u * size];
    }

    /** The step of all unknowns: by unknown cavity ln p, h, fractions. The matrix must be factored. */
    double[] step(Iterate x) {
        return solveFor(x.mass, balancedEnergy(x), x.stream);
    }

    /** The energy balances, without those that a cavity at the end of its range cannot close. */
    private double[] balancedEnergy(Iterate x) {
        if (!x.anyHeld()) {
            return x.energy;
        }
        double[] energy = x.energy.clone();
        for (int i : net.cavityOf) {
            energy[i] = x.held(i) ? 0 : energy[i];
        }
        return energy;
    }

    /** What a step changes in each link's flow by the slopes, kg/s. */
    double[] flowChanges(double[] step) {
        double[] changes = new double[net.links];
        for (int l = 0; l < net.links; l++) {
            for (int side = 0; side < 2; side++) {
                int u = net.unknown[side == 0 ? net.from[l] : net.to[l]];
                for (int v = 0; u >= 0 && v < size; v++) {
                    changes[l] += flowSlope[l][side * size + v] * step[u * size + v];
                }
            }
        }
        return changes;
    }

    /** Length of a step, each unknown in its own unit. */
    double length(double[] step) {
        return distance(step, step, 0);
    }

    /** Length of {@code a - share b}. */
    double distance(double[] a, double[] b, double share) {
        double sum = 0;
        for (int n = 0; n < a.length; n++) {
            double d = (a[n] - share * b[n]) / columnUnit(n % size);
            sum += d * d;
        }
        return Math.sqrt(sum);
    }

    int size() {
        return size;
    }

    /** Ratio of extreme pivots of the last factorisation. */
    double conditionEstimate() {
        return matrix.conditionEstimate();
    }

    /**
     * Adjoint of one unknown: how it moves per unit of each balance's surplus.
     *
     * @param cavity which cavity's unknown
     * @param variable 0 ln p, 1 h, 2 + k fraction of stream k
     * @return by unknown cavity: per kg/s of mass, per W of energy, per kg/s of each stream
     */
    double[] adjoint(int cavity, int variable) {
        double[] right = new double[net.cavityOf.length * size];
        right[net.unknown[cavity] * size + variable] = columnUnit(variable);
        matrix.solveTransposed(right);
        for (int u = 0; u < net.cavityOf.length; u++) {
            int i = net.cavityOf[u];
            for (int v = 0; v < size; v++) {
                right[u * size + v] = -right[u * size + v] / (v == 1 ? energyUnit(i) : scale[i]);
            }
        }
        return right;
    }
}
