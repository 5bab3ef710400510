package purgewright.sealflow.passage;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.HashMap;
import java.util.Map;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import purgewright.fluids.Engines;
import purgewright.fluids.FluidState;
import purgewright.sealflow.Notice;
import purgewright.sealflow.passage.Conditions.Bound;

@DisplayName("A labyrinth's geometry, drag, slopes and range, and an opening between its bounds, by their formulas")
class LabyrinthFormsTest {
    private static final PerfectGas AIR = new PerfectGas("air", 287.05, 1.4, 1.85e-5);
    private static final PerfectGas HELIUM = new PerfectGas("helium", 2077.26, 5.0 / 3, 1.99e-5);
    private static final FluidState UP = AIR.atPressureTemperature(5e5, 300);
    private static final double CLEARANCE = 0.2e-3;
    private static final double RADIUS = 0.05;
    private static final double AREA = 2 * Math.PI * CLEARANCE * (RADIUS + CLEARANCE / 2);

    private static Passage make(String type, double speed, Bound bound, Object... fields) {
        Map<String, Object> all = new HashMap<>();
        if ("labyrinth".equals(type)) {
            all.putAll(Map.of("teeth", 6.0, "pitch", 4e-3, "tip", 0.3e-3, "tooth height", 3e-3));
        }
        for (int i = 0; i < fields.length; i += 2) {
            all.put((String) fields[i], fields[i + 1]);
        }
        return PassageTypes.find(type)
                .orElseThrow()
                .build(PassageChecks.spec(type, RADIUS, CLEARANCE, all), new Conditions(speed, Double.NaN, bound));
    }

    private static FluidState air(double pressure) {
        return AIR.atPressureTemperature(pressure, 300);
    }

    private static void is(double value, double expected) {
        assertThat(value).isCloseTo(expected, within(1e-9 * Math.abs(expected)));
    }

    private static boolean outside(PassageFlow flow, String quantity) {
        return flow.notices().stream()
                .anyMatch(n -> n.key() == Notice.Key.OUT_OF_RANGE
                        && quantity.equals(n.values().get("quantity")));
    }

    private static boolean estimates(PassageFlow flow, String model) {
        return flow.notices().stream()
                .anyMatch(n -> n.key() == Notice.Key.ESTIMATE
                        && model.equals(n.values().get("model")));
    }

    @Test
    void geometryAndDrag() {
        Passage p = make("labyrinth", -1500, Bound.NOMINAL);
        is(p.diffusionArea(), AREA);
        is(p.diffusionLength(), 6 * 0.3e-3);
        is(p.surfaceSpeed(), 75);
        is(p.gap(), CLEARANCE);
        PassageFlow flow = p.flow(UP, air(3e5));
        // tips at the clearance, chambers between them at clearance and height
        double tips = Friction.dragPower(UP.density(), 1.85e-5, 1500, RADIUS, 6 * 0.3e-3, CLEARANCE);
        double chambers = Friction.dragPower(UP.density(), 1.85e-5, 1500, RADIUS, 5 * 3.7e-3, CLEARANCE + 3e-3);
        is(flow.heat(), tips + chambers);
        assertThat(flow.stagePressures()).hasSize(6);
        is(flow.reynolds(), flow.massFlow() / (Math.PI * RADIUS * 1.85e-5));
        // its height is its pitch unless stated
        PassageFlow usual = PassageTypes.find("labyrinth")
                .orElseThrow()
                .build(
                        PassageChecks.spec(
                                "labyrinth", RADIUS, CLEARANCE, Map.of("teeth", 6.0, "pitch", 4e-3, "tip", 0.3e-3)),
                        new Conditions(1500, Double.NaN, Bound.NOMINAL))
                .flow(UP, air(3e5));
        is(usual.heat(), tips + Friction.dragPower(UP.density(), 1.85e-5, 1500, RADIUS, 5 * 3.7e-3, CLEARANCE + 4e-3));
        assertThatThrownBy(() -> make("labyrinth", 0, Bound.NOMINAL, "tip", 4e-3))
                .hasMessageContaining("is not below the pitch");
    }

