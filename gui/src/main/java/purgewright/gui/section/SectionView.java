package purgewright.gui.section;

import java.awt.geom.Dimension2D;
import java.util.ArrayList;
import java.util.List;
import java.util.function.BiConsumer;
import javafx.beans.InvalidationListener;
import javafx.beans.property.BooleanProperty;
import javafx.beans.property.DoubleProperty;
import javafx.beans.property.SimpleBooleanProperty;
import javafx.beans.property.SimpleDoubleProperty;
import javafx.css.PseudoClass;
import javafx.geometry.Orientation;
import javafx.scene.AccessibleRole;
import javafx.scene.canvas.Canvas;
import javafx.scene.canvas.GraphicsContext;
import javafx.scene.control.ScrollBar;
import javafx.scene.control.Tooltip;
import javafx.scene.input.KeyCode;
import javafx.scene.input.KeyEvent;
import javafx.scene.input.MouseButton;
import javafx.scene.input.MouseEvent;
import javafx.scene.layout.Pane;
import javafx.scene.layout.Region;
import javafx.scene.shape.Line;
import javafx.scene.shape.Path;
import javafx.scene.shape.Rectangle;
import javafx.util.Duration;
import org.jfree.fx.FXGraphics2D;
import purgewright.figure.BarrierSection;
import purgewright.figure.Figure;
import purgewright.figure.Picture;
import purgewright.gui.bench.Workbench;
import purgewright.gui.glyph.Shapes;
import purgewright.gui.text.Texts;
import purgewright.gui.views.Shown;
import purgewright.gui.views.StateTable;
import purgewright.sealflow.casefile.CaseException;
import purgewright.sealflow.model.Case;

/**
 * The barrier section on a canvas, with one transparent focusable path over each cavity and passage. A drawing of moderate size is painted
 * once and shifted when it is panned; a larger one is painted where it is looked at, so that a case of any size needs little memory.
 */
public final class SectionView extends Region implements Shown {
    private static final PseudoClass CHOSEN = PseudoClass.getPseudoClass("chosen");
    private static final double SMALLEST_FIT = 0.62;
    private static final double LARGEST_FIT = 1.3;
    /** Pixels up to which a drawing is painted whole and then only shifted: 12 MB. */
    private static final double LARGEST_WHOLE = 3e6;

    private final Workbench bench;
    private final Canvas canvas = new Canvas();
    private final Pane overlay = new Pane();
    private final ScrollBar across = new ScrollBar();
    private final ScrollBar down = new ScrollBar();
    /** Zoom as a factor; 0 fits the view, but not so small that it cannot be read. */
    private final DoubleProperty zoom = new SimpleDoubleProperty(this, "zoom", 0);

    private final List<Path> places = new ArrayList<>();
    private List<String> pointers = List.of();
    private Figure figure;
    private double scale = 1;
    /** The whole drawing was asked for, and no other zoom since. */
    private boolean everything;

    private double grabX;
    private double grabY;
    private boolean dragged;
    private boolean outdated = true;
    private double laidWidth = -1;
    private double laidHeight = -1;
    /** True when the canvas holds the whole drawing. */
    private boolean whole;
    /** True while two cavities are being chosen to be joined. */
    private final BooleanProperty connecting = new SimpleBooleanProperty(this, "connecting");

    private final Line rubber = new Line();
    private String end = "";
    private BiConsumer<String, String> onConnect = (from, to) -> {};

    /** A view of the bench's case. */
    public SectionView(Workbench bench) {
        this.bench = bench;
        getStyleClass().add("section-view");
        setAccessibleRole(AccessibleRole.PARENT);
        setAccessibleText(Texts.of("section.accessible"));
        Rectangle clip = new Rectangle();
        clip.widthProperty().bind(widthProperty());
        clip.heightProperty().bind(heightProperty());
        setClip(clip);
        down.setOrientation(Orientation.VERTICAL);
        overlay.setPickOnBounds(false);
        canvas.getStyleClass().add("drawing");
        rubber.getStyleClass().add("rubber");
        rubber.setMouseTransparent(true);
        rubber.setVisible(false);
        getChildren().addAll(canvas, overlay, rubber, across, down);
        connecting.addListener((o, a, on) -> {
            end = "";
            rubber.setVisible(false);
            pseudoClassStateChanged(PseudoClass.getPseudoClass("connecting"), on);
        });
        // Several things change with one result; they are drawn once, at the next layout.
        InvalidationListener again = o -> {
            outdated = true;
            requestLayout();
        };
        bench.resultProperty().addListener(again);
        bench.outcomeProperty().addListener(again);
        bench.phaseProperty().addListener(again);
        bench.readoutProperty().addListener(again);
        bench.themeProperty().addListener(again);
        bench.layerProperty().addListener(again);
        bench.toScaleProperty().addListener(again);
        bench.letteringProperty().addListener(again);
        bench.referenceProperty().addListener(again);
        bench.proposedRedlines().addListener(again);
        zoom.addListener(again);
        zoom.addListener(o -> everything &= zoom.get() == 0);
        bench.selectedProperty().addListener((o, a, b) -> choose());
        InvalidationListener dim = o -> pseudoClassStateChanged(
                PseudoClass.getPseudoClass("stale"),
                bench.draftInvalidProperty().get()
                        || (bench.staleProperty().get() && !bench.busyProperty().get()));
        bench.staleProperty().addListener(dim);
        bench.busyProperty().addListener(dim);
        bench.draftInvalidProperty().addListener(dim);
        across.valueProperty().addListener(o -> pan());
        down.valueProperty().addListener(o -> pan());
        gestures();
    }

