package purgewright.fluids.mixture;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import purgewright.fluids.Engines;
import purgewright.fluids.Fluid;
import purgewright.fluids.FluidState;
import purgewright.fluids.Nearby;
import purgewright.fluids.Phase;
import purgewright.fluids.PropertyEngine;
import purgewright.fluids.PropertyException;
import purgewright.fluids.PropertyException.Key;
import purgewright.fluids.PureFluid;
import purgewright.fluids.phase.StateBuffer;

/** The ways of search that are left when Newton's method fails, and the places where a mixture boils or jumps. */
@DisplayName("Whichever way a mixture's state is searched for, it is the same state")
class MixtureSearchTest {
    private static final double R = 8.314462618;

    private final PropertyEngine engine = Engines.embedded();
    private final StreamMixer mixer = MixtureStatesTest.mixer(engine, "argon");

    private MixtureFluid mix(String name) {
        return (MixtureFluid) mixer.mix(
                name.equals("air") ? new double[] {0.232, 0, 0, 0, 0.755, 0, 0.013} : MixtureStatesTest.shares(name));
    }

    private static void near(double value, double expected, double relative, Object what) {
        assertThat(expected).as("%s", what).isFinite();
        assertThat(value).as("%s", what).isCloseTo(expected, within(relative * Math.abs(expected)));
    }

    private static List<FluidState> states(Fluid fluid) {
        List<FluidState> all = new ArrayList<>();
        for (double p : new double[] {1e4, 4e5, 8e6}) {
            for (double t : new double[] {66, 80, 93, 118, 170, 290, 340, 700, 2500}) {
                all.add(fluid.atPressureTemperature(p, t));
            }
        }
        return all;
    }

    /** The dome of argon with 2e-9 of helium is 1e-10 of T wide: its last digits do not tell how much of it is vapour. */
    @ParameterizedTest
    @ValueSource(booleans = {true, false})
    void theDomeOfAnAlmostPureFluidIsFoundInEntropyAndEnthalpyToo(boolean entropic) {
        MixtureFluid fluid = (MixtureFluid) engine.mixer(List.of(
                        new StreamDefinition.Single("helium", "helium"), new StreamDefinition.Single("argon", "argon")))
                .mix(new double[] {2.3e-9, 1 - 2.3e-9});
        FluidState dry = fluid.atPressureTemperature(5400, 74.54);
        for (double p = 3700; p > 3200; p *= 0.9973) {
            FluidState wet = fluid.atPressureEntropy(p, dry.entropy());
            assertThat(wet.phase()).as("at %s Pa", p).isEqualTo(Phase.TWO_PHASE);
            double target = entropic ? dry.entropy() : wet.enthalpy();
            FluidState found =
                    fluid.bracketed(p, target, entropic, wet.temperature(), MixtureFluid.Sums.OF_THREAD.get());
            near(entropic ? found.entropy() : found.enthalpy(), target, 1e-10, p);
            near(found.density(), wet.density(), 1e-8, p);
        }
    }

    /** The bracketed way is asked directly, from guesses good and bad; what it costs in sums over components is counted. */
    @ParameterizedTest
    @CsvSource({
        "oxygen in helium, 8650",
        "wet helium, 8325",
        "drive gas in nitrogen, 7858",
        "three, 9371",
        "oxygen and nitrogen, 7395",
        "air, 7097"
    })
    void theBracketedWayFindsTheState(String name, int budget) {
        MixtureFluid fluid = mix(name);
        List<FluidState> states = states(fluid);
        long before = MixtureFluid.evaluations();
        for (FluidState s : states) {
            double p = s.pressure();
            double t = s.temperature();
            for (boolean entropic : new boolean[] {false, true}) {
                for (double guess : new double[] {t, 0.7 * t, 1.5 * t, 1, 6000}) {
                    FluidState found = fluid.bracketed(
                            p,
                            entropic ? s.entropy() : s.enthalpy(),
                            entropic,
                            guess,
                            MixtureFluid.Sums.OF_THREAD.get());
                    near(found.temperature(), t, 1e-9, s + " from " + guess);
                    near(found.density(), s.density(), 1e-8, s);
                    assertThat(found.phase()).as("%s", s).isEqualTo(s.phase());
                    near(found.soundSpeed(), s.soundSpeed(), 1e-5, s);
                    assertThat(found.enthalpy()).isCloseTo(s.enthalpy(), within(1e-8 * 1000 * t));
                    assertThat(found.entropy()).isCloseTo(s.entropy(), within(1e-8 * 1000));
                }
            }
        }
        long cost = MixtureFluid.evaluations() - before;
        // the last bits of logarithms differ between machines, and with them now and then a step
        assertThat(cost).isCloseTo(budget, within(budget / 200L));
    }

