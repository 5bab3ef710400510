package purgewright.gui.findings;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import javafx.beans.property.ObjectProperty;
import javafx.beans.property.ReadOnlyBooleanProperty;
import javafx.beans.property.SimpleObjectProperty;
import javafx.collections.FXCollections;
import javafx.collections.ListChangeListener;
import javafx.collections.ObservableList;
import purgewright.figure.Readout;
import purgewright.gui.bench.Workbench;
import purgewright.gui.details.Places;
import purgewright.gui.text.Texts;
import purgewright.hazard.finding.Evidence;
import purgewright.hazard.finding.Finding;
import purgewright.hazard.finding.Verdict;
import purgewright.hazard.finding.Waiver;
import purgewright.hazard.service.CheckResult;
import purgewright.hazard.service.MendService;
import purgewright.sealflow.casefile.CaseDocument;
import purgewright.sealflow.casefile.CaseEdits;
import purgewright.sealflow.casefile.CaseProblem;

/** Problems of the document and findings of the result as rows; each knows its place. */
public final class FindingsModel {
    /**
     * @param finding null for a problem of the document
     * @param verdict null for a problem of the document
     * @param waiver who accepted it, by the case; null when nobody did
     * @param text paragraphs for the reading pane: title, then text, in turn
     */
    public record Row(
            Finding finding,
            Verdict verdict,
            Waiver waiver,
            String what,
            String place,
            String phase,
            String value,
            String limit,
            String margin,
            List<String> text) {
        /** Somebody has accepted it. */
        public boolean waived() {
            return waiver != null;
        }

        /** The last part of the place, as shown. */
        public String shownPlace() {
            return place.substring(place.lastIndexOf('/') + 1);
        }
    }

    private final Workbench bench;
    private final ObservableList<Row> rows = FXCollections.observableArrayList();
    private final ObjectProperty<Verdict> filter = new SimpleObjectProperty<>(this, "filter");

    /** Follows the bench. */
    public FindingsModel(Workbench bench) {
        this.bench = bench;
        bench.resultProperty().addListener((o, a, b) -> rebuild());
        bench.readoutProperty().addListener((o, a, b) -> rebuild());
        bench.problems().addListener((ListChangeListener<CaseProblem>) c -> rebuild());
        filter.addListener((o, a, b) -> rebuild());
        rebuild();
    }

    /** True while the findings are of the case before the latest change. */
    public ReadOnlyBooleanProperty staleProperty() {
        return bench.staleProperty();
    }

    private void rebuild() {
        List<Row> made = new ArrayList<>();
        for (CaseProblem problem : bench.problems()) {
            List<String> text = new ArrayList<>(List.of(Texts.of("finding.problem"), problem.message()));
            if (!problem.suggestion().isEmpty()) {
                text.addAll(List.of(Texts.of("finding.suggestion"), problem.suggestion()));
            }
            text.addAll(List.of(
                    Texts.of("finding.place"),
                    problem.line() > 0
                            ? Texts.of("finding.line", problem.place(), Integer.toString(problem.line()))
                            : problem.place()));
            made.add(new Row(null, null, null, problem.message(), problem.place(), "", "", "", "", text));
        }
        if (bench.result() != null) {
            Readout r = bench.readoutProperty().get();
            for (Finding f : bench.result().findings()) {
                if (filter.get() == null || filter.get() == f.verdict()) {
                    made.add(row(f, r, waiver(f)));
                }
            }
        }
        rows.setAll(made);
    }

    private static Row row(Finding f, Readout r, Waiver waiver) {
        List<String> text = new ArrayList<>();
        add(text, "finding.what", f.what());
        if (!Double.isNaN(f.value())) {
            String numbers = Texts.of("finding.numbers.value", r.quantity(f.value(), f.unit()));
            if (!Double.isNaN(f.limit())) {
                numbers +=
                        Texts.of("finding.numbers.limit", r.quantity(f.limit(), f.unit()), Readout.margin(f.margin()));
            }
            add(text, "finding.numbers", numbers);
        }
        add(text, "finding.waiver", waiver == null ? "" : waiver.text());
        add(text, "finding.mend", f.mend());
        add(text, "finding.how", f.how());
        add(text, "finding.evidence", evidence(f, r));
        add(text, "finding.source", f.source());
        add(text, "finding.caution", f.caution());
        add(text, "finding.where", Texts.of("finding.wherephase", f.where(), f.phase(), f.scenario()));
        return new Row(
                f,
                f.verdict(),
                waiver,
                f.what(),
                f.where(),
                f.phase(),
                r.quantity(f.value(), f.unit()),
                r.quantity(f.limit(), f.unit()),
                Readout.margin(f.margin()),
                text);
    }

