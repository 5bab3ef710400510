package purgewright.result;

import java.util.List;
import java.util.Locale;
import java.util.function.ToDoubleFunction;
import purgewright.fluids.unit.Dimension;
import purgewright.fluids.unit.UnitSystem;
import purgewright.fluids.unit.Units;
import purgewright.result.FluidJson.Line;
import purgewright.result.FluidJson.Origin;
import purgewright.result.FluidJson.Row;

/**
 * {@code fluid --csv}: one line a state, the unit in each column's name. What is not known is an empty cell, and {@code problem} says why
 * a state is missing. Lines of the heading begin with #. No cell begins with a sign that a spreadsheet would read as a formula, but for
 * the minus of a number.
 */
public final class FluidCsv {
    private FluidCsv() {}

    /** A quantity: its name with unit in either system, and how it is had. */
    private record Column(
            String si, String siUnit, String us, String usUnit, Dimension dimension, ToDoubleFunction<Row> value) {}

    private static final List<Column> COLUMNS = List.of(
            new Column("density_kg_m3", "kg/m3", "density_lb_ft3", "lb/ft3", Dimension.DENSITY, r -> r.state()
                    .density()),
            new Column("enthalpy_J_kg", "J/kg", "enthalpy_Btu_lb", "Btu/lb", Dimension.ENTHALPY, r -> r.state()
                    .enthalpy()),
            new Column(
                    "entropy_J_kgK",
                    "J/(kg K)",
                    "entropy_Btu_lbdegF",
                    "Btu/(lb degF)",
                    Dimension.ENTROPY,
                    r -> r.state().entropy()),
            new Column("cp_J_kgK", "J/(kg K)", "cp_Btu_lbdegF", "Btu/(lb degF)", Dimension.ENTROPY, r -> r.state()
                    .cp()),
            new Column("cv_J_kgK", "J/(kg K)", "cv_Btu_lbdegF", "Btu/(lb degF)", Dimension.ENTROPY, r -> r.state()
                    .cv()),
            new Column("sound_speed_m_s", "m/s", "sound_speed_ft_s", "ft/s", Dimension.SPEED, r -> r.state()
                    .soundSpeed()),
            new Column("viscosity_Pa_s", "Pa s", "viscosity_cP", "cP", Dimension.VISCOSITY, Row::viscosity),
            new Column(
                    "conductivity_W_mK",
                    "W/(m K)",
                    "conductivity_Btu_hftdegF",
                    "Btu/(h ft degF)",
                    Dimension.CONDUCTIVITY,
                    Row::conductivity));

    /**
     * The whole file.
     *
     * @param version of this program
     */
    public static String write(List<Line> lines, Origin origin, String version, UnitSystem units) {
        boolean us = units == UnitSystem.US;
        StringBuilder text = new StringBuilder();
        text.append("# purgewright fluid, version ")
                .append(CsvText.line(version))
                .append('\n');
        text.append("# fluid ").append(CsvText.line(origin.fluid())).append('\n');
        text.append("# properties ").append(CsvText.line(origin.engine())).append('\n');
        text.append("# enthalpy and entropy: ")
                .append(CsvText.line(origin.referenceState()))
                .append('\n');
        text.append(us ? "temperature_degF,pressure_psia,phase" : "temperature_K,pressure_Pa,phase");
        for (Column column : COLUMNS) {
            text.append(',').append(us ? column.us() : column.si());
        }
        text.append(",quality,extrapolated,problem\n");
        for (Line line : lines) {
            number(text, Units.in(line.temperature(), Dimension.TEMPERATURE, us ? "degF" : "K"));
            text.append(',');
            number(text, Units.in(line.pressure(), Dimension.PRESSURE, us ? "psia" : "Pa"));
            text.append(',');
            Row row = line.row();
            text.append(
                    row == null ? "" : CsvText.cell(CheckJson.phase(row.state().phase())));
            for (Column column : COLUMNS) {
                text.append(',');
                if (row != null) {
                    number(
                            text,
                            Units.in(
                                    column.value().applyAsDouble(row),
                                    column.dimension(),
                                    us ? column.usUnit() : column.siUnit()));
                }
            }
            text.append(',');
            if (row != null) {
                number(text, row.state().quality());
            }
            text.append(',')
                    .append(row == null ? "" : String.valueOf(row.state().extrapolated()));
            text.append(',').append(CsvText.cell(line.problem())).append('\n');
        }
        return text.toString();
    }

    private static void number(StringBuilder text, double value) {
        if (Double.isFinite(value)) {
            text.append(String.format(Locale.ROOT, "%.9g", value));
        }
    }
}
