package purgewright.result;

import java.io.IOException;
import java.util.List;
import purgewright.fluids.FluidState;
import purgewright.fluids.burnt.BurntGas;

/** {@code fluid --json} in its six forms. SI, the unit in each key; enthalpy and entropy on the engine's reference state. */
public final class FluidJson {
    private FluidJson() {}

    /**
     * A state with its transport properties; NaN where there is no model.
     *
     * @param state thermodynamic state
     * @param viscosity Pa s
     * @param conductivity W/(m K)
     */
    public record Row(FluidState state, double viscosity, double conductivity) {}

    /**
     * A line of a table.
     *
     * @param row the state, null where there is none
     * @param temperature K, NaN when not known
     * @param pressure Pa, NaN when not known
     * @param problem why there is none, in words; empty when there is one
     */
    public record Line(Row row, double temperature, double pressure, String problem) {
        /** A line with its state. */
        public static Line of(Row row) {
            return new Line(row, row.state().temperature(), row.state().pressure(), "");
        }

        /** A line without. */
        public static Line missing(double temperature, double pressure, String problem) {
            return new Line(null, temperature, pressure, problem);
        }
    }

    /**
     * What stands beside every number.
     *
     * @param fluid its name
     * @param engine that gave the properties
     * @param referenceState of enthalpy and entropy, in words
     */
    public record Origin(String fluid, String engine, String referenceState) {}

    private static void origin(JsonText json, Origin origin) throws IOException {
        json.field("engine", origin.engine()).field("reference_state", origin.referenceState());
    }

    /** One state. */
    public static String state(Row row, Origin origin) {
        return JsonText.object(json -> {
            json.field("result", JsonText.LAYOUT).field("fluid", origin.fluid());
            row(json, row);
            origin(json, origin);
        });
    }

    /** A table over one quantity; a line without a state says why in {@code problem}. */
    public static String table(List<Line> lines, Origin origin) {
        return JsonText.object(json -> {
            json.field("result", JsonText.LAYOUT).field("fluid", origin.fluid());
            json.objects("table", lines, (object, line) -> {
                if (line.row() != null) {
                    row(object, line.row());
                } else {
                    object.field("temperature_K", line.temperature())
                            .field("pressure_Pa", line.pressure())
                            .field("problem", line.problem());
                }
            });
            origin(json, origin);
        });
    }

    /** A drawing that was written. */
    public static String diagram(String kind, String file, Origin origin) {
        return JsonText.object(json -> {
            json.field("result", JsonText.LAYOUT)
                    .field("fluid", origin.fluid())
                    .field("diagram", kind)
                    .field("file", file);
            origin(json, origin);
        });
    }

    /** The saturation line: liquid and vapour at each temperature. */
    public static String saturation(List<Row[]> pairs, Origin origin) {
        return JsonText.object(json -> {
            json.field("result", JsonText.LAYOUT).field("fluid", origin.fluid());
            json.objects("saturation", pairs, (line, pair) -> {
                line.field("temperature_K", pair[0].state().temperature());
                line.field("pressure_Pa", pair[0].state().pressure());
                line.object("liquid", liquid -> row(liquid, pair[0]));
                line.object("vapour", vapour -> row(vapour, pair[1]));
            });
            origin(json, origin);
        });
    }

    /**
     * One property, one state, two engines.
     *
     * @param temperature K
     * @param pressure Pa
     * @param property key with unit, as in {@link #state}
     * @param ours value of the first engine
     * @param theirs value of the second engine
     */
    public record Comparison(double temperature, double pressure, String property, double ours, double theirs) {
        /** Deviation relative to the second engine's value. */
        public double deviation() {
            return (ours - theirs) / Math.abs(theirs);
        }
    }

    /** Two engines side by side. */
    public static String comparison(String fluid, List<Comparison> lines, String ours, String theirs) {
        return JsonText.object(json -> {
            json.field("result", JsonText.LAYOUT).field("fluid", fluid);
            json.strings("engines", List.of(ours, theirs));
            json.objects("comparisons", lines, (c, line) -> c.field("temperature_K", line.temperature())
                    .field("pressure_Pa", line.pressure())
                    .field("property", line.property())
                    .field("ours", line.ours())
                    .field("theirs", line.theirs())
                    .field("deviation", line.deviation()));
        });
    }

    /** Combustion products at equilibrium. */
    public static String burn(BurntGas gas, String engine) {
        return JsonText.object(json -> json.field("result", JsonText.LAYOUT)
                .field("temperature_K", gas.temperature())
                .field("molar_mass_kg_mol", gas.molarMass())
                .field("mole_fractions", gas.moleFractions())
                .field("pressure_Pa", gas.pressure())
                .field("cp_J_kgK", gas.frozenHeatCapacity())
                .field("heat_capacity_ratio", gas.heatCapacityRatio())
                .field("condensed_carbon_kg_kg", gas.carbonCondensed())
                .field("extrapolated", gas.extrapolated())
                .field("engine", engine));
    }

    private static void row(JsonText json, Row row) throws IOException {
        FluidState state = row.state();
        json.field("phase", CheckJson.phase(state.phase()))
                .field("temperature_K", state.temperature())
                .field("pressure_Pa", state.pressure())
                .field("density_kg_m3", state.density())
                .field("enthalpy_J_kg", state.enthalpy())
                .field("entropy_J_kgK", state.entropy())
                .field("cp_J_kgK", state.cp())
                .field("cv_J_kgK", state.cv())
                .field("sound_speed_m_s", state.soundSpeed())
                .field("viscosity_Pa_s", row.viscosity())
                .field("conductivity_W_mK", row.conductivity())
                .field("quality", state.quality())
                .field("extrapolated", state.extrapolated());
    }
}
