package purgewright.samples;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.stream.Stream;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.MethodSource;

@DisplayName("A case that cannot be used ends with 2 and says what is wrong, where, and what would be right")
class BadInputTest {
    @TempDir
    Path folder;

    private static String minimal() throws IOException {
        return Files.readString(ChildJvm.sample("minimal"));
    }

    /** Name, text to replace, replacement, words that the message must hold. */
    static Stream<Arguments> spoilt() {
        return Stream.of(
                spoilt("wrong unit", "\"2.6 MPa\"", "\"2.6 kg\"", "/cavities/impeller back face/pressure", "kg"),
                spoilt("unknown unit", "\"2.6 MPa\"", "\"2.6 MPx\"", "/cavities/impeller back face/pressure", "MPx"),
                spoilt("bare number", "\"2.6 MPa\"", "2.6", "/cavities/impeller back face/pressure", "unit"),
                spoilt(
                        "gauge below absolute zero",
                        "\"2.6 MPa\"",
                        "\"-200 kPa gauge\"",
                        "/cavities/impeller back face/pressure",
                        "absolute"),
                spoilt("unknown fluid", "\"fluid\": \"helium\"", "\"fluid\": \"heliun\"", "heliun", "helium"),
                spoilt(
                        "passage to a missing cavity",
                        "\"from\": \"barrier\", \"to\": \"oxygen drain\"",
                        "\"from\": \"barier\", \"to\": \"oxygen drain\"",
                        "/passages/ring A/from",
                        "barrier"),
                spoilt(
                        "cavity connected to nothing",
                        "{\"name\": \"barrier\",       \"role\"",
                        "{\"name\": \"lonely\", \"role\": \"drain\"}, {\"name\": \"barrier\",       \"role\"",
                        "lonely",
                        ""),
                spoilt(
                        "zero clearance",
                        "\"clearance\": \"0.025 mm\"",
                        "\"clearance\": \"0 mm\"",
                        "/passages/ring A/clearance",
                        ""),
                spoilt(
                        "negative length",
                        "\"clearance\": \"0.025 mm\", \"length\": \"6 mm\"",
                        "\"clearance\": \"0.025 mm\", \"length\": \"-6 mm\"",
                        "/passages/ring A/length",
                        ""),
                spoilt(
                        "unknown field",
                        "\"arrangement\": \"straight\"",
                        "\"arangement\": \"straight\"",
                        "arangement",
                        "arrangement"),
                spoilt("duplicate name", "\"name\": \"ring B\"", "\"name\": \"ring A\"", "ring A", ""),
                spoilt("unknown passage type", "\"type\": \"orifice\"", "\"type\": \"orifise\"", "orifise", "orifice"),
                spoilt("unknown layout version", "\"purgewright\": 1", "\"purgewright\": 99", "99", ""));
    }

    private static Arguments spoilt(String name, String from, String to, String... words) {
        return Arguments.of(name, from, to, words);
    }

    @ParameterizedTest(name = "{0}")
    @MethodSource("spoilt")
    void isRefusedWithItsPlaceAndASuggestion(String name, String from, String to, String[] words) throws IOException {
        String text = minimal();
        assertThat(text).as("the sample still has what is spoilt here").containsPattern(pattern(from));
        Path file = folder.resolve("case.json");
        Files.writeString(file, text.replaceFirst(pattern(from), java.util.regex.Matcher.quoteReplacement(to)));
        ChildJvm.Outcome outcome = ChildJvm.run("check", file.toString());
        assertThat(outcome.code())
                .as("exit code; standard error: %s", outcome.err())
                .isEqualTo(2);
        assertThat(outcome.out()).isEmpty();
        assertThat(outcome.hasStackTrace()).isFalse();
        assertThat(outcome.err()).contains(words);
        assertThat(outcome.err().lines().count())
                .as("one message: %s", outcome.err())
                .isEqualTo(1);
    }

    /** Blanks may differ. */
    private static String pattern(String from) {
        return Stream.of(from.split("\\s+"))
                .map(java.util.regex.Pattern::quote)
                .reduce((a, b) -> a + "\\s+" + b)
                .orElseThrow();
    }

    static Stream<Arguments> broken() {
        return Stream.of(
                Arguments.of("an empty file", ""),
                Arguments.of("blanks only", "  \n \n"),
                Arguments.of("no JSON", "hello"),
                Arguments.of("a number", "42"),
                Arguments.of("ten megabytes of nested brackets", "[".repeat(10_000_000)));
    }

