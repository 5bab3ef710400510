package purgewright.sealflow.passage;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import purgewright.fluids.Engines;
import purgewright.fluids.FluidState;
import purgewright.fluids.PropertyEngine;

/** Where the power of rotor drag ends up: with the flow, half to each end at rest, and no jump between. */
class HeatOfDragLawTest {
    private static final PropertyEngine ENGINE = Engines.embedded();

    private static PassageFlow at(String type, double difference) {
        Passage passage = PassageLawTest.make(type, 0.1, 0.2, 4, 3000);
        FluidState helium = ENGINE.pure("helium").atPressureTemperature(4e5 + difference, 290);
        FluidState oxygen = ENGINE.pure("oxygen").atPressureTemperature(4e5, 95);
        return passage.flow(helium, oxygen);
    }

    @ParameterizedTest
    @ValueSource(strings = {"labyrinth", "floating ring", "bushing"})
    void neitherEndsHeatJumpsWhereTheFlowTurns(String type) {
        PassageFlow before = at(type, -1e-7);
        PassageFlow after = at(type, 1e-7);
        assertThat(before.massFlow()).isNegative();
        assertThat(after.massFlow()).isPositive();
        double heat = after.heat();
        assertThat(heat).isPositive();
        assertThat(before.heat()).isCloseTo(heat, within(1e-4 * heat));
        assertThat(before.heatAtTo()).isCloseTo(heat / 2, within(1e-3 * heat));
        assertThat(after.heatAtTo()).isCloseTo(heat / 2, within(1e-3 * heat));
        // On the whole way through rest no short step moves much of the heat.
        PassageFlow last = at(type, -2e4);
        for (double t = -1; t <= 1; t += 1e-4) {
            PassageFlow next = at(type, 2e4 * t * Math.abs(t));
            double largest = Math.max(next.heat(), last.heat());
            assertThat(Math.abs(next.heatAtTo() - last.heatAtTo()))
                    .as("at %s Pa", 2e4 * t * Math.abs(t))
                    .isLessThan(0.02 * largest);
            assertThat(Math.abs(next.heatAtFrom() - last.heatAtFrom())).isLessThan(0.02 * largest);
            last = next;
        }
    }

    @ParameterizedTest
    @ValueSource(strings = {"labyrinth", "floating ring", "bushing"})
    void aFlowThatCarriesItsHeatCarriesAllOfIt(String type) {
        for (double difference : new double[] {-2e5, 3e5}) {
            PassageFlow flow = at(type, difference);
            assertThat(Math.abs(flow.massFlow()) * PassageFlow.UNCARRIED).isGreaterThan(flow.heat());
            assertThat(flow.heatAtTo()).isEqualTo(difference > 0 ? flow.heat() : 0);
            assertThat(flow.heatAtFrom() + flow.heatAtTo()).isEqualTo(flow.heat());
        }
    }

    @ParameterizedTest
    @ValueSource(strings = {"floating ring", "bushing", "line"})
    void fromAHairsPressureOnAFlowGrowsWithoutGapOrJump(String type) {
        for (double speed : new double[] {0, 3000}) {
            for (FluidState up : List.of(
                    ENGINE.pure("oxygen").atPressureTemperature(4e5, 95),
                    ENGINE.pure("water").atPressureTemperature(1e6, 300),
                    ENGINE.pure("helium").atPressureTemperature(5e5, 305))) {
                DirectedPassage passage = (DirectedPassage) PassageLawTest.make(type, 0.1, 0.2, 4, speed);
                double slope = passage.slopeAtRest(up, true);
                double last = 0;
                for (double drop = 1e-3; drop < 1e3; drop *= 1.03) {
                    double flow = passage.oneWay(up, up.pressure() - drop, true).massFlow();
                    assertThat(flow).as("%s Pa", drop).isGreaterThan(last);
                    assertThat(flow / drop).isLessThan(slope * (1 + 1e-6));
                    last = flow;
                }
            }
        }
    }

    @Test
    void theStatedSlopeIsTheSlope() {
        double heat = 40;
        for (double m : new double[] {-5e-5, -3e-5, 0, 1e-5, 3.9e-5}) {
            double step = 1e-9;
            PassageFlow a = flow(m - step, heat);
            PassageFlow b = flow(m + step, heat);
            assertThat((b.heatAtTo() - a.heatAtTo()) / (2 * step))
                    .isCloseTo(flow(m, heat).heatTurning(), within(1.0));
        }
        assertThat(flow(1e-6, 0).heatAtTo()).isZero();
    }

    private static PassageFlow flow(double massFlow, double heat) {
        return new PassageFlow(massFlow, false, 0, 1e5, Double.NaN, heat, new double[0], List.of());
    }
}
