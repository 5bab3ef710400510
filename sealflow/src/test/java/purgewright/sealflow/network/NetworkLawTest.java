package purgewright.sealflow.network;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Random;
import org.junit.jupiter.api.Test;
import purgewright.sealflow.model.Case;
import purgewright.sealflow.network.SolveResult.CavityState;
import purgewright.sealflow.network.SolveResult.Converged;
import purgewright.sealflow.network.SolveResult.NotConverged;

class NetworkLawTest {
    private static final double SHARE = Double.parseDouble(System.getProperty("purgewright.share", "0.01"));

    private static SolveResult solve(Case model) {
        return NetworkSolverTest.solver(SolverSettings.DEFAULT).solve(model, null);
    }

    @Test
    void ofRandomNetworksAtLeast99InAHundredAreSolvedAndTheRestSayWhy() {
        int count = (int) Math.max(200, 20_000 * SHARE);
        int byNewton = 0;
        int iterations = 0;
        List<String> failures = new ArrayList<>();
        for (int seed = 0; seed < count; seed++) {
            SolveResult result = solve(RandomNetworks.draw(seed));
            if (result instanceof NotConverged n) {
                failures.add(seed + ": " + n.detail());
            } else {
                NetworkSolverTest.converged(result);
                byNewton += result.convergence().answeredBy() == SolveResult.Method.NEWTON ? 1 : 0;
                iterations += result.convergence().iterations();
            }
        }
        assertThat(failures)
                .as("%d by Newton, %d iterations", byNewton, iterations)
                .hasSizeLessThanOrEqualTo(count / 100);
        assertThat(byNewton).isGreaterThan(count * 9 / 10);
    }

    @Test
    void theOrderOfCavitiesAndPassagesDoesNotMatter() {
        for (int seed = 0; seed < 20; seed++) {
            Converged one = NetworkSolverTest.converged(solve(RandomNetworks.draw(seed)));
            Converged other = NetworkSolverTest.converged(solve(RandomNetworks.draw(seed, 99, 1)));
            for (Map.Entry<String, CavityState> e : one.cavities().entrySet()) {
                double p = e.getValue().state().pressure();
                assertThat(other.cavities().get(e.getKey()).state().pressure())
                        .as("seed %d %s", seed, e.getKey())
                        .isCloseTo(p, within(1e-6 * p));
            }
        }
    }

    @Test
    void aHigherBoundaryPressureLowersNoPressureInANetworkOfOneGas() {
        Random r = new Random(5);
        for (int n = 0; n < 20; n++) {
            CaseSketch low = new CaseSketch().stream("air", "air");
            CaseSketch high = new CaseSketch().stream("air", "air");
            for (CaseSketch sketch : List.of(low, high)) {
                sketch.fixed("purge", "air", sketch == high ? 2.1e6 : 2e6, 300)
                        .fixed("drain", "air", 1e5, 300)
                        .free("a")
                        .free("b")
                        .free("c");
            }
            String[][] ends = {{"purge", "a"}, {"a", "b"}, {"b", "c"}, {"c", "drain"}, {"a", "c"}, {"b", "drain"}};
            for (String[] end : ends) {
                double area = Math.pow(10, -7 + 3 * r.nextDouble());
                for (CaseSketch sketch : List.of(low, high)) {
                    sketch.passage(end[0] + end[1], end[0], end[1], "nozzle", "area", area);
                }
            }
            Converged before = NetworkSolverTest.converged(solve(low.make()));
            Converged after = NetworkSolverTest.converged(solve(high.make()));
            for (String name : List.of("a", "b", "c")) {
                assertThat(after.cavities().get(name).state().pressure())
                        .isGreaterThanOrEqualTo(
                                before.cavities().get(name).state().pressure() * (1 - 1e-9));
            }
        }
    }

    @Test
    void mirroredNetworksHaveMirroredPressures() {
        Converged c = NetworkSolverTest.converged(solve(new CaseSketch()
                .stream("helium", "helium").stream("air", "air")
                        .fixed("bottle", "helium", 2e6, 300)
                        .fixed("left", "air", 1e5, 300)
                        .fixed("right", "air", 1e5, 300)
                        .free("barrier")
                        .free("left drain")
                        .free("right drain")
                        .passage("feed", "bottle", "barrier", "nozzle", "area", 1e-6)
                        .passage("l", "barrier", "left drain", "nozzle", "area", 1e-6)
                        .passage("r", "right drain", "barrier", "nozzle", "area", 1e-6)
                        .passage(
                                "lo",
                                "left drain",
                                "left",
                                "nozzle",
                                "area",
                                4e-6,
                                "diffusion area",
                                1e-3,
                                "diffusion length",
                                1e-3)
                        .passage(
                                "ro",
                                "right drain",
                                "right",
                                "nozzle",
                                "area",
                                4e-6,
                                "diffusion area",
                                1e-3,
                                "diffusion length",
                                1e-3)
                        .make()));
        CavityState left = c.cavities().get("left drain");
        CavityState right = c.cavities().get("right drain");
        assertThat(left.state().pressure()).isCloseTo(right.state().pressure(), within(1e-3));
        assertThat(left.streamFractions().get("air"))
                .isPositive()
                .isCloseTo(right.streamFractions().get("air"), within(1e-12));
    }
}
