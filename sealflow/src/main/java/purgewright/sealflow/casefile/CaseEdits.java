package purgewright.sealflow.casefile;

import java.math.BigDecimal;
import java.math.MathContext;
import java.util.ArrayList;
import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import purgewright.fluids.unit.Dimension;
import purgewright.fluids.unit.UnitException;
import purgewright.fluids.unit.Units;
import purgewright.sealflow.casefile.Shape.Target;

/** Edits of a case that touch more than one place: another name, another order, one thing less. Documents in, documents out. */
public final class CaseEdits {
    private static final Map<String, Target> TARGETS = Map.of(
            "/cavities", Target.CAVITY, "/passages", Target.PASSAGE, "/streams", Target.STREAM, "/duty", Target.PHASE);

    private CaseEdits() {}

    /**
     * Something under another name, wherever the case names it: references, and places that something is set at.
     *
     * @param place of a named element, for instance {@code /cavities/barrier}
     * @throws IllegalArgumentException for a name that cannot be, or that is taken
     */
    public static CaseDocument renamed(CaseDocument document, String place, String name) {
        String folder = folder(place);
        String old = last(place);
        if (name.isBlank()
                || name.contains("/")
                || name.contains("~")
                || name.chars().allMatch(Character::isDigit)) {
            throw new IllegalArgumentException("a name has no / and no ~ and is not all digits");
        }
        if (document.children(folder).contains(name)) {
            throw new IllegalArgumentException("the name " + name + " is taken");
        }
        Target target = TARGETS.get(folder);
        Node rewritten = target == null
                ? document.root()
                : rewrite(document.root(), Layout.standard().root(), new Change(target, folder, old, name));
        CaseDocument result = document.withRoot(rewritten);
        Node holder = Place.find(document.root(), Place.steps(folder));
        if (holder instanceof Node.Obj) {
            Node.Obj now = (Node.Obj) Place.find(rewritten, Place.steps(folder));
            Map<String, Node> members = new LinkedHashMap<>();
            now.members().forEach((key, value) -> members.put(key.equals(old) ? name : key, value));
            return result.withNode(
                    folder, new Node.Obj(Collections.unmodifiableMap(members), now.line(), now.column()));
        }
        return result.with(folder + "/" + Place.escape(old) + "/name", name);
    }

    /**
     * Without something, and without what cannot be without it: passages that end in a cavity, overrides of its values, its entries in
     * lists.
     */
    public static CaseDocument removed(CaseDocument document, String place) {
        String folder = folder(place);
        String name = last(place);
        CaseDocument result = document;
        if (folder.equals("/cavities")) {
            for (String passage : document.children("/passages")) {
                String pointer = "/passages/" + Place.escape(passage);
                if (document.text(pointer + "/from").orElse("").equals(name)
                        || document.text(pointer + "/to").orElse("").equals(name)) {
                    result = removed(result, pointer);
                }
            }
        }
        result = result.without(place);
        Target target = TARGETS.get(folder);
        return target == null
                ? result
                : result.withRoot(
                        rewrite(result.root(), Layout.standard().root(), new Change(target, folder, name, null)));
    }

    /**
     * One place earlier or later among its like; the same document where there is no further to go.
     *
     * @param by -1 or +1
     */
    public static CaseDocument moved(CaseDocument document, String place, int by) {
        String folder = folder(place);
        Node holder = Place.find(document.root(), Place.steps(folder));
        if (holder instanceof Node.Arr array) {
            int from = Place.index(array, last(place));
            int to = from + by;
            if (from < 0 || to < 0 || to >= array.items().size()) {
                return document;
            }
            List<Node> items = new ArrayList<>(array.items());
            items.add(to, items.remove(from));
            return document.withNode(
                    folder, new Node.Arr(Collections.unmodifiableList(items), array.line(), array.column()));
        }
        if (holder instanceof Node.Obj object) {
            List<String> keys = new ArrayList<>(object.members().keySet());
            int from = keys.indexOf(last(place));
            int to = from + by;
            if (from < 0 || to < 0 || to >= keys.size()) {
                return document;
            }
            keys.add(to, keys.remove(from));
            Map<String, Node> members = new LinkedHashMap<>();
            keys.forEach(key -> members.put(key, object.members().get(key)));
            return document.withNode(
                    folder, new Node.Obj(Collections.unmodifiableMap(members), object.line(), object.column()));
        }
        return document;
    }

    /** A second one of something, value by value, right behind it, under a name of its own. */
    public static CaseDocument duplicated(CaseDocument document, String place, String name) {
        String folder = folder(place);
        Node holder = Place.find(document.root(), Place.steps(folder));
        Node original = Place.find(document.root(), Place.steps(place));
        if (holder instanceof Node.Arr array && original instanceof Node.Obj object) {
            List<Node> items = new ArrayList<>(array.items());
            items.add(
                    Place.index(array, last(place)) + 1,
                    object.members().containsKey("name") ? object.with("name", new Node.Text(name, 0, 0)) : object);
            return document.withNode(folder, new Node.Arr(Collections.unmodifiableList(items), 0, 0));
        }
        if (holder instanceof Node.Obj object && original != null) {
            return document.withNode(folder, object.with(name, original));
        }
        return document;
    }

    private static final Pattern NUMBER = Pattern.compile("^\\s*([-+]?[0-9]*\\.?[0-9]+(?:[eE][-+]?[0-9]+)?)(.*)$");

