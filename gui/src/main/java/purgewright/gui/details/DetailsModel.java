package purgewright.gui.details;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import javafx.beans.property.ReadOnlyStringProperty;
import javafx.beans.property.ReadOnlyStringWrapper;
import javafx.collections.FXCollections;
import javafx.collections.ObservableList;
import purgewright.figure.Readout;
import purgewright.fluids.unit.Dimension;
import purgewright.gui.bench.Workbench;
import purgewright.gui.task.Outcome;
import purgewright.gui.text.Texts;
import purgewright.hazard.criteria.Criteria;
import purgewright.hazard.criteria.Limit;
import purgewright.hazard.finding.Finding;
import purgewright.hazard.sizing.BarrierPrice;
import purgewright.sealflow.casefile.CaseDocument;
import purgewright.sealflow.casefile.CaseEdits;
import purgewright.sealflow.casefile.CaseForm;
import purgewright.sealflow.network.SolveResult;
import purgewright.sealflow.passage.PassageType;
import purgewright.sealflow.passage.PassageTypes;

/** What the details panel shows of the selected place: its fields, its state, its balance, its findings. */
public final class DetailsModel {
    /**
     * A line of computed values.
     *
     * @param tip formula and source; empty when there is none
     */
    public record Row(String label, String value, String tip) {
        Row(String label, String value) {
            this(label, value, "");
        }
    }

    private final Workbench bench;
    private final ReadOnlyStringWrapper title = new ReadOnlyStringWrapper(this, "title", "");
    private final ReadOnlyStringWrapper subtitle = new ReadOnlyStringWrapper(this, "subtitle", "");
    private final ObservableList<FieldModel> fields = FXCollections.observableArrayList();
    private final ObservableList<Row> state = FXCollections.observableArrayList();
    private final ObservableList<Row> balance = FXCollections.observableArrayList();
    private final ObservableList<Row> price = FXCollections.observableArrayList();
    private final ObservableList<Finding> findings = FXCollections.observableArrayList();
    private String shape = "";

    /** Follows the bench's selection. */
    public DetailsModel(Workbench bench) {
        this.bench = bench;
        bench.selectedProperty().addListener((o, a, b) -> {
            bench.history().settle();
            rebuild();
        });
        bench.history().documentProperty().addListener(o -> rebuild());
        bench.resultProperty().addListener((o, a, b) -> results());
        bench.outcomeProperty().addListener((o, a, b) -> {
            if (b instanceof Outcome.Glanced) {
                results();
            }
        });
        bench.phaseProperty().addListener((o, a, b) -> results());
        bench.readoutProperty().addListener((o, a, b) -> {
            fields.forEach(FieldModel::refresh);
            results();
        });
        rebuild();
    }

    CaseDocument document() {
        return bench.history().document();
    }

    Readout readout() {
        return bench.readoutProperty().get();
    }

    double surroundingsPressure() {
        return bench.shownCase() == null
                ? 101325
                : bench.shownCase().surroundings().pressure();
    }

    /** A field's refusal came or went. */
    void refused() {
        bench.draftInvalidProperty()
                .set(fields.stream().anyMatch(f -> !f.problemProperty().get().isEmpty()));
    }

    void apply(FieldSpec spec, String pointer, CaseDocument after, boolean merging, String typed) {
        if (spec.path().equals("name")) {
            // A place under another name is still the one that is looked at.
            String place = bench.selectedProperty().get();
            bench.history().apply("edit.value", pointer, after);
            bench.selectedProperty().set(CaseEdits.folder(place) + "/" + CaseEdits.escaped(typed));
            return;
        }
        if (merging) {
            bench.history().applyMerging("edit.value", pointer, after);
        } else {
            bench.history().apply("edit.value", pointer, after);
        }
    }

    /** The document with a text at a place; objects on the way are made. A name is changed wherever it is used. */
    CaseDocument written(CaseDocument document, FieldSpec spec, String pointer, String typed) {
        String place = bench.selectedProperty().get();
        if (pointer.equals(place + "/name")) {
            return CaseEdits.renamed(document, place, typed);
        }
        CaseDocument with = Places.made(document, CaseEdits.folder(pointer));
        return switch (spec.kind()) {
            case LIST -> with.withJson(pointer, list(typed));
            case ENTRIES -> {
                int equals = typed.lastIndexOf('=');
                if (equals < 1) {
                    throw new IllegalArgumentException(Texts.of("details.entry"));
                }
                String key = typed.substring(0, equals).strip();
                yield Places.made(with, pointer)
                        .with(
                                pointer + "/" + CaseEdits.escaped(key),
                                typed.substring(equals + 1).strip());
            }
            default ->
                spec.dimension() == Dimension.NUMBER || spec.kind() == CaseForm.Kind.VALUE
                        ? Places.bare(typed) ? with.withJson(pointer, typed) : with.with(pointer, typed)
                        : with.with(pointer, typed);
        };
    }

