package purgewright.gui.views;

import java.util.ArrayList;
import java.util.List;
import javafx.scene.control.Button;
import javafx.scene.control.ComboBox;
import javafx.scene.control.Label;
import javafx.scene.control.TableView;
import javafx.scene.control.Tooltip;
import javafx.scene.layout.HBox;
import javafx.scene.layout.Priority;
import javafx.scene.layout.VBox;
import javafx.util.StringConverter;
import purgewright.figure.Figure;
import purgewright.figure.Picture;
import purgewright.figure.Readout;
import purgewright.figure.TableFigure;
import purgewright.gui.bench.Workbench;
import purgewright.gui.task.Desk;
import purgewright.gui.text.Texts;
import purgewright.hazard.finding.Verdict;
import purgewright.hazard.service.Progress;
import purgewright.hazard.service.SizeSettings;
import purgewright.hazard.sizing.Redline;
import purgewright.hazard.sizing.SizeResult;
import purgewright.hazard.sizing.WearLimit;
import purgewright.sealflow.casefile.CaseDocument;
import purgewright.sealflow.casefile.CaseEdits;
import purgewright.sealflow.model.Case;

/** The least purge that meets every criterion, its redlines, and how far each seal may wear; taken over with one click. */
public final class SizeView extends StudyView<SizeResult> {
    private final Desk desk;
    private final ComboBox<String> parameter = new ComboBox<>();
    private final Button take = new Button(Texts.of("view.size.take"));
    private final Label answer = new Label();
    private final TableView<Redline> redlines = new TableView<>();
    private final TableView<WearLimit> wear = new TableView<>();

    /** A view of the bench's case. */
    public SizeView(Workbench bench, Desk desk) {
        super(bench, "size");
        this.desk = desk;
        parameter.setId("size parameter");
        parameter.setAccessibleText(Texts.of("view.size.parameter"));
        parameter.setTooltip(new Tooltip(Texts.of("view.size.parameter")));
        parameter.setConverter(words());
        parameter.setPrefWidth(230);
        parameter.setMinWidth(190);
        control(parameter);
        bench.resultProperty().addListener((o, a, b) -> choices());
        choices();
        take.setId("take size");
        take.setDisable(true);
        take.setTooltip(new Tooltip(Texts.of("view.size.take.tip")));
        take.setMinWidth(USE_PREF_SIZE);
        take.setOnAction(e -> take());
        answer.setWrapText(true);
        answer.setMaxWidth(Double.MAX_VALUE);
        HBox.setHgrow(answer, Priority.ALWAYS);
        HBox top = new HBox(answer, take);
        top.getStyleClass().add("view-line");
        redlines.setId("redlines");
        redlines.setPlaceholder(new Label(Texts.of("view.size.none")));
        redlines.getColumns().add(Tables.text(Texts.of("view.size.reading"), Redline::name, 230));
        redlines.getColumns()
                .add(Tables.text(
                        Texts.of("view.size.trips"),
                        r -> Texts.of(r.lowest() ? "view.size.below" : "view.size.above"),
                        80));
        redlines.getColumns().add(Tables.number(Texts.of("view.size.redline"), this::redline, 120));
        redlines.getColumns().add(Tables.number(Texts.of("view.size.physical"), r -> q(r.physical(), r.unit()), 146));
        redlines.getColumns()
                .add(Tables.number(Texts.of("view.size.uncertainty"), r -> difference(r.uncertainty(), r.unit()), 110));
        redlines.getColumns()
                .add(Tables.number(
                        Texts.of("view.size.change"), r -> r.usable() ? difference(r.change(), r.unit()) : "", 110));
        redlines.getColumns().add(Tables.number(Texts.of("view.size.nominal"), r -> q(r.nominal(), r.unit()), 120));
        redlines.getColumns()
                .add(Tables.verdict(
                        Texts.of("view.size.usable"), r -> r.usable() ? Verdict.HOLDS : Verdict.FALLS_SHORT));
        redlines.getColumns().add(Tables.text(Texts.of("view.size.reason"), Redline::reason, 520));
        wear.setId("wear");
        wear.setPlaceholder(new Label(Texts.of("view.size.none")));
        wear.getColumns().add(Tables.text(Texts.of("view.size.seal"), WearLimit::passage, 230));
        wear.getColumns().add(Tables.number(Texts.of("view.size.drawn"), w -> q(w.clearance(), "m"), 130));
        wear.getColumns().add(Tables.number(Texts.of("view.size.limit"), w -> q(w.limit(), "m"), 130));
        wear.getColumns().add(Tables.number(Texts.of("view.size.factor"), w -> Readout.number(w.factor(), 3), 110));
        wear.getColumns()
                .add(Tables.text(Texts.of("view.size.lost"), w -> w.lost().replace('-', ' '), 190));
        wear.getColumns().add(Tables.text(Texts.of("findings.where"), w -> last(w.where()), 150));
        wear.getColumns().add(Tables.text(Texts.of("findings.phase"), WearLimit::phase, 110));
        redlines.setMinHeight(120);
        redlines.setPrefHeight(190);
        wear.setMinHeight(90);
        wear.setPrefHeight(150);
        VBox body = new VBox(top, title("view.size.redlines"), redlines, title("view.size.wear"), wear);
        VBox.setVgrow(redlines, Priority.ALWAYS);
        VBox.setVgrow(wear, Priority.ALWAYS);
        body(body);
    }

