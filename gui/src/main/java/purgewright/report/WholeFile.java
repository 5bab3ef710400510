package purgewright.report;

import java.io.IOException;
import java.io.OutputStream;
import java.io.RandomAccessFile;
import java.nio.charset.StandardCharsets;
import java.nio.file.AccessDeniedException;
import java.nio.file.FileSystemException;
import java.nio.file.Files;
import java.nio.file.NotDirectoryException;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.util.UUID;
import purgewright.sealflow.casefile.Replacing;

/**
 * A file that is there whole or not at all: a sibling is written, forced to the disk and renamed at the end, so that a kill, a full disk
 * or an error in between leaves what was there before.
 *
 * <p>A symbolic link stays a link; permissions of a file that is replaced stay. What is no file (a device, a pipe) is written directly:
 * a rename would put a file in its place.
 */
public final class WholeFile implements AutoCloseable {
    /** What can be written to a stream. */
    @FunctionalInterface
    public interface Content {
        /** @throws IOException where the stream refuses */
        void write(OutputStream out) throws IOException;
    }

    private final Path target;
    /** Null where the target is written directly. */
    private final Path temporary;

    private final OutputStream out;

    private WholeFile(Path target, Path temporary, OutputStream out) {
        this.target = target;
        this.temporary = temporary;
        this.out = out;
    }

    /**
     * Refuses a file that cannot be written, and leaves everything as it is: asked before long work, so that no result is lost for want of
     * a place.
     *
     * @throws IOException that names what is in the way: a folder that there is none of, a folder in the file's place, write-protected
     */
    public static void check(Path named) throws IOException {
        if (Files.isDirectory(named)) {
            throw new FileSystemException(named.toString(), null, "it is a folder");
        }
        Path folder = named.getParent();
        if (folder != null && !Files.isDirectory(folder)) {
            throw new NotDirectoryException(folder.toString());
        }
        if (Files.exists(named) && !Files.isWritable(named)) {
            throw new AccessDeniedException(named.toString());
        }
    }

    /**
     * Starts a file.
     *
     * @throws IOException that names what is in the way: see {@link #check}; no permission
     */
    public static WholeFile begin(Path named) throws IOException {
        check(named);
        boolean exists = Files.exists(named);
        if (exists && !Files.isRegularFile(named)) {
            return new WholeFile(named, null, Files.newOutputStream(named, StandardOpenOption.WRITE));
        }
        Path target = exists && Files.isSymbolicLink(named) ? named.toRealPath() : named;
        // Not createTempFile, whose files nobody else may read.
        Path temporary = target.resolveSibling("." + target.getFileName() + "." + UUID.randomUUID() + ".tmp");
        try {
            return new WholeFile(
                    target,
                    temporary,
                    Files.newOutputStream(temporary, StandardOpenOption.CREATE_NEW, StandardOpenOption.WRITE));
        } catch (AccessDeniedException denied) {
            AccessDeniedException plain = new AccessDeniedException(named.toString());
            plain.initCause(denied);
            throw plain;
        }
    }

    /** Writes a content, whole or not at all. */
    public static void write(Path target, Content content) throws IOException {
        try (WholeFile whole = begin(target)) {
            content.write(whole.out());
            whole.commit();
        }
    }

    /** Writes a text as UTF-8, whole or not at all. */
    public static void write(Path target, String text) throws IOException {
        write(target, out -> out.write(text.getBytes(StandardCharsets.UTF_8)));
    }

    /**
     * Writes a text as UTF-8 where there is no file yet.
     *
     * @throws java.nio.file.FileAlreadyExistsException where there is one; it stays
     */
    public static void writeNew(Path target, String text) throws IOException {
        try (WholeFile whole = begin(target)) {
            whole.out().write(text.getBytes(StandardCharsets.UTF_8));
            whole.finish();
            if (whole.temporary != null) {
                Files.move(whole.temporary, target);
            }
        }
    }

    /** Where to write. */
    public OutputStream out() {
        return out;
    }

    /** Puts the file in its place. */
    public void commit() throws IOException {
        finish();
        if (temporary == null) {
            return;
        }
        if (Files.exists(target)) {
            Replacing.keepPermissions(target, temporary);
        }
        Replacing.move(temporary, target);
    }

    private void finish() throws IOException {
        out.close();
        if (temporary != null) {
            // Not a channel, which an interrupted thread (a study that was stopped, with something to show) cannot
            // force.
            try (RandomAccessFile file = new RandomAccessFile(temporary.toFile(), "rw")) {
                file.getFD().sync();
            }
        }
    }

    /** Removes what was not put in its place. */
    @Override
    public void close() throws IOException {
        try {
            out.close();
        } finally {
            if (temporary != null) {
                Files.deleteIfExists(temporary);
            }
        }
    }
}
