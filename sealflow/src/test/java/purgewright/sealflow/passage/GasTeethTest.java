package purgewright.sealflow.passage;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import purgewright.fluids.Engines;
import purgewright.fluids.Fluid;
import purgewright.fluids.FluidState;

@DisplayName("Throttles along a line of constant enthalpy are those that the fluid itself gives")
class GasTeethTest {
    private static final PerfectGas HELIUM = new PerfectGas("helium", 2077.26, 5.0 / 3, 1.99e-5);
    private static final Fluid NITROGEN = Engines.embedded().pure("nitrogen");

    /** Tolerances relative; of a real gas that of the cubics and of the bend, linear in pressure. */
    private static void compare(Fluid fluid, double high, double temperature, double low, double off) {
        FluidState up = fluid.atPressureTemperature(high, temperature);
        GasTeeth teeth = new GasTeeth();
        assertThat(teeth.set(up, low)).isTrue();
        assertThat(teeth.lowest()).isCloseTo(low, within(1e-9 * low));
        for (double share : new double[] {1, 0.83, 0.5, 0.17, 0.02}) {
            double from = low + share * (high - low);
            FluidState here = fluid.atPressureEnthalpy(from, up.enthalpy());
            for (double ratio : new double[] {0.9999, 0.97, 0.8, 0.6, 0.5, 0.2}) {
                double to = ratio * from;
                Throttle.Flux exact = Throttle.flux(here, to, Throttle.Flashing.EQUILIBRIUM);
                teeth.flux(from, to);
                String what = fluid.name() + " " + from + " > " + to;
                assertThat(teeth.choked).as(what).isEqualTo(exact.choked());
                assertThat(teeth.flux).as(what).isCloseTo(exact.flux(), within(off * exact.flux()));
                assertThat(teeth.throat).as(what).isCloseTo(exact.throatPressure(), within(10 * off * from));
                assertThat(teeth.machSquared)
                        .as(what)
                        .isCloseTo(exact.machSquared(), within(20 * off * exact.machSquared()));
                assertThat(teeth.slope)
                        .as(what)
                        .isCloseTo(exact.slope(), within(100 * off * (Math.abs(exact.slope()) + exact.flux() / from)));
                assertThat(teeth.density).as(what).isCloseTo(here.density(), within(off * here.density()));
            }
            double step = 1e-4 * from;
            double above = fluid.atPressureEnthalpy(from + step, up.enthalpy()).density();
            double below = fluid.atPressureEnthalpy(from - step, up.enthalpy()).density();
            double growth = Math.log(above / below) / Math.log((from + step) / (from - step));
            assertThat(teeth.growth).isCloseTo(growth, within(1e3 * off));
        }
    }

    @Test
    void aPerfectGasToRounding() {
        compare(HELIUM, 2e6, 300, 1e5, 2e-8);
        compare(HELIUM, 2e5, 300, 1.99e5, 2e-8);
    }

    @Test
    void aRealGasToTheTermsLeftOut() {
        compare(NITROGEN, 1e6, 300, 3e5, 1e-4);
        compare(NITROGEN, 5e5, 250, 4.5e5, 1e-4);
        compare(Engines.embedded().pure("helium"), 3e6, 288, 1e6, 1e-4);
    }

    @Test
    void whereTheFormDoesNotHoldItIsRefused() {
        Fluid water = Engines.embedded().pure("water");
        assertThat(new GasTeeth().set(water.atPressureTemperature(5e6, 300), 1e6))
                .as("liquid")
                .isFalse();
        assertThat(new GasTeeth().set(water.atPressureEnthalpy(5e6, 2e6), 1e6))
                .as("in the dome")
                .isFalse();
        FluidState steam = water.atPressureTemperature(2e6, 487);
        assertThat(new GasTeeth().set(steam, 2e5))
                .as("its isentrope runs into the dome")
                .isFalse();
        Fluid dioxide = Engines.embedded().pure("carbon-dioxide");
        assertThat(new GasTeeth().set(dioxide.atPressureTemperature(7e6, 310), 1e6))
                .as("too bent")
                .isFalse();
        assertThat(new GasTeeth().set(NITROGEN.atPressureTemperature(1e6, 300), 3e5))
                .isTrue();
    }
}
