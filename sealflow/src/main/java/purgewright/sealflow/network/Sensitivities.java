package purgewright.sealflow.network;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import purgewright.fluids.FluidState;
import purgewright.fluids.PropertyException;
import purgewright.sealflow.model.Case;
import purgewright.sealflow.model.PassageSpec;
import purgewright.sealflow.network.SolveResult.Converged;
import purgewright.sealflow.passage.Conditions.Bound;
import purgewright.sealflow.passage.Passage;
import purgewright.sealflow.passage.PassageField;
import purgewright.sealflow.passage.PassageFlow;

/**
 * What moves a solved quantity, and by how much, without solving again: the adjoint of the network's own matrix.
 *
 * <pre>{@code dq/da = - l' (dF/da),   J' l = dq/dz}</pre>
 *
 * <p>F are the balances, z the unknowns, J their matrix at the solution, a an input of the case. One transposed back-substitution a
 * quantity, one evaluation of a single passage an input. Valid for small changes: a valve that opens or a flow that turns is not
 * foreseen.
 *
 * <p>Keeps the solved network; owned by one thread.
 */
public final class Sensitivities {
    /** Relative change of an input by which the balances are differenced. */
    private static final double STEP = 1e-5;

    private final Network net;
    private final Iterate x;
    private final Linearized linear;
    private final List<Input> inputs;

    /**
     * Effect of one input.
     *
     * @param place JSON Pointer of the input
     * @param value of the input, SI
     * @param derivative of the quantity by the input, SI per SI
     * @param perShare change of the quantity per relative change of the input: derivative times value
     */
    public record Sensitivity(String place, double value, double derivative, double perShare) {}

    /** How an input changes the balances, by unknown cavity and row: mass, energy, streams. */
    private record Input(String place, double value, double[] balanceSlope) {}

    private Sensitivities(Network net, Iterate x, Linearized linear, List<Input> inputs) {
        this.net = net;
        this.x = x;
        this.linear = linear;
        this.inputs = inputs;
    }

    /**
     * Linearises a solved case.
     *
     * @param solver the solver that solved it
     * @param model the case
     * @param solved its result
     * @throws IllegalArgumentException when the result is not one of this case
     */
    public static Sensitivities of(NetworkSolver solver, Case model, Converged solved) {
        Network net;
        try {
            net = solver.network(model);
        } catch (Network.Refusal e) {
            throw new IllegalArgumentException("the case cannot be solved: " + e.getMessage(), e);
        }
        Iterate x = NetworkSolver.Search.warm(net, solved);
        if (x == null) {
            throw new IllegalArgumentException("the result does not belong to the case");
        }
        x.refreshLagged();
        Linearized linear = new Linearized(net);
        linear.setScales(x);
        linear.differentiate(x);
        if (!linear.factor(x, 0)) {
            throw new IllegalArgumentException("the network's matrix is singular at the result");
        }
        Sensitivities s = new Sensitivities(net, x, linear, new ArrayList<>());
        s.collect(solver);
        return s;
    }

    /** The inputs that move a solved cavity's pressure (Pa), strongest first; empty for a fixed cavity. */
    public List<Sensitivity> pressure(String cavity) {
        int i = index(cavity);
        if (net.unknown[i] < 0) {
            return List.of();
        }
        return sensitivities(linear.adjoint(i, 0), x.pressure[i]);
    }

    /** The inputs that move a stream's mass fraction in a solved cavity, strongest first; empty for a fixed cavity. */
    public List<Sensitivity> fraction(String cavity, String stream) {
        int i = index(cavity);
        for (int k = 0; k < net.streams; k++) {
            if (net.mixer.name(k).equals(stream)) {
                return net.unknown[i] < 0 ? List.of() : sensitivities(linear.adjoint(i, 2 + k), 1);
            }
        }
        throw new IllegalArgumentException("no stream '" + stream + "'");
    }

