package purgewright.samples;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import javax.imageio.ImageIO;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Tables, comma-separated values and diagrams of {@code fluid}. */
class FluidCommandTest {
    @TempDir
    Path folder;

    private static ChildJvm.Outcome run(String words, String... more) throws IOException {
        List<String> all = new ArrayList<>(Arrays.asList(words.split(" ")));
        all.addAll(Arrays.asList(more));
        return ChildJvm.run(all.toArray(String[]::new));
    }

    @Test
    void aRangeGivesATableAndALineInTheSolidSaysSo() throws IOException {
        Path file = folder.resolve("table.csv");
        ChildJvm.Outcome outcome =
                run("fluid nitrogen --json --pressure 4MPa --temperature 50K..100K --steps 5 -o", file.toString());
        assertThat(outcome.code()).as(outcome.err()).isZero();
        JsonNode table = new ObjectMapper().readTree(outcome.out()).get("table");
        assertThat(table).hasSize(5);
        assertThat(table.get(0).has("density_kg_m3")).isFalse();
        assertThat(table.get(0).get("problem").asText()).isEqualTo("temperature out of range");
        assertThat(table.get(4).get("temperature_K").asDouble()).isEqualTo(100);
        assertThat(table.get(4).get("density_kg_m3").asDouble()).isBetween(690.0, 720.0);
        List<String> lines = Files.readAllLines(file);
        assertThat(lines).hasSize(4 + 1 + 5);
        assertThat(lines.get(4)).startsWith("temperature_K,pressure_Pa,phase,density_kg_m3,enthalpy_J_kg");
    }

    @Test
    void aDiagramIsWritten() throws IOException {
        Path png = folder.resolve("oxygen.png");
        ChildJvm.Outcome outcome = run("fluid oxygen --diagram ph -o", png.toString());
        assertThat(outcome.code()).as(outcome.err()).isZero();
        assertThat(ImageIO.read(png.toFile()).getWidth()).isEqualTo(2000);
    }

    @ParameterizedTest
    @CsvSource({
        "fluid nitrogen --pressure 1MPa..2MPa --temperature 90K..99K, BAD_RANGE",
        "fluid nitrogen --pressure 1MPa..1MPa --temperature 90K, BAD_RANGE",
        "fluid nitrogen --pressure 1MPa --temperature 5K..9K, TEMPERATURE_OUT_OF_RANGE",
        "fluid nitrogen --pressure 1MPa --temperature 90K..99K --steps 1, OUT_OF_RANGE",
        "fluid nitrogen --pressure 1MPa --temperature 90K -o state.txt, BAD_OPTIONS",
        "fluid nitrogen --diagram ph, BAD_OPTIONS",
        "fluid nitrogen --diagram ph -o chart.pdf, BAD_OPTIONS",
        "fluid air --saturation, PAIR_NOT_SUPPORTED"
    })
    void badInputEndsWithTwoAndOneMessage(String words, String key) throws IOException {
        ChildJvm.Outcome outcome = run(words + " --json");
        assertThat(outcome.code()).as(outcome.err()).isEqualTo(2);
        assertThat(outcome.out() + outcome.err()).contains(key);
        assertThat(outcome.hasStackTrace()).isFalse();
    }
}
