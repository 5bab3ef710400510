package purgewright.fluids.burnt;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import purgewright.fluids.PropertyException;
import purgewright.fluids.PropertyException.Key;

/**
 * Chemical equilibrium by least Gibbs energy over the species table: ideal gas of C, H, O, N, He, Ar, and graphite on request.
 *
 * <pre>{@code minimise sum_j n_j (g_j + ln(n_j/n) + ln(p/p0))   subject to   sum_j a_ij n_j = b_i}</pre>
 *
 * <p>Newton on the stationarity conditions with the species eliminated, so that one small system for the element potentials and the
 * total amount is left; steps damped; started hot, where everything is mixed, and followed down in temperature. At given enthalpy the
 * temperature is bracketed (enthalpy rises with temperature at equilibrium). Form of the equations: S. Gordon, B. J. McBride, NASA
 * RP-1311 (1994), chapter 2 [from memory].
 *
 * <p>Valid 200 to 6000 K. Below 200 K the composition is that of 200 K and heat capacities are held. The table's Jet-A is a reactant
 * only, never a product.
 */
public final class Equilibrium {
    /** Reference pressure of the table, Pa. */
    private static final double STANDARD_PRESSURE = 1e5;

    /** Composition is not followed below, K. */
    private static final double COLDEST = 200;

    private static final double HOTTEST = 6000;
    private static final double START = 3000; // hot enough that no species is a trace
    private static final double STRIDE = 0.8; // ratio of neighbouring temperatures on the way down
    private static final String GRAPHITE = "C(gr)";

    private Equilibrium() {}

    /**
     * Equilibrium at pressure (Pa) and temperature (K) of the atoms in so many moles of species.
     *
     * @param moles by library name or formula
     * @param graphite true to allow condensed carbon
     */
    public static EquilibriumState atPressureTemperature(
            Map<String, Double> moles, double temperature, double pressure, boolean graphite) {
        if (!(temperature >= 20 && temperature <= HOTTEST)) {
            Map<String, Object> values = new LinkedHashMap<>();
            values.put("fluid", "equilibrium gas");
            values.put("temperature", temperature);
            values.put("minimum", 20.0);
            values.put("maximum", HOTTEST);
            throw new PropertyException(Key.TEMPERATURE_OUT_OF_RANGE, values);
        }
        Solver solver = new Solver(Elements.of(moles), pressure, graphite);
        solver.go(temperature);
        return solver.state(temperature);
    }

    /** Equilibrium at pressure (Pa) and enthalpy, gas only; see {@link #atPressureEnthalpy(Map, double, double, boolean)}. */
    public static EquilibriumState atPressureEnthalpy(Map<String, Double> moles, double enthalpy, double pressure) {
        return atPressureEnthalpy(moles, enthalpy, pressure, false);
    }

    /**
     * Adiabatic equilibrium at constant pressure: the flame temperature.
     *
     * @param moles by library name or formula
     * @param enthalpy of these moles together on the formation datum, J; for gases {@link #enthalpy}
     * @param pressure Pa
     * @param graphite true to allow condensed carbon
     */
    public static EquilibriumState atPressureEnthalpy(
            Map<String, Double> moles, double enthalpy, double pressure, boolean graphite) {
        Solver solver = new Solver(Elements.of(moles), pressure, graphite);
        double low = 20;
        double high = HOTTEST;
        double t = START;
        solver.go(t);
        double miss = enthalpy - solver.enthalpy(t);
        double lowMiss = Double.NaN;
        double highMiss = Double.NaN;
        for (int i = 0; i < 200; i++) {
            if (miss > 0) {
                low = t;
                lowMiss = miss;
            } else {
                high = t;
                highMiss = miss;
            }
            boolean bracketed = !Double.isNaN(lowMiss) && !Double.isNaN(highMiss);
            if ((bracketed && high - low <= 1e-10 * high) || miss == 0) {
                return solver.state(t);
            }
            double next;
            if (Double.isNaN(lowMiss)) {
                next = Math.max(low, t * STRIDE);
            } else if (Double.isNaN(highMiss)) {
                next = Math.min(high, t / STRIDE);
            } else {
                next = low + (high - low) * lowMiss / (lowMiss - highMiss);
                if (i % 3 == 2) {
                    next = (low + high) / 2;
                }
            }
            if (next == t && bracketed) {
                return solver.state(t);
            }
            if (next == t) {
                Map<String, Object> values = new LinkedHashMap<>();
                values.put("fluid", "equilibrium gas");
                values.put("pressure", pressure);
                values.put("enthalpy", enthalpy);
                throw new PropertyException(Key.NO_SUCH_STATE, values);
            }
            double before = t;
            t = next;
            solver.go(t);
            miss = enthalpy - solver.enthalpy(t);
            if (bracketed && Math.abs(t - before) <= 1e-10 * t) {
                return solver.state(t);
            }
        }
        return solver.state(t);
    }

