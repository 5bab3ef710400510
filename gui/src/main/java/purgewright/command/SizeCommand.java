package purgewright.command;

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
import purgewright.hazard.service.SizeSettings;
import purgewright.hazard.sizing.Parameter;
import purgewright.hazard.sizing.SizeResult;
import purgewright.report.SizeText;
import purgewright.result.SizeJson;
import purgewright.sealflow.casefile.CaseDocument;
import purgewright.sealflow.model.Case;

/** Finds the purge. */
@Command(
        name = "size",
        mixinStandardHelpOptions = true,
        description = {
            "Finds the least purge that meets every criterion in every phase, new and worn, at high boundary pressures; redlines;"
                    + " how far each seal may wear.",
            "Without --parameter the pressure of the purge supply is free."
        },
        footer = {
            "",
            "Example:",
            "  purgewright size samples/cases/minimal.json --parameter \"/passages/metering/diameter\" --low 0.5mm --high 3mm"
        },
        exitCodeListHeading = "%nExit codes:%n",
        exitCodeList = {"0:a feasible design was found", "1:infeasible", "2:bad input", "70:internal error"})
final class SizeCommand implements Callable<Integer> {
    private final Terminal terminal;

    @Parameters(paramLabel = "CASE", description = "Case file.")
    private Path file;

    @Option(names = "--parameter", paramLabel = "PLACE", description = "What is free, as a place in the case.")
    private String parameter = "";

    @Option(
            names = "--low",
            paramLabel = "VALUE",
            description = "Lower end of the range, with unit. Default: a tenth of the stated value.")
    private String low;

    @Option(
            names = "--high",
            paramLabel = "VALUE",
            description = "Upper end of the range, with unit. Default: three times the stated value.")
    private String high;

    @Option(
            names = "--margin",
            paramLabel = "M",
            defaultValue = "0",
            description = "Relative margin that every criterion must keep. Default: ${DEFAULT-VALUE}.")
    private double margin;

    @Option(names = "--phase", paramLabel = "NAME", description = "Only this phase of the duty; may be repeated.")
    private List<String> phases = List.of();

    @Mixin
    private SharedOptions shared;

    SizeCommand(Terminal terminal) {
        this.terminal = terminal;
    }

    @Override
    public Integer call() {
        if (!(margin >= 0) || Double.isInfinite(margin)) {
            throw new InputProblem("OUT_OF_RANGE", "--margin is " + margin + ", it must be at least 0", "");
        }
        CaseDocument document = CaseFiles.read(file);
        CaseFiles.requirePhases(document, phases);
        Case model = document.toCase();
        if (!parameter.isEmpty()) {
            requirePlace(model, parameter);
        }
        SizeSettings settings = SizeSettings.DEFAULT
                .withParameter(parameter, bound("--low", low, model), bound("--high", high, model))
                .withMargin(margin)
                .withPhases(phases);
        PropertyEngine engine = EngineChoice.of(shared.properties);
        SizeResult result;
        try (CaseService service = new CaseService(engine, shared.threads())) {
            result = service.size(document, settings, TerminalProgress.on(terminal, shared));
        }
        String title = document.text("/about/title").orElse("(no title)");
        Dimension dimension = document.text(result.parameter())
                .map(typed ->
                        Units.parseAny(typed, model.surroundings().pressure()).dimension())
                .orElse(Dimension.NUMBER);
        terminal.out()
                .print(
                        shared.json
                                ? SizeJson.size(result, title, document.hash(), Version.number(), engine.name()) + "\n"
                                : SizeText.write(result, dimension, title, engine.name(), shared.unitSystem()));
        return result.least().feasible() ? ExitCode.OK : ExitCode.FALLS_SHORT;
    }

    /** Refuses a place where there is no number. */
    static void requirePlace(Case model, String place) {
        try {
            Parameter.of(model, place);
        } catch (IllegalArgumentException e) {
            throw new InputProblem("NO_SUCH_PLACE", e.getMessage(), "for instance /passages/NAME/clearance");
        }
    }

    private static double bound(String option, String typed, Case model) {
        if (typed == null) {
            return Double.NaN;
        }
        try {
            return Units.parseAny(typed, model.surroundings().pressure()).si();
        } catch (UnitException e) {
            throw new InputProblem(e.key().name(), option + ": " + e.getMessage(), e.suggestion());
        }
    }
}
