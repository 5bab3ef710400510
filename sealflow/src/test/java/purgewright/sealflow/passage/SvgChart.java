package purgewright.sealflow.passage;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.function.DoubleUnaryOperator;

/** A small line chart as SVG text, told apart by dashes and marks, so that it reads without colour. For the theory pages. */
public final class SvgChart {
    private static final String[] DASH = {"none", "6,3", "2,2", "8,3,2,3", "1,3", "10,4", "4,1", "3,5"};
    private static final String[] COLOUR = {
        "#000000", "#0072B2", "#D55E00", "#009E73", "#CC79A7", "#E69F00", "#56B4E9", "#666666"
    };
    private static final int LEFT = 56;
    private static final int TOP = 24;
    private static final int WIDTH = 330;
    private static final int HEIGHT = 230;

    private record Line(String name, double[] x, double[] y, boolean marks) {}

    private final String title;
    private final String across;
    private final String up;
    private final double x0;
    private final double x1;
    private final double y0;
    private final double y1;
    private final List<Line> lines = new ArrayList<>();
    private double[] bandX;
    private double[] bandLow;
    private double[] bandHigh;
    private String bandName = "low to high bound";

    public SvgChart(String title, String across, double x0, double x1, String up, double y0, double y1) {
        this.title = title;
        this.across = across;
        this.up = up;
        this.x0 = x0;
        this.x1 = x1;
        this.y0 = y0;
        this.y1 = y1;
    }

    public SvgChart line(String name, double[] x, double[] y) {
        lines.add(new Line(name, x, y, false));
        return this;
    }

    public SvgChart points(String name, double[] x, double[] y) {
        lines.add(new Line(name, x, y, true));
        return this;
    }

    /** A band that is none of a model's bounds. */
    public SvgChart band(String name, double[] x, double[] low, double[] high) {
        bandName = name;
        return band(x, low, high);
    }

    public SvgChart band(double[] x, double[] low, double[] high) {
        bandX = x;
        bandLow = low;
        bandHigh = high;
        return this;
    }

    private static String number(double value) {
        return String.format(Locale.ROOT, "%.1f", value);
    }

    private String point(double x, double y) {
        double px = LEFT + WIDTH * (x - x0) / (x1 - x0);
        double py = TOP + HEIGHT * (1 - (Math.max(y0, Math.min(y1, y)) - y0) / (y1 - y0));
        return number(px) + "," + number(py);
    }

    /** So many places from one value to another, evenly spaced. */
    public static double[] grid(double from, double to, int size) {
        double[] x = new double[size];
        for (int i = 0; i < size; i++) {
            x[i] = from + (to - from) * i / (size - 1);
        }
        return x;
    }

    /** A function at these places. */
    public static double[] of(double[] x, DoubleUnaryOperator f) {
        double[] y = new double[x.length];
        for (int i = 0; i < x.length; i++) {
            y[i] = f.applyAsDouble(x[i]);
        }
        return y;
    }

    /**
     * Writes figures into the folder of the theory pages with {@code -Dpurgewright.regenerate=true}; otherwise they must be what the
     * models give.
     */
    public static void hold(Map<String, SvgChart> figures) throws IOException {
        Path folder = Path.of("..", "docs", "theory", "img");
        for (Map.Entry<String, SvgChart> figure : figures.entrySet()) {
            Path file = folder.resolve(figure.getKey() + ".svg");
            String svg = figure.getValue().svg();
            if (Boolean.getBoolean("purgewright.regenerate")) {
                Files.createDirectories(folder);
                Files.writeString(file, svg);
            }
            assertThat(Files.readString(file).replace("\r\n", "\n"))
                    .as(figure.getKey())
                    .isEqualTo(svg.replace("\r\n", "\n"));
        }
    }

