package purgewright.command;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;
import purgewright.fluids.Fluid;
import purgewright.fluids.FluidState;
import purgewright.fluids.PropertyEngine;
import purgewright.fluids.PropertyException;
import purgewright.fluids.PureFluid;
import purgewright.fluids.mixture.StreamDefinition;
import purgewright.fluids.unit.Dimension;
import purgewright.report.FluidText;
import purgewright.result.FluidJson;
import purgewright.result.FluidJson.Row;
import purgewright.sealflow.model.Case;

/** Property look-up. */
@Command(
        name = "fluid",
        mixinStandardHelpOptions = true,
        description = {
            "Properties of a pure fluid at two given quantities, or along its saturation line.",
            "Pairs: temperature or pressure with any other but enthalpy or entropy at given temperature; enthalpy with entropy.",
            "Quantities carry units (\"300 K\", \"2.5 MPa\", \"-183 degC\"); a bare number is taken as SI."
        },
        footer = {
            "",
            "Examples:",
            "  purgewright fluid helium --temperature \"288 K\" --pressure \"20 MPa\"",
            "  purgewright fluid oxygen --temperature \"95 K\" --quality 0",
            "  purgewright fluid methane --saturation",
            "  purgewright fluid --list"
        },
        exitCodeListHeading = "%nExit codes:%n",
        exitCodeList = {"0:computed", "2:bad input, or out of the fluid's range", "70:internal error"},
        subcommands = {FluidCompareCommand.class, FluidBurnCommand.class})
final class FluidCommand implements Callable<Integer> {
    /** Lines of a saturation table without a stated temperature or pressure. */
    private static final String AIR_REFERENCE =
            "nitrogen, oxygen and argon at their partial densities, elements at 298.15 K and 1 bar have h = 0";

    private static final int SATURATION_LINES = 21;

    private final Terminal terminal;

    @Spec
    private CommandSpec spec;

    @Mixin
    private SharedOptions shared;

    @Parameters(paramLabel = "NAME", arity = "0..1", description = "Name or alias of the fluid, see --list.")
    private String name;

    @Option(names = "--list", description = "Lists the fluids.")
    private boolean list;

    @Option(names = "--temperature", paramLabel = "T", description = "Temperature.")
    private String temperature;

    @Option(names = "--pressure", paramLabel = "P", description = "Absolute pressure, or gauge against 101.325 kPa.")
    private String pressure;

    @Option(
            names = "--quality",
            paramLabel = "Q",
            description = "Vapour's share of the mass on the saturation line, 0 to 1.")
    private String quality;

    @Option(names = "--enthalpy", paramLabel = "H", description = "Specific enthalpy, on the engine's reference state.")
    private String enthalpy;

    @Option(names = "--entropy", paramLabel = "S", description = "Specific entropy, on the engine's reference state.")
    private String entropy;

    @Option(names = "--density", paramLabel = "D", description = "Density.")
    private String density;

    @Option(
            names = "--saturation",
            description =
                    "The saturation line; at one temperature or pressure when given, else from triple to critical point.")
    private boolean saturation;

    FluidCommand(Terminal terminal) {
        this.terminal = terminal;
    }

    Terminal terminal() {
        return terminal;
    }

    @Override
    public Integer call() {
        PropertyEngine engine = EngineChoice.of(shared.properties);
        if (list) {
            engine.fluidNames().forEach(terminal.out()::println);
            return ExitCode.OK;
        }
        if (name == null) {
            throw new ParameterException(spec.commandLine(), "which fluid? fluid --list names them");
        }
        if (name.strip().toLowerCase(Locale.ROOT).equals(Case.AIR)) {
            return air(engine);
        }
        PureFluid fluid = engine.pure(name);
        String remark = engine.remark(name);
        if (!remark.isEmpty() && !shared.quiet) {
            terminal.err().println("purgewright: " + remark);
        }
        Map<String, Double> given = given();
        if (saturation) {
            return saturation(engine, fluid, given);
        }
        FluidState state = state(fluid, given);
        Row row = row(fluid, state);
        terminal.out()
                .print(
                        shared.json
                                ? FluidJson.state(fluid.name(), row, engine.name(), fluid.referenceState()) + "\n"
                                : FluidText.state(
                                        fluid.name(), row, engine.name(), fluid.referenceState(), shared.unitSystem()));
        return ExitCode.OK;
    }

    /** Air is a mixture: no saturation line of one quality, and enthalpy on the datum that mixtures share. */
    private int air(PropertyEngine engine) {
        Map<String, Double> given = given();
        Fluid air = engine.mixer(List.of(new StreamDefinition.Single(Case.AIR, Case.AIR))).stream(0);
        FluidState state =
                switch (saturation ? "" : String.join(" ", given.keySet())) {
                    case "temperature pressure" ->
                        air.atPressureTemperature(given.get("pressure"), given.get("temperature"));
                    case "pressure enthalpy" -> air.atPressureEnthalpy(given.get("pressure"), given.get("enthalpy"));
                    case "pressure entropy" -> air.atPressureEntropy(given.get("pressure"), given.get("entropy"));
                    default ->
                        throw new InputProblem(
                                "PAIR_NOT_SUPPORTED",
                                "air is a mixture: its state needs --pressure with --temperature, --enthalpy or --entropy",
                                "for a saturation line ask nitrogen or oxygen");
                };
        Row row = row(air, state);
        terminal.out()
                .print(
                        shared.json
                                ? FluidJson.state(Case.AIR, row, engine.name(), AIR_REFERENCE) + "\n"
                                : FluidText.state(Case.AIR, row, engine.name(), AIR_REFERENCE, shared.unitSystem()));
        return ExitCode.OK;
    }

