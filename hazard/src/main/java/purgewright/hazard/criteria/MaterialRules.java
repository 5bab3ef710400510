package purgewright.hazard.criteria;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStream;
import java.io.InputStreamReader;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import purgewright.hazard.finding.Draft;
import purgewright.hazard.finding.Finding;
import purgewright.hazard.finding.Verdict;
import purgewright.sealflow.network.SolveResult.CavityState;

/**
 * A note on hydrogen embrittlement for the materials that the rotor states. The case does not say which cavity wets which part, so any
 * hydrogen in the machine counts. A class of metals, not a strength: thin at the worst, never a proof that a part holds.
 */
public final class MaterialRules {
    /** Key. */
    public static final String HYDROGEN = "hydrogen-material";

    /** Mole fraction from which hydrogen in a cavity counts [invented]. */
    private static final double NOTICEABLE = 0.01;

    private static final String SOURCE =
            "R. P. Jewett et al., NASA CR-2163 (1973), four classes [published, value recalled from memory]";

    private static final List<Metal> ALL = load();

    private MaterialRules() {}

    /**
     * A row of the table.
     *
     * @param grade extreme, severe, slight or negligible
     * @param name of the metal
     * @param words by which a case may call it
     */
    public record Metal(String grade, String name, List<String> words) {}

    private static List<Metal> load() {
        try (InputStream in = MaterialRules.class.getResourceAsStream("hydrogen-materials.csv");
                BufferedReader reader = new BufferedReader(new InputStreamReader(in, StandardCharsets.UTF_8))) {
            List<Metal> out = new ArrayList<>();
            for (String line = reader.readLine(); line != null; line = reader.readLine()) {
                if (!line.startsWith("#") && !line.isBlank()) {
                    String[] cells = line.split(";", -1);
                    out.add(new Metal(cells[0], cells[1], List.of(cells[2].split("\\|", -1))));
                }
            }
            return List.copyOf(out);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    /** The metal that a case calls so; null for one that is not in the table, or that fits two of different classes. */
    public static Metal find(String material) {
        String text = " "
                + material.toLowerCase(Locale.ROOT)
                        .replaceAll("[^a-z0-9]+", " ")
                        .trim() + " ";
        Metal found = null;
        for (Metal m : ALL) {
            if (m.words().stream().anyMatch(w -> text.contains(" " + w + " "))) {
                if (found != null && !found.grade().equals(m.grade())) {
                    return null;
                }
                found = m;
            }
        }
        return found;
    }

    /**
     * One finding for each segment of the rotor that states its material, where a cavity holds hydrogen.
     *
     * @param materials by name of the segment
     */
    public static List<Finding> hydrogen(Setting s, Map<String, String> materials) {
        List<Finding> out = new ArrayList<>();
        double most = 0;
        String where = "";
        for (CavityState c : s.solve().cavities().values()) {
            double share = c.moleFractions().entrySet().stream()
                    .filter(e -> e.getKey().equalsIgnoreCase("hydrogen")
                            || e.getKey().equals("H2"))
                    .mapToDouble(Map.Entry::getValue)
                    .sum();
            if (share > NOTICEABLE && share * c.state().pressure() > most) {
                most = share * c.state().pressure();
                where = c.name();
            }
        }
        if (most <= 0) {
            return out;
        }
        double partial = most;
        String wet = where;
        materials.forEach((segment, material) -> {
            Metal metal = find(material);
            boolean well = metal != null && ("slight".equals(metal.grade()) || "negligible".equals(metal.grade()));
            out.add(Draft.of(HYDROGEN, "/rotor/segments/" + segment, s.scene())
                    .what(
                            metal == null
                                    ? "Whether hydrogen embrittles " + material + " is not in the table"
                                    : metal.name() + " in hydrogen gas: " + metal.grade() + " embrittlement")
                    .unit("Pa")
                    .how(
                            "class of the material that the segment states; shown is the highest partial pressure of hydrogen, in "
                                    + wet + "; whether that gas wets the segment the case does not say")
                    .source(SOURCE)
                    .mend("a metal of a better class, a coating, or the part kept out of the hydrogen")
                    .caution("a class near room temperature, no strength; heat treatment, weld and stress decide")
                    .as(well ? Verdict.HOLDS : Verdict.THIN, partial, Double.NaN, Double.NaN));
        });
        return out;
    }
}
