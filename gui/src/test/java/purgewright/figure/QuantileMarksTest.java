package purgewright.figure;

import static org.assertj.core.api.Assertions.assertThat;

import java.awt.geom.Rectangle2D;
import java.util.Arrays;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class QuantileMarksTest {
    private static Figure drawn(double width, double... at) {
        Figure.Builder b = new Figure.Builder(Theme.LIGHT);
        QuantileMarks marks = new QuantileMarks("plan.enough");
        for (int i = 0; i < at.length; i++) {
            marks.add(List.of("50 %", "90 %", "95 %").get(i), Plot.number(at[i]), at[i]);
        }
        Plot plot = new Plot(
                b,
                new Rectangle2D.Double(74, 40, width - 100, 160),
                new Plot.Axis(0, 100, false, "Bottles"),
                marks.above(300, 160, "Campaigns"));
        plot.frame(true);
        marks.draw(b, plot);
        // The greatest bar ends below the last row of labels.
        assertThat(plot.y(300)).isGreaterThanOrEqualTo(40.0 + 3 + 14.0 * marks(at));
        return b.build(width, 260, "quantiles");
    }

    private static long marks(double... at) {
        return Arrays.stream(at).distinct().count();
    }

    @ParameterizedTest
    @CsvSource({
        "0, 0.001, 0.002",
        "0, 50, 100",
        "99.998, 99.999, 100",
        "50, 50.5, 51",
        "10, 11, 99",
        "1, 98, 99",
        "100, 50, 0"
    })
    void labelsOfQuantilesNeverOverlapNorLeaveThePlot(double a, double b, double c) {
        for (double width : new double[] {240, 360, 840, 1400}) {
            Figure figure = drawn(width, a, b, c);
            assertThat(BarrierSectionTest.overlaps(figure))
                    .as("width %s", width)
                    .isEmpty();
            assertThat(figure.labels().stream().filter(l -> l.owner().equals("quantile")))
                    .hasSize(3)
                    .allMatch(l -> new Rectangle2D.Double(74, 40, width - 100, 160).contains(l.box()));
        }
    }

    @Test
    void quantilesThatReadTheSameShareALabel() {
        assertThat(drawn(840, 12, 12, 14).labels().stream()
                        .filter(l -> l.owner().equals("quantile"))
                        .map(Figure.Label::text))
                .containsExactly("enough in 50 %, 90 %: 12", "enough in 95 %: 14");
    }
}
