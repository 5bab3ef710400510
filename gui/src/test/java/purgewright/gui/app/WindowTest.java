package purgewright.gui.app;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import java.util.concurrent.TimeUnit;
import java.util.function.BooleanSupplier;
import javafx.application.Platform;
import javafx.css.PseudoClass;
import javafx.scene.AccessibleRole;
import javafx.scene.Node;
import javafx.scene.control.Button;
import javafx.scene.control.TableView;
import javafx.scene.control.TextField;
import javafx.scene.input.KeyCode;
import javafx.stage.Stage;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.extension.ExtendWith;
import org.junit.jupiter.api.io.TempDir;
import org.testfx.api.FxRobot;
import org.testfx.framework.junit5.ApplicationExtension;
import org.testfx.framework.junit5.Start;
import org.testfx.util.WaitForAsyncUtils;
import purgewright.figure.Readout;
import purgewright.figure.Theme;
import purgewright.gui.bench.Workbench;
import purgewright.gui.edit.Recovery;
import purgewright.gui.edit.Settings;
import purgewright.gui.edit.StarterCases;
import purgewright.gui.findings.FindingsModel;
import purgewright.gui.task.Desk;
import purgewright.gui.task.TaskRunner;

/** The whole window without a display, on the real solver: open, click, change, see, undo. */
@ExtendWith(ApplicationExtension.class)
class WindowTest {
    private static final Desk DESK = new Desk();

    @TempDir
    Path folder;

    private Workbench bench;
    private MainWindow window;
    private QuietDialogs dialogs;
    private Settings settings;

    @Start
    void start(Stage stage) throws Exception {
        Path own = Files.createTempDirectory("purgewright-window");
        settings = new Settings(own);
        dialogs = new QuietDialogs();
        bench = new Workbench(TaskRunner.background("solve lane"), DESK, Platform::runLater);
        window = new PurgewrightApp().start(stage, DESK, settings, bench, dialogs);
    }

    @BeforeEach
    void open() throws Exception {
        onWindow(() -> bench.open(StarterCases.open("minimal"), null, true));
        await(() -> bench.result() != null && !bench.busyProperty().get());
    }

    private static void onWindow(Runnable work) {
        WaitForAsyncUtils.asyncFx(work);
        WaitForAsyncUtils.waitForFxEvents();
    }

    private static void await(BooleanSupplier until) throws Exception {
        WaitForAsyncUtils.waitFor(60, TimeUnit.SECONDS, until::getAsBoolean);
        WaitForAsyncUtils.waitForFxEvents();
    }

    private static Node byId(FxRobot robot, String id) {
        return robot.lookup((Node n) -> id.equals(n.getId())).query();
    }

    private double ringFlow() {
        return Math.abs(bench.shownSolution().passages().get("ring A").flow().massFlow());
    }

    private void type(FxRobot robot, String id, String text) {
        TextField field = (TextField) byId(robot, id);
        robot.clickOn(field);
        onWindow(field::selectAll);
        robot.write(text);
        robot.type(KeyCode.ENTER);
        WaitForAsyncUtils.waitForFxEvents();
    }

    @Test
    void clickingASealShowsItsFieldsAndAChangedClearanceChangesTheFlowAndUndoTakesItBack(FxRobot robot)
            throws Exception {
        robot.clickOn(byId(robot, "place:/passages/ring A"));
        assertThat(bench.selectedProperty().get()).isEqualTo("/passages/ring A");
        assertThat(((TextField) byId(robot, "field:clearance")).getText()).isEqualTo("0.025 mm");
        double before = ringFlow();

        type(robot, "field:clearance", "0.05 mm");
        await(() -> !bench.staleProperty().get() && ringFlow() > before * 1.5);
        assertThat(bench.history().document().text("/passages/ring A/clearance"))
                .contains("0.05 mm");
        assertThat(bench.history().dirtyProperty().get()).isTrue();

        onWindow(() -> ((Button) byId(robot, "tool:undo")).fire());
        await(() -> !bench.staleProperty().get() && Math.abs(ringFlow() - before) < 1e-9 * before + 1e-12);
        assertThat(bench.history().dirtyProperty().get()).isFalse();
        assertThat(((TextField) byId(robot, "field:clearance")).getText()).isEqualTo("0.025 mm");
    }

