package purgewright.samples;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;

@DisplayName("Output shown in the README is what the tool prints")
class ReadmeTest {
    private static final Pattern BLOCK =
            Pattern.compile("(<!-- output of: (?<command>[^>]+) -->\n```text\n)(?<text>.*?)(```\n)", Pattern.DOTALL);

    /** With {@code -Dpurgewright.update=true} the page is rewritten instead of compared. */
    @Test
    void everyBlockIsTheRealOutput() throws IOException {
        Path page = ChildJvm.root().resolve("README.md");
        String text = Files.readString(page);
        Matcher matcher = BLOCK.matcher(text);
        StringBuilder fresh = new StringBuilder();
        int blocks = 0;
        while (matcher.find()) {
            blocks++;
            String output =
                    ChildJvm.run(matcher.group("command").strip().split(" ")).out();
            matcher.appendReplacement(
                    fresh, Matcher.quoteReplacement(matcher.group(1) + Golden.rounded(output) + matcher.group(4)));
        }
        matcher.appendTail(fresh);
        assertThat(blocks).as("blocks with real output").isPositive();
        if (Boolean.getBoolean("purgewright.update")) {
            Files.writeString(page, fresh.toString());
        }
        assertThat(Files.readString(page)).isEqualTo(fresh.toString());
    }
}
