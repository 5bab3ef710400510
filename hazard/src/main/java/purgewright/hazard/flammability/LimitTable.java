package purgewright.hazard.flammability;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.EnumMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.stream.Collectors;

/**
 * The table of flammability data, each row with source and label. Values as printed: vol % for concentrations, degrees Celsius for
 * autoignition and flash points, K for flame temperatures; the methods give fractions and K.
 *
 * <p>Where rows of one quantity differ the wider one rules - lower LFL, higher UFL, lower limiting oxygen, lower autoignition - and
 * {@link Value#note} names them all. NaN where there is no row.
 */
public final class LimitTable {
    /** What a row gives. */
    public enum Quantity {
        LFL_AIR(false, 0.01, 0),
        UFL_AIR(true, 0.01, 0),
        LFL_OXYGEN(false, 0.01, 0),
        UFL_OXYGEN(true, 0.01, 0),
        /** Large-vessel method, nitrogen as inert. */
        LOC_NITROGEN_VESSEL(false, 0.01, 0),
        /** Old flammability tube, nitrogen as inert; runs high. */
        LOC_NITROGEN_TUBE(false, 0.01, 0),
        /** Old flammability tube, carbon dioxide as inert; runs high. */
        LOC_CO2_TUBE(false, 0.01, 0),
        AUTOIGNITION_C(false, 1, 273.15),
        FLASH_POINT_C(false, 1, 273.15),
        /** Largest share of the fuel in nitrogen that no dilution with air makes flammable. */
        TCI_NITROGEN(false, 0.01, 0),
        /** Nitrogen equivalence of an inert per mole. */
        INERT_COEFFICIENT(false, 1, 0),
        /** Ends of the range in which a mixture can detonate; depends on confinement, never a design limit. */
        DETONABLE_LOW_AIR(false, 0.01, 0),
        DETONABLE_HIGH_AIR(true, 0.01, 0),
        DETONABLE_LOW_OXYGEN(false, 0.01, 0),
        DETONABLE_HIGH_OXYGEN(true, 0.01, 0),
        /** Share from which a flame fills a quiescent mixture; design uses the lower limit. */
        SELF_SUSTAINING(false, 0.01, 0),
        /** Least energy that ignites, J. */
        IGNITION_ENERGY_MJ(false, 1e-3, 0),
        FLAME_AT_LFL_K(false, 1, 0),
        FLAME_AT_LOC_K(false, 1, 0);

        private final boolean highest;
        private final double scale;
        private final double shift;

        Quantity(boolean highest, double scale, double shift) {
            this.highest = highest;
            this.scale = scale;
            this.shift = shift;
        }
    }

    /**
     * One row.
     *
     * @param value as printed
     * @param conditions of the row
     * @param source with year and table
     * @param label published, derived ...
     */
    public record Row(String species, Quantity quantity, double value, String conditions, String source, String label) {
        /** The value as a fraction or in K. */
        public double si() {
            return value * quantity.scale + quantity.shift;
        }
    }

    /**
     * A value in force.
     *
     * @param si fraction or K; NaN when there is no row
     * @param note source and label of the row in force, and what the other rows say
     */
    public record Value(double si, String note) {
        /** No data. */
        public static final Value NONE = new Value(Double.NaN, "");

        /** True when there is data. */
        public boolean known() {
            return !Double.isNaN(si);
        }
    }

    private static final Map<String, Map<Quantity, List<Row>>> ROWS = load();

    private LimitTable() {}

    private static Map<String, Map<Quantity, List<Row>>> load() {
        Map<String, Map<Quantity, List<Row>>> rows = new LinkedHashMap<>();
        for (String[] f : Species.table("limits.csv")) {
            Row row = new Row(f[0], Quantity.valueOf(f[1]), Double.parseDouble(f[2]), f[3], f[4], f[5]);
            rows.computeIfAbsent(row.species(), k -> new EnumMap<>(Quantity.class))
                    .computeIfAbsent(row.quantity(), k -> new ArrayList<>())
                    .add(row);
        }
        return rows;
    }

    /** All rows, in the order of the file. */
    public static List<Row> rows() {
        return ROWS.values().stream()
                .flatMap(m -> m.values().stream())
                .flatMap(List::stream)
                .toList();
    }

    /** Rows of a species (any known name) and quantity; empty when there is none. */
    public static List<Row> rows(String species, Quantity quantity) {
        Species known = Species.find(species);
        return known == null
                ? List.of()
                : ROWS.getOrDefault(known.name(), Map.of()).getOrDefault(quantity, List.of());
    }

    /** The value in force: the row on the safe side. */
    public static Value value(String species, Quantity quantity) {
        return safest(rows(species, quantity));
    }

    private static Value safest(List<Row> rows) {
        if (rows.isEmpty()) {
            return Value.NONE;
        }
        Comparator<Row> order = Comparator.comparingDouble(Row::value);
        Row row = rows.stream()
                .min(rows.get(0).quantity().highest ? order.reversed() : order)
                .orElseThrow();
        String others = rows.stream()
                .filter(r -> r != row && r.value() != row.value())
                .map(r -> String.format(Locale.ROOT, "%s by %s [%s]", number(r.value()), r.source(), r.label()))
                .collect(Collectors.joining("; "));
        String note = String.format(
                Locale.ROOT,
                "%s (%s) [%s]%s",
                row.source(),
                row.conditions(),
                row.label(),
                others.isEmpty() ? "" : "; also " + others);
        return new Value(row.si(), note);
    }

    private static String number(double value) {
        return value == Math.rint(value) ? String.format(Locale.ROOT, "%.0f", value) : Double.toString(value);
    }

    /** Lower limit: the least of the rows in air and in oxygen, which agree within the scatter of methods. */
    public static Value lowerLimit(String species) {
        List<Row> rows = new ArrayList<>(rows(species, Quantity.LFL_AIR));
        rows.addAll(rows(species, Quantity.LFL_OXYGEN));
        return safest(rows);
    }

    /**
     * Limiting oxygen with nitrogen: the large-vessel value where there is one; else the tube value less 1.5 vol % from 10 % on, times
     * 0.85 below, as a proposed amendment to NFPA 69-2014, 7.2.3.1.2 has it [published, proposal text].
     */
    public static Value limitingOxygen(String species) {
        Value vessel = value(species, Quantity.LOC_NITROGEN_VESSEL);
        if (vessel.known()) {
            return vessel;
        }
        Value tube = value(species, Quantity.LOC_NITROGEN_TUBE);
        return tube.known()
                ? new Value(
                        adjustedTube(tube.si()),
                        "flammability tube value adjusted by NFPA 69 TIA log 1211 (2016); " + tube.note())
                : Value.NONE;
    }

    /** Limiting oxygen with carbon dioxide, adjusted, never below the nitrogen value. */
    public static Value limitingOxygenCarbonDioxide(String species) {
        Value tube = value(species, Quantity.LOC_CO2_TUBE);
        if (!tube.known()) {
            return Value.NONE;
        }
        Value nitrogen = limitingOxygen(species);
        double adjusted = adjustedTube(tube.si());
        return new Value(
                nitrogen.known() ? Math.max(adjusted, nitrogen.si()) : adjusted,
                "flammability tube value adjusted by NFPA 69 TIA log 1211 (2016); " + tube.note());
    }

    /** Tube value (mole fraction) moved to the safe side: less 0.015 from 0.10 on, times 0.85 below. */
    public static double adjustedTube(double fraction) {
        return fraction >= 0.10 ? fraction - 0.015 : fraction * 0.85;
    }
}
