package purgewright.sealflow.network;

import java.util.List;
import purgewright.fluids.PropertyException;

/** Newton's iteration with a line search, and the same damped into a pseudo-transient. */
final class Descent {
    /** How an iteration ended. */
    enum End {
        CLOSED,
        /** All balances are closed, but with a cavity held at the end of its fluid's range. */
        HELD,
        STALLED,
        /** Not ended: it may go on from where it is. */
        PAUSED,
        LIMIT,
        CANCELLED
    }

    /** A flow below this is nothing: 30 ng a year, kg/s. */
    static final double NO_FLOW = 1e-15;

    /** Flow below which a whole network is at rest: 0.3 ug a year, kg/s. */
    static final double REST_FLOW = 10 * NO_FLOW;

    /** Power below which it is, W: such a flow with 1 MJ/kg. */
    static final double REST_POWER = 1e6 * REST_FLOW;

    /** Largest step of ln p that the last correction may take: far inside the part where any passage is linear. */
    static final double UNSEEN_STEP = 1e-9;

    private static final double LARGEST_PRESSURE_STEP = 1.2;
    private static final double GOOD_CONTRACTION = 0.1;
    /** With remembered slopes an iteration costs a quarter of one with differences. */
    private static final double FAIR_CONTRACTION = 0.3;

    /** Norm of the balances below which an iteration that gains nothing more has met rounding. */
    private static final double ROUNDING = 1e-4;

    /** How often the tolerance may be exceeded by the energy when the mass that is left over counts with its enthalpy. */
    private static final double WHOLE_ENERGY = 4;

    private static final int HALVINGS = 9;

    private final Network net;
    private final Linearized linear;
    private final List<Double> history;
    int iterations;
    /** What the property engine last refused, in words; null when it refused nothing. */
    String refusal;

    int refusedAt = -1;

    /** Length of the step that the last accepted point asks for, over that of the step that led there. */
    private double contraction;

    Descent(Network net, Linearized linear, List<Double> history) {
        this.net = net;
        this.linear = linear;
        this.history = history;
    }

    /** True when every balance is closed to the tolerances. */
    boolean closed(Iterate x) {
        return closed(x, net.settings.massTolerance(), net.settings.localTolerance());
    }

    /**
     * Nothing flows anywhere, as between shut valves: what a balance of mass is off by then is the rounding of the pressures, of which each
     * passage makes a flow of its own. Where no heat is made or passes a wall either, that holds for the energy too.
     */
    private boolean atRest(Iterate x) {
        for (int l = 0; l < net.links; l++) {
            if (net.flowing[l]) {
                for (double f : x.streamFlow[l]) {
                    if (!(Math.abs(f) < REST_FLOW)) {
                        return false;
                    }
                }
            }
        }
        return true;
    }

    /** True when no balance is open by more than some times the tolerances. */
    boolean closedBut(Iterate x, double times) {
        return closed(x, times * net.settings.massTolerance(), times * net.settings.localTolerance());
    }

    /** At the rounding of the property equations no step helps any more; what is promised may be met all the same. */
    boolean closedToPromise(Iterate x) {
        return closed(x, 8e-10, 1e-4);
    }

    private boolean closed(Iterate x, double tolerance, double local) {
        boolean rest = atRest(x);
        if (rest && x.largestEnergyFlow < REST_POWER) {
            return true;
        }
        double flowLimit = rest ? Double.POSITIVE_INFINITY : tolerance * Math.max(x.largestFlow, NO_FLOW);
        double energyLimit = tolerance * Math.max(x.largestEnergyFlow, Math.max(x.largestFlow, NO_FLOW) * 1e5);
        for (int i : net.cavityOf) {
            // Beside its own through-flow, too, unless what is left over would be called no flow at all.
            double own = !rest && x.through[i] > Math.max(1e-9 * x.largestFlow, NO_FLOW)
                    ? Math.max(local * x.through[i], NO_FLOW)
                    : Double.POSITIVE_INFINITY;
            if (!(Math.abs(x.mass[i]) <= Math.min(flowLimit, own))
                    || !(x.held(i)
                            || Math.abs(x.energy[i])
                                    <= Math.max(
                                            x.wallRounding[i],
                                            Math.min(energyLimit, own * Linearized.ENTHALPY_UNIT)))) {
                return false;
            }
            // Added up from the result, what is left of the mass takes its enthalpy along.
            if (!rest
                    && !x.held(i)
                    && !(Math.abs(x.energy[i] + x.enthalpy[i] * x.mass[i])
                            <= Math.max(x.wallRounding[i], WHOLE_ENERGY * energyLimit))) {
                return false;
            }
            for (int k = 0; k < net.streams; k++) {
                if (!(Math.abs(x.stream[i][k]) <= Math.min(flowLimit, own))) {
                    return false;
                }
            }
        }
        return true;
    }

