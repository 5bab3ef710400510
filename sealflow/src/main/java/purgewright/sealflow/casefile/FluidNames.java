package purgewright.sealflow.casefile;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import purgewright.fluids.PropertyEngine;
import purgewright.fluids.PropertyException;
import purgewright.sealflow.model.Case;

/** Which names of fluids an engine takes: its own, their aliases, and air. */
final class FluidNames {
    private final PropertyEngine engine;
    private final List<String> all;
    private final Map<String, Boolean> asked = new LinkedHashMap<>();

    FluidNames(PropertyEngine engine) {
        this.engine = engine;
        this.all = new ArrayList<>(engine.fluidNames());
        all.add(Case.AIR);
    }

    PropertyEngine engine() {
        return engine;
    }

    List<String> all() {
        return all;
    }

    boolean knows(String name) {
        return all.contains(name) || (name.length() <= 60 && asked.computeIfAbsent(name, this::alias));
    }

    private boolean alias(String name) {
        try {
            return engine.pure(name) != null;
        } catch (PropertyException unknown) {
            return false;
        }
    }
}
