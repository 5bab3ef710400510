package purgewright.sealflow.calibration;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Random;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import purgewright.fluids.Engines;
import purgewright.fluids.FluidState;
import purgewright.fluids.PureFluid;
import purgewright.sealflow.model.CaseValue;
import purgewright.sealflow.model.PassageSpec;
import purgewright.sealflow.model.Rotor;
import purgewright.sealflow.passage.Conditions;
import purgewright.sealflow.passage.PassageTypes;

@DisplayName("A clearance from measured flows: synthetic truth with noise")
class PassageFitTest {
    private static final double TRUTH = 31e-6;
    private static final double NOISE = 0.02;

    private static PassageSpec ring() {
        Map<String, Object> fields = new LinkedHashMap<>(Map.of("length", 6e-3));
        return new PassageSpec(
                "ring",
                "a",
                "b",
                "floating ring",
                1,
                25e-3,
                25e-6,
                Double.NaN,
                Double.NaN,
                1,
                Double.NaN,
                false,
                fields);
    }

    private static List<PassageFit.Reading> readings(Random random, int n, double factor) {
        PureFluid gas = Engines.embedded().pure("nitrogen");
        var passage = PassageTypes.find("floating ring")
                .orElseThrow()
                .build(CaseValue.open(ring(), TRUTH), new Conditions(0, TRUTH, Conditions.Bound.NOMINAL));
        List<PassageFit.Reading> out = new ArrayList<>();
        for (int i = 0; i < n; i++) {
            FluidState up = gas.atPressureTemperature(2e5 + 1e5 * i, 293);
            FluidState down = gas.atPressureEnthalpy(101e3, up.enthalpy());
            double m = factor * passage.flow(up, down).massFlow();
            out.add(new PassageFit.Reading(up, down, 0, m * (1 + NOISE * random.nextGaussian()), NOISE * m));
        }
        return out;
    }

    @Test
    void withoutNoiseTheTruthComesBack() {
        List<PassageFit.Reading> exact = new ArrayList<>();
        for (PassageFit.Reading r : readings(
                new Random(1) {
                    private static final long serialVersionUID = 1L;

                    @Override
                    public double nextGaussian() {
                        return 0;
                    }
                },
                6,
                1)) {
            exact.add(r);
        }
        PassageFit.Result r = PassageFit.fit(ring(), Rotor.STILL, exact, true, false);
        assertThat(r.clearanceRatio()).isCloseTo(TRUTH / 25e-6, within(1e-5));
        assertThat(r.settled()).isTrue();
        PassageFit.Result factor = PassageFit.fit(CaseValue.open(ring(), TRUTH), Rotor.STILL, exact, false, true);
        assertThat(factor.factorRatio()).isCloseTo(1, within(1e-6));
    }

    @Test
    void theIntervalHoldsTheTruthAsOftenAsItSays() {
        int inside = 0;
        int n = 200;
        Random random = new Random(20260115);
        for (int i = 0; i < n; i++) {
            PassageFit.Result r = PassageFit.fit(ring(), Rotor.STILL, readings(random, 6, 1), true, false);
            double z = Math.log(r.clearanceRatio() * 25e-6 / TRUTH) / r.clearanceSigma();
            inside += Math.abs(z) < 1.96 ? 1 : 0;
        }
        // 95 % of 200 with five standard deviations of the binomial to spare.
        assertThat(inside).isBetween(174, 200);
    }

    @Test
    void clearanceAndFactorTogetherAreHardlyToldApart() {
        PassageFit.Result r = PassageFit.fit(ring(), Rotor.STILL, readings(new Random(3), 8, 0.8), true, true);
        assertThat(Math.abs(r.correlation())).isGreaterThan(0.9);
        assertThat(r.clearanceSigma()).isGreaterThan(0.01);
    }

    @Test
    void aPassageWithoutClearanceIsRefused() {
        PassageSpec orifice = new PassageSpec(
                "o",
                "a",
                "b",
                "orifice",
                1,
                Double.NaN,
                Double.NaN,
                Double.NaN,
                Double.NaN,
                1,
                Double.NaN,
                false,
                Map.of("diameter", 1e-3));
        assertThatThrownBy(() -> PassageFit.fit(orifice, Rotor.STILL, readings(new Random(1), 3, 1), true, false))
                .hasMessageContaining("flow factor");
    }
}
