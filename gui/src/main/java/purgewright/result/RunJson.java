package purgewright.result;

import java.io.IOException;
import java.util.Map;
import purgewright.fluids.unit.Dimension;
import purgewright.hazard.finding.Finding;
import purgewright.hazard.service.RunResult;
import purgewright.hazard.service.RunResult.Cause;
import purgewright.hazard.service.RunResult.Least;
import purgewright.sealflow.campaign.Channel;

/** {@code run --json}: SI numbers, times from the start of the first phase. */
public final class RunJson {
    private RunJson() {}

    /** The whole object. */
    public static String write(RunResult run, String title, String hash, String version, String engine) {
        return JsonText.object(json -> {
            json.field("result", JsonText.LAYOUT);
            json.object("case", about -> about.field("title", title).field("hash", hash));
            json.field("version", version).field("engine", engine);
            json.field(
                            "outcome",
                            run.outcome()
                                    .name()
                                    .toLowerCase(java.util.Locale.ROOT)
                                    .replace('_', ' '))
                    .field("note", run.note());
            json.field("verdict", run.verdict().word()).field("verdict_line", run.verdictLine());
            json.objects("phases", run.phases(), (j, p) -> j.field("name", p.name())
                    .field("start_s", p.start())
                    .field("end_s", p.end())
                    .field("gas_kg", p.gas())
                    .field("mean_flow_kg_s", p.meanFlow())
                    .field("peak_flow_kg_s", p.peakFlow())
                    .field("bottle_pressure_Pa", p.bottlePressure())
                    .field("verdict", p.verdict().word())
                    .field("least_margin", p.leastMargin())
                    .field("least_criterion", p.leastCriterion())
                    .field("least_place", p.leastPlace())
                    .field("least_time_s", p.leastTime()));
            json.objects("moments", run.moments(), (j, m) -> j.field("time_s", m.time())
                    .field(
                            "event",
                            m.event().name().toLowerCase(java.util.Locale.ROOT).replace('_', ' '))
                    .field("what", m.what())
                    .field("place", m.place()));
            least(json, run.least());
            json.object("gas", j -> j.field("stream", run.gas().stream())
                    .field("fluid", run.gas().fluid())
                    .field("at_start_kg", run.gas().atStart())
                    .field("used_kg", run.gas().used())
                    .field("at_end_kg", run.gas().atEnd())
                    .field("usable_at_end_kg", run.gas().usableAtEnd())
                    .field("least_inlet_Pa", run.gas().leastInlet())
                    .array("settled_Pa", run.gas().settled())
                    .object("not_from_supply_kg", k -> {
                        for (Map.Entry<String, Double> e : run.gas().elsewhere().entrySet()) {
                            k.field(e.getKey(), e.getValue());
                        }
                    }));
            json.object("closure", j -> j.field("network_mass", run.closure().networkMass())
                    .field("network_energy", run.closure().networkEnergy())
                    .field("bottle_mass", run.closure().bottleMass())
                    .field("bottle_energy", run.closure().bottleEnergy()));
            json.objects("findings", run.findings(), (j, t) -> finding(j.field("time_s", t.time()), t.finding()));
            json.objects("overlays", run.overlays(), (j, o) -> {
                channel(j, o.measured());
                j.field("computed", o.computed())
                        .field("mean_difference", o.mean())
                        .field("rms_difference", o.rms())
                        .field("greatest_difference", o.greatest())
                        .field("greatest_time_s", o.greatestTime());
            });
            json.objects("channels", run.channels(), RunJson::channel);
            json.strings("notes", run.notes());
        });
    }

    private static void least(JsonText json, Least least) throws IOException {
        if (least == null) {
            json.field("least", (String) null);
            return;
        }
        Cause cause = least.cause();
        json.object("least", j -> {
            j.field("time_s", least.time())
                    .field("phase", least.phase())
                    .field("criterion", least.criterion())
                    .field("place", least.place())
                    .field("margin", least.margin());
            if (cause != null) {
                j.object("cause", c -> c.field("place", cause.place())
                        .field("what", cause.what())
                        .field("from", cause.from())
                        .field("to", cause.to())
                        .field("unit", cause.unit())
                        .field("since_s", cause.since())
                        .field("greatest_margin", cause.greatest())
                        .field("margin_without", cause.without()));
            }
        });
    }

    private static void finding(JsonText json, Finding f) throws IOException {
        json.field("id", f.id())
                .field("verdict", f.verdict().word())
                .field("what", f.what())
                .field("where", f.where())
                .field("phase", f.phase())
                .field("scenario", f.scenario())
                .field("value", f.value())
                .field("limit", f.limit())
                .field("margin", f.margin())
                .field("unit", Dimension.si(f.unit()))
                .field("how", f.how())
                .field("source", f.source())
                .field("mend", f.mend())
                .field("caution", f.caution());
    }

    private static void channel(JsonText json, Channel c) throws IOException {
        java.util.List<Double> t = new java.util.ArrayList<>();
        java.util.List<Double> v = new java.util.ArrayList<>();
        for (int i = 0; i < c.size(); i++) {
            t.add(c.time(i));
            v.add(c.value(i));
        }
        json.field("name", c.name())
                .field(
                        "kind",
                        c.kind().name().toLowerCase(java.util.Locale.ROOT).replace('_', ' '))
                .field("place", c.place())
                .field("unit", c.unit())
                .array("time_s", t)
                .array("value", v);
    }
}
