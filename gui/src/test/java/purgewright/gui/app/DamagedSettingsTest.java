package purgewright.gui.app;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import javafx.application.Platform;
import javafx.stage.Stage;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.extension.ExtendWith;
import org.testfx.framework.junit5.ApplicationExtension;
import org.testfx.framework.junit5.Start;
import purgewright.figure.Readout;
import purgewright.figure.Theme;
import purgewright.gui.bench.Workbench;
import purgewright.gui.edit.Settings;
import purgewright.gui.task.Desk;

@ExtendWith(ApplicationExtension.class)
class DamagedSettingsTest {
    private PurgewrightApp app;
    private Settings settings;
    private Workbench bench;
    private Stage stage;

    @Start
    void start(Stage primary) throws Exception {
        stage = primary;
        Path own = Files.createTempDirectory("purgewright-damaged");
        Files.writeString(
                own.resolve("window.properties"),
                "theme=\u0130\nunits=\ntextsize=1e9\nrecent.0=a\\u0000b\nrecent.1=/tmp/case.json\nreviewer=\\u202e",
                StandardCharsets.UTF_8);
        settings = new Settings(own);
        bench = new Workbench(work -> () -> {}, new Desk(), Platform::runLater);
        app = new PurgewrightApp();
        app.start(primary, new Desk(), settings, bench, new QuietDialogs());
    }

    @Test
    void doNotKeepTheWindowFromStarting() {
        assertThat(stage.isShowing()).isTrue();
        assertThat(bench.themeProperty().get()).isEqualTo(Theme.LIGHT);
        assertThat(bench.readoutProperty().get()).isEqualTo(Readout.SI);
        assertThat(bench.letteringProperty().get()).isEqualTo(1);
        assertThat(settings.recent()).containsExactly(Path.of("/tmp/case.json"));
    }
}
