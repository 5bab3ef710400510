package purgewright.gui.views;

import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;
import java.util.function.Function;
import java.util.stream.Collectors;
import javafx.scene.control.Button;
import javafx.scene.control.CheckBox;
import javafx.scene.control.CheckMenuItem;
import javafx.scene.control.ComboBox;
import javafx.scene.control.Label;
import javafx.scene.control.MenuButton;
import javafx.scene.control.TableView;
import javafx.scene.control.Tooltip;
import javafx.scene.layout.FlowPane;
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
import purgewright.hazard.sizing.Objective;
import purgewright.hazard.sizing.Redline;
import purgewright.hazard.sizing.SizeResult;
import purgewright.hazard.sizing.WearLimit;
import purgewright.sealflow.casefile.CaseDocument;
import purgewright.sealflow.casefile.CaseEdits;
import purgewright.sealflow.model.Case;

/** The least purge that meets every criterion, its redlines, and how far each seal may wear; taken over with one click. */
public final class SizeView extends StudyView<SizeResult> {
    private static final String METRIC = "metric drills";

    private final Desk desk;
    private final MenuButton free = new MenuButton();
    private final ComboBox<Objective> objective = new ComboBox<>();
    private final ComboBox<Double> margin = new ComboBox<>();
    private final CheckBox scenarios = new CheckBox(Texts.of("view.size.scenarios"));
    private final CheckBox faults = new CheckBox(Texts.of("view.size.faults"));
    private final CheckBox drills = new CheckBox(Texts.of("view.size.drills"));
    /** Places that may be chosen, as ticked; kept while they are in the case. */
    private final Set<String> ticked = new LinkedHashSet<>();

    private final Button take = new Button(Texts.of("view.size.take"));
    private final Label answer = new Label();
    private final TableView<Redline> redlines = new TableView<>();
    private final TableView<WearLimit> wear = new TableView<>();
    private List<String> offered = List.of();
    private volatile SizeSettings settings = SizeSettings.DEFAULT;

