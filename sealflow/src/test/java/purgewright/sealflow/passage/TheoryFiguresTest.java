package purgewright.sealflow.passage;

import static purgewright.sealflow.passage.SvgChart.grid;
import static purgewright.sealflow.passage.SvgChart.of;

import java.io.IOException;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.function.DoubleUnaryOperator;
import org.junit.jupiter.api.Test;
import purgewright.fluids.Engines;
import purgewright.fluids.FluidState;
import purgewright.fluids.validation.Check;
import purgewright.sealflow.gap.RunningGap;
import purgewright.sealflow.model.Rotor;
import purgewright.sealflow.rotating.ForcedVortex;

/**
 * The figures of the theory pages, drawn from the models themselves. {@code -Dpurgewright.regenerate=true} writes them; otherwise they must
 * be what the models give.
 */
class TheoryFiguresTest {
    private static final PerfectGas NITROGEN = new PerfectGas("nitrogen", 296.80, 1.4, 1.78e-5);
    private static final PerfectGas HELIUM = new PerfectGas("helium", 2077.26, 5.0 / 3, 1.99e-5);
    private static final PerfectGas AIR = new PerfectGas("air", 287.05, 1.4, 1.85e-5);

    private static Passage make(
            String type,
            double radius,
            double clearance,
            double speed,
            Conditions.Bound bound,
            Map<String, Object> fields) {
        return PassageTypes.find(type)
                .orElseThrow()
                .build(PassageChecks.spec(type, radius, clearance, fields), new Conditions(speed, Double.NaN, bound));
    }

    private static DoubleUnaryOperator flow(Passage passage, PerfectGas gas, double p0, double unit) {
        return b -> passage.flow(gas.atPressureTemperature(p0, 300), gas.atPressureTemperature(b * p0, 300))
                        .massFlow()
                / unit;
    }

    private static SvgChart labyrinth() {
        Map<String, Object> fields = Map.of("teeth", 6.0, "pitch", 3e-3, "tip", 0.25e-3);
        double[] x = grid(0.02, 0.995, 40);
        double unit = 1e-3;
        SvgChart chart = new SvgChart(
                "Labyrinth, 6 teeth, c/L 0.05, radius 25 mm, nitrogen 1 MPa, 300 K", "p2 / p1", 0, 1, "g/s", 0, 40);
        chart.band(
                x,
                of(x, flow(make("labyrinth", 0.025, 0.15e-3, 0, Conditions.Bound.LOW, fields), NITROGEN, 1e6, unit)),
                of(x, flow(make("labyrinth", 0.025, 0.15e-3, 0, Conditions.Bound.HIGH, fields), NITROGEN, 1e6, unit)));
        Map<String, Map<String, Object>> variants = new LinkedHashMap<>();
        variants.put("tooth by tooth, Neumann", Map.of());
        variants.put("Hodkinson", Map.of("carry-over", "hodkinson"));
        variants.put("Vermes", Map.of("carry-over", "vermes"));
        variants.put("no carry-over (stepped)", Map.of("arrangement", "stepped"));
        variants.put("Martin", Map.of("method", "martin"));
        variants.put("Stodola", Map.of("method", "stodola"));
        variants.put("Egli", Map.of("method", "egli"));
        variants.forEach((name, more) -> {
            Map<String, Object> all = new HashMap<>(fields);
            all.putAll(more);
            chart.line(
                    name,
                    x,
                    of(
                            x,
                            flow(
                                    make("labyrinth", 0.025, 0.15e-3, 0, Conditions.Bound.NOMINAL, all),
                                    NITROGEN,
                                    1e6,
                                    unit)));
        });
        return chart;
    }

    private static SvgChart ring() {
        Map<String, Object> fields = Map.of("length", 6e-3);
        double[] x = grid(0.02, 0.995, 40);
        SvgChart chart = new SvgChart(
                "Floating ring, 25 um, 25 mm radius, 6 mm long, helium 1 MPa, 300 K", "p2 / p1", 0, 1, "g/s", 0, 2);
        chart.band(
                x,
                of(x, flow(make("floating ring", 0.025, 25e-6, 3000, Conditions.Bound.LOW, fields), HELIUM, 1e6, 1e-3)),
                of(
                        x,
                        flow(
                                make("floating ring", 0.025, 25e-6, 3000, Conditions.Bound.HIGH, fields),
                                HELIUM,
                                1e6,
                                1e-3)));
        chart.line(
                "nominal, e = 0.5",
                x,
                of(
                        x,
                        flow(
                                make("floating ring", 0.025, 25e-6, 3000, Conditions.Bound.NOMINAL, fields),
                                HELIUM,
                                1e6,
                                1e-3)));
        chart.line(
                "laminar, isothermal, e = 0.5",
                x,
                of(x, b -> 1e3 * FilmLaws.annulusGas(0.05, 25e-6, 6e-3, 1.99e-5, 2077.26 * 300, 1e6, b * 1e6, 0.5)));
        return chart;
    }

