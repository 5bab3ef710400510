package purgewright.sealflow.network;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import org.junit.jupiter.api.Test;
import purgewright.sealflow.model.Case;
import purgewright.sealflow.model.Cavity;
import purgewright.sealflow.network.SolveResult.Converged;
import purgewright.sealflow.network.SolveResult.NotConverged;
import purgewright.sealflow.network.SolveResult.Reason;

class NetworkSolverTest {
    private static final double NONE = Double.NaN;

    static NetworkSolver solver(SolverSettings settings) {
        return new NetworkSolver(new PerfectGases(), settings, ClosedFormPassages::find, (spec, rotor) -> null);
    }

    private static SolveResult solve(Case model) {
        return solver(SolverSettings.DEFAULT).solve(model, null);
    }

    static Converged converged(SolveResult result) {
        assertThat(result instanceof NotConverged n ? n.detail() : "").isEmpty();
        Converged c = (Converged) result;
        assertThat(c.convergence().massClosure()).isLessThan(1e-9);
        assertThat(c.convergence().energyClosure()).isLessThan(1e-9);
        assertThat(c.convergence().speciesClosure()).isLessThan(1e-9);
        return c;
    }

    private static NotConverged refused(Case model, Reason reason) {
        SolveResult result = solve(model);
        assertThat(result).isInstanceOf(NotConverged.class);
        NotConverged n = (NotConverged) result;
        assertThat(n.reason()).isEqualTo(reason);
        assertThat(n.detail()).isNotBlank();
        return n;
    }

    private static CaseSketch air() {
        return new CaseSketch()
                .stream("air", "air").fixed("high", "air", 1e6, 300).fixed("low", "air", 1e5, 300);
    }

    @Test
    void aCavityWithoutAnOpenPathToAGivenPressureIsNamed() {
        NotConverged n = refused(
                air().free("lost")
                        .free("also lost")
                        .passage("a", "high", "low", "square law", "K", 1e-15)
                        .passage("b", "lost", "also lost", "square law", "K", 1e-15)
                        .passage("shut", "lost", "low", "square law", "K", 1e-15, "closed", true)
                        .make(),
                Reason.ISOLATED_CAVITY);
        assertThat(n.worstCavity()).isEqualTo("lost");
    }

    @Test
    void anUnknownPassageTypeAndAPassageToNowhereAreRefusedInWords() {
        assertThat(refused(air().passage("a", "high", "low", "sieve").make(), Reason.BAD_GEOMETRY)
                        .detail())
                .contains("sieve");
        assertThat(refused(air().passage("a", "high", "nowhere", "nozzle").make(), Reason.BAD_GEOMETRY)
                        .detail())
                .contains("nowhere");
    }

    @Test
    void aDeadEndTakesItsNeighboursPressureAndFluid() {
        Converged c = converged(solve(air().free("middle")
                .free("pocket")
                .free("inner pocket")
                .passage("a", "high", "middle", "square law", "K", 1e-15)
                .passage("b", "middle", "low", "square law", "K", 1e-15)
                .passage("c", "pocket", "middle", "nozzle", "area", 1e-6)
                .passage("d", "inner pocket", "pocket", "nozzle", "area", 1e-6)
                .make()));
        double middle = c.cavities().get("middle").state().pressure();
        assertThat(c.cavities().get("inner pocket").state().pressure()).isEqualTo(middle);
        assertThat(c.passages().get("d").flow().massFlow()).isZero();
        assertThat(c.passages().keySet()).containsExactly("a", "b", "c", "d");
    }

    @Test
    void aClosedPassageCarriesNothingAndAHeatedDeadEndIsRefused() {
        Converged c = converged(solve(air().free("middle")
                .passage("a", "high", "middle", "nozzle", "area", 1e-6)
                .passage("b", "middle", "low", "nozzle", "area", 1e-6, "closed", true)
                .make()));
        assertThat(c.cavities().get("middle").state().pressure()).isEqualTo(1e6);
        assertThat(c.passages().get("b").flow().massFlow()).isZero();
        refused(
                air().speed(3000)
                        .cavity("pocket", null, NONE, NONE, 0.05, NONE, new Cavity.Disc(0.01, 0.08, 0.005), null)
                        .passage("a", "high", "pocket", "nozzle", "area", 1e-6)
                        .make(),
                Reason.BAD_GEOMETRY);
    }

    @Test
    void allCavitiesAtEqualPressureStandStill() {
        Converged c = converged(solve(new CaseSketch()
                .stream("air", "air")
                        .fixed("one", "air", 2e5, 300)
                        .fixed("two", "air", 2e5, 400)
                        .free("a")
                        .free("b")
                        .passage("1", "one", "a", "nozzle", "area", 1e-5)
                        .passage("2", "a", "b", "nozzle", "area", 1e-6)
                        .passage("3", "b", "two", "nozzle", "area", 1e-4)
                        .make()));
        assertThat(c.cavities().get("b").state().pressure()).isCloseTo(2e5, within(1e-4));
    }

    @Test
    void clearancesAMillionTimesApartAreSolvedInOneNetwork() {
        Converged c = converged(solve(air().free("a")
                .free("b")
                .free("c")
                .passage("1", "high", "a", "nozzle", "area", 1e-3)
                .passage("2", "a", "b", "nozzle", "area", 1e-9)
                .passage("3", "b", "c", "nozzle", "area", 1e-3)
                .passage("4", "c", "low", "nozzle", "area", 1e-3)
                .make()));
        double first = c.passages().get("1").flow().massFlow();
        assertThat(c.passages().get("4").flow().massFlow()).isCloseTo(first, within(1e-9 * first));
        assertThat(first).isCloseTo(1e-9 * 1e6 * 0.684731 / Math.sqrt(287.05 * 300), within(1e-5 * first));
    }

