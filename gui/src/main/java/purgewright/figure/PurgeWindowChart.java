package purgewright.figure;

import java.awt.Font;
import java.awt.geom.Ellipse2D;
import java.awt.geom.Path2D;
import java.awt.geom.Rectangle2D;
import java.util.ArrayList;
import java.util.List;
import purgewright.hazard.sizing.PurgeWindow;

/**
 * The purge window: where on a grid over two numbers of the case every criterion is met, the line on which each criterion is just met,
 * lines of equal purge flow, and the operating point. Between grid points margins are taken as bilinear.
 *
 * @param figure the drawing
 * @param plot the way from a point of the drawing to numbers in shown units
 * @param across scale of the lower axis
 * @param up scale of the left axis
 */
public record PurgeWindowChart(Figure figure, Plot plot, Readout.Scale across, Readout.Scale up) {
    /** Owner of the operating point's region. */
    public static final String OPERATING = "operating point";

    private static final double LEFT = 74;
    private static final double TOP = 58;
    private static final double RIGHT = 26;
    private static final double BOTTOM = 52;

    /**
     * @param map as computed
     * @param titleX what the lower axis is
     * @param unitX its SI unit
     * @param titleY what the left axis is
     * @param unitY its SI unit
     * @param x operating point, SI
     * @param y operating point, SI
     */
    public static PurgeWindowChart draw(
            PurgeWindow map,
            String titleX,
            String unitX,
            String titleY,
            String unitY,
            double x,
            double y,
            Readout readout,
            Theme theme,
            double width,
            double height) {
        Figure.Builder b = new Figure.Builder(theme);
        b.fill(new Rectangle2D.Double(0, 0, width, height), theme.paper());
        Readout.Scale across = readout.scale(unitX, map.xs().get(map.xs().size() - 1));
        Readout.Scale up = readout.scale(unitY, map.ys().get(map.ys().size() - 1));
        Plot plot = new Plot(
                b,
                new Rectangle2D.Double(LEFT, TOP, width - LEFT - RIGHT, height - TOP - BOTTOM),
                new Plot.Axis(
                        across.shown(map.xs().get(0)),
                        across.shown(map.xs().get(map.xs().size() - 1)),
                        false,
                        across.title(titleX)),
                new Plot.Axis(
                        up.shown(map.ys().get(0)),
                        up.shown(map.ys().get(map.ys().size() - 1)),
                        false,
                        up.title(titleY)));
        plot.frame(true);
        Path2D good = new Path2D.Double();
        Path2D unknown = new Path2D.Double();
        for (int j = 0; j + 1 < map.ys().size(); j++) {
            for (int i = 0; i + 1 < map.xs().size(); i++) {
                cell(map, i, j, plot, across, up, good, unknown);
            }
        }
        b.fill(good, Theme.blend(theme.panel(), theme.good(), 0.16));
        b.hatch(good, FluidLook.PURGE, Theme.blend(theme.panel(), theme.good(), 0.6), 9, 0.8);
        b.hatch(unknown, FluidLook.AIR, theme.rule(), 6, 1);
        Font small = Lettering.font(Font.PLAIN, 10.5);
        Tags tags = new Tags(b, small, width, height);
        double px = plot.clampX(plot.x(across.shown(x)));
        double py = plot.clampY(plot.y(up.shown(y)));
        tags.keepFree(new Rectangle2D.Double(px - 14, py - 14, 28, 28));
        tags.keepFree(new Rectangle2D.Double(0, 0, width, TOP - 2));
        flows(map, plot, across, up, b, tags, readout);
        List<String> words = new ArrayList<>();
        List<java.awt.Color> colors = new ArrayList<>();
        for (int k = 0; k < map.criteria().size(); k++) {
            Path2D line = contour(map.margins().get(k), map, 0, plot, across, up);
            if (line.getCurrentPoint() == null) {
                continue;
            }
            float[] dash = Plot.DASHES[words.size() % Plot.DASHES.length];
            if (dash.length == 0) {
                b.line(line, theme.bad(), 2.2);
            } else {
                b.dashed(line, theme.bad(), 2.2, dash);
            }
            words.add(map.criteria().get(k).replace('-', ' '));
            colors.add(theme.bad());
        }
        plot.outline();
        b.text(
                "key",
                words.isEmpty() ? FigureText.of("map.nolines") : FigureText.of("map.lines"),
                12,
                20,
                Lettering.font(Font.BOLD, 11),
                theme.ink());
        Plot.key(
                b,
                12 + Lettering.width(Lettering.font(Font.BOLD, 11), FigureText.of("map.lines")) + 18,
                20,
                words,
                colors,
                width - 10);
        Ellipse2D ring = new Ellipse2D.Double(px - 8, py - 8, 16, 16);
        b.fill(ring, theme.panel());
        b.line(ring, theme.ink(), 2.4);
        b.segment(px - 13, py, px + 13, py, theme.ink(), 1.4);
        b.segment(px, py - 13, px, py + 13, theme.ink(), 1.4);
        b.region(
                OPERATING,
                new Ellipse2D.Double(px - 14, py - 14, 28, 28),
                FigureText.of("map.operating", readout.quantity(x, unitX), readout.quantity(y, unitY)));
        tags.tag(OPERATING, FigureText.of("map.point"), px + 4, py, false);
        return new PurgeWindowChart(
                b.build(width, height, FigureText.of("map.caption", titleX, titleY)), plot, across, up);
    }