    private int saturation(PropertyEngine engine, PureFluid fluid, Map<String, Double> given) {
        List<Row[]> pairs = new ArrayList<>();
        if (given.isEmpty()) {
            double low = fluid.tripleTemperature();
            double high = fluid.criticalTemperature();
            for (int i = 0; i < SATURATION_LINES; i++) {
                // The last line stays a ten-thousandth below the critical point, where liquid and vapour are still two.
                double share = Math.min((double) i / (SATURATION_LINES - 1), 0.9999);
                pairs.add(pairAtTemperature(fluid, low + share * (high - low)));
            }
        } else if (given.keySet().equals(java.util.Set.of("temperature"))) {
            pairs.add(pairAtTemperature(fluid, given.get("temperature")));
        } else if (given.keySet().equals(java.util.Set.of("pressure"))) {
            double p = given.get("pressure");
            pairs.add(new Row[] {row(fluid, fluid.atPressureQuality(p, 0)), row(fluid, fluid.atPressureQuality(p, 1))});
        } else {
            throw new ParameterException(
                    spec.commandLine(), "--saturation goes with --temperature or --pressure alone, or with neither");
        }
        terminal.out()
                .print(
                        shared.json
                                ? FluidJson.saturation(fluid.name(), pairs, engine.name(), fluid.referenceState())
                                        + "\n"
                                : FluidText.saturation(
                                        fluid.name(),
                                        pairs,
                                        engine.name(),
                                        fluid.referenceState(),
                                        shared.unitSystem()));
        return ExitCode.OK;
    }

    private static Row[] pairAtTemperature(PureFluid fluid, double temperature) {
        return new Row[] {
            row(fluid, fluid.atTemperatureQuality(temperature, 0)),
            row(fluid, fluid.atTemperatureQuality(temperature, 1))
        };
    }

    private Map<String, Double> given() {
        Map<String, Double> given = new LinkedHashMap<>();
        put(given, "temperature", temperature, Dimension.TEMPERATURE);
        put(given, "pressure", pressure, Dimension.PRESSURE);
        put(given, "quality", quality, Dimension.NUMBER);
        put(given, "enthalpy", enthalpy, Dimension.ENTHALPY);
        put(given, "entropy", entropy, Dimension.ENTROPY);
        put(given, "density", density, Dimension.DENSITY);
        return given;
    }

    private void put(Map<String, Double> given, String option, String typed, Dimension dimension) {
        if (typed != null) {
            given.put(option, TypedQuantity.read("--" + option, typed, dimension, terminal, shared.quiet));
        }
    }

    private FluidState state(PureFluid fluid, Map<String, Double> given) {
        if (given.size() != 2) {
            throw new ParameterException(
                    spec.commandLine(),
                    "give two of --temperature, --pressure, --quality, --enthalpy, --entropy, --density ("
                            + given.size() + " given)");
        }
        double t = given.getOrDefault("temperature", Double.NaN);
        double p = given.getOrDefault("pressure", Double.NaN);
        double q = given.getOrDefault("quality", Double.NaN);
        double h = given.getOrDefault("enthalpy", Double.NaN);
        double s = given.getOrDefault("entropy", Double.NaN);
        double d = given.getOrDefault("density", Double.NaN);
        if (given.containsKey("quality") && !(q >= 0 && q <= 1)) {
            throw new InputProblem("OUT_OF_RANGE", "--quality is " + q + ", it must lie between 0 and 1", "");
        }
        return switch (String.join(" ", given.keySet())) {
            case "temperature pressure" -> fluid.atPressureTemperature(p, t);
            case "temperature quality" -> fluid.atTemperatureQuality(t, q);
            case "temperature density" -> fluid.atDensityTemperature(d, t);
            case "pressure quality" -> fluid.atPressureQuality(p, q);
            case "pressure enthalpy" -> fluid.atPressureEnthalpy(p, h);
            case "pressure entropy" -> fluid.atPressureEntropy(p, s);
            case "pressure density" -> fluid.atPressureDensity(p, d);
            case "enthalpy entropy" -> fluid.atEnthalpyEntropy(h, s);
            default ->
                throw new InputProblem(
                        "PAIR_NOT_SUPPORTED",
                        "--" + String.join(" with --", given.keySet()) + " is no pair that fixes a state here",
                        "give pressure with one of them");
        };
    }

    /** Transport properties where there is a model for them, else NaN; a state without viscosity is still a state. */
    static Row row(Fluid fluid, FluidState state) {
        double viscosity;
        double conductivity;
        try {
            viscosity = fluid.viscosity(state);
        } catch (PropertyException e) {
            viscosity = Double.NaN;
        }
        try {
            conductivity = fluid.conductivity(state);
        } catch (PropertyException e) {
            conductivity = Double.NaN;
        }
        return new Row(state, viscosity, conductivity);
    }
}
