package purgewright.sealflow.network;

import java.util.Arrays;
import java.util.List;
import java.util.stream.IntStream;
import purgewright.fluids.FluidState;
import purgewright.fluids.PropertyException;
import purgewright.sealflow.model.Case;
import purgewright.sealflow.network.SolveResult.Converged;
import purgewright.sealflow.network.SolveResult.Convergence;
import purgewright.sealflow.network.SolveResult.Method;

/**
 * A network whose cavities hold fluid: one implicit stage of a time step. What an integrator needs to know of a network, and no
 * more.
 *
 * <p>Held are mass M = rho V, energy U = M h - p V and the mass of each stream; a stage finds the states for which
 *
 * <pre>{@code q(z) = base + time * F(z)}</pre>
 *
 * with F the balances of mass, energy and streams. The held amounts themselves are balanced, so that what leaves one cavity arrives
 * in the next to the tolerance of the iteration. Owned by one thread.
 */
public final class NetworkDynamics {
    private static final int ITERATIONS = 20;
    private static final double TOLERANCE = 1e-11;
    /** Contraction up to which slopes are corrected by what the passages did, instead of taken afresh. */
    private static final double FAIR = 0.5;

    private static final int MOST_UPDATES = 4;

    private final Network net;
    private final Linearized linear;
    private final Iterate x;
    private final double[] volume;
    private boolean differentiated;
    private boolean everFactored;

    /**
     * What all cavities hold and at which states; fixed cavities are left out.
     *
     * @param mass kg, by free cavity
     * @param energy J, by free cavity
     * @param streams kg, by free cavity and stream
     */
    public record Held(double[] mass, double[] energy, double[][] streams) {
        /** Sum of a share of this and a share of another. */
        public Held mix(double own, Held other, double share) {
            double[] m = new double[mass.length];
            double[] e = new double[mass.length];
            double[][] s = new double[mass.length][];
            for (int i = 0; i < m.length; i++) {
                m[i] = own * mass[i] + share * other.mass[i];
                e[i] = own * energy[i] + share * other.energy[i];
                s[i] = new double[streams[i].length];
                for (int k = 0; k < s[i].length; k++) {
                    s[i][k] = own * streams[i][k] + share * other.streams[i][k];
                }
            }
            return new Held(m, e, s);
        }

        /** Total mass, kg. */
        public double total() {
            double sum = 0;
            for (double m : mass) {
                sum += m;
            }
            return sum;
        }
    }

    /**
     * Pressure, enthalpy and mixture of every free cavity.
     *
     * @param pressure Pa
     * @param enthalpy J/kg
     * @param fractions mass fractions of streams
     */
    public record Point(double[] pressure, double[] enthalpy, double[][] fractions) {}

    /**
     * @param solver the solver whose engine, settings and passage types hold
     * @param model the case at this moment
     * @param defaultVolume of a free cavity that states none, m3
     * @throws IllegalArgumentException when the case cannot be built, with words
     */
    public NetworkDynamics(NetworkSolver solver, Case model, double defaultVolume) {
        try {
            net = solver.dynamicNetwork(model);
        } catch (Network.Refusal e) {
            throw new IllegalArgumentException(e.getMessage(), e);
        }
        linear = new Linearized(net, 0);
        x = new Iterate(net);
        volume = new double[net.cavities];
        for (int i : net.cavityOf) {
            double v = net.cavity[i].volume();
            volume[i] = v > 0 ? v : defaultVolume;
        }
    }

    /** Names of the free cavities that state no volume and were given one. */
    public List<String> assumedVolumes() {
        return Arrays.stream(net.cavityOf)
                .filter(i -> !(net.cavity[i].volume() > 0))
                .mapToObj(i -> net.cavity[i].name())
                .toList();
    }

    /** Names of the free cavities, in the order of all arrays. */
    public List<String> cavities() {
        return Arrays.stream(net.cavityOf).mapToObj(i -> net.cavity[i].name()).toList();
    }

    /** Names of the streams, in the order of all arrays. */
    public List<String> streams() {
        return IntStream.range(0, net.streams).mapToObj(net.mixer::name).toList();
    }

    /** The states of a steady result. */
    public Point point(Converged solved) {
        int n = net.cavityOf.length;
        Point z = new Point(new double[n], new double[n], new double[n][net.streams]);
        for (int u = 0; u < n; u++) {
            SolveResult.CavityState c = solved.cavities().get(net.cavity[net.cavityOf[u]].name());
            if (c == null) {
                throw new IllegalArgumentException(
                        "the start knows no cavity '" + net.cavity[net.cavityOf[u]].name() + "'");
            }
            z.pressure()[u] = c.state().pressure();
            z.enthalpy()[u] = c.state().enthalpy();
            for (int k = 0; k < net.streams; k++) {
                z.fractions()[u][k] = c.streamFractions().getOrDefault(net.mixer.name(k), 0.0);
            }
        }
        return z;
    }

