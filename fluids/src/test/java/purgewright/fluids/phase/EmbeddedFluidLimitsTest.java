package purgewright.fluids.phase;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.catchThrowableOfType;
import static org.assertj.core.api.Assertions.within;

import org.assertj.core.api.ThrowableAssert.ThrowingCallable;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import purgewright.fluids.FluidState;
import purgewright.fluids.Nearby;
import purgewright.fluids.Phase;
import purgewright.fluids.PropertyException;
import purgewright.fluids.PropertyException.Key;
import purgewright.fluids.helmholtz.HelmholtzEquation;
import purgewright.fluids.helmholtz.HelmholtzEquation.Workspace;

/** States exactly on a limit, and what is said of those beyond it. */
@DisplayName("A limit belongs to its range; beyond it the refusal says which limit it was")
class EmbeddedFluidLimitsTest {
    private static void near(double value, double expected, double relative, Object what) {
        assertThat(expected).as("%s", what).isFinite();
        assertThat(value).as("%s", what).isCloseTo(expected, within(relative * Math.abs(expected)));
    }

    private static PropertyException refusal(ThrowingCallable what, Key key) {
        PropertyException e = catchThrowableOfType(PropertyException.class, what);
        assertThat(e).as("%s", key).isNotNull();
        assertThat(e.key()).as("%s", e).isEqualTo(key);
        assertThat(e.values()).containsKey("fluid");
        return e;
    }

    // ---- heat and entropy of no state

    /** Along an isentrope dh = v dp: enthalpy at the greatest pressure is the most there is of that entropy. */
    @ParameterizedTest
    @CsvSource({"nitrogen, 600", "nitrogen, 1500", "oxygen, 300", "water, 900", "helium, 200", "methane, 500"})
    void moreHeatThanAtTheGreatestPressureIsRefusedWithThatPressure(String name, double t) {
        EmbeddedFluid f = EmbeddedFluid.load(name);
        FluidState top = f.atPressureTemperature(f.maximumPressure(), t);
        FluidState most = f.atEnthalpyEntropy(top.enthalpy() - 1e-6 * top.cp() * t, top.entropy());
        near(most.pressure(), f.maximumPressure(), 1e-4, most);
        for (double more : new double[] {1e-3, 0.1, 3}) {
            double h = top.enthalpy() + more * top.cp() * t;
            PropertyException e = refusal(() -> f.atEnthalpyEntropy(h, top.entropy()), Key.PRESSURE_OUT_OF_RANGE);
            assertThat(e.values()).containsEntry("maximum", f.maximumPressure());
            if (e.values().containsKey("pressure")) {
                // near the limit the state itself is found
                assertThat((double) e.values().get("pressure"))
                        .isBetween(f.maximumPressure(), 1.1 * f.maximumPressure());
            } else {
                assertThat(e.values()).containsEntry("enthalpy", h).containsEntry("entropy", top.entropy());
            }
        }
    }

    /** Of an ideal gas of atoms: at constant entropy T goes with p^(2/5), and at a millionth of the triple pressure a search ends. */
    @Test
    void aGasThinnerThanAnySearchLooksIsRefusedWithThatPressure() {
        EmbeddedFluid f = EmbeddedFluid.load("argon");
        double thinnest = 1e-6 * f.triplePressure();
        FluidState last = f.atPressureTemperature(1.01 * thinnest, 300);
        near(f.atEnthalpyEntropy(last.enthalpy(), last.entropy()).pressure(), 1.01 * thinnest, 1e-6, last);
        double colder = last.cp() * 300 * (Math.pow(0.9, 0.4) - 1);
        PropertyException e =
                refusal(() -> f.atEnthalpyEntropy(last.enthalpy() + colder, last.entropy()), Key.PRESSURE_OUT_OF_RANGE);
        near((double) e.values().get("minimum"), thinnest, 1e-9, e);
        assertThat(e.values()).containsKeys("enthalpy", "entropy", "maximum");
    }

    @ParameterizedTest
    @ValueSource(strings = {"nitrogen", "water", "helium", "oxygen", "carbon-dioxide"})
    void noPairOfHeatAndEntropyLeavesTheSearchWithoutAnAnswer(String name) {
        EmbeddedFluid f = EmbeddedFluid.load(name);
        FluidState hot = f.atPressureTemperature(1e5, f.maximumTemperature());
        FluidState cold = f.atPressureTemperature(2 * f.triplePressure(), 1.01 * f.tripleTemperature());
        int found = 0;
        for (int i = -5; i <= 15; i++) {
            for (int j = -5; j <= 15; j++) {
                double h = cold.enthalpy() + 0.1 * i * (hot.enthalpy() - cold.enthalpy());
                double s = cold.entropy() + 0.1 * j * (hot.entropy() - cold.entropy());
                try {
                    FluidState state = f.atEnthalpyEntropy(h, s);
                    assertThat(state.enthalpy()).isCloseTo(h, within(1e-8 * hot.cp() * state.temperature()));
                    assertThat(state.entropy()).isCloseTo(s, within(1e-8 * hot.cp()));
                    found++;
                } catch (PropertyException e) {
                    assertThat(e.key()).as("%s", e).isNotEqualTo(Key.NO_CONVERGENCE);
                }
            }
        }
        assertThat(found).isGreaterThan(60);
    }

