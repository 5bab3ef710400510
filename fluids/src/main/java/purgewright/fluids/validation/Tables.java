package purgewright.fluids.validation;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStream;
import java.io.InputStreamReader;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;

/** Reads the tables of this package: comma separated, {@code #} comments, one header line, quotes round a last column of text. */
final class Tables {
    private Tables() {}

    static List<String[]> rows(String resource) {
        List<String[]> rows = new ArrayList<>();
        try (InputStream stream = Tables.class.getResourceAsStream(resource)) {
            if (stream == null) {
                throw new IllegalArgumentException("no resource " + resource);
            }
            BufferedReader reader = new BufferedReader(new InputStreamReader(stream, StandardCharsets.UTF_8));
            boolean header = true;
            for (String line = reader.readLine(); line != null; line = reader.readLine()) {
                if (line.startsWith("#")) {
                    continue;
                }
                if (header) {
                    header = false;
                    continue;
                }
                int quote = line.indexOf('"');
                if (quote < 0) {
                    rows.add(line.split(",", -1));
                } else {
                    String[] head = line.substring(0, quote).split(",", -1);
                    head[head.length - 1] = line.substring(quote + 1, line.length() - 1);
                    rows.add(head);
                }
            }
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
        return rows;
    }

    static double number(String text) {
        return text.isEmpty() ? Double.NaN : Double.parseDouble(text);
    }
}
