package purgewright.gui.details;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import javafx.animation.PauseTransition;
import javafx.beans.InvalidationListener;
import javafx.collections.ListChangeListener;
import javafx.css.PseudoClass;
import javafx.geometry.HPos;
import javafx.scene.Node;
import javafx.scene.control.ComboBox;
import javafx.scene.control.Hyperlink;
import javafx.scene.control.Label;
import javafx.scene.control.ScrollPane;
import javafx.scene.control.Slider;
import javafx.scene.control.TextField;
import javafx.scene.control.Tooltip;
import javafx.scene.input.KeyCode;
import javafx.scene.input.KeyCombination;
import javafx.scene.input.KeyEvent;
import javafx.scene.layout.ColumnConstraints;
import javafx.scene.layout.GridPane;
import javafx.scene.layout.HBox;
import javafx.scene.layout.Priority;
import javafx.scene.layout.VBox;
import javafx.util.Duration;
import purgewright.gui.glyph.FindingCard;
import purgewright.gui.text.Texts;
import purgewright.hazard.finding.Finding;
import purgewright.sealflow.casefile.CaseForm;

/** The details panel. */
public final class DetailsView extends ScrollPane {
    private static final PseudoClass WRONG = PseudoClass.getPseudoClass("wrong");
    /** As soon as no further key comes at once: the answer is wanted within a tenth of a second. */
    private static final Duration AFTER_LAST_KEY = Duration.millis(10);
    /** Half a unit typed is no mistake yet. */
    private static final Duration UNTIL_MARKED = Duration.millis(500);

    private static final KeyCombination UNDO = KeyCombination.valueOf("Shortcut+Z");
    private static final List<KeyCombination> REDO =
            List.of(KeyCombination.valueOf("Shortcut+Y"), KeyCombination.valueOf("Shortcut+Shift+Z"));

    private final DetailsModel model;
    private final VBox fieldBox = new VBox();
    private final GridPane stateGrid = grid();
    private final GridPane balanceGrid = grid();
    private final GridPane priceGrid = grid();
    private final VBox findingBox = new VBox();
    private final Label stateTitle = heading("details.state");
    private final Label balanceTitle = heading("details.balance");
    private final Label priceTitle = heading("details.price");

    /** Size of the text from which a field stands below its name, not beside it. */
    private static final double STACKED = 1.35;

    private boolean stacked;
    /** Kinds of place whose further values are folded out; kept while the window is open. */
    private final Set<String> unfolded = new HashSet<>();

    /**
     * A view of the model.
     *
     * @param head shown above all: the way to other places, and what can be done with this one
     */
    public DetailsView(DetailsModel model, Node head) {
        this.model = model;
        getStyleClass().add("details");
        setFitToWidth(true);
        setHbarPolicy(ScrollBarPolicy.NEVER);
        Label title = new Label();
        title.getStyleClass().add("details-title");
        title.setWrapText(true);
        title.textProperty().bind(model.titleProperty());
        Label subtitle = new Label();
        subtitle.getStyleClass().add("quiet");
        subtitle.setWrapText(true);
        subtitle.textProperty().bind(model.subtitleProperty());
        fieldBox.getStyleClass().add("fields");
        findingBox.getStyleClass().add("finding-cards");
        VBox content = new VBox(
                head,
                title,
                subtitle,
                findingBox,
                heading("details.fields"),
                fieldBox,
                stateTitle,
                stateGrid,
                balanceTitle,
                balanceGrid,
                priceTitle,
                priceGrid);
        content.getStyleClass().add("details-content");
        setContent(content);
        model.fields().addListener((ListChangeListener<FieldModel>) c -> fields());
        InvalidationListener rows = o -> rows();
        model.state().addListener(rows);
        model.balance().addListener(rows);
        model.price().addListener(rows);
        model.findings().addListener(rows);
        fields();
        rows();
    }

    /** Large text leaves no room for a field beside its name. */
    public void lettering(double larger) {
        if (stacked != (larger >= STACKED)) {
            stacked = !stacked;
            fields();
        }
    }

    private static GridPane grid() {
        GridPane grid = new GridPane();
        grid.getStyleClass().add("value-grid");
        ColumnConstraints left = new ColumnConstraints();
        left.setHgrow(Priority.ALWAYS);
        ColumnConstraints right = new ColumnConstraints();
        right.setHalignment(HPos.RIGHT);
        right.setMinWidth(javafx.scene.layout.Region.USE_PREF_SIZE);
        grid.getColumnConstraints().addAll(left, right);
        return grid;
    }

