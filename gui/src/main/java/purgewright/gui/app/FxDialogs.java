package purgewright.gui.app;

import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import javafx.animation.PauseTransition;
import javafx.application.Platform;
import javafx.beans.binding.Bindings;
import javafx.beans.value.ChangeListener;
import javafx.beans.value.ObservableBooleanValue;
import javafx.scene.control.Alert;
import javafx.scene.control.Button;
import javafx.scene.control.ButtonBar;
import javafx.scene.control.ButtonType;
import javafx.scene.control.Label;
import javafx.scene.control.ProgressIndicator;
import javafx.scene.control.TextArea;
import javafx.scene.control.TextField;
import javafx.scene.layout.GridPane;
import javafx.scene.layout.VBox;
import javafx.stage.FileChooser;
import javafx.stage.Stage;
import javafx.util.Duration;
import purgewright.gui.text.Texts;
import purgewright.hazard.finding.Waiver;

/** Dialogs of the toolkit. */
final class FxDialogs implements Dialogs {
    private final Stage stage;

    FxDialogs(Stage stage) {
        this.stage = stage;
    }

    /** A dialog is a scene of its own: it takes the window's theme and the size of its text along. */
    private void dress(Alert alert) {
        alert.initOwner(stage);
        alert.setGraphic(null);
        alert.getDialogPane().setStyle(stage.getScene().getRoot().getStyle());
        for (String style : stage.getScene().getRoot().getStyleClass()) {
            if (style.equals("purgewright") || style.startsWith("theme-")) {
                alert.getDialogPane().getStyleClass().add(style);
            }
        }
    }

    private static FileChooser chooser(Path folder, String ending) {
        FileChooser chooser = new FileChooser();
        chooser.getExtensionFilters()
                .addAll(
                        new FileChooser.ExtensionFilter(
                                Texts.of("dialog.files", ending.toUpperCase(Locale.ROOT)), "*." + ending),
                        new FileChooser.ExtensionFilter(Texts.of("dialog.allfiles"), "*"));
        if (folder != null && Files.isDirectory(folder)) {
            chooser.setInitialDirectory(folder.toFile());
        }
        return chooser;
    }

    @Override
    public Optional<Path> openFile(Path folder) {
        FileChooser chooser = chooser(folder, "json");
        chooser.getExtensionFilters()
                .set(0, new FileChooser.ExtensionFilter(Texts.of("dialog.cases"), "*.json", "*.pdf", "*.html"));
        var file = chooser.showOpenDialog(stage);
        return Optional.ofNullable(file).map(java.io.File::toPath);
    }

    @Override
    public Optional<Path> saveFile(Path suggested, String ending) {
        FileChooser chooser = chooser(suggested.toAbsolutePath().getParent(), ending);
        chooser.setInitialFileName(String.valueOf(suggested.getFileName()));
        var file = chooser.showSaveDialog(stage);
        return Optional.ofNullable(file).map(java.io.File::toPath);
    }

    @Override
    public Answer unsaved(String title) {
        ButtonType save = new ButtonType(Texts.of("dialog.save"), ButtonBar.ButtonData.YES);
        ButtonType discard = new ButtonType(Texts.of("dialog.discard"), ButtonBar.ButtonData.NO);
        ButtonType cancel = new ButtonType(Texts.of("dialog.cancel"), ButtonBar.ButtonData.CANCEL_CLOSE);
        Alert alert = new Alert(Alert.AlertType.CONFIRMATION, Texts.of("dialog.unsaved", title), save, discard, cancel);
        alert.setHeaderText(null);
        dress(alert);
        Optional<ButtonType> answer = alert.showAndWait();
        if (answer.isEmpty() || answer.get() == cancel) {
            return Answer.CANCEL;
        }
        return answer.get() == save ? Answer.SAVE : Answer.DISCARD;
    }

    @Override
    public Wait await(String title, List<String> paragraphs, ObservableBooleanValue busy) {
        // Most disks answer at once; a dialog that comes and goes would only startle.
        if (endsWithin(Duration.millis(300), busy)) {
            return Wait.ENDED;
        }
        ButtonType leave = new ButtonType(Texts.of("wait.leave"), ButtonBar.ButtonData.NO);
        ButtonType back = new ButtonType(Texts.of("wait.back"), ButtonBar.ButtonData.CANCEL_CLOSE);
        Alert alert = new Alert(Alert.AlertType.NONE, "", leave, back);
        alert.setTitle(title);
        VBox box = told(title, paragraphs);
        ProgressIndicator working = new ProgressIndicator();
        working.getStyleClass().add("working");
        box.getChildren().add(working);
        alert.getDialogPane().setContent(box);
        // Enter, pressed in the middle of typing, must not leave.
        ((Button) alert.getDialogPane().lookupButton(leave)).setDefaultButton(false);
        ((Button) alert.getDialogPane().lookupButton(back)).setDefaultButton(true);
        dress(alert);
        ButtonType ended = new ButtonType("");
        ChangeListener<Boolean> end = (o, a, now) -> {
            if (!now) {
                alert.setResult(ended);
            }
        };
        busy.addListener(end);
        try {
            Optional<ButtonType> answer = busy.get() ? alert.showAndWait() : Optional.of(ended);
            return answer.filter(b -> b == ended).isPresent()
                    ? Wait.ENDED
                    : answer.filter(b -> b == leave).isPresent() ? Wait.LEAVE : Wait.BACK;
        } finally {
            busy.removeListener(end);
        }
    }

