package purgewright.gui.bench;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.Executor;
import javafx.beans.property.BooleanProperty;
import javafx.beans.property.DoubleProperty;
import javafx.beans.property.IntegerProperty;
import javafx.beans.property.ObjectProperty;
import javafx.beans.property.ReadOnlyBooleanProperty;
import javafx.beans.property.ReadOnlyBooleanWrapper;
import javafx.beans.property.ReadOnlyObjectProperty;
import javafx.beans.property.ReadOnlyObjectWrapper;
import javafx.beans.property.SimpleBooleanProperty;
import javafx.beans.property.SimpleDoubleProperty;
import javafx.beans.property.SimpleIntegerProperty;
import javafx.beans.property.SimpleObjectProperty;
import javafx.beans.property.SimpleStringProperty;
import javafx.beans.property.StringProperty;
import javafx.collections.FXCollections;
import javafx.collections.ObservableList;
import purgewright.figure.Picture;
import purgewright.figure.Readout;
import purgewright.figure.Theme;
import purgewright.gui.edit.History;
import purgewright.gui.task.Checker;
import purgewright.gui.task.Outcome;
import purgewright.gui.task.SolveLane;
import purgewright.gui.task.TaskRunner;
import purgewright.gui.text.Texts;
import purgewright.hazard.finding.Finding;
import purgewright.hazard.finding.Verdict;
import purgewright.hazard.finding.Verdicts;
import purgewright.hazard.service.CheckResult;
import purgewright.sealflow.casefile.CaseDocument;
import purgewright.sealflow.casefile.CaseProblem;
import purgewright.sealflow.model.Case;
import purgewright.sealflow.network.SolveResult;

/**
 * The model of the window: the case being edited, the latest result and whether it still belongs to what stands there, the
 * selected place, and how things are shown.
 */
public final class Workbench {
    private final History history = new History();
    private final SolveLane lane;
    private final ReadOnlyObjectWrapper<CheckResult> result = new ReadOnlyObjectWrapper<>(this, "result");
    private final ReadOnlyBooleanWrapper busy = new ReadOnlyBooleanWrapper(this, "busy");
    private final ReadOnlyBooleanWrapper stale = new ReadOnlyBooleanWrapper(this, "stale");
    private final ReadOnlyObjectWrapper<Outcome> outcome = new ReadOnlyObjectWrapper<>(this, "outcome");
    private final BooleanProperty draftInvalid = new SimpleBooleanProperty(this, "draftInvalid");
    private final ObservableList<CaseProblem> problems = FXCollections.observableArrayList();
    private final ObservableList<Picture.Redline> proposed = FXCollections.observableArrayList();
    private final StringProperty selected = new SimpleStringProperty(this, "selected", "");
    private final IntegerProperty phase = new SimpleIntegerProperty(this, "phase", 0);
    private final ObjectProperty<Readout> readout = new SimpleObjectProperty<>(this, "readout", Readout.SI);
    private final ObjectProperty<Theme> theme = new SimpleObjectProperty<>(this, "theme", Theme.LIGHT);
    private final ObjectProperty<Picture.Layer> layer =
            new SimpleObjectProperty<>(this, "layer", Picture.Layer.PRESSURE_LOG);
    private final DoubleProperty lettering = new SimpleDoubleProperty(this, "lettering", 1);
    private final BooleanProperty toScale = new SimpleBooleanProperty(this, "toScale");
    private final ObjectProperty<CheckResult> reference = new SimpleObjectProperty<>(this, "reference");
    private CheckResult glance;
    private final StringProperty note = new SimpleStringProperty(this, "note", "");
    private final ObjectProperty<Path> file = new SimpleObjectProperty<>(this, "file");

    /**
     * @param runner where solves run
     * @param checker what solves and judges
     * @param deliver the window's thread
     */
    public Workbench(TaskRunner runner, Checker checker, Executor deliver) {
        this.lane = new SolveLane(runner, checker, deliver, this::told);
        // Every new document is solved, one that reads the same as the last too: hence no change listener.
        history.documentProperty().addListener(o -> solve());
    }

