package purgewright.figure;

import java.awt.Font;
import java.awt.geom.Path2D;
import java.awt.geom.Rectangle2D;
import java.util.Comparator;
import java.util.List;
import java.util.function.UnaryOperator;
import purgewright.fluids.unit.Dimension;
import purgewright.hazard.studies.SpreadResult;

/** Spread of one quantity: its histogram with quantiles above, and which inputs move it most (tornado) below. */
public final class SpreadChart {
    private static final double LEFT = 74;
    private static final double RIGHT = 26;
    private static final double TOP = 58;
    private static final int BARS = 9;

    private SpreadChart() {}

    /**
     * @param output which of the quantities
     * @param names a place in words
     */
    public static Figure draw(
            SpreadResult spread,
            SpreadResult.OutputSpread output,
            UnaryOperator<String> names,
            Readout readout,
            Theme theme,
            double width,
            double height) {
        Figure.Builder b = new Figure.Builder(theme);
        Font small = Lettering.font(Font.PLAIN, 10.5);
        Font bold = Lettering.font(Font.BOLD, 11);
        b.fill(new Rectangle2D.Double(0, 0, width, height), theme.paper());
        boolean margin = output.place().contains("margin");
        double largest = Math.max(Math.abs(output.least()), Math.abs(output.greatest()));
        Readout.Scale scale = margin ? new Readout.Scale(100, 0, "%") : readout.scale(output.unit(), largest);
        List<SpreadResult.TornadoBar> tornado = spread.tornado().stream()
                .filter(t -> t.output().equals(output.place()) && Double.isFinite(t.span()))
                .sorted(Comparator.comparingDouble(SpreadResult.TornadoBar::span)
                        .reversed())
                .limit(BARS)
                .toList();
        double split = tornado.isEmpty() ? height - 50 : Math.max(TOP + 90, (height - 40) * 0.52);
        double least = output.least();
        double most = output.greatest();
        for (SpreadResult.TornadoBar bar : tornado) {
            least = Math.min(least, Math.min(bar.atLow(), bar.atHigh()));
            most = Math.max(most, Math.max(bar.atLow(), bar.atHigh()));
        }
        Plot.Axis across = Plot.Axis.around(
                Math.min(scale.shown(least), scale.shown(most)),
                Math.max(scale.shown(least), scale.shown(most)),
                scale.title(output.name()));
        long tallest = output.bars().stream().mapToLong(Long::longValue).max().orElse(1);
        QuantileMarks marks = new QuantileMarks("spread.quantile");
        for (int i = 0; i < output.shares().size(); i++) {
            double share = output.shares().get(i);
            double value = output.quantiles().get(i);
            if (Double.isFinite(value)
                    && (Math.abs(share - 0.05) <= 1e-9
                            || Math.abs(share - 0.5) <= 1e-9
                            || Math.abs(share - 0.95) <= 1e-9)) {
                marks.add(readout.share(share), value(readout, output, margin, value), scale.shown(value));
            }
        }
        Plot plot = new Plot(
                b,
                new Rectangle2D.Double(LEFT, TOP, width - LEFT - RIGHT, split - TOP),
                across,
                marks.above((double) tallest, split - TOP, FigureText.of("spread.samples")));
        plot.frame(true);
        Path2D bars = new Path2D.Double();
        for (int i = 0; i < output.bars().size(); i++) {
            double x1 = plot.clampX(plot.x(scale.shown(output.edges().get(i))));
            double x2 = plot.clampX(plot.x(scale.shown(output.edges().get(i + 1))));
            double y = plot.y(output.bars().get(i));
            bars.append(
                    new Rectangle2D.Double(
                            x1, y, Math.max(0.5, x2 - x1), plot.box().getMaxY() - y),
                    false);
        }
        b.fill(bars, Theme.blend(theme.panel(), theme.purge(), 0.25));
        b.line(bars, theme.ink(), 1);
        if (margin) {
            double x = plot.x(0);
            if (x > LEFT && x < width - RIGHT) {
                b.segment(x, TOP, x, plot.box().getMaxY(), theme.bad(), 2);
            }
        }
        marks.draw(b, plot);
        plot.outline();
        b.text(
                "line",
                FigureText.of(
                        "spread.line",
                        output.name(),
                        value(readout, output, margin, output.mean()),
                        margin
                                ? Readout.margin(output.deviation())
                                : readout.quantity(output.deviation(), Dimension.difference(output.unit())),
                        Long.toString(output.count()),
                        Long.toString(output.missing())),
                12,
                20,
                bold,
                theme.ink());
        if (!tornado.isEmpty()) {
            tornado(b, tornado, output, names, scale, across, split + 66, width, height, readout, theme, margin);
        }
        return b.build(width, height, FigureText.of("spread.caption", output.name()));
    }

