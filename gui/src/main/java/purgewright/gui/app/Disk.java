package purgewright.gui.app;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import purgewright.report.WholeFile;
import purgewright.sealflow.casefile.CaseDocument;
import purgewright.sealflow.casefile.CaseException;

/** What the window does to a user's files, never on its own thread. Tests put a slow, a silent or a broken one in its place. */
interface Disk {
    /** Saves a case: the file is the old or the new one, whole. */
    default void save(CaseDocument document, Path file) throws IOException {
        document.save(file);
    }

    /** Writes a drawing or a table, whole or not at all. */
    default void write(Path file, WholeFile.Content content) throws IOException {
        WholeFile.write(file, content);
    }

    /** True when there is a file and it does not hold the case of that hash. */
    default boolean differs(Path file, String hash) {
        if (!Files.exists(file)) {
            return false;
        }
        try {
            return !CaseDocument.read(file).hash().equals(hash);
        } catch (CaseException notACaseAnyMore) {
            return true;
        }
    }
}