    @Test
    void bulkLawsChokeWhereTheyPeakAndTheirThroatIsThere() {
        double peak = Labyrinth.martinPeak(6);
        for (String method : new String[] {"martin", "egli"}) {
            Passage p = make("labyrinth", 0, Bound.NOMINAL, "method", method);
            assertThat(p.flow(UP, air(1.01 * peak * 5e5)).choked()).as(method).isFalse();
            assertThat(p.flow(UP, air(0.99 * peak * 5e5)).choked()).as(method).isTrue();
            is(p.flow(UP, air(0.5 * peak * 5e5)).throatPressure(), peak * 5e5);
            is(p.flow(UP, air(3e5)).throatPressure(), 3e5);
        }
        double stodola = 0.85 / Math.sqrt(7.5);
        Passage s = make("labyrinth", 0, Bound.NOMINAL, "method", "stodola");
        assertThat(s.flow(UP, air(1.01 * stodola * 5e5)).choked()).isFalse();
        assertThat(s.flow(UP, air(0.99 * stodola * 5e5)).choked()).isTrue();
        assertThat(estimates(s.flow(UP, air(3e5)), "egli")).isFalse();
    }

    @Test
    void whereTwoFluidsMeetAtRestItTurnsWithTheLesserSlope() {
        double mu = CarryOver.NEUMANN.factor(6, CLEARANCE, 4e-3, 0.3e-3);
        Object[][] ways = {
            {"martin", 1.0},
            {"stodola", 1.0},
            {"egli", 0.716 * Math.sqrt(6 / (1 + 5 / (mu * mu)))}
        };
        for (Object[] way : ways) {
            for (Bound bound : Bound.values()) {
                double band = bound == Bound.LOW ? 0.85 : bound == Bound.HIGH ? 1.15 : 1;
                Passage p = make("labyrinth", 0, bound, "method", way[0], "tooth condition", "rubbed");
                double dp = 5e-5;
                FluidState other = HELIUM.atPressureTemperature(5e5 - dp, 300);
                double least = band
                        * 1.2
                        * (double) way[1]
                        * AREA
                        * Math.min(Throttle.slopeAtRest(UP), Throttle.slopeAtRest(other))
                        / Math.sqrt(6);
                assertThat(p.flow(UP, other).massFlow() / dp).as("%s", way[0]).isCloseTo(least, within(2e-3 * least));
                assertThat(p.flow(other, UP).massFlow() / dp).as("%s", way[0]).isCloseTo(-least, within(2e-3 * least));
            }
        }
        // tooth by tooth: both ways alike
        Passage p = make("labyrinth", 0, Bound.NOMINAL);
        FluidState other = HELIUM.atPressureTemperature(5e5 - 5e-5, 300);
        double there = p.flow(UP, other).massFlow();
        assertThat(p.flow(other, UP).massFlow()).isCloseTo(-there, within(2e-3 * there));
        assertThat(p.flow(HELIUM.atPressureTemperature(5e5 + 5e-5, 300), UP).massFlow())
                .isCloseTo(there, within(2e-3 * there));
    }

    /** An abradable land leaks as a smooth one at the same clearance, less closely known, and says that this is an estimate. */
    @Test
    void anAbradableLandIsASmoothOneThatIsKnownLessClosely() {
        double smooth = make("labyrinth", 0, Bound.NOMINAL).flow(UP, air(3e5)).massFlow();
        PassageFlow cut =
                make("labyrinth", 0, Bound.NOMINAL, "land", "abradable").flow(UP, air(3e5));
        assertThat(cut.massFlow()).isEqualTo(smooth);
        assertThat(estimates(cut, "abradable land")).isTrue();
        assertThat(make("labyrinth", 0, Bound.HIGH, "land", "abradable")
                        .flow(UP, air(3e5))
                        .massFlow())
                .isCloseTo(1.2 * smooth, within(1e-9 * smooth));
        assertThat(make("labyrinth", 0, Bound.LOW, "land", "abradable")
                        .flow(UP, air(3e5))
                        .massFlow())
                .isCloseTo(0.8 * smooth, within(1e-9 * smooth));
    }

