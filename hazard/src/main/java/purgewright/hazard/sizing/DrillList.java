package purgewright.hazard.sizing;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStream;
import java.io.InputStreamReader;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

/**
 * Diameters that holes are drilled to, from {@code drills.csv} beside this class, whose heading says where they come from.
 *
 * @param name "metric drills" or "number drills"
 * @param sizes as the shop calls them, ascending by diameter
 * @param diameters m, ascending
 * @param source with its label
 */
public record DrillList(String name, List<String> sizes, List<Double> diameters, String source) {
    private static final double INCH = 0.0254;

    private static final Map<String, String> SOURCES = Map.of(
            "metric drills",
            "BS 328 twist drill sizes, second hand [published]",
            "number drills",
            "US number gauge, ANSI/ASME B94.11M [published for 80 to 54, the others from memory]");

    private static final class Holder {
        static final Map<String, DrillList> ALL = read();
    }

    /** All lists by name. */
    public static Map<String, DrillList> all() {
        return Holder.ALL;
    }

    /** What the shop calls a diameter of this list; empty when it is none. */
    public String size(double diameter) {
        for (int i = 0; i < diameters.size(); i++) {
            if (Math.abs(diameters.get(i) - diameter) < 1e-9) {
                return sizes.get(i);
            }
        }
        return "";
    }

    private static Map<String, DrillList> read() {
        Map<String, Map<Double, String>> found = new LinkedHashMap<>();
        try (InputStream in = DrillList.class.getResourceAsStream("drills.csv");
                BufferedReader lines = new BufferedReader(new InputStreamReader(in, StandardCharsets.UTF_8))) {
            for (String line = lines.readLine(); line != null; line = lines.readLine()) {
                String[] cells = line.split(",", -1);
                if (line.startsWith("#") || cells.length != 4 || "list".equals(cells[0])) {
                    continue;
                }
                double scale = "in".equals(cells[3]) ? INCH : 1e-3;
                found.computeIfAbsent(cells[0], k -> new java.util.TreeMap<>())
                        .put(Double.parseDouble(cells[2]) * scale, cells[1]);
            }
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
        Map<String, DrillList> out = new LinkedHashMap<>();
        found.forEach((name, sizes) -> out.put(
                name,
                new DrillList(
                        name,
                        List.copyOf(new ArrayList<>(sizes.values())),
                        List.copyOf(new ArrayList<>(sizes.keySet())),
                        SOURCES.getOrDefault(name, ""))));
        return java.util.Collections.unmodifiableMap(out);
    }
}