    /** Norm of the balances, with what lags behind the iterate and the scales taken afresh; goes into the history. */
    double measure(Iterate x) {
        x.refreshLagged();
        linear.setScales(x);
        double norm = linear.norm(x);
        history.add(norm);
        return norm;
    }

    /** Newton with line search from {@code x}, which must be evaluated; {@code x} ends as the best iterate. */
    End newton(Iterate x, int limit) {
        return newton(x, limit, null);
    }

    /** @param memory slopes to start with; null to take them by differences */
    End newton(Iterate x, int limit, SlopeMemory memory) {
        Iterate trial = new Iterate(net);
        int crawling = 0;
        int sinceFresh = 0;
        double factor = 0;
        double[] last = null;
        double[] before = new double[net.links];
        contraction = 1;
        boolean remembered = false;
        for (int n = 0; n < limit; n++) {
            if (Thread.currentThread().isInterrupted()) {
                return End.CANCELLED;
            }
            double norm = measure(x);
            if (closed(x)) {
                return ended(x);
            }
            // At the rounding of the passages' laws Newton only treads on the spot.
            if (n >= 6 && treading(norm)) {
                linear.differentiate(x);
                return reconciled(x, trial) ? ended(x) : End.STALLED;
            }
            iterations++;
            // While Newton runs well its slopes are kept and only corrected by what the passages did.
            if (n == 0 && memory != null && linear.recall(memory, x)) {
                remembered = true;
                sinceFresh = 1;
            } else if (last != null
                    && contraction < (remembered ? FAIR_CONTRACTION : GOOD_CONTRACTION)
                    && sinceFresh < (remembered ? 12 : 4)) {
                linear.update(before, x, last, factor);
                sinceFresh++;
            } else {
                remembered = false;
                linear.differentiate(x);
                sinceFresh = 0;
            }
            double[] step = linear.solve(x, 0);
            if (step == null) {
                return End.STALLED;
            }
            double share = Math.min(1, LARGEST_PRESSURE_STEP / largest(step));
            factor = search(x, trial, step, share);
            if (factor == 0 && sinceFresh > 0) {
                contraction = 1;
                remembered = false;
                last = null;
                continue;
            }
            if (factor == 0) {
                return reconciled(x, trial) ? ended(x) : End.STALLED;
            }
            System.arraycopy(x.massFlow, 0, before, 0, before.length);
            last = step;
            x.adopt(trial);
            // Crawling along a kink (a valve's, a turning flow's) is no progress; another way does better.
            crawling = factor < 0.02 ? crawling + 1 : 0;
            if (crawling == 3) {
                return End.STALLED;
            }
        }
        x.refreshLagged();
        linear.setScales(x);
        return closed(x) || closedToPromise(x) ? ended(x) : End.LIMIT;
    }

    /** True where the balances are nearly closed and the last four iterations have not halved what is left. */
    private boolean treading(double norm) {
        return norm < ROUNDING && norm > 0.5 * history.get(history.size() - 5);
    }

    static End ended(Iterate x) {
        return x.anyHeld() ? End.HELD : End.CLOSED;
    }

    /**
     * Where the line search finds nothing: the last step is taken through the slopes, if it is too small to be seen in a pressure.
     */
    private boolean reconciled(Iterate x, Iterate trial) {
        for (int round = 0; round < 3; round++) {
            if (closed(x)) {
                return true;
            }
            if (!linear.factor(x, 0)) {
                break;
            }
            double[] step = linear.step(x);
            if (largest(step) > UNSEEN_STEP) {
                break;
            }
            try {
                trial.copyFrom(x);
                if (!move(net, linear.size(), x, trial, step, 1, false)) {
                    break;
                }
                trial.reconcile(linear.flowChanges(step));
                x.adopt(trial);
                x.refreshLagged();
            } catch (PropertyException e) {
                break;
            }
        }
        return closedToPromise(x);
    }

    private double largest(double[] step) {
        double largest = 1e-30;
        for (int u = 0; u < net.cavityOf.length; u++) {
            largest = Math.max(largest, Math.abs(step[u * linear.size()]));
        }
        return largest;
    }

    /**
     * Tries the step at shrinking lengths; returns the accepted share, or 0.
     *
     * <p>What must shrink is not the residual but the step it asks for, with the matrix at hand (the natural level function of P.
     * Deuflhard, Newton Methods for Nonlinear Problems, Springer, 2004, ch. 3 [from memory]): where wide passages tie cavities
     * together, a change of common pressure leaves large flows out of balance that a hair of pressure puts right, and a norm of
     * flows would forbid every step.
     */
    private double search(Iterate x, Iterate trial, double[] step, double first) {
        double length = linear.length(step);
        double share = first;
        for (int h = 0; h < HALVINGS; h++) {
            if (attempt(x, trial, step, share)) {
                double[] next = linear.step(trial);
                double ahead = linear.length(next);
                if (ahead <= (1 - 0.25 * share) * length) {
                    contraction = ahead / length;
                    return share;
                }
                double bend = linear.distance(next, step, 1 - share);
                double best = 0.5 * share * share * length / bend;
                share = Math.max(0.1 * share, Math.min(0.5 * share, Double.isFinite(best) ? best : 0.1 * share));
            } else {
                share *= 0.4;
            }
        }
        return 0;
    }

