package purgewright.sealflow.passage;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.HashMap;
import java.util.Map;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import purgewright.fluids.FluidState;
import purgewright.sealflow.Notice;

@DisplayName("The bulk laws of a labyrinth by their formulas, with condition, band, heat and what is noted")
class BulkLabyrinthTest {
    private static final PerfectGas AIR = new PerfectGas("air", 287.05, 1.4, 1.85e-5);
    private static final double CLEARANCE = 0.1e-3;
    private static final double AREA = 2 * Math.PI * CLEARANCE * (0.05 + CLEARANCE / 2);
    private static final FluidState UP = AIR.atPressureTemperature(5e5, 300);
    /** p0 rho0. */
    private static final double PRODUCT = 5e5 * 5e5 / (287.05 * 300);

    private static PassageFlow turning(double down, double speed, Conditions.Bound bound, Object... fields) {
        Map<String, Object> all =
                new HashMap<>(Map.of("teeth", 5.0, "pitch", 3e-3, "tip", 0.3e-3, "arrangement", "straight"));
        for (int i = 0; i < fields.length; i += 2) {
            all.put((String) fields[i], fields[i + 1]);
        }
        return PassageTypes.find("labyrinth")
                .orElseThrow()
                .build(PassageChecks.spec("labyrinth", 0.05, CLEARANCE, all), new Conditions(speed, Double.NaN, bound))
                .flow(UP, AIR.atPressureTemperature(down, 300));
    }

    private static PassageFlow flow(double down, Object... fields) {
        return turning(down, 0, Conditions.Bound.NOMINAL, fields);
    }

    /** Flow at rest is eased at relative drops near 1e-5; here by less than 1e-9. */
    private static void is(PassageFlow flow, double expected) {
        assertThat(flow.massFlow()).isCloseTo(expected, within(1e-8 * expected));
    }

    @Test
    void martinUpToItsPeak() {
        is(flow(3e5, "method", "martin"), AREA * Math.sqrt(PRODUCT * (1 - 0.36) / (5 - Math.log(0.6))));
        assertThat(flow(3e5, "method", "martin").choked()).isFalse();
        assertThat(flow(3e5, "method", "martin").throatPressure()).isEqualTo(3e5);
        PassageFlow low = flow(1e3, "method", "martin");
        double peak = Labyrinth.martinPeak(5);
        is(low, AREA * Math.sqrt(PRODUCT * (1 - peak * peak) / (5 - Math.log(peak))));
        assertThat(low.choked()).isTrue();
        assertThat(low.throatPressure()).isCloseTo(5e5 * peak, within(1e-6));
        // the peak: the flow's derivative by the ratio is zero, (1 - b^2) / (2 b^2) = n - ln b
        assertThat((1 - peak * peak) / (2 * peak * peak)).isCloseTo(5 - Math.log(peak), within(1e-9));
    }

    @Test
    void stodolaBelowAndBeyondItsChoke() {
        is(flow(4e5, "method", "stodola"), AREA * Math.sqrt(PRODUCT * (1 - 0.64) / 5));
        assertThat(flow(4e5, "method", "stodola").choked()).isFalse();
        assertThat(flow(1e5, "method", "stodola").choked())
                .as("0.2 < 0.85 / sqrt(6.5)")
                .isTrue();
        is(flow(1e3, "method", "stodola"), AREA * Math.sqrt(PRODUCT / 6.5));
    }

    @Test
    void egliIsMartinWithCoefficientAndCarryOver() {
        double martin = AREA * Math.sqrt(PRODUCT * (1 - 0.36) / (5 - Math.log(0.6)));
        double mu = CarryOver.NEUMANN.factor(5, CLEARANCE, 3e-3, 0.3e-3);
        double carry = Math.sqrt(5 / (1 + 4 / (mu * mu)));
        PassageFlow f = flow(3e5, "method", "egli");
        is(f, 0.716 * carry * martin);
        assertThat(f.notices()).extracting(Notice::key).contains(Notice.Key.ESTIMATE);
        // stepped teeth carry nothing over
        is(flow(3e5, "method", "egli", "arrangement", "stepped"), 0.716 * martin);
    }

    @Test
    void conditionOfTheTeethAndBand() {
        double sharp = flow(3e5, "method", "martin").massFlow();
        is(flow(3e5, "method", "martin", "tooth condition", "rounded"), 1.1 * sharp);
        is(flow(3e5, "method", "martin", "tooth condition", "rubbed"), 1.2 * sharp);
        is(turning(3e5, 0, Conditions.Bound.HIGH, "method", "martin"), 1.15 * sharp);
        is(turning(3e5, 0, Conditions.Bound.LOW, "method", "martin"), 0.85 * sharp);
        is(turning(3e5, 0, Conditions.Bound.HIGH, "method", "martin", "land", "honeycomb"), 1.3 * sharp);
        PassageFlow f = flow(3e5, "method", "martin");
        assertThat(f.reynolds()).isCloseTo(sharp / (Math.PI * 0.05 * 1.85e-5), within(1e-6 * f.reynolds()));
        assertThat(f.heat()).isZero();
        assertThat(turning(3e5, 2000, Conditions.Bound.NOMINAL, "method", "martin")
                        .heat())
                .isPositive();
    }

    @Test
    void nearRestItsSlopeIsTheOneThatIsStated() {
        for (String method : new String[] {"martin", "stodola", "egli"}) {
            double near = flow(5e5 * (1 - 1e-9), "method", method).massFlow() / (5e5 * 1e-9);
            double factor = "egli".equals(method)
                    ? 0.716 * Math.sqrt(5 / (1 + 4 / Math.pow(CarryOver.NEUMANN.factor(5, CLEARANCE, 3e-3, 0.3e-3), 2)))
                    : 1;
            assertThat(near)
                    .as(method)
                    .isCloseTo(factor * AREA * Throttle.slopeAtRest(UP) / Math.sqrt(5), within(0.01 * near));
        }
    }
}
