package purgewright.result;

import java.io.IOException;
import java.util.Map;
import purgewright.hazard.fault.FaultResult;
import purgewright.hazard.fault.Loss;
import purgewright.hazard.finding.Verdict;

/** {@code fail --json}: the whole matrix, scenario by criterion. */
public final class FailJson {
    private FailJson() {}

    /**
     * @param title of the case
     * @param hash of the case
     * @param version of this program
     * @param engine property engine's name
     */
    public static String write(FaultResult result, String title, String hash, String version, String engine) {
        return JsonText.object(json -> {
            json.field("result", JsonText.LAYOUT);
            json.object("case", about -> about.field("title", title).field("hash", hash));
            json.field("version", version).field("engine", engine);
            json.field("verdict", result.verdict().word()).field("verdict_line", result.verdictLine());
            json.field("complete", result.incomplete().isEmpty())
                    .field("incomplete", result.incomplete())
                    .field("times", result.times());
            json.strings("not_examined", result.notExamined());
            json.strings("criteria", result.criteria());
            json.strings("ranking", result.ranking());
            json.objects("scenarios", result.rows(), FailJson::row);
            CheckJson.findings(json, "as_stated", result.asStated());
            json.strings("cautions", result.cautions());
        });
    }

    private static void row(JsonText json, FaultResult.Row row) throws IOException {
        json.field("scenario", row.scenario())
                .field("kinds", row.kinds())
                .field("single", row.single())
                .field("credible", row.credible())
                .field("verdict", row.verdict().word())
                .field("margins", row.margins());
        json.object("verdicts", verdicts -> {
            for (Map.Entry<String, Verdict> entry : row.verdicts().entrySet()) {
                verdicts.field(entry.getKey(), entry.getValue().word());
            }
        });
        json.strings("lost", row.lost());
        json.strings("pairs_lost", row.pairsLost());
        json.field("phase", row.phase())
                .field("time_to_loss_s", row.timeToLoss())
                .field("time_needed_s", row.timeNeeded());
        json.strings("seen_by", row.seenBy());
        json.field("hidden", row.hidden());
        json.objects("losses", row.losses(), FailJson::loss);
        json.strings("weakest_path", row.weakestPath());
        json.strings("notes", row.notes());
        CheckJson.findings(json, "findings", row.findings());
    }

    private static void loss(JsonText json, Loss loss) throws IOException {
        json.field("phase", loss.phase())
                .field("time_to_loss_s", loss.seconds())
                .field("time_to_mixing_s", loss.mixing())
                .field(
                        "fluids_mix",
                        Double.isInfinite(loss.mixing()) ? "no" : Double.isNaN(loss.mixing()) ? "not known" : "yes")
                .field("method", loss.method().text())
                .field("how", loss.how())
                .field("seen_after_s", loss.seenAfter())
                .field("seen_first", loss.seenFirst())
                .field("time_needed_s", loss.needed())
                .field("in_time", loss.inTime());
    }
}
