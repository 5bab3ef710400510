package purgewright.gui.app;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.concurrent.TimeUnit;
import java.util.function.BooleanSupplier;
import java.util.stream.Collectors;
import javafx.application.Platform;
import javafx.geometry.Point2D;
import javafx.scene.Node;
import javafx.scene.control.Button;
import javafx.scene.control.Label;
import javafx.scene.control.TableView;
import javafx.scene.control.TextField;
import javafx.scene.input.KeyCode;
import javafx.scene.input.MouseButton;
import javafx.stage.Stage;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.extension.ExtendWith;
import org.junit.jupiter.api.io.TempDir;
import org.testfx.api.FxRobot;
import org.testfx.framework.junit5.ApplicationExtension;
import org.testfx.framework.junit5.Start;
import org.testfx.framework.junit5.Stop;
import org.testfx.util.WaitForAsyncUtils;
import purgewright.gui.bench.Workbench;
import purgewright.gui.edit.Claims;
import purgewright.gui.edit.Settings;
import purgewright.gui.edit.StarterCases;
import purgewright.gui.findings.FindingsModel;
import purgewright.gui.task.Desk;
import purgewright.gui.task.TaskRunner;
import purgewright.hazard.fault.FaultResult;
import purgewright.hazard.finding.Verdict;
import purgewright.hazard.finding.Waiver;
import purgewright.sealflow.casefile.CaseDocument;

/** The whole way of each of the three users through the window, on the real solver, without a display. */
@ExtendWith(ApplicationExtension.class)
class JourneysTest {
    private static final Desk DESK = new Desk();

    @TempDir
    Path folder;

    private Workbench bench;
    private MainWindow window;
    private QuietDialogs dialogs;
    private Settings settings;

    @Start
    void start(Stage stage) throws Exception {
        settings = new Settings(Files.createTempDirectory("purgewright-journeys"));
        dialogs = new QuietDialogs();
        bench = new Workbench(TaskRunner.background("solve lane"), DESK, Platform::runLater);
        window = new PurgewrightApp().start(stage, DESK, settings, bench, dialogs);
    }

    @Stop
    void stop() {
        bench.close();
        window.close();
    }

    private static void onWindow(Runnable work) {
        WaitForAsyncUtils.asyncFx(work);
        WaitForAsyncUtils.waitForFxEvents();
    }

    private static void await(BooleanSupplier until) throws Exception {
        WaitForAsyncUtils.waitFor(170, TimeUnit.SECONDS, until::getAsBoolean);
        WaitForAsyncUtils.waitForFxEvents();
    }

    private void solved() throws Exception {
        await(() -> bench.result() != null
                && !bench.busyProperty().get()
                && !bench.staleProperty().get());
    }

    private static Node byId(FxRobot robot, String id) {
        return robot.lookup((Node n) -> id.equals(n.getId())).query();
    }

    private void act(String id) {
        onWindow(() -> window.actions().get(id).run().run());
    }

    /** Does something that writes, and waits until that is done. */
    private void write(String id) throws Exception {
        act(id);
        await(() -> !window.saving().savingProperty().get()
                && !window.saving().writingProperty().get());
    }

    private double ring() {
        return Math.abs(bench.shownSolution().passages().get("ring A").flow().massFlow());
    }

    private Path open(String starter) throws Exception {
        Path file = folder.resolve(starter + ".json");
        StarterCases.open(starter).save(file);
        onWindow(() -> window.actions().open(file));
        solved();
        return file;
    }

    private void type(FxRobot robot, String id, String text) {
        TextField field = (TextField) byId(robot, id);
        robot.clickOn(field);
        onWindow(field::selectAll);
        robot.write(text);
        robot.type(KeyCode.ENTER);
        WaitForAsyncUtils.waitForFxEvents();
    }

    private String exported(String action, String name) throws Exception {
        dialogs.save = folder.resolve(name);
        write(action);
        assertThat(dialogs.save).isRegularFile();
        return Files.readString(dialogs.save, StandardCharsets.ISO_8859_1);
    }