    private static SvgChart measured() {
        List<MeasuredAnnuli.Point> points = MeasuredAnnuli.points();
        double[] theirs = points.stream().mapToDouble(p -> 1e3 * p.measured()).toArray();
        double[] ours = points.stream().mapToDouble(p -> 1e3 * p.ours()).toArray();
        return new SvgChart(
                        "Annulus, water, ours against measured (Kanki, Kawakami 1984)",
                        "measured, L/s",
                        0,
                        12,
                        "ours, L/s",
                        0,
                        12)
                .band(new double[] {0, 12}, new double[] {0, 12 * 0.85}, new double[] {0, 12 * 1.15})
                .line("equal", new double[] {0, 12}, new double[] {0, 12})
                .points("two seals, nothing fitted", theirs, ours);
    }

    private static SvgChart orifice() {
        double[] x = grid(0.02, 0.995, 50);
        SvgChart chart =
                new SvgChart("Sharp hole without a stated coefficient", "p2 / p1", 0, 1, "coefficient", 0.5, 0.9);
        chart.line("air", x, of(x, b -> coefficient(AIR, Conditions.Bound.NOMINAL, b)));
        chart.line("air, high bound", x, of(x, b -> coefficient(AIR, Conditions.Bound.HIGH, b)));
        chart.line("helium", x, of(x, b -> coefficient(HELIUM, Conditions.Bound.NOMINAL, b)));
        chart.points("tests, air (from memory)", new double[] {0.99, 0.02}, new double[] {0.61, 0.839});
        return chart;
    }

    private static double coefficient(PerfectGas gas, Conditions.Bound bound, double b) {
        FluidState up = gas.atPressureTemperature(1e6, 300);
        double ideal = Throttle.flux(up, b * 1e6, Throttle.Flashing.EQUILIBRIUM).flux() * Math.PI / 4 * 1e-6;
        return make("orifice", Double.NaN, Double.NaN, 0, bound, Map.of("diameter", 1e-3))
                        .flow(up, gas.atPressureTemperature(b * 1e6, 300))
                        .massFlow()
                / ideal;
    }

    private static SvgChart flashing() {
        FluidState up = Engines.embedded().pure("nitrogen").atPressureTemperature(3e6, 110);
        double[] x = grid(0.05, 2.95, 60);
        SvgChart chart = new SvgChart(
                "Nozzle, subcooled nitrogen 3 MPa, 110 K (psat 1.47 MPa)",
                "back pressure, MPa",
                0,
                3,
                "t/(m2 s)",
                0,
                64);
        for (Throttle.Flashing way : Throttle.Flashing.values()) {
            chart.line(
                    way.name().toLowerCase(java.util.Locale.ROOT),
                    x,
                    of(x, p -> Throttle.flux(up, p * 1e6, way).flux() / 1e3));
        }
        return chart;
    }

    private static SvgChart face() {
        double[] x = grid(0.5, 12, 47);
        SvgChart chart = new SvgChart(
                "Face 25/30 mm, gas 1.0 MPa outside, 0.1 MPa inside: opening force",
                "gap at the inner edge, um",
                0,
                12,
                "N",
                300,
                900);
        double area = Math.PI * (0.030 * 0.030 - 0.025 * 0.025);
        for (double cone : new double[] {2, 0, -0.4}) {
            chart.line(
                    String.format(java.util.Locale.ROOT, "outer gap %+.1f um", cone),
                    x,
                    of(x, h -> area * (0.1e6 + 0.9e6 * FilmLaws.conedGasQuick(Math.max(0.05, h + cone) / h, 10))));
        }
        double closing =
                Math.PI * (1e6 * (0.03 * 0.03 - 0.0262 * 0.0262) + 0.1e6 * (0.0262 * 0.0262 - 0.025 * 0.025)) + 20;
        chart.line("closing force", new double[] {0.5, 12}, new double[] {closing, closing});
        return chart;
    }