    private static double px(PurgeWindow map, double i, Plot plot, Readout.Scale across) {
        int low = (int) Math.min(map.xs().size() - 2, Math.floor(i));
        double v = map.xs().get(low)
                + (i - low) * (map.xs().get(low + 1) - map.xs().get(low));
        return plot.x(across.shown(v));
    }

    private static double py(PurgeWindow map, double j, Plot plot, Readout.Scale up) {
        int low = (int) Math.min(map.ys().size() - 2, Math.floor(j));
        double v = map.ys().get(low)
                + (j - low) * (map.ys().get(low + 1) - map.ys().get(low));
        return plot.y(up.shown(v));
    }

    /** The part of a grid cell in which every criterion is met; the whole cell into {@code unknown} where that is not known. */
    private static void cell(
            PurgeWindow map,
            int i,
            int j,
            Plot plot,
            Readout.Scale across,
            Readout.Scale up,
            Path2D good,
            Path2D unknown) {
        List<double[]> polygon = new ArrayList<>(
                List.of(new double[] {0, 0}, new double[] {1, 0}, new double[] {1, 1}, new double[] {0, 1}));
        int feasible = corners(map, i, j);
        boolean solved = Double.isFinite(
                map.purge()[j][i] + map.purge()[j][i + 1] + map.purge()[j + 1][i] + map.purge()[j + 1][i + 1]);
        boolean cut = false;
        if (feasible < 4 && solved) {
            for (double[][] m : map.margins()) {
                double sum = m[j][i] + m[j][i + 1] + m[j + 1][i] + m[j + 1][i + 1];
                if (!Double.isNaN(sum)) {
                    List<double[]> before = polygon;
                    polygon = clipped(polygon, m[j][i], m[j][i + 1], m[j + 1][i], m[j + 1][i + 1]);
                    cut |= !polygon.equals(before);
                }
            }
        }
        // Every number is met and yet no corner is feasible: something is not established there.
        boolean missing = !solved || (feasible == 0 && !cut);
        Path2D into = missing ? unknown : good;
        for (int k = 0; k < polygon.size(); k++) {
            double x = px(map, i + Math.min(polygon.get(k)[0], 0.999999), plot, across);
            double y = py(map, j + Math.min(polygon.get(k)[1], 0.999999), plot, up);
            if (k == 0) {
                into.moveTo(x, y);
            } else {
                into.lineTo(x, y);
            }
        }
        if (!polygon.isEmpty()) {
            into.closePath();
        }
    }

