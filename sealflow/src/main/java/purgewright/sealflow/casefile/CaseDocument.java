package purgewright.sealflow.casefile;

import java.lang.ref.SoftReference;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.ArrayList;
import java.util.Collections;
import java.util.HexFormat;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import purgewright.fluids.PropertyEngine;
import purgewright.fluids.unit.Dimension;
import purgewright.sealflow.casefile.migrate.Migrations;
import purgewright.sealflow.model.Case;
import purgewright.sealflow.model.DutyPhase;

/**
 * The case as typed: an immutable, ordered tree with the line of every node. This is what is edited, undone, hashed, saved and
 * embedded; {@link #toCase()} derives the SI model from it. An edit shares all that it does not touch.
 *
 * <p>Places are JSON Pointers (RFC 6901); where the elements of an array have names the name may stand for the index.
 */
public final class CaseDocument {
    private final Node root;
    /** Derived, computed once when first asked for; every thread would compute the same. */
    private volatile Derived derived;

    /**
     * @param phases as far as the reader looked at them already; each takes as long to read as the case itself. Softly held: a long history
     *     of edits must not keep a case for every phase of every step
     */
    private record Derived(PropertyEngine engine, Case model, SoftReference<Map<DutyPhase, Case>> phases) {
        Case phase(DutyPhase phase, PropertyEngine wanted) {
            Map<DutyPhase, Case> held = engine == wanted ? phases.get() : null;
            return held == null ? null : held.get(phase);
        }
    }

    /** Where the file lies that it was read from; null for a text. Tables are looked for there. */
    private final Path folder;

    /** What the case was read from; null when that was no text that can be written. */
    private final AuthorText author;

    private CaseDocument(Node root, Path folder, AuthorText author) {
        this.root = root;
        this.folder = folder;
        this.author = author;
    }

    /** The folder that tables beside the case are looked for in; null when there is none. */
    Path folder() {
        return folder;
    }

    /** The same case in a folder, so that tables beside it are found: for a case just saved, or made from text. */
    public CaseDocument in(Path caseFolder) {
        return new CaseDocument(root, caseFolder, author);
    }

    /**
     * Reads a case from text. The layout of an older version is brought up to the current one.
     *
     * @throws CaseException with every problem of the text that can be found without the model
     */
    public static CaseDocument parse(String json) {
        if (json.length() > CaseFiles.LARGEST) {
            throw new CaseException(
                    List.of(new CaseProblem("TOO_LARGE", "", 0, 0, "the text is larger than 16 MB", "")));
        }
        Node root = Json.read(json);
        if (!(root instanceof Node.Obj)) {
            throw new CaseException(List.of(new CaseProblem(
                    "NOT_A_CASE",
                    "",
                    root.line(),
                    root.column(),
                    "a case is an object {...}, this is " + root.kind(),
                    "is this a case file?")));
        }
        String text = Json.body(json);
        boolean writable = StandardCharsets.UTF_8.newEncoder().canEncode(text);
        return Migrations.upgrade(new CaseDocument(root, null, writable ? new AuthorText(text, root) : null));
    }

    /**
     * Reads a case from a file (UTF-8, at most 16 MB).
     *
     * @throws CaseException also when the file is missing or unreadable
     */
    public static CaseDocument read(Path file) {
        return parse(CaseFiles.read(file)).in(file.toAbsolutePath().getParent());
    }

    /** The SI model, fluids by the embedded engine; @throws CaseException with every problem of the case. */
    public Case toCase() {
        return toCase(CaseReader.defaultEngine());
    }

    /**
     * The SI model.
     *
     * @param engine whose fluids the streams may name
     * @throws CaseException with every problem of the case
     */
    public Case toCase(PropertyEngine engine) {
        Derived known = derived;
        if (known == null || known.engine() != engine) {
            CaseReader reader = new CaseReader(this, engine);
            Case model = reader.read(true);
            known = new Derived(engine, model, new SoftReference<>(reader.phases()));
            derived = known;
        }
        return known.model();
    }

    /** The SI model with a duty phase's values set; @throws CaseException. */
    public Case toCase(DutyPhase phase) {
        return toCase(phase, CaseReader.defaultEngine());
    }

    /** The SI model with a duty phase's values set; @throws CaseException. */
    public Case toCase(DutyPhase phase, PropertyEngine engine) {
        Derived known = derived;
        Case read = known == null ? null : known.phase(phase, engine);
        return read != null ? read : new CaseReader(with(phase), engine).read(false);
    }

    /** The document with a phase's values set and its valves shut. @throws CaseException for a place that is none */
    public CaseDocument with(DutyPhase phase) {
        CaseDocument set = this;
        for (Map.Entry<String, String> value : phase.set().entrySet()) {
            set = set.with(value.getKey(), value.getValue());
        }
        for (String passage : phase.closed()) {
            set = set.withJson("/passages/" + Place.escape(passage) + "/closed", "true");
        }
        return set;
    }

