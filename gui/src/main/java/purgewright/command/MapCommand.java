package purgewright.command;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import purgewright.figure.Figure;
import purgewright.figure.PurgeWindowChart;
import purgewright.figure.Readout;
import purgewright.figure.Theme;
import purgewright.fluids.PropertyEngine;
import purgewright.fluids.unit.Dimension;
import purgewright.fluids.unit.UnitException;
import purgewright.fluids.unit.Units;
import purgewright.hazard.service.CaseService;
import purgewright.hazard.service.MapSettings;
import purgewright.hazard.sizing.PurgeWindow;
import purgewright.report.MapText;
import purgewright.report.WholeFile;
import purgewright.result.MapCsv;
import purgewright.result.SizeJson;
import purgewright.sealflow.casefile.CaseDocument;
import purgewright.sealflow.model.Case;

/** The purge window. */
@Command(
        name = "map",
        mixinStandardHelpOptions = true,
        description = {
            "Judges the case over two of its numbers: where every criterion is met, the boundary of each criterion as its own line,"
                    + " lines of equal purge flow, and the operating point with its regulator's band.",
            "A survey grid first, then points along the boundaries until they are known to 1/200 of each side."
        },
        footer = {
            "",
            "Example:",
            "  purgewright map samples/cases/minimal.json --x \"/cavities/bottle line/pressure=0.5MPa..4MPa\""
                    + " --y \"/passages/ring A/clearance=20um..120um\" -o window.svg -o window.csv"
        },
        exitCodeListHeading = "%nExit codes:%n",
        exitCodeList = {"0:computed", "2:bad input", "70:internal error"})
final class MapCommand implements Callable<Integer> {
    /** A grid beyond this is a slip of the finger, not a picture. */
    private static final int MOST_STEPS = 200;

    private static final int MOST_RESOLUTION = 2000;

    private static final double WIDTH = 900;
    private static final double HEIGHT = 620;

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
            description = "Points of the survey along each side, both ends among them. Default: ${DEFAULT-VALUE}.")
    private int steps;

    @Option(
            names = "--resolution",
            paramLabel = "N",
            defaultValue = "200",
            description =
                    "Boundaries are found to 1/N of each side; 0 for the survey alone. Default: ${DEFAULT-VALUE}.")
    private int resolution;

    @Option(names = "--worn", description = "Also with all barrier seals worn.")
    private boolean worn;

    @Option(names = "--extremes", description = "Also at high and low boundary pressures.")
    private boolean extremes;

    @Option(
            names = {"-o", "--output"},
            paramLabel = "FILE",
            description =
                    "Writes the map: every point as .csv (SI units), the drawing as .svg or .png; may be repeated.")
    private List<Path> outputs = List.of();

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
        if (resolution < 0 || resolution > MOST_RESOLUTION) {
            throw new InputProblem(
                    "OUT_OF_RANGE", "--resolution is " + resolution + ", it must be 0 to " + MOST_RESOLUTION, "");
        }
        CaseDocument document = CaseFiles.read(file);
        CaseFiles.requirePhases(document, phases);
        for (Path output : outputs) {
            WholeFile.check(output);
            if (Files.exists(output) && Files.isSameFile(file, output)) {
                throw new InputProblem("FILE", "the map would replace the case itself: " + output, "");
            }
            kind(output);
        }
        Case model = document.toCase();
        Side across = side("--x", x, document, model);
        Side up = side("--y", y, document, model);
        if (across.place().equals(up.place())) {
            throw new InputProblem("BAD_RANGE", "--x and --y are the same place " + up.place(), "");
        }
        PropertyEngine engine = EngineChoice.of(shared.properties);
        MapSettings settings = new MapSettings(
                        across.place(), across.from(), across.to(), up.place(), up.from(), up.to(), steps, phases)
                .withResolution(resolution == 0 ? 0 : 1.0 / resolution)
                .withScenarios(worn, extremes);
        try (Interrupt watch = Interrupt.watch()) {
            PurgeWindow map;
            try (CaseService service = new CaseService(engine, shared.threads())) {
                map = service.map(document, settings, TerminalProgress.on(terminal, shared));
            } catch (IllegalArgumentException e) {
                throw new InputProblem("BAD_RANGE", e.getMessage(), "");
            }
            String title = document.text("/about/title").orElse("(no title)");
            for (Path output : outputs) {
                write(output, map, across, up, document.hash(), engine.name());
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
                                            scenarios(),
                                            title,
                                            engine.name(),
                                            shared.unitSystem()));
            terminal.out().flush();
        }
        return ExitCode.OK;
    }

    private String scenarios() {
        return worn && extremes
                ? "as stated, worn, and at extreme boundary pressures"
                : worn
                        ? "as stated and worn"
                        : extremes ? "as stated and at extreme boundary pressures" : "with the seals as stated";
    }

    private static String kind(Path output) {
        return OutputForm.of("-o", output, "csv", "svg", "png");
    }

    private void write(Path output, PurgeWindow map, Side across, Side up, String hash, String engine)
            throws IOException {
        String kind = kind(output);
        if (kind.equals("csv")) {
            WholeFile.write(output, MapCsv.write(map, hash, Version.number(), engine));
        } else {
            OutputForm.draw(figure(map, across, up), kind, output);
        }
    }

    private Figure figure(PurgeWindow map, Side across, Side up) {
        return PurgeWindowChart.draw(
                        map,
                        words(map.x()),
                        across.dimension().symbol(),
                        words(map.y()),
                        up.dimension().symbol(),
                        map.operatingX(),
                        map.operatingY(),
                        shared.units == SharedOptions.UnitSystem.us ? Readout.US : Readout.SI,
                        Theme.LIGHT,
                        WIDTH,
                        HEIGHT)
                .figure();
    }

    /** {@code /passages/ring A/clearance} as "clearance of ring A". */
    private static String words(String place) {
        String[] parts = place.split("/");
        if (parts.length == 4 && (parts[1].equals("cavities") || parts[1].equals("passages"))) {
            return parts[3] + " of " + parts[2];
        }
        return parts.length == 3 ? parts[2] + " of " + parts[1] : place;
    }

    /** Any number of the case that has a place: those that a model can change by itself, and those typed in the document. */
    private static void requirePlace(CaseDocument document, Case model, String place) {
        boolean typed = document.text(place).filter(Units::looksNumeric).isPresent();
        if (!typed) {
            SizeCommand.requirePlace(model, place);
        }
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
        requirePlace(document, model, place);
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
