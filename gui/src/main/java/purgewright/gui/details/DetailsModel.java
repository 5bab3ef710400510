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
import purgewright.gui.text.Texts;
import purgewright.hazard.finding.Finding;
import purgewright.sealflow.casefile.CaseDocument;
import purgewright.sealflow.model.Role;
import purgewright.sealflow.network.SolveResult;
import purgewright.sealflow.passage.PassageField;
import purgewright.sealflow.passage.PassageType;
import purgewright.sealflow.passage.PassageTypes;

/** What the details panel shows of the selected place: its fields, its state, its balance, its findings. */
public final class DetailsModel {
    /** A line of computed values. */
    public record Row(String label, String value) {}

    private final Workbench bench;
    private final ReadOnlyStringWrapper title = new ReadOnlyStringWrapper(this, "title", "");
    private final ReadOnlyStringWrapper subtitle = new ReadOnlyStringWrapper(this, "subtitle", "");
    private final ObservableList<FieldModel> fields = FXCollections.observableArrayList();
    private final ObservableList<Row> state = FXCollections.observableArrayList();
    private final ObservableList<Row> balance = FXCollections.observableArrayList();
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

    void apply(FieldSpec spec, String pointer, CaseDocument after, boolean merging) {
        if (merging) {
            bench.history().applyMerging("edit.value", pointer, after);
        } else {
            bench.history().apply("edit.value", pointer, after);
        }
    }

    /** The document with a text at a place; objects on the way are made. A name is changed wherever it is used. */
    CaseDocument written(CaseDocument document, String pointer, String typed) {
        String place = bench.selectedProperty().get();
        if (pointer.equals(place + "/name")) {
            return Places.renamed(document, place, typed);
        }
        CaseDocument with = document;
        int slash = pointer.lastIndexOf('/');
        String parent = pointer.substring(0, slash);
        if (slash > 0 && !exists(with, parent)) {
            with = with.withJson(parent, "{}");
        }
        return with.with(pointer, typed);
    }

    CaseDocument cleared(CaseDocument document, String pointer) {
        CaseDocument without = document.without(pointer);
        int slash = pointer.lastIndexOf('/');
        String parent = pointer.substring(0, slash);
        boolean nested = parent.endsWith("/disc") || parent.endsWith("/wall");
        return nested && without.children(parent).isEmpty() ? without.without(parent) : without;
    }

    private static boolean exists(CaseDocument document, String pointer) {
        int slash = pointer.lastIndexOf('/');
        return document.children(pointer.substring(0, slash)).contains(pointer.substring(slash + 1));
    }

    // ---- fields

