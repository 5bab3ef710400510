package purgewright.figure;

import static org.assertj.core.api.Assertions.assertThat;

import java.awt.Color;
import java.awt.Font;
import java.awt.geom.Area;
import java.awt.geom.Ellipse2D;
import java.awt.geom.Path2D;
import java.awt.geom.Rectangle2D;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import org.apache.commons.math3.special.Erf;
import org.junit.jupiter.api.Test;
import purgewright.fluids.Engines;
import purgewright.gui.edit.StarterCases;
import purgewright.hazard.finding.Finding;
import purgewright.hazard.flammability.Flammability;
import purgewright.hazard.flammability.LimitTable;
import purgewright.hazard.flammability.LimitTable.Quantity;
import purgewright.hazard.flammability.Species;
import purgewright.hazard.flammability.Ternary;
import purgewright.hazard.service.CaseService;
import purgewright.hazard.service.CheckResult;
import purgewright.hazard.service.CheckSettings;
import purgewright.hazard.service.Progress;
import purgewright.hazard.service.SizeSettings;
import purgewright.hazard.sizing.SizeResult;
import purgewright.hazard.studies.Batch;
import purgewright.hazard.studies.Distribution;
import purgewright.hazard.studies.Intervals;
import purgewright.hazard.studies.SpreadResult.RareFailure;
import purgewright.hazard.studies.SpreadSettings.Interval;
import purgewright.hazard.studies.SpreadSettings.Sampling;
import purgewright.hazard.studies.SubsetSimulation;
import purgewright.hazard.studies.UnitCube;

/**
 * The figures of the theory pages on barriers, flammability, sizing and spread, drawn from the models by the tool's own plot.
 * {@code -Dpurgewright.regenerate=true} writes them; otherwise they must be what the models give.
 */
class TheoryFiguresTest {
    private static final String SUPPLY = "/cavities/bottle line/pressure";

    /** A plot with a title above and a key to the right. */
    private static final class Sheet {
        private static final double WIDTH = 720;
        private static final double HEIGHT = 330;
        private static final double KEY = 470;

        private final Theme theme = Theme.LIGHT;
        private final Figure.Builder b = new Figure.Builder(theme);
        private final Font small = Lettering.font(Font.PLAIN, 10.5);
        private final Plot plot;
        private final String title;
        private double row = 52;

        Sheet(String title, Plot.Axis across, Plot.Axis up) {
            this.title = title;
            b.fill(new Rectangle2D.Double(0, 0, WIDTH, HEIGHT), theme.paper());
            b.text("title", title, 12, 20, Lettering.font(Font.BOLD, 12), theme.ink());
            plot = new Plot(b, new Rectangle2D.Double(64, 52, 380, 230), across, up);
            plot.frame(true);
        }

        private void words(String name) {
            b.text("key", name, KEY + 32, row + 4, small, theme.ink());
            row += 17;
        }

        Sheet line(String name, Color color, double[] x, double[] y, float... dash) {
            plot.curve(x, y, color, 1.6, dash);
            if (!name.isEmpty()) {
                Path2D sample = new Path2D.Double();
                sample.moveTo(KEY, row);
                sample.lineTo(KEY + 24, row);
                if (dash.length == 0) {
                    b.line(sample, color, 1.6);
                } else {
                    b.dashed(sample, color, 1.6, dash);
                }
                words(name);
            }
            return this;
        }

        private void mark(double x, double y, Color color, boolean full, double size) {
            Ellipse2D dot = new Ellipse2D.Double(x - size, y - size, 2 * size, 2 * size);
            b.fill(dot, full ? color : theme.paper());
            b.line(dot, color, 1.4);
        }

        Sheet points(String name, Color color, boolean full, double size, List<double[]> places) {
            for (double[] p : places) {
                if (plot.box().contains(plot.x(p[0]), plot.y(p[1]))) {
                    mark(plot.x(p[0]), plot.y(p[1]), color, full, size);
                }
            }
            mark(KEY + 12, row, color, full, size);
            words(name);
            return this;
        }

        /** A straight line from one place to another, as far as it lies in the plot; without a key where it does not. */
        Sheet straight(String name, Color color, double[] from, double[] to, float... dash) {
            List<double[]> inside = new ArrayList<>();
            for (int i = 0; i <= 1000; i++) {
                double x = from[0] + (to[0] - from[0]) * i / 1000;
                double y = from[1] + (to[1] - from[1]) * i / 1000;
                if (plot.box().contains(plot.x(x), plot.y(y))) {
                    inside.add(new double[] {x, y});
                }
            }
            if (inside.isEmpty()) {
                return this;
            }
            double[] a = inside.get(0);
            double[] z = inside.get(inside.size() - 1);
            return line(name, color, new double[] {a[0], z[0]}, new double[] {a[1], z[1]}, dash);
        }

