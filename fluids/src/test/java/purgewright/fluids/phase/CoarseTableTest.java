package purgewright.fluids.phase;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.nio.DoubleBuffer;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import purgewright.fluids.Engines;
import purgewright.fluids.FluidState;
import purgewright.fluids.Phase;
import purgewright.fluids.PropertyException;

/**
 * Tables of half the standard fineness, built within some tenths of a second: what they say is the equations' within their coarseness,
 * inside their range they answer by themselves (their bits differ from the equations'), beyond it the equations do (to the bit).
 */
@DisplayName(
        "A coarse table answers in its range within its coarseness, and leaves the rest to the equations to the bit")
class CoarseTableTest {
    private static final double FINENESS = 0.45;

    private static EmbeddedFluid exact(String name) {
        return (EmbeddedFluid) Engines.embedded().pure(name);
    }

    private static TabulatedFluid built(String name) {
        EmbeddedFluid fluid = exact(name);
        return TabulatedFluid.build(fluid, TabulatedFluid.Range.of(fluid), FINENESS);
    }

    /** States over the range of a table: thin vapour, vapour, liquid, above the critical pressure. */
    private static List<FluidState> states(TabulatedFluid table) {
        EmbeddedFluid fluid = (EmbeddedFluid) table.exact();
        double pc = fluid.criticalPressure();
        double cold = table.range().minimumTemperature();
        double hot = table.range().maximumTemperature();
        List<FluidState> all = new ArrayList<>();
        for (double p :
                new double[] {1.2e3, 5e3, 4e4, 0.05 * pc, 0.3 * pc, 0.8 * pc, 1.3 * pc, 2.5 * pc, 8 * pc, 1.9e7, 9e7}) {
            for (double share : new double[] {0.003, 0.05, 0.12, 0.2, 0.31, 0.46, 0.7, 0.88, 0.997}) {
                double t = cold * Math.pow(hot / cold, share);
                if (p > table.range().maximumPressure()
                        || (fluid.meltingPressure(t) < 1.05 * p && p > fluid.triplePressure())) {
                    continue;
                }
                all.add(fluid.atPressureTemperature(p, t));
            }
        }
        return all;
    }

    private static void near(double value, double expected, double relative, Object what) {
        assertThat(value).as("%s", what).isCloseTo(expected, within(relative * Math.abs(expected)));
    }

    private static boolean byEquations(TabulatedFluid table, FluidState s) {
        double h = s.enthalpy();
        return table.atPressureEnthalpy(s.pressure(), h).density()
                == table.exact().atPressureEnthalpy(s.pressure(), h).density();
    }

