package purgewright.sealflow.network;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import purgewright.fluids.FluidState;
import purgewright.fluids.Phase;
import purgewright.fluids.PropertyException;
import purgewright.sealflow.model.Case;
import purgewright.sealflow.model.Cavity;
import purgewright.sealflow.model.PassageSpec;
import purgewright.sealflow.network.SolveResult.CavityState;
import purgewright.sealflow.network.SolveResult.Converged;
import purgewright.sealflow.network.SolveResult.PassageState;
import purgewright.sealflow.passage.DrivingHead;

/**
 * Whether a finished result obeys what no result may break, looked at from outside: by its names, states and flows alone. A result that
 * contradicts itself is the program's mistake (or a damaged table's), not the machine's; whoever judges makes "not established" of it.
 *
 * <ul>
 *   <li>Every number is finite, pressures, temperatures and densities are positive, fractions lie in [0, 1] and add up to 1.
 *   <li>Every temperature, of a cavity and of a passage's ends, is one that the fluid's equations give a state for.
 *   <li>Mass and every stream balance in each solved cavity; the stated closures are small.
 *   <li>What a passage saw at its ends is what the cavities have, moved to its radius by no more than the rotor can.
 *   <li>A state's density and enthalpy are those of its own pressure and temperature.
 *   <li>Second law: what leaves a passage, at the pressure behind it and with the heat of the rotor's drag and the work of a pumping rotor in
 *       it, has no less entropy than what entered.
 *   <li>Nothing flows against all that drives it at the passage's own radius: pressures, the rotor's head and gravity ({@link DrivingHead}).
 *   <li>Nothing flows faster than that drive can make it: v^2 / 2 is no more than drive / density.
 *   <li>The throat's pressure lies between the ends, or below both when choked or through a contraction, never above.
 * </ul>
 */
public final class SelfCheck {
    /** Balance left over that is not believed, as a share of the largest flow [invented: a thousand times the solver's own aim]. */
    public static final double CLOSURE = 1e-6;

    /** Difference of two ways to one property that is not believed, relative [invented]. */
    private static final double SAME = 1e-6;

    /** Loss of entropy that is rounding, as a share of cp [invented]. */
    private static final double ROUNDING = 1e-6;

    /**
     * Speed in a gap over that of an ideal nozzle which is not believed. Stated discharge coefficients reach 1.05 with a band of 5 %, a
     * brush's clearance has a band of 1.4 [invented, above them].
     */
    private static final double FASTEST = 1.5;

    /** Share of a temperature by which a state may stand outside its fluid's range: rounding of the range's own ends [invented]. */
    private static final double EDGE = 1e-3;

    /**
     * A law that the result breaks.
     *
     * @param place JSON Pointer
     * @param law short name, stable
     * @param value what was found, in the sense of the limit
     * @param limit what is believed
     * @param words one sentence
     */
    public record Contradiction(String place, String law, double value, double limit, String words) {}

    private final Case model;
    private final Converged result;
    private final List<Contradiction> found = new ArrayList<>();

    private SelfCheck(Case model, Converged result) {
        this.model = model;
        this.result = result;
    }

    /** Everything that is wrong; empty for a sound result. */
    public static List<Contradiction> of(Case model, Converged result) {
        SelfCheck check = new SelfCheck(model, result);
        check.numbers();
        if (check.found.isEmpty()) {
            // With numbers that are no numbers the rest would only say the same again.
            check.balances();
            check.ends();
            check.states();
            check.passages();
        }
        return List.copyOf(check.found);
    }

    private void numbers() {
        for (CavityState c : result.cavities().values()) {
            String place = "/cavities/" + c.name();
            FluidState s = c.state();
            positive(place, "pressure", s.pressure());
            positive(place, "temperature", s.temperature());
            positive(place, "density", s.density());
            temperature(place, s);
            if (!Double.isFinite(s.enthalpy())) {
                add(place, "finite", s.enthalpy(), Double.NaN, "the enthalpy is no number");
            }
            fractions(place, "streams", c.streamFractions());
            fractions(place, "species", c.moleFractions());
        }
        for (PassageState p : result.passages().values()) {
            if (!Double.isFinite(p.flow().massFlow())) {
                add("/passages/" + p.name(), "finite", p.flow().massFlow(), Double.NaN, "the flow is no number");
            }
            temperature("/passages/" + p.name(), p.fromState());
            temperature("/passages/" + p.name(), p.toState());
        }
    }

    /** A fluid that does not say its range is not asked. */
    private void temperature(String place, FluidState s) {
        double coldest = s.fluid().coldest() * (1 - EDGE);
        double hottest = s.fluid().hottest() * (1 + EDGE);
        if (s.temperature() < coldest) {
            add(place, "temperature", s.temperature(), coldest, "it is colder than its fluid's equations reach");
        } else if (s.temperature() > hottest) {
            add(place, "temperature", s.temperature(), hottest, "it is hotter than its fluid's equations reach");
        }
    }