    private void solve() {
        proposed.clear();
        note.set("");
        if (history.document() != null) {
            busy.set(true);
            stale.set(true);
            CheckResult.PhaseResult shown = shownPhase();
            lane.submit(history.document(), shown == null ? null : shown.name());
        }
    }

    private void told(Outcome told) {
        if (told instanceof Outcome.Glanced glanced) {
            problems.clear();
            glance = open(glanced.result());
            outcome.set(told);
            return;
        }
        glance = null;
        busy.set(false);
        if (told instanceof Outcome.Checked checked) {
            problems.clear();
            if (phase.get() >= checked.result().phases().size()) {
                phase.set(0);
            }
            if (result.get() == null) {
                phase.set(telling(checked.result()));
            }
            stale.set(false);
            result.set(checked.result());
        } else if (told instanceof Outcome.Bad bad) {
            problems.setAll(bad.problems());
        } else {
            problems.clear();
        }
        outcome.set(told);
    }

    /**
     * A glance with what it cannot say yet left open: met criteria may still turn thin at the ends of the seal models' bands, and another
     * phase may be worse. What falls short stays so.
     */
    private static CheckResult open(CheckResult r) {
        String pending = Texts.of("finding.pending");
        List<CheckResult.PhaseResult> phases = r.phases().stream()
                .map(p -> new CheckResult.PhaseResult(
                        p.name(),
                        p.model(),
                        p.solve(),
                        p.opened(),
                        p.findings().stream()
                                .map(f -> f.verdict() == Verdict.HOLDS || f.verdict() == Verdict.THIN
                                        ? f.withVerdict(Verdict.NOT_ESTABLISHED, pending)
                                        : f)
                                .toList()))
                .toList();
        Verdict verdict = r.verdict() == Verdict.FALLS_SHORT ? r.verdict() : Verdict.NOT_ESTABLISHED;
        return new CheckResult(
                r.document(),
                r.model(),
                r.engine(),
                verdict,
                r.verdictLine(),
                phases,
                r.purge(),
                r.price(),
                Verdicts.sorted(
                        phases.stream().flatMap(p -> p.findings().stream()).toList(),
                        phases.stream().map(CheckResult.PhaseResult::name).toList()),
                r.cautions());
    }

    /** The phase to show first: that of the worst finding where something does not hold, else the one that needs most purge. */
    private static int telling(CheckResult result) {
        boolean holds = result.verdict() == Verdict.HOLDS;
        String name = holds || result.findings().isEmpty()
                ? result.purge() == null ? "" : result.purge().governingPhase()
                : result.findings().get(0).phase();
        for (int i = 0; i < result.phases().size(); i++) {
            if (result.phases().get(i).name().equals(name)) {
                return i;
            }
        }
        return 0;
    }

    /** Begins work on a case; its first result comes from the lane. */
    public void open(CaseDocument document, Path from, boolean saved) {
        file.set(from);
        selected.set("");
        phase.set(0);
        reference.set(null);
        glance = null;
        result.set(null);
        outcome.set(null);
        problems.clear();
        history.start(document, saved);
    }

    /** Solves what stands there once more. */
    public void again() {
        solve();
    }

    /** Ends background work. */
    public void close() {
        lane.cancel();
    }

    /** Freezes the result that stands now as the one to compare with, or lets go of the frozen one. */
    public void freeze(boolean on) {
        reference.set(on ? result.get() : null);
    }

    /** Result of the phase shown; null when there is none. */
    public CheckResult.PhaseResult shownPhase() {
        CheckResult r = result.get();
        if (r == null || r.phases().isEmpty()) {
            return null;
        }
        CheckResult.PhaseResult of =
                r.phases().get(Math.min(phase.get(), r.phases().size() - 1));
        CheckResult.PhaseResult seen = glance == null ? null : glance.phases().get(0);
        return seen != null && seen.name().equals(of.name()) ? seen : of;
    }

    /** The phase shown of the case as it stands, ahead of the whole; null when there is none, or when the whole is there. */
    public CheckResult glance() {
        return glance;
    }

    /** True while what is shown is of the case before the latest change, of which nothing is solved yet. */
    public boolean beforeTheChange() {
        return busy.get() && (glance == null || glance.document() != history.document());
    }

