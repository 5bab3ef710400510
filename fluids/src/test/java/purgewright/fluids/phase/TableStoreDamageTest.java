package purgewright.fluids.phase;

import static org.assertj.core.api.Assertions.assertThat;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.Map;
import java.util.SplittableRandom;
import java.util.stream.Stream;
import java.util.zip.CRC32;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import purgewright.fluids.Engines;

/** Of a table on disk each part is damaged in turn; the answer is the sound table's, to the bit, and the file is whole again. */
@DisplayName("A damaged table on disk is built anew and never answers")
class TableStoreDamageTest {
    private static final TabulatedFluid.Range RANGE = new TabulatedFluid.Range(1e5, 2e7, 160, 400);
    private static final int HEADER = 24;

    private static EmbeddedFluid argon;
    private static byte[] sound;
    private static double[] answers;
    private static Path name;

    @TempDir
    Path folder;

    private Path file;

    @BeforeAll
    static void buildOnce(@TempDir Path once) throws IOException {
        argon = (EmbeddedFluid) Engines.embedded().pure("argon");
        answers = answers(new TableStore(once).table(argon, RANGE));
        try (Stream<Path> files = Files.list(once)) {
            Path made = files.findFirst().orElseThrow();
            name = made.getFileName();
            sound = Files.readAllBytes(made);
        }
    }

    @BeforeEach
    void place() {
        file = folder.resolve(name);
    }

    private static double[] answers(TabulatedFluid table) {
        double[] out = new double[40];
        SplittableRandom r = new SplittableRandom(7);
        for (int i = 0; i < out.length; i++) {
            double p = 1e5 * Math.pow(190, r.nextDouble());
            double h =
                    argon.atPressureTemperature(p, 165 + 230 * r.nextDouble()).enthalpy();
            out[i] = i % 2 == 0
                    ? table.atPressureEnthalpy(p, h).density()
                    : table.atPressureEnthalpy(p, h).temperature();
        }
        return out;
    }

    private void mended(byte[] damaged, String how) throws IOException {
        Files.write(file, damaged);
        assertThat(answers(new TableStore(folder).table(argon, RANGE))).as(how).isEqualTo(answers);
        assertThat(Arrays.equals(Files.readAllBytes(file), sound))
                .as(how + ": whole again")
                .isTrue();
        try (Stream<Path> files = Files.list(folder)) {
            assertThat(files).as(how + ": nothing else").hasSize(1);
        }
    }

    private static byte[] flipped(int at, int bit) {
        byte[] b = sound.clone();
        b[at] ^= (byte) (1 << bit);
        return b;
    }

    /** Numbers changed, and the checksum made to fit them. */
    private static byte[] resealed(byte[] body) {
        CRC32 crc = new CRC32();
        crc.update(body, HEADER, body.length - HEADER);
        ByteBuffer.wrap(body).putLong(16, crc.getValue());
        return body;
    }

    @Test
    void theSoundOneIsReadAndLeftAlone() throws IOException {
        Files.write(file, sound);
        Files.setLastModifiedTime(file, java.nio.file.attribute.FileTime.fromMillis(1_000_000));
        assertThat(answers(new TableStore(folder).table(argon, RANGE))).isEqualTo(answers);
        assertThat(Files.getLastModifiedTime(file).toMillis()).isEqualTo(1_000_000);
    }

    @Test
    void itsHead() throws IOException {
        mended(flipped(0, 0), "mark");
        mended(flipped(7, 0), "version of the layout");
        mended(flipped(8, 3), "coefficients it was built from");
        mended(flipped(15, 0), "range and version of the code");
        mended(flipped(23, 0), "checksum");
    }

    @Test
    void anyByteOfItsNumbers() throws IOException {
        SplittableRandom r = new SplittableRandom(20260101);
        for (int i = 0; i < 4; i++) {
            int at = HEADER + r.nextInt(sound.length - HEADER);
            mended(flipped(at, r.nextInt(8)), "byte " + at);
        }
    }

    @Test
    void itsLength() throws IOException {
        for (int length :
                new int[] {0, 7, HEADER - 1, HEADER, sound.length / 2 & ~7, sound.length - 8, sound.length - 3}) {
            mended(Arrays.copyOf(sound, length), "cut to " + length);
        }
        mended(Arrays.copyOf(sound, sound.length + 8), "eight bytes more");
    }

