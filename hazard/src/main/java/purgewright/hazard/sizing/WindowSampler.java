package purgewright.hazard.sizing;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.concurrent.CancellationException;

/**
 * Samples a purge window: a survey grid, then points along the boundary of each criterion.
 *
 * <p>Over the triangles of the points known so far every edge on which a criterion's margin changes sign is cut where the straight line
 * between its ends is zero, until the margin there, over its slope, is less than the resolution; then the middle of every long piece of
 * boundary is looked at, so that a curved one is followed. A criterion that is met or not, without a number, is cut in the middle until
 * the edge is as short as four times the resolution, where it bounds the window; elsewhere its line lies between points of the survey. So
 * a boundary costs some tens of points, where a full grid of the same fineness would cost tens of thousands.
 *
 * <p>A criterion without a number that changes only where one with a number does (the count of barriers, say, with the barrier's
 * pressure) has no line of its own.
 *
 * <p>What lies between the points of the survey and touches none of its edges (an island or a hole smaller than a cell) is not seen.
 */
public final class WindowSampler {
    /** Coarser by this much where there is no number to go by, and every halving of an edge costs a point. */
    private static final double WITHOUT_NUMBER = 4;

    /** Finest pieces that are looked at for curvature, as a multiple of the resolution. */
    private static final double LONG_PIECE = 8;

    private static final int ROUNDS = 8;

    private final Evaluation.Batch survey;
    private final Evaluation.Batch along;
    private final Settings settings;
    private final List<double[]> unit = new ArrayList<>();
    private final List<Evaluation> found = new ArrayList<>();
    private final Map<String, Set<Integer>> settled = new LinkedHashMap<>();
    private final Set<Long> halved = new LinkedHashSet<>();
    /** Criteria with a number, at the latest look. */
    private final Set<String> numbers = new LinkedHashSet<>();

    private boolean complete = true;

    private WindowSampler(Evaluation.Batch survey, Evaluation.Batch along, Settings settings) {
        this.survey = survey;
        this.along = along;
        this.settings = settings;
    }

    /**
     * @param lowX SI
     * @param highX SI
     * @param lowY SI
     * @param highY SI
     * @param points of the survey along each side, at least 2
     * @param resolution share of a side to which boundaries are found; 0 for the survey alone
     * @param budget points at most
     */
    public record Settings(
            double lowX, double highX, double lowY, double highY, int points, double resolution, int budget) {}

    /**
     * What was sampled, in shares of the sides.
     *
     * @param complete false when it was cancelled or the budget ran out
     */
    record Sampled(List<double[]> unit, List<Evaluation> found, boolean complete) {}

    /**
     * Samples.
     *
     * @return the window, without operating point and bands
     */
    public static PurgeWindow sample(Evaluation.Batch batch, String x, String y, Settings settings) {
        return sample(batch, batch, x, y, settings);
    }

    /**
     * The same with an evaluation of its own for the points along the boundaries: it may leave out what governs nothing at the four
     * points of the survey around.
     *
     * @param survey evaluates the points of the survey, in full
     * @param along evaluates the others
     * @return the window, without operating point and bands
     */
    public static PurgeWindow sample(
            Evaluation.Batch survey, Evaluation.Batch along, String x, String y, Settings settings) {
        WindowSampler s = new WindowSampler(survey, along, settings);
        try {
            s.survey();
            if (settings.resolution() > 0) {
                s.refine();
            }
        } catch (CancellationException e) {
            if (s.found.size() < 3) {
                throw e;
            }
            Thread.interrupted(); // what is known so far is put together in peace
            s.complete = false;
        }
        return s.window(x, y);
    }

    private double[] values(double[] u) {
        return new double[] {
            settings.lowX() + u[0] * (settings.highX() - settings.lowX()),
            settings.lowY() + u[1] * (settings.highY() - settings.lowY())
        };
    }

    private void evaluate(List<double[]> points, Evaluation.Batch batch) {
        // In small batches: each starts from the solutions of those before, and a cancel keeps them.
        for (int from = 0; from < points.size(); from += 16) {
            List<double[]> some = points.subList(from, Math.min(points.size(), from + 16));
            List<Evaluation> e = batch.at(some.stream().map(this::values).toList());
            unit.addAll(some);
            found.addAll(e);
        }
    }

