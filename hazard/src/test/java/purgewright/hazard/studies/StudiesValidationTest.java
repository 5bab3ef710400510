package purgewright.hazard.studies;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import purgewright.fluids.validation.Check;

class StudiesValidationTest {
    static List<Check> checks() {
        return StudyChecks.all();
    }

    @ParameterizedTest
    @MethodSource("checks")
    void everyCheckPasses(Check check) {
        double ours = check.ours().getAsDouble();
        assertThat(check.passes(ours))
                .as("%s: %s against %s, tolerance %s", check.id(), ours, check.expected(), check.tolerance())
                .isTrue();
    }
}
