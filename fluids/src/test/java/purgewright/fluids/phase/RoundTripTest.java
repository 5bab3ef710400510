package purgewright.fluids.phase;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.Locale;
import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import purgewright.fluids.Engines;
import purgewright.fluids.FluidState;
import purgewright.fluids.Phase;
import purgewright.fluids.PropertyException;
import purgewright.fluids.PureFluid;

/**
 * Random states there and back. The full count is a million a fluid; {@code purgewright.share} of it is run. Half of the states lie
 * over the whole range, three in ten round the dome, two in ten within 0.3 to 3e-7 of the critical point.
 */
class RoundTripTest {
    private static final double FULL_COUNT = 1e6;

    /** All, or those of {@code purgewright.fluids}, separated by commas: the full count can be run in parts. */
    static List<String> fluids() {
        String some = System.getProperty("purgewright.fluids", "");
        return some.isBlank() ? Engines.embedded().fluidNames() : List.of(some.split(","));
    }

    static int count() {
        return (int) Math.ceil(FULL_COUNT * Double.parseDouble(System.getProperty("purgewright.share", "0.01")));
    }

    @ParameterizedTest
    @MethodSource("fluids")
    void everyPairOfPropertiesLeadsBackToTheStateOrToATypedError(String name) {
        PureFluid fluid = Engines.embedded().pure(name);
        SplittableRandom random = new SplittableRandom(name.hashCode());
        int states = 0;
        int solid = 0;
        int extrapolated = 0;
        int count = count();
        Worst worst = new Worst();
        for (int i = 0; i < count; i++) {
            double[] tp = draw(fluid, random);
            double t = tp[0];
            double p = tp[1];
            FluidState s;
            try {
                s = fluid.atPressureTemperature(p, t);
            } catch (PropertyException e) {
                assertThat(e.key())
                        .as("%s K, %s Pa: %s", t, p, e)
                        .isIn(
                                PropertyException.Key.SOLID,
                                PropertyException.Key.TEMPERATURE_OUT_OF_RANGE,
                                PropertyException.Key.PRESSURE_OUT_OF_RANGE);
                solid += e.key() == PropertyException.Key.SOLID ? 1 : 0;
                continue;
            }
            states++;
            extrapolated += s.extrapolated() ? 1 : 0;
            worst.same(s, fluid.atPressureEnthalpy(p, s.enthalpy()), "p, h");
            worst.same(s, fluid.atPressureEntropy(p, s.entropy()), "p, s");
            worst.same(s, fluid.atEnthalpyEntropy(s.enthalpy(), s.entropy()), "h, s");
            worst.same(s, fluid.atDensityTemperature(s.density(), t), "rho, T");
            FluidState back = fluid.atPressureDensity(p, s.density());
            if (!name.equals("water") || t > 300) {
                worst.same(s, back, "p, rho"); // cold water has two temperatures at one density
            }
        }
        // the row of docs/theory/properties.md
        System.out.printf(
                Locale.ROOT,
                "| %s | %d | %d | %d | %d | %d | %.0e | %.0e | %.0e | %.0e |%n",
                name,
                count,
                states,
                solid,
                count - states - solid,
                extrapolated,
                worst.pressure,
                worst.temperature,
                worst.enthalpy,
                worst.entropy);
        assertThat(states).as("states compared").isGreaterThan(count / 10 * 9);
    }

    private static double[] draw(PureFluid fluid, SplittableRandom random) {
        double low = fluid.tripleTemperature();
        double high = fluid.maximumTemperature();
        double tc = fluid.criticalTemperature();
        double pc = fluid.criticalPressure();
        double kind = random.nextDouble();
        if (kind < 0.5) {
            return new double[] {
                low * Math.pow(high / low, random.nextDouble()),
                100 * Math.pow(fluid.maximumPressure() / 100, random.nextDouble())
            };
        }
        if (kind < 0.8) {
            return new double[] {
                Math.min(high * (1 - 1e-6), low + random.nextDouble() * (2 * tc - low)),
                pc * 0.01 * Math.pow(1000, random.nextDouble())
            };
        }
        return new double[] {near(tc, random), near(pc, random)};
    }

