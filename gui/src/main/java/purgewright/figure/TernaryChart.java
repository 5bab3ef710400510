package purgewright.figure;

import java.awt.Font;
import java.awt.geom.Ellipse2D;
import java.awt.geom.Path2D;
import java.awt.geom.Rectangle2D;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import purgewright.hazard.flammability.Flammability;
import purgewright.hazard.flammability.LimitTable;
import purgewright.hazard.flammability.Species;
import purgewright.hazard.flammability.Ternary;
import purgewright.sealflow.network.SolveResult;

/**
 * Every cavity's gas as fuel, free oxygen and inert by mole. The hatched region is {@link Ternary#region}: the tabled limits in oxygen and
 * in air and, at the limiting oxygen with nitrogen, the mixture of least oxygen; without limits in oxygen the part in air alone, and the
 * words beside it say so. It holds at 25 degC and 1 atm for the fuels named, those of the cavity that holds most fuel, and not for helium.
 *
 * <p>Names of cavities stand outside the triangle, each with a line to its point: a name inside the hatched region would look like a gas
 * that can burn.
 */
public final class TernaryChart {
    private static final double SIDE = 0.5 * Math.sqrt(3);
    /** Between a name and the triangle. */
    private static final double GAP = 16;

    private static final double ROW = 14;
    /** Fuels with less than this share of all fuel are neither counted nor named: traces of a burner without tabled limits. */
    private static final double TRACE = 1e-3;

    private static final Burns NONE = new Burns("", List.of(), false);

    /**
     * The hatched region.
     *
     * @param fuels whose, in words
     * @param enriched false where it ends at air, since the limits in oxygen are not tabled
     */
    private record Burns(String fuels, List<Ternary.Corner> corners, boolean enriched) {}

    private final Figure.Builder b;
    private final Theme theme;
    private final double left;
    private final double base;
    private final double size;
    private final Burns region;
    private final List<String> said;
    private final Font small = Lettering.font(Font.PLAIN, 10.5);
    private final Font bold = Lettering.font(Font.BOLD, 11.5);

    private TernaryChart(SolveResult.Converged solved, Theme theme, double width, double height) {
        this.b = new Figure.Builder(theme);
        this.theme = theme;
        this.region = solved == null ? NONE : region(solved);
        this.said = region.corners().isEmpty()
                ? List.of()
                : Lettering.wrap(
                        small,
                        FigureText.of(region.enriched() ? "ternary.region" : "ternary.region.air", region.fuels()),
                        width - 24,
                        3);
        double widest = 0;
        for (String cavity : solved == null
                ? List.<String>of()
                : List.copyOf(solved.cavities().keySet())) {
            widest = Math.max(widest, Lettering.width(small, cavity));
        }
        double top = 36 + ROW * Math.max(1, said.size());
        double beside = Math.min(0.3 * width, Math.max(80, widest + GAP + 8));
        this.size = Math.max(40, Math.min(width - 2 * beside, (height - top - 60) / SIDE));
        this.left = (width - size) / 2;
        this.base = top + size * SIDE;
    }

    /** Draws the chart of a solution. */
    public static Figure draw(SolveResult.Converged solved, Readout readout, Theme theme, double width, double height) {
        return new TernaryChart(solved, theme, width, height).draw(solved, readout, width, height);
    }

    /** Fuel at the top, oxygen at the right, inert at the left. */
    private double x(double fuel, double oxygen) {
        return left + size * (oxygen + fuel / 2);
    }

    private double y(double fuel) {
        return base - size * SIDE * fuel;
    }

