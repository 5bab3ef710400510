package purgewright.command;

import java.nio.file.Path;
import java.util.List;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import purgewright.hazard.finding.Verdict;
import purgewright.hazard.service.CaseService;
import purgewright.hazard.service.CavityExplanation;
import purgewright.hazard.service.CheckResult;
import purgewright.hazard.service.CheckSettings;
import purgewright.hazard.service.CheckStudies;
import purgewright.report.CheckText;
import purgewright.result.CheckJson;
import purgewright.sealflow.casefile.CaseDocument;

/** Solves and judges. */
@Command(
        name = "check",
        mixinStandardHelpOptions = true,
        description = "Solves every phase of a case, judges it, and prints states, flows, findings and a verdict.",
        footer = {"", "Example:", "  purgewright check samples/cases/minimal.json --why barrier"},
        exitCodeListHeading = "%nExit codes:%n",
        exitCodeList = {
            "0:holds (thin too, unless --strict)",
            "1:falls short",
            "2:bad input",
            "3:not converged",
            "4:not established",
            "70:internal error"
        })
final class CheckCommand implements Callable<Integer> {
    private final Terminal terminal;

    @Parameters(paramLabel = "CASE", description = "Case file.")
    private Path file;

    @Mixin
    private SharedOptions shared;

    @Option(names = "--strict", description = "A thin margin ends with 1, as if it fell short.")
    private boolean strict;

    @Option(names = "--phase", paramLabel = "NAME", description = "Only this phase of the duty; may be repeated.")
    private List<String> phases = List.of();

    @Option(
            names = "--why",
            paramLabel = "CAVITY",
            description = {
                "Also why this cavity stands where it stands: its balance, and what moves its pressure most.",
                "Of the first phase, or of the first --phase."
            })
    private String why;

    @Option(
            names = "--evidence",
            description = "Also what each finding rests on: states, the seal models' ends, what alone flips it.")
    private boolean evidence;

    @Option(
            names = "--wear",
            description =
                    "Also what each seal's clearance may wear to until the first criterion is lost: alone, all together,"
                            + " and how long that lasts where the case states a wear rate.")
    private boolean wear;

    @Option(
            names = "--redlines",
            description = "Also redlines of the case as stated, and a table of interlocks for the test procedure.")
    private boolean redlines;

    CheckCommand(Terminal terminal) {
        this.terminal = terminal;
    }

    @Override
    public Integer call() {
        CaseDocument document = CaseFiles.read(file);
        CaseFiles.requirePhases(document, phases);
        if (why != null) {
            CaseFiles.requireCavity(document, why);
        }
        CheckResult result;
        CavityExplanation explanation;
        CheckStudies studies;
        CheckSettings settings = CheckSettings.DEFAULT.withPhases(phases);
        try (CaseService service = new CaseService(EngineChoice.of(shared.properties), shared.threads())) {
            result = service.check(document, settings, TerminalProgress.on(terminal, shared));
            explanation = why == null ? null : service.explain(document, why, phases.isEmpty() ? null : phases.get(0));
            studies = wear || redlines
                    ? service.studies(document, settings, wear, redlines, TerminalProgress.on(terminal, shared))
                    : CheckStudies.NONE;
        }
        terminal.out()
                .print(
                        shared.json
                                ? CheckJson.write(result, explanation, studies, Version.number()) + "\n"
                                : CheckText.write(result, explanation, shared.unitSystem(), evidence, studies));
        return strict && result.verdict() == Verdict.THIN
                ? ExitCode.FALLS_SHORT
                : result.verdict().exitCode();
    }
}