    private static String value(Readout readout, SpreadResult.OutputSpread output, boolean margin, double v) {
        return margin ? Readout.margin(v) : readout.quantity(v, output.unit());
    }

    private static void tornado(
            Figure.Builder b,
            List<SpreadResult.TornadoBar> tornado,
            SpreadResult.OutputSpread output,
            UnaryOperator<String> names,
            Readout.Scale scale,
            Plot.Axis across,
            double top,
            double width,
            double height,
            Readout readout,
            Theme theme,
            boolean margin) {
        Font small = Lettering.font(Font.PLAIN, 10.5);
        Font bold = Lettering.font(Font.BOLD, 11);
        double bottom = height - 12;
        b.text("axis", FigureText.of("spread.tornado"), LEFT - 52, top - 10, bold, theme.ink());
        Plot plot = new Plot(
                b,
                new Rectangle2D.Double(LEFT, top, width - LEFT - RIGHT, bottom - top),
                across,
                new Plot.Axis(0, tornado.size(), false, ""));
        b.fill(plot.box(), theme.panel());
        double zero = plot.x(scale.shown(output.nominal()));
        double each = (bottom - top) / tornado.size();
        double thick = Math.min(15, each * 0.55);
        for (int i = 0; i < tornado.size(); i++) {
            SpreadResult.TornadoBar bar = tornado.get(i);
            double y = top + (i + 0.5) * each;
            double low = plot.x(scale.shown(bar.atLow()));
            double high = plot.x(scale.shown(bar.atHigh()));
            Rectangle2D a = new Rectangle2D.Double(Math.min(zero, low), y - thick / 2, Math.abs(low - zero), thick);
            Rectangle2D c = new Rectangle2D.Double(Math.min(zero, high), y - thick / 2, Math.abs(high - zero), thick);
            b.fill(a, Theme.blend(theme.panel(), theme.oxidizer(), 0.3));
            b.hatch(a, FluidLook.OXIDIZER, theme.oxidizer(), 5, 1);
            b.line(a, theme.ink(), 1);
            b.fill(c, Theme.blend(theme.panel(), theme.fuel(), 0.3));
            b.hatch(c, FluidLook.FUEL, theme.fuel(), 5, 1);
            b.line(c, theme.ink(), 1);
            String text = names.apply(bar.input());
            double w = Lettering.width(small, text);
            boolean right = Math.max(low, Math.max(high, zero)) + 8 + w < width - RIGHT;
            double x = right
                    ? Math.max(low, Math.max(high, zero)) + 8
                    : Math.max(LEFT + 4, Math.min(low, Math.min(high, zero)) - 8 - w);
            b.text("input", text, x, y + 4, small, theme.ink());
            b.region(
                    bar.input(),
                    new Rectangle2D.Double(LEFT, y - each / 2, width - LEFT - RIGHT, each),
                    FigureText.of(
                            "spread.bar",
                            text,
                            value(readout, output, margin, bar.atLow()),
                            value(readout, output, margin, bar.atHigh())));
        }
        b.segment(zero, top, zero, bottom, theme.ink(), 1.4);
        plot.outline();
        Rectangle2D lowKey = new Rectangle2D.Double(width - 300, top - 19, 14, 10);
        b.hatch(lowKey, FluidLook.OXIDIZER, theme.oxidizer(), 5, 1);
        b.line(lowKey, theme.ink(), 1);
        b.text("key", FigureText.of("spread.low"), width - 281, top - 10, small, theme.ink());
        Rectangle2D highKey = new Rectangle2D.Double(width - 160, top - 19, 14, 10);
        b.hatch(highKey, FluidLook.FUEL, theme.fuel(), 5, 1);
        b.line(highKey, theme.ink(), 1);
        b.text("key", FigureText.of("spread.high"), width - 141, top - 10, small, theme.ink());
    }
}
