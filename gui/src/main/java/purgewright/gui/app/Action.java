package purgewright.gui.app;

import javafx.beans.value.ObservableBooleanValue;
import purgewright.gui.text.Texts;

/**
 * Something a user can do, declared once: menu, toolbar and keyboard all come from it.
 *
 * @param id text keys are {@code action.<id>} and {@code action.<id>.tip}
 * @param menu key of the menu it stands in
 * @param icon code of the icon pack; empty for none
 * @param keys accelerator, empty for none
 * @param enabled when it can be done; null for always
 * @param run does it
 */
record Action(String id, String menu, String icon, String keys, ObservableBooleanValue enabled, Runnable run) {
    String text() {
        return Texts.of("action." + id);
    }

    String tip() {
        String key = "action." + id + ".tip";
        String tip = Texts.has(key) ? Texts.of(key) : text();
        return keys.isEmpty() ? tip : tip + "  (" + keys.replace("Shortcut", "Ctrl") + ")";
    }
}