    /** Plus lies on a key of its own, over the equals sign, or among the figures; and the drawing's keys are not those of the letters. */
    @Test
    void plusAndMinusOfAnyKeyboardSizeTheDrawingAndTheLetters(FxRobot robot) {
        double whole = window.section().zoomProperty().get();
        onWindow(() -> window.section().zoomProperty().set(1));
        for (KeyCode plus : List.of(KeyCode.PLUS, KeyCode.EQUALS, KeyCode.ADD)) {
            robot.press(KeyCode.CONTROL).type(plus).release(KeyCode.CONTROL);
        }
        WaitForAsyncUtils.waitForFxEvents();
        assertThat(window.section().zoomProperty().get()).isCloseTo(Math.pow(1.2, 3), within(1e-9));
        robot.press(KeyCode.CONTROL).press(KeyCode.SHIFT).type(KeyCode.EQUALS);
        robot.release(KeyCode.SHIFT).type(KeyCode.MINUS).release(KeyCode.CONTROL);
        WaitForAsyncUtils.waitForFxEvents();
        assertThat(window.section().zoomProperty().get()).isCloseTo(Math.pow(1.2, 3), within(1e-9));
        robot.press(KeyCode.CONTROL).type(KeyCode.DIGIT0).release(KeyCode.CONTROL);
        WaitForAsyncUtils.waitForFxEvents();
        assertThat(window.section().zoomProperty().get()).isEqualTo(whole);
        // All of it, in a window however small.
        onWindow(() -> window.section().resize(260, 120));
        onWindow(window.section()::fit);
        onWindow(window.section()::layout);
        assertThat(window.section().lookupAll(".scroll-bar")).noneMatch(Node::isVisible);
        robot.press(KeyCode.ALT).type(KeyCode.EQUALS).release(KeyCode.ALT);
        WaitForAsyncUtils.waitForFxEvents();
        assertThat(bench.letteringProperty().get()).isEqualTo(1.1);
        robot.press(KeyCode.ALT).type(KeyCode.MINUS).release(KeyCode.ALT);
        WaitForAsyncUtils.waitForFxEvents();
        assertThat(bench.letteringProperty().get()).isEqualTo(1.0);
    }

    @Test
    void findingsOfTheCaseBeforeAChangeThatCannotBeSolvedAreToldToBeSo(FxRobot robot) throws Exception {
        Node table = robot.lookup((Node n) -> n instanceof TableView && "findings".equals(n.getId()))
                .query();
        PseudoClass stale = PseudoClass.getPseudoClass("stale");
        onWindow(() -> bench.history()
                .apply(
                        "edit.value",
                        "/passages/ring A",
                        bench.history().document().with("/passages/ring A/to", "nowhere")));
        await(() -> !bench.busyProperty().get() && table.getPseudoClassStates().contains(stale));
        assertThat(robot.lookup((Node n) -> "before findings".equals(n.getId())).tryQuery())
                .isPresent();
        onWindow(bench.history()::undo);
        await(() ->
                !bench.staleProperty().get() && !table.getPseudoClassStates().contains(stale));
        assertThat(robot.lookup((Node n) -> "before findings".equals(n.getId())).tryQuery())
                .isEmpty();
    }

    @Test
    void aKeyGoesFromPartToPartOfTheWindowAndBack(FxRobot robot) {
        List<String> forth = new ArrayList<>();
        for (int i = 0; i < 5; i++) {
            robot.type(KeyCode.F6);
            WaitForAsyncUtils.waitForFxEvents();
            forth.add(part());
        }
        assertThat(forth).containsExactly("tabs", "drawing", "details", "findings", "tabs");
        robot.press(KeyCode.SHIFT).type(KeyCode.F6).release(KeyCode.SHIFT);
        WaitForAsyncUtils.waitForFxEvents();
        assertThat(part()).isEqualTo("findings");
    }

    /** Which part of the window has the focus. */
    private String part() {
        Node owner = window.root().getScene().getFocusOwner();
        if (owner != null && "views".equals(owner.getId())) {
            return "tabs";
        }
        for (Node n = owner; n != null; n = n.getParent()) {
            if (n == window.section()) {
                return "drawing";
            }
            if (n.getStyleClass().contains("details")) {
                return "details";
            }
            if ("findings".equals(n.getId()) || n.getStyleClass().contains("findings")) {
                return "findings";
            }
        }
        return "none of them: " + owner;
    }

    @Test
    void anInvalidTextIsMarkedAtItsFieldAndTheLastGoodResultStaysDimmed(FxRobot robot) throws Exception {
        onWindow(() -> bench.selectedProperty().set("/passages/ring A"));
        double before = ringFlow();
        type(robot, "field:clearance", "0.05 kg");
        TextField field = (TextField) byId(robot, "field:clearance");
        assertThat(field.getPseudoClassStates()).contains(PseudoClass.getPseudoClass("wrong"));
        assertThat(field.getAccessibleHelp()).isNotEmpty();
        assertThat(bench.history().document().text("/passages/ring A/clearance"))
                .contains("0.025 mm");
        assertThat(window.section().getPseudoClassStates()).contains(PseudoClass.getPseudoClass("stale"));
        assertThat(ringFlow()).isEqualTo(before);

        robot.clickOn(field).type(KeyCode.ESCAPE);
        assertThat(field.getText()).isEqualTo("0.025 mm");
        assertThat(window.section().getPseudoClassStates()).doesNotContain(PseudoClass.getPseudoClass("stale"));
    }

