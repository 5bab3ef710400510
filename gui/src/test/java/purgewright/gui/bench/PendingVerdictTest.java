package purgewright.gui.bench;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import purgewright.gui.edit.StarterCases;
import purgewright.gui.task.Desk;
import purgewright.gui.task.Outcome;
import purgewright.gui.task.TaskRunner;
import purgewright.hazard.finding.Finding;
import purgewright.hazard.finding.Verdict;
import purgewright.sealflow.casefile.CaseDocument;

/** What is shown before a change is solved whole never reads as the last word, unless it is. */
class PendingVerdictTest {
    private static final Desk DESK = new Desk();

    @ParameterizedTest
    @ValueSource(strings = {"minimal", "falls-short"})
    void metCriteriaAreOpenUntilTheWholeIsThereAndWhatFallsShortStays(String starter) {
        Workbench bench = new Workbench(TaskRunner.onTheSpot(), DESK, Runnable::run);
        bench.open(StarterCases.open(starter), null, true);
        String seal = bench.history().document().children("/passages").stream()
                .map(n -> "/passages/" + n + "/clearance")
                .filter(bench.history().document()::has)
                .findFirst()
                .orElseThrow();

        List<Finding> glanced = new ArrayList<>();
        List<Verdict> word = new ArrayList<>();
        List<Boolean> before = new ArrayList<>();
        bench.busyProperty().addListener((o, a, busy) -> {
            if (busy) {
                before.add(bench.beforeTheChange());
            }
        });
        bench.outcomeProperty().addListener((o, a, told) -> {
            if (told instanceof Outcome.Glanced) {
                glanced.addAll(bench.shownFindings());
                word.add(bench.glance().verdict());
                before.add(bench.beforeTheChange());
            }
        });
        CaseDocument changed = bench.history().document().with(seal, "0.03 mm");
        bench.history().apply("edit.value", seal, changed);

        assertThat(before).as("told apart from the case before").containsExactly(true, false);
        assertThat(glanced).isNotEmpty().noneMatch(f -> f.verdict() == Verdict.HOLDS || f.verdict() == Verdict.THIN);
        assertThat(word).hasSize(1).doesNotContain(Verdict.HOLDS, Verdict.THIN);
        if (word.get(0) == Verdict.FALLS_SHORT) {
            assertThat(bench.result().verdict()).isEqualTo(Verdict.FALLS_SHORT);
        }
        List<String> shortOnes = glanced.stream()
                .filter(f -> f.verdict() == Verdict.FALLS_SHORT)
                .map(Finding::id)
                .toList();
        assertThat(bench.shownFindings().stream()
                        .filter(f -> f.verdict() == Verdict.FALLS_SHORT)
                        .map(Finding::id))
                .containsAll(shortOnes);
        assertThat(bench.beforeTheChange()).isFalse();
        assertThat(bench.staleProperty().get()).isFalse();
    }
}
