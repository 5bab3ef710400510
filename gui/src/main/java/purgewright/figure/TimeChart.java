package purgewright.figure;

import java.awt.Color;
import java.awt.Font;
import java.awt.geom.Ellipse2D;
import java.awt.geom.Path2D;
import java.awt.geom.Rectangle2D;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import purgewright.hazard.service.RunResult;
import purgewright.hazard.service.RunResult.Overlay;
import purgewright.hazard.service.RunResult.PhaseUse;
import purgewright.sealflow.campaign.Channel;
import purgewright.sealflow.campaign.Channel.Kind;

/**
 * A duty through time: panels above each other on one time axis, phases as bands, measured channels as rings over the computed
 * lines. Lines differ by dash as well as by hue and are named at their right end.
 */
public final class TimeChart {
    private static final double LEFT = 74;
    private static final double RIGHT = 178;
    /** Rows for the names of phases. */
    private static final int ROWS = 4;

    private static final double TOP = 26 + 13 * ROWS;
    private static final double BOTTOM = 44;
    private static final double GAP = 30;
    private static final double PANEL = 132;
    private static final double LEAST_PANEL = 76;

    /** More margins than this in one panel cannot be told apart. */
    private static final int MOST_LINES = 6;

    /** So many margins are drawn even where they hardly move. */
    private static final int LEAST_LINES = 4;

    /** A margin beyond twofold is as good as twofold in a drawing. */
    private static final double HIGHEST_MARGIN = 2;

    private static final float[][] DASHES = {null, {7, 3}, {2, 3}, {9, 3, 2, 3}, {4, 2}, {12, 4, 4, 4}};

    private TimeChart() {}

    /** Which way a quantity is shown. */
    private enum Scale {
        PRESSURE,
        TEMPERATURE,
        FLOW,
        MARGIN
    }

    private record Curve(String name, String place, double[] t, double[] v, boolean measured) {}

    private record Panel(String title, Scale scale, List<Curve> curves, boolean fromZero) {}

    /**
     * Bottles, purge flow, the barriers and their neighbours, the least margins.
     *
     * @param width in drawing units, at least 640
     */
    public static Figure of(RunResult run, Readout readout, Theme theme, double width) {
        return of(run, readout, theme, width, 0);
    }

    /**
     * The same within a height where that leaves every panel room enough.
     *
     * @param within in drawing units; 0 for as high as reads well
     */
    public static Figure of(RunResult run, Readout readout, Theme theme, double width, double within) {
        List<Panel> panels = panels(run, readout);
        double w = Math.max(640, width);
        double tall = within > 0 && !panels.isEmpty()
                ? Math.max(LEAST_PANEL, (within - TOP - BOTTOM + GAP) / panels.size() - GAP)
                : PANEL;
        double height = TOP + panels.size() * (tall + GAP) - GAP + BOTTOM;
        Figure.Builder b = new Figure.Builder(theme);
        b.fill(new Rectangle2D.Double(0, 0, w, height), theme.paper());
        Font small = Lettering.font(Font.PLAIN, 11);
        if (panels.isEmpty() || run.phases().isEmpty()) {
            b.text("time", FigureText.of("time.nothing"), 16, 30, small, theme.quiet());
            return b.build(w, 60, FigureText.of("time.nothing"));
        }
        double end = Math.max(
                run.phases().get(run.phases().size() - 1).end(),
                run.phases().get(0).end());
        end = end > 0 ? end : 1;
        bands(b, run, end, w, height, small);
        for (int n = 0; n < panels.size(); n++) {
            double top = TOP + n * (tall + GAP);
            draw(b, panels.get(n), readout, end, w, top, tall, small);
        }
        axis(b, end, w, height, small);
        return b.build(w, height, FigureText.of("time.caption"));
    }

