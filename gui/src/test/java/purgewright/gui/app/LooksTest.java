package purgewright.gui.app;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.concurrent.TimeUnit;
import java.util.function.BooleanSupplier;
import javafx.application.Platform;
import javafx.scene.Node;
import javafx.scene.image.PixelReader;
import javafx.scene.image.WritableImage;
import javafx.scene.shape.Rectangle;
import javafx.stage.Stage;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.extension.ExtendWith;
import org.testfx.api.FxRobot;
import org.testfx.framework.junit5.ApplicationExtension;
import org.testfx.framework.junit5.Start;
import org.testfx.util.WaitForAsyncUtils;
import purgewright.figure.Theme;
import purgewright.gui.bench.Workbench;
import purgewright.gui.edit.Settings;
import purgewright.gui.edit.StarterCases;
import purgewright.gui.task.Desk;
import purgewright.gui.task.TaskRunner;
import purgewright.sealflow.casefile.CaseDocument;

/**
 * Pictures of the main views against kept ones, told apart by where there is ink and how light it is, never by pixel: letters of another
 * font pass, a view or a layer that is gone does not. {@code -Dpurgewright.update=true} keeps the pictures of today.
 */
@ExtendWith(ApplicationExtension.class)
class LooksTest {
    private static final Path KEPT = Path.of("src", "test", "looks");
    private static final int WIDTH = 1280;
    private static final int HEIGHT = 800;

    private Workbench bench;
    private MainWindow window;
    private Stage stage;

    @Start
    void start(Stage primary) throws Exception {
        Desk desk = new Desk();
        stage = primary;
        bench = new Workbench(TaskRunner.background("solve lane"), desk, Platform::runLater);
        Settings settings = new Settings(Files.createTempDirectory("purgewright-looks"));
        window = new PurgewrightApp().start(stage, desk, settings, bench, new QuietDialogs());
        stage.setWidth(WIDTH);
        stage.setHeight(HEIGHT);
    }

    /** Ink and tone of a picture in blocks of pixels. */
    private record Look(int[][] ink, int[][] tone) {
        private static final int BLOCK = 16;
        /** Blocks along the side of a tile: what is missing is missing from a whole tile. */
        private static final int TILE = 6;
        /** Share of pixels that stand out in a block with ink in it, in levels of 1/9. */
        private static final int STEPS = 9;

        static Look of(WritableImage image) {
            int rows = HEIGHT / BLOCK;
            int columns = WIDTH / BLOCK;
            int[][] ink = new int[rows][columns];
            int[][] tone = new int[rows][columns];
            PixelReader pixels = image.getPixelReader();
            for (int r = 0; r < rows; r++) {
                for (int c = 0; c < columns; c++) {
                    double[] light = new double[BLOCK * BLOCK];
                    double sum = 0;
                    for (int i = 0; i < light.length; i++) {
                        int x = Math.min(c * BLOCK + i % BLOCK, (int) image.getWidth() - 1);
                        int y = Math.min(r * BLOCK + i / BLOCK, (int) image.getHeight() - 1);
                        int argb = pixels.getArgb(x, y);
                        light[i] = (0.2126 * (argb >> 16 & 255) + 0.7152 * (argb >> 8 & 255) + 0.0722 * (argb & 255))
                                / 255;
                        sum += light[i];
                    }
                    double[] sorted = light.clone();
                    Arrays.sort(sorted);
                    double middle = sorted[sorted.length / 2];
                    int out = 0;
                    for (double l : light) {
                        out += Math.abs(l - middle) > 0.1 ? 1 : 0;
                    }
                    // Any ink at all is at least 1.
                    ink[r][c] = (int) Math.ceil((double) STEPS * out / light.length);
                    tone[r][c] = (int) Math.round(STEPS * sum / light.length);
                }
            }
            return new Look(ink, tone);
        }

        static Look read(Path file) throws IOException {
            List<String> lines = Files.readAllLines(file);
            int half = lines.size() / 2;
            return new Look(digits(lines.subList(0, half)), digits(lines.subList(half + 1, lines.size())));
        }

        private static int[][] digits(List<String> lines) {
            return lines.stream()
                    .map(l -> l.chars().map(c -> c == ' ' ? 0 : c - '0').toArray())
                    .toArray(int[][]::new);
        }

        String text() {
            return lines(ink) + "\n" + lines(tone);
        }

