package purgewright.command;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Map;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

@DisplayName("The command reference is made from the commands")
class ManualTest {
    private static final Path REFERENCE = Path.of("../docs/guide/command-reference.md");

    @Test
    void thePageInTheGuideIsTheOneTheCommandsGive() throws IOException {
        String made = Manual.reference(Commands.wholeTree(Terminal.silent()));
        if (Boolean.getBoolean("purgewright.update")) {
            Files.writeString(REFERENCE, made);
        }
        assertThat(Files.readString(REFERENCE))
                .as("run this test with -Dpurgewright.update=true")
                .isEqualTo(made);
    }

    @Test
    void everyCommandHasAManualPageThatNamesItsOptions() {
        Map<String, String> pages = Manual.pages(Commands.wholeTree(Terminal.silent()));

        assertThat(pages)
                .containsKeys("purgewright", "purgewright-check", "purgewright-fluid-burn", "purgewright-size");
        assertThat(pages.get("purgewright-check"))
                .contains(".SH EXIT STATUS")
                .contains("\\-\\-strict")
                .contains("screening calculation");
        pages.forEach((name, page) -> assertThat(page.lines())
                .as(name)
                .noneMatch(line -> line.startsWith("'"))
                .allMatch(line -> !line.startsWith(".") || line.matches("\\.(TH|SH|TP|nf|fi|br)( .*)?")));
    }

    @Test
    void completionKnowsTheCommands(@TempDir Path folder) throws IOException {
        Manual.main(new String[] {folder.toString()});

        assertThat(Files.readString(folder.resolve("completion/purgewright.bash")))
                .contains("check")
                .contains("validate");
    }
}
