package purgewright.samples;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.assertj.core.data.Percentage;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.condition.DisabledOnOs;
import org.junit.jupiter.api.condition.OS;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

@DisplayName("check --why and map, as a process")
class WhyAndMapTest {
    private static final String MINIMAL = ChildJvm.sample("minimal").toString();
    private static final String X = "/cavities/bottle line/pressure=0.5MPa..4MPa";
    private static final String Y = "/passages/ring A/clearance=20um..120um";

    @TempDir
    Path folder;

    /** The slope is held against a second solve of a changed file: half a per cent of a clearance, where curvature is small. */
    @Test
    void theSlopeOfAClearanceIsWhatASecondSolveShows() throws IOException {
        JsonNode why = why(MINIMAL);
        double in = 0;
        double sum = 0;
        for (JsonNode item : why.path("balance")) {
            double flow = item.path("inward_flow_kg_s").asDouble();
            in += Math.max(flow, 0);
            sum += flow;
        }
        assertThat(why.path("balance").size()).isEqualTo(3);
        assertThat(in).isPositive();
        assertThat(Math.abs(sum)).isLessThan(1e-8 * in);
        Path changed = folder.resolve("changed.json");
        String text = Files.readString(Path.of(MINIMAL));
        assertThat(text).contains("\"0.025 mm\"");
        Files.writeString(changed, text.replace("\"0.025 mm\"", "\"0.025125 mm\""));
        double before = why.path("pressure_Pa").asDouble();
        double after = why(changed.toString()).path("pressure_Pa").asDouble();
        double slope = Double.NaN;
        for (JsonNode s : why.path("pressure_by")) {
            if (s.path("place").asText().equals("/passages/ring A/clearance")) {
                slope = s.path("derivative_Pa_per_SI").asDouble();
                assertThat(s.path("change_per_10_percent_Pa").asDouble())
                        .isCloseTo(slope * 2.5e-6, Percentage.withPercentage(1e-6));
            }
        }
        assertThat((after - before) / 0.125e-6).isCloseTo(slope, Percentage.withPercentage(2));
    }

    @Test
    void theTextOfWhyStandsBetweenTheVerdictAndTheStates() {
        ChildJvm.Outcome outcome = ChildJvm.run("check", MINIMAL, "--why", "barrier");
        assertThat(outcome.code()).as(outcome.err()).isZero();
        assertThat(outcome.out())
                .startsWith("Verdict: ")
                .containsSubsequence("Why barrier stands there", "metering", "/passages/metering/diameter", "Phase ");
        assertThat(outcome.out().lines()).allMatch(line -> line.length() <= 100);
        ChildJvm.Outcome wrong = ChildJvm.run("check", MINIMAL, "--why", "barier");
        assertThat(wrong.code()).isEqualTo(2);
        assertThat(wrong.out()).isEmpty();
        assertThat(wrong.err()).contains("did you mean \"barrier\"?").hasLineCount(1);
    }

    @Test
    void theMapsTextCsvAndJsonTellTheSame() throws IOException {
        Path csv = folder.resolve("window.csv");
        ChildJvm.Outcome text = ChildJvm.run(
                "map",
                "--quiet",
                MINIMAL,
                "--x",
                X,
                "--y",
                Y,
                "--steps",
                "3",
                "--resolution",
                "0",
                "-o",
                csv.toString());
        assertThat(text.code()).as(text.err()).isZero();
        assertThat(text.err()).isEmpty();
        ChildJvm.Outcome printed =
                ChildJvm.run("map", MINIMAL, "--x", X, "--y", Y, "--steps", "3", "--resolution", "0", "--json");
        assertThat(printed.code()).as(printed.err()).isZero();
        JsonNode json = new ObjectMapper().readTree(printed.out());
        List<String> lines = Files.readAllLines(csv);
        assertThat(lines)
                .anyMatch(
                        l -> l.equals("# case " + json.path("case").path("hash").asText()));
        assertThat(lines.get(0))
                .isEqualTo("# purgewright map, version " + json.path("version").asText());
        List<String> rows = lines.stream().filter(l -> !l.startsWith("#")).toList();
        assertThat(rows).hasSize(10);
        assertThat(rows.get(0)).startsWith("x_SI,y_SI,feasible,flow_kg_s,governing,margin_");
        int met = 0;
        for (int n = 0; n < 9; n++) {
            String[] cells = rows.get(n + 1).split(",", -1);
            JsonNode point = json.path("points").path(n);
            assertThat(cells).hasSize(rows.get(0).split(",").length);
            assertThat(cells[2]).isEqualTo(point.path("feasible").asText());
            assertThat(cells[4]).isEqualTo(point.path("governing").asText());
            met += point.path("feasible").asBoolean() ? 1 : 0;
        }
        // Low pressure with a wide ring cannot hold; the case as stated does, so that both kinds are on the grid.
        assertThat(met).isBetween(1, 8);
        assertThat(text.out()).contains("met at " + met + " of 9 points");
    }

