package purgewright.hazard.criteria;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.Map;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import purgewright.fluids.Phase;

@DisplayName("R. E. Burcham, NASA SP-8121 (1978), figs. 57-59, pp. 105-110")
class ContactTest {
    @Test
    void limitsOfFacesInContactAreThoseOfTheEnvelope() {
        // Three digits are printed by the conversion.
        assertThat(ClearanceRules.contactLimit(Map.of("oxygen", 1.0), Phase.LIQUID))
                .isCloseTo(52.5e6, within(0.05e6));
        assertThat(ClearanceRules.contactLimit(Map.of("hydrogen", 1.0), Phase.LIQUID))
                .isCloseTo(105e6, within(0.1e6));
        assertThat(ClearanceRules.contactLimit(Map.of("n-dodecane", 1.0), Phase.LIQUID))
                .isCloseTo(52.5e6, within(0.05e6));
        assertThat(ClearanceRules.contactLimit(Map.of("H2", 0.9, "H2O", 0.1), Phase.GAS))
                .isCloseTo(21.0e6, within(0.05e6));
        assertThat(ClearanceRules.contactLimit(Map.of("helium", 1.0), Phase.GAS))
                .isNaN();
    }
}
