package purgewright.command;

import java.io.FileDescriptor;
import java.io.FileOutputStream;
import java.io.OutputStream;
import java.io.PrintWriter;
import java.io.Writer;
import java.nio.charset.Charset;
import java.nio.charset.StandardCharsets;

/**
 * Where a command writes: the result to {@code out}, everything else to {@code err}.
 *
 * @param out standard output; only the result goes here
 * @param err standard error
 * @param interactive true when a person watches standard error, so that progress makes sense
 */
public record Terminal(PrintWriter out, PrintWriter err, boolean interactive) {
    /** The process's own streams. UTF-8 unless a console says otherwise: files and pipes are the same everywhere. */
    public static Terminal system() {
        Charset charset = System.console() == null
                ? StandardCharsets.UTF_8
                : System.console().charset();
        return new Terminal(
                writer(FileDescriptor.out, charset), writer(FileDescriptor.err, charset), System.console() != null);
    }

    /** Writes nowhere. */
    public static Terminal silent() {
        return new Terminal(
                new PrintWriter(Writer.nullWriter()),
                new PrintWriter(OutputStream.nullOutputStream(), false, StandardCharsets.UTF_8),
                false);
    }

    private static PrintWriter writer(FileDescriptor descriptor, Charset charset) {
        return new PrintWriter(new FileOutputStream(descriptor), false, charset);
    }

    /** To be called once at the end; a command prints much and is read at once. */
    public void flush() {
        out.flush();
        err.flush();
    }
}
