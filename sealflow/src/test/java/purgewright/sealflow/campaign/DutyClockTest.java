package purgewright.sealflow.campaign;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import purgewright.sealflow.campaign.Channel.Kind;
import purgewright.sealflow.model.Case;
import purgewright.sealflow.model.CaseValue;
import purgewright.sealflow.network.CaseSketch;

@DisplayName("The case at every moment of a duty")
class DutyClockTest {
    private static Case sketch(double pressure) {
        return new CaseSketch()
                .stream("helium", "helium")
                        .vessel("barrier", 20e-6, 0, 300)
                        .fixed("purge", "helium", pressure, 300)
                        .fixed("vent", "helium", 0.1e6, 300)
                        .passage("in", "purge", "barrier", "nozzle", "area", 1e-6)
                        .passage("out", "barrier", "vent", "nozzle", "area", 1e-6)
                        .make();
    }

    private static Leg leg(String name, double duration, double pressure, double ramp, List<Channel> history) {
        return new Leg(name, duration, sketch(pressure), ramp, history, Double.NaN);
    }

    private static double pressure(DutyClock clock, int leg, double since) {
        return clock.at(leg, since).cavity("purge").pressure();
    }

    @Test
    void valuesGoLinearlyWithinTheRampAndStandAfterIt() {
        DutyClock clock = new DutyClock(List.of(leg("a", 10, 1e6, 0, List.of()), leg("b", 20, 3e6, 4, List.of())));
        assertThat(pressure(clock, 0, 9)).isEqualTo(1e6);
        assertThat(pressure(clock, 1, 0)).isEqualTo(1e6);
        assertThat(pressure(clock, 1, 1)).isCloseTo(1.5e6, within(1e-6));
        assertThat(pressure(clock, 1, 4)).isEqualTo(3e6);
        assertThat(clock.breaks(1)).containsExactly(4.0);
        assertThat(clock.moves(0)).isFalse();
        assertThat(clock.start(2)).isEqualTo(30);
        assertThat(clock.jumps(1)).isFalse();
    }

    @Test
    void aHistoryDrivesItsPlaceAndTheNextRampBeginsWhereItEnded() {
        Channel history =
                new Channel("p", Kind.PRESSURE, "/cavities/purge/pressure", "Pa", new double[] {0, 2, 5}, new double[] {
                    1e6, 2e6, 1.4e6
                });
        DutyClock clock =
                new DutyClock(List.of(leg("a", 5, 1e6, 0, List.of(history)), leg("b", 10, 3.4e6, 2, List.of())));
        assertThat(pressure(clock, 0, 1)).isCloseTo(1.5e6, within(1e-6));
        assertThat(pressure(clock, 1, 1)).isCloseTo(2.4e6, within(1e-6));
        assertThat(clock.breaks(0)).contains(2.0);
        Channel nowhere =
                new Channel("p", Kind.OTHER, "/cavities/barrier/pressure", "Pa", new double[] {0}, new double[] {1});
        assertThatThrownBy(() -> new DutyClock(List.of(leg("a", 5, 1e6, 0, List.of(nowhere)))))
                .hasMessageContaining("/cavities/barrier/pressure");
    }

    @Test
    void aMillionPointsAreDrawnByAFewAndThePeakIsAmongThem() {
        int n = 1_000_000;
        double[] t = new double[n];
        double[] v = new double[n];
        for (int i = 0; i < n; i++) {
            t[i] = i * 1e-5;
            v[i] = 1e6 * (1 + Math.exp(-Math.pow((t[i] - 3.217) / 0.05, 2)));
        }
        List<Double> corners = DutyClock.corners(new Channel("p", Kind.PRESSURE, "", "Pa", t, v), 10);
        assertThat(corners).hasSizeLessThanOrEqualTo(DutyClock.MOST_BREAKS);
        assertThat(corners).anyMatch(x -> Math.abs(x - 3.217) < 1e-3);
    }

    @Test
    void aPhaseWithoutDurationIsRefused() {
        assertThatThrownBy(() -> leg("a", -5, 1e6, 0, List.of())).hasMessageContaining("duration");
    }

    @Test
    void everyKindOfValueIsSetAndReadBack() {
        Case c = sketch(1e6);
        CaseValue t = CaseValue.find(c, "/cavities/purge/temperature");
        assertThat(t.get(t.set(c, 250))).isEqualTo(250);
        CaseValue speed = CaseValue.find(c, "/rotor/speed");
        assertThat(speed.get(speed.set(c, 77))).isEqualTo(77);
        CaseValue area = CaseValue.find(c, "/passages/in/area");
        assertThat(area.get(area.set(c, 2e-6))).isEqualTo(2e-6);
        assertThat(CaseValue.find(c, "/cavities/barrier/pressure")).isNull();
        assertThat(CaseValue.find(c, "/passages/none/area")).isNull();
    }
}
