package purgewright.samples;

import static org.assertj.core.api.Assertions.assertThat;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

@DisplayName("The answer depends on the case alone: not on language, folder, home, terminal or number of threads")
class PlatformTest {
    private static final String MINIMAL = ChildJvm.sample("minimal").toString();

    @TempDir
    Path folder;

    @ParameterizedTest
    @ValueSource(strings = {"tr-TR", "de-DE", "ar-EG-u-nu-arab", "hi-IN-u-nu-deva"})
    void languagesAndTheirDigitsChangeNothing(String tag) {
        String[] parts = tag.split("-");
        ChildJvm.Outcome plain = ChildJvm.run("check", "--json", MINIMAL);
        ChildJvm.Outcome other = ChildJvm.run(
                Map.of("LANG", parts[0] + "_" + parts[1] + ".UTF-8"),
                List.of(
                        "-Duser.language=" + parts[0],
                        "-Duser.country=" + parts[1],
                        "-Duser.extensions=" + (parts.length > 3 ? "u-nu-" + parts[4] : "")),
                "check",
                "--json",
                MINIMAL);

        assertThat(other.out()).isEqualTo(plain.out());
        assertThat(other.code()).isEqualTo(plain.code());
    }

    @Test
    void namesOfEveryScriptAndFoldersWithSpacesWork() throws IOException {
        Path place =
                Files.createDirectories(folder.resolve("a folder with spaces").resolve("дренаж İı קו"));
        Path file = place.resolve("случай ไทย.json");
        String text = Files.readString(Path.of(MINIMAL))
                .replace("\"ring A\"", "\"קו ריק İ\"")
                .replace("\"name\": \"barrier\",", "\"name\": \"Schränke ﷽\",")
                .replace("\"from\": \"barrier\"", "\"from\": \"Schränke ﷽\"")
                .replace("\"to\": \"barrier\"", "\"to\": \"Schränke ﷽\"");
        Files.writeString(file, text);
        ChildJvm.Outcome named = ChildJvm.run("check", file.toString());

        assertThat(named.err()).doesNotContain("purgewright:");
        assertThat(named.code()).isZero();
        assertThat(named.out()).contains("Schränke ﷽").contains("קו ריק İ");

        Path report = place.resolve("отчёт.html");
        assertThat(ChildJvm.run("report", file.toString(), "-o", report.toString())
                        .code())
                .isZero();
        assertThat(ChildJvm.run("check", report.toString()).out())
                .as("a report opens like its case")
                .isEqualTo(named.out());
    }

    @Test
    void lineEndsOfAnotherSystemAndAByteOrderMarkChangeNothing() throws IOException {
        String text = Files.readString(Path.of(MINIMAL)).replace("\r", "").replace("\n", "\r\n");
        Path file = Files.writeString(folder.resolve("crlf.json"), "\uFEFF" + text);

        ChildJvm.Outcome plain = ChildJvm.run("check", MINIMAL);
        ChildJvm.Outcome other = ChildJvm.run("check", file.toString());
        assertThat(other.out()).isEqualTo(plain.out());
    }

    @Test
    void aHomeThatCannotBeWrittenAndANarrowTerminalAreNoHindrance() throws IOException {
        assumeTrue(Files.isDirectory(Path.of("/proc/self")), "there is no /proc on this system");
        ChildJvm.Outcome outcome = ChildJvm.run(
                Map.of("HOME", "/proc", "COLUMNS", "20", "TERM", "dumb", "NO_COLOR", "1"),
                List.of("-Duser.home=/proc"),
                "check",
                MINIMAL);

        assertThat(outcome.code()).isZero();
        assertThat(outcome.out()).doesNotContain("\u001b[");
        assertThat(outcome.hasStackTrace()).isFalse();
    }

    @Test
    void withoutADisplayTheWindowSaysSo() {
        assumeTrue(System.getProperty("os.name").startsWith("Linux"), "elsewhere there is always a display");
        for (String[] arguments : new String[][] {{}, {"window"}, {"window", MINIMAL}}) {
            ChildJvm.Outcome outcome = ChildJvm.run(arguments);
            assertThat(outcome.code()).isEqualTo(2);
            assertThat(outcome.err()).contains("no display").contains("--help").hasLineCount(1);
            assertThat(outcome.out()).isEmpty();
            assertThat(outcome.hasStackTrace()).isFalse();
        }
    }

    @Test
    void theNumberOfThreadsChangesNothing() {
        ChildJvm.Outcome one = ChildJvm.run("fail", "--json", "--threads", "1", MINIMAL);
        ChildJvm.Outcome eight = ChildJvm.run("fail", "--json", "--threads", "8", MINIMAL);

        assertThat(eight.out()).isEqualTo(one.out());
        assertThat(eight.code()).isEqualTo(one.code());
    }
}
