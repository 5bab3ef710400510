package purgewright.gui.app;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Files;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.concurrent.TimeUnit;
import javafx.application.Platform;
import javafx.scene.Node;
import javafx.scene.control.Button;
import javafx.stage.Stage;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.extension.ExtendWith;
import org.testfx.api.FxRobot;
import org.testfx.framework.junit5.ApplicationExtension;
import org.testfx.framework.junit5.Start;
import org.testfx.util.WaitForAsyncUtils;
import purgewright.gui.bench.Workbench;
import purgewright.gui.edit.Settings;
import purgewright.gui.edit.StarterCases;
import purgewright.gui.task.Desk;
import purgewright.gui.task.TaskRunner;

@ExtendWith(ApplicationExtension.class)
@DisplayName("A window that is closed while studies run ends them; nothing goes on computing")
class ClosedWindowTest {
    private PurgewrightApp app;
    private Stage stage;
    private Workbench bench;
    private MainWindow window;

    @Start
    void start(Stage primary) throws Exception {
        stage = primary;
        Desk desk = new Desk();
        bench = new Workbench(TaskRunner.background("solve lane"), desk, Platform::runLater);
        app = new PurgewrightApp();
        window = app.start(
                primary,
                desk,
                new Settings(Files.createTempDirectory("purgewright-closed")),
                bench,
                new QuietDialogs());
    }

    /** Threads that are in the program's own code now, but for the one that asks and the window's. */
    private static List<String> computing() {
        List<String> all = new ArrayList<>();
        for (Map.Entry<Thread, StackTraceElement[]> e :
                Thread.getAllStackTraces().entrySet()) {
            boolean ours = Arrays.stream(e.getValue())
                    .anyMatch(f -> f.getClassName().startsWith("purgewright.")
                            && !f.getClassName().startsWith("purgewright.gui.app"));
            if (ours && e.getKey() != Thread.currentThread()) {
                all.add(e.getKey().getName());
            }
        }
        return all;
    }

    @Test
    void whileEveryStudyRuns(FxRobot robot) throws Exception {
        onWindow(() -> bench.open(StarterCases.open("minimal"), null, true));
        WaitForAsyncUtils.waitFor(170, TimeUnit.SECONDS, () -> bench.result() != null);
        List<String> started = new ArrayList<>();
        for (String view : List.of("size", "map", "faults")) {
            onWindow(() -> window.show(view));
            Button run = robot.lookup((Node n) -> n instanceof Button
                            && n.getId() != null
                            && n.getId().startsWith("run ")
                            && n.isVisible()
                            && !n.isDisabled())
                    .<Button>tryQuery()
                    .orElse(null);
            if (run != null) {
                onWindow(run::fire);
                started.add(run.getId());
            }
        }
        // one more edit, so that the solve lane is busy as well
        onWindow(() -> bench.history()
                .apply("edit.value", "/rotor/speed", bench.history().document().with("/rotor/speed", "31000 rpm")));
        assertThat(started).contains("run faults", "run size", "run map");
        WaitForAsyncUtils.waitFor(20, TimeUnit.SECONDS, () -> !computing().isEmpty());

        onWindow(() -> {
            stage.close();
            app.stop();
        });
        long closed = System.nanoTime();
        while (!computing().isEmpty() && System.nanoTime() - closed < TimeUnit.SECONDS.toNanos(30)) {
            TimeUnit.MILLISECONDS.sleep(20);
        }
        assertThat(computing()).as("threads that still compute").isEmpty();
        // and none keeps the program from ending
        assertThat(Thread.getAllStackTraces().keySet().stream()
                        .filter(t -> !t.isDaemon() && t.isAlive())
                        .map(Thread::getName)
                        .filter(n -> started.contains("run " + n)
                                || n.startsWith("purgewright")
                                || n.equals("solve lane")
                                || n.startsWith("pool-")))
                .isEmpty();
    }

    private static void onWindow(Runnable work) {
        WaitForAsyncUtils.asyncFx(work);
        WaitForAsyncUtils.waitForFxEvents();
    }
}
