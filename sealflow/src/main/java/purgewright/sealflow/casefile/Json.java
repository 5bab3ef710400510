package purgewright.sealflow.casefile;

import com.fasterxml.jackson.core.JsonFactory;
import com.fasterxml.jackson.core.JsonLocation;
import com.fasterxml.jackson.core.JsonParser;
import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.core.JsonToken;
import com.fasterxml.jackson.core.StreamReadConstraints;
import com.fasterxml.jackson.core.exc.StreamConstraintsException;
import com.fasterxml.jackson.core.io.JsonEOFException;
import java.io.IOException;
import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.TreeMap;

/**
 * JSON text to {@link Node} and back. Only Jackson's token stream is used: the data binder adds nothing here and costs start-up
 * time. Duplicate fields are found by the walk itself, so that all are reported at once; text after the document is an error.
 */
final class Json {
    /** Deepest nesting; a case needs six. */
    static final int DEEPEST = 64;

    /** Longest text of one value, characters. */
    static final int LONGEST_STRING = 1_000_000;

    /** Most values in a document: a network of 1,000 cavities has about 30,000. Bounds the memory of a hostile file. */
    static final int MOST_VALUES = 400_000;

    private static final int MOST_PROBLEMS = 100;
    /** What fits into it stays in one line. */
    static final int LINE_WIDTH = 120;

    private static final JsonFactory FACTORY = JsonFactory.builder()
            .disable(JsonFactory.Feature.CANONICALIZE_FIELD_NAMES)
            .streamReadConstraints(StreamReadConstraints.builder()
                    .maxNestingDepth(DEEPEST)
                    .maxStringLength(LONGEST_STRING)
                    .maxNumberLength(100)
                    .maxNameLength(1000)
                    .build())
            .build();

    private Json() {}

    // --- reading
    // ---------------------------------------------------------------------------------------------------------

    /** @throws CaseException with every duplicate field, or the first place where the text stops being JSON */
    static Node read(String text) {
        String body = body(text);
        if (body.isBlank()) {
            throw new CaseException(List.of(new CaseProblem(
                    "EMPTY_FILE", "", 1, 1, "there is nothing in it", "a new case is written by: new")));
        }
        Walk walk = new Walk();
        try (JsonParser parser = FACTORY.createParser(body)) {
            walk.parser = parser;
            parser.nextToken();
            Node root = walk.value(0);
            if (parser.nextToken() != null) {
                JsonLocation at = parser.currentTokenLocation();
                throw new CaseException(List.of(new CaseProblem(
                        "SYNTAX",
                        "",
                        at.getLineNr(),
                        at.getColumnNr(),
                        "something stands after the end of the document",
                        "remove what follows the last closing bracket, or look for a bracket closed too early")));
            }
            if (!walk.problems.isEmpty()) {
                throw new CaseException(walk.problems);
            }
            return root;
        } catch (StreamConstraintsException limit) {
            throw new CaseException(List.of(walk.limit(limit)));
        } catch (JsonEOFException end) {
            throw new CaseException(List.of(walk.truncated(end)));
        } catch (JsonProcessingException syntax) {
            throw new CaseException(List.of(walk.syntax(syntax)));
        } catch (IOException impossible) {
            throw new CaseException(List.of(new CaseProblem(
                    "UNREADABLE", "", 0, 0, "the text cannot be read: " + impossible.getMessage(), "")));
        }
    }

    /** Where the values stand in a text that {@link #read} has taken. */
    static AuthorText.Span spans(String text) {
        try (JsonParser parser = FACTORY.createParser(text)) {
            parser.nextToken();
            return span(parser);
        } catch (IOException impossible) {
            throw new IllegalArgumentException("this text was never read", impossible);
        }
    }

    private static AuthorText.Span span(JsonParser parser) throws IOException {
        int start = (int) parser.currentTokenLocation().getCharOffset();
        List<Integer> from = new ArrayList<>();
        List<AuthorText.Span> inside = new ArrayList<>();
        boolean object = parser.currentToken() == JsonToken.START_OBJECT;
        if (object || parser.currentToken() == JsonToken.START_ARRAY) {
            while (!parser.nextToken().isStructEnd()) {
                from.add((int) parser.currentTokenLocation().getCharOffset());
                if (object) {
                    parser.nextToken();
                }
                inside.add(span(parser));
            }
        } else {
            parser.finishToken();
        }
        return new AuthorText.Span(start, (int) parser.currentLocation().getCharOffset(), from, inside);
    }

