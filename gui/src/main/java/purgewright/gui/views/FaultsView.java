package purgewright.gui.views;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import javafx.beans.property.ReadOnlyObjectWrapper;
import javafx.geometry.Orientation;
import javafx.scene.control.CheckBox;
import javafx.scene.control.Label;
import javafx.scene.control.ScrollPane;
import javafx.scene.control.SplitPane;
import javafx.scene.control.TableCell;
import javafx.scene.control.TableColumn;
import javafx.scene.control.TableView;
import javafx.scene.control.Tooltip;
import javafx.scene.input.KeyCode;
import javafx.scene.layout.VBox;
import purgewright.figure.Figure;
import purgewright.figure.Readout;
import purgewright.figure.TableFigure;
import purgewright.gui.bench.Workbench;
import purgewright.gui.glyph.FindingCard;
import purgewright.gui.glyph.Shapes;
import purgewright.gui.task.Desk;
import purgewright.gui.text.Texts;
import purgewright.hazard.fault.FaultResult;
import purgewright.hazard.finding.Finding;
import purgewright.hazard.finding.Verdict;
import purgewright.hazard.service.FailSettings;
import purgewright.hazard.service.Progress;
import purgewright.sealflow.casefile.CaseDocument;

/**
 * The fault matrix: one row a fault, one column a criterion, the least margin in each cell. A row chosen is told in full below: what
 * is lost, how fast, who sees it, and every finding that does not hold.
 */
public final class FaultsView extends StudyView<FaultResult> {
    private final Desk desk;
    private final TableView<FaultResult.Row> table = new TableView<>();
    private final VBox drill = new VBox();
    private final CheckBox pairs = new CheckBox(Texts.of("view.faults.pairs"));

    /** A view of the bench's case. */
    public FaultsView(Workbench bench, Desk desk) {
        super(bench, "faults");
        this.desk = desk;
        pairs.setId("pairs");
        pairs.setMinWidth(USE_PREF_SIZE);
        pairs.setTooltip(new Tooltip(Texts.of("view.faults.pairs.tip")));
        control(pairs);
        table.setId("faults");
        Tables.grow(table, bench.letteringProperty());
        table.setPlaceholder(new Label(Texts.of("view.faults.none")));
        table.getSelectionModel().selectedItemProperty().addListener((o, a, row) -> drill(row));
        table.setOnMouseClicked(e -> {
            if (e.getClickCount() == 2) {
                jump();
            }
        });
        table.setOnKeyPressed(e -> {
            if (e.getCode() == KeyCode.ENTER) {
                jump();
                e.consume();
            }
        });
        drill.getStyleClass().add("drill");
        ScrollPane below = new ScrollPane(drill);
        below.setFitToWidth(true);
        below.getStyleClass().add("drill-pane");
        below.setMinHeight(60);
        SplitPane both = new SplitPane(table, below);
        both.setOrientation(Orientation.VERTICAL);
        both.setDividerPositions(0.68);
        body(both);
        drill(null);
    }

    @Override
    FaultResult compute(CaseDocument document, Progress progress) {
        return desk.fail(document, FailSettings.DEFAULT.withPairs(pairs.isSelected()), progress);
    }

    @Override
    void show(FaultResult result) {
        line(result.verdictLine());
        table.getColumns().clear();
        table.getColumns().add(Tables.verdict(Texts.of("findings.verdict"), FaultResult.Row::verdict));
        table.getColumns().add(Tables.text(Texts.of("view.faults.scenario"), FaultResult.Row::scenario, 270));
        table.getColumns().add(Tables.number(Texts.of("view.faults.time"), this::time, 104));
        table.getColumns().add(Tables.text(Texts.of("view.faults.seen"), FaultsView::seen, 190));
        for (String criterion : result.criteria()) {
            table.getColumns().add(margin(criterion));
        }
        FaultResult.Row selected = table.getSelectionModel().getSelectedItem();
        table.getItems().setAll(result.worstFirst());
        if (selected != null) {
            table.getSelectionModel().select(selected);
        }
        drill(table.getSelectionModel().getSelectedItem());
    }

