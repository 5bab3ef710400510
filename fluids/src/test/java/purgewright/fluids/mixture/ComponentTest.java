package purgewright.fluids.mixture;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import java.util.Map;
import java.util.function.DoubleUnaryOperator;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import purgewright.fluids.Engines;
import purgewright.fluids.FluidState;
import purgewright.fluids.PropertyEngine;
import purgewright.fluids.PureFluid;
import purgewright.fluids.burnt.SpeciesTable;

/** One component by itself: inside its equation, above it, below its triple point, frozen, and as another engine would give it. */
@DisplayName("A component obeys thermodynamics within its equation and beyond it, by whichever engine it comes")
class ComponentTest {
    private static final double R = 8.314462618;

    private final PropertyEngine engine = Engines.embedded();

    private static void near(double value, double expected, double relative, Object what) {
        assertThat(expected).as("%s", what).isFinite();
        assertThat(value).as("%s", what).isCloseTo(expected, within(relative * Math.abs(expected)));
    }

    private static Point gas(Component component, double t, double density) {
        Point point = new Point();
        component.gas(t, density, point);
        return point;
    }

    private static Point liquid(Component component, double t, double p) {
        Point point = new Point();
        component.liquid(t, p, point);
        return point;
    }

    private static Point dew(Component component, double t) {
        Point point = new Point();
        component.saturatedVapour(t, point);
        return point;
    }

    /** Central difference quotient. */
    private static double slope(DoubleUnaryOperator f, double x) {
        double step = 1e-5 * x;
        return (f.applyAsDouble(x + step) - f.applyAsDouble(x - step)) / (2 * step);
    }

    // ------------------------------------------------------------ gas

    /**
     * dh = (cv + (dp/dT)/rho) dT + ..., ds = cv/T dT - (dp/dT)/rho^2 drho, and the equation of energy (dh/drho) = (dp/drho - T (dp/dT)/rho)/rho;
     * above the equation and below the triple point as within it.
     */
    @ParameterizedTest
    @CsvSource({
        "methane, 200, 12",
        "methane, 600, 40",
        "methane, 900, 25",
        "methane, 2400, 40",
        "methane, 80, 0.03",
        "methane, 60, 1e-5",
        "water, 500, 4",
        "water, 2500, 3",
        "water, 262, 1e-3",
        "water, 230, 1e-5",
        "neon, 60, 20",
        "neon, 900, 15",
        "neon, 22, 0.5",
        "n-dodecane, 560, 2",
        "n-dodecane, 1400, 5",
        "ethanol, 900, 3",
        "oxygen, 2500, 20",
        "oxygen, 50, 1e-3",
        "helium, 1.8, 0.2",
        "helium, 4000, 2"
    })
    void aGasHasTheSlopesItStates(String name, double t, double density) {
        Component component = new RealComponent(engine.pure(name));
        Point s = gas(component, t, density);
        assertThat(s.saturated).isFalse();
        assertThat(s.density).isEqualTo(density);
        double scale = component.gasConstant();
        near(slope(x -> gas(component, x, density).pressure, t), s.pressureByTemperature, 1e-6, "dp/dT");
        // above the equation to second order in density alone
        boolean hot = t > engine.pure(name).maximumTemperature();
        near(slope(x -> gas(component, t, x).pressure, density), s.pressureByDensity, hot ? 5e-3 : 1e-5, "dp/drho");
        near(
                slope(x -> gas(component, x, density).enthalpy, t),
                s.cv + s.pressureByTemperature / density,
                1e-6,
                "dh/dT");
        near(slope(x -> gas(component, x, density).entropy, t), s.cv / t, 1e-6, "ds/dT");
        assertThat(slope(x -> gas(component, t, x).entropy, density) * density)
                .isCloseTo(-s.pressureByTemperature / density, within(1e-5 * scale));
        assertThat(slope(x -> gas(component, t, x).enthalpy, density) * density)
                .isCloseTo(
                        s.pressureByDensity - t * s.pressureByTemperature / density,
                        within((hot ? 1e-2 : 1e-5) * scale * t));
        Point quick = new Point();
        component.gasPressure(t, density, quick);
        near(quick.pressure, s.pressure, 1e-12, "pressure alone");
        near(quick.pressureByDensity, s.pressureByDensity, 1e-12, "its slope alone");
        PureFluid fluid = engine.pure(name);
        boolean inside = t >= fluid.tripleTemperature() && t <= fluid.maximumTemperature();
        assertThat(s.extrapolated).isEqualTo(!inside || t > fluid.publishedMaximumTemperature());
        // a hundred-thousandth of the density: the ideal gas that first guesses ask for
        Point thin = gas(component, t, 1e-5 * density);
        near(thin.pressure, 1e-5 * density * scale * t, 1e-5, "p = rho R T");
        assertThat(component.idealEnthalpy(t)).isCloseTo(thin.enthalpy, within(1e-4 * scale * t));
        assertThat(component.idealEntropy(t, 1e-5 * density)).isCloseTo(thin.entropy, within(1e-4 * scale));
        near(component.idealHeatCapacity(t) - scale, thin.cv, 1e-4, "cv");
    }

