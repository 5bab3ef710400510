package purgewright.figure;

import static org.assertj.core.api.Assertions.assertThat;

import java.awt.Shape;
import java.awt.geom.Line2D;
import java.awt.geom.Rectangle2D;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import purgewright.fluids.Engines;
import purgewright.fluids.PureFluid;
import purgewright.gui.edit.StarterCases;
import purgewright.hazard.service.CaseService;
import purgewright.hazard.service.CheckSettings;
import purgewright.hazard.service.Progress;
import purgewright.sealflow.network.SolveResult;

/** Charts of the minimal case, solved for real. */
class ChartsTest {
    private static SolveResult.Converged solved;

    @BeforeAll
    static void solve() {
        try (CaseService service = new CaseService(Engines.embedded(), 1)) {
            solved = (SolveResult.Converged)
                    service.check(StarterCases.open("minimal"), CheckSettings.DEFAULT, Progress.NONE)
                            .phases()
                            .get(0)
                            .solve();
        }
    }

    private static void keep(Figure figure, String name) throws IOException {
        Path folder = Files.createDirectories(Path.of("target", "figures"));
        try (var out = Files.newOutputStream(folder.resolve(name + ".png"))) {
            FigureExport.png(figure, 1, out);
        }
    }

    @ParameterizedTest
    @CsvSource({"oxygen, false", "helium, false", "methane, false", "oxygen, true", "helium, true"})
    void aFluidChartShowsTheCavitiesThatHoldTheFluid(String fluid, boolean entropy) throws IOException {
        Figure figure = FluidChart.draw(
                Engines.embedded().pure(fluid), fluid, entropy, solved, Readout.SI, Theme.LIGHT, 1000, 420);
        keep(figure, "chart-" + fluid + (entropy ? "-ts" : ""));
        assertThat(BarrierSectionTest.overlaps(figure)).isEmpty();
        if (fluid.equals("oxygen")) {
            assertThat(figure.regions())
                    .anyMatch(r -> r.pointer().equals("/cavities/impeller back face"))
                    .noneMatch(r -> r.pointer().equals("/cavities/barrier"));
        }
        if (fluid.equals("methane")) {
            assertThat(figure.regions()).isEmpty();
        }
    }

    @ParameterizedTest
    @ValueSource(strings = {"oxygen", "helium", "water", "n-dodecane", "parahydrogen", "carbon-dioxide"})
    void aPhaseDiagramIsNamedAlongItsLinesAndNoNameCoversAnother(String fluid) throws IOException {
        PureFluid pure = Engines.embedded().pure(fluid);
        for (PhaseDiagram.Kind kind : PhaseDiagram.Kind.values()) {
            for (Readout readout : Readout.values()) {
                Figure figure =
                        PhaseDiagram.draw(pure, kind, PhaseDiagram.Window.of(pure), readout, Theme.LIGHT, 1000, 720);
                keep(figure, "diagram-" + fluid + "-" + kind + "-" + readout);
                assertThat(BarrierSectionTest.overlaps(figure)).isEmpty();
                assertThat(figure.labels().stream().filter(l -> l.owner().equals("diagram")))
                        .as("lines of %s, %s", fluid, kind)
                        .hasSizeGreaterThan(8)
                        .anyMatch(l -> l.text().startsWith("critical point"));
            }
        }
    }

    @Test
    void theTriangleHasEveryCavityAndTheRegionOfTheFuel() throws IOException {
        Figure figure = TernaryChart.draw(solved, Readout.SI, Theme.LIGHT, 1000, 440);
        keep(figure, "chart-ternary");
        assertThat(BarrierSectionTest.overlaps(figure)).isEmpty();
        assertThat(figure.regions()).hasSize(solved.cavities().size());
        assertThat(figure.labels()).anyMatch(l -> l.text().contains("methane"));
        assertThat(figure.labels())
                .as("the region is that of the whole fuel, hydrogen and all")
                .anyMatch(l -> l.text().contains("hydrogen"));
    }

    @ParameterizedTest
    @CsvSource({"1000, 440", "620, 300", "1400, 800"})
    void namesStandOutsideTheTriangleEachWithALineToItsPoint(double width, double height) throws IOException {
        Figure figure = TernaryChart.draw(solved, Readout.SI, Theme.LIGHT, width, height);
        keep(figure, "chart-ternary-" + (int) width);
        assertThat(BarrierSectionTest.overlaps(figure)).isEmpty();
        Shape triangle = ((Figure.Mark.Fill) figure.marks().get(1)).shape();
        for (String cavity : solved.cavities().keySet()) {
            String pointer = BarrierSection.cavityPointer(cavity);
            Rectangle2D name = figure.labels().stream()
                    .filter(l -> l.owner().equals(pointer))
                    .findFirst()
                    .orElseThrow()
                    .box();
            assertThat(triangle.intersects(name)).as(cavity).isFalse();
            assertThat(new Rectangle2D.Double(0, 0, width, height).contains(name))
                    .as(cavity)
                    .isTrue();
            Rectangle2D point = figure.regions().stream()
                    .filter(r -> r.pointer().equals(pointer))
                    .findFirst()
                    .orElseThrow()
                    .shape()
                    .getBounds2D();
            name.setRect(name.getX() - 6, name.getY() - 2, name.getWidth() + 12, name.getHeight() + 4);
            assertThat(figure.marks())
                    .as("line from %s to its point", cavity)
                    .anyMatch(m -> m instanceof Figure.Mark.Line l
                            && l.shape() instanceof Line2D line
                            && ends(line, name, point));
        }
    }

    private static boolean ends(Line2D line, Rectangle2D name, Rectangle2D point) {
        return (name.contains(line.getP1()) && point.contains(line.getP2()))
                || (name.contains(line.getP2()) && point.contains(line.getP1()));
    }

    @ParameterizedTest
    @ValueSource(strings = {"oxygen", "helium", "water", "parahydrogen"})
    void anIsothermLiesLevelInTheDome(String name) {
        PureFluid fluid = Engines.embedded().pure(name);
        double triple = fluid.tripleTemperature();
        for (double share : new double[] {0.3, 0.6, 0.9}) {
            double t = triple + share * (fluid.criticalTemperature() - triple);
            double boiling = fluid.atTemperatureQuality(t, 0).pressure();
            double liquid = fluid.atTemperatureQuality(t, 0).enthalpy();
            double vapour = fluid.atTemperatureQuality(t, 1).enthalpy();
            List<double[]> line = FluidChart.isotherm(fluid, t, boiling / 3, boiling * 3);
            assertThat(line).anySatisfy(p -> assertThat(p).containsExactly(boiling, liquid));
            assertThat(line).anySatisfy(p -> assertThat(p).containsExactly(boiling, vapour));
            for (int i = 1; i < line.size(); i++) {
                double[] a = line.get(i - 1);
                double[] b = line.get(i);
                assertThat(Math.abs(a[1] - b[1]) > 0.5 * (vapour - liquid) && a[0] != b[0])
                        .as("slope through the dome of %s at %s K", name, t)
                        .isFalse();
            }
        }
    }

    @Test
    void theAxisOfAFluidChartIsInTheUnitsShown() {
        for (boolean entropy : new boolean[] {false, true}) {
            Figure figure = FluidChart.draw(
                    Engines.embedded().pure("oxygen"), "oxygen", entropy, solved, Readout.US, Theme.LIGHT, 1000, 420);
            assertThat(figure.labels()).anyMatch(l -> l.text().contains("Btu/")).noneMatch(l -> l.text()
                    .contains("kJ"));
        }
    }
}