    /** Text of a value as typed; empty when nothing stands there. Numbers and booleans as their literal. */
    public Optional<String> text(String pointer) {
        Node node = find(pointer);
        if (node instanceof Node.Text text) {
            return Optional.of(text.value());
        }
        if (node instanceof Node.Num number) {
            return Optional.of(number.literal());
        }
        return node instanceof Node.Bool bool ? Optional.of(Boolean.toString(bool.value())) : Optional.empty();
    }

    /**
     * Which numbers may stand at a place.
     *
     * @param dimension what is measured there
     * @param minimum SI
     * @param exclusive true when the minimum itself is not allowed
     * @param maximum SI
     * @param whole true for whole numbers
     */
    public record Range(Dimension dimension, double minimum, boolean exclusive, double maximum, boolean whole) {}

    /** Which numbers may stand at a place, whether one does or not; empty where no quantity may. */
    public Optional<Range> range(String pointer) {
        return Optional.ofNullable(Layout.rangeAt(root, steps(pointer)));
    }

    /** The JSON text of whatever stands at a place, objects and arrays too; empty when nothing does. */
    public Optional<String> json(String pointer) {
        return Optional.ofNullable(find(pointer)).map(Json::writeShort);
    }

    /** True when something stands at the place. */
    public boolean has(String pointer) {
        return find(pointer) != null;
    }

    /**
     * A copy with one value replaced or added (typed as a JSON string unless it replaces a number or boolean, or the layout wants
     * a plain number or a yes or no there).
     *
     * @throws CaseException {@code UNKNOWN_PLACE} when the object that should hold the value does not exist
     */
    public CaseDocument with(String pointer, String text) {
        return put(pointer, scalar(pointer, text));
    }

    private Node scalar(String pointer, String text) {
        Node before = find(pointer);
        boolean literal = before instanceof Node.Num || before instanceof Node.Bool;
        if (before == null) {
            Shape shape = Layout.shapeAt(root, steps(pointer));
            literal = shape instanceof Shape.Flag || (shape instanceof Shape.Quantity quantity && quantity.plain());
        }
        if (literal && ("true".equals(text) || "false".equals(text))) {
            return new Node.Bool(Boolean.parseBoolean(text), 0, 0);
        }
        return literal && text.matches("-?(0|[1-9]\\d{0,40})(\\.\\d{1,40})?([eE][+-]?\\d{1,4})?")
                ? new Node.Num(text, 0, 0)
                : new Node.Text(text, 0, 0);
    }

    /**
     * A copy with the raw JSON value put at the place (object, array, string, number). An index equal to the array's size, or
     * "-", appends.
     *
     * @throws CaseException when the text is no JSON, or the object or array that should hold the value does not exist
     */
    public CaseDocument withJson(String pointer, String json) {
        return put(pointer, unplaced(Json.read(json)));
    }

    private CaseDocument put(String pointer, Node value) {
        List<String> steps = steps(pointer);
        if (steps.isEmpty()) {
            if (value instanceof Node.Obj) {
                return new CaseDocument(value, folder, author);
            }
            throw noPlace(pointer, "the whole case can only be replaced by an object {...}");
        }
        return new CaseDocument(put(root, steps, 0, value, pointer), folder, author);
    }

    private Node put(Node node, List<String> steps, int depth, Node value, String pointer) {
        String step = steps.get(depth);
        boolean last = depth == steps.size() - 1;
        if (node instanceof Node.Obj object) {
            Node child = object.members().get(step);
            if (child == null && !last) {
                throw noPlace(pointer, "there is no \"" + Json.shorten(step) + "\"");
            }
            return object.with(step, last ? value : put(child, steps, depth + 1, value, pointer));
        }
        if (node instanceof Node.Arr array) {
            int index = Place.index(array, step);
            List<Node> items = new ArrayList<>(array.items());
            if (index < 0) {
                boolean append =
                        "-".equals(step) || Integer.toString(items.size()).equals(step);
                if (!last || !append) {
                    throw noPlace(pointer, "there is no element \"" + Json.shorten(step) + "\"");
                }
                items.add(value);
            } else {
                items.set(index, last ? value : put(items.get(index), steps, depth + 1, value, pointer));
            }
            return new Node.Arr(Collections.unmodifiableList(items), array.line(), array.column());
        }
        throw noPlace(pointer, "\"" + Json.shorten(step) + "\" would have to stand inside " + node.kind());
    }

    /** A copy without the node at the place; the same document when nothing stands there. */
    public CaseDocument without(String pointer) {
        List<String> steps = steps(pointer);
        if (steps.isEmpty() || find(pointer) == null) {
            return this;
        }
        return new CaseDocument(without(root, steps, 0), folder, author);
    }

