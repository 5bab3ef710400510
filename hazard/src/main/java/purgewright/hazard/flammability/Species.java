package purgewright.hazard.flammability;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStream;
import java.io.InputStreamReader;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import purgewright.fluids.burnt.Elements;

/**
 * A chemical species as the hazard rules know it.
 *
 * <p>Oxygen demand of one mole, in moles of O2, to CO2, H2O, N2: {@code nu = C + H/4 - O/2}. Above 0 a fuel, below 0 a free
 * oxidizer, 0 inert.
 *
 * @param name key in the tables
 * @param elements atoms by symbol
 * @param heat net heat of combustion of the gas at 298.15 K, J/mol; 0 for what does not burn
 * @param source of the heat, with its label
 */
public record Species(String name, Map<String, Double> elements, double heat, String source) {
    private static final Set<String> KNOWN = Set.of("H", "C", "N", "O", "S", "F", "He", "Ne", "Ar", "Kr", "Xe", "Cl");
    private static final Map<String, Species> BY_NAME = load();

    /** Moles of O2 that one mole takes to burn completely; negative for an oxidizer. */
    public double oxygenDemand() {
        return elements.getOrDefault("C", 0.0)
                + elements.getOrDefault("H", 0.0) / 4
                + elements.getOrDefault("S", 0.0)
                - elements.getOrDefault("O", 0.0) / 2;
    }

    /** True when it can burn. */
    public boolean fuel() {
        return oxygenDemand() > 1e-9;
    }

    /** True when it gives oxygen. */
    public boolean oxidizer() {
        return oxygenDemand() < -1e-9;
    }

    /** True for a fuel with carbon and hydrogen. */
    public boolean hydrocarbon() {
        return fuel() && elements.containsKey("C") && elements.containsKey("H");
    }

    /**
     * The species of that library name, formula or alias. An unknown name that reads as a formula of known elements is made from it,
     * with NaN as heat when it burns; null otherwise.
     */
    public static Species find(String name) {
        Species known = BY_NAME.get(name.toLowerCase(Locale.ROOT));
        if (known != null) {
            return known;
        }
        Map<String, Double> elements = elements(name);
        if (elements == null) {
            return null;
        }
        Species made = new Species(name, elements, Double.NaN, "");
        return made.fuel() ? made : new Species(name, elements, 0, "does not burn");
    }

    /** Atoms by symbol, as the property room reads them; null for what it does not know or for elements that no rule here knows. */
    private static Map<String, Double> elements(String formula) {
        try {
            Map<String, Double> atoms = Elements.of(formula);
            return KNOWN.containsAll(atoms.keySet()) ? atoms : null;
        } catch (IllegalArgumentException e) {
            return null;
        }
    }

    private static Map<String, Species> load() {
        Map<String, Species> byName = new LinkedHashMap<>();
        for (String[] row : table("species.csv")) {
            Species species = new Species(
                    row[0],
                    Collections.unmodifiableMap(elements(row[2])),
                    Double.parseDouble(row[3]) * 1e3,
                    row[4] + " [" + row[5] + "]");
            byName.put(row[0].toLowerCase(Locale.ROOT), species);
            for (String alias : row[1].split("\\|", -1)) {
                if (!alias.isEmpty()) {
                    byName.put(alias.toLowerCase(Locale.ROOT), species);
                }
            }
        }
        return byName;
    }

    /** Rows of a table beside this class, comments dropped. */
    static List<String[]> table(String file) {
        try (InputStream in = Species.class.getResourceAsStream(file);
                BufferedReader reader = new BufferedReader(new InputStreamReader(in, StandardCharsets.UTF_8))) {
            List<String[]> rows = new ArrayList<>();
            for (String line = reader.readLine(); line != null; line = reader.readLine()) {
                if (!line.isBlank() && !line.startsWith("#")) {
                    rows.add(line.split(";", -1));
                }
            }
            return rows;
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }
}
