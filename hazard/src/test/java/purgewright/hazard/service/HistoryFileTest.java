package purgewright.hazard.service;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import purgewright.fluids.Engines;
import purgewright.sealflow.casefile.CaseDocument;
import purgewright.sealflow.casefile.CaseException;

@DisplayName("A history that a case names lies beside the case, whatever the case says")
class HistoryFileTest {
    private static final Path MINIMAL = Path.of("../samples/cases/minimal.json");

    @TempDir
    Path folder;

    private Path cases;

    @BeforeEach
    void secret() throws IOException {
        cases = Files.createDirectory(folder.resolve("cases"));
        Files.writeString(folder.resolve("secret.csv"), "a secret that no message may tell\n");
    }

    private void refused(String name, String why) {
        CaseDocument document = CaseDocument.read(MINIMAL)
                .withJson(
                        "/duty",
                        "[{\"name\": \"run\", \"duration\": \"1 s\", \"history\": \""
                                + name.replace("\\", "\\\\").replace("\0", "\\u0000") + "\"}]");
        assertThatThrownBy(() ->
                        new RunService(Engines.embedded()).run(document, cases, RunSettings.DEFAULT, Progress.NONE))
                .isInstanceOfSatisfying(CaseException.class, e -> {
                    assertThat(e.problems()).hasSize(1);
                    assertThat(e.problems().get(0).place()).isEqualTo("/duty/run/history");
                    assertThat(e.problems().get(0).message()).contains(why);
                })
                .message()
                .doesNotContain("a secret");
    }

    @ParameterizedTest
    @ValueSource(
            strings = {"../secret.csv", "/etc/passwd", "x/../../secret.csv", "../data/../secret.csv", "../cases2/a.csv"
            })
    void dotsDoNotLeadOut(String name) {
        refused(name, "is not beside the case");
    }

    @Test
    void aLinkDoesNotLeadOut() throws IOException {
        Files.createSymbolicLink(cases.resolve("link.csv"), folder.resolve("secret.csv"));
        refused("link.csv", "is not beside the case");
        Path data = Files.createDirectory(folder.resolve("data"));
        Files.createSymbolicLink(data.resolve("link.csv"), folder.resolve("secret.csv"));
        refused("../data/link.csv", "is not beside the case");
    }

    @Test
    void whatIsNoFileNameOrNotThereIsSaid() {
        refused("a\0b.csv", "");
        refused("missing.csv", "no such file");
        // Windows' ways of writing a path are names like any other elsewhere, and lead nowhere.
        refused("C:\\data\\x.csv", "");
        refused("..\\secret.csv", "");
    }
}
