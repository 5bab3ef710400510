package purgewright.hazard.service;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.apache.commons.math3.linear.Array2DRowRealMatrix;
import org.apache.commons.math3.linear.QRDecomposition;
import org.apache.commons.math3.linear.RealMatrix;
import org.apache.commons.math3.linear.SingularMatrixException;
import purgewright.fluids.FluidState;
import purgewright.sealflow.network.SolveResult.CavityState;
import purgewright.sealflow.network.SolveResult.Converged;

/**
 * Where to start the solve of a sample: a second-order surface through solved points, by least squares, in ln p, h and the streams'
 * fractions of every free cavity. It saves most of the iterations and decides nothing: a solve ends at its own closure.
 *
 * <p>The solved points are fixed by case and settings, so the start of a sample is too. Immutable.
 */
final class Starts {
    /** Solved points over terms of the surface: enough that one odd point does no harm. */
    private static final int OVERSAMPLED = 2;

    private final Converged pattern;
    private final double[] centre;
    private final double[] scale;
    private final boolean mixed;
    private final List<String> cavities;
    private final List<String> streams;
    private final double[][] coefficients;

    private Starts(
            Converged pattern,
            double[] centre,
            double[] scale,
            boolean mixed,
            List<String> cavities,
            List<String> streams,
            double[][] coefficients) {
        this.pattern = pattern;
        this.centre = centre;
        this.scale = scale;
        this.mixed = mixed;
        this.cavities = cavities;
        this.streams = streams;
        this.coefficients = coefficients;
    }

    /** Terms of the surface: with products of two inputs, or without. */
    private static int terms(int inputs, boolean mixed) {
        return mixed ? (inputs + 1) * (inputs + 2) / 2 : 2 * inputs + 1;
    }

    /**
     * How many points to solve for a surface; 0 when none would pay for so many samples.
     *
     * @param samples that will start from it
     */
    static int points(int inputs, int samples) {
        int full = OVERSAMPLED * terms(inputs, true) + 10;
        int plain = OVERSAMPLED * terms(inputs, false) + 10;
        return samples >= 10L * full && inputs <= 30 ? full : samples >= 5L * plain ? plain : 0;
    }

    /**
     * Fits the surface of one phase; null when too few points were solved.
     *
     * @param nominal the nominal point's solution
     * @param centre nominal inputs
     * @param scale standard deviations of the inputs; 0 for one that does not vary
     * @param inputs of the solved points
     * @param solved their solutions, null where there is none
     */
    static Starts fit(
            Converged nominal, double[] centre, double[] scale, List<double[]> inputs, List<Converged> solved) {
        List<String> cavities = new ArrayList<>();
        List<String> streams = new ArrayList<>();
        for (CavityState c : nominal.cavities().values()) {
            if (!c.fixed()) {
                cavities.add(c.name());
                c.streamFractions().keySet().forEach(s -> {
                    if (!streams.contains(s)) {
                        streams.add(s);
                    }
                });
            }
        }
        List<double[]> rows = new ArrayList<>();
        List<double[]> values = new ArrayList<>();
        boolean mixed = solved.size() >= OVERSAMPLED * terms(centre.length, true);
        for (int n = 0; n < solved.size(); n++) {
            if (solved.get(n) != null) {
                rows.add(basis(inputs.get(n), centre, scale, mixed));
                values.add(values(solved.get(n), cavities, streams));
            }
        }
        if (rows.size() < 1.5 * terms(centre.length, mixed)) {
            return null;
        }
        try {
            RealMatrix a = new Array2DRowRealMatrix(rows.toArray(new double[0][]), false);
            RealMatrix b = new Array2DRowRealMatrix(values.toArray(new double[0][]), false);
            double[][] fitted = new QRDecomposition(a).getSolver().solve(b).getData();
            return new Starts(nominal, centre, scale, mixed, cavities, streams, fitted);
        } catch (SingularMatrixException e) {
            // An input that does not vary, say: the nominal point is start enough.
            return null;
        }
    }

    private static double[] basis(double[] x, double[] centre, double[] scale, boolean mixed) {
        int d = x.length;
        double[] t = new double[d];
        for (int i = 0; i < d; i++) {
            t[i] = scale[i] > 0 ? (x[i] - centre[i]) / scale[i] : 0;
        }
        double[] row = new double[terms(d, mixed)];
        row[0] = 1;
        int at = 1;
        for (int i = 0; i < d; i++) {
            row[at++] = t[i];
        }
        for (int i = 0; i < d; i++) {
            for (int j = i; j < d; j++) {
                if (i == j || mixed) {
                    row[at++] = t[i] * t[j];
                }
            }
        }
        return row;
    }

