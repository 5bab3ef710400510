package purgewright.gui.glyph;

import java.awt.Shape;
import java.awt.geom.PathIterator;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import javafx.scene.layout.Pane;
import javafx.scene.shape.ClosePath;
import javafx.scene.shape.CubicCurveTo;
import javafx.scene.shape.LineTo;
import javafx.scene.shape.MoveTo;
import javafx.scene.shape.Path;
import javafx.scene.shape.PathElement;
import javafx.scene.shape.QuadCurveTo;
import javafx.scene.transform.Scale;
import purgewright.figure.VerdictMark;
import purgewright.hazard.finding.Verdict;

/** Shapes of the drawings as nodes. */
public final class Shapes {
    private static final double LARGE = 15;

    private Shapes() {}

    /** Elements of a shape, scaled and moved. */
    public static List<PathElement> elements(Shape shape, double scale, double dx, double dy) {
        List<PathElement> elements = new ArrayList<>();
        double[] c = new double[6];
        for (PathIterator it = shape.getPathIterator(null); !it.isDone(); it.next()) {
            int kind = it.currentSegment(c);
            switch (kind) {
                case PathIterator.SEG_MOVETO -> elements.add(new MoveTo(c[0] * scale + dx, c[1] * scale + dy));
                case PathIterator.SEG_LINETO -> elements.add(new LineTo(c[0] * scale + dx, c[1] * scale + dy));
                case PathIterator.SEG_QUADTO ->
                    elements.add(new QuadCurveTo(
                            c[0] * scale + dx, c[1] * scale + dy, c[2] * scale + dx, c[3] * scale + dy));
                case PathIterator.SEG_CUBICTO ->
                    elements.add(new CubicCurveTo(
                            c[0] * scale + dx,
                            c[1] * scale + dy,
                            c[2] * scale + dx,
                            c[3] * scale + dy,
                            c[4] * scale + dx,
                            c[5] * scale + dy));
                default -> elements.add(new ClosePath());
            }
        }
        return elements;
    }

    /** A verdict's mark of a size; styled {@code verdict-mark} and, for instance, {@code falls-short}. */
    public static Pane mark(Verdict verdict, double size) {
        Path outline = new Path(elements(VerdictMark.outline(verdict), size, 0, 0));
        outline.getStyleClass().add("mark-line");
        Path solid = new Path(elements(VerdictMark.solid(verdict), size, 0, 0));
        solid.getStyleClass().add("mark-solid");
        // Its size comes from the style sheet, where it is told in letters: a mark grows with the text beside it.
        Pane pane = new Pane(solid, outline) {
            @Override
            protected void layoutChildren() {
                double now = getWidth() / size;
                for (Path path : List.of(solid, outline)) {
                    path.getTransforms().setAll(new Scale(now, now));
                }
            }
        };
        pane.setMinSize(size, size);
        pane.setPrefSize(size, size);
        pane.setMaxSize(size, size);
        pane.getStyleClass().add(size > LARGE ? "large" : "small");
        pane.getStyleClass().addAll("verdict-mark", styleClass(verdict));
        pane.setAccessibleText(verdict.word());
        return pane;
    }

    /** Style class of a verdict. */
    public static String styleClass(Verdict verdict) {
        return verdict.name().toLowerCase(Locale.ROOT).replace('_', '-');
    }
}