        /** An area, as far as it lies in the plot. */
        Sheet area(Path2D path) {
            Area area = new Area(path);
            area.intersect(new Area(plot.box()));
            b.fill(area, Theme.blend(theme.panel(), theme.bad(), 0.18));
            b.line(area, theme.bad(), 1.2);
            return this;
        }

        Figure done() {
            plot.outline();
            return b.build(WIDTH, HEIGHT, title);
        }
    }

    /** Methane, oxygen and nitrogen: the region that the triangle shows, and every published row behind it, within some oxygen. */
    private static Figure methane(double[] oxygens, double[] fuels) {
        Sheet sheet = new Sheet(
                "Methane, oxygen and nitrogen, 25 °C, 1 atm: region of the triangle and published limits",
                new Plot.Axis(oxygens[0], oxygens[1], false, "oxygen, mole %"),
                new Plot.Axis(fuels[0], fuels[1], false, "methane, mole %"));
        Path2D path = new Path2D.Double();
        for (Ternary.Corner c : Ternary.region(Map.of("methane", 1.0))) {
            double x = sheet.plot.x(100 * c.oxygen());
            double y = sheet.plot.y(100 * c.fuel());
            if (path.getCurrentPoint() == null) {
                path.moveTo(x, y);
            } else {
                path.lineTo(x, y);
            }
        }
        path.closePath();
        sheet.area(path);
        double air = 100 * Flammability.OXYGEN_IN_AIR;
        double demand = Species.find("methane").oxygenDemand();
        Color ink = sheet.theme.ink();
        sheet.straight("mixtures with air", ink, new double[] {0, 100}, new double[] {air, 0}, 6f, 4f);
        sheet.straight("mixtures with oxygen", ink, new double[] {0, 100}, new double[] {100, 0});
        sheet.straight(
                "stoichiometric", sheet.theme.quiet(), new double[] {0, 0}, new double[] {100, 100 / demand}, 2f, 4f);
        Map<String, List<double[]>> groups = new LinkedHashMap<>();
        for (Quantity q : List.of(
                Quantity.LFL_AIR,
                Quantity.UFL_AIR,
                Quantity.LFL_OXYGEN,
                Quantity.UFL_OXYGEN,
                Quantity.LOC_NITROGEN_VESSEL,
                Quantity.LOC_NITROGEN_TUBE)) {
            for (LimitTable.Row row : LimitTable.rows("methane", q)) {
                double v = row.value();
                boolean least = q == Quantity.LOC_NITROGEN_VESSEL || q == Quantity.LOC_NITROGEN_TUBE;
                double oxygen =
                        least ? v : q == Quantity.LFL_AIR || q == Quantity.UFL_AIR ? air / 100 * (100 - v) : 100 - v;
                double fuel = least ? v / Species.find("methane").oxygenDemand() : v;
                groups.computeIfAbsent(source(row.source()), k -> new ArrayList<>())
                        .add(new double[] {oxygen, fuel});
            }
        }
        List<Color> colors = List.of(
                new Color(0x0072B2),
                new Color(0xD55E00),
                new Color(0x009E73),
                new Color(0xCC79A7),
                new Color(0x7A5C00));
        int i = 0;
        for (Map.Entry<String, List<double[]>> g : groups.entrySet()) {
            sheet.points(
                    g.getKey(),
                    colors.get(i % colors.size()),
                    i >= colors.size(),
                    i >= colors.size() ? 2.4 : 3.2 + 0.7 * i,
                    g.getValue());
            i++;
        }
        return sheet.done();
    }

    private static String source(String full) {
        for (String known : List.of(
                "IEC 60079-20-1:2010",
                "NFPA 497 (2008)",
                "Zabetakis, Bureau of Mines Bulletin 627",
                "Coward and Jones, Bulletin 503",
                "ASTM E2079-19",
                "NFPA 69, table C.1(a)")) {
            String first = known.split("[ ,]", 2)[0];
            if (full.contains(known) || full.contains(first + " and Jones")) {
                return known;
            }
            if (known.startsWith("Zabetakis") && full.contains("Zabetakis")) {
                return known;
            }
        }
        return full.split("[,(]", 2)[0];
    }

    private record Point(double pressure, double purge, double count, double ringA, double ringB, boolean met) {}