    private static String list(String typed) {
        StringBuilder json = new StringBuilder("[");
        for (String each : typed.split(",")) {
            if (!each.isBlank()) {
                json.append(json.length() > 1 ? ", " : "")
                        .append('"')
                        .append(Places.escaped(each.strip()))
                        .append('"');
            }
        }
        return json.append(']').toString();
    }

    /** The text that stands at a place; a list with commas between. */
    String text(FieldSpec spec, String pointer) {
        CaseDocument document = document();
        return switch (spec.kind()) {
            case LIST -> String.join(", ", Places.elements(document, pointer));
            case ENTRIES -> "";
            default -> document.text(pointer).orElse("");
        };
    }

    CaseDocument cleared(CaseDocument document, String pointer) {
        CaseDocument without = document.without(pointer);
        String parent = CaseEdits.folder(pointer);
        boolean nested = parent.length() > bench.selectedProperty().get().length();
        return nested && without.has(parent) && without.children(parent).isEmpty() ? without.without(parent) : without;
    }

    // ---- fields

    private void rebuild() {
        if (document() == null) {
            return;
        }
        String place = bench.selectedProperty().get();
        if (!place.isEmpty() && !document().has(place) && !Outline.SECTIONS.contains(place)) {
            bench.selectedProperty().set("");
            return;
        }
        List<FieldSpec> specs = specs(place);
        String now = place
                + specs.stream().map(s -> s.path() + s.choices().hashCode()).toList();
        if (now.equals(shape)) {
            fields.forEach(FieldModel::refresh);
        } else {
            shape = now;
            List<FieldModel> made = new ArrayList<>();
            for (FieldSpec spec : specs) {
                made.add(new FieldModel(this, place, spec));
            }
            fields.setAll(made);
            refused();
        }
        results();
    }

    private List<FieldSpec> specs(String place) {
        List<FieldSpec> specs = new ArrayList<>();
        if (place.isEmpty()) {
            for (String section : List.of("about", "surroundings", "rotor")) {
                for (CaseForm.Entry entry : CaseForm.of(document(), "/" + section)) {
                    boolean room = !entry.path().equals("note") || section.equals("about");
                    if (room && entry.kind() != CaseForm.Kind.ENTRIES) {
                        FieldSpec spec =
                                FieldSpec.of(section + "/" + entry.path(), entry, slides("/" + section, entry));
                        specs.add(
                                section.equals("surroundings") ? spec.labelled("surroundings " + spec.label()) : spec);
                    }
                }
            }
            return specs;
        }
        if (place.equals("/criteria")) {
            return criteria();
        }
        for (CaseForm.Entry entry : CaseForm.of(document(), place)) {
            specs.add(FieldSpec.of(entry.path(), entry, slides(place, entry)));
        }
        return specs;
    }

    private static boolean slides(String place, CaseForm.Entry entry) {
        return switch (entry.path()) {
            case "clearance", "diameter", "gap" ->
                place.startsWith("/passages/") && entry.dimension() == Dimension.LENGTH;
            case "pressure" -> place.startsWith("/cavities/");
            case "speed" -> place.equals("/rotor");
            case "regulator/set pressure" -> true;
            default -> false;
        };
    }

    /** Every limit, with its default and where that comes from, whether the case states it or not. */
    private List<FieldSpec> criteria() {
        List<FieldSpec> specs = new ArrayList<>();
        for (Limit limit : Limit.values()) {
            specs.add(new FieldSpec(
                    limit.key(),
                    limit.key(),
                    CaseForm.Kind.QUANTITY,
                    limit.dimension(),
                    List.of(),
                    readout().quantity(limit.fallback(), limit.dimension().symbol()),
                    Texts.of("details.criterion", limit.description(), limit.origin()),
                    false,
                    false));
        }
        specs.add(new FieldSpec(
                Criteria.MONITORED,
                Criteria.MONITORED,
                CaseForm.Kind.WORD,
                null,
                List.of("", "true", "false"),
                "false",
                Texts.of("hint.monitored"),
                false,
                false));
        return specs;
    }

    private PassageType type(String place) {
        String key = document().text(place + "/type").orElse("");
        return PassageTypes.all().stream()
                .filter(t -> t.key().equals(key))
                .findFirst()
                .orElse(null);
    }

    // ---- results

