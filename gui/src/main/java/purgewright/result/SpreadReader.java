package purgewright.result;

import java.io.IOException;
import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.TreeMap;
import purgewright.hazard.finding.Verdict;
import purgewright.hazard.service.SpreadPart;
import purgewright.hazard.studies.QuantileSketch;
import purgewright.hazard.studies.SpreadResult.Identity;
import purgewright.hazard.studies.SpreadResult.Kept;
import purgewright.hazard.studies.SpreadSettings;
import purgewright.hazard.studies.SpreadSettings.Interval;
import purgewright.hazard.studies.SpreadSettings.Part;
import purgewright.hazard.studies.SpreadSettings.Sampling;
import purgewright.hazard.studies.SpreadSettings.Studies;
import purgewright.hazard.studies.Tally;

/** Reads what {@link SpreadJson} wrote: a result to run again, a part to put together. */
public final class SpreadReader {
    private SpreadReader() {}

    /**
     * What it takes to run a result again.
     *
     * @param version of the program that made it
     */
    public record Recipe(Identity identity, String caseText, String version, SpreadSettings settings) {}

    /** Something that is no result of ours; the message says why. */
    public static final class Unreadable extends RuntimeException {
        private static final long serialVersionUID = 1L;

        Unreadable(String message) {
            super(message);
        }
    }

    /** The recipe of a result. @throws Unreadable for anything else */
    public static Recipe recipe(String text) {
        Map<String, Object> tree = tree(text, SpreadJson.SPREAD);
        try {
            return new Recipe(
                    identity(tree), caseText(tree), text(tree, "version"), settings(map(tree.get("settings"))));
        } catch (IllegalArgumentException | ArithmeticException e) {
            throw new Unreadable(String.valueOf(e.getMessage()));
        }
    }

    /** Version of the program that made a part. */
    public static String version(String text) {
        return text(tree(text, SpreadJson.PART), "version");
    }

    /** A part of a plan. @throws Unreadable for anything else */
    public static SpreadPart part(String text) {
        Map<String, Object> tree = tree(text, SpreadJson.PART);
        if (SpreadJson.unsealed(text) == null) {
            throw new Unreadable("it is not as it was written: its digest is another");
        }
        try {
            Tally.State tally = tally(tree);
            List<String> outputs = strings(tree.get("outputs"));
            Tally.of(tally); // refuses what no run has made
            if (tally.outputs().size() != outputs.size()) {
                throw new Unreadable(
                        outputs.size() + " outputs and " + tally.outputs().size() + " sketches of them");
            }
            return new SpreadPart(
                    identity(tree),
                    settings(map(tree.get("settings"))),
                    caseText(tree),
                    outputs,
                    flag(tree, "complete"),
                    tally);
        } catch (IllegalArgumentException | ArithmeticException e) {
            throw new Unreadable(String.valueOf(e.getMessage()));
        }
    }

    private static Map<String, Object> tree(String text, String kind) {
        Map<String, Object> tree;
        try {
            tree = JsonTree.read(text);
        } catch (IOException e) {
            throw new Unreadable("no JSON: "
                    + String.valueOf(e.getMessage()).lines().findFirst().orElse(""));
        }
        if (!Long.valueOf(JsonText.LAYOUT).equals(tree.get("result")) || !kind.equals(tree.get("kind"))) {
            throw new Unreadable(
                    "it is no " + (SpreadJson.PART.equals(kind) ? "part of a spread" : "result of spread"));
        }
        return tree;
    }

    private static Identity identity(Map<String, Object> tree) {
        Map<String, Object> c = map(tree.get("case"));
        return new Identity(text(c, "title"), text(c, "hash"), text(tree, "engine"));
    }

    private static String caseText(Map<String, Object> tree) {
        return text(map(tree.get("case")), "text");
    }

    private static SpreadSettings settings(Map<String, Object> s) {
        return new SpreadSettings(
                Math.toIntExact(whole(s, "samples")),
                Sampling.valueOf(text(s, "sampling").toUpperCase(Locale.ROOT).replace(' ', '_')),
                whole(s, "seed"),
                number(s.get("confidence")),
                Interval.valueOf(text(s, "interval").toUpperCase(Locale.ROOT).replace('-', '_')),
                number(s.get("width")),
                new Part(Math.toIntExact(whole(s, "part")), Math.toIntExact(whole(s, "parts"))),
                strings(s.get("phases")),
                strings(s.get("follow")),
                new Studies(
                        flag(s, "tornado"),
                        flag(s, "linear"),
                        Math.toIntExact(whole(s, "sobol")),
                        Math.toIntExact(whole(s, "rare")),
                        flag(s, "redlines"),
                        flag(s, "corners")),
                number(s.get("target")),
                number(s.get("false_trips")));
    }

