package purgewright.sealflow.network;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import purgewright.fluids.Engines;
import purgewright.sealflow.model.Case;
import purgewright.sealflow.model.CaseValue;
import purgewright.sealflow.network.SolveResult.Converged;
import purgewright.sealflow.passage.Conditions.Bound;

class SensitivitiesTest {
    private static CaseSketch mixing(double area, double purge) {
        return new CaseSketch()
                .stream("helium", "helium").stream("air", "air")
                        .fixed("bottle", "helium", purge, 300)
                        .fixed("hot", "air", 4e5, 700)
                        .fixed("out", "air", 1e5, 300)
                        .free("barrier")
                        .free("drain")
                        .passage("feed", "bottle", "barrier", "nozzle", "area", 1.5e-6)
                        .passage("ring", "barrier", "drain", "nozzle", "area", area)
                        .passage("seal", "hot", "drain", "nozzle", "area", 3e-6)
                        .passage("line", "drain", "out", "nozzle", "area", 2.5e-5);
    }

    private static double perShare(List<Sensitivities.Sensitivity> all, String place) {
        return all.stream()
                .filter(s -> s.place().equals(place))
                .findFirst()
                .orElseThrow()
                .perShare();
    }

    @Test
    void theAdjointAgreesWithSolvingAgain() {
        NetworkSolver solver = NetworkSolverTest.solver(SolverSettings.DEFAULT);
        Case model = mixing(2.5e-6, 1e6).make();
        Converged base = NetworkSolverTest.converged(solver.solve(model, null));
        Sensitivities s = Sensitivities.of(solver, model, base);
        double d = 1e-5;
        Converged wider = NetworkSolverTest.converged(
                solver.solve(mixing(2.5e-6 * (1 + d), 1e6).make(), base));
        Converged higher = NetworkSolverTest.converged(
                solver.solve(mixing(2.5e-6, 1e6 * (1 + d)).make(), base));
        for (String cavity : new String[] {"barrier", "drain"}) {
            double p = base.cavities().get(cavity).state().pressure();
            double byArea = (wider.cavities().get(cavity).state().pressure() - p) / d;
            double byPurge = (higher.cavities().get(cavity).state().pressure() - p) / d;
            assertThat(perShare(s.pressure(cavity), "/passages/ring/area")).isCloseTo(byArea, within(1e-3 * p));
            assertThat(perShare(s.pressure(cavity), "/cavities/bottle/pressure"))
                    .isCloseTo(byPurge, within(1e-3 * p));
        }
        double share = base.cavities().get("drain").streamFractions().get("helium");
        double byPurge = (higher.cavities().get("drain").streamFractions().get("helium") - share) / d;
        assertThat(perShare(s.fraction("drain", "helium"), "/cavities/bottle/pressure"))
                .isCloseTo(byPurge, within(1e-3 * share));
    }

    @Test
    void aWholeNumberOfMetresHasADerivativeAndACountOfTeethHasNone() {
        NetworkSolver solver = new NetworkSolver(Engines.embedded(), SolverSettings.DEFAULT);
        Case model = SpacedPump.draw(1, true);
        Converged base = NetworkSolverTest.converged(solver.solve(model, null));
        List<String> places = Sensitivities.of(solver, model, base).pressure("oxygen drain").stream()
                .map(Sensitivities.Sensitivity::place)
                .toList();
        // The line is 3 m long.
        assertThat(places)
                .contains("/passages/oxygen drain line/length", "/passages/oxygen seal/clearance")
                .doesNotContain("/passages/oxygen seal/teeth");
    }

    @Test
    void theAdverseEndOfEachBandLowersTheBarrierOverItsDrain() {
        NetworkSolver solver = new NetworkSolver(Engines.embedded(), SolverSettings.DEFAULT);
        Case model = SpacedPump.draw(1, true);
        Converged base = NetworkSolverTest.converged(solver.solve(model, null));
        Map<String, Bound> adverse = Sensitivities.of(solver, model, base).adverse("barrier", "oxygen drain");
        assertThat(adverse).containsEntry("ring A", Bound.HIGH).containsEntry("metering", Bound.LOW);
        Converged worse = NetworkSolverTest.converged(
                new NetworkSolver(Engines.embedded(), SolverSettings.DEFAULT.withBounds(Bound.NOMINAL, adverse))
                        .solve(model, base));
        assertThat(over(worse)).isLessThan(over(base));
        Map<String, Bound> favourable = Sensitivities.of(solver, model, base).favourable("barrier", "oxygen drain");
        Converged better = NetworkSolverTest.converged(
                new NetworkSolver(Engines.embedded(), SolverSettings.DEFAULT.withBounds(Bound.NOMINAL, favourable))
                        .solve(model, base));
        assertThat(over(better)).isGreaterThan(over(base));
        // No single flip of an end makes the adverse set worse: each passage stands at the end that hurts.
        for (String name : adverse.keySet()) {
            Map<String, Bound> flipped = new HashMap<>(adverse);
            flipped.put(name, favourable.get(name));
            Converged other = NetworkSolverTest.converged(
                    new NetworkSolver(Engines.embedded(), SolverSettings.DEFAULT.withBounds(Bound.NOMINAL, flipped))
                            .solve(model, worse));
            assertThat(over(other)).as(name).isGreaterThanOrEqualTo(over(worse) * (1 - 1e-9));
        }
    }

