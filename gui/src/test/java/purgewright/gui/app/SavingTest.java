package purgewright.gui.app;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.concurrent.ConcurrentHashMap;
import java.util.concurrent.CopyOnWriteArrayList;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.atomic.AtomicReference;
import java.util.function.BooleanSupplier;
import javafx.application.Platform;
import javafx.beans.property.BooleanProperty;
import javafx.beans.property.SimpleBooleanProperty;
import javafx.scene.Node;
import javafx.scene.control.Label;
import javafx.scene.input.KeyCode;
import javafx.stage.Stage;
import javafx.stage.Window;
import javafx.stage.WindowEvent;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.extension.ExtendWith;
import org.junit.jupiter.api.io.TempDir;
import org.testfx.api.FxRobot;
import org.testfx.framework.junit5.ApplicationExtension;
import org.testfx.framework.junit5.Start;
import org.testfx.util.WaitForAsyncUtils;
import purgewright.gui.bench.Workbench;
import purgewright.gui.edit.Claims;
import purgewright.gui.edit.Recovery;
import purgewright.gui.edit.Settings;
import purgewright.gui.edit.StarterCases;
import purgewright.gui.task.Desk;
import purgewright.report.WholeFile;
import purgewright.sealflow.casefile.CaseDocument;

@ExtendWith(ApplicationExtension.class)
@DisplayName("A disk that is slow, silent or broken holds up no window and loses no work")
class SavingTest {
    /** A disk that answers for a file when it is let. */
    private static final class Stubborn implements Disk {
        private final Map<Path, CountDownLatch> shut = new ConcurrentHashMap<>();
        private final List<String> begun = new CopyOnWriteArrayList<>();
        private volatile boolean broken;
        private volatile String why = "the server is gone";

        void shut(Path file) {
            shut.put(file, new CountDownLatch(1));
        }

        void let(Path file) {
            shut.remove(file).countDown();
        }

        private void answer(Path file, String what) throws IOException {
            begun.add(file.getFileName() + " " + what);
            CountDownLatch latch = shut.get(file);
            try {
                if (latch != null) {
                    latch.await();
                }
            } catch (InterruptedException e) {
                throw new IOException(e);
            }
            if (broken) {
                throw new IOException(why);
            }
        }

        @Override
        public void save(CaseDocument document, Path file) throws IOException {
            answer(file, document.text("/about/title").orElse(""));
            Disk.super.save(document, file);
        }

        @Override
        public void write(Path file, WholeFile.Content content) throws IOException {
            answer(file, "drawing");
            Disk.super.write(file, content);
        }
    }

    @TempDir
    Path folder;

    private final Stubborn disk = new Stubborn();
    private final QuietDialogs dialogs = new QuietDialogs();
    private Settings settings;
    private PurgewrightApp app;
    private Stage stage;
    private Workbench bench;
    private MainWindow window;
    private Path file;
    private Path other;

    @Start
    void start(Stage primary) throws Exception {
        stage = primary;
        settings = new Settings(Files.createTempDirectory("purgewright-saving"));
        Desk desk = new Desk();
        // Solves have tests of their own.
        bench = new Workbench(work -> () -> {}, desk, Platform::runLater);
        app = new PurgewrightApp();
        window = app.start(primary, desk, settings, bench, dialogs, disk);
    }

    @BeforeEach
    void open() {
        file = folder.resolve("mine.json");
        other = folder.resolve("other.json");
        StarterCases.open("minimal").save(file);
        onWindow(() -> window.actions().open(file));
        assertThat(bench.fileProperty().get()).isEqualTo(file);
    }

    @AfterEach
    void close() {
        disk.shut.values().forEach(CountDownLatch::countDown);
        onWindow(() -> {
            stage.close();
            app.stop();
        });
    }

    private static void onWindow(Runnable work) {
        WaitForAsyncUtils.asyncFx(work);
        WaitForAsyncUtils.waitForFxEvents();
    }

    private static void await(BooleanSupplier until) throws Exception {
        WaitForAsyncUtils.waitFor(60, TimeUnit.SECONDS, until::getAsBoolean);
        WaitForAsyncUtils.waitForFxEvents();
    }

