package purgewright.figure;

import java.awt.Font;
import java.awt.geom.Ellipse2D;
import java.awt.geom.Path2D;
import java.awt.geom.Rectangle2D;
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
 * words beside it say so. It holds at 25 degC and 1 atm for the fuel named, and not for helium.
 */
public final class TernaryChart {
    private static final double SIDE = 0.5 * Math.sqrt(3);

    private final Figure.Builder b;
    private final Theme theme;
    private final double left;
    private final double base;
    private final double size;
    private final Font small = Lettering.font(Font.PLAIN, 10.5);
    private final Font bold = Lettering.font(Font.BOLD, 11.5);

    private TernaryChart(Theme theme, double width, double height) {
        this.b = new Figure.Builder(theme);
        this.theme = theme;
        this.size = Math.min(width - 160, (height - 110) / SIDE);
        this.left = (width - size) / 2;
        this.base = 50 + size * SIDE;
    }

    /** Draws the chart of a solution. */
    public static Figure draw(SolveResult.Converged solved, Readout readout, Theme theme, double width, double height) {
        return new TernaryChart(theme, width, height).draw(solved, readout, width, height);
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
        String fuel = solved == null ? "" : mainFuel(solved);
        if (!fuel.isEmpty()) {
            region(fuel);
        }
        b.line(frame, theme.ink(), 1.6);
        double air = Flammability.OXYGEN_IN_AIR;
        b.dashed(new java.awt.geom.Line2D.Double(x(0, air), y(0), x(1, 0), y(1)), theme.quiet(), 1.2, 6f, 4f);
        b.centred("corner", FigureText.of("ternary.fuel"), x(1, 0), y(1) - 10, bold, theme.ink());
        b.right("corner", FigureText.of("ternary.inert"), x(0, 0) + 20, y(0) + 20, bold, theme.ink());
        b.text("corner", FigureText.of("ternary.oxygen"), x(0, 1) - 20, y(0) + 20, bold, theme.ink());
        b.centred("air", FigureText.of("ternary.air"), x(0, air), y(0) + 20, small, theme.quiet());
        if (solved != null) {
            points(solved, readout, width, height);
        }
        return b.build(width, height, FigureText.of("ternary.caption"));
    }

    private static String mainFuel(SolveResult.Converged solved) {
        Map<String, Double> sums = new HashMap<>();
        for (SolveResult.CavityState c : solved.cavities().values()) {
            Flammability.fuels(c.moleFractions()).forEach((k, v) -> sums.merge(k, v, Double::sum));
        }
        return sums.entrySet().stream()
                .filter(e -> LimitTable.value(e.getKey(), LimitTable.Quantity.LFL_AIR)
                        .known())
                .max(Map.Entry.comparingByValue())
                .map(Map.Entry::getKey)
                .orElse("");
    }

    private void region(String fuel) {
        List<Ternary.Corner> region = Ternary.region(Map.of(fuel, 1.0));
        boolean enriched = !region.isEmpty();
        if (!enriched) {
            region = inAir(fuel);
        }
        if (region.isEmpty()) {
            return;
        }
        Path2D path = new Path2D.Double();
        for (Ternary.Corner corner : region) {
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
        b.text(
                "region",
                FigureText.of(enriched ? "ternary.region" : "ternary.region.air", fuel),
                12,
                24,
                small,
                theme.ink());
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

    private void points(SolveResult.Converged solved, Readout readout, double width, double height) {
        Map<String, double[]> placed = new LinkedHashMap<>();
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
            String pointer = BarrierSection.cavityPointer(e.getKey());
            Ellipse2D dot = new Ellipse2D.Double(px - 4.5, py - 4.5, 9, 9);
            b.fill(dot, theme.panel());
            b.line(dot, theme.ink(), 1.8);
            b.region(
                    pointer,
                    new Ellipse2D.Double(px - 8, py - 8, 16, 16),
                    FigureText.of("ternary.point", e.getKey(), readout.share(fuel), readout.share(oxygen)));
            placed.put(e.getKey(), new double[] {px, py});
        }
        Tags tags = new Tags(b, small, width, height);
        placed.values().forEach(p -> tags.keepFree(new Rectangle2D.Double(p[0] - 6, p[1] - 6, 12, 12)));
        // The base line, and the names of its corners below it.
        tags.keepFree(new Rectangle2D.Double(0, base - 3, width, 30));
        placed.forEach(
                (cavity, p) -> tags.tag(BarrierSection.cavityPointer(cavity), cavity, p[0], p[1], p[0] < x(0, 0.1)));
    }
}