    private void gestures() {
        setOnScroll(e -> {
            if (e.isControlDown()) {
                zoomBy(e.getDeltaY() > 0 ? 1.15 : 1 / 1.15);
            } else {
                across.setValue(clamp(across.getValue() - e.getDeltaX(), across));
                down.setValue(clamp(down.getValue() - e.getDeltaY(), down));
            }
            e.consume();
        });
        addEventFilter(MouseEvent.MOUSE_PRESSED, e -> {
            grabX = e.getX();
            grabY = e.getY();
            dragged = false;
            String cavity = cavityAt(e.getX(), e.getY());
            if ((connecting.get() || e.isShiftDown()) && !cavity.isEmpty() && end.isEmpty()) {
                connecting.set(true);
                end = cavity;
                rubber.setStartX(e.getX());
                rubber.setStartY(e.getY());
                stretch(e.getX(), e.getY());
                e.consume();
            }
        });
        addEventFilter(MouseEvent.MOUSE_MOVED, e -> stretch(e.getX(), e.getY()));
        addEventFilter(MouseEvent.MOUSE_RELEASED, e -> {
            String cavity = connecting.get() ? cavityAt(e.getX(), e.getY()) : "";
            if (!end.isEmpty() && !cavity.isEmpty() && !cavity.equals(end)) {
                connect(cavity);
                dragged = true; // the click that follows chooses nothing
                e.consume();
            }
        });
        addEventFilter(KeyEvent.KEY_PRESSED, e -> {
            if (e.getCode() == KeyCode.ESCAPE && connecting.get()) {
                connecting.set(false);
                e.consume();
            }
        });
        addEventFilter(MouseEvent.MOUSE_DRAGGED, e -> {
            if (connecting.get()) {
                stretch(e.getX(), e.getY());
                e.consume();
            } else if (e.getButton() == MouseButton.PRIMARY || e.getButton() == MouseButton.MIDDLE) {
                double dx = e.getX() - grabX;
                double dy = e.getY() - grabY;
                if (dragged || Math.hypot(dx, dy) > 5) {
                    dragged = true;
                    across.setValue(clamp(across.getValue() - dx, across));
                    down.setValue(clamp(down.getValue() - dy, down));
                    grabX = e.getX();
                    grabY = e.getY();
                }
            }
        });
        setOnMouseClicked(e -> {
            if (!dragged && e.getTarget() == this) {
                bench.selectedProperty().set("");
            }
        });
    }

    private void stretch(double x, double y) {
        rubber.setVisible(!end.isEmpty());
        rubber.setEndX(x);
        rubber.setEndY(y);
    }

    /** Pointer of the cavity under a point of the view; empty where there is none. */
    private String cavityAt(double x, double y) {
        if (figure == null) {
            return "";
        }
        Figure.Region region = figure.at((x - overlay.getTranslateX()) / scale, (y - overlay.getTranslateY()) / scale);
        return region != null && region.pointer().startsWith("/cavities/") ? region.pointer() : "";
    }

    private void connect(String cavity) {
        String from = end;
        connecting.set(false);
        onConnect.accept(from, cavity);
    }

    /** A place was pointed at or entered: chosen, or an end of what is being joined. */
    private void picked(String pointer) {
        if (connecting.get() && pointer.startsWith("/cavities/")) {
            if (end.isEmpty()) {
                end = pointer;
            } else if (!end.equals(pointer)) {
                connect(pointer);
            }
            return;
        }
        bench.selectedProperty().set(pointer);
    }