    @Test
    void aFindingLeadsToItsPlace(FxRobot robot) {
        TableView<FindingsModel.Row> table = robot.lookup("#findings").queryTableView();
        FindingsModel.Row row = table.getItems().stream()
                .filter(r -> r.place().startsWith("/passages/ring B"))
                .findFirst()
                .orElseThrow();
        onWindow(() -> {
            table.getSelectionModel().select(row);
            table.scrollTo(row);
            table.requestFocus();
        });
        robot.type(KeyCode.ENTER);
        assertThat(bench.selectedProperty().get()).isEqualTo("/passages/ring B");
    }

    @Test
    void everyPlaceIsFocusableAndSpeaks(FxRobot robot) {
        Set<Node> places = robot.lookup(".place").queryAll();
        assertThat(places).hasSizeGreaterThanOrEqualTo(17).allSatisfy(place -> {
            assertThat(place.isFocusTraversable()).isTrue();
            assertThat(place.getAccessibleText()).isNotBlank();
            assertThat(place.getAccessibleRole()).isEqualTo(AccessibleRole.BUTTON);
        });
        onWindow(() -> byId(robot, "place:/cavities/barrier").requestFocus());
        robot.type(KeyCode.ENTER);
        assertThat(bench.selectedProperty().get()).isEqualTo("/cavities/barrier");
    }

    @Test
    void everyActionHasTextsAnOwnKeyAndRunsOnlyWhenItMay() {
        Set<String> ids = new HashSet<>();
        Set<String> keys = new HashSet<>();
        for (Action action : window.actions().all()) {
            assertThat(ids.add(action.id())).as(action.id()).isTrue();
            assertThat(action.text()).isNotBlank();
            assertThat(action.tip()).isNotBlank();
            if (!action.keys().isEmpty()) {
                assertThat(keys.add(action.keys())).as(action.keys()).isTrue();
            }
        }
    }

    @Test
    void unitsAndThemesSwitchAndAreRemembered(FxRobot robot) {
        onWindow(() -> ((Button) byId(robot, "tool:units")).fire());
        assertThat(bench.readoutProperty().get()).isEqualTo(Readout.US);
        onWindow(() -> window.actions().get("dark").run().run());
        assertThat(window.root().getStyleClass()).contains("theme-dark");
        Settings again = new Settings(settings.folder());
        assertThat(again.get("units", "")).isEqualTo("US");
        assertThat(again.get("theme", "")).isEqualTo(Theme.DARK.name());
    }

    @Test
    void savingWritesTheFileAndUnsavedWorkSurvives(FxRobot robot) throws Exception {
        Path file = folder.resolve("mine.json");
        dialogs.save = file;
        onWindow(() -> window.actions().get("addcavity").run().run());
        assertThat(bench.history().dirtyProperty().get()).isTrue();
        Recovery killed = new Recovery(settings.folder());
        assertThat(killed.keep(bench.history().document(), null)).isTrue();
        assertThat(new Recovery(settings.folder()).find())
                .as("a window that lives keeps its work to itself")
                .isEmpty();
        killed.close();
        Recovery next = new Recovery(settings.folder());
        assertThat(next.find()).isPresent();
        next.forget();
        onWindow(() -> window.actions().get("save").run().run());
        await(() -> !window.saving().savingProperty().get());
        assertThat(Files.readString(file)).contains("new cavity");
        assertThat(bench.history().dirtyProperty().get()).isFalse();
        assertThat(new Recovery(settings.folder()).find()).isEmpty();
        assertThat(settings.recent()).contains(file.toAbsolutePath());
    }

    @Test
    void aBadFileIsToldAndChangesNothing() throws Exception {
        Path bad = Files.writeString(folder.resolve("bad.json"), "{ \"purgewright\": 1, ");
        onWindow(() -> window.actions().open(bad));
        assertThat(dialogs.told).isNotEmpty();
        assertThat(bench.history().document().children("/cavities")).contains("barrier");
    }

    @Test
    void everyViewDraws(FxRobot robot) throws Exception {
        for (String view : window.views()) {
            onWindow(() -> window.show(view));
            WaitForAsyncUtils.waitForFxEvents();
        }
        onWindow(() -> window.show("fluid"));
        assertThat(robot.lookup(".figure-view").queryAll()).isNotEmpty();
    }
}