    @Test
    void theDesignerOpensACaseChangesAClearanceSizesThePurgeAndExports(FxRobot robot) throws Exception {
        Path file = open("minimal");
        assertThat(settings.recent()).contains(file.toAbsolutePath());
        double before = ring();
        robot.clickOn(byId(robot, "place:/passages/ring A"));
        type(robot, "field:clearance", "1.2 mil");
        await(() -> bench.result().purge().flow() > before * 1.02
                && !bench.busyProperty().get());

        onWindow(() -> {
            window.show("size");
            window.run("size");
        });
        await(() -> window.done("size"));
        Button take = (Button) byId(robot, "take size");
        assertThat(take.isDisabled()).isFalse();
        double sized = bench.result().purge().flow();
        onWindow(take::fire);
        solved();
        assertThat(bench.result().purge().flow()).isLessThan(sized * 0.9);
        assertThat(bench.result().verdict()).isIn(Verdict.HOLDS, Verdict.THIN);
        assertThat(exported("exportcsv", "size.csv")).contains("least value").contains("wear of ring A");

        onWindow(() -> window.show("section"));
        WaitForAsyncUtils.waitForFxEvents();
        assertThat(exported("exportsvg", "section.svg")).contains("<svg").contains("ring A");
        assertThat(exported("exportpng", "section.png")).contains("PNG");
        assertThat(exported("exportcsv", "states.csv"))
                .contains("phase,kind,name")
                .contains("ring A");
        act("undo");
        act("undo");
        solved();
        assertThat(bench.history().dirtyProperty().get()).isFalse();
    }

    /** A case that holds as stated and not under faults is no green case once the faults were looked at. */
    @Test
    void theBannerSaysWhatTheFaultSweepFoundWhileTheCaseIsUnchanged(FxRobot robot) throws Exception {
        open("minimal");
        assertThat(bench.result().verdict()).isEqualTo(Verdict.THIN);
        assertThat(banner(robot)).contains("thin").contains("faults not examined");
        onWindow(() -> {
            window.show("faults");
            window.run("faults");
        });
        await(() -> window.done("faults"));
        assertThat(banner(robot))
                .contains("falls short under faults")
                .contains("single faults")
                .doesNotContain("not examined");
        assertThat(((Label) byId(robot, "assumed")).getText()).contains("no instruments");
        TableView<FaultResult.Row> faults = robot.lookup("#faults").queryTableView();
        assertThat(faults.getItems().get(0).verdict()).as("worst first").isEqualTo(Verdict.FALLS_SHORT);

        onWindow(() -> bench.history()
                .apply(
                        "edit.value",
                        "/passages/ring A/clearance",
                        bench.history().document().with("/passages/ring A/clearance", "0.031 mm")));
        solved();
        assertThat(banner(robot)).contains("faults not examined").doesNotContain("under faults");
        act("undo");
        solved();
        assertThat(banner(robot)).contains("falls short under faults");
    }

    private static String banner(FxRobot robot) {
        return byId(robot, "verdict").getParent().lookupAll(".label").stream()
                .map(n -> ((Label) n).getText())
                .collect(Collectors.joining(" "));
    }

    @Test
    void undoInAFieldTakesBackTheWholeValue(FxRobot robot) throws Exception {
        open("minimal");
        robot.clickOn(byId(robot, "place:/passages/ring A"));
        String place = "/passages/ring A/clearance";
        type(robot, "field:clearance", "0.026 mm");
        assertThat(bench.history().document().text(place)).contains("0.026 mm");
        TextField field = (TextField) byId(robot, "field:clearance");
        robot.press(KeyCode.CONTROL, KeyCode.Z).release(KeyCode.Z, KeyCode.CONTROL);
        WaitForAsyncUtils.waitForFxEvents();
        assertThat(field.getText()).isEqualTo("0.025 mm");
        assertThat(bench.history().dirtyProperty().get()).isFalse();
        assertThat(bench.draftInvalidProperty().get()).isFalse();
        robot.press(KeyCode.CONTROL, KeyCode.Y).release(KeyCode.Y, KeyCode.CONTROL);
        WaitForAsyncUtils.waitForFxEvents();
        assertThat(field.getText()).isEqualTo("0.026 mm");
        assertThat(bench.history().document().text(place)).contains("0.026 mm");
    }