    /** True while two cavities are being chosen to be joined: the first by a press, a click or Enter, the second likewise. */
    public BooleanProperty connectingProperty() {
        return connecting;
    }

    /** Told the pointers of the two cavities to join. */
    public void setOnConnect(BiConsumer<String, String> told) {
        onConnect = told;
    }

    private static double clamp(double value, ScrollBar bar) {
        return Math.max(bar.getMin(), Math.min(bar.getMax(), value));
    }

    /** Zoom as a factor; 0 fits the view. */
    public DoubleProperty zoomProperty() {
        return zoom;
    }

    /** Shows the whole drawing, however small: it was asked for. */
    public void fit() {
        everything = true;
        zoom.set(0);
        outdated = true;
        requestLayout();
    }

    /** Zooms about what is shown. */
    public void zoomBy(double factor) {
        zoom.set(Math.max(0.3, Math.min(4, scale * factor)));
    }

    @Override
    public String name() {
        return "barrier-section";
    }

    @Override
    public String csv() {
        return StateTable.csv(bench);
    }

    /** The drawing as it stands; null before there is one. */
    @Override
    public Figure figure() {
        return figure;
    }

    /** A picture of the bench's state at a width. */
    public static Picture picture(Workbench bench, double width) {
        Case model = bench.shownCase();
        if (model == null && bench.history().document() != null) {
            try {
                model = bench.history().document().toCase();
            } catch (CaseException e) {
                return null; // the findings list says why
            }
        }
        return model == null
                ? null
                : new Picture(
                        model,
                        bench.shownSolution(),
                        bench.shownFindings(),
                        bench.frozenSolution(),
                        bench.shownRedlines(),
                        bench.readoutProperty().get(),
                        bench.themeProperty().get(),
                        bench.layerProperty().get(),
                        width);
    }

    @Override
    protected void layoutChildren() {
        double w = getWidth();
        double h = getHeight();
        double bar = 12;
        across.resizeRelocate(0, h - bar, w - bar, bar);
        down.resizeRelocate(w - bar, 0, bar, h - bar);
        if (w != laidWidth || h != laidHeight) {
            laidWidth = w;
            laidHeight = h;
            outdated = true;
        }
        if (outdated) {
            outdated = false;
            redraw();
        }
    }

    private void redraw() {
        double w = getWidth();
        double h = getHeight();
        if (w < 10 || h < 10) {
            return;
        }
        // Read, so that the next change is told again.
        bench.outcomeProperty().get();
        Picture natural = picture(bench, 0);
        if (natural == null) {
            figure = null;
            overlay.getChildren().clear();
            places.clear();
            pointers = List.of();
            paint();
            return;
        }
        boolean toScale = bench.toScaleProperty().get();
        BarrierSection.Laid laid = BarrierSection.laid(natural, toScale);
        Dimension2D least = laid.size();
        double larger = bench.letteringProperty().get();
        scale = zoom.get() > 0
                ? zoom.get()
                : Math.max(
                        everything ? 0.05 : SMALLEST_FIT * larger,
                        Math.min(LARGEST_FIT * larger, Math.min(w / least.getWidth(), h / least.getHeight())));
        boolean wider = w / scale > least.getWidth();
        figure = wider ? BarrierSection.laid(picture(bench, w / scale), toScale).draw() : laid.draw();
        range(across, figure.width() * scale, w);
        range(down, figure.height() * scale, h);
        lay();
        paint();
    }

    /** A canvas of a size, made anew only when that changes. */
    private void sized(double w, double h) {
        if (canvas.getWidth() != w || canvas.getHeight() != h) {
            canvas.setWidth(w);
            canvas.setHeight(h);
        }
    }

    private static void range(ScrollBar bar, double content, double view) {
        double most = Math.max(0, content - view);
        bar.setMin(0);
        bar.setMax(most);
        bar.setVisibleAmount(content <= 0 ? 0 : most * view / content);
        bar.setUnitIncrement(40);
        bar.setBlockIncrement(view * 0.8);
        bar.setValue(clamp(bar.getValue(), bar));
        bar.setVisible(most > 1);
    }

    /** One path per region; kept while the places are the same, so that focus stays where it is. */
    private void lay() {
        List<String> now = figure.regions().stream().map(Figure.Region::pointer).toList();
        if (!now.equals(pointers)) {
            pointers = now;
            places.clear();
            for (String pointer : now) {
                places.add(place(pointer));
            }
            overlay.getChildren().setAll(places);
        }
        for (int i = 0; i < places.size(); i++) {
            Figure.Region region = figure.regions().get(i);
            Path path = places.get(i);
            path.getElements().setAll(Shapes.elements(region.shape(), scale, 0, 0));
            path.setAccessibleText(region.text());
        }
        choose();
    }

