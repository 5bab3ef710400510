package purgewright.report;

import java.util.List;
import java.util.Map;
import purgewright.fluids.unit.Dimension;
import purgewright.fluids.unit.UnitSystem;
import purgewright.fluids.unit.Units;
import purgewright.hazard.sizing.Evaluation;
import purgewright.hazard.sizing.Redline;
import purgewright.hazard.sizing.SizeResult;
import purgewright.hazard.sizing.WearLimit;

/** The report of {@code size}: the least value, what governs it, redlines and how far each seal may wear. */
public final class SizeText {
    private SizeText() {}

    /** @param dimension of the parameter that was free */
    public static String write(SizeResult result, Dimension dimension, String title, String engine, UnitSystem units) {
        Figures figures = new Figures(units);
        StringBuilder text = new StringBuilder();
        Words.paragraph(text, "Verdict: ", "         ", result.line());
        Words.paragraph(text, "Case:    ", "         ", title);
        text.append('\n');
        Evaluation at = result.least().at();
        Table table = new Table("  ", "lll");
        table.row("free", result.parameter(), "");
        table.row(
                result.least().feasible() ? "least value" : "closest value",
                Units.format(result.least().value(), dimension, units, 4),
                "purge " + figures.flow(at.purge()) + " " + figures.flowUnit());
        table.row(
                "stated",
                Units.format(result.stated(), dimension, units, 4),
                "purge " + figures.flow(result.statedPurge()) + " " + figures.flowUnit());
        table.appendTo(text);
        Evaluation governs = result.least().below() != null && result.least().feasible()
                ? result.least().below()
                : at;
        Words.paragraph(
                text,
                "  ",
                "  ",
                "Governed by " + governs.governing().replace('-', ' ') + " at " + Words.place(governs.where())
                        + ", phase " + governs.phase() + ", scenario " + governs.scenario() + ".");
        if (!result.least().monotone()) {
            text.append("  Feasible values come, go and come again along the range: look at map.\n");
        }
        if (!result.conflicts().isEmpty()) {
            Words.paragraph(text, "  ", "  ", "Cannot be met together: " + String.join("; ", result.conflicts()) + ".");
        }
        if (!result.least().slack().isEmpty()) {
            text.append("\nMargins there\n");
            Table slack = new Table("  ", "lr");
            for (Map.Entry<String, Double> entry : result.least().slack().entrySet()) {
                slack.row(entry.getKey().replace('-', ' '), Figures.margin(entry.getValue()));
            }
            slack.appendTo(text);
        }
        redlines(text, result.redlines(), figures);
        wear(text, result.wear(), figures);
        text.append("\nCautions\n");
        for (String caution : result.cautions()) {
            Words.paragraph(text, "  - ", "    ", caution);
        }
        text.append("\nProperties: ").append(engine).append('\n');
        return text.toString();
    }

    private static void redlines(StringBuilder text, List<Redline> redlines, Figures figures) {
        if (redlines.isEmpty()) {
            return;
        }
        text.append(
                "\nRedlines: the physical limit, moved to the safe side by uncertainty and by the change until shut down\n");
        Table table = new Table("  ", "llrrrrl");
        table.heading("what", "", "redline", "limit", "uncertainty", "nominal", "");
        for (Redline r : redlines) {
            table.row(
                    r.name(),
                    r.lowest() ? "at least" : "at most",
                    // A reading that reacts too late has no redline that normal running would keep.
                    r.usable() ? figures.quantity(r.redline(), r.unit()) : "none",
                    figures.quantity(r.physical(), r.unit()),
                    figures.quantity(r.uncertainty(), r.unit()),
                    figures.quantity(r.nominal(), r.unit()),
                    r.usable() ? "" : "cannot protect in time");
        }
        table.appendTo(text);
    }

    private static void wear(StringBuilder text, List<WearLimit> limits, Figures figures) {
        if (limits.isEmpty()) {
            return;
        }
        text.append("\nHow far a seal may wear until the first criterion is lost\n");
        Table table = new Table("  ", "lrrrl");
        table.heading("seal", "drawing", "limit", "factor", "lost first");
        for (WearLimit w : limits) {
            boolean far = !(w.factor() < WearLimit.LARGEST);
            table.row(
                    w.passage(),
                    Double.isNaN(w.clearance())
                            ? "-"
                            : figures.clearance(w.clearance()) + " " + figures.clearanceUnit(),
                    far || Double.isNaN(w.limit()) ? "-" : figures.clearance(w.limit()) + " " + figures.clearanceUnit(),
                    far ? "beyond " + Units.number(WearLimit.LARGEST, 3) : Units.number(w.factor(), 3),
                    w.lost() == null ? "" : w.lost().replace('-', ' '));
        }
        table.appendTo(text);
    }
}
