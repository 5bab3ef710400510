package purgewright.fluids.phase;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.TreeMap;
import purgewright.fluids.PropertyException;
import purgewright.fluids.helmholtz.Coefficients;
import purgewright.fluids.helmholtz.HelmholtzEquation;
import purgewright.fluids.helmholtz.HelmholtzEquation.Workspace;

/**
 * Makes the {@code .sat} resource files from the {@code .eos} ones. Run its {@code main} with the resource folder as argument after a
 * change of coefficients; a test holds the files against the equations.
 */
public final class GenerateSaturation {
    /** Degree 15: with pieces halved until the tail is rounding, 5 to 12 pieces a line. */
    private static final int NODES = 16;

    /** A piece this short may stay unsplit. */
    private static final double COARSE_END = 4e-3;

    private static final double NARROWEST = 1.2e-3;

    private final SaturationSolver solver;
    private final HelmholtzEquation equation;
    private final SaturationSolver.Critical critical;
    private final Workspace work;
    private final double triple;
    /** Solved pairs by x, for starting guesses near the critical point. */
    private final TreeMap<Double, SaturationSolver.Pair> solved = new TreeMap<>();

    private GenerateSaturation(Coefficients coefficients) {
        equation = new HelmholtzEquation(coefficients);
        solver = new SaturationSolver(coefficients, equation);
        critical = solver.critical(
                coefficients.number("critical.temperature"),
                coefficients.number("critical.density") * coefficients.number("molar_mass"));
        work = equation.workspace();
        triple = coefficients.number("triple.temperature");
    }

    /** @param arguments the folder with the {@code .eos} files, then optionally names of fluids */
    public static void main(String[] arguments) throws IOException {
        Path folder = Path.of(arguments[0]);
        List<Path> files = new ArrayList<>();
        try (var found = Files.newDirectoryStream(folder, "*.eos")) {
            found.forEach(files::add);
        }
        files.sort(Comparator.naturalOrder());
        for (Path file : files) {
            String name = file.getFileName().toString().replace(".eos", "");
            if (arguments.length > 1 && !List.of(arguments).contains(name)) {
                continue;
            }
            String text = new GenerateSaturation(Coefficients.read(name + ".eos")).text(name);
            Files.writeString(folder.resolve(name + ".sat"), text, StandardCharsets.UTF_8);
        }
    }

    private SaturationSolver.Pair pair(double x) {
        return solved.computeIfAbsent(x, this::solve);
    }

    private SaturationSolver.Pair solve(double x) {
        double t = critical.temperature() * (1 - x * x);
        var above = solved.ceilingEntry(x);
        if (x > 0.35 || above == null) {
            return solver.solve(t);
        }
        // in x the branches are mirror images: scale the half-difference with x, the mean with x^2
        var p = above.getValue();
        double scale = x / above.getKey();
        double mean = 0.5 * (p.liquidDensity() + p.vapourDensity());
        double half = 0.5 * (p.liquidDensity() - p.vapourDensity());
        mean = critical.density() + (mean - critical.density()) * scale * scale;
        half *= scale;
        var found = solver.solve(t, mean + half, mean - half);
        double wide = 0.5 * (found.liquidDensity() - found.vapourDensity());
        double middle = 0.5 * (found.liquidDensity() + found.vapourDensity());
        if (Math.abs(wide - half) > 0.2 * half || Math.abs(middle - mean) > 0.2 * half) {
            throw new PropertyException(
                    PropertyException.Key.NO_CONVERGENCE,
                    Map.of("temperature", t, "half difference", wide, "expected", half));
        }
        return found;
    }

    /** The columns of {@link SaturationLine} at x; negative x is the mirror image. */
    private double[] columns(double x) {
        var p = pair(Math.abs(x));
        double[] c = new double[SaturationLine.COLUMNS];
        c[SaturationLine.LOG_PRESSURE] = Math.log(p.pressure() / critical.pressure());
        phase(c, p, p.liquidDensity(), x >= 0, true);
        phase(c, p, p.vapourDensity(), x >= 0, false);
        return c;
    }

