package purgewright.command;

import java.io.BufferedOutputStream;
import java.io.IOException;
import java.io.OutputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.Callable;
import java.util.function.Consumer;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import purgewright.figure.Figure;
import purgewright.figure.FigureExport;
import purgewright.figure.Readout;
import purgewright.figure.SpreadChart;
import purgewright.figure.SpreadPlots;
import purgewright.figure.Theme;
import purgewright.fluids.PropertyEngine;
import purgewright.fluids.unit.UnitSystem;
import purgewright.hazard.service.CaseService;
import purgewright.hazard.service.Progress;
import purgewright.hazard.service.SpreadPart;
import purgewright.hazard.service.SpreadService;
import purgewright.hazard.service.SweepSettings;
import purgewright.hazard.studies.Sample;
import purgewright.hazard.studies.SpreadResult;
import purgewright.hazard.studies.SpreadSettings;
import purgewright.hazard.studies.SpreadSettings.Interval;
import purgewright.hazard.studies.SpreadSettings.Part;
import purgewright.hazard.studies.SpreadSettings.Sampling;
import purgewright.hazard.studies.SpreadSettings.Studies;
import purgewright.hazard.studies.SweepResult;
import purgewright.hazard.studies.UncertainInput;
import purgewright.report.SpreadText;
import purgewright.report.WholeFile;
import purgewright.result.SpreadCsv;
import purgewright.result.SpreadJson;
import purgewright.result.SpreadReader;
import purgewright.sealflow.casefile.CaseDocument;
import purgewright.sealflow.casefile.Utf8;

/** What is not known, and what it does to the answer. */
@Command(
        name = "spread",
        mixinStandardHelpOptions = true,
        description = {
            "Draws the uncertain values of a case, solves and judges each sample: how probably the separation holds, how far each"
                    + " quantity spreads, what causes it, how redlines trade false trips against losses missed.",
            "With --sweep nothing is drawn: one or two numbers of the case are moved over a range."
        },
        footer = {
            "",
            "Examples:",
            "  purgewright spread samples/cases/spaced-lox-methane.json --samples 60 --target 0.9",
            "  purgewright spread samples/cases/minimal.json --sweep \"/passages/ring A/clearance=20um..60um\" --steps 5"
        },
        exitCodeListHeading = "%nExit codes:%n",
        exitCodeList = {
            "0:computed, and the target is reached where one is stated",
            "1:the target is missed",
            "2:bad input",
            "3:the target may be missed: too many samples did not converge",
            "4:whether the target is reached is not established",
            "70:internal error"
        })
final class SpreadCommand implements Callable<Integer> {
    /** Largest result read, bytes: that of thousands of kept samples has some megabytes. */
    private static final int LARGEST_RESULT = 64 << 20;

    /** More outputs than this would bury the picture that is looked for. */
    private static final int MOST_FIGURES = 8;

    /** Of a figure, in drawing units. */
    private static final double WIDTH = 860;

    private static final double HEIGHT = 380;

    private final Terminal terminal;

    @Parameters(paramLabel = "CASE", arity = "0..1", description = "Case file; none with --merge and --replay.")
    private Path file;

    @Option(names = "--samples", paramLabel = "N", description = "How many. Default: the case's, else 2000.")
    private Integer samples;

    @Option(
            names = "--sampling",
            paramLabel = "latin-hypercube|sobol|random",
            description = "How they are laid. Default: the case's, else latin-hypercube.")
    private SamplingName sampling;

    @Option(names = "--confidence", paramLabel = "C", description = "Of all intervals. Default: the case's, else 0.95.")
    private Double confidence;

    @Option(
            names = "--interval",
            paramLabel = "wilson|clopper-pearson",
            description = "Kind of interval of a probability. Default: wilson.")
    private IntervalName interval;

    @Option(
            names = "--width",
            paramLabel = "W",
            description = "Stop once the interval of the probability that the separation holds is no wider.")
    private double width;

    @Option(
            names = "--target",
            paramLabel = "P",
            description = "Probability that the separation must hold with; the exit code then says whether it does."
                    + " Default: the case's.")
    private Double target;

    @Option(
            names = "--false-trips",
            paramLabel = "P",
            description = "Allowed probability of a false trip in one run. Default: the case's, else 1e-4.")
    private Double falseTrips;

