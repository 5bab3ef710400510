package purgewright.result;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import purgewright.hazard.sizing.PurgeWindow;

@DisplayName("The purge window as CSV")
class MapCsvTest {
    private static PurgeWindow window(String place, boolean complete) {
        PurgeWindow.Sample a = new PurgeWindow.Sample(
                1, 2, true, 3e-3, "barrier-pressure", Map.of("barrier-pressure", 0.5), List.of());
        PurgeWindow.Sample b =
                new PurgeWindow.Sample(1, 3, false, Double.NaN, "solve", Map.of(), List.of("barriers", "solve"));
        return new PurgeWindow(
                place,
                "/rotor/speed",
                List.of(1.0),
                List.of(2.0, 3.0),
                List.of("barrier-pressure"),
                List.<double[][]>of(new double[][] {{0.5}, {Double.NaN}}),
                new boolean[][] {{true}, {false}},
                new double[][] {{3e-3}, {Double.NaN}},
                new String[][] {{"barrier-pressure"}, {"solve"}},
                1,
                2,
                List.of(a, b),
                List.of(),
                List.of(),
                List.of(),
                new PurgeWindow.Band(1, 1),
                new PurgeWindow.Band(2, 2),
                0,
                complete);
    }

    @Test
    void aNameCanNeitherEndTheHeadingNorBeginACellWithAFormula() {
        String csv = MapCsv.write(window("/cavities/a\n,=HYPERLINK(\"x\");@b/pressure", true), "abc", "1", "engine");
        assertThat(csv.lines().skip(3).findFirst().orElseThrow())
                .startsWith("# x /cavities/a\\u000a\\u002c=HYPERLINK(\\u0022x\\u0022)\\u003b@b/pressure");
        for (String line : csv.lines().toList()) {
            boolean heading = line.startsWith("#");
            assertThat(line.split(heading ? ";" : "[,;]", -1))
                    .allSatisfy(cell ->
                            assertThat(cell.strip()).doesNotStartWith("=").doesNotStartWith("@"));
        }
    }

    @Test
    void whatIsNotKnownIsAnEmptyCellAndACancelIsSaid() {
        List<String> lines =
                MapCsv.write(window("/x", false), "abc", "1", "engine").lines().toList();
        assertThat(lines).anySatisfy(l -> assertThat(l).contains("cancelled"));
        assertThat(lines.get(lines.size() - 1)).isEqualTo("1.00000000,3.00000000,false,,solve,,barriers solve");
    }
}
