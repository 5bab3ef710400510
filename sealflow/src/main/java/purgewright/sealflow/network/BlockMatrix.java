package purgewright.sealflow.network;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.TreeSet;

/**
 * A square sparse matrix of dense blocks on a graph, factored as L U in a minimum-degree order.
 *
 * <p>One block row a node; blocks exist on the diagonal, between neighbours, and where elimination fills in. The pattern is
 * found once per graph, the numbers once per iteration; a chain or a tree has no fill, so that the cost grows linearly with the
 * number of nodes. Pivoting stays inside a block: the balances of a network are diagonally heavy between blocks.
 *
 * <p>Not safe for several threads; each solve owns one.
 */
final class BlockMatrix {
    private final int nodes;
    private final int size;
    private final int[] order;
    /** Neighbours of a node that are eliminated after it, in ascending order of elimination. */
    private final int[][] later;
    /** Index of block (row, column) in {@code values}, by row: columns sorted. */
    private final int[][] columns;

    private final int[][] slots;
    private final double[][] values;
    private final int[][] pivots;
    private double smallestPivot;
    private double largestPivot;

    /**
     * @param nodes number of block rows
     * @param size rows of a block
     * @param from one end of each edge
     * @param to other end of each edge; edges with an end below 0 are left out
     */
    BlockMatrix(int nodes, int size, int[] from, int[] to) {
        this.nodes = nodes;
        this.size = size;
        List<TreeSet<Integer>> graph = new ArrayList<>(nodes);
        for (int i = 0; i < nodes; i++) {
            graph.add(new TreeSet<>());
        }
        for (int e = 0; e < from.length; e++) {
            if (from[e] >= 0 && to[e] >= 0 && from[e] != to[e]) {
                graph.get(from[e]).add(to[e]);
                graph.get(to[e]).add(from[e]);
            }
        }
        order = new int[nodes];
        later = new int[nodes][];
        List<TreeSet<Integer>> full = new ArrayList<>(nodes);
        for (int i = 0; i < nodes; i++) {
            full.add(new TreeSet<>(graph.get(i)));
            full.get(i).add(i);
        }
        // Ties go to the lower number, so that the order does not depend on anything but the graph.
        TreeSet<Long> queue = new TreeSet<>();
        for (int i = 0; i < nodes; i++) {
            queue.add(((long) graph.get(i).size() << 32) | i);
        }
        for (int step = 0; step < nodes; step++) {
            int node = (int) (queue.pollFirst() & 0xffffffffL);
            order[step] = node;
            TreeSet<Integer> around = graph.get(node);
            for (int a : around) {
                queue.remove(((long) graph.get(a).size() << 32) | a);
            }
            for (int a : around) {
                TreeSet<Integer> other = graph.get(a);
                other.remove(node);
                for (int b : around) {
                    if (a != b) {
                        other.add(b);
                        full.get(a).add(b);
                    }
                }
            }
            for (int a : around) {
                queue.add(((long) graph.get(a).size() << 32) | a);
            }
            later[node] = around.stream().mapToInt(Integer::intValue).toArray();
        }
        columns = new int[nodes][];
        slots = new int[nodes][];
        int count = 0;
        for (int i = 0; i < nodes; i++) {
            columns[i] = full.get(i).stream().mapToInt(Integer::intValue).toArray();
            slots[i] = new int[columns[i].length];
            for (int c = 0; c < columns[i].length; c++) {
                slots[i][c] = count++;
            }
        }
        values = new double[count][size * size];
        pivots = new int[nodes][size];
    }

    private double[] block(int row, int column) {
        return values[slots[row][Arrays.binarySearch(columns[row], column)]];
    }

    void clear() {
        for (double[] v : values) {
            Arrays.fill(v, 0);
        }
    }

    /** Zeroes one row of the matrix, through all its blocks. */
    void clearRow(int row, int i) {
        for (int slot : slots[row]) {
            Arrays.fill(values[slot], i * size, (i + 1) * size, 0);
        }
    }