    /** Without the mark that some editors put before a text. */
    static String body(String text) {
        return !text.isEmpty() && text.charAt(0) == '\ufeff' ? text.substring(1) : text;
    }

    private static final class Walk {
        private final List<CaseProblem> problems = new ArrayList<>();
        private final List<int[]> open = new ArrayList<>();
        private Place place = Place.ROOT;
        private JsonParser parser;
        private int values;

        private Node value(int depth) throws IOException {
            JsonToken token = parser.currentToken();
            JsonLocation at = parser.currentTokenLocation();
            int line = at.getLineNr();
            int column = at.getColumnNr();
            if (++values > MOST_VALUES) {
                throw new CaseException(List.of(new CaseProblem(
                        "TOO_LARGE", "", line, column, "more than " + MOST_VALUES + " values", "split the case")));
            }
            return switch (token) {
                case START_OBJECT -> object(depth, line, column);
                case START_ARRAY -> array(depth, line, column);
                case VALUE_STRING -> new Node.Text(parser.getText(), line, column);
                case VALUE_NUMBER_INT, VALUE_NUMBER_FLOAT -> new Node.Num(parser.getText(), line, column);
                case VALUE_TRUE, VALUE_FALSE -> new Node.Bool(token == JsonToken.VALUE_TRUE, line, column);
                default -> new Node.Null(line, column);
            };
        }

        private Node object(int depth, int line, int column) throws IOException {
            open.add(new int[] {line, column});
            Place outer = place;
            Map<String, Node> members = new LinkedHashMap<>();
            while (parser.nextToken() == JsonToken.FIELD_NAME) {
                String name = parser.currentName();
                JsonLocation at = parser.currentTokenLocation();
                place = outer.child(name);
                parser.nextToken();
                Node value = value(depth + 1);
                Node before = members.putIfAbsent(name, value);
                if (before != null && problems.size() < MOST_PROBLEMS) {
                    problems.add(new CaseProblem(
                            "DUPLICATE_FIELD",
                            place.toString(),
                            at.getLineNr(),
                            at.getColumnNr(),
                            "\"" + shorten(name) + "\" stands here twice; the first is in line " + before.line(),
                            "remove or rename one of them"));
                }
                // Passages are spoken of by name, also where the text breaks off inside one.
                place = "name".equals(name) && value instanceof Node.Text text && outer.parent() != null
                        ? outer.parent().child(text.value())
                        : outer;
                outer = place;
            }
            open.remove(open.size() - 1);
            return new Node.Obj(Collections.unmodifiableMap(members), line, column);
        }

        private Node array(int depth, int line, int column) throws IOException {
            open.add(new int[] {line, column});
            Place outer = place;
            List<Node> items = new ArrayList<>();
            while (parser.nextToken() != JsonToken.END_ARRAY) {
                place = outer.child(Integer.toString(items.size()));
                items.add(value(depth + 1));
            }
            place = outer;
            open.remove(open.size() - 1);
            return new Node.Arr(Collections.unmodifiableList(items), line, column);
        }

        private CaseProblem truncated(JsonProcessingException end) {
            JsonLocation at = end.getLocation();
            int[] start = open.isEmpty() ? new int[] {1, 1} : open.get(open.size() - 1);
            return new CaseProblem(
                    "TRUNCATED",
                    place.toString(),
                    at == null ? 0 : at.getLineNr(),
                    at == null ? 0 : at.getColumnNr(),
                    "the text ends too early: what starts in line " + start[0] + ", column " + start[1]
                            + " is not closed",
                    "the file may be cut off; the copy before the last save stands beside it with \"~\" at its name");
        }

