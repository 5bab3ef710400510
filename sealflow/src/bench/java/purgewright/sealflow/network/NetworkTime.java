package purgewright.sealflow.network;

import java.io.IOException;
import java.lang.management.ManagementFactory;
import java.lang.management.ThreadMXBean;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Random;
import purgewright.fluids.Engines;
import purgewright.sealflow.model.Case;
import purgewright.sealflow.network.SolveResult.Converged;

/**
 * Processor time of network solves, for a machine that is shared with other work: by sample, and by the number of cavities. Writes
 * the chart of {@code docs/performance.md}. Run from the project's root; the only argument is where the chart goes.
 */
public final class NetworkTime {
    private static final ThreadMXBean THREADS = ManagementFactory.getThreadMXBean();
    private static final int[] SIZES = {10, 30, 100, 300, 1000};

    private final NetworkSolver solver = new NetworkSolver(Engines.embedded(), SolverSettings.DEFAULT);

    private NetworkTime() {}

    /** Prints tables; writes the chart. */
    public static void main(String[] arguments) throws IOException {
        NetworkTime time = new NetworkTime();
        for (String sample : new String[] {"minimal", "spaced-lox-methane", "shared-rotor-kerosene"}) {
            time.sample(sample);
        }
        // 12 free cavities and 16 passages.
        time.chain(12);
        List<double[]> rows = new ArrayList<>();
        for (int size : SIZES) {
            rows.add(time.chain(size));
        }
        if (arguments.length > 0) {
            Files.writeString(Path.of(arguments[0]), chart(rows));
        }
    }

    private double once(Case model, Converged guess) {
        long start = THREADS.getCurrentThreadCpuTime();
        SolveResult result = solver.solve(model, guess);
        double milliseconds = (THREADS.getCurrentThreadCpuTime() - start) / 1e6;
        if (!(result instanceof Converged)) {
            System.out.println("not solved: " + ((SolveResult.NotConverged) result).detail());
        }
        return milliseconds;
    }

    private void sample(String name) {
        Case stated = BenchCases.sample(name);
        Converged base = (Converged) solver.solve(stated, null);
        Random random = new Random(1);
        int count = 150;
        double[] cold = new double[count];
        double[] warm = new double[count];
        for (int i = -100; i < count; i++) {
            Case model = BenchCases.perturbed(stated, random, 0.02);
            double c = once(model, null);
            double w = once(model, base);
            if (i >= 0) {
                cold[i] = c;
                warm[i] = w;
            }
        }
        print(name + " cold", cold);
        print(name + " warm", warm);
    }

    private double[] chain(int cavities) {
        Case model = BenchCases.chain(cavities);
        int count = Math.max(3, 400 / cavities);
        double[] cold = new double[count];
        double[] warm = new double[count];
        Converged base = (Converged) solver.solve(model, null);
        Random random = new Random(1);
        for (int i = -count / 2; i < count; i++) {
            Case other = BenchCases.perturbed(model, random, 0.02);
            double c = once(other, null);
            double w = once(other, base);
            if (i >= 0) {
                cold[i] = c;
                warm[i] = w;
            }
        }
        String name = cavities + " cavities, " + model.passages().size() + " passages, "
                + base.convergence().iterations() + " iterations";
        print(name + ", cold", cold);
        print(name + ", warm", warm);
        return new double[] {cavities, median(cold), median(warm)};
    }

    private static double median(double[] values) {
        double[] sorted = values.clone();
        Arrays.sort(sorted);
        return sorted[sorted.length / 2];
    }

    private static void print(String name, double[] values) {
        double[] sorted = values.clone();
        Arrays.sort(sorted);
        System.out.printf(
                Locale.ROOT,
                "%-60s median %8.3f ms, least %8.3f ms, mean %8.3f ms%n",
                name,
                median(values),
                sorted[0],
                Arrays.stream(values).average().orElse(0));
    }

    /** Both axes logarithmic; a grey line of slope one through the first cold point. */
    private static String chart(List<double[]> rows) {
        double left = 70;
        double bottom = 300;
        StringBuilder svg = new StringBuilder();
        svg.append("<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"560\" height=\"350\" font-family=\"sans-serif\"")
                .append(" font-size=\"12\">\n<title>Processor time of a network solve by number of cavities</title>\n")
                .append("<rect width=\"560\" height=\"350\" fill=\"white\"/>\n");
        for (int decade = -1; decade <= 4; decade++) {
            double y = bottom - (decade + 1) * 50;
            svg.append(String.format(
                    Locale.ROOT,
                    "<path d=\"M%.0f %.0fH530\" stroke=\"#ccc\"/><text x=\"%.0f\" y=\"%.0f\" text-anchor=\"end\">%s ms</text>%n",
                    left,
                    y,
                    left - 6,
                    y + 4,
                    decade < 0 ? "0.1" : String.valueOf((long) Math.pow(10, decade))));
        }
        for (int size : SIZES) {
            svg.append(String.format(
                    Locale.ROOT, "<text x=\"%.0f\" y=\"318\" text-anchor=\"middle\">%d</text>%n", across(size), size));
        }
        svg.append("<text x=\"300\" y=\"340\" text-anchor=\"middle\">free cavities (1.2 passages each)</text>\n");
        double first = rows.get(0)[1];
        line(svg, "#999999", "4 4", new double[][] {{10, first}, {1000, 100 * first}});
        text(svg, "linear", "#666666", 1000, 100 * first, 16);
        for (int column = 1; column <= 2; column++) {
            String colour = column == 1 ? "#D55E00" : "#009E73";
            double[][] points = new double[rows.size()][];
            for (int i = 0; i < points.length; i++) {
                points[i] = new double[] {rows.get(i)[0], rows.get(i)[column]};
            }
            line(svg, colour, column == 1 ? "none" : "8 3", points);
            for (double[] p : points) {
                svg.append(String.format(
                        Locale.ROOT,
                        "<circle cx=\"%.1f\" cy=\"%.1f\" r=\"3.5\" fill=\"%s\"/>%n",
                        across(p[0]),
                        up(p[1]),
                        colour));
            }
            text(svg, column == 1 ? "cold start" : "warm start", colour, 100, points[2][1], column == 1 ? -10 : 18);
        }
        return svg.append("</svg>\n").toString();
    }

    private static void line(StringBuilder svg, String colour, String dash, double[][] points) {
        svg.append("<polyline fill=\"none\" stroke-width=\"2\" stroke=\"")
                .append(colour)
                .append("\" stroke-dasharray=\"")
                .append(dash)
                .append("\" points=\"");
        for (double[] p : points) {
            svg.append(String.format(Locale.ROOT, "%.1f,%.1f ", across(p[0]), up(p[1])));
        }
        svg.append("\"/>\n");
    }

    private static void text(StringBuilder svg, String words, String colour, double x, double y, double shift) {
        svg.append(String.format(
                Locale.ROOT,
                "<text x=\"%.1f\" y=\"%.1f\" fill=\"%s\" text-anchor=\"middle\">%s</text>%n",
                Math.min(505, across(x)),
                up(y) + shift,
                colour,
                words));
    }

    private static double across(double cavities) {
        return 90 + 210 * Math.log10(cavities / 10);
    }

    private static double up(double milliseconds) {
        return 250 - 50 * Math.log10(milliseconds);
    }
}
