package purgewright.gui.app;

import java.nio.file.Files;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Deque;
import java.util.List;
import java.util.Locale;
import javafx.animation.AnimationTimer;
import javafx.application.Application;
import javafx.application.Platform;
import javafx.scene.Node;
import javafx.scene.control.ScrollBar;
import javafx.stage.Stage;
import purgewright.gui.bench.Workbench;
import purgewright.gui.edit.Settings;
import purgewright.gui.edit.StarterCases;
import purgewright.gui.task.Desk;
import purgewright.gui.task.Outcome;
import purgewright.gui.task.TaskRunner;
import purgewright.sealflow.casefile.CaseDocument;

/**
 * Times of the window on a display, printed: frames while a drawing is panned, and from an edit to the drawing of the phase shown and to
 * the whole case. {@code java -cp TEST_CLASS_PATH purgewright.gui.app.WindowTimes}; a virtual display will do.
 */
public final class WindowTimes {
    private static final int FRAMES = 150;
    private static final int EDITS = 12;

    private WindowTimes() {}

    /** The program. */
    public static void main(String[] arguments) {
        System.setProperty("java.awt.headless", "true");
        Application.launch(Maker.class, arguments);
    }

    /** Goes from one measurement to the next. */
    public static final class Maker extends Application {
        private final Deque<Runnable> left = new ArrayDeque<>();
        private Workbench bench;
        private MainWindow window;

        @Override
        public void start(Stage stage) throws Exception {
            Desk desk = new Desk();
            bench = new Workbench(TaskRunner.background("solve lane"), desk, Platform::runLater);
            Settings settings = new Settings(Files.createTempDirectory("purgewright-times"));
            window = new PurgewrightApp().start(stage, desk, settings, bench, new FxDialogs(stage));
            for (String starter : List.of("minimal", "spaced-lox-methane", "shared-rotor-kerosene")) {
                CaseDocument document = StarterCases.open(starter);
                left.add(() -> open(starter, document));
                left.add(() -> edits(starter, seal(document)));
                left.add(() -> pan(starter));
            }
            CaseDocument chain = chain(300);
            left.add(() -> open("chain of 300", chain));
            left.add(() -> edits("chain of 300", seal(chain)));
            left.add(() -> pan("chain of 300"));
            next();
        }

        private static String seal(CaseDocument document) {
            return document.children("/passages").stream()
                    .map(n -> "/passages/" + n + "/clearance")
                    .filter(document::has)
                    .findFirst()
                    .orElseThrow();
        }

        /** Drains in a row between two ends, sealed from one another. */
        private static CaseDocument chain(int cavities) {
            StringBuilder text = new StringBuilder("{\"purgewright\": 1, \"rotor\": {\"speed\": \"30000 rpm\"},"
                    + " \"streams\": {\"gas\": {\"fluid\": \"nitrogen\"}}, \"cavities\": [");
            for (int i = 0; i < cavities; i++) {
                boolean end = i == 0 || i == cavities - 1;
                text.append(i == 0 ? "" : ",")
                        .append("{\"name\": \"c")
                        .append(i)
                        .append("\", \"role\": \"")
                        .append(end ? "other" : "drain")
                        .append(end ? "\", \"stream\": \"gas\", \"temperature\": \"300 K\", \"pressure\": \"" : "\"")
                        .append(i == 0 ? "2 MPa\"" : end ? "1 MPa\"" : "")
                        .append('}');
            }
            text.append("], \"passages\": [");
            for (int i = 0; i + 1 < cavities; i++) {
                text.append(i == 0 ? "" : ",")
                        .append("{\"name\": \"s")
                        .append(i)
                        .append("\", \"from\": \"c")
                        .append(i)
                        .append("\", \"to\": \"c")
                        .append(i + 1)
                        .append(
                                "\", \"type\": \"labyrinth\", \"radius\": \"30 mm\", \"clearance\": \"0.1 mm\", \"teeth\": 4,"
                                        + " \"pitch\": \"3 mm\", \"tip\": \"0.3 mm\"}");
            }
            return CaseDocument.parse(text.append("]}").toString());
        }

        private void next() {
            Runnable one = left.poll();
            if (one == null) {
                bench.close();
                window.close();
                Platform.exit();
            } else {
                one.run();
            }
        }

        private static void print(String what, String where, double[] ms) {
            Arrays.sort(ms);
            System.out.printf(
                    Locale.ROOT,
                    "%-34s %-24s median %7.1f ms  least %7.1f  greatest %7.1f  of %d%n",
                    what,
                    where,
                    ms[ms.length / 2],
                    ms[0],
                    ms[ms.length - 1],
                    ms.length);
        }

        private void open(String name, CaseDocument document) {
            long start = System.nanoTime();
            bench.open(document, null, true);
            window.show("section");
            new AnimationTimer() {
                @Override
                public void handle(long now) {
                    if (!bench.busyProperty().get()) {
                        stop();
                        print("open, solve, draw", name, new double[] {(System.nanoTime() - start) / 1e6});
                        next();
                    }
                }
            }.start();
        }

        /** From the change of the document to the frame after the drawing of the answer. */
        private void edits(String name, String place) {
            double[] first = new double[EDITS];
            double[] all = new double[EDITS];
            String typed = bench.history().document().text(place).orElseThrow();
            new AnimationTimer() {
                private int done;
                private int waited;
                private long start = -1;
                private boolean seen;

                @Override
                public void handle(long now) {
                    if (start < 0) {
                        if (waited++ < 20) {
                            return;
                        }
                        waited = 0;
                        seen = false;
                        start = System.nanoTime();
                        double value = 0.08 + 0.001 * done;
                        bench.history()
                                .apply(
                                        "edit.value",
                                        place,
                                        bench.history().document().with(place, value + " mm"));
                        return;
                    }
                    if (!seen && bench.outcomeProperty().get() instanceof Outcome.Glanced) {
                        seen = true;
                        first[done] = (System.nanoTime() - start) / 1e6;
                    }
                    if (!bench.busyProperty().get()) {
                        all[done] = (System.nanoTime() - start) / 1e6;
                        first[done] = seen ? first[done] : all[done];
                        start = -1;
                        if (++done == EDITS) {
                            stop();
                            print("edit to the phase shown", name, first);
                            print("edit to the whole case", name, all);
                            bench.history()
                                    .apply(
                                            "edit.value",
                                            place,
                                            bench.history().document().with(place, typed));
                            next();
                        }
                    }
                }
            }.start();
        }

        private void pan(String name) {
            window.section().zoomProperty().set(1);
            List<ScrollBar> bars = new ArrayList<>();
            for (Node node : window.section().lookupAll(".scroll-bar")) {
                bars.add((ScrollBar) node);
            }
            double[] frames = new double[FRAMES];
            double[] own = new double[FRAMES];
            new AnimationTimer() {
                private int done = -30;
                private long before;

                @Override
                public void handle(long now) {
                    long start = System.nanoTime();
                    for (ScrollBar bar : bars) {
                        double span = bar.getMax() - bar.getMin();
                        bar.setValue(bar.getMin() + span * (0.5 + 0.5 * Math.sin(0.05 * done)));
                    }
                    if (done >= 0) {
                        own[done] = (System.nanoTime() - start) / 1e6;
                        frames[done] = (start - before) / 1e6;
                    }
                    before = start;
                    if (++done == FRAMES) {
                        stop();
                        print("pan, frame to frame", name, frames);
                        print("pan, our own share", name, own);
                        next();
                    }
                }
            }.start();
        }
    }
}
