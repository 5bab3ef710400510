package purgewright.figure;

import java.text.MessageFormat;
import java.util.Locale;
import java.util.ResourceBundle;

/** Words of the drawings, from {@code purgewright/figure/strings.properties}. */
final class FigureText {
    private static final ResourceBundle WORDS = ResourceBundle.getBundle("purgewright.figure.strings", Locale.ROOT);

    private FigureText() {}

    /** The text under a key, with its placeholders filled. */
    static String of(String key, Object... values) {
        String text = WORDS.getString(key);
        return values.length == 0 ? text : new MessageFormat(text, Locale.ROOT).format(values);
    }
}
