package purgewright.sealflow.passage;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.HashMap;
import java.util.Map;
import java.util.function.ToDoubleFunction;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import purgewright.fluids.Engines;
import purgewright.fluids.FluidState;
import purgewright.fluids.Phase;
import purgewright.fluids.PropertyEngine;
import purgewright.fluids.PureFluid;
import purgewright.fluids.phase.StateBuffer;
import purgewright.sealflow.Notice;
import purgewright.sealflow.passage.Conditions.Bound;

@DisplayName(
        "Lines, valves and openings by their own formulas, at every bound; a labyrinth's line of states against the fluid itself")
class DuctTypesTest {
    private static final PropertyEngine ENGINE = Engines.embedded();
    private static final PerfectGas AIR = new PerfectGas("air", 287.05, 1.4, 1.85e-5);
    private static final PerfectGas HELIUM = new PerfectGas("helium", 2077.26, 5.0 / 3, 1.99e-5);
    private static final FluidState UP = AIR.atPressureTemperature(1e6, 300);

    private static Passage make(String type, Bound bound, Object... fields) {
        Map<String, Object> all = new HashMap<>();
        for (int i = 0; i < fields.length; i += 2) {
            all.put((String) fields[i], fields[i + 1]);
        }
        return PassageTypes.find(type)
                .orElseThrow()
                .build(PassageChecks.spec(type, Double.NaN, Double.NaN, all), new Conditions(0, Double.NaN, bound));
    }

    private static FluidState air(double pressure) {
        return AIR.atPressureTemperature(pressure, 300);
    }

    private static double jet(double down) {
        return Throttle.flux(UP, down, Throttle.Flashing.EQUILIBRIUM).flux();
    }

    private static void is(double value, double expected) {
        assertThat(value).isCloseTo(expected, within(1e-9 * Math.abs(expected)));
    }

    private static void offTheShaft(Passage p, double area, double length) {
        is(p.diffusionArea(), area);
        is(p.diffusionLength(), length);
        assertThat(p.surfaceSpeed()).isZero();
        assertThat(p.gap()).isZero();
        assertThat(p.interfaceRadius(UP, UP)).isNaN();
        assertThat(p.film(UP, UP)).isNull();
    }

    /** Where two fluids meet at rest the flow turns with the lesser of both ends' slopes, ten millionths of the pressure either way. */
    private static void turns(Passage p, ToDoubleFunction<FluidState> slope) {
        double dp = 1e-4;
        FluidState other = HELIUM.atPressureTemperature(1e6 - dp, 300);
        double least = Math.min(slope.applyAsDouble(UP), slope.applyAsDouble(other));
        double tolerance = 2e-3 * least + 1e-18;
        assertThat(p.flow(UP, other).massFlow() / dp).isCloseTo(least, within(tolerance));
        assertThat(p.flow(other, UP).massFlow() / dp).isCloseTo(-least, within(tolerance));
        FluidState more = HELIUM.atPressureTemperature(1e6 + dp, 300);
        assertThat(p.flow(more, UP).massFlow() / dp).isCloseTo(least, within(tolerance));
        assertThat(p.flow(UP, more).massFlow() / dp).isCloseTo(-least, within(tolerance));
    }

