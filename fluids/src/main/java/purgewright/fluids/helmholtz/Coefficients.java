package purgewright.fluids.helmholtz;

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
 * A resource file of published coefficients: one key a line, then its values; a repeated key is a row of a table; {@code #} starts
 * a comment. Immutable.
 */
public final class Coefficients {
    private final String resource;
    private final Map<String, List<String>> rows;

    private Coefficients(String resource, Map<String, List<String>> rows) {
        this.resource = resource;
        this.rows = rows;
    }

    /**
     * Reads a resource of this package.
     *
     * @param name file name, for instance {@code nitrogen.eos}
     */
    public static Coefficients read(String name) {
        Map<String, List<String>> rows = new LinkedHashMap<>();
        try (InputStream stream = Coefficients.class.getResourceAsStream(name)) {
            if (stream == null) {
                throw new IllegalArgumentException("no resource " + name);
            }
            BufferedReader reader = new BufferedReader(new InputStreamReader(stream, StandardCharsets.UTF_8));
            for (String line = reader.readLine(); line != null; line = reader.readLine()) {
                int space = line.indexOf(' ');
                if (line.startsWith("#") || space < 0) {
                    continue;
                }
                rows.computeIfAbsent(line.substring(0, space), key -> new ArrayList<>())
                        .add(line.substring(space + 1));
            }
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
        return new Coefficients(name, rows);
    }

    /** True when the key occurs. */
    public boolean has(String key) {
        return rows.containsKey(key);
    }

    /** The one value of a key as text. */
    public String text(String key) {
        List<String> found = rows.get(key);
        if (found == null) {
            throw new IllegalArgumentException(resource + " has no " + key);
        }
        return found.get(0);
    }

    /** All values of a key as text; empty when it does not occur. */
    public List<String> texts(String key) {
        return List.copyOf(rows.getOrDefault(key, List.of()));
    }

    /** The one number of a key. */
    public double number(String key) {
        return Double.parseDouble(text(key));
    }

    /** The numbers of a key's first row. */
    public double[] numbers(String key) {
        return split(text(key));
    }

    /** All rows of a key; empty when it does not occur. */
    public double[][] table(String key) {
        List<String> found = rows.getOrDefault(key, List.of());
        double[][] table = new double[found.size()][];
        for (int i = 0; i < table.length; i++) {
            table[i] = split(found.get(i));
        }
        return table;
    }

    private static double[] split(String row) {
        int count = 0;
        int length = row.length();
        for (int i = 0; i < length; i++) {
            if (row.charAt(i) != ' ' && (i == 0 || row.charAt(i - 1) == ' ')) {
                count++;
            }
        }
        double[] numbers = new double[count];
        int at = 0;
        for (int i = 0; i < count; i++) {
            while (row.charAt(at) == ' ') {
                at++;
            }
            int end = row.indexOf(' ', at);
            end = end < 0 ? length : end;
            numbers[i] = Double.parseDouble(row.substring(at, end));
            at = end;
        }
        return numbers;
    }
}
