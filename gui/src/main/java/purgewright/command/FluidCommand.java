package purgewright.command;

import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.concurrent.Callable;
import java.util.function.Supplier;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;
import purgewright.figure.Figure;
import purgewright.figure.PhaseDiagram;
import purgewright.figure.Readout;
import purgewright.figure.Theme;
import purgewright.fluids.Fluid;
import purgewright.fluids.FluidState;
import purgewright.fluids.PropertyEngine;
import purgewright.fluids.PropertyException;
import purgewright.fluids.PureFluid;
import purgewright.fluids.mixture.StreamDefinition;
import purgewright.fluids.unit.Dimension;
import purgewright.report.FluidText;
import purgewright.report.WholeFile;
import purgewright.result.FluidCsv;
import purgewright.result.FluidJson;
import purgewright.result.FluidJson.Line;
import purgewright.result.FluidJson.Row;
import purgewright.sealflow.model.Case;

/** Property look-up. */
@Command(
        name = "fluid",
        mixinStandardHelpOptions = true,
        description = {
            "Properties of a pure fluid or of air: one state, a table, the saturation line, a phase diagram.",
            "Pairs: temperature or pressure with any other but enthalpy or entropy at given temperature; enthalpy with entropy.",
            "Quantities carry units (\"300 K\", \"2.5 MPa\", \"-183 degC\"); a bare number is taken as SI.",
            "One of the two may be a range, \"90K..300K\": then the answer is a table."
        },
        footer = {
            "",
            "Examples:",
            "  purgewright fluid helium --temperature \"288 K\" --pressure \"20 MPa\"",
            "  purgewright fluid oxygen --temperature \"95 K\" --quality 0",
            "  purgewright fluid methane --saturation",
            "  purgewright fluid nitrogen --pressure \"4 MPa\" --temperature 80K..300K --steps 12 --csv",
            "  purgewright fluid oxygen --diagram ts -o oxygen.svg",
            "  purgewright fluid --list"
        },
        exitCodeListHeading = "%nExit codes:%n",
        exitCodeList = {"0:computed", "2:bad input, or out of the fluid's range", "70:internal error"},
        subcommands = {FluidCompareCommand.class, FluidBurnCommand.class})
final class FluidCommand implements Callable<Integer> {
    private static final String AIR_REFERENCE =
            "nitrogen, oxygen and argon at their partial densities, elements at 298.15 K and 1 bar have h = 0";