    @Option(
            names = "--follow",
            paramLabel = "PLACE",
            description = "A quantity of the result, for instance \"/cavities/NAME/pressure\"; may be repeated."
                    + " Default: margins, barrier and drain pressures, purge flow.")
    private List<String> follow = List.of();

    @Option(names = "--phase", paramLabel = "NAME", description = "Only this phase of the duty; may be repeated.")
    private List<String> phases = List.of();

    @Option(
            names = "--variance",
            paramLabel = "N",
            description = "Variance-based indices from N rows; solves N times the number of inputs plus two.")
    private int variance;

    @Option(
            names = "--rare",
            paramLabel = "N",
            description = "Search for rare failures with N samples a level, a multiple of 10 of at least 100.")
    private int rare;

    @Option(names = "--samples-only", description = "No tornado, slopes, redlines and corners.")
    private boolean samplesOnly;

    @Option(
            names = "--sweep",
            paramLabel = "PLACE=FROM..TO",
            description = "Moves a number of the case over a range, with units; at most twice.")
    private List<String> sweeps = List.of();

    @Option(
            names = "--steps",
            paramLabel = "N",
            defaultValue = "11",
            description = "Points along each side of a sweep. Default: ${DEFAULT-VALUE}.")
    private int steps;

    @Option(
            names = "--part",
            paramLabel = "K/N",
            description = "Runs part K of N, for instance 3/8; the output is JSON for --merge.")
    private String part;

    @Option(
            names = "--merge",
            paramLabel = "FILE",
            arity = "1..*",
            description = "Puts the parts in these files together; the result is that of one whole run.")
    private List<Path> merge = List.of();

    @Option(
            names = "--replay",
            paramLabel = "FILE",
            description = "Runs a stored result (--json) again: the same bytes, or the first line that differs.")
    private Path replay;

    @Option(
            names = {"-o", "--output"},
            paramLabel = "FILE",
            description = "Writes the JSON result to a .json file.")
    private Path output;

    @Option(names = "--csv", paramLabel = "FILE", description = "Writes every sample, or the sweep, as .csv, SI units.")
    private Path csv;

    @Option(
            names = "--figures",
            paramLabel = "FOLDER",
            description = "Writes histograms, tornado and scatter plots into a folder.")
    private Path figures;

    @Option(
            names = "--figure-form",
            paramLabel = "svg|png",
            defaultValue = "svg",
            description = "Form of the figures: ${COMPLETION-CANDIDATES}. Default: ${DEFAULT-VALUE}.")
    private FigureForm form;

    @Mixin
    private SharedOptions shared;

    /** Lower-case on purpose: these are the words that are typed. */
    enum FigureForm {
        svg,
        png
    }

    /** As typed, with a hyphen for the blank. */
    enum SamplingName {
        latin_hypercube(Sampling.LATIN_HYPERCUBE),
        sobol(Sampling.SOBOL),
        random(Sampling.RANDOM);

        private final Sampling meant;

        SamplingName(Sampling meant) {
            this.meant = meant;
        }

        @Override
        public String toString() {
            return name().replace('_', '-');
        }
    }

    /** As typed, with a hyphen. */
    enum IntervalName {
        wilson(Interval.WILSON),
        clopper_pearson(Interval.CLOPPER_PEARSON);

        private final Interval meant;

        IntervalName(Interval meant) {
            this.meant = meant;
        }

        @Override
        public String toString() {
            return name().replace('_', '-');
        }
    }

    SpreadCommand(Terminal terminal) {
        this.terminal = terminal;
    }

    @Override
    public Integer call() throws IOException {
        if (output != null) {
            OutputForm.of("-o", output, "json");
            WholeFile.check(output);
        }
        if (csv != null) {
            OutputForm.of("--csv", csv, "csv");
            WholeFile.check(csv);
        }
        if (figures != null) {
            Files.createDirectories(figures);
        }
        if (replay != null) {
            return replayed();
        }
        if (!merge.isEmpty()) {
            return merged();
        }
        if (file == null) {
            throw new InputProblem("NO_CASE", "which case?", "spread CASE, or --merge FILES, or --replay FILE");
        }
        CaseDocument document = CaseFiles.read(file);
        CaseFiles.requirePhases(document, phases);
        for (Path written : new Path[] {output, csv}) {
            if (written != null && Files.exists(written) && Files.isSameFile(file, written)) {
                throw new InputProblem("FILE", "the result would replace the case itself: " + written, "");
            }
        }
        if (!sweeps.isEmpty()) {
            return swept(document);
        }
        SpreadSettings settings = settings(document);
        PropertyEngine engine = EngineChoice.of(shared.properties);
        try (CaseService service = new CaseService(engine, shared.threads());
                Interrupt watch = Interrupt.watch()) {
            SpreadService spread = new SpreadService(service);
            Progress progress = TerminalProgress.on(terminal, shared);
            if (part != null) {
                SpreadPart done = spread.part(document, settings, progress);
                print(SpreadJson.part(done, Version.number()) + "\n", output);
                return ExitCode.OK;
            }
            SpreadResult result = run(spread, document, settings, progress);
            int code = show(result, document.toJson());
            return code;
        }
    }

