package purgewright.report;

import java.util.Map;
import purgewright.fluids.unit.Dimension;
import purgewright.fluids.unit.UnitSystem;
import purgewright.fluids.unit.Units;
import purgewright.hazard.sizing.DrillList;
import purgewright.hazard.sizing.Evaluation;
import purgewright.hazard.sizing.Objective;
import purgewright.hazard.sizing.SizeResult;
import purgewright.hazard.sizing.SizeResult.Chosen;
import purgewright.hazard.sizing.SizeResult.Release;
import purgewright.hazard.sizing.SizeResult.Slack;

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
        if (result.feasible() || !result.complete()) {
            Words.paragraph(
                    text, "  ", "  ", "Full check of the case with this design: " + result.confirmation() + ".");
        }
        if (!result.monotone()) {
            text.append("  Feasible values come, go and come again along the range: look at map.\n");
        }
        infeasible();
        slack();
        PriceText.append(
                text,
                result.price(),
                units,
                result.feasible() ? "" : " of the case as stated, not of the closest design");
        StudyText.redlines(text, result.redlines(), result.interlocks(), figures);
        StudyText.wear(text, result.wear(), units);
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
        if (result.feasible() || (!result.complete() && result.releases().isEmpty())) {
            return;
        }
        boolean parts = result.releases().stream()
                .anyMatch(r -> !r.phase().isEmpty() || !r.criterion().isEmpty());
        text.append('\n');
        Words.paragraph(
                text,
                "",
                "",
                parts
                        ? "What would release it: each phase, and each criterion of it that is named, needs one of its changes"
                        : "What would release it, any one of these changes");
        if (result.releases().isEmpty()) {
            text.append(
                    "  no single change of a bound, drain, metering, seal or set pressure up to threefold was found\n");
        }
        for (Release r : result.releases()) {
            Words.paragraph(
                    text,
                    "  - ",
                    "    ",
                    released(r)
                            + (r.bound() ? "bound of " : "") + Words.value(r.place()) + ": "
                            + value(r.place(), r.needed())
                            + " instead of " + value(r.place(), r.stated()));
        }
    }

    /** What a change releases, where it is not all. */
    private static String released(Release r) {
        String what = r.criterion().isEmpty()
                ? r.phase()
                : r.criterion().replace('-', ' ') + (r.phase().isEmpty() ? "" : " in " + r.phase());
        return what.isEmpty() ? "" : what + " alone: ";
    }

    private void slack() {
        if (result.slack().isEmpty()) {
            return;
        }
        String unit = result.objective() == Objective.GAS_FLOW
                ? figures.flowUnit()
                : result.objective() == Objective.GAS_PER_RUN ? "kg" : figures.pressureDifferenceUnit();
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
}
