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
import java.util.stream.Collectors;

/** Metals that have no velocity limit in oxygen below a pressure: EIGA Doc 13/20, appendix B [published, transcription]. */
public final class OxygenMaterials {
    private static final List<Material> ALL = load();

    private OxygenMaterials() {}

    /**
     * A row.
     *
     * @param name of the metal
     * @param pressure up to which it is exempt, absolute, Pa; 0 for never
     * @param thickness least thickness, m; 0 for any
     */
    public record Material(String name, double pressure, double thickness) {}

    private static List<Material> load() {
        try (InputStream in = OxygenMaterials.class.getResourceAsStream("oxygen-materials.csv");
                BufferedReader reader = new BufferedReader(new InputStreamReader(in, StandardCharsets.UTF_8))) {
            List<Material> out = new ArrayList<>();
            for (String line = reader.readLine(); line != null; line = reader.readLine()) {
                if (!line.startsWith("#") && !line.isBlank()) {
                    String[] cells = line.split(";", -1);
                    out.add(new Material(
                            cells[0], Double.parseDouble(cells[1]) * 1e6, Double.parseDouble(cells[2]) / 1e3));
                }
            }
            return List.copyOf(out);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    /** All rows, in the order of the table. */
    public static List<Material> all() {
        return ALL;
    }

    /** Pressure up to which a metal of that thickness (m) is exempt, Pa; 0 when it never is or is not in the table. */
    public static double exemptUpTo(String name, double thickness) {
        return ALL.stream()
                .filter(m -> m.name().equals(name) && thickness >= m.thickness())
                .mapToDouble(Material::pressure)
                .max()
                .orElse(0);
    }

    /** Metals exempt at a pressure, in words, with the least thickness where one is needed. */
    static String exemptAt(double pressure) {
        String names = ALL.stream()
                .filter(m -> m.pressure() > pressure)
                .map(m -> m.thickness() > 0
                        ? String.format(Locale.ROOT, "%s from %.2f mm", m.name(), m.thickness() * 1e3)
                        : m.name())
                .distinct()
                .collect(Collectors.joining(", "));
        return names.isEmpty() ? "none in the table" : names;
    }
}
