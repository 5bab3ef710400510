package purgewright.hazard.sizing;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.stream.Stream;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.DynamicTest;
import org.junit.jupiter.api.TestFactory;

@DisplayName("Purge practice against published numbers")
class SizingValidationTest {
    @TestFactory
    Stream<DynamicTest> eachNumberIsTheSources() {
        return SizingChecks.all().stream()
                .map(c -> DynamicTest.dynamicTest(
                        c.id() + ": " + c.source() + " [" + c.label().text() + "]", () -> {
                            double ours = c.ours().getAsDouble();
                            assertThat(c.passes(ours))
                                    .as("%s: expected %s %s, ours %s", c.id(), c.expected(), c.unit(), ours)
                                    .isTrue();
                        }));
    }
}
