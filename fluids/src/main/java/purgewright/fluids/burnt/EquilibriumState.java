package purgewright.fluids.burnt;

import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.Map;

/**
 * Chemical equilibrium of an ideal gas, perhaps with graphite.
 *
 * @param temperature K
 * @param pressure Pa
 * @param moles of each gas species, for the atoms that were given, mol; in the species table's order
 * @param graphite condensed carbon, mol
 * @param enthalpy of the whole on the formation datum, J
 * @param elementPotentials chemical potential of each element over R T
 * @param iterations of the solve, all temperatures together
 * @param balance largest error of an element, as share of all atoms
 */
public record EquilibriumState(
        double temperature,
        double pressure,
        Map<String, Double> moles,
        double graphite,
        double enthalpy,
        Map<String, Double> elementPotentials,
        int iterations,
        double balance) {
    /** Keeps the order. */
    public EquilibriumState {
        moles = Collections.unmodifiableMap(new LinkedHashMap<>(moles));
        elementPotentials = Collections.unmodifiableMap(new LinkedHashMap<>(elementPotentials));
    }

    /** Moles of gas. */
    public double gasMoles() {
        double sum = 0;
        for (double n : moles.values()) {
            sum += n;
        }
        return sum;
    }

    /** Mole fractions of the gas, sum 1. */
    public Map<String, Double> moleFractions() {
        double sum = gasMoles();
        Map<String, Double> fractions = new LinkedHashMap<>();
        moles.forEach((name, n) -> fractions.put(name, n / sum));
        return fractions;
    }
}