    @Test
    void aChainOfFortyCavitiesFollowsTheSquareLaw() {
        CaseSketch sketch = air();
        for (int i = 1; i <= 40; i++) {
            sketch.free("c" + i);
        }
        for (int i = 0; i <= 40; i++) {
            sketch.passage(
                    "p" + i, i == 0 ? "high" : "c" + i, i == 40 ? "low" : "c" + (i + 1), "square law", "K", 1e-15);
        }
        Converged c = converged(solve(sketch.make()));
        double expected = Math.sqrt(1e12 - 20 * (1e12 - 1e10) / 41);
        assertThat(c.cavities().get("c20").state().pressure()).isCloseTo(expected, within(1e-6 * expected));
    }

    @Test
    void aLoopOfChokedNozzlesSettles() {
        converged(solve(air().free("a")
                .free("b")
                .free("c")
                .passage("1", "high", "a", "nozzle", "area", 1e-5)
                .passage("2", "a", "b", "nozzle", "area", 2e-5)
                .passage("3", "b", "c", "nozzle", "area", 1e-6)
                .passage("4", "c", "a", "nozzle", "area", 3e-6)
                .passage("5", "b", "low", "nozzle", "area", 9e-5)
                .make()));
    }

    @Test
    void aWallBetweenTwoCavitiesMovesHeatAndAWallToTheOutsideHoldsADeadEnd() {
        Converged c = converged(solve(new CaseSketch()
                .stream("air", "air")
                        .fixed("hot", "air", 1e6, 900)
                        .fixed("cold", "air", 1e6, 200)
                        .fixed("out", "air", 1e5, 300)
                        .cavity("a", null, NONE, NONE, NONE, NONE, null, new Cavity.Wall(5, NONE, "b"))
                        .cavity("b", null, NONE, NONE, NONE, NONE, null, null)
                        .cavity("pocket", null, NONE, NONE, NONE, NONE, null, new Cavity.Wall(1, 250, null))
                        .passage("1", "hot", "a", "square law", "K", 1e-14)
                        .passage("2", "a", "out", "square law", "K", 1e-14)
                        .passage("3", "cold", "b", "square law", "K", 1e-14)
                        .passage("4", "b", "out", "square law", "K", 1e-14)
                        .passage("5", "pocket", "a", "square law", "K", 1e-14)
                        .make()));
        double a = c.cavities().get("a").state().temperature();
        double b = c.cavities().get("b").state().temperature();
        double flow = c.passages().get("1").flow().massFlow();
        assertThat(flow * 287.05 * 3.5 * (900 - a)).isCloseTo(5 * (a - b), within(1e-6 * 5 * (a - b)));
        assertThat(c.cavities().get("pocket").state().temperature()).isCloseTo(250, within(1e-6));
    }

    @Test
    void aWarmStartAnswersWithoutAStepAndAnInterruptCancels() {
        Case model = air().free("middle")
                .passage("a", "high", "middle", "nozzle", "area", 1e-6)
                .passage("b", "middle", "low", "nozzle", "area", 1.1e-6)
                .make();
        Converged first = converged(solve(model));
        Converged again = converged(solver(SolverSettings.DEFAULT).solve(model, first));
        assertThat(again.convergence().iterations()).isZero();
        assertThat(again.cavities().get("middle").state().pressure())
                .isEqualTo(first.cavities().get("middle").state().pressure());
        Thread.currentThread().interrupt();
        try {
            assertThat(((NotConverged) solve(model)).reason()).isEqualTo(Reason.CANCELLED);
        } finally {
            assertThat(Thread.interrupted()).isTrue();
        }
    }

    @Test
    void windageSwirlFromThroughflowAndVortexClose() {
        CaseSketch sketch = new CaseSketch()
                .stream("air", "air")
                        .speed(3000)
                        .fixed("rim", "air", 1e6, 600)
                        .cavity("wheel space", null, NONE, NONE, 0.06, NONE, new Cavity.Disc(0.03, 0.08, 0.006), null)
                        .fixed("hub", "air", 4e5, 300)
                        .seal("outer", "rim", "wheel space", "nozzle", 0.08, NONE, "area", 5e-6)
                        .seal("inner", "wheel space", "hub", "nozzle", 0.03, NONE, "area", 5e-6);
        Converged stated = converged(solve(sketch.make()));
        Converged computed = converged(
                solver(SolverSettings.DEFAULT.withSwirlFromThroughflow(true)).solve(sketch.make(), null));
        assertThat(stated.cavities().get("wheel space").windage()).isPositive();
        assertThat(computed.cavities().get("wheel space").state().pressure())
                .isNotEqualTo(stated.cavities().get("wheel space").state().pressure());
    }

    @Test
    void theFallbacksAnswerAlone() {
        Case model = NetworkSolverTest.air()
                .free("a")
                .free("b")
                .passage("1", "high", "a", "nozzle", "area", 1e-5)
                .passage("2", "a", "b", "square law", "K", 1e-14)
                .passage("3", "b", "low", "nozzle", "area", 3e-5)
                .make();
        Network net = new Network(
                model,
                new Mixers(new PerfectGases()),
                SolverSettings.DEFAULT,
                ClosedFormPassages::find,
                (spec, rotor) -> null);
        double expected = converged(solve(model)).cavities().get("b").state().pressure();
        for (SolveResult.Method method :
                new SolveResult.Method[] {SolveResult.Method.PSEUDO_TRANSIENT, SolveResult.Method.HOMOTOPY}) {
            Converged c = converged(new NetworkSolver.Search(net).only(method));
            assertThat(c.convergence().answeredBy()).isEqualTo(method);
            assertThat(c.cavities().get("b").state().pressure()).isCloseTo(expected, within(1e-6 * expected));
        }
    }
}