    private static final Map<String, Object> GROOVED = Map.of(
            "inner radius",
            0.04,
            "outer radius",
            0.055,
            "groove radius",
            0.047,
            "balance radius",
            0.042,
            "spring force",
            30.0);

    /** Ratio of pressures at which a parallel gas film turns sonic at its exit, against its length: the one thing published with numbers. */
    private static SvgChart chokes() {
        double[] x = grid(40, 400, 37);
        SvgChart chart = new SvgChart(
                "Parallel gas film, outlet 0.1 MPa, 300 K: pressure ratio at which it chokes",
                "length / gap",
                0,
                400,
                "inlet / outlet pressure",
                0,
                16);
        PerfectGas helium = new PerfectGas("helium", 2077.26, 5.0 / 3, 1.99e-5);
        PerfectGas nitrogen = new PerfectGas("nitrogen", 296.8, 1.4, 17.8e-6);
        for (double gap : new double[] {5e-6, 10e-6, 20e-6}) {
            chart.line(
                    String.format(Locale.ROOT, "nitrogen, %.0f um", gap * 1e6), x, of(x, l -> choke(nitrogen, gap, l)));
        }
        chart.line("helium, 10 um", x, of(x, l -> choke(helium, 10e-6, l)));
        return chart.points("NASA SP-8121: about 4 at 100", new double[] {100}, new double[] {4});
    }

    private static double choke(PerfectGas gas, double gap, double lengths) {
        FrictionSlot film = FrictionSlot.still(gap, lengths * gap, 0.3);
        double low = 1.5;
        double high = 60;
        for (int i = 0; i < 40; i++) {
            double ratio = 0.5 * (low + high);
            FluidState up = gas.atPressureTemperature(ratio * 0.1e6, 300);
            if (film.solve(up, 0.1e6, Throttle.Flashing.EQUILIBRIUM).choked()) {
                high = ratio;
            } else {
                low = ratio;
            }
        }
        return high;
    }

    /** Gap or leak of a grooved face against its speed, at three depths of groove. */
    private static SvgChart grooved(boolean leak) {
        double[] x = grid(300, 3000, 28);
        SvgChart chart = new SvgChart(
                "Hydrodynamic face 40/55 mm, grooves to 47 mm, nitrogen 2 MPa outside, 0.1 MPa inside",
                "speed, rad/s",
                0,
                3000,
                leak ? "g/s" : "gap, um",
                0,
                leak ? 2 : 9);
        for (double depth : new double[] {4, 8, 12}) {
            chart.line(String.format(java.util.Locale.ROOT, "grooves %.0f um deep", depth), x, of(x, speed -> {
                Map<String, Object> fields = new HashMap<>(GROOVED);
                fields.put("groove depth", depth * 1e-6);
                PassageFlow flow = make(
                                "hydrodynamic face", Double.NaN, Double.NaN, speed, Conditions.Bound.NOMINAL, fields)
                        .flow(NITROGEN.atPressureTemperature(2e6, 300), NITROGEN.atPressureTemperature(1e5, 300));
                return leak
                        ? 1e3 * flow.massFlow()
                        : 1e6
                                * flow.notices().stream()
                                        .filter(n -> "stable gap, m"
                                                .equals(n.values().get("constant")))
                                        .mapToDouble(n -> (Double) n.values().get("value"))
                                        .findFirst()
                                        .orElse(Double.NaN);
            }));
        }
        return chart;
    }

    /** Pressure that rotation holds: blades, a smooth disc and a viscoseal. */
    private static SvgChart held() {
        double[] x = grid(0, 4000, 41);
        SvgChart chart = new SvgChart(
                "Held by rotation: water, 30/40 mm; viscoseal of 30 mm, 30 mm long, gap 0.1 mm",
                "speed, rad/s",
                0,
                4000,
                "MPa",
                0,
                6);
        chart.line("bladed, k = 0.9", x, of(x, w -> 1e-6 * 998 * ForcedVortex.enthalpyStep(0.9 * w, 0.03, 0.04)));
        chart.line("smooth, k = 0.5", x, of(x, w -> 1e-6 * 998 * ForcedVortex.enthalpyStep(0.5 * w, 0.03, 0.04)));
        chart.line("viscoseal, laminar", x, of(x, w -> 1e-6 * 6 * 1e-3 * w * 0.03 * 0.03 / (11 * 1e-8)));
        return chart;
    }

