package purgewright.fluids.mixture;

import java.util.Arrays;
import purgewright.fluids.PureFluid;
import purgewright.fluids.burnt.Nasa7;
import purgewright.fluids.burnt.Species;
import purgewright.fluids.burnt.SpeciesTable;

/**
 * Ideal-gas heat capacity above the highest temperature of a fluid's equation, and its integrals from there.
 *
 * <p>From the species table where it has the fluid, moved by the constant that makes cp continuous at the joint (so enthalpy is C1
 * there); otherwise from the equation's own ideal-gas part, whose vibrational terms stay physical, tabulated up to 6000 K.
 */
final class HotGas {
    private static final int CELLS = 256;
    private static final double[] NODES = {-0.7745966692414834, 0, 0.7745966692414834}; // Gauss-Legendre, three points
    private static final double[] WEIGHTS = {5.0 / 9, 8.0 / 9, 5.0 / 9};

    private final double start;
    private final double gasConstant;
    private final Nasa7 polynomial; // null: tabulated
    private final double shift; // of cp, J/(kg K)
    private final PureFluid fluid;
    private final double[] grid;
    private final double[] enthalpies;
    private final double[] entropies;
    private final double end; // where the fluid's own ideal part stops answering, K

    private HotGas(double start, double gasConstant, Nasa7 polynomial, double shift, PureFluid fluid) {
        this.start = start;
        this.gasConstant = gasConstant;
        this.polynomial = polynomial;
        this.shift = shift;
        this.fluid = fluid;
        if (polynomial != null) {
            this.end = Component.HOTTEST;
            this.grid = new double[0];
            this.enthalpies = grid;
            this.entropies = grid;
            return;
        }
        this.end = answers(fluid, Component.HOTTEST) ? Component.HOTTEST : start;
        this.grid = new double[CELLS + 1];
        this.enthalpies = new double[CELLS + 1];
        this.entropies = new double[CELLS + 1];
        double ratio = Math.pow(Component.HOTTEST / start, 1.0 / CELLS);
        grid[0] = start;
        for (int i = 1; i <= CELLS; i++) {
            grid[i] = start * Math.pow(ratio, i);
            enthalpies[i] = enthalpies[i - 1] + integral(grid[i - 1], grid[i], false);
            entropies[i] = entropies[i - 1] + integral(grid[i - 1], grid[i], true);
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
            return (polynomial.enthalpy(temperature) - polynomial.enthalpy(start)) * gasConstant
                    + shift * (temperature - start);
        }
        int cell = cell(temperature);
        return enthalpies[cell] + integral(grid[cell], temperature, false);
    }

    /** Entropy at constant pressure above that at the start, J/(kg K). */
    double entropyRise(double temperature) {
        if (polynomial != null) {
            return (polynomial.entropy(temperature) - polynomial.entropy(start)) * gasConstant
                    + shift * Math.log(temperature / start);
        }
        int cell = cell(temperature);
        return entropies[cell] + integral(grid[cell], temperature, true);
    }

    private int cell(double temperature) {
        int found = Arrays.binarySearch(grid, temperature);
        int cell = found >= 0 ? found : -found - 2;
        return Math.max(0, Math.min(CELLS - 1, cell));
    }
}