    @ParameterizedTest
    @CsvSource({"oxygen, 3e-5", "water, 3e-4"})
    void statesAreTheEquationsWithinTheTablesCoarseness(String name, double off) {
        TabulatedFluid table = built(name);
        EmbeddedFluid fluid = (EmbeddedFluid) table.exact();
        double[] six = new double[6];
        double[] two = new double[6];
        StateBuffer buffer = new StateBuffer();
        int left = 0;
        int viscosities = 0;
        int conductivities = 0;
        List<FluidState> states = states(table);
        for (FluidState s : states) {
            double p = s.pressure();
            double t = s.temperature();
            FluidState f = table.atPressureEnthalpy(p, s.enthalpy());
            assertThat(f.fluid()).isSameAs(table);
            assertThat(f.pressure()).isEqualTo(p);
            assertThat(f.enthalpy()).isCloseTo(s.enthalpy(), within(1e-9 * s.cp() * t));
            near(f.temperature(), t, off, s);
            near(f.density(), s.density(), off, s);
            assertThat(f.entropy()).as("%s", s).isCloseTo(s.entropy(), within(off * s.cp()));
            near(f.cp(), s.cp(), 10 * off, s);
            near(f.cv(), s.cv(), 10 * off, s);
            near(f.soundSpeed(), s.soundSpeed(), 10 * off, s);
            assertThat(f.phase()).as("%s", s).isEqualTo(s.phase());
            assertThat(f.quality()).isEqualTo(s.quality());
            near(table.viscosity(f), fluid.viscosity(s), 5e-2, s);
            near(table.conductivity(f), fluid.conductivity(s), 5e-2, s);
            // the other ways to ask
            table.lookUp(p, s.enthalpy(), six);
            assertThat(six)
                    .as("%s", s)
                    .containsExactly(f.temperature(), f.density(), f.entropy(), f.cp(), f.cv(), f.soundSpeed());
            table.temperatureAndDensity(p, s.enthalpy(), two);
            assertThat(two[0]).isEqualTo(f.temperature());
            assertThat(two[1]).isEqualTo(f.density());
            table.atPressureEnthalpy(p, s.enthalpy(), s, buffer);
            assertThat(buffer.toState(table)).isEqualTo(f);
            FluidState e = table.atPressureEntropy(p, s.entropy());
            near(e.temperature(), t, off, s);
            near(e.density(), s.density(), off, s);
            assertThat(e.entropy()).isCloseTo(s.entropy(), within(1e-9 * s.cp()));
            assertThat(e.enthalpy()).as("%s", s).isCloseTo(s.enthalpy(), within(off * s.cp() * t));
            assertThat(e.phase()).isEqualTo(s.phase());
            table.atPressureEntropy(p, s.entropy(), s, buffer);
            assertThat(buffer.toState(table)).isEqualTo(e);
            table.isentrope(p, s.entropy(), two);
            near(two[0], e.density(), 1e-13, s);
            assertThat(two[1]).isEqualTo(e.enthalpy());
            double[] guess = new double[2];
            assertThat(table.guess(p, s.enthalpy(), false, guess)).as("%s", s).isTrue();
            near(guess[0], t, 0.03, s);
            near(guess[1], s.density(), 0.1, s);
            assertThat(table.guess(p, s.entropy(), true, guess)).as("%s", s).isTrue();
            near(guess[0], t, 0.03, s);
            left += byEquations(table, s) ? 1 : 0;
            viscosities += table.viscosity(s) == fluid.viscosity(s) ? 0 : 1;
            conductivities += table.conductivity(s) == fluid.conductivity(s) ? 0 : 1;
            assertThat(f.extrapolated()).isFalse();
        }
        assertThat(states).hasSizeGreaterThan(60);
        assertThat(left).as("left to the equations, of %s", states.size()).isBetween(1, states.size() / 3);
        assertThat(viscosities).as("by splines").isBetween(states.size() / 2, states.size());
        assertThat(conductivities).as("by splines").isBetween(states.size() / 2, states.size());
    }

    @ParameterizedTest
    @CsvSource({"oxygen", "water"})
    void theDomeIsTheEquationsDome(String name) {
        TabulatedFluid table = built(name);
        EmbeddedFluid fluid = (EmbeddedFluid) table.exact();
        double[] six = new double[6];
        double[] two = new double[6];
        for (double share : new double[] {0.4, 0.6, 0.8, 0.95}) {
            double t = share * fluid.criticalTemperature();
            t = Math.max(t, 1.2 * fluid.tripleTemperature());
            for (double q : new double[] {0.004, 0.3, 0.9}) {
                FluidState s = fluid.atTemperatureQuality(t, q);
                FluidState f = table.atPressureEnthalpy(s.pressure(), s.enthalpy());
                assertThat(f.phase()).isEqualTo(Phase.TWO_PHASE);
                near(f.temperature(), t, 1e-5, s);
                near(f.density(), s.density(), 1e-3, s);
                assertThat(f.quality()).isCloseTo(q, within(1e-4));
                near(f.soundSpeed(), s.soundSpeed(), 2e-2, s);
                near(table.viscosity(f), fluid.viscosity(s), 1e-2, s);
                near(table.conductivity(f), fluid.conductivity(s), 1e-3, s);
                assertThat(f.density())
                        .isNotEqualTo(fluid.atPressureEnthalpy(s.pressure(), s.enthalpy())
                                .density());
                table.lookUp(s.pressure(), s.enthalpy(), six);
                assertThat(six)
                        .containsExactly(
                                f.temperature(), f.density(), f.entropy(), Double.NaN, Double.NaN, f.soundSpeed());
                table.temperatureAndDensity(s.pressure(), s.enthalpy(), two);
                assertThat(two[1]).isEqualTo(f.density());
                FluidState e = table.atPressureEntropy(s.pressure(), s.entropy());
                assertThat(e.quality()).isCloseTo(q, within(1e-4));
                assertThat(e.enthalpy()).isCloseTo(s.enthalpy(), within(1e-3 * Math.abs(s.enthalpy())));
                table.isentrope(s.pressure(), s.entropy(), two);
                assertThat(two[0]).isEqualTo(e.density());
                assertThat(two[1]).isEqualTo(e.enthalpy());
                assertThat(table.guess(s.pressure(), s.enthalpy(), false, two)).isFalse();
            }
        }
    }

