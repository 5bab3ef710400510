package purgewright.sealflow.rotating;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import org.junit.jupiter.api.Test;
import purgewright.fluids.Engines;
import purgewright.fluids.FluidState;

class AxialForceTest {
    @Test
    void stillFluidPushesWithOnePressure() {
        FluidState air = Engines.embedded().pure("nitrogen").atPressureTemperature(1e6, 300);
        assertThat(AxialForce.force(air, 0, Double.NaN, 0.02, 0.08))
                .isCloseTo(1e6 * Math.PI * (0.0064 - 0.0004), within(1e-6));
    }

    @Test
    void aLiquidUnderSwirlPushesWithTheParabolaOfTheClosedForm() {
        // p = p0 + rho W^2 (r^2 - r0^2)/2: F = A (p0 + rho W^2/2 ((ro^2 + ri^2)/2 - r0^2)); water is stiff but not
        // rigid.
        FluidState water = Engines.embedded().pure("water").atPressureTemperature(5e6, 293.15);
        double swirl = 1000;
        double expected = Math.PI
                * (0.0064 - 0.0004)
                * (5e6 + 0.5 * water.density() * swirl * swirl * ((0.0064 + 0.0004) / 2 - 0.0064));
        assertThat(AxialForce.force(water, swirl, 0.08, 0.02, 0.08)).isCloseTo(expected, within(2e-3 * expected));
    }

    @Test
    void aGasColumnIsTheAdiabaticOne() {
        FluidState gas = Engines.embedded().pure("nitrogen").atPressureTemperature(1e6, 300);
        double sum = 0;
        int n = 20000;
        for (int i = 0; i < n; i++) {
            double r = 0.02 + 0.06 * (i + 0.5) / n;
            sum += 2 * Math.PI * r * ForcedVortex.pressure(gas, 2000, 0.02, r) * 0.06 / n;
        }
        assertThat(AxialForce.force(gas, 2000, 0.02, 0.02, 0.08)).isCloseTo(sum, within(1e-7 * sum));
    }

    @Test
    void aLiquidPulledBelowZeroPressureHasNoForce() {
        FluidState water = Engines.embedded().pure("water").atPressureTemperature(2e5, 293.15);
        assertThat(AxialForce.force(water, 3000, 0.08, 0.0, 0.08)).isNaN();
    }
}
