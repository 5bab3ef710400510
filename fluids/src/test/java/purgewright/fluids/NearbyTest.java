package purgewright.fluids;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import java.util.SplittableRandom;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import purgewright.fluids.mixture.StreamDefinition;
import purgewright.fluids.mixture.StreamMixer;

@DisplayName("A state searched from a neighbour")
class NearbyTest {
    private static final double SAME = 1e-10;

    private static void same(FluidState a, FluidState b) {
        assertThat(b.temperature()).isCloseTo(a.temperature(), within(SAME * a.temperature()));
        assertThat(b.density()).isCloseTo(a.density(), within(1e2 * SAME * a.density()));
        assertThat(b.phase()).isEqualTo(a.phase());
    }

    @ParameterizedTest
    @ValueSource(strings = {"helium", "oxygen", "methane", "water", "n-dodecane"})
    void isTheStateFoundWithoutOneWhateverTheNeighbour(String name) {
        PureFluid fluid = Engines.embedded().pure(name);
        SplittableRandom random = new SplittableRandom(7);
        double low = fluid.tripleTemperature() * 1.05;
        double high = Math.min(fluid.maximumTemperature(), 4 * fluid.criticalTemperature());
        FluidState near = fluid.atPressureTemperature(1e5, 0.5 * (low + high));
        for (int i = 0; i < 300; i++) {
            double p =
                    Math.exp(random.nextDouble(Math.log(2e4), Math.log(0.5 * Math.min(6e7, fluid.maximumPressure()))));
            FluidState state;
            try {
                state = fluid.atPressureTemperature(p, random.nextDouble(low, high));
            } catch (PropertyException solid) {
                continue;
            }
            FluidState cold = fluid.atPressureEnthalpy(p, state.enthalpy());
            same(cold, fluid.atPressureEnthalpy(p, state.enthalpy(), near));
            same(fluid.atPressureEntropy(p, state.entropy()), fluid.atPressureEntropy(p, state.entropy(), near));
            same(cold, fluid.atPressureEnthalpy(p, state.enthalpy(), state));
            near = state;
        }
    }

    @Test
    void isTheSameForMixturesThatCondense() {
        StreamMixer mixer = Engines.embedded()
                .mixer(List.of(
                        new StreamDefinition.Single("feed", "oxygen"), new StreamDefinition.Single("purge", "helium")));
        SplittableRandom random = new SplittableRandom(8);
        FluidState near = null;
        int wet = 0;
        for (int i = 0; i < 300; i++) {
            double y = random.nextDouble(0.01, 0.99);
            Fluid fluid = mixer.mix(new double[] {y, 1 - y});
            FluidState state = fluid.atPressureTemperature(random.nextDouble(5e4, 2e6), random.nextDouble(70, 200));
            wet += state.phase() == Phase.TWO_PHASE ? 1 : 0;
            if (near != null) {
                FluidState cold = fluid.atPressureEnthalpy(state.pressure(), state.enthalpy());
                same(cold, fluid.atPressureEnthalpy(state.pressure(), state.enthalpy(), near));
                same(
                        fluid.atPressureEntropy(state.pressure(), state.entropy()),
                        fluid.atPressureEntropy(state.pressure(), state.entropy(), near));
            }
            near = state;
        }
        assertThat(wet).isGreaterThan(30);
    }
}
