package purgewright.gui.views;

import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;
import java.util.function.Supplier;
import javafx.application.Platform;
import javafx.geometry.Pos;
import javafx.scene.control.Button;
import javafx.scene.control.Label;
import javafx.scene.control.ScrollPane;
import javafx.scene.control.TableColumn;
import javafx.scene.control.TableView;
import javafx.scene.control.ToggleButton;
import javafx.scene.layout.HBox;
import javafx.scene.layout.Priority;
import javafx.scene.layout.VBox;
import purgewright.figure.BarrierSection;
import purgewright.figure.Figure;
import purgewright.figure.Lettering;
import purgewright.figure.Picture;
import purgewright.figure.Readout;
import purgewright.figure.TableFigure;
import purgewright.gui.bench.Workbench;
import purgewright.gui.task.Desk;
import purgewright.gui.task.TaskRunner;
import purgewright.gui.task.Work;
import purgewright.gui.text.Texts;
import purgewright.hazard.finding.Finding;
import purgewright.hazard.finding.Verdict;
import purgewright.hazard.service.CheckResult;
import purgewright.hazard.service.Progress;
import purgewright.sealflow.casefile.CaseDocument;
import purgewright.sealflow.model.Role;
import purgewright.sealflow.network.SolveResult;

/** Several cases side by side: what stands in the window, the frozen state, states kept, other files. */
public final class CompareView extends VBox implements Shown {
    /** A column. */
    private record Side(String title, CheckResult result) {}

    /**
     * A line: a quantity of every case.
     *
     * @param values SI; NaN where there is none
     * @param verdicts of a line of margins or verdicts; null where there is none
     */
    private record Line(String label, String unit, List<Double> values, List<Verdict> verdicts) {}

    private static final double LEAST_HEIGHT = 420;
    private static final java.awt.Font TITLE = Lettering.font(java.awt.Font.BOLD, 13);

    private final Workbench bench;
    private final Desk desk;
    private final TableView<Line> table = new TableView<>();
    private final List<Side> kept = new ArrayList<>();
    private final Work<CheckResult> work = new Work<>(TaskRunner.background("compare"), Platform::runLater);
    private final ToggleButton drawn = new ToggleButton(Texts.of("view.compare.drawn"));
    private final Label alone = new Label(Texts.of("view.compare.alone"));
    private final FigureCanvas canvas;
    private final ScrollPane scroll;
    private List<Side> sides = List.of();
    private boolean shown;

    /**
     * @param other asks for another case; null when none is chosen
     */
    public CompareView(Workbench bench, Desk desk, Supplier<CaseDocument> other) {
        this.bench = bench;
        this.desk = desk;
        getStyleClass().add("figure-view");
        Label caption = new Label(Texts.of("view.compare.caption"));
        caption.getStyleClass().add("quiet");
        caption.setWrapText(true);
        caption.setMaxWidth(Double.MAX_VALUE);
        caption.setMinHeight(USE_PREF_SIZE);
        HBox.setHgrow(caption, Priority.ALWAYS);
        Button keep = button("view.compare.keep", this::keep);
        keep.disableProperty().bind(bench.resultProperty().isNull());
        Button add = button("view.compare.add", () -> {
            CaseDocument document = other.get();
            if (document != null) {
                add(document);
            }
        });
        add.disableProperty().bind(work.runningProperty());
        Button clear = button("view.compare.clear", () -> {
            kept.clear();
            rebuild();
        });
        drawn.setId("drawn compare");
        drawn.setMinWidth(USE_PREF_SIZE);
        drawn.setOnAction(e -> drawings());
        HBox top = new HBox(caption, drawn, keep, add, clear);
        top.getStyleClass().add("view-line");
        top.setAlignment(Pos.CENTER_LEFT);
        table.setId("compare");
        Tables.grow(table, bench.letteringProperty());
        table.setPlaceholder(new Label(Texts.of("view.compare.none")));
        VBox.setVgrow(table, Priority.ALWAYS);
        canvas = new FigureCanvas(bench, this::draw, pointer -> {});
        scroll = new ScrollPane(canvas);
        scroll.setFitToWidth(true);
        scroll.getStyleClass().add("drill-pane");
        VBox.setVgrow(scroll, Priority.ALWAYS);
        scroll.setVisible(false);
        scroll.setManaged(false);
        alone.getStyleClass().add("view-verdict");
        alone.setWrapText(true);
        alone.setMinHeight(USE_PREF_SIZE);
        alone.setMaxWidth(Double.MAX_VALUE);
        alone.managedProperty().bind(alone.visibleProperty());
        getChildren().addAll(top, alone, table, scroll);
        bench.themeProperty().addListener((o, a, b) -> rebuild());
        bench.resultProperty().addListener((o, a, b) -> rebuild());
        bench.referenceProperty().addListener((o, a, b) -> rebuild());
        bench.readoutProperty().addListener((o, a, b) -> rebuild());
    }

    private static Button button(String key, Runnable run) {
        Button button = new Button(Texts.of(key));
        button.setId(key.substring(key.lastIndexOf('.') + 1) + " compare");
        button.setMinWidth(USE_PREF_SIZE);
        button.setOnAction(e -> run.run());
        return button;
    }