    @Test
    void aLineIsAFrictionSlotOfItsBoreWithABandOfATenthOnFrictionAndLosses() {
        double area = Math.PI * 1e-4 / 4;
        for (Bound bound : Bound.values()) {
            double share = bound == Bound.LOW ? 1.1 : bound == Bound.HIGH ? 0.9 : 1;
            FrictionSlot slot = new FrictionSlot(0.01, 2 * share, 64, 3e-6, 0.2, 4 * share, 0, 1, 1);
            Passage line = make(
                    "line",
                    bound,
                    "diameter",
                    0.01,
                    "length",
                    2.0,
                    "roughness",
                    3e-6,
                    "inlet loss",
                    0.2,
                    "loss coefficient",
                    4.0);
            FrictionSlot.Result r = slot.solve(UP, 3e5, Throttle.Flashing.EQUILIBRIUM);
            PassageFlow flow = line.flow(UP, air(3e5));
            is(flow.massFlow(), area * r.flux());
            is(flow.gapVelocity(), r.flux() / UP.density());
            is(flow.reynolds(), r.reynolds());
            is(flow.throatPressure(), r.exitPressure());
            assertThat(flow.choked()).isEqualTo(r.choked());
            assertThat(flow.heat()).isZero();
            is(line.flow(air(3e5), UP).massFlow(), -area * r.flux());
            offTheShaft(line, area, 2 + 0.8 * 0.01);
            turns(line, s -> area * slot.slopeAtRest(s));
            // as stated by default
            FrictionSlot plain = new FrictionSlot(0.01, 2 * share, 64, 1.5e-6, 0.5, 0, 0, 1, 1);
            is(
                    make("line", bound, "diameter", 0.01, "length", 2.0)
                            .flow(UP, air(3e5))
                            .massFlow(),
                    area * plain.solve(UP, 3e5, Throttle.Flashing.EQUILIBRIUM).flux());
        }
        // 100 m of air up: rho g z
        Passage up = make("line", Bound.NOMINAL, "diameter", 0.01, "length", 100.0, "elevation", 100.0);
        double head = UP.density() * 9.80665 * 100;
        assertThat(up.flow(UP, air(1e6 - 0.9 * head)).massFlow()).isNegative();
        assertThat(up.flow(UP, air(1e6 - 1.1 * head)).massFlow()).isPositive();
    }

    @Test
    void aBendIsAShortLineWithItsLoss() {
        double area = Math.PI * 1e-4 / 4;
        for (Bound bound : Bound.values()) {
            FrictionSlot slot = new FrictionSlot(0.01, 0.05, 64, 1.5e-6, 0, 1.1, 0, 1, 1);
            Passage bend = make("bend", bound, "diameter", 0.01, "length", 0.05, "loss coefficient", 1.1);
            is(
                    bend.flow(UP, air(8e5)).massFlow(),
                    area * slot.solve(UP, 8e5, Throttle.Flashing.EQUILIBRIUM).flux());
            FrictionSlot usual = new FrictionSlot(0.01, 0.05, 64, 1.5e-6, 0, 0.3, 0, 1, 1);
            is(
                    make("bend", bound, "diameter", 0.01, "length", 0.05)
                            .flow(UP, air(8e5))
                            .massFlow(),
                    area * usual.solve(UP, 8e5, Throttle.Flashing.EQUILIBRIUM).flux());
            offTheShaft(bend, area, 0.05 + 0.8 * 0.01);
        }
        FluidState boiling = ENGINE.pure("oxygen").atPressureTemperature(2.6e6, 120);
        FluidState low = ENGINE.pure("oxygen").atPressureTemperature(2e5, 120);
        for (String type : new String[] {"bend", "line"}) {
            double even = make(type, Bound.NOMINAL, "diameter", 0.01, "length", 0.05)
                    .flow(boiling, low)
                    .massFlow();
            double frozen = make(type, Bound.HIGH, "diameter", 0.01, "length", 0.05)
                    .flow(boiling, low)
                    .massFlow();
            assertThat(frozen).as("at the high bound a liquid does not flash").isGreaterThan(1.1 * even);
        }
    }

    private static double opens(double t) {
        double c = Math.max(0, Math.min(1, t));
        return c * c * (3 - 2 * c);
    }

