package purgewright.command;

import java.nio.file.Path;
import java.util.List;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import purgewright.fluids.PropertyEngine;
import purgewright.hazard.fault.FaultResult;
import purgewright.hazard.finding.Verdict;
import purgewright.hazard.service.CaseService;
import purgewright.hazard.service.FailSettings;
import purgewright.report.FailText;
import purgewright.result.FailJson;
import purgewright.sealflow.casefile.CaseDocument;

/** Sweeps the faults. */
@Command(
        name = "fail",
        mixinStandardHelpOptions = true,
        description =
                "Lets every single thing fail, in every phase, and tells what is lost, how fast, and what would see it.",
        footer = {"", "Example:", "  purgewright fail samples/cases/minimal.json"},
        exitCodeListHeading = "%nExit codes:%n",
        exitCodeList = {
            "0:the separation holds under every credible single fault (thin too, unless --strict)",
            "1:falls short",
            "2:bad input",
            "3:not converged",
            "4:not established",
            "70:internal error"
        })
final class FailCommand implements Callable<Integer> {
    private final Terminal terminal;

    @Parameters(paramLabel = "CASE", description = "Case file.")
    private Path file;

    @Mixin
    private SharedOptions shared;

    @Option(names = "--pairs", description = "All pairs of single faults too.")
    private boolean pairs;

    @Option(
            names = "--no-times",
            description = "No runs over time: quicker; times to loss are then bounds from the gas stored, or at once.")
    private boolean noTimes;

    @Option(
            names = "--pair-runs",
            paramLabel = "N",
            description = "So many of the worst pairs are run over time too (default: ${DEFAULT-VALUE}).")
    private int pairRuns = FailSettings.PAIR_RUNS;

    @Option(names = "--strict", description = "A thin margin ends with 1, as if it fell short.")
    private boolean strict;

    @Option(names = "--phase", paramLabel = "NAME", description = "Only this phase of the duty; may be repeated.")
    private List<String> phases = List.of();

    FailCommand(Terminal terminal) {
        this.terminal = terminal;
    }

    @Override
    public Integer call() {
        CaseDocument document = CaseFiles.read(file);
        CaseFiles.requirePhases(document, phases);
        PropertyEngine engine = EngineChoice.of(shared.properties);
        FaultResult result;
        if (pairRuns < 0) {
            throw new InputProblem("OUT_OF_RANGE", "--pair-runs " + pairRuns + " is below 0", "0 for none");
        }
        try (CaseService service = new CaseService(engine, shared.threads());
                Interrupt watch = Interrupt.watch()) {
            result = service.fail(
                    document,
                    FailSettings.DEFAULT
                            .withPairs(pairs)
                            .withTimes(!noTimes)
                            .withPairRuns(pairRuns)
                            .withPhases(phases),
                    TerminalProgress.on(terminal, shared));
            print(document, result, engine);
        }
        return strict && result.verdict() == Verdict.THIN
                ? ExitCode.FALLS_SHORT
                : result.verdict().exitCode();
    }

    private void print(CaseDocument document, FaultResult result, PropertyEngine engine) {
        String title = document.text("/about/title").orElse("(no title)");
        terminal.out()
                .print(
                        shared.json
                                ? FailJson.write(result, title, document.hash(), Version.number(), engine.name()) + "\n"
                                : FailText.write(result, title, document.hash(), engine.name(), shared.unitSystem()));
    }
}
