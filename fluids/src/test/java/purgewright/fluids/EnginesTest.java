package purgewright.fluids;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.MethodSource;

class EnginesTest {
    private final PropertyEngine engine = Engines.embedded();

    static java.util.List<String> fluids() {
        return Engines.embedded().fluidNames();
    }

    @ParameterizedTest
    @CsvSource({
        "LOX, oxygen",
        "GOX, oxygen",
        "GHe, helium",
        "GN2, nitrogen",
        "LCH4, methane",
        "LNG, methane",
        "RP-1, n-dodecane",
        "kerosene, n-dodecane",
        "Jet-A, n-dodecane",
        "LH2, parahydrogen",
        "GH2, hydrogen",
        "Carbon dioxide, carbon-dioxide",
        "CO2, carbon-dioxide",
        "n-dodecane, n-dodecane",
        "H2O, water",
        "NH3, ammonia"
    })
    void namesAndAliasesAreFound(String alias, String name) {
        assertThat(engine.pure(alias).name()).isEqualTo(name);
    }

    @Test
    void aStandInSaysSo() {
        assertThat(engine.remark("kerosene")).contains("n-dodecane stands in");
        assertThat(engine.remark("LNG")).contains("methane stands in");
        assertThat(engine.remark("oxygen")).isEmpty();
    }

    @Test
    void anUnknownNameGetsASuggestion() {
        assertThatThrownBy(() -> engine.pure("nitrogne")).isInstanceOfSatisfying(PropertyException.class, e -> {
            assertThat(e.key()).isEqualTo(PropertyException.Key.UNKNOWN_FLUID);
            assertThat(e.values()).containsEntry("suggestion", "nitrogen");
        });
    }

    @Test
    void aFluidWithoutAnEquationIsRefusedAndTheNearestSuggestedNotTaken() {
        for (String name : new String[] {"isopropanol", "IPA", "isopropyl alcohol"}) {
            assertThatThrownBy(() -> engine.pure(name)).isInstanceOfSatisfying(PropertyException.class, e -> {
                assertThat(e.key()).isEqualTo(PropertyException.Key.UNKNOWN_FLUID);
                assertThat(e.values()).containsEntry("suggestion", "ethanol");
            });
        }
    }

    @Test
    void outsideTheRangeIsATypedErrorAndBetweenTheLimitsAFlag() {
        PureFluid n2 = engine.pure("nitrogen");
        assertKey(() -> n2.atPressureTemperature(1e5, 2100), PropertyException.Key.TEMPERATURE_OUT_OF_RANGE);
        assertKey(() -> n2.atPressureTemperature(1e5, 20), PropertyException.Key.TEMPERATURE_OUT_OF_RANGE);
        assertKey(() -> n2.atPressureTemperature(3e9, 300), PropertyException.Key.PRESSURE_OUT_OF_RANGE);
        assertKey(() -> n2.atPressureTemperature(-1, 300), PropertyException.Key.PRESSURE_OUT_OF_RANGE);
        assertKey(() -> n2.atPressureTemperature(Double.NaN, 300), PropertyException.Key.PRESSURE_OUT_OF_RANGE);
        assertKey(() -> n2.atPressureTemperature(1e5, Double.NaN), PropertyException.Key.TEMPERATURE_OUT_OF_RANGE);
        assertKey(() -> n2.atPressureTemperature(1e8, 65), PropertyException.Key.SOLID);
        assertKey(() -> n2.atPressureEnthalpy(1e6, -1e7), PropertyException.Key.NO_SUCH_STATE);
        assertKey(() -> n2.atPressureEnthalpy(1e6, 1e8), PropertyException.Key.TEMPERATURE_OUT_OF_RANGE);
        assertKey(() -> n2.atPressureEnthalpy(1e6, Double.NaN), PropertyException.Key.NO_SUCH_STATE);
        assertThat(n2.atPressureTemperature(1e5, 300).extrapolated()).isFalse();
        assertThat(n2.atPressureTemperature(1e5, 1500).extrapolated()).isTrue();
        // liquid hydrogen freezes nitrogen
        assertKey(() -> n2.atPressureTemperature(1e5, 20.3), PropertyException.Key.TEMPERATURE_OUT_OF_RANGE);
    }

    private static void assertKey(
            org.assertj.core.api.ThrowableAssert.ThrowingCallable call, PropertyException.Key key) {
        assertThatThrownBy(call).isInstanceOfSatisfying(PropertyException.class, e -> assertThat(e.key())
                .isEqualTo(key));
    }

