package purgewright.sealflow.casefile;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;

@DisplayName("A case is written in its author's layout: an edit changes its own lines and no others")
class AuthorTextTest {
    private static final String TEXT = """
            {
              "purgewright": 1,
                "about": {"title":"t",   "note": "\\u00b5 as typed"},
              "streams": {
                "a":       {"fluid": "oxygen"},
                "b gas":   {"fluid": "helium"}
              },
              "cavities": [
                {"name": "one", "role": "drain"},
                {"name": "two", "role": "vent",
                 "pressure": "1.0e5 Pa"}, {"name": "three"}
              ],
              "numbers": [1, 2.50, 3],
              "nothing": {}
            }

            """;

    private static final CaseDocument CASE = CaseDocument.parse(TEXT);

    private static String changed(CaseDocument edited) {
        List<String> before = TEXT.lines().toList();
        List<String> after = new ArrayList<>(edited.toJson().lines().toList());
        List<String> gone = new ArrayList<>(before);
        after.forEach(gone::remove);
        before.forEach(after::remove);
        return String.join("\n", gone) + "\n->\n" + String.join("\n", after);
    }

    @Test
    void anEditChangesItsOwnLine() {
        assertThat(CASE.toJson()).isEqualTo(TEXT);
        assertThat(changed(CASE.with("/cavities/two/pressure", "2 bar"))).isEqualTo("""
                         "pressure": "1.0e5 Pa"}, {"name": "three"}
                    ->
                         "pressure": "2 bar"}, {"name": "three"}""");
        assertThat(changed(CASE.with("/about/title", "u"))).isEqualTo("""
                            "about": {"title":"t",   "note": "\\u00b5 as typed"},
                        ->
                            "about": {"title":"u",   "note": "\\u00b5 as typed"},""");
        assertThat(changed(CASE.with("/numbers/1", "4"))).isEqualTo("""
                  "numbers": [1, 2.50, 3],
                ->
                  "numbers": [1, 4, 3],""");
        assertThat(CASE.with("/numbers/1", "4").with("/numbers/1", "2.50").toJson())
                .isEqualTo(TEXT);
        assertThat(CASE.withJson("/about", "{\"title\": \"t\", \"note\": \"\u00b5 as typed\"}")
                        .toJson())
                .isEqualTo(TEXT);
    }

    @Test
    void whatIsAddedStandsAsItsNeighboursDo() {
        assertThat(changed(CASE.withJson("/cavities/-", "{\"name\": \"four\"}")))
                .isEqualTo("""
                     "pressure": "1.0e5 Pa"}, {"name": "three"}
                ->
                     "pressure": "1.0e5 Pa"}, {"name": "three"}, {"name": "four"}""");
        assertThat(changed(CASE.withJson("/streams/c", "{\"fluid\": \"argon\"}")))
                .isEqualTo("""
                    "b gas":   {"fluid": "helium"}
                ->
                    "b gas":   {"fluid": "helium"},
                    "c": {"fluid": "argon"}""");
        assertThat(changed(CASE.with("/cavities/one/note", "x".repeat(90)))).isEqualTo("""
                    {"name": "one", "role": "drain"},
                ->
                    {"name": "one", "role": "drain",
                     "note": "%s"},""".formatted("x".repeat(90)));
        assertThat(changed(CASE.with("/nothing/note", "x"))).isEqualTo("""
                  "nothing": {}
                ->
                  "nothing": {"note": "x"}""");
        assertThat(changed(CASE.withJson("/room", "{\"volume\": \"3 m3\"}"))).isEqualTo("""
                  "nothing": {}
                ->
                  "nothing": {},
                  "room": {"volume": "3 m3"}""");
    }

    @Test
    void whatIsTakenAwayLeavesTheRest() {
        assertThat(changed(CASE.without("/cavities/one"))).isEqualTo("""
                    {"name": "one", "role": "drain"},
                ->
                """);
        assertThat(changed(CASE.without("/streams/b gas"))).isEqualTo("""
                    "a":       {"fluid": "oxygen"},
                    "b gas":   {"fluid": "helium"}
                ->
                    "a":       {"fluid": "oxygen"}""");
        assertThat(CASE.without("/streams/a").without("/streams/b gas").toJson())
                .contains("\"streams\": {},\n");
        // A name that changes stays where it was, and so does what stands under it.
        assertThat(changed(CASE.without("/about")).lines()).hasSize(2);
    }

    @Test
    void linesEndAsTheAuthorEndsThem() {
        String windows = TEXT.replace("\n", "\r\n");
        CaseDocument read = CaseDocument.parse("\ufeff" + windows);
        assertThat(read.toJson()).isEqualTo(windows);
        assertThat(read.with("/cavities/one/role", "other").toJson())
                .isEqualTo(windows.replace("\"drain\"", "\"other\""));
        assertThat(read.with("/cavities/one/note", "x".repeat(90)).toJson().replace("\r\n", ""))
                .doesNotContain("\n");
    }

    @Test
    void whatNoFileCanHoldIsWrittenInTheProgramsOwnWay() {
        CaseDocument odd = CaseDocument.parse("{\"purgewright\": 1, \"about\": {\"note\": \"\ud800\"}}");
        assertThat(odd.toJson()).contains("\\ud800").startsWith("{\n");
    }

    /** Mutations as in the fuzz test: whatever became of the tree, the layout holds it, and never by way of the program's own. */
    @Test
    void whateverIsEditedReadsBackAsTheSame() {
        int read = 0;
        for (String name : List.of("minimal.json", "full.json")) {
            String text = CaseReaderTest.resource(name);
            CaseDocument seed = CaseDocument.parse(text);
            AuthorText author = new AuthorText(text, seed.root());
            for (long i = 0; i < 1500; i++) {
                Node other;
                try {
                    other = Json.read(new Mutator(i).mutate(seed.root(), text));
                    Json.read(Json.write(other)); // half a letter in a name can be read, but not written
                } catch (CaseException noJson) {
                    continue;
                }
                read++;
                assertThat(Json.write(Json.read(author.layOut(other))))
                        .as("%s, mutation %d", name, i)
                        .isEqualTo(Json.write(other));
            }
        }
        assertThat(read).isGreaterThan(1000);
    }
}
