package purgewright.figure;

import java.awt.Font;
import java.awt.geom.Path2D;
import java.awt.geom.Rectangle2D;
import java.util.Map;
import java.util.TreeMap;
import purgewright.hazard.service.PlanResult;

/** A campaign: gas left in the banks over the calendar with every swap, and how many bottles aborts and durations may make of it. */
public final class PlanChart {
    private static final double LEFT = 74;
    private static final double RIGHT = 26;
    private static final double TOP = 40;
    private static final double LOW = 420;

    private PlanChart() {}

    /** Draws the calendar above, the distribution of bottles below where the plan has one. */
    public static Figure draw(PlanResult plan, Readout readout, Theme theme, double width, double height) {
        Figure.Builder b = new Figure.Builder(theme);
        b.fill(new Rectangle2D.Double(0, 0, width, height), theme.paper());
        boolean spread = plan.spread() != null && plan.spread().histogram().size() > 1;
        if (!spread) {
            calendar(b, plan, readout, theme, width, height - 46);
        } else if (height < LOW) {
            // Side by side where there is no height for one above the other.
            double split = width * 0.58;
            calendar(b, plan, readout, theme, split, height - 46);
            histogram(b, plan.spread(), theme, split + 20, width, TOP, height);
        } else {
            double split = (height - TOP) * 0.5;
            calendar(b, plan, readout, theme, width, split);
            histogram(b, plan.spread(), theme, 0, width, split + 74, height);
        }
        return b.build(width, height, FigureText.of("plan.caption"));
    }

    private static void calendar(
            Figure.Builder b, PlanResult plan, Readout readout, Theme theme, double width, double bottom) {
        Font small = Lettering.font(Font.PLAIN, 10.5);
        int n = plan.events().size();
        double[] xs = new double[2 * n];
        double[] ys = new double[2 * n];
        double most = 0;
        for (PlanResult.PlanEvent e : plan.events()) {
            most = Double.isFinite(e.left()) ? Math.max(most, e.left()) : most;
        }
        Readout.Scale mass = readout.scale("kg", most);
        Plot plot = new Plot(
                b,
                new Rectangle2D.Double(LEFT, TOP, width - LEFT - RIGHT, bottom - TOP),
                new Plot.Axis(0, Math.max(1, n), false, FigureText.of("plan.events")),
                Plot.Axis.fromZero(mass.shown(most) * 1.12, mass.title(FigureText.of("plan.left"))));
        plot.frame(true);
        int day = 0;
        double lastTag = Double.NEGATIVE_INFINITY;
        for (int i = 0; i < n; i++) {
            PlanResult.PlanEvent e = plan.events().get(i);
            xs[2 * i] = i;
            xs[2 * i + 1] = i + 1;
            ys[2 * i] = mass.shown(e.left());
            ys[2 * i + 1] = mass.shown(e.left());
            if (e.day() != day) {
                day = e.day();
                double x = plot.x(i);
                b.dashed(new java.awt.geom.Line2D.Double(x, TOP, x, bottom), theme.quiet(), 0.9, 4f, 4f);
                String text = FigureText.of("plan.day", Integer.toString(day));
                if (x > lastTag + 10 && x + Lettering.width(small, text) + 3 < width - RIGHT) {
                    b.text("day", text, x + 4, TOP + 13, small, theme.quiet());
                    lastTag = x + Lettering.width(small, text);
                }
            }
        }
        plot.curve(xs, ys, theme.ink(), 2);
        for (int i = 0; i < n; i++) {
            if (plan.events().get(i).bottles() > 0) {
                double x = plot.x(i);
                double y = plot.clampY(plot.y(ys[2 * i]));
                Path2D mark = new Path2D.Double();
                mark.moveTo(x, y - 7);
                mark.lineTo(x - 5, y - 16);
                mark.lineTo(x + 5, y - 16);
                mark.closePath();
                b.fill(mark, theme.purge());
                b.line(mark, theme.ink(), 1);
            }
        }
        plot.outline();
        b.text("key", FigureText.of("plan.swap"), LEFT + 200, TOP - 9, small, theme.ink());
        Path2D mark = new Path2D.Double();
        mark.moveTo(LEFT + 190, TOP - 9);
        mark.lineTo(LEFT + 185, TOP - 18);
        mark.lineTo(LEFT + 195, TOP - 18);
        mark.closePath();
        b.fill(mark, theme.purge());
        b.line(mark, theme.ink(), 1);
    }

    private static void histogram(
            Figure.Builder b,
            PlanResult.Spread spread,
            Theme theme,
            double from,
            double width,
            double top,
            double height) {
        Map<Integer, Integer> bars = new TreeMap<>(spread.histogram());
        int least = bars.keySet().iterator().next();
        int most = bars.keySet().stream().mapToInt(Integer::intValue).max().orElse(least);
        int tallest = bars.values().stream().mapToInt(Integer::intValue).max().orElse(1);
        Rectangle2D box = new Rectangle2D.Double(from + LEFT, top, width - from - LEFT - RIGHT, height - top - 44);
        QuantileMarks marks = new QuantileMarks("plan.enough");
        marks.add("50 %", Integer.toString(spread.p50()), spread.p50() + 0.5);
        marks.add("90 %", Integer.toString(spread.p90()), spread.p90() + 0.5);
        marks.add("95 %", Integer.toString(spread.p95()), spread.p95() + 0.5);
        Plot plot = new Plot(
                b,
                box,
                new Plot.Axis(least - 1, most + 1, false, FigureText.of("plan.bottles")),
                marks.above(tallest, box.getHeight(), FigureText.of("plan.campaigns")));
        plot.frame(true);
        double half = Math.max(1, Math.min(16, plot.box().getWidth() / (most - least + 2) * 0.4));
        Path2D path = new Path2D.Double();
        bars.forEach((bottles, count) -> {
            double y = plot.y(count);
            path.append(
                    new Rectangle2D.Double(
                            plot.x(bottles) - half, y, 2 * half, plot.box().getMaxY() - y),
                    false);
        });
        b.fill(path, Theme.blend(theme.panel(), theme.purge(), 0.25));
        b.line(path, theme.ink(), 1);
        marks.draw(b, plot);
        plot.outline();
    }
}