    /** Coarse to fine, so that every point has a near neighbour to start from. */
    private void survey() {
        int n = settings.points();
        int stride = 1;
        while (2 * stride < n) {
            stride *= 2;
        }
        Set<Integer> seen = new LinkedHashSet<>();
        for (; stride >= 1; stride /= 2) {
            List<double[]> points = new ArrayList<>();
            Set<Integer> steps = new TreeSet<>();
            for (int i = 0; i < n; i += stride) {
                steps.add(i);
            }
            steps.add(n - 1);
            for (int j : steps) {
                for (int i : steps) {
                    if (seen.add(j * n + i)) {
                        points.add(new double[] {(double) i / (n - 1), (double) j / (n - 1)});
                    }
                }
            }
            evaluate(points, survey);
        }
    }

    /**
     * 1 and -1 for met and not met. A criterion that speaks up only where it is not met is met where it is silent, if anything was
     * judged there; NaN where nothing was.
     */
    private static double flag(Evaluation e, String key) {
        for (Margin m : e.each()) {
            if (!m.met() && m.criterion().equals(key)) {
                return -1;
            }
        }
        return judged(e) || key.equals(Evaluation.SOLVE) ? 1 : Double.NaN;
    }

    /** False where something was not solved: what would have been found there is not known. */
    private static boolean judged(Evaluation e) {
        return !e.each().isEmpty()
                && e.each().stream().noneMatch(m -> m.criterion().equals(Evaluation.SOLVE) && !m.met());
    }

    private Set<String> keys() {
        Set<String> keys = new TreeSet<>();
        for (Evaluation e : found) {
            for (Margin m : e.each()) {
                keys.add(m.criterion());
            }
        }
        return keys;
    }

    private double[] field(String key) {
        boolean numbered = numbers.contains(key);
        double[] out = new double[found.size()];
        for (int i = 0; i < out.length; i++) {
            // One with a number may be silent where it asks for nothing: there it is met, and between the two lies its
            // line.
            Evaluation e = found.get(i);
            out[i] = !numbered
                    ? flag(e, key)
                    : known(key, i) ? e.margins().get(key) : judged(e) ? flag(e, key) : Double.NaN;
        }
        return out;
    }

    /** True when a criterion has a number at a point. */
    private boolean known(String key, int point) {
        return !Double.isNaN(found.get(point).margins().getOrDefault(key, Double.NaN));
    }

    /** True when a criterion has a number to go by: one that speaks up only where it is not met has none on the other side. */
    private boolean numbered(String key) {
        boolean some = false;
        boolean all = true;
        for (Evaluation e : found) {
            double v = e.margins().getOrDefault(key, Double.NaN);
            if (v >= 0) {
                return true;
            }
            some |= !Double.isNaN(v);
            all &= !Double.isNaN(v) || !judged(e);
        }
        return some && all;
    }

    private void refine() {
        double fine = settings.resolution();
        for (int round = 0; round < ROUNDS; round++) {
            List<int[]> triangles = Triangulation.of(unit);
            List<double[]> wanted = new ArrayList<>();
            look();
            for (String key : keys()) {
                boundary(key, triangles, wanted, fine);
            }
            List<double[]> fresh = new ArrayList<>();
            for (double[] p : wanted) {
                if (far(p, fresh, 0.5 * fine) && far(p, unit, 0.5 * fine)) {
                    fresh.add(p);
                }
            }
            int room = settings.budget() - unit.size();
            if (fresh.isEmpty() || room <= 0) {
                complete &= fresh.isEmpty();
                return;
            }
            evaluate(fresh.size() > room ? fresh.subList(0, room) : fresh, along);
        }
    }

    private void look() {
        numbers.clear();
        for (String key : keys()) {
            if (numbered(key)) {
                numbers.add(key);
            }
        }
    }

