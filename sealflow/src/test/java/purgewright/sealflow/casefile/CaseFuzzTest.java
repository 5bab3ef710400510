package purgewright.sealflow.casefile;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.fail;

import com.fasterxml.jackson.databind.DeserializationFeature;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.networknt.schema.JsonSchema;
import com.networknt.schema.JsonSchemaFactory;
import com.networknt.schema.SpecVersion;
import java.lang.management.ManagementFactory;
import java.lang.management.ThreadMXBean;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import java.util.concurrent.TimeUnit;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** The loader against bad input. A million inputs with -P long, 10,000 by default. */
class CaseFuzzTest {
    private static final double SHARE = Double.parseDouble(System.getProperty("purgewright.share", "0.01"));
    private static final int INPUTS = (int) Math.round(1_000_000 * SHARE);
    /** Seeds from here on, so that a large count is done in slices. */
    private static final long FROM = Long.getLong("purgewright.from", 0);

    private static final ThreadMXBean THREADS = ManagementFactory.getThreadMXBean();

    /** What the schema can see; all other keys are about meaning. */
    private static final Set<String> FORM =
            Set.of("WRONG_TYPE", "MISSING_UNIT", "UNKNOWN_WORD", "UNKNOWN_FIELD", "UNKNOWN_TYPE");

    static List<CaseDocument> seeds() {
        return List.of(
                CaseDocument.parse(CaseReaderTest.resource("minimal.json")),
                CaseDocument.parse(CaseReaderTest.resource("full.json")));
    }

    @Test
    void noInputCrashesHangsOrIsTakenInSilence() {
        List<CaseDocument> seeds = seeds();
        List<String> texts = seeds.stream().map(CaseDocument::toJson).toList();
        int read = 0;
        int parsed = 0;
        long slowest = 0;
        for (long i = FROM; i < FROM + INPUTS; i++) {
            int seed = (int) (i % seeds.size());
            String text = new Mutator(i).mutate(seeds.get(seed).root(), texts.get(seed));
            long start = THREADS.getCurrentThreadCpuTime();
            try {
                CaseDocument document = CaseDocument.parse(text);
                parsed++;
                // What was read is what is written.
                if (i % 10 == 0) {
                    assertThat(CaseDocument.parse(document.toJson())).isEqualTo(document);
                }
                document.toCase();
                read++;
            } catch (CaseException wrong) {
                assertThat(wrong.problems()).isNotEmpty();
                for (CaseProblem problem : wrong.problems()) {
                    boolean placed = problem.line() > 0 && problem.column() > 0;
                    if (problem.message().isBlank() || (!placed && !"MORE".equals(problem.key()))) {
                        fail("input " + i + ": " + problem + "\n" + text);
                    }
                }
            } catch (RuntimeException | StackOverflowError crash) {
                throw new AssertionError("input " + i + ":\n" + text, crash);
            }
            slowest = Math.max(slowest, THREADS.getCurrentThreadCpuTime() - start);
        }
        assertThat(TimeUnit.NANOSECONDS.toMillis(slowest))
                .as("slowest input, ms")
                .isLessThan(1000);
        // The mutator must reach all stages, else this proves nothing.
        assertThat(parsed).isBetween(INPUTS / 4, INPUTS);
        assertThat(read).isBetween(INPUTS / 100, INPUTS / 2);
    }

    /** The reader's own checks take the place of a schema validator at run time; here both look at the same inputs. */
    @Test
    void readerAndSchemaAgree() throws Exception {
        ObjectMapper mapper = new ObjectMapper().enable(DeserializationFeature.USE_BIG_DECIMAL_FOR_FLOATS);
        JsonSchema schema =
                JsonSchemaFactory.getInstance(SpecVersion.VersionFlag.V202012).getSchema(CaseSchema.generate());
        List<CaseDocument> seeds = seeds();
        int rejected = 0;
        int accepted = 0;
        for (int i = 0; i < Math.max(1000, INPUTS / 10); i++) {
            CaseDocument seed = seeds.get(i % seeds.size());
            String text = i < seeds.size() ? seed.toJson() : new Mutator(-i).mutate(seed.root(), seed.toJson());
            CaseDocument document;
            List<CaseProblem> problems = List.of();
            try {
                document = CaseDocument.parse(text);
            } catch (CaseException noJson) {
                continue;
            }
            try {
                document.toCase();
            } catch (CaseException wrong) {
                problems = wrong.problems();
            }
            JsonNode node = mapper.readTree(text);
            Set<?> complaints = schema.validate(node);
            if (problems.isEmpty()) {
                accepted++;
                assertThat(complaints)
                        .as("the reader takes input " + i + "\n" + text)
                        .isEmpty();
            }
            boolean form = problems.stream()
                    .anyMatch(problem -> FORM.contains(problem.key())
                            && !problem.place().startsWith("/duty")
                            && !problem.place().startsWith("/faults")
                            // what unit a spread's numbers need hangs on the place they are of
                            && !("MISSING_UNIT".equals(problem.key())
                                    && problem.place().startsWith("/uncertain")));
            if (form) {
                rejected++;
                assertThat(complaints)
                        .as("the reader refuses input " + i + " " + problems + "\n" + text)
                        .isNotEmpty();
            }
        }
        assertThat(accepted).isGreaterThan(20);
        assertThat(rejected).isGreaterThan(100);
    }

    /** Large hostile files in a child with a heap of 256 MB: one clear error or a case, within a second of work each. */
    @Test
    void hostileFilesTakeLittleTimeAndMemory(@TempDir Path folder) throws Exception {
        Path out = folder.resolve("out.txt");
        List<String> command = new ArrayList<>(List.of(
                Path.of(System.getProperty("java.home"), "bin", "java").toString(),
                "-Xmx256m",
                "-XX:+UseSerialGC",
                "-cp",
                System.getProperty("java.class.path"),
                HostileFiles.class.getName()));
        Process child = new ProcessBuilder(command)
                .redirectErrorStream(true)
                .redirectOutput(out.toFile())
                .start();
        try {
            assertThat(child.waitFor(300, TimeUnit.SECONDS)).isTrue();
        } finally {
            child.destroyForcibly();
        }
        String said = Files.readString(out, StandardCharsets.UTF_8);
        assertThat(child.exitValue()).as(said).isZero();
        assertThat(said.lines().filter(line -> line.endsWith(" ms")).toList())
                .as(said)
                .hasSize(HostileFiles.files().size());
        said.lines().filter(line -> line.endsWith(" ms")).forEach(line -> assertThat(
                        Long.parseLong(line.replaceAll(".* (\\d+) ms$", "$1")))
                .as(line)
                .isLessThan(1000));
    }
}
