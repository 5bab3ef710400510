package purgewright.hazard.criteria;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import purgewright.fluids.mixture.StreamDefinition;
import purgewright.hazard.Fakes;
import purgewright.hazard.Pumps;
import purgewright.sealflow.model.Case;
import purgewright.sealflow.model.DutyPhase;
import purgewright.sealflow.model.PassageSpec;
import purgewright.sealflow.model.Role;
import purgewright.sealflow.model.Rotor;

@DisplayName("What is taken for granted is said: a speed, allowances, growth, a barrier's pressure that nothing feeds")
class AssumptionsTest {
    private static final String NO_SPEED = "The case states no speed of the rotor";
    private static final String CLEARANCES = "Least clearances were judged without ";

    private static Case with(Rotor rotor, List<DutyPhase> duty) {
        Case m = Fakes.pump();
        return new Case(
                m.about(),
                m.surroundings(),
                rotor,
                m.streams(),
                m.cavities(),
                m.passages(),
                duty,
                m.criteria(),
                m.extras());
    }

    private static Rotor rotor(double speed, double whirl) {
        return new Rotor(speed, whirl, 0, 0, 0, 0, 0, List.of());
    }

    @Test
    void aRotorThatIsNotStatedIsTold() {
        assertThat(Assumptions.notStated(Fakes.pump()))
                .anyMatch(c -> c.startsWith(NO_SPEED) && !c.contains("not judged at all"));
        Case rubs = Pumps.passage(Fakes.pump(), Fakes.passage("ring A", "barrier", "oxygen drain", "segmented ring"));
        assertThat(Assumptions.notStated(rubs)).anyMatch(c -> c.contains("the speed of ring A was not judged at all"));
        assertThat(Assumptions.notStated(with(rotor(3000, 0), List.of()))).noneMatch(c -> c.startsWith(NO_SPEED));
        DutyPhase turning = new DutyPhase("steady", 1, Map.of("/rotor/speed", "1000 rpm"), List.of());
        assertThat(Assumptions.notStated(with(Rotor.STILL, List.of(turning)))).noneMatch(c -> c.startsWith(NO_SPEED));
    }

    @Test
    void clearancesWithoutAllowancesOrGrowthAreTold() {
        assertThat(Assumptions.notStated(with(rotor(3000, 0), List.of())))
                .containsExactly(
                        CLEARANCES + "whirl, bearing play, run-out, offset and tolerance, and without growth from"
                                + " cold to running: the case states none.");
        assertThat(Assumptions.notStated(with(rotor(3000, 4e-6), List.of())))
                .containsExactly(CLEARANCES + "growth from cold to running: the case states none.");
        Case m = with(rotor(3000, 4e-6), List.of());
        PassageSpec p = m.passage("ring A");
        List<PassageSpec> grown = new ArrayList<>(m.passages());
        grown.set(
                grown.indexOf(p),
                new PassageSpec(
                        p.name(),
                        p.from(),
                        p.to(),
                        p.type(),
                        1,
                        p.radius(),
                        p.clearance(),
                        Double.NaN,
                        -5e-6,
                        1,
                        Double.NaN,
                        false,
                        p.fields()));
        assertThat(Assumptions.notStated(Pumps.with(m, m.streams(), m.cavities(), grown)))
                .isEmpty();
        List<PassageSpec> ducts = new ArrayList<>(m.passages());
        ducts.removeIf(x -> !Double.isNaN(x.clearance()));
        assertThat(Assumptions.notStated(Pumps.with(m, m.streams(), m.cavities(), ducts)))
                .as("nothing with a clearance")
                .isEmpty();
    }

    @Test
    void aBarrierWhosePressureIsStatedAndThatNothingFeedsIsNamed() {
        Case m = Pumps.cavity(Fakes.pump(), Fakes.fixed("barrier", Role.BARRIER, "barrier gas", 1.7e6, 288));
        Setting s = Pumps.setting(m, Fakes.atWork(m).solved());
        assertThat(Assumptions.assumedPressures(List.of(s)))
                .singleElement()
                .asString()
                .startsWith("No supply feeds barrier:");
        Setting solved = Pumps.setting(Fakes.pump(), Fakes.atWork(Fakes.pump()).solved());
        assertThat(Assumptions.assumedPressures(List.of(solved))).isEmpty();
        // With nothing to keep apart nothing is assumed.
        Case alike = Pumps.stream(m, new StreamDefinition.Single("drive gas", "oxygen"));
        assertThat(Assumptions.assumedPressures(
                        List.of(Pumps.setting(alike, Fakes.atWork(alike).solved()))))
                .isEmpty();
    }
}
