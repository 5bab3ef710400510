package purgewright.hazard.sizing;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

/**
 * Delaunay triangles over points of the unit square, point by point (Bowyer and Watson). Points are nudged by a billionth so that four
 * on one circle do not matter.
 */
final class Triangulation {
    private final List<double[]> points = new ArrayList<>();
    private List<int[]> triangles = new ArrayList<>();

    private Triangulation() {}

    /** Corner indices of every triangle. */
    static List<int[]> of(List<double[]> given) {
        Triangulation t = new Triangulation();
        t.points.add(new double[] {-10, -10});
        t.points.add(new double[] {21, -10});
        t.points.add(new double[] {-10, 21});
        t.triangles.add(new int[] {0, 1, 2});
        for (int i = 0; i < given.size(); i++) {
            double[] p = given.get(i);
            // A fixed pattern, not a random one: the same points give the same triangles.
            t.add(new double[] {
                p[0] + 1e-9 * ((i * 7919L % 1009) / 1009.0 - 0.5), p[1] + 1e-9 * ((i * 104729L % 1013) / 1013.0 - 0.5)
            });
        }
        List<int[]> out = new ArrayList<>();
        for (int[] k : t.triangles) {
            if (k[0] > 2 && k[1] > 2 && k[2] > 2) {
                out.add(new int[] {k[0] - 3, k[1] - 3, k[2] - 3});
            }
        }
        return out;
    }

    private void add(double[] p) {
        int index = points.size();
        points.add(p);
        List<int[]> kept = new ArrayList<>();
        Map<Long, int[]> edges = new LinkedHashMap<>();
        for (int[] k : triangles) {
            if (!inCircle(k, p)) {
                kept.add(k);
                continue;
            }
            for (int i = 0; i < 3; i++) {
                int a = k[i];
                int b = k[(i + 1) % 3];
                long key = (long) Math.min(a, b) << 32 | Math.max(a, b);
                if (edges.remove(key) == null) {
                    edges.put(key, new int[] {a, b});
                }
            }
        }
        for (int[] e : edges.values()) {
            kept.add(new int[] {e[0], e[1], index});
        }
        triangles = kept;
    }

    private boolean inCircle(int[] k, double[] p) {
        double[] a = points.get(k[0]);
        double[] b = points.get(k[1]);
        double[] c = points.get(k[2]);
        double ax = a[0] - p[0];
        double ay = a[1] - p[1];
        double bx = b[0] - p[0];
        double by = b[1] - p[1];
        double cx = c[0] - p[0];
        double cy = c[1] - p[1];
        double det = (ax * ax + ay * ay) * (bx * cy - cx * by)
                - (bx * bx + by * by) * (ax * cy - cx * ay)
                + (cx * cx + cy * cy) * (ax * by - bx * ay);
        double turn = (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0]);
        return turn > 0 ? det > 0 : det < 0;
    }

    /** Runs of the line value = level over triangles; values of NaN break it. */
    static List<List<double[]>> line(List<double[]> points, List<int[]> triangles, double[] values, double level) {
        Map<Long, double[]> crossing = new HashMap<>();
        Map<Long, List<Long>> next = new LinkedHashMap<>();
        for (int[] k : triangles) {
            List<Long> ends = new ArrayList<>();
            for (int i = 0; i < 3; i++) {
                int a = Math.min(k[i], k[(i + 1) % 3]);
                int b = Math.max(k[i], k[(i + 1) % 3]);
                double va = values[a] - level;
                double vb = values[b] - level;
                if (Double.isNaN(va) || Double.isNaN(vb) || va >= 0 == vb >= 0) {
                    continue;
                }
                long key = (long) a << 32 | b;
                double t = va / (va - vb);
                double[] pa = points.get(a);
                double[] pb = points.get(b);
                crossing.put(key, new double[] {pa[0] + t * (pb[0] - pa[0]), pa[1] + t * (pb[1] - pa[1])});
                ends.add(key);
            }
            if (ends.size() == 2) {
                next.computeIfAbsent(ends.get(0), e -> new ArrayList<>()).add(ends.get(1));
                next.computeIfAbsent(ends.get(1), e -> new ArrayList<>()).add(ends.get(0));
            }
        }
        List<List<double[]>> out = new ArrayList<>();
        // Open runs first, from their ends; what is left are rings.
        for (int pass = 0; pass < 2; pass++) {
            for (Long start : new ArrayList<>(next.keySet())) {
                if (!next.containsKey(start) || (pass == 0 && next.get(start).size() != 1)) {
                    continue;
                }
                List<double[]> run = new ArrayList<>();
                Long here = start;
                while (here != null) {
                    run.add(crossing.get(here));
                    List<Long> ways = next.get(here);
                    Long to = ways == null || ways.isEmpty() ? null : ways.remove(0);
                    if (ways != null && ways.isEmpty()) {
                        next.remove(here);
                    }
                    if (to != null) {
                        List<Long> back = next.get(to);
                        if (back != null) {
                            back.remove(here);
                            if (back.isEmpty()) {
                                next.remove(to);
                            }
                        }
                    }
                    here = to;
                }
                if (run.size() > 1) {
                    out.add(run);
                }
            }
        }
        return out;
    }
}