    private void keep() {
        CheckResult result = bench.result();
        kept.add(new Side(title(result, Texts.of("view.compare.kept", Integer.toString(kept.size() + 1))), result));
        rebuild();
    }

    /** Takes a case in: checked off the window's thread. */
    public void add(CaseDocument document) {
        work.start(progress -> desk.check(document, null, Progress.NONE), result -> {
            kept.add(new Side(title(result, ""), result));
            rebuild();
        });
    }

    private static String title(CheckResult result, String more) {
        String title = result.document().text("/about/title").orElse(Texts.of("details.untitled"));
        String cut = title.length() > 34 ? title.substring(0, 33) + "…" : title;
        return more.isEmpty() ? cut : cut + "\n" + more;
    }

    private void rebuild() {
        if (!shown || bench.result() == null) {
            return;
        }
        List<Side> now = new ArrayList<>();
        now.add(new Side(title(bench.result(), Texts.of("view.compare.now")), bench.result()));
        if (bench.referenceProperty().get() != null) {
            now.add(new Side(
                    title(bench.referenceProperty().get(), Texts.of("view.compare.frozen")),
                    bench.referenceProperty().get()));
        }
        now.addAll(kept);
        sides = now;
        table.getColumns().clear();
        table.getColumns().add(Tables.text(Texts.of("view.compare.quantity"), Line::label, 280));
        for (int i = 0; i < now.size(); i++) {
            int column = i;
            TableColumn<Line, String> each = Tables.number(now.get(i).title(), l -> cell(l, column), 220);
            table.getColumns().add(each);
        }
        table.getItems().setAll(lines(now));
        alone.setVisible(now.size() == 1);
        canvas.shown(shown && drawn.isSelected());
    }

    private void drawings() {
        boolean on = drawn.isSelected();
        table.setVisible(!on);
        table.setManaged(!on);
        scroll.setVisible(on);
        scroll.setManaged(on);
        canvas.setMinHeight(LEAST_HEIGHT * Math.max(1, sides.size()));
        canvas.shown(shown && on);
    }

    /** One section above the other at one scale; from the second on with the first as ghost lines. */
    private Figure draw(double width, double height) {
        if (sides.isEmpty()) {
            return null;
        }
        List<Figure> figures = new ArrayList<>();
        double widest = 0;
        for (Side side : sides) {
            CheckResult.PhaseResult phase = phase(side);
            if (phase == null) {
                continue;
            }
            SolveResult.Converged first = side == sides.get(0) ? null : state(sides.get(0));
            Figure figure = BarrierSection.draw(new Picture(
                    phase.model(),
                    (SolveResult.Converged) phase.solve(),
                    phase.findings(),
                    first,
                    Picture.stated(phase.model()),
                    bench.readoutProperty().get(),
                    bench.themeProperty().get(),
                    bench.layerProperty().get(),
                    width));
            figures.add(figure);
            widest = Math.max(widest, figure.width());
        }
        double scale = Math.min(1, width / Math.max(1, widest));
        Figure.Builder b = new Figure.Builder(bench.themeProperty().get());
        double y = 8;
        int i = 0;
        for (Side side : sides) {
            if (phase(side) == null) {
                continue;
            }
            Figure figure = figures.get(i++);
            String title = side.title().replace("\n", " – ");
            b.text(
                    "title",
                    title,
                    14,
                    y + 12,
                    TITLE,
                    bench.themeProperty().get().ink());
            b.include(figure, 0, y + 20, scale);
            y += 20 + figure.height() * scale + 14;
        }
        double tall = y;
        if (Math.abs(canvas.getMinHeight() - tall) > 1) {
            Platform.runLater(() -> canvas.setMinHeight(tall));
        }
        return b.build(width, tall, Texts.of("view.compare.drawing"));
    }

    private static CheckResult.PhaseResult phase(Side side) {
        SolveResult.Converged state = state(side);
        return side.result().phases().stream()
                .filter(p -> p.solve() == state)
                .findFirst()
                .orElse(null);
    }

    private String cell(Line line, int column) {
        Readout r = bench.readoutProperty().get();
        double value = line.values().get(column);
        Verdict verdict = line.verdicts() == null ? null : line.verdicts().get(column);
        if (line.unit().equals("verdict")) {
            return verdict == null ? "–" : verdict.word();
        }
        if (Double.isNaN(value)) {
            return verdict == null ? "–" : verdict.word();
        }
        String text = line.unit().equals("margin") ? Readout.margin(value) : r.quantity(value, line.unit());
        double first = line.values().get(0);
        if (column == 0 || Double.isNaN(first) || first == value) {
            return text;
        }
        // A difference of margins is in points of a hundred; all else relative to the first column.
        double change = line.unit().equals("margin") ? value - first : (value - first) / Math.abs(first);
        return Double.isFinite(change) ? Texts.of("view.compare.change", text, Readout.margin(change)) : text;
    }

