package purgewright.fluids.phase;

import java.util.Arrays;
import purgewright.fluids.helmholtz.Coefficients;

/**
 * The saturation line of one fluid as piecewise Chebyshev expansions of the equal-Gibbs solution, after the idea of I. H. Bell and
 * co-workers, J. Phys. Chem. Ref. Data 53 (2024) 013102. They cannot fail near the critical point, and cost tens of nanoseconds.
 *
 * <p>The variable is {@code x = sqrt(1 - T/Tc)} with the critical point of the equation itself, not the published one: in it both
 * branches are smooth through the critical point, the vapour being the liquid continued to negative x. Temperature over pressure is
 * expanded in {@code y = sqrt(ln(pc/p))} in the same way. The coefficients are a resource file made by {@code GenerateSaturation} in
 * the tests of this module. Immutable.
 */
public final class SaturationLine {
    /** Columns of the expansions in x. */
    static final int LOG_PRESSURE = 0;

    static final int LOG_LIQUID_DENSITY = 1;
    static final int LOG_VAPOUR_DENSITY = 2;
    static final int LIQUID_ENTHALPY = 3;
    static final int VAPOUR_ENTHALPY = 4;
    static final int LIQUID_ENTROPY = 5;
    static final int VAPOUR_ENTROPY = 6;
    static final int COLUMNS = 7;

    private final double criticalTemperature;
    private final double criticalPressure;
    private final double criticalDensity;
    private final double tripleTemperature;
    private final double triplePressure;
    private final double highestX;
    private final Pieces overX;
    private final Pieces overY;

    /**
     * Contiguous pieces of several functions that share them: piece i is valid from from[i] to the next. The Chebyshev sums of the file are
     * kept as powers of the place u in [-1, 1] of a piece, even and odd ones apart, which is summed in half the time; the coefficients fall
     * off so fast that nothing is lost to rounding.
     */
    private static final class Pieces {
        private static final int CELLS = 256;

        final double[] from;
        final double[] middle;
        final double[] perHalf;
        final int terms;
        /** Function f, piece i, power k at ((i functions + f) terms + k). */
        final double[] powers;
        /** The same of the derivatives over u. */
        final double[] slopes;

        final int functions;
        /** By cell of equal width, the piece in which it begins: most cells lie within one. */
        private final int[] first = new int[CELLS];

        private final double cellsPerUnit;

        Pieces(double[][][] rows) {
            functions = rows.length;
            int n = rows[0].length;
            int longest = 0;
            for (double[][] function : rows) {
                for (double[] row : function) {
                    longest = Math.max(longest, row.length - 3);
                }
            }
            terms = longest + longest % 2;
            from = new double[n];
            middle = new double[n];
            perHalf = new double[n];
            powers = new double[functions * n * terms];
            slopes = new double[powers.length];
            for (int i = 0; i < n; i++) {
                double[] row = rows[0][i];
                from[i] = row[0];
                middle[i] = 0.5 * (row[1] + row[2]);
                perHalf[i] = 2 / (row[2] - row[1]);
                for (int f = 0; f < functions; f++) {
                    double[] same = rows[f][i];
                    if (same[0] != row[0] || same[1] != row[1] || same[2] != row[2]) {
                        throw new IllegalArgumentException(
                                "the columns of a saturation line do not share their pieces");
                    }
                    double[] power = powers(Arrays.copyOfRange(same, 3, same.length));
                    int at = (i * functions + f) * terms;
                    System.arraycopy(power, 0, powers, at, power.length);
                    for (int k = 1; k < power.length; k++) {
                        slopes[at + k - 1] = k * power[k];
                    }
                }
            }
            double[] last = rows[0][n - 1];
            cellsPerUnit = CELLS / (Math.max(last[1], last[2]) - from[0]);
            for (int c = 0; c < CELLS; c++) {
                // A hair below its own beginning: x may fall into a cell by rounding.
                first[c] = below(from[0] + (c - 1e-6) / cellsPerUnit);
            }
        }

        private int below(double x) {
            int piece = 0;
            while (piece + 1 < from.length && x >= from[piece + 1]) {
                piece++;
            }
            return piece;
        }

        /** From Chebyshev coefficients to powers, by T_k = 2 u T_(k-1) - T_(k-2). */
        private static double[] powers(double[] chebyshev) {
            int n = chebyshev.length;
            double[] sum = new double[n];
            double[] before = new double[n];
            double[] now = new double[n];
            before[0] = 1;
            now[Math.min(1, n - 1)] = 1;
            for (int k = 0; k < n; k++) {
                double[] t = k == 0 ? before : now;
                for (int i = 0; i <= k; i++) {
                    sum[i] += chebyshev[k] * t[i];
                }
                if (k > 0) {
                    double[] next = new double[n];
                    for (int i = 0; i < n; i++) {
                        next[i] = (i > 0 ? 2 * now[i - 1] : 0) - before[i];
                    }
                    before = now;
                    now = next;
                }
            }
            return sum;
        }

