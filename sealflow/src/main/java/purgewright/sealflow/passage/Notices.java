package purgewright.sealflow.passage;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import purgewright.fluids.FluidState;
import purgewright.sealflow.Notice;

/** Builds a passage's notices; the place is left empty. Allocates nothing until something is out of range. */
final class Notices {
    private List<Notice> list;

    /** Notes a quantity outside the range a model was published for. */
    Notices range(String model, String quantity, double value, double minimum, double maximum) {
        if (value < minimum || value > maximum) {
            Map<String, Object> values = new LinkedHashMap<>();
            values.put("model", model);
            values.put("quantity", quantity);
            values.put("value", value);
            values.put("minimum", minimum);
            values.put("maximum", maximum);
            add(new Notice(Notice.Key.OUT_OF_RANGE, "", values));
        }
        return this;
    }

    /** Notes a regime that the model does not cover. */
    Notices notEstablished(boolean so, String model, String reason) {
        if (so) {
            add(new Notice(Notice.Key.NOT_ESTABLISHED, "", Map.of("model", model, "reason", reason)));
        }
        return this;
    }

    /** Notes an invented or recalled constant. */
    Notices estimate(String model, String constant, double value) {
        add(new Notice(Notice.Key.ESTIMATE, "", Map.of("model", model, "constant", constant, "value", value)));
        return this;
    }

    /** Notes a state that the fluid's equations could not give within the passage. */
    Notices extrapolated(boolean so, FluidState near) {
        if (so) {
            add(new Notice(
                    Notice.Key.EXTRAPOLATED,
                    "",
                    Map.of(
                            "fluid", near.fluid().name(),
                            "temperature", near.temperature(),
                            "pressure", near.pressure())));
        }
        return this;
    }

    void add(Notice notice) {
        if (list == null) {
            list = new ArrayList<>(2);
        }
        list.add(notice);
    }

    List<Notice> list() {
        return list == null ? List.of() : List.copyOf(list);
    }
}
