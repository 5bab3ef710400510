package purgewright.report;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import purgewright.hazard.service.CheckResult;
import purgewright.report.Block.Bullets;
import purgewright.report.Block.Grid;
import purgewright.report.Block.Heading;
import purgewright.report.Block.Text;
import purgewright.sealflow.casefile.CaseDocument;
import purgewright.sealflow.casefile.CaseForm;

/** What a result takes for granted: what the models always assume, and the values that stood in where the case states none. */
final class AssumptionBlocks {
    /** Sections whose objects have names, and what one of them is called; what a type has, has that name. */
    private static final Map<String, String> NAMED = named();

    /** Sections that are one object, and stand in for themselves where the case has none. */
    private static final List<String> ALWAYS = List.of("/surroundings", "/rotor");

    /** Sections that are one object; where the case has none, nothing is assumed of it. */
    private static final List<String> STATED = List.of("/supply", "/campaign", "/room");

    /** What a field without a default says of its absence. */
    private static final Pattern LEFT_OUT = Pattern.compile("^(.*); left out: (.*)\\.$");

    /** Defaults that say nothing is added: one passage, open, as computed. */
    private static final Set<String> NEUTRAL = Set.of("count", "closed", "calibration factor");

    private AssumptionBlocks() {}

    private static Map<String, String> named() {
        Map<String, String> named = new LinkedHashMap<>();
        named.put("/streams", "stream");
        named.put("/cavities", "cavity");
        named.put("/passages", "passage");
        named.put("/duty", "phase");
        named.put("/campaign/holds", "hold");
        named.put("/campaign/leak checks", "leak check");
        named.put("/instruments", "instrument");
        return named;
    }

    static List<Block> of(CheckResult check) {
        CaseDocument document = check.document();
        List<Block> blocks = new ArrayList<>();
        blocks.add(new Heading(2, "assumptions", "Assumptions"));
        blocks.add(
                new Bullets(
                        List.of(
                                "A cavity has one pressure, one temperature and one mixture; a disc in it adds a radial pressure gradient.",
                                "Flow in seals, orifices and lines is one-dimensional; passages take no heat from walls, rotor drag heats the flow.",
                                "Each phase is a steady state of its own; the phases' order and length matter to the duty and to the gas used only.",
                                "Mixtures do not react: what would burn is judged, not burnt.",
                                "Which models were used, beyond their ranges or with estimated constants: under Models and Cautions.")));
        Map<List<String>, Map<String, List<String>>> places = new LinkedHashMap<>();
        Map<String, Integer> sizes = new LinkedHashMap<>();
        for (String at : ALWAYS) {
            defaults(document, at, Words.place(at), "", places);
        }
        for (String at : STATED) {
            if (document.has(at)) {
                defaults(document, at, Words.place(at), "", places);
            }
        }
        NAMED.forEach((section, one) -> {
            for (String name : document.children(section)) {
                String at = section + "/" + name.replace("~", "~0").replace("/", "~1");
                String kind = section.equals("/passages")
                        ? document.text(at + "/type").orElse(one)
                        : one;
                sizes.merge(kind, 1, Integer::sum);
                defaults(document, at, name, kind, places);
            }
        });
        if (!places.isEmpty()) {
            List<List<String>> rows = new ArrayList<>();
            places.forEach((value, kinds) -> {
                List<String> where = new ArrayList<>();
                kinds.forEach((kind, names) -> {
                    boolean every = names.size() > 1 && names.size() == sizes.getOrDefault(kind, 0);
                    where.add(every ? "every " + kind : String.join(", ", names));
                });
                rows.add(List.of(value.get(0), value.get(1), String.join(", ", where), value.get(2)));
            });
            blocks.add(new Text("Values that the case does not state, and what stood in for them:"));
            blocks.add(new Grid("llll", List.of("field", "taken as", "where", "meaning"), rows));
        }
        return blocks;
    }

    private static void defaults(
            CaseDocument document,
            String at,
            String name,
            String kind,
            Map<List<String>, Map<String, List<String>>> places) {
        for (CaseForm.Entry entry : CaseForm.of(document, at)) {
            int slash = entry.path().lastIndexOf('/');
            boolean asked = slash < 0 || document.has(at + "/" + entry.path().substring(0, slash));
            String taken = entry.fallback();
            String meaning = entry.description();
            Matcher absent = LEFT_OUT.matcher(meaning);
            boolean noGap = entry.path().equals("clearance growth") && !document.has(at + "/clearance");
            if (taken.isEmpty() && absent.matches() && !noGap) {
                meaning = absent.group(1) + ".";
                taken = absent.group(2);
            }
            if (asked
                    && !taken.isEmpty()
                    && !NEUTRAL.contains(entry.path())
                    && !document.has(at + "/" + entry.path())) {
                places.computeIfAbsent(
                                List.of(entry.label(), taken.replace("`", ""), meaning.replace("`", "")),
                                k -> new LinkedHashMap<>())
                        .computeIfAbsent(kind, k -> new ArrayList<>())
                        .add(name);
            }
        }
    }
}
