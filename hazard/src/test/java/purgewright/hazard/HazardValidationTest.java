package purgewright.hazard;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.stream.Stream;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.DynamicTest;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestFactory;

@DisplayName("Hazard rules against published and derived numbers")
class HazardValidationTest {
    @TestFactory
    Stream<DynamicTest> everyCheckPasses() {
        return HazardChecks.all().stream()
                .map(c -> DynamicTest.dynamicTest(
                        c.id() + ": " + c.source() + " [" + c.label().text() + "]", () -> {
                            double ours = c.ours().getAsDouble();
                            assertThat(c.passes(ours))
                                    .as("%s: expected %s %s, ours %s", c.id(), c.expected(), c.unit(), ours)
                                    .isTrue();
                        }));
    }

    @Test
    void idsAreUnique() {
        assertThat(HazardChecks.all().stream().map(c -> c.id()).distinct().count())
                .isEqualTo(HazardChecks.all().size());
    }
}
