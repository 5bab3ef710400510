package purgewright.gui.views;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import purgewright.fluids.validation.Check;

@DisplayName("The window counts a published check as met by the rule of the command")
class ValidationRowTest {
    private static Check check(double expected, boolean relative) {
        return new Check(
                "x",
                "rise",
                "none",
                Check.Label.DERIVED,
                expected,
                () -> 0,
                1e-6,
                relative,
                "K",
                Check.Kind.VERIFICATION);
    }

    @ParameterizedTest(name = "{0} against {1}, relative {2}")
    @CsvSource({
        "-3.77e-9, 0, true, true, -3.77e-9",
        "2e-6, 0, true, false, 2e-6",
        "99.99995, 100, true, true, -5e-7",
        "99.9995, 100, true, false, -5e-6",
        "-100.001, -100, true, false, -1e-5",
        "1e-7, 0, false, true, 1e-7",
        "NaN, 0, true, false, NaN"
    })
    void aShareOfNothingIsNone(double ours, double expected, boolean relative, boolean met, double deviation) {
        ValidationView.Row row = new ValidationView.Row("set", check(expected, relative), ours);
        assertThat(row.met()).isEqualTo(row.check().passes(ours)).isEqualTo(met);
        if (Double.isNaN(deviation)) {
            assertThat(row.deviation()).isNaN();
        } else {
            assertThat(row.deviation()).isCloseTo(deviation, within(1e-12));
        }
    }
}
