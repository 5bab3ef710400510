package purgewright.figure;

import java.awt.Color;
import java.awt.Font;
import java.awt.geom.Ellipse2D;
import java.awt.geom.Rectangle2D;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import purgewright.hazard.service.RunResult;
import purgewright.sealflow.campaign.Channel;

/** The duty through time: bottle pressure, purge flow, barrier pressures and the least margins, one above the other on one axis of time. */
public final class DutyChart {
    private static final double LEFT = 74;
    private static final double RIGHT = 26;
    private static final double TOP = 62;
    private static final double BOTTOM = 46;
    private static final double BETWEEN = 32;

    /** Lines in one panel; more cannot be told apart. */
    private static final int MOST = 5;

    private final RunResult run;
    private final Readout readout;
    private final Theme theme;
    private final Figure.Builder b;
    private final Font small = Lettering.font(Font.PLAIN, 10.5);
    private final Font bold = Lettering.font(Font.BOLD, 11);
    private Readout.Scale time;
    private double from;
    private double to;

    private DutyChart(RunResult run, Readout readout, Theme theme) {
        this.run = run;
        this.readout = readout;
        this.theme = theme;
        this.b = new Figure.Builder(theme);
    }

    /** A panel of the chart. */
    private record Panel(String title, List<Channel> lines, List<Channel> points, String unit) {}

    /**
     * @param barriers names of the cavities whose pressures are shown
     */
    public static Figure draw(
            RunResult run, List<String> barriers, Readout readout, Theme theme, double width, double height) {
        return new DutyChart(run, readout, theme).draw(barriers, width, height);
    }

    private Figure draw(List<String> barriers, double width, double height) {
        b.fill(new Rectangle2D.Double(0, 0, width, height), theme.paper());
        from = run.phases().isEmpty() ? 0 : run.phases().get(0).start();
        to = run.phases().isEmpty()
                ? 1
                : run.phases().get(run.phases().size() - 1).end();
        for (Channel c : run.channels()) {
            to = Math.max(to, c.time(c.size() - 1));
        }
        time = readout.scale("s", to);
        List<Panel> panels = panels(barriers);
        if (panels.isEmpty()) {
            b.text("nothing", FigureText.of("duty.nothing"), 24, 60, small, theme.quiet());
            return b.build(width, height, FigureText.of("duty.caption"));
        }
        double each = (height - TOP - BOTTOM - BETWEEN * (panels.size() - 1)) / panels.size();
        double y = TOP;
        phases(width, height);
        for (int i = 0; i < panels.size(); i++) {
            panel(panels.get(i), new Rectangle2D.Double(LEFT, y, width - LEFT - RIGHT, each), i == panels.size() - 1);
            y += each + BETWEEN;
        }
        moments(width, height);
        return b.build(width, height, FigureText.of("duty.caption"));
    }

    private List<Panel> panels(List<String> barriers) {
        List<Panel> out = new ArrayList<>();
        add(out, "duty.bottles", run.channels(Channel.Kind.BOTTLE_PRESSURE), Channel.Kind.BOTTLE_PRESSURE);
        add(out, "duty.flow", run.channels(Channel.Kind.PURGE_FLOW), Channel.Kind.PURGE_FLOW);
        List<Channel> pressures = run.channels(Channel.Kind.PRESSURE).stream()
                .filter(c -> barriers.isEmpty()
                        || barriers.stream().anyMatch(n -> c.place().startsWith("/cavities/" + n)))
                .toList();
        add(out, "duty.barriers", pressures, Channel.Kind.PRESSURE);
        List<Channel> margins = run.channels(Channel.Kind.MARGIN).stream()
                .sorted(Comparator.comparingDouble(DutyChart::least))
                .toList();
        add(out, "duty.margins", margins, Channel.Kind.MARGIN);
        return out;
    }

    private void add(List<Panel> out, String key, List<Channel> lines, Channel.Kind kind) {
        List<Channel> some = lines.stream().limit(MOST).toList();
        if (!some.isEmpty()) {
            List<Channel> points = run.measured().stream()
                    .filter(m -> m.kind() == kind
                            && some.stream().anyMatch(s -> s.place().equals(m.place())))
                    .toList();
            out.add(new Panel(FigureText.of(key), some, points, some.get(0).unit()));
        }
    }

    private static double least(Channel c) {
        double least = Double.POSITIVE_INFINITY;
        for (int i = 0; i < c.size(); i++) {
            least = Double.isNaN(c.value(i)) ? least : Math.min(least, c.value(i));
        }
        return least;
    }

    private static double most(Channel c) {
        double most = Double.NEGATIVE_INFINITY;
        for (int i = 0; i < c.size(); i++) {
            most = Double.isNaN(c.value(i)) ? most : Math.max(most, c.value(i));
        }
        return most;
    }