        int piece(double x) {
            int cell = (int) ((x - from[0]) * cellsPerUnit);
            int piece = first[cell < 0 ? 0 : Math.min(cell, CELLS - 1)];
            while (piece + 1 < from.length && x >= from[piece + 1]) {
                piece++;
            }
            return piece;
        }

        double place(int piece, double x) {
            return (x - middle[piece]) * perHalf[piece];
        }

        double value(int function, int piece, double u) {
            return sum(powers, (piece * functions + function) * terms, u);
        }

        /** Slope over x. */
        double slope(int function, int piece, double u) {
            return perHalf[piece] * sum(slopes, (piece * functions + function) * terms, u);
        }

        private double sum(double[] c, int at, double u) {
            double square = u * u;
            double even = 0;
            double odd = 0;
            for (int k = at + terms - 2; k >= at; k -= 2) {
                even = even * square + c[k];
                odd = odd * square + c[k + 1];
            }
            return even + u * odd;
        }
    }

    /** @param file the fluid's expansions */
    SaturationLine(Coefficients file) {
        criticalTemperature = file.number("critical.temperature");
        criticalPressure = file.number("critical.pressure");
        criticalDensity = file.number("critical.density");
        tripleTemperature = file.number("triple.temperature");
        triplePressure = file.number("triple.pressure");
        highestX = Math.sqrt((criticalTemperature - tripleTemperature) / criticalTemperature);
        double[][][] columns = new double[COLUMNS][][];
        for (int i = 0; i < COLUMNS; i++) {
            columns[i] = file.table("x." + i);
        }
        overX = new Pieces(columns);
        overY = new Pieces(new double[][][] {file.table("y")});
    }

    /** Critical temperature of the equation, K. */
    public double criticalTemperature() {
        return criticalTemperature;
    }

    /** Critical pressure of the equation, Pa. */
    public double criticalPressure() {
        return criticalPressure;
    }

    /** Critical density of the equation, kg/m3. */
    public double criticalDensity() {
        return criticalDensity;
    }

    /** Lowest temperature of the line, K. */
    public double tripleTemperature() {
        return tripleTemperature;
    }

    /** Pressure at the lowest temperature, Pa. */
    public double triplePressure() {
        return triplePressure;
    }

    /** The line's variable at a temperature (K) between triple and critical. */
    double x(double temperature) {
        double t = (criticalTemperature - temperature) / criticalTemperature;
        return Math.min(Math.sqrt(Math.max(t, 0)), highestX);
    }

    /** The line's variable at a pressure (Pa) between triple and critical. */
    double xAtPressure(double pressure) {
        double y = Math.sqrt(Math.max(-logRatio(pressure), 0));
        int piece = overY.piece(y);
        return Math.min(Math.max(overY.value(0, piece, overY.place(piece, y)), 0), highestX);
    }

    private double logRatio(double pressure) {
        double part = (pressure - criticalPressure) / criticalPressure;
        return Math.abs(part) < 0.01 ? Math.log1p(part) : Math.log(pressure / criticalPressure);
    }

    /** The line's variable where the liquid has a density (kg/m3); clipped to the line's ends. */
    double xAtLiquidDensity(double density) {
        return xAtDensity(LOG_LIQUID_DENSITY, Math.log(density / criticalDensity), 1);
    }

    /** The line's variable where the vapour has a density (kg/m3); clipped to the line's ends. */
    double xAtVapourDensity(double density) {
        return xAtDensity(LOG_VAPOUR_DENSITY, Math.log(density / criticalDensity), -1);
    }

    /** Both branches are monotone in x but for a liquid with a density maximum (water at 4 degC), where the warmer root is taken. */
    private double xAtDensity(int column, double log, int sign) {
        double low = 0;
        double high = highestX;
        if (!(sign * log > 0)) {
            return 0;
        }
        while (high - low > 1e-15) {
            double middle = 0.5 * (low + high);
            if (middle == low || middle == high) {
                break;
            }
            if (sign * (value(column, middle) - log) < 0) {
                low = middle;
            } else {
                high = middle;
            }
        }
        return low;
    }

    private double value(int column, double x) {
        int piece = overX.piece(x);
        return overX.value(column, piece, overX.place(piece, x));
    }

    /** Temperature (K) of the line's variable. */
    double temperature(double x) {
        return criticalTemperature * (1 - x * x);
    }

    /** Vapour pressure, Pa. */
    double pressure(double x) {
        return criticalPressure * Math.exp(value(LOG_PRESSURE, x));
    }

    /** Density of the saturated liquid, kg/m3. */
    double liquidDensity(double x) {
        return criticalDensity * Math.exp(value(LOG_LIQUID_DENSITY, x));
    }

