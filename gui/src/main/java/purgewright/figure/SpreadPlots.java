package purgewright.figure;

import java.awt.Color;
import java.awt.Font;
import java.awt.geom.Ellipse2D;
import java.awt.geom.Path2D;
import java.awt.geom.Rectangle2D;
import java.util.ArrayList;
import java.util.List;
import purgewright.hazard.finding.Verdict;
import purgewright.hazard.studies.SpreadResult;
import purgewright.hazard.studies.SpreadResult.OutputSpread;
import purgewright.hazard.studies.SpreadResult.RedlineTrade;
import purgewright.hazard.studies.SpreadResult.TradePoint;
import purgewright.hazard.studies.SweepResult;

/** Further drawings of a spread: samples one by one, the trade of a redline, a sweep. */
public final class SpreadPlots {
    private static final double LEFT = 84;
    private static final double RIGHT = 26;
    private static final double TOP = 70;
    private static final double BOTTOM = 56;
    /** Below this a probability is drawn at the foot of the axis. */
    private static final double SMALLEST = 1e-9;

    private SpreadPlots() {}

    /** "clearance of ring A" for {@code /passages/ring A/clearance}, "least margin" for {@code /margin}. */
    public static String words(String place) {
        String[] parts = place.split("/");
        if (place.equals("/margin")) {
            return FigureText.of("spread.margin.least");
        }
        if (place.startsWith("/margin/") && parts.length == 3) {
            return FigureText.of("spread.margin.of", parts[2].replace('-', ' '));
        }
        if (place.startsWith("/purge/") && parts.length == 3) {
            return FigureText.of("spread.purge", parts[2]);
        }
        return parts.length == 4
                ? FigureText.of("spread.of", parts[3], parts[2])
                : parts.length == 3 ? parts[2] : place;
    }

    /** Each sample kept as a point: a ring where the separation holds, a cross where it does not. */
    public static Figure scatter(
            SpreadResult spread,
            String input,
            OutputSpread output,
            Readout readout,
            Theme theme,
            double width,
            double height) {
        Figure.Builder b = paper(theme, width, height);
        int i = spread.inputs().stream().map(SpreadResult.Input::place).toList().indexOf(input);
        int o = spread.outputs().indexOf(output);
        String inputUnit = spread.inputs().get(i).unit();
        double[] xs = spread.kept().inputs().stream().mapToDouble(x -> x[i]).toArray();
        double[] ys = spread.kept().outputs().stream().mapToDouble(y -> y[o]).toArray();
        Plot plot = plot(
                b,
                axis(xs, readout, inputUnit, words(input), false),
                axis(ys, readout, output.unit(), output.name(), output.place().contains("margin")),
                width,
                height);
        Readout.Scale across = scale(xs, readout, inputUnit, false);
        Readout.Scale up = scale(ys, readout, output.unit(), output.place().contains("margin"));
        int shown = 0;
        int missed = 0;
        Path2D rings = new Path2D.Double();
        Path2D crosses = new Path2D.Double();
        for (int k = 0; k < xs.length; k++) {
            if (!Double.isFinite(ys[k])) {
                continue;
            }
            double x = plot.x(across.shown(xs[k]));
            double y = plot.y(up.shown(ys[k]));
            Verdict v = spread.kept().verdicts().get(k);
            shown++;
            if (v == Verdict.HOLDS || v == Verdict.THIN) {
                rings.append(new Ellipse2D.Double(x - 2.2, y - 2.2, 4.4, 4.4), false);
            } else {
                missed++;
                crosses.moveTo(x - 4, y - 4);
                crosses.lineTo(x + 4, y + 4);
                crosses.moveTo(x - 4, y + 4);
                crosses.lineTo(x + 4, y - 4);
            }
        }
        b.line(rings, Theme.blend(theme.panel(), theme.purge(), 0.8), 1);
        b.line(crosses, theme.bad(), 1.8);
        plot.outline();
        String rank = spread.ranks().stream()
                .filter(r -> r.output().equals(output.place()) && r.input().equals(input))
                .findFirst()
                .map(r -> Plot.number(Math.rint(r.coefficient() * 100) / 100))
                .orElse("–");
        b.text(
                "line",
                FigureText.of("spread.scatter", Integer.toString(shown), Integer.toString(missed), rank),
                12,
                20,
                Lettering.font(Font.BOLD, 11),
                theme.ink());
        return b.build(width, height, FigureText.of("spread.scatter.caption", output.name(), words(input)));
    }

    /** False trips and missed losses over the set point, on a logarithmic axis of probability. */
    public static Figure trade(RedlineTrade t, Readout readout, Theme theme, double width, double height) {
        Figure.Builder b = paper(theme, width, height);
        List<Double> all = new ArrayList<>(List.of(t.physical(), t.normal()));
        t.points().forEach(p -> all.add(p.setPoint()));
        if (!Double.isNaN(t.stated())) {
            all.add(t.stated());
        }
        double[] sets = all.stream().mapToDouble(Double::doubleValue).toArray();
        Readout.Scale across = scale(sets, readout, t.unit(), false);
        Plot plot = plot(
                b,
                axis(sets, readout, t.unit(), FigureText.of("spread.trade.across", t.name()), false),
                new Plot.Axis(SMALLEST, 1.6, true, FigureText.of("spread.trade.up")),
                width,
                height);
        double[] xs =
                t.points().stream().mapToDouble(p -> across.shown(p.setPoint())).toArray();
        plot.curve(
                xs,
                t.points().stream()
                        .mapToDouble(p -> Math.max(SMALLEST, p.falseTrip()))
                        .toArray(),
                theme.oxidizer(),
                2);
        plot.curve(
                xs,
                t.points().stream()
                        .mapToDouble(p -> Math.max(SMALLEST, p.missedLoss()))
                        .toArray(),
                theme.hotGas(),
                2,
                Plot.DASHES[1]);
        Tags tags = new Tags(b, Lettering.font(Font.PLAIN, 10.5), width, height);
        upright(b, plot, tags, across.shown(t.physical()), FigureText.of("spread.trade.limit"), theme.bad());
        upright(b, plot, tags, across.shown(t.normal()), FigureText.of("spread.trade.normal"), theme.ink());
        mark(b, plot, tags, across, t.atProposed(), FigureText.of("spread.trade.proposed"), theme.focus());
        mark(b, plot, tags, across, t.atStated(), FigureText.of("spread.trade.stated"), theme.quiet());
        plot.outline();
        Plot.key(
                b,
                12,
                20,
                List.of(FigureText.of("spread.trade.false"), FigureText.of("spread.trade.missed")),
                List.of(theme.oxidizer(), theme.hotGas()),
                width - 12);
        return b.build(width, height, FigureText.of("spread.trade.caption", t.name()));
    }

