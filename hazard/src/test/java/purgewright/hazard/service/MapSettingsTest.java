package purgewright.hazard.service;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import purgewright.hazard.MinimalCase;
import purgewright.sealflow.model.Case;

@DisplayName("The map that people ask for first")
class MapSettingsTest {
    @Test
    void isPurgePressureAgainstTheClearanceOfASealOfTheBarrier() {
        Case model = MinimalCase.model(3.5e6, 1.8e-3, 25e-6, 35e-6);
        MapSettings usual = MapSettings.usual(model);
        assertThat(usual.x()).isEqualTo("/cavities/bottle line/pressure");
        assertThat(usual.lowX()).isLessThan(3.5e6);
        assertThat(usual.highX()).isGreaterThan(3.5e6);
        assertThat(usual.y()).isEqualTo("/passages/ring A/clearance");
        assertThat(usual.lowY()).isEqualTo(5e-6);
        assertThat(usual.highY()).isEqualTo(100e-6);
    }

    @Test
    void aVentsPressureGoesUpFromWhatStandsThere() {
        Case model = MinimalCase.model(3.5e6, 1.8e-3, 25e-6, 35e-6);
        MapSettings.Range vent = MapSettings.usual(model, "/cavities/oxygen overboard/pressure");
        assertThat(vent.low()).isEqualTo(0.5 * 101325);
        assertThat(vent.high()).isEqualTo(6 * 101325);
    }
}