    // ---- limits of pressure and temperature

    @ParameterizedTest
    @ValueSource(strings = {"nitrogen", "water", "helium", "oxygen"})
    void aStateOnALimitIsAState(String name) {
        EmbeddedFluid f = EmbeddedFluid.load(name);
        double hot = f.maximumTemperature();
        double cold = f.tripleTemperature();
        double top = f.maximumPressure();
        // what comes back from another pair may be off by rounding: a thousand-millionth still belongs to the range
        assertThat(f.atPressureTemperature(top * (1 + 1e-9), hot).pressure()).isEqualTo(top * (1 + 1e-9));
        assertThat(f.atPressureTemperature(1e5, hot * (1 + 1e-9)).temperature()).isEqualTo(hot * (1 + 1e-9));
        double thin = 0.5 * f.triplePressure();
        assertThat(f.atPressureTemperature(thin, cold * (1 - 1e-9)).temperature())
                .isEqualTo(cold * (1 - 1e-9));
        refusal(() -> f.atPressureTemperature(top * (1 + 1.1e-9), hot), Key.PRESSURE_OUT_OF_RANGE);
        refusal(() -> f.atPressureTemperature(1e5, hot * (1 + 1.1e-9)), Key.TEMPERATURE_OUT_OF_RANGE);
        refusal(() -> f.atPressureTemperature(thin, cold * (1 - 1.1e-9)), Key.TEMPERATURE_OUT_OF_RANGE);
        double tc = f.criticalTemperature();
        double pc = f.criticalPressure();
        assertThat(f.atTemperatureQuality(cold * (1 - 1e-12), 0.5).phase()).isEqualTo(Phase.TWO_PHASE);
        assertThat(f.saturationPressure(tc * (1 + 1e-12))).isPositive();
        assertThat(f.saturationTemperature(f.triplePressure() * (1 - 1e-9))).isPositive();
        assertThat(f.saturationTemperature(pc * (1 + 1e-12))).isPositive();
        refusal(() -> f.saturationTemperature(f.triplePressure() * (1 - 1.1e-9)), Key.PRESSURE_OUT_OF_RANGE);
        refusal(() -> f.saturationPressure(tc * (1 + 2e-12)), Key.TEMPERATURE_OUT_OF_RANGE);
    }

    /** A published range holds up to its own limit. */
    @Test
    void extrapolationBeginsAboveThePublishedLimit() {
        EmbeddedFluid f = EmbeddedFluid.load("oxygen"); // to 300 K as published
        double t = f.publishedMaximumTemperature();
        assertThat(f.atPressureTemperature(1e5, t).extrapolated()).isFalse();
        assertThat(f.atPressureTemperature(1e5, Math.nextUp(t)).extrapolated()).isTrue();
        double p = f.publishedMaximumPressure();
        assertThat(f.atPressureTemperature(p, 290).extrapolated()).isFalse();
        assertThat(f.atPressureTemperature(Math.nextUp(p), 290).extrapolated()).isTrue();
    }

    /** At the critical temperature itself nothing boils; at the critical pressure itself a hot fluid is called supercritical. */
    @Test
    void theCriticalPointBelongsToTheFluidAboveIt() {
        EmbeddedFluid f = EmbeddedFluid.load("nitrogen");
        double tc = f.criticalTemperature();
        double pc = f.criticalPressure();
        assertThat(f.atPressureTemperature(pc, 1.2 * tc).phase()).isEqualTo(Phase.SUPERCRITICAL);
        assertThat(f.atPressureTemperature(Math.nextDown(pc), 1.2 * tc).phase()).isEqualTo(Phase.GAS);
        assertThat(f.atPressureTemperature(2 * pc, tc).phase()).isEqualTo(Phase.SUPERCRITICAL);
        assertThat(f.atPressureTemperature(0.5 * pc, tc).phase()).isEqualTo(Phase.GAS);
        assertThat(f.atPressureTemperature(2 * pc, Math.nextDown(tc)).phase()).isEqualTo(Phase.LIQUID);
        refusal(() -> f.metastable(Phase.LIQUID, 2 * pc, tc), Key.NO_SUCH_STATE);
        refusal(() -> f.metastable(Phase.GAS, 0.5 * pc, tc), Key.NO_SUCH_STATE);
        assertThat(f.atDensityTemperature(f.criticalDensity(), tc).phase()).isNotEqualTo(Phase.TWO_PHASE);
    }

