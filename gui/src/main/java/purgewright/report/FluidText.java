package purgewright.report;

import java.util.List;
import java.util.Locale;
import java.util.Map;
import purgewright.fluids.FluidState;
import purgewright.fluids.Phase;
import purgewright.fluids.burnt.BurntGas;
import purgewright.fluids.unit.Dimension;
import purgewright.fluids.unit.UnitSystem;
import purgewright.fluids.unit.Units;
import purgewright.result.FluidJson.Comparison;
import purgewright.result.FluidJson.Line;
import purgewright.result.FluidJson.Origin;
import purgewright.result.FluidJson.Row;

/** The text output of {@code fluid}. */
public final class FluidText {
    private static final int DIGITS = 7;

    private FluidText() {}

    /** One state. */
    public static String state(Row row, Origin origin, UnitSystem units) {
        FluidState state = row.state();
        StringBuilder text = new StringBuilder();
        text.append(origin.fluid()).append(", ").append(FluidText.phase(state)).append('\n');
        Table table = new Table("  ", "lrl");
        line(table, "temperature", state.temperature(), Dimension.TEMPERATURE, units);
        line(table, "pressure", state.pressure(), Dimension.PRESSURE, units);
        line(table, "density", state.density(), Dimension.DENSITY, units);
        line(table, "enthalpy", state.enthalpy(), Dimension.ENTHALPY, units);
        line(table, "entropy", state.entropy(), Dimension.ENTROPY, units);
        line(table, "heat capacity cp", state.cp(), Dimension.ENTROPY, units);
        line(table, "heat capacity cv", state.cv(), Dimension.ENTROPY, units);
        line(table, "sound speed", state.soundSpeed(), Dimension.SPEED, units);
        line(table, "viscosity", row.viscosity(), Dimension.VISCOSITY, units);
        line(table, "conductivity", row.conductivity(), Dimension.CONDUCTIVITY, units);
        table.row("quality", Units.number(state.quality(), DIGITS), "");
        table.appendTo(text);
        if (state.extrapolated()) {
            text.append("  Outside the range that the equation was published for: extrapolated.\n");
        }
        origin(text, origin);
        return text.toString();
    }

    private static void origin(StringBuilder text, Origin origin) {
        Words.paragraph(text, "  ", "  ", "Enthalpy and entropy: " + origin.referenceState() + ".");
        text.append("  Properties: ").append(origin.engine()).append('\n');
    }

    /** A table over one quantity. */
    public static String table(List<Line> lines, Origin origin, UnitSystem units) {
        Figures figures = new Figures(units);
        boolean us = units == UnitSystem.US;
        String density = us ? "lb/ft3" : "kg/m3";
        String enthalpy = us ? "Btu/lb" : "kJ/kg";
        String entropy = us ? "Btu/(lb degF)" : "kJ/(kg K)";
        String speed = us ? "ft/s" : "m/s";
        String viscosity = us ? "cP" : "uPa s";
        String conductivity = us ? "Btu/(h ft degF)" : "W/(m K)";
        StringBuilder text = new StringBuilder(origin.fluid()).append('\n');
        Table table = new Table("  ", "rrlrrrrrrr");
        table.heading(
                "temperature", "pressure", "phase", "density", "h", "s", "cp", "sound", "viscosity", "conductivity");
        table.heading(
                figures.temperatureUnit(),
                figures.pressureUnit(),
                "",
                density,
                enthalpy,
                entropy,
                entropy,
                speed,
                viscosity,
                conductivity);
        boolean extrapolated = false;
        for (Line line : lines) {
            String t = value(line.temperature(), Dimension.TEMPERATURE, figures.temperatureUnit(), 6);
            String p = value(line.pressure(), Dimension.PRESSURE, figures.pressureUnit(), 6);
            if (line.row() == null) {
                table.row(t, p, line.problem(), "-", "-", "-", "-", "-", "-", "-");
                continue;
            }
            FluidState state = line.row().state();
            extrapolated |= state.extrapolated();
            table.row(
                    t,
                    p,
                    phase(state) + (state.extrapolated() ? " *" : ""),
                    value(state.density(), Dimension.DENSITY, density, 6),
                    value(state.enthalpy(), Dimension.ENTHALPY, enthalpy, 6),
                    value(state.entropy(), Dimension.ENTROPY, entropy, 6),
                    value(state.cp(), Dimension.ENTROPY, entropy, 5),
                    value(state.soundSpeed(), Dimension.SPEED, speed, 5),
                    value(line.row().viscosity(), Dimension.VISCOSITY, viscosity, 5),
                    value(line.row().conductivity(), Dimension.CONDUCTIVITY, conductivity, 5));
        }
        table.appendTo(text);
        if (extrapolated) {
            text.append("  * Outside the range that the equation was published for: extrapolated.\n");
        }
        origin(text, origin);
        return text.toString();
    }

    private static String value(double si, Dimension dimension, String unit, int digits) {
        return Double.isNaN(si) ? "-" : Figures.fixed(Units.in(si, dimension, unit), digits);
    }

