package purgewright.result;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.SplittableRandom;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;

@DisplayName("No name makes a spreadsheet compute")
class CsvTextTest {
    @Test
    void formulaSignsBecomeTextAndNumbersStayNumbers() {
        assertThat(CsvText.cell("=1+1")).isEqualTo("'=1+1");
        assertThat(CsvText.cell("@x")).isEqualTo("'@x");
        assertThat(CsvText.cell("-1.5e-3")).isEqualTo("-1.5e-3");
        assertThat(CsvText.cell("+12 %")).isEqualTo("+12 %");
        assertThat(CsvText.cell("-1+cmd")).isEqualTo("'-1+cmd");
        assertThat(CsvText.cell("\t\r\n=1")).isEqualTo("'=1");
        assertThat(CsvText.cell("a,\"b\"\nc")).isEqualTo("\"a,\"\"b\"\" c\"");
        assertThat(CsvText.cell("a;=1;b")).isEqualTo("\"a;'=1;b\"");
        assertThat(CsvText.cell("\uff1d1+1")).isEqualTo("'\uff1d1+1");
        assertThat(CsvText.cell("")).isEmpty();
    }

    @Test
    void aHeadingLineStaysOneCellOrHarmless() {
        assertThat(CsvText.line("Spaced pump, helium barrier")).isEqualTo("Spaced pump, helium barrier");
        assertThat(CsvText.line("a,=cmd\n=1")).isEqualTo("a,'=cmd =1");
        assertThat(CsvText.line("a, \"@x")).isEqualTo("a, \"'@x");
    }

    /** Cut as one language or another cuts it, no cell of any text begins with a sign. */
    @Test
    void whateverPartsTheCells() {
        SplittableRandom r = new SplittableRandom(20260101);
        String letters = "=+-@\uff1d\uff0d,;|\t\n\" 'a1";
        for (int i = 0; i < 20_000; i++) {
            StringBuilder text = new StringBuilder();
            for (int n = r.nextInt(12); n >= 0; n--) {
                text.append(letters.charAt(r.nextInt(letters.length())));
            }
            String cell = CsvText.cell(text.toString());
            String inner =
                    cell.startsWith("\"") ? cell.substring(1, cell.length() - 1).replace("\"\"", "\"") : cell;
            assertThat(inner.matches("[=+@\uff1d\uff0d-].*") && !inner.matches("[+-]?[\\d.eE+-]+( %)?"))
                    .as(text + " > " + cell)
                    .isFalse();
            // Behind the first of them a quote begins a cell anew.
            String[] parts = cell.split("[;|\t]");
            for (int k = 1; k < parts.length; k++) {
                assertThat(parts[k].strip().replaceAll("^[\"\\s]+", ""))
                        .as(text + " > " + cell)
                        .doesNotMatch("[=+@\uff1d\uff0d-].*");
            }
            for (String part : ("# " + CsvText.line(text.toString())).split("[,;|\t]")) {
                assertThat(part.strip()).as(text.toString()).doesNotMatch("(?s)[=+@\uff1d\uff0d-].*");
            }
        }
    }
}