    private static double near(double critical, SplittableRandom random) {
        double distance = 0.3 * Math.pow(10, -6 * random.nextDouble());
        return critical * (1 + (random.nextBoolean() ? distance : -distance));
    }

    /** Compares states, and keeps the largest error: of pressure and temperature as a share of what is allowed, h over cp T, s over cp. */
    private static final class Worst {
        double pressure;
        double temperature;
        double enthalpy;
        double entropy;

        void same(FluidState a, FluidState b, String how) {
            double stiffness = a.density() * a.soundSpeed() * a.soundSpeed();
            double p = Math.abs(b.pressure() - a.pressure()) / (1e-9 * a.pressure() + 1e-13 * stiffness);
            double t = Math.abs(b.temperature() - a.temperature()) / (1e-9 * a.temperature());
            double h = Math.abs(b.enthalpy() - a.enthalpy()) / (a.cp() * a.temperature());
            double s = Math.abs(b.entropy() - a.entropy()) / a.cp();
            if (!(p <= 1 && t <= 1 && h < 1e-9 && s < 1e-9)) { // NaN fails too
                throw new AssertionError(String.format(
                        Locale.ROOT,
                        "from %s: p off by %.2g and T by %.2g of what is allowed, h by %.2g cp T, s by %.2g cp: %s gives %s",
                        how,
                        p,
                        t,
                        h,
                        s,
                        a,
                        b));
            }
            pressure = Math.max(pressure, p);
            temperature = Math.max(temperature, t);
            enthalpy = Math.max(enthalpy, h);
            entropy = Math.max(entropy, s);
        }
    }

    @ParameterizedTest
    @MethodSource("fluids")
    void theDomeLeadsBackToItself(String name) {
        PureFluid fluid = Engines.embedded().pure(name);
        SplittableRandom random = new SplittableRandom(7 + name.hashCode());
        double low = fluid.tripleTemperature();
        double tc = fluid.criticalTemperature();
        int count = count() / 5;
        for (int i = 0; i < count; i++) {
            double distance = (1 - low / tc) * Math.pow(10, -6 * random.nextDouble() * random.nextDouble());
            double t = Math.max(low, tc * (1 - distance));
            double q = random.nextDouble();
            FluidState s = fluid.atTemperatureQuality(t, q);
            assertThat(s.phase()).isEqualTo(Phase.TWO_PHASE);
            assertThat(s.soundSpeed()).as("speed of sound of %s", s).isPositive();
            assertThat(s.cp()).isNaN();
            // close to the critical point the two phases differ little, so that quality is known less well than the
            // state
            double known = Math.max(1e-9, 1e-11 / distance);
            for (FluidState b : new FluidState[] {
                fluid.atPressureEnthalpy(s.pressure(), s.enthalpy()),
                fluid.atPressureEntropy(s.pressure(), s.entropy()),
                fluid.atDensityTemperature(s.density(), t),
                fluid.atPressureDensity(s.pressure(), s.density()),
                fluid.atPressureQuality(s.pressure(), q),
                fluid.atEnthalpyEntropy(s.enthalpy(), s.entropy())
            }) {
                assertThat(Math.abs(b.temperature() / t - 1))
                        .as("%s and %s", s, b)
                        .isLessThan(known);
                assertThat(Math.abs(b.density() / s.density() - 1))
                        .as("%s and %s", s, b)
                        .isLessThan(10 * known);
            }
        }
    }

    @Test
    void coldWaterIsFoundFromEnthalpyAndEntropyThoughItsIsentropesRunBelowTheTriplePoint() {
        PureFluid water = Engines.embedded().pure("water");
        for (double p = 1e5; p < 8e7; p *= 1.05) {
            for (double t : new double[] {273.1601, 273.17, 273.5, 275, 277}) {
                FluidState s = water.atPressureTemperature(p, t);
                new Worst().same(s, water.atEnthalpyEntropy(s.enthalpy(), s.entropy()), "h, s");
            }
        }
    }
}