    private Path place(String pointer) {
        Path path = new Path();
        path.getStyleClass().add("place");
        path.setId("place:" + pointer);
        path.setFocusTraversable(true);
        path.setAccessibleRole(AccessibleRole.BUTTON);
        // A case of three hundred cavities has a thousand places: each gets its tip when it is first pointed at.
        path.setOnMouseEntered(e -> {
            Tooltip tip = (Tooltip) path.getProperties().get("tip");
            if (tip == null) {
                tip = new Tooltip();
                tip.setShowDelay(Duration.millis(350));
                tip.setWrapText(true);
                tip.setMaxWidth(380);
                tip.textProperty().bind(path.accessibleTextProperty());
                Tooltip.install(path, tip);
                path.getProperties().put("tip", tip);
            }
        });
        path.setOnMouseClicked(e -> {
            if (!dragged) {
                path.requestFocus();
                picked(pointer);
            }
            e.consume();
        });
        path.setOnKeyPressed(e -> {
            if (e.getCode() == KeyCode.ENTER || e.getCode() == KeyCode.SPACE) {
                picked(pointer);
                e.consume();
            }
        });
        path.focusedProperty().addListener((o, a, focused) -> {
            if (focused) {
                reveal(path);
            }
        });
        return path;
    }

    private void reveal(Path path) {
        var box = path.getBoundsInLocal();
        reveal(across, box.getMinX(), box.getMaxX(), getWidth());
        reveal(down, box.getMinY(), box.getMaxY(), getHeight());
    }

    private static void reveal(ScrollBar bar, double from, double to, double view) {
        if (from < bar.getValue()) {
            bar.setValue(clamp(from - 20, bar));
        } else if (to > bar.getValue() + view - 14) {
            bar.setValue(clamp(to - view + 34, bar));
        }
    }

    private void choose() {
        String selected = bench.selectedProperty().get();
        for (int i = 0; i < places.size(); i++) {
            places.get(i).pseudoClassStateChanged(CHOSEN, pointers.get(i).equals(selected));
        }
    }

    /** What is seen moves: a drawing that is painted whole is shifted, a larger one painted anew where it is looked at. */
    private void pan() {
        if (figure != null && whole) {
            shift();
        } else {
            paint();
        }
    }

    private double left() {
        return across.getMax() > 0
                ? -Math.rint(across.getValue())
                : Math.rint(Math.max(0, (getWidth() - figure.width() * scale) / 2));
    }

    private double upper() {
        return down.getMax() > 0 ? -Math.rint(down.getValue()) : 0;
    }

    private void shift() {
        overlay.setTranslateX(left());
        overlay.setTranslateY(upper());
        canvas.setTranslateX(across.getMax() > 0 ? left() : 0);
        canvas.setTranslateY(upper());
    }

    private void paint() {
        double w = getWidth();
        double h = getHeight();
        double fullWidth = figure == null ? w : Math.max(w, Math.ceil(figure.width() * scale));
        double fullHeight = figure == null ? h : Math.max(h, Math.ceil(figure.height() * scale));
        whole = fullWidth * fullHeight <= LARGEST_WHOLE;
        sized(whole ? fullWidth : w, whole ? fullHeight : h);
        GraphicsContext gc = canvas.getGraphicsContext2D();
        // The context keeps its transform from one painting to the next.
        gc.save();
        paint(gc, canvas.getWidth(), canvas.getHeight());
        gc.restore();
    }

    private void paint(GraphicsContext gc, double w, double h) {
        FXGraphics2D g = new FXGraphics2D(gc);
        g.setColor(bench.themeProperty().get().paper());
        g.fillRect(0, 0, (int) Math.ceil(w), (int) Math.ceil(h));
        if (figure == null) {
            canvas.setTranslateX(0);
            canvas.setTranslateY(0);
            return;
        }
        double dx = whole && across.getMax() > 0 ? 0 : left();
        double dy = whole ? 0 : upper();
        g.translate(dx, dy);
        g.scale(scale, scale);
        figure.paint(g, new java.awt.geom.Rectangle2D.Double(-dx / scale, -dy / scale, w / scale, h / scale));
        if (whole) {
            shift();
        } else {
            overlay.setTranslateX(dx);
            overlay.setTranslateY(dy);
            canvas.setTranslateX(0);
            canvas.setTranslateY(0);
        }
    }
}
