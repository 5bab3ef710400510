package purgewright.gui.app;

import atlantafx.base.theme.PrimerDark;
import atlantafx.base.theme.PrimerLight;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.file.Path;
import java.util.List;
import javafx.animation.Animation;
import javafx.animation.KeyFrame;
import javafx.animation.Timeline;
import javafx.application.Application;
import javafx.application.Platform;
import javafx.beans.InvalidationListener;
import javafx.geometry.Rectangle2D;
import javafx.scene.Scene;
import javafx.scene.text.Font;
import javafx.stage.Screen;
import javafx.stage.Stage;
import javafx.util.Duration;
import purgewright.figure.Lettering;
import purgewright.figure.Readout;
import purgewright.figure.Theme;
import purgewright.gui.bench.Workbench;
import purgewright.gui.edit.Recovery;
import purgewright.gui.edit.Settings;
import purgewright.gui.edit.StarterCases;
import purgewright.gui.task.Desk;
import purgewright.gui.task.TaskRunner;
import purgewright.gui.text.Texts;

/** Starts the window. */
public final class PurgewrightApp extends Application {
    private Workbench bench;
    private MainWindow window;
    private Recovery recovery;

    /** Opens the window and comes back when it is closed. A first argument is a case file to open. */
    public static void launchWindow(String[] arguments) {
        // Drawings measure their letters with java.awt, which must not start a toolkit of its own beside the window's.
        System.setProperty("java.awt.headless", "true");
        launch(PurgewrightApp.class, arguments);
    }

    /** Loads the bundled font family; the stylesheet names it. */
    static void fonts() {
        for (String file : Lettering.FILES) {
            try (InputStream in = Lettering.open(file)) {
                Font.loadFont(in, 13);
            } catch (IOException e) {
                throw new UncheckedIOException(e);
            }
        }
    }

    @Override
    public void start(Stage stage) {
        Desk desk = new Desk();
        start(
                stage,
                desk,
                new Settings(Settings.userFolder()),
                new Workbench(TaskRunner.background("solve lane"), desk, Platform::runLater),
                new FxDialogs(stage));
        Thread.currentThread().setUncaughtExceptionHandler((thread, broken) -> broken(broken));
        List<String> arguments = getParameters().getRaw();
        if (!arguments.isEmpty()) {
            window.actions().open(Path.of(arguments.get(0)));
        } else {
            first();
        }
    }

    /** A fault of this program's: the toolkit goes on, and so may the user, but neither unheard nor without the work being kept. */
    void broken(Throwable fault) {
        fault.printStackTrace();
        window.saving().keep();
        bench.noteProperty().set(Texts.of("status.internal", Texts.of(fault)));
    }

    /** Fills a stage; tests pass their own settings, solver and answers. */
    MainWindow start(Stage stage, Desk desk, Settings settings, Workbench with, Dialogs dialogs) {
        return start(stage, desk, settings, with, dialogs, new Disk() {});
    }

    /** The same with another disk. */
    MainWindow start(Stage stage, Desk desk, Settings settings, Workbench with, Dialogs dialogs, Disk disk) {
        fonts();
        bench = with;
        bench.themeProperty().set(Theme.named(settings.get("theme", "light")));
        bench.readoutProperty().set(settings.get("units", "SI").equals("US") ? Readout.US : Readout.SI);
        recovery = new Recovery(settings.folder());
        // Before there is a control: else the toolkit's own sheet is read first, for nothing.
        mechanics(bench.themeProperty().get());
        window = new MainWindow(bench, desk, settings, dialogs, recovery, disk, () -> {
            if (window.actions().mayLeave(true)) {
                stage.close();
            }
        });
        Rectangle2D screen = Screen.getPrimary().getVisualBounds();
        Scene scene = new Scene(window.root(), Math.min(1440, screen.getWidth()), Math.min(900, screen.getHeight()));
        scene.getStylesheets()
                .add(PurgewrightApp.class
                        .getResource("/purgewright/gui/window.css")
                        .toExternalForm());
        bench.themeProperty().addListener((o, a, theme) -> mechanics(theme));
        InvalidationListener retitle = o -> stage.setTitle(stageTitle());
        bench.history().documentProperty().addListener(retitle);
        bench.history().dirtyProperty().addListener(retitle);
        stage.setTitle(stageTitle());
        stage.setScene(scene);
        stage.setMinWidth(960);
        stage.setMinHeight(600);
        stage.setOnCloseRequest(e -> {
            if (!window.actions().mayLeave(true)) {
                e.consume();
            }
        });
        autosave();
        stage.show();
        return window;
    }

    /** The sheets as they were compiled into the library: reading the text of one takes a tenth of a start. */
    private static void mechanics(Theme theme) {
        setUserAgentStylesheet(
                theme == Theme.DARK
                        ? new PrimerDark().getUserAgentStylesheetBSS()
                        : new PrimerLight().getUserAgentStylesheetBSS());
    }

    private String stageTitle() {
        String title = window.actions().title();
        if (title.isEmpty()) {
            return Texts.of("app.name");
        }
        return Texts.of(bench.history().dirtyProperty().get() ? "app.title.dirty" : "app.title", title);
    }

    /**
     * Keeps unsaved work two seconds after the first edit that is not kept, whether or not more follow: who edits without a pause would else
     * never be kept. A timer that does not run costs nothing.
     */
    private void autosave() {
        Timeline timer = new Timeline(new KeyFrame(Duration.seconds(2), e -> {
            window.saving().keep();
        }));
        bench.history().documentProperty().addListener(o -> {
            if (bench.history().document() != null && timer.getStatus() != Animation.Status.RUNNING) {
                timer.playFromStart();
            }
        });
    }

    /** What a fresh window shows: work that an earlier one left, else the first starter case. */
    private void first() {
        if (window.actions().recover()) {
            return;
        }
        List<String> names = StarterCases.names();
        if (!names.isEmpty()) {
            String name = names.contains("spaced-lox-methane") ? "spaced-lox-methane" : names.get(0);
            bench.open(StarterCases.open(name), null, true);
        }
    }

    @Override
    public void stop() {
        bench.close();
        window.close();
        recovery.close();
    }
}
