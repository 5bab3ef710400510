package purgewright.gui.details;

import java.util.ArrayList;
import java.util.List;
import purgewright.gui.text.Texts;
import purgewright.sealflow.casefile.CaseDocument;
import purgewright.sealflow.casefile.CaseEdits;

/** What a case consists of, as a list of places that the details panel can show. */
public final class Outline {
    /** Places that are one object, there or not. */
    static final List<String> SECTIONS = List.of("/rotor", "/supply", "/criteria", "/campaign", "/room", "/faults");

    /** Places that hold several things, in the order shown. */
    private static final List<String> FOLDERS = List.of(
            "/streams",
            "/cavities",
            "/passages",
            "/duty",
            "/rotor/segments",
            "/instruments",
            "/campaign/holds",
            "/uncertain",
            "/faults/extra");

    private Outline() {}

    /**
     * A group of places.
     *
     * @param folder that holds them; empty for the single ones
     * @param label of the group
     * @param places pointers
     */
    public record Group(String folder, String label, List<String> places) {}

    /** Everything there is, and every section that could be. */
    public static List<Group> of(CaseDocument document) {
        List<Group> groups = new ArrayList<>();
        List<String> singles = new ArrayList<>(List.of(""));
        singles.addAll(SECTIONS);
        groups.add(new Group("", Texts.of("outline.case"), singles));
        for (String folder : FOLDERS) {
            List<String> places = new ArrayList<>();
            for (String child : document.children(folder)) {
                places.add(folder + "/" + CaseEdits.escaped(child));
            }
            groups.add(new Group(folder, Texts.of("outline" + folder.replace('/', '.')), List.copyOf(places)));
        }
        return groups;
    }

    /** Name of a place for people. */
    public static String label(String place) {
        if (place.isEmpty()) {
            return Texts.of("outline.whole");
        }
        return SECTIONS.contains(place) ? Texts.of("outline" + place.replace('/', '.')) : CaseEdits.last(place);
    }

    /** What kind of place it is. */
    public static String meaning(String place) {
        String folder = SECTIONS.contains(place) ? place : CaseEdits.folder(place);
        String key = "meaning" + folder.replace('/', '.');
        return Texts.has(key) ? Texts.of(key) : "";
    }

    /** True for a place that others stand beside: it can be copied, moved, removed. */
    public static boolean movable(String place) {
        return !place.isEmpty() && FOLDERS.contains(CaseEdits.folder(place));
    }
}