    @ParameterizedTest
    @ValueSource(strings = {"methane", "water", "neon", "n-dodecane", "oxygen", "helium", "carbon dioxide", "ethanol"})
    void nothingJumpsAtTheEndsOfTheEquation(String name) {
        PureFluid fluid = engine.pure(name);
        Component component = new RealComponent(fluid);
        double hottest = fluid.maximumTemperature();
        double triple = fluid.tripleTemperature();
        double gap = 1e-7;
        double thin = 0.01 * fluid.criticalDensity();
        Point a = gas(component, hottest, thin);
        Point b = gas(component, hottest * (1 + gap), thin);
        Point dew = dew(component, triple * (1 + gap));
        Point c = gas(component, triple * (1 + gap), 0.9 * dew.density);
        Point d = gas(component, triple * (1 - gap), 0.9 * dew.density);
        for (Point[] pair : new Point[][] {{a, b}, {d, c}}) {
            double t = pair[0] == a ? hottest : triple;
            // two virial coefficients stand for all below the triple point
            near(pair[1].pressure, pair[0].pressure, 2e-4, "p");
            assertThat(pair[1].enthalpy).isCloseTo(pair[0].enthalpy, within(4e-4 * component.gasConstant() * t));
            assertThat(pair[1].entropy).isCloseTo(pair[0].entropy, within(4e-4 * component.gasConstant()));
        }
        near(b.cv, a.cv, 1e-2, "cv");
        near(component.saturationPressure(triple * (1 - gap)), component.saturationPressure(triple), 1e-4, "ps");
        near(dew(component, triple * (1 - gap)).density, dew.density, 1e-4, "dew");
        near(
                component.gasViscosity(hottest * (1 + gap), thin),
                component.gasViscosity(hottest, thin),
                1e-6,
                "viscosity");
        near(
                component.gasConductivity(hottest * (1 + gap), thin),
                component.gasConductivity(hottest, thin),
                1e-6,
                "conductivity");
    }

    /** An atom's heat capacity is 5/2 R for ever, and its gas is thin: closed forms. Neon is not in the table of species. */
    @Test
    void neonAboveItsEquationIsAGasOfAtoms() {
        PureFluid neon = engine.pure("neon");
        double r = R / neon.molarMass();
        double start = neon.maximumTemperature();
        HotGas hot = HotGas.above(neon, "Ne", start, r);
        for (double t : new double[] {start, start * 1.001, 1000, 1234.5, 3000, 5999, 6000}) {
            near(hot.heatCapacity(t), 2.5 * r, 1e-6, t);
            assertThat(hot.enthalpyRise(t)).isCloseTo(2.5 * r * (t - start), within(1e-6 * 2.5 * r * t));
            assertThat(hot.entropyRise(t)).isCloseTo(2.5 * r * Math.log(t / start), within(1e-6 * r));
        }
        Component component = new RealComponent(neon);
        Point s = gas(component, 4000, 1e-4);
        Point cool = gas(component, 300, 1e-4);
        near(s.enthalpy - cool.enthalpy, 2.5 * r * 3700, 1e-5, "h");
        near(s.entropy - cool.entropy, 1.5 * r * Math.log(4000 / 300.0), 1e-5, "s at one density");
    }