    /** The spaced pump at set pressures of its supply. */
    private static List<Point> supplies(CaseService service, double from, double to, int number) throws IOException {
        List<Point> out = new ArrayList<>();
        for (int i = 0; i < number; i++) {
            double p = from + (to - from) * i / (number - 1);
            CheckResult r = service.check(
                    StarterCases.open("minimal").with(SUPPLY, String.format(Locale.ROOT, "%.6f MPa", p)),
                    CheckSettings.DEFAULT,
                    Progress.NONE);
            out.add(new Point(
                    p,
                    1e3 * r.purge().flow(),
                    find(r, "barriers", "").value(),
                    100 * find(r, "barrier-pressure", "ring A").margin(),
                    100 * find(r, "barrier-pressure", "ring B").margin(),
                    r.findings().stream().allMatch(f -> f.margin() >= 0 || Double.isNaN(f.margin()))));
        }
        return out;
    }

    private static Finding find(CheckResult result, String key, String place) {
        return result.findings().stream()
                .filter(f -> f.id().startsWith(key + ":") && f.where().endsWith(place))
                .findFirst()
                .orElseThrow(() -> new IllegalStateException(key + " " + place + " in "
                        + result.findings().stream().map(Finding::id).toList()));
    }

    /** The count of barriers drops where the first ring of the barrier misses its criterion. */
    private static Figure barriers(List<Point> points) {
        double[] x = points.stream().mapToDouble(Point::pressure).toArray();
        Sheet sheet = new Sheet(
                "Spaced pump (minimal.json): when the barrier counts",
                new Plot.Axis(0.25, 0.85, false, "set pressure of the supply, MPa"),
                new Plot.Axis(-60, 100, false, "margin to the pressure criterion, %"));
        Color ink = sheet.theme.ink();
        sheet.line("criterion just met", sheet.theme.quiet(), new double[] {0.25, 0.85}, new double[] {0, 0}, 3f, 3f);
        sheet.line(
                "ring A, to the oxygen drain",
                new Color(0x0072B2),
                x,
                points.stream().mapToDouble(Point::ringA).toArray());
        sheet.line(
                "ring B, to the hot drain",
                new Color(0xD55E00),
                x,
                points.stream().mapToDouble(Point::ringB).toArray(),
                8f,
                4f);
        for (int count = 0; count <= 1; count++) {
            int n = count;
            sheet.points(
                    n == 0 ? "no barrier on the weakest path" : "one barrier counts",
                    ink,
                    n == 1,
                    3.4,
                    points.stream()
                            .filter(p -> p.count() == n)
                            .map(p -> new double[] {p.pressure(), Math.min(p.ringA(), p.ringB())})
                            .toList());
        }
        return sheet.done();
    }

    /** A dense grid over the one free value, and the answer that the search gives. */
    private static Figure sizing(List<Point> points, SizeResult answer) {
        double[] x = points.stream().mapToDouble(Point::pressure).toArray();
        Sheet sheet = new Sheet(
                "Spaced pump (minimal.json), as stated: purge over set pressure",
                new Plot.Axis(0.25, 0.85, false, "set pressure of the supply, MPa"),
                new Plot.Axis(0, 1.8, false, "purge, g/s"));
        Color ink = sheet.theme.ink();
        sheet.line(
                "purge flow",
                sheet.theme.quiet(),
                x,
                points.stream().mapToDouble(Point::purge).toArray());
        sheet.points("grid: some criterion is lost", ink, false, 3.2, places(points, false));
        sheet.points("grid: every criterion is met", ink, true, 3.2, places(points, true));
        sheet.points("size", new Color(0xD55E00), false, 6, List.of(new double[] {
            answer.design().get(0).value() / 1e6, 1e3 * answer.value()
        }));
        return sheet.done();
    }

    private static List<double[]> places(List<Point> points, boolean met) {
        return points.stream()
                .filter(p -> p.met() == met)
                .map(p -> new double[] {p.pressure(), p.purge()})
                .toList();
    }

