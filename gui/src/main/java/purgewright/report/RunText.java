package purgewright.report;

import purgewright.fluids.unit.Dimension;
import purgewright.fluids.unit.UnitSystem;
import purgewright.fluids.unit.Units;
import purgewright.hazard.finding.Finding;
import purgewright.hazard.finding.Verdict;
import purgewright.hazard.service.RunResult;
import purgewright.hazard.service.RunResult.Cause;
import purgewright.hazard.service.RunResult.Least;
import purgewright.hazard.service.RunResult.Moment;
import purgewright.hazard.service.RunResult.Overlay;
import purgewright.hazard.service.RunResult.PhaseUse;
import purgewright.hazard.service.RunResult.Timed;

/** The report of {@code run}: phases, gas, what happened when, and why the least margin is least. */
public final class RunText {
    private static final int MOST_FINDINGS = 12;

    private RunText() {}

    /** The whole text. */
    public static String write(RunResult run, String title, String engine, UnitSystem units) {
        Figures figures = new Figures(units);
        StringBuilder text = new StringBuilder();
        Words.paragraph(text, "Verdict: ", "         ", run.verdictLine());
        Words.paragraph(text, "Case:    ", "         ", title);
        if (run.outcome() != RunResult.Outcome.FINISHED) {
            Words.paragraph(text, "Ended:   ", "         ", run.note() + "; what follows holds up to that moment");
        }
        text.append('\n');
        phases(text, run, figures);
        gas(text, run, figures);
        least(text, run.least(), figures);
        moments(text, run, figures);
        overlays(text, run, figures);
        findings(text, run, figures);
        if (!run.notes().isEmpty()) {
            text.append("\nNotes\n");
            for (String note : run.notes()) {
                Words.paragraph(text, "  - ", "    ", note);
            }
        }
        text.append(String.format(
                java.util.Locale.ROOT,
                "\nBalances: network mass %.0e, energy %.0e of the largest flow; bottles mass %.0e, energy %.0e of the filling\n",
                run.closure().networkMass(),
                run.closure().networkEnergy(),
                Math.abs(run.closure().bottleMass()),
                Math.abs(run.closure().bottleEnergy())));
        text.append("Properties: ").append(engine).append('\n');
        return text.toString();
    }

    private static String time(double s) {
        return Figures.fixed(s, 4);
    }

    private static String kilogram(double kg, Figures f) {
        return f.mass(kg);
    }

    private static void phases(StringBuilder text, RunResult run, Figures f) {
        Table table = new Table("  ", "lrrrrrll");
        table.heading("phase", "from", "to", "gas", "mean flow", "bottle", "verdict", "least margin");
        table.heading("", "s", "s", f.massUnit(), f.flowUnit(), f.pressureUnit(), "", "");
        for (PhaseUse p : run.phases()) {
            table.row(
                    p.name(),
                    time(p.start()),
                    time(p.end()),
                    kilogram(p.gas(), f),
                    f.flow(p.meanFlow()),
                    f.pressure(p.bottlePressure()),
                    p.leastCriterion().isEmpty() ? "-" : p.verdict().word(),
                    p.leastCriterion().isEmpty()
                            ? "-"
                            : Figures.margin(p.leastMargin()) + " "
                                    + p.leastCriterion().replace('-', ' ') + ", " + Words.place(p.leastPlace()));
        }
        table.appendTo(text);
    }

    private static void gas(StringBuilder text, RunResult run, Figures f) {
        text.append("\nGas");
        text.append(run.gas().fluid().isEmpty() ? "" : ": " + run.gas().fluid()).append('\n');
        Table table = new Table("  ", "lr");
        table.row("used", kilogram(run.gas().used(), f) + " " + f.massUnit());
        run.gas()
                .elsewhere()
                .forEach((cavity, kg) ->
                        table.row("besides, not from the supply: " + cavity, kilogram(kg, f) + " " + f.massUnit()));
        if (!Double.isNaN(run.gas().atStart())) {
            table.row("in the bottles before", kilogram(run.gas().atStart(), f) + " " + f.massUnit());
            table.row("in the bottles after", kilogram(run.gas().atEnd(), f) + " " + f.massUnit());
            for (int b = 0; b < run.gas().settled().size(); b++) {
                table.row(
                        "bank " + (b + 1) + " after, settled",
                        f.quantity(run.gas().settled().get(b), "Pa"));
            }
        }
        if (!Double.isNaN(run.gas().leastInlet())) {
            table.row("least usable bottle pressure", f.quantity(run.gas().leastInlet(), "Pa"));
            table.row("still usable, drawn slowly", kilogram(run.gas().usableAtEnd(), f) + " " + f.massUnit());
        }
        table.appendTo(text);
    }

