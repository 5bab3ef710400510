package purgewright.figure;

import static org.assertj.core.api.Assertions.assertThat;

import java.awt.geom.Rectangle2D;
import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.stream.Stream;
import javax.xml.parsers.DocumentBuilderFactory;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import purgewright.sealflow.model.Case;
import purgewright.sealflow.model.Role;

class BarrierSectionTest {
    static Stream<Case> cases() {
        return Stream.of(Fixtures.spaced(), Fixtures.shared());
    }

    private static Figure figure(Case model, double scale, Theme theme) {
        return BarrierSection.draw(Picture.of(model, Fixtures.solved(model, scale), Fixtures.findings(model))
                .in(theme));
    }

    /** Pairs of labels whose boxes meet; what every drawing must keep empty. */
    static List<String> overlaps(Figure figure) {
        List<Figure.Label> labels = figure.labels();
        return Stream.iterate(0, i -> i + 1)
                .limit(labels.size())
                .flatMap(i -> labels.subList(i + 1, labels.size()).stream()
                        .filter(other -> shrunk(labels.get(i).box()).intersects(shrunk(other.box())))
                        .map(other -> labels.get(i).text() + " | " + other.text()))
                .toList();
    }

    private static Rectangle2D shrunk(Rectangle2D r) {
        return new Rectangle2D.Double(r.getX() + 0.5, r.getY() + 0.5, r.getWidth() - 1, r.getHeight() - 1);
    }

    @ParameterizedTest
    @MethodSource("cases")
    void noTwoLabelsOverlapAndNoneLeavesThePage(Case model) throws IOException {
        for (Readout readout : Readout.values()) {
            Figure figure = BarrierSection.draw(Picture.of(model, Fixtures.solved(model, 1), Fixtures.findings(model))
                    .in(readout));
            Path folder = Files.createDirectories(Path.of("target", "figures"));
            try (var out = Files.newOutputStream(folder.resolve(model.about().get("title") + readout + ".png"))) {
                FigureExport.png(figure, 1, out);
            }
            assertThat(overlaps(figure)).isEmpty();
            assertThat(figure.labels())
                    .allMatch(l -> new Rectangle2D.Double(0, 0, figure.width(), figure.height()).contains(l.box()));
        }
    }

    @ParameterizedTest
    @MethodSource("cases")
    void everyCavityAndPassageCanBePointedAt(Case model) {
        Figure figure = figure(model, 1, Theme.LIGHT);
        List<String> pointers =
                figure.regions().stream().map(Figure.Region::pointer).toList();
        model.cavities().forEach(c -> assertThat(pointers).contains("/cavities/" + c.name()));
        model.passages().forEach(p -> assertThat(pointers).contains("/passages/" + p.name()));
    }

    @ParameterizedTest
    @MethodSource("cases")
    void nothingJumpsWhenNumbersChange(Case model) {
        Figure before = figure(model, 1, Theme.LIGHT);
        Figure after = figure(model, 1.37, Theme.LIGHT);
        assertThat(after.width()).isEqualTo(before.width());
        assertThat(after.height()).isEqualTo(before.height());
        assertThat(after.regions().stream()
                        .filter(r -> r.pointer().startsWith("/"))
                        .filter(r -> r.shape().getBounds2D().getHeight() > 0)
                        .map(r -> r.shape().getBounds2D())
                        .toList())
                .isEqualTo(before.regions().stream()
                        .filter(r -> r.shape().getBounds2D().getHeight() > 0)
                        .map(r -> r.shape().getBounds2D())
                        .toList());
    }

    @Test
    void svgIsWellFormedAndKeepsTextAsText() throws Exception {
        ByteArrayOutputStream out = new ByteArrayOutputStream();
        FigureExport.svg(figure(Fixtures.spaced(), 1, Theme.LIGHT), out);
        DocumentBuilderFactory factory = DocumentBuilderFactory.newInstance();
        factory.setFeature("http://apache.org/xml/features/nonvalidating/load-external-dtd", false);
        var document = factory.newDocumentBuilder().parse(new ByteArrayInputStream(out.toByteArray()));
        assertThat(document.getDocumentElement().getTagName()).isEqualTo("svg");
        assertThat(document.getDocumentElement().getTextContent()).contains("ring A", "barrier");
    }

    @Test
    void chambersStandInTheOrderFromThePumpedToTheHotEnd() {
        SectionLayout layout = new SectionLayout(Fixtures.spaced(), 0, 0);
        assertThat(layout.lanes).hasSize(1);
        assertThat(layout.lanes.get(0).all())
                .containsExactly("impeller back face", "oxygen drain", "barrier", "hot drain", "disc cavity");
    }

    @Test
    void aSharedRotorHasItsRimAboveItsHub() {
        SectionLayout layout = new SectionLayout(Fixtures.shared(), 0, 0);
        assertThat(layout.disc).isTrue();
        assertThat(layout.lanes.get(0).inner).containsExactly("rim pumped drain", "rim barrier", "rim hot drain");
        assertThat(layout.lanes.get(1).inner).containsExactly("hub pumped drain", "hub barrier", "hub hot drain");
        assertThat(layout.lanes.get(1).up).isFalse();
    }

    @Test
    void threeHundredChambersAreDrawnInTimeAndWithoutOverlaps() {
        List<purgewright.sealflow.model.Cavity> cavities = new java.util.ArrayList<>();
        List<purgewright.sealflow.model.PassageSpec> passages = new java.util.ArrayList<>();
        for (int i = 0; i < 300; i++) {
            boolean end = i == 0 || i == 299;
            cavities.add(Fixtures.cavity(
                    "chamber " + i,
                    i == 0 ? Role.OXIDIZER : i == 299 ? Role.HOT_GAS : Role.DRAIN,
                    end ? i == 0 ? "feed oxygen" : "drive gas" : null,
                    end ? 2e6 : Double.NaN));
            if (i > 0) {
                passages.add(Fixtures.passage(
                        "seal " + i, "chamber " + (i - 1), "chamber " + i, "labyrinth", 0.03, "teeth", 8.0));
            }
        }
        Case model = Fixtures.of("long", cavities, passages);
        var solved = Fixtures.solved(model, 1);
        long start = System.nanoTime();
        Figure figure = BarrierSection.draw(Picture.of(model, solved, List.of()));
        double seconds = (System.nanoTime() - start) / 1e9;
        assertThat(overlaps(figure)).isEmpty();
        // Wide of what is aimed at, so that a busy machine does not fail it; the layout was once quadratic in paths.
        assertThat(seconds).isLessThan(10);
    }
}
