package purgewright.sealflow.network;

import java.util.Arrays;
import java.util.EnumSet;
import java.util.Set;
import purgewright.fluids.FluidState;
import purgewright.fluids.Phase;
import purgewright.fluids.PropertyException;

/**
 * Pressures with enthalpies and mixtures held, then enthalpies and mixtures with flows held, in turn.
 *
 * <p>With the states of the fluids held, what flows through a passage rises with the pressure at its one end and falls with that at its
 * other, so that the mass balances are the slopes of a nearly convex function of the pressures. Newton's direction d goes downhill on it,
 * and the search along the direction looks for the point at which
 *
 * <pre>{@code slope(t) = sum_i d_i R_i(t),   R_i the mass left over in a cavity}</pre>
 *
 * has fallen to a half: it never fails for want of a better residual, which wide passages beside narrow ones, turning flows and valves
 * can deny to the whole system taken together. The flows known, mixtures follow from a linear system and enthalpies from an almost
 * linear one; each cavity goes a share of its own of that way ({@link Shares}). That is the slow part of the real course of things, with the
 * pressures always settled and a pace for each cavity.
 *
 * <p>Where streams diffuse, the pressures settle the balances of moles: at its pressure and temperature a cavity holds so many moles, whatever
 * they are. What diffuses adds up to no moles, but to a mass that no pressure can hold back; balances of mass would draw the pressure of a cavity
 * to nothing that a light gas leaves for a heavy one. Once the mixtures are settled both are closed.
 */
final class Alternation implements Way {
    private static final double PRESSURE_STEP = 2e-6;
    /** For a passage whose ends differ by less than a hundred of the other: its law bends within a hundred thousandth. */
    private static final double FINE_STEP = 3e-8;

    /** Steps of ln p for a slope: for a large drop, for a small one, and down from the lower end of a small one. */
    private static final double[] SLOPE_STEPS = {PRESSURE_STEP, FINE_STEP, -FINE_STEP};

    private static final int PRESSURE_ROUNDS = 25;
    /** Rounds while the states still go far: what they are off by then costs less than settling it. */
    private static final int FIRST_PRESSURE_ROUNDS = 6;

    private static final double LOOSEST = 1e-3;
    /** Rounds in which cavities are held at the end of their range before a step is taken as it is. */
    private static final int BOUND_ROUNDS = 5;

    /** Change of an enthalpy below which nothing leaves its fluid's range, J/kg. */
    private static final double LARGE_CHANGE = 1e5;

    /** How far beyond the end of its range a step of a cavity's enthalpy ends, J/kg. */
    private static final double BEYOND = 1;

    /** Turns without a new least change after which the way is given up; so many because small shares take some hundred to grow. Invented. */
    private static final int PATIENCE = 400;

    /** Change below which a way that still comes nearer may go on for as long again. */
    private static final double NEAR = 1e-3;

    /** How often the tolerances may be exceeded by what the pressures' rounding leaves. */
    private static final double NEARLY = 1e4;

    /** Largest step of ln p that may be taken through the slopes where the neighbours go along. */
    private static final double UNSEEN_TOGETHER = 1e-6;

    /** Largest change of a passage's drop of ln p that may, as a share of the drop. */
    private static final double UNSEEN_SHARE = 1e-3;

    /** Turns in one direction after which a drift is believed, and how many steps' worth it may take at once. */
    private static final int DRIFTING = 5;

    private static final double FURTHEST = 20;

    private static final double LEAST_SHARE = 1e-4;
    /** Power of its growth by which a share grows faster from turn to turn while its cavity goes on in one direction. Invented. */
    private static final double REGAIN = 1.1;

    private static final double LEAST_FLOOR = 1e-9;
    private static final double MOST_FLOOR = 1;
    private static final double FIRST_GROWTH = 1.5;
    private static final int SEARCHES = 12;
    /** Searches to the last after which pressures are taken as settled: where a law jumps, no search finds the point in between. */
    private static final int MOST_EXHAUSTED = 2;

    private static final double LARGEST_STEP = 1.0;
    /** Slope of a passage that is shut or choked at both ends, as a share of the flows around it: pressures between such settle in between. */
    private static final double LEAST_SLOPE = 1e-9;

    private final Network net;
    private final Manner manner;
    private final Linearized linear;
    private final Descent descent;
    private final BlockMatrix scalar;
    private final double[] fromSlope;
    private final double[] toSlope;
    /** By unknown cavity: those that are settled by themselves, and those that the last step would have taken out of their fluid's range. */
    private final boolean[] alone;

    private final boolean[] bounded;
    /** Those of the first whose flow is set by others. */
    private final boolean[] together;

    private final Set<Aid> wanted = EnumSet.noneOf(Aid.class);
    /** Searches of this turn that ended without a point they looked for. */
    private int exhausted;
    /** What the pressures settle. */
    private Linearized.Held settled = Linearized.Held.MASSES;

