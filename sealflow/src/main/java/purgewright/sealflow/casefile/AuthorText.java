package purgewright.sealflow.casefile;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;

/**
 * The text that a case was read from, so that it is written in its author's layout: what was not edited comes out letter by letter, a value
 * that was edited is put in the place of the old one, and what was added stands as its neighbours do. A case under version control then
 * differs in the lines that were edited, and in no others.
 */
final class AuthorText {
    private final String text;
    /** As read from the text. */
    private final Node root;

    /**
     * @param text that was read
     * @param root as read from it, not edited
     */
    AuthorText(String text, Node root) {
        this.text = text;
        this.root = root;
    }

    /**
     * A document in this text's layout.
     *
     * @param now the document to write, made from the one that was read by edits; any other comes out in the program's own layout
     */
    String write(Node now) {
        if (now == root) {
            return text;
        }
        String plain = Json.write(now);
        String laidOut = layOut(now);
        // What is written must read as the document does, whatever the layout was.
        return reads(laidOut, plain) ? laidOut : plain;
    }

    String layOut(Node now) {
        StringBuilder out = new StringBuilder(text.length() + 256);
        Span whole = Json.spans(text);
        out.append(text, 0, whole.start());
        value(whole, root, now, out);
        return out.append(text, whole.end(), text.length()).toString();
    }

    private static boolean reads(String written, String plain) {
        try {
            return Json.write(Json.read(written)).equals(plain);
        } catch (CaseException unreadable) {
            return false;
        }
    }

    /**
     * Where a value stands in a text, offsets in characters.
     *
     * @param start of its first character
     * @param end after its last
     * @param from where each member of an object starts with its name, and each element of an array
     * @param inside the values of the members or elements
     */
    record Span(int start, int end, List<Integer> from, List<Span> inside) {}

    private void value(Span span, Node old, Node now, StringBuilder out) {
        if (old == now) {
            out.append(text, span.start(), span.end());
        } else if (old instanceof Node.Obj a
                && now instanceof Node.Obj b
                && !span.inside().isEmpty()) {
            parts(span, parts(a), parts(b), out);
        } else if (old instanceof Node.Arr a
                && now instanceof Node.Arr b
                && !span.inside().isEmpty()) {
            parts(span, parts(a), parts(b), out);
        } else if (Json.write(old).equals(Json.write(now))) {
            out.append(text, span.start(), span.end());
        } else {
            out.append(Json.write(now, indent(out) / 2, column(out)));
        }
    }

    /** A member of an object, or an element of an array, whose name is then null. */
    private record Part(String name, Node value) {
        boolean is(Part other) {
            if (name != null) {
                return name.equals(other.name);
            }
            return value == other.value
                    || (Place.name(value).isPresent() && Place.name(value).equals(Place.name(other.value)))
                    || Json.write(value).equals(Json.write(other.value));
        }
    }

    private static List<Part> parts(Node.Obj object) {
        List<Part> parts = new ArrayList<>();
        for (Map.Entry<String, Node> member : object.members().entrySet()) {
            parts.add(new Part(member.getKey(), member.getValue()));
        }
        return parts;
    }

    private static List<Part> parts(Node.Arr array) {
        return array.items().stream().map(item -> new Part(null, item)).toList();
    }

    /** Those at both ends that were there before stay; what lies between takes the places of what lay there. */
    private void parts(Span span, List<Part> old, List<Part> now, StringBuilder out) {
        int least = Math.min(old.size(), now.size());
        int head = 0;
        while (head < least && old.get(head).is(now.get(head))) {
            head++;
        }
        int tail = 0;
        while (tail < least - head && old.get(old.size() - 1 - tail).is(now.get(now.size() - 1 - tail))) {
            tail++;
        }
        out.append(text.charAt(span.start()));
        for (int i = 0; i < now.size(); i++) {
            int left = now.size() - i;
            int was = left <= tail ? old.size() - left : i < old.size() - tail ? i : -1;
            Part part = now.get(i);
            boolean there = was >= 0;
            gap(span, i == 0, was, part, there, out);
            if (!there) {
                name(part, out);
                out.append(Json.write(part.value(), indent(out) / 2, column(out)));
                continue;
            }
            Span place = span.inside().get(was);
            if (part.name() != null && part.name().equals(old.get(was).name())) {
                out.append(text, span.from().get(was), place.start());
            } else {
                name(part, out);
            }
            value(place, old.get(was).value(), part.value(), out);
        }
        if (now.isEmpty()) {
            out.append(text.charAt(span.end() - 1));
        } else {
            out.append(text, span.inside().get(span.inside().size() - 1).end(), span.end());
        }
    }

    /** In one line. */
    private static int length(Part part) {
        return (part.name() == null ? 0 : part.name().length() + 4)
                + Json.writeShort(part.value()).length();
    }

    private static void name(Part part, StringBuilder out) {
        if (part.name() != null) {
            Json.quote(part.name(), out);
            out.append(": ");
        }
    }

    /** What stands before a part: as it was, or as it is before its neighbour. */
    private void gap(Span span, boolean first, int was, Part part, boolean there, StringBuilder out) {
        if (first) {
            out.append(text, span.start() + 1, span.from().get(0));
            return;
        }
        int last = span.inside().size() - 1;
        if (last == 0) {
            String opening = text.substring(span.start() + 1, span.from().get(0));
            out.append(',').append(opening.contains("\n") ? opening : " ");
            return;
        }
        int like = Math.max(1, there ? was : last);
        String gap =
                text.substring(span.inside().get(like - 1).end(), span.from().get(like));
        if (!there && !gap.contains("\n") && column(out) + gap.length() + length(part) > Json.LINE_WIDTH) {
            // Under the first member, as the shipped cases do.
            gap = "," + (text.contains("\r\n") ? "\r\n" : "\n")
                    + " ".repeat(column(span.from().get(0)));
        }
        out.append(gap);
    }

    /** Blanks at the start of the line that is being written. */
    private static int indent(StringBuilder out) {
        int start = out.lastIndexOf("\n") + 1;
        int i = start;
        while (i < out.length() && out.charAt(i) == ' ') {
            i++;
        }
        return i - start;
    }

    private static int column(StringBuilder out) {
        return out.length() - (out.lastIndexOf("\n") + 1);
    }

    private int column(int offset) {
        return offset - (text.lastIndexOf('\n', offset - 1) + 1);
    }
}