    private static Node without(Node node, List<String> steps, int depth) {
        String step = steps.get(depth);
        boolean last = depth == steps.size() - 1;
        if (node instanceof Node.Obj object) {
            return last
                    ? object.without(step)
                    : object.with(step, without(object.members().get(step), steps, depth + 1));
        }
        Node.Arr array = (Node.Arr) node;
        int index = Place.index(array, step);
        List<Node> items = new ArrayList<>(array.items());
        if (last) {
            items.remove(index);
        } else {
            items.set(index, without(items.get(index), steps, depth + 1));
        }
        return new Node.Arr(Collections.unmodifiableList(items), array.line(), array.column());
    }

    /**
     * Names of the children of an object, or the names (else indices) of the elements of an array; empty for anything else and
     * where nothing stands.
     */
    public List<String> children(String pointer) {
        Node node = find(pointer);
        if (node instanceof Node.Obj object) {
            return List.copyOf(object.members().keySet());
        }
        List<String> names = new ArrayList<>();
        if (node instanceof Node.Arr array) {
            for (int i = 0; i < array.items().size(); i++) {
                names.add(Place.name(array.items().get(i)).orElse(Integer.toString(i)));
            }
        }
        return names;
    }

    /** 1-based line of a node in the text it was read from; 0 for a node added since. */
    public int line(String pointer) {
        Node node = find(pointer);
        return node == null ? 0 : node.line();
    }

    /** 1-based column of a node in the text it was read from; 0 for a node added since. */
    public int column(String pointer) {
        Node node = find(pointer);
        return node == null ? 0 : node.column();
    }

    /** The document as JSON text in its author's layout: what was not edited letter by letter as it was read. */
    public String toJson() {
        return author == null ? Json.write(root) : author.write(root);
    }

    /** SHA-256 of the canonical JSON (members sorted by name, no white space, numbers without trailing zeros), lower-case hex. */
    public String hash() {
        try {
            byte[] digest = MessageDigest.getInstance("SHA-256")
                    .digest(Json.canonical(root).getBytes(StandardCharsets.UTF_8));
            return HexFormat.of().formatHex(digest);
        } catch (NoSuchAlgorithmException impossible) {
            throw new IllegalStateException("every Java has SHA-256", impossible);
        }
    }

    /**
     * Saves by sibling temp file, fsync and atomic rename, keeping one previous copy ({@code name~}). A symbolic link stays one.
     *
     * @throws java.io.UncheckedIOException with nothing lost
     */
    public void save(Path file) {
        CaseFiles.save(toJson(), file);
    }

    /** True for a document of the same content, in the same order and spelling; lines do not count. */
    @Override
    public boolean equals(Object other) {
        return other instanceof CaseDocument document
                && (root == document.root || Json.write(root).equals(Json.write(document.root)));
    }

    @Override
    public int hashCode() {
        return Json.write(root).hashCode();
    }

    Node.Obj root() {
        return (Node.Obj) root;
    }

    CaseDocument withRoot(Node other) {
        return other == root ? this : new CaseDocument(other, folder, author);
    }

    CaseDocument withNode(String pointer, Node value) {
        return put(pointer, value);
    }

    private Node find(String pointer) {
        return Place.find(root, steps(pointer));
    }

    private static List<String> steps(String pointer) {
        try {
            return Place.steps(pointer);
        } catch (IllegalArgumentException none) {
            throw noPlace(pointer, none.getMessage());
        }
    }

    private static CaseException noPlace(String pointer, String why) {
        return new CaseException(List.of(new CaseProblem(
                "UNKNOWN_PLACE",
                Json.shorten(pointer),
                0,
                0,
                Json.shorten(pointer) + " is no place in this case: " + why,
                "a place is written like /passages/ring A/clearance")));
    }

    /** The same value as one that no text was read for. */
    private static Node unplaced(Node node) {
        if (node instanceof Node.Obj object) {
            Map<String, Node> members = new LinkedHashMap<>();
            object.members().forEach((name, value) -> members.put(name, unplaced(value)));
            return new Node.Obj(Collections.unmodifiableMap(members), 0, 0);
        }
        if (node instanceof Node.Arr array) {
            return new Node.Arr(
                    array.items().stream().map(CaseDocument::unplaced).toList(), 0, 0);
        }
        if (node instanceof Node.Text text) {
            return new Node.Text(text.value(), 0, 0);
        }
        if (node instanceof Node.Num number) {
            return new Node.Num(number.literal(), 0, 0);
        }
        return node instanceof Node.Bool bool ? new Node.Bool(bool.value(), 0, 0) : new Node.Null(0, 0);
    }
}