    private final Iterate x;
    private final Iterate trial;
    private final Shares shares;
    private final Drift drift;
    private final int limit;
    /** Turns gone. */
    private int n;
    /** What the last turn asked for, and the least that one did. */
    private double before = Double.POSITIVE_INFINITY;

    private double least = Double.POSITIVE_INFINITY;
    private int leastAt;
    private double polishBelow = 0.02;

    /**
     * How to go.
     *
     * @param regrowth factor by which a cavity's share grows again after it has turned back time and again, above 1: small for a long,
     *     patient way
     * @param holdsWalls whether a share is one of the heat through a wall to the outside too: a dead end whose wall brings back more than
     *     what flows through it would swing otherwise, while others go there in one step
     * @param aid what is done besides
     */
    record Manner(double regrowth, boolean holdsWalls, Aid aid) {}

    /** What helps where the plain ways lead nowhere. */
    enum Aid {
        NONE,
        /**
         * The slopes of a passage that stands at almost equal pressures are taken by moving its ends apart: a step towards the other may turn
         * the flow round, and cold fluid has ten times the slope of hot; two such slopes say that the flow changes by their difference
         * when both pressures move together, which it does not.
         */
        ENDS_APART,
        /**
         * A cavity whose wall leads to the outside is settled by itself from the start ({@link SingleCavity}): the wall sets its temperature, where
         * it boils its temperature sets its pressure, and what it holds is left to the balance of its mass.
         */
        WALLED_ALONE,
        /** A cavity whose heat once asks for more than any state is settled by itself from then on ({@link SingleCavity}). */
        CAVITIES_ALONE,
        /**
         * A step of the states takes how far cavities are open for diffusion as it is: where what diffuses in warms a wet cavity, it opens the
         * further the warmer it is, and of the states that balance the nearest is one that it leaves by itself.
         */
        OPENINGS_HELD
    }

    Alternation(Network net, Linearized linear, Descent descent, Manner manner, Iterate x, int limit) {
        this.net = net;
        this.manner = manner;
        this.linear = linear;
        this.descent = descent;
        this.x = x;
        this.limit = limit;
        trial = new Iterate(net);
        int[] a = new int[net.links];
        int[] b = new int[net.links];
        for (int l = 0; l < net.links; l++) {
            a[l] = net.unknown[net.from[l]];
            b[l] = net.unknown[net.to[l]];
        }
        scalar = new BlockMatrix(net.cavityOf.length, 1, a, b);
        alone = new boolean[net.cavityOf.length];
        bounded = new boolean[net.cavityOf.length];
        together = new boolean[net.cavityOf.length];
        for (int w = 0; manner.aid() == Aid.WALLED_ALONE && w < net.wallAt.length; w++) {
            int u = net.unknown[net.wallAt[w]];
            if (u >= 0 && net.wallOther[w] < 0) {
                alone[u] = true;
            }
        }
        fromSlope = new double[net.links];
        toSlope = new double[net.links];
        shares = new Shares(net.cavityOf.length, linear.size(), manner.regrowth());
        drift = new Drift(linear.size());
    }

    @Override
    public Iterate at() {
        return x;
    }

    @Override
    public Descent.End go(long until) {
        for (; n < limit || (least < NEAR && n < 2 * limit); n++) {
            if (Thread.currentThread().isInterrupted()) {
                return Descent.End.CANCELLED;
            }
            if (net.work >= until) {
                return Descent.End.PAUSED;
            }
            x.refreshLagged();
            double closeness = Math.max(1e-8, Math.min(LOOSEST, 1e-3 * before));
            if (!settlePressures(x, trial, closeness)) {
                return Descent.End.STALLED;
            }
            descent.measure(x);
            if (descent.closed(x)) {
                return Descent.ended(x);
            }
            if (descent.closedBut(x, NEARLY) && finished(x, trial)) {
                return Descent.ended(x);
            }
            descent.iterations++;
            if (partlyOpen(x)) {
                wanted.add(Aid.OPENINGS_HELD);
            }
            linear.differentiateStates(x);
            double[] whole = wholeStep(x, shares);
            if (whole != null && settleAlone(x, trial, closeness)) {
                x.refreshLagged();
                linear.setScales(x);
                linear.differentiateStates(x);
                whole = wholeStep(x, shares);
            }
            if (whole == null) {
                return Descent.End.STALLED;
            }
            double change = linear.length(whole);
            if (change < polishBelow || n % 12 == 11) {
                polishBelow = Math.min(polishBelow, 0.05 * change);
                Iterate near = new Iterate(net);
                near.adopt(x);
                try {
                    Descent.End end = descent.newton(near, 40);
                    if (end == Descent.End.CLOSED || end == Descent.End.HELD || end == Descent.End.CANCELLED) {
                        x.adopt(near);
                        return end;
                    }
                } catch (PropertyException e) {
                    // Not yet near enough: the turns go on from where they were.
                }
                linear.setScales(x);
                linear.differentiateStates(x);
            }
            shares.learn(whole);
            before = change;
            if (change < 0.9 * least) {
                least = change;
                leastAt = n;
            } else if (n - leastAt > PATIENCE) {
                return Descent.End.STALLED;
            }
            double kept = 1;
            double[] gone = null;
            double ahead = drift.ahead(whole);
            boolean moved = ahead > 1 && attemptAhead(x, trial, shares.damping(1), ahead);
            for (int tries = 0; tries < 6 && !moved; tries++) {
                double[] step = stepOfStates(x, shares.damping(kept));
                moved = step != null && attemptStates(x, trial, step);
                gone = step;
                kept *= 0.3;
            }
            if (!moved) {
                return Descent.End.STALLED;
            }
            shares.went(gone);
            x.adopt(trial);
        }
        return descent.closedToPromise(x) ? Descent.ended(x) : Descent.End.LIMIT;
    }

