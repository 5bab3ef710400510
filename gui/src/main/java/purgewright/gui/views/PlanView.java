package purgewright.gui.views;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.function.BiFunction;
import java.util.stream.Collectors;
import javafx.geometry.Orientation;
import javafx.scene.control.Label;
import javafx.scene.control.SplitPane;
import javafx.scene.control.TableView;
import purgewright.figure.Figure;
import purgewright.figure.PlanChart;
import purgewright.gui.bench.Workbench;
import purgewright.gui.text.Texts;
import purgewright.hazard.service.PlanResult;
import purgewright.hazard.service.PlanResult.PlanEvent;
import purgewright.hazard.service.Progress;
import purgewright.sealflow.casefile.CaseDocument;

/** A campaign: what to order, when to swap, what it costs. */
public final class PlanView extends StudyView<PlanResult> {
    private final BiFunction<CaseDocument, Progress, PlanResult> plan;
    private final FigureCanvas canvas;
    private final TableView<PlanEvent> calendar = new TableView<>();

    /**
     * @param plan plans the campaign of a case
     */
    public PlanView(Workbench bench, BiFunction<CaseDocument, Progress, PlanResult> plan) {
        super(bench, "plan");
        this.plan = plan;
        canvas = new FigureCanvas(bench, this::draw, pointer -> {});
        calendar.setId("calendar");
        Tables.grow(calendar, bench.letteringProperty());
        calendar.setPlaceholder(new Label(Texts.of("view.plan.none")));
        calendar.getColumns().add(Tables.number(Texts.of("view.plan.day"), e -> Integer.toString(e.day()), 60));
        calendar.getColumns()
                .add(Tables.number(
                        Texts.of("view.plan.attempt"), e -> e.attempt() == 0 ? "" : Integer.toString(e.attempt()), 80));
        calendar.getColumns().add(Tables.text(Texts.of("view.plan.what"), PlanEvent::what, 110));
        calendar.getColumns().add(Tables.text(Texts.of("view.plan.detail"), PlanEvent::detail, 300));
        calendar.getColumns().add(Tables.number(Texts.of("view.plan.gas"), e -> q(e.gas(), "kg"), 100));
        calendar.getColumns()
                .add(Tables.number(
                        Texts.of("view.plan.pressures"),
                        e -> e.pressures().stream().map(p -> q(p, "Pa")).collect(Collectors.joining("; ")),
                        190));
        calendar.getColumns().add(Tables.number(Texts.of("view.plan.left"), e -> q(e.left(), "kg"), 100));
        calendar.getColumns()
                .add(Tables.number(
                        Texts.of("view.plan.bottles"),
                        e -> e.bottles() == 0 ? "" : Integer.toString(e.bottles()),
                        110));
        SplitPane both = new SplitPane(canvas, calendar);
        both.setOrientation(Orientation.VERTICAL);
        both.setDividerPositions(0.66);
        body(both);
    }

    private String q(double value, String unit) {
        return bench.readoutProperty().get().quantity(value, unit);
    }

    @Override
    String missing(CaseDocument document) {
        return document.has("/campaign") && !document.children("/campaign").isEmpty()
                ? ""
                : Texts.of("view.plan.nothing");
    }

    @Override
    PlanResult compute(CaseDocument document, Progress progress) {
        return plan.apply(document, progress);
    }

    @Override
    void show(PlanResult result) {
        List<String> said = new ArrayList<>();
        var order = result.order();
        said.add(Texts.of(
                "view.plan.order",
                Integer.toString(order.bottles()),
                result.gas(),
                Integer.toString(order.swaps()),
                Integer.toString(order.days()),
                q(order.gasUsed(), "kg")));
        if (!Double.isNaN(order.cost())) {
            said.add(Texts.of("view.plan.cost", String.format(Locale.ROOT, "%.0f", order.cost()), order.currency()));
        }
        if (result.spread() != null) {
            said.add(Texts.of(
                    "view.plan.spread",
                    Integer.toString(result.spread().p50()),
                    Integer.toString(result.spread().p95())));
        }
        said.add(Texts.of("view.plan.perbank", Integer.toString(result.supply().attemptsPerBank())));
        said.addAll(result.notes());
        line(String.join("  ·  ", said));
        calendar.getItems().setAll(result.events());
        canvas.redraw();
    }

    private Figure draw(double width, double height) {
        return result() == null
                ? null
                : PlanChart.draw(
                        result(),
                        bench.readoutProperty().get(),
                        bench.themeProperty().get(),
                        width,
                        height);
    }

    @Override
    public void shown(boolean now) {
        canvas.shown(now);
    }

    @Override
    public String name() {
        return "campaign";
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
        Csv csv = new Csv("campaign", ran())
                .line("day", "attempt", "what", "detail", "gas_kg", "pressures_Pa", "left_kg", "new_bottles");
        for (PlanEvent e : result().events()) {
            csv.line(
                    e.day(),
                    e.attempt(),
                    e.what(),
                    e.detail(),
                    e.gas(),
                    e.pressures().stream().map(Object::toString).collect(Collectors.joining("; ")),
                    e.left(),
                    e.bottles());
        }
        return csv.toString();
    }
}
