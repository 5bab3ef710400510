package purgewright.fluids.validation;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import purgewright.fluids.FluidState;
import purgewright.fluids.PropertyEngine;
import purgewright.fluids.PropertyException;
import purgewright.fluids.PureFluid;

/**
 * Largest deviations from the reference tables, by fluid and property. The tables were made by the open-source library CoolProp
 * 8.0.1dev from the same publications (head of each file); they check the computation, not the equations.
 */
public final class DeviationTable {
    /** Within this distance of the critical temperature, relative, a row counts as near critical. */
    public static final double NEAR_CRITICAL = 0.02;

    /**
     * Rows whose cp the library gives otherwise from (p, T) than from its own density and T: at its printed density it agrees with
     * ours to 1e-12 (looked up with CoolProp 8.0.0: 5200.03703611550 and 31687.7571695167 J/(kg K)).
     */
    private static final Set<String> INCONSISTENT_CP = Set.of("nitrogen 122.406 3000000", "hydrogen 41.4313 3000000");

    /** Below this the table's vapour pressure (Pa) does not agree with its own vapour density: liquid pressure is rounded off there. */
    private static final double LEAST_PRESSURE = 1;

    /** The properties of a row, in order. */
    public enum Property {
        DENSITY("rho", 1e-8, 1e-6),
        ENTHALPY("h", 1e-8, 1e-6),
        ENTROPY("s", 1e-8, 1e-6),
        ISOBARIC_HEAT("cp", 1e-8, 1e-6),
        ISOCHORIC_HEAT("cv", 1e-8, 1e-6),
        SOUND_SPEED("w", 1e-8, 1e-6),
        VISCOSITY("viscosity", 1e-4, 1e-4),
        CONDUCTIVITY("conductivity", 1e-4, 1e-4),
        SATURATION_PRESSURE("psat", 1e-7, 1e-7),
        SATURATED_LIQUID("rho liquid", 1e-7, 1e-6),
        SATURATED_VAPOUR("rho vapour", 1e-7, 1e-6),
        SURFACE_TENSION("sigma", 1e-6, 1e-6);

        private final String symbol;
        private final double tolerance;
        private final double nearTolerance;

        Property(String symbol, double tolerance, double nearTolerance) {
            this.symbol = symbol;
            this.tolerance = tolerance;
            this.nearTolerance = nearTolerance;
        }

        /** Short name. */
        public String symbol() {
            return symbol;
        }

        /** Largest relative deviation allowed. */
        public double tolerance(boolean near) {
            return near ? nearTolerance : tolerance;
        }
    }

    /**
     * One fluid.
     *
     * @param fluid name
     * @param states rows of the single-phase table that were compared
     * @param refused rows that ours refuses (0 expected)
     * @param far largest deviations away from the critical temperature, by ordinal; NaN where nothing was compared
     * @param near the same within {@link #NEAR_CRITICAL}
     */
    public record Row(String fluid, int states, int refused, double[] far, double[] near) {
        /** The deviation of one property; NaN when nothing was compared. */
        public double deviation(Property property, boolean nearCritical) {
            return (nearCritical ? near : far)[property.ordinal()];
        }
    }

    private DeviationTable() {}