    @Test
    void aCheckValveOpensFromItsCrackingPressureToTwiceThat() {
        double bore = Math.PI * 1e-4 / 4;
        for (Bound bound : Bound.values()) {
            double band = bound == Bound.LOW ? 0.95 : bound == Bound.HIGH ? 1.05 : 1;
            Passage valve = make(
                    "check valve",
                    bound,
                    "diameter",
                    0.01,
                    "cracking pressure",
                    1e5,
                    "discharge coefficient",
                    0.8,
                    "reverse leak",
                    0.05);
            for (double dp : new double[] {5e4, 1.2e5, 1.5e5, 1.9e5, 3e5}) {
                double open = 0.05 + 0.95 * opens((dp - 1e5) / 1e5);
                PassageFlow flow = valve.flow(UP, air(1e6 - dp));
                is(flow.massFlow(), 0.8 * band * open * bore * jet(1e6 - dp));
                is(flow.gapVelocity(), 0.8 * band * jet(1e6 - dp) / UP.density());
                is(flow.throatPressure(), 1e6 - dp);
                assertThat(flow.choked()).isFalse();
                is(valve.flow(air(1e6 - dp), UP).massFlow(), -0.8 * band * 0.05 * bore * jet(1e6 - dp));
            }
            assertThat(valve.flow(UP, air(1e5)).choked()).isTrue();
            offTheShaft(valve, 0.05 * bore, 0.8 * 0.01);
            turns(valve, s -> 0.05 * 0.8 * band * bore * Throttle.slopeAtRest(s));
        }
        // without spring or leak: shut backwards, opening over 200 Pa forwards
        Passage plain = make("check valve", Bound.NOMINAL, "diameter", 0.01);
        is(plain.flow(UP, air(1e6 - 100)).massFlow(), 0.7 * opens(0.5) * bore * jet(1e6 - 100));
        is(plain.flow(UP, air(5e5)).massFlow(), 0.7 * bore * jet(5e5));
        PassageFlow shut = plain.flow(air(5e5), UP);
        assertThat(shut.massFlow()).isZero();
        assertThat(shut.throatPressure()).isEqualTo(5e5);
        assertThat(shut.notices()).isEmpty();
        offTheShaft(plain, 0, 0.8 * 0.01);
    }

    @Test
    void aReliefValveOpensOverItsOverpressureAndNeverBackwards() {
        double bore = Math.PI * 1e-4 / 4;
        for (Bound bound : Bound.values()) {
            double band = bound == Bound.LOW ? 0.95 : bound == Bound.HIGH ? 1.05 : 1;
            Passage valve = make(
                    "relief valve",
                    bound,
                    "diameter",
                    0.01,
                    "set pressure",
                    2e5,
                    "overpressure",
                    0.2,
                    "discharge coefficient",
                    0.9);
            for (double dp : new double[] {1.9e5, 2.1e5, 2.2e5, 2.3e5, 3e5}) {
                PassageFlow flow = valve.flow(UP, air(1e6 - dp));
                double open = opens((dp - 2e5) / 4e4);
                assertThat(flow.massFlow()).isCloseTo(0.9 * band * open * bore * jet(1e6 - dp), within(1e-12));
                if (open > 0) {
                    is(flow.gapVelocity(), jet(1e6 - dp) / UP.density());
                }
                assertThat(flow.choked()).isFalse();
                assertThat(valve.flow(air(1e6 - dp), UP).massFlow()).isZero();
            }
            assertThat(valve.flow(UP, air(1e5)).choked()).isTrue();
            is(valve.flow(UP, air(1e5)).throatPressure(), 1e6 * 0.5282817877);
            offTheShaft(valve, 0, 1e-3);
            turns(valve, s -> 0);
        }
        Passage usual = make("relief valve", Bound.NOMINAL, "diameter", 0.01, "set pressure", 2e5);
        is(usual.flow(UP, air(1e6 - 2.1e5)).massFlow(), 0.7 * 0.5 * bore * jet(1e6 - 2.1e5));
        is(usual.flow(UP, air(5e5)).massFlow(), 0.7 * bore * jet(5e5));
    }

