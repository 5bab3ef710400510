package purgewright.command;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.nio.file.Path;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

@DisplayName("The ending of a file tells what is written into it; another ending is refused")
class OutputFormTest {
    @ParameterizedTest
    @CsvSource({"duty.csv, csv", "duty.PNG, png", "a.b/duty.v2.svg, svg"})
    void theEndingIsTheForm(String name, String form) {
        assertThat(OutputForm.of("-o", Path.of(name), "csv", "svg", "png")).isEqualTo(form);
    }

    @ParameterizedTest
    @ValueSource(strings = {"duty.pdf", "duty", "png", "a.png/duty", "duty.json", "duty.xlsx", "."})
    void otherEndingsAreRefusedWithThoseThatDo(String name) {
        assertThatThrownBy(() -> OutputForm.of("-o", Path.of(name), "csv", "svg", "png"))
                .isInstanceOfSatisfying(
                        InputProblem.class, e -> assertThat(e.problems().get(0).message())
                                .endsWith("the name must end with .csv, .svg or .png"));
        assertThatThrownBy(() -> OutputForm.of("-o", Path.of(name), "fit"))
                .isInstanceOfSatisfying(
                        InputProblem.class,
                        e -> assertThat(e.problems().get(0).message()).endsWith("must end with .fit"));
    }
}
