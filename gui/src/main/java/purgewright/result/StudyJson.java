package purgewright.result;

import java.io.IOException;
import java.util.List;
import purgewright.hazard.sizing.Interlocks;
import purgewright.hazard.sizing.Redline;
import purgewright.hazard.sizing.WearLimit;

/** The keys {@code redlines}, {@code interlocks} and {@code wear} of {@code check --json} and {@code size --json}; SI. */
final class StudyJson {
    private StudyJson() {}

    static void redlines(JsonText json, List<Redline> redlines) throws IOException {
        json.objects("redlines", redlines, (j, r) -> j.field("name", r.name())
                .field("place", r.place())
                .field("lowest", r.lowest())
                .field("redline", r.redline())
                .field("physical", r.physical())
                .field("uncertainty", r.uncertainty())
                .field("change", r.change())
                .field("nominal", r.nominal())
                .field("usable", r.usable())
                .field("unit", r.unit())
                .field("slow_redline", r.slowSetting())
                .field("slow_rate_per_s", r.slowRate())
                .field("time_s", r.time())
                .field("phase", r.phase())
                .strings("phases", r.phases())
                .field("reason", r.reason()));
    }

    static void interlocks(JsonText json, Interlocks interlocks) throws IOException {
        json.object("interlocks", i -> {
            i.objects("rows", interlocks.rows(), (j, r) -> j.field("reading", r.reading())
                    .field("place", r.place())
                    .field("lowest", r.lowest())
                    .field("permit", r.permit())
                    .field("redline", r.redline())
                    .field("slow", r.slow())
                    .field("unit", r.unit())
                    .field("blank_out_s", r.blankOut())
                    .field("persistence_s", r.persistence())
                    .field("sensors", r.sensors())
                    .field("votes", r.votes())
                    .strings("phases", r.phases())
                    .field("reason", r.reason()));
            i.strings("start", interlocks.start());
            i.strings("stop", interlocks.stop());
            i.strings("notes", interlocks.notes());
        });
    }

    static void wear(JsonText json, List<WearLimit> wear) throws IOException {
        json.objects("wear", wear, (j, w) -> j.field("passage", w.passage())
                .field("clearance_m", w.clearance())
                .field("limit_m", w.limit())
                .field("factor", w.factor())
                .field("lost", w.lost())
                .field("where", w.where())
                .field("phase", w.phase())
                .field("rate_m_s", w.rate())
                .field("life_s", w.life()));
    }
}
