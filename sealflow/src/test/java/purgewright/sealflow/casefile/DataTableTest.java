package purgewright.sealflow.casefile;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.catchThrowableOfType;
import static org.assertj.core.api.Assertions.within;

import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import purgewright.fluids.unit.Dimension;

@DisplayName("Tables of measured values")
class DataTableTest {
    private static DataTable parse(String text) {
        return DataTable.parse("data.csv", text, 101325);
    }

    private static CaseProblem problem(String text) {
        CaseException thrown = catchThrowableOfType(CaseException.class, () -> parse(text));
        assertThat(thrown).as("is refused").isNotNull();
        return thrown.problems().get(0);
    }

    @Test
    void unitsStandInTheHeaderAndValuesBecomeSi() {
        DataTable t = parse(
                "# a comment\ntime [s], bore pressure (psig), T [degC], note\n0, 100, 20, cold\n1.5, , -10.5, \"a, b\"\n");
        assertThat(t.rows()).isEqualTo(2);
        assertThat(t.column("bore pressure").dimension()).isEqualTo(Dimension.PRESSURE);
        assertThat(t.column("bore pressure").values()[0]).isCloseTo(101325 + 100 * 6894.757293168, within(1e-3));
        assertThat(t.column("bore pressure").values()[1]).as("an empty cell").isNaN();
        assertThat(t.column("T").values()[1]).isCloseTo(262.65, within(1e-9));
        assertThat(t.column("note").words()).containsExactly("cold", "a, b");
        assertThat(t.lines()).containsExactly(3, 4);
    }

    @Test
    void semicolonsAndTabsAndAByteOrderMarkAreRead() {
        assertThat(parse("\uFEFFtime [s];speed [rpm]\n0;60\n").column("speed").values()[0])
                .isCloseTo(2 * Math.PI, within(1e-9));
        assertThat(parse("time [s]\tspeed [rpm]\n0\t60\n").rows()).isEqualTo(1);
    }

    @ParameterizedTest(name = "{2}")
    @CsvSource(
            delimiter = '|',
            quoteCharacter = '~',
            value = {
                "time [s], p [MPa]#0,5, 1,2#        | decimal comma | COLUMNS",
                "time [s]; p [MPa]#0,5; 1,2#        | decimal comma | DECIMAL_COMMA",
                "time [s], p [MPa]#0, 35 psi#       | header        | UNIT_IN_CELL",
                "time [s], p [MPa], p [psi]#0,1,2#  | MPa           | DUPLICATE",
                "time [s], p [MPx]#0,1#             | MPx           | UNKNOWN_UNIT",
                "time [s], p [MPa]#0#               | cells         | COLUMNS",
                "0, 1#1, 2#                         | name          | NO_HEADER",
                "time [s], p [MPa]#                 | no rows       | EMPTY",
                "#                                  | empty         | EMPTY",
                "time [s], p [MPa]#0, -1#           | absolute zero | OUT_OF_RANGE",
                "time [s], p [MPa]#0, NaN#          | no number     | NOT_A_NUMBER",
                "time [s], p [MPa]#0, 0x10#         | no number     | UNIT_IN_CELL"
            })
    void whatCannotBeReadIsRefusedWithItsLine(String text, String words, String key) {
        CaseProblem p = problem(text.replace('#', '\n'));
        assertThat(p.key()).isEqualTo(key);
        assertThat(p.message() + " " + p.suggestion()).contains(words);
        assertThat(p.place()).isEqualTo("data.csv");
    }

    @Test
    void aThousandBadRowsGiveAFewMessages() {
        String text = "time [s]; p [MPa]\n" + "0,5; 1\n".repeat(1000);
        CaseException thrown = catchThrowableOfType(CaseException.class, () -> parse(text));
        assertThat(thrown.problems()).hasSizeLessThan(8);
    }

    @Test
    void aMillionRowsAreRead() {
        StringBuilder text = new StringBuilder("time [ms],speed [rpm]\n");
        for (int i = 0; i < 1_000_000; i++) {
            text.append(i).append(',').append(i % 977).append('\n');
        }
        DataTable t = parse(text.toString());
        assertThat(t.rows()).isEqualTo(1_000_000);
        assertThat(t.column("time").values()[999_999]).isCloseTo(999.999, within(1e-9));
    }
}