    private static double[] values(Converged c, List<String> cavities, List<String> streams) {
        int width = 2 + streams.size();
        double[] out = new double[cavities.size() * width];
        for (int i = 0; i < cavities.size(); i++) {
            CavityState s = c.cavities().get(cavities.get(i));
            out[i * width] = Math.log(s.state().pressure());
            out[i * width + 1] = s.state().enthalpy();
            for (int k = 0; k < streams.size(); k++) {
                out[i * width + 2 + k] = s.streamFractions().getOrDefault(streams.get(k), 0.0);
            }
        }
        return out;
    }

    /** A start: pressures, enthalpies and fractions are those of the surface, all else is the nominal point's and not to be used. */
    Converged at(double[] x) {
        double[] row = basis(x, centre, scale, mixed);
        int width = 2 + streams.size();
        Map<String, CavityState> out = new LinkedHashMap<>(pattern.cavities());
        for (int i = 0; i < cavities.size(); i++) {
            double[] v = new double[width];
            for (int k = 0; k < width; k++) {
                for (int n = 0; n < row.length; n++) {
                    v[k] += row[n] * coefficients[n][i * width + k];
                }
            }
            CavityState c = pattern.cavities().get(cavities.get(i));
            double sum = 0;
            for (int k = 2; k < width; k++) {
                v[k] = Math.max(0, v[k]);
                sum += v[k];
            }
            Map<String, Double> fractions = new LinkedHashMap<>();
            for (int k = 0; k < streams.size(); k++) {
                fractions.put(streams.get(k), v[2 + k] / sum);
            }
            out.put(c.name(), with(c, Math.exp(v[0]), v[1], fractions));
        }
        return new Converged(pattern.convergence(), out, pattern.passages(), pattern.notices());
    }

    /**
     * A start for two faults together: what each changes alone, added up in ln p, h and the streams' fractions, and held within what the
     * case as stated and the two faults have. Pressures, enthalpies and fractions alone are meant to be used.
     */
    static Converged together(Converged base, Converged a, Converged b) {
        Map<String, CavityState> out = new LinkedHashMap<>(a.cavities());
        for (CavityState x : a.cavities().values()) {
            CavityState y = b.cavities().get(x.name());
            CavityState o = base.cavities().get(x.name());
            if (y == null || o == null || (y.fixed() && x.fixed())) {
                continue;
            }
            if (x.fixed() || y.fixed() || o.fixed()) {
                // Let loose by one of the two faults: only that one knows where it stands.
                out.put(x.name(), x.fixed() ? y : x);
                continue;
            }
            FluidState s = x.state();
            FluidState t = y.state();
            FluidState u = o.state();
            double pressure =
                    within(s.pressure() * t.pressure() / u.pressure(), s.pressure(), t.pressure(), u.pressure());
            double enthalpy =
                    within(s.enthalpy() + t.enthalpy() - u.enthalpy(), s.enthalpy(), t.enthalpy(), u.enthalpy());
            Map<String, Double> fractions = new LinkedHashMap<>();
            double sum = 0;
            for (Map.Entry<String, Double> e : x.streamFractions().entrySet()) {
                double there = y.streamFractions().getOrDefault(e.getKey(), 0.0);
                double stated = o.streamFractions().getOrDefault(e.getKey(), 0.0);
                double both = within(e.getValue() + there - stated, e.getValue(), there, stated);
                fractions.put(e.getKey(), both);
                sum += both;
            }
            double total = sum;
            fractions.replaceAll((k, v) -> v / total);
            out.put(x.name(), with(x, pressure, enthalpy, fractions));
        }
        return new Converged(a.convergence(), out, a.passages(), a.notices(), a.memory());
    }

    private static double within(double value, double a, double b, double c) {
        return Math.max(Math.min(a, Math.min(b, c)), Math.min(Math.max(a, Math.max(b, c)), value));
    }

    /** The cavity at another pressure (Pa), enthalpy (J/kg) and mixture: a place to start from, not a state. */
    static CavityState with(CavityState c, double pressure, double enthalpy, Map<String, Double> fractions) {
        FluidState s = c.state();
        FluidState there = new FluidState(
                s.fluid(),
                pressure,
                s.temperature(),
                s.density(),
                enthalpy,
                s.entropy(),
                s.cp(),
                s.cv(),
                s.soundSpeed(),
                s.quality(),
                s.phase(),
                s.extrapolated());
        return new CavityState(
                c.name(), false, there, fractions, c.massFractions(), c.moleFractions(), c.windage(), c.netMassFlow());
    }
}
