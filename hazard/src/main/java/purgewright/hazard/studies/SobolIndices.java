package purgewright.hazard.studies;

import java.util.ArrayList;
import java.util.List;
import java.util.function.Function;
import purgewright.hazard.studies.SpreadResult.SobolIndex;
import purgewright.hazard.studies.SpreadSettings.Sampling;

/**
 * Shares of an output's variance: by one input alone (first), and with all its interactions (total).
 *
 * <pre>{@code
 * first_i = mean( f(B) (f(AB_i) - f(A)) ) / V        (Saltelli et al. 2010)
 * total_i = mean( (f(A) - f(AB_i))^2 ) / (2 V)       (Jansen 1999)
 * }</pre>
 *
 * <p>A and B are two halves of points of Sobol's sequence in twice the dimensions, AB_i is A with column i from B. f is centred on its
 * mean first, which takes nothing from the result and much from the noise. For independent inputs only. Rows in which any of the
 * evaluations has no value are left out.
 *
 * <p>Sources: A. Saltelli et al., Comput. Phys. Commun. 181 (2010) 259; M. J. W. Jansen, Comput. Phys. Commun. 117 (1999) 35 [from
 * memory].
 */
public final class SobolIndices {
    private SobolIndices() {}

    /**
     * @param base rows of A and of B; the function is evaluated {@code base (inputs + 2)} times
     * @param toInputs from a point of the unit cube to values of the inputs
     */
    public static List<SobolIndex> of(
            Batch function,
            Function<double[], double[]> toInputs,
            List<String> inputs,
            List<String> outputs,
            int base,
            long seed) {
        int d = inputs.size();
        UnitCube cube = new UnitCube(Sampling.SOBOL, seed, base, 2 * d);
        List<double[]> points = new ArrayList<>();
        for (int n = 0; n < base; n++) {
            double[] u = cube.point(n);
            double[] a = java.util.Arrays.copyOfRange(u, 0, d);
            double[] b = java.util.Arrays.copyOfRange(u, d, 2 * d);
            points.add(toInputs.apply(a));
            points.add(toInputs.apply(b));
            for (int i = 0; i < d; i++) {
                double[] mixed = a.clone();
                mixed[i] = b[i];
                points.add(toInputs.apply(mixed));
            }
        }
        List<double[]> values = function.at(points);
        List<SobolIndex> out = new ArrayList<>();
        for (int o = 0; o < outputs.size(); o++) {
            out.addAll(one(values, o, base, inputs, outputs.get(o)));
        }
        return List.copyOf(out);
    }

    private static List<SobolIndex> one(List<double[]> values, int o, int base, List<String> inputs, String output) {
        int d = inputs.size();
        List<Integer> rows = new ArrayList<>();
        double mean = 0;
        for (int n = 0; n < base; n++) {
            boolean whole = true;
            for (int k = 0; k < d + 2; k++) {
                whole &= Double.isFinite(values.get(n * (d + 2) + k)[o]);
            }
            if (whole) {
                rows.add(n);
                mean += values.get(n * (d + 2))[o] + values.get(n * (d + 2) + 1)[o];
            }
        }
        int count = rows.size();
        mean /= 2.0 * count;
        double variance = 0;
        for (int n : rows) {
            variance += square(values.get(n * (d + 2))[o] - mean) + square(values.get(n * (d + 2) + 1)[o] - mean);
        }
        variance /= 2.0 * count;
        List<SobolIndex> out = new ArrayList<>();
        for (int i = 0; i < d; i++) {
            double first = 0;
            double firstSquares = 0;
            double total = 0;
            double totalSquares = 0;
            for (int n : rows) {
                double a = values.get(n * (d + 2))[o] - mean;
                double b = values.get(n * (d + 2) + 1)[o] - mean;
                double ab = values.get(n * (d + 2) + 2 + i)[o] - mean;
                double f = b * (ab - a) / variance;
                double t = square(a - ab) / (2 * variance);
                first += f;
                firstSquares += f * f;
                total += t;
                totalSquares += t * t;
            }
            boolean known = count > 1 && variance > 0;
            out.add(new SobolIndex(
                    output,
                    inputs.get(i),
                    known ? first / count : Double.NaN,
                    known ? error(first, firstSquares, count) : Double.NaN,
                    known ? total / count : Double.NaN,
                    known ? error(total, totalSquares, count) : Double.NaN,
                    (long) base * (d + 2)));
        }
        return out;
    }

    private static double error(double sum, double squares, int n) {
        return Math.sqrt(Math.max(0, squares / n - square(sum / n)) / n);
    }

    private static double square(double x) {
        return x * x;
    }
}
