package purgewright.command;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
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
import purgewright.hazard.sizing.DrillList;
import purgewright.hazard.sizing.Objective;
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
            "Finds the design with the least purge that meets every criterion in every phase, new and worn, at extreme boundary"
                    + " pressures; what governs it and what each criterion costs; redlines, interlocks; how far each seal may wear.",
            "Without --free the pressure of the purge supply is free."
        },
        footer = {
            "",
            "Examples:",
            "  purgewright size samples/cases/minimal.json --free \"/cavities/bottle line/pressure=0.5MPa..4MPa\""
                    + " --free \"/passages/metering/diameter=1mm..3mm metric drills\"",
            "  purgewright size samples/cases/minimal.json --parameter \"/passages/metering/diameter\" --low 0.5mm --high 3mm"
        },
        exitCodeListHeading = "%nExit codes:%n",
        exitCodeList = {
            "0:a feasible design was found and the full check confirms it",
            "1:infeasible",
            "2:bad input",
            "3:not converged",
            "4:not established, or cancelled",
            "70:internal error"
        })
final class SizeCommand implements Callable<Integer> {
    private final Terminal terminal;

    @Parameters(paramLabel = "CASE", description = "Case file.")
    private Path file;

    @Option(
            names = "--free",
            paramLabel = "PLACE[=FROM..TO [LIST]]",
            description = {
                "What may be chosen, as a place in the case; may be repeated. Default of the range: a tenth to three times the"
                        + " stated value, half to twice for a clearance.",
                "LIST is \"metric drills\" or \"number drills\"."
            })
    private List<String> free = List.of();

    @Option(names = "--parameter", paramLabel = "PLACE", description = "One free value, with --low and --high.")
    private String parameter = "";

    @Option(names = "--low", paramLabel = "VALUE", description = "Lower end of its range, with unit.")
    private String low;

    @Option(names = "--high", paramLabel = "VALUE", description = "Upper end of its range, with unit.")
    private String high;

    @Option(
            names = "--objective",
            paramLabel = "flow|run|pressure",
            defaultValue = "flow",
            description = "What is to be least: purge flow, gas for one run of the duty, set pressure. Default:"
                    + " ${DEFAULT-VALUE}.")
    private Least objective = Least.flow;

    @Option(
            names = "--margin",
            paramLabel = "M",
            defaultValue = "0",
            description = "Relative margin that every criterion must keep. Default: ${DEFAULT-VALUE}.")
    private double margin;

    @Option(
            names = "--fault",
            paramLabel = "NAME",
            description =
                    "Every criterion must be met under this fault too (\"fail\" lists them); may be repeated; \"all\" for all"
                            + " credible ones.")
    private List<String> faults = List.of();

    @Option(names = "--no-worn", description = "Not with all barrier seals worn.")
    private boolean noWorn;

    @Option(names = "--no-extremes", description = "Not at high and low boundary pressures.")
    private boolean noExtremes;

    @Option(names = "--no-wear", description = "Leave out how far each seal may wear.")
    private boolean noWear;

    @Option(names = "--phase", paramLabel = "NAME", description = "Only this phase of the duty; may be repeated.")
    private List<String> phases = List.of();

    @Mixin
    private SharedOptions shared;

    SizeCommand(Terminal terminal) {
        this.terminal = terminal;
    }

    /** Lower-case on purpose: these are the words that are typed. */
    enum Least {
        flow(Objective.GAS_FLOW),
        run(Objective.GAS_PER_RUN),
        pressure(Objective.SET_PRESSURE);

        private final Objective objective;

        Least(Objective objective) {
            this.objective = objective;
        }
    }

    @Override
    public Integer call() {
        if (!(margin >= 0) || Double.isInfinite(margin)) {
            throw new InputProblem("OUT_OF_RANGE", "--margin is " + margin + ", it must be at least 0", "");
        }
        if (!parameter.isEmpty() && !free.isEmpty()) {
            throw new InputProblem("BAD_RANGE", "--parameter and --free do not go together", "use --free alone");
        }
        if (parameter.isEmpty() && free.size() != 1 && (low != null || high != null) && !free.isEmpty()) {
            throw new InputProblem("BAD_RANGE", "--low and --high belong to one free value", "--free PLACE=FROM..TO");
        }
        CaseDocument document = CaseFiles.read(file);
        CaseFiles.requirePhases(document, phases);
        Case model = document.toCase();
        List<SizeSettings.Free> values = new ArrayList<>();
        if (!parameter.isEmpty()) {
            requirePlace(model, parameter);
        }
        if (!parameter.isEmpty() || low != null || high != null) {
            String place = parameter.isEmpty() ? supply(document) : parameter;
            values.add(new SizeSettings.Free(
                    place,
                    bound("--low", low, place, document, model),
                    bound("--high", high, place, document, model),
                    ""));
        }
        for (String each : free) {
            values.add(free(each, document, model));
        }
        for (SizeSettings.Free v : values) {
            if (v.upper() <= v.lower()) {
                throw new InputProblem(
                        "BAD_RANGE",
                        v.place() + ": the range must rise, from the lower to the upper end",
                        "FROM..TO, FROM below TO");
            }
        }
        SizeSettings settings = SizeSettings.DEFAULT
                .withFree(values)
                .withObjective(objective.objective)
                .withMargin(margin)
                .withScenarios(!noWorn, !noExtremes)
                .withFaults(faults)
                .withWear(!noWear)
                .withPhases(phases);
        PropertyEngine engine = EngineChoice.of(shared.properties);
        try (Interrupt watch = Interrupt.watch()) {
            SizeResult result;
            try (CaseService service = new CaseService(engine, shared.threads())) {
                result = service.size(document, settings, TerminalProgress.on(terminal, shared));
            } catch (IllegalArgumentException e) {
                throw new InputProblem("BAD_RANGE", e.getMessage(), "");
            }
            return print(result, document, model, engine.name());
        }
    }