    @Test
    void beyondItsRangeTheEquationsAnswerToTheBit() {
        EmbeddedFluid fluid = exact("oxygen");
        TabulatedFluid table = TabulatedFluid.build(fluid, new TabulatedFluid.Range(1e4, 3e7, 70, 500), FINENESS);
        assertThat(table.range()).isEqualTo(new TabulatedFluid.Range(1e4, 3e7, 70, 500));
        double[] six = new double[6];
        double[] ends = new double[2];
        for (double[] pt : new double[][] {
            {9.9e3, 300},
            {100, 300},
            {3.01e7, 300},
            {6e7, 120},
            {1e6, 500.01},
            {1e6, 700},
            {1e6, 69.9},
            {2e7, 68},
            {2e7, 501},
            {1e5, 60},
            {2e4, 600},
            {2e4, 501}
        }) {
            FluidState s = fluid.atPressureTemperature(pt[0], pt[1]);
            String what = s.toString();
            FluidState a = fluid.atPressureEnthalpy(pt[0], s.enthalpy());
            FluidState b = table.atPressureEnthalpy(pt[0], s.enthalpy());
            assertThat(b.density()).as(what).isEqualTo(a.density());
            assertThat(b.temperature()).as(what).isEqualTo(a.temperature());
            assertThat(b.fluid()).isSameAs(table);
            table.lookUp(pt[0], s.enthalpy(), six);
            assertThat(six).containsExactly(a.temperature(), a.density(), a.entropy(), a.cp(), a.cv(), a.soundSpeed());
            table.temperatureAndDensity(pt[0], s.enthalpy(), ends);
            assertThat(ends).containsExactly(a.temperature(), a.density());
            FluidState c = fluid.atPressureEntropy(pt[0], s.entropy());
            FluidState d = table.atPressureEntropy(pt[0], s.entropy());
            assertThat(d.density()).as(what).isEqualTo(c.density());
            table.isentrope(pt[0], s.entropy(), ends);
            assertThat(ends).containsExactly(c.density(), c.enthalpy());
            if (pt[0] < 1e4 || pt[0] > 3e7) {
                assertThat(table.viscosity(b)).isEqualTo(fluid.viscosity(b));
                assertThat(table.conductivity(b)).isEqualTo(fluid.conductivity(b));
                assertThat(table.guess(pt[0], s.enthalpy(), false, ends)).isFalse();
            }
        }
        // inside, up to the edges, it answers by itself
        int own = 0;
        double[][] inside = {
            {1.01e4, 300},
            {1.01e4, 499},
            {2.99e7, 300},
            {2.99e7, 499},
            {2.99e7, 75},
            {1e6, 499},
            {1e6, 71},
            {1e5, 71},
            {1e5, 120},
            {4e6, 71},
            {4e6, 499},
            {1e7, 71},
            {1e7, 499},
            {1e4, 78},
            {5e6, 300},
            {5.1e6, 300}
        };
        for (double[] pt : inside) {
            FluidState s = fluid.atPressureTemperature(pt[0], pt[1]);
            own += byEquations(table, s) ? 0 : 1;
            near(table.atPressureEnthalpy(pt[0], s.enthalpy()).density(), s.density(), 2e-3, s);
        }
        assertThat(own).isGreaterThanOrEqualTo(inside.length - 3);
        assertThatThrownBy(() -> table.atPressureEnthalpy(1e6, -1e6)).isInstanceOf(PropertyException.class);
        assertThatThrownBy(() -> table.atPressureEnthalpy(Double.NaN, 1e5)).isInstanceOf(PropertyException.class);
        assertThatThrownBy(() -> table.atPressureEntropy(1e6, Double.NaN)).isInstanceOf(PropertyException.class);
    }