        private CaseProblem syntax(JsonProcessingException wrong) {
            JsonLocation at = wrong.getLocation();
            String message = wrong.getOriginalMessage()
                    .replaceFirst(": enable .*", "")
                    .lines()
                    .findFirst()
                    .orElse("this is not JSON");
            String suggestion = "";
            if (message.contains("('}'") || message.contains("(']'")) {
                suggestion = "remove the comma before it, or close the other kind of bracket first";
            } else if (message.contains("('/'") || message.contains("('#'")) {
                suggestion = "a case has no comments; put the words in a field \"note\"";
            } else if (message.contains("('''")) {
                suggestion = "texts and names stand in double quotes";
            } else if (message.contains("was expecting comma")) {
                suggestion = "put a comma between two values";
            } else if (message.contains("was expecting double-quote")
                    || message.contains("Unrecognized token")
                    || message.contains("Non-standard token")) {
                suggestion = "names, words and quantities stand in double quotes";
            }
            return new CaseProblem(
                    "SYNTAX",
                    place.toString(),
                    at == null ? 0 : at.getLineNr(),
                    at == null ? 0 : at.getColumnNr(),
                    "this is not JSON: " + shorten(message),
                    suggestion);
        }

        private CaseProblem limit(StreamConstraintsException limit) {
            JsonLocation at = limit.getLocation() == null ? parser.currentLocation() : limit.getLocation();
            boolean deep = limit.getMessage().contains("nesting depth");
            return new CaseProblem(
                    deep ? "TOO_DEEP" : "TOO_LONG",
                    deep ? "" : place.toString(),
                    at.getLineNr(),
                    at.getColumnNr(),
                    deep
                            ? "brackets are nested deeper than " + DEEPEST
                            : "a number, name or text is longer than a case may have",
                    deep ? "a case needs six levels; is this a case file?" : "");
        }
    }

    static String shorten(String text) {
        return text.length() <= 200 ? text : text.substring(0, 200) + " ...";
    }

    // --- writing
    // ---------------------------------------------------------------------------------------------------------

    /** Two-space indent; what fits into a line stays in one. */
    static String write(Node node) {
        StringBuilder out = new StringBuilder(4096);
        write(node, 0, 0, out);
        return out.append('\n').toString();
    }

    /** A value that stands at a column of a line, so many times two blanks deep; further lines are laid out as {@link #write(Node)} does. */
    static String write(Node node, int depth, int column) {
        StringBuilder out = new StringBuilder(256);
        write(node, depth, column, out);
        return out.toString();
    }

    /** In one line when it fits, else as {@link #write(Node)}. */
    static String writeShort(Node node) {
        StringBuilder out = new StringBuilder(256);
        return writeInline(node, out, LINE_WIDTH) ? out.toString() : write(node).strip();
    }

    private static void write(Node node, int depth, int used, StringBuilder out) {
        boolean leaf = !(node instanceof Node.Obj) && !(node instanceof Node.Arr);
        if (leaf || (depth > 0 && !listOfObjects(node))) {
            int start = out.length();
            if (writeInline(node, out, start + LINE_WIDTH - used) || leaf) {
                return;
            }
            out.setLength(start);
        }
        String indent = "  ".repeat(depth + 1);
        if (node instanceof Node.Obj object) {
            out.append('{');
            String separator = "\n";
            for (Map.Entry<String, Node> member : object.members().entrySet()) {
                out.append(separator).append(indent);
                int start = out.length();
                quote(member.getKey(), out);
                out.append(": ");
                write(member.getValue(), depth + 1, indent.length() + out.length() - start + 1, out);
                separator = ",\n";
            }
            close(object.members().isEmpty(), depth, out).append('}');
        } else if (node instanceof Node.Arr array) {
            out.append('[');
            String separator = "\n";
            for (Node item : array.items()) {
                out.append(separator).append(indent);
                write(item, depth + 1, indent.length() + 1, out);
                separator = ",\n";
            }
            close(array.items().isEmpty(), depth, out).append(']');
        }
    }

    private static StringBuilder close(boolean empty, int depth, StringBuilder out) {
        return empty ? out : out.append('\n').append("  ".repeat(depth));
    }

    private static boolean listOfObjects(Node node) {
        return node instanceof Node.Arr array
                && !array.items().isEmpty()
                && array.items().get(0) instanceof Node.Obj;
    }

