package purgewright.gui.app;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import javafx.application.Platform;
import javafx.beans.value.ChangeListener;
import javafx.beans.value.ObservableBooleanValue;
import purgewright.hazard.finding.Waiver;

/** Answers in place of a user. */
final class QuietDialogs implements Dialogs {
    final List<String> told = new ArrayList<>();
    Path open;
    Path save;
    Waiver waiver;
    Answer unsaved = Answer.DISCARD;
    /** Answers whoever would wait; null waits. */
    Wait wait;

    boolean yes = true;

    @Override
    public Optional<Path> openFile(Path folder) {
        return Optional.ofNullable(open);
    }

    @Override
    public Optional<Path> saveFile(Path suggested, String ending) {
        return Optional.ofNullable(save);
    }

    @Override
    public Answer unsaved(String title) {
        return unsaved;
    }

    @Override
    public Wait await(String title, List<String> paragraphs, ObservableBooleanValue busy) {
        told.addAll(paragraphs);
        if (wait != null) {
            return wait;
        }
        Object loop = new Object();
        boolean[] left = {false};
        ChangeListener<Boolean> end = (o, a, now) -> {
            if (!now && !left[0]) {
                left[0] = true;
                Platform.exitNestedEventLoop(loop, null);
            }
        };
        busy.addListener(end);
        Platform.enterNestedEventLoop(loop);
        busy.removeListener(end);
        return Wait.ENDED;
    }

    @Override
    public Optional<Waiver> waiver(String finding, String by) {
        return Optional.ofNullable(waiver);
    }

    @Override
    public boolean confirm(String title, String text) {
        told.add(text);
        return yes;
    }

    @Override
    public void tell(String title, List<String> paragraphs) {
        told.add(title);
        told.addAll(paragraphs);
    }
}
