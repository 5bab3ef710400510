package purgewright.sealflow.casefile;

import java.util.regex.Pattern;

/**
 * What nobody types and what changes how the rest is shown: embeddings, overrides and isolates of the bidirectional algorithm (Unicode
 * Standard Annex 9), behind which "1.25" may read "52.1", and control characters, by which a terminal can be made to write anything over
 * anything.
 */
public final class HiddenMarks {
    private static final String TURNING = "\\u202a-\\u202e\\u2066-\\u2069";
    private static final Pattern ANY = Pattern.compile("[\\p{Cc}" + TURNING + "]+");
    private static final Pattern ANY_BUT_LAYOUT = Pattern.compile("[" + TURNING + "]|[\\p{Cc}&&[^\t\n\r]]");

    private HiddenMarks() {}

    /** True where a text holds one; tabs and line ends are none. */
    public static boolean in(String text) {
        return !isPlain(text) && ANY_BUT_LAYOUT.matcher(text).find();
    }

    /** The text with a blank for each run of them, tabs and line ends among them. */
    public static String blanked(String text) {
        return ANY.matcher(text).replaceAll(" ");
    }

    /** Letters, digits and signs of ASCII alone, which hide nothing: most texts, told without a search. */
    private static boolean isPlain(String text) {
        for (int i = 0; i < text.length(); i++) {
            char c = text.charAt(i);
            if (c < ' ' || c > '~') {
                return false;
            }
        }
        return true;
    }
}