    /**
     * A step of enthalpies and mixtures against the one before it: products of the two and squares of each, pressures left out.
     */
    private record Turn(double along, double now, double then) {
        static final Turn NONE = new Turn(0, 0, 0);

        /** Of the unknown cavities from {@code first} up to before {@code end}. */
        static Turn of(double[] step, double[] before, int size, int first, int end) {
            double along = 0;
            double now = 0;
            double then = 0;
            for (int u = first; u < end; u++) {
                for (int v = 1; v < size; v++) {
                    double unit = v == 1 ? Linearized.ENTHALPY_UNIT * Linearized.ENTHALPY_UNIT : 1;
                    along += step[u * size + v] * before[u * size + v] / unit;
                    now += step[u * size + v] * step[u * size + v] / unit;
                    then += before[u * size + v] * before[u * size + v] / unit;
                }
            }
            return new Turn(along, now, then);
        }
    }

    /**
     * How much of its way to balance each cavity goes in a turn. One that turns back has gone too far, and halves its share; while it goes
     * on in its direction, the share grows. A cavity through which next to nothing flows and one that swings about a point of its own do
     * not hold up the others in this way.
     */
    private static final class Shares {
        private final int size;
        private final double regrowth;
        private final double[] share;
        private final double[] growth;
        private double[] before;
        /** What was gone in the last turn and in the one before. */
        private double[] taken;

        private double[] earlier;
        /** Share of its through-flow by which each cavity keeps what it holds: where next to nothing flows, that is all that determines it. */
        private double floor = LEAST_FLOOR;

        Shares(int cavities, int size, double regrowth) {
            this.size = size;
            this.regrowth = regrowth;
            share = new double[cavities];
            growth = new double[cavities];
            Arrays.fill(share, 1);
            Arrays.fill(growth, FIRST_GROWTH);
        }

        /** @param step all the way to balance, by cavity and unknown */
        void learn(double[] step) {
            for (int u = 0; before != null && u < share.length; u++) {
                Turn turn = Turn.of(step, before, size, u, u + 1);
                Turn went = taken != null && earlier != null ? Turn.of(taken, earlier, size, u, u + 1) : Turn.NONE;
                if (turn.along <= 0 || went.along < 0) {
                    share[u] = Math.max(LEAST_SHARE, 0.5 * share[u]);
                    growth[u] = Math.max(regrowth, Math.sqrt(growth[u]));
                } else if (turn.now < 2 * turn.then) {
                    share[u] = Math.min(1, growth[u] * share[u]);
                    growth[u] = Math.min(FIRST_GROWTH, Math.pow(growth[u], REGAIN));
                }
            }
            before = step;
        }

        /**
         * What a turn came to. Where its neighbours, asked to go far, go little of it, a cavity can be asked to go one way in each turn and be led the other.
         *
         * @param step what was gone, by cavity and unknown; null where it was many steps at once
         */
        void went(double[] step) {
            earlier = taken;
            taken = step;
        }

        /** What holds them back when they go all the way. */
        double[] floor() {
            double[] d = new double[share.length];
            Arrays.fill(d, floor);
            return d;
        }

        /** What holds each cavity back in a turn that takes {@code kept} of all shares. */
        double[] damping(double kept) {
            double[] d = new double[share.length];
            for (int u = 0; u < d.length; u++) {
                double s = share[u] * kept;
                d[u] = (1 - s) / s + floor;
            }
            return d;
        }
    }

    /**
     * Whether all goes one way, each turn a little less than the last: the flows, held while states step, change with them and ask for nearly
     * the same again. The steps are then a geometric series, and its sum is some turns ahead.
     */
    private static final class Drift {
        private final int size;
        private double[] before;
        private int turns;