    private void panel(Panel panel, Rectangle2D box, boolean last) {
        boolean margin = panel.lines().get(0).kind() == Channel.Kind.MARGIN;
        double least =
                panel.lines().stream().mapToDouble(DutyChart::least).min().orElse(0);
        double most = panel.lines().stream().mapToDouble(DutyChart::most).max().orElse(1);
        Readout.Scale scale = margin ? new Readout.Scale(100, 0, "%") : readout.scale(panel.unit(), most);
        // A margin of many hundred per cent says no more than "ample".
        double high = margin ? Math.max(0.5, Math.min(most, 3)) : most;
        Plot.Axis up = margin
                ? Plot.Axis.around(
                        scale.shown(Math.max(-1.5, Math.min(0, least))), scale.shown(high), scale.title(panel.title()))
                : least > 0.6 * most
                        ? Plot.Axis.around(scale.shown(least), scale.shown(most), scale.title(panel.title()))
                        : Plot.Axis.fromZero(scale.shown(most), scale.title(panel.title()));
        Plot plot = new Plot(
                b,
                box,
                new Plot.Axis(time.shown(from), time.shown(to), false, time.title(FigureText.of("duty.time"))),
                up);
        plot.frame(last);
        for (RunResult.PhaseUse phase : run.phases()) {
            double x = plot.x(time.shown(phase.start()));
            if (phase.start() > from) {
                b.dashed(new java.awt.geom.Line2D.Double(x, box.getMinY(), x, box.getMaxY()), theme.quiet(), 1, 4f, 4f);
            }
        }
        if (margin) {
            plot.level(0, theme.bad(), 1.6);
            plot.level(25, theme.warn(), 1, 6f, 4f);
        }
        List<String> words = new ArrayList<>();
        List<Color> colors = new ArrayList<>();
        for (int i = 0; i < panel.lines().size(); i++) {
            Channel c = panel.lines().get(i);
            double[] xs = new double[c.size()];
            double[] ys = new double[c.size()];
            for (int k = 0; k < c.size(); k++) {
                xs[k] = time.shown(c.time(k));
                ys[k] = scale.shown(c.value(k));
            }
            plot.curve(xs, ys, theme.ink(), 1.8, Plot.DASHES[i % Plot.DASHES.length]);
            words.add(c.name());
            colors.add(theme.ink());
        }
        for (Channel c : panel.points()) {
            for (int k = 0; k < c.size(); k++) {
                if (Double.isFinite(c.value(k))) {
                    double x = plot.clampX(plot.x(time.shown(c.time(k))));
                    double y = plot.clampY(plot.y(scale.shown(c.value(k))));
                    b.line(new Ellipse2D.Double(x - 2.5, y - 2.5, 5, 5), theme.focus(), 1.2);
                }
            }
        }
        plot.outline();
        double x = box.getMinX() - 52 + Lettering.width(bold, up.title()) + 26;
        if (panel.lines().size() > 1 || margin) {
            Plot.key(b, x, box.getMinY() - 9, words, colors, box.getMaxX());
        }
    }

    /** Names of the phases above, each over its stretch of time, with the worst of its verdicts. */
    private void phases(double width, double height) {
        double span = width - LEFT - RIGHT;
        for (RunResult.PhaseUse phase : run.phases()) {
            double x1 = LEFT + (phase.start() - from) / Math.max(1e-9, to - from) * span;
            double x2 = LEFT + (phase.end() - from) / Math.max(1e-9, to - from) * span;
            double w = Lettering.width(bold, phase.name());
            if (w + 24 <= x2 - x1) {
                double x = (x1 + x2 - w - 16) / 2;
                VerdictMark.draw(b, phase.verdict(), x, 12, 11);
                b.text("phase", phase.name(), x + 16, 21, bold, theme.ink());
            }
            b.segment(x1 + 1, 28, x2 - 1, 28, theme.ink(), 1.2);
        }
    }

    /** Events as ticks under the phases, named where there is room. */
    private void moments(double width, double height) {
        double span = width - LEFT - RIGHT;
        Tags tags = new Tags(b, small, width, 44);
        for (RunResult.Moment moment : run.moments()) {
            if (moment.event() == RunResult.Event.PHASE) {
                continue;
            }
            double x = LEFT + (moment.time() - from) / Math.max(1e-9, to - from) * span;
            boolean bad = moment.event() == RunResult.Event.CRITERION_LOST
                    || moment.event() == RunResult.Event.EMPTY
                    || moment.event() == RunResult.Event.DROPOUT;
            b.dashed(
                    new java.awt.geom.Line2D.Double(x, 30, x, height - BOTTOM),
                    bad ? theme.bad() : theme.quiet(),
                    bad ? 1.4 : 1,
                    2f,
                    3f);
            String text = moment.what().length() > 46 ? moment.what().substring(0, 44) + "…" : moment.what();
            tags.tag("moment", text, x - 6, 38, x > width * 0.6);
            if (!moment.place().isEmpty()) {
                b.region(moment.place(), new Rectangle2D.Double(x - 4, 28, 8, height - BOTTOM - 28), moment.what());
            }
        }
    }
}
