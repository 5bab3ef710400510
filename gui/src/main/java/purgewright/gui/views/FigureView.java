package purgewright.gui.views;

import java.util.function.BiFunction;
import java.util.function.Consumer;
import javafx.beans.InvalidationListener;
import javafx.scene.AccessibleRole;
import javafx.scene.Node;
import javafx.scene.canvas.Canvas;
import javafx.scene.control.Label;
import javafx.scene.layout.HBox;
import javafx.scene.layout.Priority;
import javafx.scene.layout.Region;
import javafx.scene.layout.VBox;
import org.jfree.fx.FXGraphics2D;
import purgewright.figure.Figure;
import purgewright.gui.bench.Workbench;

/** A figure that fills its view, with a sentence that says what it shows. Drawn only while it is looked at. */
public final class FigureView extends VBox {
    private final Workbench bench;
    private final BiFunction<Double, Double, Figure> draw;
    private final Canvas canvas = new Canvas();
    private final Label caption = new Label();
    private final Region holder;
    private Figure figure;
    private boolean shown;

    /**
     * @param controls shown right of the sentence
     * @param draw makes the figure for a width and a height; null where there is nothing to show
     * @param chosen told the pointer of a clicked region
     */
    public FigureView(
            Workbench bench, Node controls, BiFunction<Double, Double, Figure> draw, Consumer<String> chosen) {
        this.bench = bench;
        this.draw = draw;
        getStyleClass().add("figure-view");
        caption.setWrapText(true);
        caption.getStyleClass().add("quiet");
        caption.setMaxWidth(Double.MAX_VALUE);
        HBox.setHgrow(caption, Priority.ALWAYS);
        HBox line = new HBox(caption, controls);
        line.getStyleClass().add("view-line");
        holder = new Region() {
            {
                getChildren().add(canvas);
                setMinSize(50, 50);
            }

            @Override
            protected void layoutChildren() {
                if (canvas.getWidth() != getWidth() || canvas.getHeight() != getHeight()) {
                    canvas.setWidth(getWidth());
                    canvas.setHeight(getHeight());
                    redraw();
                }
            }
        };
        holder.setAccessibleRole(AccessibleRole.IMAGE_VIEW);
        VBox.setVgrow(holder, Priority.ALWAYS);
        getChildren().addAll(line, holder);
        InvalidationListener again = o -> redraw();
        bench.resultProperty().addListener(again);
        bench.phaseProperty().addListener(again);
        bench.readoutProperty().addListener(again);
        bench.themeProperty().addListener(again);
        canvas.setOnMouseClicked(e -> {
            Figure.Region region = figure == null ? null : figure.at(e.getX(), e.getY());
            if (region != null) {
                chosen.accept(region.pointer());
            }
        });
    }

    /** Tells whether the view is looked at. */
    public void shown(boolean now) {
        shown = now;
        redraw();
    }

    /** Draws anew. */
    public void redraw() {
        // Every property is read, so that the next change is told again.
        bench.resultProperty().get();
        bench.phaseProperty().get();
        bench.readoutProperty().get();
        if (!shown || canvas.getWidth() < 80 || canvas.getHeight() < 80) {
            bench.themeProperty().get();
            return;
        }
        figure = draw.apply(canvas.getWidth(), canvas.getHeight());
        FXGraphics2D g = new FXGraphics2D(canvas.getGraphicsContext2D());
        g.setColor(bench.themeProperty().get().paper());
        g.fillRect(0, 0, (int) Math.ceil(canvas.getWidth()), (int) Math.ceil(canvas.getHeight()));
        if (figure != null) {
            figure.paint(g);
            caption.setText(figure.caption());
            holder.setAccessibleText(figure.caption());
        }
    }

    /** The figure shown; null when there is none. */
    public Figure figure() {
        return figure;
    }
}
