package purgewright.gui.views;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
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
import javafx.scene.layout.HBox;
import javafx.scene.layout.Priority;
import javafx.scene.layout.VBox;
import purgewright.figure.Readout;
import purgewright.fluids.validation.Check;
import purgewright.gui.glyph.Shapes;
import purgewright.gui.task.TaskRunner;
import purgewright.gui.text.Texts;
import purgewright.hazard.finding.Verdict;
import purgewright.hazard.service.Progress;
import purgewright.hazard.service.ValidationSets;

/** The published checks: the source's number, ours, and how far apart they are. */
public final class ValidationView extends VBox {
    /** One check, computed; {@code ours} NaN where it broke off. */
    private record Row(String set, Check check, double ours) {
        double deviation() {
            return check.relative() ? (ours - check.expected()) / Math.abs(check.expected()) : ours - check.expected();
        }

        boolean met() {
            return Math.abs(deviation()) <= check.tolerance();
        }
    }

    private final Work<List<Row>> work = new Work<>(TaskRunner.background("validation"), Platform::runLater);
    private final TableView<Row> table = new TableView<>();
    private final Label line = new Label();

    /** An empty table that fills on request. */
    public ValidationView() {
        getStyleClass().add("figure-view");
        Label caption = new Label(Texts.of("view.validation.caption"));
        caption.getStyleClass().add("quiet");
        caption.setWrapText(true);
        caption.setMaxWidth(Double.MAX_VALUE);
        HBox.setHgrow(caption, Priority.ALWAYS);
        Button run = new Button(Texts.of("view.validation.run"));
        run.setMinWidth(USE_PREF_SIZE);
        run.disableProperty().bind(work.runningProperty());
        run.setOnAction(e -> work.start(ValidationView::compute, this::show));
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
        line.visibleProperty().bind(line.textProperty().isNotEmpty());
        line.managedProperty().bind(line.visibleProperty());
        table.setPlaceholder(new Label(Texts.of("view.validation.none")));
        VBox.setVgrow(table, Priority.ALWAYS);
        table.getColumns().add(mark());
        table.getColumns().add(text("view.validation.set", Row::set, 90));
        table.getColumns().add(text("view.validation.quantity", r -> r.check().quantity(), 330));
        table.getColumns()
                .add(text("view.validation.expected", r -> number(r.check().expected(), r), 140));
        table.getColumns().add(text("view.validation.ours", r -> number(r.ours(), r), 140));
        table.getColumns().add(text("view.validation.deviation", ValidationView::deviation, 110));
        table.getColumns().add(text("view.validation.tolerance", ValidationView::tolerance, 110));
        table.getColumns()
                .add(text(
                        "view.validation.source",
                        r -> r.check().source() + " [" + r.check().label().text() + "]",
                        560));
        getChildren().addAll(top, line, table);
    }

    private static List<Row> compute(Progress progress) {
        List<Row> rows = new ArrayList<>();
        int all = ValidationSets.all().size();
        for (Map.Entry<String, List<Check>> set : ValidationSets.bySet().entrySet()) {
            for (Check check : set.getValue()) {
                if (Thread.currentThread().isInterrupted()) {
                    throw new java.util.concurrent.CancellationException();
                }
                double ours;
                try {
                    ours = check.ours().getAsDouble();
                } catch (RuntimeException e) {
                    ours = Double.NaN; // shown as a check that fails
                }
                rows.add(new Row(set.getKey(), check, ours));
                progress.at((double) rows.size() / all, set.getKey());
            }
        }
        return rows;
    }

    private void show(List<Row> rows) {
        table.getItems().setAll(rows);
        long met = rows.stream().filter(Row::met).count();
        line.setText(Texts.of("view.validation.line", Long.toString(met), Integer.toString(rows.size())));
    }

    private static String number(double value, Row row) {
        String unit = row.check().unit().equals("1") ? "" : " " + row.check().unit();
        return Readout.number(value, 6) + unit;
    }

    private static String deviation(Row row) {
        return row.check().relative()
                ? Readout.number(row.deviation() * 100, 2) + " %"
                : Readout.number(row.deviation(), 2);
    }

    private static String tolerance(Row row) {
        return row.check().relative()
                ? Readout.number(row.check().tolerance() * 100, 2) + " %"
                : Readout.number(row.check().tolerance(), 2);
    }

    private static TableColumn<Row, Row> mark() {
        TableColumn<Row, Row> column = new TableColumn<>(Texts.of("view.validation.met"));
        column.setPrefWidth(100);
        column.setCellValueFactory(c -> new ReadOnlyObjectWrapper<>(c.getValue()));
        column.setCellFactory(c -> new TableCell<>() {
            @Override
            protected void updateItem(Row row, boolean empty) {
                super.updateItem(row, empty);
                if (empty || row == null) {
                    setText(null);
                    setGraphic(null);
                } else {
                    setText(Texts.of(row.met() ? "view.validation.yes" : "view.validation.no"));
                    setGraphic(Shapes.mark(row.met() ? Verdict.HOLDS : Verdict.FALLS_SHORT, 11));
                }
            }
        });
        return column;
    }

    private static TableColumn<Row, String> text(String key, Function<Row, String> value, double width) {
        TableColumn<Row, String> column = new TableColumn<>(Texts.of(key));
        column.setPrefWidth(width);
        column.setCellValueFactory(c -> new ReadOnlyStringWrapper(value.apply(c.getValue())));
        return column;
    }

    /** Ends what runs when the window closes. */
    public void close() {
        work.cancel();
    }
}