    @Test
    void aRangeAboveTheCriticalPressureAndOneWithoutADomeWork() {
        EmbeddedFluid fluid = exact("nitrogen");
        double pc = fluid.criticalPressure();
        TabulatedFluid dense = TabulatedFluid.build(fluid, new TabulatedFluid.Range(1.2 * pc, 3e7, 130, 400), FINENESS);
        TabulatedFluid gas = TabulatedFluid.build(fluid, new TabulatedFluid.Range(1e4, 3e7, 140, 400), FINENESS);
        TabulatedFluid low = TabulatedFluid.build(fluid, new TabulatedFluid.Range(1e4, 0.8 * pc, 70, 400), FINENESS);
        int own = 0;
        int asked = 0;
        for (double p : new double[] {2e4, 1e6, 2.5e6, 5e6, 2e7}) {
            for (double t : new double[] {75, 100, 145, 200, 390}) {
                FluidState s = fluid.atPressureTemperature(p, t);
                for (TabulatedFluid table : new TabulatedFluid[] {dense, gas, low}) {
                    FluidState f = table.atPressureEnthalpy(p, s.enthalpy());
                    near(f.density(), s.density(), 2e-3, s);
                    near(f.temperature(), t, 1e-3, s);
                    assertThat(f.phase()).isEqualTo(s.phase());
                    near(table.atPressureEntropy(p, s.entropy()).density(), s.density(), 2e-3, s);
                    boolean in = p >= table.range().minimumPressure()
                            && p <= table.range().maximumPressure()
                            && t >= table.range().minimumTemperature();
                    if (in) {
                        asked++;
                        own += byEquations(table, s) ? 0 : 1;
                    } else {
                        assertThat(byEquations(table, s)).as("%s", s).isTrue();
                    }
                }
            }
        }
        assertThat(own).as("of %s", asked).isGreaterThan(asked * 2 / 3);
        FluidState wet = fluid.atTemperatureQuality(100, 0.4);
        near(low.atPressureEnthalpy(wet.pressure(), wet.enthalpy()).density(), wet.density(), 1e-3, wet);
        assertThat(dense.size()).isLessThan(gas.size());
        // what is asked beyond the fluid is cut to it
        TabulatedFluid wide = TabulatedFluid.build(fluid, new TabulatedFluid.Range(1e6, 1e12, 1, 1e5), 0.05);
        assertThat(wide.range())
                .isEqualTo(new TabulatedFluid.Range(
                        1e6, fluid.maximumPressure(), fluid.tripleTemperature(), fluid.maximumTemperature()));
        assertThatThrownBy(() -> TabulatedFluid.build(fluid, new TabulatedFluid.Range(1e5, 1e6, 70, 127), FINENESS))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessageContaining("critical");
    }