    private static List<Panel> panels(RunResult run, Readout readout) {
        List<Panel> out = new ArrayList<>();
        List<Curve> bottles = curves(run, run.channels(Kind.BOTTLE_PRESSURE), Scale.PRESSURE, readout);
        if (!bottles.isEmpty()) {
            out.add(new Panel(FigureText.of("time.bottles", readout.pressureUnit()), Scale.PRESSURE, bottles, true));
        }
        List<Curve> temperatures = curves(run, run.channels(Kind.BOTTLE_TEMPERATURE), Scale.TEMPERATURE, readout);
        if (!temperatures.isEmpty()) {
            out.add(new Panel(
                    FigureText.of("time.temperatures", readout.temperatureUnit()),
                    Scale.TEMPERATURE,
                    temperatures,
                    false));
        }
        List<Curve> flow = curves(run, run.channels(Kind.PURGE_FLOW), Scale.FLOW, readout);
        if (!flow.isEmpty()) {
            out.add(new Panel(FigureText.of("time.flow", flowUnit(readout)), Scale.FLOW, flow, true));
        }
        List<Channel> chosen = pressures(run);
        if (!chosen.isEmpty()) {
            out.add(new Panel(
                    FigureText.of("time.pressures", readout.pressureUnit()),
                    Scale.PRESSURE,
                    curves(run, chosen, Scale.PRESSURE, readout),
                    true));
        }
        List<Channel> margins = margins(run);
        if (!margins.isEmpty()) {
            out.add(new Panel(
                    FigureText.of("time.margins"), Scale.MARGIN, curves(run, margins, Scale.MARGIN, readout), true));
        }
        return out;
    }

    /**
     * The least margins: those that move over time first, then those that stand still, as a running clearance does; a criterion that is met
     * or not has a line only where it is not met at some moment.
     */
    private static List<Channel> margins(RunResult run) {
        Comparator<Channel> least =
                Comparator.comparingDouble((Channel c) -> c.value(c.least())).thenComparing(Channel::name);
        List<Channel> out = new ArrayList<>(run.channels(Kind.MARGIN).stream()
                .filter(c -> moves(c) && c.value(c.least()) < HIGHEST_MARGIN)
                .sorted(least)
                .limit(MOST_LINES)
                .toList());
        run.channels(Kind.MARGIN).stream()
                .filter(c -> c.least() >= 0 && !out.contains(c) && hasSize(c))
                .sorted(least)
                .limit(Math.max(0, LEAST_LINES - out.size()))
                .forEach(out::add);
        return out;
    }

    /** Margins of 0 and 1 by definition belong to what is met or not. */
    private static boolean hasSize(Channel c) {
        double v = c.value(c.least());
        return v < 0 || (v > 0 && v != 1);
    }

    /** Barriers, what they lead to, and whatever was measured; at most six. */
    private static List<Channel> pressures(RunResult run) {
        List<Channel> out = new ArrayList<>();
        for (Overlay o : run.overlays()) {
            Channel c = run.channel(o.computed());
            if (c != null && c.kind() == Kind.PRESSURE && !out.contains(c)) {
                out.add(c);
            }
        }
        for (String word : List.of("barrier", "drain")) {
            for (Channel c : run.channels(Kind.PRESSURE)) {
                if (c.name().contains(word) && !out.contains(c)) {
                    out.add(c);
                }
            }
        }
        for (Channel c : run.channels(Kind.PRESSURE)) {
            if (out.size() < 3 && !out.contains(c)) {
                out.add(c);
            }
        }
        return out.size() > MOST_LINES ? out.subList(0, MOST_LINES) : out;
    }

    /** A count of barriers or a clearance that never changes is no news over time. */
    private static boolean moves(Channel c) {
        if (c.least() < 0) {
            return false;
        }
        double low = c.value(c.least());
        for (int i = 0; i < c.size(); i++) {
            if (c.value(i) - low > 1e-3) {
                return true;
            }
        }
        return low < 0;
    }

    private static List<Curve> curves(RunResult run, List<Channel> channels, Scale scale, Readout readout) {
        List<Curve> out = new ArrayList<>();
        for (Channel c : channels) {
            out.add(curve(c, shortName(c), scale, readout, false));
            for (Overlay o : run.overlays()) {
                if (o.computed().equals(c.name())) {
                    out.add(curve(o.measured(), o.measured().name(), scale, readout, true));
                }
            }
        }
        return out;
    }

    private static String shortName(Channel c) {
        return c.name()
                .replace("pressure of ", "")
                .replace("temperature of ", "")
                .replace('-', ' ')
                .replace(":", ", ");
    }

    private static Curve curve(Channel c, String name, Scale scale, Readout readout, boolean measured) {
        double[] v = c.values();
        for (int i = 0; i < v.length; i++) {
            v[i] = shown(v[i], scale, readout);
        }
        return new Curve(name, c.place(), c.times(), v, measured);
    }

    private static double shown(double si, Scale scale, Readout readout) {
        return switch (scale) {
            case PRESSURE -> readout.pressureNumber(si);
            case TEMPERATURE -> readout.temperatureNumber(si);
            case FLOW -> readout == Readout.SI ? si * 1e3 : si / 0.45359237;
            case MARGIN -> Math.max(-1, Math.min(HIGHEST_MARGIN, si)) * 100;
        };
    }

