package purgewright.report;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.AccessDeniedException;
import java.nio.file.FileAlreadyExistsException;
import java.nio.file.FileSystemException;
import java.nio.file.Files;
import java.nio.file.NotDirectoryException;
import java.nio.file.Path;
import java.nio.file.attribute.PosixFilePermissions;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

@DisplayName("What a user is given as a file is there whole, or what was there before stays")
class WholeFileTest {
    @TempDir
    Path folder;

    private static List<String> entries(Path folder) throws IOException {
        try (Stream<Path> all = Files.list(folder)) {
            return all.map(p -> p.getFileName().toString()).sorted().toList();
        }
    }

    @Test
    void aWriterThatFailsHalfwayLeavesTheOldFileAndNothingElse() throws Exception {
        Path file = Files.writeString(folder.resolve("chart.svg"), "old");
        assertThatThrownBy(() -> WholeFile.write(file, out -> {
                    out.write("half of the n".getBytes(StandardCharsets.UTF_8));
                    throw new IOException("No space left on device");
                }))
                .isInstanceOf(IOException.class)
                .hasMessage("No space left on device");
        assertThat(file).hasContent("old");
        assertThat(entries(folder)).containsExactly("chart.svg");
        assertThatThrownBy(() -> WholeFile.write(file, out -> {
                    out.write(1);
                    throw new IllegalStateException("a fault of ours");
                }))
                .isInstanceOf(IllegalStateException.class);
        assertThat(file).hasContent("old");
        assertThat(entries(folder)).containsExactly("chart.svg");
    }

    @Test
    void theOldFileStandsUntilTheNewOneIsWhole() throws Exception {
        Path file = Files.writeString(folder.resolve("chart.svg"), "old");
        WholeFile.write(file, out -> {
            out.write("new".getBytes(StandardCharsets.UTF_8));
            out.flush();
            assertThat(file).hasContent("old");
        });
        assertThat(file).hasContent("new");
        assertThat(entries(folder)).containsExactly("chart.svg");
    }

    @Test
    void aStudyThatWasStoppedStillWritesWhatItHas() throws Exception {
        Path file = folder.resolve("map.csv");
        Thread.currentThread().interrupt();
        try {
            WholeFile.write(file, "kept");
        } finally {
            assertThat(Thread.interrupted()).isTrue();
        }
        assertThat(file).hasContent("kept");
    }

    @Test
    void aLinkStaysALinkAndPermissionsStay() throws Exception {
        assumeTrue(folder.getFileSystem().supportedFileAttributeViews().contains("posix"), "no such permissions here");
        Path real = Files.writeString(folder.resolve("real.csv"), "old");
        Files.setPosixFilePermissions(real, PosixFilePermissions.fromString("rw-rw-r--"));
        Path link = Files.createSymbolicLink(folder.resolve("link.csv"), real.getFileName());
        WholeFile.write(link, "new");
        assertThat(link).isSymbolicLink().hasContent("new");
        assertThat(real).hasContent("new");
        assertThat(PosixFilePermissions.toString(Files.getPosixFilePermissions(real)))
                .isEqualTo("rw-rw-r--");
    }

    @Test
    void whatIsInTheWayIsNamed() throws Exception {
        Path nowhere = folder.resolve("none").resolve("a.csv");
        assertThatThrownBy(() -> WholeFile.write(nowhere, "x"))
                .isInstanceOf(NotDirectoryException.class)
                .hasMessage(folder.resolve("none").toString());
        Path inTheWay = Files.createDirectory(folder.resolve("a.csv"));
        assertThatThrownBy(() -> WholeFile.write(inTheWay, "x"))
                .isInstanceOf(FileSystemException.class)
                .hasMessage(inTheWay + ": it is a folder");
        Path inAFile = Files.writeString(folder.resolve("b.csv"), "old").resolve("c.csv");
        assertThatThrownBy(() -> WholeFile.check(inAFile)).isInstanceOf(NotDirectoryException.class);
        assertThat(entries(folder)).containsExactly("a.csv", "b.csv");
    }

    @Test
    void aCheckBeforehandLeavesNothing() throws Exception {
        WholeFile.check(folder.resolve("new.csv"));
        Path file = Files.writeString(folder.resolve("a.csv"), "old");
        WholeFile.check(file);
        assertThat(file).hasContent("old");
        assertThat(entries(folder)).containsExactly("a.csv");
        WholeFile.check(Path.of("in-the-current-folder.csv"));
    }

    @Test
    void aFileOrFolderThatMayNotBeWrittenToStays() throws Exception {
        Path locked = Files.createDirectory(folder.resolve("locked"));
        Path file = Files.writeString(locked.resolve("a.csv"), "old");
        assertThat(file.toFile().setReadOnly()).isTrue();
        assumeTrue(!Files.isWritable(file), "who runs this may write to everything");
        assertThatThrownBy(() -> WholeFile.write(file, "x"))
                .isInstanceOf(AccessDeniedException.class)
                .hasMessage(file.toString());
        assertThat(file).hasContent("old");
        assertThat(file.toFile().setWritable(true)).isTrue();
        assertThat(locked.toFile().setWritable(false)).isTrue();
        try {
            assertThatThrownBy(() -> WholeFile.write(file, "x"))
                    .isInstanceOf(AccessDeniedException.class)
                    .hasMessage(file.toString());
            assertThat(file).hasContent("old");
        } finally {
            assertThat(locked.toFile().setWritable(true)).isTrue();
        }
        assertThat(entries(locked)).containsExactly("a.csv");
    }

    @Test
    void aNewFileReplacesNone() throws Exception {
        Path file = folder.resolve("case.json");
        WholeFile.writeNew(file, "first");
        assertThatThrownBy(() -> WholeFile.writeNew(file, "second")).isInstanceOf(FileAlreadyExistsException.class);
        assertThat(file).hasContent("first");
        assertThat(entries(folder)).containsExactly("case.json");
    }

    @Test
    void aDeviceStaysADevice() throws Exception {
        Path sink = Path.of("/dev/null");
        assumeTrue(
                Files.exists(sink) && !Files.isRegularFile(sink) && Files.isWritable(sink), "there is no such device");
        WholeFile.write(sink, "x");
        assertThat(Files.isRegularFile(sink)).isFalse();
    }

    /** A limit of the size of a file stands for a disk that is full in the middle of a write: the same call fails, with another reason. */
    @Test
    void aDiskThatIsFullIsSaidAndTheOldFileStays() throws Exception {
        assumeTrue(Files.isExecutable(Path.of("/bin/bash")), "there is no bash on this system");
        Path file = Files.writeString(folder.resolve("report.pdf"), "old");
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
                        OneWrite.class.getName(),
                        file.toString())
                .redirectErrorStream(true)
                .start();
        String said = new String(child.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
        assertThat(child.waitFor()).as(said).isEqualTo(3);
        assertThat(said).startsWith("cannot write: ");
        assertThat(file).hasContent("old");
        assertThat(entries(folder)).containsExactly("report.pdf");
    }

    /** A child process that writes a megabyte in steps; 3 when it cannot and says why. */
    static final class OneWrite {
        private OneWrite() {}

        public static void main(String[] arguments) {
            try {
                WholeFile.write(Path.of(arguments[0]), out -> {
                    for (int i = 0; i < 128; i++) {
                        out.write(new byte[8192]);
                    }
                });
            } catch (IOException e) {
                System.out.println("cannot write: " + e.getMessage());
                System.exit(3);
            }
        }
    }
}
