package purgewright.fluids.mixture;

import java.util.Map;
import purgewright.fluids.burnt.BurnConditions;

/** What a stream of the case is made of. SI. Frozen: its composition never changes, only its share in a cavity does. */
public sealed interface StreamDefinition {
    /** Name in the case. */
    String name();

    /** One library fluid. */
    record Single(String name, String fluid) implements StreamDefinition {}

    /**
     * A mix of library fluids.
     *
     * @param fractions by fluid name; sum 1 within 1e-6
     * @param byMole true for mole fractions, false for mass fractions
     */
    record Mix(String name, Map<String, Double> fractions, boolean byMole) implements StreamDefinition {}

    /**
     * Equilibrium products of a burner, frozen afterwards.
     *
     * @param fuel library name: methane, hydrogen, kerosene, ethanol
     * @param oxidizer library name: oxygen, air
     * @param mixtureRatio oxidizer to fuel by mass
     * @param pressure Pa
     * @param fuelTemperature K at the burner's inlet
     * @param oxidizerTemperature K at the burner's inlet
     * @param graphite true to allow condensed carbon
     */
    record Burn(
            String name,
            String fuel,
            String oxidizer,
            double mixtureRatio,
            double pressure,
            double fuelTemperature,
            double oxidizerTemperature,
            boolean graphite)
            implements StreamDefinition, BurnConditions {}

    /** Combustion products as measured: species formulae by mole fraction, sum 1 within 1e-6. */
    record Measured(String name, Map<String, Double> moleFractions) implements StreamDefinition {}
}
