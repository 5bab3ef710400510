package purgewright.hazard.service;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import purgewright.fluids.unit.DidYouMean;
import purgewright.fluids.unit.Dimension;
import purgewright.fluids.unit.Units;
import purgewright.sealflow.campaign.Channel;
import purgewright.sealflow.campaign.Channel.Kind;
import purgewright.sealflow.casefile.DataTable;
import purgewright.sealflow.casefile.DataTable.Column;
import purgewright.sealflow.model.Case;
import purgewright.sealflow.model.CaseValue;
import purgewright.sealflow.model.Cavity;
import purgewright.sealflow.model.PassageSpec;

/**
 * From the columns of a table to places of a case. A column is named by a place ({@code /cavities/barrier/pressure}), or by the words
 * {@code barrier pressure}, {@code barrier temperature}, {@code metering flow}, {@code speed}, {@code purge flow}, {@code bottle
 * pressure}, {@code bottle temperature}.
 */
public final class Channels {
    /** Column that holds the time. */
    static final String TIME = "time";

    private Channels() {}

    /**
     * Boundary values over time.
     *
     * @throws purgewright.sealflow.casefile.CaseException for a missing time column, a place that cannot be driven, an empty cell
     */
    public static List<Channel> history(DataTable table, Case model) {
        Column time = time(table);
        List<Channel> out = new ArrayList<>();
        for (Column c : table.columns()) {
            if (c == time || (c.dimension() == null && isComment(c))) {
                continue;
            }
            String place = place(c, model);
            CaseValue value = place == null ? null : CaseValue.find(model, place);
            if (value == null) {
                throw unknown(table, c, model, "is no boundary value of the case");
            }
            requireDimension(table, c, value.dimension());
            full(table, c);
            out.add(new Channel(c.name(), kind(value.field()), place, unit(c), time.values(), c.values()));
        }
        if (out.isEmpty()) {
            throw DataTable.problem(
                    "MISSING_COLUMN",
                    table.name(),
                    table.headerLine(),
                    "beside the time there is no column that drives anything",
                    "for instance: time [s], /cavities/NAME/pressure [MPa]");
        }
        return List.copyOf(out);
    }

    /** Measured channels to lay over a run; columns that mean nothing to the case keep their name and are shown alone. */
    public static List<Channel> measured(DataTable table, Case model) {
        Column time = time(table);
        List<Channel> out = new ArrayList<>();
        for (Column c : table.columns()) {
            String place = c == time ? null : place(c, model);
            if (place != null) {
                // A pressure in kelvin would be laid over a pressure, and a column without a unit left out in silence.
                requireDimension(table, c, dimension(place));
            }
            if (c == time || c.dimension() == null) {
                continue;
            }
            List<Double> t = new ArrayList<>();
            List<Double> v = new ArrayList<>();
            for (int i = 0; i < table.rows(); i++) {
                if (!Double.isNaN(c.values()[i])) {
                    t.add(time.values()[i]);
                    v.add(c.values()[i]);
                }
            }
            if (t.isEmpty()) {
                continue;
            }
            String at = place == null ? "" : place;
            out.add(new Channel(
                    c.name(),
                    place == null ? Kind.OTHER : kind(at.substring(at.lastIndexOf('/') + 1)),
                    at,
                    unit(c),
                    t.stream().mapToDouble(Double::doubleValue).toArray(),
                    v.stream().mapToDouble(Double::doubleValue).toArray()));
        }
        if (out.isEmpty()) {
            throw DataTable.problem(
                    "MISSING_COLUMN",
                    table.name(),
                    table.headerLine(),
                    "beside the time there is no measured column",
                    "name [unit]");
        }
        return List.copyOf(out);
    }

    private static Column time(DataTable table) {
        Column time = table.column(TIME);
        if (time == null) {
            throw DataTable.problem(
                    "MISSING_COLUMN",
                    table.name(),
                    table.headerLine(),
                    "there is no column \"time\"",
                    "a column: time [s]");
        }
        requireDimension(table, time, Dimension.TIME);
        full(table, time);
        double[] t = time.values();
        for (int i = 0; i < t.length; i++) {
            if (i > 0 && t[i] < t[i - 1]) {
                throw DataTable.problem(
                        "OUT_OF_RANGE",
                        table.name(),
                        table.lines()[i],
                        "the time goes back from " + t[i - 1] + " s to " + t[i] + " s",
                        "sort the rows by time");
            }
        }
        return time;
    }

