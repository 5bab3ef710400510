package purgewright.gui.app;

import static org.assertj.core.api.Assertions.assertThat;

import java.awt.Color;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Map;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import purgewright.figure.Theme;

/** One palette: the stylesheet's and the drawings' colours are the same, and text reads on its ground. */
class PaletteTest {
    private static final Path CSS = Path.of("src/main/resources/purgewright/gui/window.css");

    private static Color css(String block, String name) throws IOException {
        String css = Files.readString(CSS);
        int start = css.indexOf(block);
        String body = css.substring(start, css.indexOf('}', start));
        Matcher m = Pattern.compile("-pw-" + name + ": (#[0-9a-f]{6});").matcher(body);
        assertThat(m.find()).as(name + " in " + block).isTrue();
        return Color.decode(m.group(1));
    }

    @ParameterizedTest
    @CsvSource({
        "light, '.purgewright, .dialog-pane {'",
        "dark, .purgewright.theme-dark {",
        "contrast, .purgewright.theme-contrast {"
    })
    void stylesheetAndDrawingsAgree(String name, String block) throws IOException {
        Theme t = Theme.named(name);
        Map<String, Color> colours = Map.of(
                "paper",
                t.paper(),
                "panel",
                t.panel(),
                "ink",
                t.ink(),
                "quiet",
                t.quiet(),
                "rule",
                t.rule(),
                "good",
                t.good(),
                "warn",
                t.warn(),
                "bad",
                t.bad(),
                "unknown",
                t.unknown(),
                "focus",
                t.focus());
        for (Map.Entry<String, Color> e : colours.entrySet()) {
            assertThat(css(block, e.getKey())).as(e.getKey()).isEqualTo(e.getValue());
        }
    }

    @ParameterizedTest
    @CsvSource({"light", "dark", "contrast"})
    void textReadsOnItsGround(String name) {
        Theme t = Theme.named(name);
        assertThat(contrast(t.ink(), t.paper())).isGreaterThan(7);
        assertThat(contrast(t.ink(), t.panel())).isGreaterThan(7);
        assertThat(contrast(t.quiet(), t.panel())).isGreaterThan(4.5);
        assertThat(contrast(t.focus(), t.paper())).isGreaterThan(3);
    }

    @Test
    void noColourStandsOutsideThePalette() throws IOException {
        String css = Files.readString(CSS);
        String rules = css.substring(css.indexOf("/* The mechanics"));
        assertThat(rules).doesNotContainPattern("#[0-9a-fA-F]{3,8};");
    }

    /** Contrast ratio of the Web Content Accessibility Guidelines 2.1. */
    private static double contrast(Color a, Color b) {
        double x = luminance(a);
        double y = luminance(b);
        return (Math.max(x, y) + 0.05) / (Math.min(x, y) + 0.05);
    }

    private static double luminance(Color c) {
        return 0.2126 * linear(c.getRed()) + 0.7152 * linear(c.getGreen()) + 0.0722 * linear(c.getBlue());
    }

    private static double linear(int channel) {
        double s = channel / 255.0;
        return s <= 0.03928 ? s / 12.92 : Math.pow((s + 0.055) / 1.055, 2.4);
    }
}
