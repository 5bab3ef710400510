package purgewright.gui.text;

import java.text.MessageFormat;
import java.util.Locale;
import java.util.ResourceBundle;

/** Texts of the window, from {@code purgewright/gui/strings.properties}. */
public final class Texts {
    private static final ResourceBundle WORDS = ResourceBundle.getBundle("purgewright.gui.strings", Locale.ROOT);

    private Texts() {}

    /** The text under a key, with {0}, {1} ... filled. */
    public static String of(String key, Object... values) {
        String text = WORDS.getString(key);
        return values.length == 0 ? text : new MessageFormat(text, Locale.ROOT).format(values);
    }

    /** What an error says, or of which kind it is. */
    public static String of(Throwable error) {
        return error.getMessage() == null ? error.getClass().getSimpleName() : error.getMessage();
    }

    /** True when the key has a text. */
    public static boolean has(String key) {
        return WORDS.containsKey(key);
    }
}