    private void act(String id) {
        onWindow(() -> window.actions().get(id).run().run());
    }

    private void title(String title) {
        onWindow(() -> bench.history()
                .apply("edit.value", "/about/title", bench.history().document().with("/about/title", title)));
    }

    private static String titleIn(Path of) {
        return CaseDocument.read(of).text("/about/title").orElse("");
    }

    private boolean dirty() {
        return bench.history().dirtyProperty().get();
    }

    private void idle() throws Exception {
        await(() -> !window.saving().savingProperty().get()
                && !window.saving().writingProperty().get());
    }

    private static String shown(FxRobot robot) {
        Label label = robot.lookup((Node n) -> "saving".equals(n.getId())).query();
        return label.getText();
    }

    private Recovery.Unsaved found() {
        Recovery next = new Recovery(settings.folder());
        Recovery.Unsaved found = next.find().orElse(null);
        next.forget();
        return found;
    }

    private void keptNow() {
        onWindow(() -> assertThat(window.saving().keep()).isTrue());
    }

    @Test
    void theWindowGoesOnWhileTheDiskDoesNotAnswerAndLaterEditsStayUnsaved(FxRobot robot) throws Exception {
        String before = titleIn(file);
        title("first");
        disk.shut(file);
        act("save");
        assertThat(shown(robot)).isEqualTo("Saving …");
        assertThat(dirty()).as("nothing counts as saved before it is").isTrue();
        title("second");
        act("undo");
        act("redo");
        assertThat(titleIn(file)).isEqualTo(before);
        disk.let(file);
        idle();
        assertThat(titleIn(file)).isEqualTo("first");
        assertThat(dirty()).as("the edit made meanwhile").isTrue();
        assertThat(shown(robot)).isEmpty();
        act("undo");
        assertThat(dirty()).as("what was written").isFalse();
        act("redo");
        act("save");
        idle();
        assertThat(titleIn(file)).isEqualTo("second");
        assertThat(shown(robot)).isEqualTo("Saved");
        title("third");
        assertThat(shown(robot)).isEmpty();
        assertThat(dialogs.told).isEmpty();
    }

    @Test
    void savesOfOneFileKeepTheirOrderAndTheSameRevisionIsWrittenOnce() throws Exception {
        disk.shut(file);
        title("first");
        act("save");
        act("save");
        title("second");
        act("save");
        assertThat(disk.begun).hasSizeLessThanOrEqualTo(1);
        disk.let(file);
        idle();
        assertThat(disk.begun).containsExactly("mine.json first", "mine.json second");
        assertThat(titleIn(file)).isEqualTo("second");
        assertThat(dirty()).isFalse();
        assertThat(dialogs.told).as("its own saves are no other program's").isEmpty();
    }

    @Test
    void theSameFileUnderAnotherNameWaitsForItsTurn() throws Exception {
        Path link = Files.createSymbolicLink(folder.resolve("link.json"), file);
        disk.shut(file);
        title("first");
        act("save");
        await(() -> disk.begun.size() == 1);
        title("second");
        dialogs.save = link;
        act("saveas");
        assertThat(disk.begun).hasSize(1);
        disk.let(file);
        idle();
        assertThat(disk.begun).containsExactly("mine.json first", "link.json second");
        assertThat(titleIn(file)).isEqualTo("second");
        assertThat(Files.isSymbolicLink(link)).isTrue();
        assertThat(dirty()).isFalse();
    }

    @Test
    void aFailedSaveIsToldAndLosesNothing(FxRobot robot) throws Exception {
        String before = titleIn(file);
        title("first");
        keptNow();
        disk.broken = true;
        act("save");
        idle();
        assertThat(dialogs.told).containsExactly("Cannot save", file + " cannot be written: the server is gone");
        assertThat(shown(robot)).isEqualTo("Not saved");
        assertThat(dirty()).isTrue();
        assertThat(titleIn(file)).isEqualTo(before);
        dialogs.told.clear();
        disk.why = "cannot save " + file + ": it is a folder";
        act("save");
        idle();
        assertThat(dialogs.told).as("the file is named once").containsExactly("Cannot save", disk.why);
        disk.broken = false;
        act("save");
        idle();
        assertThat(shown(robot)).isEqualTo("Saved");
        assertThat(titleIn(file)).isEqualTo("first");
        assertThat(found()).as("nothing is kept of what is saved").isNull();
    }

