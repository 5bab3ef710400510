package purgewright.hazard.deficiency;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import purgewright.hazard.Fakes;
import purgewright.hazard.deficiency.RoomOxygen.Fan;
import purgewright.sealflow.model.Case;

class RoomHistoryTest {
    /** 0.02 m3/s of gas at 288 K, 1 atm. */
    private static final Map<String, Double> GAS = Map.of("fuel vent", 0.02 * 101325 / (8.314462618 * 288));

    private static Case room(double volume, double ventilation) {
        Case c = Fakes.pump();
        return new Case(
                c.about(),
                c.surroundings(),
                c.rotor(),
                c.streams(),
                c.cavities(),
                c.passages(),
                List.of(),
                Map.of(),
                Map.of("room", Map.of("volume", volume, "ventilation", ventilation, "temperature", 288.0)));
    }

    @Test
    void oneLongPhaseIsTheClosedSolution() {
        RoomHistory h = RoomHistory.of(room(100, 0.1), List.of(new RoomHistory.Phase("run", 600, GAS)), 0.209);
        RoomOxygen closed = new RoomOxygen(100, 0.1, Fan.EXTRACTED, 0.209);
        assertThat(h.last()).isCloseTo(closed.at(600, 0.02), within(1e-9));
        assertThat(h.alarmAt()).isCloseTo(closed.timeTo(0.195, 0.02), within(1.0));
        assertThat(h.dangerousAt()).isNaN();
    }

    @Test
    void aPhaseCutInTwoGivesTheSameAndAPauseLetsTheAirComeBack() {
        Case c = room(100, 0.1);
        RoomHistory whole = RoomHistory.of(c, List.of(new RoomHistory.Phase("run", 600, GAS)), 0.209);
        RoomHistory cut = RoomHistory.of(
                c, List.of(new RoomHistory.Phase("a", 250, GAS), new RoomHistory.Phase("b", 350, GAS)), 0.209);
        assertThat(cut.last()).isCloseTo(whole.last(), within(1e-12));
        RoomHistory pause = RoomHistory.of(
                c, List.of(new RoomHistory.Phase("a", 600, GAS), new RoomHistory.Phase("b", 3000, Map.of())), 0.209);
        assertThat(pause.last()).isGreaterThan(whole.last());
        assertThat(RoomHistory.of(Fakes.pump(), List.of(), 0.209)).isNull();
    }
}