    /** A probability by three ways to draw the samples, against its closed form. */
    private static Figure sampling() {
        Sheet sheet = new Sheet(
                "P(x1 + x2 + x3 < -1.5 √3), x normal: estimate less exact, over exact (Φ(-1.5) = 0.0668)",
                new Plot.Axis(50, 100_000, true, "samples"),
                new Plot.Axis(-1, 1, false, "relative error"));
        double exact = tail(1.5);
        int[] sizes = {64, 128, 256, 512, 1024, 2048, 4096, 8192, 16384, 32768, 65536};
        double[] n = new double[sizes.length];
        double[] low = new double[sizes.length];
        double[] high = new double[sizes.length];
        for (int i = 0; i < sizes.length; i++) {
            n[i] = sizes[i];
            double[] interval = Intervals.of(Interval.WILSON, sizes[i], Math.round(sizes[i] * exact), 0.95);
            low[i] = interval[0] / exact - 1;
            high[i] = interval[1] / exact - 1;
        }
        sheet.line("closed form", sheet.theme.ink(), new double[] {50, 100_000}, new double[] {0, 0});
        sheet.line("95 % interval (Wilson) around it", sheet.theme.quiet(), n, low, 6f, 3f);
        sheet.line("", sheet.theme.quiet(), n, high, 6f, 3f);
        Map<Sampling, Color> colors = new LinkedHashMap<>();
        colors.put(Sampling.RANDOM, new Color(0xD55E00));
        colors.put(Sampling.LATIN_HYPERCUBE, new Color(0x0072B2));
        colors.put(Sampling.SOBOL, new Color(0x009E73));
        colors.forEach((way, color) -> {
            List<double[]> places = new ArrayList<>();
            for (int size : sizes) {
                UnitCube cube = new UnitCube(way, 1, size, 3);
                int hits = 0;
                for (int i = 0; i < size; i++) {
                    double sum = 0;
                    for (double u : cube.point(i)) {
                        sum += new Distribution.Normal(0, 1).quantile(u);
                    }
                    hits += sum < -1.5 * Math.sqrt(3) ? 1 : 0;
                }
                places.add(new double[] {size, hits / (double) size / exact - 1});
            }
            sheet.points(way.word(), color, way == Sampling.SOBOL, 3.6, places);
        });
        return sheet.done();
    }

    /** Rare failures beyond a plane in ten dimensions. */
    private static Figure rare() {
        Sheet sheet = new Sheet(
                "Failure beyond a plane in ten dimensions, 4000 samples a level",
                new Plot.Axis(2, 6, false, "distance of the plane, standard deviations"),
                new Plot.Axis(1e-10, 0.1, true, "probability"));
        double[] x = new double[41];
        double[] exact = new double[x.length];
        for (int i = 0; i < x.length; i++) {
            x[i] = 2 + 0.1 * i;
            exact[i] = tail(x[i]);
        }
        sheet.line("P = Φ(-β)", sheet.theme.ink(), x, exact);
        List<double[]> found = new ArrayList<>();
        for (double beta = 2.5; beta < 5.9; beta += 0.5) {
            double distance = beta;
            RareFailure r = SubsetSimulation.find(
                    Batch.of(z -> {
                        double sum = 0;
                        for (double v : z) {
                            sum += v;
                        }
                        return new double[] {distance - sum / Math.sqrt(z.length)};
                    }),
                    10,
                    4000,
                    1,
                    0.95);
            found.add(new double[] {beta, r.probability()});
            sheet.plot.curve(new double[] {beta, beta}, new double[] {r.low(), r.high()}, new Color(0xD55E00), 1.4);
        }
        sheet.points("subset simulation, with its 95 % interval", new Color(0xD55E00), false, 3.6, found);
        return sheet.done();
    }

    /** Share of a normal value beyond so many standard deviations. */
    private static double tail(double beta) {
        return 0.5 * Erf.erfc(beta / Math.sqrt(2));
    }

    private static void hold(Map<String, Figure> figures) throws IOException {
        Path folder = Path.of("..", "docs", "theory", "img");
        for (Map.Entry<String, Figure> figure : figures.entrySet()) {
            Path file = folder.resolve(figure.getKey() + ".svg");
            ByteArrayOutputStream out = new ByteArrayOutputStream();
            FigureExport.svg(figure.getValue(), out);
            String svg = out.toString(StandardCharsets.UTF_8).replace("\r\n", "\n");
            if (Boolean.getBoolean("purgewright.regenerate")) {
                Files.writeString(file, svg);
            }
            assertThat(Files.readString(file).replace("\r\n", "\n"))
                    .as(figure.getKey())
                    .isEqualTo(svg);
            assertThat(BarrierSectionTest.overlaps(figure.getValue()))
                    .as(figure.getKey())
                    .isEmpty();
        }
    }

    @Test
    void theFiguresAreWhatTheModelsGive() throws IOException {
        Map<String, Figure> figures = new LinkedHashMap<>();
        figures.put("flammability-methane", methane(new double[] {0, 100}, new double[] {0, 100}));
        figures.put("flammability-methane-air", methane(new double[] {8, 22}, new double[] {2, 20}));
        try (CaseService service = new CaseService(Engines.embedded(), 1)) {
            List<Point> points = supplies(service, 0.25, 0.85, 25);
            figures.put("barriers-count", barriers(points));
            SizeSettings asStated = SizeSettings.DEFAULT
                    .withParameter(SUPPLY, 0.25e6, 0.85e6)
                    .withScenarios(false, false)
                    .withWear(false);
            figures.put(
                    "sizing-grid", sizing(points, service.size(StarterCases.open("minimal"), asStated, Progress.NONE)));
        }
        figures.put("spread-sampling", sampling());
        figures.put("spread-rare", rare());
        hold(figures);
    }
}