    @Test
    void evenWithAChecksumThatFits() throws IOException {
        mended(resealed(Arrays.copyOf(sound, sound.length / 2 & ~7)), "half");
        mended(resealed(Arrays.copyOf(sound, sound.length + 8)), "a number more");
        byte[] counts = sound.clone();
        ByteBuffer numbers = ByteBuffer.wrap(counts);
        for (int at = HEADER; at < HEADER + 8 * 60; at += 8) {
            double was = numbers.getDouble(at);
            if (was > 1.5 && was < 1e4 && was == Math.rint(was)) {
                numbers.putDouble(at, 2e9);
            }
        }
        mended(resealed(counts), "counts of numbers it has not");
        for (double factor : new double[] {1.01, -1, 1e3, Double.NaN}) {
            byte[] moved = sound.clone();
            ByteBuffer b = ByteBuffer.wrap(moved);
            for (int at = sound.length / 3 & ~7; at < sound.length * 2 / 3; at += 8) {
                b.putDouble(at, factor * b.getDouble(at));
            }
            mended(resealed(moved), "a third of its numbers times " + factor);
        }
    }

    @Test
    void aFolderInItsPlaceOrAFileThatMayNotBeRead() throws IOException {
        Files.createDirectory(file);
        assertThat(answers(new TableStore(folder).table(argon, RANGE))).isEqualTo(answers);
        Files.delete(file);
        Files.write(file, sound);
        assumeTrue(file.toFile().setReadable(false) && !Files.isReadable(file), "root may read everything");
        assertThat(answers(new TableStore(folder).table(argon, RANGE))).isEqualTo(answers);
    }

    /** A file of another range, another fluid or another version does not answer: each has a name of its own. */
    @Test
    void anotherRangeIsAnotherFile() throws IOException {
        Files.write(file, sound);
        TabulatedFluid.Range other = new TabulatedFluid.Range(1e5, 2e7, 165, 400);
        new TableStore(folder).table(argon, other);
        try (Stream<Path> files = Files.list(folder)) {
            assertThat(files).hasSize(2);
        }
        assertThat(Files.readAllBytes(file)).isEqualTo(sound);
        // what was written is read the next time, not written again
        Path second;
        try (Stream<Path> files = Files.list(folder)) {
            second = files.filter(f -> !f.equals(file)).findFirst().orElseThrow();
        }
        Files.setLastModifiedTime(second, java.nio.file.attribute.FileTime.fromMillis(2_000_000));
        new TableStore(folder).table(argon, other);
        assertThat(Files.getLastModifiedTime(second).toMillis()).isEqualTo(2_000_000);
        // the name holds the fluid's fingerprint and the range's, half a key each
        String key = name.toString().replaceAll("^argon-|\\.table$", "");
        assertThat(key).hasSize(16).startsWith(String.format("%08x", argon.fingerprint()));
        assertThat(key.substring(8)).isNotEqualTo("00000000");
    }

    /** PURGEWRIGHT_CACHE first, even empty, which means memory alone; then the two systems' own places; then the home folder. */
    @Test
    void theFolderFollowsTheEnvironment() {
        Path cache = folder.resolve("cache");
        String own = cache.toString();
        assertThat(TableStore.folder(Map.of("PURGEWRIGHT_CACHE", own, "XDG_CACHE_HOME", "/x"), "/home/a"))
                .isEqualTo(cache);
        assertThat(TableStore.folder(Map.of("PURGEWRIGHT_CACHE", " ", "XDG_CACHE_HOME", "/x"), "/home/a"))
                .isNull();
        assertThat(TableStore.folder(Map.of("LOCALAPPDATA", own), "/home/a")).isEqualTo(cache.resolve("purgewright"));
        assertThat(TableStore.folder(Map.of("XDG_CACHE_HOME", own), null)).isEqualTo(cache.resolve("purgewright"));
        assertThat(TableStore.folder(Map.of("LOCALAPPDATA", " ", "XDG_CACHE_HOME", ""), own))
                .isEqualTo(cache.resolve(".cache").resolve("purgewright"));
        assertThat(TableStore.folder(Map.of(), null)).isNull();
        assertThat(TableStore.folder(Map.of(), "")).isNull();
        assertThat(TableStore.ofUser()).isNotNull();
    }

    /** Where its name is taken by something that cannot be replaced the table answers from memory, and nothing is left behind. */
    @Test
    void whereItCannotBeWrittenNothingIsLeftBehind() throws IOException {
        Files.createDirectory(file);
        Files.writeString(file.resolve("inside"), "kept");
        assertThat(answers(new TableStore(folder).table(argon, RANGE))).isEqualTo(answers);
        try (Stream<Path> files = Files.list(folder)) {
            assertThat(files).containsExactly(file);
        }
        assertThat(Files.readString(file.resolve("inside"))).isEqualTo("kept");
    }
}
