package purgewright.gui.app;

import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import purgewright.hazard.finding.Waiver;

/** What the window asks its user; tests answer in place of dialogs. */
interface Dialogs {
    /** A file to open. */
    Optional<Path> openFile(Path folder);

    /** A file to write, with an ending such as {@code json}. */
    Optional<Path> saveFile(Path suggested, String ending);

    /** What to do with unsaved work. */
    Answer unsaved(String title);

    /** Who accepts a finding, and why; empty when given up. */
    Optional<Waiver> waiver(String finding, String by);

    /** Yes or no. */
    boolean confirm(String title, String text);

    /** Tells something. */
    void tell(String title, List<String> paragraphs);

    /** Answers to {@link #unsaved}. */
    enum Answer {
        SAVE,
        DISCARD,
        CANCEL
    }
}
