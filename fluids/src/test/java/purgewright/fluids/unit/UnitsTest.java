package purgewright.fluids.unit;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.catchThrowableOfType;
import static org.assertj.core.api.Assertions.within;

import java.util.Locale;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.EnumSource;
import purgewright.fluids.unit.UnitException.Key;

class UnitsTest {
    private static final double AIR = 101325;

    @ParameterizedTest(name = "{0} is {2} in SI")
    @CsvSource(
            delimiter = '|',
            value = {
                "3.1 MPa | PRESSURE | 3.1e6",
                "3.1MPa | PRESSURE | 3.1e6",
                "45 psi gauge | PRESSURE | 411589.07689257613",
                "45 psig | PRESSURE | 411589.07689257613",
                "45 psi(g) | PRESSURE | 411589.07689257613",
                "1 barg | PRESSURE | 201325",
                "1 bar g | PRESSURE | 201325",
                "-0.5 bar gauge | PRESSURE | 51325",
                "14.7 psia | PRESSURE | 101352.93",
                "2 bar absolute | PRESSURE | 2e5",
                "2 bara | PRESSURE | 2e5",
                "1 atm | PRESSURE | 101325",
                "760 torr | PRESSURE | 101325",
                "760 mmHg | PRESSURE | 101325.01",
                "1 ata | PRESSURE | 98066.5",
                "1 kgf/cm2 | PRESSURE | 98066.5",
                "20 kPa | PRESSURE_DIFFERENCE | 20000",
                "3 psid | PRESSURE_DIFFERENCE | 20684.271879504",
                "1013.25 hPa | PRESSURE | 101325",
                "-183 degC | TEMPERATURE | 90.15",
                "-183 °C | TEMPERATURE | 90.15",
                "\u2212183 degC | TEMPERATURE | 90.15",
                "-297.31 degF | TEMPERATURE | 90.2",
                "59 degF | TEMPERATURE | 288.15",
                "180 R | TEMPERATURE | 100",
                "97 K | TEMPERATURE | 97",
                "18 degF | TEMPERATURE_DIFFERENCE | 10",
                "10 degC | TEMPERATURE_DIFFERENCE | 10",
                "0.08 mm | LENGTH | 8e-5",
                "80 um | LENGTH | 8e-5",
                "80 µm | LENGTH | 8e-5",
                "1 in | LENGTH | 0.0254",
                "3 mil | LENGTH | 7.62e-5",
                "20 cm3 | VOLUME | 2e-5",
                "20 cm^3 | VOLUME | 2e-5",
                "20 cm³ | VOLUME | 2e-5",
                "0.5 L | VOLUME | 5e-4",
                "1 gal | VOLUME | 3.785411784e-3",
                "36000 rpm | ANGULAR_SPEED | 3769.911184307752",
                "3769.911184307752 rad/s | ANGULAR_SPEED | 3769.911184307752",
                "600 Hz | ANGULAR_SPEED | 3769.911184307752",
                "600 rev/s | ANGULAR_SPEED | 3769.911184307752",
                "600 Hz | FREQUENCY | 600",
                "7 g/s | MASS_FLOW | 0.007",
                "2 lb/s | MASS_FLOW | 0.90718474",
                "60 kg/h | MASS_FLOW | 0.0166666666666667",
                "12 ft3/min | VOLUME_FLOW | 0.00566336931840",
                "250 ms | TIME | 0.25",
                "2 h | TIME | 7200",
                "10 lbf | FORCE | 44.482216152605",
                "30 N/mm | STIFFNESS | 30000",
                "1 hp | POWER | 745.69987158227",
                "120 kW | POWER | 120000",
                "300 W/(m2 K) | HEAT_TRANSFER_COEFFICIENT | 300",
                "300 W/m2/K | HEAT_TRANSFER_COEFFICIENT | 300",
                "1 Btu/(h ft2 degF) | HEAT_TRANSFER_COEFFICIENT | 5.678263341",
                "4 W/K | CONDUCTANCE | 4",
                "1 lb/ft3 | DENSITY | 16.01846337396",
                "1 Btu/lb | ENTHALPY | 2326",
                "1 Btu/(lb degF) | ENTROPY | 4186.8",
                "1 cP | VISCOSITY | 1e-3",
                "19 uPa s | VISCOSITY | 1.9e-5",
                "19 uPa*s | VISCOSITY | 1.9e-5",
                "0.15 W/(m K) | CONDUCTIVITY | 0.15",
                "29 Mpsi | MODULUS | 1.99947961501890e11",
                "13e-6 1/K | EXPANSION | 13e-6",
                "13e-6/K | EXPANSION | 13e-6",
                "13 um/(m K) | EXPANSION | 13e-6",
                "180 deg | ANGLE | 3.141592653589793",
                "12 kPa s/g | DROOP | 1.2e7",
                "5 % | NUMBER | 0.05",
                "0.4 | NUMBER | 0.4",
                "450 EUR | MONEY | 450",
                "95 EUR/kg | MONEY_PER_MASS | 95",
                "86.4 USD/d | MONEY_PER_TIME | 1e-3",
                "25 kJ/K | HEAT_CAPACITY | 25000",
                "3 N m | TORQUE | 3"
            })
    void unitsOfTheTradeAreUnderstood(String text, Dimension dimension, double si) {
        assertThat(Units.parse(text, dimension, AIR)).isCloseTo(si, within(1e-7 * Math.abs(si)));
    }

