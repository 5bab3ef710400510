package purgewright.command;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Locale;
import java.util.Set;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import purgewright.figure.Lettering;
import purgewright.hazard.service.CaseService;
import purgewright.hazard.service.CheckResult;
import purgewright.hazard.service.CheckSettings;
import purgewright.hazard.service.Comparison;
import purgewright.hazard.service.FailSettings;
import purgewright.hazard.service.MapSettings;
import purgewright.hazard.service.PlanService;
import purgewright.hazard.service.PlanSettings;
import purgewright.hazard.service.Progress;
import purgewright.hazard.service.RunService;
import purgewright.hazard.service.RunSettings;
import purgewright.hazard.service.SpreadService;
import purgewright.report.Report;
import purgewright.report.ReportInput;
import purgewright.report.WholeFile;
import purgewright.sealflow.casefile.CaseDocument;
import purgewright.sealflow.model.Case;

/** Writes the document that gets signed. */
@Command(
        name = "report",
        mixinStandardHelpOptions = true,
        description = {
            "Writes a report: verdict, figures, results, findings, inputs, sources, cautions; the case embedded.",
            "The file's ending tells the form: pdf, html or md; xlsx or csv for its tables alone. A report in pdf or html can be"
                    + " opened like a case. Dates come from the case, or from SOURCE_DATE_EPOCH."
        },
        footer = {"", "Example:", "  purgewright report samples/cases/minimal.json -o minimal.pdf --faults"},
        exitCodeListHeading = "%nExit codes:%n",
        exitCodeList = {"0:written, whatever the verdict", "2:bad input", "70:internal error"})
final class ReportCommand implements Callable<Integer> {
    private final Terminal terminal;

    @Parameters(paramLabel = "CASE", description = "Case file.")
    private Path file;

    @Option(
            names = {"-o", "--output"},
            required = true,
            paramLabel = "FILE",
            description = "File to write; one that exists is replaced.")
    private Path output;

    @Option(names = "--faults", description = "With the fault sweep; the same as --with faults.")
    private boolean faults;

    @Option(
            names = "--with",
            split = ",",
            paramLabel = "STUDY",
            description =
                    "What the report is to hold besides the check, separated by commas: ${COMPLETION-CANDIDATES}. Each takes as"
                            + " long as the command of that name; redlines come with interlocks and wear.")
    private Set<Study> with = Set.of();

    @Option(
            names = "--against",
            paramLabel = "OLD",
            description = "An older case, or a report of one: what changed in inputs, findings and results.")
    private Path against;

    @Option(
            names = "--paper",
            paramLabel = "a4|letter",
            defaultValue = "a4",
            description = "Default: ${DEFAULT-VALUE}.")
    private Paper paper;

    @Mixin
    private SharedOptions shared;

    /** Lower-case on purpose: these are the words that are typed. */
    enum Study {
        faults,
        redlines,
        window,
        run,
        plan,
        spread,
        all
    }

    /** Lower-case on purpose: these are the words that are typed. */
    enum Paper {
        a4("A4"),
        letter("letter");

        private final String css;

        Paper(String css) {
            this.css = css;
        }
    }

    ReportCommand(Terminal terminal) {
        this.terminal = terminal;
    }

