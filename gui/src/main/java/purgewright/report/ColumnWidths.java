package purgewright.report;

import java.awt.Font;
import java.util.ArrayList;
import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import purgewright.figure.Lettering;

/**
 * How wide the columns of a table are on paper. A short cell - a number with its unit, a name, a word - never breaks; a column of sentences
 * takes what the others leave, and breaks between words. Widths are measured in the letters that the document is set in.
 */
final class ColumnWidths {
    /** Longest cell that is kept on one line, characters, the widest first; where a table is too wide, the next is tried. */
    private static final int[] SHORT = {44, 34, 26, 18, 12};
    /** Most that a column of short cells is spread by where there is room, points. */
    private static final double SPREAD = 30;
    /** Letters that the renderer sets a little wider than the font says would break a cell: a small reserve. */
    private static final double RESERVE = 1.02;

    /** A number and the unit after it, or a unit with a stroke: what belongs on one line. */
    private static final Pattern WHOLE = Pattern.compile(
            "(?:[<>] )?[-+\\u2212]?\\d[\\d.]*(?:e[-+]?\\d+)? (?:%|(?:[numkMG]?m|[mkMG]?Pa|bar|psid?|psi|K|deg[CF]|g|[mk]g|lb|t|mils?|in|ft|ms|s|min|h"
                    + "|days?|rpm|L|[mc]m3|W|[kM]W|[kM]?J|N|Nm)(?:/[A-Za-z]+[0-9]?)?)(?![\\w/])[;,.:)]*|[\\w.]+(?:/[\\w.]+)+");

    /** Widths in points, the padding included; their sum is at most the width of the page. */
    final double[] points;
    /** Cells of at most so many characters stand on one line. */
    final int longestShort;

    private ColumnWidths(double[] points, int longestShort) {
        this.points = points;
        this.longestShort = longestShort;
    }

    /**
     * @param size of the letters, points
     * @param padding of a cell, both sides, points
     * @param page width of the page between its margins, points
     */
    static ColumnWidths of(Block.Grid grid, double size, double padding, double page) {
        Font plain = Lettering.font(Font.PLAIN, size);
        Font bold = Lettering.font(Font.BOLD, size);
        int columns = grid.heads().size();
        double[] least = new double[columns];
        double[] whole = new double[columns];
        int longestShort = 0;
        for (int limit : SHORT) {
            longestShort = limit;
            for (int i = 0; i < columns; i++) {
                least[i] = longestPart(bold, grid.heads().get(i));
                whole[i] = Math.max(least[i], Lettering.width(bold, grid.heads().get(i)) / 2);
                for (List<String> row : grid.rows()) {
                    String cell = row.get(i);
                    double all = Lettering.width(plain, cell);
                    whole[i] = Math.max(whole[i], all);
                    least[i] = Math.max(least[i], isShort(cell, limit) ? all : longestPart(plain, cell));
                }
                least[i] = RESERVE * least[i] + padding;
                whole[i] = RESERVE * whole[i] + padding;
            }
            if (sum(least) <= page) {
                break;
            }
        }
        return new ColumnWidths(shared(grid, least, whole, page), longestShort);
    }

    private static double[] shared(Block.Grid grid, double[] least, double[] whole, double page) {
        double[] points = new double[least.length];
        double left = page - sum(least);
        double wanted = sum(whole) - sum(least);
        if (left <= 0) {
            for (int i = 0; i < points.length; i++) {
                points[i] = least[i] * page / sum(least);
            }
        } else if (wanted > left) {
            for (int i = 0; i < points.length; i++) {
                points[i] = least[i] + left * (whole[i] - least[i]) / wanted;
            }
        } else {
            double spare = left - wanted;
            double each = Math.min(SPREAD, spare / points.length);
            int last = points.length - 1;
            for (int i = 0; i < points.length; i++) {
                points[i] = whole[i] + (i == last && grid.alignment().charAt(last) == 'l' ? 0 : each);
            }
            if (grid.alignment().charAt(last) == 'l') {
                points[last] += page - sum(points);
            }
        }
        return points;
    }

    /** True for what stands on one line in a table whose short cells have at most so many characters. */
    static boolean isShort(String cell, int limit) {
        return cell.length() <= limit;
    }

    /** Pieces of a text between which a line may break, and those - a number and its unit - inside which it may not. */
    static List<Piece> pieces(String text) {
        List<Piece> out = new ArrayList<>();
        Matcher at = WHOLE.matcher(text);
        int from = 0;
        while (at.find()) {
            if (at.start() > from) {
                out.add(new Piece(text.substring(from, at.start()), false));
            }
            out.add(new Piece(at.group(), true));
            from = at.end();
        }
        if (from < text.length()) {
            out.add(new Piece(text.substring(from), false));
        }
        return out;
    }

    /** @param whole true when it is to stand on one line */
    record Piece(String text, boolean whole) {}

    /** Width of the longest part of a text that cannot break, points; a part longer than a line may break all the same. */
    private static double longestPart(Font font, String text) {
        StringBuilder joined = new StringBuilder();
        for (Piece piece : pieces(text)) {
            joined.append(
                    piece.whole() && piece.text().length() < 40 ? piece.text().replace(' ', '\u00a0') : piece.text());
        }
        double longest = 0;
        for (String word : joined.toString().split("[ \n\t]+", -1)) {
            longest = Math.max(longest, Lettering.width(font, word.substring(0, Math.min(word.length(), 40))));
        }
        return longest;
    }

    private static double sum(double[] values) {
        double sum = 0;
        for (double value : values) {
            sum += value;
        }
        return sum;
    }
}
