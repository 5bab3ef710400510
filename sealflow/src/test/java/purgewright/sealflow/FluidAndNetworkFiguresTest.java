package purgewright.sealflow;

import static purgewright.sealflow.passage.SvgChart.grid;
import static purgewright.sealflow.passage.SvgChart.of;

import java.io.IOException;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import purgewright.fluids.Engines;
import purgewright.fluids.FluidState;
import purgewright.fluids.PropertyEngine;
import purgewright.fluids.burnt.Burner;
import purgewright.fluids.burnt.CombustionChecks;
import purgewright.fluids.mixture.Diffusion;
import purgewright.fluids.mixture.MixtureChecks;
import purgewright.fluids.mixture.StreamDefinition;
import purgewright.fluids.mixture.StreamMixer;
import purgewright.fluids.mixture.Streams;
import purgewright.fluids.validation.Check;
import purgewright.fluids.validation.PrintedValue;
import purgewright.sealflow.model.Case;
import purgewright.sealflow.network.CaseSketch;
import purgewright.sealflow.network.ClosedFormPassages;
import purgewright.sealflow.network.NetworkSolver;
import purgewright.sealflow.network.PerfectGases;
import purgewright.sealflow.network.SolveResult.CavityState;
import purgewright.sealflow.network.SolveResult.Converged;
import purgewright.sealflow.network.SolveResult.Convergence;
import purgewright.sealflow.network.SolveResult.Method;
import purgewright.sealflow.network.SolverSettings;
import purgewright.sealflow.passage.FilmLaws;
import purgewright.sealflow.passage.SvgChart;
import purgewright.sealflow.transients.Schedule;
import purgewright.sealflow.transients.TransientResult;
import purgewright.sealflow.transients.TransientSettings;
import purgewright.sealflow.transients.TransientSolver;

/** The figures of the theory pages on properties, mixtures, combustion and the network, drawn from the models themselves. */
class FluidAndNetworkFiguresTest {
    private static final PropertyEngine ENGINE = Engines.embedded();

    /** Every value that a paper prints beside its equation: how far ours is from it, over what is allowed. */
    private static SvgChart printed() {
        Map<String, List<PrintedValue>> groups = new LinkedHashMap<>();
        for (String name : List.of("on the saturation line", "one phase", "transport", "inputs known to differ")) {
            groups.put(name, new ArrayList<>());
        }
        for (PrintedValue value : PrintedValue.all()) {
            boolean transport =
                    value.property().equals("viscosity") || value.property().equals("conductivity");
            boolean differs = value.allowed() > 0.501 * Math.pow(10, -value.decimals());
            groups.get(
                            differs
                                    ? "inputs known to differ"
                                    : !value.state().isEmpty()
                                            ? "on the saturation line"
                                            : transport ? "transport" : "one phase")
                    .add(value);
        }
        SvgChart chart = new SvgChart(
                        "781 printed values: ours less theirs, over what is allowed",
                        "values that the papers print, one after another",
                        0,
                        800,
                        "",
                        -1.5,
                        1.5)
                .line("most that is allowed", new double[] {0, 800}, new double[] {1, 1})
                .line("", new double[] {0, 800}, new double[] {-1, -1});
        int at = 1;
        for (Map.Entry<String, List<PrintedValue>> group : groups.entrySet()) {
            double[] x = new double[group.getValue().size()];
            double[] y = new double[x.length];
            for (int i = 0; i < x.length; i++) {
                PrintedValue value = group.getValue().get(i);
                x[i] = at++;
                y[i] = (value.ours(ENGINE) - value.value()) / value.allowed();
            }
            chart.points(group.getKey() + ": " + x.length, x, y);
        }
        return chart;
    }

    private static double fromId(String id, int word) {
        return Double.parseDouble(id.split(" ", -1)[word]);
    }