        Drift(int size) {
            this.size = size;
        }

        /** How many steps' worth to go; 1 while nothing drifts. */
        double ahead(double[] step) {
            Turn turn = before == null ? Turn.NONE : Turn.of(step, before, size, 0, step.length / size);
            boolean drifts = turn.along > 0.99 * Math.sqrt(turn.now * turn.then)
                    && turn.now < turn.then
                    && turn.now > 0.64 * turn.then;
            turns = drifts ? turns + 1 : 0;
            before = step;
            if (turns < DRIFTING) {
                return 1;
            }
            turns = 0;
            before = null;
            return Math.min(FURTHEST, 1 / (1 - Math.sqrt(turn.now / turn.then)));
        }
    }

    /** True where a wall to the outside is cold enough for some of what its cavity holds to be liquid. */
    static boolean anyWallCondenses(Iterate x) {
        Network net = x.net;
        for (int w = 0; w < net.wallAt.length; w++) {
            int i = net.wallAt[w];
            if (net.unknown[i] < 0 || net.wallOther[w] >= 0) {
                continue;
            }
            try {
                Phase phase = x.fluid[i]
                        .atPressureTemperature(x.pressure[i], net.wallTemperature[w])
                        .phase();
                if (phase == Phase.LIQUID || phase == Phase.TWO_PHASE) {
                    return true;
                }
            } catch (PropertyException e) {
                // It would be solid, or beyond what its equations give: nothing that a cavity could be settled at.
            }
        }
        return false;
    }

    /** All the way to balance at the flows as they are; null when the matrix is singular. */
    private double[] wholeStep(Iterate x, Shares shares) {
        double[] whole = stepOfStates(x, shares.floor());
        while (whole == null && shares.floor < MOST_FLOOR) {
            // Beside a wall that ties two cavities a million times closer to each other than what flows does, it is
            // lost in rounding.
            shares.floor *= 1e3;
            whole = stepOfStates(x, shares.floor());
        }
        return whole;
    }

    /**
     * A step of the states in which no cavity leaves its fluid's range: where next to nothing flows, the heat would ask for more than any
     * state, and the neighbours would be moved by what is not there.
     */
    private double[] stepOfStates(Iterate x, double[] damping) {
        boolean moles = inMoles();
        double[] y = new double[net.streams];
        double[] given = new double[damping.length];
        for (int u = 0; u < given.length; u++) {
            given[u] = alone[u] ? 0 : Double.NaN;
        }
        Arrays.fill(bounded, false);
        double[] step = linear.stepOfStates(x, settled, damping, manner, given);
        for (int round = 1; step != null && round < BOUND_ROUNDS; round++) {
            boolean more = false;
            for (int u = 0; u < damping.length; u++) {
                int i = net.cavityOf[u];
                double change = step[u * linear.size() + 1];
                if (Math.abs(change) < LARGE_CHANGE || x.held(i) || !Double.isNaN(given[u])) {
                    continue;
                }
                // What the step leads to without the change, and by it: the change may be too large to be taken off
                // again.
                double without = x.enthalpy[i];
                double share = 1;
                if (moles) {
                    step[u * linear.size() + 1] = 0;
                    without = x.moveByMoles(i, step, u * linear.size(), 1, y);
                    step[u * linear.size() + 1] = change;
                    share = x.molarMass[i] / x.molarMass(y);
                } else {
                    System.arraycopy(x.fraction[i], 0, y, 0, y.length);
                }
                double h = without + share * change;
                double within = h;
                // Just beyond, so that it is found to be at the end.
                if (change > 0) {
                    double hot = x.enthalpyLimit(i, y, 1);
                    within = h > hot ? hot + BEYOND : h;
                } else {
                    double cold = x.enthalpyLimit(i, y, -1);
                    within = h < cold ? cold - BEYOND : h;
                }
                if (h != within) {
                    given[u] = (within - without) / share;
                    bounded[u] = true;
                    wanted.add(Aid.CAVITIES_ALONE);
                    more = true;
                }
            }
            if (!more) {
                break;
            }
            step = linear.stepOfStates(x, settled, damping, manner, given);
        }
        return step;
    }

    /** So many steps at once. */
    private boolean attemptAhead(Iterate x, Iterate trial, double[] damping, double ahead) {
        double[] step = stepOfStates(x, damping);
        if (step == null) {
            return false;
        }
        for (int j = 0; j < step.length; j++) {
            step[j] *= ahead;
        }
        return attemptStates(x, trial, step);
    }

    private boolean attemptStates(Iterate x, Iterate trial, double[] step) {
        return Descent.attempt(net, linear.size(), x, trial, step, 1, inMoles());
    }

