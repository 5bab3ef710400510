package purgewright.fluids.burnt;

import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Set;

/**
 * Atoms of a species or a mixture, and whether it holds free oxidizer or unburnt fuel.
 *
 * <p>Oxygen balance: moles of O2 left (positive) or wanting (negative) when every C becomes CO2 and every H becomes H2O,
 *
 * <pre>{@code balance = O/2 - C - H/4   [mol O2 per mol]}</pre>
 */
public final class Elements {
    /** Species that can give oxygen to a fuel. NO and N2O burn fuels too; water, CO and CO2 do not. */
    private static final Set<String> OXIDIZERS = Set.of("O2", "O", "NO2", "N2O", "NO", "H2O2", "HO2", "OH");

    private Elements() {}

    /**
     * Atoms by element symbol of a library fluid ("carbon dioxide") or a formula ("CH4", "C2H5OH", "C(gr)", "Jet-A").
     *
     * @throws IllegalArgumentException when the text is neither
     */
    public static Map<String, Double> of(String name) {
        Species species = SpeciesTable.find(name);
        return species != null ? species.elements() : parse(Formation.formula(name));
    }

    private static Map<String, Double> parse(String formula) {
        Map<String, Double> atoms = new LinkedHashMap<>();
        int i = 0;
        while (i < formula.length()) {
            char c = formula.charAt(i);
            if (c < 'A' || c > 'Z') {
                throw new IllegalArgumentException("not a formula or a fluid of known formula: " + formula);
            }
            int start = i++;
            while (i < formula.length() && formula.charAt(i) >= 'a' && formula.charAt(i) <= 'z') {
                i++;
            }
            String element = formula.substring(start, i);
            int digits = i;
            while (i < formula.length() && (Character.isDigit(formula.charAt(i)) || formula.charAt(i) == '.')) {
                i++;
            }
            double count = digits == i ? 1 : Double.parseDouble(formula.substring(digits, i));
            if (element.length() > 2) {
                throw new IllegalArgumentException("not a formula or a fluid of known formula: " + formula);
            }
            atoms.merge(element, count, Double::sum);
        }
        if (atoms.isEmpty()) {
            throw new IllegalArgumentException("an empty formula has no elements");
        }
        return atoms;
    }

    /** Atoms by element, mol, of so many moles of species. */
    public static Map<String, Double> of(Map<String, Double> moles) {
        Map<String, Double> sum = new LinkedHashMap<>();
        moles.forEach((name, amount) -> of(name).forEach((element, n) -> sum.merge(element, n * amount, Double::sum)));
        return sum;
    }

    /** Moles of O2 left over (positive) or wanting (negative) per mole of a species when it burns completely. */
    public static double oxygenBalance(String name) {
        return balance(of(name));
    }

    /** Moles of O2 left over (positive) or wanting (negative) when so many moles of species burn completely. */
    public static double oxygenBalance(Map<String, Double> moles) {
        return balance(of(moles));
    }

    private static double balance(Map<String, Double> atoms) {
        return atoms.getOrDefault("O", 0.0) / 2 - atoms.getOrDefault("C", 0.0) - atoms.getOrDefault("H", 0.0) / 4;
    }

    /**
     * Mole fraction of species that are free oxidizer (O2, NO, N2O ...); traces of dissociation count.
     *
     * @param moleFractions sum 1
     */
    public static double freeOxidizer(Map<String, Double> moleFractions) {
        double sum = 0;
        for (Map.Entry<String, Double> entry : moleFractions.entrySet()) {
            if (OXIDIZERS.contains(Formation.formula(entry.getKey()))) {
                sum += entry.getValue();
            }
        }
        return sum;
    }

    /**
     * Mole fraction of species that want oxygen (H2, CO, CH4, NH3 ...): negative oxygen balance by themselves.
     *
     * @param moleFractions sum 1
     */
    public static double unburntFuel(Map<String, Double> moleFractions) {
        double sum = 0;
        for (Map.Entry<String, Double> entry : moleFractions.entrySet()) {
            if (!OXIDIZERS.contains(Formation.formula(entry.getKey())) && oxygenBalance(entry.getKey()) < 0) {
                sum += entry.getValue();
            }
        }
        return sum;
    }
}
