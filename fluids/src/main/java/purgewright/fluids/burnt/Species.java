package purgewright.fluids.burnt;

import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.Map;

/**
 * One species of the combustion table.
 *
 * @param name formula as the table spells it, for instance "CO2" or "C(gr)"
 * @param elements atoms by element symbol
 * @param molarMass kg/mol
 * @param polynomial heat capacity, enthalpy, entropy
 * @param condensed true for graphite
 */
public record Species(
        String name, Map<String, Double> elements, double molarMass, Nasa7 polynomial, boolean condensed) {
    /** Keeps the order of the elements. */
    public Species {
        elements = Collections.unmodifiableMap(new LinkedHashMap<>(elements));
    }

    /** Formation enthalpy at 298.15 K, J/mol. */
    public double formationEnthalpy() {
        return polynomial.enthalpy(Nasa7.DATUM_TEMPERATURE) * Nasa7.GAS_CONSTANT;
    }

    /** Enthalpy at temperature (K), J/mol, on the formation datum. */
    public double enthalpy(double temperature) {
        return polynomial.enthalpy(temperature) * Nasa7.GAS_CONSTANT;
    }

    /**
     * The polynomial of an ideal gas of frozen composition, per mole of mixture, without the entropy of mixing.
     *
     * @param moleFractions by species of the table, sum 1
     */
    public static Nasa7 mixed(Map<String, Double> moleFractions) {
        Nasa7[] parts = new Nasa7[moleFractions.size()];
        double[] weights = new double[parts.length];
        int k = 0;
        for (Map.Entry<String, Double> entry : moleFractions.entrySet()) {
            parts[k] = SpeciesTable.find(entry.getKey()).polynomial();
            weights[k++] = entry.getValue();
        }
        return Nasa7.weighted(parts, weights);
    }
}
