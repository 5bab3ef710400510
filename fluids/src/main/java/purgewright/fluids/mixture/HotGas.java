package purgewright.fluids.mixture;

import purgewright.fluids.PureFluid;
import purgewright.fluids.burnt.Nasa7;
import purgewright.fluids.burnt.Species;
import purgewright.fluids.burnt.SpeciesTable;

/**
 * Ideal-gas heat capacity above the highest temperature of a fluid's equation, and its integrals from there.
 *
 * <p>From the species table where it has the fluid, moved by the constant that makes cp continuous at the joint (so enthalpy is C1
 * there); otherwise from the equation's own ideal-gas part, whose vibrational terms stay physical, tabulated up to 6000 K. Between the
 * tabulated places both integrals are cubics with the right slopes at either end, off by less than 1e-11 of cp T.
 */
final class HotGas {
    private static final int CELLS = 1024;
    private static final double[] NODES = {-0.7745966692414834, 0, 0.7745966692414834}; // Gauss-Legendre, three points
    private static final double[] WEIGHTS = {5.0 / 9, 8.0 / 9, 5.0 / 9};

    private final double start;
    private final double gasConstant;
    private final Nasa7 polynomial; // null: tabulated
    private final double shift; // of cp, J/(kg K)
    private final PureFluid fluid;
    /** Of the tabulated places, K. */
    private final double step;

    private final double[] heatCapacities;
    private final double[] enthalpies;
    private final double[] entropies;
    /** Of the table's polynomial at the start, over the gas constant. */
    private final double startEnthalpy;

    private final double startEntropy;
    private final double end; // where the fluid's own ideal part stops answering, K

    private HotGas(double start, double gasConstant, Nasa7 polynomial, double shift, PureFluid fluid) {
        this.start = start;
        this.gasConstant = gasConstant;
        this.polynomial = polynomial;
        this.shift = shift;
        this.fluid = fluid;
        this.step = (Component.HOTTEST - start) / CELLS;
        int size = polynomial != null ? 0 : CELLS + 1;
        this.heatCapacities = new double[size];
        this.enthalpies = new double[size];
        this.entropies = new double[size];
        if (polynomial != null) {
            this.end = Component.HOTTEST;
            this.startEnthalpy = polynomial.enthalpy(start);
            this.startEntropy = polynomial.entropy(start);
            return;
        }
        this.startEnthalpy = 0;
        this.startEntropy = 0;
        this.end = answers(fluid, Component.HOTTEST) ? Component.HOTTEST : start;
        heatCapacities[0] = heatCapacity(start);
        for (int i = 1; i <= CELLS; i++) {
            heatCapacities[i] = heatCapacity(place(i));
            enthalpies[i] = enthalpies[i - 1] + integral(place(i - 1), place(i), false);
            entropies[i] = entropies[i - 1] + integral(place(i - 1), place(i), true);
        }
    }

    private static boolean answers(PureFluid fluid, double temperature) {
        try {
            double ratio = fluid.idealGasHeatCapacityRatio(temperature);
            return ratio > 1 && ratio < 2;
        } catch (RuntimeException e) {
            return false;
        }
    }

    static HotGas above(PureFluid fluid, String formula, double start, double gasConstant) {
        Species species = SpeciesTable.find(formula);
        if (species == null) {
            return new HotGas(start, gasConstant, null, 0, fluid);
        }
        double kappa = fluid.idealGasHeatCapacityRatio(start);
        double own = gasConstant * kappa / (kappa - 1);
        double tabled = species.polynomial().heatCapacity(start) * gasConstant;
        return new HotGas(start, gasConstant, species.polynomial(), own - tabled, fluid);
    }

    private double integral(double from, double to, boolean overTemperature) {
        double sum = 0;
        for (int i = 0; i < NODES.length; i++) {
            double t = (from + to) / 2 + NODES[i] * (to - from) / 2;
            sum += WEIGHTS[i] * (to - from) / 2 * (overTemperature ? heatCapacity(t) / t : heatCapacity(t));
        }
        return sum;
    }

    /** cp of the ideal gas, J/(kg K). */
    double heatCapacity(double temperature) {
        if (polynomial != null) {
            return polynomial.heatCapacity(temperature) * gasConstant + shift;
        }
        double kappa = fluid.idealGasHeatCapacityRatio(Math.min(temperature, end));
        return gasConstant * kappa / (kappa - 1);
    }

    /** Enthalpy above that at the start, J/kg. */
    double enthalpyRise(double temperature) {
        if (polynomial != null) {
            return (polynomial.enthalpy(temperature) - startEnthalpy) * gasConstant + shift * (temperature - start);
        }
        int i = cell(temperature);
        return cubic(temperature, i, enthalpies, heatCapacities[i], heatCapacities[i + 1]);
    }

    /** Entropy at constant pressure above that at the start, J/(kg K). */
    double entropyRise(double temperature) {
        if (polynomial != null) {
            return (polynomial.entropy(temperature) - startEntropy) * gasConstant
                    + shift * Math.log(temperature / start);
        }
        int i = cell(temperature);
        return cubic(temperature, i, entropies, heatCapacities[i] / place(i), heatCapacities[i + 1] / place(i + 1));
    }

    private double place(int i) {
        return start + i * step;
    }

    private int cell(double temperature) {
        return Math.max(0, Math.min(CELLS - 1, (int) ((temperature - start) / step)));
    }

    /** In a cell, by its values and slopes at both ends. */
    private double cubic(double temperature, int i, double[] value, double slopeBelow, double slopeAbove) {
        double x = (temperature - place(i)) / step;
        double rise = value[i + 1] - value[i];
        double below = slopeBelow * step - rise;
        double above = rise - slopeAbove * step;
        return value[i] + x * (rise + (1 - x) * (below * (1 - x) + above * x));
    }
}