    @Test
    void itsRangeIsTold() {
        assertThat(make("labyrinth", 0, Bound.NOMINAL).flow(UP, air(3e5)).notices())
                .isEmpty();
        assertThat(outside(
                        make("labyrinth", 0, Bound.NOMINAL, "pitch", 1.2e-3).flow(UP, air(3e5)), "clearance / pitch"))
                .isTrue();
        assertThat(outside(
                        make("labyrinth", 0, Bound.NOMINAL, "pitch", 1.2e-3, "arrangement", "stepped")
                                .flow(UP, air(3e5)),
                        "clearance / pitch"))
                .as("nothing is carried over")
                .isFalse();
        assertThat(outside(make("labyrinth", 0, Bound.NOMINAL, "tip", 1.1e-3).flow(UP, air(3e5)), "tip / clearance"))
                .isTrue();
        assertThat(outside(make("labyrinth", 0, Bound.NOMINAL, "tip", 0.9e-3).flow(UP, air(3e5)), "tip / clearance"))
                .isFalse();
        // (L - t) / c of 18.5 and of 51
        assertThat(outside(
                        make("labyrinth", 0, Bound.NOMINAL, "carry-over", "vermes")
                                .flow(UP, air(3e5)),
                        "(pitch - tip) / clearance"))
                .isFalse();
        assertThat(outside(
                        make("labyrinth", 0, Bound.NOMINAL, "carry-over", "vermes", "pitch", 10.5e-3)
                                .flow(UP, air(3e5)),
                        "(pitch - tip) / clearance"))
                .isTrue();
        assertThat(outside(
                        make("labyrinth", 0, Bound.NOMINAL, "pitch", 10.5e-3).flow(UP, air(3e5)),
                        "(pitch - tip) / clearance"))
                .isFalse();
        PassageFlow comb = make("labyrinth", 0, Bound.NOMINAL, "land", "honeycomb", "cell", 3e-3)
                .flow(UP, air(3e5));
        assertThat(estimates(comb, "honeycomb land")).isTrue();
        assertThat(outside(comb, "clearance / cell")).isFalse();
        assertThat(outside(
                        make("labyrinth", 0, Bound.NOMINAL, "land", "honeycomb", "cell", 5e-3)
                                .flow(UP, air(3e5)),
                        "clearance / cell"))
                .isTrue();
        assertThat(outside(
                        make("labyrinth", 0, Bound.NOMINAL, "land", "honeycomb").flow(UP, air(3e5)),
                        "clearance / cell"))
                .isFalse();
        assertThat(estimates(make("labyrinth", 0, Bound.NOMINAL).flow(UP, air(3e5)), "honeycomb land"))
                .isFalse();
    }

    @Test
    void aBulkLawIsNotUsedForLiquid() {
        FluidState wet = Engines.embedded().pure("oxygen").atTemperatureQuality(110, 0.3);
        FluidState liquid = StiffLiquid.WATER.atPressureTemperature(5e5, 293);
        for (FluidState up : new FluidState[] {wet, liquid}) {
            FluidState down = up == wet
                    ? Engines.embedded().pure("oxygen").atPressureTemperature(3e5, 110)
                    : StiffLiquid.WATER.atPressureTemperature(3e5, 293);
            PassageFlow bulk =
                    make("labyrinth", 0, Bound.NOMINAL, "method", "martin").flow(up, down);
            PassageFlow teeth = make("labyrinth", 0, Bound.NOMINAL).flow(up, down);
            is(bulk.massFlow(), teeth.massFlow());
            assertThat(bulk.notices())
                    .anyMatch(n -> n.key() == Notice.Key.NOT_ESTABLISHED
                            && "martin".equals(n.values().get("model")));
            assertThat(teeth.notices()).noneMatch(n -> n.key() == Notice.Key.NOT_ESTABLISHED);
        }
    }

    // ---- openings

