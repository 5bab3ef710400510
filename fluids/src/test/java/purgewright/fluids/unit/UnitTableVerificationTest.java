package purgewright.fluids.unit;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.LinkedHashMap;
import java.util.Map;
import javax.measure.Unit;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import systems.uom.common.USCustomary;
import tech.units.indriya.AbstractUnit;
import tech.units.indriya.unit.Units;

/**
 * The factors of our table against indriya and systems-common, which are too slow to start to be used at run time (see
 * docs/decisions). Verification, not validation: both take their factors from the same definitions.
 */
@DisplayName("Unit factors against indriya and systems-common")
class UnitTableVerificationTest {
    @Test
    void everyUnitBothKnowHasTheSameFactor() {
        Unit<?> lb = USCustomary.POUND;
        Unit<?> ft = USCustomary.FOOT;
        Unit<?> in = USCustomary.INCH;
        Unit<?> lbf = lb.multiply(Units.METRE_PER_SQUARE_SECOND).multiply(9.80665);
        Map<String, Unit<?>> theirs = new LinkedHashMap<>();
        theirs.put("m", Units.METRE);
        theirs.put("in", in);
        theirs.put("ft", ft);
        theirs.put("yd", USCustomary.YARD);
        theirs.put("mil", in.divide(1000));
        theirs.put("gal", USCustomary.GALLON_LIQUID);
        theirs.put("L", USCustomary.LITER);
        theirs.put("in3", USCustomary.CUBIC_INCH);
        theirs.put("ft3", USCustomary.CUBIC_FOOT);
        theirs.put("lb", lb);
        theirs.put("oz", USCustomary.OUNCE);
        theirs.put("t", Units.KILOGRAM.multiply(1000));
        theirs.put("h", Units.HOUR);
        theirs.put("min", Units.MINUTE);
        theirs.put("d", Units.DAY);
        theirs.put("week", Units.WEEK);
        theirs.put("R", USCustomary.RANKINE);
        theirs.put("N", Units.NEWTON);
        theirs.put("lbf", lbf);
        theirs.put("psi", lbf.divide(in.pow(2)));
        theirs.put("psf", lbf.divide(ft.pow(2)));
        theirs.put("ksi", lbf.divide(in.pow(2)).multiply(1000));
        theirs.put("Pa", Units.PASCAL);
        theirs.put("J", Units.JOULE);
        theirs.put("W", Units.WATT);
        theirs.put("hp", ft.multiply(lbf).multiply(550).divide(Units.SECOND));
        theirs.put("deg", USCustomary.DEGREE_ANGLE);
        theirs.put("km/h", Units.KILOMETRE_PER_HOUR);
        theirs.put("%", Units.PERCENT);
        theirs.forEach((symbol, unit) -> {
            double expected = ((AbstractUnit<?>) unit).getSystemConverter().convert(1.0);
            UnitTable.Entry ours = UnitTable.find(symbol);
            double factor = ours == null
                    ? purgewright.fluids.unit.Units.parse("1 " + symbol, dimension(symbol))
                    : ours.numerator() / ours.denominator();
            assertThat(factor).as(symbol).isCloseTo(expected, within(1e-14 * expected));
        });
    }

    @Test
    void degreesHaveTheSameZero() {
        double celsius = purgewright.fluids.unit.Units.parse("-183 degC", Dimension.TEMPERATURE);
        assertThat(celsius).isCloseTo(Units.CELSIUS.getConverterTo(Units.KELVIN).convert(-183.0), within(1e-12));
        double fahrenheit = purgewright.fluids.unit.Units.parse("59 degF", Dimension.TEMPERATURE);
        assertThat(fahrenheit)
                .isCloseTo(USCustomary.FAHRENHEIT.getConverterTo(Units.KELVIN).convert(59.0), within(1e-12));
    }

    private static Dimension dimension(String symbol) {
        return switch (symbol) {
            case "km/h" -> Dimension.SPEED;
            default -> Dimension.VOLUME;
        };
    }
}