    /** Puts combinations of a block row's rows in their place: T times the row, {@code t} row by row. */
    void combineRows(int row, double[] t) {
        double[] combined = new double[size * size];
        for (int slot : slots[row]) {
            double[] v = values[slot];
            Arrays.fill(combined, 0);
            for (int i = 0; i < size; i++) {
                for (int k = 0; k < size; k++) {
                    double share = t[i * size + k];
                    for (int j = 0; share != 0 && j < size; j++) {
                        combined[i * size + j] += share * v[k * size + j];
                    }
                }
            }
            System.arraycopy(combined, 0, v, 0, v.length);
        }
    }

    void add(int row, int column, int i, int j, double value) {
        block(row, column)[i * size + j] += value;
    }

    /** The block itself, row by row, to be filled in place. */
    double[] at(int row, int column) {
        return block(row, column);
    }

    /** Factors in place. False when a pivot is zero or not finite. */
    boolean factor() {
        smallestPivot = Double.POSITIVE_INFINITY;
        largestPivot = 0;
        for (int step = 0; step < nodes; step++) {
            int k = order[step];
            double[] diagonal = block(k, k);
            if (!factorBlock(diagonal, pivots[k])) {
                return false;
            }
            for (int j : later[k]) {
                solveBlock(diagonal, pivots[k], block(k, j)); // D^-1 U
            }
            for (int i : later[k]) {
                double[] left = block(i, k);
                for (int j : later[k]) {
                    subtractProduct(block(i, j), left, block(k, j));
                }
            }
        }
        return true;
    }

    /**
     * Factors a matrix of flows by potentials, of blocks of one: no entry off the diagonal is above 0, and each column adds up to what is given.
     * Pivots are added up from the entries below them and never subtracted (W. K. Grassmann, M. I. Taksar, D. P. Heyman, Oper. Res. 33
     * (1985) 1107 [from memory]): two nodes tied to each other 1e20 times closer than to the rest keep every digit of their common one.
     *
     * @param surplus sum of each column, at least 0: what flows to where the potential is given; overwritten
     * @return false when a pivot is zero or not finite
     */
    boolean factorFlows(double[] surplus) {
        smallestPivot = Double.POSITIVE_INFINITY;
        largestPivot = 0;
        for (int step = 0; step < nodes; step++) {
            int k = order[step];
            double pivot = surplus[k];
            for (int i : later[k]) {
                pivot -= block(i, k)[0];
            }
            if (!(pivot > 0) || Double.isInfinite(pivot)) {
                return false;
            }
            smallestPivot = Math.min(smallestPivot, pivot);
            largestPivot = Math.max(largestPivot, pivot);
            block(k, k)[0] = pivot;
            pivots[k][0] = 0;
            for (int j : later[k]) {
                double share = block(k, j)[0] / pivot;
                block(k, j)[0] = share;
                surplus[j] -= share * surplus[k];
                for (int i : later[k]) {
                    if (i != j) {
                        block(i, j)[0] -= block(i, k)[0] * share;
                    }
                }
            }
        }
        return true;
    }

    /** Ratio of the largest to the smallest pivot of the last factorisation: a cheap estimate of the condition; NaN before the first. */
    double conditionEstimate() {
        return largestPivot > 0 ? largestPivot / smallestPivot : Double.NaN;
    }

    /** Solves A x = b in place, {@code x} holding b by node. */
    void solve(double[] x) {
        double[] part = new double[size];
        for (int step = 0; step < nodes; step++) {
            int k = order[step];
            System.arraycopy(x, k * size, part, 0, size);
            solveVector(block(k, k), pivots[k], part);
            System.arraycopy(part, 0, x, k * size, size);
            for (int i : later[k]) {
                double[] left = block(i, k);
                for (int r = 0; r < size; r++) {
                    double sum = 0;
                    for (int c = 0; c < size; c++) {
                        sum += left[r * size + c] * part[c];
                    }
                    x[i * size + r] -= sum;
                }
            }
        }
        for (int step = nodes - 1; step >= 0; step--) {
            int k = order[step];
            for (int j : later[k]) {
                double[] upper = block(k, j);
                for (int r = 0; r < size; r++) {
                    double sum = 0;
                    for (int c = 0; c < size; c++) {
                        sum += upper[r * size + c] * x[j * size + c];
                    }
                    x[k * size + r] -= sum;
                }
            }
        }
    }