    /** Puts the unknowns of {@code x} plus a share of the step into {@code trial}. */
    private static boolean move(
            Network net, int size, Iterate x, Iterate trial, double[] step, double share, boolean byMoles) {
        double[] y = new double[net.streams];
        for (int u = 0; u < net.cavityOf.length; u++) {
            int i = net.cavityOf[u];
            int at = u * size;
            double sum = 0;
            for (int k = 0; k < net.streams; k++) {
                double next = x.fraction[i][k] + share * step[at + 2 + k];
                // A mass fraction below 1e-300 is nothing; keeps denormal numbers out.
                y[k] = next > 1e-300 ? next : 0;
                sum += y[k];
            }
            if (!(sum > 0)) {
                return false;
            }
            if (sum != 1) {
                for (int k = 0; k < net.streams; k++) {
                    y[k] /= sum;
                }
            }
            double p = x.pressure[i] * Math.exp(share * step[at]);
            double h = x.enthalpy[i] + share * step[at + 1];
            if (byMoles) {
                h = x.moveByMoles(i, step, at, share, y);
            }
            if (!(p > net.lowestPressure && p < net.highestPressure) || !Double.isFinite(h)) {
                return false;
            }
            trial.setKeepingEnd(i, p, h, y, x);
        }
        return true;
    }

    /** As the other, all unknowns in a straight line. */
    static boolean attempt(Network net, int size, Iterate x, Iterate trial, double[] step, double share) {
        return attempt(net, size, x, trial, step, share, false);
    }

    /** Moves and evaluates; false where the step leaves what can be computed, the trial then says where. */
    static boolean attempt(
            Network net, int size, Iterate x, Iterate trial, double[] step, double share, boolean byMoles) {
        trial.copyFrom(x);
        try {
            if (!move(net, size, x, trial, step, share, byMoles)) {
                return false;
            }
            trial.evaluate();
            return true;
        } catch (PropertyException e) {
            trial.refusal = e;
            return false;
        }
    }

    private boolean attempt(Iterate x, Iterate trial, double[] step, double share) {
        trial.refusal = null;
        if (attempt(net, linear.size(), x, trial, step, share)) {
            return true;
        }
        if (trial.refusal != null) {
            refusal = Words.of(trial.refusal);
            refusedAt = trial.refusedAt;
        }
        return false;
    }

    /** Implicit pseudo-time steps from {@code x}, which must be evaluated; {@code x} ends as the last iterate. */
    End pseudoTransient(Iterate x, int limit) {
        return new PseudoTransient(x, limit).go(Long.MAX_VALUE);
    }

    /**
     * Implicit pseudo-time steps: each cavity holds a share {@code damping} of its own through-flow, which is taken down as the
     * residual falls.
     */
    final class PseudoTransient implements Way {
        private final Iterate x;
        private final Iterate trial = new Iterate(net);
        private final int limit;
        private double damping = 1;
        private int n;

        PseudoTransient(Iterate x, int limit) {
            this.x = x;
            this.limit = limit;
        }

        @Override
        public Iterate at() {
            return x;
        }

        @Override
        public End go(long until) {
            for (int here = 0; n < limit; n++, here++) {
                if (Thread.currentThread().isInterrupted()) {
                    return End.CANCELLED;
                }
                if (net.work >= until) {
                    return End.PAUSED;
                }
                double norm = measure(x);
                if (closed(x)) {
                    return ended(x);
                }
                if (here >= 6 && treading(norm) && closedToPromise(x)) {
                    return ended(x);
                }
                iterations++;
                linear.differentiate(x);
                boolean accepted = false;
                for (int tries = 0; tries < 12 && !accepted; tries++) {
                    double[] step = linear.solve(x, damping);
                    if (step != null) {
                        double share = Math.min(1, 0.7 / largest(step));
                        // A pseudo-time step may raise the residual for a while, but not without limit.
                        accepted = attempt(x, trial, step, share)
                                && linear.length(linear.step(trial)) < 1.5 * linear.length(step);
                    }
                    if (!accepted) {
                        damping = Math.max(damping, 1e-4) * 4;
                    }
                }
                if (!accepted) {
                    return reconciled(x, trial) ? ended(x) : End.STALLED;
                }
                double there = linear.norm(trial);
                x.adopt(trial);
                if (damping == 0 && there > 0.5 * norm && there < 1e-6 && reconciled(x, trial)) {
                    return ended(x);
                }
                damping = Math.max(damping * Math.min(2, Math.max(0.1, 0.6 * there / norm)), 0);
                if (damping < 1e-7) {
                    damping = 0;
                }
            }
            return closedToPromise(x) ? ended(x) : End.LIMIT;
        }
    }
}