    private static SvgChart rim() {
        double[] x = grid(0, 1.2, 49);
        SvgChart chart = new SvgChart(
                "Rim gap: sealing effectiveness (constants from memory)",
                "flow / least flow",
                0,
                1.2,
                "effectiveness",
                0,
                1);
        for (RimSealing.Shape shape : RimSealing.Shape.values()) {
            String name = shape.name().toLowerCase(java.util.Locale.ROOT);
            chart.line(name + ", disc pumping", x, of(x, f -> RimSealing.effectivenessPumping(shape, f)));
            chart.line(name + ", pressure variation", x, of(x, f -> RimSealing.effectivenessExternal(shape, f)));
        }
        List<MeasuredRims.Point> measured = MeasuredRims.points();
        chart.points(
                "measured, Choi et al. 2024 (transcription)",
                measured.stream().mapToDouble(MeasuredRims.Point::flow).toArray(),
                measured.stream().mapToDouble(MeasuredRims.Point::effectiveness).toArray());
        return chart;
    }

    private static SvgChart bounded(
            String title,
            String type,
            double radius,
            Map<String, Object> fields,
            double p0,
            double unit,
            String name,
            double most) {
        double[] x = grid(0.02, 0.995, 40);
        return new SvgChart(title, "p2 / p1", 0, 1, name, 0, most)
                .band(
                        x,
                        of(x, flow(make(type, radius, Double.NaN, 1500, Conditions.Bound.LOW, fields), AIR, p0, unit)),
                        of(x, flow(make(type, radius, Double.NaN, 1500, Conditions.Bound.HIGH, fields), AIR, p0, unit)))
                .line(
                        "nominal",
                        x,
                        of(
                                x,
                                flow(
                                        make(type, radius, Double.NaN, 1500, Conditions.Bound.NOMINAL, fields),
                                        AIR,
                                        p0,
                                        unit)));
    }

    private static SvgChart slinger() {
        double[] x = grid(0, 8, 60);
        SvgChart chart = new SvgChart(
                "Slinger 30/40 mm, gap 0.2 mm, water 0.2 MPa behind",
                "pressure before less behind, MPa",
                0,
                8,
                "kg/s",
                0,
                2);
        for (double speed : new double[] {0, 2000, 3000}) {
            Passage slinger = make(
                    "slinger",
                    Double.NaN,
                    Double.NaN,
                    speed,
                    Conditions.Bound.NOMINAL,
                    Map.of("inner radius", 0.03, "outer radius", 0.04, "gap", 0.2e-3));
            chart.line(String.format(java.util.Locale.ROOT, "%.0f rad/s", speed), x, of(x, dp -> slinger.flow(
                            StiffLiquid.WATER.atPressureTemperature(2e5 + dp * 1e6, 295),
                            StiffLiquid.WATER.atPressureTemperature(2e5, 295))
                    .massFlow()));
        }
        return chart;
    }

    /** The one measured leak of a segmented ring, and what film would give it. */
    private static SvgChart film() {
        double[] x = grid(0.5, 5, 46);
        SvgChart chart = new SvgChart(
                "Segmented ring, bore 66.7 mm, air 0.79 to 0.1 MPa, 300 K: flow against film",
                "film, um",
                0,
                5,
                "mg/s",
                0,
                300);
        for (double dam : new double[] {0.5, 1, 2}) {
            chart.line(
                    String.format(java.util.Locale.ROOT, "dam %.1f mm", dam),
                    x,
                    of(
                            x,
                            h -> 1e6
                                    * make(
                                                    "segmented ring",
                                                    0.03335,
                                                    Double.NaN,
                                                    0,
                                                    Conditions.Bound.NOMINAL,
                                                    Map.of(
                                                            "segments",
                                                            3.0,
                                                            "pad gap",
                                                            h * 1e-6,
                                                            "dam length",
                                                            dam * 1e-3))
                                            .flow(
                                                    AIR.atPressureTemperature(0.7908e6, 300),
                                                    AIR.atPressureTemperature(101325, 300))
                                            .massFlow()));
        }
        chart.line("measured at an unknown film (abstract)", new double[] {0, 5}, new double[] {22.7, 22.7});
        return chart;
    }