    /** The last digits: each share whole, and what is left of the masses taken through the slopes. */
    private boolean finished(Iterate x, Iterate trial) {
        Iterate last = new Iterate(net);
        last.adopt(x);
        Shares all = new Shares(net.cavityOf.length, linear.size(), 1);
        for (int round = 0; round < 3; round++) {
            if (reconciled(last, trial)) {
                x.adopt(trial);
                return true;
            }
            linear.setScales(last);
            linear.differentiateStates(last);
            double[] whole = wholeStep(last, all);
            if (whole == null || !attemptStates(last, trial, whole)) {
                return false;
            }
            last.adopt(trial);
            if (!settlePressures(last, trial, 1e-9)) {
                return false;
            }
            // What diffuses carries enthalpies of before this step: the balances are only closed with those of after
            // it.
            last.refreshLagged();
        }
        return false;
    }

    /**
     * What is left of the masses where wide passages need pressure differences below the sixteenth digit: taken through the slopes, if it
     * is too small to be seen in a pressure. True when {@code trial} is closed.
     */
    private boolean reconciled(Iterate x, Iterate trial) {
        double[] d = pressureStep(x, Linearized.Held.MASSES);
        if (d == null || !unseen(x, d)) {
            return false;
        }
        trial.copyFrom(x);
        reconcile(trial, d);
        return descent.closed(trial) || descent.closedToPromise(trial);
    }

    /**
     * Whether a step of ln p by unknown cavity is too small for any passage to bend its law: beside its drop, or at all. Cavities that hardly
     * anything ties to the others may move further together.
     */
    private boolean unseen(Iterate x, double[] d) {
        for (double step : d) {
            if (!(Math.abs(step) <= UNSEEN_TOGETHER)) {
                return false;
            }
        }
        for (int l = 0; l < net.links; l++) {
            if (net.flowing[l]) {
                int a = net.unknown[net.from[l]];
                int b = net.unknown[net.to[l]];
                double drop = Math.abs(Math.log(x.endFrom[l].pressure() / x.endTo[l].pressure()));
                double change = Math.abs((a < 0 ? 0 : d[a]) - (b < 0 ? 0 : d[b]));
                if (change > Math.max(Descent.UNSEEN_STEP, UNSEEN_SHARE * drop)) {
                    return false;
                }
            }
        }
        return true;
    }

    /**
     * Takes a step of ln p by unknown cavity, too small to be seen, through the slopes as they are: mixtures and enthalpies are then asked about
     * flows that add up, not about the rounding of pressures.
     */
    private void reconcile(Iterate x, double[] d) {
        double[] changes = new double[net.links];
        for (int l = 0; l < net.links; l++) {
            if (net.flowing[l]) {
                int a = net.unknown[net.from[l]];
                int b = net.unknown[net.to[l]];
                changes[l] = (a < 0 ? 0 : fromSlope[l] * d[a]) - (b < 0 ? 0 : toSlope[l] * d[b]);
            }
        }
        x.reconcile(changes);
    }

    /** Newton's step of ln p by unknown cavity that settles what is said, states held; null where there is none. Takes the slopes afresh. */
    private double[] pressureStep(Iterate x, Linearized.Held what) {
        int nodes = net.cavityOf.length;
        slopes(x);
        scalar.clear();
        double[] surplus = new double[nodes];
        for (int l = 0; l < net.links; l++) {
            if (!net.flowing[l]) {
                continue;
            }
            int a = net.unknown[net.from[l]];
            int b = net.unknown[net.to[l]];
            double unit = unit(x, l, what);
            if (a >= 0 && b >= 0) {
                scalar.add(a, b, 0, 0, -toSlope[l] / unit);
                scalar.add(b, a, 0, 0, -fromSlope[l] / unit);
            } else if (a >= 0) {
                surplus[a] += fromSlope[l] / unit;
            } else if (b >= 0) {
                surplus[b] += toSlope[l] / unit;
            }
        }
        double[] right = byUnknown(leftOver(x, what));
        anchor(x, surplus);
        if (!scalar.factorFlows(surplus)) {
            return null;
        }
        scalar.solve(right);
        return right;
    }

    /**
     * Where all ways from some cavities to any boundary are shut, nothing determines the level of their pressures. What is left over of all of
     * them together is rounding, and would move that level to and fro by far more than a rounding: one of their pressures stays as it is.
     *
     * @param surplus by unknown cavity, what its boundaries add to its slopes; the one that stays gets as much as its slopes hold
     */
    private void anchor(Iterate x, double[] surplus) {
        // Each cavity's way towards the first of its part; those that reach a boundary are all of one part.
        int[] towards = new int[net.cavities + 1];
        for (int i = 0; i < towards.length; i++) {
            towards[i] = net.cavities > i && net.fixed[i] ? net.cavities : i;
        }
        for (int l = 0; l < net.links; l++) {
            if (net.flowing[l] && !shut(x, l)) {
                int a = first(towards, net.from[l]);
                int b = first(towards, net.to[l]);
                towards[Math.min(a, b)] = Math.max(a, b);
            }
        }
        for (int i : net.cavityOf) {
            if (towards[i] == i) {
                double hold = 0;
                for (int l = 0; l < net.links; l++) {
                    if (net.flowing[l] && (net.from[l] == i || net.to[l] == i)) {
                        hold += (net.from[l] == i ? fromSlope[l] : toSlope[l]) / unit(x, l, settled);
                    }
                }
                surplus[net.unknown[i]] += hold;
            }
        }
    }