    private static Label title(String key) {
        Label label = new Label(Texts.of(key));
        label.getStyleClass().addAll("heading", "view-heading");
        return label;
    }

    private static String last(String where) {
        return where.isEmpty() ? "" : CaseEdits.last(where);
    }

    private String q(double value, String unit) {
        return bench.readoutProperty().get().quantity(value, unit);
    }

    /** A value beyond all running protects nothing: said as such, not as a number. */
    private String redline(Redline r) {
        return r.usable() ? q(r.redline(), r.unit()) : Texts.of("view.size.nothing");
    }

    private String difference(double value, String unit) {
        Readout r = bench.readoutProperty().get();
        return unit.equals("Pa")
                ? Double.isFinite(value) ? r.pressureDifference(value) : Readout.number(value, 3)
                : r.quantity(value, unit);
    }

    static StringConverter<String> words() {
        return new StringConverter<>() {
            @Override
            public String toString(String place) {
                return place == null ? "" : Names.words(place);
            }

            @Override
            public String fromString(String text) {
                return text;
            }
        };
    }

    private void choices() {
        Case model = bench.shownCase();
        if (model == null) {
            return;
        }
        List<String> now = Names.parameters(model);
        if (!now.equals(parameter.getItems())) {
            String before = parameter.getValue();
            parameter.getItems().setAll(now);
            parameter.setValue(now.contains(before) ? before : now.isEmpty() ? null : now.get(0));
        }
    }

    @Override
    SizeResult compute(CaseDocument document, Progress progress) {
        String place = parameter.getValue();
        SizeSettings settings = place == null
                ? SizeSettings.DEFAULT
                : SizeSettings.DEFAULT.withParameter(place, Double.NaN, Double.NaN);
        return desk.size(document, settings, progress);
    }

    @Override
    void show(SizeResult result) {
        line(Names.plain(result.line(), bench.history().document()));
        String place = place(result);
        String unit = Names.unit(place);
        answer.setText(Texts.of(
                "view.size.answer",
                Names.words(place),
                q(first(result).stated(), unit),
                q(first(result).value(), unit),
                Double.isNaN(result.statedPurge()) ? "–" : q(result.statedPurge(), "kg/s"),
                Double.isNaN(result.at().purge()) ? "–" : q(result.at().purge(), "kg/s")));
        redlines.getItems().setAll(result.redlines());
        wear.getItems().setAll(result.wear());
        take.setDisable(!result.feasible() || !current());
        if (current()) {
            List<Picture.Redline> marks = new ArrayList<>();
            for (Redline r : result.redlines()) {
                boolean shown = r.place().startsWith("/cavities/")
                        && (r.unit().equals("Pa") || r.unit().equals("K"))
                        && r.usable()
                        && Double.isFinite(r.redline());
                if (shown) {
                    marks.add(new Picture.Redline(
                            CaseEdits.last(r.place()), r.unit().equals("Pa"), r.redline(), r.lowest(), false));
                }
            }
            bench.proposedRedlines().setAll(marks);
        }
    }