    @Test
    void openingsAreAreaTimesCoefficientTimesTheJet() {
        double bore = Math.PI * 1e-4 / 4;
        for (Bound bound : Bound.values()) {
            double band = bound == Bound.LOW ? 0.98 : bound == Bound.HIGH ? 1.02 : 1;
            Object[][] cases = {
                {make("nozzle", bound, "diameter", 0.01), 0.98 * bore, bore, 0.01},
                {make("nozzle", bound, "diameter", 0.01, "discharge coefficient", 0.9), 0.9 * bore, bore, 0.01},
                {make("holes", bound, "diameter", 0.01, "number", 7.0), 7 * 0.75 * bore, 7 * bore, 0.01},
                {
                    make("holes", bound, "diameter", 0.01, "number", 7.0, "discharge coefficient", 0.6),
                    7 * 0.6 * bore,
                    7 * bore,
                    0.01
                },
                {make("valve", bound, "diameter", 0.01), 0.7 * bore, bore, 0.01},
                {
                    make("valve", bound, "diameter", 0.01, "opening", 0.3, "discharge coefficient", 0.6),
                    0.3 * 0.6 * bore,
                    0.3 * bore,
                    0.01
                },
            };
            for (Object[] row : cases) {
                Passage p = (Passage) row[0];
                is(p.flow(UP, air(6e5)).massFlow(), band * (double) row[1] * jet(6e5));
                is(p.flow(air(6e5), UP).massFlow(), -band * (double) row[1] * jet(6e5));
                offTheShaft(p, (double) row[2], 0.8 * (double) row[3]);
                turns(p, s -> band * (double) row[1] * Throttle.slopeAtRest(s));
            }
            // a filter passes its rated flow at its rated drop: of what is incompressible m = A sqrt(2 rho dp)
            double area = 0.02 / Math.sqrt(2 * 5 * 20e3);
            Passage filter =
                    make("filter", bound, "rated flow", 0.02, "rated pressure drop", 20e3, "rated density", 5.0);
            is(filter.flow(UP, air(9e5)).massFlow(), band * area * jet(9e5));
            offTheShaft(filter, area, 0.8 * Math.sqrt(4 * area / Math.PI));
            Passage clogged = make(
                    "filter",
                    bound,
                    "rated flow",
                    0.02,
                    "rated pressure drop",
                    20e3,
                    "rated density",
                    5.0,
                    "clogging",
                    0.4);
            is(clogged.flow(UP, air(9e5)).massFlow(), band * 0.6 * area * jet(9e5));
        }
        // What no plain hole does is noted of holes and nozzles, not of valves.
        assertThat(make("holes", Bound.NOMINAL, "diameter", 0.01, "number", 1.0, "discharge coefficient", 0.3)
                        .flow(UP, air(6e5))
                        .notices())
                .anyMatch(n -> n.key() == Notice.Key.OUT_OF_RANGE);
        assertThat(make("nozzle", Bound.NOMINAL, "diameter", 0.01, "discharge coefficient", 0.3)
                        .flow(UP, air(6e5))
                        .notices())
                .anyMatch(n -> n.key() == Notice.Key.OUT_OF_RANGE);
        for (String type : new String[] {"valve", "filter"}) {
            assertThat(make(
                                    type,
                                    Bound.NOMINAL,
                                    "diameter",
                                    0.01,
                                    "discharge coefficient",
                                    0.3,
                                    "rated flow",
                                    0.02,
                                    "rated pressure drop",
                                    20e3,
                                    "rated density",
                                    5.0)
                            .flow(UP, air(6e5))
                            .notices())
                    .isEmpty();
        }
        assertThatThrownBy(() -> make("nozzle", Bound.NOMINAL, "diameter", 0.0))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessage("nozzle: diameter is 0.00000 m; it must be above 0");
    }