    @Test
    void aSaveUnderAnotherNameThatFailsLeavesTheCaseItsFile() throws Exception {
        title("first");
        dialogs.save = folder.resolve("none").resolve("other.json");
        act("saveas");
        idle();
        assertThat(dialogs.told).anyMatch(t -> t.contains("there is no folder"));
        assertThat(bench.fileProperty().get()).isEqualTo(file);
        try (Claims another = new Claims(settings.folder())) {
            assertThat(another.take(file)).as("the window still has its file").isEmpty();
        }
        act("save");
        idle();
        assertThat(titleIn(file)).isEqualTo("first");
    }

    @Test
    void aDiskThatNeverAnswersDoesNotHoldUpASaveToAnother(FxRobot robot) throws Exception {
        title("first");
        disk.shut(file);
        act("save");
        title("second");
        dialogs.save = other;
        act("saveas");
        await(() -> other.equals(bench.fileProperty().get()));
        assertThat(titleIn(other)).isEqualTo("second");
        assertThat(dirty()).isFalse();
        disk.let(file);
        idle();
        assertThat(titleIn(file)).isEqualTo("first");
        assertThat(bench.fileProperty().get())
                .as("what was asked for first does not come back")
                .isEqualTo(other);
        assertThat(dirty()).isFalse();
        assertThat(shown(robot)).isEqualTo("Saved");
    }

    @Test
    void aSaveThatIsAskedForWhileAnotherNameIsBeingWrittenGoesToThatName() throws Exception {
        title("first");
        disk.shut(other);
        dialogs.save = other;
        act("saveas");
        title("second");
        act("save");
        disk.let(other);
        idle();
        assertThat(titleIn(other)).isEqualTo("second");
        assertThat(bench.fileProperty().get()).isEqualTo(other);
    }

    @Test
    void closingWaitsForTheSaveAndThenCloses() throws Exception {
        title("first");
        disk.shut(file);
        act("save");
        onWindow(this::askToClose);
        assertThat(stage.isShowing()).isTrue();
        assertThat(dialogs.told).anyMatch(t -> t.contains("mine.json has not been written yet"));
        onWindow(this::askToClose);
        assertThat(stage.isShowing()).as("asked twice").isTrue();
        disk.let(file);
        await(() -> !stage.isShowing());
        assertThat(titleIn(file)).isEqualTo("first");
        assertThat(found()).isNull();
    }

    /** As the window's frame does. */
    private void askToClose() {
        WindowEvent asked = new WindowEvent(stage, WindowEvent.WINDOW_CLOSE_REQUEST);
        stage.getOnCloseRequest().handle(asked);
        if (!asked.isConsumed()) {
            stage.close();
        }
    }

    @Test
    void closingAfterSaveAsAnswerWaitsTooAndStaysWhenItFails() throws Exception {
        title("first");
        disk.shut(file);
        disk.broken = true;
        dialogs.unsaved = Dialogs.Answer.SAVE;
        onWindow(this::askToClose);
        disk.let(file);
        idle();
        assertThat(stage.isShowing()).isTrue();
        assertThat(dialogs.told).anyMatch(t -> t.contains("the server is gone"));
        disk.broken = false;
        onWindow(this::askToClose);
        await(() -> !stage.isShowing());
        assertThat(titleIn(file)).isEqualTo("first");
    }

