package purgewright.report;

import static org.assertj.core.api.Assertions.assertThat;

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
        assertThat(us.pressure(6894.757293168) + " " + us.pressureUnit()).isEqualTo("1.000 psi");
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
}