    private static int corners(PurgeWindow map, int i, int j) {
        int n = 0;
        for (int dj = 0; dj < 2; dj++) {
            for (int di = 0; di < 2; di++) {
                n += map.feasible()[j + dj][i + di] ? 1 : 0;
            }
        }
        return n;
    }

    /** A polygon cut off where a bilinear value is below zero. */
    private static List<double[]> clipped(List<double[]> polygon, double a, double c, double d, double e) {
        List<double[]> out = new ArrayList<>();
        for (int k = 0; k < polygon.size(); k++) {
            double[] p = polygon.get(k);
            double[] q = polygon.get((k + 1) % polygon.size());
            double vp = bilinear(p, a, c, d, e);
            double vq = bilinear(q, a, c, d, e);
            if (vp >= 0) {
                out.add(p);
            }
            if (vp >= 0 != vq >= 0) {
                double t = vp / (vp - vq);
                out.add(new double[] {p[0] + t * (q[0] - p[0]), p[1] + t * (q[1] - p[1])});
            }
        }
        return out;
    }

    private static double bilinear(double[] p, double a, double c, double d, double e) {
        return a * (1 - p[0]) * (1 - p[1]) + c * p[0] * (1 - p[1]) + d * (1 - p[0]) * p[1] + e * p[0] * p[1];
    }

    /** Where a value on the grid crosses a level, cell by cell. */
    private static Path2D contour(
            double[][] values, PurgeWindow map, double level, Plot plot, Readout.Scale across, Readout.Scale up) {
        Path2D path = new Path2D.Double();
        for (int j = 0; j + 1 < map.ys().size(); j++) {
            for (int i = 0; i + 1 < map.xs().size(); i++) {
                double[] v = {
                    values[j][i] - level,
                    values[j][i + 1] - level,
                    values[j + 1][i + 1] - level,
                    values[j + 1][i] - level
                };
                double[][] corner = {{i, j}, {i + 1, j}, {i + 1, j + 1}, {i, j + 1}};
                List<double[]> hits = new ArrayList<>();
                for (int k = 0; k < 4; k++) {
                    double p = v[k];
                    double q = v[(k + 1) % 4];
                    if (!Double.isNaN(p + q) && p >= 0 != q >= 0) {
                        double t = p / (p - q);
                        double[] from = corner[k];
                        double[] to = corner[(k + 1) % 4];
                        hits.add(new double[] {from[0] + t * (to[0] - from[0]), from[1] + t * (to[1] - from[1])});
                    }
                }
                for (int k = 0; k + 1 < hits.size(); k += 2) {
                    path.moveTo(px(map, hits.get(k)[0], plot, across), py(map, hits.get(k)[1], plot, up));
                    path.lineTo(px(map, hits.get(k + 1)[0], plot, across), py(map, hits.get(k + 1)[1], plot, up));
                }
            }
        }
        return path;
    }

    private static void flows(
            PurgeWindow map,
            Plot plot,
            Readout.Scale across,
            Readout.Scale up,
            Figure.Builder b,
            Tags tags,
            Readout readout) {
        double most = 0;
        for (double[] row : map.purge()) {
            for (double v : row) {
                most = Double.isFinite(v) ? Math.max(most, v) : most;
            }
        }
        if (!(most > 0)) {
            return;
        }
        Readout.Scale flow = readout.scale("kg/s", most);
        for (double shown : new Plot.Axis(0, flow.shown(most), false, "").ticks(6)) {
            Path2D line = contour(map.purge(), map, flow.si(shown), plot, across, up);
            if (shown > 0 && line.getCurrentPoint() != null) {
                b.dashed(line, b.theme().quiet(), 0.9, 1f, 3f);
                var end = line.getCurrentPoint();
                tags.tag("flow", Plot.number(shown) + " " + flow.unit(), end.getX() - 6, end.getY() - 4, true);
            }
        }
    }
}