    private void phase(double[] c, SaturationSolver.Pair p, double density, boolean straight, boolean liquid) {
        equation.setTemperature(work, p.temperature());
        equation.ideal(work);
        equation.setDensity(work, density);
        int shift = straight == liquid ? 0 : 1;
        c[SaturationLine.LOG_LIQUID_DENSITY + shift] = Math.log(density / critical.density());
        c[SaturationLine.LIQUID_ENTHALPY + shift] = equation.enthalpy(work);
        c[SaturationLine.LIQUID_ENTROPY + shift] = equation.entropy(work);
    }

    private String text(String name) {
        StringBuilder out = new StringBuilder();
        double end = Math.sqrt((critical.temperature() - triple) / critical.temperature());
        // solve from cold to critical so that guesses exist
        for (double x = end; x > 2e-4; x *= 0.98) {
            pair(x);
        }
        out.append("# Expansions of the saturation line of ").append(name);
        out.append(", made by GenerateSaturation from ").append(name).append(".eos; SI.\n");
        out.append("# Rows: valid from, interval's low and high end, then Chebyshev coefficients.\n");
        line(out, "critical.temperature", critical.temperature());
        line(out, "critical.pressure", critical.pressure());
        line(out, "critical.density", critical.density());
        line(out, "triple.temperature", triple);
        line(out, "triple.pressure", pair(end).pressure());
        List<double[][]> pieces = new ArrayList<>();
        List<double[]> ranges = new ArrayList<>();
        split(0, end, pieces, ranges);
        for (int c = 0; c < SaturationLine.COLUMNS; c++) {
            for (int i = 0; i < pieces.size(); i++) {
                row(out, "x." + c, ranges.get(i), pieces.get(i)[c]);
            }
        }
        double highestY = Math.sqrt(-columns(end)[SaturationLine.LOG_PRESSURE]);
        List<double[]> yPieces = new ArrayList<>();
        List<double[]> yRanges = new ArrayList<>();
        SaturationPieces line = new SaturationPieces(pieces, ranges);
        splitY(0, highestY * (1 + 1e-12), end, line, yPieces, yRanges);
        for (int i = 0; i < yPieces.size(); i++) {
            row(out, "y", yRanges.get(i), yPieces.get(i));
        }
        System.out.printf(
                Locale.ROOT,
                "%s Tc %.10g K pc %.10g Pa rhoc %.9g kg/m3, %d pieces in x, %d in y, %d bytes%n",
                name,
                critical.temperature(),
                critical.pressure(),
                critical.density(),
                pieces.size(),
                yPieces.size(),
                out.length());
        return out.toString();
    }

    private void split(double low, double high, List<double[][]> pieces, List<double[]> ranges) {
        double from = low == 0 ? -high : low;
        double[][] values = new double[SaturationLine.COLUMNS][NODES];
        for (int k = 0; k < NODES; k++) {
            double x = 0.5 * (from + high) + 0.5 * (high - from) * Math.cos(Math.PI * (k + 0.5) / NODES);
            double[] c = columns(x);
            for (int j = 0; j < c.length; j++) {
                values[j][k] = c[j];
            }
        }
        double[][] coefficients = new double[SaturationLine.COLUMNS][];
        boolean good = true;
        for (int j = 0; j < SaturationLine.COLUMNS; j++) {
            coefficients[j] = chebyshev(values[j]);
            // even for the mirror-image piece, so that half its odd terms vanish: look at the last two
            double tail = Math.abs(coefficients[j][NODES - 1]) + Math.abs(coefficients[j][NODES - 2]);
            double scale = j <= SaturationLine.LOG_VAPOUR_DENSITY
                    ? 1
                    : j <= SaturationLine.VAPOUR_ENTHALPY
                            ? equation.gasConstant() * critical.temperature()
                            : equation.gasConstant();
            double smallest = low == 0 ? high * Math.sin(Math.PI / (2 * NODES)) : low;
            double noise = 3e-15 / (smallest * smallest);
            good &= tail < Math.max(5e-13, noise) * scale;
        }
        if (!good && high - low > NARROWEST) {
            double middle = 0.5 * (low + high);
            try {
                split(low, middle, pieces, ranges);
            } catch (PropertyException e) {
                if (low > 0 || high > COARSE_END) {
                    throw e;
                }
                // double precision cannot tell the phases apart any closer: keep the wider piece
                pieces.add(coefficients);
                ranges.add(new double[] {low, from, high});
                return;
            }
            split(middle, high, pieces, ranges);
        } else {
            pieces.add(coefficients);
            ranges.add(new double[] {low, from, high});
        }
    }