    private void rebuild() {
        if (document() == null) {
            return;
        }
        String place = bench.selectedProperty().get();
        if (!place.isEmpty() && !exists(document(), place)) {
            bench.selectedProperty().set("");
            return;
        }
        List<FieldSpec> specs = specs(place);
        String now = place + specs.stream().map(FieldSpec::path).toList() + streams();
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

    private List<String> streams() {
        return document().children("/streams");
    }

    private List<FieldSpec> specs(String place) {
        if (place.startsWith("/cavities/")) {
            return cavity();
        }
        if (place.startsWith("/passages/")) {
            return passage(place);
        }
        return whole();
    }

    private List<FieldSpec> whole() {
        return List.of(
                FieldSpec.word("about/title", Texts.of("hint.title")),
                FieldSpec.word("about/note", Texts.of("hint.note")),
                FieldSpec.quantity("surroundings/pressure", Dimension.PRESSURE, Texts.of("hint.surroundings")),
                FieldSpec.quantity("surroundings/temperature", Dimension.TEMPERATURE, Texts.of("hint.surroundings")),
                FieldSpec.quantity("rotor/speed", Dimension.ANGULAR_SPEED, Texts.of("hint.speed"))
                        .sliding(),
                FieldSpec.quantity("rotor/whirl", Dimension.LENGTH, Texts.of("hint.whirl")),
                FieldSpec.quantity("rotor/bearing play", Dimension.LENGTH, Texts.of("hint.play")),
                FieldSpec.quantity("rotor/run-out", Dimension.LENGTH, Texts.of("hint.runout")),
                FieldSpec.quantity("rotor/thrust movement", Dimension.LENGTH, Texts.of("hint.thrust")));
    }

    private List<FieldSpec> cavity() {
        List<String> roles = new ArrayList<>();
        for (Role role : Role.values()) {
            roles.add(role.text());
        }
        List<String> choices = new ArrayList<>(List.of(""));
        choices.addAll(streams());
        return List.of(
                FieldSpec.word("name", Texts.of("hint.name")),
                FieldSpec.choice("role", roles, Texts.of("hint.role")),
                FieldSpec.choice("stream", choices, Texts.of("hint.stream")),
                FieldSpec.quantity("pressure", Dimension.PRESSURE, Texts.of("hint.pressure"))
                        .sliding(),
                FieldSpec.quantity("temperature", Dimension.TEMPERATURE, Texts.of("hint.temperature")),
                FieldSpec.quantity("volume", Dimension.VOLUME, Texts.of("hint.volume")),
                FieldSpec.quantity("radius", Dimension.LENGTH, Texts.of("hint.radius")),
                FieldSpec.quantity("swirl ratio", Dimension.NUMBER, Texts.of("hint.swirl")),
                FieldSpec.quantity(
                        "circumferential variation", Dimension.PRESSURE_DIFFERENCE, Texts.of("hint.variation")),
                FieldSpec.quantity("disc/inner radius", Dimension.LENGTH, Texts.of("hint.disc")),
                FieldSpec.quantity("disc/outer radius", Dimension.LENGTH, Texts.of("hint.disc")),
                FieldSpec.quantity("disc/gap", Dimension.LENGTH, Texts.of("hint.disc")));
    }

    private List<FieldSpec> passage(String place) {
        List<FieldSpec> specs = new ArrayList<>();
        List<String> cavities = document().children("/cavities");
        List<String> types =
                PassageTypes.all().stream().map(PassageType::key).sorted().toList();
        specs.add(FieldSpec.word("name", Texts.of("hint.name")));
        specs.add(FieldSpec.choice("from", cavities, Texts.of("hint.from")));
        specs.add(FieldSpec.choice("to", cavities, Texts.of("hint.to")));
        specs.add(FieldSpec.choice("type", types, Texts.of("hint.type")));
        PassageType type = type(place);
        if (type != null) {
            for (PassageField field : type.fields()) {
                boolean slides = field.name().equals("clearance")
                        || field.name().equals("diameter")
                        || field.name().equals("gap");
                specs.add(new FieldSpec(
                        field.name(),
                        field.name(),
                        field.dimension(),
                        field.choices(),
                        field.fallback() == null ? "" : field.fallback(),
                        field.description(),
                        slides && field.dimension() == Dimension.LENGTH,
                        field.required()));
            }
        }
        specs.add(FieldSpec.quantity("count", Dimension.NUMBER, Texts.of("hint.count")));
        specs.add(FieldSpec.quantity("worn clearance", Dimension.LENGTH, Texts.of("hint.worn")));
        specs.add(FieldSpec.quantity("clearance growth", Dimension.LENGTH, Texts.of("hint.growth")));
        specs.add(FieldSpec.quantity("calibration factor", Dimension.NUMBER, Texts.of("hint.calibration")));
        specs.add(FieldSpec.quantity("stirring", Dimension.NUMBER, Texts.of("hint.stirring")));
        return specs.stream()
                .filter(s -> specs.stream()
                                .filter(o -> o.path().equals(s.path()))
                                .findFirst()
                                .orElse(s)
                        == s)
                .toList();
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
        findings.setAll(bench.shownFindings().stream()
                .filter(f -> !place.isEmpty() && f.where().equals(place))
                .toList());
        if (document() == null) {
            return;
        }
        String name = place.substring(place.lastIndexOf('/') + 1);
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
        } else {
            title.set(document().text("/about/title").orElse(Texts.of("details.untitled")));
            subtitle.set(Texts.of("details.case"));
            caseState();
        }
    }

    private void add(ObservableList<Row> rows, String key, String value) {
        rows.add(new Row(Texts.of(key), value));
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
            add(state, "state.least", r.length(p.gap().least()));
            add(state, "state.contact", r.length(p.gap().contactLimit()));
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

    /** Ends a gesture: what comes next is a step of its own. */
    void settle() {
        bench.history().settle();
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
                    : written(document(), field.pointer(), typed);
            bench.history().apply("edit.value", field.pointer(), after);
        }
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

    /** Findings about this place, of the phase shown. */
    public ObservableList<Finding> findings() {
        return findings;
    }
}
