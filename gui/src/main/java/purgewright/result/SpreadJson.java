package purgewright.result;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.HexFormat;
import java.util.Locale;
import java.util.Map;
import java.util.TreeMap;
import purgewright.fluids.unit.Dimension;
import purgewright.hazard.finding.Verdict;
import purgewright.hazard.service.SpreadPart;
import purgewright.hazard.studies.QuantileSketch;
import purgewright.hazard.studies.SpreadResult;
import purgewright.hazard.studies.SpreadResult.Identity;
import purgewright.hazard.studies.SpreadResult.OutputSpread;
import purgewright.hazard.studies.SpreadResult.Probability;
import purgewright.hazard.studies.SpreadResult.RareFailure;
import purgewright.hazard.studies.SpreadResult.RedlineTrade;
import purgewright.hazard.studies.SpreadResult.TradePoint;
import purgewright.hazard.studies.SpreadSettings;
import purgewright.hazard.studies.SweepResult;
import purgewright.hazard.studies.Tally;

/**
 * {@code spread --json}: a result, which holds all that it takes to run it again; a part of a plan; a sweep. Values are SI; each stands
 * beside its unit.
 */
public final class SpreadJson {
    private static final String DIGEST = ",\n  \"digest\" : \"";

    /** Kind of a whole result. */
    static final String SPREAD = "spread";
    /** Kind of a part. */
    static final String PART = "spread part";

    private SpreadJson() {}

    /**
     * A whole result.
     *
     * @param caseText the case as JSON text, to run it again
     */
    public static String result(SpreadResult r, String caseText, String version) {
        return JsonText.object(json -> {
            head(json, SPREAD, r.identity(), caseText, version);
            settings(json, r.settings());
            json.field("verdict", r.verdict() == null ? null : r.verdict().word())
                    .field("verdict_line", r.verdictLine());
            json.field("complete", r.complete()).field("stopped", r.stopped());
            json.object("counts", j -> j.field("planned", r.counts().planned())
                    .field("done", r.counts().done())
                    .field("holds", r.counts().holds())
                    .field("thin", r.counts().thin())
                    .field("falls_short", r.counts().fallsShort())
                    .field("not_converged", r.counts().notConverged())
                    .field("not_established", r.counts().notEstablished()));
            json.object("probability_holds", j -> probability(j, r.holds()));
            json.objects("inputs", r.inputs(), (j, i) -> j.field("place", i.place())
                    .field("unit", Dimension.si(i.unit()))
                    .field("nominal", i.nominal())
                    .field("distribution", i.words())
                    .field("mean", i.mean())
                    .field("deviation", i.deviation())
                    .field("low_5", i.low())
                    .field("high_95", i.high())
                    .field("cut", i.cut())
                    .field("cut_words", i.cutWords()));
            json.objects("criteria", r.criteria(), (j, c) -> j.field("key", c.key())
                    .field("met", c.met())
                    .field("missed", c.missed())
                    .field("unknown", c.unknown())
                    .object("probability", p -> probability(p, c.probability())));
            json.objects("outputs", r.outputs(), SpreadJson::output);
            json.objects("rank_correlations", r.ranks(), (j, c) -> j.field("output", c.output())
                    .field("input", c.input())
                    .field("coefficient", c.coefficient())
                    .field("low", c.low())
                    .field("high", c.high())
                    .field("count", c.count()));
            json.objects("tornado", r.tornado(), (j, t) -> j.field("output", t.output())
                    .field("input", t.input())
                    .field("low_input", t.lowInput())
                    .field("high_input", t.highInput())
                    .field("at_low", t.atLow())
                    .field("nominal", t.nominal())
                    .field("at_high", t.atHigh()));
            json.objects("linear", r.linear(), (j, l) -> j.field("output", l.output())
                    .field("input", l.input())
                    .field("derivative", l.derivative())
                    .field("deviation", l.deviation())
                    .field("share", l.share())
                    .field("method", l.method()));
            json.objects("sobol", r.sobol(), (j, s) -> j.field("output", s.output())
                    .field("input", s.input())
                    .field("first", s.first())
                    .field("first_error", s.firstError())
                    .field("total", s.total())
                    .field("total_error", s.totalError())
                    .field("solves", s.solves()));
            if (r.rare() != null) {
                json.object("rare", j -> rare(j, r.rare()));
            }
            json.objects("redlines", r.redlines(), SpreadJson::redline);
            json.objects("corners", r.corners(), (j, c) -> j.field("name", c.name())
                    .field("what", c.what())
                    .field("verdict", c.verdict().word())
                    .field("governing", c.governing())
                    .field("margin", c.margin())
                    .array("outputs", c.outputs()));
            json.strings("remarks", r.remarks());
            json.strings("cautions", r.cautions());
        });
    }

