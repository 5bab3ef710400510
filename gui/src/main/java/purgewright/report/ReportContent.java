package purgewright.report;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.function.DoubleFunction;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import purgewright.figure.BarrierSection;
import purgewright.figure.Picture;
import purgewright.figure.Readout;
import purgewright.fluids.unit.UnitSystem;
import purgewright.fluids.validation.Check;
import purgewright.hazard.fault.FaultResult;
import purgewright.hazard.fault.Loss;
import purgewright.hazard.finding.Evidence;
import purgewright.hazard.finding.Finding;
import purgewright.hazard.finding.Verdict;
import purgewright.hazard.finding.Verdicts;
import purgewright.hazard.service.CheckResult;
import purgewright.hazard.service.CheckResult.PhaseResult;
import purgewright.hazard.service.Comparison;
import purgewright.hazard.service.ValidationSets;
import purgewright.hazard.sizing.BarrierPrice;
import purgewright.report.Block.Banner;
import purgewright.report.Block.Bullets;
import purgewright.report.Block.Drawing;
import purgewright.report.Block.Grid;
import purgewright.report.Block.Heading;
import purgewright.report.Block.Signatures;
import purgewright.report.Block.Text;
import purgewright.sealflow.casefile.CaseDocument;
import purgewright.sealflow.model.Cavity;
import purgewright.sealflow.model.Role;
import purgewright.sealflow.network.SolveResult.CavityState;
import purgewright.sealflow.network.SolveResult.Converged;
import purgewright.sealflow.network.SolveResult.NotConverged;
import purgewright.sealflow.network.SolveResult.PassageState;

/** What a report says, in order: verdict, figure, results, findings, faults, inputs, models, cautions, signatures. */
final class ReportContent {
    /** Phases in which a barrier differs by no more than this factor share a line on page one. */
    private static final double ALIKE = 1.01;
    /** Findings on page one; all of them follow later. */
    private static final int NEAREST = 6;
    /** Findings whose evidence is printed; the JSON has that of all. */
    private static final int MOST_EVIDENCE = 12;

    /** A flow, kg/s, and a speed, m/s, below which a number keeps two digits: four of them would pretend to mean something. */
    private static final double TINY_FLOW = 1e-5;

    private static final double TINY_SPEED = 0.01;

    private final ReportInput input;
    private final CheckResult check;
    private final FaultResult faults;
    private final Comparison against;
    private final UnitSystem units;
    private final Figures figures;
    private final List<Block> blocks = new ArrayList<>();

    private ReportContent(ReportInput input, UnitSystem units) {
        this.input = input;
        this.check = input.check();
        this.faults = input.faults();
        this.against = input.against();
        this.units = units;
        this.figures = new Figures(units);
    }

    static List<Block> of(ReportInput input, UnitSystem units) {
        return new ReportContent(input, units).build();
    }

    private List<Block> build() {
        summary();
        if (against != null) {
            changes();
        }
        for (PhaseResult phase : check.phases()) {
            phase(phase);
        }
        price();
        findings();
        waivers();
        evidence();
        if (faults != null) {
            faults();
        }
        blocks.addAll(new StudyBlocks(units).of(input));
        inputs();
        blocks.addAll(AssumptionBlocks.of(check));
        models();
        blocks.add(new Heading(2, "cautions", "Cautions"));
        blocks.add(new Bullets(cautions()));
        return blocks;
    }

    /** The check's, and what the studies in this report add to them. */
    private List<String> cautions() {
        Set<String> all = new LinkedHashSet<>(check.cautions());
        all.addAll(sweepCautions());
        if (input.spread() != null) {
            all.addAll(input.spread().cautions());
        }
        return List.copyOf(all);
    }

    /** What the sweep alone rests on, for instance which instruments it assumed; empty without one. */
    private List<String> sweepCautions() {
        return faults == null ? List.of() : faults.cautionsBeyond(check.cautions());
    }

