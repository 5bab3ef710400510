package purgewright.command;

import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import purgewright.figure.Readout;
import purgewright.figure.Theme;
import purgewright.figure.TimeChart;
import purgewright.fluids.PropertyEngine;
import purgewright.fluids.unit.Dimension;
import purgewright.fluids.unit.UnitException;
import purgewright.fluids.unit.UnitSystem;
import purgewright.fluids.unit.Units;
import purgewright.hazard.finding.Verdict;
import purgewright.hazard.service.Channels;
import purgewright.hazard.service.RunResult;
import purgewright.hazard.service.RunService;
import purgewright.hazard.service.RunSettings;
import purgewright.hazard.service.RunSettings.BottleReading;
import purgewright.report.RunText;
import purgewright.report.WholeFile;
import purgewright.result.RunCsv;
import purgewright.result.RunJson;
import purgewright.sealflow.campaign.Channel;
import purgewright.sealflow.casefile.CaseDocument;
import purgewright.sealflow.casefile.DataTable;
import purgewright.sealflow.model.Case;

/** The duty through time. */
@Command(
        name = "run",
        mixinStandardHelpOptions = true,
        description = {
            "Runs the duty through time: bottles, purge flow and every margin from phase to phase; gas used, what happens when, and why"
                    + " the least margin is least.",
            "Without --phase the phases of one attempt are run (\"duty per attempt\" of the campaign), else all. Ctrl-C prints what"
                    + " there is so far."
        },
        footer = {"", "Example:", "  purgewright run samples/cases/spaced-lox-methane.json --plot duty.svg -o duty.csv"
        },
        exitCodeListHeading = "%nExit codes:%n",
        exitCodeList = {
            "0:computed, and no criterion falls short",
            "1:a criterion falls short at some moment",
            "2:bad input",
            "3:not converged",
            "4:not established",
            "70:internal error"
        })
final class RunCommand implements Callable<Integer> {
    private final Terminal terminal;

    @Parameters(paramLabel = "CASE", description = "Case file.")
    private Path file;

    @Option(
            names = "--phase",
            paramLabel = "NAME",
            description = "Only this phase of the duty; may be repeated, the order counts.")
    private List<String> phases = List.of();

    @Option(
            names = "--history",
            paramLabel = "PHASE=FILE",
            description =
                    "CSV of boundary values over the time of a phase, an engine's start for instance; may be repeated.")
    private Map<String, Path> histories = new LinkedHashMap<>();

    @Option(
            names = "--measured",
            paramLabel = "FILE",
            description =
                    "CSV of measured channels over the time of the duty, laid over the prediction; may be repeated.")
    private List<Path> measured = List.of();

    @Option(
            names = "--bank",
            paramLabel = "PRESSURE,TEMPERATURE",
            description =
                    "What the gauge of a bank shows before the run, for instance 142bar,18degC; absolute, unless the unit says gauge; one for each bank, in order.")
    private List<String> banks = List.of();

    @Option(names = "--plot", paramLabel = "FILE", description = "The same for the drawing alone: .svg or .png.")
    private Path plot;

    @Option(
            names = {"-o", "--output"},
            paramLabel = "FILE",
            description = "Writes all channels as .csv (SI units), the drawing as .svg or .png; may be repeated.")
    private List<Path> outputs = List.of();

    @Option(
            names = "--points",
            paramLabel = "N",
            defaultValue = "8",
            description = "Least number of moments in a phase that moves. Default: ${DEFAULT-VALUE}.")
    private int points;

    @Option(names = "--steady", description = "Do not follow the volumes when a valve moves.")
    private boolean steady;

    @Option(names = "--gas-only", description = "Gas alone; no criterion is looked at.")
    private boolean gasOnly;

    @Option(names = "--strict", description = "A thin margin counts as falling short.")
    private boolean strict;

    @Mixin
    private SharedOptions shared;

    RunCommand(Terminal terminal) {
        this.terminal = terminal;
    }

