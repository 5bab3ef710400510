package purgewright.gui.views;

import java.util.List;
import javafx.scene.control.ComboBox;
import javafx.scene.control.Tooltip;
import javafx.scene.input.KeyCode;
import javafx.scene.input.KeyEvent;
import javafx.scene.input.MouseEvent;
import purgewright.figure.Figure;
import purgewright.figure.PurgeWindowChart;
import purgewright.gui.bench.Workbench;
import purgewright.gui.task.Desk;
import purgewright.gui.text.Texts;
import purgewright.hazard.service.MapSettings;
import purgewright.hazard.service.Progress;
import purgewright.hazard.sizing.Parameter;
import purgewright.hazard.sizing.PurgeWindow;
import purgewright.result.MapCsv;
import purgewright.sealflow.casefile.CaseDocument;
import purgewright.sealflow.casefile.CaseEdits;
import purgewright.sealflow.model.Case;

/** The purge window of the phase shown, with an operating point that can be dragged: the case follows, and with it all else. */
public final class PurgeWindowView extends StudyView<PurgeWindowView.Mapped> {
    /** A map and the phase it is of. */
    record Mapped(PurgeWindow map, String phase) {}

    private static final int POINTS = 9;

    private final Desk desk;
    private final ComboBox<String> across = new ComboBox<>();
    private final ComboBox<String> up = new ComboBox<>();
    private final FigureCanvas canvas;
    private PurgeWindowChart chart;
    private boolean dragging;

    /** A view of the bench's case. */
    public PurgeWindowView(Workbench bench, Desk desk) {
        super(bench, "map");
        this.desk = desk;
        for (ComboBox<String> axis : List.of(across, up)) {
            axis.setConverter(SizeView.words());
            axis.setPrefWidth(206);
            axis.setMinWidth(150);
        }
        across.setId("map x");
        across.setAccessibleText(Texts.of("view.map.x"));
        across.setTooltip(new Tooltip(Texts.of("view.map.x")));
        up.setId("map y");
        up.setAccessibleText(Texts.of("view.map.y"));
        up.setTooltip(new Tooltip(Texts.of("view.map.y")));
        control(across);
        control(up);
        canvas = new FigureCanvas(bench, this::draw, pointer -> {});
        canvas.setId("map canvas");
        canvas.addEventFilter(MouseEvent.MOUSE_PRESSED, e -> {
            Figure.Region region = chart == null ? null : chart.figure().at(e.getX() / larger(), e.getY() / larger());
            dragging = region != null && region.pointer().equals(PurgeWindowChart.OPERATING);
        });
        canvas.addEventFilter(MouseEvent.MOUSE_DRAGGED, e -> {
            if (dragging && chart != null) {
                move(
                        chart.across().si(chart.plot().acrossAt(e.getX() / larger())),
                        chart.up().si(chart.plot().upAt(e.getY() / larger())));
                e.consume();
            }
        });
        canvas.addEventFilter(MouseEvent.MOUSE_RELEASED, e -> {
            dragging = false;
            bench.history().settle();
        });
        canvas.addEventFilter(KeyEvent.KEY_PRESSED, this::key);
        body(canvas);
        bench.resultProperty().addListener((o, a, b) -> {
            choices();
            canvas.redraw();
        });
        bench.history().documentProperty().addListener(o -> canvas.redraw());
        choices();
    }

    private void choices() {
        Case model = bench.shownCase();
        if (model == null) {
            return;
        }
        List<String> now = Names.parameters(model);
        if (now.equals(across.getItems())) {
            return;
        }
        String x = across.getValue();
        String y = up.getValue();
        across.getItems().setAll(now);
        up.getItems().setAll(now);
        across.setValue(now.contains(x) ? x : now.isEmpty() ? null : now.get(0));
        up.setValue(now.contains(y) ? y : other(model, now));
    }

    /** The usual one; else the second number there is. */
    private static String other(Case model, List<String> all) {
        String usual = MapSettings.usualOther(model);
        return all.contains(usual) ? usual : all.size() > 1 ? all.get(1) : null;
    }

    private Case now() {
        return bench.shownCase();
    }