    @ParameterizedTest(name = "{0} as {1}: {2}")
    @CsvSource(
            delimiter = '|',
            value = {
                "0.08 | LENGTH | MISSING_UNIT | mm",
                "0,08 mm | LENGTH | DECIMAL_COMMA | \"0.08 mm\"",
                "1,000 rpm | ANGULAR_SPEED | DECIMAL_COMMA | \"1000 rpm\"",
                "0.08 MM | LENGTH | UNKNOWN_UNIT | \"0.08 mm\"",
                "3 Mpa | PRESSURE | UNKNOWN_UNIT | \"3 MPa\"",
                "3 mpaa | PRESSURE | UNKNOWN_UNIT | did you mean",
                "20 C | TEMPERATURE | UNKNOWN_UNIT | \"20 degC\"",
                "20 celsius | TEMPERATURE | UNKNOWN_UNIT | \"20 degC\"",
                "3000 RPM | ANGULAR_SPEED | UNKNOWN_UNIT | \"3000 rpm\"",
                "3 furlong | LENGTH | UNKNOWN_UNIT | mm, um",
                "0.08 mm | PRESSURE | WRONG_DIMENSION | MPa",
                "3 bar | LENGTH | WRONG_DIMENSION | mm",
                "3 bar | NUMBER | WRONG_DIMENSION | 0.7",
                "3 psid | PRESSURE | WRONG_DIMENSION | psia",
                "3 psi gauge | PRESSURE_DIFFERENCE | GAUGE_NOT_ALLOWED | 20 kPa",
                "3 mm gauge | LENGTH | GAUGE_NOT_ALLOWED | 0.08 mm",
                "3 psig absolute | PRESSURE | GAUGE_NOT_ALLOWED | one of them",
                "-2 bar gauge | PRESSURE | BELOW_ABSOLUTE_ZERO | surroundings",
                "-2 bar | PRESSURE | BELOW_ABSOLUTE_ZERO | surroundings",
                "-300 degC | TEMPERATURE | BELOW_ZERO_KELVIN | -273.15",
                "-1 K | TEMPERATURE | BELOW_ZERO_KELVIN | 0 K",
                "12 scfm | MASS_FLOW | NEEDS_REFERENCE_STATE | 12 ft3/min at 60 degF",
                "3 Nm3/h | MASS_FLOW | NEEDS_REFERENCE_STATE | 3 m3/h at 0 degC",
                "40 L/min | MASS_FLOW | NEEDS_REFERENCE_STATE | 40 L/min at 0 degC",
                "40 L/min at 0 degC | MASS_FLOW | NEEDS_GAS | 7 g/s",
                "40 L/min at 0 degC | VOLUME_FLOW | WRONG_DIMENSION | m3/s",
                "1e999 mm | LENGTH | OUT_OF_RANGE | ''",
                "1e308 km | LENGTH | OUT_OF_RANGE | ''",
                "thick | LENGTH | NOT_A_NUMBER | 0.08 mm",
                "NaN mm | LENGTH | NOT_A_NUMBER | 0.08 mm",
                "mm | LENGTH | NOT_A_NUMBER | 0.08 mm",
                "'' | LENGTH | NOT_A_NUMBER | 0.08 mm",
                "3 m//s | SPEED | UNKNOWN_UNIT | m/s",
                "3 m/(s | SPEED | UNKNOWN_UNIT | m/s",
                "3 m^9 | AREA | UNKNOWN_UNIT | mm2"
            })
    void whatIsWrongIsNamedWithWhatWouldBeRight(String text, Dimension dimension, Key key, String suggestion) {
        UnitException wrong = catchThrowableOfType(UnitException.class, () -> Units.parse(text, dimension, AIR));
        assertThat(wrong).isNotNull();
        assertThat(wrong.key()).isEqualTo(key);
        assertThat(wrong.suggestion()).contains(suggestion);
        assertThat(wrong.values()).containsEntry("text", text);
        assertThat(wrong.getMessage()).isNotBlank();
    }