    /** Lets the window's thread go on for a moment; true when it ended meanwhile. */
    private static boolean endsWithin(Duration moment, ObservableBooleanValue busy) {
        Object loop = new Object();
        PauseTransition pause = new PauseTransition(moment);
        ChangeListener<Boolean> end = (o, a, now) -> {
            if (!now) {
                pause.jumpTo(moment);
            }
        };
        pause.setOnFinished(e -> Platform.exitNestedEventLoop(loop, null));
        busy.addListener(end);
        pause.play();
        Platform.enterNestedEventLoop(loop);
        busy.removeListener(end);
        return !busy.get();
    }

    @Override
    public Optional<Waiver> waiver(String finding, String by) {
        TextField name = new TextField(by);
        TextField date = new TextField(LocalDate.now().toString());
        TextArea reason = new TextArea();
        reason.setPrefRowCount(4);
        reason.setPrefColumnCount(34);
        reason.setWrapText(true);
        GridPane grid = new GridPane();
        grid.setHgap(10);
        grid.setVgap(8);
        Label what = new Label(finding);
        what.setWrapText(true);
        what.setMaxWidth(460);
        grid.add(what, 0, 0, 2, 1);
        String[] keys = {"waiver.by", "waiver.date", "waiver.reason"};
        javafx.scene.control.Control[] inputs = {name, date, reason};
        for (int i = 0; i < keys.length; i++) {
            Label label = new Label(Texts.of(keys[i]));
            label.setLabelFor(inputs[i]);
            inputs[i].setAccessibleText(Texts.of(keys[i]));
            grid.addRow(i + 1, label, inputs[i]);
        }
        Label stands = new Label(Texts.of("waiver.stands"));
        stands.setWrapText(true);
        stands.setMaxWidth(460);
        grid.add(stands, 0, 4, 2, 1);
        ButtonType give = new ButtonType(Texts.of("waiver.give"), ButtonBar.ButtonData.OK_DONE);
        ButtonType cancel = new ButtonType(Texts.of("dialog.cancel"), ButtonBar.ButtonData.CANCEL_CLOSE);
        Alert alert = new Alert(Alert.AlertType.NONE, "", give, cancel);
        alert.setTitle(Texts.of("waiver.title"));
        alert.getDialogPane().setContent(grid);
        alert.getDialogPane()
                .lookupButton(give)
                .disableProperty()
                .bind(Bindings.createBooleanBinding(
                        () -> !new Waiver(name.getText(), date.getText(), reason.getText()).whole(),
                        name.textProperty(),
                        date.textProperty(),
                        reason.textProperty()));
        dress(alert);
        return alert.showAndWait()
                .filter(b -> b == give)
                .map(b -> new Waiver(
                        name.getText().strip(),
                        date.getText().strip(),
                        reason.getText().strip()));
    }

    @Override
    public boolean confirm(String title, String text) {
        Alert alert = new Alert(Alert.AlertType.CONFIRMATION, text, ButtonType.YES, ButtonType.NO);
        alert.setHeaderText(title);
        dress(alert);
        return alert.showAndWait().filter(b -> b == ButtonType.YES).isPresent();
    }

    @Override
    public void tell(String title, List<String> paragraphs) {
        Alert alert = new Alert(Alert.AlertType.NONE, "", ButtonType.OK);
        alert.setTitle(title);
        alert.getDialogPane().setContent(told(title, paragraphs));
        dress(alert);
        alert.showAndWait();
    }

    private static VBox told(String title, List<String> paragraphs) {
        VBox box = new VBox();
        box.getStyleClass().add("told");
        Label head = new Label(title);
        head.getStyleClass().add("details-title");
        box.getChildren().add(head);
        for (String paragraph : paragraphs) {
            Label label = new Label(paragraph);
            label.setWrapText(true);
            label.setMaxWidth(520);
            box.getChildren().add(label);
        }
        return box;
    }
}
