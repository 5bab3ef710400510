package purgewright.gui.findings;

import java.util.List;
import java.util.Optional;
import java.util.function.Function;
import javafx.animation.PauseTransition;
import javafx.application.Platform;
import javafx.beans.property.ReadOnlyObjectWrapper;
import javafx.beans.property.ReadOnlyStringWrapper;
import javafx.collections.ListChangeListener;
import javafx.css.PseudoClass;
import javafx.geometry.Pos;
import javafx.scene.Node;
import javafx.scene.control.Button;
import javafx.scene.control.Label;
import javafx.scene.control.ProgressBar;
import javafx.scene.control.ScrollPane;
import javafx.scene.control.TableCell;
import javafx.scene.control.TableColumn;
import javafx.scene.control.TableView;
import javafx.scene.control.ToggleButton;
import javafx.scene.control.ToggleGroup;
import javafx.scene.control.Tooltip;
import javafx.scene.input.KeyCode;
import javafx.scene.layout.HBox;
import javafx.scene.layout.Priority;
import javafx.scene.layout.VBox;
import javafx.util.Duration;
import purgewright.gui.details.Places;
import purgewright.gui.findings.FindingsModel.Row;
import purgewright.gui.glyph.Shapes;
import purgewright.gui.glyph.WordsCell;
import purgewright.gui.task.TaskRunner;
import purgewright.gui.task.Work;
import purgewright.gui.text.Texts;
import purgewright.hazard.finding.Finding;
import purgewright.hazard.finding.Verdict;
import purgewright.hazard.finding.Waiver;
import purgewright.hazard.service.CheckResult;
import purgewright.hazard.service.MendService;
import purgewright.hazard.service.Progress;

/** The findings as a table, with a pane to read one whole. */
public final class FindingsView extends VBox {
    private final FindingsModel model;
    private final TableView<Row> table = new TableView<>();
    private final VBox reading = new VBox();
    private final HBox filters = new HBox();

    /** Looks for what mends a finding. */
    public interface Mender {
        /** Changes of the case, best first. */
        List<MendService.Mend> mend(CheckResult stated, Finding finding, Progress progress);
    }

    private static final PseudoClass STALE = PseudoClass.getPseudoClass("stale");
    private static final Duration UNTIL_OLD = Duration.millis(300);

    private final Mender mender;
    private final Function<Finding, Optional<Waiver>> ask;
    private final Work<List<MendService.Mend>> work = new Work<>(TaskRunner.background("mend"), Platform::runLater);
    private final VBox mends = new VBox();
    private String chosen = "";
    private final PauseTransition pause = new PauseTransition(UNTIL_OLD);
    private final Label before = new Label(Texts.of("findings.before"));

    /**
     * A view of the model.
     *
     * @param mender looks for what mends; off the window's thread
     * @param ask asks for a waiver; empty when given up
     */
    public FindingsView(FindingsModel model, Mender mender, Function<Finding, Optional<Waiver>> ask) {
        this.model = model;
        this.mender = mender;
        this.ask = ask;
        mends.getStyleClass().add("mends");
        before.getStyleClass().add("quiet");
        before.setId("before findings");
        getStyleClass().add("findings");
        table.setId("findings");
        table.setItems(model.rows());
        table.setColumnResizePolicy(TableView.CONSTRAINED_RESIZE_POLICY_FLEX_LAST_COLUMN);
        Label none = new Label(Texts.of("findings.none"));
        none.getStyleClass().add("quiet");
        table.setPlaceholder(none);
        table.getColumns().add(verdict());
        table.getColumns().add(text("findings.what", Row::what, 380, false));
        table.getColumns().add(text("findings.where", Row::shownPlace, 130, false));
        table.getColumns().add(text("findings.phase", Row::phase, 90, false));
        table.getColumns().add(text("findings.value", Row::value, 108, true));
        table.getColumns().add(text("findings.limit", Row::limit, 108, true));
        table.getColumns().add(text("findings.margin", Row::margin, 92, true));
        table.getSelectionModel().selectedItemProperty().addListener((o, a, row) -> read(row));
        table.setOnMouseClicked(e -> jump());
        table.setOnKeyPressed(e -> {
            if (e.getCode() == KeyCode.ENTER || e.getCode() == KeyCode.SPACE) {
                jump();
                e.consume();
            }
        });
        reading.getStyleClass().add("reading");
        ScrollPane scroll = new ScrollPane(reading);
        scroll.setFitToWidth(true);
        scroll.getStyleClass().add("reading-pane");
        HBox.setHgrow(table, Priority.ALWAYS);
        HBox body = new HBox(table, scroll);
        VBox.setVgrow(body, Priority.ALWAYS);
        filters.getStyleClass().add("filters");
        filters.setAlignment(Pos.CENTER_LEFT);
        getChildren().addAll(filters, body);
        model.rows().addListener((ListChangeListener<Row>) c -> {
            filters();
            // The finding that was read stays chosen when a new result brings it again.
            Row again = model.rows().stream()
                    .filter(r -> r.finding() != null && r.finding().id().equals(chosen))
                    .findFirst()
                    .orElse(null);
            if (again != null) {
                table.getSelectionModel().select(again);
            }
            read(again);
        });
        // An edit that is judged at once says nothing of the sort.
        pause.setOnFinished(e -> old());
        model.staleProperty().addListener(o -> {
            if (model.staleProperty().get()) {
                pause.playFromStart();
            } else {
                pause.stop();
                old();
            }
        });
        filters();
        read(null);
    }

