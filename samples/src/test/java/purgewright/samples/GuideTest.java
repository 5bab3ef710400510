package purgewright.samples;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

@DisplayName("The guide's commands run as they stand")
class GuideTest {
    private static final Pattern COMMAND = Pattern.compile("^ *\\./purgewright (.+)$", Pattern.MULTILINE);
    private static final Pattern WORD = Pattern.compile("\"([^\"]*)\"|(\\S+)");

    @TempDir
    Path folder;

    @ParameterizedTest
    @ValueSource(strings = {"../../README.md", "commands.md", "designer.md", "planner.md", "reviewer.md"})
    void everyCommandRuns(String page) throws IOException {
        Matcher commands = COMMAND.matcher(
                Files.readString(ChildJvm.root().resolve("docs/guide").resolve(page)));
        int count = 0;
        while (commands.find()) {
            String command = commands.group(1).replaceFirst("(^|\\s+)#.*$", "").strip();
            if (command.isEmpty()) {
                continue; // the window
            }
            count++;
            List<String> words = new ArrayList<>();
            Matcher word = WORD.matcher(command);
            while (word.find()) {
                words.add(word.group(1) == null ? placed(word.group(2)) : word.group(1));
            }
            ChildJvm.Outcome outcome = ChildJvm.run(words.toArray(String[]::new));
            assertThat(outcome.code()).as("%s: %s", command, outcome.err()).isIn(0, 1);
            assertThat(outcome.hasStackTrace()).isFalse();
        }
        assertThat(count).isGreaterThan(2);
    }

    /** What the reader writes into the working folder goes to a temporary one here. */
    private String placed(String word) {
        return word.matches("[\\w-]+\\.(json|pdf|html|csv|svg|png)")
                ? folder.resolve(word).toString()
                : word;
    }
}