    /**
     * For each open passage the end of its model's band that lowers the pressure of one cavity over another: what hurts a barrier.
     *
     * @param cavity whose pressure should be high
     * @param against whose pressure should be low; null for none
     */
    public Map<String, Bound> adverse(String cavity, String against) {
        double[] effect = effectOfFlows(cavity, against);
        Map<String, Bound> result = new LinkedHashMap<>();
        for (int l = 0; l < net.links; l++) {
            if (effect[l] != 0) {
                result.put(net.model.passages().get(net.specOf[l]).name(), effect[l] < 0 ? Bound.HIGH : Bound.LOW);
            }
        }
        return result;
    }

    /** The other end of every band: what helps. */
    public Map<String, Bound> favourable(String cavity, String against) {
        Map<String, Bound> result = new LinkedHashMap<>(adverse(cavity, against));
        result.replaceAll((name, bound) -> bound == Bound.HIGH ? Bound.LOW : Bound.HIGH);
        return result;
    }

    /** Change of the pressure difference per relative change of each link's flow, Pa. */
    private double[] effectOfFlows(String cavity, String against) {
        double[] effect = new double[net.links];
        for (String name : against == null ? new String[] {cavity} : new String[] {cavity, against}) {
            int i = index(name);
            if (net.unknown[i] < 0) {
                continue;
            }
            double sign = name.equals(cavity) ? 1 : -1;
            double[] l = linear.adjoint(i, 0);
            for (int n = 0; n < net.links; n++) {
                if (net.flowing[n]) {
                    effect[n] += sign
                            * x.pressure[i]
                            * dot(l, linkSlope(n, x.massFlow[n], x.flow[n].heatAtFrom(), x.flow[n].heatAtTo()));
                }
            }
        }
        return effect;
    }

    private int index(String cavity) {
        for (int i = 0; i < net.cavities; i++) {
            if (net.cavity[i].name().equals(cavity)) {
                return i;
            }
        }
        throw new IllegalArgumentException("no cavity '" + cavity + "'");
    }

    private List<Sensitivity> sensitivities(double[] adjoint, double factor) {
        List<Sensitivity> result = new ArrayList<>();
        for (Input input : inputs) {
            double derivative = factor * dot(adjoint, input.balanceSlope());
            result.add(new Sensitivity(input.place(), input.value(), derivative, derivative * input.value()));
        }
        result.sort(Comparator.comparingDouble((Sensitivity s) -> -Math.abs(s.perShare()))
                .thenComparing(Sensitivity::place));
        return List.copyOf(result);
    }

    private static double dot(double[] a, double[] b) {
        double sum = 0;
        for (int n = 0; n < a.length; n++) {
            sum += a[n] * b[n];
        }
        return sum;
    }

    private void collect(NetworkSolver solver) {
        for (int l = 0; l < net.links; l++) {
            if (net.flowing[l]) {
                collectPassage(solver, l);
            }
        }
        for (int i = 0; i < net.cavities; i++) {
            if (net.fixed[i]) {
                collectBoundary(i);
            }
        }
    }

    private void collectPassage(NetworkSolver solver, int l) {
        PassageSpec spec = net.model.passages().get(net.specOf[l]);
        String place = "/passages/" + spec.name() + "/";
        if (spec.clearance() > 0) {
            add(solver, l, place + "clearance", spec.clearance(), changed(spec, spec.clearance() * (1 + STEP), null));
        }
        Set<String> counts = new HashSet<>();
        for (PassageField field : solver.type(spec.type()).fields()) {
            if (field.whole()) {
                counts.add(field.name());
            }
        }
        for (String field : new TreeSet<>(spec.fields().keySet())) {
            double value = spec.number(field, Double.NaN);
            // A count (teeth, segments) has no derivative.
            if (Double.isFinite(value) && value != 0 && !counts.contains(field)) {
                add(solver, l, place + field, value, changed(spec, spec.clearance(), field));
            }
        }
    }

    private static PassageSpec changed(PassageSpec s, double clearance, String field) {
        Map<String, Object> fields = new HashMap<>(s.fields());
        if (field != null) {
            fields.put(field, s.number(field, 0) * (1 + STEP));
        }
        return new PassageSpec(
                s.name(),
                s.from(),
                s.to(),
                s.type(),
                s.count(),
                s.radius(),
                clearance,
                s.wornClearance(),
                s.clearanceGrowth(),
                s.calibrationFactor(),
                s.stirring(),
                s.closed(),
                fields);
    }

