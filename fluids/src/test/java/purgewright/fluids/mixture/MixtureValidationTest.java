package purgewright.fluids.mixture;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.stream.Stream;
import org.junit.jupiter.api.DynamicTest;
import org.junit.jupiter.api.TestFactory;

/** Every outside number for gas mixtures, with its citation. */
class MixtureValidationTest {
    @TestFactory
    Stream<DynamicTest> everyCheckHolds() {
        return MixtureChecks.all().stream()
                .map(check -> DynamicTest.dynamicTest(check.id() + " (" + check.source() + ")", () -> {
                    double ours = check.ours().getAsDouble();
                    assertThat(check.passes(ours))
                            .as(
                                    "%s: ours %s, expected %s, off by %s, allowed %s",
                                    check.id(), ours, check.expected(), check.deviation(ours), check.tolerance())
                            .isTrue();
                }));
    }
}