    private static Label heading(String key) {
        Label label = new Label(Texts.of(key));
        label.getStyleClass().add("heading");
        return label;
    }

    private void rows() {
        fill(stateGrid, stateTitle, model.state());
        fill(balanceGrid, balanceTitle, model.balance());
        fill(priceGrid, priceTitle, model.price());
        findingBox.getChildren().clear();
        for (Finding finding : model.findings()) {
            findingBox.getChildren().add(new FindingCard(finding, finding.what()));
        }
    }

    private static void fill(GridPane grid, Label title, List<DetailsModel.Row> rows) {
        grid.getChildren().clear();
        boolean some = !rows.isEmpty();
        title.setVisible(some);
        title.setManaged(some);
        for (int i = 0; i < rows.size(); i++) {
            Label label = new Label(rows.get(i).label());
            label.getStyleClass().add("quiet");
            label.setWrapText(true);
            Label value = new Label(rows.get(i).value());
            value.getStyleClass().add("value");
            if (!rows.get(i).tip().isEmpty()) {
                Tooltip tip = new Tooltip(rows.get(i).tip());
                tip.setWrapText(true);
                tip.setMaxWidth(420);
                label.setTooltip(tip);
                value.setTooltip(tip);
            }
            grid.addRow(i, label, value);
        }
    }

    private void fields() {
        fieldBox.getChildren().clear();
        List<FieldModel> rest = new ArrayList<>();
        for (FieldModel field : model.fields()) {
            FieldSpec spec = field.spec();
            boolean first = spec.required()
                    || spec.slider()
                    || spec.kind() == CaseForm.Kind.ENTRIES
                    || !field.textProperty().get().isEmpty();
            if (first) {
                fieldBox.getChildren().add(row(field));
            } else {
                rest.add(field);
            }
        }
        if (fieldBox.getChildren().isEmpty() || rest.size() < 4) {
            rest.forEach(field -> fieldBox.getChildren().add(row(field)));
            return;
        }
        VBox more = new VBox();
        more.getStyleClass().add("fields");
        rest.forEach(field -> more.getChildren().add(row(field)));
        String kind = model.kind();
        Hyperlink fold = new Hyperlink();
        fold.setId("more");
        fold.getStyleClass().add("fold");
        Runnable shape = () -> {
            boolean open = unfolded.contains(kind);
            more.setVisible(open);
            more.setManaged(open);
            fold.setText(Texts.of(open ? "details.fewer" : "details.more", Integer.toString(rest.size())));
        };
        fold.setOnAction(e -> {
            if (!unfolded.remove(kind)) {
                unfolded.add(kind);
            }
            shape.run();
        });
        shape.run();
        fieldBox.getChildren().addAll(fold, more);
    }

    private Node row(FieldModel field) {
        FieldSpec spec = field.spec();
        Label label = new Label(spec.label());
        label.getStyleClass().add("field-label");
        Node editor = spec.choices().isEmpty() ? text(field) : choice(field);
        label.setLabelFor(editor);
        Label conversion = new Label();
        conversion.getStyleClass().add("conversion");
        conversion.textProperty().bind(field.conversionProperty());
        conversion.visibleProperty().bind(field.conversionProperty().isNotEmpty());
        conversion.managedProperty().bind(conversion.visibleProperty());
        HBox line = stacked ? new HBox(editor, conversion) : new HBox(label, editor, conversion);
        line.getStyleClass().add("field-line");
        HBox.setHgrow(editor, Priority.ALWAYS);
        Label problem = new Label();
        problem.getStyleClass().add("problem");
        problem.setWrapText(true);
        problem.textProperty().bind(field.problemProperty());
        problem.visibleProperty().bind(field.problemProperty().isNotEmpty());
        problem.managedProperty().bind(problem.visibleProperty());
        VBox row = new VBox(line, problem);
        if (spec.slider()) {
            row.getChildren().add(1, slider(field));
        }
        if (stacked) {
            label.getStyleClass().add("stacked");
            row.getChildren().add(0, label);
        }
        if (!spec.hint().isEmpty()) {
            Tooltip tip = new Tooltip(
                    spec.fallback().isEmpty() ? spec.hint() : Texts.of("details.hint", spec.hint(), spec.fallback()));
            tip.setWrapText(true);
            tip.setMaxWidth(380);
            Tooltip.install(row, tip);
            editor.setAccessibleHelp(spec.hint());
        }
        return row;
    }

