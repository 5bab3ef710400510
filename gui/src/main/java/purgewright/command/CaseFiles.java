package purgewright.command;

import java.nio.file.Files;
import java.nio.file.Path;
import purgewright.sealflow.casefile.CaseDocument;

/** Opens what was named on the command line. */
final class CaseFiles {
    private CaseFiles() {}

    /** The document; messages of a file that is not there name it as typed. */
    static CaseDocument read(Path file) {
        if (!Files.exists(file)) {
            throw new InputProblem(
                    "FILE", "no such file: " + file, "purgewright new " + file + " writes a starter case");
        }
        if (!Files.isRegularFile(file) && Files.isDirectory(file)) {
            throw new InputProblem("FILE", "a folder, not a case file: " + file, "");
        }
        return CaseDocument.read(file);
    }
}