    @ParameterizedTest
    @MethodSource("fluids")
    void theCriticalPointIsApproachedFromEverySide(String name) {
        PureFluid fluid = engine.pure(name);
        double tc = fluid.criticalTemperature();
        double pc = fluid.criticalPressure();
        for (double distance : new double[] {1e-1, 1e-2, 1e-3, 1e-4, 1e-5, 1e-6, 1e-7, 0}) {
            for (int i = -1; i <= 1; i += 2) {
                for (int j = -1; j <= 1; j += 2) {
                    double t = Math.min(tc * (1 + i * distance), fluid.maximumTemperature());
                    double p = pc * (1 + j * distance);
                    FluidState s = fluid.atPressureTemperature(p, t);
                    assertThat(s.density() / fluid.criticalDensity())
                            .as("density at %s K, %s Pa", t, p)
                            .isBetween(0.2, 3.0);
                    Phase expected = t < tc
                            ? p > fluid.saturationPressure(t) ? Phase.LIQUID : Phase.GAS
                            : p < pc ? Phase.GAS : Phase.SUPERCRITICAL;
                    assertThat(s.phase()).isEqualTo(expected);
                    assertThat(fluid.atPressureEnthalpy(p, s.enthalpy()).temperature())
                            .isCloseTo(t, within(1e-9 * t));
                }
            }
            if (distance > 0) {
                double t = tc * (1 - distance);
                FluidState liquid = fluid.atTemperatureQuality(t, 0);
                FluidState vapour = fluid.atTemperatureQuality(t, 1);
                assertThat(liquid.density()).isGreaterThan(vapour.density());
                assertThat(fluid.saturationTemperature(fluid.saturationPressure(t)))
                        .isCloseTo(t, within(1e-11 * t));
                assertThat(fluid.surfaceTension(t)).isGreaterThanOrEqualTo(0);
            }
        }
    }

    @ParameterizedTest
    @MethodSource("fluids")
    void metastableBranchesReachTheSpinodalAndNoFurther(String name) {
        PureFluid fluid = engine.pure(name);
        double t = 0.85 * fluid.criticalTemperature();
        double p = fluid.saturationPressure(t);
        FluidState superheated = fluid.metastable(Phase.LIQUID, 0.9 * p, t);
        FluidState saturatedLiquid = fluid.atTemperatureQuality(t, 0);
        assertThat(superheated.density()).isLessThan(saturatedLiquid.density()).isGreaterThan(fluid.criticalDensity());
        FluidState subcooled = fluid.metastable(Phase.GAS, 1.05 * p, t);
        FluidState saturatedVapour = fluid.atTemperatureQuality(t, 1);
        assertThat(subcooled.density()).isGreaterThan(saturatedVapour.density()).isLessThan(fluid.criticalDensity());
        assertThat(superheated.phase()).isEqualTo(Phase.LIQUID);
        assertThat(subcooled.phase()).isEqualTo(Phase.GAS);
        assertKey(() -> fluid.metastable(Phase.GAS, 3 * p, t), PropertyException.Key.NO_SUCH_STATE);
        assertKey(() -> fluid.metastable(Phase.LIQUID, -1e9, t), PropertyException.Key.NO_SUCH_STATE);
        // on its own side it is the stable state
        assertThat(fluid.metastable(Phase.LIQUID, 2 * p, t).density())
                .isEqualTo(fluid.atPressureTemperature(2 * p, t).density());
    }

    @Test
    @DisplayName("M. L. Huber, NISTIR 8209 (2018), table 7: extended corresponding states, seen as a transcription")
    void theTransportEstimatesAreEstimatesAndNearThePublishedModel() {
        PureFluid co = engine.pure("carbon-monoxide");
        assertThat(co.transportSource().viscosityEstimated()).isTrue();
        assertThat(engine.pure("nitrogen").transportSource().viscosityEstimated())
                .isFalse();
        FluidState liquid = co.atDensityTemperature(21287 * co.molarMass(), 119.6);
        assertThat(co.viscosity(liquid)).isCloseTo(56.705e-6, within(0.15 * 56.705e-6));
        assertThat(co.conductivity(liquid)).isCloseTo(75.730e-3, within(0.15 * 75.730e-3));
        PureFluid ne = engine.pure("neon");
        FluidState neon = ne.atDensityTemperature(45956 * ne.molarMass(), 40);
        assertThat(ne.viscosity(neon)).isCloseTo(46.737e-6, within(0.25 * 46.737e-6));
        assertThat(ne.conductivity(neon)).isCloseTo(59.297e-3, within(0.25 * 59.297e-3));
    }

    @Test
    @DisplayName("Gas viscosities at 300 K, 0.1 MPa [from memory]")
    void dilutedGasesHaveTheKnownViscosity() {
        assertThat(viscosity("carbon-monoxide")).isCloseTo(17.8e-6, within(0.03 * 17.8e-6));
        assertThat(viscosity("neon")).isCloseTo(31.8e-6, within(0.06 * 31.8e-6));
        assertThat(viscosity("helium")).isCloseTo(19.9e-6, within(0.01 * 19.9e-6));
        assertThat(viscosity("nitrogen")).isCloseTo(17.9e-6, within(0.01 * 17.9e-6));
    }

    private double viscosity(String name) {
        PureFluid fluid = engine.pure(name);
        return fluid.viscosity(fluid.atPressureTemperature(1e5, 300));
    }
}
