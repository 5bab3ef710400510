package purgewright.sealflow.transients;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import java.util.function.DoubleFunction;
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
    void stepsThrownAwayAreReportedAndVolumesThatWereAssumedAreNamed() {
        Schedule loss = Schedule.steps(List.of(0.0, 0.01), List.of(barrier(true), barrier(false)));
        TransientResult run = new TransientSolver(SOLVER, TransientSettings.DEFAULT.withTolerance(1e-8))
                .run(loss, null, 0.1, List.of());
        assertThat(run.rejected()).isEqualTo(run.rejections().size());
        assertThat(run.rejections()).allSatisfy(r -> {
            assertThat(r.step()).isPositive();
            assertThat(r.time()).isBetween(0.0, 0.1);
            assertThat(r.error() > 1 || Double.isNaN(r.error())).isTrue();
        });
        assertThat(run.assumed()).isEmpty();
        Case bare = NetworkRuns.pocket();
        TransientResult other = RUNS.run(Schedule.constant(bare), null, 0.01, List.of());
        assertThat(other.assumed()).containsExactly("pocket");
        assertThat(other.assumedVolume()).isEqualTo(5e-6);
    }

    @Test
    void aSpeedRampIsFollowedAndEndsWhereTheFullSpeedStands() {
        DoubleFunction<Case> at = share -> NetworkRuns.wheel(3000 * share);
        Schedule ramp = Schedule.ramp(0.01, 0.11, 50, at);
        TransientResult run = RUNS.run(ramp, null, 2, List.of());
        assertThat(run.outcome()).isEqualTo(Outcome.FINISHED);
        assertThat(Math.abs(run.massDefect())).isLessThan(1e-7);
        double still = steadyPressure(at.apply(0));
        double full = steadyPressure(at.apply(1));
        assertThat(Math.abs(full / still - 1)).isGreaterThan(0.003);
        assertThat(run.pressure("wheel space", 0.005)).isCloseTo(still, within(1e-5 * still));
        assertThat(run.pressure("wheel space", 2)).isCloseTo(full, within(1e-4 * full));
        // Twice the pieces move the middle of the ramp by next to nothing.
        TransientResult finer = RUNS.run(Schedule.ramp(0.01, 0.11, 100, at), null, 0.06, List.of());
        double middle = finer.pressure("wheel space", 0.06);
        assertThat(run.pressure("wheel space", 0.06)).isCloseTo(middle, within(2e-5 * middle));
        assertThatThrownBy(() -> Schedule.ramp(0.1, 0.1, 5, at)).isInstanceOf(IllegalArgumentException.class);
    }

    private static double steadyPressure(Case model) {
        return ((Converged) SOLVER.solve(model, null))
                .cavities()
                .get("wheel space")
                .state()
                .pressure();
    }

    /** Small cases of this test. */
    private static final class NetworkRuns {
        static Case pocket() {
            return new CaseSketch()
                    .stream("air", "air")
                            .fixed("in", "air", 4e5, 300)
                            .fixed("out", "air", 1e5, 300)
                            .free("pocket")
                            .passage("a", "in", "pocket", "nozzle", "area", 2e-6)
                            .passage("b", "pocket", "out", "nozzle", "area", 2e-6)
                            .make();
        }

        static Case wheel(double speed) {
            return new CaseSketch()
                    .stream("air", "air")
                            .speed(speed)
                            .fixed("rim", "air", 1e6, 600)
                            .cavity(
                                    "wheel space",
                                    null,
                                    Double.NaN,
                                    Double.NaN,
                                    0.03,
                                    0.5,
                                    new Cavity.Disc(0.03, 0.08, 0.006),
                                    null)
                            .fixed("hub", "air", 4e5, 300)
                            .seal("outer", "rim", "wheel space", "nozzle", 0.08, Double.NaN, "area", 5e-6)
                            .seal("inner", "wheel space", "hub", "nozzle", 0.03, Double.NaN, "area", 5e-6)
                            .make();
        }
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