    private void boundary(String key, List<int[]> triangles, List<double[]> wanted, double fine) {
        double[] m = field(key);
        boolean numbered = numbers.contains(key);
        Set<Integer> done = settled.computeIfAbsent(key, k -> new LinkedHashSet<>());
        double[] numbersAlone = m.clone();
        for (int i = 0; numbered && i < m.length; i++) {
            numbersAlone[i] = known(key, i) ? m[i] : Double.NaN;
        }
        double[] slope = slopes(numbersAlone, triangles);
        for (int i = 0; i < m.length; i++) {
            if (numbered && known(key, i) && Math.abs(m[i]) < fine * slope[i] && Math.abs(m[i]) < 0.99) {
                done.add(i);
            }
        }
        Set<Long> edges = new LinkedHashSet<>();
        for (int[] t : triangles) {
            for (int i = 0; i < 3; i++) {
                int a = Math.min(t[i], t[(i + 1) % 3]);
                int b = Math.max(t[i], t[(i + 1) % 3]);
                if (edges.add((long) a << 32 | b)) {
                    edge(key, a, b, m, done, numbered, wanted, fine);
                }
            }
        }
    }

    private void edge(
            String key,
            int a,
            int b,
            double[] m,
            Set<Integer> done,
            boolean numbered,
            List<double[]> wanted,
            double fine) {
        double[] p = unit.get(a);
        double[] q = unit.get(b);
        double length = Math.hypot(p[0] - q[0], p[1] - q[1]);
        // A number at both ends: only then is there a slope to go by.
        boolean numbers = numbered && known(key, a) && known(key, b);
        if (Double.isNaN(m[a]) || Double.isNaN(m[b])) {
            return;
        }
        if (done.contains(a) && done.contains(b)) {
            if (length > LONG_PIECE * fine && halved.add((long) key.hashCode() << 40 ^ (long) a << 20 ^ b)) {
                wanted.add(new double[] {0.5 * (p[0] + q[0]), 0.5 * (p[1] + q[1])});
            }
            return;
        }
        if (done.contains(a)
                || done.contains(b)
                || m[a] >= 0 == m[b] >= 0
                || length < (numbers ? fine : WITHOUT_NUMBER * fine)) {
            return;
        }
        // Met or not, and short of the window anyway: its line is drawn between the points there are.
        if (!numbers
                && (followed(a, b) || (!found.get(a).feasible() && !found.get(b).feasible()))) {
            return;
        }
        // A margin that jumps to "not met" has no line to follow: there too the middle is taken.
        boolean straight = numbers && Math.abs(m[a]) < 50 && Math.abs(m[b]) < 50;
        double t = straight ? m[a] / (m[a] - m[b]) : 0.5;
        t = Math.max(0.02, Math.min(0.98, t));
        wanted.add(new double[] {p[0] + t * (q[0] - p[0]), p[1] + t * (q[1] - p[1])});
    }

    /** True when a margin with a number changes sign on the edge too: what is met or not follows from it there. */
    private boolean followed(int a, int b) {
        Map<String, Double> here = found.get(a).margins();
        Map<String, Double> there = found.get(b).margins();
        for (Map.Entry<String, Double> e : here.entrySet()) {
            double p = e.getValue();
            double q = there.getOrDefault(e.getKey(), Double.NaN);
            if (numbers.contains(e.getKey()) && p >= 0 != q >= 0 && !Double.isNaN(p) && !Double.isNaN(q)) {
                return true;
            }
        }
        return false;
    }

    /** A criterion without a number that changes nowhere but where one with a number does: its line would be the other's, raggedly. */
    private boolean follows(String key, double[] field, List<int[]> triangles) {
        if (numbers.contains(key)) {
            return false;
        }
        for (int[] t : triangles) {
            for (int i = 0; i < 3; i++) {
                int a = t[i];
                int b = t[(i + 1) % 3];
                boolean changes = field[a] >= 0 != field[b] >= 0 && !Double.isNaN(field[a]) && !Double.isNaN(field[b]);
                if (changes && !followed(a, b) && !onLine(a) && !onLine(b)) {
                    return false;
                }
            }
        }
        return true;
    }

    private boolean onLine(int index) {
        return settled.values().stream().anyMatch(s -> s.contains(index));
    }