    /** Enthalpy on the formation datum of so many moles of ideal gases at temperature (K), J. Names as the species table's. */
    public static double enthalpy(Map<String, Double> moles, double temperature) {
        double sum = 0;
        for (Map.Entry<String, Double> entry : moles.entrySet()) {
            Species species = SpeciesTable.find(Formation.formula(entry.getKey()));
            if (species == null) {
                Map<String, Object> values = new LinkedHashMap<>();
                values.put("fluid", entry.getKey());
                values.put("property", "ideal-gas enthalpy");
                throw new PropertyException(Key.NO_MODEL, values);
            }
            sum += entry.getValue() * species.enthalpy(temperature);
        }
        return sum;
    }

    /** One problem: atoms, pressure, species; holds the composition that it walks along in temperature. */
    private static final class Solver {
        private final String[] elements;
        private final double[] atoms;
        private final double allAtoms;
        private final Species[] gas;
        private final double[][] a; // [species][element]
        private final Species graphite; // null: not allowed or no carbon
        private final int carbon;
        private final double logPressure;

        private final double[] ln; // of moles
        private double lnTotal;
        private double solid;
        private boolean withSolid;
        private final double[] potentials;
        private int iterations;
        private double at = Double.NaN; // temperature of the composition

        Solver(Map<String, Double> atomsByElement, double pressure, boolean allowGraphite) {
            List<String> present = new ArrayList<>();
            for (Map.Entry<String, Double> entry : atomsByElement.entrySet()) {
                if (entry.getValue() > 0) {
                    present.add(entry.getKey());
                }
            }
            elements = present.toArray(new String[0]);
            atoms = new double[elements.length];
            double sum = 0;
            for (int i = 0; i < elements.length; i++) {
                atoms[i] = atomsByElement.get(elements[i]);
                sum += atoms[i];
            }
            allAtoms = sum;
            if (!(sum > 0 && sum < Double.POSITIVE_INFINITY && pressure > 0)) {
                throw bad("no atoms, or a pressure not above zero");
            }
            List<Species> list = new ArrayList<>();
            Species condensed = null;
            for (Species species : SpeciesTable.all().values()) {
                boolean possible = present.containsAll(species.elements().keySet());
                if (possible && species.condensed()) {
                    condensed = species;
                } else if (possible && !"Jet-A".equals(species.name())) {
                    list.add(species);
                }
            }
            gas = list.toArray(new Species[0]);
            a = new double[gas.length][elements.length];
            for (int j = 0; j < gas.length; j++) {
                for (int i = 0; i < elements.length; i++) {
                    a[j][i] = gas[j].elements().getOrDefault(elements[i], 0.0);
                }
            }
            for (int i = 0; i < elements.length; i++) {
                boolean found = false;
                for (double[] row : a) {
                    found |= row[i] > 0;
                }
                if (!found) {
                    throw bad("no species of the table holds " + elements[i]);
                }
            }
            graphite = allowGraphite && condensed != null && GRAPHITE.equals(condensed.name()) ? condensed : null;
            carbon = present.indexOf("C");
            logPressure = Math.log(pressure / STANDARD_PRESSURE);
            this.pressure = pressure;
            ln = new double[gas.length];
            potentials = new double[elements.length];
        }

        private final double pressure;

        private static PropertyException bad(String what) {
            Map<String, Object> values = new LinkedHashMap<>();
            values.put("what", what);
            return new PropertyException(Key.BAD_DEFINITION, values);
        }

        /** Brings the composition to temperature, in strides from where it is. */
        void go(double temperature) {
            double target = Math.max(COLDEST, temperature);
            if (Double.isNaN(at)) {
                double even = Math.log(0.1 * allAtoms / gas.length);
                Arrays.fill(ln, even);
                lnTotal = Math.log(0.1 * allAtoms);
                at = Math.max(START, target);
                settle(at);
            }
            while (at != target) {
                double next = target < at ? Math.max(target, at * STRIDE) : Math.min(target, at / STRIDE);
                settle(next);
                at = next;
            }
        }