    @Test
    void theReviewerExaminesFaultsWaivesAFindingAndWritesAReport(FxRobot robot) throws Exception {
        open("falls-short");
        onWindow(() -> {
            window.show("faults");
            window.run("faults");
        });
        await(() -> window.done("faults"));
        TableView<FaultResult.Row> faults = robot.lookup("#faults").queryTableView();
        assertThat(faults.getItems()).isNotEmpty();
        onWindow(() -> faults.getSelectionModel().select(0));
        assertThat(exported("exportcsv", "faults.csv")).contains("scenario,verdict");

        TableView<FindingsModel.Row> findings = robot.lookup("#findings").queryTableView();
        FindingsModel.Row worst = findings.getItems().get(0);
        assertThat(worst.verdict()).isEqualTo(Verdict.FALLS_SHORT);
        Verdict whole = bench.result().verdict();
        onWindow(() -> findings.getSelectionModel().select(worst));
        dialogs.waiver = new Waiver("A. Reviewer", "2026-02-03", "covered by test");
        onWindow(() -> ((Button) byId(robot, "waive")).fire());
        solved();
        assertThat(bench.history().document().text("/waivers/0/by")).contains("A. Reviewer");
        assertThat(bench.history().document().text("/waivers/0/finding"))
                .contains(worst.finding().id());
        assertThat(bench.result().verdict()).as("a waiver hides nothing").isEqualTo(whole);
        assertThat(findings.getItems()).anyMatch(FindingsModel.Row::waived);
        // Name, date and reason stand beside the finding, not only the word.
        assertThat(robot.lookup(".label").queryAllAs(Label.class))
                .extracting(Label::getText)
                .contains("accepted by A. Reviewer on 2026-02-03: covered by test; the verdict stands");

        dialogs.save = folder.resolve("report.html");
        act("report");
        await(() -> bench.noteProperty().get().startsWith("Wrote")
                || bench.noteProperty().get().startsWith("The report"));
        assertThat(bench.noteProperty().get()).startsWith("Wrote");
        assertThat(Files.readString(dialogs.save)).contains("A. Reviewer");
        act("undo");
        assertThat(bench.history().document().has("/waivers")).isFalse();

        // The report is a case too, without a file of its own: what was waived stands in it.
        onWindow(() -> window.actions().open(dialogs.save));
        assertThat(bench.history().document().text("/waivers/0/by")).contains("A. Reviewer");
        assertThat(bench.fileProperty().get()).isNull();
    }

    @Test
    void thePlannerPutsUpBottlesRunsTheDutyPlansTheCampaignAndExports(FxRobot robot) throws Exception {
        Path file = folder.resolve("planned.json");
        StarterCases.open("minimal")
                .withJson("/duty", "[{\"name\": \"run\", \"duration\": \"20 s\"}]")
                .withJson(
                        "/supply",
                        "{\"gas\": \"barrier gas\", \"cavity\": \"bottle line\","
                                + " \"bottles\": {\"volume\": \"50 L\", \"filling pressure\": \"20 MPa\","
                                + " \"temperature\": \"288 K\", \"number\": 4},"
                                + " \"regulator\": {\"set pressure\": \"3.5 MPa\"}}")
                .withJson("/campaign", "{\"attempts\": 3}")
                .save(file);
        onWindow(() -> window.actions().open(file));
        solved();
        onWindow(() -> bench.selectedProperty().set("/supply"));
        type(robot, "field:bottles/number", "10");
        solved();
        assertThat(bench.history().document().text("/supply/bottles/number")).contains("10");
        onWindow(() -> {
            window.show("plan");
            window.run("plan");
        });
        await(() -> window.done("plan"));
        TableView<?> calendar = robot.lookup("#calendar").queryTableView();
        assertThat(calendar.getItems()).isNotEmpty();
        assertThat(exported("exportcsv", "campaign.csv")).contains("day,attempt,what");
        assertThat(exported("exportsvg", "campaign.svg")).contains("<svg");
    }

    @Test
    void whatWouldMendAFindingIsTriedAndAppliedWithOneClick(FxRobot robot) throws Exception {
        open("minimal");
        onWindow(() -> bench.history()
                .apply(
                        "edit.value",
                        "/cavities/bottle line/pressure",
                        bench.history().document().with("/cavities/bottle line/pressure", "0.45 MPa")));
        solved();
        TableView<FindingsModel.Row> findings = robot.lookup("#findings").queryTableView();
        FindingsModel.Row row = findings.getItems().stream()
                .filter(r -> r.finding() != null
                        && r.finding().id().startsWith("barrier-pressure")
                        && r.verdict() != Verdict.HOLDS)
                .findFirst()
                .orElseThrow();
        onWindow(() -> findings.getSelectionModel().select(row));
        onWindow(() -> ((Button) byId(robot, "mend")).fire());
        await(() -> robot.lookup((Node n) -> "apply:/cavities/bottle line/pressure".equals(n.getId()))
                .tryQuery()
                .isPresent());
        onWindow(() -> ((Button) byId(robot, "apply:/cavities/bottle line/pressure")).fire());
        solved();
        assertThat(bench.result().findings())
                .filteredOn(f -> f.id().equals(row.finding().id()))
                .allMatch(f -> f.verdict() == Verdict.HOLDS);
        act("undo");
        assertThat(bench.history().document().text("/cavities/bottle line/pressure"))
                .contains("0.45 MPa");
    }

