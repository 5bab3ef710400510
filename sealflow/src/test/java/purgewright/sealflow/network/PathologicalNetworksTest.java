package purgewright.sealflow.network;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.Map;
import java.util.Random;
import org.junit.jupiter.api.Test;
import purgewright.fluids.Engines;
import purgewright.fluids.FluidState;
import purgewright.sealflow.model.Case;
import purgewright.sealflow.model.PassageSpec;
import purgewright.sealflow.network.SolveResult.Converged;
import purgewright.sealflow.network.SolveResult.NotConverged;
import purgewright.sealflow.network.SolveResult.PassageState;

/** Networks at the edges of what fluids and balances allow, with the product's own passages and equations of state. */
class PathologicalNetworksTest {
    private static final double CRITICAL_PRESSURE = 5.043e6; // oxygen, rounded
    private static final double CRITICAL_TEMPERATURE = 154.58;

    private static final Object[] TEETH = {"teeth", 4.0, "pitch", 3e-3, "tip", 0.3e-3, "arrangement", "straight"};

    private final NetworkSolver solver = new NetworkSolver(Engines.embedded(), SolverSettings.DEFAULT);

    private static CaseSketch oxygen(double pressure, double temperature, double back) {
        return new CaseSketch()
                .stream("oxygen", "oxygen").stream("helium", "helium")
                        .fixed("pump", "oxygen", pressure, temperature)
                        .fixed("purge", "helium", 0.9 * pressure, 290)
                        .fixed("vent", "helium", back, 290)
                        .free("first")
                        .free("second")
                        .seal("inner", "pump", "first", "labyrinth", 0.03, 0.1e-3, TEETH)
                        .seal("outer", "first", "second", "bushing", 0.03, 0.1e-3, "length", 0.01)
                        .passage("feed", "purge", "second", "orifice", "diameter", 1e-3)
                        .passage("drain", "second", "vent", "orifice", "diameter", 4e-3);
    }

    @Test
    void oxygenAllAroundItsCriticalPointIsSolved() {
        for (double p : new double[] {0.98, 0.999, 1.0001, 1.001, 1.02, 1.2}) {
            for (double t : new double[] {0.97, 0.995, 0.9999, 1.0001, 1.005, 1.03}) {
                double pressure = p * CRITICAL_PRESSURE;
                Converged c = NetworkSolverTest.converged(solver.solve(
                        oxygen(pressure, t * CRITICAL_TEMPERATURE, 0.95 * pressure)
                                .make(),
                        null));
                assertThat(c.cavities().get("first").state().pressure())
                        .as("%g p_c, %g T_c", p, t)
                        .isBetween(0.95 * pressure, pressure);
            }
        }
    }

    /** Liquid oxygen throttled far below its triple pressure of 146 Pa would freeze: the refusal names the cavity and says solid. */
    @Test
    void aVacuumVentEitherSolvesOrSaysWhatWouldFreeze() {
        int solved = 0;
        for (double back : new double[] {20e3, 2e3, 500, 100, 10, 1}) {
            CaseSketch s = new CaseSketch()
                    .stream("oxygen", "oxygen")
                            .fixed("pump", "oxygen", 0.5e6, 95)
                            .fixed("space", "oxygen", back, 300)
                            .free("drain")
                            .seal("seal", "pump", "drain", "labyrinth", 0.03, 0.1e-3, TEETH)
                            .passage("vent", "drain", "space", "line", "diameter", 20e-3, "length", 2.0);
            SolveResult r = solver.solve(s.make(), null);
            if (r instanceof Converged c) {
                solved++;
                FluidState drain = c.cavities().get("drain").state();
                assertThat(drain.pressure()).isGreaterThan(back);
                assertThat(drain.temperature()).isGreaterThan(54.3); // triple point 54.361 K, published
            } else {
                assertThat(((NotConverged) r).detail()).contains("drain");
            }
        }
        assertThat(solved).isGreaterThanOrEqualTo(4);
    }

    /** What crosses beyond upwind convection, in moles: nothing in sum. */
    @Test
    void whatDiffusesAgainstEachOtherAddsUpToNothingInMoles() {
        Random random = new Random(3);
        for (int n = 0; n < 40; n++) {
            double back = 1e5 * (1 - 1e-6 * random.nextDouble());
            Case model = new CaseSketch()
                    .stream("nitrogen", "nitrogen").stream("helium", "helium").stream("argon", "argon")
                            .fixed("left", "nitrogen", 1e5, 280 + 40 * random.nextDouble())
                            .fixed("right", "helium", back, 300)
                            .fixed("below", "argon", 1e5, 300)
                            .free("middle")
                            .passage("a", "left", "middle", "orifice", "diameter", 5e-3, "thickness", 5e-3)
                            .passage("b", "middle", "right", "orifice", "diameter", 7e-3, "thickness", 9e-3)
                            .passage("c", "middle", "below", "orifice", "diameter", 4e-3, "thickness", 9e-3)
                            .make();
            Converged c = NetworkSolverTest.converged(solver.solve(model, null));
            Map<String, Double> molarMass = Map.of("nitrogen", 0.0280134, "helium", 0.004002602, "argon", 0.039948);
            for (PassageSpec spec : model.passages()) {
                PassageState p = c.passages().get(spec.name());
                // The law's own mass flow, before anything diffuses.
                double bare = solver.passage(spec, model.rotor())
                        .flow(p.fromState(), p.toState())
                        .massFlow();
                Map<String, Double> y =
                        c.cavities().get(bare >= 0 ? p.from() : p.to()).streamFractions();
                double moles = 0;
                double largest = 0;
                for (Map.Entry<String, Double> e : molarMass.entrySet()) {
                    double beyond =
                            (p.streamFlows().getOrDefault(e.getKey(), 0.0) - bare * y.getOrDefault(e.getKey(), 0.0))
                                    / e.getValue();
                    moles += beyond;
                    largest = Math.max(largest, Math.abs(beyond));
                }
                assertThat(largest).as(p.name()).isGreaterThan(1e-9);
                assertThat(moles).as(p.name()).isCloseTo(0, within(1e-5 * largest));
            }
        }
    }
}
