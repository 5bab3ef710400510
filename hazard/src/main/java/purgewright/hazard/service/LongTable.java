package purgewright.hazard.service;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import purgewright.sealflow.casefile.DataTable;
import purgewright.sealflow.casefile.DataTable.Column;

/**
 * A table of more rows than can be computed one by one, with alike rows put together: rows in the same cell of a grid over the columns that
 * say where the machine stood. A group is the mean of its rows. The grid starts fine and is widened until the groups are few enough.
 *
 * @param table one row a group; the table itself where it is short enough
 * @param group number of the group of each row; null when nothing was put together
 * @param count rows of each group
 * @param within width of a cell, relative; 0 when nothing was put together
 */
record LongTable(DataTable table, int[] group, int[] count, double within) {
    private static final double FINEST = 1e-3;
    private static final double WIDER = 1.6;

    /** Where an empty cell stands. */
    private static final int EMPTY = Integer.MIN_VALUE;

    /**
     * @param by columns that must be alike: pressures, temperatures, speeds
     * @param words column of words that must be the same; null for none
     * @param use rows to take; null for all
     * @param most groups
     */
    static LongTable of(DataTable data, List<Column> by, Column words, boolean[] use, int most) {
        int rows = data.rows();
        if (rows <= most && use == null) {
            return new LongTable(data, null, null, 0);
        }
        double[][] at = new double[by.size()][];
        for (int c = 0; c < at.length; c++) {
            at[c] = relative(by.get(c).values());
        }
        int[] group = new int[rows];
        double width = FINEST;
        int groups = grouped(at, words, use, width, most, group);
        while (groups < 0) {
            width *= WIDER;
            groups = grouped(at, words, use, width, most, group);
        }
        return averaged(data, group, groups, width);
    }

    /** Logarithms of what is positive, so that a cell is a share; a speed that stands at 0 too as a share of the largest. */
    private static double[] relative(double[] values) {
        double least = Double.POSITIVE_INFINITY;
        double most = 0;
        for (double v : values) {
            if (!Double.isNaN(v)) {
                least = Math.min(least, v);
                most = Math.max(most, Math.abs(v));
            }
        }
        double[] out = new double[values.length];
        for (int i = 0; i < out.length; i++) {
            out[i] = least > 0 ? Math.log(values[i]) : most > 0 ? values[i] / most : 0;
        }
        return out;
    }

    /** The number of groups, or -1 as soon as there are more than allowed. */
    private static int grouped(double[][] at, Column words, boolean[] use, double width, int most, int[] group) {
        Map<List<Object>, Integer> known = new LinkedHashMap<>();
        for (int i = 0; i < group.length; i++) {
            group[i] = -1;
            if (use != null && !use[i]) {
                continue;
            }
            Object[] key = new Object[at.length + 1];
            for (int c = 0; c < at.length; c++) {
                key[c] = Double.isNaN(at[c][i]) ? EMPTY : (int) Math.floor(at[c][i] / width);
            }
            key[at.length] = words == null ? "" : words.words().get(i);
            List<Object> cell = Arrays.asList(key);
            Integer there = known.get(cell);
            if (there == null) {
                if (known.size() == most && width < 1) {
                    return -1;
                }
                there = known.size();
                known.put(cell, there);
            }
            group[i] = there;
        }
        return known.size();
    }

    private static LongTable averaged(DataTable data, int[] group, int groups, double width) {
        int[] count = new int[groups];
        int[] first = new int[groups];
        Arrays.fill(first, -1);
        for (int i = 0; i < group.length; i++) {
            if (group[i] >= 0) {
                count[group[i]]++;
                first[group[i]] = first[group[i]] < 0 ? i : first[group[i]];
            }
        }
        List<Column> columns = new ArrayList<>();
        for (Column c : data.columns()) {
            double[] sum = new double[groups];
            int[] n = new int[groups];
            for (int i = 0; i < group.length; i++) {
                double v = c.values()[i];
                if (group[i] >= 0 && !Double.isNaN(v)) {
                    sum[group[i]] += v;
                    n[group[i]]++;
                }
            }
            List<String> words = new ArrayList<>();
            for (int g = 0; g < groups; g++) {
                sum[g] = n[g] == 0 ? Double.NaN : sum[g] / n[g];
                if (!c.words().isEmpty()) {
                    words.add(c.words().get(first[g]));
                }
            }
            columns.add(new Column(c.name(), c.unit(), c.dimension(), sum, List.copyOf(words)));
        }
        int[] lines = Arrays.stream(first).map(i -> data.lines()[i]).toArray();
        return new LongTable(
                new DataTable(data.name(), List.copyOf(columns), lines, data.headerLine()), group, count, width);
    }

    /** Whether rows were put together. */
    boolean shortened() {
        return group != null;
    }
}
