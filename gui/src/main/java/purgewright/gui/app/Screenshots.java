package purgewright.gui.app;

import java.awt.image.BufferedImage;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Deque;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
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
import purgewright.report.WholeFile;

/**
 * Makes pictures of the window. {@code java ... purgewright.gui.app.Screenshots docs/guide/img} makes the guide's; a second argument is a
 * part of the names to make; {@code all} as a second argument makes every view of every starter case in four sizes and three themes, and
 * at larger text, to be looked at; a third is then a part of the names (a regular expression).
 */
public final class Screenshots {
    /**
     * One picture.
     *
     * @param selected pointer, or empty
     * @param view key of the view; a study is run first
     */
    private record Shot(
            String name, String starter, String selected, Theme theme, String view, int width, int height) {}

    private static final List<Shot> GUIDE = List.of(
            new Shot("window-light-1440", "spaced-lox-methane", "", Theme.LIGHT, "section", 1440, 900),
            new Shot("window-dark-1440", "spaced-lox-methane", "/passages/ring A", Theme.DARK, "section", 1440, 900),
            new Shot("window-shared-light-1920", "shared-rotor-kerosene", "second", Theme.LIGHT, "section", 1920, 1080),
            new Shot("window-shared-dark-1920", "shared-rotor-lox", "", Theme.DARK, "section", 1920, 1080),
            new Shot("window-falls-short-1440", "falls-short", "", Theme.LIGHT, "section", 1440, 900),
            new Shot("window-contrast-1440", "nitrogen-compressor", "", Theme.CONTRAST, "section", 1440, 900),
            new Shot("window-scale-1440", "spaced-lox-methane", "/passages/ring A", Theme.LIGHT, "scale", 1440, 900),
            new Shot("view-spread-1440", "shared-rotor-kerosene", "", Theme.LIGHT, "spread", 1440, 900),
            new Shot("view-duty-1440", "spaced-lox-methane", "", Theme.LIGHT, "duty", 1440, 900),
            new Shot("view-size-1440", "minimal", "", Theme.LIGHT, "size", 1440, 900),
            new Shot("view-map-1440", "minimal", "", Theme.LIGHT, "map", 1440, 900),
            new Shot("view-fluid-1440", "spaced-lox-methane", "", Theme.LIGHT, "fluid", 1440, 900),
            new Shot("view-mixtures-1440", "spaced-lox-methane", "", Theme.LIGHT, "ternary", 1440, 900),
            new Shot("view-faults-1440", "minimal", "", Theme.LIGHT, "faults", 1440, 900),
            new Shot("view-compare-1440", "minimal", "", Theme.LIGHT, "compare", 1440, 900));

    private static final int SECOND = 2;

    private Screenshots() {}

    /** The program. */
    public static void main(String[] arguments) {
        System.setProperty("java.awt.headless", "true");
        Application.launch(Maker.class, arguments);
    }

    private static List<Shot> everything(Set<String> views) {
        List<Shot> all = new ArrayList<>();
        for (String starter : StarterCases.names()) {
            List<String> shown = new ArrayList<>(views);
            shown.add("scale");
            for (String view : shown) {
                all.add(new Shot(starter + "-" + view + "-light-1440", starter, "", Theme.LIGHT, view, 1440, 900));
                all.add(new Shot(
                        starter + "-" + view + "-light-1280", starter, "second", Theme.LIGHT, view, 1280, 800));
                all.add(new Shot(
                        starter + "-" + view + "-light-1024", starter, "second", Theme.LIGHT, view, 1024, 700));
                all.add(new Shot(starter + "-" + view + "-dark-1920", starter, "second", Theme.DARK, view, 1920, 1080));
                all.add(new Shot(
                        starter + "-" + view + "-contrast-1440", starter, "second", Theme.CONTRAST, view, 1440, 900));
                all.add(new Shot(
                        starter + "-" + view + "-larger150-1440", starter, "second", Theme.LIGHT, view, 1440, 900));
                all.add(new Shot(
                        starter + "-" + view + "-larger200-1920", starter, "second", Theme.LIGHT, view, 1920, 1080));
            }
        }
        return all;
    }

    /** Goes from picture to picture. Not the main class: a toolkit class as such may not lie on the class path. */
    public static final class Maker extends Application {
        private final Deque<Shot> left = new ArrayDeque<>();
        private Path folder;
        private Stage stage;
        private MainWindow window;
        private Workbench bench;
        /** The starter case that is open: what was made of it serves all its pictures. */
        private String open = "";

        private final Set<String> ran = new HashSet<>();

        @Override
        public void start(Stage primary) throws IOException {
            List<String> arguments = getParameters().getRaw();
            folder = Path.of(arguments.get(0));
            Files.createDirectories(folder);
            stage = primary;
            Desk desk = new Desk();
            bench = new Workbench(TaskRunner.background("solve lane"), desk, Platform::runLater);
            Path settings = Files.createTempDirectory("purgewright-shots");
            window = new PurgewrightApp().start(stage, desk, new Settings(settings), bench, new FxDialogs(stage));
            boolean all = arguments.size() > 1 && arguments.get(1).equals("all");
            int part = all ? SECOND : 1;
            String only = arguments.size() > part ? arguments.get(part) : "";
            (all ? everything(window.views()) : GUIDE)
                    .stream()
                            .filter(s -> s.name().matches(".*(" + only + ").*"))
                            .forEach(left::add);
            next();
        }

        private void next() {
            Shot shot = left.poll();
            if (shot == null) {
                bench.close();
                Platform.exit();
                return;
            }
            stage.setWidth(shot.width());
            stage.setHeight(shot.height());
            bench.themeProperty().set(shot.theme());
            window.textSize(
                    shot.name().contains("larger150") ? 150 : shot.name().contains("larger200") ? 200 : 100);
            bench.toScaleProperty().set(shot.view().equals("scale"));
            if (!shot.starter().equals(open)) {
                open = shot.starter();
                ran.clear();
                bench.open(StarterCases.open(open), null, true);
            }
            window.show(view(shot));
            whenSolved(() -> {
                String selected = shot.selected().equals("second")
                        ? "/cavities/"
                                + bench.history()
                                        .document()
                                        .children("/cavities")
                                        .get(1)
                        : shot.selected();
                bench.selectedProperty().set(selected);
                boolean study = window.study(view(shot));
                if (study && ran.add(view(shot))) {
                    window.run(view(shot));
                }
                PauseTransition settle = new PauseTransition(Duration.millis(700));
                settle.setOnFinished(e -> {
                    if (study && window.running(view(shot))) {
                        settle.playFromStart();
                        return;
                    }
                    write(shot);
                    next();
                });
                settle.play();
            });
        }

        private static String view(Shot shot) {
            return shot.view().equals("scale") ? "section" : shot.view();
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
                WholeFile.write(folder.resolve(shot.name() + ".png"), out -> ImageIO.write(image, "png", out));
            } catch (IOException e) {
                throw new UncheckedIOException(e);
            }
        }
    }
}
