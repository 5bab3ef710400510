package purgewright.figure;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.api.Test;

class LetteringTest {
    @Test
    void lettersThatTheFamilyLacksAreNamedOnce() {
        assertThat(Lettering.missing("Pumpe für Öl, µ Φ β → ≥ ²")).isEmpty();
        assertThat(Lettering.missing("泵 1, 泵 2 \n\t")).isEqualTo("泵");
    }
}
