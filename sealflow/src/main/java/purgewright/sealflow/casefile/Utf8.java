package purgewright.sealflow.casefile;

import java.io.IOException;
import java.io.InputStream;
import java.nio.ByteBuffer;
import java.nio.charset.CharacterCodingException;
import java.nio.charset.CharsetDecoder;
import java.nio.charset.CodingErrorAction;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;

/**
 * Text of files that others wrote: UTF-8 or refused. A reader that puts a replacement character where a byte makes no sense changes a name
 * in silence.
 */
public final class Utf8 {
    private Utf8() {}

    /** A decoder that refuses what is no UTF-8 by a {@link CharacterCodingException}. */
    public static CharsetDecoder strict() {
        return StandardCharsets.UTF_8
                .newDecoder()
                .onMalformedInput(CodingErrorAction.REPORT)
                .onUnmappableCharacter(CodingErrorAction.REPORT);
    }

    /** The text of bytes. @throws CharacterCodingException when they are no UTF-8 */
    public static String decode(byte[] bytes) throws CharacterCodingException {
        return strict().decode(ByteBuffer.wrap(bytes)).toString();
    }

    /**
     * A file's text, without a mark of the byte order at its begin.
     *
     * @param most bytes
     * @throws IOException with one sentence, when it cannot be read, is larger, or no UTF-8
     */
    public static String read(Path file, int most) throws IOException {
        byte[] bytes;
        try (InputStream in = Files.newInputStream(file)) {
            bytes = in.readNBytes(most + 1);
        }
        if (bytes.length > most) {
            throw new IOException(file + " is larger than " + most / 1_000_000 + " MB");
        }
        try {
            String text = decode(bytes);
            return text.startsWith("\uFEFF") ? text.substring(1) : text;
        } catch (CharacterCodingException notUtf8) {
            throw new IOException(file + " is no UTF-8 text", notUtf8);
        }
    }
}