    /** Binary diffusion: the model's lines through the handbook's values. */
    private static SvgChart diffusion() {
        double[] x = grid(250, 700, 46);
        SvgChart chart = new SvgChart(
                "Binary diffusion at 101.325 kPa: lines ours, points the CRC Handbook's table",
                "K",
                250,
                750,
                "cm2/s",
                0,
                4);
        for (String[] pair : new String[][] {{"H2", "air"}, {"Ar", "He"}, {"CH4", "He"}, {"CH4", "O2"}, {"Ar", "N2"}}) {
            chart.line(pair[0] + " in " + pair[1], x, of(x, t -> 1e4 * Diffusion.binary(pair[0], pair[1], t, 101325)));
            List<Check> rows = MixtureChecks.all().stream()
                    .filter(c -> c.id().startsWith("DIF-02 " + pair[0] + "-" + pair[1] + " "))
                    .filter(c -> fromId(c.id(), 2) >= 250)
                    .toList();
            chart.points(
                    "",
                    rows.stream().mapToDouble(c -> fromId(c.id(), 2)).toArray(),
                    rows.stream().mapToDouble(c -> 1e4 * c.expected()).toArray());
        }
        return chart;
    }

    private static final Map<String, Map<String, Double>> MIXED = Map.of(
            "air", Map.of("nitrogen", 0.7812, "oxygen", 0.2096, "argon", 0.0092),
            "O2 in He", Map.of("oxygen", 0.3, "helium", 0.7),
            "N2 in He", Map.of("nitrogen", 0.5, "helium", 0.5),
            "N2 in CH4", Map.of("nitrogen", 0.5, "methane", 0.5));

    /** What additive partial pressures do to a density, by other libraries, against the estimate that a caution rests on. */
    private static SvgChart density() {
        SvgChart chart = new SvgChart(
                        "Density of mixtures: what unlike molecules change, estimated and found",
                        "estimate behind the caution, per cent",
                        0,
                        16,
                        "found, per cent",
                        0,
                        8)
                .band(
                        "a third too small to 3 times too large",
                        new double[] {0, 6, 16},
                        new double[] {0, 2, 16 / 3.0},
                        new double[] {0, 8, 8})
                .line("equal", new double[] {0, 8}, new double[] {0, 8})
                .line("a caution right of here", new double[] {2, 2}, new double[] {0, 8});
        for (String mixture : List.of("air", "O2 in He", "N2 in He", "N2 in CH4")) {
            List<Check> rows = MixtureChecks.all().stream()
                    .filter(c -> c.id().startsWith("MIX-") && c.id().contains(mixture + " "))
                    .toList();
            StreamMixer mixer =
                    Streams.mixer(ENGINE, List.of(new StreamDefinition.Mix("mix", MIXED.get(mixture), true)));
            chart.points(
                    mixture,
                    rows.stream()
                            .mapToDouble(c -> 100 * Math.abs(mixer.unlikeError(state(mixer, c))))
                            .toArray(),
                    rows.stream()
                            .mapToDouble(c -> 100 * Math.abs(c.ours().getAsDouble() / c.expected() - 1))
                            .toArray());
        }
        return chart;
    }

    private static FluidState state(StreamMixer mixer, Check check) {
        String[] words = check.id().split(" ", -1);
        int n = words.length;
        double unit = words[n - 3].equals("MPa") ? 1e6 : 1e3;
        return mixer.stream(0)
                .atPressureTemperature(Double.parseDouble(words[n - 4]) * unit, Double.parseDouble(words[n - 2]));
    }

    private static double burnt(String fuel, double ratio, double pressure, double temperature, boolean graphite) {
        return Burner.burn(
                        ENGINE,
                        new StreamDefinition.Burn("gas", fuel, "oxygen", ratio, pressure, temperature, 95, graphite))
                .temperature();
    }

