package purgewright.command;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.PrintWriter;
import java.io.StringWriter;
import java.io.UncheckedIOException;
import java.nio.file.NoSuchFileException;
import java.nio.file.NotDirectoryException;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import purgewright.fluids.PropertyException;
import purgewright.sealflow.casefile.CaseException;
import purgewright.sealflow.casefile.CaseProblem;

class FailuresTest {
    private final StringWriter out = new StringWriter();
    private final StringWriter err = new StringWriter();
    private final Terminal terminal = new Terminal(new PrintWriter(out), new PrintWriter(err), false);

    @Test
    void everyProblemOfACaseIsALineWithItsPlace() {
        int code = Failures.report(
                terminal,
                false,
                new CaseException(List.of(
                        new CaseProblem("A", "/passages/ring A/clearance", 12, 5, "a bare number", "\"0.025 mm\""),
                        new CaseProblem("B", "", 0, 0, "two\nlines", ""))));
        assertThat(code).isEqualTo(2);
        assertThat(out.toString()).isEmpty();
        assertThat(err.toString().replace(System.lineSeparator(), "\n"))
                .isEqualTo("purgewright: line 12, column 5: /passages/ring A/clearance: a bare number (\"0.025 mm\")\n"
                        + "purgewright: two lines\n");
    }

    @Test
    void whatTheUserCannotMendIsInternal() {
        assertThat(Failures.report(terminal, true, new IllegalStateException("broken")))
                .isEqualTo(70);
        assertThat(out.toString()).contains("\"key\" : \"INTERNAL\"", "\"code\" : 70");
        assertThat(Failures.problems(new PropertyException(PropertyException.Key.NO_CONVERGENCE, Map.of())))
                .isEmpty();
        assertThat(Failures.problems(new OutOfMemoryError())).isEmpty();
    }

    @Test
    void rangesAndFilesAreNamed() {
        assertThat(Failures.problems(new PropertyException(
                                PropertyException.Key.TEMPERATURE_OUT_OF_RANGE,
                                Map.of("fluid", "helium", "temperature", 1.0, "minimum", 2.1768, "maximum", 2000.0)))
                        .get(0)
                        .message())
                .isEqualTo("helium: temperature 1 K is outside the equation's range, 2.1768 to 2000 K");
        // asked by heat, the temperature that would be outside is not known
        Map<String, Object> values = new LinkedHashMap<>();
        values.put("fluid", "helium");
        values.put("pressure", 1e5);
        values.put("enthalpy", 2e7);
        values.put("minimum", 2.1768);
        values.put("maximum", 2000.0);
        assertThat(Failures.problems(new PropertyException(PropertyException.Key.TEMPERATURE_OUT_OF_RANGE, values))
                        .get(0)
                        .message())
                .isEqualTo("helium: temperature would be outside the equation's range, 2.1768 to 2000 K: "
                        + "pressure 100000, enthalpy 2e+07");
        assertThat(Failures.problems(new UncheckedIOException(new NoSuchFileException("x.json")))
                        .get(0)
                        .message())
                .isEqualTo("no such file: x.json");
        assertThat(Failures.problems(new NotDirectoryException("none")).get(0).message())
                .isEqualTo("no such folder: none");
    }
}
