package purgewright.hazard.service;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import purgewright.fluids.Engines;
import purgewright.hazard.barrier.BarrierLayout;
import purgewright.hazard.barrier.StreamTable;
import purgewright.hazard.criteria.Criteria;
import purgewright.hazard.fault.Fault;
import purgewright.hazard.fault.Faults;
import purgewright.sealflow.model.Case;

/** Changes of cases for tests. */
final class Edit {
    private Edit() {}

    /** The case with all automatic faults excluded but those named. */
    static Case onlyFaults(Case c, List<String> names) {
        StreamTable streams = StreamTable.of(Engines.embedded().mixer(c.streams()));
        List<String> exclude = new ArrayList<>();
        for (Fault f : Faults.automatic(c, BarrierLayout.of(c, streams, Faults::kind), Criteria.DEFAULT)) {
            if (!names.contains(f.name())) {
                exclude.add(f.name());
            }
        }
        return withFaults(c, Map.of("exclude", exclude));
    }

    static Case withFaults(Case c, Map<String, Object> section) {
        Map<String, Object> extras = new LinkedHashMap<>(c.extras());
        extras.put("faults", section);
        return new Case(
                c.about(),
                c.surroundings(),
                c.rotor(),
                c.streams(),
                c.cavities(),
                c.passages(),
                c.duty(),
                c.criteria(),
                extras);
    }
}