    /** Solves A' x = b in place: the adjoint. */
    void solveTransposed(double[] x) {
        double[] part = new double[size];
        for (int step = 0; step < nodes; step++) {
            int k = order[step];
            for (int j : later[k]) {
                double[] upper = block(k, j);
                for (int c = 0; c < size; c++) {
                    double sum = 0;
                    for (int r = 0; r < size; r++) {
                        sum += upper[r * size + c] * x[k * size + r];
                    }
                    x[j * size + c] -= sum;
                }
            }
        }
        for (int step = nodes - 1; step >= 0; step--) {
            int k = order[step];
            for (int i : later[k]) {
                double[] left = block(i, k);
                for (int c = 0; c < size; c++) {
                    double sum = 0;
                    for (int r = 0; r < size; r++) {
                        sum += left[r * size + c] * x[i * size + r];
                    }
                    x[k * size + c] -= sum;
                }
            }
            System.arraycopy(x, k * size, part, 0, size);
            solveVectorTransposed(block(k, k), pivots[k], part);
            System.arraycopy(part, 0, x, k * size, size);
        }
    }

    private boolean factorBlock(double[] a, int[] pivot) {
        for (int c = 0; c < size; c++) {
            int best = c;
            for (int r = c + 1; r < size; r++) {
                if (Math.abs(a[r * size + c]) > Math.abs(a[best * size + c])) {
                    best = r;
                }
            }
            pivot[c] = best;
            if (best != c) {
                for (int j = 0; j < size; j++) {
                    double swap = a[c * size + j];
                    a[c * size + j] = a[best * size + j];
                    a[best * size + j] = swap;
                }
            }
            double head = Math.abs(a[c * size + c]);
            if (!(head > 0) || Double.isInfinite(head)) {
                return false;
            }
            smallestPivot = Math.min(smallestPivot, head);
            largestPivot = Math.max(largestPivot, head);
            for (int r = c + 1; r < size; r++) {
                double factor = a[r * size + c] / a[c * size + c];
                a[r * size + c] = factor;
                if (factor != 0) {
                    for (int j = c + 1; j < size; j++) {
                        a[r * size + j] -= factor * a[c * size + j];
                    }
                }
            }
        }
        return true;
    }

    private void solveVector(double[] lu, int[] pivot, double[] b) {
        for (int c = 0; c < size; c++) {
            double swap = b[c];
            b[c] = b[pivot[c]];
            b[pivot[c]] = swap;
        }
        for (int r = 1; r < size; r++) {
            for (int c = 0; c < r; c++) {
                b[r] -= lu[r * size + c] * b[c];
            }
        }
        for (int r = size - 1; r >= 0; r--) {
            for (int c = r + 1; c < size; c++) {
                b[r] -= lu[r * size + c] * b[c];
            }
            b[r] /= lu[r * size + r];
        }
    }

    private void solveVectorTransposed(double[] lu, int[] pivot, double[] b) {
        for (int r = 0; r < size; r++) {
            for (int c = 0; c < r; c++) {
                b[r] -= lu[c * size + r] * b[c];
            }
            b[r] /= lu[r * size + r];
        }
        for (int r = size - 2; r >= 0; r--) {
            for (int c = r + 1; c < size; c++) {
                b[r] -= lu[c * size + r] * b[c];
            }
        }
        for (int c = size - 1; c >= 0; c--) {
            double swap = b[c];
            b[c] = b[pivot[c]];
            b[pivot[c]] = swap;
        }
    }

    private void solveBlock(double[] lu, int[] pivot, double[] b) {
        double[] column = new double[size];
        for (int j = 0; j < size; j++) {
            for (int r = 0; r < size; r++) {
                column[r] = b[r * size + j];
            }
            solveVector(lu, pivot, column);
            for (int r = 0; r < size; r++) {
                b[r * size + j] = column[r];
            }
        }
    }

    private void subtractProduct(double[] target, double[] left, double[] right) {
        for (int r = 0; r < size; r++) {
            for (int k = 0; k < size; k++) {
                double factor = left[r * size + k];
                if (factor != 0) {
                    for (int c = 0; c < size; c++) {
                        target[r * size + c] -= factor * right[k * size + c];
                    }
                }
            }
        }
    }
}
