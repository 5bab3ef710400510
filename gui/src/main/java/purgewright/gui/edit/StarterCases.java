package purgewright.gui.edit;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.List;
import purgewright.sealflow.casefile.CaseDocument;

/** The sample cases that travel in the jar. */
public final class StarterCases {
    private static final String FOLDER = "/purgewright/cases/";

    private StarterCases() {}

    /** File names without their ending, sorted. */
    public static List<String> names() {
        return Resources.names(FOLDER, ".json");
    }

    /** A fresh copy of a starter case. */
    public static CaseDocument open(String name) {
        try (InputStream in = StarterCases.class.getResourceAsStream(FOLDER + name + ".json")) {
            if (in == null) {
                throw new IllegalArgumentException("no starter case " + name);
            }
            return CaseDocument.parse(new String(in.readAllBytes(), StandardCharsets.UTF_8));
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }
}
