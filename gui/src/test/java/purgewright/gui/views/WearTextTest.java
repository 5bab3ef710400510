package purgewright.gui.views;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import purgewright.figure.Readout;
import purgewright.hazard.sizing.WearLimit;

@DisplayName("Allowed wear in the window reads as in the report")
class WearTextTest {
    private static WearLimit limit(double factor, String lost) {
        return new WearLimit("ring A", 25e-6, 25e-6 * factor, factor, lost, "", "steady", Double.NaN, Double.NaN);
    }

    @Test
    void noSealMayWearWithoutEnd() {
        for (double far : new double[] {WearLimit.LARGEST, Double.POSITIVE_INFINITY}) {
            WearLimit w = limit(far, "");
            assertThat(w.beyond()).isTrue();
            assertThat(Readout.SI.quantity(w.printed(), "m")).isEqualTo("–");
            assertThat(SizeView.factor(w)).isEqualTo("beyond 20");
            assertThat(SizeView.lost(w)).isEqualTo("nothing");
        }
    }

    @Test
    void aLimitIsNotRoundedUpAboveItself() {
        WearLimit w = limit(4.2018, "barrier-pressure");
        assertThat(w.beyond()).isFalse();
        assertThat(Double.parseDouble(Readout.number(w.printed() * 1e6, 3))).isLessThanOrEqualTo(w.limit() * 1e6);
        assertThat(SizeView.factor(w)).isEqualTo("4.20");
        assertThat(SizeView.lost(w)).isEqualTo("barrier pressure");
    }

    @Test
    void whereNoLimitWasFoundThereIsNone() {
        WearLimit w = limit(Double.NaN, "barrier-pressure");
        assertThat(w.beyond()).isFalse();
        assertThat(w.printed()).isNaN();
        assertThat(SizeView.factor(w)).isEqualTo("–");
    }
}
