package purgewright.sealflow.casefile;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.ByteBuffer;
import java.nio.channels.FileChannel;
import java.nio.charset.CharacterCodingException;
import java.nio.charset.StandardCharsets;
import java.nio.file.AccessDeniedException;
import java.nio.file.DirectoryStream;
import java.nio.file.FileSystemException;
import java.nio.file.Files;
import java.nio.file.LinkOption;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.nio.file.StandardOpenOption;
import java.nio.file.attribute.FileTime;
import java.time.Duration;
import java.time.Instant;
import java.util.List;
import java.util.UUID;

/**
 * Files of cases. At every moment of a save the file is the old or the new one, whole: the text goes to a temporary file beside
 * it, is forced to the disk, and takes the file's name in one step. The file as it was stays as {@code name~}.
 */
final class CaseFiles {
    /** Largest file read, bytes. */
    static final int LARGEST = 16 * 1024 * 1024;

    private static final String UNFINISHED = ".unfinished";

    private CaseFiles() {}

    /** @throws CaseException when the file is missing, unreadable, too large or no UTF-8 */
    static String read(Path file) {
        byte[] bytes;
        try {
            if (Files.isDirectory(file)) {
                throw problem("UNREADABLE", 0, 0, file + " is a folder", "name the case file in it");
            }
            try (InputStream in = Files.newInputStream(file)) {
                bytes = in.readNBytes(LARGEST + 1);
            }
        } catch (NoSuchFileException missing) {
            throw problem("NOT_FOUND", 0, 0, "there is no file " + file, "look at the folder and the spelling");
        } catch (AccessDeniedException denied) {
            throw problem("UNREADABLE", 0, 0, file + " may not be read by you", "look at the file's permissions");
        } catch (IOException broken) {
            throw problem("UNREADABLE", 0, 0, file + " cannot be read: " + reason(broken), "");
        }
        if (bytes.length > LARGEST) {
            throw problem(
                    "TOO_LARGE",
                    0,
                    0,
                    file + " is larger than 16 MB",
                    "is this a case file? Tables belong in CSV files");
        }
        return decode(bytes);
    }

    private static String decode(byte[] bytes) {
        try {
            return Utf8.decode(bytes);
        } catch (CharacterCodingException notUtf8) {
            // Everything before the first replacement character is sound; count lines up to there.
            String lenient = new String(bytes, StandardCharsets.UTF_8);
            int bad = Math.max(0, lenient.indexOf('\ufffd'));
            int line = 1
                    + (int) lenient.substring(0, bad)
                            .chars()
                            .filter(c -> c == '\n')
                            .count();
            int column = bad - lenient.lastIndexOf('\n', Math.max(0, bad - 1));
            throw problem("NOT_UTF8", line, Math.max(1, column), "this is not UTF-8 text", "save the file as UTF-8");
        }
    }

    /** @throws UncheckedIOException with nothing lost */
    static void save(String text, Path file) {
        Path target = target(file);
        Path folder = target.toAbsolutePath().getParent();
        if (folder == null || !Files.isDirectory(folder)) {
            throw failed(file, new NoSuchFileException(String.valueOf(folder)), "there is no folder " + folder);
        }
        boolean exists = Files.exists(target);
        if (Files.isDirectory(target)) {
            throw failed(file, new FileSystemException(target.toString()), "it is a folder");
        }
        if (exists && !Files.isWritable(target)) {
            throw failed(file, new AccessDeniedException(target.toString()), "it is write-protected");
        }
        String name = String.valueOf(target.getFileName());
        Path temporary = folder.resolve("." + name + "." + UUID.randomUUID() + UNFINISHED);
        try {
            removeOldLeftovers(folder, name);
            try (FileChannel out =
                    FileChannel.open(temporary, StandardOpenOption.CREATE_NEW, StandardOpenOption.WRITE)) {
                ByteBuffer bytes = ByteBuffer.wrap(text.getBytes(StandardCharsets.UTF_8));
                while (bytes.hasRemaining()) {
                    out.write(bytes);
                }
                out.force(true);
            }
            if (exists) {
                Replacing.keepPermissions(target, temporary);
                keepPrevious(target, folder, name);
            }
            Replacing.move(temporary, target);
            forceFolder(folder);
        } catch (AccessDeniedException denied) {
            throw failed(file, denied, "the folder " + folder + " may not be written to");
        } catch (IOException broken) {
            throw failed(file, broken, reason(broken));
        } finally {
            try {
                Files.deleteIfExists(temporary);
            } catch (IOException leftover) {
                // Only a leftover; a later save removes it.
            }
        }
    }

    /** Where a symbolic link leads, so that the link stays a link. */
    private static Path target(Path file) {
        try {
            return Files.isSymbolicLink(file) && Files.exists(file) ? file.toRealPath() : file;
        } catch (IOException broken) {
            throw failed(file, broken, reason(broken));
        }
    }

    /** A hard link where the file system has them (no moment without a file of that name), else a copy. */
    private static void keepPrevious(Path target, Path folder, String name) throws IOException {
        Path previous = folder.resolve(name + "~");
        if (Files.isDirectory(previous, LinkOption.NOFOLLOW_LINKS)) {
            throw new FileSystemException(previous + " is a folder where the previous copy should be");
        }
        Path link = folder.resolve("." + name + "." + UUID.randomUUID() + UNFINISHED);
        try {
            try {
                Files.createLink(link, target);
            } catch (UnsupportedOperationException | IOException noLinks) {
                Files.copy(target, link, StandardCopyOption.COPY_ATTRIBUTES);
            }
            Replacing.move(link, previous);
        } finally {
            Files.deleteIfExists(link);
        }
    }

    /** Makes the new name durable. Windows has no such thing; there the move itself is. */
    private static void forceFolder(Path folder) {
        try (FileChannel channel = FileChannel.open(folder, StandardOpenOption.READ)) {
            channel.force(true);
        } catch (IOException notHere) {
            // The file itself is already on the disk, under its old or its new name.
        }
    }

    /** Temporary files of saves that were killed, once nobody can still be writing them. */
    private static void removeOldLeftovers(Path folder, String name) throws IOException {
        Instant old = Instant.now().minus(Duration.ofHours(1));
        try (DirectoryStream<Path> siblings = Files.newDirectoryStream(folder, entry -> {
            String sibling = String.valueOf(entry.getFileName());
            return sibling.startsWith("." + name + ".") && sibling.endsWith(UNFINISHED);
        })) {
            for (Path sibling : siblings) {
                FileTime written = Files.getLastModifiedTime(sibling, LinkOption.NOFOLLOW_LINKS);
                if (written.toInstant().isBefore(old)) {
                    Files.deleteIfExists(sibling);
                }
            }
        }
    }

    private static String reason(IOException broken) {
        if (broken instanceof FileSystemException system && system.getReason() != null) {
            return system.getReason();
        }
        return broken.getMessage() == null ? broken.getClass().getSimpleName() : broken.getMessage();
    }

    private static UncheckedIOException failed(Path file, IOException cause, String why) {
        return new UncheckedIOException("cannot save " + file + ": " + why, cause);
    }

    private static CaseException problem(String key, int line, int column, String message, String suggestion) {
        return new CaseException(List.of(new CaseProblem(key, "", line, column, message, suggestion)));
    }
}
