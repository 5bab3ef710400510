package purgewright.hazard.criteria;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.Map;
import org.junit.jupiter.api.Test;

class PresetTest {
    @Test
    void aPresetStandsBetweenTheDefaultsAndTheCasesOwnValues() {
        Criteria c = Criteria.of(Map.of("preset", "oxygen machine", "contact limit", 20e-6));
        assertThat(c.get(Limit.BARRIERS_REACTIVE)).isEqualTo(2);
        assertThat(c.origin(Limit.BARRIERS_REACTIVE))
                .startsWith("preset \"oxygen machine\"")
                .contains("[common practice]");
        assertThat(c.get(Limit.CONTACT_LIMIT)).isEqualTo(20e-6);
        assertThat(c.origin(Limit.CONTACT_LIMIT)).startsWith("stated in the case");
        assertThat(c.get(Limit.GAP_VELOCITY)).isEqualTo(Limit.GAP_VELOCITY.fallback());
    }

    @Test
    void everyPresetsLimitsCarryALabelledOrigin() {
        assertThat(Preset.names()).contains("turbopump", "oxygen machine", "process compressor");
        for (String name : Preset.names()) {
            Preset p = Preset.find(name);
            assertThat(p.origins().keySet()).isEqualTo(p.values().keySet());
            assertThat(p.origins().values()).allMatch(o -> o.matches(".*\\[[a-z].*\\].*"));
        }
    }

    @Test
    void anOriginOfTheCasesOwnIsShownAndAnUnknownPresetIsNotSwallowed() {
        Criteria c = Criteria.of(
                Map.of("barrier excess", Map.of("value", 0.2e6, "origin", "works standard 14"), "preset", "no such"));
        assertThat(c.get(Limit.BARRIER_EXCESS)).isEqualTo(0.2e6);
        assertThat(c.origin(Limit.BARRIER_EXCESS)).contains("works standard 14");
        assertThat(c.unknown()).containsExactly("preset");
    }
}
