package purgewright.samples;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.File;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

@DisplayName("The command line, as a process")
class CommandTest {
    @TempDir
    Path folder;

    @Test
    void withoutADisplayTheWindowIsRefusedWithOneLine() {
        ChildJvm.Outcome outcome = ChildJvm.run();
        if (System.getProperty("os.name").contains("Linux")) {
            assertThat(outcome.code()).isEqualTo(2);
            assertThat(outcome.err()).contains("no display").hasLineCount(1);
        }
    }

    @Test
    void aMissingLibraryIsAnInternalErrorAndNoVerdict() {
        String path = Stream.of(System.getProperty("java.class.path").split(File.pathSeparator))
                .filter(entry -> !entry.contains("picocli"))
                .collect(Collectors.joining(File.pathSeparator));
        ChildJvm.Outcome outcome = ChildJvm.runWithClassPath(path, "--help");
        assertThat(outcome.code()).isEqualTo(70);
        assertThat(outcome.hasStackTrace()).isFalse();
        assertThat(outcome.err()).contains("internal error");
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "--help",
                "check --help",
                "fluid --help",
                "fluid burn --help",
                "fluid compare --help",
                "map --help",
                "new --help",
                "schema --help",
                "validate --help",
                "--version"
            })
    void helpGoesToStandardOutput(String arguments) {
        ChildJvm.Outcome outcome = ChildJvm.run(arguments.split(" "));
        assertThat(outcome.code()).isZero();
        assertThat(outcome.out()).isNotEmpty();
        assertThat(outcome.err()).isEmpty();
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "chek",
                "check",
                "check --nonsense x.json",
                "fluid",
                "fluid helium --units metric",
                "fluid helium",
                "fluid helium --temperature",
                "check --threads many x.json"
            })
    void wrongUsageEndsWithTwoAndAHint(String arguments) {
        ChildJvm.Outcome outcome = ChildJvm.run(arguments.split(" "));
        assertThat(outcome.code()).as(outcome.err()).isEqualTo(2);
        assertThat(outcome.out()).isEmpty();
        assertThat(outcome.err()).startsWith("purgewright: ");
        assertThat(outcome.hasStackTrace()).isFalse();
    }

    @Test
    void newWritesACaseThatRunsAndNeverOverAFile() throws IOException {
        Path file = folder.resolve("my pump.json");
        assertThat(ChildJvm.run("new", file.toString()).code()).isZero();
        assertThat(Files.readString(file)).isEqualTo(Files.readString(ChildJvm.sample("minimal")));
        ChildJvm.Outcome again = ChildJvm.run("new", file.toString());
        assertThat(again.code()).isEqualTo(2);
        assertThat(again.err()).contains("exists already").hasLineCount(1);
        assertThat(ChildJvm.run("new", "--starter", "nothing").code()).isEqualTo(2);
        ChildJvm.Outcome printed = ChildJvm.run("new", "--starter", "falls-short");
        assertThat(printed.out()).isEqualTo(Files.readString(ChildJvm.sample("falls-short")));
    }

    @Test
    void schemaIsJson() throws IOException {
        ChildJvm.Outcome outcome = ChildJvm.run("schema");
        assertThat(outcome.code()).isZero();
        assertThat(new ObjectMapper().readTree(outcome.out()).path("$schema").asText())
                .contains("2020-12");
    }

    @Test
    void fluidHasTheAgreedKeys() throws IOException {
        ChildJvm.Outcome outcome =
                ChildJvm.run("fluid", "nitrogen", "--temperature", "300 K", "--pressure", "1 MPa", "--json");
        assertThat(outcome.err()).isEmpty();
        assertThat(outcome.code()).isZero();
        JsonNode fluid = new ObjectMapper().readTree(outcome.out());
        List<String> keys = new ArrayList<>();
        fluid.fieldNames().forEachRemaining(keys::add);
        assertThat(keys)
                .contains(
                        "fluid",
                        "phase",
                        "temperature_K",
                        "pressure_Pa",
                        "density_kg_m3",
                        "enthalpy_J_kg",
                        "entropy_J_kgK",
                        "cp_J_kgK",
                        "cv_J_kgK",
                        "sound_speed_m_s",
                        "viscosity_Pa_s",
                        "conductivity_W_mK",
                        "quality",
                        "engine",
                        "reference_state");
        // Real-gas nitrogen is 0.1 % off the ideal gas here; this only proves that the keys carry their units.
        assertThat(fluid.path("density_kg_m3").asDouble()).isBetween(11.2, 11.3);
        assertThat(fluid.path("phase").asText()).isEqualTo("gas");
    }

    @Test
    void everyPairOfAStateLeadsBackToTheState() throws IOException {
        JsonNode first = json("fluid", "oxygen", "--temperature", "150 K", "--pressure", "1 MPa", "--json");
        String h = first.path("enthalpy_J_kg").asText() + " J/kg";
        String s = first.path("entropy_J_kgK").asText() + " J/(kg K)";
        String d = first.path("density_kg_m3").asText() + " kg/m3";
        for (String[] pair : new String[][] {
            {"--pressure", "1 MPa", "--enthalpy", h},
            {"--pressure", "1 MPa", "--entropy", s},
            {"--pressure", "1 MPa", "--density", d},
            {"--temperature", "150 K", "--density", d},
            {"--enthalpy", h, "--entropy", s}
        }) {
            JsonNode again = json("fluid", "oxygen", pair[0], pair[1], pair[2], pair[3], "--json");
            assertThat(again.path("temperature_K").asDouble())
                    .as(String.join(" ", pair))
                    .isBetween(149.9999, 150.0001);
            assertThat(again.path("pressure_Pa").asDouble()).isBetween(0.999999e6, 1.000001e6);
        }
    }

    @Test
    void saturationAndQualityAgree() throws IOException {
        JsonNode line = json("fluid", "oxygen", "--saturation", "--temperature", "95 K", "--json")
                .path("saturation")
                .path(0);
        JsonNode liquid = json("fluid", "oxygen", "--temperature", "95 K", "--quality", "0", "--json");
        assertThat(line.path("liquid").path("density_kg_m3").asDouble())
                .isEqualTo(liquid.path("density_kg_m3").asDouble());
        assertThat(json("fluid", "oxygen", "--saturation", "--json")
                        .path("saturation")
                        .size())
                .isGreaterThan(10);
    }

    @Test
    void airIsAMixtureWithADensity() throws IOException {
        JsonNode air = json("fluid", "air", "--json", "--temperature", "300 K", "--pressure", "101.325 kPa");
        // Lemmon et al., J. Phys. Chem. Ref. Data 29 (2000) 331, air at 300 K and 101.325 kPa: 1.177 kg/m3 [from
        // memory].
        assertThat(air.path("density_kg_m3").asDouble()).isBetween(1.175, 1.179);
        assertThat(ChildJvm.run("fluid", "air", "--saturation").code()).isEqualTo(2);
    }

    @Test
    void burnHasTheAgreedKeys() throws IOException {
        JsonNode burn = json(
                "fluid",
                "burn",
                "--fuel",
                "methane",
                "--oxidizer",
                "oxygen",
                "--mixture-ratio",
                "0.4",
                "--pressure",
                "6 MPa",
                "--fuel-temperature",
                "120 K",
                "--oxidizer-temperature",
                "95 K",
                "--json");
        assertThat(burn.path("temperature_K").asDouble()).isBetween(600.0, 1600.0);
        assertThat(burn.path("molar_mass_kg_mol").asDouble()).isBetween(0.008, 0.02);
        assertThat(burn.path("mole_fractions").size()).isGreaterThan(3);
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "fluid heliun --temperature 300_K --pressure 1_MPa",
                "fluid helium --temperature 300_kg --pressure 1_MPa",
                "fluid helium --temperature -5_K --pressure 1_MPa",
                "fluid helium --temperature 300_K --pressure -1_MPa",
                "fluid helium --temperature 300_K --pressure 1_MPa --density 3_kg/m3",
                "fluid helium --temperature 300_K --enthalpy 3_kJ/kg",
                "fluid water --temperature 100_K --pressure 1_MPa",
                "fluid oxygen --temperature 95_K --quality 1.5",
                "fluid oxygen --temperature 400_K --quality 0.5",
                "fluid helium --temperature NaN --pressure 1_MPa"
            })
    void whatAFluidCannotGiveEndsWithTwo(String arguments) {
        String[] split = arguments.split(" ");
        for (int i = 0; i < split.length; i++) {
            split[i] = split[i].replace('_', ' ');
        }
        ChildJvm.Outcome outcome = ChildJvm.run(split);
        assertThat(outcome.code()).as(outcome.err()).isEqualTo(2);
        assertThat(outcome.out()).isEmpty();
        assertThat(outcome.hasStackTrace()).isFalse();
    }

    @Test
    void anErrorIsOneObjectInJson() throws IOException {
        ChildJvm.Outcome outcome =
                ChildJvm.run("fluid", "heliun", "--temperature", "300 K", "--pressure", "1 MPa", "--json");
        assertThat(outcome.code()).isEqualTo(2);
        JsonNode error = new ObjectMapper().readTree(outcome.out()).path("error");
        assertThat(error.path("key").asText()).isEqualTo("UNKNOWN_FLUID");
        assertThat(error.path("suggestion").asText()).contains("helium");
        assertThat(error.path("code").asInt()).isEqualTo(2);
    }

    @Test
    void aLocaleWithDecimalCommasChangesNothing() {
        ChildJvm.Outcome plain = ChildJvm.run("fluid", "helium", "--temperature", "300.5 K", "--pressure", "1 MPa");
        ChildJvm.Outcome comma = ChildJvm.run(
                Map.of(),
                List.of("-Duser.language=tr", "-Duser.country=TR"),
                "fluid",
                "helium",
                "--temperature",
                "300.5 K",
                "--pressure",
                "1 MPa");
        assertThat(comma.out()).isEqualTo(plain.out());
    }

    @Test
    void reportsAreWholeAndTheSameTwice() throws IOException {
        String minimal = ChildJvm.sample("minimal").toString();
        Path html = folder.resolve("a b.html");
        assertThat(ChildJvm.run("report", minimal, "-o", html.toString()).code())
                .isZero();
        assertThat(Files.readString(html))
                .contains("Cautions", "oxygen drain", "<svg", "purgewright-case", "default-src 'none'")
                .doesNotContain("<script src");
        Path[] pdf = {folder.resolve("one.pdf"), folder.resolve("two.pdf")};
        for (Path file : pdf) {
            ChildJvm.Outcome outcome = ChildJvm.run("report", "--quiet", minimal, "-o", file.toString());
            assertThat(outcome.code()).isZero();
            assertThat(outcome.err()).isEmpty();
        }
        assertThat(Files.readAllBytes(pdf[0])).startsWith('%', 'P', 'D', 'F').isEqualTo(Files.readAllBytes(pdf[1]));
        ChildJvm.Outcome wrong =
                ChildJvm.run("report", minimal, "-o", folder.resolve("x.doc").toString());
        assertThat(wrong.code()).isEqualTo(2);
        assertThat(wrong.err()).hasLineCount(1);
    }

    @Test
    void aReportEscapesWhatTheUserWrote() throws IOException {
        Path file = folder.resolve("case.json");
        Files.writeString(
                file,
                Files.readString(ChildJvm.sample("minimal"))
                        .replace("Spaced pump, helium barrier", "</title><script>alert(1)</script> &"));
        Path html = folder.resolve("r.html");
        assertThat(ChildJvm.run("report", file.toString(), "-o", html.toString())
                        .code())
                .isZero();
        String text = Files.readString(html);
        assertThat(text).contains("&lt;script&gt;").doesNotContain("<script>alert");
    }

    private static JsonNode json(String... arguments) throws IOException {
        ChildJvm.Outcome outcome = ChildJvm.run(arguments);
        assertThat(outcome.code())
                .as("%s: %s", String.join(" ", arguments), outcome.err())
                .isZero();
        return new ObjectMapper().readTree(outcome.out());
    }
}