    private void summary() {
        Finding governing = check.governing().orElse(null);
        String line = faults == null ? check.verdictLine() : check.verdictLine().replace("; faults not examined", "");
        blocks.add(new Banner(check.verdict(), line, governing == null ? "" : governingWords(governing)));
        if (faults != null) {
            blocks.add(new Banner(faults.verdict(), "under faults: " + faults.verdictLine(), ""));
        }
        CheckResult.PurgeSummary purge = check.purge();
        if (purge != null && !Double.isNaN(purge.flow())) {
            if (purge.gas().isEmpty()) {
                blocks.add(new Text(CheckText.NO_PURGE + "."));
            } else {
                blocks.add(new Text("Purge: " + figures.flow(purge.flow()) + " " + figures.flowUnit() + " of "
                        + purge.gas()
                        + (check.phases().size() > 1 ? ", greatest in phase " + purge.governingPhase() : "") + "."));
            }
        }
        glance();
        PhaseResult shown = shown(governing);
        Converged solved = shown.solve() instanceof Converged c ? c : null;
        Picture picture = Picture.of(shown.model(), solved, shown.findings())
                .in(units == UnitSystem.US ? Readout.US : Readout.SI);
        blocks.add(new Drawing(
                BarrierSection.draw(picture),
                "Barrier section with the pressure skyline above it, phase " + shown.name()
                        + ". Widths of arrows go with flow."));
    }

    /** A barrier in the phases in which it reads the same to within a hundredth. */
    private final class Reading {
        final String cavity;
        final String gas;
        final List<String> phases = new ArrayList<>();
        final double[] pressure = {Double.POSITIVE_INFINITY, 0};
        final double[] temperature = {Double.POSITIVE_INFINITY, 0};

        Reading(String cavity, String gas) {
            this.cavity = cavity;
            this.gas = gas;
        }

        boolean takes(String otherCavity, String otherGas, double p, double t) {
            return cavity.equals(otherCavity)
                    && gas.equals(otherGas)
                    && Math.max(pressure[1], p) <= ALIKE * Math.min(pressure[0], p)
                    && Math.max(temperature[1], t) <= ALIKE * Math.min(temperature[0], t);
        }

        void add(String phase, double p, double t) {
            phases.add(phase);
            pressure[0] = Math.min(pressure[0], p);
            pressure[1] = Math.max(pressure[1], p);
            temperature[0] = Math.min(temperature[0], t);
            temperature[1] = Math.max(temperature[1], t);
        }

        List<String> row() {
            return List.of(
                    cavity,
                    span(figures.pressure(pressure[0]), figures.pressure(pressure[1])),
                    span(figures.temperature(temperature[0]), figures.temperature(temperature[1])),
                    gas,
                    String.join(", ", phases));
        }

        private String span(String low, String high) {
            return low.equals(high) ? low : low + " to " + high;
        }
    }

    /** What the reader looks for first: each barrier with the phases in which it reads the same, and what stands nearest to its limit. */
    private void glance() {
        List<Reading> readings = new ArrayList<>();
        List<String> unsolved = new ArrayList<>();
        for (PhaseResult phase : check.phases()) {
            if (!(phase.solve() instanceof Converged converged)) {
                unsolved.add(phase.name());
                continue;
            }
            for (Cavity cavity : phase.model().cavities()) {
                CavityState state = converged.cavities().get(cavity.name());
                if (cavity.role() != Role.BARRIER || state == null) {
                    continue;
                }
                String gas = CheckText.constituents(state.moleFractions(), 40);
                double p = state.state().pressure();
                double t = state.state().temperature();
                Reading reading = readings.stream()
                        .filter(r -> r.takes(cavity.name(), gas, p, t))
                        .findFirst()
                        .orElse(null);
                if (reading == null) {
                    reading = new Reading(cavity.name(), gas);
                    readings.add(reading);
                }
                reading.add(phase.name(), p, t);
            }
        }
        List<List<String>> barriers = new ArrayList<>();
        if (!unsolved.isEmpty()) {
            barriers.add(List.of("-", "-", "-", "not converged", String.join(", ", unsolved)));
        }
        readings.stream()
                .sorted(Comparator.comparing(r -> r.cavity))
                .map(Reading::row)
                .forEach(barriers::add);
        if (!barriers.isEmpty()) {
            blocks.add(new Grid(
                    "lrrll",
                    List.of(
                            "barrier",
                            "pressure, " + figures.pressureUnit(),
                            "temperature, " + figures.temperatureUnit(),
                            "mole %",
                            "in phase"),
                    barriers));
        }
        // Once a place and criterion, where its margin is least: the same seal in ten phases would hide the others.
        Map<String, List<Finding>> groups = new LinkedHashMap<>();
        check.findings().stream()
                .filter(f -> f.verdict() != Verdict.HOLDS || CheckResult.tellsNearness(f))
                .forEach(f -> groups.computeIfAbsent(
                                f.verdict() + "\n" + CheckText.criterion(f) + "\n" + f.where(), k -> new ArrayList<>())
                        .add(f));
        List<List<String>> nearest = new ArrayList<>();
        groups.values().stream().limit(NEAREST).forEach(group -> {
            Finding f = group.get(0); // sorted: least margin first
            nearest.add(List.of(
                    f.verdict().word(),
                    Words.place(f.where()),
                    inPhases(group),
                    f.what(),
                    figures.quantity(f.value(), f.unit()),
                    figures.quantity(f.limit(), f.unit()),
                    Figures.margin(f.margin())));
        });
        if (!nearest.isEmpty()) {
            String heading = "Nearest to their limits, or beyond";
            blocks.add(new Text(CheckText.leavesOut(check) ? heading + ". " + CheckText.LEFT_OUT : heading + ":"));
            blocks.add(new Grid(
                    "llllrrr", List.of("verdict", "where", "phase", "what", "value", "limit", "margin"), nearest));
        }
        blocks.add(new Heading(2, "signatures", "Revision and signatures"));
        blocks.add(new Signatures(
                check.model().about().getOrDefault("revision", ""),
                check.model().about().getOrDefault("date", ""),
                List.of("prepared", "checked", "approved")));
    }

