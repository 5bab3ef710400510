package purgewright.result;

import java.io.IOException;
import purgewright.hazard.sizing.Evaluation;
import purgewright.hazard.sizing.PurgeWindow;
import purgewright.hazard.sizing.SizeResult;

/** {@code size --json} and {@code map --json}. Values of a parameter are SI; its place says of what. */
public final class SizeJson {
    private SizeJson() {}

    /** The least purge, redlines and wear limits. */
    public static String size(SizeResult result, String title, String hash, String version, String engine) {
        return JsonText.object(json -> {
            head(json, title, hash, version, engine);
            json.field("verdict", result.verdict().word()).field("verdict_line", result.line());
            json.field("parameter", result.parameter())
                    .field("feasible", result.least().feasible())
                    .field("value", result.least().value())
                    .field("stated", result.stated())
                    .field("stated_flow_kg_s", result.statedPurge())
                    .field("monotone", result.least().monotone())
                    .field("price_kg_s", result.least().price());
            evaluation(json, "at", result.least().at());
            if (result.least().below() != null) {
                evaluation(json, "just_below", result.least().below());
            }
            json.field("slack", result.least().slack());
            json.strings("conflicts", result.conflicts());
            json.objects("redlines", result.redlines(), (j, r) -> j.field("name", r.name())
                    .field("place", r.place())
                    .field("lowest", r.lowest())
                    .field("redline", r.redline())
                    .field("physical", r.physical())
                    .field("uncertainty", r.uncertainty())
                    .field("change", r.change())
                    .field("nominal", r.nominal())
                    .field("usable", r.usable())
                    .field("unit", r.unit())
                    .field("reason", r.reason()));
            json.objects("wear", result.wear(), (j, w) -> j.field("passage", w.passage())
                    .field("clearance_m", w.clearance())
                    .field("limit_m", w.limit())
                    .field("factor", w.factor())
                    .field("lost", w.lost())
                    .field("where", w.where())
                    .field("phase", w.phase()));
            json.strings("cautions", result.cautions());
        });
    }

    /** The purge window; rows of the grid follow y, columns x. */
    public static String map(PurgeWindow map, String title, String hash, String version, String engine) {
        return JsonText.object(json -> {
            head(json, title, hash, version, engine);
            json.field("x", map.x()).field("y", map.y());
            json.field("operating_x", map.operatingX()).field("operating_y", map.operatingY());
            json.strings("criteria", map.criteria());
            java.util.List<int[]> points = new java.util.ArrayList<>();
            for (int iy = 0; iy < map.ys().size(); iy++) {
                for (int ix = 0; ix < map.xs().size(); ix++) {
                    points.add(new int[] {ix, iy});
                }
            }
            json.objects("points", points, (j, at) -> j.field("x", map.xs().get(at[0]))
                    .field("y", map.ys().get(at[1]))
                    .field("feasible", map.feasible()[at[1]][at[0]])
                    .field("flow_kg_s", map.purge()[at[1]][at[0]])
                    .field("governing", map.governing()[at[1]][at[0]])
                    .object("margins", m -> {
                        for (int k = 0; k < map.criteria().size(); k++) {
                            m.field(map.criteria().get(k), map.margins().get(k)[at[1]][at[0]]);
                        }
                    }));
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
                .field("governing", e.governing())
                .field("where", e.where())
                .field("phase", e.phase())
                .field("scenario", e.scenario())
                .field("what", e.what())
                .field("margins", e.margins()));
    }
}
