package purgewright.sealflow.casefile;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.SplittableRandom;

/**
 * Bad cases out of good ones: values replaced by what people and machines get wrong, fields lost, doubled, renamed, moved, and the
 * text itself cut, spliced and scrambled. The same seed gives the same text.
 */
final class Mutator {
    private static final String[] VALUES = {
        "null",
        "true",
        "0",
        "-1",
        "1e999",
        "1e-999",
        "0.025",
        "\"\"",
        "\" \"",
        "\"mm\"",
        "\"0 mm\"",
        "\"-6 mm\"",
        "\"0.025 MM\"",
        "\"0,025 mm\"",
        "\"25 kPa\"",
        "\"3 psig\"",
        "\"-30 psig\"",
        "\"-300 degC\"",
        "\"1e400 mm\"",
        "\"40 L/min at 0 degC\"",
        "\"40 L/min\"",
        "\"3 scfm\"",
        "\"5 %\"",
        "\"helium\"",
        "\"barrier\"",
        "\"labyrinth\"",
        "\"orifice\"",
        "\"\\ud800\"",
        "[]",
        "{}",
        "[[]]",
        "[1, 2]",
        "{\"a\": 1}",
        "\"/passages/ring A/clearance\"",
        "\"~\"",
        "\"a/b\"",
        "\"17\"",
        "\"\\u0000\"",
        "\"1 m2\"",
        "\"automatic\"",
        "\"\\u212a\"",
        "\"2 \\u00b5m\"",
        "\"3 Pa at\"",
        "\"3 at 5\"",
        "\"- 3 mm\"",
        "\"1 kg/(s\"",
        "1e5",
        "12345678901234567890"
    };
    private static final String[] TOKENS = {
        "{", "}", "[", "]", ",", ":", "\"", "\\", "\u0000", "\ufeff", "//", "'", "NaN", "e", ".", "-", "1e9", "null",
        "\ud83d", "\r"
    };
    private static final String[] NAMES = {
        "",
        "name",
        "type",
        "note",
        "purgewright",
        "clearance",
        "gap",
        "radius",
        "a/b",
        "~",
        "7",
        "count",
        "set",
        "disc",
        "wall",
        "burn",
        "mix",
        "measured",
        "duty",
        "faults",
        "uncertain",
        "/cavities/barrier/pressure",
        "criteria",
        "supply",
        "campaign",
        "instruments"
    };

    private final SplittableRandom random;

    Mutator(long seed) {
        random = new SplittableRandom(seed);
    }

    /** A changed text; about half of them are still JSON. */
    String mutate(Node root, String text) {
        if (random.nextInt(4) == 0) {
            return scramble(text);
        }
        Node changed = root;
        int times = 1 + random.nextInt(4);
        for (int i = 0; i < times; i++) {
            changed = change(changed, 0);
        }
        String written = Json.write(changed);
        return random.nextInt(12) == 0 ? scramble(written) : written;
    }

    private Node change(Node node, int depth) {
        boolean here = depth > 0 && random.nextInt(4) == 0;
        if (!here && node instanceof Node.Obj object && !object.members().isEmpty()) {
            List<String> keys = new ArrayList<>(object.members().keySet());
            String key = keys.get(random.nextInt(keys.size()));
            Map<String, Node> members = new LinkedHashMap<>(object.members());
            switch (random.nextInt(depth == 0 ? 12 : 8)) {
                case 0 -> members.remove(key);
                case 1 -> members.put(misspelt(key), members.remove(key));
                case 2 -> members.put(NAMES[random.nextInt(NAMES.length)], members.get(key));
                default -> members.put(key, change(members.get(key), depth + 1));
            }
            return new Node.Obj(members, 0, 0);
        }
        if (!here && node instanceof Node.Arr array && !array.items().isEmpty()) {
            List<Node> items = new ArrayList<>(array.items());
            int index = random.nextInt(items.size());
            switch (random.nextInt(8)) {
                case 0 -> items.remove(index);
                case 1 -> items.add(items.get(index));
                default -> items.set(index, change(items.get(index), depth + 1));
            }
            return new Node.Arr(items, 0, 0);
        }
        if (node instanceof Node.Text text && random.nextInt(2) == 0) {
            return new Node.Text(misspelt(text.value()), 0, 0);
        }
        return Json.read(VALUES[random.nextInt(VALUES.length)]);
    }

    private String misspelt(String word) {
        if (word.isEmpty()) {
            return "x";
        }
        int at = random.nextInt(word.length());
        return switch (random.nextInt(4)) {
            case 0 -> word.substring(0, at) + word.substring(at + 1);
            case 1 -> word.substring(0, at) + (char) (' ' + random.nextInt(95)) + word.substring(at);
            case 2 -> word.substring(0, at) + Character.toUpperCase(word.charAt(at)) + word.substring(at + 1);
            default -> word + word;
        };
    }

    private String scramble(String text) {
        StringBuilder out = new StringBuilder(text);
        int times = 1 + random.nextInt(3);
        for (int i = 0; i < times && out.length() > 1; i++) {
            int at = random.nextInt(out.length());
            int end = Math.min(out.length(), at + 1 + random.nextInt(40));
            switch (random.nextInt(6)) {
                case 0 -> out.setLength(at);
                case 1 -> out.delete(at, end);
                case 2 -> out.insert(random.nextInt(out.length()), out.substring(at, end));
                case 3 -> out.setCharAt(at, (char) random.nextInt(0x250));
                default -> out.insert(at, TOKENS[random.nextInt(TOKENS.length)]);
            }
        }
        return out.toString();
    }
}