    private static int first(int[] towards, int i) {
        int at = i;
        while (towards[at] != at) {
            towards[at] = towards[towards[at]];
            at = towards[at];
        }
        return at;
    }

    /** Nothing flows through a link, nor would it for a hair of pressure. */
    private boolean shut(Iterate x, int l) {
        return x.flow[l].massFlow() == 0 && fromSlope[l] == leastSlope(x, l) && toSlope[l] == leastSlope(x, l);
    }

    private double leastSlope(Iterate x, int l) {
        return LEAST_SLOPE * Math.max(Math.max(x.through[net.from[l]], x.through[net.to[l]]), 1e-3 * x.largestFlow);
    }

    /** Mass of a mole of what a law lets flow through a link, kg/mol; 1 where masses are settled. */
    private double unit(Iterate x, int l, Linearized.Held what) {
        return what == Linearized.Held.MASSES ? 1 : x.molarMass[x.massFlow[l] >= 0 ? net.from[l] : net.to[l]];
    }

    /** What flows into each cavity and not out of it: kg/s, or mol/s by the passages' laws (what diffuses adds no moles). */
    private double[] leftOver(Iterate x, Linearized.Held what) {
        if (what == Linearized.Held.MASSES) {
            return x.mass;
        }
        double[] moles = new double[net.cavities];
        for (int l = 0; l < net.links; l++) {
            if (net.flowing[l]) {
                double flow = x.massFlow[l] / unit(x, l, what);
                moles[net.from[l]] -= flow;
                moles[net.to[l]] += flow;
            }
        }
        return moles;
    }

    private double[] byUnknown(double[] byCavity) {
        double[] result = new double[net.cavityOf.length];
        for (int u = 0; u < result.length; u++) {
            result[u] = byCavity[net.cavityOf[u]];
        }
        return result;
    }

    private boolean anyDiffuses(Iterate x) {
        for (int l = 0; l < net.links; l++) {
            if (net.flowing[l] && x.conductance[l] != null) {
                return true;
            }
        }
        return false;
    }

    /** Newton on the pressures alone. */
    private boolean settlePressures(Iterate x, Iterate trial, double tolerance) {
        settled = anyDiffuses(x) ? Linearized.Held.MOLES : Linearized.Held.MASSES;
        int rounds = tolerance < LOOSEST ? PRESSURE_ROUNDS : FIRST_PRESSURE_ROUNDS;
        int nodes = net.cavityOf.length;
        double[] step = new double[nodes * linear.size()];
        exhausted = 0;
        for (int n = 0; n < rounds && exhausted < MOST_EXHAUSTED; n++) {
            double worst = 0;
            double bulk = 0;
            double[] left = leftOver(x, settled);
            for (int i : net.cavityOf) {
                double mass = Math.abs(left[i]) * (inMoles() ? x.molarMass[i] : 1);
                worst = Math.max(worst, mass / Math.max(x.through[i], 1e-9 * x.largestFlow + 1e-30));
                bulk = Math.max(bulk, mass);
            }
            if (worst < tolerance && bulk <= 0.01 * tolerance * x.largestFlow) {
                return true;
            }
            double[] right = pressureStep(x, settled);
            if (right == null) {
                return false;
            }
            double largest = 1e-300;
            double slope = 0;
            for (int u = 0; u < nodes; u++) {
                // A pressure that hardly anything determines may want to go far; the others need not wait for it.
                double d = Math.max(-LARGEST_STEP, Math.min(LARGEST_STEP, right[u]));
                step[u * linear.size()] = d;
                largest = Math.max(largest, Math.abs(d));
                slope += d * left[net.cavityOf[u]];
            }
            if (!(largest < Double.POSITIVE_INFINITY)) {
                return false;
            }
            if (largest < 1e-14) {
                reconcile(x, right);
                return true;
            }
            if (!along(x, trial, step, slope, 1)) {
                if (unseen(x, right)) {
                    reconcile(x, right);
                    return true;
                }
                oneByOne(x, trial);
                continue;
            }
            x.adopt(trial);
        }
        return true;
    }

