package purgewright.sealflow.transients;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import org.junit.jupiter.api.Test;
import purgewright.sealflow.model.Case;
import purgewright.sealflow.model.Cavity;
import purgewright.sealflow.network.CaseSketch;
import purgewright.sealflow.network.ClosedFormPassages;
import purgewright.sealflow.network.NetworkSolver;
import purgewright.sealflow.network.PerfectGases;
import purgewright.sealflow.network.SolveResult.Converged;
import purgewright.sealflow.network.SolverSettings;
import purgewright.sealflow.transients.TransientResult.Outcome;

class TransientSolverTest {
    private static final NetworkSolver SOLVER =
            new NetworkSolver(new PerfectGases(), SolverSettings.DEFAULT, ClosedFormPassages::find, (s, r) -> null);
    private static final TransientSolver RUNS = new TransientSolver(SOLVER, TransientSettings.DEFAULT);

    private static Case barrier(boolean purged) {
        return new CaseSketch()
                .stream("helium", "helium").stream("air", "air")
                        .fixed("bottle", "helium", 2e6, 300)
                        .fixed("process", "air", 4e5, 400)
                        .fixed("vent", "air", 1e5, 300)
                        .vessel("receiver", 5e-4, 0, 300)
                        .vessel("barrier", 20e-6, 0, 300)
                        .vessel("drain", 30e-6, 0, 300)
                        .passage("check valve", "bottle", "receiver", "nozzle", "area", 2e-5, "closed", !purged)
                        .passage("metering", "receiver", "barrier", "nozzle", "area", 2e-6)
                        .passage("ring", "barrier", "drain", "nozzle", "area", 3e-6)
                        .passage("seal", "process", "drain", "nozzle", "area", 5e-6)
                        .passage("line", "drain", "vent", "nozzle", "area", 3e-5)
                        .make();
    }

    @Test
    void aSteadyStateStaysWhereItIs() {
        TransientResult run = RUNS.run(Schedule.constant(barrier(true)), null, 1, List.of());
        assertThat(run.outcome()).isEqualTo(Outcome.FINISHED);
        assertThat(run.pressure("barrier", 1)).isCloseTo(run.pressure("barrier", 0), within(1.0));
        assertThat(Math.abs(run.massDefect())).isLessThan(1e-7);
    }

    @Test
    void aLostPurgeEndsInSteadyStateAndTellsWhenTheBarrierFellBelowItsMargin() {
        Schedule loss = Schedule.steps(List.of(0.0, 0.01), List.of(barrier(true), barrier(false)));
        Event margin = Event.pressureMargin("margin", "barrier", "drain", 0.2e6, false);
        TransientResult run = RUNS.run(loss, null, 5, List.of(margin));
        assertThat(run.outcome()).isEqualTo(Outcome.FINISHED);
        assertThat(run.hits()).hasSize(1);
        assertThat(run.firstHit("margin")).isBetween(0.011, 2.0);
        double p = run.pressure("barrier", run.firstHit("margin"));
        double drain = run.pressure("drain", run.firstHit("margin"));
        assertThat(p - drain).isCloseTo(0.2e6, within(1.0));
        assertThat(Math.abs(run.massDefect())).isLessThan(1e-7);
        // After the helium has gone the barrier stands at the drain's pressure, which the process alone makes.
        assertThat(run.pressure("barrier", 5)).isCloseTo(run.pressure("drain", 5), within(200.0));
    }

    @Test
    void aRunFromAnotherStateSettlesAtTheSteadySolution() {
        Case model = barrier(true);
        Converged steady = (Converged) SOLVER.solve(model, null);
        Converged off = (Converged) SOLVER.solve(barrierAt(1e6), null);
        TransientResult run = RUNS.run(Schedule.constant(model), off, 5, List.of());
        for (String cavity : List.of("receiver", "barrier", "drain")) {
            double p = steady.cavities().get(cavity).state().pressure();
            assertThat(run.pressure(cavity, 5)).isCloseTo(p, within(2e-4 * p));
        }
        double helium = steady.cavities().get("drain").streamFractions().get("helium");
        assertThat(run.fraction("drain", "helium", 5)).isCloseTo(helium, within(2e-4));
    }

    private static Case barrierAt(double bottle) {
        Case model = barrier(true);
        return new Case(
                model.about(),
                model.surroundings(),
                model.rotor(),
                model.streams(),
                model.cavities().stream()
                        .map(c -> c.name().equals("bottle")
                                ? new Cavity(
                                        c.name(),
                                        c.role(),
                                        c.stream(),
                                        bottle,
                                        c.temperature(),
                                        c.volume(),
                                        c.radius(),
                                        c.swirlRatio(),
                                        c.disc(),
                                        c.wall(),
                                        c.circumferentialVariation())
                                : c)
                        .toList(),
                model.passages(),
                model.duty(),
                model.criteria(),
                model.extras());
    }

    @Test
    void anInterruptEndsARunAndABadScheduleIsRefused() {
        Thread.currentThread().interrupt();
        try {
            Converged steady;
            assertThat(Thread.interrupted()).isTrue();
            steady = (Converged) SOLVER.solve(barrier(true), null);
            Thread.currentThread().interrupt();
            assertThat(RUNS.run(Schedule.constant(barrier(true)), steady, 1, List.of())
                            .outcome())
                    .isEqualTo(Outcome.CANCELLED);
        } finally {
            assertThat(Thread.interrupted()).isTrue();
        }
        assertThatThrownBy(() -> Schedule.steps(List.of(1.0), List.of(barrier(true))))
                .isInstanceOf(IllegalArgumentException.class);
    }
}
