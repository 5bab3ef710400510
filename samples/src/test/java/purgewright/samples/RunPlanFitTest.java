package purgewright.samples;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

@DisplayName("run, plan and fit, as a process")
class RunPlanFitTest {
    private static final String SPACED = ChildJvm.sample("spaced-lox-methane").toString();

    @TempDir
    Path folder;

    private static JsonNode json(ChildJvm.Outcome outcome) throws IOException {
        return new ObjectMapper().readTree(outcome.out());
    }

    @Test
    void aRunAddsUpAndItsFilesAreWritten() throws IOException {
        Path csv = folder.resolve("duty.csv");
        Path plot = folder.resolve("duty.svg");
        ChildJvm.Outcome outcome = ChildJvm.run(
                "run",
                SPACED,
                "--phase",
                "start",
                "--phase",
                "post-purge",
                "--points",
                "3",
                "-o",
                csv.toString(),
                "-o",
                plot.toString(),
                "--json");
        assertThat(outcome.code()).as(outcome.err()).isZero();
        JsonNode run = json(outcome);
        assertThat(run.path("outcome").asText()).isEqualTo("finished");
        double used = run.path("gas").path("used_kg").asDouble();
        double start = run.path("gas").path("at_start_kg").asDouble();
        double end = run.path("gas").path("at_end_kg").asDouble();
        assertThat(used).isPositive();
        assertThat(start - end).isCloseTo(used, within(1e-8 * start));
        assertThat(Math.abs(run.path("closure").path("bottle_energy").asDouble()))
                .isLessThan(1e-8);
        assertThat(run.path("closure").path("network_mass").asDouble()).isLessThan(1e-8);
        double sum = 0;
        for (JsonNode phase : run.path("phases")) {
            sum += phase.path("gas_kg").asDouble();
        }
        assertThat(sum).isCloseTo(used, within(1e-9));
        assertThat(Files.readString(csv)).startsWith("# purgewright run").contains("/cavities/barrier/pressure [Pa]");
        assertThat(Files.readString(plot)).contains("<svg").contains("</svg");
        assertThat(run.path("least").path("margin").isNumber()).isTrue();
    }

    @Test
    void aFitWritesANewCaseAndNeverOverAnOldOne() throws IOException {
        Path fitted = folder.resolve("fitted.json");
        String data =
                ChildJvm.root().resolve("samples/data/flow-check-ring-a.csv").toString();
        String before = Files.readString(Path.of(SPACED));
        ChildJvm.Outcome outcome = ChildJvm.run(
                "fit", SPACED, data, "--passage", "ring A", "--gas", "nitrogen", "-o", fitted.toString(), "--json");
        assertThat(outcome.code()).as(outcome.err()).isZero();
        JsonNode ring = json(outcome).path("parameters").path(0);
        // The sample was made with 0.031 mm, one per cent of noise and one bad reading.
        assertThat(ring.path("low").asDouble()).isLessThan(31e-6);
        assertThat(ring.path("high").asDouble()).isGreaterThan(31e-6);
        assertThat(ring.path("fitted").asDouble()).isCloseTo(31e-6, within(1e-6));
        int outliers = 0;
        for (JsonNode p : json(outcome).path("points")) {
            outliers += p.path("outlier").asBoolean() ? 1 : 0;
        }
        assertThat(outliers).isEqualTo(1);
        assertThat(Files.readString(Path.of(SPACED))).isEqualTo(before);
        assertThat(Files.readString(fitted))
                .contains(json(outcome).path("edits").path(0).path("text").asText());
        ChildJvm.Outcome again = ChildJvm.run("fit", SPACED, data, "--passage", "ring A", "-o", fitted.toString());
        assertThat(again.code()).isEqualTo(2);
        assertThat(again.err()).contains("exists already").hasLineCount(1);
    }

    @ParameterizedTest(name = "{0}")
    @CsvSource(
            delimiter = '|',
            quoteCharacter = '~',
            value = {
                "negative duration       | \"duration\": \"60 s\"            | \"duration\": \"-60 s\"         | /duty/pre-purge/duration",
                "set pressure too high   | \"set pressure\": \"3.63 MPa\"    | \"set pressure\": \"25 MPa\"    | filling pressure",
                "empty bank              | \"number\": 16                  | \"number\": 0                  | /supply/bottles/number",
                "more banks than bottles | \"banks\": 2                    | \"banks\": 20                  | more banks than bottles",
                "unpressurised bottles   | \"filling pressure\": \"200 bar\" | \"filling pressure\": \"0 bar\" | /supply/bottles/filling pressure",
                "abort for certain       | \"abort probability\": 0.15     | \"abort probability\": 1       | /campaign/abort probability",
                "missing history         | \"duration\": \"0.5 s\"           | \"duration\": \"0.5 s\", \"history\": \"none.csv\" | none.csv"
            })
    void aCaseThatCannotBeRunIsRefusedWithItsPlace(String name, String from, String to, String words)
            throws IOException {
        String text = Files.readString(Path.of(SPACED));
        assertThat(text).contains(from);
        Path file = folder.resolve("case.json");
        int at = text.indexOf(from);
        Files.writeString(file, text.substring(0, at) + to + text.substring(at + from.length()));
        ChildJvm.Outcome outcome = ChildJvm.run("run", file.toString());
        assertThat(outcome.code()).as(outcome.err()).isEqualTo(2);
        assertThat(outcome.out()).isEmpty();
        assertThat(outcome.hasStackTrace()).isFalse();
        // All that is wrong with a file comes at once: a slip may break two rules.
        assertThat(outcome.err()).contains(words);
        assertThat(outcome.err().lines()).hasSizeBetween(1, 2).allMatch(l -> l.startsWith("purgewright: "));
    }

