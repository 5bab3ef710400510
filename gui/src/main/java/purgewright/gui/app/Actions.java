package purgewright.gui.app;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.function.Consumer;
import java.util.function.Supplier;
import javafx.application.Platform;
import javafx.beans.binding.Bindings;
import javafx.beans.binding.BooleanBinding;
import javafx.beans.binding.BooleanExpression;
import purgewright.figure.Figure;
import purgewright.figure.FigureExport;
import purgewright.figure.Picture;
import purgewright.figure.Readout;
import purgewright.figure.Theme;
import purgewright.fluids.unit.UnitSystem;
import purgewright.gui.bench.Workbench;
import purgewright.gui.details.Outline;
import purgewright.gui.details.Places;
import purgewright.gui.edit.Claims;
import purgewright.gui.edit.Recovery;
import purgewright.gui.edit.Settings;
import purgewright.gui.edit.StarterCases;
import purgewright.gui.task.TaskRunner;
import purgewright.gui.task.Work;
import purgewright.gui.text.Texts;
import purgewright.gui.views.Shown;
import purgewright.hazard.fault.FaultResult;
import purgewright.hazard.finding.Finding;
import purgewright.hazard.finding.Waiver;
import purgewright.hazard.service.CheckResult;
import purgewright.hazard.service.Comparison;
import purgewright.report.EmbeddedCase;
import purgewright.report.Report;
import purgewright.report.ReportInput;
import purgewright.report.WholeFile;
import purgewright.sealflow.casefile.CaseDocument;
import purgewright.sealflow.casefile.CaseEdits;
import purgewright.sealflow.casefile.CaseException;

/** Everything a user can do, as one table. */
final class Actions {
    private final Workbench bench;
    private final Settings settings;
    private final Recovery recovery;
    private final Saving saving;
    private final Dialogs dialogs;
    private final Supplier<Shown> shown;
    private final Supplier<FaultResult> faults;
    private final Work<Path> reports = new Work<>(TaskRunner.background("report"), Platform::runLater);
    private final Consumer<String> zoom;
    private final Runnable quit;
    private final List<Action> all = new ArrayList<>();
    /** Where the report goes that is being written. */
    private Path reported;
    /** True while it is asked whether to leave: a second question would be about the first. */
    private boolean leaving;

    /**
     * @param shown the view that is looked at, for export
     * @param faults the fault sweep of the case as it stands; null where there is none
     * @param zoom told "in", "out", "fit"
     * @param quit closes the window after the question about unsaved work
     */
    Actions(
            Workbench bench,
            Settings settings,
            Recovery recovery,
            Saving saving,
            Dialogs dialogs,
            Supplier<Shown> shown,
            Supplier<FaultResult> faults,
            Consumer<String> zoom,
            Runnable quit) {
        this.bench = bench;
        this.settings = settings;
        this.recovery = recovery;
        this.saving = saving;
        this.dialogs = dialogs;
        this.shown = shown;
        this.faults = faults;
        reports.messageProperty().addListener((o, a, text) -> {
            if (!text.isEmpty()) {
                bench.noteProperty().set(Texts.of("report.failed", text));
            }
        });
        this.zoom = zoom;
        this.quit = quit;
        declare();
    }

