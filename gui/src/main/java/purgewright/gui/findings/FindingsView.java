package purgewright.gui.findings;

import java.util.function.Function;
import javafx.beans.property.ReadOnlyObjectWrapper;
import javafx.beans.property.ReadOnlyStringWrapper;
import javafx.collections.ListChangeListener;
import javafx.geometry.Pos;
import javafx.scene.control.Label;
import javafx.scene.control.ScrollPane;
import javafx.scene.control.TableCell;
import javafx.scene.control.TableColumn;
import javafx.scene.control.TableView;
import javafx.scene.control.ToggleButton;
import javafx.scene.control.ToggleGroup;
import javafx.scene.input.KeyCode;
import javafx.scene.layout.HBox;
import javafx.scene.layout.Priority;
import javafx.scene.layout.VBox;
import purgewright.gui.findings.FindingsModel.Row;
import purgewright.gui.glyph.Shapes;
import purgewright.gui.text.Texts;
import purgewright.hazard.finding.Verdict;

/** The findings as a table, with a pane to read one whole. */
public final class FindingsView extends VBox {
    private final FindingsModel model;
    private final TableView<Row> table = new TableView<>();
    private final VBox reading = new VBox();
    private final HBox filters = new HBox();

    /** A view of the model. */
    public FindingsView(FindingsModel model) {
        this.model = model;
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
            Row selected = table.getSelectionModel().getSelectedItem();
            read(selected);
        });
        filters();
        read(null);
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
    }

    private void jump() {
        Row row = table.getSelectionModel().getSelectedItem();
        if (row != null) {
            model.jump(row);
        }
    }

    private TableColumn<Row, Row> verdict() {
        TableColumn<Row, Row> column = new TableColumn<>(Texts.of("findings.verdict"));
        column.setPrefWidth(128);
        column.setMinWidth(118);
        column.setMaxWidth(150);
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
                    setText(row.verdict().word());
                    setGraphic(Shapes.mark(row.verdict(), 12));
                }
            }
        });
        return column;
    }

    private static TableColumn<Row, String> text(
            String key, Function<Row, String> value, double width, boolean number) {
        TableColumn<Row, String> column = new TableColumn<>(Texts.of(key));
        column.setPrefWidth(width);
        column.setMinWidth(number ? width : Math.min(width, 60));
        column.setSortable(false);
        column.setCellValueFactory(c -> new ReadOnlyStringWrapper(value.apply(c.getValue())));
        if (number) {
            column.getStyleClass().add("number");
            column.setMaxWidth(width * 1.3);
        }
        return column;
    }

    private void read(Row row) {
        reading.getChildren().clear();
        if (row == null) {
            Label hint = new Label(Texts.of("findings.hint"));
            hint.setWrapText(true);
            hint.getStyleClass().add("quiet");
            reading.getChildren().add(hint);
            return;
        }
        for (int i = 0; i + 1 < row.text().size(); i += 2) {
            Label title = new Label(row.text().get(i));
            title.getStyleClass().add("reading-title");
            Label body = new Label(row.text().get(i + 1));
            body.setWrapText(true);
            reading.getChildren().addAll(title, body);
        }
    }
}