    /** Steepest slope of a margin along any edge at each point. */
    private double[] slopes(double[] m, List<int[]> triangles) {
        double[] out = new double[m.length];
        for (int[] t : triangles) {
            for (int i = 0; i < 3; i++) {
                int a = t[i];
                int b = t[(i + 1) % 3];
                double length = Math.hypot(unit.get(a)[0] - unit.get(b)[0], unit.get(a)[1] - unit.get(b)[1]);
                double s = Math.abs(m[a] - m[b]) / length;
                if (s > out[a] && length > 0) {
                    out[a] = s;
                }
                if (s > out[b] && length > 0) {
                    out[b] = s;
                }
            }
        }
        return out;
    }

    private static boolean far(double[] p, List<double[]> others, double distance) {
        for (double[] q : others) {
            if (Math.abs(p[0] - q[0]) < distance && Math.abs(p[1] - q[1]) < distance) {
                return false;
            }
        }
        return true;
    }

    // --- putting it together
    // ---------------------------------------------------------------------------------------------------

    private PurgeWindow window(String x, String y) {
        look();
        List<String> keys = new ArrayList<>(keys());
        List<int[]> triangles = unit.size() < 3 ? List.of() : Triangulation.of(unit);
        List<double[]> fields = new ArrayList<>();
        List<PurgeWindow.Line> boundaries = new ArrayList<>();
        for (String key : keys) {
            double[] f = field(key);
            boolean follows = follows(key, f, triangles);
            if (!follows) {
                fields.add(f);
            }
            List<double[][]> paths = follows ? List.of() : paths(triangles, f, 0);
            if (!paths.isEmpty()) {
                boundaries.add(new PurgeWindow.Line(key, 0, paths));
            }
        }
        double[] flow = new double[found.size()];
        double most = Double.NEGATIVE_INFINITY;
        double least = Double.POSITIVE_INFINITY;
        for (int i = 0; i < flow.length; i++) {
            flow[i] = found.get(i).purge();
            if (!Double.isNaN(flow[i])) {
                most = Math.max(most, flow[i]);
                least = Math.min(least, flow[i]);
            }
        }
        List<PurgeWindow.Line> contours = new ArrayList<>();
        for (double level : levels(least, most)) {
            List<double[][]> paths = paths(triangles, flow, level);
            if (!paths.isEmpty()) {
                contours.add(new PurgeWindow.Line("flow", level, paths));
            }
        }
        return grid(x, y, keys, boundaries, contours, region(triangles, fields));
    }

    private List<double[][]> paths(List<int[]> triangles, double[] f, double level) {
        List<double[][]> out = new ArrayList<>();
        for (List<double[]> run : Triangulation.line(unit, triangles, f, level)) {
            double[][] path = new double[run.size()][];
            for (int i = 0; i < path.length; i++) {
                path[i] = values(run.get(i));
            }
            out.add(path);
        }
        return out;
    }

    /** Of each triangle the part where every margin, straight between the corners, is at least 0. */
    private List<double[][]> region(List<int[]> triangles, List<double[]> fields) {
        List<double[][]> out = new ArrayList<>();
        for (int[] t : triangles) {
            List<double[]> corners = new ArrayList<>();
            for (int k : t) {
                double[] c = new double[2 + fields.size()];
                c[0] = unit.get(k)[0];
                c[1] = unit.get(k)[1];
                for (int f = 0; f < fields.size(); f++) {
                    double v = fields.get(f)[k];
                    c[2 + f] = Double.isNaN(v) ? -1 : v;
                }
                corners.add(c);
            }
            for (int f = 0; f < fields.size() && corners.size() > 2; f++) {
                corners = clip(corners, 2 + f);
            }
            if (corners.size() > 2) {
                double[][] piece = new double[corners.size()][];
                for (int i = 0; i < piece.length; i++) {
                    piece[i] = values(corners.get(i));
                }
                out.add(piece);
            }
        }
        return out;
    }