    /** What the finding rests on, one line each: states, ends of the models' bands, what flips it, who computed the properties. */
    private static String evidence(Finding f, Readout r) {
        Evidence e = f.evidence();
        List<String> lines = new ArrayList<>();
        for (Evidence.State s : e.states()) {
            lines.add(
                    Texts.of("finding.evidence.state", name(s.place()), s.quantity(), r.quantity(s.value(), s.unit())));
        }
        if (!e.models().isEmpty()) {
            lines.add(Texts.of("finding.evidence.model", String.join("; ", e.models())));
        }
        ends(lines, "finding.evidence.adverse", f, e.adverse(), r);
        ends(lines, "finding.evidence.favourable", f, e.favourable(), r);
        for (Evidence.Flip flip : e.flips()) {
            lines.add(Texts.of("finding.evidence.flip", Places.words(flip.place()), Readout.margin(flip.share())));
        }
        if (!e.properties().isEmpty()) {
            lines.add(Texts.of("finding.evidence.engine", e.properties(), e.closure()));
        }
        return String.join("\n", lines);
    }

    private static void ends(List<String> lines, String key, Finding f, Evidence.Ends ends, Readout r) {
        if (ends != null) {
            lines.add(Texts.of(
                    key,
                    r.quantity(ends.value(), f.unit()),
                    Readout.margin(ends.margin()),
                    ends.verdict().word()));
        }
    }

    private static String name(String place) {
        return place.isEmpty() ? "" : CaseEdits.last(place);
    }

    /** The case's waiver for a finding, from the case itself so that it shows at once; null when there is none that counts. */
    private Waiver waiver(Finding finding) {
        CaseDocument document = bench.history().document();
        return waiverPlace(finding)
                .map(p -> new Waiver(
                        document.text(p + "/by").orElse(""),
                        document.text(p + "/date").orElse(""),
                        document.text(p + "/reason").orElse("")))
                .filter(Waiver::whole)
                .orElse(null);
    }

    /** Place of the case's waiver for a finding. */
    private Optional<String> waiverPlace(Finding finding) {
        CaseDocument document = bench.history().document();
        return document == null
                ? Optional.empty()
                : document.children("/waivers").stream()
                        .map(i -> "/waivers/" + i)
                        .filter(p -> document.text(p + "/finding").orElse("").equals(finding.id()))
                        .findFirst();
    }

    /** Puts a waiver into the case; the finding and its verdict stay. */
    public void waive(Finding finding, Waiver waiver) {
        CaseDocument document = bench.history().document();
        CaseDocument with = document.has("/waivers") ? document : document.withJson("/waivers", "[]");
        with = with.withJson("/waivers/-", "{}");
        String place = "/waivers/" + (with.children("/waivers").size() - 1);
        with = with.with(place + "/finding", finding.id())
                .with(place + "/by", waiver.by())
                .with(place + "/date", waiver.date())
                .with(place + "/reason", waiver.reason());
        bench.history().apply("edit.waive", finding.where(), with);
    }

    /** Takes a waiver out of the case. */
    public void withdraw(Finding finding) {
        waiverPlace(finding).ifPresent(place -> {
            CaseDocument without = bench.history().document().without(place);
            bench.history()
                    .apply(
                            "edit.withdraw",
                            finding.where(),
                            without.children("/waivers").isEmpty() ? without.without("/waivers") : without);
        });
    }

    /** Takes a change over that mends. */
    public void mend(MendService.Mend mend) {
        bench.history().apply("edit.mend", mend.place(), mend.document());
        String[] parts = mend.place().split("/");
        if (parts.length >= 3 && (parts[1].equals("cavities") || parts[1].equals("passages"))) {
            bench.selectedProperty().set("/" + parts[1] + "/" + parts[2]);
        }
    }

    /** The result the rows are of; null before the first. */
    public CheckResult result() {
        return bench.result();
    }

    /** Units of what is shown. */
    public Readout readout() {
        return bench.readoutProperty().get();
    }

    private static void add(List<String> text, String key, String value) {
        if (value != null && !value.isEmpty()) {
            text.add(Texts.of(key));
            text.add(value);
        }
    }

    /** Goes to the place of a row: the cavity or passage it names, or the one that holds the value it names. */
    public void jump(Row row) {
        String[] parts = row.place().split("/");
        boolean placed = parts.length >= 3 && (parts[1].equals("cavities") || parts[1].equals("passages"));
        bench.selectedProperty().set(placed ? "/" + parts[1] + "/" + parts[2] : "");
    }

    /** How many findings have a verdict. */
    public long count(Verdict verdict) {
        return bench.result() == null
                ? 0
                : bench.result().findings().stream()
                        .filter(f -> f.verdict() == verdict)
                        .count();
    }

    /** Rows shown, problems first, then findings worst first. */
    public ObservableList<Row> rows() {
        return rows;
    }

    /** Verdict to show alone; null for all. */
    public ObjectProperty<Verdict> filterProperty() {
        return filter;
    }
}