    private static double over(Converged c) {
        return c.cavities().get("barrier").state().pressure()
                - c.cavities().get("oxygen drain").state().pressure();
    }

    @Test
    void anExplanationAddsUpAndNamesWhatMovesTheCavityMost() {
        NetworkSolver solver = NetworkSolverTest.solver(SolverSettings.DEFAULT);
        Case model = mixing(2.5e-6, 1e6).make();
        Converged base = NetworkSolverTest.converged(solver.solve(model, null));
        Explanation why = Explanation.of(solver, model, base, "drain");
        assertThat(why.items()).hasSize(3);
        assertThat(why.items().stream().mapToDouble(Explanation.Item::flow).sum())
                .isCloseTo(0, within(1e-9));
        assertThat(why.items().get(0).passage()).isEqualTo("line");
        assertThat(why.pressure().subList(0, 2).stream().map(Sensitivities.Sensitivity::place))
                .containsExactlyInAnyOrder("/passages/line/area", "/cavities/out/pressure");
        assertThat(why.fractions()).containsOnlyKeys("helium", "air");
        assertThat(Explanation.of(solver, model, base, "hot").pressure()).isEmpty();
        assertThatThrownBy(() -> Explanation.of(solver, model, base, "nowhere"))
                .isInstanceOf(IllegalArgumentException.class);
    }

    /** Of the spaced pump with real fluids and seals: pressure and mixture by every clearance, diameter and set pressure. */
    @Test
    void everyClearanceDiameterAndSetPressureMovesARealPumpAsSolvingAgainShows() {
        NetworkSolver solver = new NetworkSolver(Engines.embedded(), SolverSettings.DEFAULT);
        Case model = SpacedPump.draw(1, true);
        Converged base = NetworkSolverTest.converged(solver.solve(model, null));
        Sensitivities s = Sensitivities.of(solver, model, base);
        double d = 2e-4;
        int compared = 0;
        for (Sensitivities.Sensitivity in : s.pressure("hot drain")) {
            String place = in.place();
            if (!place.endsWith("/clearance") && !place.endsWith("/diameter") && !place.endsWith("/pressure")) {
                continue;
            }
            Converged more = NetworkSolverTest.converged(
                    solver.solve(CaseValue.find(model, place).set(model, in.value() * (1 + d)), base));
            Converged less = NetworkSolverTest.converged(
                    solver.solve(CaseValue.find(model, place).set(model, in.value() * (1 - d)), base));
            for (String cavity : List.of("hot drain", "oxygen drain", "barrier")) {
                double p = base.cavities().get(cavity).state().pressure();
                double byPressure = (more.cavities().get(cavity).state().pressure()
                                - less.cavities().get(cavity).state().pressure())
                        / (2 * d);
                double told = find(s.pressure(cavity), place);
                assertThat(told)
                        .as("%s by %s", cavity, place)
                        .isCloseTo(byPressure, within(2e-2 * Math.abs(byPressure) + 1e-3 * p));
                double byHelium = (helium(more, cavity) - helium(less, cavity)) / (2 * d);
                double share = find(s.fraction(cavity, "barrier gas"), place);
                assertThat(share)
                        .as("helium in %s by %s", cavity, place)
                        .isCloseTo(byHelium, within(2e-2 * Math.abs(byHelium) + 1e-5));
                compared++;
            }
        }
        assertThat(compared).isGreaterThanOrEqualTo(30);
    }

    private static double helium(Converged c, String cavity) {
        return c.cavities().get(cavity).streamFractions().get("barrier gas");
    }

    /** 0 where a quantity does not feel an input, as upstream of a choke. */
    private static double find(List<Sensitivities.Sensitivity> all, String place) {
        return all.stream()
                .filter(s -> s.place().equals(place))
                .mapToDouble(Sensitivities.Sensitivity::perShare)
                .findFirst()
                .orElse(0);
    }
}
