package purgewright.sealflow.network;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import org.junit.jupiter.api.Test;
import purgewright.fluids.Engines;
import purgewright.fluids.FluidState;
import purgewright.fluids.PureFluid;

/** How far a way is open for diffusion: whole for gas, shut for liquid, without a jump or a corner between. */
class DiffusionTest {
    private final PureFluid oxygen = Engines.embedded().pure("oxygen");

    @Test
    void fadesAsLiquidFillsTheCavity() {
        assertThat(Diffusion.openness(oxygen.atPressureTemperature(1e5, 300))).isEqualTo(1);
        assertThat(Diffusion.openness(oxygen.atPressureTemperature(1e6, 80))).isZero();
        assertThat(Diffusion.openness(oxygen.atTemperatureQuality(95, 0.975))).isCloseTo(0.5, within(1e-9));
        double before = 0;
        double step = 1e-3;
        for (double quality = 0.94; quality <= 1; quality += step) {
            double open = Diffusion.openness(oxygen.atTemperatureQuality(95, quality));
            // The steepest slope of the cubic is 1.5 over its width.
            assertThat(open - before).isBetween(0.0, 1.5 / 0.05 * step * 1.001);
            before = open;
        }
        assertThat(Diffusion.openness(oxygen.atTemperatureQuality(95, 0.9499))).isZero();
    }

    @Test
    void fadesWhereAFluidIsAsDenseAsALiquid() {
        double critical = oxygen.criticalDensity();
        double before = 1;
        int between = 0;
        for (double p = 5.5e6; p < 12e6; p *= 1.001) {
            FluidState s = oxygen.atPressureTemperature(p, 165);
            double open = Diffusion.openness(s);
            assertThat(before - open).isBetween(0.0, 0.2);
            assertThat(open).isEqualTo(s.density() <= critical ? 1 : s.density() >= 1.2 * critical ? 0 : open);
            between += open > 0 && open < 1 ? 1 : 0;
            before = open;
        }
        assertThat(between).isGreaterThan(10);
        assertThat(before).isZero();
    }

    @Test
    void isBarredOnlyWhereItIsShut() {
        for (double quality = 0; quality <= 1; quality += 0.01) {
            FluidState s = oxygen.atTemperatureQuality(95, quality);
            assertThat(Diffusion.barred(s) && Diffusion.openness(s) > 0).isFalse();
        }
    }
}