    /** Temperature of a burner of liquids over its mixture ratio, and what another library gives from the same data. */
    private static SvgChart burner() {
        double[] x = grid(0.3, 1.2, 37);
        SvgChart chart = new SvgChart(
                "Fuel-rich burners with oxygen of 95 K: lines ours, points Cantera with CoolProp",
                "oxygen over fuel by mass",
                0.2,
                1.2,
                "K",
                200,
                1400);
        chart.line("liquid hydrogen 25 K, 10 MPa", x, of(x, r -> burnt("hydrogen", r, 10e6, 25, false)));
        points(chart, "HAZ-21 LH2/LOX ", "");
        chart.line("liquid methane 120 K, 6 MPa, gas only", x, of(x, r -> burnt("methane", r, 6e6, 120, false)));
        points(chart, "HAZ-22 LCH4/LOX ", ", gas only");
        chart.line("the same, graphite allowed", x, of(x, r -> burnt("methane", r, 6e6, 120, true)));
        points(chart, "HAZ-22 LCH4/LOX ", ", graphite");
        return chart;
    }

    private static void points(SvgChart chart, String start, String end) {
        List<Check> rows = CombustionChecks.all().stream()
                .filter(c -> c.id().matches(java.util.regex.Pattern.quote(start) + "[0-9.]+"
                                + java.util.regex.Pattern.quote(end))
                        && c.unit().equals("K"))
                .filter(c -> ratio(c, start, end) <= 1.2)
                .toList();
        chart.points(
                "",
                rows.stream().mapToDouble(c -> ratio(c, start, end)).toArray(),
                rows.stream().mapToDouble(Check::expected).toArray());
    }

    private static double ratio(Check check, String start, String end) {
        return Double.parseDouble(
                check.id().substring(start.length(), check.id().length() - end.length()));
    }

    /** Flame temperatures computed by others, against ours. */
    private static SvgChart flames() {
        double[] across = {1800, 3800};
        SvgChart chart = new SvgChart(
                        "Flame temperatures, ours less theirs", "theirs, K", 1800, 3800, "ours less theirs, K", -12, 12)
                .line("allowed of printed ones", across, new double[] {10, 10})
                .line("", across, new double[] {-10, -10})
                .line("allowed of Cantera's", across, new double[] {5, 5})
                .line("", across, new double[] {-5, -5});
        Map<String, String> sources = new LinkedHashMap<>();
        sources.put("HAZ-16", "Cantera 3.2.0, air and oxygen");
        sources.put("HAZ-17", "Marzouk 2023 (transcription)");
        sources.put("HAZ-18", "Turns, table B.1 (from memory)");
        sources.forEach((id, source) -> {
            List<Check> rows = CombustionChecks.all().stream()
                    .filter(c -> c.id().startsWith(id) && c.unit().equals("K"))
                    .toList();
            chart.points(
                    source,
                    rows.stream().mapToDouble(Check::expected).toArray(),
                    rows.stream()
                            .mapToDouble(c -> c.ours().getAsDouble() - c.expected())
                            .toArray());
        });
        return chart;
    }

    /** One vessel of helium at 300 K and a pressure, kept at that temperature by its walls, leaking through two laminar rings. */
    private static SvgChart lossOfPurge() {
        double r = 2077.26;
        double k = FilmLaws.annulusGas(0.050, 25e-6, 0.006, 1.99e-5, r * 300, 1, 0, 0)
                + FilmLaws.annulusGas(0.050, 35e-6, 0.006, 1.99e-5, r * 300, 1, 0, 0);
        double vent = 0.1e6;
        double scale = 20e-6 / (r * 300 * k * vent);
        Case model = new CaseSketch()
                .stream("helium", "helium")
                        .vessel("barrier", 20e-6, 1e6, 300)
                        .fixed("vent", "helium", vent, 300)
                        .passage("rings", "barrier", "vent", "square law", "K", k)
                        .make();
        TransientResult result = new TransientSolver(
                        new NetworkSolver(
                                new PerfectGases(), SolverSettings.DEFAULT, ClosedFormPassages::find, (s, w) -> null),
                        TransientSettings.DEFAULT)
                .run(Schedule.constant(model), start(model, 0.4e6), 0.1, List.of());
        double[] exact = grid(0, 100, 51);
        double[] ours = grid(0, 100, 21);
        double start = 0.5 * Math.log((0.4e6 + vent) / (0.4e6 - vent));
        return new SvgChart(
                        "Purge lost: 20 cm3 of helium, two laminar rings to 0.1 MPa",
                        "ms after the loss",
                        0,
                        100,
                        "MPa",
                        0,
                        0.4)
                .line(
                        "pa coth(arcoth(p0/pa) + t R T K pa/V)",
                        exact,
                        of(exact, t -> vent / Math.tanh(start + t * 1e-3 / scale) / 1e6))
                .points(
                        "network over time (tolerance 1e-3)",
                        ours,
                        of(ours, t -> result.pressure("barrier", t * 1e-3) / 1e6));
    }

