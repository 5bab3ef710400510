package purgewright.hazard;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import purgewright.fluids.Fluid;
import purgewright.fluids.FluidState;
import purgewright.fluids.Phase;
import purgewright.fluids.PropertyEngine;
import purgewright.fluids.PropertyException;
import purgewright.fluids.PureFluid;
import purgewright.fluids.mixture.StreamDefinition;
import purgewright.fluids.mixture.StreamMixer;
import purgewright.sealflow.model.Case;
import purgewright.sealflow.model.Cavity;
import purgewright.sealflow.model.PassageSpec;
import purgewright.sealflow.model.Role;
import purgewright.sealflow.model.Rotor;
import purgewright.sealflow.network.SolveResult.CavityState;
import purgewright.sealflow.network.SolveResult.Converged;
import purgewright.sealflow.network.SolveResult.Convergence;
import purgewright.sealflow.network.SolveResult.Method;
import purgewright.sealflow.network.SolveResult.PassageState;
import purgewright.sealflow.passage.PassageFlow;
import purgewright.sealflow.passage.PassageType.SealKind;

/** A spaced pump with a helium barrier, with answers written by hand: perfect gases, no solver. */
public final class Fakes {
    private Fakes() {}

    private static final Map<String, Double> MOLAR = Map.of(
            "oxygen",
            0.032,
            "methane",
            0.01604,
            "helium",
            0.0040026,
            "nitrogen",
            0.028013,
            "argon",
            0.039948,
            "hydrogen",
            0.002016);

    /** Ideal gas of fixed composition. */
    public record Gas(String name, Map<String, Double> moleFractions) implements Fluid {
        @Override
        public double molarMass() {
            return moleFractions.entrySet().stream()
                    .mapToDouble(e -> e.getValue() * MOLAR.get(e.getKey()))
                    .sum();
        }

        @Override
        public FluidState atPressureTemperature(double p, double t) {
            double r = 8.314462618 / molarMass();
            // Cold oxygen stands for a liquid, so that no gas rule looks at it.
            boolean liquid = t < 120 && moleFractions.getOrDefault("oxygen", 0.0) > 0.5;
            return new FluidState(
                    this,
                    p,
                    t,
                    p / r / t,
                    3.5 * r * t,
                    0,
                    3.5 * r,
                    2.5 * r,
                    Math.sqrt(1.4 * r * t),
                    liquid ? 0 : 1,
                    liquid ? Phase.LIQUID : Phase.GAS,
                    false);
        }

        @Override
        public FluidState atPressureEnthalpy(double p, double h) {
            return atPressureTemperature(p, h / 3.5 * molarMass() / 8.314462618);
        }

        @Override
        public FluidState atPressureEntropy(double p, double s) {
            throw new PropertyException(PropertyException.Key.NO_MODEL, Map.of("fluid", name));
        }

        @Override
        public double viscosity(FluidState state) {
            return 2e-5;
        }

        @Override
        public double conductivity(FluidState state) {
            return 0.1;
        }

        @Override
        public double idealGasHeatCapacityRatio(double temperature) {
            return 1.4;
        }

        @Override
        public double criticalDensity() {
            return 400;
        }
    }

    /** Streams are named after their fluid. */
    public static final class Engine implements PropertyEngine {
        @Override
        public String name() {
            return "fake";
        }

        @Override
        public List<String> fluidNames() {
            return List.copyOf(MOLAR.keySet());
        }

        @Override
        public PureFluid pure(String name) {
            throw new PropertyException(PropertyException.Key.UNKNOWN_FLUID, Map.of("name", name, "suggestion", ""));
        }

        @Override
        public StreamMixer mixer(List<StreamDefinition> streams) {
            return new Mixer(streams);
        }
    }

    private record Mixer(List<StreamDefinition> streams) implements StreamMixer {
        @Override
        public int size() {
            return streams.size();
        }

        @Override
        public String name(int stream) {
            return streams.get(stream).name();
        }

        @Override
        public Fluid stream(int stream) {
            return new Gas(name(stream), composition(streams.get(stream)));
        }

        @Override
        public double burnerTemperature(int stream) {
            return Double.NaN;
        }