    private Figure draw(SolveResult.Converged solved, Readout readout, double width, double height) {
        b.fill(new Rectangle2D.Double(0, 0, width, height), theme.paper());
        Path2D frame = new Path2D.Double();
        frame.moveTo(x(0, 0), y(0));
        frame.lineTo(x(0, 1), y(0));
        frame.lineTo(x(1, 0), y(1));
        frame.closePath();
        b.fill(frame, theme.panel());
        for (int i = 1; i < 10; i++) {
            double s = i / 10.0;
            b.segment(x(s, 0), y(s), x(s, 1 - s), y(s), theme.rule(), 0.8);
            b.segment(x(0, s), y(0), x(1 - s, s), y(1 - s), theme.rule(), 0.8);
            b.segment(x(s, 0), y(s), x(0, s), y(0), theme.rule(), 0.8);
        }
        region();
        b.line(frame, theme.ink(), 1.6);
        double air = Flammability.OXYGEN_IN_AIR;
        b.dashed(new java.awt.geom.Line2D.Double(x(0, air), y(0), x(1, 0), y(1)), theme.quiet(), 1.2, 6f, 4f);
        b.centred("corner", FigureText.of("ternary.fuel"), x(1, 0), y(1) - 10, bold, theme.ink());
        b.right("corner", FigureText.of("ternary.inert"), x(0, 0) + 20, y(0) + 20, bold, theme.ink());
        b.text("corner", FigureText.of("ternary.oxygen"), x(0, 1) - 20, y(0) + 20, bold, theme.ink());
        b.centred("air", FigureText.of("ternary.air"), x(0, air), y(0) + 20, small, theme.quiet());
        if (solved != null) {
            points(solved, readout, width);
        }
        return b.build(width, height, FigureText.of("ternary.caption"));
    }

    /** Of the fuels of the cavity that holds most; where their limits are not all tabled, of the one there is most of. */
    private static Burns region(SolveResult.Converged solved) {
        Map<String, Double> fuels = Map.of();
        for (SolveResult.CavityState c : solved.cavities().values()) {
            Map<String, Double> here = Flammability.fuels(c.moleFractions());
            fuels = sum(here) > sum(fuels) ? here : fuels;
        }
        double least = TRACE * sum(fuels);
        fuels = new LinkedHashMap<>(fuels);
        fuels.values().removeIf(x -> x < least);
        List<Ternary.Corner> all = fuels.isEmpty() ? List.of() : Ternary.region(fuels);
        if (!all.isEmpty()) {
            return new Burns(words(fuels), all, true);
        }
        String main = fuels.entrySet().stream()
                .filter(e -> LimitTable.value(e.getKey(), LimitTable.Quantity.LFL_AIR)
                        .known())
                .max(Map.Entry.comparingByValue())
                .map(Map.Entry::getKey)
                .orElse("");
        if (main.isEmpty()) {
            return NONE;
        }
        List<Ternary.Corner> one = Ternary.region(Map.of(main, 1.0));
        return one.isEmpty() ? new Burns(main, inAir(main), false) : new Burns(main, one, true);
    }

    private static double sum(Map<String, Double> fuels) {
        return fuels.values().stream().mapToDouble(Double::doubleValue).sum();
    }

    /** Fuels with their shares of all fuel, most first. */
    private static String words(Map<String, Double> fuels) {
        double all = sum(fuels);
        List<Map.Entry<String, Double>> named = fuels.entrySet().stream()
                .sorted(Map.Entry.<String, Double>comparingByValue().reversed())
                .toList();
        if (named.size() == 1) {
            return named.get(0).getKey();
        }
        List<String> parts = new ArrayList<>();
        for (Map.Entry<String, Double> e : named) {
            parts.add(e.getKey() + " " + Readout.number(100 * e.getValue() / all, 2) + " %");
        }
        return String.join(", ", parts);
    }

    private void region() {
        if (region.corners().isEmpty()) {
            return;
        }
        Path2D path = new Path2D.Double();
        for (Ternary.Corner corner : region.corners()) {
            if (path.getCurrentPoint() == null) {
                path.moveTo(x(corner.fuel(), corner.oxygen()), y(corner.fuel()));
            } else {
                path.lineTo(x(corner.fuel(), corner.oxygen()), y(corner.fuel()));
            }
        }
        path.closePath();
        b.fill(path, Theme.blend(theme.panel(), theme.bad(), 0.18));
        b.hatch(path, FluidLook.HOT_GAS, theme.bad(), 5, 0.9);
        b.line(path, theme.bad(), 1.4);
        for (int i = 0; i < said.size(); i++) {
            b.text("region", said.get(i), 12, 24 + ROW * i, small, theme.ink());
        }
    }