    /** Density of the saturated vapour, kg/m3. */
    double vapourDensity(double x) {
        return criticalDensity * Math.exp(value(LOG_VAPOUR_DENSITY, x));
    }

    /** Density (kg/m3) of the saturated vapour at a temperature (K) between triple and critical. */
    public double vapourDensityAt(double temperature) {
        return vapourDensity(x(temperature));
    }

    /** Specific enthalpy of the saturated liquid, J/kg. */
    double liquidEnthalpy(double x) {
        return value(LIQUID_ENTHALPY, x);
    }

    /** Specific enthalpy of the saturated vapour, J/kg. */
    double vapourEnthalpy(double x) {
        return value(VAPOUR_ENTHALPY, x);
    }

    /** Specific entropy of the saturated liquid, J/(kg K). */
    double liquidEntropy(double x) {
        return value(LIQUID_ENTROPY, x);
    }

    /** Specific entropy of the saturated vapour, J/(kg K). */
    double vapourEntropy(double x) {
        return value(VAPOUR_ENTROPY, x);
    }

    /**
     * One phase on the line at one temperature, and the slopes along the line. Owned by one thread, overwritten at each call of {@link
     * #vapour} or {@link #values}.
     */
    public static final class Edge {
        /** Vapour pressure, Pa. */
        public double pressure;

        /** Pa/K. */
        public double pressureByTemperature;

        /** kg/m3. */
        public double density;

        /** kg/(m3 K). */
        public double densityByTemperature;

        /** J/kg. */
        public double enthalpy;

        /** J/(kg K). */
        public double enthalpyByTemperature;

        /** J/(kg K). */
        public double entropy;

        /** J/(kg K2). */
        public double entropyByTemperature;
    }

    /** The saturated vapour at a temperature (K) between triple and critical, with its slopes along the line. */
    public void vapour(double temperature, Edge out) {
        double x = x(temperature);
        int piece = overX.piece(x);
        edge(x, piece, overX.place(piece, x), LOG_VAPOUR_DENSITY, VAPOUR_ENTHALPY, VAPOUR_ENTROPY, out);
    }

    /** The saturated liquid, likewise. */
    void liquid(double temperature, Edge out) {
        double x = x(temperature);
        int piece = overX.piece(x);
        edge(x, piece, overX.place(piece, x), LOG_LIQUID_DENSITY, LIQUID_ENTHALPY, LIQUID_ENTROPY, out);
    }

    /** Both phases with their slopes. */
    void phases(double x, Edge liquid, Edge vapour) {
        int piece = overX.piece(x);
        double u = overX.place(piece, x);
        edge(x, piece, u, LOG_VAPOUR_DENSITY, VAPOUR_ENTHALPY, VAPOUR_ENTROPY, vapour);
        edge(x, piece, u, LOG_LIQUID_DENSITY, LIQUID_ENTHALPY, LIQUID_ENTROPY, liquid);
    }

    private void edge(double x, int piece, double u, int density, int enthalpy, int entropy, Edge out) {
        double xByT = -1 / (2 * Math.max(x, 1e-9) * criticalTemperature);
        out.pressure = criticalPressure * Math.exp(overX.value(LOG_PRESSURE, piece, u));
        out.pressureByTemperature = xByT * out.pressure * overX.slope(LOG_PRESSURE, piece, u);
        out.density = criticalDensity * Math.exp(overX.value(density, piece, u));
        out.densityByTemperature = xByT * out.density * overX.slope(density, piece, u);
        out.enthalpy = overX.value(enthalpy, piece, u);
        out.enthalpyByTemperature = xByT * overX.slope(enthalpy, piece, u);
        out.entropy = overX.value(entropy, piece, u);
        out.entropyByTemperature = xByT * overX.slope(entropy, piece, u);
    }

    /** Density, pressure and either enthalpy or entropy of both phases at a temperature (K) between triple and critical; no slopes. */
    public void values(double temperature, boolean entropic, Edge liquid, Edge vapour) {
        double x = x(temperature);
        int piece = overX.piece(x);
        double u = overX.place(piece, x);
        vapour.pressure = criticalPressure * Math.exp(overX.value(LOG_PRESSURE, piece, u));
        vapour.density = criticalDensity * Math.exp(overX.value(LOG_VAPOUR_DENSITY, piece, u));
        liquid.pressure = vapour.pressure;
        liquid.density = criticalDensity * Math.exp(overX.value(LOG_LIQUID_DENSITY, piece, u));
        if (entropic) {
            vapour.entropy = overX.value(VAPOUR_ENTROPY, piece, u);
            liquid.entropy = overX.value(LIQUID_ENTROPY, piece, u);
        } else {
            vapour.enthalpy = overX.value(VAPOUR_ENTHALPY, piece, u);
            liquid.enthalpy = overX.value(LIQUID_ENTHALPY, piece, u);
        }
    }
}