    private static void mark(
            Figure.Builder b, Plot plot, Tags tags, Readout.Scale across, TradePoint at, String words, Color color) {
        if (at != null) {
            upright(b, plot, tags, across.shown(at.setPoint()), words, color);
        }
    }

    private static void upright(Figure.Builder b, Plot plot, Tags tags, double value, String words, Color color) {
        double x = plot.x(value);
        if (x < plot.box().getMinX() - 0.5 || x > plot.box().getMaxX() + 0.5) {
            return;
        }
        b.dashed(
                new java.awt.geom.Line2D.Double(
                        x, plot.box().getMinY(), x, plot.box().getMaxY()),
                color,
                1.4,
                5f,
                3f);
        // In the middle, where neither curve lies flat along the frame.
        tags.tag("level", words, x, plot.box().getCenterY(), x > plot.box().getCenterX());
    }

    /**
     * A sweep: one output over the first axis, a line for each value of the second.
     *
     * @param output which of the sweep's outputs
     */
    public static Figure sweep(SweepResult r, int output, Readout readout, Theme theme, double width, double height) {
        Figure.Builder b = paper(theme, width, height);
        SweepResult.Axis first = r.axes().get(0);
        String place = r.outputs().get(output);
        boolean margin = place.contains("margin");
        double[] xs = first.values().stream().mapToDouble(Double::doubleValue).toArray();
        double[] ys =
                r.points().stream().mapToDouble(p -> p.outputs().get(output)).toArray();
        Plot plot = plot(
                b,
                axis(xs, readout, first.unit(), words(first.place()), false),
                axis(ys, readout, r.units().get(output), words(place), margin),
                width,
                height);
        Readout.Scale across = scale(xs, readout, first.unit(), false);
        Readout.Scale up = scale(ys, readout, r.units().get(output), margin);
        if (margin) {
            plot.level(0, theme.bad(), 2);
        }
        int lines = ys.length / xs.length;
        int step = Math.max(1, (lines + Plot.DASHES.length - 1) / Plot.DASHES.length);
        List<String> words = new ArrayList<>();
        List<Color> colors = new ArrayList<>();
        for (int j = 0; j < lines; j += step) {
            double[] x = new double[xs.length];
            double[] y = new double[xs.length];
            for (int i = 0; i < xs.length; i++) {
                x[i] = across.shown(xs[i]);
                y[i] = up.shown(ys[j * xs.length + i]);
            }
            plot.curve(x, y, theme.ink(), 1.8, Plot.DASHES[words.size() % Plot.DASHES.length]);
            words.add(
                    // The name once, so that the values of all lines have room.
                    r.axes().size() < 2
                            ? words(place)
                            : FigureText.of(
                                            "spread.sweep.line",
                                            j == 0 ? words(r.axes().get(1).place()) : "",
                                            readout.quantity(
                                                    r.axes().get(1).values().get(j),
                                                    r.axes().get(1).unit()))
                                    .strip());
            colors.add(theme.ink());
        }
        plot.outline();
        Plot.key(b, 12, 20, words, colors, width - 12);
        return b.build(width, height, FigureText.of("spread.sweep.caption", words(place), words(first.place())));
    }

    private static Figure.Builder paper(Theme theme, double width, double height) {
        Figure.Builder b = new Figure.Builder(theme);
        b.fill(new Rectangle2D.Double(0, 0, width, height), theme.paper());
        return b;
    }

    private static Plot plot(Figure.Builder b, Plot.Axis across, Plot.Axis up, double width, double height) {
        return new Plot(b, new Rectangle2D.Double(LEFT, TOP, width - LEFT - RIGHT, height - TOP - BOTTOM), across, up)
                .frame(true);
    }

    private static Readout.Scale scale(double[] values, Readout readout, String unit, boolean margin) {
        double largest = 0;
        for (double v : values) {
            largest = Double.isFinite(v) ? Math.max(largest, Math.abs(v)) : largest;
        }
        return margin ? new Readout.Scale(100, 0, "%") : readout.scale(unit, largest);
    }

    private static Plot.Axis axis(double[] values, Readout readout, String unit, String name, boolean margin) {
        Readout.Scale scale = scale(values, readout, unit, margin);
        double least = Double.POSITIVE_INFINITY;
        double most = Double.NEGATIVE_INFINITY;
        for (double v : values) {
            if (Double.isFinite(v)) {
                least = Math.min(least, scale.shown(v));
                most = Math.max(most, scale.shown(v));
            }
        }
        return Plot.Axis.around(least, most, scale.title(name));
    }
}