    /** A labyrinth's flow over that of a brush in its place. */
    private static SvgChart besides() {
        double[] x = grid(0.3, 0.98, 35);
        SvgChart chart = new SvgChart(
                "Labyrinth (4 teeth, 0.25 mm) over brush (effective 0.05 mm and by its pack), air 0.4 MPa",
                "p2 / p1",
                0.2,
                1,
                "ratio of flows",
                0,
                40);
        DoubleUnaryOperator labyrinth = flow(
                make(
                        "labyrinth",
                        0.05,
                        0.25e-3,
                        1500,
                        Conditions.Bound.NOMINAL,
                        Map.of("teeth", 4.0, "pitch", 4e-3, "tip", 0.3e-3)),
                AIR,
                0.4e6,
                1);
        Map<String, Map<String, Object>> brushes = new LinkedHashMap<>();
        brushes.put("effective clearance 0.05 mm", Map.of("effective clearance", 0.05e-3));
        brushes.put(
                "pack 0.8 mm of 0.07 mm, fence 1 mm",
                Map.of("bristle diameter", 0.07e-3, "pack thickness", 0.8e-3, "fence height", 1e-3));
        brushes.forEach((name, fields) -> {
            DoubleUnaryOperator brush =
                    flow(make("brush", 0.05, Double.NaN, 1500, Conditions.Bound.NOMINAL, fields), AIR, 0.4e6, 1);
            chart.line(name, x, of(x, b -> labyrinth.applyAsDouble(b) / brush.applyAsDouble(b)));
        });
        chart.band(x, of(x, b -> 2), of(x, b -> 4));
        return chart;
    }

    /** Coefficient of a tooth that follows others, at small pressure ratios, and what an abstract tells of tests. */
    private static SvgChart teeth() {
        double[] x = grid(0.005, 0.15, 30);
        SvgChart chart = new SvgChart(
                "Straight labyrinth of two: coefficient of the second tooth", "c / L", 0, 0.16, "Cd mu", 0.5, 1.1);
        chart.band(x, of(x, c -> 0.72), of(x, c -> 0.85));
        double single = Contraction.coefficient(0.01);
        for (CarryOver model : List.of(CarryOver.NEUMANN, CarryOver.HODKINSON, CarryOver.VERMES)) {
            chart.line(
                    model.name().toLowerCase(java.util.Locale.ROOT),
                    x,
                    of(x, c -> single * model.factor(2, c * 3e-3, 3e-3, 0.25e-3)));
        }
        chart.line("no carry-over: the first tooth", x, of(x, c -> single));
        chart.points("tests: second tooth (1975, abstract)", new double[] {0.05}, new double[] {0.78});
        chart.points("tests: single tooth", new double[] {0.05}, new double[] {0.62});
        return chart;
    }

    private static SvgChart valves() {
        double[] x = grid(0, 100, 51);
        SvgChart chart = new SvgChart(
                "Valves of 6 mm bore, nitrogen 300 K at 1 MPa", "pressure difference, kPa", -20, 100, "g/s", -1, 16);
        double[] both = grid(-20, 100, 61);
        chart.line(
                "check valve, 20 kPa, leaking 1 %",
                both,
                of(
                        both,
                        dp -> make(
                                                "check valve",
                                                Double.NaN,
                                                Double.NaN,
                                                0,
                                                Conditions.Bound.NOMINAL,
                                                Map.of(
                                                        "diameter",
                                                        6e-3,
                                                        "cracking pressure",
                                                        20e3,
                                                        "reverse leak",
                                                        0.01))
                                        .flow(
                                                NITROGEN.atPressureTemperature(1e6, 300),
                                                NITROGEN.atPressureTemperature(1e6 - dp * 1e3, 300))
                                        .massFlow()
                                * 1e3));
        chart.line(
                "relief valve, set 50 kPa, full at 1.5 times",
                x,
                of(
                        x,
                        dp -> make(
                                                "relief valve",
                                                Double.NaN,
                                                Double.NaN,
                                                0,
                                                Conditions.Bound.NOMINAL,
                                                Map.of("diameter", 6e-3, "set pressure", 50e3, "overpressure", 0.5))
                                        .flow(
                                                NITROGEN.atPressureTemperature(1e6, 300),
                                                NITROGEN.atPressureTemperature(1e6 - dp * 1e3, 300))
                                        .massFlow()
                                * 1e3));
        return chart;
    }

