package purgewright.gui.text;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Properties;
import java.util.Set;
import java.util.TreeSet;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import purgewright.fluids.Phase;
import purgewright.sealflow.network.SolveResult;

/** Every text the sources ask for exists, and every text that exists is asked for. */
class TextsTest {
    private static final Pattern LITERAL = Pattern.compile("\"([a-z][A-Za-z_]*(?:\\.[A-Za-z_]+)+)\"");

    /** Families whose last part is put together in the source. */
    private static final List<String> FAMILIES =
            List.of("action.", "menu.", "method.", "phase.", "outline.", "meaning.", "tip.", "new.");

    /** A view's own texts are found by its key. */
    private static final Pattern VIEW = Pattern.compile("view\\.[a-z]+(?:\\.caption|\\.run)?");

    private static Set<String> asked(String folder, String call) throws IOException {
        Set<String> keys = new TreeSet<>();
        try (Stream<Path> files = Files.walk(Path.of("src/main/java/purgewright/" + folder))) {
            for (Path file : files.filter(f -> f.toString().endsWith(".java")).toList()) {
                String source = Files.readString(file);
                if (call == null || source.contains(call)) {
                    Matcher m = LITERAL.matcher(source);
                    while (m.find()) {
                        keys.add(m.group(1));
                    }
                }
            }
        }
        return keys;
    }

    private static Set<String> keys(String resource) throws IOException {
        List<String> lines = Files.readAllLines(Path.of("src/main/resources/" + resource));
        Set<String> keys = new TreeSet<>();
        List<String> doubled = new ArrayList<>();
        for (String line : lines) {
            if (!line.isBlank() && !line.startsWith("#")) {
                String key = line.substring(0, line.indexOf('=')).trim();
                if (!keys.add(key)) {
                    doubled.add(key);
                }
            }
        }
        assertThat(doubled).as("keys that stand twice in " + resource).isEmpty();
        Properties read = new Properties();
        read.load(Files.newBufferedReader(Path.of("src/main/resources/" + resource)));
        assertThat(read.stringPropertyNames()).hasSameSizeAs(keys);
        return keys;
    }

    @Test
    void theWindowsTextsAreCompleteAndNoneIsLeftOver() throws IOException {
        Set<String> keys = keys("purgewright/gui/strings.properties");
        Set<String> asked = asked("gui", "Texts");
        Set<String> roots = new TreeSet<>();
        keys.forEach(k -> roots.add(k.substring(0, k.indexOf('.'))));
        assertThat(asked.stream()
                        .filter(k -> roots.contains(k.substring(0, k.indexOf('.'))))
                        .filter(k -> !keys.contains(k))
                        .map(k -> k + "=")
                        .toList())
                .as("lines to add to strings.properties")
                .isEmpty();
        assertThat(keys.stream()
                        .filter(k -> !asked.contains(k))
                        .filter(k -> FAMILIES.stream().noneMatch(k::startsWith))
                        .filter(k -> !VIEW.matcher(k).matches())
                        .toList())
                .as("keys nobody asks for")
                .isEmpty();
    }

    @Test
    void everyMethodAndEveryPhaseHasItsWord() {
        for (SolveResult.Method method : SolveResult.Method.values()) {
            assertThat(Texts.has("method." + method.name().toLowerCase(Locale.ROOT)))
                    .as(method.name())
                    .isTrue();
        }
        for (Phase phase : Phase.values()) {
            assertThat(Texts.has("phase." + phase.name().toLowerCase(Locale.ROOT)))
                    .as(phase.name())
                    .isTrue();
        }
    }

    @Test
    void theDrawingsTextsAreCompleteAndNoneIsLeftOver() throws IOException {
        Set<String> keys = keys("purgewright/figure/strings.properties");
        Set<String> asked = asked("figure", null);
        assertThat(keys).isSubsetOf(asked);
        Set<String> roots = new TreeSet<>();
        keys.forEach(k -> roots.add(k.substring(0, k.indexOf('.'))));
        assertThat(asked.stream()
                        .filter(k -> roots.contains(k.substring(0, k.indexOf('.'))))
                        .toList())
                .isSubsetOf(keys);
    }
}
