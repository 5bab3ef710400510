package purgewright.result;

import java.io.IOException;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import purgewright.hazard.sizing.Evaluation;
import purgewright.hazard.sizing.PurgeWindow;
import purgewright.hazard.sizing.SizeResult;
import purgewright.hazard.sizing.SizeResult.Slack;

/** {@code size --json} and {@code map --json}. Values of a parameter are SI; its place says of what. What is not known is null. */
public final class SizeJson {
    private SizeJson() {}

    /** The design, what governs it, redlines, interlocks and wear limits. */
    public static String size(SizeResult result, String title, String hash, String version, String engine) {
        return JsonText.object(json -> {
            head(json, title, hash, version, engine);
            json.field("verdict", result.verdict().word()).field("verdict_line", result.line());
            SizeResult.Chosen first = result.design().get(0);
            json.field("parameter", first.variable().place())
                    .field("feasible", result.feasible())
                    .field("complete", result.complete())
                    .field("value", first.value())
                    .field("stated", first.stated())
                    .field("stated_flow_kg_s", result.statedPurge())
                    .field("monotone", result.monotone())
                    .field("price_kg_s", price(result));
            json.field("objective", result.objective().words())
                    .field("objective_value", result.value())
                    .field("objective_stated", result.statedValue())
                    .field("objective_unit", result.objective().unit());
            json.objects("design", result.design(), (j, c) -> j.field(
                            "place", c.variable().place())
                    .field("value", c.value())
                    .field("stated", c.stated())
                    .field("lower", c.variable().lower())
                    .field("upper", c.variable().upper())
                    .field("at_bound", c.atBound())
                    .field("listed", c.variable().listed())
                    .field("origin", c.variable().origin()));
            evaluation(json, "at", result.at());
            if (result.below() != null) {
                evaluation(json, "just_below", result.below());
            }
            Map<String, Double> slack = new TreeMap<>();
            result.slack().forEach(s -> slack.put(s.criterion(), s.margin()));
            slack.remove(result.governs().governing());
            json.field("slack", slack);
            json.objects("criteria", result.slack(), (j, s) -> j.field("criterion", s.criterion())
                    .field("margin", s.margin())
                    .field("where", s.where())
                    .field("phase", s.phase())
                    .field("scenario", s.scenario())
                    .field("price_per_margin", s.price()));
            json.field("full_check", result.confirmation());
            json.strings("conflicts", result.conflicts());
            json.objects("releases", result.releases(), (j, r) -> j.field("place", r.place())
                    .field("bound", r.bound())
                    .field("stated", r.stated())
                    .field("needed", r.needed())
                    .field("phase", r.phase())
                    .field("criterion", r.criterion()));
            PriceJson.write(json, result.price());
            StudyJson.redlines(json, result.redlines());
            StudyJson.interlocks(json, result.interlocks());
            StudyJson.wear(json, result.wear());
            json.strings("cautions", result.cautions());
        });
    }

    /** Of the criterion that governs; for the objective "purge flow" in kg/s per unit of margin, as the key has it. */
    private static double price(SizeResult result) {
        if (result.objective() != purgewright.hazard.sizing.Objective.GAS_FLOW) {
            return Double.NaN;
        }
        return result.slack().stream()
                .filter(s -> s.criterion().equals(result.governs().governing()))
                .mapToDouble(Slack::price)
                .findFirst()
                .orElse(Double.NaN);
    }

    /** The purge window: the survey grid first, rows following y, columns x; then the points along the boundaries. */
    public static String map(PurgeWindow map, String title, String hash, String version, String engine) {
        return JsonText.object(json -> {
            head(json, title, hash, version, engine);
            json.field("x", map.x()).field("y", map.y());
            json.field("operating_x", map.operatingX()).field("operating_y", map.operatingY());
            json.array("band_x", List.of(map.bandX().low(), map.bandX().high()));
            json.array("band_y", List.of(map.bandY().low(), map.bandY().high()));
            json.field("resolution", map.resolution()).field("complete", map.complete());
            json.strings("criteria", map.criteria());
            json.objects("points", map.samples(), (j, s) -> j.field("x", s.x())
                    .field("y", s.y())
                    .field("feasible", s.feasible())
                    .field("flow_kg_s", s.purge())
                    .field("governing", s.governing())
                    .field("margins", whole(map.criteria(), s.margins()))
                    .strings("unmet", s.unmet()));
            lines(json, "boundaries", map.boundaries());
            lines(json, "contours", map.contours());
        });
    }

    private static Map<String, Double> whole(List<String> keys, Map<String, Double> margins) {
        Map<String, Double> out = new TreeMap<>();
        keys.forEach(k -> out.put(k, margins.getOrDefault(k, Double.NaN)));
        return out;
    }

    private static void lines(JsonText json, String name, List<PurgeWindow.Line> lines) throws IOException {
        json.objects(name, lines, (j, line) -> {
            j.field("name", line.name()).field("level", line.level());
            j.objects("paths", line.paths(), (k, path) -> {
                List<Double> xs = new ArrayList<>();
                List<Double> ys = new ArrayList<>();
                for (double[] p : path) {
                    xs.add(p[0]);
                    ys.add(p[1]);
                }
                k.array("x", xs).array("y", ys);
            });
        });
    }

    private static void head(JsonText json, String title, String hash, String version, String engine)
            throws IOException {
        json.field("result", JsonText.LAYOUT);
        json.object("case", about -> about.field("title", title).field("hash", hash));
        json.field("version", version).field("engine", engine);
    }

    private static void evaluation(JsonText json, String name, Evaluation e) throws IOException {
        json.object(name, j -> j.field("feasible", e.feasible())
                .field("flow_kg_s", e.purge())
                .field("gas_per_run_kg", e.perRun())
                .field("set_pressure_Pa", e.setPressure())
                .field("governing", e.governing())
                .field("where", e.where())
                .field("phase", e.phase())
                .field("scenario", e.scenario())
                .field("what", e.words())
                .field("margins", e.margins()));
    }
}
