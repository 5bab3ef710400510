package purgewright.gui.glyph;

import javafx.scene.control.TableCell;
import javafx.scene.control.Tooltip;

/** A cell of words whose whole text can be read by resting the pointer on it. */
public final class WordsCell<R> extends TableCell<R, String> {
    /** Letters from which a text may not fit its column. */
    private static final int LONG = 10;

    @Override
    protected void updateItem(String text, boolean empty) {
        super.updateItem(text, empty);
        setText(empty ? null : text);
        if (empty || text == null || text.length() < LONG) {
            setTooltip(null);
        } else {
            Tooltip tip = new Tooltip(text);
            tip.setWrapText(true);
            tip.setMaxWidth(460);
            setTooltip(tip);
        }
    }
}