    /**
     * Puts the network at a point.
     *
     * @throws PropertyException where a state or a flow does not exist
     */
    public void set(Point z) {
        for (int u = 0; u < net.cavityOf.length; u++) {
            x.set(net.cavityOf[u], z.pressure()[u], z.enthalpy()[u], z.fractions()[u]);
        }
        x.evaluate();
        x.refreshLagged();
    }

    /** Where the network is. */
    public Point point() {
        int n = net.cavityOf.length;
        Point z = new Point(new double[n], new double[n], new double[n][]);
        for (int u = 0; u < n; u++) {
            int i = net.cavityOf[u];
            z.pressure()[u] = x.pressure[i];
            z.enthalpy()[u] = x.enthalpy[i];
            z.fractions()[u] = x.fraction[i].clone();
        }
        return z;
    }

    /** What is held there. */
    public Held held() {
        int n = net.cavityOf.length;
        Held q = new Held(new double[n], new double[n], new double[n][net.streams]);
        for (int u = 0; u < n; u++) {
            int i = net.cavityOf[u];
            double m = x.state[i].density() * volume[i];
            q.mass()[u] = m;
            q.energy()[u] = m * x.enthalpy[i] - x.pressure[i] * volume[i];
            for (int k = 0; k < net.streams; k++) {
                q.streams()[u][k] = m * x.fraction[i][k];
            }
        }
        return q;
    }

    /** Rates of the held amounts: what flows in less what flows out, kg/s and W. */
    public Held rates() {
        int n = net.cavityOf.length;
        Held f = new Held(new double[n], new double[n], new double[n][net.streams]);
        for (int u = 0; u < n; u++) {
            int i = net.cavityOf[u];
            f.mass()[u] = x.mass[i];
            f.energy()[u] = x.energy[i] + x.enthalpy[i] * x.mass[i];
            for (int k = 0; k < net.streams; k++) {
                f.streams()[u][k] = x.stream[i][k] + x.fraction[i][k] * x.mass[i];
            }
        }
        return f;
    }

    /** Net mass that the fixed cavities take up, kg/s. */
    public double outflow() {
        double sum = 0;
        for (int i = 0; i < net.cavities; i++) {
            sum += net.fixed[i] ? x.mass[i] : 0;
        }
        return sum;
    }

    /** Marks the derivatives as outdated: the next stage takes them afresh. */
    public void outdate() {
        differentiated = false;
    }

    /**
     * Solves one stage from the present point. On success the network is at the solution.
     *
     * @param base what the held amounts start from
     * @param time implicit share of the step, s
     * @return iterations, or -1 when the stage was not solved
     */
    public int stage(Held base, double time) {
        double[] before = new double[net.cavities];
        for (int u = 0; u < net.cavityOf.length; u++) {
            before[net.cavityOf[u]] = base.mass()[u];
        }
        Iterate trial = new Iterate(net);
        double[] mass = new double[net.cavities];
        double[] energy = new double[net.cavities];
        double[][] stream = new double[net.cavities][net.streams];
        double last = Double.POSITIVE_INFINITY;
        boolean factored = false;
        double[] flows = new double[net.links];
        double[] taken = null;
        double takenShare = 0;
        int updates = 0;
        for (int n = 0; n < ITERATIONS; n++) {
            double worst = residual(base, time, mass, energy, stream);
            if (worst < TOLERANCE && everFactored) {
                return n;
            }
            if (!(worst < 0.1 * last)) {
                factored = false;
                if (taken != null && worst < FAIR * last && updates < MOST_UPDATES) {
                    // What the passages did on the step says enough of their slopes; differences cost several
                    // evaluations.
                    linear.update(flows, x, taken, takenShare);
                    linear.differentiateStates(x);
                    updates++;
                } else {
                    differentiated = differentiated && n == 0;
                }
            }
            double previous = last;
            last = worst;
            if (!differentiated) {
                storageScales(time, before);
                linear.differentiate(x);
                differentiated = true;
                factored = false;
                updates = 0;
            }
            if (!factored) {
                storageScales(time, before);
                if (!linear.factorWithStorage(x, volume, before, time)) {
                    return -1;
                }
                factored = true;
                everFactored = true;
            }
            double[] step = linear.solveFor(mass, energy, stream);
            // Cycling about a flow that turns round ends when the steps are halved.
            double share = n >= 3 && !(worst < 0.5 * previous) ? 0.5 : 1;
            boolean moved = false;
            for (int h = 0; h < 3 && !moved; h++) {
                moved = Descent.attempt(net, linear.size(), x, trial, step, share);
                takenShare = share;
                share *= 0.3;
            }
            if (!moved) {
                return -1;
            }
            System.arraycopy(x.massFlow, 0, flows, 0, flows.length);
            taken = step;
            x.adopt(trial);
            x.refreshLagged();
        }
        return residual(base, time, mass, energy, stream) < 100 * TOLERANCE ? ITERATIONS : -1;
    }

