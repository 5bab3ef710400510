package purgewright.figure;

import java.awt.Font;
import java.awt.geom.Line2D;
import java.awt.geom.Rectangle2D;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;

/**
 * Quantiles over a histogram: a dashed line and a label each, in rows above the bars. Quantiles that read the same share one line
 * and label; a line starts at its own label, so that no other label lies on it where all labels fit on one side of their lines.
 */
final class QuantileMarks {
    private static final double ROW = 14;
    private static final double ASIDE = 5;

    /**
     * One line.
     *
     * @param share in words, of all quantiles at this place
     * @param value in words
     * @param at place on the lower axis, shown units
     */
    private record Mark(String share, String value, double at) {}

    private final String pattern;
    private final Font font = Lettering.font(Font.PLAIN, 10.5);
    private final List<Mark> marks = new ArrayList<>();

    /** @param pattern key of the label's text, which takes share and value */
    QuantileMarks(String pattern) {
        this.pattern = pattern;
    }

    /** Adds a quantile; one that reads the same as another joins it. */
    void add(String share, String value, double at) {
        for (int i = 0; i < marks.size(); i++) {
            Mark other = marks.get(i);
            if (other.value().equals(value)) {
                marks.set(i, new Mark(other.share() + ", " + share, value, other.at()));
                return;
            }
        }
        marks.add(new Mark(share, value, at));
    }

    /** An axis for bars up to a greatest value that leaves the rows of labels free, as far as half of the height goes. */
    Plot.Axis above(double greatest, double height, String title) {
        double rows = Math.min(height / 2, marks.size() * ROW + 8);
        return new Plot.Axis(0, Math.max(greatest, 1) * height / (height - rows), false, title);
    }

    void draw(Figure.Builder b, Plot plot) {
        Rectangle2D box = plot.box();
        List<Mark> sorted = marks.stream()
                .sorted(Comparator.comparingDouble(m -> plot.x(m.at())))
                .toList();
        boolean right =
                sorted.stream().allMatch(m -> plot.clampX(plot.x(m.at())) + 2 * ASIDE + width(m) <= box.getMaxX());
        for (int i = 0; i < sorted.size(); i++) {
            Mark mark = sorted.get(i);
            double w = width(mark);
            double x = plot.clampX(plot.x(mark.at()));
            // To the right the leftmost stands highest, to the left the rightmost.
            double row = box.getMinY() + 3 + ROW * (right ? i : sorted.size() - 1 - i);
            b.dashed(new Line2D.Double(x, row, x, box.getMaxY()), b.theme().focus(), 1.4, 5f, 3f);
            double start = right ? x + ASIDE : x - ASIDE - w;
            if (start < box.getMinX() + 2) {
                start = Math.max(box.getMinX() + 2, Math.min(x + ASIDE, box.getMaxX() - 2 - w));
            }
            b.fill(
                    new Rectangle2D.Double(start - 2, row, w + 4, ROW - 1),
                    b.theme().panel());
            b.text("quantile", text(mark), start, row + 10.5, font, b.theme().ink());
        }
    }

    private String text(Mark mark) {
        return FigureText.of(pattern, mark.share(), mark.value());
    }

    private double width(Mark mark) {
        return Lettering.width(font, text(mark));
    }
}