    private TextField text(FieldModel field) {
        TextField input = new TextField();
        input.setId("field:" + field.spec().path());
        input.setPromptText(
                field.spec().kind() == CaseForm.Kind.ENTRIES
                        ? Texts.of("details.entryprompt")
                        : field.spec().fallback());
        input.textProperty().bindBidirectional(field.textProperty());
        input.setAccessibleText(field.spec().label());
        field.problemProperty().addListener((o, a, problem) -> {
            input.pseudoClassStateChanged(WRONG, !problem.isEmpty());
            input.setAccessibleHelp(problem.isEmpty() ? field.spec().hint() : problem);
        });
        PauseTransition attempt = new PauseTransition(AFTER_LAST_KEY);
        boolean entries = field.spec().kind() == CaseForm.Kind.ENTRIES;
        attempt.setOnFinished(e -> {
            if (!entries) { // an entry is whole only when it is said to be
                field.attempt();
            }
        });
        PauseTransition pause = new PauseTransition(UNTIL_MARKED);
        pause.setOnFinished(e -> field.commit(true));
        input.textProperty().addListener((o, a, b) -> {
            if (input.isFocused()) {
                attempt.playFromStart();
                pause.playFromStart();
            }
        });
        input.setOnAction(e -> {
            attempt.stop();
            pause.stop();
            field.commit(true);
            model.settle();
        });
        input.setOnKeyPressed(e -> {
            if (e.getCode() == KeyCode.ESCAPE) {
                attempt.stop();
                pause.stop();
                field.revert();
                e.consume();
            }
        });
        // Before the field's own undo, which would go back letter by letter through texts that mean nothing.
        input.addEventFilter(KeyEvent.KEY_PRESSED, e -> {
            boolean back = UNDO.match(e);
            if (back || REDO.stream().anyMatch(keys -> keys.match(e))) {
                attempt.stop();
                pause.stop();
                if (back) {
                    field.undo();
                } else {
                    field.redo();
                }
                e.consume();
            }
        });
        input.focusedProperty().addListener((o, a, focused) -> {
            if (!focused) {
                attempt.stop();
                pause.stop();
                field.commit(true);
                model.settle();
            }
        });
        return input;
    }

    private ComboBox<String> choice(FieldModel field) {
        ComboBox<String> input = new ComboBox<>();
        input.setId("field:" + field.spec().path());
        input.getItems().setAll(field.spec().choices());
        input.setMaxWidth(Double.MAX_VALUE);
        input.setPromptText(field.spec().fallback());
        input.setAccessibleText(field.spec().label());
        input.setValue(field.textProperty().get());
        field.textProperty().addListener((o, a, text) -> input.setValue(text));
        input.valueProperty().addListener((o, a, value) -> {
            if (value != null && !value.equals(field.textProperty().get())) {
                field.textProperty().set(value);
                model.force(field);
            }
        });
        return input;
    }

    /** From a quarter to four times what stands there when dragging begins. */
    private Slider slider(FieldModel field) {
        Slider slider = new Slider(-1, 1, 0);
        slider.setId("slider:" + field.spec().path());
        slider.setAccessibleText(Texts.of("details.try", field.spec().label()));
        slider.setTooltip(new Tooltip(Texts.of("details.try", field.spec().label())));
        slider.setBlockIncrement(0.05);
        slider.visibleProperty().bind(field.textProperty().isNotEmpty());
        slider.managedProperty().bind(slider.visibleProperty());
        String[] base = {null};
        slider.valueProperty().addListener((o, a, value) -> {
            if (value.doubleValue() == 0 && base[0] == null) {
                return;
            }
            if (base[0] == null) {
                base[0] = field.textProperty().get();
            }
            field.textProperty().set(FieldModel.scaled(base[0], Math.pow(4, value.doubleValue())));
            field.commit(true);
        });
        Runnable rest = () -> {
            base[0] = null;
            slider.setValue(0);
            base[0] = null;
            model.settle();
        };
        slider.valueChangingProperty().addListener((o, a, changing) -> {
            if (!changing) {
                rest.run();
            }
        });
        slider.setOnMouseReleased(e -> rest.run());
        slider.focusedProperty().addListener((o, a, focused) -> {
            if (!focused && base[0] != null) {
                rest.run();
            }
        });
        return slider;
    }
}
