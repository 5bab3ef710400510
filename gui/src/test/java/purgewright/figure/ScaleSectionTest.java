package purgewright.figure;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.awt.geom.Rectangle2D;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import purgewright.sealflow.model.Case;

class ScaleSectionTest {
    static Stream<Case> cases() {
        return Stream.of(Fixtures.spaced(), Fixtures.shared());
    }

    private static Figure figure(Case model, double scale) {
        return BarrierSection.toScale(Picture.of(model, Fixtures.solved(model, scale), Fixtures.findings(model)));
    }

    @ParameterizedTest
    @MethodSource("cases")
    void noTwoLabelsOverlapAndNoneLeavesThePage(Case model) throws IOException {
        Figure figure = figure(model, 1);
        Path folder = Files.createDirectories(Path.of("target", "figures"));
        try (var out = Files.newOutputStream(folder.resolve(model.about().get("title") + "-scale.png"))) {
            FigureExport.png(figure, 1, out);
        }
        assertThat(BarrierSectionTest.overlaps(figure)).isEmpty();
        assertThat(figure.labels())
                .allMatch(l -> new Rectangle2D.Double(0, 0, figure.width(), figure.height()).contains(l.box()));
    }

    @ParameterizedTest
    @MethodSource("cases")
    void everyPlaceOnTheShaftCanBeChosen(Case model) {
        List<String> schematic =
                BarrierSection.draw(Picture.of(model, Fixtures.solved(model, 1), List.of())).regions().stream()
                        .map(Figure.Region::pointer)
                        .toList();
        assertThat(figure(model, 1).regions()).isNotEmpty().allMatch(r -> schematic.contains(r.pointer()));
    }

    @ParameterizedTest
    @MethodSource("cases")
    void otherPressuresMoveNothing(Case model) {
        List<Rectangle2D> before = boxes(figure(model, 1));
        assertThat(boxes(figure(model, 1.3))).isEqualTo(before);
    }

    private static List<Rectangle2D> boxes(Figure figure) {
        return figure.regions().stream().map(r -> r.shape().getBounds2D()).toList();
    }

    @Test
    void scalesComeFromACoarseSeries() {
        assertThat(ScaleSection.below(5.9)).isCloseTo(5, within(1e-12));
        assertThat(ScaleSection.below(6.3)).isCloseTo(6.3, within(1e-12));
        assertThat(ScaleSection.below(0.0137)).isCloseTo(0.0125, within(1e-12));
    }
}