    @Test
    void whoDoesNotWaitFindsTheWorkInTheNextWindowEditsMadeMeanwhileIncluded() throws Exception {
        title("first");
        disk.shut(file);
        act("save");
        title("second");
        dialogs.wait = Dialogs.Wait.BACK;
        onWindow(this::askToClose);
        assertThat(stage.isShowing()).isTrue();
        dialogs.wait = Dialogs.Wait.LEAVE;
        onWindow(() -> {
            askToClose();
            app.stop();
        });
        assertThat(stage.isShowing()).isFalse();
        Recovery.Unsaved found = found();
        assertThat(found.document().text("/about/title")).contains("second");
        assertThat(found.file()).isEqualTo(file);
        assertThat(writers()).as("it does not keep the program alive").allMatch(Thread::isDaemon);
        disk.let(file);
        while (!writers().isEmpty()) {
            TimeUnit.MILLISECONDS.sleep(10);
        }
    }

    private static List<Thread> writers() {
        return Thread.getAllStackTraces().keySet().stream()
                .filter(t -> t.getName().startsWith("write "))
                .toList();
    }

    @Test
    void anotherCaseIsOpenedWithoutWaitingAndTheLeftSaveIsHeardOf() throws Exception {
        StarterCases.open("falls-short").save(other);
        title("first");
        disk.shut(file);
        act("save");
        await(() -> disk.begun.size() == 1);
        dialogs.wait = Dialogs.Wait.LEAVE;
        onWindow(() -> window.actions().open(other));
        assertThat(bench.fileProperty().get()).isEqualTo(other);
        assertThat(dirty()).isFalse();
        try (Claims another = new Claims(settings.folder())) {
            assertThat(another.take(file)).as("still being written").isEmpty();
        }
        disk.let(file);
        await(() -> bench.noteProperty().get().contains("has been saved"));
        assertThat(titleIn(file)).isEqualTo("first");
        assertThat(bench.fileProperty().get()).isEqualTo(other);
        assertThat(dirty()).isFalse();
        assertThat(found()).as("saved after all").isNull();
        try (Claims another = new Claims(settings.folder())) {
            assertThat(another.take(file)).isPresent();
        }
    }

    @Test
    void aLeftSaveThatFailsIsToldAndItsWorkIsKept() throws Exception {
        StarterCases.open("falls-short").save(other);
        title("first");
        disk.shut(file);
        act("save");
        dialogs.wait = Dialogs.Wait.LEAVE;
        onWindow(() -> window.actions().open(other));
        dialogs.told.clear();
        disk.broken = true;
        disk.let(file);
        await(() -> !dialogs.told.isEmpty());
        assertThat(dialogs.told).anyMatch(t -> t.contains("the server is gone"));
        Recovery.Unsaved found = found();
        assertThat(found.document().text("/about/title")).contains("first");
        assertThat(found.file()).isEqualTo(file);
    }

    @Test
    void aLeftSaveWhoseFileIsOpenedAgainComesBeforeTheNext() throws Exception {
        title("first");
        disk.shut(file);
        act("save");
        await(() -> disk.begun.size() == 1);
        dialogs.wait = Dialogs.Wait.LEAVE;
        onWindow(() -> window.actions().open(file));
        String old = titleIn(file);
        assertThat(bench.history().document().text("/about/title")).contains(old);
        title("later");
        dialogs.yes = false;
        act("save");
        disk.let(file);
        idle();
        assertThat(dialogs.told).anyMatch(t -> t.contains("was changed by another program"));
        assertThat(titleIn(file)).isEqualTo("first");
        assertThat(dirty()).isTrue();
    }

    @Test
    void workThatIsGivenUpIsForgottenOnlyOnceAnotherCaseIsOpen() {
        title("first");
        keptNow();
        dialogs.unsaved = Dialogs.Answer.DISCARD;
        onWindow(() -> window.actions().open(folder.resolve("there is none.json")));
        assertThat(bench.history().document().text("/about/title")).contains("first");
        // A kill now: the lock ends, the copy is there.
        onWindow(app::stop);
        assertThat(found().document().text("/about/title")).contains("first");
    }

