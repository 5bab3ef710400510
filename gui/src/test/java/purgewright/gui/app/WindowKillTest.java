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

    /** Edits, one in 150 ms, before a window may be killed; of them at most {@link #MOST_LOST} may be lost: two seconds' and some for a busy machine. */
    private static final int MADE = 60;

    private static final int MOST_LOST = 40;

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

        void awaitEdits(int number) throws InterruptedException {
            long until = System.nanoTime() + TimeUnit.SECONDS.toNanos(120);
            while (edits.size() < number && process.isAlive() && System.nanoTime() < until) {
                TimeUnit.MILLISECONDS.sleep(20);
            }
            assertThat(edits).as("the window came up; it said " + other).hasSizeGreaterThanOrEqualTo(number);
        }
    }

    @Test
    void whateverTheMoment() throws Exception {
        SplittableRandom random = new SplittableRandom(20260101 + Long.getLong("purgewright.from", 0));
        Path settings = folder.resolve("settings");
        int worst = 0;
        Running before = null;
        for (int kill = 0; kill <= KILLS; kill++) {
            Running window = new Running(settings);
            try {
                window.awaitEdits(1);
                if (before == null) {
                    assertThat(window.found).as("a first window finds nothing").isZero();
                } else {
                    // The last edit may have been made without having been told.
                    TreeMap<Integer, Long> made = new TreeMap<>(before.edits);
                    int lost = made.lastKey() - window.found;
                    assertThat(lost).as("kill " + kill + ": edits lost").isBetween(-1, MOST_LOST);
                    worst = Math.max(worst, lost);
                }
                if (kill < KILLS) {
                    window.awaitEdits(MADE);
                    TimeUnit.MILLISECONDS.sleep(random.nextInt(3_000));
                }
            } finally {
                window.process.destroyForcibly().waitFor();
            }
            before = window;
            if (kill > 0 && kill % 10 == 0) {
                System.out.println(kill + " windows killed; at most " + worst
                        + " edits lost"); // what a run that is cut off showed
            }
        }
        System.out.println("killed " + KILLS + " windows; at most " + worst + " edits of the last seconds lost");
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
                long[] last = {0};
                Timeline edits = new Timeline(new KeyFrame(Duration.millis(150), e -> {
                    // After a pause of the machine the toolkit makes up for missed cycles in one go: no hand edits like
                    // that.
                    if (System.nanoTime() - last[0] < 100_000_000) {
                        return;
                    }
                    last[0] = System.nanoTime();
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