    private static void full(DataTable table, Column c) {
        for (int i = 0; i < table.rows(); i++) {
            if (Double.isNaN(c.values()[i])) {
                throw DataTable.problem(
                        "MISSING_VALUE",
                        table.name(),
                        table.lines()[i],
                        "column \"" + c.name() + "\" is empty here, and nobody can say what it was",
                        "leave the row out");
            }
        }
    }

    static void requireDimension(DataTable table, Column c, Dimension wanted) {
        if (wanted != null && c.dimension() != wanted) {
            throw DataTable.problem(
                    c.dimension() == null ? "MISSING_UNIT" : "WRONG_DIMENSION",
                    table.name(),
                    table.headerLine(),
                    "column \"" + c.name() + "\" "
                            + (c.dimension() == null
                                    ? "has no unit"
                                    : "is " + Units.describe(c.dimension()) + " by its unit " + c.unit())
                            + ", wanted is " + Units.describe(wanted),
                    "for instance [" + Units.commonUnits(wanted).get(0) + "]");
        }
    }

    private static boolean isComment(Column c) {
        return c.name().toLowerCase(Locale.ROOT).matches("note|remark|comment|test|row|point|no\\.?");
    }

    static RuntimeException unknown(DataTable table, Column c, Case model, String what) {
        List<String> known = new ArrayList<>(List.of("speed"));
        for (Cavity k : model.cavities()) {
            known.add(k.name() + " pressure");
            known.add(k.name() + " temperature");
        }
        String near = DidYouMean.nearest(c.name(), known)
                .map(n -> "did you mean \"" + n + "\"?")
                .orElse("for instance \"" + known.get(1) + " [MPa]\"");
        return DataTable.problem(
                "UNKNOWN_COLUMN", table.name(), table.headerLine(), "column \"" + c.name() + "\" " + what, near);
    }

    /** Place that a column means; null when it means none. */
    static String place(Column c, Case model) {
        String name = c.name().strip();
        if (name.startsWith("/")) {
            return name;
        }
        String lower = name.toLowerCase(Locale.ROOT);
        if (lower.equals("speed") || lower.equals("rotor speed")) {
            return "/rotor/speed";
        }
        if (lower.equals("purge flow")) {
            return RunService.PURGE_FLOW;
        }
        if (lower.equals("bottle pressure") || lower.equals("bottle temperature")) {
            return "/supply/bottles/" + lower.substring(7);
        }
        for (String field : List.of("pressure", "temperature")) {
            if (lower.endsWith(" " + field)) {
                String cavity = name.substring(0, name.length() - field.length() - 1);
                for (Cavity k : model.cavities()) {
                    if (k.name().equalsIgnoreCase(cavity)) {
                        return "/cavities/" + k.name() + "/" + field;
                    }
                }
            }
        }
        if (lower.endsWith(" flow")) {
            String passage = name.substring(0, name.length() - 5);
            for (PassageSpec p : model.passages()) {
                if (p.name().equalsIgnoreCase(passage)) {
                    return "/passages/" + p.name() + "/flow";
                }
            }
        }
        return null;
    }

    /** What a place is measured in; null when that is not known. */
    private static Dimension dimension(String place) {
        String field = place.substring(place.lastIndexOf('/') + 1);
        return switch (kind(field)) {
            case PRESSURE -> Dimension.PRESSURE;
            case TEMPERATURE -> Dimension.TEMPERATURE;
            case SPEED -> Dimension.ANGULAR_SPEED;
            case FLOW -> Dimension.MASS_FLOW;
            default -> field.endsWith("flow") ? Dimension.MASS_FLOW : null;
        };
    }

    private static Kind kind(String field) {
        return switch (field) {
            case "pressure", "set pressure" -> Kind.PRESSURE;
            case "temperature" -> Kind.TEMPERATURE;
            case "flow" -> Kind.FLOW;
            case "speed" -> Kind.SPEED;
            default -> Kind.OTHER;
        };
    }

    private static String unit(Column c) {
        return c.dimension() == null ? "1" : c.dimension().si();
    }
}
