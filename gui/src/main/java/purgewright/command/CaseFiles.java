package purgewright.command;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import purgewright.fluids.unit.DidYouMean;
import purgewright.hazard.service.CaseService;
import purgewright.report.EmbeddedCase;
import purgewright.report.WholeFile;
import purgewright.sealflow.casefile.CaseDocument;
import purgewright.sealflow.model.Cavity;
import purgewright.sealflow.model.DutyPhase;

/** Opens what was named on the command line. */
final class CaseFiles {
    private CaseFiles() {}

    /** The document, also the one inside a report; messages of a file that is not there name it as typed. */
    static CaseDocument read(Path file) {
        if (!Files.exists(file)) {
            throw new InputProblem(
                    "FILE", "no such file: " + file, "purgewright new " + file + " writes a starter case");
        }
        if (!Files.isRegularFile(file) && Files.isDirectory(file)) {
            throw new InputProblem("FILE", "a folder, not a case file: " + file, "");
        }
        if (EmbeddedCase.isReport(file)) {
            try {
                return CaseDocument.parse(EmbeddedCase.read(file));
            } catch (IOException e) {
                throw new InputProblem(
                        "FILE", e.getMessage(), "a report written as pdf or html by this program holds its case");
            }
        }
        return CaseDocument.read(file);
    }

    /** Refuses, before any work, a file that cannot be written, and to write over the case itself. */
    static void requireOther(Path file, Path written) throws IOException {
        WholeFile.check(written);
        if (Files.exists(written) && Files.isSameFile(file, written)) {
            throw new InputProblem("FILE", "that would replace the case itself: " + written, "another file");
        }
    }

    /** Refuses a cavity that the case does not have. */
    static void requireCavity(CaseDocument document, String cavity) {
        List<String> known =
                document.toCase().cavities().stream().map(Cavity::name).toList();
        if (!known.contains(cavity)) {
            throw new InputProblem(
                    "UNKNOWN_CAVITY",
                    "the case has no cavity \"" + cavity + "\"",
                    DidYouMean.nearest(cavity, known)
                            .map(n -> "did you mean \"" + n + "\"?")
                            .orElse("one of " + String.join(", ", known)));
        }
    }

    /** Refuses a phase that the duty does not have. */
    static void requirePhases(CaseDocument document, List<String> phases) {
        List<String> known =
                document.toCase().duty().stream().map(DutyPhase::name).toList();
        for (String phase : phases) {
            if (!known.contains(phase) && !(known.isEmpty() && phase.equals(CaseService.STEADY))) {
                throw new InputProblem(
                        "UNKNOWN_PHASE",
                        "the case has no phase \"" + phase + "\"",
                        known.isEmpty()
                                ? "it has no duty: the one phase is \"" + CaseService.STEADY + "\""
                                : "one of " + String.join(", ", known));
            }
        }
    }
}
