package purgewright.samples;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import purgewright.sealflow.casefile.CaseDocument;

@DisplayName("A sample that is opened and saved is the same text, but for the lines that were edited")
class SampleLayoutTest {
    @TempDir
    Path folder;

    /** Places of all single values below a place. */
    private static void values(CaseDocument document, String place, List<String> found) {
        if (document.text(place).isPresent()) {
            found.add(place);
        }
        List<String> inside = document.children(place);
        boolean list = document.json(place).orElse("").startsWith("[");
        for (int i = 0; i < inside.size(); i++) {
            String step = list
                    ? Integer.toString(i)
                    : inside.get(i).replace("~", "~0").replace("/", "~1");
            values(document, place + "/" + step, found);
        }
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "minimal",
                "nitrogen-compressor",
                "shared-rotor-hub-fed",
                "shared-rotor-kerosene",
                "shared-rotor-lox",
                "spaced-lox-methane",
                "falls-short"
            })
    void anEditedNumberChangesItsLineOnly(String name) throws IOException {
        String text = Files.readString(ChildJvm.sample(name));
        CaseDocument document = CaseDocument.read(ChildJvm.sample(name));
        Path saved = folder.resolve("saved.json");
        document.save(saved);
        assertThat(saved).hasContent(text);
        List<String> places = new ArrayList<>();
        values(document, "", places);
        assertThat(places).hasSizeGreaterThan(50);
        List<String> before = text.lines().toList();
        for (String place : places) {
            List<String> after =
                    document.with(place, "12.5 mm").toJson().lines().toList();
            assertThat(after).as(place).hasSameSizeAs(before);
            for (int i = 0; i < before.size(); i++) {
                assertThat(after.get(i).equals(before.get(i)))
                        .as("%s, line %d", place, i + 1)
                        .isEqualTo(i + 1 != document.line(place));
            }
        }
    }
}