    private int print(SizeResult result, CaseDocument document, Case model, String engine) {
        String title = document.text("/about/title").orElse("(no title)");
        terminal.out()
                .print(
                        shared.json
                                ? SizeJson.size(result, title, document.hash(), Version.number(), engine) + "\n"
                                : SizeText.write(
                                        result,
                                        dimensions(result, document, model),
                                        title,
                                        engine,
                                        shared.unitSystem()));
        terminal.out().flush();
        return switch (result.verdict()) {
            case FALLS_SHORT -> ExitCode.FALLS_SHORT;
            case NOT_CONVERGED -> ExitCode.NOT_CONVERGED;
            case NOT_ESTABLISHED -> ExitCode.NOT_ESTABLISHED;
            default -> ExitCode.OK;
        };
    }

    private static Map<String, Dimension> dimensions(SizeResult result, CaseDocument document, Case model) {
        Map<String, Dimension> out = new LinkedHashMap<>();
        List<String> places = new ArrayList<>();
        result.design().forEach(c -> places.add(c.variable().place()));
        result.releases().forEach(r -> places.add(r.place()));
        for (String place : places) {
            dimension(place, document, model).ifPresent(d -> out.put(place, d));
        }
        return out;
    }

    private static Optional<Dimension> dimension(String place, CaseDocument document, Case model) {
        return document.text(place)
                .map(typed ->
                        Units.parseAny(typed, model.surroundings().pressure()).dimension());
    }

    /** The place of the purge supply's pressure, which is free when nothing is said. */
    private static String supply(CaseDocument document) {
        List<String> names = CaseService.purgeSources(document);
        if (names.isEmpty()) {
            throw new InputProblem("NO_SUCH_PLACE", "the case has no inert source whose pressure could be sized", "");
        }
        return "/cavities/" + names.get(0) + "/pressure";
    }

    /** {@code PLACE}, {@code PLACE=FROM..TO} or {@code PLACE=FROM..TO metric drills}. */
    private static SizeSettings.Free free(String typed, CaseDocument document, Case model) {
        int equals = typed.lastIndexOf('=');
        if (equals < 0) {
            requirePlace(model, typed);
            return new SizeSettings.Free(typed, Double.NaN, Double.NaN, "");
        }
        String place = typed.substring(0, equals).strip();
        requirePlace(model, place);
        String range = typed.substring(equals + 1);
        String list = "";
        for (String name : DrillList.all().keySet()) {
            if (range.endsWith(name)) {
                list = name;
                range = range.substring(0, range.length() - name.length());
            }
        }
        int dots = range.indexOf("..");
        if (dots < 0) {
            throw new InputProblem(
                    "BAD_RANGE",
                    "--free \"" + typed + "\" is no PLACE=FROM..TO",
                    "for instance \"/passages/NAME/diameter=1mm..3mm metric drills\"");
        }
        return new SizeSettings.Free(
                place,
                bound("--free", range.substring(0, dots), place, document, model),
                bound("--free", range.substring(dots + 2), place, document, model),
                list);
    }

    /** Refuses a place where there is no number. */
    static void requirePlace(Case model, String place) {
        try {
            Parameter.of(model, place);
        } catch (IllegalArgumentException e) {
            throw new InputProblem("NO_SUCH_PLACE", e.getMessage(), "for instance /passages/NAME/clearance");
        }
    }

    private static double bound(String option, String typed, String place, CaseDocument document, Case model) {
        if (typed == null) {
            return Double.NaN;
        }
        try {
            Units.Quantity q =
                    Units.parseAny(typed.strip(), model.surroundings().pressure());
            Dimension wanted = dimension(place, document, model).orElse(q.dimension());
            if (q.dimension() != wanted) {
                throw new InputProblem(
                        "WRONG_DIMENSION",
                        option + ": " + place + " is " + Units.describe(wanted) + ", \"" + typed.strip() + "\" is "
                                + Units.describe(q.dimension()),
                        "for instance " + Units.example(wanted));
            }
            if (!(q.si() >= 0)) {
                throw new InputProblem("OUT_OF_RANGE", option + ": \"" + typed.strip() + "\" is below zero", "");
            }
            return q.si();
        } catch (UnitException e) {
            throw new InputProblem(e.key().name(), option + ": " + e.getMessage(), e.suggestion());
        }
    }
}