    @Test
    void atItsBoundsALiquidThatFlashesIsInEquilibriumOrFrozen() {
        PureFluid oxygen = ENGINE.pure("oxygen");
        FluidState up = oxygen.atPressureTemperature(2.6e6, 120);
        FluidState down = oxygen.atPressureTemperature(2e5, 120);
        Throttle.Flashing[] ways = {Throttle.Flashing.EQUILIBRIUM, Throttle.Flashing.RELAXED, Throttle.Flashing.FROZEN};
        double bore = Math.PI * 1e-4 / 4;
        Bound[] bounds = {Bound.LOW, Bound.NOMINAL, Bound.HIGH};
        for (int i = 0; i < 3; i++) {
            double jet = Throttle.flux(up, 2e5, ways[i]).flux();
            double wide = 1 + 0.05 * (i - 1);
            double narrow = 1 + 0.02 * (i - 1);
            is(make("check valve", bounds[i], "diameter", 0.01).flow(up, down).massFlow(), 0.7 * wide * bore * jet);
            is(
                    make("relief valve", bounds[i], "diameter", 0.01, "set pressure", 1e5)
                            .flow(up, down)
                            .massFlow(),
                    0.7 * wide * bore * jet);
            is(make("nozzle", bounds[i], "diameter", 0.01).flow(up, down).massFlow(), 0.98 * narrow * bore * jet);
        }
    }

    @Test
    void whatTheFluidDoesNotGiveIsNoted() {
        LimitedGas gas = new LimitedGas(AIR, 0.99e6);
        FluidState up = gas.atPressureTemperature(1e6, 300);
        FluidState down = air(5e5);
        Passage[] all = {
            make("check valve", Bound.NOMINAL, "diameter", 0.01),
            make("relief valve", Bound.NOMINAL, "diameter", 0.01, "set pressure", 1e5),
            make("nozzle", Bound.NOMINAL, "diameter", 0.01),
            make("line", Bound.NOMINAL, "diameter", 0.01, "length", 1.0)
        };
        for (Passage p : all) {
            assertThat(p.flow(up, down).notices()).anyMatch(n -> n.key() == Notice.Key.EXTRAPOLATED);
            assertThat(p.flow(UP, down).notices()).noneMatch(n -> n.key() == Notice.Key.EXTRAPOLATED);
        }
    }

    /** Off the line by a jet's kilojoules the line's own slopes serve. */
    @Test
    void aLineOfStatesIsTheFluids() {
        Object[][] starts = {
            {"oxygen", 2.6e6, 97.0, Double.NaN, 1e6},
            {"oxygen", 2.6e6, 120.0, Double.NaN, 3e5},
            {"nitrogen", 1.5e6, 90.0, Double.NaN, 2e5},
            {"methane", 2e6, 140.0, Double.NaN, 2e5},
            {"oxygen", Double.NaN, 115.0, 0.1, 2e5},
            {"nitrogen", Double.NaN, 95.0, 0.5, 1e5},
            {"oxygen", 1.0e6, 119.6, Double.NaN, 3e5}
        };
        for (Object[] row : starts) {
            PureFluid fluid = ENGINE.pure((String) row[0]);
            double quality = (double) row[3];
            FluidState up = Double.isNaN(quality)
                    ? fluid.atPressureTemperature((double) row[1], (double) row[2])
                    : fluid.atTemperatureQuality((double) row[2], quality);
            double down = (double) row[4];
            LineStates line = new LineStates();
            String name = row[0] + " " + up.pressure() + " " + up.phase();
            assertThat(line.set(up, down)).as(name).isTrue();
            assertThat(line.molarMass()).isEqualTo(fluid.molarMass());
            assertThat(line.criticalDensity()).isEqualTo(fluid.criticalDensity());
            StateBuffer ours = new StateBuffer();
            line.start(ours);
            same(name + " start", ours, up, 1e-6);
            for (double p = up.pressure(); p >= down; p *= 0.93) {
                String what = name + " at " + p;
                line.atPressureEnthalpy(p, up.enthalpy(), ours);
                same(what, ours, fluid.atPressureEnthalpy(p, up.enthalpy()), 1e-5);
                // a jet's kinetic energy, and the entropy that a chamber's loss makes
                FluidState jet = fluid.atPressureEnthalpy(p, up.enthalpy() - 500);
                FluidState on = fluid.atPressureEnthalpy(p, up.enthalpy());
                if (jet.phase() == on.phase()) {
                    line.atPressureEnthalpy(p, up.enthalpy() - 500, ours);
                    same(what + " jet", ours, jet, 1e-4);
                    line.atPressureEntropy(p, jet.entropy(), ours);
                    same(what + " jet s", ours, jet, 1e-4);
                }
            }
            if (up.fluid().atPressureEnthalpy(down, up.enthalpy()).phase() == Phase.TWO_PHASE) {
                // below its lowest point the line goes straight on in ln p
                double below = 0.5 * down;
                line.atPressureEnthalpy(below, up.enthalpy(), ours);
                same(name + " below", ours, fluid.atPressureEnthalpy(below, up.enthalpy()), 0.05);
            }
        }
    }