    /** False when the text would pass the limit; the caller then drops what was written. */
    private static boolean writeInline(Node node, StringBuilder out, int limit) {
        if (node instanceof Node.Obj object) {
            out.append('{');
            String separator = "";
            for (Map.Entry<String, Node> member : object.members().entrySet()) {
                out.append(separator);
                quote(member.getKey(), out);
                out.append(": ");
                if (out.length() > limit || !writeInline(member.getValue(), out, limit)) {
                    return false;
                }
                separator = ", ";
            }
            out.append('}');
        } else if (node instanceof Node.Arr array) {
            out.append('[');
            String separator = "";
            for (Node item : array.items()) {
                out.append(separator);
                if (out.length() > limit || !writeInline(item, out, limit)) {
                    return false;
                }
                separator = ", ";
            }
            out.append(']');
        } else {
            leaf(node, out);
        }
        return out.length() <= limit;
    }

    private static void leaf(Node node, StringBuilder out) {
        if (node instanceof Node.Text text) {
            quote(text.value(), out);
        } else if (node instanceof Node.Num number) {
            out.append(number.literal());
        } else if (node instanceof Node.Bool bool) {
            out.append(bool.value());
        } else {
            out.append("null");
        }
    }

    /**
     * One text for all spellings of one document: members sorted by name, no white space, numbers as unscaled digits and exponent.
     */
    static String canonical(Node node) {
        StringBuilder out = new StringBuilder(4096);
        canonical(node, out);
        return out.toString();
    }

    private static void canonical(Node node, StringBuilder out) {
        if (node instanceof Node.Obj object) {
            out.append('{');
            String separator = "";
            for (Map.Entry<String, Node> member : new TreeMap<>(object.members()).entrySet()) {
                out.append(separator);
                quote(member.getKey(), out);
                out.append(':');
                canonical(member.getValue(), out);
                separator = ",";
            }
            out.append('}');
        } else if (node instanceof Node.Arr array) {
            out.append('[');
            String separator = "";
            for (Node item : array.items()) {
                out.append(separator);
                canonical(item, out);
                separator = ",";
            }
            out.append(']');
        } else if (node instanceof Node.Num number) {
            out.append(canonicalNumber(number.literal()));
        } else {
            leaf(node, out);
        }
    }

    private static String canonicalNumber(String literal) {
        try {
            BigDecimal value = new BigDecimal(literal);
            if (value.signum() == 0) {
                return "0";
            }
            BigDecimal bare = value.stripTrailingZeros();
            return bare.unscaledValue() + "e" + -(long) bare.scale();
        } catch (ArithmeticException | NumberFormatException absurdExponent) {
            return literal.toLowerCase(Locale.ROOT);
        }
    }

    static void quote(String text, StringBuilder out) {
        out.append('"');
        for (int i = 0; i < text.length(); i++) {
            char c = text.charAt(i);
            switch (c) {
                case '"' -> out.append("\\\"");
                case '\\' -> out.append("\\\\");
                case '\n' -> out.append("\\n");
                case '\r' -> out.append("\\r");
                case '\t' -> out.append("\\t");
                default -> {
                    if (c < 0x20 || c == 0x7f || c == '\u2028' || c == '\u2029' || Character.isSurrogate(c)) {
                        surrogateOrControl(text, i, c, out);
                    } else {
                        out.append(c);
                    }
                }
            }
        }
        out.append('"');
    }

    /** Pairs of surrogates stay; a lone one, which UTF-8 cannot hold, and controls are escaped. */
    private static void surrogateOrControl(String text, int i, char c, StringBuilder out) {
        boolean first =
                Character.isHighSurrogate(c) && i + 1 < text.length() && Character.isLowSurrogate(text.charAt(i + 1));
        boolean second = Character.isLowSurrogate(c) && i > 0 && Character.isHighSurrogate(text.charAt(i - 1));
        if (first || second) {
            out.append(c);
        } else {
            String hex = Integer.toHexString(c);
            out.append("\\u").append("0000", 0, 4 - hex.length()).append(hex);
        }
    }
}
