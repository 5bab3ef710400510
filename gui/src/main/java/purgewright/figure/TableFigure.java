package purgewright.figure;

import java.awt.Font;
import java.awt.geom.Rectangle2D;
import java.util.ArrayList;
import java.util.List;
import purgewright.hazard.finding.Verdict;

/** A table as a drawing, so that what a view shows as a table can stand in a document too. */
public final class TableFigure {
    private static final double ROW = 20;
    private static final double WIDEST = 360;

    private TableFigure() {}

    /**
     * A cell.
     *
     * @param text as printed
     * @param mark before it; null for none
     * @param number true for what ends at the right edge
     */
    public record Cell(String text, Verdict mark, boolean number) {
        /** Words. */
        public static Cell of(String text) {
            return new Cell(text, null, false);
        }

        /** A number. */
        public static Cell number(String text) {
            return new Cell(text, null, true);
        }
    }

    /** Draws a table, as wide and as high as it must be. */
    public static Figure draw(String title, List<String> heads, List<List<Cell>> rows, Theme theme) {
        Figure.Builder b = new Figure.Builder(theme);
        Font bold = Lettering.font(Font.BOLD, 11.5);
        Font plain = Lettering.font(Font.PLAIN, 11.5);
        List<Double> widths = new ArrayList<>();
        for (int c = 0; c < heads.size(); c++) {
            double w = Lettering.width(bold, heads.get(c));
            for (List<Cell> row : rows) {
                if (c < row.size()) {
                    Cell cell = row.get(c);
                    w = Math.max(w, Lettering.width(plain, cell.text()) + (cell.mark() == null ? 0 : 16));
                }
            }
            widths.add(Math.min(WIDEST, w) + 20);
        }
        double width = Math.max(
                widths.stream().mapToDouble(Double::doubleValue).sum() + 24, Lettering.width(bold, title) + 40);
        double height = 58 + ROW * rows.size() + 16;
        b.fill(new Rectangle2D.Double(0, 0, width, height), theme.paper());
        b.text("title", title, 12, 22, Lettering.font(Font.BOLD, 13), theme.ink());
        double x = 12;
        for (int c = 0; c < heads.size(); c++) {
            boolean number = !rows.isEmpty()
                    && c < rows.get(0).size()
                    && rows.get(0).get(c).number();
            if (number) {
                b.right("head", heads.get(c), x + widths.get(c) - 14, 48, bold, theme.ink());
            } else {
                b.text("head", heads.get(c), x, 48, bold, theme.ink());
            }
            x += widths.get(c);
        }
        b.segment(12, 54, width - 12, 54, theme.ink(), 1);
        for (int r = 0; r < rows.size(); r++) {
            double base = 54 + ROW * (r + 1) - 5;
            x = 12;
            for (int c = 0; c < rows.get(r).size() && c < heads.size(); c++) {
                Cell cell = rows.get(r).get(c);
                double inner = x;
                String text = fitted(cell.text(), plain, WIDEST);
                if (cell.number()) {
                    double w = Lettering.width(plain, text);
                    inner = x + widths.get(c) - 14 - w;
                    if (cell.mark() != null) {
                        VerdictMark.draw(b, cell.mark(), inner - 16, base - 10, 11);
                    }
                } else if (cell.mark() != null) {
                    VerdictMark.draw(b, cell.mark(), inner, base - 10, 11);
                    inner += 16;
                }
                b.text("cell", text, inner, base, plain, theme.ink());
                x += widths.get(c);
            }
            b.segment(12, base + 5, width - 12, base + 5, theme.rule(), 0.6);
        }
        return b.build(width, height, title);
    }

    private static String fitted(String text, Font font, double most) {
        if (Lettering.width(font, text) <= most) {
            return text;
        }
        int n = text.length();
        while (n > 1 && Lettering.width(font, text.substring(0, n) + "…") > most) {
            n--;
        }
        return text.substring(0, n) + "…";
    }
}