    @Test
    void twoCavitiesAreJoinedByDraggingAndPlacesAreMovedCopiedAndRemoved(FxRobot robot) throws Exception {
        open("minimal");
        int before = bench.history().document().children("/passages").size();
        act("connect");
        Node from = byId(robot, "place:/cavities/barrier");
        Node to = byId(robot, "place:/cavities/disc cavity");
        Point2D a = robot.point(from).query();
        Point2D b = robot.point(to).query();
        robot.moveTo(a).press(MouseButton.PRIMARY).moveTo(b).release(MouseButton.PRIMARY);
        WaitForAsyncUtils.waitForFxEvents();
        CaseDocument joined = bench.history().document();
        assertThat(joined.children("/passages")).hasSize(before + 1).contains("new seal");
        assertThat(joined.text("/passages/new seal/from")).contains("barrier");
        assertThat(joined.text("/passages/new seal/to")).contains("disc cavity");
        solved();
        act("earlier");
        act("duplicate");
        assertThat(bench.history().document().children("/passages")).contains("new seal 2");
        act("remove");
        act("undo");
        act("undo");
        act("undo");
        act("undo");
        solved();
        assertThat(bench.history().document().children("/passages")).hasSize(before);
    }

    @Test
    void whatTheWindowGivesOutIsNeverWrittenInPlace() throws Exception {
        open("minimal");
        for (String each : List.of("exportsvg section.svg", "exportpng section.png", "report report.html")) {
            String name = each.substring(each.indexOf(' ') + 1);
            Path file = Files.writeString(folder.resolve(name), "old");
            // A second name of the same file: it would change with it, were the file written in place.
            Path same = Files.createLink(folder.resolve(name + ".same"), file);
            dialogs.save = file;
            act(each.substring(0, each.indexOf(' ')));
            await(() -> !content(file).equals("old"));
            assertThat(same).as(each).hasContent("old");
            assertThat(Files.size(file)).as(each).isGreaterThan(1000);
        }
        dialogs.save = folder.resolve("none").resolve("section.svg");
        write("exportsvg");
        assertThat(dialogs.told).anyMatch(t -> t.contains(dialogs.save.toString()));
    }

    private static String content(Path file) {
        try {
            return Files.readString(file, StandardCharsets.ISO_8859_1);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    @Test
    void aFileThatAnotherWindowHasIsOpenedAsACopyOnly() throws Exception {
        Path file = folder.resolve("shared.json");
        StarterCases.open("minimal").save(file);
        try (Claims other = new Claims(settings.folder())) {
            assertThat(other.take(file)).isPresent();
            onWindow(() -> window.actions().open(file));
            solved();
            assertThat(bench.fileProperty().get()).isNull();
            dialogs.save = file;
            write("saveas");
            assertThat(dialogs.told).anyMatch(t -> t.contains("another window"));
            assertThat(bench.fileProperty().get()).isNull();
        }
    }

    @Test
    void aFileThatAnotherProgramChangedIsNotWrittenOverUnasked() throws Exception {
        Path file = open("minimal");
        onWindow(() -> bench.history()
                .apply("title", "/about", bench.history().document().with("/about/title", "from this window")));
        write("save");
        assertThat(dialogs.told).isEmpty();
        String other = Files.readString(file).replace("from this window", "from another program");
        Files.writeString(file, other);
        onWindow(() -> bench.history()
                .apply("title", "/about", bench.history().document().with("/about/title", "once more")));
        dialogs.yes = false;
        write("save");
        assertThat(dialogs.told).anyMatch(t -> t.contains("another program"));
        assertThat(Files.readString(file)).isEqualTo(other);
        assertThat(bench.history().dirtyProperty().get()).isTrue();
        dialogs.yes = true;
        write("save");
        assertThat(Files.readString(file)).contains("once more");
        assertThat(Files.readString(folder.resolve("minimal.json~"))).isEqualTo(other);
        assertThat(bench.history().dirtyProperty().get()).isFalse();
    }

    @Test
    void theGuideOpensAtThePageOfWhatIsLookedAt(FxRobot robot) throws Exception {
        open("minimal");
        onWindow(() -> bench.selectedProperty().set("/passages/oxygen seal"));
        act("guide");
        assertThat(window.guide().page()).isEqualTo("theory/labyrinth");
        onWindow(() -> window.show("faults"));
        act("guide");
        assertThat(window.guide().page()).isEqualTo("guide/reviewer");
        for (String page : purgewright.gui.guide.Guide.pages()) {
            onWindow(() -> window.guide().open(page));
            assertThat(window.guide().page()).isEqualTo(page);
        }
    }
}