    private void storageScales(double time, double[] before) {
        double[] floor = new double[net.cavities];
        for (int i : net.cavityOf) {
            floor[i] = before[i] / time;
        }
        linear.setScales(x, floor);
    }

    /** Balances less storage; returns the largest, as a share of what the cavity holds. */
    private double residual(Held base, double time, double[] mass, double[] energy, double[][] stream) {
        double worst = 0;
        for (int u = 0; u < net.cavityOf.length; u++) {
            int i = net.cavityOf[u];
            double held = base.mass()[u];
            double now = x.state[i].density() * volume[i];
            mass[i] = x.mass[i] - (now - held) / time;
            energy[i] = x.energy[i] - (x.enthalpy[i] * held - x.pressure[i] * volume[i] - base.energy()[u]) / time;
            double unit = time / Math.max(now, 1e-30);
            worst = Math.max(worst, Math.abs(mass[i]) * unit);
            worst = Math.max(worst, Math.abs(energy[i]) * unit / Linearized.ENTHALPY_UNIT);
            for (int k = 0; k < net.streams; k++) {
                stream[i][k] = x.stream[i][k] - (x.fraction[i][k] * held - base.streams()[u][k]) / time;
                worst = Math.max(worst, Math.abs(stream[i][k]) * unit);
            }
        }
        return Double.isNaN(worst) ? Double.POSITIVE_INFINITY : worst;
    }

    /**
     * Size of an error in the held amounts, as the largest error of ln p, of h in units of 2e5 J/kg, or of a fraction that it makes,
     * damped by the matrix of the last stage, so that what is stiff and already settled does not count.
     *
     * @param error of the held amounts
     * @param time implicit share of the step, s
     */
    public double errorSize(Held error, double time) {
        double[] mass = new double[net.cavities];
        double[] energy = new double[net.cavities];
        double[][] stream = new double[net.cavities][net.streams];
        for (int u = 0; u < net.cavityOf.length; u++) {
            int i = net.cavityOf[u];
            mass[i] = error.mass()[u] / time;
            energy[i] = (error.energy()[u] - x.enthalpy[i] * error.mass()[u]) / time;
            for (int k = 0; k < net.streams; k++) {
                stream[i][k] = (error.streams()[u][k] - x.fraction[i][k] * error.mass()[u]) / time;
            }
        }
        double[] dz = linear.solveFor(mass, energy, stream);
        double worst = 0;
        for (int n = 0; n < dz.length; n++) {
            worst = Math.max(worst, Math.abs(dz[n]) / (n % linear.size() == 1 ? Linearized.ENTHALPY_UNIT : 1));
        }
        return worst;
    }

    /** Largest relative change of pressure, temperature scale and mixture between two points. */
    public double distance(Point a, Point b) {
        double worst = 0;
        for (int u = 0; u < net.cavityOf.length; u++) {
            worst = Math.max(worst, Math.abs(Math.log(a.pressure()[u] / b.pressure()[u])));
            worst = Math.max(worst, Math.abs(a.enthalpy()[u] - b.enthalpy()[u]) / Linearized.ENTHALPY_UNIT);
            for (int k = 0; k < net.streams; k++) {
                worst = Math.max(worst, Math.abs(a.fractions()[u][k] - b.fractions()[u][k]));
            }
        }
        return worst;
    }

    /** State of a cavity, free or fixed, where the network is. */
    public FluidState state(String cavity) {
        for (int i = 0; i < net.cavities; i++) {
            if (net.cavity[i].name().equals(cavity)) {
                return x.state[i];
            }
        }
        throw new IllegalArgumentException("no cavity '" + cavity + "'");
    }

    /** Flow of a passage where the network is, kg/s, positive from its {@code from}; 0 for one that is shut or unknown. */
    public double massFlow(String passage) {
        double sum = 0;
        for (int l = 0; l < net.links; l++) {
            if (net.model.passages().get(net.specOf[l]).name().equals(passage)) {
                sum += x.massFlow[l];
            }
        }
        return sum;
    }

    /** Mass fraction of a stream in a cavity, free or fixed, where the network is. */
    public double fraction(String cavity, String stream) {
        for (int i = 0; i < net.cavities; i++) {
            if (net.cavity[i].name().equals(cavity)) {
                for (int k = 0; k < net.streams; k++) {
                    if (net.mixer.name(k).equals(stream)) {
                        return x.fraction[i][k];
                    }
                }
            }
        }
        return 0;
    }

    /** Everything at the present point, in the form of a steady result; what a free cavity takes up stands in its net flow. */
    public Converged snapshot() {
        return new Results(net, x)
                .converged(new Convergence(Method.NONE, 0, Double.NaN, Double.NaN, Double.NaN, List.of()));
    }
}
