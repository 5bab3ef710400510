package purgewright.fluids.unit;

import java.util.Collection;
import java.util.Locale;
import java.util.Optional;

/** The nearest of the words that would have been right. */
public final class DidYouMean {
    /** Longer words are nobody's slip of the pen; the bound also keeps the work small. */
    private static final int LONGEST = 80;

    private static final int MOST_CANDIDATES = 2000;

    private DidYouMean() {}

    /**
     * The candidate nearest to a word: equal but for case, spaces, hyphens and underscores, or within an edit distance of a third
     * of its length (at least 1, at most 3). Swapped neighbours count as one edit.
     *
     * @return empty when nothing is near
     */
    public static Optional<String> nearest(String word, Collection<String> candidates) {
        if (word.isEmpty() || word.length() > LONGEST) {
            return Optional.empty();
        }
        String plain = plain(word);
        int allowed = Math.max(1, Math.min(3, word.length() / 3));
        String best = null;
        int bestDistance = allowed + 1;
        int seen = 0;
        for (String candidate : candidates) {
            if (++seen > MOST_CANDIDATES) {
                break;
            }
            if (candidate.equals(word) || candidate.length() > LONGEST) {
                continue;
            }
            String other = plain(candidate);
            if (other.equals(plain) && !plain.isEmpty()) {
                return Optional.of(candidate);
            }
            if (Math.abs(other.length() - plain.length()) < bestDistance) {
                int distance = distance(plain, other);
                if (distance < bestDistance && distance < Math.max(plain.length(), other.length())) {
                    bestDistance = distance;
                    best = candidate;
                }
            }
        }
        return Optional.ofNullable(best);
    }

    /** Optimal string alignment distance: insertions, deletions, replacements, swaps of neighbours. */
    static int distance(String a, String b) {
        int[] before = new int[b.length() + 1];
        int[] last = new int[b.length() + 1];
        int[] row = new int[b.length() + 1];
        for (int j = 0; j <= b.length(); j++) {
            last[j] = j;
        }
        for (int i = 1; i <= a.length(); i++) {
            row[0] = i;
            for (int j = 1; j <= b.length(); j++) {
                int cost = a.charAt(i - 1) == b.charAt(j - 1) ? 0 : 1;
                row[j] = Math.min(Math.min(row[j - 1], last[j]) + 1, last[j - 1] + cost);
                if (i > 1 && j > 1 && a.charAt(i - 1) == b.charAt(j - 2) && a.charAt(i - 2) == b.charAt(j - 1)) {
                    row[j] = Math.min(row[j], before[j - 2] + 1);
                }
            }
            int[] spare = before;
            before = last;
            last = row;
            row = spare;
        }
        return last[b.length()];
    }

    private static String plain(String word) {
        return word.toLowerCase(Locale.ROOT).replaceAll("[\\s_-]", "");
    }
}
