package purgewright.command;

import java.io.IOException;
import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import purgewright.figure.Figure;
import purgewright.figure.FigureExport;
import purgewright.figure.Lettering;
import purgewright.report.WholeFile;

/** What a file that is written will hold: its ending says so, and an ending that is not meant is refused before any work. */
final class OutputForm {
    private OutputForm() {}

    /** The ending, without its dot and in lower case: one of those allowed. For a drawing its letters are loaded, so that a partial answer can be drawn. */
    static String of(String option, Path file, String... allowed) {
        String name = file.getFileName() == null ? "" : file.getFileName().toString();
        String ending = name.substring(name.lastIndexOf('.') + 1).toLowerCase(Locale.ROOT);
        if (name.contains(".") && List.of(allowed).contains(ending)) {
            if (ending.equals("svg") || ending.equals("png")) {
                Lettering.prepare();
            }
            return ending;
        }
        int last = allowed.length - 1;
        String endings =
                (last == 0 ? "" : "." + String.join(", .", List.of(allowed).subList(0, last)) + " or ") + "."
                        + allowed[last];
        throw new InputProblem(
                "UNKNOWN_FORM",
                option + " " + file + ": the name must end with " + endings,
                "for instance result." + allowed[0]);
    }

    /** Draws into a file, whole or not at all. */
    static void draw(Figure figure, String form, Path file) throws IOException {
        try (WholeFile whole = WholeFile.begin(file)) {
            if (form.equals("svg")) {
                FigureExport.svg(figure, true, whole.out());
            } else {
                FigureExport.png(figure, 2, whole.out());
            }
            whole.commit();
        }
    }
}
