package purgewright.sealflow.network;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.Map;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import purgewright.fluids.Engines;
import purgewright.fluids.FluidState;
import purgewright.sealflow.model.Case;
import purgewright.sealflow.model.PassageSpec;
import purgewright.sealflow.network.SolveResult.CavityState;
import purgewright.sealflow.network.SolveResult.Converged;
import purgewright.sealflow.network.SolveResult.PassageState;

/** Kerosene leaks into a drain that helium sweeps; a vent at the top and a pipe at the low point take them out again. */
class LiquidPickUpTest {
    private final NetworkSolver solver = new NetworkSolver(Engines.embedded(), SolverSettings.DEFAULT);

    private static CaseSketch inflows() {
        return new CaseSketch()
                .stream("kerosene", "n-dodecane").stream("helium", "helium")
                        .fixed("pump", "kerosene", 2e6, 300)
                        .fixed("purge", "helium", 0.6e6, 300)
                        .fixed("overboard", "helium", 1e5, 300)
                        .free("drain")
                        .seal("seal", "pump", "drain", "bushing", 0.03, 0.02e-3, "length", 0.02)
                        .passage("feed", "purge", "drain", "orifice", "diameter", 1.5e-3);
    }

    private Converged solved(Case model) {
        return NetworkSolverTest.converged(solver.solve(model, null));
    }

    private static double ratio(Map<String, Double> of) {
        return of.get("kerosene") / of.get("helium");
    }

    @ParameterizedTest
    @ValueSource(doubles = {0.01, 0.2, 1, 5, 100})
    void withOneWayOutTheCavityFillsUntilWhatLeavesIsWhatComes(double pickUp) {
        Converged c = solved(inflows()
                .passage("vent", "drain", "overboard", "orifice", "diameter", 3e-3, PassageSpec.PICK_UP, pickUp)
                .make());
        double in = c.passages().get("seal").flow().massFlow()
                / c.passages().get("feed").flow().massFlow();
        assertThat(ratio(c.passages().get("vent").streamFlows())).isCloseTo(in, within(1e-7 * in));
        // Of the little kerosene that is vapour (some 1e-4 of the gas) as much leaves as stays.
        assertThat(ratio(c.cavities().get("drain").streamFractions()))
                .isCloseTo(in / pickUp, within(0.02 * in / pickUp));
    }

    @Test
    void aVentAndADrainPartTheTwoAndEverythingIsConserved() {
        Converged even = solved(inflows()
                .passage("vent", "drain", "overboard", "orifice", "diameter", 2e-3)
                .passage("low pipe", "drain", "overboard", "orifice", "diameter", 2e-3)
                .make());
        Case model = inflows()
                .passage("vent", "drain", "overboard", "orifice", "diameter", 2e-3, PassageSpec.PICK_UP, 0.05)
                .passage("low pipe", "drain", "overboard", "orifice", "diameter", 2e-3, PassageSpec.PICK_UP, 20.0)
                .make();
        Converged parted = solved(model);
        double vent = ratio(parted.passages().get("vent").streamFlows());
        double pipe = ratio(parted.passages().get("low pipe").streamFlows());
        double held = ratio(parted.cavities().get("drain").streamFractions());
        assertThat(ratio(even.passages().get("vent").streamFlows()))
                .isCloseTo(ratio(even.cavities().get("drain").streamFractions()), within(1e-9));
        assertThat(vent / held).isCloseTo(0.05, within(0.01));
        assertThat(pipe / held).isCloseTo(20, within(0.4));
        conserves(parted, "drain");
    }

    /** Mass, species and enthalpy added up from the result, each outflow with the state at its own end. */
    private static void conserves(Converged c, String cavity) {
        double energy = 0;
        double largestEnergy = 0;
        double mass = 0;
        double kerosene = 0;
        double largest = 0;
        for (PassageState p : c.passages().values()) {
            double sign = p.to().equals(cavity) ? 1 : -1;
            FluidState from = p.flow().massFlow() > 0 ? p.fromState() : p.toState();
            mass += sign * p.flow().massFlow();
            kerosene += sign * p.streamFlows().get("kerosene");
            energy += sign * p.flow().massFlow() * from.enthalpy()
                    + (sign > 0 ? p.flow().heatAtTo() : 0);
            largest = Math.max(largest, Math.abs(p.flow().massFlow()));
            largestEnergy = Math.max(largestEnergy, Math.abs(p.flow().massFlow() * from.enthalpy()));
        }
        assertThat(mass).isCloseTo(0, within(1e-9 * largest));
        assertThat(kerosene).isCloseTo(0, within(1e-9 * largest));
        assertThat(energy).isCloseTo(0, within(1e-9 * largestEnergy));
    }