    private static String flowUnit(Readout readout) {
        return readout == Readout.SI ? "g/s" : "lb/s";
    }

    private static double x(double t, double end, double width) {
        return LEFT + t / end * (width - LEFT - RIGHT);
    }

    private static void bands(Figure.Builder b, RunResult run, double end, double width, double height, Font small) {
        Theme theme = b.theme();
        boolean shade = false;
        double[] free = new double[ROWS];
        java.util.Arrays.fill(free, LEFT - 4);
        List<Runnable> names = new ArrayList<>();
        for (PhaseUse p : run.phases()) {
            double x0 = x(p.start(), end, width);
            double x1 = x(p.end(), end, width);
            if (shade) {
                b.fill(
                        new Rectangle2D.Double(x0, TOP, x1 - x0, height - TOP - BOTTOM),
                        Theme.blend(theme.paper(), theme.rule(), 0.35));
            }
            shade = !shade;
            b.region(
                    "/duty/" + p.name(),
                    new Rectangle2D.Double(
                            x0, TOP - 18 - 13 * ROWS, Math.max(2, x1 - x0), height - TOP - BOTTOM + 18 + 13 * ROWS),
                    p.name());
            double w = Lettering.width(small, p.name());
            double at = Math.min(x0 + 3, width - 4 - w);
            // The lowest row in which the name has room; with none left the name is for the pointer alone.
            int row = 0;
            while (row < ROWS && at < free[row] + 6) {
                row++;
            }
            if (row < ROWS) {
                double y = TOP - 26 - 13 * row;
                b.segment(x0, y - 9, x0, TOP, theme.rule(), 1);
                names.add(() -> {
                    b.fill(new Rectangle2D.Double(at - 1, y - 10, w + 2, 13), theme.paper());
                    b.text("/duty/" + p.name(), p.name(), at, y, small, theme.ink());
                });
                free[row] = at + w;
            } else {
                b.segment(x0, TOP - 22, x0, TOP, theme.rule(), 1);
            }
        }
        // Over the lines of the rows above.
        names.forEach(Runnable::run);
    }

    private static void draw(
            Figure.Builder b,
            Panel panel,
            Readout readout,
            double end,
            double width,
            double top,
            double tall,
            Font small) {
        Theme theme = b.theme();
        double low = Double.POSITIVE_INFINITY;
        double high = Double.NEGATIVE_INFINITY;
        for (Curve c : panel.curves()) {
            for (double v : c.v()) {
                if (!Double.isNaN(v)) {
                    low = Math.min(low, v);
                    high = Math.max(high, v);
                }
            }
        }
        if (!(high >= low)) {
            return;
        }
        if (panel.fromZero()) {
            low = Math.min(0, low);
            high = Math.max(high, panel.scale() == Scale.MARGIN ? 25 : high);
        }
        double spare = Math.max((high - low) * 0.06, 1e-9 + Math.abs(high) * 1e-3);
        high += spare;
        low -= panel.fromZero() && low == 0 ? 0 : spare;
        double bottom = top + tall;
        b.text("axis", panel.title(), LEFT, top - 6, Lettering.font(Font.BOLD, 11), theme.ink());
        double step = step(high - low);
        for (double v = Math.ceil(low / step) * step; v <= high; v += step) {
            double y = bottom - (v - low) / (high - low) * tall;
            b.segment(LEFT, y, width - RIGHT, y, theme.rule(), 0.7);
            b.right("axis", tick(v, step), LEFT - 6, y + 4, small, theme.quiet());
        }
        b.line(new Rectangle2D.Double(LEFT, top, width - LEFT - RIGHT, tall), theme.quiet(), 1);
        if (panel.scale() == Scale.MARGIN) {
            double y = bottom - (0 - low) / (high - low) * tall;
            b.segment(LEFT, y, width - RIGHT, y, theme.bad(), 1.6);
        }
        Color[] hues = {theme.ink(), theme.purge(), theme.oxidizer(), theme.hotGas(), theme.other(), theme.air()};
        List<Tag> tags = new ArrayList<>();
        int n = 0;
        Color last = theme.ink();
        for (Curve c : panel.curves()) {
            if (c.measured()) {
                rings(b, c, low, high, end, width, bottom, tall, last);
                continue;
            }
            Color hue = hues[n % hues.length];
            float[] dash = DASHES[n % DASHES.length];
            last = hue;
            n++;
            Path2D path = new Path2D.Double();
            boolean down = false;
            double lastY = Double.NaN;
            for (int i = 0; i < c.t().length; i++) {
                if (Double.isNaN(c.v()[i])) {
                    down = false;
                    continue;
                }
                double px = x(c.t()[i], end, width);
                double py = bottom - (c.v()[i] - low) / (high - low) * tall;
                if (down) {
                    path.lineTo(px, py);
                } else {
                    path.moveTo(px, py);
                }
                down = true;
                lastY = py;
            }
            if (dash == null) {
                b.line(path, hue, 1.8);
            } else {
                b.dashed(path, hue, 1.8, dash);
            }
            if (!Double.isNaN(lastY)) {
                tags.add(new Tag(c.name(), c.place(), lastY, hue, dash));
            }
        }
        names(b, tags, width, top, bottom, small);
    }

