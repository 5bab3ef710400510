package purgewright.gui.details;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.api.Test;
import purgewright.figure.Readout;
import purgewright.gui.bench.Workbench;
import purgewright.gui.edit.StarterCases;
import purgewright.gui.task.Desk;
import purgewright.gui.task.TaskRunner;

/** The details panel's model on the spot, without a toolkit. */
class DetailsModelTest {
    private final Workbench bench = new Workbench(TaskRunner.onTheSpot(), new Desk(), Runnable::run);
    private final DetailsModel model = new DetailsModel(bench);

    private FieldModel field(String path) {
        return model.fields().stream()
                .filter(f -> f.spec().path().equals(path))
                .findFirst()
                .orElseThrow();
    }

    @Test
    void fieldsOfASealTakeTextAsTypedAndRefuseNonsense() {
        bench.open(StarterCases.open("minimal"), null, true);
        bench.selectedProperty().set("/passages/ring A");
        FieldModel clearance = field("clearance");
        clearance.textProperty().set("1.5 mil");
        clearance.commit(false);
        assertThat(clearance.problemProperty().get()).isEmpty();
        assertThat(clearance.conversionProperty().get()).isEqualTo("38.1 µm");
        assertThat(bench.shownCase().passage("ring A").clearance()).isEqualTo(38.1e-6);

        clearance.textProperty().set("1.5");
        clearance.commit(false);
        assertThat(clearance.problemProperty().get()).isNotEmpty();
        assertThat(bench.draftInvalidProperty().get()).isTrue();
        assertThat(bench.history().document().text("/passages/ring A/clearance"))
                .contains("1.5 mil");
        clearance.revert();
        assertThat(bench.draftInvalidProperty().get()).isFalse();
    }

    @Test
    void undoGivesUpATextNotTakenOverElseTakesBackTheCasesLastStep() {
        bench.open(StarterCases.open("minimal"), null, true);
        bench.selectedProperty().set("/passages/ring A");
        FieldModel clearance = field("clearance");
        clearance.textProperty().set("0.026 mm");
        clearance.commit(true);
        model.settle();
        clearance.textProperty().set("0.2");
        clearance.commit(true);
        assertThat(bench.draftInvalidProperty().get()).isTrue();
        clearance.undo();
        assertThat(clearance.textProperty().get()).isEqualTo("0.026 mm");
        assertThat(bench.draftInvalidProperty().get()).isFalse();
        clearance.undo();
        assertThat(clearance.textProperty().get()).isEqualTo("0.025 mm");
        assertThat(bench.history().dirtyProperty().get()).isFalse();
        clearance.redo();
        assertThat(clearance.textProperty().get()).isEqualTo("0.026 mm");
    }

    @Test
    void theBalanceOfASolvedCavityCloses() {
        bench.open(StarterCases.open("minimal"), null, true);
        bench.selectedProperty().set("/cavities/barrier");
        assertThat(model.balance()).hasSize(3);
        assertThat(model.state()).anyMatch(r -> r.value().endsWith("MPa"));
        bench.readoutProperty().set(Readout.US);
        assertThat(model.state()).anyMatch(r -> r.value().endsWith("psia"));
    }

    @Test
    void thePriceOfTheBarrierStandsByTheCaseAsAWholeAlone() {
        bench.open(StarterCases.open("shared-rotor-lox"), null, true);
        bench.selectedProperty().set("");
        assertThat(model.balance()).isEmpty();
        assertThat(model.price())
                .extracting(DetailsModel.Row::label)
                .contains("purge into the barriers", "windage and seal friction")
                .anyMatch(label -> label.startsWith("lost to the drains: "));
        assertThat(model.price()).allMatch(r -> !r.value().isBlank());
        bench.selectedProperty()
                .set("/passages/" + bench.shownCase().passages().get(0).name());
        assertThat(model.price()).isEmpty();
    }

    @Test
    void draggingScalesTheNumberAndKeepsTheUnit() {
        assertThat(FieldModel.scaled("0.09 mm", 2)).isEqualTo("0.18 mm");
        assertThat(FieldModel.scaled("45 psi gauge", 0.5)).isEqualTo("22.5 psi gauge");
        assertThat(FieldModel.scaled("straight", 2)).isEqualTo("straight");
    }

    @Test
    void aNumberThatReadsTheSameIsNotShownTwice() {
        assertThat(FieldModel.same("4.00 µm", "4 um")).isTrue();
        assertThat(FieldModel.same("0.101 MPa", "101.325 kPa")).isFalse();
    }

    /** Nothing is solved here: fields come from the case alone. */
    @Test
    void everyPlaceOfEveryStarterCaseHasItsFields() {
        Workbench quiet = new Workbench(work -> () -> {}, new Desk(), Runnable::run);
        DetailsModel fields = new DetailsModel(quiet);
        for (String name : StarterCases.names()) {
            quiet.open(StarterCases.open(name), null, true);
            for (Outline.Group group : Outline.of(quiet.history().document())) {
                for (String place : group.places()) {
                    quiet.selectedProperty().set(place);
                    assertThat(quiet.selectedProperty().get()).isEqualTo(place);
                    assertThat(fields.fields()).as(name + " " + place).isNotEmpty();
                    assertThat(fields.titleProperty().get()).isNotBlank();
                }
            }
        }
    }

    @Test
    void sectionsThatAreNotThereAreMadeWithWhatTheyCannotDoWithout() {
        Workbench quiet = new Workbench(work -> () -> {}, new Desk(), Runnable::run);
        DetailsModel fields = new DetailsModel(quiet);
        quiet.open(StarterCases.open("minimal"), null, true);
        type(fields, quiet, "/supply", "bottles/number", "8");
        type(fields, quiet, "/campaign", "reserve", "0.2");
        type(fields, quiet, "/room", "oxygen alarm", "0.19");
        type(fields, quiet, "/faults", "pairs", "true");
        type(fields, quiet, "/criteria", "barrier ratio", "1.2");
        type(fields, quiet, "/cavities/barrier", "wall/conductance", "2 W/K");
        assertThat(quiet.history().document().text("/supply/bottles/number")).contains("8");
        assertThat(quiet.history().document().toCase().campaign().reserve()).isEqualTo(0.2);
        while (quiet.history().undoableProperty().get() != null) {
            quiet.history().undo();
        }
        assertThat(quiet.history().document()).isEqualTo(StarterCases.open("minimal"));
    }

    private static void type(DetailsModel fields, Workbench bench, String place, String path, String text) {
        bench.selectedProperty().set(place);
        FieldModel field = fields.fields().stream()
                .filter(f -> f.spec().path().equals(path))
                .findFirst()
                .orElseThrow();
        field.textProperty().set(text);
        field.commit(false);
        assertThat(field.problemProperty().get()).as(place + "/" + path).isEmpty();
        assertThat(bench.history().document().text(place + "/" + path)).contains(text);
    }
}