    // --- what was asked for

    private SpreadSettings settings(CaseDocument document) {
        if (samples != null && (samples < 1 || samples > SpreadSettings.MOST_SAMPLES)) {
            throw new InputProblem(
                    "OUT_OF_RANGE",
                    "--samples is " + samples + ", it must be 1 to " + SpreadSettings.MOST_SAMPLES,
                    samples < 1 ? "without a sample nothing is known; 2000 is usual" : "");
        }
        share("--confidence", confidence);
        share("--target", target);
        share("--false-trips", falseTrips);
        if (!(width >= 0 && width < 1)) {
            throw new InputProblem("OUT_OF_RANGE", "--width is " + width + ", it must be at least 0 and below 1", "");
        }
        if (variance < 0 || variance > 1_000_000) {
            throw new InputProblem("OUT_OF_RANGE", "--variance is " + variance + ", it must be 0 to 1000000", "");
        }
        if (rare != 0 && (rare < 100 || rare > 1_000_000 || rare % 10 != 0)) {
            throw new InputProblem(
                    "OUT_OF_RANGE",
                    "--rare is " + rare + ", it must be a multiple of 10 of at least 100",
                    "for instance 1000");
        }
        Part which = part();
        if (which.of() > 1 && width > 0) {
            throw new InputProblem(
                    "CONFLICT",
                    "a part runs to its end: --width would stop each part elsewhere than the whole run",
                    "");
        }
        SpreadSettings s = SpreadService.settings(document);
        s = s.withSeed(shared.seed)
                .withInterval(
                        confidence == null ? s.confidence() : confidence,
                        interval == null ? s.interval() : interval.meant,
                        width)
                .withScope(phases, follow.isEmpty() ? s.outputs() : follow)
                .withAims(target == null ? s.target() : target, falseTrips == null ? s.falseTrips() : falseTrips)
                .withStudies(
                        samplesOnly
                                ? new Studies(false, false, variance, rare, false, false)
                                : new Studies(true, true, variance, rare, true, true));
        if (samples != null) {
            s = s.withSamples(samples);
        }
        if (sampling != null) {
            s = s.withSampling(sampling.meant);
        }
        return s.withPart(which);
    }

    private Part part() {
        if (part == null) {
            return Part.WHOLE;
        }
        if (part.matches("\\d{1,6}/\\d{1,6}")) {
            int slash = part.indexOf('/');
            int number = Integer.parseInt(part.substring(0, slash));
            int of = Integer.parseInt(part.substring(slash + 1));
            if (number >= 1 && number <= of) {
                return new Part(number, of);
            }
        }
        throw new InputProblem(
                "BAD_PART", "--part \"" + part + "\" is no part", "for instance 3/8, the third of eight");
    }

    private static void share(String option, Double value) {
        if (value != null && !(value > 0 && value < 1)) {
            throw new InputProblem("OUT_OF_RANGE", option + " is " + value + ", it must be between 0 and 1", "");
        }
    }

    // --- runs

    private SpreadResult run(SpreadService spread, CaseDocument document, SpreadSettings settings, Progress progress)
            throws IOException {
        if (csv == null) {
            return spread.run(document, settings, progress);
        }
        try (WholeFile table = WholeFile.begin(csv);
                OutputStream out = new BufferedOutputStream(table.out())) {
            List<String> inputs = UncertainInput.of(document, document.toCase()).stream()
                    .map(UncertainInput::place)
                    .toList();
            SpreadService.Listener lines = new SpreadService.Listener() {
                @Override
                public void begins(SpreadResult.Identity identity, List<String> outputs) {
                    write(out, SpreadCsv.samplesHead(identity, settings, Version.number(), inputs, outputs));
                }

                @Override
                public void sample(Sample s) {
                    write(out, SpreadCsv.sample(s));
                }
            };
            SpreadResult result = spread.run(document, settings, progress, lines);
            out.flush();
            table.commit();
            wrote(csv);
            return result;
        }
    }

