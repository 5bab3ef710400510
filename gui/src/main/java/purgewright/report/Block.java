package purgewright.report;

import java.util.List;
import java.util.Locale;
import purgewright.figure.Figure;
import purgewright.hazard.finding.Verdict;

/** A piece of a document, before it is HTML or Markdown. Texts are plain; whoever writes them out escapes them. */
sealed interface Block {
    /**
     * @param level 1 to 3
     * @param id unique anchor
     */
    record Heading(int level, String id, String text) implements Block {
        /** Headings start with a capital, also those that are made of a section's or a verdict's own word. */
        public Heading {
            text = text.isEmpty() ? text : text.substring(0, 1).toUpperCase(Locale.ROOT) + text.substring(1);
        }
    }

    /** A paragraph. */
    record Text(String text) implements Block {}

    /** The verdict: a word and a shape first, a tint second. */
    record Banner(Verdict verdict, String line, String governing) implements Block {}

    /** A list. */
    record Bullets(List<String> items) implements Block {}

    /** Things to do, in their order, numbered from 1. */
    record Steps(List<String> items) implements Block {}

    /**
     * A table.
     *
     * @param alignment one letter a column, {@code l} or {@code r}
     * @param heads one text a column
     */
    record Grid(String alignment, List<String> heads, List<List<String>> rows) implements Block {}

    /** A drawing with its caption, which is its alternative text too. */
    record Drawing(Figure figure, String caption) implements Block {
        /** Drawing units that a portrait page can carry with letters one can read. */
        private static final double PORTRAIT = 1000;

        /** Whether it needs a landscape page of its own on paper. */
        boolean wide() {
            return figure.width() > PORTRAIT;
        }
    }

    /**
     * Boxes for revisions and to sign in.
     *
     * @param revision that the case states, or nothing
     * @param date that the case states, or nothing
     */
    record Signatures(String revision, String date, List<String> roles) implements Block {}
}