    private static List<Line> lines(List<Side> sides) {
        List<Line> out = new ArrayList<>();
        List<Double> none = sides.stream().map(s -> Double.NaN).toList();
        out.add(new Line(
                Texts.of("view.compare.verdict"),
                "verdict",
                none,
                sides.stream().map(s -> s.result().verdict()).toList()));
        out.add(new Line(
                Texts.of("view.compare.purge"),
                "kg/s",
                sides.stream()
                        .map(s -> s.result().purge() == null
                                ? Double.NaN
                                : s.result().purge().flow())
                        .toList(),
                null));
        Set<String> criteria = new LinkedHashSet<>();
        Set<String> barriers = new LinkedHashSet<>();
        Set<String> seals = new LinkedHashSet<>();
        for (Side side : sides) {
            side.result().findings().forEach(f -> criteria.add(f.id().split(":")[0]));
            side.result().model().cavities().stream()
                    .filter(c -> c.role() == Role.BARRIER || c.role() == Role.DRAIN)
                    .forEach(c -> barriers.add(c.name()));
            side.result().model().passages().forEach(p -> seals.add(p.name()));
        }
        for (String criterion : criteria) {
            List<Double> margins = new ArrayList<>();
            List<Verdict> verdicts = new ArrayList<>();
            for (Side side : sides) {
                double least = Double.NaN;
                Verdict worst = null;
                for (Finding f : side.result().findings()) {
                    if (f.id().startsWith(criterion + ":")) {
                        least = Double.isNaN(least) || f.margin() < least ? f.margin() : least;
                        worst = worst == null || f.verdict().compareTo(worst) < 0 ? f.verdict() : worst;
                    }
                }
                margins.add(least);
                verdicts.add(worst);
            }
            if (margins.stream().anyMatch(m -> !Double.isNaN(m))) {
                out.add(new Line(
                        Texts.of("view.compare.margin", criterion.replace('-', ' ')), "margin", margins, verdicts));
            }
        }
        for (String cavity : barriers) {
            out.add(new Line(
                    Texts.of("view.compare.pressure", cavity),
                    "Pa",
                    sides.stream()
                            .map(s -> state(s) == null || state(s).cavities().get(cavity) == null
                                    ? Double.NaN
                                    : state(s).cavities().get(cavity).state().pressure())
                            .toList(),
                    null));
        }
        for (String seal : seals) {
            out.add(new Line(
                    Texts.of("view.compare.flow", seal),
                    "kg/s",
                    sides.stream()
                            .map(s -> state(s) == null || state(s).passages().get(seal) == null
                                    ? Double.NaN
                                    : state(s).passages().get(seal).flow().massFlow())
                            .toList(),
                    null));
        }
        return out;
    }

    /** The phase that takes most purge, else the first. */
    private static SolveResult.Converged state(Side side) {
        String governing =
                side.result().purge() == null ? "" : side.result().purge().governingPhase();
        SolveResult.Converged first = null;
        for (CheckResult.PhaseResult phase : side.result().phases()) {
            if (phase.solve() instanceof SolveResult.Converged c) {
                if (phase.name().equals(governing)) {
                    return c;
                }
                first = first == null ? c : first;
            }
        }
        return first;
    }

    @Override
    public void shown(boolean now) {
        shown = now;
        rebuild();
    }

    @Override
    public String name() {
        return "comparison";
    }

    @Override
    public Figure figure() {
        if (drawn.isSelected()) {
            return canvas.figure();
        }
        if (table.getItems().isEmpty()) {
            return null;
        }
        List<String> heads = new ArrayList<>(List.of(Texts.of("view.compare.quantity")));
        sides.forEach(s -> heads.add(s.title().replace('\n', ' ')));
        List<List<TableFigure.Cell>> rows = new ArrayList<>();
        for (Line line : table.getItems()) {
            List<TableFigure.Cell> cells = new ArrayList<>(List.of(TableFigure.Cell.of(line.label())));
            for (int i = 0; i < sides.size(); i++) {
                Verdict v = line.verdicts() == null ? null : line.verdicts().get(i);
                cells.add(new TableFigure.Cell(cell(line, i), v == Verdict.HOLDS ? null : v, true));
            }
            rows.add(cells);
        }
        return TableFigure.draw(
                Texts.of("view.compare"), heads, rows, bench.themeProperty().get());
    }

    @Override
    public String csv() {
        if (table.getItems().isEmpty()) {
            return "";
        }
        Csv csv = new Csv("comparison", bench.history().document());
        List<Object> first = new ArrayList<>(List.of("quantity", "unit"));
        sides.forEach(s -> first.add(s.title().replace('\n', ' ')));
        csv.line(first.toArray());
        for (Line line : table.getItems()) {
            List<Object> cells = new ArrayList<>(List.of(line.label(), line.unit()));
            for (int i = 0; i < sides.size(); i++) {
                cells.add(
                        line.unit().equals("verdict")
                                ? line.verdicts().get(i).word()
                                : (Object) line.values().get(i));
            }
            csv.line(cells.toArray());
        }
        return csv.toString();
    }

    /** Ends what runs when the window closes. */
    public void close() {
        work.cancel();
    }
}