    /** While a case is judged anew, what stands here is told to be of the one before. */
    private void old() {
        boolean stale = model.staleProperty().get();
        table.pseudoClassStateChanged(STALE, stale);
        if (stale && !filters.getChildren().contains(before)) {
            filters.getChildren().add(before);
        } else if (!stale) {
            filters.getChildren().remove(before);
        }
    }

    private void filters() {
        filters.getChildren().clear();
        Label title = new Label(Texts.of("findings.title"));
        title.getStyleClass().add("heading");
        filters.getChildren().add(title);
        ToggleGroup group = new ToggleGroup();
        for (Verdict verdict : Verdict.values()) {
            long count = model.count(verdict);
            if (count == 0 && model.filterProperty().get() != verdict) {
                continue;
            }
            ToggleButton button = new ToggleButton(Texts.of("findings.filter", Long.toString(count), verdict.word()));
            button.setGraphic(Shapes.mark(verdict, 11));
            button.setToggleGroup(group);
            button.setSelected(model.filterProperty().get() == verdict);
            button.setOnAction(e -> model.filterProperty().set(button.isSelected() ? verdict : null));
            filters.getChildren().add(button);
        }
        if (table.getPseudoClassStates().contains(STALE)) {
            filters.getChildren().add(before);
        }
    }

    /** Verdicts and numbers are never cut: "+10..." may be +10 % or +100 %. With much larger text the table scrolls instead. */
    public void lettering(double larger) {
        boolean scrolls = larger > FITS;
        for (TableColumn<Row, ?> column : table.getColumns()) {
            if (column.getProperties().get(WORDS) instanceof Double words) {
                column.setPrefWidth(words * (scrolls ? 0.7 * larger : 1));
            }
        }
        table.setColumnResizePolicy(
                scrolls ? TableView.UNCONSTRAINED_RESIZE_POLICY : TableView.CONSTRAINED_RESIZE_POLICY_FLEX_LAST_COLUMN);
        for (TableColumn<Row, ?> column : table.getColumns()) {
            double least = column.getUserData() instanceof Double d ? d : 0;
            if (least > 0) {
                column.setMinWidth(least * (0.4 + 0.6 * larger)); // words want room too
                column.setMaxWidth(1.3 * column.getMinWidth());
                if (scrolls) {
                    column.setPrefWidth(column.getMinWidth());
                }
            }
        }
    }

    private void jump() {
        Row row = table.getSelectionModel().getSelectedItem();
        if (row != null) {
            model.jump(row);
        }
    }

    private TableColumn<Row, Row> verdict() {
        TableColumn<Row, Row> column = new TableColumn<>(Texts.of("findings.verdict"));
        column.setPrefWidth(152);
        column.setMinWidth(146);
        column.setUserData(146.0);
        column.setMaxWidth(190);
        column.setSortable(false);
        column.setCellValueFactory(c -> new ReadOnlyObjectWrapper<>(c.getValue()));
        column.setCellFactory(c -> new TableCell<>() {
            @Override
            protected void updateItem(Row row, boolean empty) {
                super.updateItem(row, empty);
                if (empty || row == null) {
                    setText(null);
                    setGraphic(null);
                } else if (row.verdict() == null) {
                    setText(Texts.of("findings.problem"));
                    setGraphic(Shapes.mark(Verdict.FALLS_SHORT, 12));
                } else {
                    setText(
                            row.waived()
                                    ? Texts.of("findings.waived", row.verdict().word())
                                    : row.verdict().word());
                    setGraphic(Shapes.mark(row.verdict(), 12));
                }
            }
        });
        return column;
    }

    /** Size of the text up to which the columns fit beside each other. */
    private static final double FITS = 1.25;

    /** Least width of a column of words: the name of a phase. */
    private static final double LEAST_WORDS = 84;

    /** Key under which a column of words keeps its width at ordinary text. */
    private static final String WORDS = "words";

