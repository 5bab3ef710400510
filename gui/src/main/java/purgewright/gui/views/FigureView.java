package purgewright.gui.views;

import java.util.function.BiFunction;
import java.util.function.Consumer;
import java.util.function.Supplier;
import javafx.application.Platform;
import javafx.beans.InvalidationListener;
import javafx.scene.Node;
import javafx.scene.control.Label;
import javafx.scene.layout.HBox;
import javafx.scene.layout.Priority;
import javafx.scene.layout.VBox;
import purgewright.figure.Figure;
import purgewright.gui.bench.Workbench;

/** A figure of the bench's latest result that fills its view, with a sentence that says what it shows. */
public final class FigureView extends VBox implements Shown {
    private final String name;
    private final Supplier<String> csv;
    private final Label caption = new Label();
    private final FigureCanvas canvas;

    /**
     * @param name stem of exported files
     * @param controls shown right of the sentence
     * @param draw makes the figure for a width and a height; null where there is nothing to show
     * @param csv the numbers behind the figure
     * @param chosen told the pointer of a clicked region
     */
    public FigureView(
            Workbench bench,
            String name,
            Node controls,
            BiFunction<Double, Double, Figure> draw,
            Supplier<String> csv,
            Consumer<String> chosen) {
        this.name = name;
        this.csv = csv;
        getStyleClass().add("figure-view");
        caption.setWrapText(true);
        caption.getStyleClass().add("quiet");
        caption.setMaxWidth(Double.MAX_VALUE);
        caption.setMinHeight(USE_PREF_SIZE);
        HBox.setHgrow(caption, Priority.ALWAYS);
        HBox line = new HBox(caption, controls);
        line.getStyleClass().add("view-line");
        canvas = new FigureCanvas(
                bench,
                (width, height) -> {
                    Figure figure = draw.apply(width, height);
                    if (figure != null) {
                        Platform.runLater(() -> caption.setText(figure.caption())); // not while things are laid out
                    }
                    return figure;
                },
                chosen);
        VBox.setVgrow(canvas, Priority.ALWAYS);
        getChildren().addAll(line, canvas);
        InvalidationListener again = o -> {
            // Every property is read, so that the next change is told again.
            bench.resultProperty().get();
            bench.outcomeProperty().get();
            bench.phaseProperty().get();
            bench.readoutProperty().get();
            bench.themeProperty().get();
            redraw();
        };
        bench.resultProperty().addListener(again);
        bench.outcomeProperty().addListener(again);
        bench.phaseProperty().addListener(again);
        bench.readoutProperty().addListener(again);
        bench.themeProperty().addListener(again);
    }

    @Override
    public void shown(boolean now) {
        canvas.shown(now);
    }

    /** Draws anew. */
    public void redraw() {
        canvas.redraw();
    }

    @Override
    public String name() {
        return name;
    }

    @Override
    public String csv() {
        return csv.get();
    }

    @Override
    public Figure figure() {
        return canvas.figure();
    }
}
