package purgewright.command;

import java.io.IOException;
import java.nio.file.Path;
import java.util.List;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import purgewright.fluids.PropertyEngine;
import purgewright.hazard.service.PlanResult;
import purgewright.hazard.service.PlanService;
import purgewright.hazard.service.PlanSettings;
import purgewright.report.PlanText;
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
            "1:with --bank: one more attempt is not covered",
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
                    "What the gauge of a bank shows now, for instance 142bar,18degC; one for each bank, in order.")
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
            description = "Writes the calendar as CSV, SI units.")
    private Path output;

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
        if (output != null) {
            CaseFiles.requireOther(file, output);
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
            if (output != null) {
                WholeFile.write(output, PlanCsv.write(plan, document.hash(), Version.number(), engine.name()));
                if (!shared.quiet) {
                    terminal.err().println("purgewright: wrote " + output);
                }
            }
            terminal.out()
                    .print(
                            shared.json
                                    ? PlanJson.write(plan, title, document.hash(), Version.number(), engine.name())
                                            + "\n"
                                    : PlanText.write(plan, title, engine.name(), shared.unitSystem()));
            terminal.flush();
            return plan.again() != null && !plan.again().answer() ? ExitCode.FALLS_SHORT : ExitCode.OK;
        }
    }
}