        @Override
        public Fluid mix(double[] massFractions) {
            Map<String, Double> by = new LinkedHashMap<>();
            for (int i = 0; i < massFractions.length; i++) {
                by.put(name(i), massFractions[i]);
            }
            return new Gas("mix", moles(streams, by));
        }

        @Override
        public Map<String, Double> speciesMassFractions(double[] massFractions) {
            return Map.of();
        }

        @Override
        public Map<String, Double> speciesMoleFractions(double[] massFractions) {
            return mix(massFractions).moleFractions();
        }

        @Override
        public double molarMass(int stream) {
            return stream(stream).molarMass();
        }

        @Override
        public double molarDiffusivity(int stream, double[] massFractions, double temperature) {
            return 1e-4;
        }

        @Override
        public PhaseSplit split(FluidState state) {
            return new PhaseSplit(state.fluid().moleFractions(), Map.of(), Map.of());
        }
    }

    static Map<String, Double> composition(StreamDefinition s) {
        if (s instanceof StreamDefinition.Single single) {
            return Map.of(single.fluid(), 1.0);
        }
        if (s instanceof StreamDefinition.Mix mix) {
            return mix.fractions();
        }
        return ((StreamDefinition.Measured) s).moleFractions();
    }

    static Map<String, Double> moles(List<StreamDefinition> streams, Map<String, Double> massFractions) {
        Map<String, Double> out = new LinkedHashMap<>();
        double sum = 0;
        for (StreamDefinition s : streams) {
            Gas gas = new Gas(s.name(), composition(s));
            double n = massFractions.getOrDefault(s.name(), 0.0) / gas.molarMass();
            for (Map.Entry<String, Double> e : gas.moleFractions().entrySet()) {
                out.merge(e.getKey(), n * e.getValue(), Double::sum);
            }
            sum += n;
        }
        double total = sum;
        out.replaceAll((k, v) -> v / total);
        return out;
    }

    public static Cavity fixed(String name, Role role, String stream, double p, double t) {
        return new Cavity(name, role, stream, p, t, Double.NaN, Double.NaN, Double.NaN, null, null, Double.NaN);
    }

    public static Cavity free(String name, Role role) {
        return fixed(name, role, null, Double.NaN, Double.NaN);
    }

    public static PassageSpec passage(String name, String from, String to, String type) {
        return new PassageSpec(
                name,
                from,
                to,
                type,
                1,
                0.025,
                type.equals("orifice") || type.equals("line") ? Double.NaN : 50e-6,
                Double.NaN,
                Double.NaN,
                1,
                Double.NaN,
                false,
                Map.of());
    }

    /** The case of the design's example, simplified: LOX | oxygen drain | barrier | hot drain | fuel gas. */
    public static Case pump() {
        return new Case(
                Map.of(),
                new Case.Surroundings(101325, 288),
                Rotor.STILL,
                List.of(
                        new StreamDefinition.Single("feed oxygen", "oxygen"),
                        new StreamDefinition.Single("drive gas", "methane"),
                        new StreamDefinition.Single("barrier gas", "helium"),
                        new StreamDefinition.Mix(Case.AIR, Map.of("nitrogen", 0.79, "oxygen", 0.21), true)),
                List.of(
                        fixed("pump", Role.OXIDIZER, "feed oxygen", 2.6e6, 97),
                        free("oxygen drain", Role.DRAIN),
                        free("barrier", Role.BARRIER),
                        free("hot drain", Role.DRAIN),
                        fixed("turbine", Role.HOT_GAS, "drive gas", 1.9e6, 960),
                        fixed("bottle", Role.SUPPLY, "barrier gas", 3.5e6, 288),
                        free("inlet", Role.SUPPLY),
                        fixed("oxygen vent", Role.VENT, Case.AIR, 101325, 288),
                        fixed("fuel vent", Role.VENT, Case.AIR, 101325, 288)),
                List.of(
                        passage("oxygen seal", "pump", "oxygen drain", "labyrinth"),
                        passage("ring A", "barrier", "oxygen drain", "floating ring"),
                        passage("ring B", "barrier", "hot drain", "floating ring"),
                        passage("hot seal", "turbine", "hot drain", "labyrinth"),
                        passage("valve", "bottle", "inlet", "orifice"),
                        passage("metering", "inlet", "barrier", "orifice"),
                        passage("oxygen line", "oxygen drain", "oxygen vent", "line"),
                        passage("fuel line", "hot drain", "fuel vent", "line")),
                List.of(),
                Map.of(),
                Map.of());
    }