    /** Its own ideal gas, integrated here by Simpson's rule. */
    @ParameterizedTest
    @ValueSource(strings = {"n-dodecane", "ethanol"})
    void aHotGasThatTheTableHasNotIsTheIntegralOfItsHeatCapacity(String name) {
        PureFluid fluid = engine.pure(name);
        double r = R / fluid.molarMass();
        double start = fluid.maximumTemperature();
        HotGas hot = HotGas.above(fluid, name, start, r);
        for (double t : new double[] {start * 1.002, 1.3 * start, 2000, 4321, 5990}) {
            double h = simpson(x -> r / (1 - 1 / fluid.idealGasHeatCapacityRatio(x)), start, t);
            double s = simpson(x -> r / (1 - 1 / fluid.idealGasHeatCapacityRatio(x)) / x, start, t);
            near(hot.enthalpyRise(t), h, 1e-8, t);
            near(hot.entropyRise(t), s, 1e-8, t);
            double kappa = fluid.idealGasHeatCapacityRatio(t);
            near(hot.heatCapacity(t), r * kappa / (kappa - 1), 1e-12, t);
        }
        assertThat(hot.enthalpyRise(start)).isZero();
        // Another engine's ideal gas ends with its equation: cp is held from there.
        HotGas held = HotGas.above(new PlainFluid(fluid, start), name, start, r);
        double cp = hot.heatCapacity(start);
        near(held.heatCapacity(3000), cp, 1e-12, "held");
        near(held.enthalpyRise(3000), cp * (3000 - start), 1e-10, "held");
        near(held.entropyRise(3000), cp * Math.log(3000 / start), 1e-8, "held");
    }

    private static double simpson(DoubleUnaryOperator f, double from, double to) {
        int n = 2000;
        double step = (to - from) / n;
        double sum = f.applyAsDouble(from) + f.applyAsDouble(to);
        for (int i = 1; i < n; i++) {
            sum += (i % 2 == 0 ? 2 : 4) * f.applyAsDouble(from + i * step);
        }
        return sum * step / 3;
    }

    /** From the table of species, moved so that the heat capacity of the equation goes on: B. J. McBride et al., NASA TM-4513 (1993). */
    @Test
    void aHotGasOfTheTableGoesOnFromItsEquation() {
        PureFluid methane = engine.pure("methane");
        double r = R / methane.molarMass();
        double start = methane.maximumTemperature();
        HotGas hot = HotGas.above(methane, "CH4", start, r);
        double kappa = methane.idealGasHeatCapacityRatio(start);
        near(hot.heatCapacity(start), r * kappa / (kappa - 1), 1e-12, "cp at the joint");
        assertThat(hot.enthalpyRise(start)).isZero();
        assertThat(hot.entropyRise(start)).isZero();
        for (double t : new double[] {700, 1500, 4000}) {
            near(slope(hot::enthalpyRise, t), hot.heatCapacity(t), 1e-7, t);
            near(slope(hot::entropyRise, t), hot.heatCapacity(t) / t, 1e-7, t);
            double table = SpeciesTable.find("CH4").polynomial().heatCapacity(t) * r;
            near(hot.heatCapacity(t), table, 0.02, t);
        }
    }

    // ------------------------------------------------------------ saturation, cold and warm