    private void positive(String place, String quantity, double value) {
        if (!(value > 0) || Double.isInfinite(value)) {
            add(place, "positive " + quantity, value, 0, "the " + quantity + " is not above zero");
        }
    }

    private void fractions(String place, String of, Map<String, Double> fractions) {
        double sum = 0;
        for (double x : fractions.values()) {
            sum += x;
            if (!(x >= -SAME && x <= 1 + SAME)) {
                add(place, "fractions of " + of, x, 1, "a fraction of the " + of + " lies outside 0 to 1");
                return;
            }
        }
        if (!fractions.isEmpty() && !(Math.abs(sum - 1) <= SAME)) {
            add(place, "fractions of " + of, sum, 1, "the fractions of the " + of + " do not add up to 1");
        }
    }

    private void balances() {
        Map<String, Map<String, Double>> left = new LinkedHashMap<>();
        double largest = Descent.NO_FLOW;
        for (PassageState p : result.passages().values()) {
            double sum = 0;
            for (Map.Entry<String, Double> flow : p.streamFlows().entrySet()) {
                sum += flow.getValue();
                left.computeIfAbsent(p.from(), n -> new LinkedHashMap<>())
                        .merge(flow.getKey(), -flow.getValue(), Double::sum);
                left.computeIfAbsent(p.to(), n -> new LinkedHashMap<>())
                        .merge(flow.getKey(), flow.getValue(), Double::sum);
            }
            largest =
                    Math.max(largest, Math.max(Math.abs(sum), Math.abs(p.flow().massFlow())));
        }
        for (PassageState p : result.passages().values()) {
            double sum = p.streamFlows().values().stream()
                    .mapToDouble(Double::doubleValue)
                    .sum();
            double off = Math.abs(sum - p.flow().massFlow()) / largest;
            if (!(off <= CLOSURE)) {
                add("/passages/" + p.name(), "flow", off, CLOSURE, "its streams do not add up to its flow");
            }
        }
        for (CavityState c : result.cavities().values()) {
            if (c.fixed()) {
                continue;
            }
            double worst = left.getOrDefault(c.name(), Map.of()).values().stream()
                    .mapToDouble(v -> Math.abs(v))
                    .max()
                    .orElse(0);
            if (!(worst / largest <= CLOSURE)) {
                add("/cavities/" + c.name(), "balance", worst / largest, CLOSURE, "what flows in does not flow out");
            }
        }
        SolveResult.Convergence c = result.convergence();
        if (!(c.energyClosure() <= CLOSURE)) {
            add("/cavities", "energy", c.energyClosure(), CLOSURE, "the energy balance is not closed");
        }
    }

    /**
     * The end of a passage has the cavity's enthalpy, and its pressure where the fluid does not turn; where it does, the step is that of a core
     * between standing still and turning with the rotor.
     */
    private void ends() {
        for (PassageState p : result.passages().values()) {
            PassageSpec spec = spec(p.name());
            double radius = spec == null ? Double.NaN : spec.radius();
            end(p, p.from(), p.fromState(), radius);
            end(p, p.to(), p.toState(), radius);
        }
    }

    private void end(PassageState p, String cavity, FluidState seen, double radius) {
        String place = "/passages/" + p.name();
        CavityState c = result.cavities().get(cavity);
        Cavity stated = model.cavity(cavity);
        if (c == null || stated == null) {
            add(place, "ends", Double.NaN, Double.NaN, "it leads to a cavity that has no state");
            return;
        }
        FluidState own = c.state();
        double scale = Math.max(Math.abs(own.enthalpy()), own.pressure() / own.density());
        double off = Math.abs(seen.enthalpy() - own.enthalpy()) / scale;
        double turn = model.rotor().speed();
        double squares = (radius * radius - stated.radius() * stated.radius()) * turn * turn / 2;
        if (Double.isNaN(squares) || squares == 0) {
            off = Math.max(off, Math.abs(seen.pressure() - own.pressure()) / own.pressure());
        } else {
            try {
                double step = own.fluid()
                                .atPressureEntropy(seen.pressure(), own.entropy(), own)
                                .enthalpy()
                        - own.enthalpy();
                double share = step / squares; // swirl ratio squared
                double blur = SAME * scale / Math.abs(squares);
                if (!(share >= -blur - SAME && share <= 1 + blur + SAME)) {
                    add(
                            place,
                            "vortex",
                            share,
                            1,
                            "the pressure step to its radius at " + cavity + " is more than the rotor could make");
                }
            } catch (PropertyException e) {
                // No state on that isentrope (it leaves the fluid's range): then the step cannot be looked at, the rest
                // still is.
                off = Math.max(off, 0);
            }
        }
        if (!(off <= SAME)) {
            add(place, "ends", off, SAME, "what it sees at " + cavity + " is not what that cavity has");
        }
    }

