package purgewright.report;

import java.util.List;
import purgewright.fluids.unit.Dimension;
import purgewright.fluids.unit.UnitSystem;
import purgewright.fluids.unit.Units;
import purgewright.hazard.fault.FaultResult;
import purgewright.hazard.fault.FaultResult.Row;
import purgewright.hazard.fault.Loss;
import purgewright.hazard.finding.Finding;
import purgewright.hazard.finding.Verdict;

/** The report of {@code fail}: what is lost, how fast, and who would see it; worst first. */
public final class FailText {
    private FailText() {}

    /** The whole report. */
    public static String write(FaultResult result, String title, String hash, String engine, UnitSystem units) {
        StringBuilder text = new StringBuilder();
        Words.paragraph(text, "Verdict: ", "         ", result.verdictLine());
        Words.paragraph(text, "Case:    ", "         ", title);
        long singles = result.rows().stream().filter(Row::single).count();
        text.append("\nScenarios: ")
                .append(singles)
                .append(" single, ")
                .append(result.rows().size() - singles)
                .append(" double; in brackets those that are shown but do not enter the verdict\n");
        Words.paragraph(text, "", "  ", result.times());
        List<Row> good = result.rows().stream()
                .filter(r -> r.verdict() == Verdict.HOLDS && !result.ranking().contains(r.scenario()))
                .toList();
        for (Row row : result.worstFirst()) {
            if (!good.contains(row)) {
                row(text, row, units);
            }
        }
        if (!good.isEmpty()) {
            text.append("\n  holds (").append(good.size()).append(")\n");
            Words.paragraph(
                    text,
                    "    ",
                    "    ",
                    String.join("; ", good.stream().map(Row::scenario).toList()));
        }
        if (!result.incomplete().isEmpty()) {
            text.append("\n  not examined (")
                    .append(result.notExamined().size())
                    .append(")\n");
            Words.paragraph(
                    text,
                    "    ",
                    "    ",
                    result.notExamined().isEmpty() ? result.incomplete() : String.join("; ", result.notExamined()));
        }
        text.append("\nCautions\n");
        for (String caution : result.cautions()) {
            Words.paragraph(text, "  - ", "    ", caution);
        }
        text.append("\nThe whole matrix, scenario by criterion: fail --json\n");
        text.append("Properties: ")
                .append(engine)
                .append("; case ")
                .append(hash, 0, Math.min(12, hash.length()))
                .append('\n');
        return text.toString();
    }

    private static void row(StringBuilder text, Row row, UnitSystem units) {
        String name = row.credible() ? row.scenario() : "(" + row.scenario() + ")";
        text.append('\n');
        Words.paragraph(text, "  * ", "    ", row.verdict().word() + ": " + name);
        if (!row.lost().isEmpty()) {
            Words.paragraph(
                    text,
                    "    ",
                    "      ",
                    "lost: " + String.join(", ", row.lost()).replace('-', ' ') + " (worst in phase " + row.phase()
                            + ")");
        }
        if (!row.pairsLost().isEmpty()) {
            Words.paragraph(text, "    ", "      ", "no barrier left between: " + String.join("; ", row.pairsLost()));
        }
        if (row.fastest() != null) {
            Words.paragraph(
                    text, "    ", "      ", loss(row.fastest(), row.losses().size() > 1, units));
        }
        if (!row.weakestPath().isEmpty()) {
            Words.paragraph(text, "    ", "      ", "weakest path: " + String.join(" - ", row.weakestPath()));
        }
        if (row.hidden()) {
            text.append("    hidden: no instrument sees it\n");
        } else if (!row.seenBy().isEmpty()) {
            List<String> first =
                    row.seenBy().subList(0, Math.min(3, row.seenBy().size()));
            Words.paragraph(text, "    ", "      ", "seen by " + String.join(", ", first));
        }
        row.notes().forEach(n -> Words.paragraph(text, "    ", "      ", "note: " + n));
        Figures figures = new Figures(units);
        row.findings().stream()
                .filter(f -> f.verdict() == row.verdict())
                .limit(2)
                .forEach(f -> Words.paragraph(text, "    - ", "      ", f.what() + numbers(f, figures)));
        row.findings().stream()
                .filter(f -> f.waiver() != null)
                .forEach(f -> Words.paragraph(
                        text,
                        "    waived: ",
                        "      ",
                        f.what() + ": " + f.waiver().text()));
    }

    /** How fast, by what reckoning, and against what. */
    private static String loss(Loss loss, boolean phases, UnitSystem units) {
        StringBuilder text = new StringBuilder();
        text.append("lost " + when(loss.seconds(), units));
        text.append(" (")
                .append(loss.method().text())
                .append(phases ? ", phase " + loss.phase() : "")
                .append(')');
        if (!Double.isNaN(loss.mixing())) {
            text.append(", fluids ")
                    .append(Double.isInfinite(loss.mixing()) ? "" : "mix ")
                    .append(mixing(loss, units));
        }
        if (!loss.seenFirst().isEmpty()) {
            text.append("; seen ")
                    .append(when(loss.seenAfter(), units))
                    .append(" by ")
                    .append(loss.seenFirst());
        }
        return text.append("; needed ").append(time(loss.needed(), units)).toString();
    }

    /** When fluids mix. */
    static String mixing(Loss loss, UnitSystem units) {
        return Double.isNaN(loss.mixing())
                ? "not known"
                : Double.isInfinite(loss.mixing()) ? "do not mix" : when(loss.mixing(), units);
    }

    private static String numbers(Finding finding, Figures figures) {
        StringBuilder numbers = new StringBuilder();
        if (!Double.isNaN(finding.value())) {
            numbers.append(": ").append(figures.quantity(finding.value(), finding.unit()));
            if (!Double.isNaN(finding.limit())) {
                numbers.append(", limit ").append(figures.quantity(finding.limit(), finding.unit()));
            }
            if (!Double.isNaN(finding.margin())) {
                numbers.append(", margin ").append(Figures.margin(finding.margin()));
            }
        }
        return numbers.toString();
    }

    /** Below a millisecond the figure says nothing: no valve and no alarm is that quick. */
    static String when(double seconds, UnitSystem units) {
        return seconds == 0 ? "at once" : seconds < 1e-3 ? "within 1 ms" : "after " + time(seconds, units);
    }

    static String time(double seconds, UnitSystem units) {
        return Double.isInfinite(seconds) ? "without end" : Units.format(seconds, Dimension.TIME, units, 2);
    }
}