    private static Converged start(Case model, double pressure) {
        StreamMixer mixer = new PerfectGases().mixer(model.streams());
        double[] y = {1};
        CavityState state = new CavityState(
                "barrier",
                false,
                mixer.mix(y).atPressureTemperature(pressure, 300),
                Map.of(mixer.name(0), 1.0),
                mixer.speciesMassFractions(y),
                mixer.speciesMoleFractions(y),
                0,
                0);
        return new Converged(
                new Convergence(Method.NONE, 0, Double.NaN, Double.NaN, Double.NaN, List.of()),
                Map.of("barrier", state),
                Map.of(),
                List.of());
    }

    /** A steady barrier between two rings, fed with a stated flow, over that flow. */
    private static SvgChart barrier() {
        double r = 2077.26 * 300;
        double one = FilmLaws.annulusGas(0.050, 25e-6, 0.006, 1.99e-5, r, 1, 0, 0);
        double other = FilmLaws.annulusGas(0.050, 35e-6, 0.006, 1.99e-5, r, 1, 0, 0);
        double[] exact = grid(0.2, 4, 39);
        double[] ours = grid(0.2, 4, 20);
        return new SvgChart(
                        "Barrier between two laminar rings to 0.12 and 0.15 MPa, helium 300 K",
                        "purge fed, g/s",
                        0,
                        4,
                        "MPa",
                        0,
                        1)
                .line(
                        "p2 = (m + Ka pa2 + Kb pb2)/(Ka + Kb)",
                        exact,
                        of(
                                exact,
                                m -> Math.sqrt((m * 1e-3 + one * 0.12e6 * 0.12e6 + other * 0.15e6 * 0.15e6)
                                                / (one + other))
                                        / 1e6))
                .points("network", ours, of(ours, m -> steady(m * 1e-3, one, other) / 1e6));
    }

    private static double steady(double flow, double one, double other) {
        Case model = new CaseSketch()
                .stream("helium", "helium")
                        .fixed("feed", "helium", 2e6, 300)
                        .vessel("barrier", 20e-6, 0, 300)
                        .fixed("left", "helium", 0.12e6, 300)
                        .fixed("right", "helium", 0.15e6, 300)
                        .passage("metering", "feed", "barrier", "fixed flow", "flow", flow)
                        .passage("ring A", "barrier", "left", "square law", "K", one)
                        .passage("ring B", "barrier", "right", "square law", "K", other)
                        .make();
        Converged solved = (Converged)
                new NetworkSolver(new PerfectGases(), SolverSettings.DEFAULT, ClosedFormPassages::find, (s, w) -> null)
                        .solve(model, null);
        return solved.cavities().get("barrier").state().pressure();
    }

    @Test
    void theFiguresAreWhatTheModelsGive() throws IOException {
        Map<String, SvgChart> figures = new LinkedHashMap<>();
        figures.put("properties-printed", printed());
        figures.put("mixtures-diffusion", diffusion());
        figures.put("mixtures-density", density());
        figures.put("combustion-burner", burner());
        figures.put("combustion-flames", flames());
        figures.put("network-barrier", barrier());
        figures.put("network-loss-of-purge", lossOfPurge());
        SvgChart.hold(figures);
    }
}