    private String inPhases(List<Finding> group) {
        String least = CheckText.leastPhase(group, check.phases().size());
        return group.size() == Verdicts.tied(group).size() ? least : least + ", least of " + group.size();
    }

    /** All findings of the same verdict, criterion, place and scenario, worst first. */
    private List<Finding> group(Finding of) {
        return check.findings().stream()
                .filter(f -> f.verdict() == of.verdict() && CheckText.kind(f).equals(CheckText.kind(of)))
                .toList();
    }

    /** The phase to draw: where the governing finding is worst; of several in which it is the same the one that runs fastest, the first of those. */
    private PhaseResult shown(Finding governing) {
        List<String> worst = governing == null
                ? List.of()
                : Verdicts.tied(group(governing)).stream().map(Finding::phase).toList();
        PhaseResult best = null;
        for (PhaseResult p : check.phases()) {
            if (worst.contains(p.name())
                    && (best == null
                            || p.model().rotor().speed() > best.model().rotor().speed())) {
                best = p;
            }
        }
        return best == null ? check.phases().get(0) : best;
    }

    private String governingWords(Finding finding) {
        String numbers = Double.isNaN(finding.margin()) ? "" : ", margin " + Figures.margin(finding.margin());
        return (finding.verdict() == Verdict.HOLDS ? "Nearest to its limit: " : "Governing: ")
                + finding.what() + ": " + figures.quantity(finding.value(), finding.unit()) + ", limit "
                + figures.quantity(finding.limit(), finding.unit()) + numbers + " (" + phases(finding) + ")";
    }

    private String phases(Finding finding) {
        String least = CheckText.leastPhase(group(finding), check.phases().size());
        return least.startsWith("all ") ? least : "phase " + least;
    }