    /**
     * Wherever the search begins, at the state itself, beside it or nowhere near, it ends there; where it is wet the slope of its volume with
     * enthalpy is that of two states beside it.
     */
    @ParameterizedTest
    @ValueSource(strings = {"oxygen in helium", "wet helium", "three", "oxygen and nitrogen"})
    void theStartIsNoPartOfTheState(String name) {
        MixtureFluid fluid = mix(name);
        StateBuffer found = new StateBuffer();
        int sloped = 0;
        for (FluidState s : states(fluid)) {
            double p = s.pressure();
            double h = s.enthalpy();
            for (Nearby start : new Nearby[] {
                new Nearby(s.temperature(), s.density()),
                new Nearby(1.02 * s.temperature(), 0.97 * s.density()),
                new Nearby(3000, 1e-3),
                new Nearby(s.temperature(), -1),
                null
            }) {
                fluid.atPressureEnthalpyFrom(start, p, h, found);
                near(found.temperature(), s.temperature(), 1e-9, s + " from " + start);
                near(found.density(), s.density(), 1e-8, s + " from " + start);
                assertThat(found.phase()).as("%s", s).isEqualTo(s.phase());
            }
            double slope = found.volumeByEnthalpy();
            double step = 1e-5 * h;
            FluidState beside = fluid.atPressureEnthalpy(p, h + step, s);
            if (s.phase() == Phase.TWO_PHASE && beside.phase() == Phase.TWO_PHASE && !Double.isNaN(slope)) {
                FluidState other = fluid.atPressureEnthalpy(p, h - step, s);
                near(slope, (1 / beside.density() - 1 / other.density()) / (2 * step), 1e-4, s);
                sloped++;
            }
        }
        assertThat(sloped).as("wet states with a slope").isPositive();
    }

    /** From any first guess of volume, too thin or denser than the equations go, the volume is that at which the pressures add up. */
    @ParameterizedTest
    @ValueSource(strings = {"oxygen in helium", "wet helium", "three", "drive gas in nitrogen", "air"})
    void theVolumeDoesNotDependOnItsFirstGuess(String name) {
        MixtureFluid fluid = mix(name);
        for (double p : new double[] {1e4, 1e6, 2e7}) {
            for (double t : new double[] {100, 160, 400, 1200}) {
                MixtureFluid.Sums sums = MixtureFluid.Sums.OF_THREAD.get();
                double y = fluid.inverseVolume(t, p, Double.NaN, sums);
                long a = MixtureFluid.evaluations();
                for (double guess : new double[] {1e-9, 0.1, 10, 300, 3e3, 1e5, 1e9}) {
                    double other = fluid.inverseVolume(t, p, guess, sums);
                    if (y == Double.POSITIVE_INFINITY) {
                        assertThat(other).isEqualTo(y);
                    } else {
                        near(other, y, 1e-12, p + " Pa, " + t + " K from " + guess);
                    }
                }
                assertThat(MixtureFluid.evaluations() - a)
                        .as("%s Pa %s K", p, t)
                        .isLessThan(7 * 45);
            }
        }
    }

    // ------------------------------------------------------------ boiling

    @Test
    void aMixtureBoilsWhereItsVapourPressuresAddUp() {
        MixtureFluid air = mix("air");
        PureFluid oxygen = engine.pure("oxygen");
        PureFluid nitrogen = engine.pure("nitrogen");
        PureFluid argon = engine.pure("argon");
        for (double p : new double[] {150, 1e4, 1e5, 1e6, 3e6, 5e6}) {
            double t = air.boilingTemperature(p);
            near(
                    oxygen.saturationPressure(Math.max(t, oxygen.tripleTemperature()))
                            + (t > nitrogen.tripleTemperature() ? nitrogen.saturationPressure(t) : 0)
                            + (t > argon.tripleTemperature() ? argon.saturationPressure(t) : 0),
                    p,
                    t > argon.tripleTemperature() ? 1e-9 : 10,
                    t);
        }
        // above the sum at the lowest critical temperature (nitrogen's, 126.19 K) nothing boils all at once; nor with
        // helium in it
        double all = nitrogen.criticalPressure()
                + oxygen.saturationPressure(nitrogen.criticalTemperature())
                + argon.saturationPressure(nitrogen.criticalTemperature());
        assertThat(air.boilingTemperature(1.0001 * all)).isNaN();
        assertThat(air.boilingTemperature(0.9999 * all)).isCloseTo(126.19, within(0.02));
        assertThat(mix("drive gas in nitrogen").boilingTemperature(1e5)).isNaN();
        // nothing is so cold that it has less vapour than none
        assertThat(air.boilingTemperature(1e-299)).isNaN();
    }

