package purgewright.figure;

import java.awt.Color;
import java.awt.Font;
import java.awt.geom.Line2D;
import java.awt.geom.Path2D;
import java.awt.geom.Rectangle2D;
import java.math.BigDecimal;
import java.math.MathContext;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.IntStream;

/** A rectangle with two axes in shown units: grid, ticks, titles, and the way from numbers to places and back. */
public final class Plot {
    private final Figure.Builder b;
    private final Theme theme;
    private final Rectangle2D box;
    private final Axis across;
    private final Axis up;
    private final Font small = Lettering.font(Font.PLAIN, 10.5);
    private final Font bold = Lettering.font(Font.BOLD, 11);

    /**
     * An axis.
     *
     * @param low at the left or bottom, in shown units
     * @param high at the right or top
     * @param logarithmic both ends above zero
     * @param title with its unit; empty for none
     */
    public record Axis(double low, double high, boolean logarithmic, String title) {
        /** A linear axis around values, with room at both ends. */
        static Axis around(double least, double most, String title) {
            double l = Double.isFinite(least) ? least : 0;
            double m = Double.isFinite(most) ? most : 1;
            double span =
                    m - l > 1e-12 * Math.max(Math.abs(l), Math.abs(m)) ? m - l : Math.max(Math.abs(m) * 0.1, 1e-6);
            return new Axis(l - 0.06 * span, m + 0.08 * span, false, title);
        }

        /** A linear axis from zero. */
        static Axis fromZero(double most, String title) {
            return new Axis(0, most > 0 && Double.isFinite(most) ? most * 1.1 : 1, false, title);
        }

        double share(double value) {
            return logarithmic
                    ? Math.log(Math.max(value, low * 1e-3) / low) / Math.log(high / low)
                    : (value - low) / (high - low);
        }

        double at(double share) {
            return logarithmic ? low * Math.pow(high / low, share) : low + share * (high - low);
        }

        /** Round values, at most so many. */
        List<Double> ticks(int most) {
            List<Double> ticks = new ArrayList<>();
            if (logarithmic && high / low > 8) {
                boolean few = Math.log10(high / low) > 4;
                for (double power = Math.pow(10, Math.floor(Math.log10(low))); power <= high * 1.0001; power *= 10) {
                    for (double s : few ? new double[] {1} : new double[] {1, 2, 5}) {
                        if (s * power >= low * 0.9999 && s * power <= high * 1.0001) {
                            ticks.add(s * power);
                        }
                    }
                }
                return ticks;
            }
            double rough = (high - low) / Math.max(1, most);
            double power = Math.pow(10, Math.floor(Math.log10(rough)));
            double step = power * (rough / power <= 1 ? 1 : rough / power <= 2 ? 2 : rough / power <= 5 ? 5 : 10);
            for (double t = Math.ceil(low / step - 1e-9) * step; t <= high + step * 1e-9; t += step) {
                ticks.add(Math.abs(t) < step * 1e-9 ? 0 : t);
            }
            return ticks;
        }
    }

    /** A plot inside a rectangle; nothing is drawn yet. */
    Plot(Figure.Builder b, Rectangle2D box, Axis across, Axis up) {
        this.b = b;
        this.theme = b.theme();
        this.box = box;
        this.across = across;
        this.up = up;
    }

    /** Place of a number on the lower axis. */
    public double x(double value) {
        return box.getX() + across.share(value) * box.getWidth();
    }

    /** Place of a number on the left axis. */
    public double y(double value) {
        return box.getMaxY() - up.share(value) * box.getHeight();
    }

    /** Number on the lower axis at a place. */
    public double acrossAt(double x) {
        return across.at((x - box.getX()) / box.getWidth());
    }

    /** Number on the left axis at a place. */
    public double upAt(double y) {
        return up.at((box.getMaxY() - y) / box.getHeight());
    }

    /** The rectangle of the plot. */
    public Rectangle2D box() {
        return box;
    }

    /** A place moved into the rectangle. */
    double clampX(double x) {
        return Math.max(box.getMinX(), Math.min(box.getMaxX(), x));
    }

    double clampY(double y) {
        return Math.max(box.getMinY(), Math.min(box.getMaxY(), y));
    }

