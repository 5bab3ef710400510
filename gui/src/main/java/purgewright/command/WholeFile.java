package purgewright.command;

import java.io.IOException;
import java.io.OutputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;

/** A file that is there whole or not at all: a sibling is written and renamed at the end. */
final class WholeFile implements AutoCloseable {
    private final Path target;
    private final Path temporary;
    private final OutputStream out;

    private WholeFile(Path target, Path temporary, OutputStream out) {
        this.target = target;
        this.temporary = temporary;
        this.out = out;
    }

    /** Starts a file. Not createTempFile, whose files nobody else may read. */
    static WholeFile begin(Path target) throws IOException {
        Path temporary = target.resolveSibling(
                "." + target.getFileName() + "." + ProcessHandle.current().pid() + ".tmp");
        return new WholeFile(target, temporary, Files.newOutputStream(temporary));
    }

    /** Writes a text as UTF-8, whole or not at all. */
    static void write(Path target, String text) throws IOException {
        try (WholeFile whole = begin(target)) {
            whole.out().write(text.getBytes(StandardCharsets.UTF_8));
            whole.commit();
        }
    }

    /** Where to write. */
    OutputStream out() {
        return out;
    }

    /** Puts the file in its place. */
    void commit() throws IOException {
        out.close();
        Files.move(temporary, target, StandardCopyOption.REPLACE_EXISTING);
    }

    /** Removes what was not put in its place. */
    @Override
    public void close() throws IOException {
        out.close();
        Files.deleteIfExists(temporary);
    }
}
