package purgewright.samples;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.MethodSource;

@DisplayName("Every sample case, as a user runs it")
class SampleCasesTest {
    static Stream<String> names() throws IOException {
        try (Stream<Path> files = Files.list(ChildJvm.root().resolve("samples/cases"))) {
            return files
                    .filter(f -> f.toString().endsWith(".json"))
                    .map(f -> f.getFileName().toString().replace(".json", ""))
                    .sorted()
                    .toList()
                    .stream();
        }
    }

    @ParameterizedTest
    @MethodSource("names")
    void convergesAndSaysSoInJson(String name) throws IOException {
        ChildJvm.Outcome outcome =
                ChildJvm.run("check", "--json", ChildJvm.sample(name).toString());
        assertThat(outcome.err()).isEmpty();
        JsonNode result = new ObjectMapper().readTree(outcome.out());
        assertThat(result.path("result").asInt()).isEqualTo(1);
        assertThat(result.path("cautions")).isNotEmpty();
        assertThat(outcome.code())
                .isEqualTo(
                        switch (result.path("verdict").asText()) {
                            case "holds", "thin" -> 0;
                            case "falls short" -> 1;
                            case "not converged" -> 3;
                            case "not established" -> 4;
                            default -> -1;
                        });
        assertThat(result.path("phases")).isNotEmpty();
        for (JsonNode phase : result.path("phases")) {
            assertThat(phase.path("converged").asBoolean()).as("%s", phase).isTrue();
            assertThat(phase.path("mass_closure").asDouble(1)).isLessThan(1e-9);
            for (JsonNode cavity : phase.path("cavities")) {
                assertThat(cavity.path("pressure_Pa").asDouble()).isPositive();
                assertThat(cavity.path("temperature_K").asDouble()).isPositive();
                assertThat(sum(cavity.path("mass_fractions"))).isBetween(1 - 1e-9, 1 + 1e-9);
                assertThat(sum(cavity.path("mole_fractions"))).isBetween(1 - 1e-9, 1 + 1e-9);
            }
            for (JsonNode passage : phase.path("passages")) {
                assertThat(passage.path("flow_kg_s").isNumber()).isTrue();
                assertThat(passage.path("upstream").asText()).isNotEmpty();
            }
        }
        for (JsonNode finding : result.path("findings")) {
            for (String key : List.of("id", "verdict", "what", "where", "phase", "scenario", "how", "source")) {
                assertThat(finding.path(key).asText())
                        .as("%s of %s", key, finding)
                        .isNotEmpty();
            }
            for (String key : List.of("value", "limit", "margin", "unit", "mend", "caution")) {
                assertThat(finding.has(key)).as("%s of %s", key, finding).isTrue();
            }
        }
    }

    private static double sum(JsonNode fractions) {
        double sum = 0;
        for (JsonNode fraction : fractions) {
            sum += fraction.asDouble();
        }
        return sum;
    }

    @ParameterizedTest(name = "{0}: {1}")
    @CsvSource({"falls-short, falls short, 1", "shared-rotor-hub-fed, falls short, 1"})
    void hasTheVerdictItIsNamedFor(String name, String verdict, int code) {
        ChildJvm.Outcome outcome = ChildJvm.run("check", ChildJvm.sample(name).toString());
        assertThat(outcome.out()).startsWith("Verdict: " + verdict);
        assertThat(outcome.code()).isEqualTo(code);
    }

    @Test
    void theRadialPressureGradientDecidesAboutTheHubFedRotorAndTheCheckSaysSo(@TempDir Path folder) throws IOException {
        String text = Files.readString(ChildJvm.sample("shared-rotor-hub-fed"));
        String face = "\"role\": \"fuel\", \"radius\": \"34 mm\",";
        assertThat(text).contains(face);
        Path still = folder.resolve("still.json");
        Files.writeString(still, text.replace(face, face + " \"swirl ratio\": 0,"));
        ChildJvm.Outcome turning =
                ChildJvm.run("check", ChildJvm.sample("shared-rotor-hub-fed").toString());
        ChildJvm.Outcome neglected = ChildJvm.run("check", still.toString());
        assertThat(turning.out()).startsWith("Verdict: falls short");
        assertThat(neglected.out()).startsWith("Verdict: holds");
        assertThat(turning.out().replaceAll("\\s+", " "))
                .contains(
                        "neglected (swirl 0) the verdict of the nominal models would be holds in place of falls short");
    }

    @ParameterizedTest
    @MethodSource("names")
    void saysThatItIsInvented(String name) throws IOException {
        String text = Files.readString(ChildJvm.sample(name));
        assertThat(new ObjectMapper().readTree(text).path("about").path("note").asText())
                .containsIgnoringCase("invented");
    }

    @Test
    void theReportIsAtMostAHundredColumnsWideAndEndsWithTheCautions() {
        ChildJvm.Outcome outcome =
                ChildJvm.run("check", ChildJvm.sample("minimal").toString());
        assertThat(outcome.out().lines())
                .allSatisfy(line -> assertThat(line.length()).as(line).isLessThanOrEqualTo(100));
        assertThat(outcome.out()).contains("\nCautions\n").contains("faults not examined");
        assertThat(outcome.err()).isEmpty();
    }

    @Test
    void theFaultSweepFindsWhatEmptiesTheBarrier() throws IOException {
        ChildJvm.Outcome outcome =
                ChildJvm.run("fail", "--json", ChildJvm.sample("minimal").toString());
        assertThat(outcome.code()).isEqualTo(1);
        JsonNode result = new ObjectMapper().readTree(outcome.out());
        assertThat(result.path("scenarios").size()).isGreaterThan(20);
        assertThat(result.path("scenarios")).anySatisfy(row -> {
            assertThat(row.path("scenario").asText()).contains("metering");
            assertThat(row.path("verdict").asText()).isEqualTo("falls short");
            assertThat(row.path("time_to_loss_s").asDouble(-1)).isBetween(0.0, 1.0);
        });
    }

    @Test
    void usUnitsChangeTheTextAndNotTheVerdict() {
        ChildJvm.Outcome outcome = ChildJvm.run(
                "check", "--units", "us", ChildJvm.sample("minimal").toString());
        ChildJvm.Outcome si = ChildJvm.run("check", ChildJvm.sample("minimal").toString());
        assertThat(outcome.out()).contains("psia", "degF", "lb/s", "mil");
        assertThat(outcome.code()).isEqualTo(si.code());
        assertThat(outcome.out().lines().findFirst()).isEqualTo(si.out().lines().findFirst());
    }

    /** An uncertainty, a rate and a rise are no temperatures: 5 K are 9 degF, 50 K are 90 degF. */
    @Test
    void differencesOfTemperatureAndPressureAreShownAsSuchInUsUnits() {
        String redlines = ChildJvm.run(
                        "check",
                        "--redlines",
                        "--units",
                        "us",
                        ChildJvm.sample("minimal").toString())
                .out();
        assertThat(redlines).contains(" 9 degF ", "5.076 psi ").doesNotContain("-450.7 degF", "5.076 psia");
        assertThat(redlines.replaceAll("\\s+", " ")).containsPattern("changes by less than \\d+\\.\\d+ degF a second");
        String faults = ChildJvm.run(
                        "fail", "--units", "us", ChildJvm.sample("minimal").toString())
                .out();
        assertThat(faults).contains("limit 90 degF").doesNotContain("degF, limit -");
    }
}