    private static Tally.State tally(Map<String, Object> tree) {
        Map<Verdict, Long> verdicts = new EnumMap<>(Verdict.class);
        counts(tree, "verdicts").forEach((name, n) -> verdicts.put(Verdict.valueOf(name), n));
        List<QuantileSketch.State> sketches = new ArrayList<>();
        for (Object each : list(tree.get("sketches"))) {
            Map<String, Object> s = map(each);
            Map<Long, Long> bins = new TreeMap<>();
            List<Object> keys = list(s.get("bins"));
            List<Object> counts = list(s.get("counts"));
            if (keys.size() != counts.size()) {
                throw new Unreadable("a sketch with " + keys.size() + " bins and " + counts.size() + " counts");
            }
            for (int i = 0; i < keys.size(); i++) {
                bins.put(whole(keys.get(i), "bins"), whole(counts.get(i), "counts"));
            }
            sketches.add(new QuantileSketch.State(
                    Math.toIntExact(whole(s, "bits")),
                    whole(s, "finite"),
                    text(s, "sum"),
                    text(s, "squares"),
                    Double.parseDouble(text(s, "least")),
                    Double.parseDouble(text(s, "greatest")),
                    bins));
        }
        Kept kept = new Kept(
                list(tree.get("kept_index")).stream()
                        .map(n -> whole(n, "kept_index"))
                        .toList(),
                rows(tree.get("kept_inputs")),
                rows(tree.get("kept_outputs")),
                strings(tree.get("kept_verdicts")).stream()
                        .map(Verdict::valueOf)
                        .toList());
        if (kept.inputs().size() != kept.index().size()
                || kept.outputs().size() != kept.index().size()
                || kept.verdicts().size() != kept.index().size()) {
            throw new Unreadable("the samples kept do not match each other");
        }
        return new Tally.State(
                verdicts, counts(tree, "missed"), counts(tree, "unknown"), whole(tree, "unjudged"), sketches, kept);
    }

    private static Map<String, Long> counts(Map<String, Object> tree, String name) {
        Map<String, Long> out = new TreeMap<>();
        map(tree.get(name)).forEach((key, n) -> {
            if (!(n instanceof Long count)) {
                throw new Unreadable(name + "/" + key + " is no count");
            }
            out.put(key, count);
        });
        return out;
    }

    private static List<double[]> rows(Object read) {
        List<double[]> out = new ArrayList<>();
        for (Object row : list(read)) {
            out.add(list(row).stream().mapToDouble(SpreadReader::number).toArray());
        }
        return out;
    }

    private static List<Object> list(Object read) {
        if (!(read instanceof List<?> list)) {
            throw new Unreadable("a list is missing");
        }
        return new ArrayList<>(list);
    }

    private static Map<String, Object> map(Object read) {
        if (!(read instanceof Map<?, ?> map)) {
            throw new Unreadable("an object is missing");
        }
        Map<String, Object> out = new java.util.LinkedHashMap<>();
        map.forEach((k, v) -> out.put(String.valueOf(k), v));
        return out;
    }

    private static List<String> strings(Object read) {
        List<String> out = new ArrayList<>();
        for (Object each : list(read)) {
            if (!(each instanceof String text)) {
                throw new Unreadable("\"" + each + "\" is no text");
            }
            out.add(text);
        }
        return List.copyOf(out);
    }

    private static String text(Map<String, Object> map, String name) {
        if (!(map.get(name) instanceof String text)) {
            throw new Unreadable("\"" + name + "\" is missing");
        }
        return text;
    }

    private static long whole(Map<String, Object> map, String name) {
        return whole(map.get(name), name);
    }

    private static long whole(Object read, String name) {
        if (!(read instanceof Long number)) {
            throw new Unreadable("\"" + name + "\" is no whole number");
        }
        return number;
    }

    private static boolean flag(Map<String, Object> map, String name) {
        if (!(map.get(name) instanceof Boolean flag)) {
            throw new Unreadable("\"" + name + "\" is neither true nor false");
        }
        return flag;
    }

    /** Null stands for a number that is not known. */
    private static double number(Object read) {
        if (read != null && !(read instanceof Number)) {
            throw new Unreadable("\"" + read + "\" is no number");
        }
        return read == null ? Double.NaN : ((Number) read).doubleValue();
    }
}