    @Override
    Mapped compute(CaseDocument document, Progress progress) {
        Case model = now();
        String x = across.getValue();
        String y = up.getValue();
        if (x == null || y == null || x.equals(y)) {
            throw new IllegalArgumentException(Texts.of("view.map.same"));
        }
        String phase = bench.shownPhase().name();
        MapSettings.Range wide = MapSettings.usual(model, x);
        MapSettings.Range high = MapSettings.usual(model, y);
        MapSettings settings =
                new MapSettings(x, wide.low(), wide.high(), y, high.low(), high.high(), POINTS, List.of(phase));
        return new Mapped(desk.map(document, settings, progress), phase);
    }

    @Override
    void show(Mapped mapped) {
        line("");
        canvas.redraw();
    }

    private double value(String place, double fallback) {
        Case model = now();
        return model != null && Names.known(model, place)
                ? Parameter.of(model, place).get(model)
                : fallback;
    }

    private Figure draw(double width, double height) {
        Mapped mapped = result();
        if (mapped == null) {
            chart = null;
            return null;
        }
        PurgeWindow map = mapped.map();
        chart = PurgeWindowChart.draw(
                map,
                Names.words(map.x()),
                Names.unit(map.x()),
                Names.words(map.y()),
                Names.unit(map.y()),
                value(map.x(), map.operatingX()),
                value(map.y(), map.operatingY()),
                bench.readoutProperty().get(),
                bench.themeProperty().get(),
                width,
                height);
        return chart.figure();
    }

    /** Moves the operating point: the case takes both numbers, in the phase of the map where that sets them. One gesture is one step. */
    private void move(double x, double y) {
        Mapped mapped = result();
        CaseDocument document = bench.history().document();
        if (mapped == null || document == null) {
            return;
        }
        PurgeWindow map = mapped.map();
        double sx = clamp(x, map.xs());
        double sy = clamp(y, map.ys());
        double around = now() == null ? 101325 : now().surroundings().pressure();
        CaseDocument after = Names.with(
                document,
                List.of(CaseEdits.inPhase(document, mapped.phase(), map.x())),
                Names.dimension(map.x()),
                around,
                sx);
        after = Names.with(
                after,
                List.of(CaseEdits.inPhase(document, mapped.phase(), map.y())),
                Names.dimension(map.y()),
                around,
                sy);
        bench.history().applyMerging("edit.point", map.x(), after);
    }

    private static double clamp(double value, List<Double> range) {
        return Math.max(range.get(0), Math.min(range.get(range.size() - 1), value));
    }

    /** Arrow keys move the operating point by a fiftieth of the range. */
    private void key(KeyEvent e) {
        Mapped mapped = result();
        boolean arrow = e.getCode() == KeyCode.LEFT
                || e.getCode() == KeyCode.RIGHT
                || e.getCode() == KeyCode.UP
                || e.getCode() == KeyCode.DOWN;
        if (mapped == null || !arrow) {
            return;
        }
        PurgeWindow map = mapped.map();
        double dx = (map.xs().get(map.xs().size() - 1) - map.xs().get(0)) / 50;
        double dy = (map.ys().get(map.ys().size() - 1) - map.ys().get(0)) / 50;
        double x = value(map.x(), map.operatingX());
        double y = value(map.y(), map.operatingY());
        switch (e.getCode()) {
            case LEFT -> move(x - dx, y);
            case RIGHT -> move(x + dx, y);
            case UP -> move(x, y + dy);
            default -> move(x, y - dy);
        }
        e.consume();
    }

    @Override
    boolean outdatedBy(CaseDocument now) {
        Mapped mapped = result();
        if (mapped == null) {
            return false;
        }
        // The two numbers of the map may move: that is what it is for.
        PurgeWindow map = mapped.map();
        return !plain(now, mapped.phase(), map).equals(plain(ran(), mapped.phase(), map));
    }

    private static CaseDocument plain(CaseDocument document, String phase, PurgeWindow map) {
        return document.without(CaseEdits.inPhase(document, phase, map.x()))
                .without(CaseEdits.inPhase(document, phase, map.y()));
    }

    @Override
    public void shown(boolean now) {
        canvas.shown(now);
    }

    /** Drawings grow with the text: positions on the canvas are larger than those in the drawing. */
    private double larger() {
        return bench.letteringProperty().get();
    }

    @Override
    public String name() {
        return "purge-window";
    }

    @Override
    public Figure figure() {
        return canvas.figure();
    }

    @Override
    public String csv() {
        return result() == null
                ? ""
                : MapCsv.write(
                        result().map(),
                        ran().hash(),
                        desk.version(),
                        desk.engine().name());
    }
}