    @Test
    void drawingsAndTablesAreWrittenBesideTheWindowAndWaitedForAtTheEnd() throws Exception {
        Path drawing = folder.resolve("drawing.svg");
        disk.shut(drawing);
        onWindow(() -> window.saving().give(drawing, out -> out.write('x')));
        assertThat(bench.noteProperty().get()).isEqualTo("Writing " + drawing + " …");
        title("first");
        act("save");
        await(() -> !dirty());
        dialogs.wait = Dialogs.Wait.BACK;
        onWindow(this::askToClose);
        assertThat(stage.isShowing()).isTrue();
        assertThat(dialogs.told).anyMatch(t -> t.contains("drawing.svg has not been written yet"));
        assertThat(dialogs.told).anyMatch(t -> t.contains("is given up"));
        disk.let(drawing);
        idle();
        assertThat(drawing).hasContent("x");
        assertThat(bench.noteProperty().get()).isEqualTo("Wrote " + drawing);
        disk.broken = true;
        onWindow(() -> window.saving().give(drawing, out -> out.write('y')));
        idle();
        assertThat(dialogs.told).contains(drawing + " cannot be written: the server is gone");
        assertThat(drawing).hasContent("x");
    }

    @Test
    void whereNothingCanBeKeptThatIsSaidAndNobodyLeavesUnasked(FxRobot robot) throws Exception {
        // No folder can be made where a file is, whoever asks.
        Path own = settings.folder();
        try (var files = Files.walk(own)) {
            files.sorted(java.util.Comparator.reverseOrder())
                    .forEach(f -> f.toFile().delete());
        }
        Files.writeString(own, "in the way");
        title("first");
        onWindow(() -> assertThat(window.saving().keep()).isFalse());
        assertThat(shown(robot)).startsWith("Unsaved work is not kept");
        disk.shut(file);
        act("save");
        dialogs.wait = Dialogs.Wait.LEAVE;
        dialogs.yes = false;
        onWindow(this::askToClose);
        assertThat(stage.isShowing()).isTrue();
        assertThat(dialogs.told).anyMatch(t -> t.contains("cannot be kept either"));
        disk.let(file);
        idle();
        assertThat(shown(robot)).isEqualTo("Saved");
    }

    @Test
    void aFaultOfTheProgramIsToldAndTheWorkKept() {
        title("first");
        onWindow(() -> app.broken(new IllegalStateException("invented")));
        assertThat(bench.noteProperty().get()).contains("invented");
        onWindow(app::stop);
        assertThat(found().document().text("/about/title")).contains("first");
    }

    @Test
    void workTakenUpAgainIsNotWrittenUnaskedOverAFileThatWasChangedMeanwhile() throws Exception {
        title("first");
        String onDisk = CaseDocument.read(file).hash();
        try (Recovery killed = new Recovery(settings.folder())) {
            killed.keep(bench.history().document(), file, onDisk);
        }
        StarterCases.open("falls-short").save(file);
        String others = titleIn(file);
        onWindow(() -> assertThat(window.actions().recover()).isTrue());
        assertThat(bench.fileProperty().get()).isEqualTo(file);
        dialogs.yes = false;
        act("save");
        idle();
        assertThat(dialogs.told).anyMatch(t -> t.contains("was changed by another program"));
        assertThat(titleIn(file)).isEqualTo(others);
        assertThat(dirty()).isTrue();
    }

    @Test
    void theQuestionWhileWaitingEndsByItselfAndEnterGoesBackToTheCase(FxRobot robot) throws Exception {
        BooleanProperty busy = new SimpleBooleanProperty(true);
        AtomicReference<Dialogs.Wait> answer = new AtomicReference<>();
        Runnable ask = () -> answer.set(new FxDialogs(stage).await("title", List.of("words"), busy));
        WaitForAsyncUtils.asyncFx(ask);
        await(() -> Window.getWindows().size() == 2);
        onWindow(() -> busy.set(false));
        await(() -> answer.get() == Dialogs.Wait.ENDED);
        onWindow(() -> busy.set(true));
        WaitForAsyncUtils.asyncFx(ask);
        await(() -> Window.getWindows().size() == 2);
        robot.type(KeyCode.ENTER);
        await(() -> answer.get() == Dialogs.Wait.BACK);
        WaitForAsyncUtils.asyncFx(ask);
        onWindow(() -> busy.set(false));
        await(() -> answer.get() == Dialogs.Wait.ENDED);
        assertThat(Window.getWindows()).as("a quick disk is not asked about").hasSize(1);
    }
}
