package purgewright.result;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import purgewright.fluids.Engines;
import purgewright.fluids.PureFluid;
import purgewright.fluids.unit.UnitSystem;

class FluidCsvTest {
    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            quoteCharacter = '~',
            value = {
                "liquid|liquid",
                "=1+1|'=1+1",
                "@x|'@x",
                "-2+3|'-2+3",
                "+2|+2",
                "a,b|~\"a,b\"~",
                "a\"b|~\"a\"\"b\"~"
            })
    void aCellIsNeverAFormulaAndNeverBreaksItsLine(String word, String cell) {
        assertThat(CsvText.cell(word)).isEqualTo(cell);
        assertThat(CsvText.cell(" \t" + word)).isEqualTo(cell);
    }

    @Test
    void everyLineHasTheColumnsOfTheHeading() {
        PureFluid oxygen = Engines.embedded().pure("oxygen");
        FluidJson.Row row = new FluidJson.Row(oxygen.atPressureTemperature(1e6, 95), Double.NaN, 0.15);
        List<FluidJson.Line> lines =
                List.of(FluidJson.Line.of(row), FluidJson.Line.missing(40, 1e6, "temperature out of range"));
        FluidJson.Origin origin = new FluidJson.Origin("oxygen", "=engine\nnew line", "some state");
        for (UnitSystem units : UnitSystem.values()) {
            String[] text = FluidCsv.write(lines, origin, "1", units).split("\n", -1);
            int columns = text[4].split(",", -1).length;
            assertThat(text[2]).isEqualTo("# properties =engine new line");
            assertThat(text[4]).startsWith(units == UnitSystem.US ? "temperature_degF" : "temperature_K");
            assertThat(text[5].split(",", -1)).hasSize(columns);
            assertThat(text[6].split(",", -1)).hasSize(columns).endsWith("temperature out of range");
            assertThat(text).hasSize(8);
        }
    }
}
