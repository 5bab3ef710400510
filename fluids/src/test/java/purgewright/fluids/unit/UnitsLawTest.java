package purgewright.fluids.unit;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.CharRange;
import net.jqwik.api.constraints.DoubleRange;
import net.jqwik.api.constraints.StringLength;

class UnitsLawTest {
    @Property(tries = 2000, seed = "20261126")
    void whatIsWrittenParsesBack(
            @ForAll Dimension dimension,
            @ForAll UnitSystem system,
            @ForAll @DoubleRange(min = -9, max = 9) double exponent) {
        double si = Math.pow(10, exponent);
        String text = Units.format(si, dimension, system, 17);
        // Temperatures in degF lose what 459.67 swallows.
        double lost = dimension == Dimension.TEMPERATURE ? 1e-12 : 0;
        assertThat(Units.parse(text, dimension)).as(text).isCloseTo(si, within(4e-15 * si + lost));
    }

    @Property(tries = 2000, seed = "20261126")
    void whatIsWrittenWithFewDigitsIsRounded(
            @ForAll Dimension dimension,
            @ForAll UnitSystem system,
            @ForAll @DoubleRange(min = -9, max = 9) double exponent) {
        double si = Math.pow(10, exponent);
        if (dimension == Dimension.TEMPERATURE) {
            return;
        }
        String text = Units.format(si, dimension, system, 4);
        assertThat(Units.parse(text, dimension)).as(text).isCloseTo(si, within(5.001e-4 * si));
    }

    @Property(tries = 5000, seed = "20261126")
    void noTextMakesAnythingButAValueOrATypedError(
            @ForAll @CharRange(from = ' ', to = '~') @StringLength(max = 24) String tail, @ForAll Dimension dimension) {
        for (String text : new String[] {tail, "3 " + tail, "3." + tail, "4 m" + tail, "4 Pa at " + tail}) {
            try {
                assertThat(Units.parse(text, dimension, 101325, (p, t) -> 1)).isFinite();
            } catch (UnitException wrong) {
                assertThat(wrong.getMessage()).isNotBlank();
            }
        }
    }
}
