package purgewright.sealflow.gap;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import purgewright.sealflow.model.PassageSpec;
import purgewright.sealflow.model.Rotor;
import purgewright.sealflow.passage.PassageTypes;

class GapModelTest {
    private static final double SPEED = 36000 * Math.PI / 30;
    private static final Rotor.Segment DISC = new Rotor.Segment("disc", 0, 0.1, 293.15, 200e9, 0.3, 7850, 12e-6, false);
    private static final Rotor.Segment SHAFT =
            new Rotor.Segment("shaft", 0, 0.025, 293.15, 205e9, 0.29, 8190, 12e-6, false);

    private static Rotor rotor(double speed, Rotor.Segment... segments) {
        return new Rotor(speed, 5e-6, 10e-6, 3e-6, 2e-6, 4e-6, 50e-6, List.of(segments));
    }

    private static PassageSpec spec(
            String type, double radius, double clearance, double growth, Map<String, Object> fields) {
        return new PassageSpec(
                "x", "a", "b", type, 1, radius, clearance, Double.NaN, growth, 1, Double.NaN, false, fields);
    }

    @Test
    void aDiscsRimClosesItsLabyrinthByTheClosedForm() {
        RunningGap gap =
                PassageTypes.running(spec("labyrinth", 0.1, 0.3e-3, Double.NaN, Map.of()), rotor(SPEED, SHAFT, DISC));
        assertThat(gap.mean()).isCloseTo(0.3e-3 - 9.76203e-5, within(1e-9));
        assertThat(gap.least()).isCloseTo(gap.mean() - 24e-6, within(1e-12));
        assertThat(gap.contactLimit()).isCloseTo(30e-6, within(1e-15));
    }

    @Test
    void theNamedSegmentWinsOverTheNearest() {
        Map<String, Object> named = Map.of("segment", "shaft");
        RunningGap nearest =
                PassageTypes.running(spec("bushing", 0.09, 0.3e-3, Double.NaN, Map.of()), rotor(SPEED, SHAFT, DISC));
        RunningGap shaft =
                PassageTypes.running(spec("bushing", 0.09, 0.3e-3, Double.NaN, named), rotor(SPEED, SHAFT, DISC));
        assertThat(shaft.mean()).isGreaterThan(nearest.mean());
    }

    @Test
    void heatOfTheRotorClosesAndHeatOfTheStatorOpens() {
        Rotor.Segment hot = new Rotor.Segment("hot", 0, 0.05, 693.15, 200e9, 0.3, 7850, 12e-6, false);
        Map<String, Object> fields = new HashMap<>();
        double closed = PassageTypes.running(spec("labyrinth", 0.05, 0.5e-3, Double.NaN, fields), rotor(0, hot))
                .mean();
        assertThat(closed).isCloseTo(0.5e-3 - 2.4e-4, within(1e-9));
        fields.put("stator temperature", 693.15);
        fields.put("stator expansion", 12e-6);
        double both = PassageTypes.running(spec("labyrinth", 0.05, 0.5e-3, Double.NaN, fields), rotor(0, hot))
                .mean();
        assertThat(both).isCloseTo(0.5e-3, within(1e-9));
    }

    @Test
    void aStatedGrowthReplacesTheModel() {
        RunningGap gap = PassageTypes.running(spec("labyrinth", 0.1, 0.3e-3, -50e-6, Map.of()), rotor(SPEED, DISC));
        assertThat(gap.mean()).isCloseTo(0.25e-3, within(1e-12));
    }

    @Test
    void aFloatingRingFollowsOffsetAndPlay() {
        RunningGap ring =
                PassageTypes.running(spec("floating ring", 0.025, 30e-6, Double.NaN, Map.of()), rotor(0, SHAFT));
        RunningGap bushing = PassageTypes.running(spec("bushing", 0.025, 30e-6, Double.NaN, Map.of()), rotor(0, SHAFT));
        assertThat(ring.mean()).isEqualTo(bushing.mean());
        assertThat(ring.mean() - ring.least()).isCloseTo(12e-6, within(1e-12));
        assertThat(bushing.mean() - bushing.least()).isCloseTo(24e-6, within(1e-12));
    }

    @Test
    void anAxialRimIsNarrowedByThrustMovementAndNotBySpeed() {
        RunningGap gap = PassageTypes.running(
                spec("rim", 0.1, Double.NaN, Double.NaN, Map.of("gap", 0.4e-3, "direction", "axial")),
                rotor(SPEED, DISC));
        assertThat(gap.mean()).isEqualTo(0.4e-3);
        assertThat(gap.mean() - gap.least()).isCloseTo(57e-6, within(1e-12));
    }

    /** From cold and still to hot at speed, each segment by its own closed form written out: solid, bored, thin ring. */
    @Test
    void everyKindOfSegmentFollowsItsClosedFormAllTheWayUp() {
        double e = 200e9;
        double rho = 7850;
        double nu = 0.3;
        double b = 0.1;
        double a = 0.02;
        double cold = 0.5e-3;
        for (double share : new double[] {0, 0.3, 0.7, 1}) {
            double w = share * SPEED;
            double hot = 293.15 + share * 300;
            double load = rho * w * w * b / e;
            double thermal = b * 12e-6 * share * 300;
            double[] growth = {
                load * b * b * (1 - nu) / 4, load / 4 * ((1 - nu) * b * b + (3 + nu) * a * a), load * b * b
            };
            Rotor.Segment[] segments = {
                new Rotor.Segment("solid", 0, b, hot, e, nu, rho, 12e-6, false),
                new Rotor.Segment("bored", a, b, hot, e, nu, rho, 12e-6, false),
                new Rotor.Segment("ring", 0.098, b, hot, e, nu, rho, 12e-6, true)
            };
            for (int i = 0; i < segments.length; i++) {
                RunningGap gap = PassageTypes.running(
                        spec("labyrinth", b, cold, Double.NaN, Map.of("segment", segments[i].name())),
                        rotor(w, segments));
                assertThat(gap.mean()).isCloseTo(cold - growth[i] - thermal, within(1e-12));
                assertThat(gap.mean() - gap.least()).isCloseTo(24e-6, within(1e-12));
            }
        }
    }

    /** As read from a case the gap stands twice; what wear or a drawing changes is the clearance. */
    @Test
    void aWornRimIsWider() {
        RunningGap gap = PassageTypes.running(
                spec("rim", 0.1, 0.6e-3, Double.NaN, Map.of("gap", 0.4e-3, "direction", "axial")), Rotor.STILL);
        assertThat(gap.mean()).isEqualTo(0.6e-3);
    }

    @Test
    void ductsHaveNoRunningGap() {
        assertThat(PassageTypes.running(
                        spec("orifice", Double.NaN, Double.NaN, Double.NaN, Map.of("diameter", 1e-3)), Rotor.STILL))
                .isNull();
    }
}
