package purgewright.report;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.stream.Collectors;
import purgewright.fluids.unit.UnitSystem;
import purgewright.fluids.unit.Units;
import purgewright.hazard.finding.Evidence;
import purgewright.hazard.finding.Finding;
import purgewright.hazard.finding.Verdict;
import purgewright.hazard.finding.Verdicts;
import purgewright.hazard.service.CavityExplanation;
import purgewright.hazard.service.CheckResult;
import purgewright.hazard.service.CheckResult.PhaseResult;
import purgewright.hazard.service.CheckStudies;
import purgewright.sealflow.model.Cavity;
import purgewright.sealflow.network.SolveResult;
import purgewright.sealflow.network.SolveResult.CavityState;
import purgewright.sealflow.network.SolveResult.Converged;
import purgewright.sealflow.network.SolveResult.NotConverged;
import purgewright.sealflow.network.SolveResult.PassageState;

/** The report of {@code check} for a terminal: the verdict first, then the evidence, then the cautions. 100 columns, plain ASCII. */
public final class CheckText {
    /** Where no cavity is an inert supply. */
    static final String NO_PURGE = "Purge: none; no cavity of this case feeds an inert gas";

    private final CheckResult result;
    private final CavityExplanation why;
    private final UnitSystem units;
    private final Figures figures;
    private final boolean evidence;
    private final CheckStudies studies;
    private final StringBuilder text = new StringBuilder();

    private CheckText(
            CheckResult result, CavityExplanation why, UnitSystem units, boolean evidence, CheckStudies studies) {
        this.result = result;
        this.why = why;
        this.units = units;
        this.figures = new Figures(units);
        this.evidence = evidence;
        this.studies = studies;
    }

    /** The whole report, ending with a line feed. */
    public static String write(CheckResult result, UnitSystem units) {
        return write(result, null, units);
    }

    /** The same with the explanation of one cavity right after the verdict; null for none. */
    public static String write(CheckResult result, CavityExplanation why, UnitSystem units) {
        return write(result, why, units, false);
    }

    /** The same with what each finding rests on, or without. */
    public static String write(CheckResult result, CavityExplanation why, UnitSystem units, boolean evidence) {
        return write(result, why, units, evidence, CheckStudies.NONE);
    }

    /** The same with wear limits, redlines and interlocks, as far as there are any. */
    public static String write(
            CheckResult result, CavityExplanation why, UnitSystem units, boolean evidence, CheckStudies studies) {
        return new CheckText(result, why, units, evidence, studies).write();
    }

    private String write() {
        Words.paragraph(text, "Verdict: ", "         ", result.verdictLine());
        Words.paragraph(text, "Case:    ", "         ", result.model().about().getOrDefault("title", "(no title)"));
        String note = result.model().about().getOrDefault("note", "");
        if (!note.isEmpty()) {
            Words.paragraph(text, "Note:    ", "         ", note);
        }
        if (why != null) {
            WhyText.append(text, why, result.document(), units);
        }
        for (PhaseResult phase : result.phases()) {
            phase(phase);
        }
        purge();
        PriceText.append(text, result.price(), units);
        findings();
        waivers();
        if (evidence) {
            evidence();
        }
        StudyText.redlines(text, studies.redlines(), studies.interlocks(), figures);
        StudyText.wear(text, studies.wear(), units);
        text.append("\nCautions\n");
        for (String caution : result.cautions()) {
            Words.paragraph(text, "  - ", "    ", caution);
        }
        String hash = result.document().hash();
        text.append("\nProperties: ").append(result.engine());
        text.append("; case ").append(hash, 0, Math.min(12, hash.length())).append('\n');
        return text.toString();
    }