    private void splitY(
            double low, double high, double end, SaturationPieces line, List<double[]> pieces, List<double[]> ranges) {
        double from = low == 0 ? -high : low;
        double[] values = new double[NODES];
        for (int k = 0; k < NODES; k++) {
            double y = 0.5 * (from + high) + 0.5 * (high - from) * Math.cos(Math.PI * (k + 0.5) / NODES);
            double size = Math.abs(y);
            double x = line.invert(-size * size, end);
            values[k] = y < 0 ? -x : x;
        }
        double[] c = chebyshev(values);
        double tail = Math.abs(c[NODES - 1]) + Math.abs(c[NODES - 2]);
        if (tail > 5e-14 && high - low > NARROWEST) {
            double middle = 0.5 * (low + high);
            splitY(low, middle, end, line, pieces, ranges);
            splitY(middle, high, end, line, pieces, ranges);
        } else {
            pieces.add(c);
            ranges.add(new double[] {low, from, high});
        }
    }

    private static double[] chebyshev(double[] values) {
        int n = values.length;
        double[] c = new double[n];
        for (int j = 0; j < n; j++) {
            double sum = 0;
            for (int k = 0; k < n; k++) {
                sum += values[k] * Math.cos(Math.PI * j * (k + 0.5) / n);
            }
            c[j] = (j == 0 ? 1.0 : 2.0) / n * sum;
        }
        return c;
    }

    private static void row(StringBuilder out, String key, double[] range, double[] coefficients) {
        out.append(key);
        for (double v : range) {
            out.append(' ').append(v);
        }
        for (double v : coefficients) {
            out.append(' ').append(v);
        }
        out.append('\n');
    }

    private static void line(StringBuilder out, String key, double value) {
        out.append(key).append(' ').append(value).append('\n');
    }

    /** The fitted log pressure over x, to be inverted. */
    private record SaturationPieces(List<double[][]> pieces, List<double[]> ranges) {
        double value(double x) {
            int i = ranges.size() - 1;
            while (i > 0 && x < ranges.get(i)[0]) {
                i--;
            }
            double[] c = pieces.get(i)[SaturationLine.LOG_PRESSURE];
            double[] r = ranges.get(i);
            double u = (2 * x - r[1] - r[2]) / (r[2] - r[1]);
            double b1 = 0;
            double b2 = 0;
            for (int k = c.length - 1; k > 0; k--) {
                double b = 2 * u * b1 - b2 + c[k];
                b2 = b1;
                b1 = b;
            }
            return u * b1 - b2 + c[0];
        }

        /** x at a log pressure; Newton on y(x) = sqrt(-value), which is nearly a straight line, from a bracket. */
        double invert(double logPressure, double end) {
            double y = Math.sqrt(-logPressure);
            double low = 0;
            double high = end * 1.0001;
            double x = 0.5 * end;
            for (int i = 0; i < 200; i++) {
                double error = Math.sqrt(Math.max(0, -value(x))) - y;
                if (error > 0) {
                    high = x;
                } else {
                    low = x;
                }
                double step = 1e-6 * Math.max(x, 1e-3);
                double slope = (Math.sqrt(Math.max(0, -value(x + step)))
                                - Math.sqrt(Math.max(0, -value(Math.max(0, x - step)))))
                        / (x + step - Math.max(0, x - step));
                double next = x - error / slope;
                if (!(next > low && next < high)) {
                    next = 0.5 * (low + high);
                }
                if (Math.abs(next - x) < 1e-16) {
                    return next;
                }
                x = next;
            }
            return x;
        }
    }
}
