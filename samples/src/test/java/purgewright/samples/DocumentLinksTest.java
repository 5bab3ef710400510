package purgewright.samples;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;

@DisplayName("Links between our pages lead somewhere")
class DocumentLinksTest {
    private static final Pattern LINK = Pattern.compile("\\]\\(([^)\\s]+)\\)");
    private static final Pattern HEADING = Pattern.compile("^#+ (.+)$", Pattern.MULTILINE);
    private static final Pattern FENCE = Pattern.compile("^ *```.*?^ *```", Pattern.MULTILINE | Pattern.DOTALL);

    @Test
    void everyLinkNamesAFileAndAHeadingThatAreThere() throws IOException {
        Path root = ChildJvm.root();
        List<Path> pages;
        try (Stream<Path> docs = Files.walk(root.resolve("docs"));
                Stream<Path> top = Files.list(root)) {
            pages = Stream.concat(top, docs)
                    .filter(page -> page.toString().endsWith(".md"))
                    .toList();
        }
        List<String> broken = new ArrayList<>();
        int seen = 0;
        for (Path page : pages) {
            Matcher links = LINK.matcher(prose(page));
            while (links.find()) {
                String link = links.group(1);
                if (link.startsWith("http")) {
                    continue;
                }
                seen++;
                int hash = link.indexOf('#');
                String file = hash < 0 ? link : link.substring(0, hash);
                Path target = file.isEmpty() ? page : page.resolveSibling(file).normalize();
                if (!Files.exists(target) || (hash >= 0 && !anchors(target).contains(link.substring(hash + 1)))) {
                    broken.add(root.relativize(page) + ": " + link);
                }
            }
        }
        assertThat(broken).isEmpty();
        assertThat(seen).as("links looked at").isGreaterThan(100);
    }

    private static String prose(Path page) throws IOException {
        return FENCE.matcher(Files.readString(page)).replaceAll("");
    }

    /** Headings as pages name them: lower case, blanks as hyphens, punctuation gone. */
    private static List<String> anchors(Path page) throws IOException {
        return HEADING.matcher(prose(page))
                .results()
                .map(heading -> heading.group(1)
                        .strip()
                        .toLowerCase(Locale.ROOT)
                        .replaceAll("[^\\w\\- ]", "")
                        .replace(' ', '-'))
                .toList();
    }
}