    private record Tag(String name, String place, double y, Color hue, float[] dash) {}

    /** Names at the right end, moved apart. */
    private static void names(Figure.Builder b, List<Tag> tags, double width, double top, double bottom, Font small) {
        List<Tag> sorted = new ArrayList<>(tags);
        sorted.sort(Comparator.comparingDouble(Tag::y));
        double pitch = 14;
        double[] y = new double[sorted.size()];
        double floor = top + 6;
        for (int i = 0; i < y.length; i++) {
            y[i] = Math.max(floor, sorted.get(i).y());
            floor = y[i] + pitch;
        }
        double ceiling = bottom + 4;
        for (int i = y.length - 1; i >= 0; i--) {
            y[i] = Math.min(ceiling, y[i]);
            ceiling = y[i] - pitch;
        }
        double x0 = width - RIGHT;
        for (int i = 0; i < y.length; i++) {
            Tag tag = sorted.get(i);
            Path2D lead = new Path2D.Double();
            lead.moveTo(x0 + 2, tag.y());
            lead.lineTo(x0 + 8, y[i]);
            lead.lineTo(x0 + 26, y[i]);
            if (tag.dash() == null) {
                b.line(lead, tag.hue(), 1.6);
            } else {
                b.dashed(lead, tag.hue(), 1.6, tag.dash());
            }
            b.text(
                    tag.place(),
                    Lettering.shorten(small, tag.name(), RIGHT - 36),
                    x0 + 30,
                    y[i] + 4,
                    small,
                    b.theme().ink());
        }
    }

    /** A measured channel; of a million points as many as can be told apart. */
    private static void rings(
            Figure.Builder b,
            Curve c,
            double low,
            double high,
            double end,
            double width,
            double bottom,
            double tall,
            Color hue) {
        double lastX = Double.NEGATIVE_INFINITY;
        for (int i = 0; i < c.t().length; i++) {
            double px = x(c.t()[i], end, width);
            if (Double.isNaN(c.v()[i]) || c.t()[i] < 0 || c.t()[i] > end || px - lastX < 5) {
                continue;
            }
            lastX = px;
            double py = bottom - (c.v()[i] - low) / (high - low) * tall;
            Ellipse2D ring = new Ellipse2D.Double(px - 2.5, py - 2.5, 5, 5);
            b.fill(ring, b.theme().panel());
            b.line(ring, hue, 1.1);
        }
    }

    private static void axis(Figure.Builder b, double end, double width, double height, Font small) {
        Theme theme = b.theme();
        boolean minutes = end > 1200;
        double unit = minutes ? 60 : 1;
        double step = step(end / unit) * unit;
        double y = height - BOTTOM;
        for (double t = 0; t <= end * (1 + 1e-9); t += step) {
            double px = x(t, end, width);
            b.segment(px, y, px, y + 4, theme.ink(), 1);
            b.centred("axis", tick(t / unit, step / unit), px, y + 17, small, theme.quiet());
        }
        b.right(
                "axis",
                FigureText.of("time.axis", minutes ? "min" : "s"),
                width - RIGHT,
                height - 10,
                Lettering.font(Font.BOLD, 11),
                theme.ink());
    }

    private static double step(double range) {
        double raw = range / 4;
        double power = Math.pow(10, Math.floor(Math.log10(raw)));
        double share = raw / power;
        return (share < 1.5 ? 1 : share < 3.5 ? 2 : share < 7.5 ? 5 : 10) * power;
    }

    private static String tick(double v, double step) {
        int digits = (int) Math.max(0, Math.ceil(-Math.log10(step) - 1e-9));
        String text = String.format(java.util.Locale.ROOT, "%." + digits + "f", Math.abs(v) < step * 1e-6 ? 0 : v);
        return text.replace('-', '−');
    }
}