    private void phase(PhaseResult phase) {
        SolveResult.Convergence convergence = phase.solve().convergence();
        text.append("\nPhase ").append(phase.name()).append(": ");
        if (phase.solve() instanceof NotConverged failed) {
            text.append("not converged after ").append(convergence.iterations()).append(" iterations\n");
            Words.paragraph(text, "  ", "  ", failed.detail());
            text.append("  Worst balance: ")
                    .append(failed.worstCavity())
                    .append(". No state is shown, because none was found.\n");
            return;
        }
        Converged converged = (Converged) phase.solve();
        text.append(convergence.iterations()).append(" iterations; ");
        String mass = closure(convergence.massClosure());
        String energy = closure(convergence.energyClosure());
        text.append(
                mass.equals(energy)
                        ? "mass and energy close " + mass + "\n"
                        : "mass closes " + mass + ", energy " + energy + "\n");
        cavities(phase, converged);
        passages(converged);
    }

    /** Below the promised closure the figure is noise, and differs from machine to machine. */
    private static String closure(double value) {
        return value <= 1e-9 ? "within 1e-9" : String.format(Locale.ROOT, "to %.0e", value);
    }

    private void cavities(PhaseResult phase, Converged converged) {
        List<String[]> rows = new ArrayList<>();
        rows.add(new String[] {"cavity", "role", "pressure", "temp.", "phase"});
        for (CavityState cavity : converged.cavities().values()) {
            Cavity stated = phase.model().cavity(cavity.name());
            rows.add(new String[] {
                cavity.name(),
                stated == null ? "" : stated.role().text(),
                figures.pressure(cavity.state().pressure()),
                figures.temperature(cavity.state().temperature()),
                Words.phase(cavity.state())
            });
        }
        int left = Words.WIDTH - 2;
        for (int column = 0; column < 5; column++) {
            int of = column;
            left -= 2 + rows.stream().mapToInt(row -> row[of].length()).max().orElse(0);
        }
        Table table = new Table("  ", "llrrll");
        table.heading("cavity", "role", "pressure", "temp.", "phase", "mole %");
        table.heading("", "", figures.pressureUnit(), figures.temperatureUnit(), "", "");
        int index = 1;
        for (CavityState cavity : converged.cavities().values()) {
            String[] row = rows.get(index++);
            table.row(row[0], row[1], row[2], row[3], row[4], constituents(cavity.moleFractions(), left));
        }
        text.append('\n');
        table.appendTo(text);
    }

    /** The largest above a hundredth of a per cent, as many as have room, then how much is left. */
    static String constituents(Map<String, Double> fractions, int room) {
        List<Map.Entry<String, Double>> sorted = new ArrayList<>(fractions.entrySet());
        sorted.sort(Map.Entry.<String, Double>comparingByValue().reversed());
        String line = "";
        String without = "";
        double shown = 0;
        for (Map.Entry<String, Double> entry : sorted) {
            if (entry.getValue() < 1e-4) {
                break;
            }
            // "100" only when nothing else is there to a tenth of a per mille.
            String longer = (without.isEmpty() ? "" : without + ", ")
                    + entry.getKey()
                    + " "
                    + Units.number(100 * entry.getValue(), entry.getValue() > 0.995 ? 4 : 3);
            double rest = 1 - shown - entry.getValue();
            String whole = rest > 5e-4 ? longer + ", rest " + Units.number(100 * rest, 2) : longer;
            if (!line.isEmpty() && whole.length() > room) {
                break;
            }
            line = whole;
            without = longer;
            shown += entry.getValue();
        }
        return line;
    }