    @Test
    void gaugeWithoutSurroundingsIsRefused() {
        UnitException wrong =
                catchThrowableOfType(UnitException.class, () -> Units.parse("45 psig", Dimension.PRESSURE));
        assertThat(wrong.key()).isEqualTo(Key.GAUGE_NEEDS_SURROUNDINGS);
    }

    @Test
    void aStandardVolumeFlowBecomesMassWithItsGas() {
        GasDensity helium = (pressure, temperature) -> pressure * 4.002602e-3 / (8.314462618 * temperature);
        double at0 = Units.parse("40 L/min at 0 degC", Dimension.MASS_FLOW, AIR, helium);
        assertThat(at0).isCloseTo(0.04 / 60 * helium.at(101325, 273.15), within(1e-15));
        double us = Units.parse("12 ft3/min at 60 degF", Dimension.MASS_FLOW, AIR, helium);
        assertThat(us).isCloseTo(12 * 0.028316846592 / 60 * helium.at(101325, 288.70555555555), within(1e-12));
        double other = Units.parse("40 L/min at 15 degC and 1 bar", Dimension.MASS_FLOW, AIR, helium);
        assertThat(other).isCloseTo(0.04 / 60 * helium.at(1e5, 288.15), within(1e-15));
    }

    @Test
    void anyQuantityFindsItsDimension() {
        assertThat(Units.parseAny("0.14 MPa", AIR)).isEqualTo(new Units.Quantity(0.14e6, Dimension.PRESSURE));
        assertThat(Units.parseAny("5 psig", AIR).si()).isCloseTo(135798.78, within(0.01));
        assertThat(Units.parseAny("5 psid", AIR).dimension()).isEqualTo(Dimension.PRESSURE_DIFFERENCE);
        assertThat(Units.parseAny("10 um", AIR)).isEqualTo(new Units.Quantity(1e-5, Dimension.LENGTH));
        assertThat(Units.parseAny("100 Hz", AIR)).isEqualTo(new Units.Quantity(100, Dimension.FREQUENCY));
        assertThat(Units.parseAny("60 %", AIR)).isEqualTo(new Units.Quantity(0.6, Dimension.NUMBER));
    }

