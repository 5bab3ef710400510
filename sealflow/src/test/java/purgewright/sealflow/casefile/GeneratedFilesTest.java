package purgewright.sealflow.casefile;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.Test;

/** Files of the repository that are made from the layout. They are written anew with -Dpurgewright.regenerate=true. */
class GeneratedFilesTest {
    private static final String HOW = "mvn -q -pl sealflow -am test -Dtest=GeneratedFilesTest"
            + " -Dsurefire.failIfNoSpecifiedTests=false -Dpurgewright.regenerate=true";

    @Test
    void theSchemaIsThatOfTheLayout() throws IOException {
        isCurrent(Path.of("src/main/resources" + CaseSchema.RESOURCE), CaseSchema.generate());
    }

    @Test
    void theReferencePageIsThatOfTheLayout() throws IOException {
        isCurrent(Path.of("../docs/guide/case-file.md"), CaseReference.markdown());
    }

    private static void isCurrent(Path file, String generated) throws IOException {
        if (Boolean.getBoolean("purgewright.regenerate")) {
            Files.createDirectories(file.toAbsolutePath().getParent());
            Files.writeString(file, generated, StandardCharsets.UTF_8);
        }
        assertThat(Files.exists(file) ? Files.readString(file, StandardCharsets.UTF_8) : "")
                .withFailMessage(
                        file + " is out of date with the layout or the passage types. Write it anew by:\n" + HOW)
                .isEqualTo(generated);
    }
}