        private static String lines(int[][] levels) {
            StringBuilder out = new StringBuilder();
            for (int[] row : levels) {
                for (int level : row) {
                    out.append(level);
                }
                out.append('\n');
            }
            return out.toString();
        }

        /** Tiles in which this look's ink is gone, or stands where there was none, or the tone is another. */
        List<String> differences(Look now) {
            List<String> out = new ArrayList<>();
            List<String> added = new ArrayList<>();
            for (int r = 0; r < ink.length; r += TILE) {
                for (int c = 0; c < ink[0].length; c += TILE) {
                    String tile = "tile " + r / TILE + "," + c / TILE;
                    double gone = lost(ink, now.ink, r, c);
                    double come = lost(now.ink, ink, r, c);
                    double tones = mean(tone, r, c) - mean(now.tone, r, c);
                    if (gone > 0.6) {
                        out.add(tile + ": gone");
                    }
                    if (come > 0.6) {
                        added.add(tile + ": come");
                    }
                    if (Math.abs(tones) > 1.5) {
                        out.add(tile + ": tone");
                    }
                }
            }
            // Wider letters break a line sooner and so fill a tile that was empty; a layer too many fills several.
            if (added.size() > 1) {
                out.addAll(added);
            }
            return out;
        }

        /** Share of a tile's inked blocks with no ink near in the other; 0 where there are too few to tell. */
        private static double lost(int[][] from, int[][] to, int row, int column) {
            int inked = 0;
            int gone = 0;
            for (int r = row; r < Math.min(row + TILE, from.length); r++) {
                for (int c = column; c < Math.min(column + TILE, from[0].length); c++) {
                    if (from[r][c] > 0) {
                        inked++;
                        gone += near(to, r, c) ? 0 : 1;
                    }
                }
            }
            return inked < 5 ? 0 : (double) gone / inked;
        }

        private static boolean near(int[][] levels, int row, int column) {
            for (int r = Math.max(0, row - 1); r <= Math.min(levels.length - 1, row + 1); r++) {
                for (int c = Math.max(0, column - 1); c <= Math.min(levels[0].length - 1, column + 1); c++) {
                    if (levels[r][c] > 0) {
                        return true;
                    }
                }
            }
            return false;
        }

        private static double mean(int[][] levels, int row, int column) {
            double sum = 0;
            int n = 0;
            for (int r = row; r < Math.min(row + TILE, levels.length); r++) {
                for (int c = column; c < Math.min(column + TILE, levels[0].length); c++) {
                    sum += levels[r][c];
                    n++;
                }
            }
            return sum / n;
        }
    }

    private static void onWindow(Runnable work) {
        WaitForAsyncUtils.asyncFx(work);
        WaitForAsyncUtils.waitForFxEvents();
    }

    private static void await(BooleanSupplier until) throws Exception {
        WaitForAsyncUtils.waitFor(60, TimeUnit.SECONDS, until::getAsBoolean);
        WaitForAsyncUtils.waitForFxEvents();
    }

    private Look look() {
        WritableImage[] shot = new WritableImage[1];
        onWindow(() -> {
            window.root().applyCss();
            window.root().layout();
            shot[0] = stage.getScene().snapshot(null);
        });
        return Look.of(shot[0]);
    }

    private void show(String view, boolean scale, Theme theme) throws Exception {
        onWindow(() -> {
            bench.themeProperty().set(theme);
            bench.toScaleProperty().set(scale);
            window.show(view);
        });
        if (window.study(view)) {
            onWindow(() -> window.run(view));
            await(() -> window.done(view) && !window.running(view));
        }
    }

    /**
     * One picture.
     *
     * @param letters whether it is looked at in another font too
     */
    private record View(String name, String view, boolean scale, Theme theme, boolean letters) {}

    private static final List<View> VIEWS = List.of(
            new View("section", "section", false, Theme.LIGHT, true),
            new View("scale", "section", true, Theme.LIGHT, false),
            new View("dark", "section", false, Theme.DARK, false),
            new View("contrast", "section", false, Theme.CONTRAST, false),
            new View("ternary", "ternary", false, Theme.LIGHT, true),
            new View("fluid", "fluid", false, Theme.LIGHT, false),
            new View("faults", "faults", false, Theme.LIGHT, true));

    private static final List<View> STUDIES = List.of(
            new View("size", "size", false, Theme.LIGHT, false),
            new View("map", "map", false, Theme.LIGHT, true),
            new View("duty", "duty", false, Theme.LIGHT, false),
            new View("plan", "plan", false, Theme.DARK, false),
            new View("spread", "spread", false, Theme.LIGHT, false),
            new View("validation", "validation", false, Theme.LIGHT, false));