    /** Helium freezes above its critical temperature: the cold edge follows the melting line, as near as a bent line can. */
    @Test
    void theColdEdgeFollowsTheMeltingLine() {
        EmbeddedFluid helium = exact("helium");
        TabulatedFluid table = TabulatedFluid.build(helium, new TabulatedFluid.Range(1e5, 1e8, 2.2, 400), FINENESS);
        int own = 0;
        int asked = 0;
        for (double t : new double[] {3, 4, 5, 7, 9, 11, 13}) {
            double p = Math.min(0.7 * helium.meltingPressure(t), 9.9e7);
            for (double share : new double[] {0.1, 0.4, 0.7, 1}) {
                FluidState s = helium.atPressureTemperature(share * p, t);
                if (s.pressure() < 1.2 * helium.criticalPressure()) {
                    continue;
                }
                asked++;
                own += byEquations(table, s) ? 0 : 1;
                near(table.atPressureEnthalpy(s.pressure(), s.enthalpy()).density(), s.density(), 5e-3, s);
            }
        }
        assertThat(own).as("of %s", asked).isGreaterThan(asked / 2);
    }

    @Test
    void errorFallsWithTheFourthPowerOfFinenessAndSizeGrowsWithItsSquare() {
        EmbeddedFluid fluid = exact("argon");
        TabulatedFluid.Range range = new TabulatedFluid.Range(1e5, 2e7, 100, 400);
        TabulatedFluid coarse = TabulatedFluid.build(fluid, range, 0.3);
        TabulatedFluid fine = TabulatedFluid.build(fluid, range, 0.6);
        TabulatedFluid.MeasuredError a = coarse.measure(400);
        TabulatedFluid.MeasuredError b = fine.measure(400);
        assertThat(b.points()).isBetween(200, 400);
        assertThat(b.leftToEquations()).isBetween(0.0, 0.4);
        assertThat(a.leftToEquations()).isBetween(b.leftToEquations(), 1.0);
        assertThat((double) fine.size() / coarse.size()).isBetween(2.5, 4.5);
        for (double error : new double[] {b.temperature(), b.density(), b.entropy(), b.soundSpeed(), b.viscosity()}) {
            assertThat(error).isBetween(1e-9, 1e-4);
        }
        assertThat(b.nearCritical()).isBetween(1e-9, 1e-3);
        // what it measures is what a look-up is off
        double worst = 0;
        for (double p = 2e5; p < 2e7; p *= 1.3) {
            for (double t = 200; t < 400; t += 23) {
                FluidState s = fluid.atPressureTemperature(p, t);
                worst = Math.max(
                        worst, Math.abs(fine.atPressureEnthalpy(p, s.enthalpy()).density() / s.density() - 1));
            }
        }
        assertThat(b.density()).isBetween(0.2 * worst, 50 * worst);
    }

    @Test
    void beyondThePublishedLimitsItsStatesAreExtrapolated() {
        EmbeddedFluid fluid = exact("argon");
        double hot = fluid.publishedMaximumTemperature();
        assertThat(hot).isLessThan(0.9 * fluid.maximumTemperature());
        TabulatedFluid table =
                TabulatedFluid.build(fluid, new TabulatedFluid.Range(1e5, 2e7, 160, 1.2 * hot), FINENESS);
        for (double share : new double[] {0.5, 0.99, 1.01, 1.15}) {
            double h = fluid.atPressureTemperature(1e6, share * hot).enthalpy();
            FluidState s = table.atPressureEnthalpy(1e6, h);
            assertThat(s.density())
                    .isNotEqualTo(fluid.atPressureEnthalpy(1e6, h).density());
            assertThat(s.extrapolated()).as("%s", s).isEqualTo(share > 1);
        }
    }

