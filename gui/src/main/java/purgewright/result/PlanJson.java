package purgewright.result;

import java.io.IOException;
import java.util.LinkedHashMap;
import java.util.Map;
import purgewright.hazard.service.PlanResult;
import purgewright.hazard.service.PlanResult.Again;
import purgewright.hazard.service.PlanResult.Spread;

/** {@code plan --json}: SI numbers; money in the case's currency. */
public final class PlanJson {
    private PlanJson() {}

    /** The whole object. */
    public static String write(PlanResult plan, String title, String hash, String version, String engine) {
        return JsonText.object(json -> {
            json.field("result", JsonText.LAYOUT);
            json.object("case", about -> about.field("title", title).field("hash", hash));
            json.field("version", version).field("engine", engine);
            json.field("complete", plan.complete()).field("gas", plan.gas());
            json.object("use", j -> {
                j.object("by_phase_kg", k -> {
                    for (Map.Entry<String, Double> e : plan.use().byPhase().entrySet()) {
                        k.field(e.getKey(), e.getValue());
                    }
                });
                j.field("per_attempt_kg", plan.use().perAttempt())
                        .field("per_campaign_kg", plan.use().perCampaign())
                        .field("duration_s", plan.use().duration())
                        .field("peak_flow_kg_s", plan.use().peakFlow());
                j.object("not_from_supply_kg", k -> {
                    for (Map.Entry<String, Double> e : plan.use().elsewhere().entrySet()) {
                        k.field(e.getKey(), e.getValue());
                    }
                });
            });
            json.object("supply", j -> j.field("bottles", plan.supply().bottles())
                    .field("banks", plan.supply().banks())
                    .field("filling_kg", plan.supply().filling())
                    .field("usable_kg", plan.supply().usable())
                    .field("least_inlet_Pa", plan.supply().leastInlet())
                    .field("least_inlet_reason", plan.supply().leastInletReason())
                    .field("dropout_Pa", plan.supply().dropout())
                    .field("redline_Pa", plan.supply().redline())
                    .field("start_pressure_Pa", plan.supply().startPressure())
                    .field("attempts_per_bank", plan.supply().attemptsPerBank()));
            json.object("order", j -> j.field("bottles", plan.order().bottles())
                    .field("swaps", plan.order().swaps())
                    .field("gas_used_kg", plan.order().gasUsed())
                    .field("gas_bought_kg", plan.order().gasBought())
                    .field("gas_returned_kg", plan.order().gasReturned())
                    .field("currency", plan.order().currency())
                    .field("cost_gas", plan.order().costGas())
                    .field("cost_rental", plan.order().costRental())
                    .field("cost", plan.order().cost())
                    .field("days", plan.order().days())
                    .field("enough", plan.order().enough()));
            spread(json, plan.spread());
            again(json, plan.again());
            json.objects("alternatives", plan.alternatives(), (j, a) -> j.field("name", a.name())
                    .field("enough", a.enough())
                    .field(a.unit().equals("m3") ? "liquid_m3" : "gas_kg", a.quantity())
                    .field("what", a.what()));
            json.objects("events", plan.events(), (j, e) -> j.field("day", e.day())
                    .field("attempt", e.attempt())
                    .field("what", e.what())
                    .field("detail", e.detail())
                    .field("gas_kg", e.gas())
                    .array("settled_Pa", e.pressures())
                    .field("left_kg", e.left())
                    .field("bottles", e.bottles()));
            json.strings("not_established", plan.unestablished());
            json.strings("notes", plan.notes());
        });
    }

    private static void spread(JsonText json, Spread s) throws IOException {
        if (s == null) {
            json.field("spread", (String) null);
            return;
        }
        Map<String, Double> histogram = new LinkedHashMap<>();
        s.histogram().forEach((bottles, n) -> histogram.put(bottles.toString(), (double) n));
        json.object("spread", j -> j.field("samples", s.samples())
                .field("seed", (double) s.seed())
                .field("bottles_p50", s.p50())
                .field("bottles_p90", s.p90())
                .field("bottles_p95", s.p95())
                .field("bottles_mean", s.mean())
                .field("gas_p50_kg", s.gas50())
                .field("gas_p90_kg", s.gas90())
                .field("gas_p95_kg", s.gas95())
                .field("attempts_p95", s.attempts95())
                .field("ran_short", s.ranShort())
                .field("unfinished", s.unfinished())
                .field("histogram", histogram));
    }

    private static void again(JsonText json, Again a) throws IOException {
        if (a == null) {
            json.field("again", (String) null);
            return;
        }
        json.object("again", j -> j.field("answer", a.answer())
                .field("in_banks_kg", a.inBanks())
                .field("usable_kg", a.usable())
                .field("needed_kg", a.needed())
                .field("reserve_kg", a.reserve())
                .field("end_pressure_Pa", a.endPressure())
                .field("attempts", a.attempts())
                .field("what", a.what()));
    }
}