    /** Each pressure by itself to where its own balance closes, which always exists between its neighbours'; twice around. */
    private void oneByOne(Iterate x, Iterate trial) {
        for (int turn = 0; turn < 2; turn++) {
            for (int i : net.cavityOf) {
                double low = net.lowestPressure;
                double high = net.highestPressure;
                double p = x.pressure[i];
                double stride = 0.05;
                double atLow = Double.NaN;
                double atHigh = Double.NaN;
                double left = leftOver(x, settled)[i];
                double start = Math.abs(left);
                for (int n = 0; n < 40 && Math.abs(left) > 0.01 * start; n++) {
                    if (left > 0) {
                        low = p;
                        atLow = left;
                    } else {
                        high = p;
                        atHigh = left;
                    }
                    double next;
                    if (Double.isNaN(atLow) || Double.isNaN(atHigh)) {
                        next = p * Math.exp(left > 0 ? stride : -stride);
                        stride *= 2;
                        if (!(next > net.lowestPressure && next < net.highestPressure)) {
                            break;
                        }
                    } else {
                        double share = Math.max(0.1, Math.min(0.9, atLow / (atLow - atHigh)));
                        next = low * Math.pow(high / low, n % 3 == 2 ? 0.5 : share);
                    }
                    if (high - low <= 1e-13 * high) {
                        break;
                    }
                    trial.copyFrom(x);
                    trial.setKeepingEnd(i, next, x.enthalpy[i], x.fraction[i], x);
                    try {
                        trial.evaluate();
                    } catch (PropertyException e) {
                        break;
                    }
                    p = next;
                    x.adopt(trial);
                    left = leftOver(x, settled)[i];
                }
            }
        }
    }

    /** What this way has met that an aid is for; without it the aid would go the same way again. */
    Set<Aid> wanted() {
        return wanted;
    }

    private boolean partlyOpen(Iterate x) {
        for (int l = 0; l < net.links; l++) {
            double opening = net.flowing[l] && x.conductance[l] != null ? x.opening(l) : 0;
            if (opening > 0 && opening < 1) {
                return true;
            }
        }
        return false;
    }

    private boolean inMoles() {
        return settled == Linearized.Held.MOLES;
    }

    /**
     * Settles by themselves the cavities that are to be, then all pressures; true where that moved any. Where cavities are settled alone as an aid,
     * those that the last step would have taken out of their fluid's range are so from now on. Where one is left as far from balance as it was, its
     * flow is set by others: what it holds moves their pressures together with its own, and against pressures that are held its heat jumps where the
     * flow through a wide passage turns. It is settled with all pressures following, then and from then on.
     */
    private boolean settleAlone(Iterate x, Iterate trial, double closeness) {
        double[] before = x.energy.clone();
        boolean moved = false;
        for (int u = 0; u < alone.length; u++) {
            alone[u] |= manner.aid() == Aid.CAVITIES_ALONE && bounded[u];
            if (alone[u] && !together[u]) {
                moved |= single(net.cavityOf[u]).settle(x, trial);
            }
        }
        if (moved) {
            settlePressures(x, trial, closeness);
        }
        for (int u = 0; u < alone.length; u++) {
            int i = net.cavityOf[u];
            double enough = Math.max(net.settings.massTolerance() * x.largestEnergyFlow, 0.5 * Math.abs(before[i]));
            together[u] |=
                    moved && alone[u] && !x.held(i) && Math.abs(x.energy[i]) > Math.max(x.wallRounding[i], enough);
        }
        for (int u = 0; u < alone.length; u++) {
            if (together[u]) {
                moved |= single(net.cavityOf[u]).settle(x, trial, (y, z) -> settlePressures(y, z, closeness));
            }
        }
        return moved;
    }

    private SingleCavity single(int i) {
        return new SingleCavity(net, i, y -> leftOver(y, settled)[i] * (inMoles() ? y.molarMass[i] : 1));
    }

    private double imbalance(Iterate x) {
        double sum = 0;
        for (double left : byUnknown(leftOver(x, settled))) {
            sum += Math.abs(left);
        }
        return sum;
    }

    /** Whether the step that a trial asks for, by the slopes at hand, is shorter than the one that led there. */
    private boolean nearer(Iterate trial, double[] step, double share) {
        double[] next = byUnknown(leftOver(trial, settled));
        scalar.solve(next);
        double ahead = 0;
        double here = 0;
        for (int u = 0; u < next.length; u++) {
            ahead += next[u] * next[u];
            here += step[u * linear.size()] * step[u * linear.size()];
        }
        return Math.sqrt(ahead) <= (1 - 0.25 * share) * Math.sqrt(here);
    }

