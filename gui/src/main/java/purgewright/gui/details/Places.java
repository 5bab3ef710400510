package purgewright.gui.details;

import java.util.List;
import purgewright.sealflow.casefile.CaseDocument;

/** Edits that touch more than one value: naming, adding, copying and removing cavities and passages. Documents in, documents out. */
public final class Places {
    private Places() {}

    /** A cavity or passage under another name, wherever the case names it. */
    public static CaseDocument renamed(CaseDocument document, String place, String name) {
        String old = place.substring(place.lastIndexOf('/') + 1);
        String folder = place.substring(0, place.lastIndexOf('/'));
        if (name.isBlank()
                || name.contains("/")
                || name.contains("~")
                || name.chars().allMatch(Character::isDigit)) {
            throw new IllegalArgumentException("a name has no / and no ~ and is not all digits");
        }
        if (document.children(folder).contains(name)) {
            throw new IllegalArgumentException("the name " + name + " is taken");
        }
        CaseDocument result = document;
        if (folder.equals("/cavities")) {
            for (String passage : document.children("/passages")) {
                for (String end : List.of("from", "to")) {
                    String pointer = "/passages/" + passage + "/" + end;
                    if (document.text(pointer).orElse("").equals(old)) {
                        result = result.with(pointer, name);
                    }
                }
            }
            for (String cavity : document.children("/cavities")) {
                String pointer = "/cavities/" + cavity + "/wall/cavity";
                if (document.text(pointer).orElse("").equals(old)) {
                    result = result.with(pointer, name);
                }
            }
        }
        return result.with(place + "/name", name);
    }

    /** A name like the wanted one that nothing has yet. */
    public static String free(CaseDocument document, String folder, String wanted) {
        List<String> taken = document.children(folder);
        if (!taken.contains(wanted)) {
            return wanted;
        }
        int i = 2;
        while (taken.contains(wanted + " " + i)) {
            i++;
        }
        return wanted + " " + i;
    }

    /** With a solved cavity appended. */
    public static CaseDocument withCavity(CaseDocument document, String name) {
        return document.withJson("/cavities/-", "{\"name\": \"" + escaped(name) + "\", \"role\": \"drain\"}");
    }

    /** With an orifice appended between two cavities. */
    public static CaseDocument withPassage(CaseDocument document, String name, String from, String to) {
        return document.withJson(
                "/passages/-",
                "{\"name\": \"" + escaped(name) + "\", \"from\": \"" + escaped(from) + "\", \"to\": \"" + escaped(to)
                        + "\", \"type\": \"orifice\", \"diameter\": \"2 mm\", \"discharge coefficient\": 0.8}");
    }

    /** With a second one of a cavity or passage, value by value, under a free name. */
    public static CaseDocument duplicated(CaseDocument document, String place, String name) {
        String folder = place.substring(0, place.lastIndexOf('/'));
        StringBuilder json =
                new StringBuilder("{\"name\": \"").append(escaped(name)).append('"');
        appendFields(document, place, json);
        json.append('}');
        return document.withJson(folder + "/-", json.toString());
    }

    private static void appendFields(CaseDocument document, String place, StringBuilder json) {
        for (String child : document.children(place)) {
            if (child.equals("name")) {
                continue;
            }
            String pointer = place + "/" + child;
            json.append(json.charAt(json.length() - 1) == '{' ? "" : ", ")
                    .append('"')
                    .append(escaped(child))
                    .append("\": ");
            var text = document.text(pointer);
            if (text.isPresent()) {
                String t = text.get();
                json.append(bare(t) ? t : "\"" + escaped(t) + "\"");
            } else {
                json.append('{');
                appendFields(document, pointer, json);
                json.append('}');
            }
        }
    }

    private static boolean bare(String text) {
        return text.matches("-?[0-9]+(\\.[0-9]+)?([eE][-+]?[0-9]+)?") || text.equals("true") || text.equals("false");
    }

    private static String escaped(String text) {
        return text.replace("\\", "\\\\").replace("\"", "\\\"");
    }

    /** Without a cavity or passage; with a cavity go the passages that end in it. */
    public static CaseDocument removed(CaseDocument document, String place) {
        CaseDocument result = document;
        String name = place.substring(place.lastIndexOf('/') + 1);
        if (place.startsWith("/cavities/")) {
            for (String passage : document.children("/passages")) {
                String pointer = "/passages/" + passage;
                if (document.text(pointer + "/from").orElse("").equals(name)
                        || document.text(pointer + "/to").orElse("").equals(name)) {
                    result = result.without(pointer);
                }
            }
        }
        return result.without(place);
    }
}