    /** Computes one fluid's row. Enthalpy is scaled by cp T, entropy by cp; the others are relative. */
    public static Row row(PropertyEngine engine, String name) {
        PureFluid fluid = engine.pure(name);
        boolean estimated = fluid.transportSource().viscosityEstimated();
        int count = Property.values().length;
        double[] far = new double[count];
        double[] near = new double[count];
        java.util.Arrays.fill(far, Double.NaN);
        java.util.Arrays.fill(near, Double.NaN);
        int states = 0;
        int refused = 0;
        for (String[] c : Tables.rows("single-phase-" + name + ".csv")) {
            double t = Tables.number(c[0]);
            double p = Tables.number(c[1]);
            double[] worst = near(fluid, t) ? near : far;
            states++;
            try {
                FluidState s = fluid.atPressureTemperature(p, t);
                note(worst, Property.DENSITY, relative(s.density(), Tables.number(c[3])));
                note(
                        worst,
                        Property.ENTHALPY,
                        Math.abs(s.enthalpy() - Tables.number(c[4])) / (s.cp() * s.temperature()));
                note(worst, Property.ENTROPY, Math.abs(s.entropy() - Tables.number(c[5])) / s.cp());
                if (!INCONSISTENT_CP.contains(name + " " + c[0] + " " + c[1])) {
                    note(worst, Property.ISOBARIC_HEAT, relative(s.cp(), Tables.number(c[6])));
                }
                note(worst, Property.ISOCHORIC_HEAT, relative(s.cv(), Tables.number(c[7])));
                note(worst, Property.SOUND_SPEED, relative(s.soundSpeed(), Tables.number(c[8])));
                if (!estimated) {
                    note(worst, Property.VISCOSITY, relative(fluid.viscosity(s), Tables.number(c[10])));
                    note(worst, Property.CONDUCTIVITY, relative(fluid.conductivity(s), Tables.number(c[11])));
                }
            } catch (PropertyException e) {
                refused++;
            }
        }
        for (String[] c : Tables.rows("saturation-" + name + ".csv")) {
            double t = Tables.number(c[0]);
            double p = Tables.number(c[1]);
            double[] worst = near(fluid, t) ? near : far;
            if (p >= LEAST_PRESSURE) {
                note(worst, Property.SATURATION_PRESSURE, relative(fluid.saturationPressure(t), p));
            }
            note(
                    worst,
                    Property.SATURATED_LIQUID,
                    relative(fluid.atTemperatureQuality(t, 0).density(), Tables.number(c[2])));
            note(
                    worst,
                    Property.SATURATED_VAPOUR,
                    relative(fluid.atTemperatureQuality(t, 1).density(), Tables.number(c[3])));
            note(worst, Property.SURFACE_TENSION, relative(fluid.surfaceTension(t), Tables.number(c[10])));
        }
        return new Row(name, states, refused, far, near);
    }

    private static boolean near(PureFluid fluid, double temperature) {
        return Math.abs(temperature / fluid.criticalTemperature() - 1) < NEAR_CRITICAL;
    }

    private static double relative(double ours, double theirs) {
        return ours == theirs ? 0 : Math.abs(ours / theirs - 1);
    }

    private static void note(double[] worst, Property property, double deviation) {
        int i = property.ordinal();
        if (!Double.isNaN(deviation) && !(worst[i] >= deviation)) {
            worst[i] = deviation;
        }
    }

    /** The table as text: one line a fluid, near-critical deviations in a second line. */
    public static String text(List<Row> rows) {
        StringBuilder out = new StringBuilder();
        out.append(String.format(Locale.ROOT, "%-16s %-5s %6s", "fluid", "where", "states"));
        for (Property property : Property.values()) {
            out.append(String.format(Locale.ROOT, " %12s", property.symbol()));
        }
        out.append('\n');
        for (Row row : rows) {
            for (boolean near : new boolean[] {false, true}) {
                out.append(String.format(
                        Locale.ROOT,
                        "%-16s %-5s %6s",
                        near ? "" : row.fluid(),
                        near ? "near" : "far",
                        near ? "" : String.valueOf(row.states())));
                for (Property property : Property.values()) {
                    double d = row.deviation(property, near);
                    out.append(
                            Double.isNaN(d)
                                    ? String.format(Locale.ROOT, " %12s", "-")
                                    : String.format(Locale.ROOT, " %12.1e", d));
                }
                out.append('\n');
            }
        }
        return out.toString();
    }

    /** All fluids that the engine and the tables share. */
    public static List<Row> all(PropertyEngine engine) {
        List<Row> rows = new ArrayList<>();
        for (String name : engine.fluidNames()) {
            rows.add(row(engine, name));
        }
        return rows;
    }
}