    /**
     * One part of a plan, to be put together with the others. It ends with a digest of itself: one digit changed on the way from another
     * machine would else go into the sum unseen.
     */
    public static String part(SpreadPart part, String version) {
        return sealed(JsonText.object(json -> {
            head(json, PART, part.identity(), part.caseText(), version);
            settings(json, part.settings());
            json.field("complete", part.complete());
            json.strings("outputs", part.outputs());
            Tally.State t = part.tally();
            json.object("verdicts", j -> {
                for (Map.Entry<Verdict, Long> e : t.verdicts().entrySet()) {
                    j.field(e.getKey().name(), e.getValue().longValue());
                }
            });
            counts(json, "missed", t.missed());
            counts(json, "unknown", t.unknown());
            json.field("unjudged", t.unjudged());
            json.objects("sketches", t.outputs(), SpreadJson::sketch);
            json.longs("kept_index", t.kept().index());
            json.strings(
                    "kept_verdicts",
                    t.kept().verdicts().stream().map(Verdict::name).toList());
            json.rows("kept_inputs", t.kept().inputs());
            json.rows("kept_outputs", t.kept().outputs());
        }));
    }

    /** The object with a digest of it as its last member. */
    static String sealed(String object) {
        return object.substring(0, object.lastIndexOf('}')).stripTrailing() + DIGEST + digest(object) + "\"\n}";
    }

    /** The object as it was before it was sealed; null when it is not what was sealed. */
    static String unsealed(String text) {
        int at = text.lastIndexOf(DIGEST);
        String object = at < 0 ? "" : text.substring(0, at) + "\n}";
        return at >= 0 && text.strip().equals(sealed(object)) ? object : null;
    }

    private static String digest(String text) {
        try {
            byte[] sum = MessageDigest.getInstance("SHA-256").digest(text.getBytes(StandardCharsets.UTF_8));
            return HexFormat.of().formatHex(sum);
        } catch (NoSuchAlgorithmException e) {
            throw new IllegalStateException("every Java has SHA-256", e);
        }
    }

    /** A sweep; the first axis moves fastest. */
    public static String sweep(SweepResult r, String version) {
        return JsonText.object(json -> {
            head(json, "sweep", r.identity(), null, version);
            json.objects("axes", r.axes(), (j, a) -> j.field("place", a.place())
                    .field("unit", Dimension.si(a.unit()))
                    .field("nominal", a.nominal())
                    .array("values", a.values()));
            json.strings("outputs", r.outputs());
            json.strings("units", r.units());
            json.objects("points", r.points(), (j, p) -> j.array("at", p.at())
                    .field("verdict", p.verdict().word())
                    .field("governing", p.governing())
                    .field("margin", p.margin())
                    .array("outputs", p.outputs()));
            json.strings("cautions", r.cautions());
        });
    }

    private static void head(JsonText json, String kind, Identity identity, String caseText, String version)
            throws IOException {
        json.field("result", JsonText.LAYOUT).field("kind", kind);
        json.object("case", c -> {
            c.field("title", identity.title()).field("hash", identity.hash());
            if (caseText != null) {
                c.field("text", caseText);
            }
        });
        json.field("version", version).field("engine", identity.engine());
    }

