package purgewright.hazard.service;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import purgewright.hazard.MinimalCase;
import purgewright.sealflow.model.Case;

@DisplayName("The map that people ask for first")
class MapSettingsTest {
    @Test
    void isPurgePressureAgainstTheBackPressureOfAVent() {
        Case model = MinimalCase.model(3.5e6, 1.8e-3, 25e-6, 35e-6);
        MapSettings usual = MapSettings.usual(model);
        assertThat(usual.x()).isEqualTo("/cavities/bottle line/pressure");
        assertThat(usual.lowX()).isLessThan(3.5e6);
        assertThat(usual.highX()).isGreaterThan(3.5e6);
        assertThat(usual.y()).isEqualTo("/cavities/oxygen overboard/pressure");
        assertThat(usual.lowY()).isEqualTo(0.5 * 101325);
        assertThat(usual.highY()).isEqualTo(6 * 101325);
    }

    @Test
    void aClearanceGoesFromAFifthToFourTimes() {
        Case model = MinimalCase.model(3.5e6, 1.8e-3, 25e-6, 35e-6);
        MapSettings.Range gap = MapSettings.usual(model, "/passages/ring A/clearance");
        assertThat(gap.low()).isEqualTo(5e-6);
        assertThat(gap.high()).isEqualTo(100e-6);
    }
}