    /** Solution of the phase shown; null when it did not converge. */
    public SolveResult.Converged shownSolution() {
        CheckResult.PhaseResult p = shownPhase();
        return p != null && p.solve() instanceof SolveResult.Converged c ? c : null;
    }

    /** The same phase of the frozen result; null when nothing is frozen. */
    public SolveResult.Converged frozenSolution() {
        CheckResult r = reference.get();
        if (r == null || r.phases().isEmpty()) {
            return null;
        }
        CheckResult.PhaseResult p =
                r.phases().get(Math.min(phase.get(), r.phases().size() - 1));
        return p.solve() instanceof SolveResult.Converged c ? c : null;
    }

    /** The case as it is drawn: of the phase shown, or what the document says while there is no result; null when neither. */
    public Case shownCase() {
        CheckResult.PhaseResult p = shownPhase();
        return p == null ? null : p.model();
    }

    /** Redlines that the case states, and those a sizing proposed for the phase shown of the case as it stands. */
    public List<Picture.Redline> shownRedlines() {
        CheckResult.PhaseResult p = shownPhase();
        if (p == null) {
            return List.copyOf(proposed);
        }
        List<Picture.Redline> all = new ArrayList<>(Picture.stated(p.model()));
        proposed.stream().filter(r -> r.in(p.name())).forEach(all::add);
        return all;
    }

    /** Redlines that a sizing proposed; whoever changes the case they belong to clears them. */
    public ObservableList<Picture.Redline> proposedRedlines() {
        return proposed;
    }

    /** Findings of the phase shown. */
    public List<Finding> shownFindings() {
        CheckResult.PhaseResult p = shownPhase();
        return p == null ? List.of() : p.findings();
    }

    /** The case and its past. */
    public History history() {
        return history;
    }

    /** Last good result; null before the first. */
    public ReadOnlyObjectProperty<CheckResult> resultProperty() {
        return result.getReadOnlyProperty();
    }

    /** Last good result; null before the first. */
    public CheckResult result() {
        return result.get();
    }

    /** Latest outcome of whatever kind; null before the first. */
    public ReadOnlyObjectProperty<Outcome> outcomeProperty() {
        return outcome.getReadOnlyProperty();
    }

    /** True while a solve runs. */
    public ReadOnlyBooleanProperty busyProperty() {
        return busy.getReadOnlyProperty();
    }

    /** True when the result belongs to an earlier document than the one that stands there. */
    public ReadOnlyBooleanProperty staleProperty() {
        return stale.getReadOnlyProperty();
    }

    /** True while a field holds something that cannot be taken over. */
    public BooleanProperty draftInvalidProperty() {
        return draftInvalid;
    }

    /** What is wrong with the document, from the latest solve. */
    public ObservableList<CaseProblem> problems() {
        return problems;
    }

    /** JSON Pointer of the selected place; empty for the case as a whole. */
    public StringProperty selectedProperty() {
        return selected;
    }

    /** Index of the phase shown. */
    public IntegerProperty phaseProperty() {
        return phase;
    }

    /** Units of what is shown. */
    public ObjectProperty<Readout> readoutProperty() {
        return readout;
    }

    /** Colours of the drawings. */
    public ObjectProperty<Theme> themeProperty() {
        return theme;
    }

    /** What the skyline shows. */
    public ObjectProperty<Picture.Layer> layerProperty() {
        return layer;
    }

    /** Size of all text over the ordinary one, 1 to 2: drawings grow with it. */
    public DoubleProperty letteringProperty() {
        return lettering;
    }

    /** True while the section shows radii and seal lengths to scale, false for the schematic. */
    public BooleanProperty toScaleProperty() {
        return toScale;
    }

    /** Frozen result; null when none is. */
    public ObjectProperty<CheckResult> referenceProperty() {
        return reference;
    }

    /** What was done last that the drawing does not show; empty for nothing. The next edit clears it. */
    public StringProperty noteProperty() {
        return note;
    }

    /** File of the case; null when it has none yet. */
    public ObjectProperty<Path> fileProperty() {
        return file;
    }
}
