package purgewright.sealflow.casefile.migrate;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.catchThrowableOfType;

import java.util.List;
import org.junit.jupiter.api.Test;
import purgewright.sealflow.casefile.CaseDocument;
import purgewright.sealflow.casefile.CaseException;

class MigrationsTest {
    private static final CaseDocument CASE = CaseDocument.parse("{\"purgewright\": 1, \"about\": {\"title\": \"t\"}}");

    @Test
    void theCurrentLayoutComesBackAsItIs() {
        assertThat(Migrations.upgrade(CASE)).isSameAs(CASE);
        CaseDocument none = CaseDocument.parse("{}");
        assertThat(Migrations.upgrade(none)).isSameAs(none);
    }

    @Test
    void everyStepIsTakenInOrder() {
        CaseDocument upgraded = Migrations.upgrade(
                CASE,
                List.of(
                        document -> document.with(
                                "/about/title", document.text("/about/title").orElse("") + "a"),
                        document -> document.with(
                                "/about/title", document.text("/about/title").orElse("") + "b")));
        assertThat(upgraded.text("/about/title")).contains("tab");
        assertThat(upgraded.text("/purgewright")).contains("3");
    }

    @Test
    void aLayoutFromTheFutureIsRefused() {
        CaseException wrong =
                catchThrowableOfType(CaseException.class, () -> CaseDocument.parse("{\"purgewright\": 7}"));
        assertThat(wrong.problems()).hasSize(1);
        assertThat(wrong.problems().get(0).key()).isEqualTo("UNKNOWN_VERSION");
        assertThat(wrong.problems().get(0).message()).contains("layout 7").contains("up to 1");
        assertThat(wrong.problems().get(0).suggestion()).contains("newer version");
    }
}