    @Override
    public Integer call() throws IOException {
        if (points < 2 || points > 1000) {
            throw new InputProblem("OUT_OF_RANGE", "--points is " + points + ", it must be 2 to 1000", "");
        }
        CaseDocument document = CaseFiles.read(file);
        CaseFiles.requirePhases(document, phases);
        Map<Path, String> files = files();
        Case model = document.toCase();
        List<Channel> overlays = new ArrayList<>();
        for (Path each : measured) {
            overlays.addAll(
                    Channels.measured(DataTable.read(each, model.surroundings().pressure()), model));
        }
        RunSettings settings = RunSettings.DEFAULT
                .withPhases(phases)
                .withPoints(points)
                .withTransients(!steady)
                .withJudge(!gasOnly)
                .withBottles(readings(banks, model))
                .withMeasured(overlays)
                .withHistories(histories(document, model));
        PropertyEngine engine = EngineChoice.of(shared.properties);
        try (Interrupt watch = Interrupt.watch()) {
            RunResult run = new RunService(engine)
                    .run(document, file.toAbsolutePath().getParent(), settings, TerminalProgress.on(terminal, shared));
            write(run, document, engine, files);
            terminal.flush();
            return code(run);
        }
    }

    /** What is to be written, and in which form. */
    private Map<Path, String> files() throws IOException {
        Map<Path, String> out = new LinkedHashMap<>();
        if (plot != null) {
            out.put(plot, OutputForm.of("--plot", plot, "svg", "png"));
        }
        for (Path each : outputs) {
            out.put(each, OutputForm.of("-o", each, "csv", "svg", "png"));
        }
        for (Path each : out.keySet()) {
            CaseFiles.requireOther(file, each);
        }
        return out;
    }

    private void write(RunResult run, CaseDocument document, PropertyEngine engine, Map<Path, String> files)
            throws IOException {
        String title = document.text("/about/title").orElse("(no title)");
        for (Map.Entry<Path, String> each : files.entrySet()) {
            if (each.getValue().equals("csv")) {
                WholeFile.write(each.getKey(), RunCsv.write(run, document.hash(), Version.number(), engine.name()));
            } else {
                Readout readout = shared.unitSystem() == UnitSystem.US ? Readout.US : Readout.SI;
                OutputForm.draw(TimeChart.of(run, readout, Theme.LIGHT, 1000), each.getValue(), each.getKey());
            }
            if (!shared.quiet) {
                terminal.err().println("purgewright: wrote " + each.getKey());
            }
        }
        terminal.out()
                .print(
                        shared.json
                                ? RunJson.write(run, title, document.hash(), Version.number(), engine.name()) + "\n"
                                : RunText.write(run, title, engine.name(), shared.unitSystem()));
    }

    private int code(RunResult run) {
        return gasOnly && run.outcome() != RunResult.Outcome.NOT_CONVERGED ? ExitCode.OK : code(run.verdict(), strict);
    }

    /** Exit code of a verdict. */
    static int code(Verdict verdict, boolean strict) {
        return switch (verdict) {
            case FALLS_SHORT -> ExitCode.FALLS_SHORT;
            case NOT_CONVERGED -> ExitCode.NOT_CONVERGED;
            case NOT_ESTABLISHED -> ExitCode.NOT_ESTABLISHED;
            case THIN -> strict ? ExitCode.FALLS_SHORT : ExitCode.OK;
            case HOLDS -> ExitCode.OK;
        };
    }

    private Map<String, List<Channel>> histories(CaseDocument document, Case model) {
        Map<String, List<Channel>> out = new LinkedHashMap<>();
        for (Map.Entry<String, Path> e : histories.entrySet()) {
            CaseFiles.requirePhases(document, List.of(e.getKey()));
            out.put(
                    e.getKey(),
                    Channels.history(
                            DataTable.read(e.getValue(), model.surroundings().pressure()), model));
        }
        return out;
    }

    /** Readings of the banks' gauges. */
    static List<BottleReading> readings(List<String> typed, Case model) {
        List<BottleReading> out = new ArrayList<>();
        for (String each : typed) {
            String[] parts = each.split(",", -1);
            if (parts.length != 2) {
                throw new InputProblem(
                        "BAD_READING",
                        "--bank \"" + each + "\" is no PRESSURE,TEMPERATURE",
                        "for instance 142bar,18degC");
            }
            out.add(new BottleReading(
                    quantity(parts[0], Dimension.PRESSURE, model), quantity(parts[1], Dimension.TEMPERATURE, model)));
        }
        return out;
    }

    private static double quantity(String typed, Dimension dimension, Case model) {
        try {
            double value =
                    Units.parse(typed.strip(), dimension, model.surroundings().pressure());
            if (!(value > 0)) {
                throw new InputProblem("OUT_OF_RANGE", "--bank: " + typed.strip() + " must be above 0", "");
            }
            return value;
        } catch (UnitException e) {
            throw new InputProblem(e.key().name(), "--bank: " + e.getMessage(), e.suggestion());
        }
    }
}
