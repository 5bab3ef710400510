package purgewright.figure;

import static org.assertj.core.api.Assertions.assertThat;

import java.awt.geom.Rectangle2D;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.stream.Stream;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import purgewright.fluids.Engines;
import purgewright.gui.edit.StarterCases;
import purgewright.hazard.service.CaseService;
import purgewright.hazard.service.CheckResult;
import purgewright.hazard.service.CheckSettings;
import purgewright.hazard.service.Progress;
import purgewright.sealflow.network.SolveResult;

/** Every starter case, solved for real, draws without a label over another. */
class SampleFiguresTest {
    private static CaseService service;

    @BeforeAll
    static void start() {
        service = new CaseService(Engines.embedded(), 1);
    }

    static Stream<String> names() {
        return StarterCases.names().stream();
    }

    @ParameterizedTest
    @MethodSource("names")
    void drawsWithoutOverlaps(String name) throws IOException {
        CheckResult result = service.check(StarterCases.open(name), CheckSettings.DEFAULT, Progress.NONE);
        for (CheckResult.PhaseResult phase : result.phases()) {
            assertThat(phase.solve()).isInstanceOf(SolveResult.Converged.class);
            Picture picture = Picture.of(phase.model(), (SolveResult.Converged) phase.solve(), phase.findings());
            for (Picture.Layer layer : Picture.Layer.values()) {
                Figure figure = BarrierSection.draw(picture.showing(layer));
                assertThat(BarrierSectionTest.overlaps(figure))
                        .as("%s, %s", phase.name(), layer)
                        .isEmpty();
            }
            for (Readout readout : Readout.values()) {
                Figure figure = BarrierSection.draw(picture.in(readout));
                Path folder = Files.createDirectories(Path.of("target", "figures"));
                try (var out = Files.newOutputStream(folder.resolve(name + "-" + readout + ".png"))) {
                    FigureExport.png(figure, 1, out);
                }
                assertThat(BarrierSectionTest.overlaps(figure)).isEmpty();
                assertThat(figure.labels())
                        .as("pressure axis in the right half")
                        .matches(all -> figure.width() <= Skyline.TWO_ENDS
                                || all.stream()
                                        .anyMatch(l -> l.owner().equals("skyline axis")
                                                && l.box().getX() > figure.width() / 2));
                assertThat(figure.labels())
                        .allMatch(l -> new Rectangle2D.Double(0, 0, figure.width(), figure.height()).contains(l.box()));
            }
        }
    }
}