    private PassageSpec spec(String name) {
        for (PassageSpec spec : model.passages()) {
            if (spec.name().equals(name)) {
                return spec;
            }
        }
        return null;
    }

    private void states() {
        for (CavityState c : result.cavities().values()) {
            FluidState s = c.state();
            if (s.phase() == Phase.TWO_PHASE) {
                if (!(s.quality() >= -SAME && s.quality() <= 1 + SAME)) {
                    add("/cavities/" + c.name(), "quality", s.quality(), 1, "the vapour's share lies outside 0 to 1");
                }
                continue;
            }
            FluidState again;
            try {
                again = s.fluid().atPressureTemperature(s.pressure(), s.temperature());
            } catch (PropertyException e) {
                // The state stands at an end of the fluid's range; that has its own notices.
                continue;
            }
            if (again.phase() == Phase.TWO_PHASE) {
                continue;
            }
            double density = Math.abs(again.density() - s.density()) / s.density();
            double enthalpy = Math.abs(again.enthalpy() - s.enthalpy()) / (s.cp() * s.temperature());
            // Near a critical point density says little at given pressure and temperature; there the enthalpy's scale,
            // cp, grows too.
            double stiffness = Math.max(1, s.pressure() / (s.density() * s.soundSpeed() * s.soundSpeed()));
            double off = Math.max(density / stiffness, enthalpy);
            if (!(off <= 100 * SAME)) {
                add(
                        "/cavities/" + c.name(),
                        "state",
                        off,
                        100 * SAME,
                        "density or enthalpy are not those of its pressure and temperature");
            }
        }
    }

    private void passages() {
        double largest = Descent.NO_FLOW;
        for (PassageState p : result.passages().values()) {
            largest = Math.max(largest, Math.abs(p.flow().massFlow()));
        }
        for (PassageState p : result.passages().values()) {
            double flow = p.flow().massFlow();
            CavityState up = result.cavities().get(p.upstream());
            double diffused = 0;
            for (Map.Entry<String, Double> e : p.streamFlows().entrySet()) {
                diffused += Math.abs(e.getValue() - flow * up.streamFractions().getOrDefault(e.getKey(), 0.0));
            }
            if (Math.abs(flow) <= CLOSURE * largest + 2 * diffused) {
                continue;
            }
            boolean forward = flow >= 0;
            FluidState in = forward ? p.fromState() : p.toState();
            FluidState out = forward ? p.toState() : p.fromState();
            String place = "/passages/" + p.name();
            DrivingHead drive = drive(p);
            double along = drive.along(forward);
            if (!(along >= -SAME * in.pressure())) {
                add(place, "uphill", along, 0, "it flows against the pressures, the rotor's head and gravity together");
            } else {
                double fastest = FASTEST * Math.sqrt(2 * Math.max(along, SAME * in.pressure()) / in.density());
                double velocity = Math.abs(p.flow().gapVelocity());
                if (velocity > fastest && !drive.more()) {
                    add(place, "too fast", velocity, fastest, "what drives it cannot make it that fast");
                }
            }
            if (!(p.flow().throatPressure() <= Math.max(in.pressure(), out.pressure()) * (1 + SAME))
                    && !Double.isNaN(p.flow().throatPressure())) {
                add(
                        place,
                        "throat",
                        p.flow().throatPressure() / in.pressure(),
                        1,
                        "the pressure at its narrowest is above that before it");
            }
            double work = Math.max(0, forward ? drive.work() : -drive.work());
            secondLaw(place, in, out, p.flow().heat() / Math.abs(flow) + work);
        }
    }

    private void secondLaw(String place, FluidState in, FluidState out, double given) {
        try {
            FluidState left = in.fluid().atPressureEnthalpy(out.pressure(), in.enthalpy() + given, in);
            double scale = in.cp() > 0 && Double.isFinite(in.cp())
                    ? in.cp()
                    : 1e-3 * Math.max(1, Math.abs(in.enthalpy()) / in.temperature());
            double made = (left.entropy() - in.entropy()) / scale;
            if (made < -ROUNDING) {
                add(place, "second law", made, 0, "entropy falls along it");
            }
        } catch (PropertyException e) {
            // What would leave it has no state of its own (it would freeze, say); mixed in the cavity it has one, which
            // is judged.
            return;
        }
    }

    private DrivingHead drive(PassageState p) {
        PassageSpec spec = spec(p.name());
        if (spec == null) {
            double x = p.fromState().pressure() - p.toState().pressure();
            return new DrivingHead(x, x, 0, false);
        }
        double gap = p.gap() == null ? spec.number("gap", Double.NaN) : p.gap().mean();
        return DrivingHead.of(spec, gap, model.rotor().speed(), p.fromState(), p.toState());
    }

    private void add(String place, String law, double value, double limit, String words) {
        found.add(new Contradiction(place, law, value, limit, words));
    }
}
