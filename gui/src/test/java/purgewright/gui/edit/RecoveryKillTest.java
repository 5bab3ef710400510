package purgewright.gui.edit;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import java.util.SplittableRandom;
import java.util.concurrent.TimeUnit;
import java.util.stream.Stream;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import purgewright.sealflow.casefile.CaseDocument;

/** 200 kills with -P long, 4 by default. What is killed is the window's own keeper of unsaved work in a process without a window. */
@DisplayName("Work of a window that was killed is found again, whole, with the file it came from")
class RecoveryKillTest {
    private static final double SHARE = Double.parseDouble(System.getProperty("purgewright.share", "0.01"));
    private static final int KILLS = (int) Math.max(4, Math.round(200 * SHARE));

    @TempDir
    Path folder;

    private static CaseDocument minimal() {
        try (InputStream in = StarterCases.class.getResourceAsStream("/purgewright/cases/minimal.json")) {
            return CaseDocument.parse(new String(in.readAllBytes(), StandardCharsets.UTF_8));
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    @Test
    void whateverTheMomentOfTheKill() throws Exception {
        List<CaseDocument> kept = List.of(Keeper.document(1), Keeper.document(2));
        List<Path> files = List.of(Keeper.file(folder, 1), Keeper.file(folder, 2));
        SplittableRandom random = new SplittableRandom(20260101 + Long.getLong("purgewright.from", 0));
        for (int kill = 0; kill < KILLS; kill++) {
            Path own = folder.resolve("kept-" + kill);
            Process child = new ProcessBuilder(
                            Path.of(System.getProperty("java.home"), "bin", "java")
                                    .toString(),
                            "-XX:TieredStopAtLevel=1",
                            "-XX:+UseSerialGC",
                            "-cp",
                            System.getProperty("java.class.path"),
                            Keeper.class.getName(),
                            own.toString(),
                            folder.toString())
                    .redirectErrorStream(true)
                    .start();
            try {
                assertThat(child.getInputStream().read()).isEqualTo('k');
                TimeUnit.MICROSECONDS.sleep(random.nextInt(20_000));
            } finally {
                child.destroyForcibly().waitFor();
            }
            try (Recovery next = new Recovery(own)) {
                Optional<Recovery.Unsaved> found = next.find();
                assertThat(found).as("kill " + kill).isPresent();
                assertThat(found.get().document()).as("kill " + kill).isIn(kept);
                assertThat(found.get().file()).as("kill " + kill).isIn(files);
                assertThat(next.find()).as("found once").isEmpty();
                next.forget();
            }
            try (Stream<Path> left = Files.list(own)) {
                assertThat(left.toList())
                        .as("nothing is left behind, kill " + kill)
                        .isEmpty();
            }
        }
    }

    @Test
    void whatAWindowLeftThatHadKeptNothingYetIsTakenAway() throws IOException {
        Files.createFile(folder.resolve("unsaved-x.lock"));
        Files.writeString(folder.resolve("unsaved-x.tmp"), "{\"half");
        Files.writeString(folder.resolve("unsaved-x.origin"), "/some/where.json");
        try (Recovery mine = new Recovery(folder)) {
            assertThat(mine.find()).isEmpty();
        }
        try (Stream<Path> left = Files.list(folder)) {
            assertThat(left.toList()).isEmpty();
        }
    }

    @Test
    void aDamagedKeepsakeIsLeftAloneAndAnotherIsFound() throws IOException {
        Files.createFile(folder.resolve("unsaved-bad.lock"));
        Files.writeString(folder.resolve("unsaved-bad.json"), "{\"half");
        try (Recovery other = new Recovery(folder)) {
            assertThat(other.keep(minimal(), null)).isTrue();
            try (Recovery mine = new Recovery(folder)) {
                assertThat(mine.find()).as("its window lives").isEmpty();
            }
        }
        try (Recovery mine = new Recovery(folder)) {
            assertThat(mine.find().map(Recovery.Unsaved::document)).contains(minimal());
        }
        assertThat(folder.resolve("unsaved-bad.json")).exists();
    }

    @Test
    void aFolderThatCannotBeWrittenIsSaidAndNothingBreaks() {
        try (Recovery mine = new Recovery(Path.of("/proc/purgewright-none"))) {
            if (Files.isDirectory(Path.of("/proc/self"))) {
                assertThat(mine.keep(minimal(), null)).isFalse();
            }
            assertThat(mine.find()).isEmpty();
        }
    }

    /** The child process: keeps two cases of two files in turn. */
    static final class Keeper {
        private Keeper() {}

        static CaseDocument document(int number) {
            return minimal().with("/about/note", Integer.toString(number).repeat(200_000));
        }

        static Path file(Path folder, int number) {
            return folder.resolve("case " + Integer.toString(number).repeat(60) + ".json");
        }

        public static void main(String[] arguments) {
            CaseDocument one = document(1);
            CaseDocument two = document(2);
            Path home = Path.of(arguments[1]);
            Recovery recovery = new Recovery(Path.of(arguments[0]));
            recovery.keep(one, file(home, 1));
            System.out.write('k');
            System.out.flush();
            while (true) {
                recovery.keep(two, file(home, 2));
                recovery.keep(one, file(home, 1));
            }
        }
    }
}
