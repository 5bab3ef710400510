package purgewright.fluids.phase;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.DoubleBuffer;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.zip.CRC32;

/**
 * Property tables on disk, so that the next start need not build them. A file is bound to the coefficients, the range and the version of
 * the code; it carries a checksum, and is held against the equations at some points; what does not fit or is damaged is built anew. Written to a temporary sibling and renamed. Where
 * nothing can be written the tables live in memory only.
 */
public final class TableStore {
    private static final long MAGIC = 0x50575441424c4531L; // "PWTABLE1"
    private static final int HEADER = 3 * Long.BYTES;

    /** Points at which a table that was read is held against the equations, and the relative error that is not believed [invented]. */
    private static final int POINTS = 100;

    private static final double OFF = 1e-4;
    /** Share of cells that a sound table does not leave to the equations: twice that of the worst fluid [ours]. */
    private static final double LEFT = 0.1;

    private final Path folder;

    /** @param folder where the files go, or null for memory only */
    public TableStore(Path folder) {
        this.folder = folder;
    }

    /**
     * The user's cache folder: {@code PURGEWRIGHT_CACHE}, else {@code purgewright} under {@code LOCALAPPDATA} or {@code XDG_CACHE_HOME} or
     * {@code ~/.cache}. An empty PURGEWRIGHT_CACHE means memory only.
     */
    public static TableStore ofUser() {
        return new TableStore(folder(System.getenv(), System.getProperty("user.home")));
    }

    static Path folder(Map<String, String> environment, String home) {
        String own = environment.get("PURGEWRIGHT_CACHE");
        if (own != null) {
            return own.isBlank() ? null : Path.of(own);
        }
        for (String name : new String[] {"LOCALAPPDATA", "XDG_CACHE_HOME"}) {
            String value = environment.get(name);
            if (value != null && !value.isBlank()) {
                return Path.of(value, "purgewright");
            }
        }
        return home == null || home.isBlank() ? null : Path.of(home, ".cache", "purgewright");
    }

    /** The table of a fluid over a range: read when a sound file is there, else built and, if possible, kept. */
    public TabulatedFluid table(EmbeddedFluid fluid, TabulatedFluid.Range range) {
        long key = key(fluid, range);
        Path file =
                folder == null ? null : folder.resolve(String.format(Locale.ROOT, "%s-%016x.table", fluid.name(), key));
        if (file != null) {
            Optional<TabulatedFluid> stored = read(file, key, fluid);
            if (stored.isPresent()) {
                return stored.get();
            }
        }
        TabulatedFluid built = TabulatedFluid.build(fluid, range);
        if (file != null) {
            write(file, key, built);
        }
        return built;
    }

    private static long key(EmbeddedFluid fluid, TabulatedFluid.Range range) {
        CRC32 crc = new CRC32();
        ByteBuffer buffer = ByteBuffer.allocate(5 * Double.BYTES);
        buffer.putDouble(range.minimumPressure()).putDouble(range.maximumPressure());
        buffer.putDouble(range.minimumTemperature()).putDouble(range.maximumTemperature());
        buffer.putLong(TabulatedFluid.VERSION);
        crc.update(buffer.array());
        return fluid.fingerprint() << 32 | crc.getValue();
    }

    private static Optional<TabulatedFluid> read(Path file, long key, EmbeddedFluid fluid) {
        try {
            if (!Files.isRegularFile(file)) {
                return Optional.empty();
            }
            byte[] bytes = Files.readAllBytes(file);
            if (bytes.length < HEADER || (bytes.length - HEADER) % Double.BYTES != 0) {
                return Optional.empty();
            }
            ByteBuffer buffer = ByteBuffer.wrap(bytes);
            if (buffer.getLong() != MAGIC || buffer.getLong() != key) {
                return Optional.empty();
            }
            CRC32 crc = new CRC32();
            crc.update(bytes, HEADER, bytes.length - HEADER);
            if (buffer.getLong() != crc.getValue()) {
                return Optional.empty();
            }
            DoubleBuffer numbers = buffer.asDoubleBuffer();
            TabulatedFluid table = TabulatedFluid.read(fluid, numbers);
            return numbers.hasRemaining() || !agrees(table) ? Optional.empty() : Optional.of(table);
        } catch (IOException | RuntimeException e) {
            return Optional.empty(); // unreadable or damaged in a way the checksum cannot see: build anew
        }
    }

    /** Looks at some points of it: what the checksum fits may still be another program's numbers. */
    private static boolean agrees(TabulatedFluid table) {
        TabulatedFluid.MeasuredError e = table.measure(POINTS);
        // written so that what is no number fails
        return e.points() >= POINTS / 10
                && e.leftToEquations() < LEFT
                && e.temperature() < OFF
                && e.density() < OFF
                && e.entropy() < OFF
                && e.soundSpeed() < OFF
                && e.nearCritical() < OFF;
    }

    /** A count that stands before as many numbers. */
    static int count(DoubleBuffer in, int each) {
        double count = in.get();
        if (!(count >= 1 && count * each <= in.limit() && count == Math.rint(count))) {
            throw new IllegalArgumentException("a table's count is " + count);
        }
        return (int) count;
    }

    private static void write(Path file, long key, TabulatedFluid table) {
        Path temporary = null;
        try {
            Files.createDirectories(file.getParent());
            ByteBuffer buffer = ByteBuffer.allocate(HEADER + Double.BYTES * table.stored());
            buffer.putLong(MAGIC).putLong(key).putLong(0);
            DoubleBuffer numbers = buffer.asDoubleBuffer();
            table.write(numbers);
            CRC32 crc = new CRC32();
            crc.update(buffer.array(), HEADER, buffer.capacity() - HEADER);
            buffer.putLong(2 * Long.BYTES, crc.getValue());
            temporary =
                    Files.createTempFile(file.getParent(), file.getFileName().toString(), ".tmp");
            Files.write(temporary, buffer.array());
            Files.move(temporary, file, StandardCopyOption.ATOMIC_MOVE, StandardCopyOption.REPLACE_EXISTING);
        } catch (IOException | UnsupportedOperationException | SecurityException e) {
            // no cache then: the table is in memory
            if (temporary != null) {
                try {
                    Files.deleteIfExists(temporary);
                } catch (IOException ignored) {
                    // left behind in a folder we cannot write; nothing to do about it
                }
            }
        }
    }
}
