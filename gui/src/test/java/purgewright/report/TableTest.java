package purgewright.report;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import org.junit.jupiter.api.Test;

class TableTest {
    @Test
    void numbersStandToTheRightAndNothingTrails() {
        StringBuilder text = new StringBuilder();
        new Table("  ", "lrl")
                .heading("name", "flow", "")
                .row("ring A", "7.04", "choked")
                .row("line", "346.2", "")
                .appendTo(text);
        assertThat(text.toString()).isEqualTo("  name     flow\n  ring A   7.04  choked\n  line    346.2\n");
    }

    @Test
    void aRowOfAnotherLengthIsRefused() {
        assertThatThrownBy(() -> new Table("", "lr").row("one")).isInstanceOf(IllegalArgumentException.class);
    }

    @Test
    void longWordsStandAloneAndLinesStayWithinTheWidth() {
        assertThat(Words.wrap("one two three", 7)).containsExactly("one two", "three");
        assertThat(Words.wrap("incomprehensibilities of it", 5)).containsExactly("incomprehensibilities", "of it");
        assertThat(Words.place("/passages/a~1b ~0c")).isEqualTo("a/b ~c");
    }
}
