package purgewright.command;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import purgewright.figure.ResidualChart;
import purgewright.figure.Theme;
import purgewright.fluids.PropertyEngine;
import purgewright.fluids.unit.Dimension;
import purgewright.fluids.unit.UnitException;
import purgewright.fluids.unit.Units;
import purgewright.hazard.service.FitResult;
import purgewright.hazard.service.FitService;
import purgewright.hazard.service.FitSettings;
import purgewright.report.FitText;
import purgewright.report.WholeFile;
import purgewright.result.FitJson;
import purgewright.sealflow.casefile.CaseDocument;
import purgewright.sealflow.casefile.DataTable;
import purgewright.sealflow.model.Case;

/** From measured data to clearances. */
@Command(
        name = "fit",
        mixinStandardHelpOptions = true,
        description = {
            "Fits clearances to measured data. With --passage: one passage, from a flow check (columns upstream pressure, downstream"
                    + " pressure, temperature, flow). Without: all seals at once, from the cavity pressures, temperatures and flows of"
                    + " a test.",
            "The case itself is never written to: -o writes a new one with the fitted values."
        },
        footer = {
            "",
            "Example:",
            "  purgewright fit samples/cases/spaced-lox-methane.json samples/data/flow-check-ring-a.csv --passage \"ring A\""
                    + " --gas nitrogen -o fitted.json"
        },
        exitCodeListHeading = "%nExit codes:%n",
        exitCodeList = {"0:computed, whatever the verdict", "2:bad input", "70:internal error"})
final class FitCommand implements Callable<Integer> {
    private final Terminal terminal;

    @Parameters(index = "0", paramLabel = "CASE", description = "Case file.")
    private Path file;

    @Parameters(index = "1", paramLabel = "DATA", description = "Measured data, CSV; units in the header.")
    private Path data;

    @Option(names = "--passage", paramLabel = "NAME", description = "The passage whose flow was measured.")
    private String passage = "";

    @Option(
            names = "--what",
            paramLabel = "clearance|factor|both",
            defaultValue = "clearance",
            description = "What of the passage is fitted. Default: ${DEFAULT-VALUE}.")
    private What what;

    @Option(
            names = "--gas",
            paramLabel = "FLUID",
            description = "Fluid of the flow check. Default: the purge gas of the case.")
    private String gas = "";

    @Option(
            names = "--flow-uncertainty",
            paramLabel = "SHARE",
            description =
                    "Relative standard uncertainty of a flow reading, 0.02 for two per cent. Default: the case's criterion.")
    private double flowUncertainty = Double.NaN;

    @Option(
            names = "--pressure-uncertainty",
            paramLabel = "VALUE",
            description = "Standard uncertainty of a pressure reading, with unit. Default: the case's criterion.")
    private String pressureUncertainty;

    @Option(
            names = {"-o", "--output"},
            paramLabel = "FILE",
            description = "Writes a new case (.json) with the fitted values; a file that exists is refused.")
    private Path output;

    @Option(names = "--plot", paramLabel = "FILE", description = "Draws the residuals: .svg or .png.")
    private Path plot;

    @Mixin
    private SharedOptions shared;

    /** Lower-case on purpose: these are the words that are typed. */
    enum What {
        clearance(FitSettings.What.CLEARANCE),
        factor(FitSettings.What.FACTOR),
        both(FitSettings.What.BOTH);

        private final FitSettings.What means;

        What(FitSettings.What means) {
            this.means = means;
        }
    }

    FitCommand(Terminal terminal) {
        this.terminal = terminal;
    }

    @Override
    public Integer call() throws IOException {
        CaseDocument document = CaseFiles.read(file);
        if (output != null) {
            OutputForm.of("-o", output, "json");
            WholeFile.check(output);
        }
        if (output != null && Files.exists(output)) {
            throw new InputProblem(
                    "FILE_EXISTS", "exists already: " + output, "another name; a case is never written over");
        }
        if (plot != null) {
            CaseFiles.requireOther(file, plot);
            CaseFiles.requireOther(data, plot);
        }
        String form = plot == null ? "" : OutputForm.of("--plot", plot, "svg", "png");
        if (!Double.isNaN(flowUncertainty) && !(flowUncertainty > 0 && flowUncertainty < 10)) {
            throw new InputProblem(
                    "OUT_OF_RANGE",
                    "--flow-uncertainty is " + flowUncertainty + ", it must be above 0",
                    "0.02 for 2 %");
        }
        Case model = document.toCase();
        DataTable table = DataTable.read(data, model.surroundings().pressure());
        FitSettings settings = FitSettings.DEFAULT
                .withPassage(passage, what.means)
                .withTestGas(gas)
                .withFlowUncertainty(flowUncertainty)
                .withPressureUncertainty(pressure());
        PropertyEngine engine = EngineChoice.of(shared.properties);
        try (Interrupt watch = Interrupt.watch()) {
            FitResult fit =
                    new FitService(engine).fit(document, table, settings, TerminalProgress.on(terminal, shared));
            if (output != null && fit.complete()) {
                FitService.adopt(document, fit).save(output);
                wrote(output);
            }
            if (plot != null) {
                OutputForm.draw(ResidualChart.of(fit, Theme.LIGHT, 900), form, plot);
                wrote(plot);
            }
            String title = document.text("/about/title").orElse("(no title)");
            terminal.out()
                    .print(
                            shared.json
                                    ? FitJson.write(fit, title, document.hash(), Version.number(), engine.name()) + "\n"
                                    : FitText.write(fit, title, engine.name(), shared.unitSystem()));
            terminal.flush();
            return ExitCode.OK;
        }
    }

    private void wrote(Path path) {
        if (!shared.quiet) {
            terminal.err().println("purgewright: wrote " + path);
        }
    }

    private double pressure() {
        if (pressureUncertainty == null) {
            return Double.NaN;
        }
        try {
            double value = Units.parse(pressureUncertainty, Dimension.PRESSURE_DIFFERENCE);
            if (!(value > 0)) {
                throw new InputProblem("OUT_OF_RANGE", "--pressure-uncertainty must be above 0", "for instance 5kPa");
            }
            return value;
        } catch (UnitException e) {
            throw new InputProblem(e.key().name(), "--pressure-uncertainty: " + e.getMessage(), e.suggestion());
        }
    }
}
