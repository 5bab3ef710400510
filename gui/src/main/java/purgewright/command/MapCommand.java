package purgewright.command;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import purgewright.fluids.PropertyEngine;
import purgewright.fluids.unit.Dimension;
import purgewright.fluids.unit.UnitException;
import purgewright.fluids.unit.Units;
import purgewright.hazard.service.CaseService;
import purgewright.hazard.service.MapSettings;
import purgewright.hazard.sizing.PurgeWindow;
import purgewright.report.MapText;
import purgewright.result.MapCsv;
import purgewright.result.SizeJson;
import purgewright.sealflow.casefile.CaseDocument;
import purgewright.sealflow.model.Case;

/** The purge window. */
@Command(
        name = "map",
        mixinStandardHelpOptions = true,
        description =
                "Judges the case on a grid over two of its numbers: where every criterion is met, and which one governs.",
        footer = {
            "",
            "Example:",
            "  purgewright map samples/cases/minimal.json --x \"/cavities/bottle line/pressure=0.5MPa..4MPa\""
                    + " --y \"/passages/ring A/clearance=20um..120um\" --steps 5"
        },
        exitCodeListHeading = "%nExit codes:%n",
        exitCodeList = {"0:computed", "2:bad input", "70:internal error"})
final class MapCommand implements Callable<Integer> {
    /** A grid beyond this is a slip of the finger, not a picture. */
    private static final int MOST_STEPS = 200;

    private final Terminal terminal;

    @Parameters(paramLabel = "CASE", description = "Case file.")
    private Path file;

    @Option(
            names = "--x",
            required = true,
            paramLabel = "PLACE=FROM..TO",
            description = "First number: its place in the case and its range, with units.")
    private String x;

    @Option(names = "--y", required = true, paramLabel = "PLACE=FROM..TO", description = "Second number, likewise.")
    private String y;

    @Option(
            names = "--steps",
            paramLabel = "N",
            defaultValue = "11",
            description = "Points along each side, both ends among them. Default: ${DEFAULT-VALUE}.")
    private int steps;

    @Option(
            names = {"-o", "--output"},
            paramLabel = "FILE",
            description = "Writes the grid as CSV, SI units.")
    private Path output;

    @Option(names = "--phase", paramLabel = "NAME", description = "Only this phase of the duty; may be repeated.")
    private List<String> phases = List.of();

    @Mixin
    private SharedOptions shared;

    MapCommand(Terminal terminal) {
        this.terminal = terminal;
    }

    /** One side of the grid. */
    private record Side(String place, double from, double to, Dimension dimension) {}

    @Override
    public Integer call() throws IOException {
        if (steps < 2 || steps > MOST_STEPS) {
            throw new InputProblem("OUT_OF_RANGE", "--steps is " + steps + ", it must be 2 to " + MOST_STEPS, "");
        }
        CaseDocument document = CaseFiles.read(file);
        CaseFiles.requirePhases(document, phases);
        if (output != null && Files.exists(output) && Files.isSameFile(file, output)) {
            throw new InputProblem("FILE", "the map would replace the case itself: " + output, "");
        }
        Case model = document.toCase();
        Side across = side("--x", x, document, model);
        Side up = side("--y", y, document, model);
        if (across.place().equals(up.place())) {
            throw new InputProblem("BAD_RANGE", "--x and --y are the same place " + up.place(), "");
        }
        PropertyEngine engine = EngineChoice.of(shared.properties);
        MapSettings settings = new MapSettings(
                across.place(), across.from(), across.to(), up.place(), up.from(), up.to(), steps, phases);
        PurgeWindow map;
        try (CaseService service = new CaseService(engine, shared.threads())) {
            map = service.map(document, settings, TerminalProgress.on(terminal, shared));
        }
        String title = document.text("/about/title").orElse("(no title)");
        if (output != null) {
            String csv = MapCsv.write(map, document.hash(), Version.number(), engine.name());
            Files.writeString(output, csv, StandardCharsets.UTF_8);
            if (!shared.quiet) {
                terminal.err().println("purgewright: wrote " + output);
            }
        }
        terminal.out()
                .print(
                        shared.json
                                ? SizeJson.map(map, title, document.hash(), Version.number(), engine.name()) + "\n"
                                : MapText.write(
                                        map,
                                        across.dimension(),
                                        up.dimension(),
                                        title,
                                        engine.name(),
                                        shared.unitSystem()));
        return ExitCode.OK;
    }

    private static Side side(String option, String typed, CaseDocument document, Case model) {
        // The last sign: a name may hold one, a quantity never does.
        int equals = typed.lastIndexOf('=');
        int dots = typed.indexOf("..", equals + 1);
        if (equals < 1 || dots < 0) {
            throw new InputProblem(
                    "BAD_RANGE",
                    option + " \"" + typed + "\" is no PLACE=FROM..TO",
                    "for instance \"/passages/NAME/clearance=20um..120um\"");
        }
        String place = typed.substring(0, equals).strip();
        SizeCommand.requirePlace(model, place);
        Units.Quantity from = quantity(option, typed.substring(equals + 1, dots), model);
        Units.Quantity to = quantity(option, typed.substring(dots + 2), model);
        Dimension wanted = document.text(place)
                .map(text -> quantity(option, text, model).dimension())
                .orElse(from.dimension());
        for (Units.Quantity end : List.of(from, to)) {
            if (end.dimension() != wanted) {
                throw new InputProblem(
                        "WRONG_DIMENSION",
                        option + ": " + place + " is " + Units.describe(wanted) + ", the range is "
                                + Units.describe(end.dimension()),
                        "for instance " + Units.example(wanted));
            }
        }
        if (!(to.si() > from.si()) || !(from.si() >= 0)) {
            throw new InputProblem(
                    "BAD_RANGE", option + ": the range must rise and not begin below zero", "FROM..TO, FROM below TO");
        }
        return new Side(place, from.si(), to.si(), wanted);
    }

    private static Units.Quantity quantity(String option, String typed, Case model) {
        try {
            return Units.parseAny(typed.strip(), model.surroundings().pressure());
        } catch (UnitException e) {
            throw new InputProblem(e.key().name(), option + ": " + e.getMessage(), e.suggestion());
        }
    }
}