    /** A mutable answer. */
    public static final class Answer {
        private final Case model;
        private final Map<String, Double> pressure = new LinkedHashMap<>();
        private final Map<String, Double> temperature = new LinkedHashMap<>();
        private final Map<String, Map<String, Double>> fractions = new LinkedHashMap<>();
        private final Map<String, Double> flow = new LinkedHashMap<>();
        private final Map<String, Double> velocity = new LinkedHashMap<>();

        public Answer(Case model) {
            this.model = model;
        }

        public Answer cavity(String name, double p, double t, Map<String, Double> massFractions) {
            pressure.put(name, p);
            temperature.put(name, t);
            fractions.put(name, massFractions);
            return this;
        }

        public Answer flow(String passage, double kgPerSecond) {
            flow.put(passage, kgPerSecond);
            return this;
        }

        public Answer velocity(String passage, double metresPerSecond) {
            velocity.put(passage, metresPerSecond);
            return this;
        }

        public Converged solved() {
            Map<String, CavityState> cavities = new LinkedHashMap<>();
            for (Cavity c : model.cavities()) {
                Map<String, Double> y = c.fixed() ? Map.of(c.stream(), 1.0) : fractions.get(c.name());
                Gas gas = new Gas(c.name(), moles(model.streams(), y));
                FluidState state = gas.atPressureTemperature(
                        pressure.getOrDefault(c.name(), c.pressure()),
                        temperature.getOrDefault(c.name(), c.temperature()));
                cavities.put(
                        c.name(), new CavityState(c.name(), c.fixed(), state, y, Map.of(), gas.moleFractions(), 0, 0));
            }
            Map<String, PassageState> passages = new LinkedHashMap<>();
            for (PassageSpec p : model.passages()) {
                double m = flow.getOrDefault(p.name(), 0.0);
                String up = m >= 0 ? p.from() : p.to();
                Map<String, Double> streams = new LinkedHashMap<>();
                cavities.get(up).streamFractions().forEach((k, y) -> streams.put(k, m * y));
                SealKind kind =
                        switch (p.type()) {
                            case "floating ring", "face" -> SealKind.CLOSE;
                            case "labyrinth", "rim" -> SealKind.OPEN;
                            default -> SealKind.DUCT;
                        };
                passages.put(
                        p.name(),
                        new PassageState(
                                p.name(),
                                p.from(),
                                p.to(),
                                kind,
                                new PassageFlow(
                                        m,
                                        false,
                                        velocity.getOrDefault(p.name(), 50 * Math.signum(m)),
                                        0,
                                        0,
                                        0,
                                        new double[0],
                                        List.of()),
                                cavities.get(p.from()).state(),
                                cavities.get(p.to()).state(),
                                null,
                                100,
                                up,
                                streams));
            }
            return new Converged(
                    new Convergence(Method.NEWTON, 5, 1e-12, 1e-12, 1e-12, List.of()),
                    cavities,
                    passages,
                    new ArrayList<>());
        }
    }

    /** The pump's barrier at work. */
    public static Answer atWork(Case model) {
        Map<String, Double> helium = Map.of("barrier gas", 1.0);
        return new Answer(model)
                .cavity("oxygen drain", 0.33e6, 94, Map.of("feed oxygen", 0.35 / 0.353, "barrier gas", 0.003 / 0.353))
                .cavity("barrier", 1.7e6, 288, helium)
                .cavity("hot drain", 0.2e6, 700, Map.of("drive gas", 0.84, "barrier gas", 0.16))
                .cavity("inlet", 3.4e6, 288, helium)
                .flow("oxygen seal", 0.35)
                .flow("ring A", 0.003)
                .flow("ring B", 0.004)
                .flow("hot seal", 0.021)
                .flow("valve", 0.007)
                .flow("metering", 0.007)
                .flow("oxygen line", 0.353)
                .flow("fuel line", 0.025);
    }
}