    private void passages(Converged converged) {
        Table table = new Table("  ", "llrrrrl");
        table.heading("passage", "in the direction of flow", "flow", "gap", "least", "velocity", "");
        table.heading(
                "", "", figures.flowUnit(), figures.clearanceUnit(), figures.clearanceUnit(), figures.speedUnit(), "");
        for (PassageState passage : converged.passages().values()) {
            double flow = passage.flow().massFlow();
            String arrow = flow < 0
                    ? passage.to() + " -> " + passage.from()
                    : passage.from() + (flow == 0 ? " -- " : " -> ") + passage.to();
            table.row(
                    passage.name(),
                    arrow,
                    figures.flow(Math.abs(flow)),
                    passage.gap() == null ? "" : figures.clearance(passage.gap().mean()),
                    passage.gap() == null ? "" : figures.clearance(passage.gap().least()),
                    figures.speed(Math.abs(passage.flow().gapVelocity())),
                    passage.flow().choked() ? "choked" : "");
        }
        text.append('\n');
        table.appendTo(text);
    }

    private void purge() {
        CheckResult.PurgeSummary purge = result.purge();
        if (purge == null || Double.isNaN(purge.flow())) {
            return;
        }
        if (purge.gas().isEmpty()) {
            text.append("\n").append(NO_PURGE).append("\n");
            return;
        }
        text.append("\nPurge: ")
                .append(figures.flow(purge.flow()))
                .append(' ')
                .append(figures.flowUnit())
                .append(" of ")
                .append(purge.gas());
        if (purge.flowByPhase().size() > 1) {
            text.append(", greatest in phase ").append(purge.governingPhase());
        }
        text.append('\n');
        purge.flowByPhase().forEach((phase, flow) -> {
            if (purge.flowByPhase().size() > 1) {
                text.append("  ")
                        .append(phase)
                        .append(": ")
                        .append(figures.flow(flow))
                        .append(' ');
                text.append(figures.flowUnit()).append('\n');
            }
        });
        powers("Windage of the rotor, which heats the cavity: ", purge.windage());
        powers("Drag in the seal gaps: ", purge.sealPower());
    }

    private void powers(String heading, Map<String, Double> powers) {
        List<String> parts = new ArrayList<>();
        powers.forEach((name, watts) -> {
            if (Math.abs(watts) >= 0.5) {
                parts.add(name + " " + figures.power(watts));
            }
        });
        if (!parts.isEmpty()) {
            Words.paragraph(text, "  ", "    ", heading + String.join(", ", parts));
        }
    }

    private void findings() {
        text.append("\nFindings\n");
        for (Verdict verdict : Verdict.values()) {
            List<Finding> these = result.findings().stream()
                    .filter(f -> f.verdict() == verdict)
                    .toList();
            if (these.isEmpty()) {
                continue;
            }
            text.append("\n  ")
                    .append(verdict.word())
                    .append(" (")
                    .append(these.size())
                    .append(")\n");
            if (verdict == Verdict.HOLDS) {
                holding(these);
            } else {
                these.forEach(this::finding);
            }
        }
        if (result.findings().isEmpty()) {
            text.append("  none\n");
        }
    }

    /** What somebody has accepted, in a place of its own; the findings stand above all the same. */
    private void waivers() {
        List<Finding> waived =
                result.findings().stream().filter(f -> f.waiver() != null).toList();
        if (!waived.isEmpty()) {
            text.append("\nWaivers\n");
            waived.forEach(f -> Words.paragraph(
                    text,
                    "  - ",
                    "    ",
                    f.verdict().word() + ": " + Words.place(f.where()) + inPhase(f) + ", " + criterion(f) + ": "
                            + f.waiver().text()));
        }
    }

    /** The way from each finding to its numbers. */
    private void evidence() {
        text.append("\nEvidence\n");
        for (Finding f : result.findings()) {
            Evidence e = f.evidence();
            Words.paragraph(text, "  * ", "    ", f.verdict().word() + ": " + f.id());
            labelled("how", f.how());
            labelled("limit from", f.source());
            List<String> states = new ArrayList<>();
            e.states()
                    .forEach(s -> states.add(
                            Words.place(s.place()) + " " + s.quantity() + " " + figures.quantity(s.value(), s.unit())));
            labelled("states", String.join("; ", states));
            labelled("model", String.join("; ", e.models()));
            labelled("at the adverse ends of the seal models", ends(f, e.adverse()));
            labelled("at the favourable ends", ends(f, e.favourable()));
            List<String> flips = new ArrayList<>();
            e.flips().forEach(x -> flips.add(x.place() + String.format(Locale.ROOT, " %+.0f %%", 100 * x.share())));
            labelled("alone brings the margin to 0", String.join("; ", flips));
            labelled("properties", e.properties().isEmpty() ? "" : e.properties() + "; " + e.closure());
        }
    }

