package purgewright.gui.edit;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.util.Optional;
import purgewright.sealflow.casefile.CaseDocument;
import purgewright.sealflow.casefile.CaseException;

/** Keeps unsaved work so that it survives a kill: the case in one file, the name of the file it came from in another. */
public final class Recovery {
    private final Path kept;
    private final Path origin;

    /** Unsaved work goes into this folder. */
    public Recovery(Path folder) {
        this.kept = folder.resolve("unsaved.json");
        this.origin = folder.resolve("unsaved.origin");
    }

    /**
     * Unsaved work found.
     *
     * @param document as it stood
     * @param file where it had been opened from, or null
     */
    public record Unsaved(CaseDocument document, Path file) {}

    /** Keeps a document; false where the folder cannot be written. */
    public boolean keep(CaseDocument document, Path file) {
        try {
            Files.createDirectories(kept.getParent());
            Path temp = kept.resolveSibling("unsaved.tmp");
            Files.writeString(temp, document.toJson(), StandardCharsets.UTF_8);
            Files.writeString(origin, file == null ? "" : file.toString(), StandardCharsets.UTF_8);
            Files.move(temp, kept, StandardCopyOption.REPLACE_EXISTING);
            return true;
        } catch (IOException e) {
            return false;
        }
    }

    /** Forgets what was kept: the work is saved or given up. */
    public void forget() {
        try {
            Files.deleteIfExists(kept);
            Files.deleteIfExists(origin);
        } catch (IOException e) {
            kept.toFile().deleteOnExit();
        }
    }

    /** Work that an earlier window left behind. */
    public Optional<Unsaved> find() {
        try {
            if (!Files.isReadable(kept)) {
                return Optional.empty();
            }
            CaseDocument document = CaseDocument.parse(Files.readString(kept, StandardCharsets.UTF_8));
            String from = Files.isReadable(origin) ? Files.readString(origin, StandardCharsets.UTF_8) : "";
            return Optional.of(new Unsaved(document, from.isEmpty() ? null : Path.of(from)));
        } catch (IOException | CaseException e) {
            return Optional.empty();
        }
    }
}