    /**
     * Ground, grid and frame, with ticks and titles.
     *
     * @param below whether the lower axis gets its numbers and title
     */
    Plot frame(boolean below) {
        b.fill(box, theme.panel());
        double last = Double.POSITIVE_INFINITY;
        for (double tick : up.ticks((int) Math.max(2, box.getHeight() / 42))) {
            double y = y(tick);
            b.segment(box.getMinX(), y, box.getMaxX(), y, theme.rule(), 0.8);
            if (last - y >= 14) {
                b.right("axis", number(tick), box.getMinX() - 6, y + 4, small, theme.quiet());
                last = y;
            }
        }
        double right = Double.NEGATIVE_INFINITY;
        for (double tick : across.ticks((int) Math.max(2, box.getWidth() / 80))) {
            double x = x(tick);
            b.segment(x, box.getMinY(), x, box.getMaxY(), theme.rule(), 0.8);
            String text = number(tick);
            double half = Lettering.width(small, text) / 2;
            if (below && x - half > right + 8) {
                b.centred("axis", text, x, box.getMaxY() + 16, small, theme.quiet());
                right = x + half;
            }
        }
        if (!up.title().isEmpty()) {
            b.text("axis", up.title(), box.getMinX() - 52, box.getMinY() - 9, bold, theme.ink());
        }
        if (below && !across.title().isEmpty()) {
            b.right("axis", across.title(), box.getMaxX(), box.getMaxY() + 34, bold, theme.ink());
        }
        return this;
    }

    /** The rectangle's outline, drawn last. */
    void outline() {
        b.line(box, theme.ink(), 1);
    }

    /** A line through points in shown units; it breaks where a number is missing, and stays inside the rectangle. */
    void curve(double[] xs, double[] ys, Color color, double width, float... dash) {
        Path2D path = new Path2D.Double();
        boolean started = false;
        for (int i = 0; i < xs.length; i++) {
            if (!Double.isFinite(xs[i]) || !Double.isFinite(ys[i])) {
                started = false;
                continue;
            }
            double px = clampX(x(xs[i]));
            double py = clampY(y(ys[i]));
            if (started) {
                path.lineTo(px, py);
            } else {
                path.moveTo(px, py);
                started = true;
            }
        }
        if (dash.length == 0) {
            b.line(path, color, width);
        } else {
            b.dashed(path, color, width, dash);
        }
    }

    /** A level line across the plot; nothing when it lies outside. */
    void level(double value, Color color, double width, float... dash) {
        double y = y(value);
        if (y < box.getMinY() || y > box.getMaxY()) {
            return;
        }
        Line2D line = new Line2D.Double(box.getMinX(), y, box.getMaxX(), y);
        if (dash.length == 0) {
            b.line(line, color, width);
        } else {
            b.dashed(line, color, width, dash);
        }
    }

    /** A number as an axis shows it. */
    static String number(double value) {
        if (value == 0 || Math.abs(value) < 1e-12) {
            return "0";
        }
        double size = Math.abs(value);
        String text = size >= 1e-4 && size < 1e6
                ? new BigDecimal(value)
                        .round(new MathContext(6))
                        .stripTrailingZeros()
                        .toPlainString()
                : String.format(java.util.Locale.ROOT, "%.0e", value)
                        .replaceAll("e([-+])0*([0-9])", "e$1$2")
                        .replace("e+", "e");
        return text.replace('-', '−');
    }

    /** Styles of lines told apart without colour. */
    static final float[][] DASHES = {{}, {9f, 4f}, {3f, 3f}, {12f, 3f, 3f, 3f}, {2f, 5f}, {16f, 5f}, {6f, 2f}};

    /** Height of a row of a key. */
    static final double KEY_ROW = 15;

    /** Samples with words, from a place to the right and on in further rows below where one is full; returns the right end. */
    static double key(
            Figure.Builder b, double x, double baseline, List<String> words, List<Color> colors, double limit) {
        List<Integer> styles = IntStream.range(0, words.size()).boxed().toList();
        return key(b, x, baseline, words, colors, styles, limit);
    }

    /** The same with the style of each line, a place in {@link #DASHES} that goes round. */
    static double key(
            Figure.Builder b,
            double x,
            double baseline,
            List<String> words,
            List<Color> colors,
            List<Integer> styles,
            double limit) {
        return key(b, x, baseline, words, colors, styles, limit, new int[1]);
    }

    /** How many rows a key takes. */
    static int keyRows(double x, List<String> words, double limit) {
        int[] rows = new int[1];
        key(null, x, 0, words, List.of(), List.of(), limit, rows);
        return rows[0];
    }

    private static double key(
            Figure.Builder b,
            double x,
            double baseline,
            List<String> words,
            List<Color> colors,
            List<Integer> styles,
            double limit,
            int[] rows) {
        Font font = Lettering.font(Font.PLAIN, 10.5);
        double at = x;
        double y = baseline;
        rows[0] = 1;
        for (int i = 0; i < words.size(); i++) {
            double w = Lettering.width(font, words.get(i));
            if (at + 30 + w > limit && at > x) {
                at = x;
                y += KEY_ROW;
                rows[0]++;
            }
            if (b != null) {
                Line2D sample = new Line2D.Double(at, y - 4, at + 24, y - 4);
                float[] dash = DASHES[styles.get(i) % DASHES.length];
                if (dash.length == 0) {
                    b.line(sample, colors.get(i), 2);
                } else {
                    b.dashed(sample, colors.get(i), 2, dash);
                }
                b.text("key", words.get(i), at + 29, y, font, b.theme().ink());
            }
            at += 29 + w + 20;
        }
        return at;
    }
}