    /** The minimal case with a tank to feed it, a short duty, a campaign and one uncertain value [invented]. */
    private static CaseDocument whole() {
        return StarterCases.open("minimal")
                .withJson("/supply", """
                        {"gas": "barrier gas", "cavity": "bottle line", "metering": "metering",
                         "bottles": {"volume": "50 L", "filling pressure": "200 bar", "temperature": "15 degC", "number": 8,
                                     "unusable pressure": "15 bar"},
                         "regulator": {"set pressure": "3.5 MPa", "minimum inlet margin": "0.7 MPa"}}""")
                .withJson("/duty", """
                        [{"name": "steady", "duration": "20 s"},
                         {"name": "slow", "duration": "20 s", "speed": "20000 rpm"}]""")
                .withJson("/campaign", """
                        {"attempts": 4, "abort probability": 0.1, "duty per attempt": ["steady", "slow"], "reserve": 0.15}""")
                .withJson("/uncertain", """
                        {"/passages/ring A/clearance": {"distribution": "normal", "mean": "25 um", "sigma": "1 um"}}""")
                .withJson("/spread", "{\"samples\": 200}");
    }

    private void open(CaseDocument document) throws Exception {
        onWindow(() -> bench.open(document, null, true));
        await(() -> bench.result() != null && !bench.busyProperty().get());
        onWindow(() -> bench.selectedProperty().set("/passages/ring A"));
    }

    @Test
    void theMainViewsLookAsKeptInAnyFontAndNotWithoutALayer(FxRobot robot) throws Exception {
        open(StarterCases.open("minimal"));
        looked(robot, VIEWS);
    }

    @Test
    void theStudiesLookAsKeptAndNotWithoutTheirResult(FxRobot robot) throws Exception {
        open(whole());
        looked(robot, STUDIES);
    }

    private void looked(FxRobot robot, List<View> views) throws Exception {
        Map<String, List<String>> other = new LinkedHashMap<>();
        for (View v : views) {
            show(v.view(), v.scale(), v.theme());
            Look now = look();
            Path file = KEPT.resolve(v.name() + ".txt");
            if (Boolean.getBoolean("purgewright.update")) {
                Files.createDirectories(KEPT);
                Files.writeString(file, now.text());
            }
            Look kept = Look.read(file);
            other.put(v.name(), kept.differences(now));

            if (v.letters()) {
                // Other shapes of letters; much wider ones would rightly wrap the cautions into another line.
                onWindow(() -> window.root().setStyle("-fx-font-family: Serif;"));
                other.put(v.name() + " in other letters", kept.differences(look()));
                onWindow(() -> window.root().setStyle(""));
            }

            // What this test is for: a view that is blank, and each of its layers once gone, is missed.
            String middle = v.view().equals("section") ? ".drawing" : ".figure-view";
            List<String> layers = new ArrayList<>(List.of(middle));
            if (v.name().equals("section")) {
                layers.addAll(List.of(".banner", "#findings", ".details"));
            }
            for (String layer : layers) {
                Node node = robot.lookup((Node n) -> shows(n, layer)).query();
                onWindow(() -> node.setVisible(false));
                assertThat(kept.differences(look()))
                        .as("%s without %s", v.name(), layer)
                        .isNotEmpty();
                onWindow(() -> node.setVisible(true));
            }
            if (v.name().equals("section")) {
                Node drawing = robot.lookup(".drawing").query();
                double half = drawing.getBoundsInLocal().getHeight() / 2;
                for (double from : new double[] {0, half}) {
                    onWindow(() -> drawing.setClip(new Rectangle(0, from, WIDTH, half)));
                    assertThat(kept.differences(look()))
                            .as("skyline or section alone")
                            .isNotEmpty();
                }
                onWindow(() -> drawing.setClip(null));
            }
        }
        assertThat(other).allSatisfy((view, differences) -> assertThat(differences)
                .as("%s differs from the kept picture", view)
                .isEmpty());
    }

    /** Whether a node that is seen answers to the selector. */
    private static boolean shows(Node node, String selector) {
        String name = selector.substring(1);
        boolean named = selector.startsWith("#")
                ? name.equals(node.getId())
                : node.getStyleClass().contains(name);
        Node above = named ? node : null;
        while (above != null && above.isVisible() && above.getParent() != null) {
            above = above.getParent();
        }
        return above != null && above.isVisible();
    }
}