    @Override
    public Integer call() throws IOException {
        Report.Form form = form(output.toString().toLowerCase(Locale.ROOT));
        WholeFile.check(output);
        CaseDocument document = CaseFiles.read(file);
        CaseDocument old = against == null ? null : CaseFiles.read(against);
        if (Files.exists(output) && Files.isSameFile(file, output)) {
            throw new InputProblem("FILE", "the report would replace the case itself: " + output, "");
        }
        Progress progress = TerminalProgress.on(terminal, shared);
        ReportInput input;
        try (CaseService service = new CaseService(EngineChoice.of(shared.properties), shared.threads())) {
            CheckResult check = service.check(document, CheckSettings.DEFAULT, progress);
            input = ReportInput.of(check);
            if (old != null) {
                input = input.with(Comparison.of(service.check(old, CheckSettings.DEFAULT, progress), check));
            }
            input = studies(input, service, document, check.model(), progress);
        }
        Report report = new Report(input, shared.unitSystem(), paper.css, Version.number(), sourceDate());
        try (WholeFile whole = WholeFile.begin(output)) {
            report.write(form, whole.out());
            whole.commit();
        }
        if (!shared.quiet) {
            String missing = form == Report.Form.PDF ? Lettering.missing(document.toJson()) : "";
            if (!missing.isEmpty()) {
                terminal.err()
                        .println("purgewright: the report's font lacks letters of the case, which come out as #: "
                                + missing + "; an .html report keeps them");
            }
            terminal.err().println("purgewright: wrote " + output);
        }
        return ExitCode.OK;
    }

    private boolean wanted(Study study) {
        return with.contains(study) || with.contains(Study.all) || (study == Study.faults && faults);
    }

    /** With "all" only what the case has the data for; a study asked for by name tells what it lacks. */
    private ReportInput studies(
            ReportInput base, CaseService service, CaseDocument document, Case model, Progress progress) {
        ReportInput input = base;
        if (wanted(Study.faults)) {
            input = input.with(service.fail(document, FailSettings.DEFAULT, progress));
        }
        if (wanted(Study.redlines)) {
            input = input.with(new ReportInput.Redlines(
                    service.redlines(document, CheckSettings.DEFAULT),
                    service.interlocks(document, CheckSettings.DEFAULT),
                    service.wear(document, CheckSettings.DEFAULT)));
        }
        MapSettings map = wanted(Study.window) ? MapSettings.usual(model) : null;
        if (map != null) {
            input = input.with(new ReportInput.Window(
                    service.map(document, map, progress), "Pa", map.y().endsWith("/clearance") ? "m" : "Pa"));
        } else if (with.contains(Study.window)) {
            throw new InputProblem(
                    "NOTHING_TO_DO", "a purge window needs a cavity with role supply and one with role vent", "");
        }
        Path folder = file.toAbsolutePath().getParent();
        if (with.contains(Study.run) || (wanted(Study.run) && !model.duty().isEmpty())) {
            input = input.with(new RunService(service.engine()).run(document, folder, RunSettings.DEFAULT, progress));
        }
        if (with.contains(Study.plan) || (wanted(Study.plan) && model.campaign() != null)) {
            input = input.with(
                    new PlanService(service.engine()).plan(document, folder, PlanSettings.DEFAULT, progress));
        }
        if (with.contains(Study.spread) || (wanted(Study.spread) && document.has("/uncertain"))) {
            input = input.with(new SpreadService(service).run(document, SpreadService.settings(document), progress));
        }
        return input;
    }

    private static Report.Form form(String name) {
        if (name.endsWith(".pdf")) {
            return Report.Form.PDF;
        }
        if (name.endsWith(".html") || name.endsWith(".htm")) {
            return Report.Form.HTML;
        }
        if (name.endsWith(".md")) {
            return Report.Form.MARKDOWN;
        }
        if (name.endsWith(".csv")) {
            return Report.Form.CSV;
        }
        if (name.endsWith(".xlsx")) {
            return Report.Form.XLSX;
        }
        throw new InputProblem("UNKNOWN_FORM", "the report's file must end with .pdf, .html, .md, .xlsx or .csv", "");
    }

    private static Long sourceDate() {
        String value = System.getenv("SOURCE_DATE_EPOCH");
        if (value == null || value.isBlank()) {
            return null;
        }
        try {
            return Long.valueOf(value.strip());
        } catch (NumberFormatException e) {
            throw new InputProblem("NOT_A_NUMBER", "SOURCE_DATE_EPOCH is no whole number: " + value, "");
        }
    }
}
