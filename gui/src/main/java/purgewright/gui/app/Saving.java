package purgewright.gui.app;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.ConcurrentHashMap;
import java.util.concurrent.CountDownLatch;
import javafx.application.Platform;
import javafx.beans.property.ReadOnlyBooleanProperty;
import javafx.beans.property.ReadOnlyBooleanWrapper;
import javafx.beans.property.ReadOnlyObjectProperty;
import javafx.beans.property.ReadOnlyObjectWrapper;
import purgewright.gui.bench.Workbench;
import purgewright.gui.edit.Claims;
import purgewright.gui.edit.Recovery;
import purgewright.gui.edit.Settings;
import purgewright.gui.task.WriteLanes;
import purgewright.gui.text.Texts;
import purgewright.report.WholeFile;
import purgewright.sealflow.casefile.CaseDocument;

/**
 * Saves the case, and writes what the window gives out, off the window's thread. The document is immutable: what is saved is the case at
 * the moment of asking, whatever is edited meanwhile.
 *
 * <p>A save goes through these states. Everything but <em>writing</em> happens on the window's thread.
 *
 * <pre>
 * asked     the state shown is SAVING; a second save of the same revision to the same file is not asked for again
 * writing   (a thread of its own, after what was asked for of the same file before) claims the file: another window may have it;
 *           looks whether another program changed it, and asks; writes it, whole or not at all
 * saved     the case's file is this one; what was written counts as saved, later edits stay unsaved; the kept copy is forgotten
 *           when there are none
 * failed    the old file, the claim and the kept copy stay as they were; the user is told
 * left      another case was opened, or the window is closed, before it ended: the kept copy stays for the next window, until the save
 *           is known to have succeeded after all
 * </pre>
 *
 * <p>Saves to different files do not wait for one another. Of two that end out of turn the later asked for counts.
 */
final class Saving implements AutoCloseable {
    /** What is known of the last save of the case that is open. */
    enum State {
        /** Nothing to tell: nothing was saved yet, it was edited since, or nothing is left to be saved. */
        NONE,
        SAVING,
        SAVED,
        FAILED
    }

    /** How writing ended, when it did not break off. */
    private enum End {
        WRITTEN,
        /** Another window has the file. */
        TAKEN,
        /** Another program changed it, and the user would not write over that. */
        SPARED
    }

    private final class Save {
        private final int number;
        /** What this window last read from or wrote to each file of the case that was open then. */
        private final Map<Path, String> known;

        private final CaseDocument document;
        private final Path file;
        private final CountDownLatch ended = new CountDownLatch(1);
        private volatile Claims.Claim claim;
        /** Forgets the kept copy; null while this is a save of the case that is open. */
        private volatile Runnable left;

        Save(CaseDocument document, Path file) {
            this.number = ++asked;
            this.known = Saving.this.known;
            this.document = document;
            this.file = file;
        }
    }

    private final Workbench bench;
    private final Settings settings;
    private final Recovery recovery;
    private final Dialogs dialogs;
    private final Disk disk;
    private final Claims claims;
    private final WriteLanes lanes = new WriteLanes(Platform::runLater);
    private final CompletableFuture<Boolean> closed = new CompletableFuture<>();
    private final ReadOnlyObjectWrapper<State> state = new ReadOnlyObjectWrapper<>(this, "state", State.NONE);
    private final ReadOnlyBooleanWrapper saving = new ReadOnlyBooleanWrapper(this, "saving");
    private final ReadOnlyBooleanWrapper writing = new ReadOnlyBooleanWrapper(this, "writing");
    private final ReadOnlyBooleanWrapper unkept = new ReadOnlyBooleanWrapper(this, "unkept");
    /** Saves that have not ended, of the case that is open; oldest first. */
    private final List<Save> running = new ArrayList<>();
    /** All that have not ended, for the threads that write. */
    private final Map<Integer, Save> all = new ConcurrentHashMap<>();

    /** Drawings and tables that have not been written yet. */
    private final List<Path> given = new ArrayList<>();

    private Map<Path, String> known = new ConcurrentHashMap<>();
    private Claims.Claim own;
    private int asked;
    private int saved;
    private Runnable recentChanged = () -> {};

