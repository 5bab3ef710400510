package purgewright.gui.app;

import java.awt.image.BufferedImage;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayDeque;
import java.util.Deque;
import java.util.List;
import javafx.animation.PauseTransition;
import javafx.application.Application;
import javafx.application.Platform;
import javafx.scene.image.WritableImage;
import javafx.stage.Stage;
import javafx.util.Duration;
import javax.imageio.ImageIO;
import purgewright.figure.Theme;
import purgewright.gui.bench.Workbench;
import purgewright.gui.edit.Settings;
import purgewright.gui.edit.StarterCases;
import purgewright.gui.task.Desk;
import purgewright.gui.task.TaskRunner;

/** Makes the guide's pictures of the window: {@code java ... purgewright.gui.app.Screenshots docs/guide/img}. */
public final class Screenshots {
    /** One picture. */
    private record Shot(String name, String starter, String selected, Theme theme, int view, int width, int height) {}

    private static final List<Shot> SHOTS = List.of(
            new Shot("window-light-1440", "spaced-lox-methane", "", Theme.LIGHT, 0, 1440, 900),
            new Shot("window-dark-1440", "spaced-lox-methane", "first seal", Theme.DARK, 0, 1440, 900),
            new Shot("window-shared-light-1920", "shared-rotor-kerosene", "first cavity", Theme.LIGHT, 0, 1920, 1080),
            new Shot("window-shared-dark-1920", "shared-rotor-lox", "", Theme.DARK, 0, 1920, 1080),
            new Shot("window-falls-short-1440", "falls-short", "", Theme.LIGHT, 0, 1440, 900),
            new Shot("window-contrast-1440", "nitrogen-compressor", "", Theme.CONTRAST, 0, 1440, 900),
            new Shot("view-fluid-1440", "spaced-lox-methane", "", Theme.LIGHT, 1, 1440, 900),
            new Shot("view-mixtures-1440", "spaced-lox-methane", "", Theme.LIGHT, 2, 1440, 900),
            new Shot("view-faults-1440", "minimal", "", Theme.LIGHT, 3, 1440, 900));

    private static final int FAULTS = 3;

    private Screenshots() {}

    /** The program; its first argument is the folder to write into, a second one a part of the names to make. */
    public static void main(String[] arguments) {
        System.setProperty("java.awt.headless", "true");
        Application.launch(Maker.class, arguments);
    }

    /** Goes from picture to picture. Not the main class: a toolkit class as such may not lie on the class path. */
    public static final class Maker extends Application {
        private final Deque<Shot> left = new ArrayDeque<>(SHOTS);
        private Path folder;
        private Stage stage;
        private MainWindow window;
        private Workbench bench;

        @Override
        public void start(Stage primary) throws IOException {
            folder = Path.of(getParameters().getRaw().get(0));
            Files.createDirectories(folder);
            stage = primary;
            Desk desk = new Desk();
            bench = new Workbench(TaskRunner.background("solve lane"), desk, Platform::runLater);
            Path settings = Files.createTempDirectory("purgewright-shots");
            window = new PurgewrightApp().start(stage, desk, new Settings(settings), bench, new FxDialogs(stage));
            next();
        }

        private void next() {
            Shot shot = left.poll();
            if (shot == null) {
                bench.close();
                Platform.exit();
                return;
            }
            String only = getParameters().getRaw().size() > 1
                    ? getParameters().getRaw().get(1)
                    : "";
            if (!shot.name().contains(only)) {
                next();
                return;
            }
            stage.setWidth(shot.width());
            stage.setHeight(shot.height());
            bench.themeProperty().set(shot.theme());
            bench.open(StarterCases.open(shot.starter()), null, true);
            window.show(shot.view());
            whenSolved(() -> {
                if (shot.selected().equals("first seal")) {
                    bench.selectedProperty()
                            .set("/passages/"
                                    + bench.history()
                                            .document()
                                            .children("/passages")
                                            .get(1));
                } else if (shot.selected().equals("first cavity")) {
                    bench.selectedProperty()
                            .set("/cavities/"
                                    + bench.history()
                                            .document()
                                            .children("/cavities")
                                            .get(1));
                }
                if (shot.view() == FAULTS) {
                    window.examineFaults();
                }
                PauseTransition settle = new PauseTransition(Duration.millis(700));
                settle.setOnFinished(e -> {
                    if (shot.view() == FAULTS && !window.faultsExamined()) {
                        settle.playFromStart();
                        return;
                    }
                    write(shot);
                    next();
                });
                settle.play();
            });
        }

        private void whenSolved(Runnable then) {
            PauseTransition look = new PauseTransition(Duration.millis(150));
            look.setOnFinished(e -> {
                if (bench.busyProperty().get()) {
                    look.playFromStart();
                } else {
                    then.run();
                }
            });
            look.play();
        }

        private void write(Shot shot) {
            WritableImage shown = stage.getScene().snapshot(null);
            int w = (int) shown.getWidth();
            int h = (int) shown.getHeight();
            BufferedImage image = new BufferedImage(w, h, BufferedImage.TYPE_INT_RGB);
            for (int y = 0; y < h; y++) {
                for (int x = 0; x < w; x++) {
                    image.setRGB(x, y, shown.getPixelReader().getArgb(x, y));
                }
            }
            try {
                ImageIO.write(image, "png", folder.resolve(shot.name() + ".png").toFile());
            } catch (IOException e) {
                throw new UncheckedIOException(e);
            }
        }
    }
}
