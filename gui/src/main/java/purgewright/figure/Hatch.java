package purgewright.figure;

import java.awt.Shape;
import java.awt.geom.Ellipse2D;
import java.awt.geom.FlatteningPathIterator;
import java.awt.geom.Path2D;
import java.awt.geom.PathIterator;
import java.awt.geom.Rectangle2D;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;

/**
 * Hatches as plain geometry: lines and dots cut to a shape without a clip, so that every device draws them alike. Lines stand on
 * one grid for the whole drawing, so that neighbouring areas of one fluid run into each other.
 */
final class Hatch {
    private Hatch() {}

    /** Lines to stroke; dots to fill come from {@link #dots}. */
    static Path2D lines(Shape shape, FluidLook look, double spacing) {
        Path2D path = new Path2D.Double();
        switch (look) {
            case FUEL -> add(path, shape, Math.PI / 4, spacing);
            case HOT_GAS -> {
                add(path, shape, Math.PI / 4, spacing * 1.3);
                add(path, shape, -Math.PI / 4, spacing * 1.3);
            }
            case PURGE -> add(path, shape, 0, spacing);
            case OTHER -> add(path, shape, Math.PI / 2, spacing);
            case OXIDIZER, AIR -> {
                // dots, or plain
            }
        }
        return path;
    }

    /** Dots to fill, for the oxidizer. */
    static Path2D dots(Shape shape, double spacing, double radius) {
        Path2D path = new Path2D.Double();
        Rectangle2D box = shape.getBounds2D();
        int first = (int) Math.floor(box.getMinY() / spacing);
        int last = (int) Math.ceil(box.getMaxY() / spacing);
        for (int row = first; row <= last; row++) {
            double y = row * spacing;
            double shift = (row & 1) == 0 ? 0 : spacing / 2;
            double start = Math.floor(box.getMinX() / spacing) * spacing + shift;
            for (double x = start; x <= box.getMaxX(); x += spacing) {
                if (shape.contains(x - radius, y - radius, 2 * radius, 2 * radius)) {
                    path.append(new Ellipse2D.Double(x - radius, y - radius, 2 * radius, 2 * radius), false);
                }
            }
        }
        return path;
    }

    private static void add(Path2D path, Shape shape, double angle, double spacing) {
        double cos = Math.cos(angle);
        double sin = Math.sin(angle);
        List<double[]> edges = edges(shape, cos, sin);
        double low = Double.POSITIVE_INFINITY;
        double high = Double.NEGATIVE_INFINITY;
        for (double[] e : edges) {
            low = Math.min(low, Math.min(e[1], e[3]));
            high = Math.max(high, Math.max(e[1], e[3]));
        }
        for (double v = Math.ceil(low / spacing) * spacing; v <= high; v += spacing) {
            double level = v;
            double[] cuts = edges.stream()
                    .filter(e -> (e[1] <= level) != (e[3] <= level))
                    .mapToDouble(e -> e[0] + (level - e[1]) / (e[3] - e[1]) * (e[2] - e[0]))
                    .toArray();
            Arrays.sort(cuts);
            for (int i = 0; i + 1 < cuts.length; i += 2) {
                path.moveTo(cuts[i] * cos - level * sin, cuts[i] * sin + level * cos);
                path.lineTo(cuts[i + 1] * cos - level * sin, cuts[i + 1] * sin + level * cos);
            }
        }
    }

    /** Edges of the flattened shape in a frame turned so that the hatch lies level: u1, v1, u2, v2. */
    private static List<double[]> edges(Shape shape, double cos, double sin) {
        List<double[]> edges = new ArrayList<>();
        double[] at = new double[6];
        double startX = 0;
        double startY = 0;
        double x = 0;
        double y = 0;
        for (PathIterator it = new FlatteningPathIterator(shape.getPathIterator(null), 0.5); !it.isDone(); it.next()) {
            int kind = it.currentSegment(at);
            if (kind == PathIterator.SEG_MOVETO) {
                startX = at[0];
                startY = at[1];
            } else {
                double toX = kind == PathIterator.SEG_CLOSE ? startX : at[0];
                double toY = kind == PathIterator.SEG_CLOSE ? startY : at[1];
                edges.add(new double[] {
                    x * cos + y * sin, -x * sin + y * cos, toX * cos + toY * sin, -toX * sin + toY * cos
                });
                at[0] = toX;
                at[1] = toY;
            }
            x = at[0];
            y = at[1];
        }
        return edges;
    }
}