    private void add(NetworkSolver solver, int l, String place, double value, PassageSpec spec) {
        try {
            Passage other = solver.passage(spec, net.model.rotor());
            PassageFlow there = other.flow(x.endFrom[l], x.endTo[l]);
            double step = STEP * value;
            double dm = (there.massFlow() - x.flow[l].massFlow()) / step;
            double atFrom = (there.heatAtFrom() - x.flow[l].heatAtFrom()) / step;
            double atTo = (there.heatAtTo() - x.flow[l].heatAtTo()) / step;
            if (dm != 0 || atFrom != 0 || atTo != 0) {
                inputs.add(new Input(place, value, linkSlope(l, dm, atFrom, atTo)));
            }
        } catch (IllegalArgumentException | PropertyException e) {
            // The input stands at the end of its range: its effect is not stated rather than guessed.
            return;
        }
    }

    /** Balances that change when a link's flow changes by dm and its heat at the two ends by so much. */
    private double[] linkSlope(int l, double dm, double heatAtFrom, double heatAtTo) {
        int size = linear.size();
        double[] slope = new double[net.cavityOf.length * size];
        double[] by = linear.byFlow(x, l);
        double bulk = by[net.streams] * dm;
        double[] up = x.carriedFractions(l);
        double upEnthalpy = x.carriedEnthalpy(l);
        for (int side = 0; side < 2; side++) {
            int i = side == 0 ? net.from[l] : net.to[l];
            int u = net.unknown[i];
            if (u < 0) {
                continue;
            }
            double sign = side == 0 ? -1 : 1;
            double all = bulk;
            slope[u * size + 1] += side == 0 ? heatAtFrom : heatAtTo;
            slope[u * size + 1] += sign * bulk * (upEnthalpy - x.enthalpy[i]);
            for (int k = 0; k < net.streams; k++) {
                double diffused = by[k] * dm;
                all += diffused;
                slope[u * size + 2 + k] += sign * (bulk * (up[k] - x.fraction[i][k]) + diffused);
                if (diffused != 0) {
                    slope[u * size + 1] += sign * diffused * (x.carried(l, k) - x.enthalpy[i]);
                }
            }
            for (int k = 0; k < net.streams; k++) {
                slope[u * size + 2 + k] -= sign * (all - bulk) * x.fraction[i][k];
            }
            slope[u * size] += sign * all;
        }
        return slope;
    }

    private void collectBoundary(int i) {
        String place = "/cavities/" + net.cavity[i].name() + "/";
        FluidState s = net.boundaryState[i];
        boundary(i, place + "pressure", s.pressure(), s.pressure() * (1 + STEP), s.temperature());
        boundary(i, place + "temperature", s.temperature(), s.pressure(), s.temperature() * (1 + STEP));
    }

    private void boundary(int i, String place, double value, double pressure, double temperature) {
        int size = linear.size();
        Iterate trial = new Iterate(net);
        trial.copyFrom(x);
        try {
            trial.setBoundary(i, net.boundaryState[i].fluid().atPressureTemperature(pressure, temperature));
            trial.evaluate();
        } catch (PropertyException e) {
            return;
        }
        double[] slope = new double[net.cavityOf.length * size];
        boolean any = false;
        for (int u = 0; u < net.cavityOf.length; u++) {
            int j = net.cavityOf[u];
            slope[u * size] = (trial.mass[j] - x.mass[j]) / (STEP * value);
            slope[u * size + 1] = (trial.energy[j] - x.energy[j]) / (STEP * value);
            any |= slope[u * size] != 0 || slope[u * size + 1] != 0;
            for (int k = 0; k < net.streams; k++) {
                slope[u * size + 2 + k] = (trial.stream[j][k] - x.stream[j][k]) / (STEP * value);
            }
        }
        if (any) {
            inputs.add(new Input(place, value, slope));
        }
    }
}
