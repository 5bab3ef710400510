package purgewright.report;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import purgewright.fluids.unit.Dimension;
import purgewright.fluids.unit.UnitSystem;
import purgewright.fluids.unit.Units;
import purgewright.hazard.sizing.Interlocks;
import purgewright.hazard.sizing.Redline;
import purgewright.hazard.sizing.WearLimit;

/** Redlines, interlocks and wear limits for a terminal, as {@code check} and {@code size} print them. */
final class StudyText {
    private StudyText() {}

    /** Redlines and interlocks; a set of phases has the same letter in both tables. */
    static void redlines(StringBuilder text, List<Redline> redlines, Interlocks interlocks, Figures figures) {
        List<List<String>> sets = new ArrayList<>();
        redlines(text, redlines, sets, figures);
        interlocks(text, interlocks, sets, figures);
    }

    private static void redlines(StringBuilder text, List<Redline> redlines, List<List<String>> sets, Figures figures) {
        if (redlines.isEmpty()) {
            return;
        }
        text.append(
                "\nRedlines: where separation is lost, moved to the safe side by uncertainty and by the change until standstill\n");
        Table table = new Table("  ", "lllrrrrr");
        table.heading("what", "in", "", "redline", "limit", "uncertainty", "change", "nominal");
        for (Redline r : redlines) {
            table.row(
                    r.name(),
                    letter(sets, r.phases()),
                    r.lowest() ? "at least" : "at most",
                    // A reading that reacts too late has no redline: no figure that somebody might set.
                    r.usable() ? figures.quantity(r.redline(), r.unit()) : "none",
                    figures.quantity(r.physical(), r.unit()),
                    figures.quantity(r.uncertainty(), r.differenceUnit()),
                    r.usable() ? figures.quantity(r.change(), r.differenceUnit()) : "-",
                    figures.quantity(r.nominal(), r.unit()));
        }
        table.appendTo(text);
        legend(text, sets);
        List<String> said = new ArrayList<>();
        for (Redline r : redlines) {
            String slow = Double.isNaN(r.slowSetting())
                    ? ""
                    : String.format(
                            Locale.ROOT,
                            ". Set at %s it stops the machine in time while the reading changes by less than %s a second",
                            figures.quantity(r.slowSetting(), r.unit()),
                            figures.quantity(r.slowRate(), r.differenceUnit()));
            String in = r.phases().isEmpty() ? "" : "; " + letter(sets, r.phases());
            String line = r.name() + " (" + r.phase() + in + "): " + r.reason() + slow + ".";
            if (!said.contains(line)) {
                said.add(line);
                Words.paragraph(text, "  ", "    ", line);
            }
        }
    }

    /** "all", or the letter of a set of phases. */
    private static String letter(List<List<String>> sets, List<String> phases) {
        if (phases.isEmpty()) {
            return "all";
        }
        if (!sets.contains(phases)) {
            sets.add(phases);
        }
        int n = sets.indexOf(phases);
        return n < 26 ? String.valueOf((char) ('A' + n)) : String.valueOf(n + 1);
    }

    private static void legend(StringBuilder text, List<List<String>> sets) {
        for (List<String> phases : List.copyOf(sets)) {
            Words.paragraph(text, "  " + letter(sets, phases) + ": ", "     ", String.join(", ", phases));
        }
    }

    private static void interlocks(StringBuilder text, Interlocks table, List<List<String>> sets, Figures figures) {
        if (table.start().isEmpty()) {
            return;
        }
        text.append("\nInterlocks for the test procedure\n");
        if (!table.rows().isEmpty()) {
            Table rows = new Table("  ", "lllrrlll");
            rows.heading("reading", "in", "", "permit", "redline", "against", "blank-out", "votes");
            for (Interlocks.Row r : table.rows()) {
                rows.row(
                        r.reading(),
                        letter(sets, r.phases()),
                        r.lowest() ? "at least" : "at most",
                        figures.quantity(r.permit(), r.unit()),
                        figures.quantity(r.redline(), r.unit()),
                        r.slow() ? "slow changes" : "sudden loss",
                        r.blankOut() > 0 ? figures.quantity(r.blankOut(), "s") : "none",
                        r.votes() + " of " + r.sensors());
            }
            rows.appendTo(text);
        }
        numbered(text, "Start", table.start());
        numbered(text, "Stop", table.stop());
        for (String note : table.notes()) {
            Words.paragraph(text, "  note: ", "    ", note);
        }
    }

    private static void numbered(StringBuilder text, String heading, List<String> steps) {
        int n = 1;
        for (String step : steps) {
            Words.paragraph(text, "  " + heading + " " + n++ + ": ", "           ", step);
        }
    }

    static void wear(StringBuilder text, List<WearLimit> wear, UnitSystem units) {
        Figures figures = new Figures(units);
        if (wear.isEmpty()) {
            return;
        }
        text.append("\nHow far a seal may wear until the first criterion is lost, as stated, nothing failed\n");
        Table table = new Table("  ", "lrrrlr");
        table.heading("seal", "drawing", "limit", "factor", "lost first", "life");
        for (WearLimit w : wear) {
            boolean none = Double.isNaN(w.factor());
            table.row(
                    w.passage(),
                    Double.isNaN(w.clearance())
                            ? "-"
                            : figures.clearance(w.clearance()) + " " + figures.clearanceUnit(),
                    Double.isNaN(w.printed()) ? "-" : figures.clearance(w.printed()) + " " + figures.clearanceUnit(),
                    none
                            ? "-"
                            : w.beyond() ? "beyond " + Units.number(WearLimit.LARGEST, 3) : Units.number(w.factor(), 3),
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
        List<String> byFlow = byFlow(wear);
        if (!byFlow.isEmpty()) {
            Words.paragraph(text, "  ", "  ", BY_FLOW + String.join(", ", byFlow) + ".");
        }
        if (wear.stream().anyMatch(w -> !Double.isNaN(w.life()))) {
            text.append("  Life: running time until the limit at the stated wear rate, if that stays the same.\n");
        }
    }

    /** What a factor means for seals without a clearance. */
    static final String BY_FLOW =
            "No clearance in the case: opened by the flow that its type takes from the factor, as in the fault sweep [invented]: ";

    /** Seals in a table of wear limits that have no clearance to wear. */
    static List<String> byFlow(List<WearLimit> wear) {
        return wear.stream()
                .filter(w -> Double.isNaN(w.clearance()) && w.seal())
                .map(WearLimit::passage)
                .toList();
    }
}