    /** Here the definition counts. */
    private static String phase(FluidState state) {
        return state.phase() == Phase.SUPERCRITICAL
                ? "supercritical"
                : state.phase() == Phase.TWO_PHASE ? "liquid and vapour" : Words.phase(state);
    }

    private static void line(Table table, String name, double si, Dimension dimension, UnitSystem units) {
        if (Double.isNaN(si)) {
            table.row(name, "-", "");
            return;
        }
        String shown = Units.format(si, dimension, units, DIGITS);
        int blank = shown.indexOf(' ');
        table.row(name, blank < 0 ? shown : shown.substring(0, blank), blank < 0 ? "" : shown.substring(blank + 1));
    }

    /** The saturation line. */
    public static String saturation(List<Row[]> pairs, Origin origin, UnitSystem units) {
        Figures figures = new Figures(units);
        StringBuilder text = new StringBuilder(origin.fluid()).append(", saturation line\n");
        Table table = new Table("  ", "rrrrrrr");
        table.heading(
                "temperature", "pressure", "liquid density", "vapour density", "liquid h", "vapour h", "evaporation");
        String density = units == UnitSystem.US ? "lb/ft3" : "kg/m3";
        String enthalpy = units == UnitSystem.US ? "BTU/lb" : "kJ/kg";
        table.heading(
                figures.temperatureUnit(), figures.pressureUnit(), density, density, enthalpy, enthalpy, enthalpy);
        for (Row[] pair : pairs) {
            FluidState liquid = pair[0].state();
            FluidState vapour = pair[1].state();
            table.row(
                    String.format(
                            Locale.ROOT,
                            "%.3f",
                            Units.in(liquid.temperature(), Dimension.TEMPERATURE, figures.temperatureUnit())),
                    Figures.fixed(Units.in(liquid.pressure(), Dimension.PRESSURE, figures.pressureUnit()), 6),
                    Figures.fixed(Units.in(liquid.density(), Dimension.DENSITY, density), 6),
                    Figures.fixed(Units.in(vapour.density(), Dimension.DENSITY, density), 6),
                    Figures.fixed(Units.in(liquid.enthalpy(), Dimension.ENTHALPY, enthalpy), 6),
                    Figures.fixed(Units.in(vapour.enthalpy(), Dimension.ENTHALPY, enthalpy), 6),
                    Figures.fixed(Units.in(vapour.enthalpy() - liquid.enthalpy(), Dimension.ENTHALPY, enthalpy), 5));
        }
        table.appendTo(text);
        Words.paragraph(text, "  ", "  ", "Enthalpy: " + origin.referenceState() + ".");
        text.append("  Properties: ").append(origin.engine()).append('\n');
        return text.toString();
    }

    /** Two engines side by side. */
    public static String comparison(String fluid, List<Comparison> lines, String ours, String theirs) {
        StringBuilder text = new StringBuilder(fluid)
                .append(": ")
                .append(ours)
                .append(" against ")
                .append(theirs)
                .append('\n');
        Table table = new Table("  ", "rrlrrr");
        table.heading("T / K", "p / MPa", "property", "ours", "theirs", "deviation");
        for (Comparison line : lines) {
            table.row(
                    Units.number(line.temperature(), 6),
                    Units.number(line.pressure() / 1e6, 5),
                    line.property(),
                    Units.number(line.ours(), DIGITS),
                    Units.number(line.theirs(), DIGITS),
                    String.format(Locale.ROOT, "%.1e", line.deviation()));
        }
        table.appendTo(text);
        return text.toString();
    }

    /** Combustion products. */
    public static String burn(String title, BurntGas gas, String engine, UnitSystem units) {
        StringBuilder text = new StringBuilder(title).append('\n');
        Table table = new Table("  ", "lrl");
        line(table, "temperature", gas.temperature(), Dimension.TEMPERATURE, units);
        table.row("molar mass", Units.number(gas.molarMass() * 1000, 6), "g/mol");
        line(table, "heat capacity cp, frozen", gas.frozenHeatCapacity(), Dimension.ENTROPY, units);
        table.row("heat capacity ratio", Units.number(gas.heatCapacityRatio(), 5), "");
        gas.moleFractions().entrySet().stream()
                .sorted(Map.Entry.<String, Double>comparingByValue().reversed())
                .filter(e -> e.getValue() >= 1e-8)
                .forEach(e -> table.row(e.getKey(), Figures.fixed(100 * e.getValue(), 5), "mole %"));
        table.appendTo(text);
        if (gas.carbonCondensed() > 0) {
            text.append("  Graphite takes ")
                    .append(Figures.fixed(100 * gas.carbonCondensed(), 3))
                    .append(" % of the mass; the fractions above are of the gas.\n");
        }
        text.append(gas.graphite() ? "  Equilibrium, graphite allowed. Very" : "  Equilibrium, gas phase. Very")
                .append(" fuel-rich gas of a real burner is often far from equilibrium.\n");
        text.append("  Properties: ").append(engine).append('\n');
        return text.toString();
    }
}