    /** Between wet and dry the temperature stands, and volume, heat and entropy are linear in the vapour's share: T ds = dh. */
    @Test
    void boilingIsLinearInTheVapoursShare() {
        MixtureFluid air = mix("air");
        double p = 5e5;
        double t = air.boilingTemperature(p);
        FluidState wet = air.atPressureTemperature(p, t * (1 - 1e-9));
        assertThat(wet.phase()).isEqualTo(Phase.LIQUID);
        double full = Double.POSITIVE_INFINITY;
        double latent = 0;
        String[] names = {"oxygen", "nitrogen", "argon"};
        double[] shares = {0.232, 0.755, 0.013};
        for (int k = 0; k < 3; k++) {
            full = Math.min(
                    full,
                    shares[k] / engine.pure(names[k]).atTemperatureQuality(t, 1).density());
        }
        double dryVolume = 0;
        double gas = 0;
        for (int k = 0; k < 3; k++) {
            FluidState vapour = engine.pure(names[k]).atTemperatureQuality(t, 1);
            FluidState liquid = engine.pure(names[k]).atPressureTemperature(p, t);
            double mass = full * vapour.density();
            gas += mass;
            latent += mass * (vapour.enthalpy() - liquid.enthalpy());
            dryVolume += (shares[k] - mass) / liquid.density();
        }
        dryVolume += full;
        for (double share : new double[] {1e-3, 0.1, 0.5, 0.9, 0.999}) {
            double h = wet.enthalpy() + share * latent;
            FluidState s = air.atPressureEnthalpy(p, h);
            near(s.temperature(), t, 1e-12, share);
            assertThat(s.phase()).isEqualTo(Phase.TWO_PHASE);
            near(1 / s.density(), (1 - share) / wet.density() + share * dryVolume, 1e-4, share);
            near(s.quality(), share * gas, 1e-4, share);
            assertThat(s.enthalpy()).isCloseTo(h, within(1e-6 * latent));
            // the vapours leave at less pressure than the liquids stand at
            double entropy = wet.entropy() + share * latent / t;
            assertThat(s.entropy()).isCloseTo(entropy, within(0.05 * share * latent / t));
            FluidState back = air.atPressureEntropy(p, s.entropy());
            near(back.density(), s.density(), 1e-8, share);
            StreamMixer.PhaseSplit split = mixer.split(s);
            near(
                    split.condensedMassFractions().values().stream()
                            .mapToDouble(x -> x)
                            .sum(),
                    1 - s.quality(),
                    1e-6,
                    s);
            // of the gas each has its vapour pressure's density
            double n2 = engine.pure("nitrogen").atTemperatureQuality(t, 1).density() / 28.0134;
            double o2 = engine.pure("oxygen").atTemperatureQuality(t, 1).density() / 31.9988;
            near(
                    split.gasMoleFractions().get("nitrogen")
                            / split.gasMoleFractions().get("oxygen"),
                    n2 / o2,
                    1e-4,
                    s);
        }
    }

    // ------------------------------------------------------------ where a component passes its critical temperature

