package purgewright.figure;

import static org.assertj.core.api.Assertions.assertThat;

import java.awt.geom.Rectangle2D;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import purgewright.hazard.sizing.PurgeWindow;

@DisplayName("The drawing of a purge window")
class PurgeWindowChartTest {
    private static final double[][] WALL = {{1e6, 2e-5}, {1e6, 1e-4}};

    /** A criterion with a number, and some that are met or not and change on one line; ten levels of flow up to the right edge. */
    private static PurgeWindow window(int yesOrNo) {
        List<PurgeWindow.Line> lines = new ArrayList<>();
        lines.add(new PurgeWindow.Line(
                "barrier-pressure", 0, List.<double[][]>of(new double[][] {{2e6, 2e-5}, {3e6, 1e-4}})));
        for (int i = 0; i < yesOrNo; i++) {
            lines.add(new PurgeWindow.Line("met-or-not-" + (char) ('a' + i), 0, List.<double[][]>of(WALL.clone())));
        }
        List<PurgeWindow.Line> flows = new ArrayList<>();
        for (int i = 0; i < 10; i++) {
            double x = 0.6e6 + i * 0.375e6;
            flows.add(new PurgeWindow.Line(
                    "flow", (i + 1) * 2e-4, List.<double[][]>of(new double[][] {{x, 2e-5}, {x, 1e-4}})));
        }
        return new PurgeWindow(
                "/cavities/a/pressure",
                "/passages/b/clearance",
                List.of(0.5e6, 4e6),
                List.of(2e-5, 1e-4),
                List.of("barrier-pressure"),
                List.<double[][]>of(new double[][] {{-1, 1}, {-1, 1}}),
                new boolean[][] {{false, true}, {false, true}},
                new double[][] {{1e-4, 2e-3}, {1e-4, 2e-3}},
                new String[][] {{"x", ""}, {"x", ""}},
                3.5e6,
                5e-5,
                List.of(new PurgeWindow.Sample(4e6, 2e-5, true, 2e-3, "", Map.of("barrier-pressure", 1.0), List.of())),
                lines,
                flows,
                List.of(),
                new PurgeWindow.Band(3.4e6, 3.6e6),
                new PurgeWindow.Band(5e-5, 5e-5),
                0.005,
                true);
    }

    private static PurgeWindowChart drawn(PurgeWindow map, double width) {
        return PurgeWindowChart.draw(
                map, "pressure of a", "Pa", "clearance of b", "m", 3.5e6, 5e-5, Readout.SI, Theme.LIGHT, width, 620);
    }

    @ParameterizedTest(name = "{0} px wide")
    @ValueSource(doubles = {520, 900, 1400})
    void noWordCoversAnotherOrLeavesThePage(double width) {
        PurgeWindowChart chart = drawn(window(8), width);
        assertThat(BarrierSectionTest.overlaps(chart.figure())).isEmpty();
        assertThat(chart.figure().labels())
                .filteredOn(l -> l.text().startsWith("Hatched"))
                .as("the words below, set wider by some screens than the font says")
                .allSatisfy(l -> assertThat(l.box().getMaxX()).isLessThan(12 + 0.91 * (width - 24)));
        assertThat(chart.figure().labels())
                .allSatisfy(l -> assertThat(new Rectangle2D.Double(0, 0, width, 620).contains(l.box()))
                        .as(l.text())
                        .isTrue());
    }

    @Test
    void aFlowStandsOnItsOwnLineInsideTheFrame() {
        PurgeWindowChart chart = drawn(window(2), 900);
        List<Figure.Label> flows = chart.figure().labels().stream()
                .filter(l -> l.owner().equals("flow"))
                .toList();
        assertThat(flows).hasSize(10);
        for (int i = 0; i < flows.size(); i++) {
            Rectangle2D box = flows.get(i).box();
            assertThat(chart.plot().box().contains(box)).as(flows.get(i).text()).isTrue();
            double line = chart.plot().x(chart.across().shown(0.6e6 + i * 0.375e6));
            assertThat(line).as(flows.get(i).text()).isBetween(box.getMinX(), box.getMaxX());
        }
    }

    @Test
    void criteriaThatChangeOnOneLineShareItsStyleAndAreAllNamed() {
        PurgeWindowChart chart = drawn(window(3), 900);
        long walls = chart.figure().marks().stream()
                .filter(m -> m instanceof Figure.Mark.Line l
                        && l.width() == 2.2
                        && l.shape().getBounds2D().getWidth() == 0)
                .count();
        assertThat(walls).isEqualTo(1);
        assertThat(chart.figure().labels()).anyMatch(l -> l.text().contains("share that line"));
        assertThat(drawn(window(1), 900).figure().labels())
                .noneMatch(l -> l.text().contains("share that line"));
        for (String name : List.of("met or not a", "met or not b", "met or not c")) {
            assertThat(chart.figure().labels().stream().filter(l -> l.text().equals(name)))
                    .hasSize(2);
        }
    }

    @Test
    void itSaysWhatIsKnownToAStepOfTheSurveyAlone() {
        assertThat(drawn(window(1), 900).figure().labels())
                .anyMatch(l -> l.text().contains("a step of the survey"));
        assertThat(drawn(window(0), 900).figure().labels())
                .noneMatch(l -> l.text().contains("a step of the survey"));
    }
}