    private void results() {
        String place = bench.selectedProperty().get();
        state.clear();
        balance.clear();
        price.clear();
        findings.setAll(bench.shownFindings().stream()
                .filter(f -> !place.isEmpty() && f.where().equals(place))
                .toList());
        if (document() == null) {
            return;
        }
        String name = place.isEmpty() ? "" : CaseEdits.last(place);
        SolveResult.Converged solved = bench.shownSolution();
        if (place.startsWith("/cavities/")) {
            title.set(name);
            subtitle.set(
                    Texts.of("details.cavity", document().text(place + "/role").orElse("")));
            if (solved != null && solved.cavities().containsKey(name)) {
                cavityState(solved, solved.cavities().get(name));
            }
        } else if (place.startsWith("/passages/")) {
            title.set(name);
            PassageType type = type(place);
            subtitle.set(
                    type == null
                            ? document().text(place + "/type").orElse("")
                            : type.key() + ": " + type.description());
            if (solved != null && solved.passages().containsKey(name)) {
                passageState(solved.passages().get(name));
            }
        } else if (!place.isEmpty()) {
            title.set(Outline.label(place));
            subtitle.set(Outline.meaning(place));
            if (place.startsWith("/streams/")) {
                streamState(name);
            }
        } else {
            title.set(document().text("/about/title").orElse(Texts.of("details.untitled")));
            subtitle.set(Texts.of("details.case"));
            caseState();
        }
    }

    private void add(ObservableList<Row> rows, String key, String value) {
        String tip = "tip." + key;
        rows.add(new Row(Texts.of(key), value, Texts.has(tip) ? Texts.of(tip) : ""));
    }

    private void cavityState(SolveResult.Converged solved, SolveResult.CavityState c) {
        Readout r = readout();
        add(state, "state.pressure", r.pressure(c.state().pressure()));
        add(state, "state.temperature", r.temperature(c.state().temperature()));
        add(state, "state.density", r.quantity(c.state().density(), "kg/m3"));
        add(state, "state.phase", Texts.of("phase." + c.state().phase().name().toLowerCase(java.util.Locale.ROOT)));
        if (c.state().quality() > 0 && c.state().quality() < 1) {
            add(state, "state.quality", Readout.number(c.state().quality(), 3));
        }
        if (c.windage() > 0) {
            add(state, "state.windage", r.power(c.windage()));
        }
        c.moleFractions().entrySet().stream()
                .filter(e -> e.getValue() >= 1e-6)
                .sorted(Map.Entry.<String, Double>comparingByValue().reversed())
                .limit(6)
                .forEach(e -> state.add(new Row(Texts.of("state.mole", e.getKey()), r.share(e.getValue()))));
        solved.passages().values().stream()
                .filter(p -> p.from().equals(c.name()) || p.to().equals(c.name()))
                .sorted(Comparator.comparingDouble(p -> -Math.abs(p.flow().massFlow())))
                .forEach(p -> {
                    boolean in = p.to().equals(c.name()) == (p.flow().massFlow() >= 0);
                    balance.add(new Row(
                            Texts.of(in ? "balance.in" : "balance.out", p.name()),
                            r.flow(p.flow().massFlow())));
                });
        if (c.fixed()) {
            add(balance, c.netMassFlow() >= 0 ? "balance.takes" : "balance.gives", r.flow(c.netMassFlow()));
        }
    }

    private void passageState(SolveResult.PassageState p) {
        Readout r = readout();
        double m = p.flow().massFlow();
        add(state, "state.flow", r.flow(m));
        add(state, "state.towards", m >= 0 ? p.to() : p.from());
        add(state, "state.choked", Texts.of(p.flow().choked() ? "word.yes" : "word.no"));
        add(state, "state.velocity", r.speed(Math.abs(p.flow().gapVelocity())));
        if (p.surfaceSpeed() > 0) {
            add(state, "state.surface", r.speed(p.surfaceSpeed()));
        }
        if (p.gap() != null) {
            add(state, "state.mean", r.length(p.gap().mean()));
            if (!Double.isNaN(p.gap().least())) {
                add(state, "state.least", r.length(p.gap().least()));
                add(state, "state.contact", r.length(p.gap().contactLimit()));
            }
        }
        if (!Double.isNaN(p.flow().reynolds())) {
            add(state, "state.reynolds", Readout.number(p.flow().reynolds(), 3));
        }
        if (p.flow().heat() > 0) {
            add(state, "state.drag", r.power(p.flow().heat()));
        }
        p.streamFlows().entrySet().stream()
                .filter(e -> Math.abs(e.getValue()) > 1e-9)
                .forEach(e -> balance.add(new Row(
                        Texts.of("balance.stream", e.getKey(), e.getValue() >= 0 ? p.to() : p.from()),
                        r.flow(e.getValue()))));
    }

