package purgewright.report;

import java.util.LinkedHashMap;
import java.util.Map;
import purgewright.fluids.unit.Dimension;
import purgewright.fluids.unit.UnitSystem;
import purgewright.fluids.unit.Units;
import purgewright.hazard.sizing.PurgeWindow;

/** The summary of {@code map}: the grid as a picture in letters, and which criterion governs where it is not met. */
public final class MapText {
    /** More columns than this do not fit a terminal; the counts still do. */
    private static final int WIDEST = 80;

    private MapText() {}

    /** The whole text, ending with a line feed. */
    public static String write(
            PurgeWindow map,
            Dimension x,
            Dimension y,
            String scenarios,
            String title,
            String engine,
            UnitSystem units) {
        StringBuilder text = new StringBuilder();
        int columns = map.xs().size();
        int rows = map.ys().size();
        int met = 0;
        int looked = 0;
        double least = Double.NaN;
        int leastX = 0;
        int leastY = 0;
        Map<String, Integer> governing = new LinkedHashMap<>();
        for (int j = 0; j < rows; j++) {
            for (int i = 0; i < columns; i++) {
                if (!looked(map, j, i)) {
                    continue;
                }
                looked++;
                if (!map.feasible()[j][i]) {
                    governing.merge(map.governing()[j][i], 1, Integer::sum);
                    continue;
                }
                met++;
                double flow = map.purge()[j][i];
                if (flow < least || (Double.isNaN(least) && !Double.isNaN(flow))) {
                    least = flow;
                    leastX = i;
                    leastY = j;
                }
            }
        }
        Words.paragraph(text, "Case:    ", "         ", title);
        Words.paragraph(
                text,
                "Window:  ",
                "         ",
                "every criterion is met at " + met + " of " + looked + " points of the survey, " + scenarios
                        + (map.complete()
                                ? ""
                                : looked < rows * columns
                                        ? "; CANCELLED: " + (rows * columns - looked) + " points were not looked at"
                                        : "; CANCELLED before all boundaries were followed"));
        Table sides = new Table("  ", "llrrr");
        sides.heading("", "place", "from", "to", "as stated");
        sides.row(
                "x",
                map.x(),
                Units.format(map.xs().get(0), x, units, 4),
                Units.format(map.xs().get(columns - 1), x, units, 4),
                Units.format(map.operatingX(), x, units, 4));
        sides.row(
                "y",
                map.y(),
                Units.format(map.ys().get(0), y, units, 4),
                Units.format(map.ys().get(rows - 1), y, units, 4),
                Units.format(map.operatingY(), y, units, 4));
        text.append('\n');
        sides.appendTo(text);
        if (!Double.isNaN(least)) {
            Figures figures = new Figures(units);
            text.append("\n  least purge of the points that meet all: ")
                    .append(figures.flow(least))
                    .append(' ')
                    .append(figures.flowUnit())
                    .append(" at x ")
                    .append(Units.format(map.xs().get(leastX), x, units, 4))
                    .append(", y ")
                    .append(Units.format(map.ys().get(leastY), y, units, 4))
                    .append('\n');
        }
        if (map.bandX().wide() || map.bandY().wide()) {
            boolean across = map.bandX().wide();
            PurgeWindow.Band band = across ? map.bandX() : map.bandY();
            Dimension d = across ? x : y;
            text.append("  regulator's band on ")
                    .append(across ? "x: " : "y: ")
                    .append(Units.format(band.low(), d, units, 4))
                    .append(" to ")
                    .append(Units.format(band.high(), d, units, 4))
                    .append('\n');
        }
        if (columns <= WIDEST) {
            picture(text, map);
        }
        if (!map.boundaries().isEmpty()) {
            text.append("\nBoundaries");
            text.append(
                    map.resolution() > 0
                            ? String.format(
                                    java.util.Locale.ROOT,
                                    ", found to 1/%.0f of each side; %d points looked at\n",
                                    1 / map.resolution(),
                                    map.samples().size())
                            : ", between points of the survey\n");
            boolean coarse = false;
            Table table = new Table("  ", "lrrrr");
            table.heading("criterion", "x from", "x to", "y from", "y to");
            for (PurgeWindow.Line line : map.boundaries()) {
                double[] r = reach(line);
                coarse |= !map.numbered(line.name());
                table.row(
                        line.name().replace('-', ' ') + (map.numbered(line.name()) ? "" : " *"),
                        Units.format(r[0], x, units, 4),
                        Units.format(r[1], x, units, 4),
                        Units.format(r[2], y, units, 4),
                        Units.format(r[3], y, units, 4));
            }
            table.appendTo(text);
            if (coarse && map.resolution() > 0) {
                Words.paragraph(
                        text,
                        "  * ",
                        "    ",
                        "met or not, without a number: away from the window its line is known to a step of the survey (--steps)");
            }
        }
        if (!governing.isEmpty()) {
            text.append("\nWhat governs where it is not met\n");
            Table table = new Table("  ", "lr");
            table.heading("criterion", "points");
            governing.forEach((key, count) -> table.row(key.replace('-', ' '), Integer.toString(count)));
            table.appendTo(text);
        }
        text.append("\nProperties: ").append(engine).append('\n');
        return text.toString();
    }

    private static void picture(StringBuilder text, PurgeWindow map) {
        text.append("\n  # every criterion met, . not")
                .append(map.complete() ? "" : ", blank not looked at")
                .append("; x to the right, y upwards\n");
        for (int j = map.ys().size() - 1; j >= 0; j--) {
            StringBuilder row = new StringBuilder("  ");
            for (int i = 0; i < map.xs().size(); i++) {
                row.append(map.feasible()[j][i] ? '#' : looked(map, j, i) ? '.' : ' ');
            }
            text.append(row.toString().stripTrailing()).append('\n');
        }
    }

    /** A point without a solution has something that governs too; one that a cancel left out has not. */
    private static boolean looked(PurgeWindow map, int j, int i) {
        return map.feasible()[j][i] || !map.governing()[j][i].isEmpty();
    }

    private static double[] reach(PurgeWindow.Line line) {
        double[] r = {
            Double.POSITIVE_INFINITY, Double.NEGATIVE_INFINITY, Double.POSITIVE_INFINITY, Double.NEGATIVE_INFINITY
        };
        for (double[][] path : line.paths()) {
            for (double[] p : path) {
                r[0] = Math.min(r[0], p[0]);
                r[1] = Math.max(r[1], p[0]);
                r[2] = Math.min(r[2], p[1]);
                r[3] = Math.max(r[3], p[1]);
            }
        }
        return r;
    }
}
