package purgewright.fluids.phase;

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
    private final Pieces[] overX = new Pieces[COLUMNS];
    private final Pieces xOverY;

    /** Contiguous pieces; piece i is valid from from[i] to the next, its coefficients are for [low[i], high[i]]. */
    private record Pieces(double[] from, double[] low, double[] high, double[][] coefficients) {
        double value(double x) {
            int i = from.length - 1;
            while (i > 0 && x < from[i]) {
                i--;
            }
            double[] c = coefficients[i];
            double u = (2 * x - low[i] - high[i]) / (high[i] - low[i]);
            double twice = 2 * u;
            double b1 = 0;
            double b2 = 0;
            for (int k = c.length - 1; k > 0; k--) {
                double b = twice * b1 - b2 + c[k];
                b2 = b1;
                b1 = b;
            }
            return u * b1 - b2 + c[0];
        }

        /** Slope over x. */
        double slope(double x) {
            int i = from.length - 1;
            while (i > 0 && x < from[i]) {
                i--;
            }
            double[] c = coefficients[i];
            double width = high[i] - low[i];
            double twice = 2 * (2 * x - low[i] - high[i]) / width;
            // Clenshaw's recurrence and its own derivative side by side
            double b1 = 0;
            double b2 = 0;
            double d1 = 0;
            double d2 = 0;
            for (int k = c.length - 1; k > 0; k--) {
                double d = twice * d1 - d2 + 2 * b1;
                d2 = d1;
                d1 = d;
                double b = twice * b1 - b2 + c[k];
                b2 = b1;
                b1 = b;
            }
            return 2 / width * (b1 + 0.5 * twice * d1 - d2);
        }

        static Pieces read(double[][] rows) {
            int n = rows.length;
            double[] from = new double[n];
            double[] low = new double[n];
            double[] high = new double[n];
            double[][] coefficients = new double[n][];
            for (int i = 0; i < n; i++) {
                from[i] = rows[i][0];
                low[i] = rows[i][1];
                high[i] = rows[i][2];
                coefficients[i] = java.util.Arrays.copyOfRange(rows[i], 3, rows[i].length);
            }
            return new Pieces(from, low, high, coefficients);
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
        for (int i = 0; i < COLUMNS; i++) {
            overX[i] = Pieces.read(file.table("x." + i));
        }
        xOverY = Pieces.read(file.table("y"));
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
        return Math.min(Math.max(xOverY.value(y), 0), highestX);
    }

    private double logRatio(double pressure) {
        double part = (pressure - criticalPressure) / criticalPressure;
        return Math.abs(part) < 0.01 ? Math.log1p(part) : Math.log(pressure / criticalPressure);
    }

    /** The line's variable where the liquid has a density (kg/m3); clipped to the line's ends. */
    double xAtLiquidDensity(double density) {
        return xAtDensity(overX[LOG_LIQUID_DENSITY], Math.log(density / criticalDensity), 1);
    }

    /** The line's variable where the vapour has a density (kg/m3); clipped to the line's ends. */
    double xAtVapourDensity(double density) {
        return xAtDensity(overX[LOG_VAPOUR_DENSITY], Math.log(density / criticalDensity), -1);
    }

    /** Both branches are monotone in x but for a liquid with a density maximum (water at 4 degC), where the warmer root is taken. */
    private double xAtDensity(Pieces pieces, double log, int sign) {
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
            if (sign * (pieces.value(middle) - log) < 0) {
                low = middle;
            } else {
                high = middle;
            }
        }
        return low;
    }

    /** Temperature (K) of the line's variable. */
    double temperature(double x) {
        return criticalTemperature * (1 - x * x);
    }

    /** Vapour pressure, Pa. */
    double pressure(double x) {
        return criticalPressure * Math.exp(overX[LOG_PRESSURE].value(x));
    }

    /** Density of the saturated liquid, kg/m3. */
    double liquidDensity(double x) {
        return criticalDensity * Math.exp(overX[LOG_LIQUID_DENSITY].value(x));
    }

    /** Density of the saturated vapour, kg/m3. */
    double vapourDensity(double x) {
        return criticalDensity * Math.exp(overX[LOG_VAPOUR_DENSITY].value(x));
    }

    /** Density (kg/m3) of the saturated vapour at a temperature (K) between triple and critical. */
    public double vapourDensityAt(double temperature) {
        return vapourDensity(x(temperature));
    }

    /** Specific enthalpy of the saturated liquid, J/kg. */
    double liquidEnthalpy(double x) {
        return overX[LIQUID_ENTHALPY].value(x);
    }

    /** Specific enthalpy of the saturated vapour, J/kg. */
    double vapourEnthalpy(double x) {
        return overX[VAPOUR_ENTHALPY].value(x);
    }

    /** Specific entropy of the saturated liquid, J/(kg K). */
    double liquidEntropy(double x) {
        return overX[LIQUID_ENTROPY].value(x);
    }

    /** Specific entropy of the saturated vapour, J/(kg K). */
    double vapourEntropy(double x) {
        return overX[VAPOUR_ENTROPY].value(x);
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
        out.pressure = pressure(x);
        out.density = vapourDensity(x);
        out.enthalpy = vapourEnthalpy(x);
        out.entropy = vapourEntropy(x);
        double xByT = -1 / (2 * Math.max(x, 1e-9) * criticalTemperature);
        out.pressureByTemperature = xByT * out.pressure * overX[LOG_PRESSURE].slope(x);
        out.densityByTemperature = xByT * out.density * overX[LOG_VAPOUR_DENSITY].slope(x);
        out.enthalpyByTemperature = xByT * overX[VAPOUR_ENTHALPY].slope(x);
        out.entropyByTemperature = xByT * overX[VAPOUR_ENTROPY].slope(x);
    }

    /** Density, pressure and either enthalpy or entropy of both phases at a temperature (K) between triple and critical; no slopes. */
    public void values(double temperature, boolean entropic, Edge liquid, Edge vapour) {
        double x = x(temperature);
        vapour.pressure = pressure(x);
        vapour.density = vapourDensity(x);
        liquid.pressure = vapour.pressure;
        liquid.density = liquidDensity(x);
        if (entropic) {
            vapour.entropy = vapourEntropy(x);
            liquid.entropy = liquidEntropy(x);
        } else {
            vapour.enthalpy = vapourEnthalpy(x);
            liquid.enthalpy = liquidEnthalpy(x);
        }
    }
}