    /** The edges of the dome are the phases' own: they have heat capacities. */
    @ParameterizedTest
    @ValueSource(doubles = {0.3, 0.7})
    void theEdgeOfTheDomeIsOnePhase(double share) {
        EmbeddedFluid f = EmbeddedFluid.load("nitrogen");
        SaturationLine line = f.saturationLine();
        double p = share * f.criticalPressure();
        double x = line.xAtPressure(p);
        for (FluidState s : new FluidState[] {
            f.atPressureEnthalpy(p, line.liquidEnthalpy(x)),
            f.atPressureEntropy(p, line.liquidEntropy(x)),
            f.atDensityTemperature(line.liquidDensity(x), line.temperature(x))
        }) {
            assertThat(s.phase()).isEqualTo(Phase.LIQUID);
            assertThat(s.cp()).isFinite().isPositive();
            near(s.density(), line.liquidDensity(x), 1e-7, s);
        }
        for (FluidState s : new FluidState[] {
            f.atPressureEnthalpy(p, line.vapourEnthalpy(x)),
            f.atPressureEntropy(p, line.vapourEntropy(x)),
            f.atDensityTemperature(line.vapourDensity(x), line.temperature(x))
        }) {
            assertThat(s.phase()).isEqualTo(Phase.GAS);
            assertThat(s.cp()).isFinite().isPositive();
            near(s.density(), line.vapourDensity(x), 1e-7, s);
        }
        // by pressure and density the edge is of quality 0 or 1
        assertThat(f.atPressureDensity(p, line.liquidDensity(x)).quality()).isCloseTo(0, within(1e-12));
        assertThat(f.atPressureDensity(p, line.vapourDensity(x)).quality()).isCloseTo(1, within(1e-12));
        // saturated, the metastable phase is the stable one
        double t = line.temperature(x);
        double saturated = f.saturationPressure(t);
        near(f.metastable(Phase.GAS, saturated, t).density(), line.vapourDensity(x), 1e-7, "vapour");
        near(f.metastable(Phase.LIQUID, saturated, t).density(), line.liquidDensity(x), 1e-7, "liquid");
    }

    // ---- the melting line

    /** Colder than the melting line at a pressure above the critical one: what is refused names the place on that line. */
    @ParameterizedTest
    @CsvSource({"nitrogen, 1.5e9", "helium, 2e8", "helium, 9e8", "methane, 6e8"})
    void aSolidIsRefusedWithItsMeltingPoint(String name, double p) {
        EmbeddedFluid f = EmbeddedFluid.load(name);
        double t = f.tripleTemperature();
        for (int i = 0; i < 1000 && f.meltingPressure(1.01 * t) < p; i++) {
            t *= 1.01;
        }
        double upper = 1.01 * t;
        FluidState warm = f.atPressureTemperature(p, 1.2 * upper);
        double least = warm.enthalpy() - 0.5 * warm.cp() * t;
        PropertyException e = refusal(() -> f.atPressureEnthalpy(p, least), Key.SOLID);
        double melting = (double) e.values().get("temperature");
        near(f.meltingPressure(melting), p, 1e-7, e);
        assertThat(melting).isBetween(t, upper);
        // the coldest fluid is found, and nothing below it
        FluidState coldest = f.atPressureTemperature(p, melting * (1 + 1e-8));
        near(f.atPressureEnthalpy(p, coldest.enthalpy()).temperature(), coldest.temperature(), 1e-9, "h");
        near(f.atPressureEntropy(p, coldest.entropy()).temperature(), coldest.temperature(), 1e-9, "s");
        near(f.atPressureDensity(p, coldest.density()).temperature(), coldest.temperature(), 1e-8, "rho");
        refusal(() -> f.atPressureTemperature(p, melting * (1 - 1e-6)), Key.SOLID);
    }

    // ---- guesses