    private static final int MOST_STEPS = 10_000;

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
                    "The saturation line; at one temperature or pressure or over a range of one, else from triple to critical point.")
    private boolean saturation;

    @Option(
            names = "--steps",
            paramLabel = "N",
            defaultValue = "21",
            description = "Lines of a table, both ends among them. Default: ${DEFAULT-VALUE}.")
    private int steps;

    @Option(
            names = "--csv",
            description = "Prints comma-separated values, the unit in each column's name, instead of the text.")
    private boolean csv;

    @Option(
            names = "--diagram",
            paramLabel = "ph|ts",
            description = "Draws pressure against enthalpy, or temperature against entropy, into the file of -o.")
    private Diagram diagram;

    @Option(
            names = {"-o", "--output"},
            paramLabel = "FILE",
            description = "A .csv takes the numbers; a .svg or .png takes the diagram.")
    private Path output;

    /** Lower-case on purpose: these are the words that are typed. */
    enum Diagram {
        ph(PhaseDiagram.Kind.PRESSURE_ENTHALPY),
        ts(PhaseDiagram.Kind.TEMPERATURE_ENTROPY);

        private final PhaseDiagram.Kind kind;

        Diagram(PhaseDiagram.Kind kind) {
            this.kind = kind;
        }
    }

    FluidCommand(Terminal terminal) {
        this.terminal = terminal;
    }

    Terminal terminal() {
        return terminal;
    }

    @Override
    public Integer call() throws IOException {
        PropertyEngine engine = EngineChoice.of(shared.properties);
        if (list) {
            engine.fluidNames().forEach(terminal.out()::println);
            return ExitCode.OK;
        }
        if (name == null) {
            throw new ParameterException(spec.commandLine(), "which fluid? fluid --list names them");
        }
        checkOptions();
        Map<String, Given> given = given();
        boolean isAir = name.strip().toLowerCase(Locale.ROOT).equals(Case.AIR);
        if (isAir && (saturation || diagram != null)) {
            throw airIsAMixture();
        }
        Fluid fluid = isAir
                ? engine.mixer(List.of(new StreamDefinition.Single(Case.AIR, Case.AIR))).stream(0)
                : engine.pure(name);
        String remark = isAir ? "" : engine.remark(name);
        if (!remark.isEmpty() && !shared.quiet) {
            terminal.err().println("purgewright: " + remark);
        }
        FluidJson.Origin origin = new FluidJson.Origin(
                fluid.name(), engine.name(), isAir ? AIR_REFERENCE : ((PureFluid) fluid).referenceState());
        if (diagram != null) {
            return draw((PureFluid) fluid, given, origin);
        }
        if (saturation) {
            return saturation((PureFluid) fluid, given, origin);
        }
        if (given.size() != 2) {
            throw new ParameterException(
                    spec.commandLine(),
                    "give two of --temperature, --pressure, --quality, --enthalpy, --entropy, --density ("
                            + given.size() + " given)");
        }
        if (given.values().stream().anyMatch(Given::range)) {
            return table(fluid, given, origin);
        }
        Row row = row(fluid, state(fluid, at(given, 0)));
        return print(
                List.of(Line.of(row)),
                origin,
                () -> FluidJson.state(row, origin),
                () -> FluidText.state(row, origin, shared.unitSystem()));
    }

    private void checkOptions() throws IOException {
        if (steps < 2 || steps > MOST_STEPS) {
            throw new InputProblem("OUT_OF_RANGE", "--steps is " + steps + ", it must be 2 to " + MOST_STEPS, "");
        }
        if (csv && shared.json) {
            throw new InputProblem(
                    "BAD_OPTIONS", "--csv and --json are two forms of the same answer", "give one of them");
        }
        if (output != null) {
            WholeFile.check(output);
        }
        String file = output == null ? "" : output.toString().toLowerCase(Locale.ROOT);
        boolean picture = file.endsWith(".svg") || file.endsWith(".png");
        if (diagram != null && !picture) {
            throw new InputProblem(
                    "BAD_OPTIONS", "--diagram needs -o with a file that ends in .svg or .png", "-o " + name + ".svg");
        }
        if (diagram != null && (csv || saturation)) {
            throw new InputProblem("BAD_OPTIONS", "--diagram goes with neither --csv nor --saturation", "");
        }
        if (output != null && diagram == null && !file.endsWith(".csv")) {
            throw new InputProblem(
                    "BAD_OPTIONS",
                    "-o " + output + ": numbers go into a file that ends in .csv",
                    picture ? "--diagram ph or --diagram ts for a picture" : "");
        }
    }

    private static InputProblem airIsAMixture() {
        return new InputProblem(
                "PAIR_NOT_SUPPORTED",
                "air is a mixture: its state needs --pressure with --temperature, --enthalpy or --entropy",
                "for a saturation line or a diagram ask nitrogen or oxygen");
    }

    /** The answer in the form asked for, and as a file where one is asked for. */
    private int print(List<Line> lines, FluidJson.Origin origin, Supplier<String> json, Supplier<String> text)
            throws IOException {
        if (csv || output != null) {
            String values = FluidCsv.write(lines, origin, Version.number(), shared.unitSystem());
            if (output != null) {
                WholeFile.write(output, values);
                wrote();
            }
            if (csv) {
                terminal.out().print(values);
                return ExitCode.OK;
            }
        }
        terminal.out().print(shared.json ? json.get() + "\n" : text.get());
        return ExitCode.OK;
    }

    private void wrote() {
        if (!shared.quiet) {
            terminal.err().println("purgewright: wrote " + output);
        }
    }

    private int table(Fluid fluid, Map<String, Given> given, FluidJson.Origin origin) throws IOException {
        List<Line> lines = new ArrayList<>();
        PropertyException first = null;
        for (int i = 0; i < steps; i++) {
            Map<String, Double> at = at(given, (double) i / (steps - 1));
            try {
                lines.add(Line.of(row(fluid, state(fluid, at))));
            } catch (PropertyException e) {
                // Part of a range may lie in the solid or outside the equation: that line says so, the others stand.
                first = first == null ? e : first;
                lines.add(Line.missing(
                        at.getOrDefault("temperature", Double.NaN),
                        at.getOrDefault("pressure", Double.NaN),
                        e.key().name().toLowerCase(Locale.ROOT).replace('_', ' ')));
            }
        }
        if (lines.stream().allMatch(line -> line.row() == null)) {
            throw first;
        }
        return print(
                lines,
                origin,
                () -> FluidJson.table(lines, origin),
                () -> FluidText.table(lines, origin, shared.unitSystem()));
    }

    private int draw(PureFluid fluid, Map<String, Given> given, FluidJson.Origin origin) throws IOException {
        for (String key : given.keySet()) {
            if (!(key.equals("temperature") || key.equals("pressure"))
                    || !given.get(key).range()) {
                throw new InputProblem(
                        "BAD_OPTIONS",
                        "--diagram takes ranges of --temperature and --pressure only",
                        "--pressure 0.1MPa..20MPa");
            }
        }
        Given p = given.get("pressure");
        Given t = given.get("temperature");
        PhaseDiagram.Window window = PhaseDiagram.Window.of(fluid)
                .withPressures(p == null ? Double.NaN : p.from(), p == null ? Double.NaN : p.to())
                .withTemperatures(t == null ? Double.NaN : t.from(), t == null ? Double.NaN : t.to());
        Figure figure = PhaseDiagram.draw(
                fluid,
                diagram.kind,
                window,
                shared.units == SharedOptions.UnitSystem.us ? Readout.US : Readout.SI,
                Theme.LIGHT,
                1000,
                720);
        OutputForm.draw(figure, output.toString().toLowerCase(Locale.ROOT).endsWith(".png") ? "png" : "svg", output);
        wrote();
        terminal.out()
                .print(
                        shared.json
                                ? FluidJson.diagram(diagram.name(), output.toString(), origin) + "\n"
                                : figure.caption() + "\n");
        return ExitCode.OK;
    }

    private int saturation(PureFluid fluid, Map<String, Given> given, FluidJson.Origin origin) throws IOException {
        List<Row[]> pairs = new ArrayList<>();
        if (given.isEmpty()) {
            double low = fluid.tripleTemperature();
            double high = fluid.criticalTemperature();
            for (int i = 0; i < steps; i++) {
                // The last line stays a ten-thousandth below the critical point, where liquid and vapour are still two.
                double share = Math.min((double) i / (steps - 1), 0.9999);
                pairs.add(pairAtTemperature(fluid, low + share * (high - low)));
            }
        } else if (given.size() == 1 && (given.containsKey("temperature") || given.containsKey("pressure"))) {
            Given one = given.values().iterator().next();
            int lines = one.range() ? steps : 1;
            for (int i = 0; i < lines; i++) {
                double at = one.at(lines == 1 ? 0 : (double) i / (lines - 1));
                pairs.add(
                        given.containsKey("temperature")
                                ? pairAtTemperature(fluid, at)
                                : new Row[] {
                                    row(fluid, fluid.atPressureQuality(at, 0)),
                                    row(fluid, fluid.atPressureQuality(at, 1))
                                });
            }
        } else {
            throw new ParameterException(
                    spec.commandLine(), "--saturation goes with --temperature or --pressure alone, or with neither");
        }
        List<Line> lines = new ArrayList<>();
        for (Row[] pair : pairs) {
            lines.add(Line.of(pair[0]));
            lines.add(Line.of(pair[1]));
        }
        return print(
                lines,
                origin,
                () -> FluidJson.saturation(pairs, origin),
                () -> FluidText.saturation(pairs, origin, shared.unitSystem()));
    }

    private static Row[] pairAtTemperature(PureFluid fluid, double temperature) {
        return new Row[] {
            row(fluid, fluid.atTemperatureQuality(temperature, 0)),
            row(fluid, fluid.atTemperatureQuality(temperature, 1))
        };
    }

    /** A quantity as typed: one value, or a range with both ends. */
    private record Given(double from, double to, boolean range) {
        double at(double share) {
            return from + share * (to - from);
        }
    }

    private static Map<String, Double> at(Map<String, Given> given, double share) {
        Map<String, Double> at = new LinkedHashMap<>();
        given.forEach((key, one) -> at.put(key, one.at(share)));
        return at;
    }

    private Map<String, Given> given() {
        Map<String, Given> given = new LinkedHashMap<>();
        put(given, "temperature", temperature, Dimension.TEMPERATURE);
        put(given, "pressure", pressure, Dimension.PRESSURE);
        put(given, "quality", quality, Dimension.NUMBER);
        put(given, "enthalpy", enthalpy, Dimension.ENTHALPY);
        put(given, "entropy", entropy, Dimension.ENTROPY);
        put(given, "density", density, Dimension.DENSITY);
        if (diagram == null && given.values().stream().filter(Given::range).count() > 1) {
            throw new InputProblem("BAD_RANGE", "one quantity may be a range, the other has to stand still", "");
        }
        return given;
    }

    private void put(Map<String, Given> given, String option, String typed, Dimension dimension) {
        if (typed == null) {
            return;
        }
        int dots = typed.indexOf("..");
        if (dots < 0) {
            double one = read(option, typed, dimension);
            given.put(option, new Given(one, one, false));
            return;
        }
        double from = read(option, typed.substring(0, dots), dimension);
        double to = read(option, typed.substring(dots + 2), dimension);
        if (from == to) {
            throw new InputProblem("BAD_RANGE", "--" + option + " " + typed + ": both ends are the same", "");
        }
        given.put(option, new Given(from, to, true));
    }

    private double read(String option, String typed, Dimension dimension) {
        double value = TypedQuantity.read("--" + option, typed, dimension, terminal, shared.quiet);
        if (option.equals("quality") && !(value >= 0 && value <= 1)) {
            throw new InputProblem("OUT_OF_RANGE", "--quality is " + value + ", it must lie between 0 and 1", "");
        }
        return value;
    }

    private static FluidState state(Fluid any, Map<String, Double> given) {
        double t = given.getOrDefault("temperature", Double.NaN);
        double p = given.getOrDefault("pressure", Double.NaN);
        double q = given.getOrDefault("quality", Double.NaN);
        double h = given.getOrDefault("enthalpy", Double.NaN);
        double s = given.getOrDefault("entropy", Double.NaN);
        double d = given.getOrDefault("density", Double.NaN);
        String pair = String.join(" ", given.keySet());
        switch (pair) {
            case "temperature pressure":
                return any.atPressureTemperature(p, t);
            case "pressure enthalpy":
                return any.atPressureEnthalpy(p, h);
            case "pressure entropy":
                return any.atPressureEntropy(p, s);
            default:
                break;
        }
        if (!(any instanceof PureFluid fluid)) {
            throw airIsAMixture();
        }
        return switch (pair) {
            case "temperature quality" -> fluid.atTemperatureQuality(t, q);
            case "temperature density" -> fluid.atDensityTemperature(d, t);
            case "pressure quality" -> fluid.atPressureQuality(p, q);
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