    private void phase(PhaseResult phase) {
        blocks.add(new Heading(2, id("phase", phase.name()), "Phase " + phase.name()));
        if (phase.solve() instanceof NotConverged failed) {
            blocks.add(new Text("No solution was found. " + failed.detail() + " The balance is worst in "
                    + failed.worstCavity() + ". No state is shown, because none was found."));
            return;
        }
        Converged converged = (Converged) phase.solve();
        List<List<String>> cavities = new ArrayList<>();
        for (CavityState cavity : converged.cavities().values()) {
            Cavity stated = phase.model().cavity(cavity.name());
            cavities.add(List.of(
                    cavity.name(),
                    stated == null ? "" : stated.role().text(),
                    figures.pressure(cavity.state().pressure()),
                    figures.temperature(cavity.state().temperature()),
                    Words.phase(cavity.state()),
                    CheckText.constituents(cavity.moleFractions(), 60)));
        }
        blocks.add(new Heading(3, id("cavities", phase.name()), "Cavities"));
        blocks.add(new Grid(
                "llrrll",
                List.of(
                        "cavity",
                        "role",
                        "pressure, " + figures.pressureUnit(),
                        "temperature, " + figures.temperatureUnit(),
                        "phase",
                        "mole %"),
                cavities));
        List<List<String>> passages = new ArrayList<>();
        for (PassageState passage : converged.passages().values()) {
            double flow = passage.flow().massFlow();
            passages.add(List.of(
                    passage.name(),
                    flow < 0 ? passage.to() + " → " + passage.from() : passage.from() + " → " + passage.to(),
                    shortened(figures::flow, Math.abs(flow), TINY_FLOW),
                    passage.gap() == null ? "" : figures.clearance(passage.gap().mean()),
                    passage.gap() == null ? "" : figures.clearance(passage.gap().least()),
                    shortened(figures::speed, Math.abs(passage.flow().gapVelocity()), TINY_SPEED),
                    passage.flow().choked() ? "choked" : ""));
        }
        blocks.add(new Heading(3, id("passages", phase.name()), "Passages, in the direction of flow"));
        blocks.add(new Grid(
                "llrrrrl",
                List.of(
                        "passage",
                        "from → to",
                        "flow, " + figures.flowUnit(),
                        "gap, " + figures.clearanceUnit(),
                        "least, " + figures.clearanceUnit(),
                        "velocity, " + figures.speedUnit(),
                        ""),
                passages));
        var c = converged.convergence();
        blocks.add(new Text(String.format(
                Locale.ROOT,
                "%d iterations; recomputed from the result, mass closes to %.0e of the largest flow, energy to %.0e of the"
                        + " largest enthalpy flow.",
                c.iterations(),
                Math.max(c.massClosure(), 1e-12),
                Math.max(c.energyClosure(), 1e-12))));
    }

    private static String shortened(DoubleFunction<String> shown, double si, double tiny) {
        String text = shown.apply(si);
        double value = text.equals("-") ? Double.NaN : Double.parseDouble(text);
        return value > 0 && si < tiny ? Figures.fixed(value, value < 1e-4 ? 3 : 2) : text;
    }

    private void findings() {
        blocks.add(new Heading(2, "findings", "Findings"));
        for (Verdict verdict : Verdict.values()) {
            List<Finding> these = check.findings().stream()
                    .filter(f -> f.verdict() == verdict)
                    .toList();
            if (these.isEmpty()) {
                continue;
            }
            blocks.add(new Heading(3, id("findings", verdict.word()), verdict.word() + " (" + these.size() + ")"));
            List<List<String>> rows = new ArrayList<>();
            // What holds is shown once a place and criterion, where its margin is least; the JSON and the window have
            // every phase.
            Map<String, List<Finding>> groups = new LinkedHashMap<>();
            for (Finding f : these) {
                String key =
                        verdict == Verdict.HOLDS ? CheckText.criterion(f) + "\n" + f.where() : f.id() + f.scenario();
                groups.computeIfAbsent(key, k -> new ArrayList<>()).add(f);
            }
            for (List<Finding> group : groups.values()) {
                Finding f = group.get(0); // sorted: least margin first
                String what = verdict == Verdict.HOLDS
                        ? CheckText.criterion(f)
                        : f.what()
                                + (f.mend().isEmpty() ? "" : ". Mend: " + f.mend())
                                + (f.caution().isEmpty() ? "" : ". Caution: " + f.caution());
                rows.add(List.of(
                        Words.place(f.where()),
                        inPhases(group),
                        what,
                        figures.quantity(f.value(), f.unit()),
                        figures.quantity(f.limit(), f.unit()),
                        Figures.margin(f.margin())));
            }
            blocks.add(new Grid("lllrrr", List.of("where", "phase", "what", "value", "limit", "margin"), rows));
            List<String> cautions = verdict == Verdict.HOLDS
                    ? CheckText.cautions(these, check.phases().size())
                    : List.of();
            if (!cautions.isEmpty()) {
                blocks.add(new Text("Cautions of what holds:"));
                blocks.add(new Bullets(cautions));
            }
        }
    }

    /** Who accepted what: beside the findings, whose verdicts stand. */
    private void waivers() {
        CaseDocument document = check.document();
        List<List<String>> rows = new ArrayList<>();
        for (int i = 0; i < document.children("/waivers").size(); i++) {
            String at = "/waivers/" + i;
            String id = document.text(at + "/finding").orElse("");
            rows.add(List.of(
                    id.replace(":", ": "),
                    check.findings().stream()
                            .filter(f -> f.id().equals(id))
                            .map(f -> f.verdict().word())
                            .findFirst()
                            .orElse("no such finding as stated"),
                    document.text(at + "/by").orElse(""),
                    document.text(at + "/date").orElse(""),
                    document.text(at + "/reason").orElse("")));
        }
        if (!rows.isEmpty()) {
            blocks.add(new Heading(3, "waivers", "Waivers: accepted by name, verdicts unchanged"));
            blocks.add(new Grid("lllll", List.of("finding", "verdict", "by", "date", "reason"), rows));
        }
    }

