package purgewright.sealflow.passage;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.HashSet;
import java.util.Set;
import java.util.stream.Stream;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import purgewright.fluids.validation.Check;

@DisplayName("Outside numbers for passages and running clearances")
class PassageChecksValidationTest {
    static Stream<Check> checks() {
        return PassageChecks.all().stream();
    }

    @ParameterizedTest(name = "{0}")
    @MethodSource("checks")
    void oursLiesWithinTheTolerance(Check check) {
        double ours = check.ours().getAsDouble();
        assertThat(check.passes(ours))
                .as("%s: expected %s, ours %s, deviation %s", check.id(), check.expected(), ours, check.deviation(ours))
                .isTrue();
    }

    @Test
    void everyCheckHasItsOwnId() {
        Set<String> ids = new HashSet<>();
        PassageChecks.all()
                .forEach(check -> assertThat(ids.add(check.id())).as(check.id()).isTrue());
        assertThat(ids).hasSizeGreaterThan(80);
    }
}
