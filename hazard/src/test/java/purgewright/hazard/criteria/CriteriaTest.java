package purgewright.hazard.criteria;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Map;
import org.junit.jupiter.api.Test;

class CriteriaTest {
    @Test
    void theGuideNamesEveryLimitWithItsOrigin() throws IOException {
        String guide = Files.readString(Path.of("..", "docs", "guide", "criteria.md"));
        for (Limit limit : Limit.values()) {
            assertThat(guide).contains("| `" + limit.key() + "` | " + limit.description() + " |");
            assertThat(guide).contains(limit.origin());
            assertThat(limit.origin()).containsPattern("\\[.+]");
        }
    }

    @Test
    void theCasesOwnValueStandsOverTheDefaultAndSaysSo() {
        Criteria c = Criteria.of(Map.of("barrier excess", 0.2e6, "monitored", true, "barier excess", 1.0));
        assertThat(c.get(Limit.BARRIER_EXCESS)).isEqualTo(0.2e6);
        assertThat(c.origin(Limit.BARRIER_EXCESS)).contains("/criteria/barrier excess");
        assertThat(c.monitored()).isTrue();
        assertThat(c.unknown()).containsExactly("barier excess");
        assertThat(Criteria.DEFAULT.get(Limit.GAP_VELOCITY)).isEqualTo(5);
    }
}