    @ParameterizedTest(name = "{0}")
    @MethodSource("broken")
    void isRefused(String name, String text) throws IOException {
        Path file = folder.resolve("case.json");
        Files.writeString(file, text);
        ChildJvm.Outcome outcome = ChildJvm.run("check", file.toString());
        assertThat(outcome.code())
                .as("exit code; standard error: %s", outcome.err())
                .isEqualTo(2);
        assertThat(outcome.out()).isEmpty();
        assertThat(outcome.hasStackTrace()).isFalse();
        assertThat(outcome.err().lines().count())
                .as("one message: %s", outcome.err())
                .isEqualTo(1);
        assertThat(outcome.err()).startsWith("purgewright: ").hasSizeLessThan(500);
    }

    @Test
    void aTruncatedFileIsRefusedWithItsLine() throws IOException {
        String text = minimal();
        Path file = folder.resolve("case.json");
        Files.writeString(file, text.substring(0, text.length() / 2));
        ChildJvm.Outcome outcome = ChildJvm.run("check", file.toString());
        assertThat(outcome.code()).isEqualTo(2);
        assertThat(outcome.hasStackTrace()).isFalse();
        assertThat(outcome.err()).contains("line ");
        assertThat(outcome.err().lines().count()).isEqualTo(1);
    }

    @Test
    void anAbsentFileAFolderAndBinaryAreRefused() throws IOException {
        Path binary = folder.resolve("binary");
        byte[] bytes = new byte[1000];
        for (int i = 0; i < bytes.length; i++) {
            bytes[i] = (byte) (i * 37);
        }
        Files.write(binary, bytes);
        for (Path file : new Path[] {folder.resolve("absent.json"), folder, binary}) {
            ChildJvm.Outcome outcome = ChildJvm.run("check", file.toString());
            assertThat(outcome.code()).as("%s: %s", file, outcome.err()).isEqualTo(2);
            assertThat(outcome.hasStackTrace()).isFalse();
            assertThat(outcome.err().lines().count()).isEqualTo(1);
        }
    }

    @Test
    void aFileThatCannotBeWrittenIsRefusedBeforeAnyWork() throws IOException {
        Path none = folder.resolve("none");
        Path file = folder.resolve("case.json");
        Files.writeString(file, minimal());
        String[][] all = {
            {"report", file.toString(), "--faults", "-o", none.resolve("x.pdf").toString()},
            {
                "map",
                file.toString(),
                "--x",
                "/passages/ring A/clearance=20um..60um",
                "--y",
                "/passages/ring B/clearance=20um..60um",
                "-o",
                none.resolve("x.csv").toString()
            },
            {"run", file.toString(), "-o", none.resolve("x.csv").toString()},
            {"plan", file.toString(), "-o", none.resolve("x.csv").toString()},
            {"spread", file.toString(), "--csv", none.resolve("x.csv").toString()},
            {"fluid", "helium", "--saturation", "-o", none.resolve("x.csv").toString()}
        };
        for (String[] arguments : all) {
            ChildJvm.Outcome outcome = ChildJvm.run(arguments);
            assertThat(outcome.code()).as("%s: %s", arguments[0], outcome.err()).isEqualTo(2);
            // Alone on standard error: no progress was shown, nothing had begun.
            assertThat(outcome.err())
                    .as(arguments[0])
                    .isEqualToIgnoringNewLines("purgewright: no such folder: " + none);
        }
    }

    @Test
    void allErrorsOfAFileComeAtOnceAndAsOneObjectInJson() throws IOException {
        String text = minimal().replace("\"2.6 MPa\"", "2.6").replace("\"1.9 MPa\"", "\"1.9 stone\"");
        Path file = folder.resolve("case.json");
        Files.writeString(file, text);
        ChildJvm.Outcome outcome = ChildJvm.run("check", "--json", file.toString());
        assertThat(outcome.code()).isEqualTo(2);
        assertThat(outcome.err()).contains("/cavities/impeller back face/pressure", "/cavities/disc cavity/pressure");
        assertThat(outcome.out()).startsWith("{\n  \"result\" : 1,\n  \"error\" : {");
        assertThat(outcome.out()).contains("\"place\" : \"/cavities/impeller back face/pressure\"", "\"code\" : 2");
    }
}
