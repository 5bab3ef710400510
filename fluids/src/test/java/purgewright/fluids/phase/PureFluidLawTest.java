package purgewright.fluids.phase;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import net.jqwik.api.Arbitraries;
import net.jqwik.api.Arbitrary;
import net.jqwik.api.Assume;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.Provide;
import net.jqwik.api.constraints.DoubleRange;
import purgewright.fluids.Engines;
import purgewright.fluids.FluidState;
import purgewright.fluids.Phase;
import purgewright.fluids.PropertyException;
import purgewright.fluids.PureFluid;

/** Laws that any fluid obeys, over fluids and states. */
class PureFluidLawTest {
    @Provide
    Arbitrary<PureFluid> fluids() {
        return Arbitraries.of(Engines.embedded().fluidNames()).map(Engines.embedded()::pure);
    }

    /** A single-phase state at a share of the range in T and of the logarithm in p, or null in the solid. */
    private static FluidState state(PureFluid fluid, double a, double b) {
        double low = fluid.tripleTemperature() * 1.001;
        double t = low * Math.pow(Math.min(fluid.maximumTemperature(), 1500) * 0.999 / low, a);
        double p = 1e3 * Math.pow(Math.min(0.99 * fluid.maximumPressure(), 2e8) / 1e3, b);
        try {
            FluidState s = fluid.atPressureTemperature(p, t);
            // the neighbours that difference quotients ask for are fluid too
            double harder =
                    Math.min(p * 1.001 + 1e-4 * s.density() * s.soundSpeed() * s.soundSpeed(), fluid.maximumPressure());
            fluid.atPressureTemperature(harder, t * (1 - 3e-4));
            double tc = fluid.criticalTemperature();
            boolean nearCritical =
                    Math.abs(t / tc - 1) < 0.03 && Math.abs(s.density() / fluid.criticalDensity() - 1) < 0.5;
            boolean nearLine = t < tc && Math.abs(p / fluid.saturationPressure(t) - 1) < 1e-3;
            return nearCritical || nearLine ? null : s;
        } catch (PropertyException e) {
            assertThat(e.key()).isEqualTo(PropertyException.Key.SOLID);
            return null;
        }
    }

    @Property(seed = "20261126")
    void heatCapacitiesAreOrderedAndPressureRisesWithDensity(
            @ForAll("fluids") PureFluid fluid,
            @ForAll @DoubleRange(max = 1) double a,
            @ForAll @DoubleRange(max = 1) double b) {
        FluidState s = state(fluid, a, b);
        Assume.that(s != null);
        assertThat(s.cv()).isPositive();
        assertThat(s.cp()).isGreaterThan(s.cv() * (1 - 1e-9));
        assertThat(s.soundSpeed()).isPositive();
        FluidState denser = fluid.atDensityTemperature(s.density() * (1 + 1e-6), s.temperature());
        assertThat(denser.pressure()).isGreaterThan(s.pressure());
    }

    @Property(seed = "20261126")
    void enthalpyAndEntropyRiseWithTemperature(
            @ForAll("fluids") PureFluid fluid,
            @ForAll @DoubleRange(max = 1) double a,
            @ForAll @DoubleRange(max = 1) double b) {
        FluidState s = state(fluid, a, b);
        Assume.that(s != null);
        FluidState warmer = fluid.atPressureTemperature(s.pressure(), s.temperature() * (1 + 1e-5));
        assertThat(warmer.enthalpy()).isGreaterThan(s.enthalpy());
        assertThat(warmer.entropy()).isGreaterThan(s.entropy());
    }

    @Property(seed = "20261126")
    void enthalpyAndEntropyHangTogether(
            @ForAll("fluids") PureFluid fluid,
            @ForAll @DoubleRange(max = 1) double a,
            @ForAll @DoubleRange(max = 1) double b) {
        // dh = T ds + dp/rho, along an isobar and along an isotherm; central differences
        FluidState s = state(fluid, a, b);
        Assume.that(s != null);
        double step = 1e-4 * s.temperature();
        FluidState hot = fluid.atPressureTemperature(s.pressure(), s.temperature() + step);
        FluidState cold = fluid.atPressureTemperature(s.pressure(), s.temperature() - step);
        Assume.that(hot.phase() == cold.phase());
        double dh = hot.enthalpy() - cold.enthalpy();
        assertThat(dh).isCloseTo(s.temperature() * (hot.entropy() - cold.entropy()), within(1e-5 * dh));
        assertThat(dh / (2 * step)).isCloseTo(s.cp(), within(1e-4 * s.cp()));
    }

    @Property(seed = "20261126")
    void maxwellsRelationHoldsOnTheIsotherm(
            @ForAll("fluids") PureFluid fluid,
            @ForAll @DoubleRange(max = 1) double a,
            @ForAll @DoubleRange(max = 1) double b) {
        // (ds/dv)_T = (dp/dT)_v
        FluidState s = state(fluid, a, b);
        Assume.that(s != null);
        double t = s.temperature();
        double rho = s.density();
        double f = 1e-5;
        FluidState dense = fluid.atDensityTemperature(rho * (1 + f), t);
        FluidState thin = fluid.atDensityTemperature(rho * (1 - f), t);
        FluidState hot = fluid.atDensityTemperature(rho, t * (1 + f));
        FluidState cold = fluid.atDensityTemperature(rho, t * (1 - f));
        Assume.that(dense.phase() == thin.phase() && hot.phase() == cold.phase());
        Assume.that(dense.phase() != Phase.TWO_PHASE && hot.phase() != Phase.TWO_PHASE);
        Assume.that(s.phase() == dense.phase() && s.phase() == hot.phase());
        double volumeStep = 1 / (rho * (1 - f)) - 1 / (rho * (1 + f));
        double left = (thin.entropy() - dense.entropy()) / volumeStep;
        double right = (hot.pressure() - cold.pressure()) / (2 * f * t);
        double rounding =
                1e-15 * Math.abs(s.entropy()) / volumeStep + 1e-15 * rho * s.soundSpeed() * s.soundSpeed() / (f * t);
        assertThat(left).isCloseTo(right, within(1e-5 * Math.abs(right) + 10 * rounding));
    }