    @ParameterizedTest(name = "{0} {1} in {2} is {3}")
    @CsvSource(
            delimiter = '|',
            value = {
                "1713456 | PRESSURE | SI | 1.713 MPa",
                "101325 | PRESSURE | SI | 101.3 kPa",
                "1713456 | PRESSURE | US | 248.5 psia",
                "1713456 | PRESSURE_DIFFERENCE | US | 248.5 psi",
                "1713456 | PRESSURE_DIFFERENCE | SI | 1.713 MPa",
                "167 | TEMPERATURE_DIFFERENCE | US | 300.6 degF",
                "-5 | TEMPERATURE_DIFFERENCE | US | -9 degF",
                "2.5e-5 | LENGTH | SI | 25 um",
                "2.5e-4 | LENGTH | SI | 0.25 mm",
                "3 | LENGTH | SI | 3 m",
                "2.54e-5 | LENGTH | US | 1 mil",
                "0.0254 | LENGTH | US | 1 in",
                "0.00712 | MASS_FLOW | SI | 7.12 g/s",
                "3.5 | MASS_FLOW | SI | 3.5 kg/s",
                "0.45359237 | MASS_FLOW | US | 1 lb/s",
                "288.15 | TEMPERATURE | SI | 288.1 K",
                "288.15 | TEMPERATURE | US | 59 degF",
                "3769.911184307752 | ANGULAR_SPEED | SI | 36000 rpm",
                "123456 | POWER | SI | 123.5 kW",
                "0 | LENGTH | SI | 0 mm",
                "0.4 | NUMBER | SI | 0.4",
                "NaN | PRESSURE | SI | n/a"
            })
    void valuesAreWrittenAsAnEngineerWould(double si, Dimension dimension, UnitSystem system, String text) {
        assertThat(Units.format(si, dimension, system, 4)).isEqualTo(text);
    }

    @ParameterizedTest
    @EnumSource(Dimension.class)
    void aSymbolTellsADifferenceFromWhatItIsOneOf(Dimension dimension) {
        assertThat(Dimension.si(dimension.symbol())).isEqualTo(dimension.si());
        assertThat(Dimension.difference(Dimension.difference(dimension.symbol())))
                .isEqualTo(Dimension.difference(dimension.symbol()));
    }

    @Test
    void aDifferenceOfTemperaturesOrPressuresIsNoneOfThem() {
        assertThat(Dimension.difference(Dimension.TEMPERATURE.symbol()))
                .isEqualTo(Dimension.TEMPERATURE_DIFFERENCE.symbol())
                .isNotEqualTo(Dimension.TEMPERATURE.symbol());
        assertThat(Dimension.difference(Dimension.PRESSURE.symbol()))
                .isEqualTo(Dimension.PRESSURE_DIFFERENCE.symbol())
                .isNotEqualTo(Dimension.PRESSURE.symbol());
        assertThat(Dimension.difference(Dimension.SPEED.symbol())).isEqualTo("m/s");
    }

    @ParameterizedTest
    @EnumSource(Dimension.class)
    void examplesAndCommonUnitsOfEveryDimensionParse(Dimension dimension) {
        assertThat(Units.parse(Units.example(dimension), dimension)).isFinite();
        for (String unit : Units.commonUnits(dimension)) {
            assertThat(Units.parse("300 " + unit, dimension, AIR)).isGreaterThan(0);
        }
        assertThat(Units.describe(dimension)).matches("an? .*");
    }

    @Test
    void anotherLocaleChangesNothing() {
        Locale before = Locale.getDefault();
        try {
            for (String tag : new String[] {"de-DE", "tr-TR", "ar-EG-u-nu-arab", "hi-IN-u-nu-deva"}) {
                Locale.setDefault(Locale.forLanguageTag(tag));
                assertThat(Units.format(1713456, Dimension.PRESSURE, UnitSystem.SI, 4))
                        .isEqualTo("1.713 MPa");
                assertThat(Units.format(1.5e-7, Dimension.NUMBER, UnitSystem.SI, 4))
                        .isEqualTo("1.5e-7");
                assertThat(Units.parse("0.08 mm", Dimension.LENGTH)).isEqualTo(8e-5);
                assertThat(Units.parse("12 IN".replace("IN", "in"), Dimension.LENGTH))
                        .isEqualTo(0.3048);
                UnitException wrong =
                        catchThrowableOfType(UnitException.class, () -> Units.parse("3 MIN", Dimension.TIME));
                assertThat(wrong.suggestion()).contains("3 min");
            }
        } finally {
            Locale.setDefault(before);
        }
    }
}