    /** What the findings that decide rest on, so that a reviewer can follow them to their numbers. */
    private void evidence() {
        List<Finding> deciding = new ArrayList<>(check.findings().stream()
                .filter(f -> f.verdict() != Verdict.HOLDS)
                .limit(MOST_EVIDENCE)
                .toList());
        check.governing().filter(f -> !deciding.contains(f)).ifPresent(deciding::add);
        deciding.removeIf(f -> f.evidence().equals(Evidence.NONE));
        if (deciding.isEmpty()) {
            return;
        }
        blocks.add(new Heading(3, "evidence", "What the deciding findings rest on"));
        for (Finding f : deciding) {
            Evidence e = f.evidence();
            List<String> states = new ArrayList<>();
            e.states()
                    .forEach(s ->
                            states.add(Words.place(s.place()) + " " + s.quantity() + " " + shown(s.value(), s.unit())));
            List<String> flips = new ArrayList<>();
            e.flips()
                    .forEach(x -> flips.add(Words.place(
                                    x.place().substring(0, x.place().lastIndexOf('/'))) + " " + Words.place(x.place())
                            + " " + String.format(Locale.ROOT, "%+.0f %%", 100 * x.share())));
            List<List<String>> rows = new ArrayList<>();
            rows.add(List.of("how", f.how()));
            line(rows, "by what model", String.join("; ", e.models()));
            line(rows, "states", String.join("; ", states));
            line(rows, "balances", e.closure());
            line(rows, "margin at band ends", ends(e));
            line(rows, "alone brings it to 0", String.join("; ", flips));
            blocks.add(new Grid(
                    "ll",
                    List.of(
                            CheckText.criterion(f) + ", " + f.verdict().word(),
                            Words.place(f.where()) + ", phase " + f.phase() + ": "
                                    + figures.quantity(f.value(), f.unit()) + ", limit "
                                    + figures.quantity(f.limit(), f.unit()) + ", margin " + Figures.margin(f.margin())),
                    rows));
        }
    }

    private static void line(List<List<String>> rows, String what, String words) {
        if (!words.isEmpty()) {
            rows.add(List.of(what, words));
        }
    }

    private static String ends(Evidence e) {
        return Stream.of(
                        e.adverse() == null
                                ? ""
                                : "adverse " + Figures.margin(e.adverse().margin()),
                        e.favourable() == null
                                ? ""
                                : "favourable " + Figures.margin(e.favourable().margin()))
                .filter(words -> !words.isEmpty())
                .collect(Collectors.joining(", "));
    }

    private void faults() {
        blocks.add(new Heading(2, "faults", "Faults"));
        blocks.add(new Text("Worst first. In brackets: shown, but not part of the verdict. " + faults.times()
                + " Needed: from the fault until it is seen, detected and shut down and the rotor stands."));
        sweepCautions().forEach(c -> blocks.add(new Text(c)));
        List<List<String>> rows = new ArrayList<>();
        for (FaultResult.Row row : faults.worstFirst()) {
            Loss loss = row.fastest();
            rows.add(List.of(
                    row.credible() ? row.scenario() : "(" + row.scenario() + ")",
                    row.verdict().word(),
                    String.join(", ", row.lost()).replace('-', ' '),
                    loss == null
                            ? "-"
                            : FailText.when(loss.seconds(), units) + ", "
                                    + loss.method().text(),
                    loss == null ? "-" : FailText.mixing(loss, units),
                    loss == null ? "-" : FailText.time(loss.needed(), units),
                    seen(row, loss)));
        }
        blocks.add(new Grid(
                "lllllrl",
                List.of("scenario", "verdict", "lost", "time to loss", "fluids mix", "needed", "seen by"),
                rows));
        if (!faults.incomplete().isEmpty()) {
            blocks.add(new Text("Not examined: "
                    + (faults.notExamined().isEmpty() ? faults.incomplete() : String.join("; ", faults.notExamined()))
                    + "."));
        }
    }

