package purgewright.report;

import java.util.ArrayList;
import java.util.List;

/** A plain-text table: columns as wide as their widest cell, two blanks between, numbers to the right. */
final class Table {
    private final String indent;
    private final boolean[] right;
    private final List<String[]> rows = new ArrayList<>();
    private int headings;

    /**
     * @param indent before every line
     * @param alignment one letter a column: {@code l} or {@code r}
     */
    Table(String indent, String alignment) {
        this.indent = indent;
        this.right = new boolean[alignment.length()];
        for (int i = 0; i < right.length; i++) {
            right[i] = alignment.charAt(i) == 'r';
        }
    }

    /** A heading line; several may follow each other before the first row. */
    Table heading(String... cells) {
        headings++;
        return row(cells);
    }

    Table row(String... cells) {
        if (cells.length != right.length) {
            throw new IllegalArgumentException(cells.length + " cells in a table of " + right.length + " columns");
        }
        rows.add(cells);
        return this;
    }

    boolean isEmpty() {
        return rows.size() == headings;
    }

    void appendTo(StringBuilder text) {
        int[] width = new int[right.length];
        for (String[] row : rows) {
            for (int i = 0; i < row.length; i++) {
                width[i] = Math.max(width[i], length(row[i]));
            }
        }
        for (String[] row : rows) {
            StringBuilder line = new StringBuilder(indent);
            for (int i = 0; i < row.length; i++) {
                String blanks = " ".repeat(width[i] - length(row[i]));
                line.append(i == 0 ? "" : "  ")
                        .append(right[i] ? blanks : "")
                        .append(row[i])
                        .append(right[i] ? "" : blanks);
            }
            text.append(line.toString().stripTrailing()).append('\n');
        }
    }

    private static int length(String cell) {
        return cell.codePointCount(0, cell.length());
    }
}