    /** Slopes along the line by difference quotients, and Clapeyron's equation with the liquid beside it. */
    @ParameterizedTest
    @CsvSource({
        "methane, 120, 1e-4", "methane, 180, 1e-4", "methane, 85, 2e-3", "methane, 60, 2e-3", "water, 300, 1e-4",
        "water, 600, 1e-4", "water, 268, 2e-3", "water, 200, 2e-3", "oxygen, 90, 1e-4", "oxygen, 45, 2e-3",
        "helium, 4, 1e-3", "helium, 2, 2e-2", "n-dodecane, 400, 1e-4", "ethanol, 150, 2e-3"
    })
    void vapourPressureFollowsClapeyron(String name, double t, double tolerance) {
        for (boolean plain : new boolean[] {false, true}) {
            PureFluid fluid = engine.pure(name);
            Component component = new RealComponent(plain ? new PlainFluid(fluid) : fluid);
            Point s = dew(component, t);
            assertThat(s.saturated).isTrue();
            near(s.saturationPressure, component.saturationPressure(t), 1e-9, "ps");
            near(s.pressure, component.saturationPressure(t), 1e-9, "ps");
            double step = 1e-4;
            Point a = dew(component, t * (1 - step));
            Point b = dew(component, t * (1 + step));
            double dt = 2 * step * t;
            near(s.saturationSlope, (b.pressure - a.pressure) / dt, 1e-4, "dp/dT");
            near(s.densityByTemperature, (b.density - a.density) / dt, 1e-4, "drho/dT");
            double r = component.gasConstant();
            assertThat(s.enthalpyByTemperature).isCloseTo((b.enthalpy - a.enthalpy) / dt, within(1e-3 * r));
            assertThat(s.entropyByTemperature).isCloseTo((b.entropy - a.entropy) / dt, within(1e-3 * r / t));
            Point l = liquid(component, t, s.pressure * (1 + 1e-7));
            near(s.saturationSlope, (s.entropy - l.entropy) / (1 / s.density - 1 / l.density), tolerance, "Clapeyron");
            near(s.enthalpy - l.enthalpy, t * (s.entropy - l.entropy), tolerance, "one Gibbs energy");
            // a hair beyond the dew it is saturated, before it a gas of the dew's properties
            assertThat(gas(component, t, s.density * (1 + 1e-6)).saturated).isTrue();
            Point g = gas(component, t, s.density * (1 - 1e-6));
            assertThat(g.saturated).isFalse();
            near(g.pressure, s.pressure, 1e-5, "the gas beside the dew");
            assertThat(g.enthalpy).isCloseTo(s.enthalpy, within(1e-4 * r * t));
            assertThat(g.entropy).isCloseTo(s.entropy, within(1e-4 * r));
            Point quick = new Point();
            component.gasPressure(t, s.density * 1.5, quick);
            assertThat(quick.saturated).isTrue();
            near(quick.saturationPressure, s.pressure, 1e-9, "ps");
            Point v = new Point();
            Point w = new Point();
            for (boolean entropic : new boolean[] {false, true}) {
                assertThat(component.edges(t, entropic, w, v)).isEqualTo(!plain);
                if (!plain) {
                    near(v.density, s.density, 1e-6, "edge");
                    near(v.saturationPressure, s.pressure, 1e-6, "edge");
                    near(w.density, l.density, 1e-2, "edge");
                    if (entropic) {
                        assertThat(v.entropy).isCloseTo(s.entropy, within(1e-6 * r));
                        assertThat(w.entropy).isCloseTo(l.entropy, within(1e-4 * r));
                    } else {
                        assertThat(v.enthalpy).isCloseTo(s.enthalpy, within(1e-6 * r * t));
                        assertThat(w.enthalpy).isCloseTo(l.enthalpy, within(1e-4 * r * t));
                    }
                }
            }
        }
    }

