package purgewright.gui.edit;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import purgewright.sealflow.casefile.CaseDocument;
import purgewright.sealflow.casefile.CaseEdits;

class HistoryTest {
    private final History history = new History();
    private CaseDocument first;

    @BeforeEach
    void open() {
        first = StarterCases.open("minimal");
        history.start(first, true);
    }

    private CaseDocument with(String clearance) {
        return history.document().with("/passages/ring A/clearance", clearance);
    }

    @Test
    void undoAndRedoGoThroughAllSteps() {
        for (int i = 1; i <= 50; i++) {
            history.apply("edit.value", "/passages/ring A/clearance", with("0.0" + (10 + i) + " mm"));
        }
        CaseDocument last = history.document();
        for (int i = 1; i <= 50; i++) {
            history.undo();
        }
        assertThat(history.document()).isSameAs(first);
        assertThat(history.undoableProperty().get()).isNull();
        for (int i = 1; i <= 50; i++) {
            history.redo();
        }
        assertThat(history.document()).isSameAs(last);
    }

    @Test
    void oneGestureIsOneStep() {
        history.applyMerging("edit.value", "x", with("0.03 mm"));
        history.applyMerging("edit.value", "x", with("0.04 mm"));
        history.settle();
        history.applyMerging("edit.value", "x", with("0.05 mm"));
        history.undo();
        assertThat(history.document().text("/passages/ring A/clearance")).contains("0.04 mm");
        history.undo();
        assertThat(history.document()).isSameAs(first);
    }

    @Test
    void typedBackIsNotDirty() {
        history.apply("edit.value", "x", with("0.03 mm"));
        assertThat(history.dirtyProperty().get()).isTrue();
        history.apply("edit.value", "x", with("0.025 mm"));
        assertThat(history.dirtyProperty().get()).isFalse();
    }

    @Test
    void renamingACavityKeepsEveryPassage() {
        CaseDocument renamed = CaseEdits.renamed(first, "/cavities/barrier", "middle");
        assertThat(renamed.text("/passages/ring A/from")).contains("middle");
        assertThat(renamed.toCase().cavity("middle")).isNotNull();
    }

    @Test
    void duplicatesAndRemovalsLeaveAReadableCase() {
        CaseDocument more = CaseEdits.duplicated(first, "/passages/ring A", "ring A 2");
        assertThat(more.toCase().passage("ring A 2").clearance()).isEqualTo(25e-6);
        CaseDocument less = CaseEdits.removed(first, "/cavities/oxygen overboard");
        assertThat(less.toCase().passage("oxygen drain line")).isNull();
    }
}
