package purgewright.gui.views;

import java.util.List;
import java.util.Locale;
import java.util.function.Function;
import javafx.application.Platform;
import javafx.beans.property.ReadOnlyObjectWrapper;
import javafx.beans.property.ReadOnlyStringWrapper;
import javafx.geometry.Pos;
import javafx.scene.control.Button;
import javafx.scene.control.Label;
import javafx.scene.control.ProgressBar;
import javafx.scene.control.TableCell;
import javafx.scene.control.TableColumn;
import javafx.scene.control.TableView;
import javafx.scene.control.Tooltip;
import javafx.scene.layout.HBox;
import javafx.scene.layout.Priority;
import javafx.scene.layout.VBox;
import purgewright.figure.Readout;
import purgewright.gui.bench.Workbench;
import purgewright.gui.glyph.Shapes;
import purgewright.gui.task.Desk;
import purgewright.gui.task.TaskRunner;
import purgewright.gui.text.Texts;
import purgewright.hazard.fault.FaultResult;
import purgewright.hazard.finding.Finding;
import purgewright.hazard.finding.Verdict;
import purgewright.sealflow.casefile.CaseDocument;

/** The fault matrix: one row a fault, one column a criterion, the least margin in each cell. */
public final class FaultsView extends VBox {
    private final Workbench bench;
    private final Desk desk;
    private final Work<FaultResult> work = new Work<>(TaskRunner.background("fault sweep"), Platform::runLater);
    private final TableView<FaultResult.Row> table = new TableView<>();
    private final Label line = new Label();
    private CaseDocument swept;

    /** A view of the bench's case. */
    public FaultsView(Workbench bench, Desk desk) {
        this.bench = bench;
        this.desk = desk;
        getStyleClass().add("figure-view");
        Label caption = new Label(Texts.of("view.faults.caption"));
        caption.getStyleClass().add("quiet");
        caption.setWrapText(true);
        HBox.setHgrow(caption, Priority.ALWAYS);
        caption.setMaxWidth(Double.MAX_VALUE);
        Button run = new Button(Texts.of("view.faults.run"));
        run.setId("run faults");
        run.setMinWidth(USE_PREF_SIZE);
        run.disableProperty()
                .bind(work.runningProperty().or(bench.resultProperty().isNull()));
        run.setOnAction(e -> run());
        Button cancel = new Button(Texts.of("view.cancel"));
        cancel.visibleProperty().bind(work.runningProperty());
        cancel.managedProperty().bind(work.runningProperty());
        cancel.setOnAction(e -> work.cancel());
        ProgressBar bar = new ProgressBar();
        bar.progressProperty().bind(work.shareProperty());
        bar.visibleProperty().bind(work.runningProperty());
        bar.managedProperty().bind(work.runningProperty());
        HBox top = new HBox(caption, bar, cancel, run);
        top.getStyleClass().add("view-line");
        top.setAlignment(Pos.CENTER_LEFT);
        line.getStyleClass().add("view-verdict");
        line.managedProperty().bind(line.visibleProperty());
        line.visibleProperty().bind(line.textProperty().isNotEmpty());
        work.messageProperty().addListener((o, a, text) -> {
            if (!text.isEmpty()) {
                line.setText(Texts.of("banner.broken", text));
            }
        });
        table.setId("faults");
        table.setPlaceholder(new Label(Texts.of("view.faults.none")));
        table.setOnMouseClicked(e -> jump());
        VBox.setVgrow(table, Priority.ALWAYS);
        getChildren().addAll(top, line, table);
        bench.history().documentProperty().addListener(o -> outdated());
        bench.readoutProperty().addListener(o -> table.refresh());
    }

    private void outdated() {
        CaseDocument now = bench.history().document();
        if (swept != null && now != null && !swept.equals(now)) {
            table.setOpacity(0.5);
            line.setText(Texts.of("view.faults.old"));
        }
    }

    /** Sweeps the faults of the case as it stands. */
    public void run() {
        CaseDocument document = bench.history().document();
        work.start(progress -> desk.fail(document, progress), result -> {
            swept = document;
            show(result);
            outdated();
        });
    }

