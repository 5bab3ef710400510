package purgewright.sealflow.network;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import purgewright.fluids.PropertyEngine;
import purgewright.fluids.mixture.StreamDefinition;
import purgewright.fluids.mixture.StreamMixer;

/**
 * The mixers of the last few lists of streams. A mixer burns its burnt streams when it is made, which costs as much as half a network
 * solve, and thousands of cases that differ in a clearance share one. Threads may share it.
 */
final class Mixers {
    private static final int KEPT = 32;

    private final PropertyEngine engine;
    private final Map<List<StreamDefinition>, StreamMixer> known = new LinkedHashMap<>(16, 0.75f, true) {
        private static final long serialVersionUID = 1L;

        @Override
        protected boolean removeEldestEntry(Map.Entry<List<StreamDefinition>, StreamMixer> eldest) {
            return size() > KEPT;
        }
    };

    Mixers(PropertyEngine engine) {
        this.engine = engine;
    }

    StreamMixer of(List<StreamDefinition> definitions) {
        synchronized (known) {
            StreamMixer mixer = known.get(definitions);
            if (mixer != null) {
                return mixer;
            }
        }
        StreamMixer made = engine.mixer(definitions);
        synchronized (known) {
            StreamMixer other = known.putIfAbsent(definitions, made);
            return other == null ? made : other;
        }
    }
}