    private static List<double[]> clip(List<double[]> corners, int index) {
        List<double[]> out = new ArrayList<>();
        for (int i = 0; i < corners.size(); i++) {
            double[] a = corners.get(i);
            double[] b = corners.get((i + 1) % corners.size());
            if (a[index] >= 0) {
                out.add(a);
            }
            if (a[index] >= 0 != b[index] >= 0) {
                double s = a[index] / (a[index] - b[index]);
                double[] c = new double[a.length];
                for (int k = 0; k < c.length; k++) {
                    c[k] = a[k] + s * (b[k] - a[k]);
                }
                c[index] = 0;
                out.add(c);
            }
        }
        return out;
    }

    /** Five to ten round levels between two values. */
    static List<Double> levels(double least, double most) {
        List<Double> out = new ArrayList<>();
        if (!(most > least)) {
            return out;
        }
        double step = Math.pow(10, Math.floor(Math.log10((most - least) / 5)));
        for (double m : new double[] {5, 2}) {
            if ((most - least) / (m * step) >= 5) {
                step *= m;
                break;
            }
        }
        for (long k = (long) Math.ceil(least / step); k * step < most; k++) {
            if (k * step > least) {
                out.add(k * step);
            }
        }
        return out;
    }

    private PurgeWindow grid(
            String x,
            String y,
            List<String> keys,
            List<PurgeWindow.Line> boundaries,
            List<PurgeWindow.Line> contours,
            List<double[][]> region) {
        int n = settings.points();
        List<Double> xs = new ArrayList<>();
        List<Double> ys = new ArrayList<>();
        for (int i = 0; i < n; i++) {
            double[] v = values(new double[] {(double) i / (n - 1), (double) i / (n - 1)});
            xs.add(v[0]);
            ys.add(v[1]);
        }
        boolean[][] feasible = new boolean[n][n];
        double[][] purge = new double[n][n];
        String[][] governing = new String[n][n];
        List<double[][]> margins = new ArrayList<>();
        for (int k = 0; k < keys.size(); k++) {
            margins.add(new double[n][n]);
        }
        Map<Integer, Integer> at = new TreeMap<>();
        List<Integer> others = new ArrayList<>();
        for (int i = 0; i < unit.size(); i++) {
            double cx = unit.get(i)[0] * (n - 1);
            double cy = unit.get(i)[1] * (n - 1);
            boolean node = Math.abs(cx - Math.rint(cx)) < 1e-9 && Math.abs(cy - Math.rint(cy)) < 1e-9;
            int key = (int) Math.rint(cy) * n + (int) Math.rint(cx);
            if (!node || at.putIfAbsent(key, i) != null) {
                others.add(i);
            }
        }
        List<PurgeWindow.Sample> samples = new ArrayList<>();
        for (int j = 0; j < n; j++) {
            for (int i = 0; i < n; i++) {
                Integer index = at.get(j * n + i);
                Evaluation e = index == null ? null : found.get(index);
                feasible[j][i] = e != null && e.feasible();
                purge[j][i] = e == null ? Double.NaN : e.purge();
                governing[j][i] = e == null ? "" : e.governing();
                for (int k = 0; k < keys.size(); k++) {
                    margins.get(k)[j][i] = e == null ? Double.NaN : e.margins().getOrDefault(keys.get(k), Double.NaN);
                }
                if (e != null) {
                    samples.add(sample(xs.get(i), ys.get(j), e));
                }
            }
        }
        for (int i : others) {
            double[] v = values(unit.get(i));
            samples.add(sample(v[0], v[1], found.get(i)));
        }
        return new PurgeWindow(
                x,
                y,
                xs,
                ys,
                keys,
                margins,
                feasible,
                purge,
                governing,
                Double.NaN,
                Double.NaN,
                samples,
                boundaries,
                contours,
                region,
                new PurgeWindow.Band(Double.NaN, Double.NaN),
                new PurgeWindow.Band(Double.NaN, Double.NaN),
                settings.resolution(),
                complete);
    }

    private static PurgeWindow.Sample sample(double x, double y, Evaluation e) {
        Set<String> unmet = new TreeSet<>();
        for (Margin m : e.each()) {
            if (!m.met() && Double.isNaN(m.value())) {
                unmet.add(m.criterion());
            }
        }
        return new PurgeWindow.Sample(x, y, e.feasible(), e.purge(), e.governing(), e.margins(), List.copyOf(unmet));
    }
}