    private static TableColumn<Row, String> text(
            String key, Function<Row, String> value, double width, boolean number) {
        TableColumn<Row, String> column = new TableColumn<>(Texts.of(key));
        column.setPrefWidth(width);
        column.setMinWidth(number ? width : Math.min(width, LEAST_WORDS));
        column.setSortable(false);
        column.setCellValueFactory(c -> new ReadOnlyStringWrapper(value.apply(c.getValue())));
        column.setCellFactory(c -> new WordsCell<>());
        if (!number) {
            column.getProperties().put(WORDS, width);
        } else {
            column.setUserData(width);
            column.getStyleClass().add("number");
            column.setMaxWidth(width * 1.3);
        }
        return column;
    }

    private void read(Row row) {
        reading.getChildren().clear();
        if (row != null && row.finding() != null) {
            chosen = row.finding().id();
        }
        if (row == null) {
            Label hint = new Label(Texts.of("findings.hint"));
            hint.setWrapText(true);
            hint.getStyleClass().add("quiet");
            reading.getChildren().add(hint);
            return;
        }
        if (row.finding() != null) {
            reading.getChildren().add(deeds(row.finding(), row.waived()));
        }
        for (int i = 0; i + 1 < row.text().size(); i += 2) {
            Label title = new Label(row.text().get(i));
            title.getStyleClass().add("reading-title");
            Label body = new Label(row.text().get(i + 1));
            body.setWrapText(true);
            reading.getChildren().addAll(title, body);
        }
    }

    /** What can be done about a finding. */
    private Node deeds(Finding finding, boolean waived) {
        work.cancel();
        mends.getChildren().clear();
        HBox buttons = new HBox();
        buttons.getStyleClass().add("deeds");
        boolean open = finding.verdict() == Verdict.FALLS_SHORT || finding.verdict() == Verdict.THIN;
        if (open) {
            Button look = new Button(Texts.of("findings.mend"));
            look.setId("mend");
            look.setTooltip(new Tooltip(Texts.of("findings.mend.tip")));
            look.disableProperty().bind(work.runningProperty());
            look.setOnAction(e -> look(finding));
            buttons.getChildren().add(look);
        }
        if (waived) {
            Button withdraw = new Button(Texts.of("findings.withdraw"));
            withdraw.setId("withdraw");
            withdraw.setOnAction(e -> model.withdraw(finding));
            buttons.getChildren().add(withdraw);
        } else if (finding.verdict() != Verdict.HOLDS) {
            Button waive = new Button(Texts.of("findings.waive"));
            waive.setId("waive");
            waive.setTooltip(new Tooltip(Texts.of("findings.waive.tip")));
            waive.setOnAction(e -> ask.apply(finding).filter(Waiver::whole).ifPresent(w -> model.waive(finding, w)));
            buttons.getChildren().add(waive);
        }
        return new VBox(buttons, mends);
    }

    private void look(Finding finding) {
        CheckResult stated = model.result();
        Label busy = new Label(Texts.of("findings.mending"));
        busy.getStyleClass().add("quiet");
        ProgressBar bar = new ProgressBar();
        bar.progressProperty().bind(work.shareProperty());
        Button cancel = new Button(Texts.of("view.cancel"));
        cancel.setOnAction(e -> {
            work.cancel();
            mends.getChildren().clear();
        });
        HBox line = new HBox(bar, busy, cancel);
        line.getStyleClass().add("deeds");
        line.setAlignment(Pos.CENTER_LEFT);
        mends.getChildren().setAll(line);
        work.start(progress -> mender.mend(stated, finding, progress), this::offer);
    }

    private void offer(List<MendService.Mend> found) {
        mends.getChildren().clear();
        if (found.isEmpty()) {
            Label none = new Label(Texts.of("findings.mend.none", Double.toString(MendService.LARGEST)));
            none.setWrapText(true);
            mends.getChildren().add(none);
        }
        for (MendService.Mend mend : found) {
            Label text = new Label(Texts.of(
                    "findings.mend.line",
                    Places.words(mend.place()),
                    mend.before(),
                    mend.after(),
                    mend.verdict().word(),
                    Double.isNaN(mend.purge()) ? "–" : model.readout().flow(mend.purge())));
            text.setWrapText(true);
            HBox.setHgrow(text, Priority.ALWAYS);
            text.setMaxWidth(Double.MAX_VALUE);
            Button apply = new Button(Texts.of("findings.mend.apply"));
            apply.setId("apply:" + mend.place());
            apply.setMinWidth(USE_PREF_SIZE);
            apply.setOnAction(e -> model.mend(mend));
            HBox line = new HBox(Shapes.mark(mend.verdict(), 12), text, apply);
            line.getStyleClass().add("finding-card");
            line.setAlignment(Pos.CENTER_LEFT);
            mends.getChildren().add(line);
        }
    }

    /** Ends what runs when the window closes. */
    public void close() {
        work.cancel();
    }
}