    private String ends(Finding f, Evidence.Ends ends) {
        return ends == null
                ? ""
                : figures.quantity(ends.value(), f.unit()) + ", margin " + Figures.margin(ends.margin()) + ", "
                        + ends.verdict().word();
    }

    /** What is one in all phases: place, criterion and scenario. */
    static String kind(Finding finding) {
        return finding.where() + "\n" + criterion(finding) + "\n" + finding.scenario();
    }

    /**
     * The phase with the least margin of a group, worst first; of several that share it the first, with how many others, and "all phases"
     * where value and limit are those of each.
     */
    static String leastPhase(List<Finding> group, int phases) {
        List<Finding> tied = Verdicts.tied(group);
        Finding first = tied.get(0);
        return phases(
                tied,
                phases,
                tied.stream().allMatch(f -> same(f.value(), first.value()) && same(f.limit(), first.limit())));
    }

    /** Names of the phases of findings: the first and how many others, or, where that may be said, "all phases". */
    private static String phases(List<Finding> findings, int phases, boolean all) {
        long count = findings.stream().map(Finding::phase).distinct().count();
        String first = findings.get(0).phase();
        return all && count == phases && phases > 1
                ? "all phases"
                : count == 1 ? first : first + " and " + (count - 1) + (count == 2 ? " other" : " others");
    }

    /** Prints the same: to four digits. */
    private static boolean same(double a, double b) {
        return Double.compare(a, b) == 0 || Math.abs(a - b) <= 1e-4 * Math.abs(b);
    }

    /** What stands beside the finding nearest to its limit where others are left out of that. */
    static final String LEFT_OUT =
            "Left out of that are counts that are just met, traces of nothing, and flows that must only not turn: their margin is the same"
                    + " however near the edge is.";

    /** Which finding that holds is nearest to its limit, by the one rule of {@link CheckResult#governing}, and what that leaves out. */
    private void nearest(Map<String, List<Finding>> groups) {
        Finding near = result.governing()
                .filter(f -> f.verdict() == Verdict.HOLDS && CheckResult.tellsNearness(f))
                .orElse(null);
        if (near == null) {
            return;
        }
        Words.paragraph(
                text,
                "  ",
                "    ",
                "Nearest to its limit: " + Words.place(near.where())
                        + inPhase(
                                near,
                                leastPhase(
                                        groups.get(kind(near)), result.phases().size()))
                        + ", " + criterion(near).replace('-', ' ') + ": "
                        + figures.quantity(near.value(), near.unit()) + ", limit "
                        + figures.quantity(near.limit(), near.unit()) + ", margin " + Figures.margin(near.margin())
                        + ".");
        if (leavesOut(result)) {
            Words.paragraph(text, "  ", "    ", LEFT_OUT);
        }
    }

    /** True when something that holds has a margin that tells nothing of how near its limit is. */
    static boolean leavesOut(CheckResult result) {
        return result.findings().stream()
                .anyMatch(f ->
                        f.verdict() == Verdict.HOLDS && Double.isFinite(f.margin()) && !CheckResult.tellsNearness(f));
    }

