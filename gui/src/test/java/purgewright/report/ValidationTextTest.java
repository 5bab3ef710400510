package purgewright.report;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import purgewright.fluids.validation.Check;
import purgewright.result.ValidationJson.Line;

@DisplayName("The table of published checks says how to read it")
class ValidationTextTest {
    @Test
    void aLegendStandsBeforeTheTableAndAShareOfNothingIsMarkedAsNone() {
        Check rise = Check.relative(
                "ROT rise", "rise", "none", Check.Label.DERIVED, 0, () -> -3.77e-9, 1e-6, "K", Check.Kind.VERIFICATION);
        String text = ValidationText.write(List.of(new Line(rise, -3.77e-9, "")), "engine");
        assertThat(text).startsWith("Deviation and allowed: a share of theirs");
        assertThat(text.replaceAll("\\s+", " ")).contains("PRT over half a unit of the last place printed");
        assertThat(text.lines().filter(l -> l.startsWith("ROT rise")))
                .singleElement()
                .asString()
                .contains("3.8e-09 abs", "1.0e-06 abs", "ok");
        assertThat(text).contains("1 checks, 0 failed");
    }
}
