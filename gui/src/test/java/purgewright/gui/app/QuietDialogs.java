package purgewright.gui.app;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/** Answers in place of a user. */
final class QuietDialogs implements Dialogs {
    final List<String> told = new ArrayList<>();
    Path open;
    Path save;
    Answer unsaved = Answer.DISCARD;

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
    public boolean confirm(String title, String text) {
        return true;
    }

    @Override
    public void tell(String title, List<String> paragraphs) {
        told.add(title);
        told.addAll(paragraphs);
    }
}
