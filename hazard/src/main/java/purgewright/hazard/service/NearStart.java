package purgewright.hazard.service;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.apache.commons.math3.linear.Array2DRowRealMatrix;
import org.apache.commons.math3.linear.LUDecomposition;
import org.apache.commons.math3.linear.RealMatrix;
import purgewright.sealflow.network.SolveResult.CavityState;
import purgewright.sealflow.network.SolveResult.Converged;

/**
 * Where to start the solve of a design beside others that are solved: the plane through the nearest ones, by least squares, held at the
 * nearest. In ln p, enthalpy and fractions of every free cavity over the logarithms of the design's values. It decides nothing: a
 * solve ends at its own closure.
 */
final class NearStart {
    /** Neighbours of a plane, beyond one for each number. */
    private static final int SPARE = 3;

    /** Numbers beyond which a plane would need more neighbours than lie near. */
    private static final int MOST_NUMBERS = 4;

    /** Keeps the plane level across directions in which no neighbour lies, as a share of the square of the neighbours' distance. */
    private static final double RIDGE = 1e-3;

    private NearStart() {}

    /** A solved design. */
    record Known(double[] values, Converged solve, Converged opened) {}

    /** Distance of two designs: greatest relative difference. */
    static double distance(double[] a, double[] b) {
        double most = 0;
        for (int i = 0; i < a.length; i++) {
            double scale = Math.max(Math.abs(a[i]), Math.abs(b[i]));
            most = Math.max(most, scale > 0 ? Math.abs(a[i] - b[i]) / scale : 0);
        }
        return most;
    }

    /** The nearest first, at most as many as a plane needs. */
    static List<Known> nearest(List<Known> known, double[] design) {
        List<Known> sorted = new ArrayList<>(known);
        sorted.sort(Comparator.comparingDouble(k -> distance(k.values(), design)));
        return sorted.subList(0, Math.min(sorted.size(), design.length + 1 + SPARE));
    }

    /**
     * A start; only its pressures, enthalpies and fractions are to be used.
     *
     * @param near the nearest first; those without a state of this kind are null
     * @param states of the neighbours, in the same order
     * @return the nearest one's where there are too few for a plane; null where even that is missing
     */
    static Converged at(double[] design, List<Known> near, List<Converged> states) {
        List<double[]> offsets = new ArrayList<>();
        List<Converged> others = new ArrayList<>();
        Converged anchor = null;
        double[] origin = null;
        for (int i = 0; i < near.size(); i++) {
            Converged c = states.get(i);
            if (c == null) {
                continue;
            }
            if (anchor == null) {
                anchor = c;
                origin = near.get(i).values();
            } else {
                offsets.add(offset(near.get(i).values(), origin));
                others.add(c);
            }
        }
        int n = design.length;
        if (anchor == null || others.size() < n || n > MOST_NUMBERS) {
            return anchor;
        }
        double[] step = offset(design, origin);
        double far = 0;
        for (double[] o : offsets) {
            far = Math.max(far, length(o));
        }
        double reach = length(step);
        if (reach == 0 || !(far > 0)) {
            return anchor;
        }
        // How much of each neighbour's difference from the anchor goes in: the step times the pseudo-inverse of the
        // offsets.
        RealMatrix normal = new Array2DRowRealMatrix(n, n);
        for (int r = 0; r < n; r++) {
            for (int c = 0; c < n; c++) {
                double sum = r == c ? RIDGE * others.size() : 0;
                for (double[] o : offsets) {
                    sum += o[r] * o[c] / (length(o) * length(o) + 1e-300);
                }
                normal.setEntry(r, c, sum);
            }
        }
        double[] w = new LUDecomposition(normal)
                .getSolver()
                .solve(new org.apache.commons.math3.linear.ArrayRealVector(step, false))
                .toArray();
        // Beyond the neighbours a plane soon leads astray.
        double held = Math.min(1, 2 * far / reach);
        double[] share = new double[others.size()];
        for (int k = 0; k < share.length; k++) {
            double[] o = offsets.get(k);
            double dot = 0;
            for (int i = 0; i < n; i++) {
                dot += w[i] * o[i];
            }
            share[k] = held * dot / (length(o) * length(o) + 1e-300);
        }
        return blended(anchor, others, share);
    }

    private static double length(double[] v) {
        double sum = 0;
        for (double x : v) {
            sum += x * x;
        }
        return Math.sqrt(sum);
    }

    private static double[] offset(double[] a, double[] origin) {
        double[] out = new double[a.length];
        for (int i = 0; i < out.length; i++) {
            boolean log = a[i] > 0 && origin[i] > 0;
            double scale = Math.max(Math.abs(a[i]), Math.abs(origin[i]));
            out[i] = log ? Math.log(a[i] / origin[i]) : scale > 0 ? (a[i] - origin[i]) / scale : 0;
        }
        return out;
    }

    private static Converged blended(Converged anchor, List<Converged> others, double[] share) {
        Map<String, CavityState> out = new LinkedHashMap<>();
        for (CavityState c : anchor.cavities().values()) {
            out.put(c.name(), c.fixed() ? c : blended(c, others, share));
        }
        return new Converged(anchor.convergence(), out, anchor.passages(), anchor.notices(), anchor.memory());
    }

    private static CavityState blended(CavityState c, List<Converged> others, double[] share) {
        double lnP = Math.log(c.state().pressure());
        double h = c.state().enthalpy();
        double p0 = lnP;
        double h0 = h;
        Map<String, Double> y = new LinkedHashMap<>(c.streamFractions());
        for (int k = 0; k < share.length; k++) {
            CavityState o = others.get(k).cavities().get(c.name());
            if (o == null
                    || !o.streamFractions().keySet().equals(c.streamFractions().keySet())) {
                return c;
            }
            lnP += share[k] * (Math.log(o.state().pressure()) - p0);
            h += share[k] * (o.state().enthalpy() - h0);
            for (Map.Entry<String, Double> e : c.streamFractions().entrySet()) {
                y.merge(e.getKey(), share[k] * (o.streamFractions().get(e.getKey()) - e.getValue()), Double::sum);
            }
        }
        double sum = 0;
        for (Map.Entry<String, Double> e : y.entrySet()) {
            e.setValue(Math.max(0, e.getValue()));
            sum += e.getValue();
        }
        if (!(sum > 0) || !Double.isFinite(lnP) || !Double.isFinite(h)) {
            return c;
        }
        double whole = sum;
        y.replaceAll((name, v) -> v / whole);
        return Starts.with(c, Math.exp(lnP), h, y);
    }
}