    public String svg() {
        StringBuilder out = new StringBuilder();
        int total = LEFT + WIDTH + 250;
        out.append(String.format(
                Locale.ROOT,
                "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 %d %d\" font-family=\"sans-serif\" font-size=\"11\" role=\"img\">%n",
                total,
                TOP + HEIGHT + 44));
        out.append("<title>").append(title).append("</title>\n<rect width=\"100%\" height=\"100%\" fill=\"#fff\"/>\n");
        text(out, LEFT, 14, "start", title);
        if (bandX != null) {
            out.append("<polygon fill=\"#ddd\" points=\"");
            for (int i = 0; i < bandX.length; i++) {
                out.append(point(bandX[i], bandLow[i])).append(' ');
            }
            for (int i = bandX.length - 1; i >= 0; i--) {
                out.append(point(bandX[i], bandHigh[i])).append(' ');
            }
            out.append("\"/>\n");
        }
        for (int i = 0; i <= 4; i++) {
            double x = x0 + (x1 - x0) * i / 4;
            double y = y0 + (y1 - y0) * i / 4;
            out.append("<path stroke=\"#bbb\" stroke-width=\".5\" d=\"M")
                    .append(point(x, y0))
                    .append(" L")
                    .append(point(x, y1))
                    .append(" M")
                    .append(point(x0, y))
                    .append(" L")
                    .append(point(x1, y))
                    .append("\"/>\n");
            text(out, LEFT + WIDTH * i / 4.0, TOP + HEIGHT + 14, "middle", label(x));
            text(out, LEFT - 5, TOP + HEIGHT * (1 - i / 4.0) + 4, "end", label(y));
        }
        text(out, LEFT + WIDTH / 2.0, TOP + HEIGHT + 32, "middle", across);
        out.append(String.format(
                Locale.ROOT,
                "<text transform=\"translate(12 %d) rotate(-90)\" text-anchor=\"middle\">%s</text>%n",
                TOP + HEIGHT / 2,
                up));
        int row = 0;
        if (bandX != null) {
            out.append(String.format(
                    Locale.ROOT,
                    "<rect x=\"%d\" y=\"%d\" width=\"24\" height=\"9\" fill=\"#ddd\"/>%n",
                    LEFT + WIDTH + 12,
                    TOP + 2));
            text(out, LEFT + WIDTH + 42, TOP + 10, "start", bandName);
            row++;
        }
        int named = -1;
        for (Line line : lines) {
            // What has no name belongs to the entry before it: same colour, no place of its own beside the chart.
            boolean entry = !line.name.isEmpty();
            named += entry ? 1 : 0;
            int y = TOP + 7 + 16 * (row + named);
            String style = "stroke=\"" + COLOUR[named % COLOUR.length] + "\"";
            if (line.marks) {
                for (int k = 0; k < line.x.length; k++) {
                    out.append("<circle r=\"3\" fill=\"#fff\" ")
                            .append(style)
                            .append(" transform=\"translate(")
                            .append(point(line.x[k], line.y[k]))
                            .append(")\"/>\n");
                }
                if (entry) {
                    out.append(String.format(
                            Locale.ROOT,
                            "<circle cx=\"%d\" cy=\"%d\" r=\"3\" fill=\"#fff\" %s/>%n",
                            LEFT + WIDTH + 24,
                            y,
                            style));
                }
            } else {
                style += " fill=\"none\" stroke-width=\"1.4\" stroke-dasharray=\"" + DASH[named % DASH.length] + "\"";
                out.append("<polyline ").append(style).append(" points=\"");
                for (int k = 0; k < line.x.length; k++) {
                    out.append(k == 0 ? "" : " ").append(point(line.x[k], line.y[k]));
                }
                out.append("\"/>\n");
                if (entry) {
                    out.append(
                            String.format(Locale.ROOT, "<path %s d=\"M%d,%d h24\"/>%n", style, LEFT + WIDTH + 12, y));
                }
            }
            if (entry) {
                text(out, LEFT + WIDTH + 42, y + 4, "start", line.name);
            }
        }
        return out.append("</svg>\n").toString();
    }

    private static String label(double value) {
        String text = String.format(Locale.ROOT, Math.abs(value) >= 1000 ? "%.0f" : "%.3g", value);
        return text.contains("e") || !text.contains(".")
                ? text
                : text.replaceAll("0+$", "").replaceAll("\\.$", "");
    }

    private static void text(StringBuilder out, double x, double y, String anchor, String text) {
        out.append(String.format(
                Locale.ROOT,
                "<text x=\"%s\" y=\"%s\" text-anchor=\"%s\">%s</text>%n",
                number(x),
                number(y),
                anchor,
                text));
    }
}
