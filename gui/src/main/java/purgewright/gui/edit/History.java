package purgewright.gui.edit;

import java.util.ArrayDeque;
import java.util.Deque;
import javafx.beans.property.ReadOnlyBooleanProperty;
import javafx.beans.property.ReadOnlyBooleanWrapper;
import javafx.beans.property.ReadOnlyObjectProperty;
import javafx.beans.property.ReadOnlyObjectWrapper;
import purgewright.sealflow.casefile.CaseDocument;

/**
 * The case being edited and everything it was before. A document is immutable, so a step is a pair of documents; steps of one
 * gesture (typing in a field, dragging a slider) merge into one.
 */
public final class History {
    /**
     * @param key text key of what was done
     * @param place where, or empty
     */
    public record Step(String key, String place, CaseDocument before, CaseDocument after) {}

    /** Steps that can be taken back: more than anybody counts, and a day of dragging does not fill the memory. */
    static final int MOST = 1000;

    private final ReadOnlyObjectWrapper<CaseDocument> document = new ReadOnlyObjectWrapper<>(this, "document");
    private final ReadOnlyBooleanWrapper dirty = new ReadOnlyBooleanWrapper(this, "dirty");
    private final ReadOnlyObjectWrapper<Step> undoable = new ReadOnlyObjectWrapper<>(this, "undoable");
    private final ReadOnlyObjectWrapper<Step> redoable = new ReadOnlyObjectWrapper<>(this, "redoable");
    private final Deque<Step> done = new ArrayDeque<>();
    private final Deque<Step> undone = new ArrayDeque<>();
    private CaseDocument saved;
    private boolean open;

    /** Starts afresh with a document. */
    public void start(CaseDocument first, boolean asSaved) {
        done.clear();
        undone.clear();
        saved = asSaved ? first : null;
        open = false;
        set(first);
    }

    /** Takes a step that no other will merge with. */
    public void apply(String key, String place, CaseDocument after) {
        settle();
        push(key, place, after);
        open = false;
    }

    /** Takes a step that merges with the one before when that was of the same gesture: same key, same place, not settled. */
    public void applyMerging(String key, String place, CaseDocument after) {
        Step last = done.peek();
        if (open && last != null && last.key().equals(key) && last.place().equals(place)) {
            done.pop();
            done.push(new Step(key, place, last.before(), after));
            undone.clear();
            set(after);
        } else {
            push(key, place, after);
        }
        open = true;
    }

    /** Ends a gesture. */
    public void settle() {
        open = false;
    }

    private void push(String key, String place, CaseDocument after) {
        done.push(new Step(key, place, document.get(), after));
        if (done.size() > MOST) {
            done.removeLast();
        }
        undone.clear();
        set(after);
    }

    /** Takes the last step back; nothing when there is none. */
    public void undo() {
        settle();
        if (!done.isEmpty()) {
            Step step = done.pop();
            undone.push(step);
            set(step.before());
        }
    }

    /** Takes the last undone step again; nothing when there is none. */
    public void redo() {
        settle();
        if (!undone.isEmpty()) {
            Step step = undone.pop();
            done.push(step);
            set(step.after());
        }
    }

    /** This is on disk; what stands now is something else when it was edited since. */
    public void markSaved(CaseDocument written) {
        saved = written;
        settle();
        refresh();
    }

    private void set(CaseDocument now) {
        document.set(now);
        refresh();
    }

    private void refresh() {
        dirty.set(document.get() != saved && (saved == null || !saved.equals(document.get())));
        undoable.set(done.peek());
        redoable.set(undone.peek());
    }

    /** The document now. */
    public ReadOnlyObjectProperty<CaseDocument> documentProperty() {
        return document.getReadOnlyProperty();
    }

    /** The document now; null before {@link #start}. */
    public CaseDocument document() {
        return document.get();
    }

    /** True when the document is not what was last saved. */
    public ReadOnlyBooleanProperty dirtyProperty() {
        return dirty.getReadOnlyProperty();
    }

    /** The step that {@link #undo} would take back, or null. */
    public ReadOnlyObjectProperty<Step> undoableProperty() {
        return undoable.getReadOnlyProperty();
    }

    /** The step that {@link #redo} would take again, or null. */
    public ReadOnlyObjectProperty<Step> redoableProperty() {
        return redoable.getReadOnlyProperty();
    }
}