    /** What sees it first and when, where that was computed; else the reading that changes most. */
    private String seen(FaultResult.Row row, Loss loss) {
        if (row.hidden()) {
            return "hidden: no instrument";
        }
        if (loss != null && !loss.seenFirst().isEmpty()) {
            return loss.seenFirst() + " " + FailText.when(loss.seenAfter(), units);
        }
        return row.seenBy().isEmpty() ? "-" : row.seenBy().get(0);
    }

    private void changes() {
        blocks.add(new Heading(2, "changes", "What changed"));
        String before = against.before().model().about().getOrDefault("title", "(no title)");
        blocks.add(new Text("Against the case \"" + before + "\", "
                + against.before().document().hash().substring(0, 16) + ". Its verdict: "
                + against.before().verdictLine().replace("; faults not examined", "")
                + ". Both were solved by this program."));
        if (against.inputs().isEmpty()) {
            blocks.add(new Text("No input differs."));
        } else {
            blocks.add(new Heading(3, "changed-inputs", "inputs"));
            List<List<String>> rows = new ArrayList<>();
            for (Comparison.InputChange c : against.inputs()) {
                rows.add(List.of(
                        c.pointer(),
                        c.before() == null ? "(not stated)" : c.before(),
                        c.after() == null ? "(not stated)" : c.after()));
            }
            blocks.add(new Grid("lll", List.of("place", "before", "now"), rows));
        }
        if (!against.findings().isEmpty()) {
            blocks.add(new Heading(3, "changed-findings", "findings whose verdict or margin changed"));
            List<List<String>> rows = new ArrayList<>();
            for (Comparison.FindingChange c : against.findings()) {
                rows.add(List.of(
                        Words.place(c.any().where()),
                        c.any().phase(),
                        CheckText.criterion(c.any()).replace('-', ' '),
                        word(c.before()),
                        word(c.after()),
                        c.before() == null ? "-" : Figures.margin(c.before().margin()),
                        c.after() == null ? "-" : Figures.margin(c.after().margin())));
            }
            blocks.add(new Grid(
                    "lllllrr",
                    List.of("where", "phase", "criterion", "before", "now", "margin before", "margin now"),
                    rows));
        }
        if (!against.results().isEmpty()) {
            blocks.add(new Heading(3, "changed-results", "results that moved"));
            List<List<String>> rows = new ArrayList<>();
            for (Comparison.ResultChange c : against.results()) {
                rows.add(List.of(
                        c.phase(),
                        Words.place(c.place()),
                        c.quantity(),
                        shown(c.before(), c.unit()),
                        shown(c.after(), c.unit()),
                        change(c)));
            }
            blocks.add(new Grid("lllrrr", List.of("phase", "where", "what", "before", "now", "change"), rows));
        }
    }

    private static String word(Finding finding) {
        return finding == null ? "(none)" : finding.verdict().word();
    }

    private String shown(double value, String unit) {
        return unit.equals("K") && !Double.isNaN(value)
                ? figures.temperature(value) + " " + figures.temperatureUnit()
                : figures.quantity(value, unit);
    }

    /** A share says little of a temperature, and nothing where something came or went. */
    private String change(Comparison.ResultChange c) {
        if (Double.isNaN(c.before()) || Double.isNaN(c.after()) || c.before() == 0) {
            return "-";
        }
        if (c.unit().equals("K")) {
            double kelvins = c.after() - c.before();
            return units == UnitSystem.US
                    ? String.format(Locale.ROOT, "%+.1f degF", 1.8 * kelvins)
                    : String.format(Locale.ROOT, "%+.1f K", kelvins);
        }
        return Math.signum(c.before()) != Math.signum(c.after())
                ? "turned"
                : String.format(Locale.ROOT, "%+.1f %%", 100 * (c.after() / c.before() - 1));
    }

    private void price() {
        if (check.price().isEmpty()) {
            return;
        }
        blocks.add(new Heading(2, "price", "Price of the barrier"));
        List<List<String>> rows = new ArrayList<>();
        for (BarrierPrice price : check.price()) {
            rows.add(List.of(
                    price.phase(),
                    figures.flow(price.purgeFlow()),
                    losses(price.pumped()),
                    losses(price.drive()),
                    figures.power(price.shaftPower()),
                    carried(price.carried())));
        }
        blocks.add(new Grid(
                "lrllrl",
                List.of(
                        "phase",
                        "purge, " + figures.flowUnit(),
                        "pumped fluid lost (share of main flow)",
                        "drive gas lost (share of main flow)",
                        "shaft power",
                        "purge gas carried in"),
                rows));
    }

