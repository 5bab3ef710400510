package purgewright.report;

import java.util.List;
import java.util.Locale;
import purgewright.fluids.unit.Units;
import purgewright.fluids.validation.Check;
import purgewright.result.ValidationJson.Line;

/** The table of {@code validate}: ours against theirs. */
public final class ValidationText {
    private ValidationText() {}

    /** All checks in order, failures again at the end, then a count. */
    public static String write(List<Line> lines, String engine) {
        StringBuilder text = new StringBuilder();
        Words.paragraph(
                text,
                "",
                "",
                "Deviation and allowed: a share of theirs, or, marked abs, in the unit. A line PRT or DEV stands for many values, theirs is"
                        + " 0 and ours the worst deviation: PRT over half a unit of the last place printed, so that up to 1 is what the"
                        + " print allows, DEV relative. What each line compares: validate --json.");
        text.append('\n');
        Table table = new Table("", "lrrlrrl");
        table.heading("check", "theirs", "ours", "unit", "deviation", "allowed", "");
        for (Line line : lines) {
            Check check = line.check();
            table.row(
                    check.id(),
                    Units.number(check.expected(), 9),
                    Double.isNaN(line.computed()) ? "-" : Units.number(line.computed(), 9),
                    check.unit(),
                    deviation(check, check.deviation(line.computed())),
                    deviation(check, check.tolerance()),
                    line.passes() ? "ok" : "FAILS");
        }
        table.appendTo(text);
        List<Line> failed = lines.stream().filter(line -> !line.passes()).toList();
        for (Line line : failed) {
            text.append('\n').append("FAILS ").append(line.check().id()).append('\n');
            Words.paragraph(text, "  ", "  ", line.check().quantity());
            Words.paragraph(
                    text,
                    "  source: ",
                    "    ",
                    line.check().source() + " [" + line.check().label().text() + "]");
            if (!line.failure().isEmpty()) {
                Words.paragraph(text, "  ", "  ", line.failure());
            }
        }
        text.append('\n')
                .append(lines.size())
                .append(" checks, ")
                .append(failed.size())
                .append(" failed; properties: ")
                .append(engine)
                .append('\n');
        text.append("Sources and labels of every line: validate --json\n");
        return text.toString();
    }

    private static String deviation(Check check, double value) {
        return Double.isNaN(value) ? "-" : String.format(Locale.ROOT, check.asShare() ? "%.1e" : "%.1e abs", value);
    }
}
