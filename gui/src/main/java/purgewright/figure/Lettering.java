package purgewright.figure;

import java.awt.Font;
import java.awt.FontFormatException;
import java.awt.GraphicsEnvironment;
import java.awt.font.FontRenderContext;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.concurrent.ConcurrentHashMap;

/**
 * The one font family of all drawings, bundled so that every machine gives the same picture, and its measures. Widths are taken
 * from the font itself, never from the device, so that a layout is the same on screen and in a file.
 */
public final class Lettering {
    /** Family name under which the bundled files register. */
    public static final String FAMILY = "IBM Plex Sans";

    /** Resource names of the bundled files: regular, bold, italic. */
    public static final List<String> FILES =
            List.of("IBMPlexSans-Regular.ttf", "IBMPlexSans-Bold.ttf", "IBMPlexSans-Italic.ttf");

    private static final FontRenderContext CONTEXT = new FontRenderContext(null, true, true);
    private static final Map<String, Font> FONTS = new ConcurrentHashMap<>();

    private Lettering() {}

    /** Opens a bundled font file. */
    public static InputStream open(String file) {
        InputStream stream = Lettering.class.getResourceAsStream("/purgewright/figure/fonts/" + file);
        if (stream == null) {
            throw new IllegalStateException("font file " + file + " is missing from the jar");
        }
        return stream;
    }

    /** The family at a style ({@link Font#PLAIN}, {@link Font#BOLD} or {@link Font#ITALIC}) and a size in drawing units. */
    public static Font font(int style, double size) {
        Font base = FONTS.computeIfAbsent(
                FILES.get(style == Font.BOLD ? 1 : style == Font.ITALIC ? 2 : 0), Lettering::load);
        return base.deriveFont((float) size);
    }

    /** The letters of a text that the family does not have, each once and at most twenty; blanks and control characters aside. */
    public static String missing(String text) {
        Font font = font(Font.PLAIN, 12);
        StringBuilder out = new StringBuilder();
        text.codePoints()
                .filter(c -> c > ' ' && !Character.isISOControl(c) && Character.getType(c) != Character.FORMAT)
                .filter(c -> !font.canDisplay(c))
                .distinct()
                .limit(20)
                .forEach(out::appendCodePoint);
        return out.toString();
    }

    private static Font load(String file) {
        try (InputStream stream = open(file)) {
            Font font = Font.createFont(Font.TRUETYPE_FONT, stream);
            GraphicsEnvironment.getLocalGraphicsEnvironment().registerFont(font);
            int style = file.contains("Bold") ? Font.BOLD : file.contains("Italic") ? Font.ITALIC : Font.PLAIN;
            // By family and style, so that a device that only knows names finds the same face.
            Font named = new Font(FAMILY, style, 12);
            return named.getFamily().equals(FAMILY) ? named : font.deriveFont(12f);
        } catch (IOException e) {
            // Java reads any font through the system's library, and says no more than that it could not.
            throw new UncheckedIOException(new IOException(
                    "no drawing can be lettered: the system's font library is missing (Debian: apt install"
                            + " libfontconfig1)",
                    e));
        } catch (FontFormatException e) {
            throw new IllegalStateException("font file " + file + " is damaged", e);
        }
    }

    /**
     * Loads the family now. A process that is being stopped can load no font any more (the toolkit wants to clear away after itself at the
     * end), so work that may be stopped and then drawn calls this first.
     */
    public static void prepare() {
        font(Font.PLAIN, 12);
        font(Font.BOLD, 12);
        font(Font.ITALIC, 12);
    }

    /** Width of a text. */
    public static double width(Font font, String text) {
        return text.isEmpty() ? 0 : font.getStringBounds(text, CONTEXT).getWidth();
    }

    /** Height from the baseline to the top of capitals, about. */
    public static double ascent(Font font) {
        return font.getSize2D() * 0.74;
    }

    /**
     * Breaks a text at spaces so that it fits a width; what does not fit the number of lines ends in an ellipsis.
     *
     * @return at least one line
     */
    public static List<String> wrap(Font font, String text, double width, int lines) {
        List<String> result = new ArrayList<>();
        StringBuilder line = new StringBuilder();
        for (String word : text.trim().split("\\s+")) {
            String longer = line.length() == 0 ? word : line + " " + word;
            if (line.length() == 0 || width(font, longer) <= width) {
                line.setLength(0);
                line.append(longer);
            } else {
                result.add(line.toString());
                line.setLength(0);
                line.append(word);
            }
        }
        result.add(line.toString());
        if (result.size() > lines) {
            String rest = String.join(" ", result.subList(lines - 1, result.size()));
            result = new ArrayList<>(result.subList(0, lines - 1));
            result.add(rest);
        }
        result.replaceAll(each -> shorten(font, each, width));
        return result;
    }

    /** The text, cut with an ellipsis where it is wider than the width. */
    public static String shorten(Font font, String text, double width) {
        if (width(font, text) <= width) {
            return text;
        }
        int end = text.length();
        while (end > 1 && width(font, text.substring(0, end).trim() + "…") > width) {
            end--;
        }
        return text.substring(0, end).trim() + "…";
    }
}