    private void show(FaultResult result) {
        table.setOpacity(1);
        line.setText(result.verdictLine());
        table.getColumns().clear();
        table.getColumns().add(verdict());
        table.getColumns().add(text("view.faults.scenario", FaultResult.Row::scenario, 260));
        table.getColumns().add(text("view.faults.time", this::time, 110));
        table.getColumns()
                .add(text(
                        "view.faults.seen",
                        r -> r.lost().isEmpty() && r.pairsLost().isEmpty()
                                ? ""
                                : r.hidden() ? Texts.of("view.faults.hidden") : String.join(", ", r.seenBy()),
                        190));
        for (String criterion : result.criteria()) {
            table.getColumns().add(margin(criterion));
        }
        table.getItems().setAll(result.rows());
    }

    private String time(FaultResult.Row row) {
        return Double.isNaN(row.timeToLoss())
                ? ""
                : row.timeToLoss() == 0
                        ? Texts.of("view.faults.atonce")
                        : bench.readoutProperty().get().time(row.timeToLoss());
    }

    private void jump() {
        FaultResult.Row row = table.getSelectionModel().getSelectedItem();
        if (row == null || row.findings().isEmpty()) {
            return;
        }
        Finding worst = row.findings().get(0);
        String[] parts = worst.where().split("/");
        if (parts.length >= 3 && (parts[1].equals("cavities") || parts[1].equals("passages"))) {
            bench.selectedProperty().set("/" + parts[1] + "/" + parts[2]);
        }
    }

    private static TableColumn<FaultResult.Row, FaultResult.Row> verdict() {
        TableColumn<FaultResult.Row, FaultResult.Row> column = new TableColumn<>(Texts.of("findings.verdict"));
        column.setPrefWidth(128);
        column.setCellValueFactory(c -> new ReadOnlyObjectWrapper<>(c.getValue()));
        column.setCellFactory(c -> new TableCell<>() {
            @Override
            protected void updateItem(FaultResult.Row row, boolean empty) {
                super.updateItem(row, empty);
                setText(empty || row == null ? null : row.verdict().word());
                setGraphic(empty || row == null ? null : Shapes.mark(row.verdict(), 12));
            }
        });
        return column;
    }

    private static TableColumn<FaultResult.Row, String> text(
            String key, Function<FaultResult.Row, String> value, double width) {
        TableColumn<FaultResult.Row, String> column = new TableColumn<>(Texts.of(key));
        column.setPrefWidth(width);
        column.setCellValueFactory(c -> new ReadOnlyStringWrapper(value.apply(c.getValue())));
        return column;
    }

    private static TableColumn<FaultResult.Row, FaultResult.Row> margin(String criterion) {
        TableColumn<FaultResult.Row, FaultResult.Row> column =
                new TableColumn<>(criterion.replace('-', ' ').toLowerCase(Locale.ROOT));
        column.setPrefWidth(Math.max(96, 30 + criterion.length() * 7.2));
        column.getStyleClass().add("number");
        column.setCellValueFactory(c -> new ReadOnlyObjectWrapper<>(c.getValue()));
        column.setCellFactory(c -> new TableCell<>() {
            @Override
            protected void updateItem(FaultResult.Row row, boolean empty) {
                super.updateItem(row, empty);
                Verdict verdict = empty || row == null ? null : row.verdicts().get(criterion);
                if (verdict == null) {
                    setText(null);
                    setGraphic(null);
                    setTooltip(null);
                    return;
                }
                setText(Readout.margin(row.margins().getOrDefault(criterion, Double.NaN)));
                setGraphic(verdict == Verdict.HOLDS ? null : Shapes.mark(verdict, 10));
                List<String> why = row.findings().stream()
                        .filter(f -> f.id().startsWith(criterion + ":"))
                        .map(Finding::what)
                        .limit(3)
                        .toList();
                setTooltip(why.isEmpty() ? null : new Tooltip(String.join("\n", why)));
            }
        });
        return column;
    }

    /** The table, for tests. */
    public TableView<FaultResult.Row> table() {
        return table;
    }

    /** Ends what runs when the window closes. */
    public void close() {
        work.cancel();
    }
}