    private void declare() {
        BooleanBinding open = bench.history().documentProperty().isNotNull();
        BooleanBinding placed = Bindings.createBooleanBinding(
                () -> Outline.movable(bench.selectedProperty().get()), bench.selectedProperty());
        BooleanBinding solved = bench.resultProperty().isNotNull();
        add("open", "file", "fth-folder", "Shortcut+O", null, this::open);
        add("save", "file", "fth-save", "Shortcut+S", open.and(bench.history().dirtyProperty()), this::save);
        add("saveas", "file", "", "Shortcut+Shift+S", open, this::saveAs);
        add("exportsvg", "file", "", "", solved, () -> export("svg"));
        add("exportpng", "file", "", "Shortcut+E", solved, () -> export("png"));
        add("exportcsv", "file", "", "", solved, () -> export("csv"));
        add("report", "file", "fth-file-text", "Shortcut+R", solved, this::report);
        add("quit", "file", "", "Shortcut+Q", null, quit);
        add(
                "undo",
                "edit",
                "fth-corner-up-left",
                "Shortcut+Z",
                bench.history().undoableProperty().isNotNull(),
                bench.history()::undo);
        add(
                "redo",
                "edit",
                "fth-corner-up-right",
                "Shortcut+Y",
                bench.history().redoableProperty().isNotNull(),
                bench.history()::redo);
        add("addcavity", "edit", "", "", open, this::addCavity);
        add("addpassage", "edit", "", "", open, this::addPassage);
        add("duplicate", "edit", "", "Shortcut+D", placed, this::duplicate);
        add("remove", "edit", "", "Shortcut+Delete", placed, this::remove);
        add("earlier", "edit", "", "Alt+UP", placed, () -> move(-1));
        add("later", "edit", "", "Alt+DOWN", placed, () -> move(1));
        add("connect", "edit", "fth-link", "Shortcut+J", open, () -> zoom.accept("connect"));
        add("whole", "edit", "fth-sliders", "Shortcut+I", open, () -> bench.selectedProperty()
                .set(""));
        add("units", "view", "fth-globe", "Shortcut+U", null, this::switchUnits);
        add("light", "view", "", "", null, () -> theme(Theme.LIGHT));
        add("dark", "view", "", "", null, () -> theme(Theme.DARK));
        add("contrast", "view", "", "", null, () -> theme(Theme.CONTRAST));
        add("theme", "view", "fth-moon", "Shortcut+T", null, this::nextTheme);
        add("pressurelog", "view", "", "", null, () -> bench.layerProperty().set(Picture.Layer.PRESSURE_LOG));
        add("pressurelinear", "view", "", "", null, () -> bench.layerProperty().set(Picture.Layer.PRESSURE_LINEAR));
        add("temperature", "view", "", "", null, () -> bench.layerProperty().set(Picture.Layer.TEMPERATURE));
        add("concentration", "view", "", "", null, () -> bench.layerProperty().set(Picture.Layer.CONCENTRATION));
        add("toscale", "view", "", "Shortcut+L", open, () -> bench.toScaleProperty()
                .set(!bench.toScaleProperty().get()));
        add("zoomin", "view", "fth-zoom-in", "Shortcut+'+'", open, () -> zoom.accept("in"));
        add("zoomout", "view", "fth-zoom-out", "Shortcut+'-'", open, () -> zoom.accept("out"));
        add("zoomfit", "view", "fth-maximize", "Shortcut+'0'", open, () -> zoom.accept("fit"));
        add("larger", "view", "", "Alt+'+'", null, () -> zoom.accept("larger"));
        add("smaller", "view", "", "Alt+'-'", null, () -> zoom.accept("smaller"));
        add(
                "freeze",
                "view",
                "fth-camera",
                "Shortcut+F",
                solved,
                () -> bench.freeze(bench.referenceProperty().get() == null));
        add("nextpart", "view", "", "F6", null, () -> zoom.accept("nextpart"));
        add("previouspart", "view", "", "Shift+F6", null, () -> zoom.accept("previouspart"));
        add("guide", "help", "fth-help-circle", "F1", null, () -> zoom.accept("guide"));
        add("about", "help", "", "", null, this::about);
    }

    private void add(
            String id,
            String menu,
            String icon,
            String keys,
            javafx.beans.value.ObservableBooleanValue enabled,
            Runnable run) {
        all.add(new Action(id, menu, icon, keys, enabled, run));
    }

    /** All actions in menu order. */
    List<Action> all() {
        return all;
    }

    /** The action of that id. */
    Action get(String id) {
        return all.stream().filter(a -> a.id().equals(id)).findFirst().orElseThrow();
    }

    // ---- files

    private void open() {
        Path now = bench.fileProperty().get();
        dialogs.openFile(now == null ? null : now.toAbsolutePath().getParent()).ifPresent(this::open);
    }

    /** Opens a file after the question about unsaved work. */
    void open(Path file) {
        if (!mayLeave(false)) {
            return;
        }
        CaseDocument document = read(file);
        if (document != null && EmbeddedCase.isReport(file)) {
            // The case inside a report has no file of its own: saving must not write over the report.
            opened(document, null, null, true);
            bench.noteProperty().set(Texts.of("status.fromreport", String.valueOf(file.getFileName())));
        } else if (document != null) {
            Claims.Claim claim = saving.claim(file).orElse(null);
            if (claim == null && !dialogs.confirm(Texts.of("open.taken"), Texts.of("open.copy", file.toString()))) {
                return;
            }
            opened(document, claim == null ? null : file, claim, true);
            saving.remember(file);
        }
    }

