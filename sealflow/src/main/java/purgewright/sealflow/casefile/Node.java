package purgewright.sealflow.casefile;

import java.util.Collections;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

/** A value of the document with the place in the text it was read from (0, 0 for one added since). Immutable. */
sealed interface Node {
    /** 1-based; 0 when added since. */
    int line();

    /** 1-based; 0 when added since. */
    int column();

    /** What it is, in words. */
    String kind();

    /** An object; members in the order of the text. */
    record Obj(Map<String, Node> members, int line, int column) implements Node {
        @Override
        public String kind() {
            return "an object {...}";
        }

        Obj with(String key, Node value) {
            Map<String, Node> copy = new LinkedHashMap<>(members);
            copy.put(key, value);
            return new Obj(Collections.unmodifiableMap(copy), line, column);
        }

        Obj without(String key) {
            Map<String, Node> copy = new LinkedHashMap<>(members);
            copy.remove(key);
            return new Obj(Collections.unmodifiableMap(copy), line, column);
        }
    }

    /** An array. Named elements are found through an index made when first asked for, so that a long list costs no long search. */
    final class Arr implements Node {
        private final List<Node> items;
        private final int line;
        private final int column;
        private volatile Map<String, Integer> byName;

        Arr(List<Node> items, int line, int column) {
            this.items = items;
            this.line = line;
            this.column = column;
        }

        List<Node> items() {
            return items;
        }

        /** Index of the first element of that name; -1 when there is none. */
        int indexOf(String name) {
            Map<String, Integer> index = byName;
            if (index == null) {
                index = new HashMap<>();
                for (int i = 0; i < items.size(); i++) {
                    String found = Place.name(items.get(i)).orElse(null);
                    if (found != null) {
                        index.putIfAbsent(found, i);
                    }
                }
                byName = index;
            }
            return index.getOrDefault(name, -1);
        }

        @Override
        public int line() {
            return line;
        }

        @Override
        public int column() {
            return column;
        }

        @Override
        public String kind() {
            return "a list [...]";
        }
    }

    /** A string. */
    record Text(String value, int line, int column) implements Node {
        @Override
        public String kind() {
            return "a text";
        }
    }

    /** A number, as typed. */
    record Num(String literal, int line, int column) implements Node {
        @Override
        public String kind() {
            return "a plain number";
        }
    }

    /** True or false. */
    record Bool(boolean value, int line, int column) implements Node {
        @Override
        public String kind() {
            return value ? "true" : "false";
        }
    }

    /** The word null, which no field of a case takes; kept so that reading can say where it stands. */
    record Null(int line, int column) implements Node {
        @Override
        public String kind() {
            return "null";
        }
    }
}
