package purgewright.command;

import java.io.IOException;
import java.nio.file.Path;
import java.util.List;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import purgewright.figure.PlanChart;
import purgewright.figure.Readout;
import purgewright.figure.Theme;
import purgewright.fluids.PropertyEngine;
import purgewright.fluids.unit.UnitSystem;
import purgewright.hazard.service.PlanResult;
import purgewright.hazard.service.PlanService;
import purgewright.hazard.service.PlanSettings;
import purgewright.report.PlanText;
import purgewright.report.WholeFile;
import purgewright.result.PlanCsv;
import purgewright.result.PlanJson;
import purgewright.sealflow.casefile.CaseDocument;

/** The campaign. */
@Command(
        name = "plan",
        mixinStandardHelpOptions = true,
        description = {
            "Plans the campaign: gas of an attempt, bottles to order, when to swap a bank, what it costs, and how many bottles are"
                    + " enough in nine of ten campaigns.",
            "With --bank, once for each bank, it answers \"can we go again today?\" from what the gauges show."
        },
        footer = {
            "",
            "Example:",
            "  purgewright plan samples/cases/spaced-lox-methane.json --bank 117bar,13degC --bank 200bar,15degC"
        },
        exitCodeListHeading = "%nExit codes:%n",
        exitCodeList = {
            "0:planned; with --bank: one more attempt is covered",
            "1:the supply as stated is not enough for the campaign, or not established to be; with --bank: one more attempt is not covered",
            "2:bad input",
            "70:internal error"
        })
final class PlanCommand implements Callable<Integer> {
    private static final int MOST_SAMPLES = 10_000_000;

    private final Terminal terminal;

    @Parameters(paramLabel = "CASE", description = "Case file.")
    private Path file;

    @Option(
            names = "--bank",
            paramLabel = "PRESSURE,TEMPERATURE",
            description =
                    "What the gauge of a bank shows now, for instance 142bar,18degC; absolute, unless the unit says gauge; one for each bank, in order.")
    private List<String> banks = List.of();

    @Option(
            names = "--samples",
            paramLabel = "N",
            defaultValue = "10000",
            description = "Campaigns played with chance; 0 for none. Default: ${DEFAULT-VALUE}.")
    private int samples;

    @Option(names = "--no-redline", description = "Do not look for the bottle pressure at which a criterion is lost.")
    private boolean noRedline;

    @Option(
            names = {"-o", "--output"},
            paramLabel = "FILE",
            description = "Writes the calendar as .csv (SI units), the drawing as .svg or .png; may be repeated.")
    private List<Path> outputs = List.of();

    @Mixin
    private SharedOptions shared;

    PlanCommand(Terminal terminal) {
        this.terminal = terminal;
    }

    @Override
    public Integer call() throws IOException {
        if (samples < 0 || samples > MOST_SAMPLES) {
            throw new InputProblem("OUT_OF_RANGE", "--samples is " + samples + ", it must be 0 to " + MOST_SAMPLES, "");
        }
        CaseDocument document = CaseFiles.read(file);
        for (Path each : outputs) {
            OutputForm.of("-o", each, "csv", "svg", "png");
            CaseFiles.requireOther(file, each);
        }
        PlanSettings settings = PlanSettings.DEFAULT
                .withSamples(samples, shared.seed)
                .withRedline(!noRedline)
                .withReadings(RunCommand.readings(banks, document.toCase()));
        PropertyEngine engine = EngineChoice.of(shared.properties);
        try (Interrupt watch = Interrupt.watch()) {
            PlanResult plan = new PlanService(engine)
                    .plan(document, file.toAbsolutePath().getParent(), settings, TerminalProgress.on(terminal, shared));
            String title = document.text("/about/title").orElse("(no title)");
            for (Path each : outputs) {
                write(each, plan, document, engine.name());
            }
            terminal.out()
                    .print(
                            shared.json
                                    ? PlanJson.write(plan, title, document.hash(), Version.number(), engine.name())
                                            + "\n"
                                    : PlanText.write(plan, title, engine.name(), shared.unitSystem()));
            terminal.flush();
            boolean no = plan.again() != null
                    ? !plan.again().answer()
                    : !plan.order().enough();
            return no ? ExitCode.FALLS_SHORT : ExitCode.OK;
        }
    }

    private void write(Path output, PlanResult plan, CaseDocument document, String engine) throws IOException {
        String form = OutputForm.of("-o", output, "csv", "svg", "png");
        if (form.equals("csv")) {
            WholeFile.write(output, PlanCsv.write(plan, document.hash(), Version.number(), engine));
        } else {
            Readout readout = shared.unitSystem() == UnitSystem.US ? Readout.US : Readout.SI;
            OutputForm.draw(PlanChart.draw(plan, readout, Theme.LIGHT, 1000, 680), form, output);
        }
        if (!shared.quiet) {
            terminal.err().println("purgewright: wrote " + output);
        }
    }
}