    private String losses(List<BarrierPrice.Loss> losses) {
        List<String> words = new ArrayList<>();
        for (BarrierPrice.Loss loss : losses) {
            words.add(loss.stream() + " " + figures.flow(loss.lost()) + " " + figures.flowUnit()
                    + (Double.isNaN(loss.lostShare()) ? "" : " (" + Figures.percent(loss.lostShare(), 2) + ")"));
        }
        return words.isEmpty() ? "none" : String.join("; ", words);
    }

    private String carried(List<BarrierPrice.Carried> carried) {
        List<String> words = new ArrayList<>();
        for (BarrierPrice.Carried c : carried) {
            words.add(figures.flow(c.flow()) + " " + figures.flowUnit() + " into " + c.into()
                    + (Double.isNaN(c.share())
                            ? ""
                            : " (" + Figures.percent(c.share(), 2) + (c.liquid() ? " void)" : " of moles)")));
        }
        return words.isEmpty() ? "none" : String.join("; ", words);
    }

    private void inputs() {
        blocks.add(new Heading(2, "inputs", "Inputs, as typed"));
        blocks.add(
                new Text(
                        "Origin: the case file whose hash (SHA-256) stands in the title block and which is embedded in this document, units as"
                                + " typed; where a note or an origin is stated, it stands with the value. What the case leaves open is under Assumptions."));
        blocks.addAll(InputBlocks.of(check.document()));
    }

    private void models() {
        blocks.add(new Heading(2, "models", "Models, limits and sources"));
        Set<String> how = new LinkedHashSet<>();
        Set<String> sources = new LinkedHashSet<>();
        for (Finding f : check.findings()) {
            how.add(CheckText.criterion(f) + ": " + f.how());
            sources.add(CheckText.criterion(f) + ": " + f.source());
        }
        blocks.add(new Text("Properties: " + check.engine()
                + ". Every published check by itself, ours against theirs: command validate."));
        blocks.add(new Heading(3, "ranges", "Models in use and their range"));
        blocks.add(ModelRows.of(check));
        validation();
        blocks.add(new Heading(3, "how", "How it was computed"));
        blocks.add(new Bullets(distinctByCriterion(how)));
        blocks.add(new Heading(3, "sources", "Where the limits come from"));
        blocks.add(new Bullets(distinctByCriterion(sources)));
    }

    /** How well the models stand, from the same checks that the command prints; computed, not quoted. */
    private void validation() {
        blocks.add(new Heading(3, "validation", "Validation status of the models"));
        List<List<String>> rows = ValidationRows.ROWS;
        blocks.add(new Grid(
                "lrrrr", List.of("models", "checks", "validation", "verification", "outside tolerance"), rows));
        blocks.add(new Text(
                "Validation: against measured or independently published values. Verification: against closed forms and"
                        + " exact solutions. Neither is a test of the hardware in this case."));
    }

    /** Once for a program run: the checks depend on no case, and take seconds. */
    private static final class ValidationRows {
        static final List<List<String>> ROWS = rows();

        private static List<List<String>> rows() {
            List<List<String>> rows = new ArrayList<>();
            ValidationSets.bySet().forEach((set, checks) -> {
                long passed =
                        checks.parallelStream().filter(ReportContent::passes).count();
                long measured = checks.stream()
                        .filter(c -> c.kind() == Check.Kind.VALIDATION)
                        .count();
                rows.add(List.of(
                        set,
                        Integer.toString(checks.size()),
                        Long.toString(measured),
                        Long.toString(checks.size() - measured),
                        Long.toString(checks.size() - passed)));
            });
            return List.copyOf(rows);
        }
    }

    private static boolean passes(Check check) {
        try {
            return check.passes(check.ours().getAsDouble());
        } catch (RuntimeException refused) { // a refusal where a number is due is a failed check
            return false;
        }
    }

    private static List<String> distinctByCriterion(Set<String> lines) {
        Map<String, String> first = new java.util.TreeMap<>();
        lines.forEach(line -> first.putIfAbsent(line.substring(0, line.indexOf(':')), line));
        return List.copyOf(first.values());
    }

    private static String id(String kind, String name) {
        return kind + "-" + name.toLowerCase(Locale.ROOT).replaceAll("[^a-z0-9]+", "-");
    }
}
