package purgewright.gui.views;

import java.util.function.Function;
import javafx.beans.property.ReadOnlyDoubleProperty;
import javafx.beans.property.ReadOnlyObjectWrapper;
import javafx.beans.property.ReadOnlyStringWrapper;
import javafx.collections.ListChangeListener;
import javafx.scene.control.TableCell;
import javafx.scene.control.TableColumn;
import javafx.scene.control.TableView;
import purgewright.gui.glyph.Shapes;
import purgewright.gui.glyph.WordsCell;
import purgewright.hazard.finding.Verdict;

/** Columns of tables. */
final class Tables {
    private Tables() {}

    /** A column of words. */
    static <R> TableColumn<R, String> text(String title, Function<R, String> value, double width) {
        TableColumn<R, String> column = new TableColumn<>(title);
        column.setPrefWidth(width);
        column.setCellValueFactory(c -> new ReadOnlyStringWrapper(value.apply(c.getValue())));
        column.setCellFactory(c -> new WordsCell<>());
        return column;
    }

    /** Columns of a table, present and to come, get wider with the text. */
    static void grow(TableView<?> table, ReadOnlyDoubleProperty lettering) {
        double[] now = {1};
        Runnable follow = () -> {
            double factor = lettering.get() / now[0];
            now[0] = lettering.get();
            table.getColumns().forEach(c -> c.setPrefWidth(c.getPrefWidth() * factor));
        };
        follow.run();
        lettering.addListener(o -> follow.run());
        table.getColumns().addListener((ListChangeListener<TableColumn<?, ?>>) change -> {
            while (change.next()) {
                // A column that is moved by hand comes anew too: only what was not there before grows.
                change.getAddedSubList().stream()
                        .filter(c -> !change.getRemoved().contains(c))
                        .forEach(c -> c.setPrefWidth(c.getPrefWidth() * now[0]));
            }
        });
    }

    /** A column of numbers with their units, at the right edge. */
    static <R> TableColumn<R, String> number(String title, Function<R, String> value, double width) {
        TableColumn<R, String> column = text(title, value, width);
        column.getStyleClass().add("number");
        return column;
    }

    /** A column of verdicts, mark and word. */
    static <R> TableColumn<R, R> verdict(String title, Function<R, Verdict> value) {
        TableColumn<R, R> column = new TableColumn<>(title);
        column.setPrefWidth(132);
        column.setCellValueFactory(c -> new ReadOnlyObjectWrapper<>(c.getValue()));
        column.setCellFactory(c -> new TableCell<>() {
            @Override
            protected void updateItem(R row, boolean empty) {
                super.updateItem(row, empty);
                Verdict verdict = empty || row == null ? null : value.apply(row);
                setText(verdict == null ? null : verdict.word());
                setGraphic(verdict == null ? null : Shapes.mark(verdict, 12));
            }
        });
        return column;
    }
}