    /** What is left of the region where no limit in oxygen is tabled: the mixtures with air, and the nose. */
    private static List<Ternary.Corner> inAir(String fuel) {
        double lower = LimitTable.value(fuel, LimitTable.Quantity.LFL_AIR).si();
        double upper = LimitTable.value(fuel, LimitTable.Quantity.UFL_AIR).si();
        double least = LimitTable.limitingOxygen(fuel).si();
        Species species = Species.find(fuel);
        if (!(upper > lower) || !(least > 0) || species == null) {
            return List.of();
        }
        double air = Flammability.OXYGEN_IN_AIR;
        return List.of(
                new Ternary.Corner(lower, air * (1 - lower)),
                new Ternary.Corner(least / species.oxygenDemand(), least),
                new Ternary.Corner(upper, air * (1 - upper)));
    }

    private void points(SolveResult.Converged solved, Readout readout, double width) {
        Map<String, double[]> placed = new LinkedHashMap<>();
        Map<String, String> shares = new HashMap<>();
        for (Map.Entry<String, SolveResult.CavityState> e : solved.cavities().entrySet()) {
            Map<String, Double> moles = e.getValue().moleFractions();
            double fuel = Flammability.fuels(moles).values().stream()
                    .mapToDouble(Double::doubleValue)
                    .sum();
            double oxygen = Math.max(0, Flammability.freeOxygen(moles));
            if (fuel + oxygen > 1) {
                double sum = fuel + oxygen;
                fuel /= sum;
                oxygen /= sum;
            }
            double px = x(fuel, oxygen);
            double py = y(fuel);
            placed.put(e.getKey(), new double[] {px, py});
            shares.put(
                    e.getKey(), FigureText.of("ternary.point", e.getKey(), readout.share(fuel), readout.share(oxygen)));
        }
        names(placed, true, width);
        names(placed, false, width);
        placed.forEach((cavity, p) -> {
            Ellipse2D dot = new Ellipse2D.Double(p[0] - 4.5, p[1] - 4.5, 9, 9);
            b.fill(dot, theme.panel());
            b.line(dot, theme.ink(), 1.8);
            b.region(
                    BarrierSection.cavityPointer(cavity),
                    new Ellipse2D.Double(p[0] - 8, p[1] - 8, 16, 16),
                    shares.get(cavity));
        });
    }

    /** How far inside the nearer slope. */
    private double inside(double[] p) {
        double edge = size / 2 * (base - p[1]) / (size * SIDE);
        return Math.min(p[0] - left - edge, left + size - edge - p[0]);
    }

    /** Names of the points of one half, in a row each beside the triangle; lines to their points do not cross, since both go down in one order. */
    private void names(Map<String, double[]> placed, boolean leftHalf, double width) {
        double middle = left + size / 2;
        List<Map.Entry<String, double[]>> half = new ArrayList<>(placed.entrySet().stream()
                .filter(e -> (e.getValue()[0] <= middle) == leftHalf)
                // Of those at one height the innermost goes above the others, past whose lines it then goes.
                .sorted(Comparator.comparingDouble(e -> e.getValue()[1] - 0.3 * inside(e.getValue())))
                .toList());
        double first = base - size * SIDE - 2;
        int rows = (int) Math.max(1, Math.floor((base - first) / ROW) + 1);
        int more = Math.max(0, half.size() - rows);
        // From below: each at its point's height, or above the one below it.
        double lowest = base + 4;
        for (int i = half.size() - 1; i >= more; i--) {
            double[] p = half.get(i).getValue();
            double y = Math.max(first + ROW * (i - more), Math.min(lowest, p[1] + 4));
            lowest = y - ROW;
            String cavity = half.get(i).getKey();
            double w = Lettering.width(small, cavity);
            double edge = size / 2 * (base - Math.min(base, y + 4)) / (size * SIDE);
            double at =
                    leftHalf ? Math.max(4, left + edge - GAP - w) : Math.min(width - 4 - w, left + size - edge + GAP);
            double from = leftHalf ? at + w + 3 : at - 3;
            b.segment(from, y - 4, p[0], p[1], theme.quiet(), 0.9);
            b.text(BarrierSection.cavityPointer(cavity), cavity, at, y, small, theme.ink());
        }
    }
}