    @ParameterizedTest(name = "{1}")
    @CsvSource(
            delimiter = '|',
            quoteCharacter = '~',
            value = {
                "upstream pressure [MPa]; downstream pressure [MPa]; temperature [K]; flow [g/s]#0,5;0,1;293;1# | decimal comma",
                "upstream pressure [MPa], downstream pressure [MPa], flow [g/s]#0.5,0.1,1#                     | temperature",
                "upstream pressure [K], downstream pressure [MPa], temperature [K], flow [g/s]#293,0.1,293,1#  | upstream pressure",
                "upstream pressure [MPa], upstream pressure [bar], temperature [K], flow [g/s]#0.5,5,293,1#   | two columns are called",
                "upstream pressure [MPa], downstream pressure [MPa], temperature [K], flow [g/s]#5 bar,0.1,293,1# | stands in its header alone",
                "upstream pressure [MPa], downstream pressure [MPa], temperature [K], flow [g/s]#-0.5,0.1,293,1# | absolute zero",
                "upstream pressure [MPa], downstream pressure [MPa], temperature [K], flow [g/s]#0.5,0.1,293,-1# | the flow must be above 0",
                "#upstream pressure [K], downstream pressure [MPa], temperature [K], flow [g/s]#293,0.1,293,1# | line 2: ",
                "upstream pressure [MPa], downstream pressure [MPa], temperature [K], flow [L/min]#1,0.1,293,1#| volume flow"
            })
    void dataThatCannotBeFittedAreRefusedWithTheirLine(String text, String words) throws IOException {
        Path data = folder.resolve("data.csv");
        Files.writeString(data, text.replace('#', '\n'));
        ChildJvm.Outcome outcome = ChildJvm.run("fit", SPACED, data.toString(), "--passage", "ring A");
        assertThat(outcome.code()).as(outcome.err()).isEqualTo(2);
        assertThat(outcome.out()).isEmpty();
        assertThat(outcome.err()).contains(words).contains("data.csv");
        assertThat(outcome.hasStackTrace()).isFalse();
    }

    @Tag("long")
    @Test
    void aMillionRowsEndAndOneCommaAmongThemIsFoundWithItsLine() throws IOException {
        Path data = folder.resolve("million.csv");
        java.util.Random random = new java.util.Random(5);
        try (java.io.BufferedWriter out = Files.newBufferedWriter(data)) {
            out.write("upstream pressure [MPa]; downstream pressure [MPa]; temperature [K]; flow [g/s]\n");
            for (int i = 0; i < 1_000_000; i++) {
                double p = 0.4 + random.nextDouble();
                out.write(String.format(java.util.Locale.ROOT, "%.4f; 0.1; 293; %.4f%n", p, 5.4 * (p - 0.1)));
            }
        }
        ChildJvm.Outcome good = ChildJvm.run(
                "fit", SPACED, data.toString(), "--passage", "ring A", "--gas", "nitrogen", "--json", "--quiet");
        assertThat(good.code()).as(good.err()).isZero();
        assertThat(json(good).path("points").size()).isBetween(50, 2000);
        assertThat(good.out()).contains("1000000 rows were put together");
        Files.writeString(data, "0,5; 0.1; 293; 1\n", java.nio.file.StandardOpenOption.APPEND);
        ChildJvm.Outcome bad = ChildJvm.run("fit", SPACED, data.toString(), "--passage", "ring A");
        assertThat(bad.code()).isEqualTo(2);
        assertThat(bad.err()).contains("1000002").contains("decimal comma").hasLineCount(1);
    }

    @Test
    void aCaseWithoutDutyHasNothingToRun() {
        ChildJvm.Outcome outcome =
                ChildJvm.run("run", ChildJvm.sample("minimal").toString());
        assertThat(outcome.code()).isEqualTo(2);
        assertThat(outcome.err()).contains("/duty").hasLineCount(1);
        assertThat(ChildJvm.run("plan", ChildJvm.sample("minimal").toString()).err())
                .contains("/campaign");
    }

    @ParameterizedTest
    @CsvSource({
        "impeller back face pressure [K], is a temperature",
        "purge flow [MPa], is a pressure",
        "impeller back face pressure, has no unit"
    })
    void aMeasuredChannelInAnotherUnitIsBadInput(String column, String says) throws IOException {
        Path data = folder.resolve("measured.csv");
        Files.writeString(data, "time [s], " + column + ", speed [rpm]\n0, 0.45, 1500\n1, 0.46, 1500\n");
        ChildJvm.Outcome outcome =
                ChildJvm.run("run", SPACED, "--phase", "steady", "--points", "3", "--measured", data.toString());
        assertThat(outcome.code()).as(outcome.err()).isEqualTo(2);
        assertThat(outcome.err())
                .startsWith("purgewright: line 1: ")
                .contains(says)
                .hasLineCount(1);
    }
}