    private void opened(CaseDocument document, Path file, Claims.Claim claim, boolean asSaved) {
        saving.leave();
        bench.open(document, file, asSaved);
        saving.opened(file, asSaved && file != null ? document.hash() : null, claim);
    }

    /** Another case, to compare with; null when none was chosen or the file is none. */
    CaseDocument another() {
        Path now = bench.fileProperty().get();
        Optional<Path> file =
                dialogs.openFile(now == null ? null : now.toAbsolutePath().getParent());
        return file.isEmpty() ? null : read(file.get());
    }

    private CaseDocument read(Path file) {
        try {
            return EmbeddedCase.isReport(file) ? CaseDocument.parse(EmbeddedCase.read(file)) : CaseDocument.read(file);
        } catch (IOException e) {
            dialogs.tell(Texts.of("open.title"), List.of(String.valueOf(e.getMessage())));
            return null;
        } catch (CaseException e) {
            List<String> lines = new ArrayList<>();
            lines.add(Texts.of("open.failed", file.toString()));
            e.problems().stream()
                    .limit(8)
                    .forEach(p -> lines.add(
                            p.line() > 0
                                    ? Texts.of("open.problem", Integer.toString(p.line()), p.message())
                                    : p.message()));
            dialogs.tell(Texts.of("open.title"), lines);
            return null;
        }
    }

    /** Opens a starter case after the question about unsaved work. */
    void starter(String name) {
        if (mayLeave(false)) {
            opened(StarterCases.open(name), null, null, true);
        }
    }

    /**
     * True when unsaved work is saved or given up, or kept because the disk it is being saved to does not answer.
     *
     * @param closing whether the window will be closed: then drawings, tables and reports are waited for too
     */
    boolean mayLeave(boolean closing) {
        if (leaving) {
            return false;
        }
        leaving = true;
        try {
            Dialogs.Wait waited = await(closing);
            if (waited == Dialogs.Wait.ENDED && bench.history().dirtyProperty().get()) {
                switch (dialogs.unsaved(title())) {
                    case SAVE -> {
                        save();
                        waited = await(closing);
                        if (waited == Dialogs.Wait.ENDED) {
                            return !bench.history().dirtyProperty().get();
                        }
                    }
                    case DISCARD -> {
                        if (closing) {
                            saving.giveUp();
                        }
                        return true;
                    }
                    case CANCEL -> {
                        return false;
                    }
                }
            }
            return switch (waited) {
                case ENDED -> true;
                case BACK -> false;
                case LEAVE ->
                    saving.keep()
                            || dialogs.confirm(Texts.of("wait.title"), Texts.of("wait.unkept", "" + settings.folder()));
            };
        } finally {
            leaving = false;
        }
    }

    /** Waits for what is being written. */
    private Dialogs.Wait await(boolean closing) {
        BooleanExpression busy = closing
                ? Bindings.or(saving.savingProperty(), saving.writingProperty()).or(reports.runningProperty())
                : saving.savingProperty();
        if (!busy.get()) {
            return Dialogs.Wait.ENDED;
        }
        List<String> lines = new ArrayList<>();
        for (Path file : saving.waiting()) {
            lines.add(Texts.of("wait.file", file.toString()));
        }
        if (reports.runningProperty().get()) {
            lines.add(Texts.of("wait.file", String.valueOf(reported)));
        }
        lines.add(Texts.of(saving.savingProperty().get() ? "wait.kept" : "wait.lost"));
        return dialogs.await(Texts.of("wait.title"), lines, busy);
    }

    /** Title of the case, or a word for none. */
    String title() {
        CaseDocument document = bench.history().document();
        return document == null ? "" : document.text("/about/title").orElse(Texts.of("details.untitled"));
    }

    private void save() {
        Path file = saving.target();
        if (file == null) {
            saveAs();
        } else {
            saving.save(file);
        }
    }

    private void saveAs() {
        Path now = saving.target();
        dialogs.saveFile(now == null ? Path.of("case.json") : now, "json").ifPresent(saving::save);
    }

    private void export(String ending) {
        Shown view = shown.get();
        Figure drawing = view.figure();
        String csv = ending.equals("csv") ? view.csv() : "";
        if (ending.equals("csv") ? csv.isEmpty() : drawing == null) {
            dialogs.tell(Texts.of("export.title"), List.of(Texts.of("export.nothing")));
            return;
        }
        Path now = bench.fileProperty().get();
        Path named = Path.of(view.name() + "." + ending);
        Path suggested = now == null ? named : now.toAbsolutePath().resolveSibling(named);
        Optional<Path> file = dialogs.saveFile(suggested, ending);
        if (file.isEmpty()) {
            return;
        }
        // Drawing and text are as they stand now, whatever is edited while they are being written.
        saving.give(file.get(), out -> {
            switch (ending) {
                case "svg" -> FigureExport.svg(drawing, out);
                case "csv" -> out.write(csv.getBytes(StandardCharsets.UTF_8));
                default -> FigureExport.png(drawing, 2, out);
            }
        });
    }

