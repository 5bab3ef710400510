package purgewright.figure;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
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
    }
}