    /** Goes along a step of the pressures to where the slope has fallen to a half or less, on either side of its zero. */
    private boolean along(Iterate x, Iterate trial, double[] step, double slope, double first) {
        double total = imbalance(x);
        double low = 0;
        double atLow = slope;
        double high = Double.NaN;
        double atHigh = Double.NaN;
        double share = first;
        boolean reached = false;
        int side = 0;
        for (int n = 0; n < SEARCHES; n++) {
            if (!Descent.attempt(net, linear.size(), x, trial, step, share)) {
                high = share;
                atHigh = Double.NaN;
                reached = false;
            } else {
                reached = true;
                double here = 0;
                double[] left = byUnknown(leftOver(trial, settled));
                for (int u = 0; u < left.length; u++) {
                    here += step[u * linear.size()] * left[u];
                }
                if (!(slope > 0)) {
                    // The laws' slopes at their two ends differ: where pressures move together, that can be more than
                    // what is downhill.
                    if (imbalance(trial) < (1 - 0.1 * share) * total || nearer(trial, step, share)) {
                        return true;
                    }
                    share *= 0.4;
                    continue;
                }
                if (Math.abs(here) <= 0.5 * slope || (here > 0 && share == first && n == 0)) {
                    return true;
                }
                // An end that stays is taken for less, so that the other moves too (Illinois).
                if (here > 0) {
                    atHigh *= side > 0 ? 0.5 : 1;
                    side = 1;
                    low = share;
                    atLow = here;
                } else {
                    atLow *= side < 0 ? 0.5 : 1;
                    side = -1;
                    high = share;
                    atHigh = here;
                }
            }
            if (Double.isNaN(high)) {
                return true;
            }
            double t = Double.isNaN(atHigh) ? 0.3 : atLow / (atLow - atHigh);
            share = low + (high - low) * Math.max(0.05, Math.min(0.9, t));
        }
        exhausted++;
        return reached;
    }

    /** The state of a free cavity with a little more or less pressure, kept for its other passages; null where there is none. */
    private FluidState shift(Iterate x, int i, double step, FluidState[] shifted, double[] steps) {
        for (int sign = 1; sign >= -1 && shifted[i] == null && net.unknown[i] >= 0; sign -= 2) {
            try {
                double p = x.pressure[i] * Math.exp(sign * step);
                shifted[i] = x.fluid[i].atPressureEnthalpy(p, x.enthalpy[i], x.state[i]);
                steps[i] = sign * step;
            } catch (PropertyException e) {
                shifted[i] = null;
            }
        }
        return shifted[i];
    }

    /** What a link's flow gains by ln p at its from end, and loses by ln p at its to end; never less than next to nothing. */
    private void slopes(Iterate x) {
        FluidState[][] near = new FluidState[SLOPE_STEPS.length][net.cavities];
        double[][] by = new double[SLOPE_STEPS.length][net.cavities];
        for (int l = 0; l < net.links; l++) {
            if (!net.flowing[l]) {
                continue;
            }
            int a = net.from[l];
            int b = net.to[l];
            double least = leastSlope(x, l);
            fromSlope[l] = least;
            toSlope[l] = least;
            double here = x.flow[l].massFlow();
            double drop = Math.log(x.endFrom[l].pressure() / x.endTo[l].pressure());
            int size = Math.abs(drop) < 100 * PRESSURE_STEP ? 1 : 0;
            if (size == 1) {
                wanted.add(Aid.ENDS_APART);
            }
            int atFrom = size == 1 && manner.aid() == Aid.ENDS_APART && drop < 0 ? 2 : size;
            int atTo = size == 1 && manner.aid() == Aid.ENDS_APART && drop >= 0 ? 2 : size;
            FluidState movedFrom = shift(x, a, SLOPE_STEPS[atFrom], near[atFrom], by[atFrom]);
            FluidState movedTo = shift(x, b, SLOPE_STEPS[atTo], near[atTo], by[atTo]);
            if (movedFrom != null && !(x.flow[l].choked() && here < 0)) {
                try {
                    double there =
                            net.flow(l, x.endState(a, l, movedFrom), x.endTo[l]).massFlow();
                    fromSlope[l] = atLeast(least, (there - here) / by[atFrom][a], here);
                } catch (PropertyException e) {
                    fromSlope[l] = Math.max(least, Math.abs(here));
                }
            }
            if (movedTo != null && !(x.flow[l].choked() && here > 0)) {
                try {
                    double there =
                            net.flow(l, x.endFrom[l], x.endState(b, l, movedTo)).massFlow();
                    toSlope[l] = atLeast(least, (here - there) / by[atTo][b], here);
                } catch (PropertyException e) {
                    toSlope[l] = Math.max(least, Math.abs(here));
                }
            }
        }
    }

    /** A slope; where the law beside the flow that is known gives no number, that of a law in proportion. */
    private static double atLeast(double least, double slope, double here) {
        return Math.max(least, Double.isNaN(slope) ? Math.abs(here) : slope);
    }
}
