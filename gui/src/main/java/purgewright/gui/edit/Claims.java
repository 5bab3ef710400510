package purgewright.gui.edit;

import java.io.IOException;
import java.nio.channels.FileChannel;
import java.nio.channels.FileLock;
import java.nio.channels.OverlappingFileLockException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.util.UUID;

/**
 * Which window has which file: a lock of the operating system on a file of its own, in the user's settings folder, so that it ends with
 * the program however that ends. Where no lock can be had (a read-only home) nobody is told anything.
 */
public final class Claims implements AutoCloseable {
    private final Path folder;
    private FileLock held;
    private Path file;

    /** Locks go into this folder. */
    public Claims(Path folder) {
        this.folder = folder;
    }

    /** Takes a file and lets go of the one before; false, with nothing changed, when another window has it. */
    public boolean take(Path wanted) {
        Path real = real(wanted);
        if (real.equals(file)) {
            return true;
        }
        FileLock lock = null;
        try {
            lock = lock(folder.resolve("locks")
                    .resolve(UUID.nameUUIDFromBytes(real.toString().getBytes(StandardCharsets.UTF_8)) + ".lock"));
        } catch (OverlappingFileLockException taken) {
            return false;
        } catch (IOException e) {
            release();
            return true;
        }
        if (lock == null) {
            return false;
        }
        release();
        held = lock;
        file = real;
        return true;
    }

    /** Tries a lock on a file, made when it is not there; null when another process has it. */
    static FileLock lock(Path path) throws IOException {
        Files.createDirectories(path.getParent());
        FileChannel channel = FileChannel.open(path, StandardOpenOption.CREATE, StandardOpenOption.WRITE);
        try {
            FileLock lock = channel.tryLock();
            if (lock == null) {
                channel.close();
            }
            return lock;
        } catch (IOException | OverlappingFileLockException e) {
            channel.close();
            throw e;
        }
    }

    private static Path real(Path wanted) {
        try {
            return wanted.toRealPath();
        } catch (IOException notThereYet) {
            return wanted.toAbsolutePath().normalize();
        }
    }

    /** Lets go of the file. */
    public void release() {
        unlock(held);
        held = null;
        file = null;
    }

    static void unlock(FileLock lock) {
        if (lock != null) {
            try {
                lock.channel().close();
            } catch (IOException e) {
                // The lock ends with the program then.
                return;
            }
        }
    }

    @Override
    public void close() {
        release();
    }
}
