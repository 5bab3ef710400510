package purgewright.sealflow.casefile;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import org.junit.jupiter.api.Test;
import purgewright.fluids.unit.Dimension;

class CaseEditsTest {
    private static final CaseDocument CASE = CaseDocument.parse("""
            {"purgewright": 1,
             "streams": {"oxygen": {"fluid": "oxygen"}, "helium": {"fluid": "helium"}},
             "cavities": [
               {"name": "a", "role": "oxidizer", "stream": "oxygen", "pressure": "1 MPa", "temperature": "300 K"},
               {"name": "b", "role": "barrier"},
               {"name": "c", "role": "vent", "pressure": "0.1 MPa", "temperature": "300 K"}],
             "passages": [
               {"name": "p", "from": "a", "to": "b", "type": "orifice", "diameter": "1 mm"},
               {"name": "q", "from": "b", "to": "c", "type": "orifice", "diameter": "1 mm"}],
             "supply": {"gas": "helium", "cavity": "a", "metering": "p"},
             "duty": [{"name": "run", "duration": "1 s", "set": {"/cavities/a/pressure": "2 MPa"}, "closed": ["p"]},
                      {"name": "end", "duration": "1 s"}],
             "campaign": {"attempts": 2, "duty per attempt": ["run", "end"]}}
            """);

    @Test
    void anotherNameOfACavityReachesPassagesSupplyAndOverrides() {
        CaseDocument now = CaseEdits.renamed(CASE, "/cavities/a", "pump");
        assertThat(now.text("/passages/p/from")).contains("pump");
        assertThat(now.text("/supply/cavity")).contains("pump");
        assertThat(now.text("/duty/run/set/~1cavities~1pump~1pressure")).contains("2 MPa");
        assertThat(now.toCase().cavity("pump")).isNotNull();
    }

    @Test
    void anotherNameOfAStreamAPassageAndAPhaseReachesWhatNamesThem() {
        CaseDocument now = CaseEdits.renamed(CASE, "/streams/oxygen", "feed");
        assertThat(now.children("/streams")).containsExactly("feed", "helium");
        assertThat(now.text("/cavities/a/stream")).contains("feed");
        now = CaseEdits.renamed(now, "/passages/p", "throttle");
        assertThat(now.text("/supply/metering")).contains("throttle");
        assertThat(now.json("/duty/run/closed").orElse("")).contains("throttle");
        now = CaseEdits.renamed(now, "/duty/run", "start");
        assertThat(now.json("/campaign/duty per attempt").orElse("")).contains("start");
        now.toCase();
    }

    @Test
    void aTakenOrImpossibleNameIsRefused() {
        assertThatThrownBy(() -> CaseEdits.renamed(CASE, "/cavities/a", "b")).hasMessageContaining("taken");
        assertThatThrownBy(() -> CaseEdits.renamed(CASE, "/cavities/a", "x/y")).hasMessageContaining("no /");
        assertThatThrownBy(() -> CaseEdits.renamed(CASE, "/cavities/a", "12")).hasMessageContaining("digits");
    }

    @Test
    void withACavityGoItsPassagesAndItsOverrides() {
        CaseDocument now = CaseEdits.removed(CASE, "/cavities/a");
        assertThat(now.children("/passages")).containsExactly("q");
        assertThat(now.children("/duty/run/set")).isEmpty();
        assertThat(now.json("/duty/run/closed").orElse("")).doesNotContain("p");
    }

    @Test
    void orderAndCopies() {
        assertThat(CaseEdits.moved(CASE, "/passages/q", -1).children("/passages"))
                .containsExactly("q", "p");
        assertThat(CaseEdits.moved(CASE, "/passages/p", -1)).isSameAs(CASE);
        assertThat(CaseEdits.moved(CASE, "/streams/oxygen", 1).children("/streams"))
                .containsExactly("helium", "oxygen");
        assertThat(CaseEdits.duplicated(CASE, "/cavities/b", "b 2").children("/cavities"))
                .containsExactly("a", "b", "b 2", "c");
        assertThat(CaseEdits.duplicated(CASE, "/streams/oxygen", "more").text("/streams/more/fluid"))
                .contains("oxygen");
    }

    @Test
    void aFormOffersWhatTheReaderTakes() {
        assertThat(CaseForm.of(CASE, "/passages/p"))
                .anyMatch(e -> e.path().equals("diameter") && e.dimension() == Dimension.LENGTH && e.required())
                .anyMatch(e -> e.path().equals("from") && e.choices().contains("b"))
                .anyMatch(e -> e.path().equals("type") && e.choices().contains("labyrinth"));
        assertThat(CaseForm.of(CASE, "/cavities/b"))
                .anyMatch(e -> e.path().equals("wall/conductance") && !e.required());
        assertThat(CaseForm.of(CASE, "/duty/run"))
                .anyMatch(e -> e.path().equals("closed") && e.kind() == CaseForm.Kind.LIST)
                .anyMatch(e -> e.label().equals("/cavities/a/pressure") && e.dimension() == Dimension.PRESSURE)
                .anyMatch(e -> e.path().equals("set") && e.kind() == CaseForm.Kind.ENTRIES);
        assertThat(CaseForm.of(CASE, "/supply")).anyMatch(e -> e.path().equals("bottles/number"));
        assertThat(CaseForm.of(CASE, "/streams/oxygen"))
                .anyMatch(e -> e.path().equals("fluid") && e.choices().contains("helium"))
                .anyMatch(e -> e.path().equals("burn/mixture ratio"));
    }
}