    private static void same(String what, StateBuffer ours, FluidState exact, double tolerance) {
        assertThat(ours.pressure()).as(what).isEqualTo(exact.pressure(), within(1e-9 * exact.pressure()));
        assertThat(ours.phase() == Phase.TWO_PHASE).as(what).isEqualTo(exact.phase() == Phase.TWO_PHASE);
        assertThat(ours.density() / exact.density()).as(what + " density").isCloseTo(1, within(tolerance));
        assertThat(ours.temperature() / exact.temperature()).as(what + " T").isCloseTo(1, within(tolerance));
        assertThat(ours.enthalpy()).as(what + " h").isCloseTo(exact.enthalpy(), within(1000 * tolerance));
        assertThat(ours.entropy()).as(what + " s").isCloseTo(exact.entropy(), within(100 * tolerance));
        if (exact.phase() == Phase.TWO_PHASE) {
            assertThat(ours.quality()).as(what + " x").isCloseTo(exact.quality(), within(tolerance));
            assertThat(ours.soundSpeed() / exact.soundSpeed()).as(what + " w").isCloseTo(1, within(0.2));
        } else {
            assertThat(ours.soundSpeed() / exact.soundSpeed()).as(what + " w").isCloseTo(1, within(0.01));
            assertThat(ours.cp() / exact.cp()).as(what + " cp").isCloseTo(1, within(0.2));
        }
    }

    /** Temperature on the isobar at which the density is so many times the critical one. */
    private static FluidState atDensity(PureFluid fluid, double pressure, double ratio) {
        return fluid.atPressureDensity(pressure, ratio * fluid.criticalDensity());
    }

    @Test
    void noLineIsGivenOfGasesAndLightLiquids() {
        LineStates line = new LineStates();
        assertThat(line.set(ENGINE.pure("nitrogen").atPressureTemperature(3e6, 300), 1e5))
                .isFalse();
        assertThat(line.setCondensing(ENGINE.pure("nitrogen").atPressureTemperature(3e6, 300), 1e5))
                .isFalse();
        FluidState light = ENGINE.pure("oxygen").atPressureTemperature(5e6, 150);
        assertThat(light.density()).isLessThan(1.8 * light.fluid().criticalDensity());
        assertThat(line.set(light, 1e6)).isFalse();
        assertThat(line.set(UP, 1e5)).isFalse();
        // no line whose lower end, or whose last liquid state, is lighter than that
        PureFluid hydrogen = ENGINE.pure("parahydrogen");
        PureFluid oxygen = ENGINE.pure("oxygen");
        FluidState heavy = atDensity(hydrogen, 6e6, 1.82);
        assertThat(line.set(heavy, 2e6)).isFalse();
        assertThat(line.set(heavy, 5.9e6)).isTrue();
        FluidState flashes = atDensity(oxygen, 12e6, 1.82);
        assertThat(oxygen.atPressureEnthalpy(1e6, flashes.enthalpy()).phase()).isEqualTo(Phase.TWO_PHASE);
        assertThat(line.set(flashes, 1e6)).isFalse();
        assertThat(line.set(atDensity(oxygen, 6e6, 1.79), 5.9e6)).isFalse();
        assertThat(line.set(atDensity(oxygen, 6e6, 1.82), 5.95e6)).isTrue();
        // a stiff liquid has one down to where its density has hardly changed
        assertThat(line.set(StiffLiquid.WATER.atPressureTemperature(5e6, 293), 1e5))
                .isTrue();
    }
}
