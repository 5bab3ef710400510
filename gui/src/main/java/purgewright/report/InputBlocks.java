package purgewright.report;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import purgewright.report.Block.Grid;
import purgewright.report.Block.Heading;
import purgewright.sealflow.casefile.CaseDocument;

/** The inputs of a case as somebody typed them, units and all, in the order of the file; nothing is left out. */
final class InputBlocks {
    /** What other parts of the report say: title block, waivers beside the findings. */
    private static final Set<String> ELSEWHERE = Set.of("purgewright", "about", "waivers");

    private final CaseDocument document;

    private InputBlocks(CaseDocument document) {
        this.document = document;
    }

    static List<Block> of(CaseDocument document) {
        InputBlocks inputs = new InputBlocks(document);
        List<Block> blocks = new ArrayList<>();
        for (String section : document.children("")) {
            String at = child("", section);
            if (ELSEWHERE.contains(section) || document.children(at).isEmpty()) {
                continue;
            }
            blocks.add(new Heading(
                    3, "inputs-" + section.toLowerCase(Locale.ROOT).replaceAll("[^a-z0-9]+", "-"), section));
            blocks.add(inputs.section(at));
        }
        return blocks;
    }

    private Grid section(String at) {
        List<List<String>> rows = new ArrayList<>();
        for (String name : document.children(at)) {
            String value = child(at, name);
            rows.add(List.of(place(name), isText(value) ? words(value) : members(value, "; ", "name")));
        }
        return new Grid("ll", List.of("name", "as typed"), rows);
    }

    /** A value in words: text as it stands; an object as its members; a list as its elements. */
    private String words(String at) {
        if (isText(at)) {
            return document.text(at).orElse("");
        }
        if (isList(at)) {
            List<String> items = new ArrayList<>();
            for (int i = 0; i < document.children(at).size(); i++) {
                items.add(words(at + "/" + i));
            }
            return String.join(", ", items);
        }
        List<String> names = document.children(at);
        return !names.isEmpty() && names.stream().allMatch(name -> name.startsWith("/"))
                ? changes(at, names)
                : "(" + members(at, ", ", "") + ")";
    }

    private String members(String at, String separator, String left) {
        if (isList(at)) {
            return words(at);
        }
        List<String> members = new ArrayList<>();
        for (String name : document.children(at)) {
            if (!name.equals(left)) {
                members.add(name + " " + words(child(at, name)));
            }
        }
        return String.join(separator, members);
    }

    /** What a phase or a fault changes, gathered by place: "pump inlet: pressure 0.3 MPa, temperature 90 K". */
    private String changes(String at, List<String> pointers) {
        Map<String, List<String>> byPlace = new LinkedHashMap<>();
        for (String pointer : pointers) {
            int slash = pointer.lastIndexOf('/');
            byPlace.computeIfAbsent(Words.place(pointer.substring(0, slash)), p -> new ArrayList<>())
                    .add(Words.place(pointer) + " " + words(child(at, pointer)));
        }
        List<String> out = new ArrayList<>();
        byPlace.forEach((place, values) -> out.add((place.isEmpty() ? "" : place + ": ") + String.join(", ", values)));
        return String.join(" · ", out);
    }

    /** A name that is itself a place in the case reads as its last two steps. */
    private static String place(String name) {
        if (!name.startsWith("/")) {
            return name;
        }
        int slash = name.lastIndexOf('/');
        String holder = Words.place(name.substring(0, slash));
        return holder.isEmpty() ? Words.place(name) : holder + ", " + Words.place(name);
    }

    private boolean isText(String at) {
        return document.text(at).isPresent();
    }

    private boolean isList(String at) {
        return document.json(at).orElse("").startsWith("[");
    }

    private static String child(String at, String name) {
        return at + "/" + name.replace("~", "~0").replace("/", "~1");
    }
}