    private static void settings(JsonText json, SpreadSettings s) throws IOException {
        json.object("settings", j -> j.field("samples", s.samples())
                .field("sampling", s.sampling().word())
                .field("seed", s.seed())
                .field("confidence", s.confidence())
                .field("interval", s.interval().word())
                .field("width", s.width())
                .field("part", s.part().number())
                .field("parts", s.part().of())
                .strings("phases", s.phases())
                .strings("follow", s.outputs())
                .field("tornado", s.studies().tornado())
                .field("linear", s.studies().linear())
                .field("sobol", s.studies().sobol())
                .field("rare", s.studies().rare())
                .field("redlines", s.studies().redlines())
                .field("corners", s.studies().corners())
                .field("target", s.target())
                .field("false_trips", s.falseTrips()));
    }

    private static void probability(JsonText json, Probability p) throws IOException {
        json.field("estimate", p.estimate())
                .field("low", p.low())
                .field("high", p.high())
                .field("high_if_unknown_held", p.highIfUnknownHeld());
    }

    private static void output(JsonText json, OutputSpread o) throws IOException {
        json.field("place", o.place())
                .field("name", o.name())
                .field("unit", Dimension.si(o.unit()))
                .field("nominal", o.nominal())
                .field("count", o.count())
                .field("missing", o.missing())
                .field("mean", o.mean())
                .field("deviation", o.deviation())
                .field("least", o.least())
                .field("greatest", o.greatest());
        json.object("quantiles", q -> {
            for (int i = 0; i < o.shares().size(); i++) {
                q.field(
                        String.format(Locale.ROOT, "%s", o.shares().get(i)),
                        o.quantiles().get(i));
            }
        });
        json.object("histogram", h -> h.array("edges", o.edges()).longs("samples", o.bars()));
    }

    private static void rare(JsonText json, RareFailure r) throws IOException {
        json.field("probability", r.probability())
                .field("low", r.low())
                .field("high", r.high())
                .field("variation", r.variation())
                .array("thresholds", r.thresholds())
                .field("solves", r.solves())
                .field("unknown", r.unknown())
                .field("reached", r.reached())
                .field("words", r.words());
    }

    private static void redline(JsonText json, RedlineTrade r) throws IOException {
        json.field("name", r.name())
                .field("place", r.place())
                .field("phase", r.phase())
                .field("unit", Dimension.si(r.unit()))
                .field("lowest", r.lowest())
                .field("physical", r.physical())
                .field("normal", r.normal())
                .field("spread", r.spread())
                .field("noise", r.noise())
                .field("bias", r.bias())
                .field("rate_Hz", r.rate())
                .field("persistence", r.persistence())
                .field("duration_s", r.duration())
                .field("stated", r.stated())
                .field("proposed", r.proposed());
        json.objects("points", r.points(), SpreadJson::trade);
        if (r.atProposed() != null) {
            json.object("at_proposed", j -> trade(j, r.atProposed()));
        }
        if (r.atStated() != null) {
            json.object("at_stated", j -> trade(j, r.atStated()));
        }
        json.objects("others", r.others(), (j, o) -> j.field("persistence", o.persistence())
                .field("rate_Hz", o.rate())
                .field("noise", o.noise())
                .field("set_point", o.setPoint())
                .field("missed_loss", o.missedLoss()));
        json.field("words", r.words());
    }

    private static void trade(JsonText json, TradePoint p) throws IOException {
        json.field("set_point", p.setPoint()).field("false_trip", p.falseTrip()).field("missed_loss", p.missedLoss());
    }

    private static void counts(JsonText json, String name, Map<String, Long> counts) throws IOException {
        json.object(name, j -> {
            for (Map.Entry<String, Long> e : counts.entrySet()) {
                j.field(e.getKey(), e.getValue().longValue());
            }
        });
    }

    /** Ends as text: a plan's least value may be infinite, and JSON has no word for that. */
    private static void sketch(JsonText json, QuantileSketch.State s) throws IOException {
        json.field("bits", s.bits())
                .field("finite", s.finite())
                .field("sum", s.sum())
                .field("squares", s.squares())
                .field("least", Double.toString(s.least()))
                .field("greatest", Double.toString(s.greatest()));
        Map<Long, Long> bins = new TreeMap<>(s.bins());
        json.longs("bins", bins.keySet());
        json.longs("counts", bins.values());
    }
}