    private static String seen(FaultResult.Row r) {
        return r.lost().isEmpty() && r.pairsLost().isEmpty()
                ? ""
                : r.hidden() ? Texts.of("view.faults.hidden") : String.join(", ", r.seenBy());
    }

    private String time(FaultResult.Row row) {
        return Double.isNaN(row.timeToLoss())
                ? ""
                : row.timeToLoss() == 0
                        ? Texts.of("view.faults.atonce")
                        : bench.readoutProperty().get().time(row.timeToLoss());
    }

    private void jump() {
        FaultResult.Row row = table.getSelectionModel().getSelectedItem();
        if (row != null && !row.findings().isEmpty()) {
            go(row.findings().get(0).where());
        }
    }

    private void go(String where) {
        String[] parts = where.split("/");
        if (parts.length >= 3 && (parts[1].equals("cavities") || parts[1].equals("passages"))) {
            bench.selectedProperty().set("/" + parts[1] + "/" + parts[2]);
        }
    }

    private void drill(FaultResult.Row row) {
        drill.getChildren().clear();
        if (row == null) {
            Label hint = new Label(Texts.of("view.faults.choose"));
            hint.getStyleClass().add("quiet");
            hint.setWrapText(true);
            drill.getChildren().add(hint);
            assumed();
            return;
        }
        Readout r = bench.readoutProperty().get();
        Label title = new Label(row.scenario());
        title.getStyleClass().add("heading");
        drill.getChildren().add(title);
        List<String> facts = new ArrayList<>();
        facts.add(row.kinds());
        if (!row.phase().isEmpty()) {
            facts.add(Texts.of("view.faults.worst", row.phase()));
        }
        if (!row.pairsLost().isEmpty()) {
            facts.add(Texts.of("view.faults.pairslost", String.join("; ", row.pairsLost())));
        }
        if (!row.lost().isEmpty()) {
            facts.add(Texts.of("view.faults.lost", String.join(", ", row.lost()).replace('-', ' ')));
        }
        if (!Double.isNaN(row.timeToLoss())) {
            facts.add(Texts.of(
                    "view.faults.race",
                    time(row),
                    row.fastest() == null ? "" : row.fastest().method().text(),
                    r.time(row.timeNeeded())));
        }
        if (!seen(row).isEmpty()) {
            facts.add(Texts.of("view.faults.seenby", seen(row)));
        }
        Label text = new Label(String.join("  ·  ", facts));
        text.setWrapText(true);
        text.getStyleClass().add("quiet");
        drill.getChildren().add(text);
        for (Finding f : row.findings()) {
            String numbers = Double.isNaN(f.value())
                    ? ""
                    : Double.isNaN(f.limit())
                            ? r.quantity(f.value(), f.unit())
                            : Texts.of(
                                    "view.faults.numbers",
                                    r.quantity(f.value(), f.unit()),
                                    r.quantity(f.limit(), f.unit()),
                                    Readout.margin(f.margin()));
            FindingCard card = new FindingCard(f, numbers.isEmpty() ? f.what() : f.what() + ": " + numbers);
            card.what().setTooltip(new Tooltip(f.how() + "\n" + f.source()));
            card.setOnMouseClicked(e -> go(f.where()));
            drill.getChildren().add(card);
        }
        assumed();
    }

    /** How times were found, and what the sweep assumed beyond the check: "seen by" rests on it. */
    private void assumed() {
        if (result() == null) {
            return;
        }
        List<String> known = bench.result() == null ? List.of() : bench.result().cautions();
        List<String> said = new ArrayList<>(List.of(result().times()));
        said.addAll(result().cautionsBeyond(known));
        Label text = new Label(String.join("\n", said));
        text.setId("assumed");
        text.setWrapText(true);
        text.getStyleClass().add("quiet");
        drill.getChildren().add(text);
    }

