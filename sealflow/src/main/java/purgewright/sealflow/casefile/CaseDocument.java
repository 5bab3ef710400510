package purgewright.sealflow.casefile;

import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import purgewright.sealflow.model.Case;
import purgewright.sealflow.model.DutyPhase;

/**
 * The case as typed: an immutable, ordered tree with the line of every node. This is what is edited, undone, hashed, saved and
 * embedded; {@link #toCase()} derives the SI model from it.
 *
 * <p>Places are JSON Pointers (RFC 6901); where the elements of an array have names the name may stand for the index.
 */
public final class CaseDocument {
    private CaseDocument() {}

    /**
     * Reads a case from text.
     *
     * @throws CaseException with every problem of the text that can be found without the model
     */
    public static CaseDocument parse(String json) {
        throw new IllegalStateException("placeholder " + json.length());
    }

    /**
     * Reads a case from a file (UTF-8, at most 16 MB).
     *
     * @throws CaseException also when the file is missing or unreadable
     */
    public static CaseDocument read(Path file) {
        throw new IllegalStateException("placeholder " + file);
    }

    /** The SI model; @throws CaseException with every problem of the case. */
    public Case toCase() {
        throw new IllegalStateException("placeholder");
    }

    /** The SI model with a duty phase's values set; @throws CaseException. */
    public Case toCase(DutyPhase phase) {
        throw new IllegalStateException("placeholder " + phase);
    }

    /** Text of a value as typed; empty when nothing stands there. Numbers and booleans as their literal. */
    public Optional<String> text(String pointer) {
        return Optional.empty();
    }

    /** A copy with one value replaced or added (typed as a JSON string unless it replaces a number or boolean). */
    public CaseDocument with(String pointer, String text) {
        return this;
    }

    /** A copy with the raw JSON value put at the place (object, array, string, number). An index equal to the array's size, or "-", appends. */
    public CaseDocument withJson(String pointer, String json) {
        return this;
    }

    /** A copy without the node at the place. */
    public CaseDocument without(String pointer) {
        return this;
    }

    /** Names of the children of an object, or the names (else indices) of the elements of an array. */
    public List<String> children(String pointer) {
        return List.of();
    }

    /** 1-based line of a node in the text it was read from; 0 for a node added since. */
    public int line(String pointer) {
        return 0;
    }

    /** The document as JSON text, numbers and units as typed, two-space indent. */
    public String toJson() {
        return "";
    }

    /** SHA-256 of the canonical JSON, lower-case hex. */
    public String hash() {
        return "";
    }

    /**
     * Saves by sibling temp file, fsync and atomic rename, keeping one previous copy ({@code name~}).
     *
     * @throws java.io.UncheckedIOException with nothing lost
     */
    public void save(Path file) {
        throw new IllegalStateException("placeholder " + file);
    }
}