    @Test
    void itIsWrittenAndReadBackToTheBit() {
        EmbeddedFluid fluid = exact("argon");
        for (TabulatedFluid.Range range :
                List.of(new TabulatedFluid.Range(1e4, 2e7, 85, 400), new TabulatedFluid.Range(6e6, 2e7, 160, 400))) {
            TabulatedFluid table = TabulatedFluid.build(fluid, range, 0.1);
            DoubleBuffer numbers = DoubleBuffer.allocate(table.stored());
            table.write(numbers);
            assertThat(numbers.hasRemaining()).isFalse();
            numbers.flip();
            TabulatedFluid read = TabulatedFluid.read(fluid, numbers);
            assertThat(numbers.hasRemaining()).isFalse();
            assertThat(read.range()).isEqualTo(range);
            assertThat(read.size()).isEqualTo(table.size()).isGreaterThan(8L * 1000);
            for (double p : new double[] {1.1e4, 1e5, 2e6, 4.5e6, 8e6, 1.5e7}) {
                for (double t : new double[] {90, 120, 170, 390}) {
                    double h = fluid.atPressureTemperature(p, t).enthalpy();
                    FluidState a = table.atPressureEnthalpy(p, h);
                    FluidState b = read.atPressureEnthalpy(p, h);
                    assertThat(b.density()).isEqualTo(a.density());
                    assertThat(read.viscosity(b)).isEqualTo(table.viscosity(a));
                    assertThat(read.atPressureEntropy(p, b.entropy()).enthalpy())
                            .isEqualTo(table.atPressureEntropy(p, a.entropy()).enthalpy());
                }
            }
        }
    }

    @Test
    void whatItDoesNotHoldIsTheEquations() {
        EmbeddedFluid f = exact("argon");
        TabulatedFluid t = TabulatedFluid.build(f, new TabulatedFluid.Range(1e5, 2e7, 160, 400), 0.05);
        assertThat(t.exact()).isSameAs(f);
        assertThat(t.name()).isEqualTo(f.name());
        assertThat(t.toString()).contains("argon").contains("table");
        assertThat(t.molarMass()).isEqualTo(f.molarMass());
        assertThat(t.moleFractions()).isEqualTo(f.moleFractions());
        assertThat(t.criticalDensity()).isEqualTo(f.criticalDensity());
        assertThat(t.criticalTemperature()).isEqualTo(f.criticalTemperature());
        assertThat(t.criticalPressure()).isEqualTo(f.criticalPressure());
        assertThat(t.tripleTemperature()).isEqualTo(f.tripleTemperature());
        assertThat(t.maximumTemperature()).isEqualTo(f.maximumTemperature());
        assertThat(t.maximumPressure()).isEqualTo(f.maximumPressure());
        assertThat(t.publishedMaximumTemperature()).isEqualTo(f.publishedMaximumTemperature());
        assertThat(t.publishedMaximumPressure()).isEqualTo(f.publishedMaximumPressure());
        assertThat(t.referenceState()).isEqualTo(f.referenceState());
        assertThat(t.equationSource()).isEqualTo(f.equationSource());
        assertThat(t.transportSource()).isEqualTo(f.transportSource());
        assertThat(t.saturationPressure(120)).isEqualTo(f.saturationPressure(120));
        assertThat(t.saturationTemperature(1e6)).isEqualTo(f.saturationTemperature(1e6));
        assertThat(t.surfaceTension(100)).isEqualTo(f.surfaceTension(100));
        assertThat(t.meltingPressure(100)).isEqualTo(f.meltingPressure(100));
        assertThat(t.idealGasEnthalpy(300)).isEqualTo(f.idealGasEnthalpy(300));
        assertThat(t.idealGasHeatCapacityRatio(300)).isEqualTo(f.idealGasHeatCapacityRatio(300));
        FluidState[][] pairs = {
            {t.atPressureTemperature(1e6, 300), f.atPressureTemperature(1e6, 300)},
            {t.atDensityTemperature(20, 300), f.atDensityTemperature(20, 300)},
            {t.atPressureDensity(1e6, 20), f.atPressureDensity(1e6, 20)},
            {t.atEnthalpyEntropy(1e5, 3500), f.atEnthalpyEntropy(1e5, 3500)},
            {t.atTemperatureQuality(120, 0.3), f.atTemperatureQuality(120, 0.3)},
            {t.atPressureQuality(1e6, 0.3), f.atPressureQuality(1e6, 0.3)},
            {t.metastable(Phase.LIQUID, 1e6, 120), f.metastable(Phase.LIQUID, 1e6, 120)}
        };
        for (FluidState[] pair : pairs) {
            assertThat(pair[0].fluid()).isSameAs(t);
            assertThat(pair[0].toString().replace(t.toString(), f.toString())).isEqualTo(pair[1].toString());
        }
    }

