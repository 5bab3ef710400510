package purgewright.sealflow.casefile;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/** A place in a case: a JSON Pointer (RFC 6901) in which the name of an array's element may stand for its index. */
record Place(Place parent, String step) {
    static final Place ROOT = new Place(null, "");

    /** @throws IllegalArgumentException for a text that is no pointer */
    static Place parse(String pointer) {
        Place place = ROOT;
        for (String step : steps(pointer)) {
            place = place.child(step);
        }
        return place;
    }

    Place child(String name) {
        return new Place(this, name);
    }

    /**
     * Steps of a pointer, unescaped.
     *
     * @throws IllegalArgumentException for a text that is no pointer
     */
    static List<String> steps(String pointer) {
        List<String> steps = new ArrayList<>();
        if (pointer.isEmpty()) {
            return steps;
        }
        if (pointer.charAt(0) != '/') {
            throw new IllegalArgumentException(
                    "a place starts with \"/\", for instance /passages/ring A/clearance: " + pointer);
        }
        int start = 1;
        for (int i = 1; i <= pointer.length(); i++) {
            if (i == pointer.length() || pointer.charAt(i) == '/') {
                steps.add(unescape(pointer.substring(start, i)));
                start = i + 1;
            }
        }
        return steps;
    }

    private static String unescape(String step) {
        return step.indexOf('~') < 0 ? step : step.replace("~1", "/").replace("~0", "~");
    }

    static String escape(String step) {
        return step.replace("~", "~0").replace("/", "~1");
    }

    /** The node at a place below a root, or null. */
    static Node find(Node root, List<String> steps) {
        Node node = root;
        for (String step : steps) {
            node = step(node, step);
            if (node == null) {
                return null;
            }
        }
        return node;
    }

    static Node step(Node node, String step) {
        if (node instanceof Node.Obj object) {
            return object.members().get(step);
        }
        if (node instanceof Node.Arr array) {
            int index = index(array, step);
            return index < 0 ? null : array.items().get(index);
        }
        return null;
    }

    /** Whether nothing but digits stands there: such a step is an index, not a name. */
    static boolean digits(String step) {
        for (int i = 0; i < step.length(); i++) {
            if (step.charAt(i) < '0' || step.charAt(i) > '9') {
                return false;
            }
        }
        return true;
    }

    /** Index of an array's element by index or name; -1 when there is none. */
    static int index(Node.Arr array, String step) {
        if (!step.isEmpty() && step.length() <= 9 && digits(step)) {
            int index = Integer.parseInt(step);
            return index < array.items().size() ? index : -1;
        }
        return array.indexOf(step);
    }

    /** The name of an element, when it has one. */
    static Optional<String> name(Node element) {
        return element instanceof Node.Obj object && object.members().get("name") instanceof Node.Text text
                ? Optional.of(text.value())
                : Optional.empty();
    }

    List<String> steps() {
        List<String> steps = parent == null ? new ArrayList<>() : parent.steps();
        if (parent != null) {
            steps.add(step);
        }
        return steps;
    }

    @Override
    public String toString() {
        if (parent == null) {
            return "";
        }
        StringBuilder out = new StringBuilder();
        for (String step : steps()) {
            out.append('/').append(escape(step));
        }
        return out.toString();
    }
}