    /** Where a stream is, by share. */
    private void streamState(String stream) {
        SolveResult.Converged solved = bench.shownSolution();
        if (solved == null) {
            return;
        }
        solved.cavities().values().stream()
                .filter(c -> c.streamFractions().getOrDefault(stream, 0.0) > 1e-6)
                .sorted(Comparator.comparingDouble(c -> -c.streamFractions().getOrDefault(stream, 0.0)))
                .forEach(c -> balance.add(
                        new Row(c.name(), readout().share(c.streamFractions().get(stream)))));
    }

    private void caseState() {
        if (bench.result() == null) {
            return;
        }
        Readout r = readout();
        var result = bench.result();
        add(state, "state.verdict", result.verdict().word());
        if (result.purge() != null) {
            add(state, "state.purge", r.flow(result.purge().flow()));
            add(state, "state.gas", result.purge().gas());
        }
        add(state, "state.engine", result.engine());
        var phase = bench.shownPhase();
        price(phase == null ? "" : phase.name());
        if (phase != null) {
            var c = phase.solve().convergence();
            add(
                    state,
                    "state.method",
                    Texts.of("method." + c.answeredBy().name().toLowerCase(java.util.Locale.ROOT)));
            add(state, "state.iterations", Integer.toString(c.iterations()));
            add(state, "state.mass", Readout.number(c.massClosure(), 2));
            add(state, "state.energy", Readout.number(c.energyClosure(), 2));
        }
    }

    /** What the barrier costs in the phase shown. */
    private void price(String phase) {
        Readout r = readout();
        for (BarrierPrice p : bench.result().price()) {
            if (!p.phase().equals(phase)) {
                continue;
            }
            add(price, "price.purge", r.flow(p.purgeFlow()));
            p.pumped().forEach(l -> loss("price.pumped", l));
            p.drive().forEach(l -> loss("price.drive", l));
            add(price, "price.power", r.power(p.shaftPower()));
            for (BarrierPrice.Carried c : p.carried()) {
                String share = r.share(Double.isNaN(c.share()) ? c.entryShare() : c.share());
                String key = c.liquid() ? "price.void" : "price.mole";
                price.add(new Row(
                        Texts.of("price.carried", c.into(), c.passage()),
                        r.flow(c.flow()),
                        Texts.of(key, share, Texts.of(Double.isNaN(c.share()) ? "price.entry" : "price.main"))));
            }
        }
    }

    private void loss(String key, BarrierPrice.Loss loss) {
        Readout r = readout();
        String share = Double.isNaN(loss.lostShare()) ? "" : " (" + r.share(loss.lostShare()) + ")";
        price.add(new Row(Texts.of(key, loss.stream()), r.flow(loss.lost()) + share, Texts.of("tip.price.loss")));
    }

    /** Ends a gesture: what comes next is a step of its own. */
    void settle() {
        bench.history().settle();
    }

    /** Takes back the last step of the case. */
    void undo() {
        bench.history().undo();
    }

    /** Takes the last undone step again. */
    void redo() {
        bench.history().redo();
    }

    /**
     * Takes a chosen word over even when the case then lacks something, for instance another type's own fields: the problems list
     * says what, and undo takes it back.
     */
    void force(FieldModel field) {
        String typed = field.textProperty().get();
        String standing = document().text(field.pointer()).orElse("");
        if (!typed.equals(standing)) {
            CaseDocument after = typed.isEmpty()
                    ? cleared(document(), field.pointer())
                    : written(document(), field.spec(), field.pointer(), typed);
            if (field.pointer().startsWith("/streams/")) {
                after = Places.oneKind(after, field.pointer());
            }
            bench.history().apply("edit.value", field.pointer(), after);
        }
    }

    /** What sort of place is shown: the folder it stands in, with the type of a passage. */
    String kind() {
        String place = bench.selectedProperty().get();
        return place.startsWith("/passages/")
                ? "/passages/" + document().text(place + "/type").orElse("")
                : place.isEmpty() ? "" : CaseEdits.folder(place);
    }

    /** Name of the place. */
    public ReadOnlyStringProperty titleProperty() {
        return title.getReadOnlyProperty();
    }

    /** What kind of place it is. */
    public ReadOnlyStringProperty subtitleProperty() {
        return subtitle.getReadOnlyProperty();
    }

    /** Fields in the order shown. */
    public ObservableList<FieldModel> fields() {
        return fields;
    }

    /** Computed state. */
    public ObservableList<Row> state() {
        return state;
    }

    /** What flows in and out, or which stream flows where. */
    public ObservableList<Row> balance() {
        return balance;
    }

    /** What the barrier costs in the phase shown; filled for the case as a whole. */
    public ObservableList<Row> price() {
        return price;
    }

    /** Findings about this place, of the phase shown. */
    public ObservableList<Finding> findings() {
        return findings;
    }
}