    /** Stopped while the process ends: nothing may need what an ending process refuses, letters and files in between among it. */
    @Test
    @DisabledOnOs(value = OS.WINDOWS, disabledReason = "a process cannot be asked to stop there, only be ended")
    void aMapThatIsStoppedDrawsAndPrintsWhatItHas() throws IOException {
        Path png = folder.resolve("map.png");
        Path svg = folder.resolve("map.svg");
        String[] words = {
            "map", MINIMAL, "--x", X, "--y", Y, "--steps", "200", "-o", svg.toString(), "-o", png.toString()
        };
        ChildJvm.Outcome outcome = ChildJvm.stopped(5, words);
        for (int seconds = 20; seconds <= 80 && !Files.exists(png); seconds *= 2) {
            outcome = ChildJvm.stopped(seconds, words); // a busy machine had nothing yet
        }
        assertThat(outcome.out()).as(outcome.err()).contains("CANCELLED");
        assertThat(outcome.hasStackTrace()).isFalse();
        assertThat(Files.readAllBytes(png)).startsWith(0x89, 'P', 'N', 'G');
        assertThat(Files.readString(svg)).contains("</svg");
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "/passages/ring A/clearance",
                "/passages/ring A/colour=1um..2um",
                "/passages/ring A/clearance=2um..1um",
                "/passages/ring A/clearance=1MPa..2MPa",
                "/passages/ring A/clearance=1um..2",
                "/cavities/bottle line/pressure=1MPa..2MPa"
            })
    void aRangeThatMakesNoSenseEndsWithTwoAndOneLine(String y) {
        ChildJvm.Outcome outcome = ChildJvm.run("map", MINIMAL, "--x", X, "--y", y, "--steps", "2");
        assertThat(outcome.code()).as(outcome.err()).isEqualTo(2);
        assertThat(outcome.out()).isEmpty();
        assertThat(outcome.err()).startsWith("purgewright: ").hasLineCount(1);
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "--free|/cavities/bottle line/pressure=3MPa..1MPa|must rise",
                "--free|/cavities/bottle lime/pressure|bottle lime",
                "--free|/passages/metering/diameter=1mm..2MPa|is a length",
                "--free|/passages/metering/diameter=1mm..1.01mm metric drills|fewer than two",
                "--fault|worn: ring C|worn: ring",
                "--objective|run|durations"
            })
    void aSizingThatMakesNoSenseEndsWithTwoAndOneLine(String typed) {
        String[] words = typed.split("\\|");
        ChildJvm.Outcome outcome = ChildJvm.run("size", MINIMAL, words[0], words[1]);
        assertThat(outcome.code()).as(outcome.err()).isEqualTo(2);
        assertThat(outcome.out()).isEmpty();
        assertThat(outcome.err()).startsWith("purgewright: ").hasLineCount(1).contains(words[2]);
    }

    @Test
    void aSetPressureAboveTheBottlesIsRefused() throws IOException {
        Path bottles = folder.resolve("bottles.json");
        String text = Files.readString(Path.of(MINIMAL));
        Files.writeString(
                bottles,
                text.replaceFirst(
                        "\"cavities\"",
                        "\"supply\": {\"gas\": \"barrier gas\", \"cavity\": \"bottle line\", \"bottles\": {\"volume\": \"50 L\","
                                + " \"filling pressure\": \"5 MPa\", \"temperature\": \"288 K\", \"number\": 2},"
                                + " \"regulator\": {\"set pressure\": \"3.5 MPa\"}}, \"cavities\""));
        ChildJvm.Outcome outcome =
                ChildJvm.run("size", bottles.toString(), "--free", "/cavities/bottle line/pressure=1MPa..6MPa");
        assertThat(outcome.code()).as(outcome.err()).isEqualTo(2);
        assertThat(outcome.err()).contains("bottles").contains("5.000 MPa");
    }

    private static JsonNode why(String file) throws IOException {
        ChildJvm.Outcome outcome = ChildJvm.run("check", file, "--why", "barrier", "--json");
        assertThat(outcome.code()).as(outcome.err()).isZero();
        return new ObjectMapper().readTree(outcome.out()).path("why");
    }

    @Test
    void aPhaseThatTheFreeValueDoesNotReachIsNamedWithWhatWouldReleaseIt() throws IOException {
        Path two = folder.resolve("two.json");
        String text = Files.readString(Path.of(MINIMAL)).stripTrailing();
        Files.writeString(
                two,
                text.substring(0, text.length() - 1)
                        + ", \"duty\": [{\"name\": \"run\", \"duration\": \"10 s\"}, {\"name\": \"hold\", \"duration\": \"10 s\","
                        + " \"set\": {\"/cavities/bottle line/pressure\": \"0.8 MPa\"}}]}");
        ChildJvm.Outcome outcome = ChildJvm.run("size", two.toString(), "--no-extremes", "--no-wear", "--json");
        assertThat(outcome.code()).as(outcome.err()).isEqualTo(1);
        JsonNode size = new ObjectMapper().readTree(outcome.out());
        double alone = new ObjectMapper()
                .readTree(ChildJvm.run("size", MINIMAL, "--no-extremes", "--no-wear", "--json")
                        .out())
                .path("design")
                .path(0)
                .path("value")
                .asDouble();
        // The other phase is sized as if it were by itself.
        assertThat(size.path("design").path(0).path("value").asDouble())
                .isCloseTo(alone, Percentage.withPercentage(0.1));
        assertThat(size.path("verdict_line").asText()).contains("hold").contains("the other phases are met");
        JsonNode release = size.path("releases").path(0);
        assertThat(release.path("phase").asText()).isEqualTo("hold");
        assertThat(release.path("stated").asDouble()).isEqualTo(0.8e6);
        double needed = release.path("needed").asDouble();
        // What releases it is what the phase needs by itself, to the 10 kPa that a regulator can be set to and four
        // halvings.
        assertThat(needed).isBetween(0.99 * alone, 1.03 * alone);
    }
}