    private static void write(OutputStream out, String text) {
        try {
            out.write(text.getBytes(StandardCharsets.UTF_8));
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    private Integer swept(CaseDocument document) throws IOException {
        if (part != null || sweeps.size() > 2) {
            throw new InputProblem(
                    "CONFLICT", part != null ? "a sweep has no parts" : "a sweep goes over one or two numbers", "");
        }
        if (steps < 2 || steps > 200) {
            throw new InputProblem("OUT_OF_RANGE", "--steps is " + steps + ", it must be 2 to 200", "");
        }
        List<SweepSettings.Axis> axes = new ArrayList<>();
        for (String each : sweeps) {
            axes.add(RangeOption.read("--sweep", each, document).axis(steps));
        }
        if (axes.size() == 2 && axes.get(0).place().equals(axes.get(1).place())) {
            throw new InputProblem(
                    "BAD_RANGE", "both sweeps are over " + axes.get(0).place(), "");
        }
        SweepResult result;
        try (CaseService service = new CaseService(EngineChoice.of(shared.properties), shared.threads())) {
            result = new SpreadService(service)
                    .sweep(document, new SweepSettings(axes, phases, follow), TerminalProgress.on(terminal, shared));
        }
        if (csv != null) {
            whole(csv, SpreadCsv.sweep(result, Version.number()).getBytes(StandardCharsets.UTF_8));
        }
        if (figures != null) {
            picture(SpreadPlots.sweep(result, 0, readout(), Theme.LIGHT, WIDTH, HEIGHT), "sweep");
        }
        String json = SpreadJson.sweep(result, Version.number()) + "\n";
        if (output != null) {
            whole(output, json.getBytes(StandardCharsets.UTF_8));
        }
        terminal.out().print(shared.json ? json : SpreadText.sweep(result, shared.unitSystem()));
        return ExitCode.OK;
    }

    private Integer merged() throws IOException {
        List<SpreadPart> parts = new ArrayList<>();
        for (Path each : merge) {
            String text = text(each);
            try {
                requireVersion(each, SpreadReader.version(text));
                parts.add(SpreadReader.part(text));
            } catch (SpreadReader.Unreadable e) {
                throw new InputProblem("NO_PART", each + " cannot be used: " + e.getMessage(), "");
            }
        }
        requireEngine(parts.get(0).identity().engine());
        try (CaseService service = new CaseService(EngineChoice.of(shared.properties), shared.threads())) {
            SpreadResult result = new SpreadService(service).merge(parts, TerminalProgress.on(terminal, shared));
            return show(result, parts.get(0).caseText());
        }
    }

    private Integer replayed() throws IOException {
        String before = text(replay);
        SpreadReader.Recipe recipe;
        try {
            recipe = SpreadReader.recipe(before);
        } catch (SpreadReader.Unreadable e) {
            throw new InputProblem("NO_RESULT", replay + " cannot be used: " + e.getMessage(), "");
        }
        requireVersion(replay, recipe.version());
        requireEngine(recipe.identity().engine());
        CaseDocument document = CaseDocument.parse(recipe.caseText());
        if (!document.hash().equals(recipe.identity().hash())) {
            throw new InputProblem("CHANGED", replay + " was changed: its case has another hash than it says", "");
        }
        if (file != null && !CaseFiles.read(file).hash().equals(document.hash())) {
            throw new InputProblem("OTHER_CASE", replay + " was made from another case than " + file, "");
        }
        SpreadResult result;
        try (CaseService service = new CaseService(EngineChoice.of(shared.properties), shared.threads())) {
            result = new SpreadService(service).run(document, recipe.settings(), TerminalProgress.on(terminal, shared));
        }
        String after = SpreadJson.result(result, recipe.caseText(), Version.number()) + "\n";
        print(after, output);
        if (!after.equals(before)) {
            List<String> old = before.lines().toList();
            List<String> now = after.lines().toList();
            int line = 0;
            while (line < Math.min(old.size(), now.size()) && old.get(line).equals(now.get(line))) {
                line++;
            }
            throw new InputProblem(
                    "DIFFERS",
                    "the result differs from " + replay + " from line " + (line + 1) + " on",
                    "was the file cut short or changed?");
        }
        if (!shared.quiet) {
            terminal.err().println("purgewright: the same as " + replay + ", to the byte");
        }
        return code(result);
    }

    private static void requireVersion(Path from, String version) {
        if (!version.equals(Version.number())) {
            throw new InputProblem(
                    "OTHER_VERSION",
                    from + " was made by version " + version + ", this is " + Version.number(),
                    "numbers may differ between versions: use version " + version);
        }
    }

    private void requireEngine(String name) {
        String here = EngineChoice.of(shared.properties).name();
        if (!here.equals(name)) {
            throw new InputProblem(
                    "OTHER_ENGINE",
                    "it was made with the property engine " + name + ", this is " + here,
                    "choose it with --properties");
        }
    }

    private static String text(Path from) throws IOException {
        if (!Files.isRegularFile(from)) {
            throw new InputProblem("FILE", "no such file: " + from, "");
        }
        return Utf8.read(from, LARGEST_RESULT);
    }

    // --- what is shown

    private int show(SpreadResult result, String caseText) throws IOException {
        String json = SpreadJson.result(result, caseText, Version.number()) + "\n";
        if (output != null) {
            whole(output, json.getBytes(StandardCharsets.UTF_8));
        }
        if (figures != null) {
            pictures(result);
        }
        terminal.out().print(shared.json ? json : SpreadText.write(result, Version.number(), shared.unitSystem()));
        return code(result);
    }

    private static int code(SpreadResult result) {
        return result.verdict() == null ? ExitCode.OK : result.verdict().exitCode();
    }

    private void pictures(SpreadResult result) throws IOException {
        int number = 0;
        for (SpreadResult.OutputSpread o : result.outputs()) {
            if (number >= MOST_FIGURES) {
                break;
            }
            number++;
            String name = String.format(
                    java.util.Locale.ROOT, "%02d-%s", number, o.name().replaceAll("[^A-Za-z0-9]+", "-"));
            boolean bars = result.tornado().stream().anyMatch(t -> t.output().equals(o.place()));
            picture(
                    SpreadChart.draw(
                            result, o, SpreadPlots::words, readout(), Theme.LIGHT, WIDTH, bars ? 2 * HEIGHT : HEIGHT),
                    name + (bars ? "-histogram-tornado" : "-histogram"));
            Consumer<String> scatter = input -> {
                try {
                    picture(
                            SpreadPlots.scatter(result, input, o, readout(), Theme.LIGHT, WIDTH, HEIGHT),
                            name + "-scatter");
                } catch (IOException e) {
                    throw new UncheckedIOException(e);
                }
            };
            result.ranks().stream()
                    .filter(r -> r.output().equals(o.place()) && !Double.isNaN(r.coefficient()))
                    .findFirst()
                    .ifPresent(r -> scatter.accept(r.input()));
        }
        for (SpreadResult.RedlineTrade t : result.redlines()) {
            picture(
                    SpreadPlots.trade(t, readout(), Theme.LIGHT, WIDTH, HEIGHT),
                    "redline-" + t.name().replaceAll("[^A-Za-z0-9]+", "-"));
        }
    }

    private Readout readout() {
        return shared.unitSystem() == UnitSystem.US ? Readout.US : Readout.SI;
    }

    private void picture(Figure figure, String name) throws IOException {
        Path target = figures.resolve(name + "." + form);
        try (WholeFile picture = WholeFile.begin(target)) {
            if (form == FigureForm.svg) {
                FigureExport.svg(figure, picture.out());
            } else {
                FigureExport.png(figure, 2, picture.out());
            }
            picture.commit();
        }
        wrote(target);
    }

    private void print(String text, Path target) throws IOException {
        if (target == null) {
            terminal.out().print(text);
        } else {
            whole(target, text.getBytes(StandardCharsets.UTF_8));
        }
    }

    private void whole(Path target, byte[] bytes) throws IOException {
        try (WholeFile result = WholeFile.begin(target)) {
            result.out().write(bytes);
            result.commit();
        }
        wrote(target);
    }

    private void wrote(Path target) {
        if (!shared.quiet) {
            terminal.err().println("purgewright: wrote " + target);
        }
    }
}