    /** A limit belongs to the table: there, too, the equation is not asked. */
    @Test
    void onItsLimitsTheTableAnswersByItself() {
        TabulatedFluid table = built("oxygen");
        EmbeddedFluid fluid = (EmbeddedFluid) table.exact();
        double[] six = new double[6];
        double[] two = new double[2];
        double[] pair = new double[6];
        for (double p :
                new double[] {table.range().minimumPressure(), table.range().maximumPressure()}) {
            FluidState s = fluid.atPressureTemperature(p, 200);
            long before = fluid.evaluations();
            FluidState f = table.atPressureEnthalpy(p, s.enthalpy());
            FluidState e = table.atPressureEntropy(p, s.entropy());
            table.lookUp(p, s.enthalpy(), six);
            table.temperatureAndDensity(p, s.enthalpy(), pair);
            table.isentrope(p, s.entropy(), two);
            assertThat(fluid.evaluations()).as("%s Pa", p).isEqualTo(before);
            near(f.temperature(), 200, 1e-4, f);
            near(e.temperature(), 200, 1e-4, e);
            near(six[0], 200, 1e-4, p);
            near(pair[1], s.density(), 1e-4, p);
            near(two[0], s.density(), 1e-4, p);
        }
        double hot = table.range().maximumTemperature();
        FluidState above = fluid.atPressureTemperature(1e6, hot * (1 + 1e-9));
        table.lookUp(1e6, above.enthalpy(), six);
        assertThat(six[1])
                .isEqualTo(fluid.atPressureEnthalpy(1e6, above.enthalpy()).density());
        // published to 300 K: hotter is said to be beyond
        assertThat(table.atPressureEnthalpy(
                                1e6, fluid.atPressureTemperature(1e6, 310).enthalpy())
                        .extrapolated())
                .isEqualTo(310 > fluid.publishedMaximumTemperature());
        assertThat(table.atPressureEnthalpy(
                                1e6, fluid.atPressureTemperature(1e6, 290).enthalpy())
                        .extrapolated())
                .isFalse();
    }

    /** In the table, beyond it and in the dome a buffer's viscosity is its state's. */
    @Test
    void aBuffersViscosityIsItsStates() {
        TabulatedFluid table = built("oxygen");
        EmbeddedFluid fluid = (EmbeddedFluid) table.exact();
        StateBuffer b = new StateBuffer();
        double l = fluid.atPressureQuality(1e6, 0).enthalpy();
        double v = fluid.atPressureQuality(1e6, 1).enthalpy();
        for (double h : new double[] {l - 3e4, 0.5 * (l + v), v + 3e4, v + 2e5}) {
            table.atPressureEnthalpy(1e6, h, null, b);
            assertThat(table.viscosity(b))
                    .isEqualTo(table.viscosity(b.toState(table)))
                    .isPositive();
            near(table.viscosity(b), fluid.viscosity(fluid.atPressureEnthalpy(1e6, h)), 5e-2, h);
        }
        table.atPressureEnthalpy(10, v + 1e5, null, b); // thinner than the table
        assertThat(table.viscosity(b)).isEqualTo(fluid.viscosity(b.toState(fluid)));
    }

    /** Splines of third degree: the error goes with the fourth power of the fineness. */
    @Test
    void theErrorFallsWithTheFourthPowerOfFineness() {
        EmbeddedFluid argon = exact("argon");
        TabulatedFluid.Range range = new TabulatedFluid.Range(1e5, 2e7, 160, 400);
        TabulatedFluid.MeasuredError coarse =
                TabulatedFluid.build(argon, range, 0.5).measure(300);
        TabulatedFluid.MeasuredError standard =
                TabulatedFluid.build(argon, range).measure(300);
        assertThat(standard.density()).isBetween(coarse.density() / 200, coarse.density() / 3);
        assertThat(standard.temperature()).isBetween(coarse.temperature() / 200, coarse.temperature() / 3);
    }
}