        private void settle(double t) {
            int changes = 0;
            while (true) {
                newton(t);
                if (graphite == null) {
                    return;
                }
                double excess = potentials[carbon] - graphite.polynomial().gibbs(t);
                if (withSolid && solid < 0) {
                    withSolid = false;
                    solid = 0;
                } else if (!withSolid && excess > 1e-9) {
                    withSolid = true;
                    solid = 1e-3 * atoms[carbon];
                } else {
                    return;
                }
                if (++changes > 6) {
                    throw noConvergence(t);
                }
            }
        }

        private PropertyException noConvergence(double t) {
            Map<String, Object> values = new LinkedHashMap<>();
            values.put("fluid", "equilibrium gas");
            values.put("temperature", t);
            values.put("pressure", pressure);
            return new PropertyException(Key.NO_CONVERGENCE, values);
        }

        private void newton(double t) {
            int m = elements.length;
            int size = m + 1 + (withSolid ? 1 : 0);
            int ns = gas.length;
            double[] g = new double[ns];
            for (int j = 0; j < ns; j++) {
                g[j] = gas[j].polynomial().gibbs(t) + logPressure;
            }
            double[][] matrix = new double[size][size + 1];
            double[] n = new double[ns];
            double[] mu = new double[ns];
            double[] step = new double[ns];
            for (int iteration = 0; iteration < 400; iteration++) {
                iterations++;
                double total = Math.exp(lnTotal);
                for (double[] row : matrix) {
                    Arrays.fill(row, 0);
                }
                double sum = 0;
                for (int j = 0; j < ns; j++) {
                    n[j] = Math.exp(ln[j]);
                    mu[j] = g[j] + ln[j] - lnTotal;
                    sum += n[j];
                    double weighted = n[j] * mu[j];
                    for (int i = 0; i < m; i++) {
                        double aij = a[j][i];
                        if (aij != 0) {
                            double share = aij * n[j];
                            for (int k = 0; k < m; k++) {
                                matrix[i][k] += share * a[j][k];
                            }
                            matrix[i][m] += share;
                            matrix[m][i] += share;
                            matrix[i][size] += aij * weighted - share;
                        }
                    }
                    matrix[m][size] += weighted;
                }
                for (int i = 0; i < m; i++) {
                    matrix[i][size] += atoms[i];
                }
                matrix[m][m] = sum - total;
                matrix[m][size] += total - sum;
                if (withSolid) {
                    matrix[carbon][m + 1] = 1;
                    matrix[m + 1][carbon] = 1;
                    matrix[carbon][size] -= solid;
                    matrix[m + 1][size] = graphite.polynomial().gibbs(t);
                }
                double[] solution = solve(matrix, size);
                System.arraycopy(solution, 0, potentials, 0, m);
                double stepTotal = solution[m];
                double largest = 5 * Math.abs(stepTotal);
                double damping = 1;
                for (int j = 0; j < ns; j++) {
                    double d = stepTotal - mu[j];
                    for (int i = 0; i < m; i++) {
                        d += a[j][i] * potentials[i];
                    }
                    step[j] = d;
                    double share = ln[j] - lnTotal;
                    if (share > -18.42) {
                        largest = Math.max(largest, Math.abs(d));
                    } else if (d > 0 && share + d > -9.21) {
                        // A trace may not become a main species in one step.
                        damping = Math.min(damping, Math.abs((-share - 9.2103404) / (d - stepTotal)));
                    }
                }
                if (largest > 2) {
                    damping = Math.min(damping, 2 / largest);
                }
                double change = 0;
                double stepSolid = withSolid ? solution[m + 1] : 0;
                for (int j = 0; j < ns; j++) {
                    change += n[j] * Math.abs(step[j]);
                    ln[j] = Math.max(-700, Math.min(700, ln[j] + damping * step[j]));
                }
                lnTotal += damping * stepTotal;
                solid += damping * stepSolid;
                if (damping == 1
                        && change <= 1e-13 * sum
                        && Math.abs(stepTotal) <= 1e-13
                        && Math.abs(stepSolid) <= 1e-13 * allAtoms) {
                    return;
                }
                if (iteration > 60
                        && damping == 1
                        && change <= 1e-9 * sum
                        && Math.abs(stepTotal) <= 1e-9
                        && balance() <= 1e-10) {
                    return;
                }
            }
            throw noConvergence(t);
        }

