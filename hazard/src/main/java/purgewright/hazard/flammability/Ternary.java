package purgewright.hazard.flammability;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import purgewright.hazard.flammability.LimitTable.Quantity;

/**
 * Where a mixture stands in the triangle of fuel, free oxygen and inert, and how far from the flammable region of its fuels in nitrogen at
 * 25 C and 1 atm. A picture to look at, never a verdict: temperature, pressure and the inert at hand are not in it.
 *
 * <p>The region is the polygon through the published limits: lower and upper in oxygen, lower and upper in air, and the nose at the
 * limiting oxygen with the fuel that it burns; blends by Le Chatelier's rule, the nose at the least limiting oxygen.
 *
 * @param fuel mole fraction of all fuels
 * @param oxygen mole fraction of free oxygen
 * @param inert the rest
 * @param inside true in the region; false also where there is no region
 * @param distance to the region's edge, in mole fractions, measured in the equilateral triangle of side 1; below 0 inside; NaN where a
 *     limit is not tabled; infinite without fuel
 */
public record Ternary(double fuel, double oxygen, double inert, boolean inside, double distance) {
    private static final double HEIGHT = Math.sqrt(3) / 2;

    /**
     * A corner of the region.
     *
     * @param fuel mole fraction
     * @param oxygen mole fraction
     */
    public record Corner(double fuel, double oxygen) {}

    /** Places a mixture. */
    public static Ternary of(Map<String, Double> moleFractions) {
        Map<String, Double> fuels = Flammability.fuels(moleFractions);
        double fuel = fuels.values().stream().mapToDouble(Double::doubleValue).sum();
        double oxygen = Flammability.freeOxygen(moleFractions);
        double inert = Math.max(0, 1 - fuel - oxygen);
        if (fuel < 1e-12) {
            return new Ternary(fuel, oxygen, inert, false, Double.POSITIVE_INFINITY);
        }
        List<Corner> region = region(fuels);
        if (region.isEmpty()) {
            return new Ternary(fuel, oxygen, inert, false, Double.NaN);
        }
        boolean inside = inside(region, fuel, oxygen);
        double distance = distance(region, fuel, oxygen);
        return new Ternary(fuel, oxygen, inert, inside, inside ? -distance : distance);
    }

    /** Corners of the flammable region of fuels in any scale, going round; empty when one of the limits is not tabled. */
    public static List<Corner> region(Map<String, Double> fuels) {
        double lowerAir = blend(fuels, Quantity.LFL_AIR);
        double upperAir = blend(fuels, Quantity.UFL_AIR);
        double lowerOxygen = blend(fuels, Quantity.LFL_OXYGEN);
        double upperOxygen = blend(fuels, Quantity.UFL_OXYGEN);
        double nose = Double.POSITIVE_INFINITY;
        double noseFuel = Double.NaN;
        for (String f : fuels.keySet()) {
            double limiting = LimitTable.limitingOxygen(f).si();
            if (Double.isNaN(limiting)) {
                return List.of();
            }
            if (limiting < nose) {
                nose = limiting;
                noseFuel = limiting / Species.find(f).oxygenDemand();
            }
        }
        if (Double.isNaN(lowerAir + upperAir + upperOxygen + noseFuel)) {
            return List.of();
        }
        // Lower limits in oxygen and in air agree within the scatter of methods.
        double lower = Double.isNaN(lowerOxygen) ? lowerAir : lowerOxygen;
        double air = Flammability.OXYGEN_IN_AIR;
        return List.of(
                new Corner(lower, 1 - lower),
                new Corner(lowerAir, air * (1 - lowerAir)),
                new Corner(noseFuel, nose),
                new Corner(upperAir, air * (1 - upperAir)),
                new Corner(upperOxygen, 1 - upperOxygen));
    }

    private static double blend(Map<String, Double> fuels, Quantity quantity) {
        Map<String, Double> limits = new LinkedHashMap<>();
        fuels.keySet().forEach(f -> limits.put(f, LimitTable.value(f, quantity).si()));
        return Flammability.leChatelier(fuels, limits);
    }

    private static boolean inside(List<Corner> region, double fuel, double oxygen) {
        boolean in = false;
        for (int i = 0; i < region.size(); i++) {
            Corner a = region.get(i);
            Corner b = region.get((i + 1) % region.size());
            if ((a.fuel() > fuel) != (b.fuel() > fuel)
                    && oxygen < a.oxygen() + (fuel - a.fuel()) / (b.fuel() - a.fuel()) * (b.oxygen() - a.oxygen())) {
                in = !in;
            }
        }
        return in;
    }

    private static double distance(List<Corner> region, double fuel, double oxygen) {
        double px = oxygen + fuel / 2;
        double py = fuel * HEIGHT;
        double least = Double.POSITIVE_INFINITY;
        for (int i = 0; i < region.size(); i++) {
            Corner a = region.get(i);
            Corner b = region.get((i + 1) % region.size());
            double ax = a.oxygen() + a.fuel() / 2;
            double ay = a.fuel() * HEIGHT;
            double dx = b.oxygen() + b.fuel() / 2 - ax;
            double dy = b.fuel() * HEIGHT - ay;
            double t = Math.max(0, Math.min(1, ((px - ax) * dx + (py - ay) * dy) / (dx * dx + dy * dy)));
            least = Math.min(least, Math.hypot(px - ax - t * dx, py - ay - t * dy));
        }
        return least;
    }

    /** Mixtures on the way from one to another, ends included: how a cavity passes from one phase of the duty to the next. */
    public static List<Ternary> way(Map<String, Double> from, Map<String, Double> to, int steps) {
        List<Ternary> out = new ArrayList<>();
        for (int i = 0; i <= steps; i++) {
            double t = (double) i / steps;
            Map<String, Double> x = new LinkedHashMap<>();
            from.forEach((k, v) -> x.merge(k, (1 - t) * v, Double::sum));
            to.forEach((k, v) -> x.merge(k, t * v, Double::sum));
            out.add(of(x));
        }
        return out;
    }
}
