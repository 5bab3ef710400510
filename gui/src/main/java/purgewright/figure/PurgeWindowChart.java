package purgewright.figure;

import java.awt.Font;
import java.awt.geom.Ellipse2D;
import java.awt.geom.Path2D;
import java.awt.geom.Rectangle2D;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import purgewright.hazard.sizing.PurgeWindow;

/**
 * The purge window: where on a grid over two numbers of the case every criterion is met, the line on which each criterion is just met,
 * lines of equal purge flow, and the operating point with its regulator's band. Lines and region are those of the result.
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
    private static final double BOTTOM = 46;
    private static final double FOOT_ROW = 14;
    private static final double SCREEN = 0.9;

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
        List<String> words = map.boundaries().stream()
                .map(line -> line.name().replace('-', ' '))
                .toList();
        double keyAt = 12 + Lettering.width(Lettering.font(Font.BOLD, 11), FigureText.of("map.lines")) + 18;
        double top = TOP + (Plot.keyRows(keyAt, words, width - 10) - 1) * Plot.KEY_ROW;
        Font small = Lettering.font(Font.PLAIN, 10.5);
        String under = FigureText.of(map.bandX().wide() || map.bandY().wide() ? "map.area.band" : "map.area");
        if (map.boundaries().stream().anyMatch(line -> !map.numbered(line.name()))) {
            under += " " + FigureText.of("map.survey");
        }
        for (int i = 1, shared = 0; i < map.boundaries().size() && shared == 0; i++) {
            if (same(map.boundaries(), i) >= 0) {
                shared++;
                under += " " + FigureText.of("map.shared");
            }
        }
        // Some screens set small letters wider than the font says.
        List<String> foot = Lettering.wrap(small, under, SCREEN * (width - 24), 6);
        double bottom = BOTTOM + FOOT_ROW * foot.size();
        Readout.Scale across = readout.scale(unitX, map.xs().get(map.xs().size() - 1));
        Readout.Scale up = readout.scale(unitY, map.ys().get(map.ys().size() - 1));
        Plot plot = new Plot(
                b,
                new Rectangle2D.Double(LEFT, top, width - LEFT - RIGHT, height - top - bottom),
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
        for (double[][] piece : map.region()) {
            path(good, piece, plot, across, up);
            good.closePath();
        }
        Path2D unknown = unknown(map, plot, across, up);
        b.fill(good, Theme.blend(theme.panel(), theme.good(), 0.16));
        b.hatch(good, FluidLook.PURGE, Theme.blend(theme.panel(), theme.good(), 0.6), 9, 0.8);
        b.hatch(unknown, FluidLook.AIR, theme.rule(), 6, 1);
        Tags tags = new Tags(b, small, width, height);
        double px = plot.clampX(plot.x(across.shown(x)));
        double py = plot.clampY(plot.y(up.shown(y)));
        tags.keepFree(new Rectangle2D.Double(px - 14, py - 14, 28, 28));
        tags.keepFree(new Rectangle2D.Double(0, 0, width, top - 2));
        tags.keepFree(new Rectangle2D.Double(0, 0, LEFT + 2, height));
        tags.keepFree(new Rectangle2D.Double(0, height - bottom, width, bottom));
        band(map, plot, across, up, b, px, py);
        List<java.awt.Color> colors = new ArrayList<>();
        List<Integer> styles = new ArrayList<>();
        List<Runnable> names = new ArrayList<>();
        for (PurgeWindow.Line line : map.boundaries()) {
            Path2D drawn = new Path2D.Double();
            double[] middle = null;
            int longest = 0;
            for (double[][] run : line.paths()) {
                path(drawn, run, plot, across, up);
                if (run.length > longest) {
                    longest = run.length;
                    // Each name at another place along its line, so that lines that run together keep theirs apart.
                    middle = run[(int) ((0.25 + 0.13 * (colors.size() % 5)) * (run.length - 1))];
                }
            }
            // Lines that are the same all along share one style: drawn over each other the last would hide the others.
            int same = same(map.boundaries(), colors.size());
            int style = same >= 0
                    ? styles.get(same)
                    : styles.stream().mapToInt(Integer::intValue).max().orElse(-1) + 1;
            float[] dash = Plot.DASHES[style % Plot.DASHES.length];
            // Hues take turns: a dashed line that lies upon the one before leaves that to be seen between its dashes.
            int turn = style % Plot.DASHES.length + style / Plot.DASHES.length;
            java.awt.Color hue = turn % 2 == 0 ? theme.bad() : theme.ink();
            if (same < 0 && dash.length == 0) {
                b.line(drawn, hue, 2.2);
            } else if (same < 0) {
                b.dashed(drawn, hue, 2.2, dash);
            }
            String name = line.name().replace('-', ' ');
            double[] at = middle;
            names.add(() -> tags.tag(name, name, plot.x(across.shown(at[0])) + 4, plot.y(up.shown(at[1])) - 5, false));
            colors.add(hue);
            styles.add(style);
        }
        names.forEach(Runnable::run);
        flows(map, plot, across, up, b, tags, readout);
        plot.outline();
        b.text(
                "key",
                words.isEmpty() ? FigureText.of("map.nolines") : FigureText.of("map.lines"),
                12,
                20,
                Lettering.font(Font.BOLD, 11),
                theme.ink());
        Plot.key(b, keyAt, 20, words, colors, styles, width - 10);
        for (int i = 0; i < foot.size(); i++) {
            b.text("key", foot.get(i), 12, height - 12 - FOOT_ROW * (foot.size() - 1 - i), small, theme.quiet());
        }
        if (!map.complete()) {
            Font bold = Lettering.font(Font.BOLD, 10.5);
            String said = FigureText.of("map.stopped");
            // Above the frame, right: the lower axis has its title below.
            b.text("key", said, width - RIGHT - Lettering.width(bold, said), top - 8, bold, theme.bad());
        }
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

    /** An earlier line with the same points; -1 when there is none. */
    private static int same(List<PurgeWindow.Line> lines, int index) {
        double[][][] mine = lines.get(index).paths().toArray(double[][][]::new);
        for (int i = 0; i < index; i++) {
            if (Arrays.deepEquals(mine, lines.get(i).paths().toArray(double[][][]::new))) {
                return i;
            }
        }
        return -1;
    }

    private static void path(Path2D into, double[][] run, Plot plot, Readout.Scale across, Readout.Scale up) {
        for (int i = 0; i < run.length; i++) {
            double x = plot.x(across.shown(run[i][0]));
            double y = plot.y(up.shown(run[i][1]));
            if (i == 0) {
                into.moveTo(x, y);
            } else {
                into.lineTo(x, y);
            }
        }
    }

    /** Squares around the survey points that have no solution. */
    private static Path2D unknown(PurgeWindow map, Plot plot, Readout.Scale across, Readout.Scale up) {
        Path2D out = new Path2D.Double();
        int columns = map.xs().size();
        int rows = map.ys().size();
        for (int j = 0; j < rows; j++) {
            for (int i = 0; i < columns; i++) {
                if (Double.isFinite(map.purge()[j][i])) {
                    continue;
                }
                double x0 = plot.x(across.shown(between(map.xs(), i - 1, i)));
                double x1 = plot.x(across.shown(between(map.xs(), i, i + 1)));
                double y0 = plot.y(up.shown(between(map.ys(), j - 1, j)));
                double y1 = plot.y(up.shown(between(map.ys(), j, j + 1)));
                out.append(new Rectangle2D.Double(x0, Math.min(y0, y1), x1 - x0, Math.abs(y1 - y0)), false);
            }
        }
        return out;
    }

    private static double between(List<Double> values, int low, int high) {
        int last = values.size() - 1;
        return 0.5 * (values.get(Math.max(0, Math.min(last, low))) + values.get(Math.max(0, Math.min(last, high))));
    }

    /** What the regulator may do around the operating point: bars with ends. */
    private static void band(
            PurgeWindow map,
            Plot plot,
            Readout.Scale across,
            Readout.Scale up,
            Figure.Builder b,
            double px,
            double py) {
        if (map.bandX().wide()) {
            double low = plot.clampX(plot.x(across.shown(map.bandX().low())));
            double high = plot.clampX(plot.x(across.shown(map.bandX().high())));
            b.segment(low, py, high, py, b.theme().ink(), 2.4);
            b.segment(low, py - 6, low, py + 6, b.theme().ink(), 2.4);
            b.segment(high, py - 6, high, py + 6, b.theme().ink(), 2.4);
        }
        if (map.bandY().wide()) {
            double low = plot.clampY(plot.y(up.shown(map.bandY().low())));
            double high = plot.clampY(plot.y(up.shown(map.bandY().high())));
            b.segment(px, low, px, high, b.theme().ink(), 2.4);
            b.segment(px - 6, low, px + 6, low, b.theme().ink(), 2.4);
            b.segment(px - 6, high, px + 6, high, b.theme().ink(), 2.4);
        }
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
        for (PurgeWindow.Line line : map.contours()) {
            most = Math.max(most, line.level());
        }
        Readout.Scale flow = readout.scale("kg/s", most);
        for (PurgeWindow.Line line : map.contours()) {
            Path2D drawn = new Path2D.Double();
            double[] end = null;
            for (double[][] run : line.paths()) {
                path(drawn, run, plot, across, up);
                for (double[] p : run) {
                    end = end == null || p[1] > end[1] ? p : end;
                }
            }
            b.dashed(drawn, b.theme().quiet(), 0.9, 1f, 3f);
            tags.upon(
                    "flow",
                    Plot.number(flow.shown(line.level())) + " " + flow.unit(),
                    plot.x(across.shown(end[0])),
                    plot.y(up.shown(end[1])) + 16,
                    plot.box());
        }
    }
}
