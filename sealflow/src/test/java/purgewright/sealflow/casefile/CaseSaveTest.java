package purgewright.sealflow.casefile;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.catchThrowableOfType;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.FileTime;
import java.nio.file.attribute.PosixFilePermissions;
import java.time.Duration;
import java.time.Instant;
import java.util.List;
import java.util.SplittableRandom;
import java.util.concurrent.TimeUnit;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class CaseSaveTest {
    private static final double SHARE = Double.parseDouble(System.getProperty("purgewright.share", "0.01"));
    private static final int KILLS = (int) Math.round(1000 * SHARE);

    @TempDir
    Path folder;

    private static List<String> entries(Path folder) throws IOException {
        try (Stream<Path> entries = Files.list(folder)) {
            return entries.map(entry -> entry.getFileName().toString()).sorted().toList();
        }
    }

    @Test
    void aSaveKeepsOnePreviousCopyAndLeavesNothingElse() throws IOException {
        Path file = folder.resolve("pump é.json");
        CaseDocument one = CaseReaderTest.MINIMAL;
        one.save(file);
        assertThat(entries(folder)).containsExactly("pump é.json");
        assertThat(CaseDocument.read(file)).isEqualTo(one);
        CaseDocument two = one.with("/rotor/speed", "33000 rpm");
        two.save(file);
        CaseDocument three = one.with("/rotor/speed", "34000 rpm");
        three.save(file);
        assertThat(entries(folder)).containsExactly("pump é.json", "pump é.json~");
        assertThat(CaseDocument.read(file)).isEqualTo(three);
        assertThat(CaseDocument.read(folder.resolve("pump é.json~"))).isEqualTo(two);
    }

    @Test
    void aSymbolicLinkStaysOne() throws IOException {
        Path real = Files.createDirectory(folder.resolve("real")).resolve("case.json");
        CaseReaderTest.MINIMAL.save(real);
        Path link = folder.resolve("link.json");
        try {
            Files.createSymbolicLink(link, real);
        } catch (UnsupportedOperationException | IOException none) {
            assumeTrue(false, "this file system has no symbolic links");
        }
        CaseDocument changed = CaseReaderTest.MINIMAL.with("/rotor/speed", "1 rpm");
        changed.save(link);
        assertThat(link).isSymbolicLink();
        assertThat(CaseDocument.read(real)).isEqualTo(changed);
        assertThat(entries(folder)).containsExactly("link.json", "real");
    }

    @Test
    void permissionsStay() throws IOException {
        Path file = folder.resolve("case.json");
        CaseReaderTest.MINIMAL.save(file);
        assumeTrue(Files.getFileStore(file).supportsFileAttributeView("posix"), "no POSIX permissions here");
        Files.setPosixFilePermissions(file, PosixFilePermissions.fromString("rw-r-----"));
        CaseReaderTest.MINIMAL.with("/rotor/speed", "1 rpm").save(file);
        assertThat(PosixFilePermissions.toString(Files.getPosixFilePermissions(file)))
                .isEqualTo("rw-r-----");
    }

    @Test
    void whatCannotBeSavedIsSaidPlainly() throws IOException {
        CaseDocument document = CaseReaderTest.MINIMAL;
        Path missing = folder.resolve("no such folder").resolve("case.json");
        assertThatThrownBy(() -> document.save(missing))
                .isInstanceOf(UncheckedIOException.class)
                .hasMessageContaining("there is no folder");
        assertThatThrownBy(() -> document.save(folder))
                .isInstanceOf(UncheckedIOException.class)
                .hasMessageContaining("it is a folder");
        Path blocked = folder.resolve("blocked.json");
        document.save(blocked);
        Files.createDirectory(folder.resolve("blocked.json~"));
        assertThatThrownBy(() -> document.with("/rotor/speed", "1 rpm").save(blocked))
                .isInstanceOf(UncheckedIOException.class)
                .hasMessageContaining("previous copy");
        assertThat(CaseDocument.read(blocked)).isEqualTo(document);
        assertThat(entries(folder)).containsExactly("blocked.json", "blocked.json~");
    }

    @Test
    void aFolderThatTakesNoFilesIsSaidPlainly() {
        // Nobody, not even root, makes files there.
        Path file = Path.of("/proc/purgewright-test.json");
        assumeTrue(Files.isDirectory(Path.of("/proc/self")), "there is no /proc on this system");
        assertThatThrownBy(() -> CaseReaderTest.MINIMAL.save(file))
                .isInstanceOf(UncheckedIOException.class)
                .hasMessageStartingWith("cannot save /proc/purgewright-test.json: ");
    }

    @Test
    void aReadOnlyFolderAndFileAreSaidPlainly() throws IOException {
        Path closed = Files.createDirectory(folder.resolve("closed"));
        Path file = closed.resolve("case.json");
        CaseReaderTest.MINIMAL.save(file);
        assumeTrue(closed.toFile().setWritable(false) && !Files.isWritable(closed), "root may write everywhere");
        try {
            assertThatThrownBy(() ->
                            CaseReaderTest.MINIMAL.with("/rotor/speed", "1 rpm").save(file))
                    .isInstanceOf(UncheckedIOException.class)
                    .hasMessageContaining("may not be written to");
            assertThat(CaseDocument.read(file)).isEqualTo(CaseReaderTest.MINIMAL);
        } finally {
            assertThat(closed.toFile().setWritable(true)).isTrue();
        }
    }

    @Test
    void leftoversOfKilledSavesAreRemovedOnceTheyAreOld() throws IOException {
        Path file = folder.resolve("case.json");
        Path old = Files.writeString(folder.resolve(".case.json.1.unfinished"), "x");
        Path fresh = Files.writeString(folder.resolve(".case.json.2.unfinished"), "x");
        Files.setLastModifiedTime(old, FileTime.from(Instant.now().minus(Duration.ofHours(2))));
        CaseReaderTest.MINIMAL.save(file);
        assertThat(old).doesNotExist();
        assertThat(fresh).exists();
    }

    @Test
    void whatCannotBeReadIsSaidPlainly() throws IOException {
        assertThat(problem(folder.resolve("lost.json")).key()).isEqualTo("NOT_FOUND");
        assertThat(problem(folder).key()).isEqualTo("UNREADABLE");
        Path latin = folder.resolve("latin.json");
        Files.write(latin, "{\n \"a\": \"\u00b5\"}".getBytes(StandardCharsets.ISO_8859_1));
        assertThat(problem(latin).key()).isEqualTo("NOT_UTF8");
        assertThat(problem(latin).line()).isEqualTo(2);
        Path empty = Files.createFile(folder.resolve("empty.json"));
        assertThat(problem(empty).key()).isEqualTo("EMPTY_FILE");
        Path large = folder.resolve("large.json");
        Files.write(large, new byte[CaseFiles.LARGEST + 1]);
        assertThat(problem(large).key()).isEqualTo("TOO_LARGE");
        Path windows = folder.resolve("windows.json");
        Files.writeString(
                windows, "\ufeff" + CaseReaderTest.resource("minimal.json").replace("\n", "\r\n"));
        assertThat(CaseDocument.read(windows)).isEqualTo(CaseReaderTest.MINIMAL);
        assertThat(CaseDocument.read(windows).line("/passages/ring A"))
                .isEqualTo(CaseReaderTest.MINIMAL.line("/passages/ring A"));
    }

    private static CaseProblem problem(Path file) {
        return catchThrowableOfType(CaseException.class, () -> CaseDocument.read(file))
                .problems()
                .get(0);
    }

    /** A child process saves two cases in turn and is killed at a random moment; the file is always one of them, whole. */
    @Test
    void aKilledSaveLeavesTheOldOrTheNewFile() throws Exception {
        Path file = folder.resolve("case.json");
        CaseDocument one = Saver.document(1);
        CaseDocument two = Saver.document(2);
        one.save(file);
        SplittableRandom random = new SplittableRandom(20260101 + Long.getLong("purgewright.from", 0));
        for (int kill = 0; kill < KILLS; kill++) {
            Process child = new ProcessBuilder(
                            Path.of(System.getProperty("java.home"), "bin", "java")
                                    .toString(),
                            "-XX:TieredStopAtLevel=1",
                            "-XX:+UseSerialGC",
                            "-cp",
                            System.getProperty("java.class.path"),
                            Saver.class.getName(),
                            file.toString())
                    .redirectErrorStream(true)
                    .start();
            try {
                // The first byte comes once saving is under way.
                assertThat(child.getInputStream().read()).isEqualTo('s');
                TimeUnit.MICROSECONDS.sleep(random.nextInt(30_000));
            } finally {
                child.destroyForcibly().waitFor();
            }
            assertThat(CaseDocument.read(file)).as("kill " + kill).isIn(one, two);
            Path previous = folder.resolve("case.json~");
            if (Files.exists(previous)) {
                assertThat(CaseDocument.read(previous))
                        .as("previous copy, kill " + kill)
                        .isIn(one, two);
            }
        }
        two.save(file);
        assertThat(CaseDocument.read(file)).isEqualTo(two);
    }

    /** A limit of the size of a file stands for a disk that is full in the middle of a write: the same call fails, with another reason. */
    @Test
    void aDiskThatIsFullIsSaidAndTheOldFileStays() throws Exception {
        assumeTrue(Files.isExecutable(Path.of("/bin/bash")), "there is no bash on this system");
        Path file = folder.resolve("case.json");
        CaseReaderTest.MINIMAL.save(file);
        Process child = new ProcessBuilder(
                        "/bin/bash",
                        "-c",
                        "ulimit -f 100; exec \"$0\" \"$@\"",
                        Path.of(System.getProperty("java.home"), "bin", "java").toString(),
                        "-XX:-UsePerfData",
                        "-XX:TieredStopAtLevel=1",
                        "-Xshare:auto",
                        "-cp",
                        System.getProperty("java.class.path"),
                        OneSave.class.getName(),
                        file.toString())
                .redirectErrorStream(true)
                .start();
        String said = new String(child.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
        assertThat(child.waitFor()).as(said).isEqualTo(3);
        assertThat(said).startsWith("cannot save " + file + ": ");
        assertThat(CaseDocument.read(file)).isEqualTo(CaseReaderTest.MINIMAL);
        assertThat(entries(folder)).containsExactly("case.json");
    }

    /** A child process that saves once; 3 when it cannot and says why. */
    static final class OneSave {
        private OneSave() {}

        public static void main(String[] arguments) {
            try {
                Saver.document(1).save(Path.of(arguments[0]));
            } catch (UncheckedIOException e) {
                System.out.println(e.getMessage());
                System.exit(3);
            }
        }
    }

    /** The child process. */
    static final class Saver {
        private Saver() {}

        /** Large enough that a write takes several steps. */
        static CaseDocument document(int number) {
            return CaseReaderTest.MINIMAL.with(
                    "/about/note", Integer.toString(number).repeat(400_000));
        }

        public static void main(String[] arguments) {
            CaseDocument one = document(1);
            CaseDocument two = document(2);
            Path file = Path.of(arguments[0]);
            two.save(file);
            System.out.write('s');
            System.out.flush();
            while (true) {
                one.save(file);
                two.save(file);
            }
        }
    }
}
