package purgewright.hazard.criteria;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStream;
import java.io.InputStreamReader;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.Collections;
import java.util.EnumMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

/**
 * A set of limits under one name, from {@code presets.csv}: common practice of a kind of machine, each limit with its origin.
 *
 * @param name as written in the case
 * @param values SI, by limit
 * @param origins by limit, with its label
 */
public record Preset(String name, Map<Limit, Double> values, Map<Limit, String> origins) {
    private static final Map<String, Preset> ALL = load();

    private static Map<String, Preset> load() {
        Map<String, Preset> out = new LinkedHashMap<>();
        try (InputStream in = Preset.class.getResourceAsStream("presets.csv");
                BufferedReader reader = new BufferedReader(new InputStreamReader(in, StandardCharsets.UTF_8))) {
            for (String line = reader.readLine(); line != null; line = reader.readLine()) {
                if (line.startsWith("#") || line.isBlank()) {
                    continue;
                }
                String[] cells = line.split(";", 4);
                Limit limit = Criteria.find(cells[1]);
                if (limit == null) {
                    throw new IllegalStateException("presets.csv: there is no limit \"" + cells[1] + "\"");
                }
                Preset preset = out.computeIfAbsent(
                        cells[0], n -> new Preset(n, new EnumMap<>(Limit.class), new EnumMap<>(Limit.class)));
                preset.values.put(limit, Double.valueOf(cells[2]));
                preset.origins.put(limit, cells[3]);
            }
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
        out.replaceAll(
                (n, p) -> new Preset(n, Collections.unmodifiableMap(p.values), Collections.unmodifiableMap(p.origins)));
        return Collections.unmodifiableMap(out);
    }

    /** The preset of that name; null when there is none. */
    public static Preset find(String name) {
        return ALL.get(name);
    }

    /** Names in the order of the file. */
    public static List<String> names() {
        return new ArrayList<>(ALL.keySet());
    }
}