    @Property(seed = "20261126")
    void theSlopeOfTheVapourPressureIsClausiusAndClapeyrons(
            @ForAll("fluids") PureFluid fluid, @ForAll @DoubleRange(min = 0.01, max = 0.98) double a) {
        double low = fluid.tripleTemperature();
        double t = low + a * (fluid.criticalTemperature() - low);
        FluidState liquid = fluid.atTemperatureQuality(t, 0);
        FluidState vapour = fluid.atTemperatureQuality(t, 1);
        double step = 1e-4 * (fluid.criticalTemperature() - t) + 1e-6 * t;
        double slope = (fluid.saturationPressure(t + step) - fluid.saturationPressure(t - step)) / (2 * step);
        double expected = (vapour.enthalpy() - liquid.enthalpy()) / (t * (1 / vapour.density() - 1 / liquid.density()));
        assertThat(slope).isCloseTo(expected, within(2e-5 * expected));
        assertThat(vapour.enthalpy() - liquid.enthalpy())
                .isCloseTo(
                        t * (vapour.entropy() - liquid.entropy()),
                        within(1e-8 * vapour.enthalpy() - 1e-8 * liquid.enthalpy()));
    }

    @Property(seed = "20261126")
    void theGasTendsToTheIdealOne(
            @ForAll("fluids") PureFluid fluid, @ForAll @DoubleRange(min = 0.1, max = 0.9) double a) {
        double low = 1.2 * fluid.criticalTemperature();
        double t = Math.min(low * Math.pow(fluid.maximumTemperature() / low, a), fluid.maximumTemperature());
        Assume.that(t > fluid.criticalTemperature() * 0.9);
        FluidState s = fluid.atPressureTemperature(1, t);
        double r = 8.31446 / fluid.molarMass();
        assertThat(s.density()).isCloseTo(1 / (r * t), within(1e-4 / (r * t)));
        assertThat(s.enthalpy()).isCloseTo(fluid.idealGasEnthalpy(t), within(1e-5 * s.cp() * t));
        assertThat(s.cp() / s.cv()).isCloseTo(fluid.idealGasHeatCapacityRatio(t), within(1e-5));
    }

    @Property(tries = 200, seed = "20261126")
    void theSpeedOfSoundInTheDomeIsTheIsentropicSlope(
            @ForAll("fluids") PureFluid fluid,
            @ForAll @DoubleRange(min = 0.1, max = 0.9) double a,
            @ForAll @DoubleRange(min = 0.05, max = 0.95) double q) {
        double low = fluid.tripleTemperature();
        double t = low + a * (fluid.criticalTemperature() - low);
        FluidState s = fluid.atTemperatureQuality(t, q);
        double step = 1e-5 * s.pressure();
        FluidState up = fluid.atPressureEntropy(s.pressure() + step, s.entropy());
        FluidState down = fluid.atPressureEntropy(s.pressure() - step, s.entropy());
        Assume.that(up.phase() == Phase.TWO_PHASE && down.phase() == Phase.TWO_PHASE);
        double square = 2 * step / (up.density() - down.density());
        assertThat(s.soundSpeed() * s.soundSpeed()).isCloseTo(square, within(1e-4 * square));
    }

    @Property(tries = 300, seed = "20261126")
    void densitySlopesAreDifferenceQuotients(
            @ForAll("fluids") PureFluid fluid,
            @ForAll @DoubleRange(max = 1) double a,
            @ForAll @DoubleRange(max = 1) double b) {
        FluidState s = state(fluid, a, b);
        Assume.that(s != null && !(fluid.name().equals("water") && s.temperature() < 290));
        PureFluid.DensitySlopes slopes = fluid.densitySlopes(s);
        double dh = 1e-5 * s.cp() * s.temperature();
        double dp = 1e-5 * s.density() * s.soundSpeed() * s.soundSpeed();
        Assume.that(dp < 1e-2 * s.pressure() || s.phase() == Phase.LIQUID);
        dp = Math.min(dp, 0.01 * s.pressure());
        FluidState more;
        FluidState less;
        FluidState up;
        FluidState down;
        try {
            more = fluid.atPressureEnthalpy(s.pressure(), s.enthalpy() + dh);
            less = fluid.atPressureEnthalpy(s.pressure(), s.enthalpy() - dh);
            up = fluid.atPressureEnthalpy(s.pressure() + dp, s.enthalpy());
            down = fluid.atPressureEnthalpy(s.pressure() - dp, s.enthalpy());
        } catch (PropertyException e) {
            return; // at the edge of the range
        }
        Assume.that(more.phase() == less.phase() && up.phase() == down.phase() && up.phase() == s.phase());
        double overEnthalpy = (more.density() - less.density()) / (2 * dh);
        assertThat(slopes.overEnthalpy())
                .isCloseTo(overEnthalpy, within(1e-3 * Math.abs(overEnthalpy) + 1e-9 * s.density() / dh));
        double overPressure = (up.density() - down.density()) / (2 * dp);
        assertThat(slopes.overPressure())
                .isCloseTo(overPressure, within(2e-3 * Math.abs(overPressure) + 1e-9 * s.density() / dp));
    }
}
