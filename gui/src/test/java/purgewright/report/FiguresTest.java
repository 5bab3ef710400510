package purgewright.report;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import purgewright.figure.Readout;
import purgewright.fluids.unit.UnitSystem;

class FiguresTest {
    @ParameterizedTest
    @CsvSource({
        "0, 4, 0",
        "1.70349, 4, 1.703",
        "0.10132, 4, 0.1013",
        "346.19, 4, 346.2",
        "12345.6, 4, 12346",
        "0.00123456, 3, 0.00123",
        "NaN, 4, -",
        "1.2e-7, 4, 1.20e-07",
        "-2.5, 3, -2.50"
    })
    void digitsAreSignificantOnes(double value, int digits, String shown) {
        assertThat(Figures.fixed(value, digits)).isEqualTo(shown);
    }

    @Test
    void oneUnitAColumnInBothSystems() {
        Figures si = new Figures(UnitSystem.SI);
        Figures us = new Figures(UnitSystem.US);
        assertThat(si.pressure(1.7e6) + " " + si.pressureUnit()).isEqualTo("1.700 MPa");
        assertThat(us.pressure(6894.757293168) + " " + us.pressureUnit()).isEqualTo("1.000 psia");
        assertThat(si.flow(0.00704) + " " + si.flowUnit()).isEqualTo("7.040 g/s");
        assertThat(us.flow(0.45359237) + " " + us.flowUnit()).isEqualTo("1.000 lb/s");
        assertThat(si.clearance(25e-6) + " " + si.clearanceUnit()).isEqualTo("25.0 um");
        assertThat(us.clearance(25.4e-6) + " " + us.clearanceUnit()).isEqualTo("1.00 mil");
        assertThat(us.temperature(273.15) + " " + us.temperatureUnit()).isEqualTo("32.0 degF");
        assertThat(us.speed(0.3048) + " " + us.speedUnit()).isEqualTo("1.00 ft/s");
        // 1 lb/ft3 = 0.45359237 kg / 0.3048^3 m3, by the definitions of pound and foot.
        assertThat(si.quantity(1000, "kg/m3")).isEqualTo("1000 kg/m3");
        assertThat(us.quantity(0.45359237 / (0.3048 * 0.3048 * 0.3048), "kg/m3"))
                .isEqualTo("1 lb/ft3");
        assertThat(Readout.US.quantity(0.45359237 / (0.3048 * 0.3048 * 0.3048), "kg/m3"))
                .isEqualTo("1.00 lb/ft3");
    }

    /** 1 K is 1.8 degF; only a temperature counts from -459.67 degF, and only a pressure is absolute. */
    @ParameterizedTest
    @CsvSource({
        "167, K difference, 167 K, 300.6 degF, 167 K, 301 °F",
        "5, K difference, 5 K, 9 degF, 5.00 K, 9.00 °F",
        "0, K difference, 0 K, 0 degF, 0 K, 0 °F",
        "-24.3, K difference, -24.3 K, -43.74 degF, −24.3 K, −43.7 °F",
        "273.15, K, 273.1 K, 32 degF, 273 K, 32.0 °F",
        "35000, Pa difference, 35 kPa, 5.076 psi, 0.0350 MPa, 5.08 psi",
        "2600000, Pa, 2.6 MPa, 377.1 psia, 2.60 MPa, 377 psia"
    })
    void aDifferenceIsShownAsOne(double value, String symbol, String si, String us, String windowSi, String windowUs) {
        assertThat(new Figures(UnitSystem.SI).quantity(value, symbol)).isEqualTo(si);
        assertThat(new Figures(UnitSystem.US).quantity(value, symbol)).isEqualTo(us);
        assertThat(Readout.SI.quantity(value, symbol)).isEqualTo(windowSi);
        assertThat(Readout.US.quantity(value, symbol)).isEqualTo(windowUs);
        for (Readout readout : Readout.values()) {
            Readout.Scale scale = readout.scale(symbol, 1e6);
            assertThat(readout.quantity(value, symbol))
                    .as("an axis shows what a readout does")
                    .isEqualTo(Readout.number(scale.shown(value), 3) + " " + scale.unit());
            assertThat(scale.si(scale.shown(value))).isCloseTo(value, within(1e-9 * Math.max(1, Math.abs(value))));
        }
    }

    @Test
    void aDifferenceOfWhatCarriesAPlainSymbolIsShownAsOneToo() {
        Figures us = new Figures(UnitSystem.US);
        assertThat(us.difference(5, "K")).isEqualTo("9 degF");
        assertThat(us.difference(6894.757293168, "Pa")).isEqualTo("1 psi");
        assertThat(us.difference(5, "K difference")).isEqualTo("9 degF");
        assertThat(us.difference(0.3048, "m/s")).isEqualTo("1 ft/s");
        assertThat(us.difference(Double.NaN, "K")).isEqualTo("-");
    }
}
