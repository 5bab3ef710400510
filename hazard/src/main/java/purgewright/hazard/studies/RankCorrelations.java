package purgewright.hazard.studies;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import org.apache.commons.math3.stat.correlation.SpearmansCorrelation;
import purgewright.hazard.studies.SpreadResult.Kept;
import purgewright.hazard.studies.SpreadResult.RankCorrelation;

/**
 * Spearman's rank correlation of every output with every input, by the library, over the samples that were kept.
 *
 * <p>Interval by Fisher's transformation with variance {@code 1.06 / (n - 3)}. Source: E. C. Fieller, H. O. Hartley, E. S. Pearson,
 * Biometrika 44 (1957) 470 [from memory].
 */
public final class RankCorrelations {
    private static final double VARIANCE = 1.06;

    private RankCorrelations() {}

    /** Strongest first within an output; outputs in their order. NaN where a side does not vary. */
    public static List<RankCorrelation> of(Kept kept, List<String> inputs, List<String> outputs, double confidence) {
        List<RankCorrelation> all = new ArrayList<>();
        for (int o = 0; o < outputs.size(); o++) {
            List<RankCorrelation> rows = new ArrayList<>();
            for (int i = 0; i < inputs.size(); i++) {
                rows.add(one(kept, i, o, inputs.get(i), outputs.get(o), confidence));
            }
            rows.sort(Comparator.comparingDouble(
                            (RankCorrelation r) -> Double.isNaN(r.coefficient()) ? 0 : -Math.abs(r.coefficient()))
                    .thenComparing(RankCorrelation::input));
            all.addAll(rows);
        }
        return List.copyOf(all);
    }

    private static RankCorrelation one(Kept kept, int i, int o, String input, String output, double confidence) {
        double[] x = new double[kept.index().size()];
        double[] y = new double[x.length];
        int n = 0;
        for (int k = 0; k < x.length; k++) {
            double value = kept.outputs().get(k)[o];
            if (Double.isFinite(value)) {
                x[n] = kept.inputs().get(k)[i];
                y[n] = value;
                n++;
            }
        }
        if (n < 4 || alike(x, n) || alike(y, n)) {
            return new RankCorrelation(output, input, Double.NaN, Double.NaN, Double.NaN, n);
        }
        double r = new SpearmansCorrelation().correlation(java.util.Arrays.copyOf(x, n), java.util.Arrays.copyOf(y, n));
        double half = -Distribution.Normal.standardQuantile((1 - confidence) / 2) * Math.sqrt(VARIANCE / (n - 3));
        double z = 0.5 * Math.log((1 + r) / (1 - r));
        boolean full = Math.abs(r) >= 1;
        return new RankCorrelation(output, input, r, full ? r : Math.tanh(z - half), full ? r : Math.tanh(z + half), n);
    }

    private static boolean alike(double[] x, int n) {
        for (int k = 1; k < n; k++) {
            if (x[k] != x[0]) {
                return false;
            }
        }
        return true;
    }
}
