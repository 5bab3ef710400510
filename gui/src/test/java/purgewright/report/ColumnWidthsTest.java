package purgewright.report;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.awt.Font;
import java.util.Arrays;
import java.util.List;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import purgewright.figure.Lettering;

@DisplayName("Columns on paper: short cells stand on one line, sentences take what is left")
class ColumnWidthsTest {
    private static final double SIZE = 8.3;
    private static final double PADDING = 9;
    private static final double PAGE = 505;
    private static final String SENTENCE =
            "raise the purge set pressure or open its metering, tighten the barrier's seals, or enlarge the drain of the hot side, "
                    + "and look at the band of the model before anything is made smaller than 0.25 mm";

    private static double needed(String cell) {
        return Lettering.width(Lettering.font(Font.PLAIN, SIZE), cell);
    }

    @Test
    void aColumnOfSentencesLeavesRoomForTheNumbersBesideIt() {
        List<String> row = List.of("rim kerosene drain", SENTENCE, SENTENCE, "293.6 kPa", "353.5 kPa", "> 999 %");
        Block.Grid grid =
                new Block.Grid("lllrrr", List.of("where", "what", "mend", "value", "limit", "margin"), List.of(row));

        ColumnWidths widths = ColumnWidths.of(grid, SIZE, PADDING, PAGE);

        assertThat(Arrays.stream(widths.points).sum()).isCloseTo(PAGE, within(0.1));
        for (int i : new int[] {0, 3, 4, 5}) {
            assertThat(widths.points[i]).as(row.get(i)).isGreaterThanOrEqualTo(needed(row.get(i)) + PADDING);
        }
        assertThat(widths.points[1]).as("the sentences have the rest").isGreaterThan(120);
    }

    @Test
    void numbersAloneDoNotFillThePage() {
        Block.Grid grid = new Block.Grid("lr", List.of("models", "checks"), List.of(List.of("fluids", "458")));

        assertThat(Arrays.stream(ColumnWidths.of(grid, SIZE, PADDING, PAGE).points)
                        .sum())
                .isLessThan(PAGE / 2);
    }

    @Test
    void whatIsTooWideForThePageGivesUpItsLongestCellsFirst() {
        String name = "a name of rather more than forty characters";
        List<String> row = List.of(name, name, name, name, name, "12.5 g/s");
        Block.Grid grid = new Block.Grid("lllllr", List.of("a", "b", "c", "d", "e", "flow, g/s"), List.of(row));

        ColumnWidths widths = ColumnWidths.of(grid, SIZE, PADDING, PAGE);

        assertThat(Arrays.stream(widths.points).sum()).isLessThanOrEqualTo(PAGE + 0.1);
        assertThat(ColumnWidths.isShort(name, widths.longestShort)).isFalse();
        assertThat(ColumnWidths.isShort("12.5 g/s", widths.longestShort)).isTrue();
        assertThat(widths.points[5]).isGreaterThanOrEqualTo(needed("12.5 g/s") + PADDING);
    }

    @Test
    void aNumberStaysWithItsUnitAndItsComma() {
        assertThat(ColumnWidths.pieces("tip 0.25 mm; density 146.5 kg/m3, +27 %, theory/rim 3 seals"))
                .filteredOn(ColumnWidths.Piece::whole)
                .extracting(ColumnWidths.Piece::text)
                .containsExactly("0.25 mm;", "146.5 kg/m3,", "+27 %,", "theory/rim");
        assertThat(ColumnWidths.pieces("no number")).containsExactly(new ColumnWidths.Piece("no number", false));
    }
}
