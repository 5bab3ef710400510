package purgewright.sealflow.transients;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import purgewright.fluids.validation.Check;

@DisplayName("Closed forms and exact solutions: NET-03, NET-04, SUP-06, filling of a vessel")
class TransientValidationTest {
    static List<Check> checks() {
        return TransientChecks.all();
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
