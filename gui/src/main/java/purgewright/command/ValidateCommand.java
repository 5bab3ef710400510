package purgewright.command;

import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import purgewright.fluids.validation.Check;
import purgewright.hazard.service.ValidationSets;
import purgewright.report.ValidationText;
import purgewright.result.ValidationJson;
import purgewright.result.ValidationJson.Line;

/** Runs the published checks. */
@Command(
        name = "validate",
        mixinStandardHelpOptions = true,
        description =
                "Prints the table of published checks, ours against theirs. Each has its source and its tolerance.",
        exitCodeListHeading = "%nExit codes:%n",
        exitCodeList = {"0:every check passes", "1:a check fails", "70:internal error"})
final class ValidateCommand implements Callable<Integer> {
    private final Terminal terminal;

    @Mixin
    private SharedOptions shared;

    ValidateCommand(Terminal terminal) {
        this.terminal = terminal;
    }

    @Override
    public Integer call() {
        var progress = TerminalProgress.on(terminal, shared);
        List<Check> checks = ValidationSets.all();
        List<Line> lines = new ArrayList<>();
        for (Check check : checks) {
            progress.at((double) lines.size() / checks.size(), check.id());
            lines.add(run(check));
        }
        progress.at(1, "");
        String engine = EngineChoice.of(SharedOptions.EngineName.embedded).name();
        terminal.out()
                .print(
                        shared.json
                                ? ValidationJson.write(lines, Version.number(), engine) + "\n"
                                : ValidationText.write(lines, engine));
        return lines.stream().allMatch(Line::passes) ? ExitCode.OK : ExitCode.FALLS_SHORT;
    }

    /** A computation that throws has failed its check; the others still run. */
    private static Line run(Check check) {
        try {
            return new Line(check, check.ours().getAsDouble(), "");
        } catch (RuntimeException e) {
            return new Line(check, Double.NaN, String.valueOf(e.getMessage()));
        }
    }
}
