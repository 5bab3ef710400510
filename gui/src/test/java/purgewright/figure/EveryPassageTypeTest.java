package purgewright.figure;

import static org.assertj.core.api.Assertions.assertThat;

import java.awt.Shape;
import java.awt.geom.PathIterator;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.Locale;
import java.util.Map;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import purgewright.gui.guide.Guide;
import purgewright.sealflow.casefile.CaseReference;
import purgewright.sealflow.casefile.CaseSchema;
import purgewright.sealflow.model.PassageSpec;
import purgewright.sealflow.passage.PassageType;
import purgewright.sealflow.passage.PassageTypes;

/** What a type of passage needs beside its own file: an entry in schema and reference, a glyph, a page. */
class EveryPassageTypeTest {
    static Stream<PassageType> types() {
        return PassageTypes.all().stream();
    }

    private static PassageSpec passage(String type) {
        return Fixtures.passage("p", "a", "b", type, 0.03);
    }

    /** Marks of a type's glyph, by kind of mark and outline. */
    private static String glyph(String type, boolean shaft) {
        Figure.Builder b = new Figure.Builder(Theme.LIGHT);
        SealShapes shapes = new SealShapes(b);
        if (shaft) {
            shapes.seal(passage(type), 100, 100, true, 40);
        } else {
            shapes.duct(passage(type), 100, 100, true, 8);
        }
        StringBuilder outline = new StringBuilder();
        for (Figure.Mark mark : b.build(200, 200, "").marks()) {
            if (mark instanceof Figure.Mark.Fill fill) {
                outline.append("fill ").append(outline(fill.shape()));
            } else if (mark instanceof Figure.Mark.Line line) {
                outline.append("line ").append(outline(line.shape()));
            } else if (mark instanceof Figure.Mark.Text text) {
                outline.append("text ").append(text.text());
            }
            outline.append('\n');
        }
        return outline.toString();
    }

    private static String outline(Shape shape) {
        StringBuilder points = new StringBuilder();
        double[] at = new double[6];
        for (PathIterator i = shape.getPathIterator(null); !i.isDone(); i.next()) {
            points.append(i.currentSegment(at)).append(Arrays.toString(at));
        }
        return points.toString();
    }

    @Test
    void everyTypeHasAGlyphOfItsOwn() {
        Map<String, String> glyphs = new LinkedHashMap<>();
        for (PassageType type : PassageTypes.all()) {
            boolean shaft = type.kind() != PassageType.SealKind.DUCT;
            String glyph = glyph(type.key(), shaft);
            // A line is the pipe itself, cut off: the one type that the common glyph means.
            if (!type.key().equals("line")) {
                assertThat(glyph).as(type.key()).isNotEqualTo(glyph("no such type", shaft));
            }
            assertThat(glyphs.put(glyph, type.key()))
                    .as("the same glyph as " + type.key())
                    .isNull();
        }
    }

    @ParameterizedTest
    @MethodSource("types")
    void everyTypeHasAPageThatNamesItAndAFigure(PassageType type) throws IOException {
        assertThat(Guide.lawOf(type.key())).isEqualTo("theory/" + type.page());
        String page = Files.readString(Path.of("..", "docs", "theory", type.page() + ".md"));
        assertThat(page.toLowerCase(Locale.ROOT)).contains(type.key());
        assertThat(page).as("a figure made by the tool").contains("](img/");
    }

    @ParameterizedTest
    @MethodSource("types")
    void everyTypeIsInSchemaAndReferenceAndSaysWhatItIs(PassageType type) {
        assertThat(type.description()).endsWith(".");
        assertThat(CaseSchema.text()).contains("\"" + type.key() + "\"");
        assertThat(CaseReference.markdown()).contains("`" + type.key() + "`");
    }
}
