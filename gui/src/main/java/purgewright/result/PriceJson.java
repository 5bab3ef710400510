package purgewright.result;

import java.io.IOException;
import java.util.List;
import purgewright.hazard.sizing.BarrierPrice;
import purgewright.hazard.sizing.BarrierPrice.Loss;

/** The key {@code price} of {@code check --json} and {@code size --json}: one object a phase, SI; what is not known is null. */
final class PriceJson {
    private PriceJson() {}

    static void write(JsonText json, List<BarrierPrice> prices) throws IOException {
        json.objects("price", prices, (j, p) -> {
            j.field("phase", p.phase()).field("purge_kg_s", p.purgeFlow());
            losses(j, "pumped", p.pumped());
            losses(j, "drive", p.drive());
            j.field("windage_W", p.windage()).field("friction_W", p.friction()).field("shaft_power_W", p.shaftPower());
            j.objects("carried", p.carried(), (k, c) -> k.field("passage", c.passage())
                    .field("into", c.into())
                    .field("stream", c.stream())
                    .field("liquid", c.liquid())
                    .field("flow_kg_s", c.flow())
                    .field("share", c.share())
                    .field("entry_share", c.entryShare()));
        });
    }

    private static void losses(JsonText json, String name, List<Loss> losses) throws IOException {
        json.objects(name, losses, (j, l) -> j.field("stream", l.stream())
                .field("given_kg_s", l.given())
                .field("returned_kg_s", l.returned())
                .field("lost_kg_s", l.lost())
                .field("main_flow_kg_s", l.mainFlow())
                .field("lost_share", l.lostShare())
                .field("returned_share", l.returnedShare()));
    }
}
