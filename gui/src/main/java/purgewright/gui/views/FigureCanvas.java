package purgewright.gui.views;

import java.util.ArrayList;
import java.util.List;
import java.util.function.BiFunction;
import java.util.function.Consumer;
import javafx.scene.AccessibleRole;
import javafx.scene.canvas.Canvas;
import javafx.scene.control.Tooltip;
import javafx.scene.input.KeyCode;
import javafx.scene.layout.Pane;
import javafx.scene.layout.Region;
import javafx.scene.shape.Path;
import javafx.util.Duration;
import org.jfree.fx.FXGraphics2D;
import purgewright.figure.Figure;
import purgewright.gui.bench.Workbench;
import purgewright.gui.glyph.Shapes;

/** A figure as large as its place, with one transparent focusable path over each of its regions. Drawn only while it is looked at. */
final class FigureCanvas extends Region {
    private final Workbench bench;
    private final BiFunction<Double, Double, Figure> draw;
    private final Consumer<String> chosen;
    private final Canvas canvas = new Canvas();
    private final Pane overlay = new Pane();
    private Figure figure;
    private boolean shown;
    private List<String> pointers = List.of();

    /**
     * @param draw makes the figure for a width and a height; null where there is nothing to show
     * @param chosen told the pointer of a clicked or entered region
     */
    FigureCanvas(Workbench bench, BiFunction<Double, Double, Figure> draw, Consumer<String> chosen) {
        this.bench = bench;
        this.draw = draw;
        this.chosen = chosen;
        getChildren().addAll(canvas, overlay);
        overlay.setPickOnBounds(false);
        setMinSize(50, 50);
        setAccessibleRole(AccessibleRole.IMAGE_VIEW);
        bench.letteringProperty().addListener(o -> redraw());
    }

    @Override
    protected void layoutChildren() {
        if (canvas.getWidth() != getWidth() || canvas.getHeight() != getHeight()) {
            canvas.setWidth(getWidth());
            canvas.setHeight(getHeight());
            redraw();
        }
    }

    /** Tells whether the figure is looked at. */
    void shown(boolean now) {
        shown = now;
        redraw();
    }

    /** Draws anew. */
    void redraw() {
        if (!shown || canvas.getWidth() < 80 || canvas.getHeight() < 80) {
            return;
        }
        double larger = bench.letteringProperty().get();
        figure = draw.apply(canvas.getWidth() / larger, canvas.getHeight() / larger);
        var gc = canvas.getGraphicsContext2D();
        gc.save();
        FXGraphics2D g = new FXGraphics2D(gc);
        g.setColor(bench.themeProperty().get().paper());
        g.fillRect(0, 0, (int) Math.ceil(canvas.getWidth()), (int) Math.ceil(canvas.getHeight()));
        if (figure != null) {
            g.scale(larger, larger);
            figure.paint(g);
            setAccessibleText(figure.caption());
        }
        gc.restore();
        lay();
    }

    private void lay() {
        List<Figure.Region> regions = figure == null ? List.of() : figure.regions();
        List<String> now = regions.stream().map(Figure.Region::pointer).toList();
        if (!now.equals(pointers)) {
            pointers = now;
            List<Path> paths = new ArrayList<>();
            for (String pointer : now) {
                paths.add(place(pointer));
            }
            overlay.getChildren().setAll(paths);
        }
        for (int i = 0; i < regions.size(); i++) {
            Path path = (Path) overlay.getChildren().get(i);
            path.getElements()
                    .setAll(Shapes.elements(
                            regions.get(i).shape(), bench.letteringProperty().get(), 0, 0));
            path.setAccessibleText(regions.get(i).text());
            ((Tooltip) path.getProperties().get("tip")).setText(regions.get(i).text());
        }
    }

    private Path place(String pointer) {
        Path path = new Path();
        path.getStyleClass().add("place");
        path.setId("chart:" + pointer);
        path.setFocusTraversable(true);
        path.setAccessibleRole(AccessibleRole.BUTTON);
        Tooltip tip = new Tooltip();
        tip.setShowDelay(Duration.millis(300));
        tip.setWrapText(true);
        tip.setMaxWidth(380);
        Tooltip.install(path, tip);
        path.getProperties().put("tip", tip);
        path.setOnMouseClicked(e -> {
            path.requestFocus();
            chosen.accept(pointer);
        });
        path.setOnKeyPressed(e -> {
            if (e.getCode() == KeyCode.ENTER || e.getCode() == KeyCode.SPACE) {
                chosen.accept(pointer);
                e.consume();
            }
        });
        return path;
    }

    /** The figure shown; null when there is none. */
    Figure figure() {
        return figure;
    }
}
