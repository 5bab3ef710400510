package purgewright.report;

import java.util.Locale;
import purgewright.fluids.unit.UnitSystem;
import purgewright.hazard.service.FitResult;
import purgewright.hazard.service.FitResult.Edit;
import purgewright.hazard.service.FitResult.Parameter;
import purgewright.hazard.service.FitResult.Point;
import purgewright.hazard.service.FitResult.Suspect;

/** The report of {@code fit}: what the data say, how sure they are, and what the verdict is then. */
public final class FitText {
    private static final int MOST_POINTS = 40;
    private static final int MOST_SUSPECTS = 6;

    private FitText() {}

    /** The whole text. */
    public static String write(FitResult fit, String title, String engine, UnitSystem units) {
        Figures f = new Figures(units);
        StringBuilder text = new StringBuilder();
        if (fit.complete()) {
            Words.paragraph(text, "Before:  ", "         ", fit.beforeLine());
            Words.paragraph(text, "After:   ", "         ", fit.afterLine());
        } else {
            text.append("Ended:   cancelled; the values are the best found so far, and no verdict was looked at\n");
        }
        Words.paragraph(text, "Case:    ", "         ", title);
        parameters(text, fit, f);
        worn(text, fit);
        points(text, fit, f);
        if (!fit.notes().isEmpty()) {
            text.append("\nNotes\n");
            for (String note : fit.notes()) {
                Words.paragraph(text, "  - ", "    ", note);
            }
        }
        if (!fit.edits().isEmpty()) {
            text.append("\nWhat a new case would set\n");
            Table table = new Table("  ", "lr");
            for (Edit e : fit.edits()) {
                table.row(e.place(), e.text());
            }
            table.appendTo(text);
        }
        text.append("\nProperties: ").append(engine).append('\n');
        return text.toString();
    }

    private static void parameters(StringBuilder text, FitResult fit, Figures f) {
        text.append("\nFitted, with the 95 % confidence interval\n");
        Table table = new Table("  ", "lrrrrrl");
        table.heading("value", "drawing", "fitted", "low", "high", "ratio", "");
        for (Parameter p : fit.parameters()) {
            table.row(
                    fit.network() || p.unit().equals("1")
                            ? Words.place(p.place().replaceFirst("/[^/]*$", ""))
                                    + (p.unit().equals("1") ? " factor" : "")
                            : Words.place(p.place().replaceFirst("/[^/]*$", "")),
                    f.quantity(p.drawing(), p.unit()),
                    f.quantity(p.fitted(), p.unit()),
                    f.quantity(p.low(), p.unit()),
                    f.quantity(p.high(), p.unit()),
                    String.format(Locale.ROOT, "%.3f", p.ratio()),
                    p.observable() ? "" : "not observable");
        }
        table.appendTo(text);
        text.append(String.format(
                Locale.ROOT,
                "  Weighted sum of squares %.3g for %d %s.\n",
                fit.chiSquare(),
                fit.degrees(),
                fit.network() ? "readings" : "degrees of freedom"));
    }

    private static void worn(StringBuilder text, FitResult fit) {
        if (fit.worn().isEmpty()) {
            return;
        }
        text.append("\nIf one seal alone has changed, which\n");
        Table table = new Table("  ", "lrrr");
        table.heading("seal", "ratio", "left over", "probability");
        int n = 0;
        for (Suspect s : fit.worn()) {
            if (n++ >= MOST_SUSPECTS && !s.passage().isEmpty()) {
                continue;
            }
            table.row(
                    s.passage().isEmpty() ? "(none has)" : s.passage(),
                    s.passage().isEmpty() ? "" : String.format(Locale.ROOT, "%.3f", s.ratio()),
                    String.format(Locale.ROOT, "%.3g", s.chiSquare()),
                    s.probability() < 1e-4 ? "< 0.01 %" : Figures.percent(s.probability(), 3));
        }
        table.appendTo(text);
    }

    private static void points(StringBuilder text, FitResult fit, Figures f) {
        text.append("\nMeasured and computed\n");
        Table table = new Table("  ", "rlrrrrl");
        table.heading("line", "reading", "measured", "before", "fitted", "residual", "");
        int n = 0;
        for (Point p : fit.points()) {
            if (n++ >= MOST_POINTS) {
                break;
            }
            table.row(
                    Integer.toString(p.line()),
                    p.channel(),
                    f.quantity(p.measured(), p.unit()),
                    f.quantity(p.before(), p.unit()),
                    f.quantity(p.fitted(), p.unit()),
                    String.format(Locale.ROOT, "%+.2f", p.residual()),
                    p.outlier() ? "outlier" : "");
        }
        table.appendTo(text);
        text.append("  Residual: measured less fitted, over the uncertainty of the reading.\n");
        if (fit.points().size() > MOST_POINTS) {
            text.append("  and ").append(fit.points().size() - MOST_POINTS).append(" more; --json has all\n");
        }
    }
}