    private static SvgChart runningClearance() {
        double[] x = grid(0, 4000, 41);
        Rotor.Segment disc = new Rotor.Segment("disc", 0.02, 0.1, 700, 205e9, 0.29, 8190, 13e-6, false);
        SvgChart chart = new SvgChart(
                "Labyrinth on the rim of a bored disc of 100 mm, 0.9 mm cold", "speed, rad/s", 0, 4000, "mm", 0, 1);
        for (double hot : new double[] {293.15, 700}) {
            Rotor.Segment segment = new Rotor.Segment(
                    "disc", disc.boreRadius(), disc.outerRadius(), hot, 205e9, 0.29, 8190, 13e-6, false);
            for (boolean least : new boolean[] {false, true}) {
                chart.line(
                        (least ? "least, " : "mean, ") + (hot < 300 ? "cold" : "disc 700 K, stator cold"),
                        x,
                        of(x, w -> {
                            RunningGap gap = PassageTypes.running(
                                    PassageChecks.spec("labyrinth", 0.1, 0.9e-3, Map.of()),
                                    new Rotor(w, 20e-6, 20e-6, 10e-6, 10e-6, 15e-6, 0, List.of(segment)));
                            return 1e3 * (least ? gap.least() : gap.mean());
                        }));
            }
        }
        chart.line("contact limit", new double[] {0, 4000}, new double[] {0.09, 0.09});
        return chart;
    }

    /** Every validation number that is a ratio of two like quantities: ours over theirs. */
    private static SvgChart validation() {
        Map<String, List<Check>> groups = new LinkedHashMap<>();
        for (Check check : PassageChecks.all()) {
            if (check.kind() == Check.Kind.VALIDATION && check.relative() && check.expected() != 0) {
                groups.computeIfAbsent(check.id().substring(0, 3), key -> new ArrayList<>())
                        .add(check);
            }
        }
        int count = groups.values().stream().mapToInt(List::size).sum();
        SvgChart chart = new SvgChart(
                "Passages: ours over theirs", "checks in the order of validate", 0, count + 1, "", 0.5, 1.5);
        chart.line("equal", new double[] {0, count + 1}, new double[] {1, 1});
        int at = 1;
        for (Map.Entry<String, List<Check>> group : groups.entrySet()) {
            double[] x = new double[group.getValue().size()];
            double[] y = new double[x.length];
            for (int i = 0; i < x.length; i++) {
                Check check = group.getValue().get(i);
                x[i] = at++;
                y[i] = check.ours().getAsDouble() / check.expected();
            }
            chart.points(group.getKey(), x, y);
        }
        return chart;
    }

    @Test
    void theFiguresOfTheTheoryPagesAreWhatTheModelsGive() throws IOException {
        Map<String, SvgChart> figures = new LinkedHashMap<>();
        figures.put("labyrinth", labyrinth());
        figures.put("ring", ring());
        figures.put("annulus-measured", measured());
        figures.put("orifice", orifice());
        figures.put("flashing", flashing());
        figures.put("face", face());
        figures.put("face-choke", chokes());
        figures.put("rim", rim());
        figures.put(
                "segmented-ring",
                bounded(
                        "Segmented ring, radius 33 mm, default film, air 0.79 MPa, 300 K",
                        "segmented ring",
                        0.0333,
                        Map.of("segments", 3.0),
                        0.79e6,
                        1e-6,
                        "mg/s",
                        160));
        figures.put(
                "brush",
                bounded(
                        "Brush by its pack: bristle 0.07 mm, pack 0.8 mm, fence 1 mm, air 0.4 MPa",
                        "brush",
                        0.05,
                        Map.of("bristle diameter", 0.07e-3, "pack thickness", 0.8e-3, "fence height", 1e-3),
                        0.4e6,
                        1e-3,
                        "g/s",
                        30));
        figures.put("slinger", slinger());
        figures.put("slinger-held", held());
        figures.put("hydrodynamic-face", grooved(false));
        figures.put("hydrodynamic-face-leak", grooved(true));
        figures.put("segmented-ring-film", film());
        figures.put("brush-labyrinth", besides());
        figures.put("labyrinth-teeth", teeth());
        figures.put("valves", valves());
        figures.put("running-clearance", runningClearance());
        figures.put("validation", validation());
        SvgChart.hold(figures);
    }
}