    /** A view of the bench's case. */
    public SizeView(Workbench bench, Desk desk) {
        super(bench, "size");
        this.desk = desk;
        free.setId("size free");
        free.setAccessibleText(Texts.of("view.size.parameter"));
        free.setTooltip(new Tooltip(Texts.of("view.size.parameter")));
        free.setMaxWidth(340);
        objective.setId("size objective");
        objective.getItems().setAll(Objective.values());
        objective.setValue(SizeSettings.DEFAULT.objective());
        objective.setConverter(shown(o -> Texts.of("view.size.least", o.words())));
        objective.setAccessibleText(Texts.of("view.size.objective"));
        margin.setId("size margin");
        margin.getItems().setAll(0.0, 0.1, 0.25, 0.5);
        margin.setValue(0.0);
        margin.setConverter(shown(m -> m == 0
                ? Texts.of("view.size.justmet")
                : Texts.of("view.size.kept", Long.toString(Math.round(m * 100)))));
        margin.setAccessibleText(Texts.of("view.size.margin"));
        scenarios.setSelected(true);
        scenarios.setId("size scenarios");
        faults.setId("size faults");
        drills.setId("size drills");
        drills.setTooltip(new Tooltip(Texts.of("view.size.drills.tip")));
        FlowPane asked = new FlowPane(free, objective, margin, scenarios, faults, drills);
        asked.getStyleClass().add("asked");
        bench.resultProperty().addListener((o, a, b) -> choices());
        choices();
        take.setId("take size");
        take.setDisable(true);
        take.setTooltip(new Tooltip(Texts.of("view.size.take.tip")));
        take.setMinWidth(USE_PREF_SIZE);
        take.setOnAction(e -> take());
        answer.setWrapText(true);
        answer.setMaxWidth(Double.MAX_VALUE);
        answer.setMinHeight(USE_PREF_SIZE);
        HBox.setHgrow(answer, Priority.ALWAYS);
        HBox top = new HBox(answer, take);
        top.getStyleClass().add("view-line");
        redlines.setId("redlines");
        Tables.grow(redlines, bench.letteringProperty());
        redlines.setPlaceholder(new Label(Texts.of("view.size.none")));
        redlines.getColumns().add(Tables.text(Texts.of("view.size.reading"), Redline::label, 230));
        redlines.getColumns()
                .add(Tables.text(
                        Texts.of("view.size.trips"),
                        r -> Texts.of(r.lowest() ? "view.size.below" : "view.size.above"),
                        80));
        redlines.getColumns().add(Tables.number(Texts.of("view.size.redline"), this::redline, 120));
        redlines.getColumns().add(Tables.number(Texts.of("view.size.physical"), r -> q(r.physical(), r.unit()), 146));
        redlines.getColumns()
                .add(Tables.number(
                        Texts.of("view.size.uncertainty"), r -> q(r.uncertainty(), r.differenceUnit()), 110));
        redlines.getColumns()
                .add(Tables.number(
                        Texts.of("view.size.change"), r -> r.usable() ? q(r.change(), r.differenceUnit()) : "", 110));
        redlines.getColumns().add(Tables.number(Texts.of("view.size.nominal"), r -> q(r.nominal(), r.unit()), 120));
        redlines.getColumns()
                .add(Tables.verdict(
                        Texts.of("view.size.usable"), r -> r.usable() ? Verdict.HOLDS : Verdict.FALLS_SHORT));
        redlines.getColumns().add(Tables.text(Texts.of("view.size.reason"), Redline::reason, 520));
        wear.setId("wear");
        Tables.grow(wear, bench.letteringProperty());
        wear.setPlaceholder(new Label(Texts.of("view.size.none")));
        wear.getColumns().add(Tables.text(Texts.of("view.size.seal"), WearLimit::passage, 230));
        wear.getColumns().add(Tables.number(Texts.of("view.size.drawn"), w -> q(w.clearance(), "m"), 130));
        wear.getColumns().add(Tables.number(Texts.of("view.size.limit"), w -> q(w.printed(), "m"), 130));
        wear.getColumns().add(Tables.number(Texts.of("view.size.factor"), SizeView::factor, 110));
        wear.getColumns().add(Tables.text(Texts.of("view.size.lost"), SizeView::lost, 190));
        wear.getColumns().add(Tables.text(Texts.of("findings.where"), w -> last(w.where()), 150));
        wear.getColumns().add(Tables.text(Texts.of("findings.phase"), WearLimit::phase, 110));
        redlines.setMinHeight(120);
        redlines.setPrefHeight(190);
        wear.setMinHeight(90);
        wear.setPrefHeight(150);
        VBox body = new VBox(asked, top, title("view.size.redlines"), redlines, title("view.size.wear"), wear);
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

    /** As far as was looked at, never "infinitely". */
    static String factor(WearLimit w) {
        return w.beyond()
                ? Texts.of("view.size.beyond", Readout.number(WearLimit.LARGEST, 2))
                : Readout.number(w.factor(), 3);
    }

    static String lost(WearLimit w) {
        return w.lost() == null || w.lost().isEmpty()
                ? Texts.of("view.size.lost.nothing")
                : w.lost().replace('-', ' ');
    }

    /** A value beyond all running protects nothing: said as such, not as a number. */
    private String redline(Redline r) {
        return r.usable() ? q(r.redline(), r.unit()) : Texts.of("view.size.nothing");
    }

    private static <V> StringConverter<V> shown(Function<V, String> text) {
        return new StringConverter<>() {
            @Override
            public String toString(V value) {
                return value == null ? "" : text.apply(value);
            }

            @Override
            public V fromString(String typed) {
                return null;
            }
        };
    }

    static StringConverter<String> words() {
        return shown(Names::words);
    }

    /** One tick for each number that may be free. */
    private void choices() {
        Case model = bench.shownCase();
        if (model == null) {
            return;
        }
        List<String> now = Names.parameters(model);
        if (now.equals(offered)) {
            return;
        }
        offered = now;
        ticked.retainAll(now);
        if (ticked.isEmpty() && !now.isEmpty()) {
            ticked.add(now.get(0));
        }
        free.getItems().clear();
        for (String place : now) {
            CheckMenuItem item = new CheckMenuItem(Names.words(place));
            item.setId("free:" + place);
            item.setSelected(ticked.contains(place));
            item.selectedProperty().addListener((o, a, on) -> {
                if (on) {
                    ticked.add(place);
                } else {
                    ticked.remove(place);
                }
                named();
            });
            free.getItems().add(item);
        }
        named();
    }

    private void named() {
        free.setText(
                ticked.isEmpty()
                        ? Texts.of("view.size.free.none")
                        : Texts.of(
                                "view.size.free",
                                ticked.stream().map(Names::words).collect(Collectors.joining(", "))));
    }

    @Override
    SizeResult compute(CaseDocument document, Progress progress) {
        return desk.size(document, settings, progress);
    }

    /** Read on the window's thread, before the study leaves it. */
    @Override
    void prepare() {
        List<SizeSettings.Free> values = ticked.stream()
                .map(place -> new SizeSettings.Free(
                        place,
                        Double.NaN,
                        Double.NaN,
                        drills.isSelected() && place.endsWith("/diameter") ? METRIC : ""))
                .toList();
        settings = SizeSettings.DEFAULT
                .withFree(values)
                .withObjective(objective.getValue())
                .withMargin(margin.getValue())
                .withScenarios(scenarios.isSelected(), scenarios.isSelected())
                .withFaults(faults.isSelected() ? List.of(SizeSettings.ALL_FAULTS) : List.of());
    }

    @Override
    void show(SizeResult result) {
        line(Names.plain(result.line(), bench.history().document()));
        List<String> said = new ArrayList<>();
        for (SizeResult.Chosen chosen : result.design()) {
            String place = chosen.variable().place();
            said.add(Texts.of(
                    result.feasible()
                            ? (chosen.atBound() ? "view.size.chosen.bound" : "view.size.chosen")
                            : (chosen.atBound() ? "view.size.closest.bound" : "view.size.closest"),
                    Names.words(place),
                    q(chosen.stated(), Names.unit(place)),
                    q(chosen.value(), Names.unit(place))));
        }
        said.add(Texts.of(
                "view.size.flow",
                Double.isNaN(result.statedPurge()) ? "–" : q(result.statedPurge(), "kg/s"),
                Double.isNaN(result.at().purge()) ? "–" : q(result.at().purge(), "kg/s")));
        if (!result.feasible()) {
            result.conflicts().forEach(c -> said.add(Names.plain(c, ran())));
            for (SizeResult.Release r : result.releases()) {
                String unit = Names.known(bench.shownCase(), r.place()) ? Names.unit(r.place()) : "1";
                String one = Texts.of(
                        r.bound() ? "view.size.release.bound" : "view.size.release",
                        Names.words(r.place()),
                        q(r.stated(), unit),
                        q(r.needed(), unit));
                said.add(
                        r.phase().isEmpty() && r.criterion().isEmpty()
                                ? one
                                : Texts.of(
                                        "view.size.release.part",
                                        r.criterion().isEmpty()
                                                ? r.phase()
                                                : r.criterion().replace('-', ' ')
                                                        + (r.phase().isEmpty() ? "" : ", " + r.phase()),
                                        one));
            }
        }
        answer.setText(String.join("\n", said));
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
                            CaseEdits.last(r.place()),
                            r.unit().equals("Pa"),
                            r.redline(),
                            r.lowest(),
                            false,
                            r.phases()));
                }
            }
            bench.proposedRedlines().setAll(marks);
        }
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
        // The values have four digits already, and were judged with them.
        CaseDocument after = document;
        for (SizeResult.Chosen chosen : result.design()) {
            String place = chosen.variable().place();
            after = Names.with(after, List.of(place), Names.dimension(place), surroundings, chosen.value());
        }
        String places = result.design().stream()
                .map(c -> c.variable().place())
                .findFirst()
                .orElse("");
        bench.history().apply("edit.size", places, after);
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
                    new TableFigure.Cell(r.label(), r.usable() ? Verdict.HOLDS : Verdict.FALLS_SHORT, false),
                    TableFigure.Cell.of(Texts.of(r.lowest() ? "view.size.below" : "view.size.above")),
                    TableFigure.Cell.number(redline(r)),
                    TableFigure.Cell.number(q(r.physical(), r.unit())),
                    TableFigure.Cell.number(q(r.nominal(), r.unit()))));
        }
        for (WearLimit w : result().wear()) {
            rows.add(List.of(
                    TableFigure.Cell.of(Texts.of("view.size.wearrow", w.passage())),
                    TableFigure.Cell.of(lost(w)),
                    TableFigure.Cell.number(q(w.printed(), "m")),
                    TableFigure.Cell.number(factor(w)),
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
        for (SizeResult.Chosen chosen : result().design()) {
            csv.line(
                    "least value",
                    chosen.variable().place(),
                    result().verdict().word(),
                    chosen.value(),
                    Names.unit(chosen.variable().place()),
                    chosen.stated(),
                    Double.NaN,
                    result().feasible(),
                    result().line());
        }
        for (Redline r : result().redlines()) {
            csv.line(
                    "redline of " + r.label(),
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