    /** What is taken out has the cavity's temperature: it is a part of what is there, not something new. */
    @Test
    void whatLeavesIsAsWarmAsTheCavity() {
        Converged c = solved(inflows()
                .passage("vent", "drain", "overboard", "orifice", "diameter", 3e-3, PassageSpec.PICK_UP, 0.1)
                .make());
        assertThat(c.passages().get("vent").fromState().temperature())
                .isCloseTo(c.cavities().get("drain").state().temperature(), within(0.05));
    }

    @Test
    void aGasIsLeftAlone() {
        CaseSketch[] two = {new CaseSketch(), new CaseSketch()};
        Converged[] solved = new Converged[2];
        for (int n = 0; n < 2; n++) {
            solved[n] = solved(two[n].stream("helium", "helium").stream("nitrogen", "nitrogen")
                    .fixed("a", "helium", 3e5, 300)
                    .fixed("b", "nitrogen", 2e5, 300)
                    .fixed("out", "helium", 1e5, 300)
                    .free("middle")
                    .passage("1", "a", "middle", "orifice", "diameter", 2e-3)
                    .passage("2", "b", "middle", "orifice", "diameter", 2e-3)
                    .passage("3", "middle", "out", "orifice", "diameter", 3e-3, PassageSpec.PICK_UP, n == 0 ? 1.0 : 0.1)
                    .make());
        }
        assertThat(solved[1].passages().get("3").streamFlows())
                .isEqualTo(solved[0].passages().get("3").streamFlows());
    }

    /** Boiling oxygen by itself: a vent that takes a tenth of the liquid leaves a wetter cavity. */
    @Test
    void onePureBoilingFluidIsPartedToo() {
        double[] quality = new double[2];
        for (int n = 0; n < 2; n++) {
            Converged c = solved(new CaseSketch()
                    .stream("oxygen", "oxygen")
                            .fixed("pump", "oxygen", 1e6, 110)
                            .fixed("out", "oxygen", 1e5, 300)
                            .free("drain")
                            .passage("in", "pump", "drain", "orifice", "diameter", 1e-3)
                            .passage(
                                    "vent",
                                    "drain",
                                    "out",
                                    "orifice",
                                    "diameter",
                                    4e-3,
                                    PassageSpec.PICK_UP,
                                    n == 0 ? 1.0 : 0.1)
                            .make());
            CavityState drain = c.cavities().get("drain");
            quality[n] = drain.state().quality();
            assertThat(c.convergence().energyClosure()).isLessThan(1e-9);
        }
        double even = (1 - quality[0]) / quality[0];
        double wet = (1 - quality[1]) / quality[1];
        assertThat(wet).isBetween(5 * even, 12 * even);
    }

    @Test
    void slopesOfTheBalancesKnowOfIt() {
        Case model = inflows()
                .passage("vent", "drain", "overboard", "orifice", "diameter", 2e-3, PassageSpec.PICK_UP, 0.05)
                .passage("low pipe", "drain", "overboard", "orifice", "diameter", 2e-3, PassageSpec.PICK_UP, 5.0)
                .make();
        Converged c = solved(model);
        double told = Sensitivities.of(solver, model, c).fraction("drain", "kerosene").stream()
                .filter(s -> s.place().equals("/passages/feed/diameter"))
                .findFirst()
                .orElseThrow()
                .perShare();
        double step = 1e-4;
        double[] y = new double[2];
        for (int n = 0; n < 2; n++) {
            double d = 1.5e-3 * (1 + (n == 0 ? -step : step));
            Case other = new CaseSketch()
                    .stream("kerosene", "n-dodecane").stream("helium", "helium")
                            .fixed("pump", "kerosene", 2e6, 300)
                            .fixed("purge", "helium", 0.6e6, 300)
                            .fixed("overboard", "helium", 1e5, 300)
                            .free("drain")
                            .seal("seal", "pump", "drain", "bushing", 0.03, 0.02e-3, "length", 0.02)
                            .passage("feed", "purge", "drain", "orifice", "diameter", d)
                            .passage(
                                    "vent",
                                    "drain",
                                    "overboard",
                                    "orifice",
                                    "diameter",
                                    2e-3,
                                    PassageSpec.PICK_UP,
                                    0.05)
                            .passage(
                                    "low pipe",
                                    "drain",
                                    "overboard",
                                    "orifice",
                                    "diameter",
                                    2e-3,
                                    PassageSpec.PICK_UP,
                                    5.0)
                            .make();
            y[n] = solved(other).cavities().get("drain").streamFractions().get("kerosene");
        }
        double again = (y[1] - y[0]) / (2 * step);
        assertThat(told).isCloseTo(again, within(0.02 * Math.abs(again)));
    }
}
