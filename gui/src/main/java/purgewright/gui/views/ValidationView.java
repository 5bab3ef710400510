package purgewright.gui.views;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.concurrent.CancellationException;
import javafx.scene.control.Label;
import javafx.scene.control.TableView;
import purgewright.figure.Figure;
import purgewright.figure.Readout;
import purgewright.figure.TableFigure;
import purgewright.fluids.validation.Check;
import purgewright.gui.bench.Workbench;
import purgewright.gui.text.Texts;
import purgewright.hazard.finding.Verdict;
import purgewright.hazard.service.Progress;
import purgewright.hazard.service.ValidationSets;
import purgewright.sealflow.casefile.CaseDocument;

/** The published checks: the source's number, ours, and how far apart they are. */
public final class ValidationView extends StudyView<List<ValidationView.Row>> {
    /** One check, computed; {@code ours} NaN where it broke off. */
    record Row(String set, Check check, double ours) {
        /** With its sign: a share where the tolerance is one, else in the check's unit. */
        double deviation() {
            return ours < check.expected() ? -check.deviation(ours) : check.deviation(ours);
        }

        boolean met() {
            return check.passes(ours);
        }
    }

    private final TableView<Row> table = new TableView<>();

    /** An empty table that fills on request. */
    public ValidationView(Workbench bench) {
        super(bench, "validation");
        table.setId("validation");
        Tables.grow(table, bench.letteringProperty());
        table.setPlaceholder(new Label(Texts.of("view.validation.none")));
        table.getColumns()
                .add(Tables.verdict(
                        Texts.of("view.validation.met"), r -> r.met() ? Verdict.HOLDS : Verdict.FALLS_SHORT));
        table.getColumns().add(Tables.text(Texts.of("view.validation.set"), Row::set, 90));
        table.getColumns()
                .add(Tables.text(
                        Texts.of("view.validation.quantity"), r -> r.check().quantity(), 330));
        table.getColumns()
                .add(Tables.number(
                        Texts.of("view.validation.expected"),
                        r -> number(r.check().expected(), r),
                        140));
        table.getColumns().add(Tables.number(Texts.of("view.validation.ours"), r -> number(r.ours(), r), 140));
        table.getColumns().add(Tables.number(Texts.of("view.validation.deviation"), ValidationView::deviation, 104));
        table.getColumns().add(Tables.number(Texts.of("view.validation.tolerance"), ValidationView::tolerance, 104));
        table.getColumns()
                .add(Tables.text(
                        Texts.of("view.validation.source"),
                        r -> r.check().source() + " [" + r.check().label().text() + "]",
                        560));
        body(table);
    }

    @Override
    List<Row> compute(CaseDocument document, Progress progress) {
        List<Row> rows = new ArrayList<>();
        int all = ValidationSets.all().size();
        for (Map.Entry<String, List<Check>> set : ValidationSets.bySet().entrySet()) {
            for (Check check : set.getValue()) {
                if (Thread.currentThread().isInterrupted()) {
                    throw new CancellationException();
                }
                double ours;
                try {
                    ours = check.ours().getAsDouble();
                } catch (RuntimeException e) {
                    ours = Double.NaN; // shown as a check that fails
                }
                rows.add(new Row(set.getKey(), check, ours));
                progress.at((double) rows.size() / all, set.getKey());
            }
        }
        return rows;
    }

    @Override
    boolean ofTheCase() {
        return false;
    }

    @Override
    void show(List<Row> rows) {
        List<Row> worstFirst = new ArrayList<>(rows);
        worstFirst.sort(Comparator.comparing(Row::met)); // what does not agree is not to be searched for
        table.getItems().setAll(worstFirst);
        long met = rows.stream().filter(Row::met).count();
        line(Texts.of("view.validation.line", Long.toString(met), Integer.toString(rows.size())));
    }

    private static String number(double value, Row row) {
        String unit = row.check().unit().equals("1") ? "" : " " + row.check().unit();
        return Readout.number(value, 6) + unit;
    }

    private static String deviation(Row row) {
        return row.check().asShare()
                ? Readout.number(row.deviation() * 100, 2) + " %"
                : Readout.number(row.deviation(), 2);
    }

    private static String tolerance(Row row) {
        return row.check().asShare()
                ? Readout.number(row.check().tolerance() * 100, 2) + " %"
                : Readout.number(row.check().tolerance(), 2);
    }

    @Override
    public String name() {
        return "published-checks";
    }

    @Override
    public Figure figure() {
        if (result() == null) {
            return null;
        }
        List<List<TableFigure.Cell>> rows = new ArrayList<>();
        for (Row r : result()) {
            rows.add(List.of(
                    new TableFigure.Cell("", r.met() ? Verdict.HOLDS : Verdict.FALLS_SHORT, false),
                    TableFigure.Cell.of(r.check().quantity()),
                    TableFigure.Cell.number(number(r.check().expected(), r)),
                    TableFigure.Cell.number(number(r.ours(), r)),
                    TableFigure.Cell.number(deviation(r)),
                    TableFigure.Cell.of(r.check().source())));
        }
        return TableFigure.draw(
                Texts.of("view.validation.caption"),
                List.of(
                        "",
                        Texts.of("view.validation.quantity"),
                        Texts.of("view.validation.expected"),
                        Texts.of("view.validation.ours"),
                        Texts.of("view.validation.deviation"),
                        Texts.of("view.validation.source")),
                rows,
                bench.themeProperty().get());
    }

    @Override
    public String csv() {
        if (result() == null) {
            return "";
        }
        Csv csv = new Csv("published checks", null)
                .line(
                        "set",
                        "quantity",
                        "unit",
                        "expected",
                        "ours",
                        "tolerance",
                        "relative",
                        "agrees",
                        "source",
                        "label");
        for (Row r : result()) {
            csv.line(
                    r.set(),
                    r.check().quantity(),
                    r.check().unit(),
                    r.check().expected(),
                    r.ours(),
                    r.check().tolerance(),
                    r.check().relative(),
                    r.met(),
                    r.check().source(),
                    r.check().label().text());
        }
        return csv.toString();
    }
}
