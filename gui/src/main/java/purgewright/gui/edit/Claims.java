package purgewright.gui.edit;

import java.io.IOException;
import java.nio.channels.FileChannel;
import java.nio.channels.FileLock;
import java.nio.channels.OverlappingFileLockException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.util.HashMap;
import java.util.Map;
import java.util.Optional;
import java.util.UUID;

/**
 * Which window has which file: a lock of the operating system on a file of its own, in the user's settings folder, so that it ends with
 * the program however that ends. Where no lock can be had (a read-only home) nobody is told anything. Threads may share it.
 */
public final class Claims implements AutoCloseable {
    private final Path folder;
    private final Map<Path, Held> held = new HashMap<>();

    /** Locks go into this folder. */
    public Claims(Path folder) {
        this.folder = folder;
    }

    private static final class Held {
        private final FileLock lock;
        private int times;

        Held(FileLock lock) {
            this.lock = lock;
        }
    }

    /** A file that is this window's until this is closed, and every other claim that it has on the file. */
    public final class Claim implements AutoCloseable {
        private final Path file;
        private boolean open = true;

        private Claim(Path file) {
            this.file = file;
        }

        /** The file by its real name: links are followed. */
        public Path file() {
            return file;
        }

        @Override
        public void close() {
            synchronized (held) {
                Held of = held.get(file);
                if (open && of != null && --of.times == 0) {
                    held.remove(file);
                    unlock(of.lock);
                }
                open = false;
            }
        }
    }

    /** Takes a file, one that this window has already too; empty when another window has it. Waits for the disk the file is on. */
    public Optional<Claim> take(Path wanted) {
        Path real = real(wanted);
        synchronized (held) {
            Held of = held.get(real);
            if (of == null) {
                FileLock lock;
                try {
                    lock = lock(folder.resolve("locks")
                            .resolve(UUID.nameUUIDFromBytes(real.toString().getBytes(StandardCharsets.UTF_8))
                                    + ".lock"));
                    if (lock == null) {
                        return Optional.empty();
                    }
                } catch (OverlappingFileLockException taken) {
                    return Optional.empty();
                } catch (IOException noLocksHere) {
                    lock = null;
                }
                of = new Held(lock);
                held.put(real, of);
            }
            of.times++;
            return Optional.of(new Claim(real));
        }
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

    /** A file that is not there yet is known by its folder: it will be found by that name once it is. */
    private static Path real(Path wanted) {
        try {
            return wanted.toRealPath();
        } catch (IOException notThereYet) {
            Path whole = wanted.toAbsolutePath();
            Path in = whole.getParent();
            try {
                return in == null ? whole : in.toRealPath().resolve(whole.getFileName());
            } catch (IOException noFolder) {
                return whole.normalize();
            }
        }
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

    /** Lets go of every file. */
    @Override
    public void close() {
        synchronized (held) {
            held.values().forEach(of -> unlock(of.lock));
            held.clear();
        }
    }
}
