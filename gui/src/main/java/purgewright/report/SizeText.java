package purgewright.report;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import purgewright.fluids.unit.Dimension;
import purgewright.fluids.unit.UnitSystem;
import purgewright.fluids.unit.Units;
import purgewright.hazard.sizing.DrillList;
import purgewright.hazard.sizing.Evaluation;
import purgewright.hazard.sizing.Interlocks;
import purgewright.hazard.sizing.Objective;
import purgewright.hazard.sizing.Redline;
import purgewright.hazard.sizing.SizeResult;
import purgewright.hazard.sizing.SizeResult.Chosen;
import purgewright.hazard.sizing.SizeResult.Release;
import purgewright.hazard.sizing.SizeResult.Slack;
import purgewright.hazard.sizing.WearLimit;

/** The report of {@code size}: the design, what governs it, what each criterion costs, redlines, interlocks, wear. */
public final class SizeText {
    private final SizeResult result;
    private final Map<String, Dimension> dimensions;
    private final UnitSystem units;
    private final Figures figures;
    private final StringBuilder text = new StringBuilder();

    private SizeText(SizeResult result, Map<String, Dimension> dimensions, UnitSystem units) {
        this.result = result;
        this.dimensions = dimensions;
        this.units = units;
        this.figures = new Figures(units);
    }

    /** @param dimensions of the places that occur */
    public static String write(
            SizeResult result, Map<String, Dimension> dimensions, String title, String engine, UnitSystem units) {
        return new SizeText(result, dimensions, units).write(title, engine);
    }

    private String write(String title, String engine) {
        Words.paragraph(text, "Verdict: ", "         ", result.line());
        Words.paragraph(text, "Case:    ", "         ", title);
        Words.paragraph(
                text,
                "Least:   ",
                "         ",
                result.objective().words() + ": " + objective(result.value())
                        + (result.feasible() ? "" : " at the closest point") + "; as stated "
                        + objective(result.statedValue()));
        design();
        Evaluation governs = result.governs();
        Words.paragraph(
                text,
                "  ",
                "  ",
                (result.feasible() ? "Governed by " : "Held up by ")
                        + governs.governing().replace('-', ' ') + " at "
                        + Words.place(governs.where()) + ", phase " + governs.phase() + ", scenario "
                        + governs.scenario() + ".");
        Words.paragraph(text, "  ", "  ", "Full check of the case with this design: " + result.confirmation() + ".");
        if (!result.monotone()) {
            text.append("  Feasible values come, go and come again along the range: look at map.\n");
        }
        infeasible();
        slack();
        PriceText.append(text, result.price(), units);
        redlines();
        interlocks();
        wear();
        text.append("\nCautions\n");
        for (String caution : result.cautions()) {
            Words.paragraph(text, "  - ", "    ", caution);
        }
        text.append("\nProperties: ").append(engine).append("; ");
        text.append(result.evaluations()).append(" designs looked at\n");
        return text.toString();
    }

    private String objective(double value) {
        return result.objective() == Objective.GAS_PER_RUN
                ? Units.format(value, Dimension.MASS, units, 4)
                : figures.quantity(value, result.objective().unit());
    }

    private String value(String place, double si) {
        return Units.format(si, dimensions.getOrDefault(place, Dimension.NUMBER), units, 5);
    }

    private void design() {
        text.append('\n');
        Table table = new Table("  ", "lrrrrl");
        table.heading("free", result.feasible() ? "chosen" : "closest", "stated", "from", "to", "");
        for (Chosen c : result.design()) {
            String place = c.variable().place();
            String remark = c.atBound() ? "at its bound" : "";
            for (DrillList list : DrillList.all().values()) {
                if (c.variable().origin().startsWith(list.name())
                        && !list.size(c.value()).isEmpty()) {
                    remark = "drill " + list.size(c.value()) + (remark.isEmpty() ? "" : ", " + remark);
                }
            }
            table.row(
                    place,
                    value(place, c.value()),
                    value(place, c.stated()),
                    value(place, c.variable().lower()),
                    value(place, c.variable().upper()),
                    remark);
        }
        table.appendTo(text);
        for (Chosen c : result.design()) {
            if (!c.variable().origin().isEmpty() && !c.variable().origin().equals("whole numbers")) {
                Words.paragraph(text, "  ", "    ", "List: " + c.variable().origin() + ".");
            }
        }
    }

    private void infeasible() {
        if (!result.conflicts().isEmpty()) {
            text.append("\nWhat stands in the way at the closest point\n");
            for (String c : result.conflicts()) {
                Words.paragraph(text, "  - ", "    ", c);
            }
        }
        if (result.feasible() || !result.complete()) {
            return;
        }
        text.append("\nWhat would release it, each alone\n");
        if (result.releases().isEmpty()) {
            text.append(
                    "  no single change of a bound, drain, metering, seal or set pressure up to threefold was found\n");
        }
        for (Release r : result.releases()) {
            Words.paragraph(
                    text,
                    "  - ",
                    "    ",
                    (r.bound() ? "bound of " : "") + r.place() + ": " + value(r.place(), r.needed()) + " instead of "
                            + value(r.place(), r.stated()));
        }
    }