    /** Oxygen with nitrogen at 6 MPa: at 126.19 K what was liquid nitrogen counts as a dense gas. Between the two sides all is shared out. */
    @Test
    void whatLiesInAJumpIsSharedBetweenItsSides() {
        MixtureFluid fluid = mix("oxygen and nitrogen");
        double p = 6e6;
        double t = engine.pure("nitrogen").criticalTemperature();
        FluidState cold = fluid.atPressureTemperature(p, t * (1 - 1e-12));
        FluidState warm = fluid.atPressureTemperature(p, t * (1 + 1e-12));
        assertThat(warm.enthalpy() - cold.enthalpy()).isGreaterThan(1000);
        for (double share : new double[] {0.1, 0.5, 0.8}) {
            FluidState h = fluid.atPressureEnthalpy(p, (1 - share) * cold.enthalpy() + share * warm.enthalpy());
            FluidState s = fluid.atPressureEntropy(p, (1 - share) * cold.entropy() + share * warm.entropy());
            for (FluidState found : List.of(h, s)) {
                near(found.temperature(), t, 1e-9, found);
                near(1 / found.density(), (1 - share) / cold.density() + share / warm.density(), 1e-6, found);
                near(found.enthalpy() - cold.enthalpy(), share * (warm.enthalpy() - cold.enthalpy()), 1e-3, "enthalpy");
                near(found.entropy() - cold.entropy(), share * (warm.entropy() - cold.entropy()), 1e-3, "entropy");
                assertThat(found.quality())
                        .isCloseTo((1 - share) * cold.quality() + share * warm.quality(), within(1e-4));
                double compress = (1 - share) / Math.pow(cold.density() * cold.soundSpeed(), 2)
                        + share / Math.pow(warm.density() * warm.soundSpeed(), 2);
                near(found.soundSpeed(), 1 / found.density() / Math.sqrt(compress), 1e-4, "A. B. Wood's sum");
                assertThat(found.phase()).isEqualTo(Phase.TWO_PHASE);
                assertThat(found.cp()).isNaN();
                assertThat(found.extrapolated()).isEqualTo(cold.extrapolated() || warm.extrapolated());
            }
        }
    }

    // ------------------------------------------------------------ ends

    @Test
    void beyondTheColdestAndTheHottestThereIsNothing() {
        for (String name : new String[] {"oxygen in helium", "air", "drive gas in nitrogen"}) {
            MixtureFluid fluid = mix(name);
            double p = 1e5;
            FluidState hot = fluid.atPressureTemperature(p, 6000);
            FluidState cold = fluid.atPressureTemperature(p, name.equals("drive gas in nitrogen") ? 30 : 10);
            assertThat(hot.temperature()).isEqualTo(6000);
            near(fluid.atPressureEnthalpy(p, hot.enthalpy() - 1e3).temperature(), 6000, 1e-3, name);
            for (double far : new double[] {1, 1e3, 1e6}) {
                absent("enthalpy", () -> fluid.atPressureEnthalpy(p, hot.enthalpy() + far * 1e3));
                absent("entropy", () -> fluid.atPressureEntropy(p, hot.entropy() + far));
                absent("enthalpy", () -> fluid.atPressureEnthalpy(p, cold.enthalpy() - 1e5 * (1 + far)));
            }
        }
        MixtureFluid fluid = mix("oxygen in helium");
        assertThat(fluid.coldest()).isEqualTo(Component.COLDEST);
        assertThat(fluid.atPressureTemperature(1e5, fluid.coldest()).temperature())
                .isEqualTo(fluid.coldest());
    }

    private static void absent(String what, org.assertj.core.api.ThrowableAssert.ThrowingCallable call) {
        assertThatThrownBy(call).isInstanceOfSatisfying(PropertyException.class, e -> {
            assertThat(e.key()).isEqualTo(Key.NO_SUCH_STATE);
            assertThat(e.values()).containsKeys("pressure", what);
        });
    }

    // ------------------------------------------------------------ slopes and names of wet states

    /** w = v/sqrt(-(dv/dp)_s) along the equilibrium surface, by difference quotients of neighbouring isentropic states. */
    @ParameterizedTest
    @CsvSource({
        "oxygen in helium, 1e6, 80",
        "oxygen in helium, 8e6, 95",
        "wet helium, 3e6, 420",
        "three, 2e6, 100",
        "air, 3e5, 92"
    })
    void soundOfWetStatesIsThatOfTheirIsentrope(String name, double p, double t) {
        MixtureFluid fluid = mix(name);
        FluidState s = fluid.atPressureTemperature(p, t);
        double dp = 1e-4 * p;
        FluidState a = fluid.atPressureEntropy(p - dp, s.entropy(), s);
        FluidState b = fluid.atPressureEntropy(p + dp, s.entropy(), s);
        double compress = -(1 / b.density() - 1 / a.density()) / (2 * dp);
        near(s.soundSpeed(), 1 / s.density() / Math.sqrt(compress), 1e-5, s);
    }