    Saving(Workbench bench, Settings settings, Recovery recovery, Dialogs dialogs, Disk disk) {
        this.bench = bench;
        this.settings = settings;
        this.recovery = recovery;
        this.dialogs = dialogs;
        this.disk = disk;
        this.claims = new Claims(settings.folder());
        bench.history().dirtyProperty().addListener((o, before, dirty) -> {
            if (state.get() == (dirty ? State.SAVED : State.FAILED)) {
                state.set(State.NONE);
            }
        });
    }

    /** What is known of the last save. */
    ReadOnlyObjectProperty<State> stateProperty() {
        return state.getReadOnlyProperty();
    }

    /** True while the case is being saved. */
    ReadOnlyBooleanProperty savingProperty() {
        return saving.getReadOnlyProperty();
    }

    /** True while a drawing or a table is being written. */
    ReadOnlyBooleanProperty writingProperty() {
        return writing.getReadOnlyProperty();
    }

    /** True when unsaved work could not be kept the last time it was tried. */
    ReadOnlyBooleanProperty unkeptProperty() {
        return unkept.getReadOnlyProperty();
    }

    /** Called whenever the list of recent files changes. */
    void onRecentChanged(Runnable told) {
        recentChanged = told;
    }

    // ---- the case that is open

    /** Takes a file that is to be opened; empty when another window has it. */
    Optional<Claims.Claim> claim(Path file) {
        return claims.take(file);
    }

    /** To be told right before another case is opened: the kept copy of what is still being saved stays, any other is forgotten. */
    void leave() {
        CaseDocument now = bench.history().document();
        boolean unsure = !running.isEmpty() && bench.history().dirtyProperty().get() && keep();
        Runnable forget = unsure ? recovery.leave() : () -> {};
        running.forEach(save -> save.left = save.document == now ? forget : () -> {});
        running.clear();
        saving.set(false);
        recovery.forget();
    }

    /**
     * To be told right after another case was opened.
     *
     * @param file its own; null when it has none
     * @param onDisk its hash as it was read; null when that is not known
     * @param claim on the file; null when it has none
     */
    void opened(Path file, String onDisk, Claims.Claim claim) {
        known = new ConcurrentHashMap<>();
        if (onDisk != null) {
            known.put(file, onDisk);
        }
        own(claim);
        state.set(State.NONE);
    }

    private void own(Claims.Claim claim) {
        if (own != null) {
            own.close();
        }
        own = claim;
    }

    /** Puts a file on top of the recent ones. */
    void remember(Path file) {
        settings.opened(file.toAbsolutePath());
        recentChanged.run();
    }

    // ---- saving

    /** Where a save without a name goes: where the last one goes, done or not; null for nowhere yet. */
    Path target() {
        return running.isEmpty() ? bench.fileProperty().get() : running.get(running.size() - 1).file;
    }

    /** Asks for a save of the case as it stands. */
    void save(Path file) {
        CaseDocument document = bench.history().document();
        Save last = running.isEmpty() ? null : running.get(running.size() - 1);
        if (last != null && last.document == document && last.file.equals(file)) {
            return;
        }
        Save save = new Save(document, file);
        running.add(save);
        all.put(save.number, save);
        saving.set(true);
        state.set(State.SAVING);
        lanes.start(file, () -> write(save), (end, error) -> ended(save, end, error));
    }

    /** On the writing thread. */
    private End write(Save save) throws Exception {
        try {
            save.claim = claims.take(save.file).orElse(null);
            if (save.claim == null) {
                return End.TAKEN;
            }
            for (Save other : all.values()) {
                // The same file under another name: it must not be overtaken by what was asked for later.
                if (other.number < save.number
                        && other.claim != null
                        && other.claim.file().equals(save.claim.file())) {
                    other.ended.await();
                }
            }
            String before = save.known.get(save.file);
            if (before != null && disk.differs(save.file, before) && !overwrite(save)) {
                return End.SPARED;
            }
            disk.save(save.document, save.file);
            save.known.put(save.file, save.document.hash());
            return End.WRITTEN;
        } finally {
            save.ended.countDown();
        }
    }