    private void slack() {
        if (result.slack().isEmpty()) {
            return;
        }
        String unit = result.objective() == Objective.GAS_FLOW
                ? figures.flowUnit()
                : result.objective() == Objective.GAS_PER_RUN ? "kg" : figures.pressureUnit();
        text.append("\nMargins there, and what another 10 % of each costs\n");
        Table table = new Table("  ", "lrlrl");
        table.heading("criterion", "margin", "where", "10 % cost, " + unit, "in");
        for (Slack s : result.slack()) {
            table.row(
                    s.criterion().replace('-', ' '),
                    Figures.margin(s.margin()),
                    Words.place(s.where()),
                    Double.isNaN(s.price()) ? "-" : s.price() == 0 ? "nothing" : cost(0.1 * s.price()),
                    s.phase() + ", " + s.scenario());
        }
        table.appendTo(text);
        boolean unknown = result.feasible() && result.slack().stream().anyMatch(s -> Double.isNaN(s.price()));
        if (unknown) {
            text.append("  \"-\": the free values cannot give it.\n");
        }
    }

    private String cost(double si) {
        return switch (result.objective()) {
            case GAS_FLOW -> figures.flow(si);
            case GAS_PER_RUN -> Figures.fixed(si, 3);
            case SET_PRESSURE -> figures.pressure(si);
        };
    }

    private void redlines() {
        redlines(text, result.redlines(), figures);
    }

    static void redlines(StringBuilder text, List<Redline> redlines, Figures figures) {
        if (redlines.isEmpty()) {
            return;
        }
        text.append(
                "\nRedlines: where separation is lost, moved to the safe side by uncertainty and by the change until standstill\n");
        Table table = new Table("  ", "llrrrrr");
        table.heading("what", "", "redline", "limit", "uncertainty", "change", "nominal");
        for (Redline r : redlines) {
            table.row(
                    r.name(),
                    r.lowest() ? "at least" : "at most",
                    // A reading that reacts too late has no redline: no figure that somebody might set.
                    r.usable() ? figures.quantity(r.redline(), r.unit()) : "none",
                    figures.quantity(r.physical(), r.unit()),
                    figures.quantity(r.uncertainty(), r.unit()),
                    r.usable() ? figures.quantity(r.change(), r.unit()) : "-",
                    figures.quantity(r.nominal(), r.unit()));
        }
        table.appendTo(text);
        List<String> said = new ArrayList<>();
        for (Redline r : redlines) {
            String slow = Double.isNaN(r.slowSetting())
                    ? ""
                    : String.format(
                            Locale.ROOT,
                            ". Set at %s it stops the machine in time while the reading changes by less than %s a second",
                            figures.quantity(r.slowSetting(), r.unit()),
                            figures.quantity(r.slowRate(), r.unit()));
            String line = r.name() + " (" + r.phase() + "): " + r.reason() + slow + ".";
            if (!said.contains(line)) {
                said.add(line);
                Words.paragraph(text, "  ", "    ", line);
            }
        }
    }

    private void interlocks() {
        Interlocks table = result.interlocks();
        if (table.start().isEmpty()) {
            return;
        }
        text.append("\nInterlocks for the test procedure\n");
        if (!table.rows().isEmpty()) {
            Table rows = new Table("  ", "llrrlll");
            rows.heading("reading", "", "permit", "redline", "against", "blank-out", "votes");
            for (Interlocks.Row r : table.rows()) {
                rows.row(
                        r.reading(),
                        r.lowest() ? "at least" : "at most",
                        figures.quantity(r.permit(), r.unit()),
                        figures.quantity(r.redline(), r.unit()),
                        r.slow() ? "slow changes" : "sudden loss",
                        r.blankOut() > 0 ? figures.quantity(r.blankOut(), "s") : "none",
                        r.votes() + " of " + r.sensors());
            }
            rows.appendTo(text);
        }
        numbered("Start", table.start());
        numbered("Stop", table.stop());
        for (String note : table.notes()) {
            Words.paragraph(text, "  note: ", "    ", note);
        }
    }

    private void numbered(String heading, List<String> steps) {
        int n = 1;
        for (String step : steps) {
            Words.paragraph(text, "  " + heading + " " + n++ + ": ", "           ", step);
        }
    }

    private void wear() {
        if (result.wear().isEmpty()) {
            return;
        }
        text.append("\nHow far a seal may wear until the first criterion is lost, as stated, nothing failed\n");
        Table table = new Table("  ", "lrrrlr");
        table.heading("seal", "drawing", "limit", "factor", "lost first", "life");
        for (WearLimit w : result.wear()) {
            boolean far = !(w.factor() < WearLimit.LARGEST);
            boolean none = Double.isNaN(w.factor());
            table.row(
                    w.passage(),
                    Double.isNaN(w.clearance())
                            ? "-"
                            : figures.clearance(w.clearance()) + " " + figures.clearanceUnit(),
                    far || Double.isNaN(w.limit()) ? "-" : figures.clearance(w.limit()) + " " + figures.clearanceUnit(),
                    none ? "-" : far ? "beyond " + Units.number(WearLimit.LARGEST, 3) : Units.number(w.factor(), 3),
                    w.lost() == null || w.lost().isEmpty()
                            ? "nothing"
                            : w.lost().replace('-', ' ') + (w.where().isEmpty() ? "" : ", " + Words.place(w.where())),
                    Double.isNaN(w.life())
                            ? "-"
                            : Double.isInfinite(w.life())
                                    ? "no end"
                                    : Units.format(w.life(), Dimension.TIME, units, 3));
        }
        table.appendTo(text);
        if (result.wear().stream().anyMatch(w -> !Double.isNaN(w.life()))) {
            text.append("  Life: running time until the limit at the stated wear rate, if that stays the same.\n");
        }
    }
}
