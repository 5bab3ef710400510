package purgewright.gui.views;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

@DisplayName("The time left is a guess and reads like one")
class TimeLeftTest {
    @ParameterizedTest
    @CsvSource({"0, 1 s", "0.2, 1 s", "4.4, 5 s", "5, 5 s", "119, 119 s", "119.5, 2 min", "121, 3 min", "3600, 60 min"})
    void inWholeSecondsOrMinutesUpwards(double seconds, String text) {
        assertThat(StudyView.left(seconds)).isEqualTo(text);
    }
}
