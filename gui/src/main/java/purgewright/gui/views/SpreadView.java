package purgewright.gui.views;

import java.util.List;
import javafx.beans.binding.Bindings;
import javafx.scene.control.ComboBox;
import javafx.scene.control.ScrollPane;
import javafx.scene.control.Tooltip;
import javafx.util.StringConverter;
import purgewright.figure.Figure;
import purgewright.figure.SpreadChart;
import purgewright.gui.bench.Workbench;
import purgewright.gui.text.Texts;
import purgewright.hazard.service.Progress;
import purgewright.hazard.service.SpreadService;
import purgewright.hazard.studies.SpreadResult;
import purgewright.hazard.studies.SpreadSettings;
import purgewright.sealflow.casefile.CaseDocument;

/** What is uncertain and what it does: probability that the separation holds, histogram, tornado. */
public final class SpreadView extends StudyView<SpreadResult> {
    /** Runs a spread. */
    public interface Runner {
        /** The spread of a case with settings. */
        SpreadResult run(CaseDocument document, SpreadSettings settings, Progress progress);
    }

    private static final List<Integer> SIZES = List.of(100, 300, 1000, 3000, 10000);

    private final Runner runner;
    private final ComboBox<Integer> samples = new ComboBox<>();
    private final ComboBox<SpreadResult.OutputSpread> output = new ComboBox<>();
    /** Two charts, one above the other, need so much to be read. */
    private static final double LEAST_HEIGHT = 560;

    private final FigureCanvas canvas;

    /** A view of the bench's case. */
    public SpreadView(Workbench bench, Runner runner) {
        super(bench, "spread");
        this.runner = runner;
        samples.setId("samples");
        samples.getItems().setAll(SIZES);
        samples.setValue(SIZES.get(1));
        samples.setAccessibleText(Texts.of("view.spread.samples"));
        samples.setTooltip(new Tooltip(Texts.of("view.spread.samples")));
        samples.setConverter(new StringConverter<>() {
            @Override
            public String toString(Integer n) {
                return Texts.of("view.spread.count", n == null ? "" : n.toString());
            }

            @Override
            public Integer fromString(String text) {
                return SIZES.get(0);
            }
        });
        output.setId("spread output");
        output.setPrefWidth(240);
        output.setAccessibleText(Texts.of("view.spread.output"));
        output.setTooltip(new Tooltip(Texts.of("view.spread.output")));
        output.setConverter(new StringConverter<>() {
            @Override
            public String toString(SpreadResult.OutputSpread o) {
                return o == null ? "" : o.name();
            }

            @Override
            public SpreadResult.OutputSpread fromString(String text) {
                return null;
            }
        });
        output.disableProperty().bind(Bindings.isEmpty(output.getItems()));
        control(output);
        control(samples);
        canvas = new FigureCanvas(bench, this::draw, this::go);
        output.valueProperty().addListener((o, a, b) -> canvas.redraw());
        canvas.setMinHeight(LEAST_HEIGHT);
        ScrollPane scroll = new ScrollPane(canvas);
        scroll.setFitToWidth(true);
        scroll.setFitToHeight(true);
        scroll.getStyleClass().add("drill-pane");
        body(scroll);
    }

    private void go(String place) {
        String[] parts = place.split("/");
        if (parts.length >= 3 && (parts[1].equals("cavities") || parts[1].equals("passages"))) {
            bench.selectedProperty().set("/" + parts[1] + "/" + parts[2]);
        }
    }

    @Override
    String missing(CaseDocument document) {
        return document.has("/uncertain") && !document.children("/uncertain").isEmpty()
                ? ""
                : Texts.of("view.spread.nothing");
    }

    @Override
    SpreadResult compute(CaseDocument document, Progress progress) {
        return runner.run(document, SpreadService.settings(document).withSamples(samples.getValue()), progress);
    }

    @Override
    void show(SpreadResult result) {
        line(result.verdictLine());
        String before = output.getValue() == null ? "" : output.getValue().place();
        List<SpreadResult.OutputSpread> outputs = result.outputs();
        output.getItems().setAll(outputs);
        output.setValue(outputs.stream()
                .filter(o -> o.place().equals(before))
                .findFirst()
                .orElse(outputs.isEmpty() ? null : outputs.get(0)));
        canvas.redraw();
    }

    private Figure draw(double width, double height) {
        return result() == null || output.getValue() == null
                ? null
                : SpreadChart.draw(
                        result(),
                        output.getValue(),
                        Names::words,
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
        return "spread";
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
        SpreadResult result = result();
        Csv csv = new Csv("spread", ran());
        csv.line("what", "output", "input", "low_or_share", "value", "high", "unit", "count");
        csv.line(
                "probability that the separation holds",
                "",
                "",
                result.holds().low(),
                result.holds().estimate(),
                result.holds().high(),
                "1",
                result.counts().done());
        for (SpreadResult.OutputSpread o : result.outputs()) {
            for (int i = 0; i < o.shares().size(); i++) {
                csv.line(
                        "quantile",
                        o.place(),
                        "",
                        o.shares().get(i),
                        o.quantiles().get(i),
                        Double.NaN,
                        o.unit(),
                        o.count());
            }
            for (int i = 0; i < o.bars().size(); i++) {
                csv.line(
                        "bar",
                        o.place(),
                        "",
                        o.edges().get(i),
                        (double) o.bars().get(i),
                        o.edges().get(i + 1),
                        o.unit(),
                        "");
            }
        }
        for (SpreadResult.TornadoBar t : result.tornado()) {
            csv.line("tornado", t.output(), t.input(), t.atLow(), t.nominal(), t.atHigh(), "", "");
        }
        return csv.toString();
    }
}
