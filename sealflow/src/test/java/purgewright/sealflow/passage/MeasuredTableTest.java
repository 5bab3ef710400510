package purgewright.sealflow.passage;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import net.jqwik.api.Arbitraries;
import net.jqwik.api.Arbitrary;
import net.jqwik.api.Combinators;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.Provide;
import org.junit.jupiter.api.Test;
import purgewright.fluids.FluidState;

/** A measured leakage between rest and the point measured nearest to it, whichever way the readings curve. */
class MeasuredTableTest {
    private static final PerfectGas AIR = new PerfectGas("air", 287.05, 1.4, 1.85e-5);
    private static final double UPSTREAM = 1e6;

    /** Readings at one upstream pressure: drops over it, rising, and flows in kg/s, not falling. */
    record Readings(String law, List<Double> drops, List<Double> flows) {
        Passage passage() {
            List<String> rows = new ArrayList<>();
            for (int i = 0; i < drops.size(); i++) {
                rows.add(UPSTREAM + " Pa > " + UPSTREAM * (1 - drops.get(i)) + " Pa: " + flows.get(i) + " kg/s");
            }
            Map<String, Object> fields = Map.of("table", String.join("; ", rows), "law", law);
            return PassageTypes.find("measured")
                    .orElseThrow()
                    .build(
                            PassageChecks.spec("measured", Double.NaN, Double.NaN, fields),
                            new Conditions(0, Double.NaN, Conditions.Bound.NOMINAL));
        }
    }

    private static FluidState air(double pressure) {
        return AIR.atPressureTemperature(pressure, 293.15);
    }

    private static double flow(Passage passage, double drop) {
        return passage.flow(air(UPSTREAM), air(UPSTREAM * (1 - drop))).massFlow();
    }

    /** Steps of the flow over three decades, so that tables curve either way, sharply too. */
    @Provide
    Arbitrary<Readings> readings() {
        Arbitrary<List<Double>> steps =
                Arbitraries.doubles().between(0.01, 0.19).list().ofMinSize(1).ofMaxSize(5);
        Arbitrary<List<Double>> rises =
                Arbitraries.doubles().between(-3, 0).list().ofSize(5);
        return Combinators.combine(Arbitraries.of("orifice", "laminar"), steps, rises)
                .as((law, apart, powers) -> {
                    List<Double> drops = new ArrayList<>();
                    List<Double> flows = new ArrayList<>();
                    double drop = 0;
                    double flow = 0;
                    for (int i = 0; i < apart.size(); i++) {
                        drop += apart.get(i);
                        flow += 1e-3 * Math.pow(10, powers.get(i));
                        drops.add(drop);
                        flows.add(flow);
                    }
                    return new Readings(law, drops, flows);
                });
    }

    @Property(tries = 300, seed = "20261126")
    void theFlowIsAtLeastTheLineFromRestAndNeverFalls(@ForAll("readings") Readings readings) {
        Passage passage = readings.passage();
        double first = readings.drops().get(0);
        double measured = flow(passage, first);
        double before = 0;
        // Smaller drops drown in the rounding of the pressures they are between.
        for (double share = 1e-5; share < 1; share *= 1.1) {
            double flow = flow(passage, share * first);
            // 1e-5: the join of both directions is eased where the ends differ in density.
            assertThat(flow)
                    .isGreaterThanOrEqualTo(share * measured * (1 - 1e-5))
                    .isGreaterThanOrEqualTo(before);
            before = flow;
        }
        for (double drop = first; drop < 1; drop += 0.003) {
            double flow = flow(passage, drop);
            assertThat(flow).isGreaterThanOrEqualTo(before * (1 - 1e-12));
            before = flow;
        }
    }

    @Property(tries = 300, seed = "20261126")
    void readingsComeBackAndNoneIsACorner(@ForAll("readings") Readings readings) {
        Passage passage = readings.passage();
        // air of 287.05 J/(kg K) here, of the exact molar mass in the table: the square root, or the whole, of the
        // ratio of both
        double same = flow(passage, readings.drops().get(0)) / readings.flows().get(0);
        assertThat(same).isCloseTo("laminar".equals(readings.law()) ? 18.2 / 18.5 : 1, within(1e-3));
        List<Double> drops = readings.drops();
        for (int i = 0; i < drops.size(); i++) {
            double drop = drops.get(i);
            double here = flow(passage, drop);
            assertThat(here).isCloseTo(same * readings.flows().get(i), within(1e-6 * here));
            if (i < drops.size() - 1) {
                double step = 1e-8;
                double below = (here - flow(passage, drop - step)) / step;
                double above = (flow(passage, drop + step) - here) / step;
                double steepest = Math.max(
                        (here - (i == 0 ? 0 : flow(passage, drops.get(i - 1))))
                                / (drop - (i == 0 ? 0 : drops.get(i - 1))),
                        (flow(passage, drops.get(i + 1)) - here) / (drops.get(i + 1) - drop));
                assertThat(above).isCloseTo(below, within(1e-2 * steepest));
            }
        }
    }

    @Property(tries = 300, seed = "20261126")
    void oneSlopeThroughReversal(@ForAll("readings") Readings readings) {
        Passage passage = readings.passage();
        double line = flow(passage, readings.drops().get(0)) / readings.drops().get(0);
        double drop = 1e-8;
        double there = flow(passage, drop) / drop;
        double back = -passage.flow(air(UPSTREAM), air(UPSTREAM * (1 + drop))).massFlow() / drop;
        assertThat(there).isCloseTo(back, within(1e-3 * there)).isGreaterThanOrEqualTo(line * (1 - 1e-5));
    }

    @Test
    void aLeakThatRisesSteeplyBeyondItsFirstReadingStillLeaksBelowIt() {
        // By the cubic alone, a hundredth of the way: 43 % of the line by the orifice law, 0.2 % by the laminar one.
        for (String law : List.of("orifice", "laminar")) {
            Passage passage = new Readings(law, List.of(0.3, 0.32), List.of(1e-4, 1e-3)).passage();
            double first = flow(passage, 0.3);
            assertThat(flow(passage, 0.003)).isCloseTo(0.01 * first, within(1e-4 * first));
        }
    }
}