    /** Takes up work that an earlier window left behind, and says so. */
    boolean recover() {
        Optional<Recovery.Unsaved> unsaved = recovery.find();
        if (unsaved.isEmpty()) {
            return false;
        }
        Path file = unsaved.get().file();
        Claims.Claim claim = file == null ? null : saving.claim(file).orElse(null);
        bench.open(unsaved.get().document(), claim == null ? null : file, false);
        saving.opened(file, claim == null ? null : unsaved.get().onDisk(), claim);
        bench.noteProperty().set(Texts.of("status.recovered"));
        return true;
    }

    /** Ends what this window holds. */
    void close() {
        saving.close();
        reports.cancel();
    }

    /** Writes a report of the case as it stands, with the fault sweep and the frozen state where they are there. */
    private void report() {
        CheckResult check = bench.result();
        Path now = bench.fileProperty().get();
        Path named = Path.of(Texts.of("report.name") + ".pdf");
        Optional<Path> file =
                dialogs.saveFile(now == null ? named : now.toAbsolutePath().resolveSibling(named), "pdf");
        if (file.isEmpty() || check == null) {
            return;
        }
        Path target = file.get();
        String name = String.valueOf(target.getFileName()).toLowerCase(Locale.ROOT);
        Report.Form form = name.endsWith(".html")
                ? Report.Form.HTML
                : name.endsWith(".md")
                        ? Report.Form.MARKDOWN
                        : name.endsWith(".xlsx")
                                ? Report.Form.XLSX
                                : name.endsWith(".csv") ? Report.Form.CSV : Report.Form.PDF;
        ReportInput input = ReportInput.of(check);
        FaultResult sweep = faults.get();
        if (sweep != null) {
            input = input.with(sweep);
        }
        if (bench.referenceProperty().get() != null) {
            input = input.with(Comparison.of(bench.referenceProperty().get(), check));
        }
        ReportInput all = input;
        reported = target;
        UnitSystem units = bench.readoutProperty().get() == Readout.SI ? UnitSystem.SI : UnitSystem.US;
        bench.noteProperty().set(Texts.of("report.writing", target.toString()));
        reports.start(
                progress -> {
                    write(new Report(all, units, "A4", version(), null), form, target);
                    return target;
                },
                done -> bench.noteProperty().set(Texts.of("report.done", done.toString())));
    }

