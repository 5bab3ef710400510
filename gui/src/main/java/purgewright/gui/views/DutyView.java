package purgewright.gui.views;

import java.util.ArrayList;
import java.util.List;
import java.util.TreeSet;
import java.util.function.BiFunction;
import javafx.geometry.Orientation;
import javafx.scene.control.Label;
import javafx.scene.control.ScrollPane;
import javafx.scene.control.SplitPane;
import javafx.scene.control.TableView;
import purgewright.figure.Figure;
import purgewright.figure.Readout;
import purgewright.figure.TimeChart;
import purgewright.gui.bench.Workbench;
import purgewright.gui.text.Texts;
import purgewright.hazard.service.Progress;
import purgewright.hazard.service.RunResult;
import purgewright.hazard.service.RunResult.PhaseUse;
import purgewright.sealflow.campaign.Channel;
import purgewright.sealflow.casefile.CaseDocument;

/** The duty through time: bottles, purge flow, barriers, margins. */
public final class DutyView extends StudyView<RunResult> {
    private final BiFunction<CaseDocument, Progress, RunResult> run;
    private static final double LEAST_HEIGHT = 560;

    private final FigureCanvas canvas;
    private final TableView<PhaseUse> phases = new TableView<>();
    /** Some rows of the tables, however low the window: the drawing can be scrolled too. */
    private static final double LEAST_TABLES = 132;

    private final TableView<RunResult.Moment> moments = new TableView<>();

    /**
     * @param run runs the duty of a case
     */
    public DutyView(Workbench bench, BiFunction<CaseDocument, Progress, RunResult> run) {
        super(bench, "duty");
        this.run = run;
        canvas = new FigureCanvas(bench, this::draw, this::go);
        canvas.setMinHeight(LEAST_HEIGHT);
        ScrollPane scroll = new ScrollPane(canvas);
        scroll.setFitToWidth(true);
        scroll.setFitToHeight(true);
        scroll.getStyleClass().add("drill-pane");
        phases.setId("duty phases");
        Tables.grow(phases, bench.letteringProperty());
        phases.setPlaceholder(new Label(Texts.of("view.duty.none")));
        phases.getColumns().add(Tables.verdict(Texts.of("findings.verdict"), PhaseUse::verdict));
        phases.getColumns().add(Tables.text(Texts.of("findings.phase"), PhaseUse::name, 110));
        phases.getColumns().add(Tables.number(Texts.of("view.duty.start"), p -> q(p.start(), "s"), 80));
        phases.getColumns().add(Tables.number(Texts.of("view.duty.used"), p -> q(p.gas(), "kg"), 90));
        phases.getColumns().add(Tables.number(Texts.of("view.duty.mean"), p -> q(p.meanFlow(), "kg/s"), 90));
        phases.getColumns().add(Tables.number(Texts.of("view.duty.peak"), p -> q(p.peakFlow(), "kg/s"), 90));
        phases.getColumns().add(Tables.number(Texts.of("view.duty.bank"), p -> q(p.bottlePressure(), "Pa"), 100));
        phases.getColumns().add(Tables.number(Texts.of("findings.margin"), p -> Readout.margin(p.leastMargin()), 84));
        phases.getColumns()
                .add(Tables.text(
                        Texts.of("view.duty.criterion"), p -> p.leastCriterion().replace('-', ' '), 150));
        moments.setId("duty moments");
        Tables.grow(moments, bench.letteringProperty());
        moments.setPlaceholder(new Label(Texts.of("view.duty.none")));
        moments.getColumns().add(Tables.number(Texts.of("view.duty.when"), m -> q(m.time(), "s"), 80));
        moments.getColumns().add(Tables.text(Texts.of("findings.what"), RunResult.Moment::what, 320));
        moments.setOnMouseClicked(e -> {
            RunResult.Moment m = moments.getSelectionModel().getSelectedItem();
            if (m != null) {
                go(m.place());
            }
        });
        SplitPane tables = new SplitPane(phases, moments);
        tables.setDividerPositions(0.66);
        tables.setMinHeight(LEAST_TABLES);
        SplitPane both = new SplitPane(scroll, tables);
        both.setOrientation(Orientation.VERTICAL);
        both.setDividerPositions(0.78);
        body(both);
    }

    private String q(double value, String unit) {
        return bench.readoutProperty().get().quantity(value, unit);
    }

    private void go(String place) {
        String[] parts = place.split("/");
        if (parts.length >= 3 && List.of("cavities", "passages", "duty").contains(parts[1])) {
            bench.selectedProperty().set("/" + parts[1] + "/" + parts[2]);
        }
    }

    @Override
    String missing(CaseDocument document) {
        return document.has("/duty") && !document.children("/duty").isEmpty() ? "" : Texts.of("view.duty.nothing");
    }

    @Override
    RunResult compute(CaseDocument document, Progress progress) {
        return run.apply(document, progress);
    }

    @Override
    void show(RunResult result) {
        Readout r = bench.readoutProperty().get();
        List<String> said = new ArrayList<>();
        said.add(result.verdictLine());
        said.add(Texts.of(
                "view.duty.gas",
                r.quantity(result.gas().used(), "kg"),
                result.gas().fluid()));
        if (!Double.isNaN(result.gas().usableAtEnd())) {
            said.add(Texts.of("view.duty.left", r.quantity(result.gas().usableAtEnd(), "kg")));
        }
        if (result.least() != null) {
            said.add(Texts.of(
                    "view.duty.least",
                    Readout.margin(result.least().margin()),
                    result.least().criterion().replace('-', ' '),
                    r.time(result.least().time()),
                    result.least().cause() == null ? "" : result.least().cause().what()));
        }
        if (!result.note().isEmpty()) {
            said.add(result.note());
        }
        line(String.join("  ·  ", said));
        phases.getItems().setAll(result.phases());
        moments.setPlaceholder(new Label(Texts.of("view.duty.quiet")));
        moments.getItems()
                .setAll(result.moments().stream()
                        .filter(m -> m.event() != RunResult.Event.PHASE)
                        .toList());
        canvas.redraw();
    }

    private Figure draw(double width, double height) {
        if (result() == null) {
            return null;
        }
        return TimeChart.of(
                result(), bench.readoutProperty().get(), bench.themeProperty().get(), width, height);
    }

    @Override
    public void shown(boolean now) {
        canvas.shown(now);
    }

    @Override
    public String name() {
        return "duty";
    }

    @Override
    public Figure figure() {
        return canvas.figure();
    }

    @Override
    public String csv() {
        if (result() == null) {
            return "";
        }
        TreeSet<Double> times = new TreeSet<>();
        List<Object> heads = new ArrayList<>(List.of("time_s"));
        for (Channel c : result().channels()) {
            heads.add(c.name() + " [" + c.unit() + "]");
            for (int i = 0; i < c.size(); i++) {
                times.add(c.time(i));
            }
        }
        Csv csv = new Csv("duty", ran()).line(heads.toArray());
        for (double t : times) {
            List<Object> cells = new ArrayList<>(List.of((Object) t));
            result().channels().forEach(c -> cells.add(c.at(t)));
            csv.line(cells.toArray());
        }
        return csv.toString();
    }
}
