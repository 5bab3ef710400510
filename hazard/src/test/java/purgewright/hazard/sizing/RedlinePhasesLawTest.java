package purgewright.hazard.sizing;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.List;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.DoubleRange;
import net.jqwik.api.constraints.Size;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;

@DisplayName("One setting for several phases stops none of them in normal running and protects each")
class RedlinePhasesLawTest {
    private static final double U = 5;

    private static Redline temperature(String phase, double nominal, double physical) {
        // Rises to the limit at once: against slow changes only.
        return Redline.highest("t", "/x", physical, U, 2, 1e4, nominal, phase, "K", "a loss");
    }

    @Test
    void aSettingOfPurgingIsNotThatOfRunning() {
        List<Redline> out = Redline.together(
                List.of(temperature("fill", 299, 350), temperature("hold", 300, 350), temperature("steady", 790, 960)));
        assertThat(out).hasSize(2);
        assertThat(out.get(0).phases()).containsExactly("fill", "hold");
        assertThat(out.get(0).slowSetting()).isEqualTo(310);
        // The rate is that of the phase with the least room at the common setting.
        assertThat(out.get(0).slowRate()).isCloseTo((350 - U - 310) / 2, within(1e-12));
        assertThat(out.get(1).phases()).containsExactly("steady");
        assertThat(out.get(1).slowSetting()).isEqualTo(800);
        assertThat(out.get(1).label()).isEqualTo("t in steady");
    }

    @Test
    void ofLowestAllowedValuesTheHighestIsTakenWhereEveryPhaseRunsAboveIt() {
        Redline a = Redline.lowest("p", "/x", 0.20e6, 0.035e6, 0.1, 1, 0.9e6, "purge", "Pa", "");
        Redline b = Redline.lowest("p", "/x", 0.50e6, 0.035e6, 0.1, 1, 1.5e6, "run", "Pa", "");
        List<Redline> one = Redline.together(List.of(a, b));
        assertThat(one).hasSize(1);
        assertThat(one.get(0).phases()).isEmpty();
        assertThat(one.get(0).redline()).isEqualTo(b.redline());
        Redline low = Redline.lowest("p", "/x", 0.20e6, 0.035e6, 0.1, 1, 0.55e6, "purge", "Pa", "");
        assertThat(Redline.together(List.of(low, b)))
                .extracting(Redline::redline)
                .containsExactly(low.redline(), b.redline());
    }

    @Test
    void aPhaseInWhichTheReadingTellsNothingHasItsOwnRow() {
        Redline none = Redline.none("t", "/x", false, 286, U, 2, 288, "purge", "K", "no rise");
        List<Redline> out = Redline.together(List.of(none, temperature("run", 700, 900)));
        assertThat(out).extracting(Redline::usable).containsExactly(false, false);
        assertThat(out.get(0).slowSetting()).isNaN();
        assertThat(out.get(1).slowSetting()).isEqualTo(710);
    }

    @Property(tries = 200, seed = "20261126")
    void everyPhaseOfASetIsGuardedAndRunsFree(
            @ForAll @Size(min = 1, max = 8) List<@DoubleRange(min = 300, max = 900) Double> nominal,
            @ForAll @DoubleRange(min = 20, max = 300) double room) {
        List<Redline> single = new ArrayList<>();
        for (int i = 0; i < nominal.size(); i++) {
            single.add(temperature("phase " + i, nominal.get(i), nominal.get(i) + room));
        }
        int phases = 0;
        for (Redline r : Redline.together(single)) {
            List<Redline> of = single.stream()
                    .filter(s -> r.phases().isEmpty() || r.phases().contains(s.phase()))
                    .toList();
            phases += of.size();
            for (Redline s : of) {
                if (Double.isNaN(s.slowSetting())) {
                    assertThat(r.slowSetting()).isNaN();
                } else {
                    assertThat(r.slowSetting()).isGreaterThanOrEqualTo(s.nominal() + 2 * U);
                    assertThat(r.slowSetting() + r.slowRate() * r.time()).isLessThanOrEqualTo(s.physical() - U + 1e-9);
                }
            }
        }
        assertThat(phases).isEqualTo(single.size());
    }
}