    /** Asks on the window's thread, from the writing one. */
    private boolean overwrite(Save save) throws Exception {
        CompletableFuture<Boolean> answer = new CompletableFuture<>();
        Platform.runLater(() -> {
            try {
                answer.complete(save.left == null
                        && dialogs.confirm(Texts.of("save.title"), Texts.of("save.changed", save.file.toString())));
            } catch (RuntimeException e) {
                answer.completeExceptionally(e);
            }
        });
        return (Boolean) CompletableFuture.anyOf(answer, closed).get();
    }

    private void ended(Save save, End end, Throwable error) {
        save.ended.countDown(); // where no thread could be had, too
        all.remove(save.number);
        running.remove(save);
        boolean good = end == End.WRITTEN;
        if (save.left != null || closed.isDone()) {
            endedAfterAll(save, good, error);
            return;
        }
        if (good && save.number > saved) {
            saved = save.number;
            own(save.claim);
            bench.fileProperty().set(save.file);
            bench.history().markSaved(save.document);
            if (!bench.history().dirtyProperty().get()) {
                recovery.forget();
            }
            remember(save.file);
        } else if (save.claim != null) {
            save.claim.close();
        }
        saving.set(!running.isEmpty());
        state.set(
                !running.isEmpty()
                        ? State.SAVING
                        : !good && end != End.SPARED
                                ? State.FAILED
                                : bench.history().dirtyProperty().get() ? State.NONE : State.SAVED);
        if (end == End.TAKEN) {
            dialogs.tell(Texts.of("save.title"), List.of(Texts.of("save.taken", save.file.toString())));
        } else if (error != null) {
            tell(save.file, error);
        }
    }

    /** A save of a case that is not open any more. */
    private void endedAfterAll(Save save, boolean good, Throwable error) {
        if (save.claim != null) {
            save.claim.close();
        }
        if (closed.isDone()) {
            return;
        }
        if (good) {
            save.left.run();
            bench.noteProperty().set(Texts.of("save.after", save.file.toString()));
        } else {
            String why = error == null ? Texts.of("save.spared") : Texts.of(error);
            dialogs.tell(Texts.of("save.title"), List.of(failure(save.file, why), Texts.of("save.kept")));
        }
    }

    /** Writes a drawing or a table. */
    void give(Path file, WholeFile.Content content) {
        given.add(file);
        writing.set(true);
        bench.noteProperty().set(Texts.of("report.writing", file.toString()));
        lanes.start(
                file,
                () -> {
                    disk.write(file, content);
                    return file;
                },
                (done, error) -> {
                    given.remove(file);
                    writing.set(!given.isEmpty());
                    if (closed.isDone()) {
                        return;
                    }
                    bench.noteProperty().set(error == null ? Texts.of("report.done", file.toString()) : "");
                    if (error != null) {
                        tell(file, error);
                    }
                });
    }

    private void tell(Path file, Throwable error) {
        dialogs.tell(Texts.of("save.title"), List.of(failure(file, Texts.of(error))));
    }

    /** Names the file once: some reasons do already. */
    private static String failure(Path file, String why) {
        return why.contains(file.toString()) ? why : Texts.of("save.failed", file.toString(), why);
    }

    // ---- leaving

    /** What has not been written yet, for a question; empty when everything is. */
    List<Path> waiting() {
        List<Path> files = new ArrayList<>(given);
        running.forEach(save -> files.add(save.file));
        return files;
    }

    /** Keeps the case as it stands, edits since the save included; false where the keeper's folder cannot be written. */
    boolean keep() {
        Path file = bench.fileProperty().get();
        unkept.set(bench.history().dirtyProperty().get()
                && !recovery.keep(bench.history().document(), file, file == null ? null : known.get(file)));
        return !unkept.get();
    }

    /** Forgets the kept copy: the user gives up what is not saved. */
    void giveUp() {
        recovery.forget();
    }

    /** Ends what this window holds; what is still written goes on. */
    @Override
    public void close() {
        closed.complete(false);
        claims.close();
    }
}
