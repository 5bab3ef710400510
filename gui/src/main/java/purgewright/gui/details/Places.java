package purgewright.gui.details;

import java.util.ArrayList;
import java.util.List;
import purgewright.gui.text.Texts;
import purgewright.sealflow.casefile.CaseDocument;
import purgewright.sealflow.casefile.CaseEdits;

/** Edits that add something: a starting point that can be solved at once stands in each new place. Documents in, documents out. */
public final class Places {
    private Places() {}

    /** A name like the wanted one that nothing has yet. */
    public static String free(CaseDocument document, String folder, String wanted) {
        List<String> taken = document.children(folder);
        if (!taken.contains(wanted)) {
            return wanted;
        }
        String stem = wanted.replaceFirst(" \\d+$", "");
        int i = 2;
        while (taken.contains(stem + " " + i)) {
            i++;
        }
        return stem + " " + i;
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

    /**
     * With a seal appended between two cavities: of the kind and size of the seal that already ends in one of them, else a plain ring
     * of 25 mm radius and 0.05 mm clearance.
     */
    public static CaseDocument withSeal(CaseDocument document, String name, String from, String to) {
        for (String passage : document.children("/passages")) {
            String place = "/passages/" + CaseEdits.escaped(passage);
            boolean near = List.of(from, to)
                            .contains(document.text(place + "/from").orElse(""))
                    || List.of(from, to).contains(document.text(place + "/to").orElse(""));
            if (near && document.has(place + "/clearance")) {
                return CaseEdits.duplicated(document, place, name)
                        .with("/passages/" + CaseEdits.escaped(name) + "/from", from)
                        .with("/passages/" + CaseEdits.escaped(name) + "/to", to);
            }
        }
        return document.withJson(
                "/passages/-",
                "{\"name\": \"" + escaped(name) + "\", \"from\": \"" + escaped(from) + "\", \"to\": \"" + escaped(to)
                        + "\", \"type\": \"floating ring\", \"radius\": \"25 mm\", \"clearance\": \"0.05 mm\","
                        + " \"length\": \"6 mm\"}");
    }

    /** With one more of what a folder holds, under a free name; the same document where nothing can be added. */
    public static CaseDocument added(CaseDocument document, String folder, String name) {
        String json = element(document, folder, name);
        if (json.isEmpty()) {
            return document;
        }
        return document.has(folder) && isList(document, folder)
                ? document.withJson(folder + "/-", json)
                : isObject(folder)
                        ? made(document, folder).withJson(folder + "/" + CaseEdits.escaped(name), json)
                        : made(document, CaseEdits.folder(folder)).withJson(folder, "[" + json + "]");
    }

    private static boolean isList(CaseDocument document, String folder) {
        return document.json(folder).orElse("").startsWith("[");
    }

    private static boolean isObject(String folder) {
        return folder.equals("/streams") || folder.equals("/uncertain");
    }

    private static String element(CaseDocument document, String folder, String name) {
        String named = "\"name\": \"" + escaped(name) + "\"";
        return switch (folder) {
            case "/streams" -> "{\"fluid\": \"helium\"}";
            case "/cavities" -> "{" + named + ", \"role\": \"drain\"}";
            case "/duty" -> "{" + named + ", \"duration\": \"10 s\"}";
            case "/rotor/segments" ->
                "{" + named
                        + ", \"bore radius\": \"0 mm\", \"outer radius\": \"25 mm\", \"temperature\": \"300 K\", \"E\": \"200 GPa\","
                        + " \"density\": \"7900 kg/m3\", \"expansion\": \"1.2e-5 1/K\"}";
            case "/instruments" ->
                "{" + named + ", \"measures\": \"pressure\", \"cavity\": \"" + escaped(solved(document)) + "\"}";
            case "/campaign/holds" -> "{" + named + ", \"duration\": \"60 s\"}";
            case "/faults/extra" -> "{" + named + ", \"set\": {}}";
            case "/uncertain" ->
                "{\"distribution\": \"uniform\", \"low\": \"" + escaped(around(document, name, 0.8))
                        + "\", \"high\": \"" + escaped(around(document, name, 1.2)) + "\"}";
            default -> "";
        };
    }

    private static String around(CaseDocument document, String place, double factor) {
        return FieldModel.scaled(document.text(place).orElse("1"), factor);
    }

    private static String solved(CaseDocument document) {
        return document.children("/cavities").stream()
                .filter(c -> !document.has("/cavities/" + CaseEdits.escaped(c) + "/pressure"))
                .findFirst()
                .orElse(
                        document.children("/cavities").isEmpty()
                                ? ""
                                : document.children("/cavities").get(0));
    }

    /** With an object at a place, made with the values it cannot do without where it was not there. */
    public static CaseDocument made(CaseDocument document, String place) {
        if (place.equals("/faults") && document.text(place).isPresent()) {
            // One word stands there where switches would.
            boolean none = document.text(place).orElse("").equals("none");
            return document.withJson(place, none ? "{\"automatic\": false}" : "{}");
        }
        if (place.isEmpty() || document.has(place)) {
            return document;
        }
        CaseDocument with = made(document, CaseEdits.folder(place));
        return with.withJson(place, start(document, place));
    }

    private static String start(CaseDocument document, String place) {
        String last = CaseEdits.last(place);
        if (place.equals("/supply")) {
            return "{\"gas\": \"" + escaped(purge(document)) + "\"}";
        }
        if (place.equals("/campaign")) {
            return "{\"attempts\": 1}";
        }
        if (place.equals("/room")) {
            return "{\"volume\": \"100 m3\", \"ventilation\": \"0.1 m3/s\"}";
        }
        if (place.startsWith("/supply/")) {
            return switch (last) {
                case "bottles" ->
                    "{\"volume\": \"50 L\", \"filling pressure\": \"20 MPa\", \"temperature\": \"15 degC\", \"number\": 4}";
                case "regulator" -> "{\"set pressure\": \"" + escaped(set(document)) + "\"}";
                case "line" -> "{\"diameter\": \"8 mm\", \"length\": \"3 m\"}";
                default -> "{}";
            };
        }
        if (place.startsWith("/cavities/")) {
            return switch (last) {
                case "disc" -> "{\"inner radius\": \"25 mm\", \"outer radius\": \"50 mm\", \"gap\": \"3 mm\"}";
                case "wall" -> "{\"conductance\": \"1 W/K\", \"temperature\": \"15 degC\"}";
                default -> "{}";
            };
        }
        if (place.startsWith("/streams/")) {
            return switch (last) {
                case "burn" ->
                    "{\"fuel\": \"methane\", \"oxidizer\": \"oxygen\", \"mixture ratio\": 0.4, \"pressure\": \"6 MPa\","
                            + " \"fuel temperature\": \"120 K\", \"oxidizer temperature\": \"95 K\"}";
                case "mole", "mass" -> "{}";
                default -> "{}";
            };
        }
        return "{}";
    }

    private static String purge(CaseDocument document) {
        for (String cavity : document.children("/cavities")) {
            String place = "/cavities/" + CaseEdits.escaped(cavity);
            if (document.text(place + "/role").orElse("").equals("supply") && document.has(place + "/stream")) {
                return document.text(place + "/stream").orElse("");
            }
        }
        List<String> streams = document.children("/streams");
        return streams.isEmpty() ? "" : streams.get(streams.size() - 1);
    }

    private static String set(CaseDocument document) {
        for (String cavity : document.children("/cavities")) {
            String place = "/cavities/" + CaseEdits.escaped(cavity);
            if (document.text(place + "/role").orElse("").equals("supply") && document.has(place + "/pressure")) {
                return document.text(place + "/pressure").orElse("");
            }
        }
        return "3 MPa";
    }

    /** A stream is one of four things: with one of them said, the others go. */
    static CaseDocument oneKind(CaseDocument document, String pointer) {
        String[] parts = pointer.split("/");
        if (parts.length < 4) {
            return document;
        }
        CaseDocument result = document;
        for (String kind : List.of("fluid", "mix", "burn", "measured")) {
            if (!kind.equals(parts[3])) {
                result = result.without("/streams/" + parts[2] + "/" + kind);
            }
        }
        return result;
    }

    /** The texts of a list. */
    static List<String> elements(CaseDocument document, String pointer) {
        List<String> texts = new ArrayList<>();
        for (String index : document.children(pointer)) {
            document.text(pointer + "/" + index).ifPresent(texts::add);
        }
        return texts;
    }

    static boolean bare(String text) {
        return text.matches("-?(0|[1-9][0-9]*)(\\.[0-9]+)?([eE][-+]?[0-9]+)?")
                || text.equals("true")
                || text.equals("false");
    }

    static String escaped(String text) {
        return text.replace("\\", "\\\\").replace("\"", "\\\"");
    }

    /** "clearance of ring A" for {@code /passages/ring A/clearance}, with the phase where one sets it; else the place itself. */
    public static String words(String place) {
        String[] parts = place.split("/");
        if (parts.length == 5 && parts[1].equals("duty") && parts[3].equals("set")) {
            return Texts.of("name.inphase", words(CaseEdits.last("/" + parts[4])), CaseEdits.last("/" + parts[2]));
        }
        if (parts.length == 4 && (parts[1].equals("cavities") || parts[1].equals("passages"))) {
            return Texts.of("name.of", CaseEdits.last("/" + parts[3]), CaseEdits.last("/" + parts[2]));
        }
        if (parts.length == 3 && parts[1].equals("rotor")) {
            return Texts.of("name.of", parts[2], "rotor");
        }
        return parts.length == 3 ? CaseEdits.last(place) : place;
    }
}