    /** Of one place and criterion only the phase with the least margin: the others hold by no less. */
    private void holding(List<Finding> findings) {
        Map<String, List<Finding>> groups = new LinkedHashMap<>();
        for (Finding finding : findings) { // worst first, so that the first of its kind is the one to show
            groups.computeIfAbsent(kind(finding), k -> new ArrayList<>()).add(finding);
        }
        if (groups.size() < findings.size()) {
            Words.paragraph(
                    text,
                    "  ",
                    "  ",
                    "Shown is the phase with the least margin; of several that share it the first, and how many others.");
        }
        nearest(groups);
        Map<Finding, String> least = new LinkedHashMap<>();
        groups.values()
                .forEach(g -> least.put(g.get(0), leastPhase(g, result.phases().size())));
        Table table = new Table("  ", "llrrr");
        table.heading("where", "criterion", "value", "limit", "margin");
        for (Finding finding : least.keySet()) {
            table.row(
                    Words.place(finding.where()) + inPhase(finding, least.get(finding)),
                    criterion(finding),
                    figures.quantity(finding.value(), finding.unit()),
                    figures.quantity(finding.limit(), finding.unit()),
                    Figures.margin(finding.margin()));
        }
        table.appendTo(text);
        cautions(findings, result.phases().size()).forEach(c -> Words.paragraph(text, "  caution: ", "    ", c));
    }

    /** What holds may still carry a warning, which a table has no room for: each with its places and the phases that it is said of. */
    static List<String> cautions(List<Finding> findings, int phases) {
        Map<String, Map<String, List<Finding>>> said = new LinkedHashMap<>();
        for (Finding f : findings) {
            if (f.caution() != null && !f.caution().isEmpty()) {
                said.computeIfAbsent(f.caution(), k -> new LinkedHashMap<>())
                        .computeIfAbsent(kind(f), k -> new ArrayList<>())
                        .add(f);
            }
        }
        List<String> lines = new ArrayList<>();
        said.forEach((caution, places) -> lines.add(places.values().stream()
                        .map(g -> Words.place(g.get(0).where()) + (phases > 1 ? ", " + phases(g, phases, true) : ""))
                        .distinct()
                        .collect(Collectors.joining(phases > 1 ? "; " : ", "))
                + ": " + caution));
        return lines;
    }

    private void finding(Finding finding) {
        Words.paragraph(text, "  * ", "    ", Words.place(finding.where()) + inPhase(finding) + ": " + finding.what());
        List<String> numbers = new ArrayList<>();
        if (!Double.isNaN(finding.value())) {
            numbers.add("value " + figures.quantity(finding.value(), finding.unit()));
        }
        if (!Double.isNaN(finding.limit())) {
            numbers.add("limit " + figures.quantity(finding.limit(), finding.unit()));
        }
        if (!Double.isNaN(finding.margin())) {
            numbers.add("margin " + Figures.margin(finding.margin()));
        }
        if (!numbers.isEmpty()) {
            text.append("    ").append(String.join(", ", numbers)).append('\n');
        }
        labelled("how", finding.how());
        labelled("mend", finding.mend());
        labelled("source", finding.source());
        labelled("caution", finding.caution());
    }

    private void labelled(String label, String words) {
        if (words != null && !words.isEmpty()) {
            Words.paragraph(text, "    " + label + ": ", "      ", words);
        }
    }

    private String inPhase(Finding finding) {
        return inPhase(finding, finding.phase());
    }

    /** Phase, named so, and scenario, as far as they say something. */
    private String inPhase(Finding finding, String phase) {
        StringBuilder place = new StringBuilder();
        if (result.phases().size() > 1
                && finding.phase() != null
                && !finding.phase().isEmpty()) {
            place.append(", ").append(phase);
        }
        if (finding.scenario() != null
                && !finding.scenario().isEmpty()
                && !finding.scenario().equals("as stated")) {
            place.append(", ").append(finding.scenario());
        }
        return place.toString();
    }

    /** The criterion's key, which begins the id, as words. */
    static String criterion(Finding finding) {
        int colon = finding.id().indexOf(':');
        return (colon < 0 ? finding.id() : finding.id().substring(0, colon)).replace('-', ' ');
    }
}
