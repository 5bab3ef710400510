package purgewright.sealflow.network;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import purgewright.fluids.validation.Check;

@DisplayName(
        "Closed forms and exact solutions: NET-01, 02, 05, DIF-11..13, ROT-07..09, and closed forms of columns, nozzles and windage")
class NetworkValidationTest {
    static List<Check> checks() {
        return NetworkChecks.all();
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
