package purgewright.sealflow.supply;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import purgewright.fluids.validation.Check;

@DisplayName("Bottles, line, regulator, metering: SUP-03 to SUP-05, SUP-08 to SUP-10, energy")
class SupplyValidationTest {
    static List<Check> checks() {
        return SupplyChecks.all();
    }

    @ParameterizedTest
    @MethodSource("checks")
    void ourNumberLiesWithinTheToleranceOfTheOutsideOne(Check check) {
        double ours = check.ours().getAsDouble();
        assertThat(check.passes(ours))
                .as("%s: ours %s, expected %s, deviation %s", check.id(), ours, check.expected(), check.deviation(ours))
                .isTrue();
    }
}