    private static TableColumn<FaultResult.Row, FaultResult.Row> margin(String criterion) {
        TableColumn<FaultResult.Row, FaultResult.Row> column =
                new TableColumn<>(criterion.replace('-', ' ').toLowerCase(Locale.ROOT));
        column.setPrefWidth(Math.max(96, 30 + criterion.length() * 7.2));
        column.getStyleClass().add("number");
        column.setCellValueFactory(c -> new ReadOnlyObjectWrapper<>(c.getValue()));
        column.setCellFactory(c -> new TableCell<>() {
            @Override
            protected void updateItem(FaultResult.Row row, boolean empty) {
                super.updateItem(row, empty);
                Verdict verdict = empty || row == null ? null : row.verdicts().get(criterion);
                if (verdict == null) {
                    setText(null);
                    setGraphic(null);
                    setTooltip(null);
                    return;
                }
                setText(Readout.margin(row.margins().getOrDefault(criterion, Double.NaN)));
                setGraphic(verdict == Verdict.HOLDS ? null : Shapes.mark(verdict, 10));
                List<String> why = row.findings().stream()
                        .filter(f -> f.id().startsWith(criterion + ":"))
                        .map(Finding::what)
                        .limit(3)
                        .toList();
                setTooltip(why.isEmpty() ? null : new Tooltip(String.join("\n", why)));
            }
        });
        return column;
    }

    /** The sweep; null when there is none of the case as it stands. */
    public FaultResult sweep() {
        return result() != null && current() ? result() : null;
    }

    /** The table, for tests. */
    public TableView<FaultResult.Row> table() {
        return table;
    }

    @Override
    public String name() {
        return "faults";
    }

    @Override
    public Figure figure() {
        if (result() == null) {
            return null;
        }
        List<String> heads = new ArrayList<>(
                List.of(Texts.of("findings.verdict"), Texts.of("view.faults.scenario"), Texts.of("view.faults.time")));
        result().criteria().forEach(c -> heads.add(c.replace('-', ' ')));
        List<List<TableFigure.Cell>> rows = new ArrayList<>();
        for (FaultResult.Row row : result().worstFirst()) {
            List<TableFigure.Cell> cells = new ArrayList<>();
            cells.add(new TableFigure.Cell(row.verdict().word(), row.verdict(), false));
            cells.add(TableFigure.Cell.of(row.scenario()));
            cells.add(TableFigure.Cell.number(time(row)));
            for (String c : result().criteria()) {
                Verdict v = row.verdicts().get(c);
                cells.add(new TableFigure.Cell(
                        v == null ? "" : Readout.margin(row.margins().getOrDefault(c, Double.NaN)),
                        v == Verdict.HOLDS ? null : v,
                        true));
            }
            rows.add(cells);
        }
        return TableFigure.draw(
                result().verdictLine(), heads, rows, bench.themeProperty().get());
    }

    @Override
    public String csv() {
        if (result() == null) {
            return "";
        }
        List<Object> heads = new ArrayList<>(
                List.of("scenario", "verdict", "kinds", "phase", "time_to_loss_s", "time_needed_s", "seen_by"));
        result().criteria().forEach(c -> heads.add("margin_" + c.replace('-', '_')));
        Csv csv = new Csv("faults", ran()).line(heads.toArray());
        for (FaultResult.Row row : result().worstFirst()) {
            List<Object> cells = new ArrayList<>(List.of(
                    row.scenario(),
                    row.verdict().word(),
                    row.kinds(),
                    row.phase(),
                    row.timeToLoss(),
                    row.timeNeeded(),
                    String.join("; ", row.seenBy())));
            result().criteria().forEach(c -> cells.add(row.margins().getOrDefault(c, Double.NaN)));
            csv.line(cells.toArray());
        }
        return csv.toString();
    }
}
