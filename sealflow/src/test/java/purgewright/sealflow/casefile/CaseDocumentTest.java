package purgewright.sealflow.casefile;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.catchThrowableOfType;

import java.time.Duration;
import java.util.List;
import org.junit.jupiter.api.Assertions;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class CaseDocumentTest {
    private static final CaseDocument MINIMAL = CaseReaderTest.MINIMAL;

    private static CaseProblem problem(String text) {
        CaseException wrong = catchThrowableOfType(CaseException.class, () -> CaseDocument.parse(text));
        assertThat(wrong).as(text.substring(0, Math.min(40, text.length()))).isNotNull();
        assertThat(wrong.problems()).hasSize(1);
        return wrong.problems().get(0);
    }

    @Test
    void linesAndColumnsAreThoseOfTheText() {
        String[] lines = CaseReaderTest.resource("minimal.json").split("\n");
        assertThat(lines[MINIMAL.line("/passages/ring A") - 1]).contains("\"name\": \"ring A\"");
        assertThat(lines[MINIMAL.line("/passages/ring A/clearance") - 1]).contains("0.025 mm");
        int column = MINIMAL.column("/passages/ring A/clearance");
        assertThat(lines[MINIMAL.line("/passages/ring A/clearance") - 1].substring(column - 1))
                .startsWith("\"0.025 mm\"");
        assertThat(MINIMAL.line("/nowhere")).isZero();
        assertThat(MINIMAL.with("/passages/ring A/clearance", "1 mm").line("/passages/ring A/clearance"))
                .isZero();
    }

    @Test
    void placesAreReadByNameAndByIndex() {
        assertThat(MINIMAL.text("/passages/ring A/clearance")).contains("0.025 mm");
        assertThat(MINIMAL.text("/passages/1/clearance")).contains("0.025 mm");
        assertThat(MINIMAL.text("/passages/0/teeth")).contains("6");
        assertThat(MINIMAL.text("/passages/ring A")).isEmpty();
        assertThat(MINIMAL.json("/about"))
                .contains("{\"title\": \"Spaced pump, helium barrier\", \"note\": \"invented\"}");
        assertThat(MINIMAL.children("/cavities"))
                .startsWith("impeller back face", "oxygen drain")
                .hasSize(9);
        assertThat(MINIMAL.children("/streams")).containsExactly("feed oxygen", "drive gas", "barrier gas");
        assertThat(MINIMAL.children("/rotor/speed")).isEmpty();
        assertThat(MINIMAL.has("/passages/ring C")).isFalse();
    }

    @Test
    void anEditTouchesOneValueAndLeavesTheOriginal() {
        CaseDocument edited = MINIMAL.with("/passages/ring A/clearance", "30 um");
        assertThat(edited.text("/passages/ring A/clearance")).contains("30 um");
        assertThat(MINIMAL.text("/passages/ring A/clearance")).contains("0.025 mm");
        assertThat(edited).isNotEqualTo(MINIMAL);
        assertThat(edited.with("/passages/ring A/clearance", "0.025 mm"))
                .isEqualTo(MINIMAL)
                .hasSameHashCodeAs(MINIMAL);
        // What was not touched is the same object.
        assertThat(edited.root().members().get("cavities"))
                .isSameAs(MINIMAL.root().members().get("cavities"));
    }

    @Test
    void anEditKeepsTheKindOfValue() {
        assertThat(MINIMAL.with("/passages/oxygen seal/teeth", "8").toJson()).contains("\"teeth\": 8,");
        assertThat(MINIMAL.with("/passages/oxygen seal/teeth", "many").toJson()).contains("\"teeth\": \"many\",");
        assertThat(MINIMAL.with("/passages/check valve/closed", "true").json("/passages/check valve"))
                .get()
                .asString()
                .contains("\"closed\": true");
        assertThat(MINIMAL.with("/passages/ring A/count", "2").toJson()).contains("\"count\": 2");
        assertThat(MINIMAL.with("/about/title", "true").toJson()).contains("\"title\": \"true\"");
    }

    @Test
    void elementsAreAppendedReplacedAndRemoved() {
        CaseDocument more = MINIMAL.withJson("/cavities/-", "{\"name\": \"p\", \"role\": \"other\"}")
                .withJson("/cavities/10", "{\"name\": \"q\", \"role\": \"other\"}");
        assertThat(more.children("/cavities")).hasSize(11).endsWith("p", "q");
        assertThat(more.without("/cavities/p").children("/cavities"))
                .hasSize(10)
                .endsWith("q");
        assertThat(more.without("/cavities/p/role").json("/cavities/p")).contains("{\"name\": \"p\"}");
        assertThat(MINIMAL.without("/nowhere")).isSameAs(MINIMAL);
        assertThat(MINIMAL.without("")).isSameAs(MINIMAL);
        assertThat(MINIMAL.withJson("", "{\"purgewright\": 1}").toJson()).isEqualTo("{\n  \"purgewright\": 1\n}\n");
    }

    @ParameterizedTest(name = "{0}")
    @CsvSource({"/nowhere/x", "/cavities/77", "/cavities/lost/name", "cavities", "/rotor/speed/x"})
    void anEditOfAPlaceThatIsNoneIsRefused(String pointer) {
        CaseException wrong = catchThrowableOfType(CaseException.class, () -> MINIMAL.with(pointer, "1"));
        assertThat(wrong.problems().get(0).key()).isEqualTo("UNKNOWN_PLACE");
    }

    @Test
    void numbersAndUnitsRoundTripAsTyped() {
        String text =
                "{\n  \"purgewright\": 1,\n  \"x\": {\"a\": 0.70, \"b\": 1E+5, \"c\": \"3.10 MPa\", \"d\": -0.0, \"e\": \"\\u0001 \\\" \\\\ µ 漢\"}\n}\n";
        assertThat(CaseDocument.parse(text).toJson()).isEqualTo(text);
        assertThat(CaseDocument.parse(MINIMAL.toJson())).isEqualTo(MINIMAL);
        assertThat(CaseDocument.parse(MINIMAL.toJson()).toJson()).isEqualTo(MINIMAL.toJson());
        assertThat(Json.write(MINIMAL.root()).lines()).allMatch(line -> line.length() <= 122);
    }

    @Test
    void theHashIsOfTheContentNotOfTheSpelling() {
        CaseDocument one = CaseDocument.parse("{\"purgewright\": 1, \"a\": {\"x\": 0.7, \"y\": [1, 2]}}");
        CaseDocument same = CaseDocument.parse("{\"a\":{\"y\":[1.0,2e0],\"x\":0.70},\r\n\"purgewright\":1}");
        CaseDocument other = CaseDocument.parse("{\"purgewright\": 1, \"a\": {\"x\": 0.7, \"y\": [2, 1]}}");
        assertThat(one.hash()).isEqualTo(same.hash()).matches("[0-9a-f]{64}").isNotEqualTo(other.hash());
        // printf '{"a":1e0}' | sha256sum
        assertThat(CaseDocument.parse("{\"a\": 1}").hash())
                .isEqualTo("533e2d9500a389f8abf32f851e66f98ffcde79cb3f5719f46b80a5fc52f944ee");
        assertThat(CaseDocument.parse("{\"a\": 1e999999999999}").hash()).hasSize(64);
    }

    @Test
    void anEmptyTextIsNamed() {
        for (String empty : List.of("", "  \n ", "\ufeff")) {
            assertThat(problem(empty).key()).isEqualTo("EMPTY_FILE");
        }
        assertThat(CaseDocument.parse("\ufeff{\"purgewright\": 1}").text("/purgewright"))
                .contains("1");
    }

    @Test
    void aTruncatedTextIsNamedWithWhatIsNotClosed() {
        String whole = CaseReaderTest.resource("minimal.json");
        CaseProblem cut = problem(whole.substring(0, whole.indexOf("\"floating ring\"") + 5));
        assertThat(cut.key()).isEqualTo("TRUNCATED");
        assertThat(cut.place()).startsWith("/passages/ring A");
        assertThat(cut.line()).isEqualTo(26);
        assertThat(cut.message()).contains("line 26");
        for (int length = 1; length < whole.length() - 2; length += 7) {
            assertThat(problem(whole.substring(0, length)).key()).isIn("TRUNCATED", "SYNTAX", "EMPTY_FILE");
        }
    }

    @ParameterizedTest(name = "{0}")
    @CsvSource(
            delimiter = '|',
            quoteCharacter = '@',
            value = {
                "{\"a\": 1,} | SYNTAX | comma",
                "{\"a\": 1 \"b\": 2} | SYNTAX | comma",
                "{'a': 1} | SYNTAX | double quotes",
                "{a: 1} | SYNTAX | double quotes",
                "{\"a\": 0.08 mm} | SYNTAX | ''",
                "{\"a\": NaN} | SYNTAX | double quotes",
                "{\"a\": 1} // end | SYNTAX | ''",
                "{/* note */ \"a\": 1} | SYNTAX | note",
                "{\"a\": 1} {} | SYNTAX | closing bracket",
                "{\"a\": 01} | SYNTAX | ''",
                "[1, 2] | NOT_A_CASE | case file",
                "\"case\" | NOT_A_CASE | case file",
                "{\"a\": 1, \"b\": {\"c\": 1, \"c\": 2}} | DUPLICATE_FIELD | rename",
                "{\"purgewright\": 2} | UNKNOWN_VERSION | newer",
                "{\"purgewright\": 0} | UNKNOWN_VERSION | write 1"
            })
    void aTextThatIsNoCaseIsNamed(String text, String key, String suggestion) {
        CaseProblem problem = problem(text);
        assertThat(problem.key()).isEqualTo(key);
        assertThat(problem.suggestion()).contains(suggestion.replace("''", ""));
        assertThat(problem.line()).isEqualTo(1);
        assertThat(problem.column()).isPositive();
    }

    @Test
    void allDuplicateFieldsComeAtOnce() {
        CaseException wrong = catchThrowableOfType(
                CaseException.class,
                () -> CaseDocument.parse("{\"a\": 1,\n\"a\": 2,\n\"b\": [{\"name\": \"n\", \"c\": 1, \"c\": 2}]}"));
        assertThat(wrong.problems()).extracting(CaseProblem::place).containsExactly("/a", "/b/n/c");
        assertThat(wrong.problems()).extracting(CaseProblem::line).containsExactly(2, 3);
    }

    @Test
    void tenMegabytesOfBracketsGiveOneErrorQuickly() {
        for (String bracket : List.of("[", "{\"a\":", "[[],")) {
            String text = bracket.repeat(10 * 1024 * 1024 / bracket.length());
            CaseProblem deep = Assertions.assertTimeoutPreemptively(Duration.ofSeconds(1), () -> problem(text));
            assertThat(deep.key()).isEqualTo("TOO_DEEP");
            assertThat(deep.line()).isEqualTo(1);
        }
    }

    @Test
    void whatIsTooLongOrTooMuchIsRefused() {
        assertThat(problem("{\"a\": \"" + "x".repeat(2_000_000) + "\"}").key()).isEqualTo("TOO_LONG");
        assertThat(problem("{\"a\": " + "1".repeat(2000) + "}").key()).isEqualTo("TOO_LONG");
        assertThat(problem("{\"" + "x".repeat(100_000) + "\": 1}").key()).isEqualTo("TOO_LONG");
        assertThat(problem("[" + "1,".repeat(3_000_000) + "1]").key()).isEqualTo("TOO_LARGE");
        assertThat(problem(" ".repeat(16 * 1024 * 1024) + "{}").key()).isEqualTo("TOO_LARGE");
    }
}