    private static SizeResult.Chosen first(SizeResult result) {
        return result.design().get(0);
    }

    private static String place(SizeResult result) {
        return first(result).variable().place();
    }

    /** Puts the least value into the case; phases that state their own keep it, as they did when it was judged. */
    private void take() {
        SizeResult result = result();
        if (result == null || !current()) {
            return;
        }
        CaseDocument document = ran();
        double surroundings = bench.shownCase() == null
                ? 101325
                : bench.shownCase().surroundings().pressure();
        // The value has four digits already, and was judged with them.
        CaseDocument after = Names.with(
                document,
                List.of(place(result)),
                Names.dimension(place(result)),
                surroundings,
                first(result).value());
        bench.history().apply("edit.size", place(result), after);
        take.setDisable(true);
    }

    @Override
    public String name() {
        return "purge-size";
    }

    @Override
    public Figure figure() {
        if (result() == null) {
            return null;
        }
        List<List<TableFigure.Cell>> rows = new ArrayList<>();
        for (Redline r : result().redlines()) {
            rows.add(List.of(
                    new TableFigure.Cell(r.name(), r.usable() ? Verdict.HOLDS : Verdict.FALLS_SHORT, false),
                    TableFigure.Cell.of(Texts.of(r.lowest() ? "view.size.below" : "view.size.above")),
                    TableFigure.Cell.number(redline(r)),
                    TableFigure.Cell.number(q(r.physical(), r.unit())),
                    TableFigure.Cell.number(q(r.nominal(), r.unit()))));
        }
        for (WearLimit w : result().wear()) {
            rows.add(List.of(
                    TableFigure.Cell.of(Texts.of("view.size.wearrow", w.passage())),
                    TableFigure.Cell.of(w.lost().replace('-', ' ')),
                    TableFigure.Cell.number(q(w.limit(), "m")),
                    TableFigure.Cell.number(Readout.number(w.factor(), 3)),
                    TableFigure.Cell.number(q(w.clearance(), "m"))));
        }
        return TableFigure.draw(
                answer.getText(),
                List.of(
                        Texts.of("view.size.reading"),
                        Texts.of("view.size.trips"),
                        Texts.of("view.size.redline"),
                        Texts.of("view.size.physical"),
                        Texts.of("view.size.nominal")),
                rows,
                bench.themeProperty().get());
    }

    @Override
    public String csv() {
        if (result() == null) {
            return "";
        }
        Csv csv = new Csv("size", ran())
                .line(
                        "what",
                        "place",
                        "kind",
                        "value",
                        "unit",
                        "physical_or_drawn",
                        "nominal_or_factor",
                        "usable",
                        "why");
        csv.line(
                "least value",
                place(result()),
                result().verdict().word(),
                first(result()).value(),
                Names.unit(place(result())),
                first(result()).stated(),
                Double.NaN,
                result().feasible(),
                result().line());
        for (Redline r : result().redlines()) {
            csv.line(
                    "redline of " + r.name(),
                    r.place(),
                    r.lowest() ? "lowest" : "highest",
                    r.redline(),
                    r.unit(),
                    r.physical(),
                    r.nominal(),
                    r.usable(),
                    r.reason());
        }
        for (WearLimit w : result().wear()) {
            csv.line(
                    "wear of " + w.passage(),
                    w.where(),
                    w.lost(),
                    w.limit(),
                    "m",
                    w.clearance(),
                    w.factor(),
                    "",
                    w.phase());
        }
        return csv.toString();
    }
}