    private static void write(Report report, Report.Form form, Path target) {
        try {
            WholeFile.write(target, out -> report.write(form, out));
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    private static String version() {
        String version = Actions.class.getPackage().getImplementationVersion();
        return version == null ? "unpackaged" : version;
    }

    // ---- edits

    private void addCavity() {
        CaseDocument document = bench.history().document();
        String name = Places.free(document, "/cavities", Texts.of("new.cavity"));
        String passage = Places.free(document, "/passages", Texts.of("new.passage"));
        List<String> cavities = document.children("/cavities");
        String selected = bench.selectedProperty().get();
        String other = selected.startsWith("/cavities/")
                ? selected.substring("/cavities/".length())
                : cavities.isEmpty() ? null : cavities.get(0);
        CaseDocument after = Places.withCavity(document, name);
        if (other != null) {
            // A cavity joined to nothing cannot be solved; an orifice to the selected one is a start.
            after = Places.withPassage(after, passage, other, name);
        }
        bench.history().apply("edit.add", "/cavities/" + name, after);
        bench.selectedProperty().set("/cavities/" + name);
    }

    private void addPassage() {
        CaseDocument document = bench.history().document();
        List<String> cavities = document.children("/cavities");
        if (cavities.size() < 2) {
            return;
        }
        String selected = bench.selectedProperty().get();
        String from = selected.startsWith("/cavities/") ? selected.substring("/cavities/".length()) : cavities.get(0);
        String to = cavities.stream().filter(c -> !c.equals(from)).findFirst().orElseThrow();
        String name = Places.free(document, "/passages", Texts.of("new.passage"));
        bench.history().apply("edit.add", "/passages/" + name, Places.withPassage(document, name, from, to));
        bench.selectedProperty().set("/passages/" + name);
    }

    /** Adds one of what a folder holds, named as wanted or nearly so. */
    void addTo(String folder) {
        CaseDocument document = bench.history().document();
        if (folder.equals("/cavities")) {
            addCavity();
            return;
        }
        if (folder.equals("/passages")) {
            addPassage();
            return;
        }
        String selected = bench.selectedProperty().get();
        String wanted = folder.equals("/uncertain")
                ? uncertain(document, selected)
                : Texts.of("new" + folder.replace('/', '.'));
        if (wanted.isEmpty()
                || (folder.equals("/uncertain") && document.children(folder).contains(wanted))) {
            dialogs.tell(Texts.of("outline.uncertain"), List.of(Texts.of("new.uncertain.how")));
            return;
        }
        String name = folder.equals("/uncertain") ? wanted : Places.free(document, folder, wanted);
        String place = folder + "/" + CaseEdits.escaped(name);
        bench.history().apply("edit.add", place, Places.added(document, folder, name));
        bench.selectedProperty().set(place);
    }

    /** The first number of the selected place that can be uncertain. */
    private static String uncertain(CaseDocument document, String selected) {
        for (String field : List.of("clearance", "gap", "diameter", "pressure", "temperature")) {
            if (!selected.isEmpty() && document.has(selected + "/" + field)) {
                return selected + "/" + field;
            }
        }
        return "";
    }

    private void duplicate() {
        String place = bench.selectedProperty().get();
        CaseDocument document = bench.history().document();
        String folder = CaseEdits.folder(place);
        String name = Places.free(document, folder, CaseEdits.last(place));
        bench.history().apply("edit.duplicate", place, CaseEdits.duplicated(document, place, name));
        bench.selectedProperty().set(folder + "/" + CaseEdits.escaped(name));
    }

    private void remove() {
        String place = bench.selectedProperty().get();
        bench.selectedProperty().set("");
        bench.history()
                .apply("edit.remove", place, CaseEdits.removed(bench.history().document(), place));
    }

    private void move(int by) {
        String place = bench.selectedProperty().get();
        CaseDocument now = bench.history().document();
        CaseDocument after = CaseEdits.moved(now, place, by);
        if (after != now) {
            bench.history().apply("edit.move", place, after);
        }
    }

    /** Joins two cavities with a new seal. */
    void connect(String from, String to) {
        CaseDocument document = bench.history().document();
        String name = Places.free(document, "/passages", Texts.of("new.seal"));
        bench.history()
                .apply(
                        "edit.connect",
                        "/passages/" + CaseEdits.escaped(name),
                        Places.withSeal(document, name, CaseEdits.last(from), CaseEdits.last(to)));
        bench.selectedProperty().set("/passages/" + CaseEdits.escaped(name));
    }

    /** Asks who accepts a finding and why; the name is remembered. */
    Optional<Waiver> waiver(Finding finding) {
        Optional<Waiver> waiver = dialogs.waiver(finding.what(), settings.get("reviewer", ""));
        waiver.ifPresent(w -> settings.put("reviewer", w.by()));
        return waiver;
    }

    // ---- looks

    private void switchUnits() {
        Readout now = bench.readoutProperty().get() == Readout.SI ? Readout.US : Readout.SI;
        bench.readoutProperty().set(now);
        settings.put("units", now.name());
    }

    private void theme(Theme theme) {
        bench.themeProperty().set(theme);
        settings.put("theme", theme.name());
    }

    private void nextTheme() {
        Theme now = bench.themeProperty().get();
        theme(now == Theme.LIGHT ? Theme.DARK : now == Theme.DARK ? Theme.CONTRAST : Theme.LIGHT);
    }

    /** Cautions of the result; those of any result before there is one. */
    List<String> cautions() {
        return bench.result() == null
                ? List.of(Texts.of("about.caution"))
                : bench.result().cautions();
    }

    void tellCautions() {
        dialogs.tell(Texts.of("cautions.title"), cautions());
    }

    private void about() {
        List<String> lines = new ArrayList<>();
        lines.add(Texts.of("about.what"));
        lines.add(Texts.of("about.version", version()));
        lines.addAll(cautions());
        lines.add(Texts.of("about.scope"));
        lines.add(Texts.of("about.font"));
        dialogs.tell(Texts.of("about.title"), lines);
    }
}
