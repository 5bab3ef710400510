package purgewright.fluids.burnt;

import java.util.Locale;
import java.util.Map;

/**
 * Which species a library fluid is, and its formation enthalpy as an ideal gas at 298.15 K.
 *
 * <p>From the species table where it has the fluid. Ethanol is in the same source, NASA TM-4513 (1993), though not in the table: its
 * polynomial (C2H5OH, L 8/88, as stored with Cantera 3.2.0) has -234.949 kJ/mol [published; transcription]. n-Dodecane,
 * C12H26(g) -291.01 kJ/mol, is from a table of enthalpies of formation adapted from S. Bhattacharjee, TEST (The Expert System for
 * Thermodynamics), San Diego State University, as printed by Ohio University [published].
 */
public final class Formation {
    private static final Map<String, String> FORMULAE = Map.ofEntries(
            Map.entry("helium", "He"),
            Map.entry("nitrogen", "N2"),
            Map.entry("oxygen", "O2"),
            Map.entry("hydrogen", "H2"),
            Map.entry("parahydrogen", "H2"),
            Map.entry("methane", "CH4"),
            Map.entry("argon", "Ar"),
            Map.entry("water", "H2O"),
            Map.entry("carbondioxide", "CO2"),
            Map.entry("carbonmonoxide", "CO"),
            Map.entry("ndodecane", "C12H26"),
            Map.entry("ethanol", "C2H6O"),
            Map.entry("propane", "C3H8"),
            Map.entry("ammonia", "NH3"),
            Map.entry("neon", "Ne"));

    private Formation() {}

    /** Formula of a library fluid (any spelling of its words), or the name itself when it is not one. */
    public static String formula(String name) {
        String formula = FORMULAE.get(key(name));
        return formula == null ? name : formula;
    }

    /**
     * Formation enthalpy of the ideal gas at 298.15 K, J/mol; NaN when not known. Neon is an element: 0.
     *
     * @param name library fluid or formula of a burnt species
     */
    public static double enthalpy(String name) {
        String formula = formula(name);
        Species species = SpeciesTable.find(formula);
        if (species != null) {
            return species.formationEnthalpy();
        }
        return switch (formula) {
            case "C12H26" -> -291.01e3;
            case "C2H6O" -> -234.949e3;
            case "Ne" -> 0;
            default -> Double.NaN;
        };
    }

    private static String key(String name) {
        return name.toLowerCase(Locale.ROOT).replace("-", "").replace(" ", "").replace("_", "");
    }
}
