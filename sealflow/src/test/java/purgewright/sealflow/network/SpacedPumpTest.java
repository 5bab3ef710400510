package purgewright.sealflow.network;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import purgewright.fluids.Engines;
import purgewright.sealflow.network.SolveResult.Converged;

/**
 * The design document's first example with real fluids and seals, against the independent estimate printed beside it: barrier 1.7
 * MPa, helium 7 g/s, oxygen seal 0.35 kg/s, oxygen drain 0.31 to 0.35 MPa at 94 K, hot seal 21 g/s, hot drain 0.2 MPa; both ring
 * clearances doubled: barrier 0.7 MPa. The estimate had no check valve and no rotation, so 20 % is what two such models may differ.
 */
@DisplayName("spaced pump, helium barrier: independent estimate of the design document")
class SpacedPumpTest {
    private static Converged solve(double ringFactor) {
        return NetworkSolverTest.converged(new NetworkSolver(Engines.embedded(), SolverSettings.DEFAULT)
                .solve(SpacedPump.draw(ringFactor, true), null));
    }

    private static double pressure(Converged c, String cavity) {
        return c.cavities().get(cavity).state().pressure();
    }

    private static double flow(Converged c, String passage) {
        return c.passages().get(passage).flow().massFlow();
    }

    @Test
    void pressuresAndFlowsAreOfTheExpectedScale() {
        Converged c = solve(1);
        assertThat(c.convergence().answeredBy()).isEqualTo(SolveResult.Method.NEWTON);
        assertThat(pressure(c, "barrier")).isCloseTo(1.7e6, within(0.2 * 1.7e6));
        assertThat(flow(c, "metering")).isCloseTo(7e-3, within(0.1 * 7e-3));
        assertThat(flow(c, "oxygen seal")).isCloseTo(0.35, within(0.1 * 0.35));
        assertThat(pressure(c, "oxygen drain")).isBetween(0.8 * 0.31e6, 1.2 * 0.35e6);
        assertThat(c.cavities().get("oxygen drain").state().temperature()).isCloseTo(94, within(1.5));
        assertThat(flow(c, "hot seal")).isCloseTo(21e-3, within(0.2 * 21e-3));
        assertThat(pressure(c, "hot drain")).isCloseTo(0.2e6, within(0.2 * 0.2e6));
    }

    @Test
    void doubledRingClearancesCostMoreThanHalfOfTheBarrierPressure() {
        Converged c = solve(2);
        assertThat(pressure(c, "barrier")).isCloseTo(0.7e6, within(0.2 * 0.7e6));
    }

    @Test
    void aWarmStartAgreesWithTheColdOne() {
        NetworkSolver solver = new NetworkSolver(Engines.embedded(), SolverSettings.DEFAULT);
        Converged near = NetworkSolverTest.converged(solver.solve(SpacedPump.draw(1.05, true), null));
        Converged cold = NetworkSolverTest.converged(solver.solve(SpacedPump.draw(1, true), null));
        Converged warm = NetworkSolverTest.converged(solver.solve(SpacedPump.draw(1, true), near));
        assertThat(pressure(warm, "barrier")).isCloseTo(pressure(cold, "barrier"), within(1e-7 * 1.6e6));
        assertThat(pressure(warm, "oxygen drain")).isCloseTo(pressure(cold, "oxygen drain"), within(1e-7 * 3e5));
    }

    @Test
    void aSupplyThatCannotHoldTheDrainOutSaysThatARingIsAboutToTurnInsteadOfGivingUpWithoutACause() {
        SolveResult result = new NetworkSolver(Engines.embedded(), SolverSettings.DEFAULT)
                .solve(SpacedPump.draw(1, true, 0.205e6), null);
        if (result instanceof SolveResult.NotConverged n) {
            assertThat(n.reason()).isEqualTo(SolveResult.Reason.OVERHEATED);
            assertThat(n.detail()).contains("'ring A'").contains("turn");
            assertThat(n.best()).isNotEmpty();
            assertThat(n.convergence().conditionEstimate()).isGreaterThan(1);
        } else {
            Converged c = NetworkSolverTest.converged(result);
            assertThat(pressure(c, "barrier")).isLessThan(1.1 * pressure(c, "oxygen drain"));
        }
    }
}