    /** A trace of fog leaves the gas its name and the heat capacities of the gas beside it. */
    @Test
    void aTraceOfFogLeavesTheGasItsHeatCapacities() {
        StreamMixer two = Streams.mixer(
                engine,
                List.of(
                        new StreamDefinition.Single("nitrogen", "nitrogen"),
                        new StreamDefinition.Single("water", "water")));
        double w = 1e-7;
        Fluid damp = two.mix(new double[] {1 - w, w});
        FluidState fog = damp.atPressureTemperature(5e6, 180);
        FluidState dry = two.mix(new double[] {1, 0}).atPressureTemperature(5e6, 180);
        assertThat(two.split(fog).condensedMassFractions().get("water")).isCloseTo(w, within(1e-8));
        assertThat(fog.phase()).isEqualTo(dry.phase());
        assertThat(fog.quality()).isEqualTo(1);
        near(fog.cp(), dry.cp(), 1e-5, "cp");
        near(fog.cv(), dry.cv(), 1e-5, "cv");
        near(fog.density(), dry.density(), 1e-6, "rho");
        FluidState clear = damp.atPressureTemperature(5e6, 300);
        assertThat(two.split(clear).condensedMassFractions()).isEmpty();
    }

    /** Kay's rule: above the mole-weighted critical temperature and pressure together, a gas is called supercritical. */
    @Test
    void kaysRuleNamesADenseGas() {
        MixtureFluid fluid = mix("oxygen in helium");
        double x = fluid.moleFractions().get("oxygen");
        PureFluid oxygen = engine.pure("oxygen");
        PureFluid helium = engine.pure("helium");
        double tc = x * oxygen.criticalTemperature() + (1 - x) * helium.criticalTemperature();
        double pc = x * oxygen.criticalPressure() + (1 - x) * helium.criticalPressure();
        assertThat(fluid.atPressureTemperature(1.001 * pc, 200).phase()).isEqualTo(Phase.SUPERCRITICAL);
        assertThat(fluid.atPressureTemperature(0.999 * pc, 200).phase()).isEqualTo(Phase.GAS);
        assertThat(tc).isLessThan(40);
        MixtureFluid burnt = (MixtureFluid) mixer.mix(new double[] {0, 0, 0, 0, 0, 1, 0});
        assertThat(burnt.atPressureTemperature(2e7, 900).phase()).isIn(Phase.GAS, Phase.SUPERCRITICAL);
        MixtureFluid cold = (MixtureFluid) mixer.mix(new double[] {0, 0.5, 0, 0, 0.5, 0, 0});
        double xn = cold.moleFractions().get("nitrogen");
        double kay = xn * 126.192 + (1 - xn) * helium.criticalTemperature();
        assertThat(cold.atPressureTemperature(5e6, kay * 1.02).phase()).isIn(Phase.SUPERCRITICAL, Phase.TWO_PHASE);
    }

    /** Fluidity and conductivity of gas and liquid by mass; the gas by Wilke's rule from its parts at their partial densities. */
    @Test
    void transportOfAWetStateIsThatOfItsPhases() {
        MixtureFluid fluid = mix("wet helium");
        PureFluid helium = engine.pure("helium");
        PureFluid water = engine.pure("water");
        double p = 3e5;
        double t = 310;
        FluidState s = fluid.atPressureTemperature(p, t);
        assertThat(s.phase()).isEqualTo(Phase.TWO_PHASE);
        FluidState steam = water.atTemperatureQuality(t, 1);
        FluidState gas = helium.atPressureTemperature(p - steam.pressure(), t);
        double vapour = 0.8 / gas.density() * steam.density();
        double liquid = 0.2 - vapour;
        near(mixer.split(s).condensedMassFractions().get("water"), liquid, 1e-6, "liquid");
        double[] x = {0.8 / helium.molarMass(), vapour / water.molarMass()};
        double moles = x[0] + x[1];
        x[0] /= moles;
        x[1] /= moles;
        double[] masses = {helium.molarMass(), water.molarMass()};
        double[] mu = {helium.viscosity(gas), water.viscosity(steam)};
        double[] k = {helium.conductivity(gas), water.conductivity(steam)};
        FluidState drop = water.atPressureTemperature(p, t);
        double dry = 1 - liquid;
        near(
                1 / fluid.viscosity(s),
                dry / GasTransport.wilke(x, mu, masses) + liquid / water.viscosity(drop),
                1e-6,
                "fluidity");
        near(
                fluid.conductivity(s),
                dry * GasTransport.masonSaxena(x, mu, k, masses) + liquid * water.conductivity(drop),
                1e-6,
                "conductivity");
        // volume of gas over that of all: what unlike pairs may do to the density of the wet state
        assertThat(Math.abs(mixer.unlikeError(s))).isLessThan(0.01).isPositive();
    }