    /** Supercooled water: D. M. Murphy, T. Koop, Q. J. R. Meteorol. Soc. 131 (2005) 1539, equation 10 [from memory], good to 0.05 %. */
    @ParameterizedTest
    @ValueSource(doubles = {272, 263.15, 253.15, 243.15})
    void supercooledWatersVapourPressureIsThePublishedOne(double t) {
        double ln = 54.842763
                - 6763.22 / t
                - 4.210 * Math.log(t)
                + 0.000367 * t
                + Math.tanh(0.0415 * (t - 218.8)) * (53.878 - 1331.22 / t - 9.44523 * Math.log(t) + 0.014025 * t);
        // heat capacity is held here, that of supercooled water rises: 0.1 % of pressure at -20 degC, 0.4 % at -30
        near(new RealComponent(engine.pure("water")).saturationPressure(t), Math.exp(ln), 5e-3, t);
    }

    // ------------------------------------------------------------ liquid

    /** dh = cp dT + (v - T dv/dT) dp, ds = cp/T dT - dv/dT dp, cp - cv = -T (dv/dT)^2/(dv/dp). */
    @ParameterizedTest
    @CsvSource({
        "methane, 120, 2e6",
        "methane, 150, 3e7",
        "water, 320, 1e6",
        "water, 600, 2e7",
        "oxygen, 80, 5e6",
        "n-dodecane, 350, 1e5",
        "helium, 3, 1e6"
    })
    void aLiquidHasTheSlopesItStates(String name, double t, double p) {
        for (boolean plain : new boolean[] {false, true}) {
            PureFluid fluid = engine.pure(name);
            Component component = new RealComponent(plain ? new PlainFluid(fluid) : fluid);
            Point s = liquid(component, t, p);
            near(s.pressure, p, 1e-9, "p");
            near(s.density, fluid.atPressureTemperature(p, t).density(), 1e-9, "rho");
            near(slope(x -> 1 / liquid(component, t, x).density, p), s.volumeByPressure, 1e-3, "dv/dp");
            near(slope(x -> 1 / liquid(component, x, p).density, t), s.volumeByTemperature, 1e-3, "dv/dT");
            near(slope(x -> liquid(component, x, p).enthalpy, t), s.cp, 1e-5, "cp");
            near(slope(x -> liquid(component, x, p).entropy, t), s.cp / t, 1e-5, "cp/T");
            assertThat(slope(x -> liquid(component, t, x).enthalpy, p) * s.density)
                    .isCloseTo(1 - t * s.volumeByTemperature * s.density, within(1e-2));
            near(s.cp - s.cv, -t * s.volumeByTemperature * s.volumeByTemperature / s.volumeByPressure, 1e-6, "cp - cv");
            FluidState own = fluid.atPressureTemperature(p, t);
            near(component.liquidViscosity(t, p), fluid.viscosity(own), 1e-9, "viscosity");
            near(component.liquidConductivity(t, p), fluid.conductivity(own), 1e-9, "conductivity");
            assertThat(s.extrapolated).isFalse();
        }
    }

    /** Colder than it freezes: constant heat capacity and volume from where it freezes; the same for another engine's below the triple point. */
    @ParameterizedTest
    @CsvSource({"methane, 70", "water, 250", "oxygen, 40"})
    void aFrozenComponentIsALiquidOfConstantHeatCapacity(String name, double t) {
        PureFluid fluid = engine.pure(name);
        double triple = fluid.tripleTemperature();
        for (boolean plain : new boolean[] {false, true}) {
            Component component = new RealComponent(plain ? new PlainFluid(fluid) : fluid);
            double p = 2e5;
            Point s = liquid(component, t, p);
            Point warm = liquid(component, triple + 0.2, p);
            near(s.density, warm.density, 1e-3, "rho");
            near(warm.enthalpy - s.enthalpy, s.cp * (triple + 0.2 - t), 2e-3, "h");
            near(warm.entropy - s.entropy, s.cp * Math.log((triple + 0.2) / t), 2e-3, "s");
            near(slope(x -> liquid(component, x, p).enthalpy, t), s.cp, 1e-6, "cp");
            near(slope(x -> liquid(component, x, p).entropy, t), s.cp / t, 1e-6, "cp/T");
            assertThat(s.cv).isEqualTo(s.cp);
            assertThat(s.volumeByTemperature).isZero();
            assertThat(s.extrapolated).isTrue();
            assertThat(warm.extrapolated).isFalse();
            near(component.liquidViscosity(t, p), component.liquidViscosity(triple, p), 1e-4, "viscosity");
            near(component.liquidConductivity(t, p), component.liquidConductivity(triple, p), 1e-4, "conductivity");
        }
    }