    /** With a table of starting values states are the same to the last digits but one, and cost less. */
    @Test
    void startingValuesFromATableChangeTheCostAlone() {
        EmbeddedFluid plain = EmbeddedFluid.load("oxygen");
        EmbeddedFluid prepared = EmbeddedFluid.load("oxygen");
        prepared.prepare();
        long[] cost = new long[2];
        for (double p : new double[] {2e4, 1e5, 3e6, 8e6, 3e7}) {
            for (double t : new double[] {65, 85, 120, 160, 250, 500, 1200}) {
                FluidState s = plain.atPressureTemperature(p, t);
                for (boolean entropic : new boolean[] {false, true}) {
                    int at = 0;
                    for (EmbeddedFluid f : new EmbeddedFluid[] {plain, prepared}) {
                        long before = f.evaluations();
                        FluidState found =
                                entropic ? f.atPressureEntropy(p, s.entropy()) : f.atPressureEnthalpy(p, s.enthalpy());
                        cost[at++] += f.evaluations() - before;
                        near(found.temperature(), t, 1e-9, s);
                        near(found.density(), s.density(), 1e-8, s);
                    }
                }
            }
        }
        assertThat(cost[1]).isLessThan(cost[0] * 7 / 10);
        long before = prepared.evaluations();
        prepared.prepare(); // once is enough
        assertThat(prepared.evaluations()).isEqualTo(before);
    }

    /** A guess changes no refusal, and what is too hot from one start is so from any: it is not searched for twice. */
    @Test
    void aGuessChangesNoRefusal() {
        EmbeddedFluid f = EmbeddedFluid.load("nitrogen");
        FluidState hot = f.atPressureTemperature(1e6, f.maximumTemperature());
        double beyond = hot.enthalpy() + 1e5;
        long before = f.evaluations();
        PropertyException plain = refusal(() -> f.atPressureEnthalpy(1e6, beyond), Key.TEMPERATURE_OUT_OF_RANGE);
        long once = f.evaluations() - before;
        before = f.evaluations();
        PropertyException guessed = refusal(
                () -> f.atPressureEnthalpy(1e6, beyond, new Nearby(1900, hot.density())), Key.TEMPERATURE_OUT_OF_RANGE);
        assertThat(f.evaluations() - before).isLessThan(2 * once);
        assertThat(guessed.values()).isEqualTo(plain.values());
        FluidState cold = f.atPressureTemperature(1e6, f.tripleTemperature() + 1);
        double below = cold.enthalpy() - 1e4;
        PropertyException colder = refusal(() -> f.atPressureEnthalpy(1e6, below), Key.NO_SUCH_STATE);
        assertThat(refusal(() -> f.atPressureEnthalpy(1e6, below, new Nearby(70, cold.density())), Key.NO_SUCH_STATE)
                        .values())
                .isEqualTo(colder.values());
        // a guess that is a place between the phases, or of another phase, is left for the usual start
        for (Nearby astray : new Nearby[] {
            new Nearby(100, 300), new Nearby(100, 1e-3), new Nearby(125, 313), new Nearby(1999, 1e4), new Nearby(64, 1)
        }) {
            FluidState s = f.atPressureTemperature(1e6, 95);
            near(f.atPressureEnthalpy(1e6, s.enthalpy(), astray).density(), s.density(), 1e-9, astray);
            near(f.atPressureEntropy(1e6, s.entropy(), astray).density(), s.density(), 1e-9, astray);
            FluidState v = f.atPressureTemperature(1e6, 110);
            near(f.atPressureEnthalpy(1e6, v.enthalpy(), astray).density(), v.density(), 1e-9, astray);
        }
    }

    /** A buffer asked for its viscosity says what the state does, in each phase. */
    @Test
    void aBuffersViscosityIsItsStates() {
        EmbeddedFluid f = EmbeddedFluid.load("nitrogen");
        StateBuffer b = new StateBuffer();
        for (double h : new double[] {-1.2e5, 0, 2e5}) {
            f.pressureEnthalpy(5e5, h, b);
            assertThat(f.viscosity(b)).isEqualTo(f.viscosity(b.toState(f))).isPositive();
        }
    }

    /** Heat and entropy beside the critical point, where the two equations are nearly one: the state is the equation's own. */
    @ParameterizedTest
    @CsvSource({
        "nitrogen, 1.0005, 1.001",
        "nitrogen, 1.02, 0.7",
        "oxygen, 1.001, 1.0",
        "water, 1.0005, 1.05",
        "water, 1.01, 0.5"
    })
    void heatAndEntropyBesideTheCriticalPoint(String name, double tr, double dr) {
        EmbeddedFluid f = EmbeddedFluid.load(name);
        HelmholtzEquation equation = f.equation();
        Workspace w = equation.workspace();
        equation.setTemperature(w, tr * f.criticalTemperature());
        equation.ideal(w);
        equation.setDensity(w, dr * f.criticalDensity());
        FluidState s = f.atEnthalpyEntropy(equation.enthalpy(w), equation.entropy(w));
        near(s.temperature(), tr * f.criticalTemperature(), 1e-8, s);
        near(s.density(), dr * f.criticalDensity(), 1e-6, s);
        near(s.pressure(), equation.pressure(w), 1e-8, s);
        near(s.cv(), equation.isochoricHeatCapacity(w), 1e-5, s);
    }
}