    private static void least(StringBuilder text, Least least, Figures f) {
        if (least == null) {
            return;
        }
        text.append("\nLeast margin\n");
        Finding finding = least.finding();
        Words.paragraph(
                text,
                "  ",
                "  ",
                Figures.margin(least.margin()) + " at " + time(least.time()) + " s, phase " + least.phase() + ": "
                        + least.criterion().replace('-', ' ') + " at " + Words.place(least.place()) + " ("
                        + f.quantity(finding.value(), finding.unit()) + ", limit "
                        + f.quantity(finding.limit(), finding.unit()) + ").");
        Cause c = least.cause();
        if (c == null) {
            Words.paragraph(
                    text,
                    "  ",
                    "  ",
                    "No single change since the moment of its greatest margin explains it: the margin is of the design, or several"
                            + " changes act together.");
            return;
        }
        String change = Double.isNaN(c.from())
                ? c.what()
                : c.what() + " went from " + f.quantity(c.from(), c.unit()) + " to " + f.quantity(c.to(), c.unit());
        Words.paragraph(
                text,
                "  ",
                "  ",
                "Cause: " + change + " since " + time(c.since()) + " s, when the margin was "
                        + Figures.margin(c.greatest())
                        + (Double.isNaN(c.without())
                                ? "."
                                : "; without that one change it would be " + Figures.margin(c.without()) + "."));
    }

    private static void moments(StringBuilder text, RunResult run, Figures f) {
        text.append("\nWhat happens when\n");
        Table table = new Table("  ", "rl");
        for (Moment m : run.moments()) {
            table.row(time(m.time()) + " s", m.what());
        }
        table.appendTo(text);
    }

    private static void overlays(StringBuilder text, RunResult run, Figures f) {
        if (run.overlays().isEmpty()) {
            return;
        }
        text.append("\nMeasured less computed\n");
        Table table = new Table("  ", "llrrrr");
        table.heading("channel", "against", "mean", "rms", "greatest", "at");
        for (Overlay o : run.overlays()) {
            String unit = o.measured().unit();
            table.row(
                    o.measured().name(),
                    o.computed().isEmpty() ? "nothing computed" : o.computed(),
                    f.difference(o.mean(), unit),
                    f.difference(o.rms(), unit),
                    f.difference(o.greatest(), unit),
                    Double.isNaN(o.greatestTime()) ? "" : time(o.greatestTime()) + " s");
        }
        table.appendTo(text);
    }

    private static void findings(StringBuilder text, RunResult run, Figures f) {
        if (run.findings().isEmpty()) {
            return;
        }
        text.append("\nWorst of each criterion at each place\n");
        Table table = new Table("  ", "lllrrrr");
        table.heading("verdict", "where", "criterion", "value", "limit", "margin", "at");
        int shown = 0;
        int held = 0;
        for (Timed t : run.findings()) {
            Finding x = t.finding();
            if (shown >= MOST_FINDINGS && x.verdict() == Verdict.HOLDS) {
                held++;
                continue;
            }
            shown++;
            table.row(
                    x.verdict().word(),
                    Words.place(x.where()),
                    x.id().substring(0, x.id().indexOf(':')).replace('-', ' '),
                    f.quantity(x.value(), x.unit()),
                    f.quantity(x.limit(), x.unit()),
                    Figures.margin(x.margin()),
                    time(t.time()) + " s");
        }
        table.appendTo(text);
        if (held > 0) {
            text.append("  and ").append(held).append(" more that hold\n");
        }
    }

    /** For other reports: a duration as people say it. */
    static String duration(double seconds, UnitSystem units) {
        return Units.format(seconds, Dimension.TIME, units, 3);
    }
}
