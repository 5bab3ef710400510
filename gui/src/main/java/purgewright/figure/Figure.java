package purgewright.figure;

import java.awt.BasicStroke;
import java.awt.Color;
import java.awt.Font;
import java.awt.Graphics2D;
import java.awt.RenderingHints;
import java.awt.Shape;
import java.awt.geom.AffineTransform;
import java.awt.geom.Line2D;
import java.awt.geom.Path2D;
import java.awt.geom.Rectangle2D;
import java.util.ArrayList;
import java.util.List;

/**
 * A finished drawing: marks in painting order, the boxes of its labels, and regions that lead back to a place in the case.
 * Immutable; paints on any {@link Graphics2D}.
 *
 * @param width in drawing units (pixels at scale 1)
 * @param height in drawing units
 * @param marks in painting order
 * @param labels boxes of texts that must not overlap
 * @param regions what can be pointed at, later ones on top
 * @param caption one sentence: what the drawing shows
 */
public record Figure(
        double width, double height, List<Mark> marks, List<Label> labels, List<Region> regions, String caption) {

    /** One thing to paint. */
    public sealed interface Mark {
        /** False when the mark surely lies outside. */
        default boolean meets(Rectangle2D view) {
            Rectangle2D box;
            if (this instanceof Fill fill) {
                box = fill.shape().getBounds2D();
            } else if (this instanceof Line line) {
                box = line.shape().getBounds2D();
            } else {
                Text text = (Text) this;
                double size = text.font().getSize2D();
                box = new Rectangle2D.Double(
                        text.x(), text.y() - size, size * text.text().length(), size * 1.4);
            }
            return box.getMaxX() >= view.getMinX() - 4
                    && box.getMinX() <= view.getMaxX() + 4
                    && box.getMaxY() >= view.getMinY() - 4
                    && box.getMinY() <= view.getMaxY() + 4;
        }

        /** A filled area. */
        record Fill(Shape shape, Color color) implements Mark {}

        /** A line; {@code dash} null for a full one. */
        record Line(Shape shape, Color color, double width, float[] dash) implements Mark {}

        /** A text on one baseline. */
        record Text(String text, double x, double y, Font font, Color color) implements Mark {}
    }

    /**
     * @param owner JSON Pointer, or a name of the drawing's own
     * @param text as printed
     * @param box around the text
     */
    public record Label(String owner, String text, Rectangle2D box) {}

    /**
     * @param pointer place in the case
     * @param shape where
     * @param text what a screen reader says, and the tooltip
     */
    public record Region(String pointer, Shape shape, String text) {}

    /** The pointer at a position; null where there is nothing. */
    public Region at(double x, double y) {
        for (int i = regions.size() - 1; i >= 0; i--) {
            if (regions.get(i).shape().contains(x, y)) {
                return regions.get(i);
            }
        }
        return null;
    }

    /** Paints at the device's current transform. */
    public void paint(Graphics2D g) {
        paint(g, null);
    }

    /** Paints what meets a rectangle in drawing units; all of it when that is null. */
    public void paint(Graphics2D g, Rectangle2D view) {
        g.setRenderingHint(RenderingHints.KEY_ANTIALIASING, RenderingHints.VALUE_ANTIALIAS_ON);
        g.setRenderingHint(RenderingHints.KEY_TEXT_ANTIALIASING, RenderingHints.VALUE_TEXT_ANTIALIAS_ON);
        g.setRenderingHint(RenderingHints.KEY_FRACTIONALMETRICS, RenderingHints.VALUE_FRACTIONALMETRICS_ON);
        g.setRenderingHint(RenderingHints.KEY_STROKE_CONTROL, RenderingHints.VALUE_STROKE_PURE);
        for (Mark mark : marks) {
            if (view != null && !mark.meets(view)) {
                continue;
            }
            if (mark instanceof Mark.Fill fill) {
                g.setColor(fill.color());
                g.fill(fill.shape());
            } else if (mark instanceof Mark.Line line) {
                g.setColor(line.color());
                g.setStroke(
                        line.dash() == null
                                ? new BasicStroke(
                                        (float) line.width(), BasicStroke.CAP_BUTT, BasicStroke.JOIN_MITER, 4f)
                                : new BasicStroke(
                                        (float) line.width(),
                                        BasicStroke.CAP_BUTT,
                                        BasicStroke.JOIN_MITER,
                                        4f,
                                        line.dash(),
                                        0f));
                g.draw(line.shape());
            } else if (mark instanceof Mark.Text text) {
                g.setColor(text.color());
                g.setFont(text.font());
                g.drawString(text.text(), (float) text.x(), (float) text.y());
            }
        }
    }

    /** Collects a drawing. */
    public static final class Builder {
        private final List<Mark> marks = new ArrayList<>();
        private final List<Label> labels = new ArrayList<>();
        private final List<Region> regions = new ArrayList<>();
        private final Theme theme;

        /** Starts a drawing in a theme. */
        public Builder(Theme theme) {
            this.theme = theme;
        }

        /** The colours. */
        public Theme theme() {
            return theme;
        }

        /** Fills an area. */
        public Builder fill(Shape shape, Color color) {
            marks.add(new Mark.Fill(shape, color));
            return this;
        }

        /** Strokes a full line. */
        public Builder line(Shape shape, Color color, double width) {
            marks.add(new Mark.Line(shape, color, width, null));
            return this;
        }

        /** Strokes a dashed line. */
        public Builder dashed(Shape shape, Color color, double width, float... dash) {
            marks.add(new Mark.Line(shape, color, width, dash));
            return this;
        }

        /** A straight line. */
        public Builder segment(double x1, double y1, double x2, double y2, Color color, double width) {
            return line(new Line2D.Double(x1, y1, x2, y2), color, width);
        }

        /** Fills an area with a fluid's hatch, without its ground. */
        public Builder hatch(Shape shape, FluidLook look, Color color, double spacing, double width) {
            if (look == FluidLook.OXIDIZER) {
                Path2D dots = Hatch.dots(shape, spacing, width * 1.1);
                return fill(dots, color);
            }
            Path2D lines = Hatch.lines(shape, look, spacing);
            return line(lines, color, width);
        }

        /** A text that stands at a corner and is no label to be kept clear (axis figures do not use this). */
        public Builder text(String owner, String text, double x, double baseline, Font font, Color color) {
            if (!text.isEmpty()) {
                marks.add(new Mark.Text(text, x, baseline, font, color));
                labels.add(new Label(
                        owner,
                        text,
                        new Rectangle2D.Double(
                                x,
                                baseline - Lettering.ascent(font),
                                Lettering.width(font, text),
                                Lettering.ascent(font) + 2)));
            }
            return this;
        }

        /** A text centred on x. */
        public Builder centred(String owner, String text, double x, double baseline, Font font, Color color) {
            return text(owner, text, x - Lettering.width(font, text) / 2, baseline, font, color);
        }

        /** A text that ends at x. */
        public Builder right(String owner, String text, double x, double baseline, Font font, Color color) {
            return text(owner, text, x - Lettering.width(font, text), baseline, font, color);
        }

        /** A region that leads to a place. */
        public Builder region(String pointer, Shape shape, String text) {
            regions.add(new Region(pointer, shape, text));
            return this;
        }

        /** Everything of another drawing, moved. */
        public Builder include(Figure other, double dx, double dy) {
            return include(other, dx, dy, 1);
        }

        /** Everything of another drawing, moved and scaled about its upper left corner. */
        public Builder include(Figure other, double dx, double dy, double scale) {
            AffineTransform move = AffineTransform.getTranslateInstance(dx, dy);
            move.scale(scale, scale);
            for (Mark mark : other.marks()) {
                if (mark instanceof Mark.Fill fill) {
                    marks.add(new Mark.Fill(move.createTransformedShape(fill.shape()), fill.color()));
                } else if (mark instanceof Mark.Line line) {
                    marks.add(new Mark.Line(
                            move.createTransformedShape(line.shape()),
                            line.color(),
                            line.width() * scale,
                            line.dash()));
                } else if (mark instanceof Mark.Text text) {
                    marks.add(new Mark.Text(
                            text.text(),
                            text.x() * scale + dx,
                            text.y() * scale + dy,
                            scale == 1
                                    ? text.font()
                                    : text.font()
                                            .deriveFont((float) (text.font().getSize2D() * scale)),
                            text.color()));
                }
            }
            for (Label label : other.labels()) {
                Rectangle2D b = label.box();
                labels.add(new Label(
                        label.owner(),
                        label.text(),
                        new Rectangle2D.Double(
                                b.getX() * scale + dx,
                                b.getY() * scale + dy,
                                b.getWidth() * scale,
                                b.getHeight() * scale)));
            }
            for (Region region : other.regions()) {
                regions.add(new Region(region.pointer(), move.createTransformedShape(region.shape()), region.text()));
            }
            return this;
        }

        /** The drawing. */
        public Figure build(double width, double height, String caption) {
            return new Figure(width, height, List.copyOf(marks), List.copyOf(labels), List.copyOf(regions), caption);
        }
    }
}