    /** c sum 2 x_i x_j B_ij of the gas, written out for two. */
    @Test
    void unlikeErrorIsTheVirialOfThePair() {
        StreamMixer two = Streams.mixer(
                engine,
                List.of(
                        new StreamDefinition.Single("nitrogen", "nitrogen"),
                        new StreamDefinition.Single("methane", "methane")));
        Fluid fluid = two.mix(new double[] {0.4, 0.6});
        FluidState s = fluid.atPressureTemperature(2e6, 300);
        double x = fluid.moleFractions().get("nitrogen");
        double virial = UnlikePairs.virial(
                300,
                new RealComponent(engine.pure("nitrogen")).criticalConstants(),
                new RealComponent(engine.pure("methane")).criticalConstants());
        near(two.unlikeError(s), s.density() / fluid.molarMass() * 2 * x * (1 - x) * virial, 1e-6, s);
        assertThat(two.unlikeError(two.mix(new double[] {1, 0}).atPressureTemperature(1e5, 300)))
                .isZero();
        // a liquid alone has no gas; two liquids are a solution, of which nothing is known
        assertThat(mixer.unlikeError(mix("air").atPressureTemperature(1e6, 80))).isNaN();
    }

    /** One fluid alone is that fluid: phases, transport and names by its own engine, energies moved to the formation datum. */
    @Test
    void oneFluidAloneIsThatFluid() {
        Fluid alone = mixer.mix(new double[] {0, 0, 0, 1, 0, 0, 0});
        PureFluid water = engine.pure("water");
        double shift = alone.atPressureTemperature(1e5, 300).enthalpy()
                - water.atPressureTemperature(1e5, 300).enthalpy();
        // formation enthalpy of steam -241.83 kJ/mol at 298.15 K (CODATA), that of the ideal gas
        near(shift, -241.826e3 / water.molarMass() - water.idealGasEnthalpy(298.15), 1e-4, "datum");
        FluidState wet = water.atPressureQuality(1e6, 0.25);
        FluidState ours = alone.atPressureEnthalpy(1e6, wet.enthalpy() + shift);
        StreamMixer.PhaseSplit split = mixer.split(ours);
        near(split.condensedMassFractions().get("water"), 0.75, 1e-8, "liquid");
        assertThat(split.gasMoleFractions().get("water")).isEqualTo(1);
        FluidState steam = alone.atPressureTemperature(1e5, 500);
        assertThat(mixer.split(steam).condensedMassFractions()).isEmpty();
        FluidState liquid = alone.atPressureTemperature(1e5, 300);
        assertThat(mixer.split(liquid).gasMoleFractions()).isEmpty();
        near(mixer.split(liquid).condensedMassFractions().get("water"), 1, 1e-12, "liquid");
        for (FluidState s : List.of(steam, liquid)) {
            FluidState own = water.atPressureTemperature(1e5, s.temperature());
            near(alone.viscosity(s), water.viscosity(own), 1e-9, s);
            near(alone.conductivity(s), water.conductivity(own), 1e-9, s);
            near(s.cp(), own.cp(), 1e-12, s);
        }
        // above its equation (2000 K published limits end) the continuation answers, by every pair
        double beyond = water.maximumTemperature() + 300;
        FluidState hot = alone.atPressureTemperature(1e5, beyond);
        assertThat(hot.extrapolated()).isTrue();
        near(alone.atPressureEnthalpy(1e5, hot.enthalpy()).temperature(), beyond, 1e-9, "h");
        near(alone.atPressureEntropy(1e5, hot.entropy()).temperature(), beyond, 1e-9, "s");
        near(hot.density(), 1e5 * water.molarMass() / (R * beyond), 1e-3, "ideal");
    }
}