    /**
     * The same quantity text with another value, in the unit and manner of the one that stands there (gauge, degrees), rounded to four
     * significant digits.
     *
     * @param surroundings absolute pressure that gauge pressures count from, Pa
     * @return empty when the text is no quantity of that dimension
     */
    public static Optional<String> retyped(String typed, Dimension dimension, double surroundings, double si) {
        Matcher matcher = NUMBER.matcher(typed);
        if (!matcher.matches()) {
            return Optional.empty();
        }
        try {
            // Every unit is linear in its number: two readings give slope and zero.
            double one = Units.parse("1" + matcher.group(2), dimension, surroundings);
            double two = Units.parse("2" + matcher.group(2), dimension, surroundings);
            String number = new BigDecimal(1 + (si - one) / (two - one))
                    .round(new MathContext(4))
                    .stripTrailingZeros()
                    .toPlainString();
            return Optional.of(number + matcher.group(2));
        } catch (UnitException e) {
            return Optional.empty();
        }
    }

    /** Where the value of a place stands in a phase: in the phase where that sets it, else in the case. */
    public static String inPhase(CaseDocument document, String phase, String place) {
        String set = "/duty/" + Place.escape(phase) + "/set/" + Place.escape(place);
        return document.has(set) ? set : place;
    }

    /** Every place at which the value of a place stands: the case's own, and those of the phases that set it. */
    public static List<String> everywhere(CaseDocument document, String place) {
        List<String> out = new ArrayList<>(List.of(place));
        for (String phase : document.children("/duty")) {
            String there = inPhase(document, phase, place);
            if (!there.equals(place)) {
                out.add(there);
            }
        }
        return out;
    }

    /** The text of a step as it stands in a pointer. */
    public static String escaped(String name) {
        return Place.escape(name);
    }

    /** Everything before the last step of a pointer. */
    public static String folder(String place) {
        return place.substring(0, place.lastIndexOf('/'));
    }

    /** The last step of a pointer, as a name. */
    public static String last(String place) {
        return place.substring(place.lastIndexOf('/') + 1).replace("~1", "/").replace("~0", "~");
    }

    /** @param name the new name; null when the thing is gone */
    private record Change(Target target, String folder, String old, String name) {
        boolean below(String pointer) {
            String prefix = folder + "/" + Place.escape(old);
            return pointer.equals(prefix) || pointer.startsWith(prefix + "/");
        }

        String moved(String pointer) {
            return folder + "/" + Place.escape(name) + pointer.substring((folder + "/" + Place.escape(old)).length());
        }
    }

    private static Node rewrite(Node node, Shape shape, Change change) {
        if (shape instanceof Shape.Either either) {
            return rewrite(node, Layout.choose(either, node), change);
        }
        if (node instanceof Node.Obj object) {
            Map<String, Node> members = new LinkedHashMap<>();
            boolean changed = false;
            for (Map.Entry<String, Node> e : object.members().entrySet()) {
                String key = e.getKey();
                Node value = e.getValue();
                if (shape instanceof Shape.Entries free && free.key() == Shape.Key.PLACE && change.below(key)) {
                    changed = true;
                    if (change.name() == null) {
                        continue;
                    }
                    key = change.moved(key);
                }
                Node now = rewrite(value, shapeOf(shape, object, e.getKey()), change);
                changed |= now != value;
                members.put(key, now);
            }
            return changed ? new Node.Obj(Collections.unmodifiableMap(members), object.line(), object.column()) : node;
        }
        if (node instanceof Node.Arr array && shape instanceof Shape.Items list) {
            List<Node> items = new ArrayList<>();
            boolean changed = false;
            for (Node item : array.items()) {
                boolean gone = change.name() == null
                        && list.element() instanceof Shape.Reference reference
                        && reference.target() == change.target()
                        && item instanceof Node.Text text
                        && text.value().equals(change.old());
                Node now = gone ? null : rewrite(item, list.element(), change);
                changed |= now != item;
                if (now != null) {
                    items.add(now);
                }
            }
            return changed ? new Node.Arr(Collections.unmodifiableList(items), array.line(), array.column()) : node;
        }
        if (node instanceof Node.Text text && change.name() != null) {
            if (shape instanceof Shape.Reference reference) {
                if (reference.target() == change.target() && text.value().equals(change.old())) {
                    return new Node.Text(change.name(), text.line(), text.column());
                }
                if (reference.target() == Target.PLACE && change.below(text.value())) {
                    return new Node.Text(change.moved(text.value()), text.line(), text.column());
                }
            }
        }
        return node;
    }

    private static Shape shapeOf(Shape shape, Node.Obj object, String key) {
        if (shape instanceof Shape.Fields fields) {
            return fields.fields().stream()
                    .filter(f -> f.name().equals(key))
                    .map(Shape.Field::shape)
                    .findFirst()
                    .orElse(new Shape.Text());
        }
        if (shape instanceof Shape.Entries entries) {
            return entries.value();
        }
        if (shape instanceof Shape.PassageShape) {
            String type = object.members().get("type") instanceof Node.Text text ? text.value() : "";
            List<Shape.Field> known = Layout.standard().passageFields(type);
            return (known == null ? Layout.standard().commonFields() : known)
                    .stream()
                            .filter(f -> f.name().equals(key))
                            .map(Shape.Field::shape)
                            .findFirst()
                            .orElse(new Shape.Text());
        }
        return new Shape.Text();
    }
}