    @Test
    void theHighBoundOfASharpHoleGoesToWhatNoneExceeds() {
        double bore = Math.PI * 1e-6;
        for (double down : new double[] {4e5, 2.6e5, 2e5, 1e5, 0.2e5}) {
            Throttle.Flux jet = Throttle.flux(UP, down, Throttle.Flashing.FROZEN);
            double thin = Contraction.ofJet(jet.machSquared(), 1.4, 1);
            double c = thin;
            if (down < 0.528 * 5e5) {
                double t = 1 - down / (0.5282817877 * 5e5);
                c = thin + t * t * (3 - 2 * t) * (0.86 / 1.05 - thin);
            }
            Passage high = make("orifice", 0, Bound.HIGH, "diameter", 2e-3);
            assertThat(high.flow(UP, air(down)).massFlow())
                    .isCloseTo(1.05 * c * bore * jet.flux(), within(1e-6 * bore * jet.flux()));
            Passage low = make("orifice", 0, Bound.LOW, "diameter", 2e-3);
            is(low.flow(UP, air(down)).massFlow(), 0.95 * thin * bore * jet.flux());
            assertThat(high.flow(UP, air(down)).choked())
                    .as("it may rise still")
                    .isFalse();
            assertThat(low.flow(UP, air(down)).choked()).isEqualTo(jet.choked() && jet.machSquared() >= 1.1);
            // a thick wall's is full when the jet is choked
            Passage thick = make("orifice", 0, Bound.HIGH, "diameter", 2e-3, "thickness", 5e-3);
            assertThat(thick.flow(UP, air(down)).choked()).isEqualTo(jet.choked());
            is(thick.flow(UP, air(down)).massFlow(), 1.05 * 0.81 * bore * jet.flux());
            Passage stated = make("orifice", 0, Bound.HIGH, "diameter", 2e-3, "discharge coefficient", 0.7);
            is(stated.flow(UP, air(down)).massFlow(), 1.02 * 0.7 * bore * jet.flux());
            assertThat(stated.flow(UP, air(down)).choked()).isEqualTo(jet.choked());
        }
        // of a liquid the contraction is the incompressible one, choked as its jet is
        FluidState wet = Engines.embedded().pure("oxygen").atTemperatureQuality(110, 0.3);
        FluidState down = Engines.embedded().pure("oxygen").atPressureTemperature(1e5, 100);
        Throttle.Flux jet = Throttle.flux(wet, 1e5, Throttle.Flashing.RELAXED);
        PassageFlow flow = make("orifice", 0, Bound.NOMINAL, "diameter", 2e-3).flow(wet, down);
        is(flow.massFlow(), Math.PI / (Math.PI + 2) * bore * jet.flux());
        assertThat(flow.choked()).isEqualTo(jet.choked());
    }

    @Test
    void anOpeningTurnsWithTheLesserSlopeOfBothFluids() {
        double bore = Math.PI * 1e-6;
        Object[][] cases = {
            {make("orifice", 0, Bound.NOMINAL, "diameter", 2e-3), Math.PI / (Math.PI + 2)},
            {make("orifice", 0, Bound.HIGH, "diameter", 2e-3, "thickness", 5e-3), 1.05 * 0.81},
            {make("orifice", 0, Bound.LOW, "diameter", 2e-3, "discharge coefficient", 0.7), 0.98 * 0.7},
            // half way between a half and two diameters of thickness
            {
                make("orifice", 0, Bound.NOMINAL, "diameter", 2e-3, "thickness", 2.5e-3),
                0.5 * (0.81 + Math.PI / (Math.PI + 2))
            }
        };
        for (Object[] row : cases) {
            double dp = 5e-5;
            FluidState other = HELIUM.atPressureTemperature(5e5 - dp, 300);
            double least = (double) row[1] * bore * Math.min(Throttle.slopeAtRest(UP), Throttle.slopeAtRest(other));
            Passage p = (Passage) row[0];
            assertThat(p.flow(UP, other).massFlow() / dp).isCloseTo(least, within(2e-3 * least));
            assertThat(p.flow(other, UP).massFlow() / dp).isCloseTo(-least, within(2e-3 * least));
        }
    }
}