    /** Under so much pressure that it freezes above its triple point: it is the liquid where the melting line gives that pressure. */
    @Test
    void underPressureItFreezesWhereTheMeltingLineSays() {
        PureFluid oxygen = engine.pure("oxygen");
        Component component = new RealComponent(oxygen);
        double p = 4e7;
        double low = oxygen.tripleTemperature();
        double high = 2 * low;
        for (int i = 0; i < 60; i++) {
            double middle = (low + high) / 2;
            if (oxygen.meltingPressure(middle) < p) {
                low = middle;
            } else {
                high = middle;
            }
        }
        assertThat(high).isGreaterThan(oxygen.tripleTemperature() + 1);
        Point edge = liquid(component, high * (1 + 1e-7), p);
        Point cold = liquid(component, oxygen.tripleTemperature() + 0.5, p);
        assertThat(edge.extrapolated).isFalse();
        assertThat(cold.extrapolated).isTrue();
        near(cold.density, edge.density, 1e-5, "rho");
        near(edge.enthalpy - cold.enthalpy, cold.cp * (high - oxygen.tripleTemperature() - 0.5), 1e-4, "h");
        near(edge.entropy - cold.entropy, cold.cp * Math.log(high / (oxygen.tripleTemperature() + 0.5)), 1e-4, "s");
        near(cold.pressure, p, 1e-9, "p");
    }

    /** Above the greatest pressure of the equation: the last liquid, v dp of work at constant volume. */
    @Test
    void abovePressuresOfTheEquationTheLiquidIsStiff() {
        for (boolean plain : new boolean[] {false, true}) {
            PureFluid fluid = engine.pure("n-dodecane");
            Component component = new RealComponent(plain ? new PlainFluid(fluid) : fluid);
            double p = fluid.maximumPressure();
            double t = 500;
            Point stiff = liquid(component, t, 2 * p);
            assertThat(stiff.pressure).isEqualTo(2 * p);
            assertThat(stiff.extrapolated).isTrue();
            Point more = liquid(component, t, 3 * p);
            near(more.enthalpy - stiff.enthalpy, p / stiff.density, 1e-9, "v dp");
            assertThat(more.density).isEqualTo(stiff.density);
            if (!plain) {
                Point last = liquid(component, t, p);
                assertThat(stiff.density).isEqualTo(last.density);
                near(stiff.enthalpy - last.enthalpy, p / last.density, 1e-9, "v dp");
                assertThat(stiff.entropy).isEqualTo(last.entropy);
            } else {
                near(stiff.density, fluid.atTemperatureQuality(t, 0).density(), 1e-4, "the liquid that boils");
            }
        }
    }

    // ------------------------------------------------------------ another engine

