package purgewright.sealflow.casefile;

import static org.assertj.core.api.Assertions.assertThat;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.concurrent.TimeUnit;
import java.util.stream.Stream;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * A child process saves with the system's calls of writing slowed, cut short or failing, by a few lines of C between it and the system: what
 * a network disk does. Skipped, visibly, where there is no gcc or no Linux.
 */
@DisplayName("A slow or failing disk under a save: said plainly, the old file or the new one, whole")
class SlowDiskTest {
    private static final String SHIM = """
            #define _GNU_SOURCE
            #include <dlfcn.h>
            #include <errno.h>
            #include <stdio.h>
            #include <stdlib.h>
            #include <string.h>
            #include <sys/stat.h>
            #include <unistd.h>

            static int mode(const char *what) {
                const char *m = getenv("DISK");
                return m != NULL && strstr(m, what) != NULL;
            }

            static int ours(int fd) {
                char link[64], name[4096];
                snprintf(link, sizeof link, "/proc/self/fd/%d", fd);
                ssize_t n = readlink(link, name, sizeof name - 1);
                if (n <= 0) return 0;
                name[n] = 0;
                return strstr(name, ".unfinished") != NULL;
            }

            static void wait_a_little(void) { usleep(100000); }

            ssize_t write(int fd, const void *data, size_t size) {
                ssize_t (*next)(int, const void *, size_t) = dlsym(RTLD_NEXT, "write");
                if (fd > 2 && ours(fd)) {
                    if (mode("slow")) wait_a_little();
                    if (mode("write-fails")) { errno = EDQUOT; return -1; }
                    if (mode("short") && size > 50000) size = 50000;
                }
                return next(fd, data, size);
            }

            static int force(int fd, const char *call) {
                int (*next)(int) = dlsym(RTLD_NEXT, call);
                if (ours(fd)) {
                    if (mode("slow")) wait_a_little();
                    if (mode("force-fails")) { errno = EIO; return -1; }
                }
                return next(fd);
            }

            int fsync(int fd) { return force(fd, "fsync"); }
            int fdatasync(int fd) { return force(fd, "fdatasync"); }

            int rename(const char *from, const char *to) {
                int (*next)(const char *, const char *) = dlsym(RTLD_NEXT, "rename");
                if (strstr(from, ".unfinished") != NULL) {
                    if (mode("slow")) wait_a_little();
                    if (mode("rename-fails")) { errno = EIO; return -1; }
                }
                return next(from, to);
            }
            """;

    private static Path shim;

    @TempDir
    Path folder;

    @BeforeAll
    static void compile(@TempDir Path once) throws Exception {
        assumeTrue(System.getProperty("os.name").startsWith("Linux"), "the calls are Linux's");
        Path source = Files.writeString(once.resolve("disk.c"), SHIM);
        shim = Path.of("target", "slow-disk.so").toAbsolutePath();
        Files.createDirectories(shim.getParent());
        try {
            Process gcc = new ProcessBuilder(
                            "gcc", "-shared", "-fPIC", "-O1", "-o", shim.toString(), source.toString(), "-ldl")
                    .redirectErrorStream(true)
                    .start();
            String said = new String(gcc.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
            assertThat(gcc.waitFor()).as(said).isZero();
        } catch (IOException none) {
            assumeTrue(false, "there is no gcc on this system");
        }
    }

    private static Process start(Class<?> program, String disk, Path file) throws IOException {
        List<String> command = new ArrayList<>(List.of(
                Path.of(System.getProperty("java.home"), "bin", "java").toString(),
                "-XX:TieredStopAtLevel=1",
                "-XX:+UseSerialGC",
                "-cp",
                System.getProperty("java.class.path"),
                program.getName(),
                file.toString()));
        ProcessBuilder child = new ProcessBuilder(command).redirectErrorStream(true);
        child.environment().putAll(Map.of("LD_PRELOAD", shim.toString(), "DISK", disk));
        return child.start();
    }

    private List<String> entries() throws IOException {
        try (Stream<Path> all = Files.list(folder)) {
            return all.map(f -> f.getFileName().toString()).sorted().toList();
        }
    }

    private Path old() {
        Path file = folder.resolve("case.json");
        CaseReaderTest.MINIMAL.save(file);
        return file;
    }

    @Test
    void aSlowDiskThatTakesLittleAtATimeGetsTheWholeFile() throws Exception {
        Path file = old();
        long quick = saved("nothing", file);
        CaseReaderTest.MINIMAL.save(file);
        // 400 kB in pieces of 50 kB, each waited for a tenth of a second: else the calls were not reached
        assertThat(saved("slow short", file) - quick).isGreaterThan(600);
        assertThat(CaseDocument.read(file)).isEqualTo(CaseSaveTest.Saver.document(1));
        assertThat(CaseDocument.read(folder.resolve("case.json~"))).isEqualTo(CaseReaderTest.MINIMAL);
        assertThat(entries()).containsExactly("case.json", "case.json~");
    }

    /** Milliseconds that the child took. */
    private static long saved(String disk, Path file) throws Exception {
        long start = System.nanoTime();
        Process child = start(CaseSaveTest.OneSave.class, disk, file);
        String said = new String(child.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
        assertThat(child.waitFor()).as(said).isZero();
        assertThat(said).isEmpty();
        return TimeUnit.NANOSECONDS.toMillis(System.nanoTime() - start);
    }

    @Test
    void aDiskThatFailsIsSaidAndTheOldFileStays() throws Exception {
        for (String disk : List.of("write-fails", "force-fails", "rename-fails")) {
            Path file = old();
            Process child = start(CaseSaveTest.OneSave.class, disk, file);
            String said = new String(child.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
            assertThat(child.waitFor()).as(disk + ": " + said).isEqualTo(3);
            assertThat(said).as(disk).startsWith("cannot save " + file + ": ").doesNotContain("\\tat ");
            assertThat(CaseDocument.read(file)).as(disk).isEqualTo(CaseReaderTest.MINIMAL);
            assertThat(entries()).as(disk).noneMatch(n -> n.endsWith(".unfinished"));
        }
    }

    @Test
    void aKillInTheMiddleOfASlowSaveLeavesAWholeFile() throws Exception {
        Path file = old();
        for (int kill = 0; kill < 3; kill++) {
            Process child = start(CaseSaveTest.Saver.class, "slow short", file);
            try {
                assertThat(child.getInputStream().read()).isEqualTo('s');
                TimeUnit.MILLISECONDS.sleep(150 + 270L * kill);
            } finally {
                child.destroyForcibly().waitFor();
            }
            assertThat(CaseDocument.read(file)).isIn(CaseSaveTest.Saver.document(1), CaseSaveTest.Saver.document(2));
        }
    }
}