        /** Largest error of an element as share of all atoms. */
        double balance() {
            double worst = 0;
            for (int i = 0; i < elements.length; i++) {
                double have = i == carbon && withSolid ? solid : 0;
                for (int j = 0; j < gas.length; j++) {
                    have += a[j][i] * Math.exp(ln[j]);
                }
                worst = Math.max(worst, Math.abs(have - atoms[i]));
            }
            return worst / allAtoms;
        }

        double enthalpy(double t) {
            double sum = withSolid ? solid * graphite.enthalpy(t) : 0;
            for (int j = 0; j < gas.length; j++) {
                sum += Math.exp(ln[j]) * gas[j].enthalpy(t);
            }
            return sum;
        }

        EquilibriumState state(double t) {
            Map<String, Double> moles = new LinkedHashMap<>();
            for (int j = 0; j < gas.length; j++) {
                moles.put(gas[j].name(), Math.exp(ln[j]));
            }
            Map<String, Double> byElement = new LinkedHashMap<>();
            for (int i = 0; i < elements.length; i++) {
                byElement.put(elements[i], potentials[i]);
            }
            return new EquilibriumState(
                    t, pressure, moles, withSolid ? solid : 0, enthalpy(t), byElement, iterations, balance());
        }
    }

    /**
     * Gaussian elimination with full pivoting after symmetric scaling. A direction whose pivot drowns in rounding is left at zero: it
     * only tells how a vanishing species would be shared.
     */
    private static double[] solve(double[][] matrix, int size) {
        double[] scale = new double[size];
        for (int i = 0; i < size; i++) {
            double d = Math.abs(matrix[i][i]);
            for (int k = 0; k < size && d == 0; k++) {
                d = Math.max(d, Math.abs(matrix[i][k]));
            }
            scale[i] = d > 0 ? 1 / Math.sqrt(d) : 1;
        }
        // The row of the total amount has a diagonal that vanishes at the solution: scale it by its largest neighbour.
        double[][] b = new double[size][size + 1];
        for (int i = 0; i < size; i++) {
            double row = 0;
            for (int k = 0; k < size; k++) {
                row = Math.max(row, Math.abs(matrix[i][k]) * scale[k]);
            }
            double factor = row > 0 ? 1 / row : 1;
            for (int k = 0; k < size; k++) {
                b[i][k] = matrix[i][k] * scale[k] * factor;
            }
            b[i][size] = matrix[i][size] * factor;
        }
        int[] column = new int[size];
        for (int i = 0; i < size; i++) {
            column[i] = i;
        }
        int rank = size;
        for (int c = 0; c < size; c++) {
            int bestRow = c;
            int bestColumn = c;
            for (int i = c; i < size; i++) {
                for (int k = c; k < size; k++) {
                    if (Math.abs(b[i][k]) > Math.abs(b[bestRow][bestColumn])) {
                        bestRow = i;
                        bestColumn = k;
                    }
                }
            }
            if (Math.abs(b[bestRow][bestColumn]) < 1e-14) {
                rank = c;
                break;
            }
            double[] swap = b[c];
            b[c] = b[bestRow];
            b[bestRow] = swap;
            for (double[] row : b) {
                double keep = row[c];
                row[c] = row[bestColumn];
                row[bestColumn] = keep;
            }
            int keep = column[c];
            column[c] = column[bestColumn];
            column[bestColumn] = keep;
            for (int i = c + 1; i < size; i++) {
                double f = b[i][c] / b[c][c];
                if (f != 0) {
                    for (int k = c; k <= size; k++) {
                        b[i][k] -= f * b[c][k];
                    }
                }
            }
        }
        double[] solution = new double[size];
        for (int c = rank - 1; c >= 0; c--) {
            double value = b[c][size];
            for (int k = c + 1; k < rank; k++) {
                value -= b[c][k] * solution[column[k]];
            }
            solution[column[c]] = value / b[c][c];
        }
        for (int i = 0; i < size; i++) {
            solution[i] *= scale[i];
        }
        return solution;
    }
}
