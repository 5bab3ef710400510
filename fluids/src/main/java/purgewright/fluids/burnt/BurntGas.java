package purgewright.fluids.burnt;

import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.Map;

/**
 * What a burner gives: equilibrium products at constant pressure and enthalpy.
 *
 * <p>Very fuel-rich gas of methane or kerosene is far from equilibrium in a real burner: measured products are better than these.
 *
 * @param temperature K
 * @param pressure Pa
 * @param molarMass of the gas, kg/mol
 * @param moleFractions of the gas by formula, those above 1e-9, sum 1
 * @param graphite true when condensed carbon was allowed
 * @param carbonCondensed condensed carbon as share of the whole mass; 0 when none
 * @param enthalpy of propellants and products on the formation datum, J/kg
 * @param frozenHeatCapacity cp of the gas at fixed composition, J/(kg K)
 * @param heatCapacityRatio frozen cp/cv of the gas
 * @param equilibrium the whole answer, for one kilogram of propellants
 * @param extrapolated true below 200 K, where heat capacities are held
 */
public record BurntGas(
        double temperature,
        double pressure,
        double molarMass,
        Map<String, Double> moleFractions,
        boolean graphite,
        double carbonCondensed,
        double enthalpy,
        double frozenHeatCapacity,
        double heatCapacityRatio,
        EquilibriumState equilibrium,
        boolean extrapolated) {
    /** Keeps the order. */
    public BurntGas {
        moleFractions = Collections.unmodifiableMap(new LinkedHashMap<>(moleFractions));
    }
}