    @ParameterizedTest
    @CsvSource({
        "methane, 150, 5",
        "methane, 400, 60",
        "methane, 900, 20",
        "water, 450, 2",
        "water, 2500, 1",
        "oxygen, 156, 300",
        "oxygen, 300, 100",
        "methane, 80, 0.03"
    })
    void anotherEnginesGasIsTheSame(String name, double t, double density) {
        PureFluid fluid = engine.pure(name);
        Component own = new RealComponent(fluid);
        Component plain = new RealComponent(new PlainFluid(fluid));
        Point a = gas(own, t, density);
        Point b = gas(plain, t, density);
        near(b.pressure, a.pressure, 1e-9, "p");
        near(b.pressureByTemperature, a.pressureByTemperature, 1e-6, "dp/dT");
        near(b.pressureByDensity, a.pressureByDensity, 1e-6, "dp/drho");
        near(b.enthalpy, a.enthalpy, 1e-9, "h");
        near(b.entropy, a.entropy, 1e-9, "s");
        near(b.cv, a.cv, 1e-8, "cv");
        assertThat(b.extrapolated).isEqualTo(a.extrapolated);
        near(plain.gasViscosity(t, density), own.gasViscosity(t, density), 1e-6, "viscosity");
        near(plain.gasConductivity(t, density), own.gasConductivity(t, density), 1e-6, "conductivity");
        near(plain.idealEntropy(t, density), own.idealEntropy(t, density), 1e-6, "ideal entropy");
        near(plain.idealEnthalpy(t), own.idealEnthalpy(t), 1e-12, "ideal enthalpy");
        near(plain.criticalMolarVolume(), fluid.molarMass() / fluid.criticalDensity(), 1e-12, "vc");
        assertThat(plain.criticalPressure()).isEqualTo(fluid.criticalPressure());
        assertThat(plain.species()).isEqualTo(Map.of(fluid.name(), 1.0));
    }

    @Test
    void insideTheDomeAGasIsAtItsDewForTransport() {
        PureFluid methane = engine.pure("methane");
        FluidState dew = methane.atTemperatureQuality(150, 1);
        for (Component component : List.of(new RealComponent(methane), new RealComponent(new PlainFluid(methane)))) {
            for (double density : new double[] {1.2 * dew.density(), 3 * dew.density(), 300}) {
                near(component.gasViscosity(150, density), methane.viscosity(dew), 1e-6, "viscosity");
                near(component.gasConductivity(150, density), methane.conductivity(dew), 1e-6, "conductivity");
            }
            assertThat(gas(component, 150, 300).saturated).isTrue();
            assertThat(gas(component, 150, 0.5 * dew.density()).saturated).isFalse();
            // a state of almost nothing: the dilute gas
            near(component.gasViscosity(300, 1e-200), component.gasViscosity(300, 1e-6), 1e-6, "dilute");
        }
    }

    @Test
    void denserThanAnyFluidNothingIsAsked() {
        PureFluid oxygen = engine.pure("oxygen");
        RealComponent component = new RealComponent(oxygen);
        double dense = 6.01 * oxygen.criticalDensity();
        assertThatThrownBy(() -> gas(component, 300, dense)).hasMessageContaining("oxygen");
        assertThatThrownBy(() -> component.gasPressure(300, dense, new Point())).hasMessageContaining("oxygen");
    }

    // ------------------------------------------------------------ hot and cold transport

    /** Beyond the equation viscosity grows as Chapman and Enskog's does, conductivity with the modified Eucken factor on top. */
    @ParameterizedTest
    @CsvSource({"nitrogen, N2, 2500", "oxygen, O2, 2800", "methane, CH4, 1200", "methane, CH4, 80"})
    void beyondTheEquationViscosityGrowsAsTheDiluteGas(String name, String species, double t) {
        PureFluid fluid = engine.pure(name);
        Component component = new RealComponent(fluid);
        double edge = t > 200 ? fluid.maximumTemperature() : fluid.tripleTemperature();
        SpeciesTable.LennardJones lj = SpeciesTable.potential(species);
        double ratio = Math.sqrt(t / edge)
                * GasTransport.viscosityIntegral(edge / lj.wellDepth())
                / GasTransport.viscosityIntegral(t / lj.wellDepth());
        double density = 1e-4;
        near(component.gasViscosity(t, density), component.gasViscosity(edge, density) * ratio, 1e-6, "viscosity");
        double cvThere = component.idealHeatCapacity(t) / component.gasConstant() - 1;
        double cvEdge = component.idealHeatCapacity(edge) / component.gasConstant() - 1;
        double eucken = ratio * (1.32 * cvThere + 1.77) / (1.32 * cvEdge + 1.77);
        near(
                component.gasConductivity(t, density),
                component.gasConductivity(edge, density) * eucken,
                1e-6,
                "conductivity");
    }
}
