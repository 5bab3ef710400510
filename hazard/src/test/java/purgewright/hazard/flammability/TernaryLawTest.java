package purgewright.hazard.flammability;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.Map;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.DoubleRange;
import org.junit.jupiter.api.Test;

class TernaryLawTest {
    /** Below the nose no mixture is in the region, and dilution only leads further down. */
    @Property(tries = 300, seed = "20261126")
    void belowTheLimitingOxygenNothingIsInTheRegionAndTheSignSaysSo(
            @ForAll @DoubleRange(min = 0.01, max = 0.9) double fuel,
            @ForAll @DoubleRange(min = 0.01, max = 0.9) double oxygen,
            @ForAll @DoubleRange(min = 0.05, max = 1) double keep) {
        if (fuel + oxygen > 1) {
            return;
        }
        for (String name : new String[] {"methane", "hydrogen", "propane"}) {
            Ternary t = at(name, fuel * keep, oxygen * keep);
            assertThat(t.inside()).isEqualTo(t.distance() < 0);
            if (oxygen * keep < LimitTable.limitingOxygen(name).si()) {
                assertThat(t.inside()).isFalse();
            }
        }
    }

    private static Ternary at(String fuel, double share, double oxygen) {
        return Ternary.of(Map.of(fuel, share, "oxygen", oxygen, "nitrogen", Math.max(0, 1 - share - oxygen)));
    }

    @Test
    void theLimitsThemselvesLieOnTheEdge() {
        assertThat(at("methane", 0.044, 0.2095 * (1 - 0.044)).distance()).isCloseTo(0, within(1e-9));
        assertThat(at("hydrogen", 0.046 / 0.5, 0.046).distance()).isCloseTo(0, within(1e-9));
        assertThat(at("methane", 0.095, 0.19).inside()).isTrue();
        assertThat(at("methane", 0.30, 0.14).inside()).isFalse();
        assertThat(Ternary.of(Map.of("helium", 1.0)).distance()).isInfinite();
        assertThat(Ternary.of(Map.of("HCN", 0.2, "oxygen", 0.2, "nitrogen", 0.6))
                        .distance())
                .isNaN();
    }

    @Test
    void theWayFromFuelToAirLeadsThroughTheRegion() {
        assertThat(Ternary.way(Map.of("methane", 1.0), Map.of("oxygen", 0.21, "nitrogen", 0.79), 50))
                .anyMatch(Ternary::inside);
        assertThat(Ternary.way(Map.of("methane", 1.0), Map.of("helium", 1.0), 50))
                .noneMatch(Ternary::inside);
    }
}
