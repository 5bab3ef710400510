package purgewright.gui.glyph;

import javafx.scene.control.Label;
import javafx.scene.layout.HBox;
import javafx.scene.layout.Priority;
import javafx.scene.layout.VBox;
import purgewright.hazard.finding.Finding;

/** One finding as a card: the mark of its verdict, what it says, and below that its waiver if it has one. */
public final class FindingCard extends HBox {
    private static final double MARK = 12;

    private final Label what;

    /** @param text what the finding says */
    public FindingCard(Finding finding, String text) {
        what = new Label(text);
        what.setWrapText(true);
        VBox words = new VBox(what);
        if (finding.waiver() != null) {
            Label waiver = new Label(finding.waiver().text());
            waiver.setWrapText(true);
            waiver.getStyleClass().add("quiet");
            words.getChildren().add(waiver);
        }
        HBox.setHgrow(words, Priority.ALWAYS);
        getChildren().addAll(Shapes.mark(finding.verdict(), MARK), words);
        getStyleClass().add("finding-card");
    }

    /** The label of the text, for a tip. */
    public Label what() {
        return what;
    }
}
