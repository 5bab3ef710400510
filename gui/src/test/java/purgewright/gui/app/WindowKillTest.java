package purgewright.gui.app;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStreamReader;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.SplittableRandom;
import java.util.TreeMap;
import java.util.concurrent.ConcurrentSkipListMap;
import java.util.concurrent.TimeUnit;
import javafx.animation.Animation;
import javafx.animation.KeyFrame;
import javafx.animation.Timeline;
import javafx.application.Platform;
import javafx.stage.Stage;
import javafx.util.Duration;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import purgewright.gui.bench.Workbench;
import purgewright.gui.edit.Settings;
import purgewright.gui.edit.StarterCases;
import purgewright.gui.task.Desk;
import purgewright.gui.task.TaskRunner;

/**
 * The whole window in a process of its own, edited without a pause and killed with {@code kill -9}; the next one must come up with the work.
 * 200 kills at a share of 1. Without {@code -Dpurgewright.display=true} the window draws on the toolkit's own screen in memory; with it, on
 * {@code DISPLAY}, for instance of Xvfb.
 */
@Tag("long")
@DisplayName("A window that was killed comes up again with the work of at most some seconds ago")
class WindowKillTest {
    private static final double SHARE = Double.parseDouble(System.getProperty("purgewright.share", "0.01"));
    private static final int KILLS = (int) Math.max(2, Math.round(200 * SHARE));
    private static final boolean DISPLAY = Boolean.getBoolean("purgewright.display");

    /** Kept two seconds after the first edit that is not kept; the rest is for a busy machine. Less than any window lives. */
    private static final long MOST_LOST = 4_500;

    @TempDir
    Path folder;

    /** A window under way: what it said, with the time it was heard. */
    private static final class Running {
        final Process process;
        final Map<Integer, Long> edits = new ConcurrentSkipListMap<>();
        final List<String> other = new ArrayList<>();
        volatile int found = -1;

        Running(Path settings) throws IOException {
            List<String> command = new ArrayList<>(List.of(
                    Path.of(System.getProperty("java.home"), "bin", "java").toString(),
                    "-XX:TieredStopAtLevel=1",
                    "-XX:+UseSerialGC",
                    "-Xmx512m",
                    "-Dprism.order=sw",
                    "-Djava.awt.headless=true"));
            if (!DISPLAY) {
                command.addAll(List.of("-Dglass.platform=Monocle", "-Dmonocle.platform=Headless"));
            }
            command.addAll(
                    List.of("-cp", System.getProperty("java.class.path"), Victim.class.getName(), settings.toString()));
            process = new ProcessBuilder(command).redirectErrorStream(true).start();
            Thread reader = new Thread(this::read, "reader");
            reader.setDaemon(true);
            reader.start();
        }

        private void read() {
            try (BufferedReader in =
                    new BufferedReader(new InputStreamReader(process.getInputStream(), StandardCharsets.UTF_8))) {
                for (String line = in.readLine(); line != null; line = in.readLine()) {
                    if (line.startsWith("edit ")) {
                        edits.put(Integer.parseInt(line.substring(5)), System.nanoTime());
                    } else if (line.startsWith("found ")) {
                        found = Integer.parseInt(line.substring(6));
                    } else {
                        synchronized (other) {
                            other.add(line);
                        }
                    }
                }
            } catch (IOException ended) {
                return;
            }
        }

        void awaitFirstEdit() throws InterruptedException {
            long until = System.nanoTime() + TimeUnit.SECONDS.toNanos(120);
            while (edits.isEmpty() && process.isAlive() && System.nanoTime() < until) {
                TimeUnit.MILLISECONDS.sleep(20);
            }
            assertThat(edits).as("the window came up; it said " + other).isNotEmpty();
        }
    }

    @Test
    void whateverTheMoment() throws Exception {
        SplittableRandom random = new SplittableRandom(20260101 + Long.getLong("purgewright.from", 0));
        Path settings = folder.resolve("settings");
        long worst = 0;
        Running before = null;
        long killed = 0;
        for (int kill = 0; kill <= KILLS; kill++) {
            Running window = new Running(settings);
            try {
                window.awaitFirstEdit();
                if (before == null) {
                    assertThat(window.found).as("a first window finds nothing").isZero();
                } else {
                    TreeMap<Integer, Long> made = new TreeMap<>(before.edits);
                    assertThat(window.found).as("kill " + kill).isBetween(made.firstKey() - 1, made.lastKey() + 1);
                    Map.Entry<Integer, Long> lost = made.higherEntry(window.found);
                    long since = lost == null ? 0 : TimeUnit.NANOSECONDS.toMillis(killed - lost.getValue());
                    assertThat(since).as("kill " + kill + ": ms of work lost").isLessThan(MOST_LOST);
                    worst = Math.max(worst, since);
                }
                if (kill < KILLS) {
                    TimeUnit.MILLISECONDS.sleep(5_000 + random.nextInt(4_000));
                }
            } finally {
                killed = System.nanoTime();
                window.process.destroyForcibly().waitFor();
            }
            before = window;
        }
        System.out.println("killed " + KILLS + " windows; at most " + worst + " ms of work lost");
        try (var kept = Files.list(settings)) {
            // of one window only: what was taken up is taken away
            assertThat(kept.filter(f -> f.toString().endsWith(".json")).toList())
                    .hasSizeLessThanOrEqualTo(1);
        }
    }

    /** The child process. */
    static final class Victim {
        private Victim() {}

        public static void main(String[] arguments) {
            Platform.startup(() -> {
                Desk desk = new Desk();
                Workbench bench = new Workbench(TaskRunner.background("solve lane"), desk, Platform::runLater);
                MainWindow window = new PurgewrightApp()
                        .start(new Stage(), desk, new Settings(Path.of(arguments[0])), bench, new QuietDialogs());
                int found = 0;
                if (window.actions().recover()) {
                    found = Integer.parseInt(
                            bench.history().document().text("/about/note").orElseThrow());
                } else {
                    bench.open(StarterCases.open("minimal"), null, true);
                }
                System.out.println("found " + found);
                int[] number = {found};
                Timeline edits = new Timeline(new KeyFrame(Duration.millis(150), e -> {
                    int n = ++number[0];
                    bench.history()
                            .apply(
                                    "edit.value",
                                    "/about/note",
                                    bench.history().document().with("/about/note", Integer.toString(n)));
                    System.out.println("edit " + n);
                }));
                edits.setCycleCount(Animation.INDEFINITE);
                edits.play();
            });
        }
    }
}
