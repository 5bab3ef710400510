package purgewright.result;

import purgewright.hazard.service.FitResult;

/** {@code fit --json}: SI numbers; the unit of each parameter and reading beside it. */
public final class FitJson {
    private FitJson() {}

    /** The whole object. */
    public static String write(FitResult fit, String title, String hash, String version, String engine) {
        return JsonText.object(json -> {
            json.field("result", JsonText.LAYOUT);
            json.object("case", about -> about.field("title", title).field("hash", hash));
            json.field("version", version).field("engine", engine);
            json.field("complete", fit.complete()).field("network", fit.network());
            json.objects("parameters", fit.parameters(), (j, p) -> j.field("place", p.place())
                    .field("unit", p.unit())
                    .field("drawing", p.drawing())
                    .field("fitted", p.fitted())
                    .field("low", p.low())
                    .field("high", p.high())
                    .field("ratio", p.ratio())
                    .field("observable", p.observable())
                    .field("learnt", p.learnt()));
            json.field("chi_square", fit.chiSquare()).field("degrees", fit.degrees());
            json.objects("worn", fit.worn(), (j, s) -> j.field("passage", s.passage())
                    .field("ratio", s.ratio())
                    .field("chi_square", s.chiSquare())
                    .field("probability", s.probability()));
            json.object("before", j -> j.field("verdict", fit.before().word()).field("verdict_line", fit.beforeLine()));
            json.object("after", j -> j.field("verdict", fit.after().word()).field("verdict_line", fit.afterLine()));
            json.objects(
                    "edits", fit.edits(), (j, e) -> j.field("place", e.place()).field("text", e.text()));
            json.objects("points", fit.points(), (j, p) -> j.field("row", p.row())
                    .field("line", p.line())
                    .field("channel", p.channel())
                    .field("unit", p.unit())
                    .field("measured", p.measured())
                    .field("before", p.before())
                    .field("fitted", p.fitted())
                    .field("sigma", p.sigma())
                    .field("residual", p.residual())
                    .field("outlier", p.outlier()));
            json.strings("notes", fit.notes());
        });
    }
}
