package purgewright.gui.app;

import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import javafx.beans.value.ObservableBooleanValue;
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

    /** Waits for what is being written; the answer comes by itself when that ends. */
    Wait await(String title, List<String> paragraphs, ObservableBooleanValue busy);

    /** Answers to {@link #await}. */
    enum Wait {
        ENDED,
        /** Back to the window: nothing is left. */
        BACK,
        /** Leaves without waiting any longer. */
        LEAVE
    }

    /** Answers to {@link #unsaved}. */
    enum Answer {
        SAVE,
        DISCARD,
        CANCEL
    }
}
