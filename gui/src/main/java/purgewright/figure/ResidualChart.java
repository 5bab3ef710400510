package purgewright.figure;

import java.awt.Font;
import java.awt.geom.Ellipse2D;
import java.awt.geom.Path2D;
import java.awt.geom.Rectangle2D;
import java.util.List;
import purgewright.hazard.service.FitResult;
import purgewright.hazard.service.FitResult.Point;

/**
 * Residuals of a fit, over the uncertainty of each reading: rings before, dots after, outliers as crosses; a band of two standard
 * uncertainties.
 */
public final class ResidualChart {
    private static final double LEFT = 64;
    private static final double RIGHT = 24;
    private static final double TOP = 58;
    private static final double BOTTOM = 92;
    private static final double HEIGHT = 380;
    /** A residual beyond this is drawn at the edge. */
    private static final double MOST = 12;

    private ResidualChart() {}

    /** @param width in drawing units, at least 480 */
    public static Figure of(FitResult fit, Theme theme, double width) {
        double w = Math.max(480, width);
        Figure.Builder b = new Figure.Builder(theme);
        Font small = Lettering.font(Font.PLAIN, 11);
        Font bold = Lettering.font(Font.BOLD, 11);
        b.fill(new Rectangle2D.Double(0, 0, w, HEIGHT), theme.paper());
        List<Point> points = fit.points();
        double most = 3;
        for (Point p : points) {
            most = Math.max(most, Math.min(MOST, Math.abs(p.residual()) * 1.1));
            most = Math.max(most, Math.min(MOST, Math.abs(before(p)) * 1.1));
        }
        double bottom = HEIGHT - BOTTOM;
        double span = bottom - TOP;
        double zero = TOP + span / 2;
        double unit = span / 2 / most;
        b.fill(
                new Rectangle2D.Double(LEFT, zero - 2 * unit, w - LEFT - RIGHT, 4 * unit),
                Theme.blend(theme.paper(), theme.good(), 0.12));
        b.line(new Rectangle2D.Double(LEFT, TOP, w - LEFT - RIGHT, span), theme.quiet(), 1);
        b.segment(LEFT, zero, w - RIGHT, zero, theme.ink(), 1.2);
        double step = most > 8 ? 4 : most > 4 ? 2 : 1;
        for (double v = -Math.floor(most / step) * step; v <= most; v += step) {
            double y = zero - v * unit;
            b.segment(LEFT - 4, y, LEFT, y, theme.ink(), 1);
            b.right("axis", Readout.number(v, 2).replaceAll("\\.0$", ""), LEFT - 7, y + 4, small, theme.quiet());
        }
        b.text("axis", FigureText.of("residual.axis"), LEFT, TOP - 10, bold, theme.ink());
        b.text("axis", FigureText.of("residual.legend"), LEFT, TOP - 28, small, theme.quiet());
        int n = points.size();
        double pitch = (w - LEFT - RIGHT) / Math.max(1, n);
        double free = -1;
        for (int i = 0; i < n; i++) {
            Point p = points.get(i);
            double x = LEFT + (i + 0.5) * pitch;
            double yb = zero - clamp(before(p), most) * unit;
            double ya = zero - clamp(p.residual(), most) * unit;
            b.segment(x, yb, x, ya, theme.rule(), 1);
            Ellipse2D ring = new Ellipse2D.Double(x - 4, yb - 4, 8, 8);
            b.fill(ring, theme.paper());
            b.line(ring, theme.quiet(), 1.4);
            if (p.outlier()) {
                Path2D cross = new Path2D.Double();
                cross.moveTo(x - 5, ya - 5);
                cross.lineTo(x + 5, ya + 5);
                cross.moveTo(x - 5, ya + 5);
                cross.lineTo(x + 5, ya - 5);
                b.line(cross, theme.bad(), 2);
            } else {
                b.fill(new Ellipse2D.Double(x - 4, ya - 4, 8, 8), theme.ink());
            }
            String text = fit.network() ? p.channel() + ", " + p.row() : Integer.toString(p.line());
            b.region(
                    p.channel(),
                    new Rectangle2D.Double(x - pitch / 2, TOP, pitch, span),
                    text + ": " + Readout.number(p.residual(), 2));
            String shown = Lettering.shorten(small, text, fit.network() ? 130 : 60);
            double half = Lettering.width(small, shown) / 2;
            double at = Math.max(4 + half, Math.min(w - 4 - half, x));
            int row = fit.network() ? i % 4 : 0;
            if (fit.network() || at - half > free + 4) {
                b.centred("axis", shown, at, bottom + 16 + 14 * row, small, theme.quiet());
                free = at + half;
            }
        }
        b.right(
                "axis",
                FigureText.of(fit.network() ? "residual.readings" : "residual.lines"),
                w - RIGHT,
                fit.network() ? HEIGHT - 10 : bottom + 36,
                bold,
                theme.ink());
        return b.build(w, fit.network() ? HEIGHT : bottom + 46, FigureText.of("residual.caption"));
    }

    private static double before(Point p) {
        return (p.measured() - p.before()) / p.sigma();
    }

    private static double clamp(double v, double most) {
        return Math.max(-most, Math.min(most, v));
    }
}
