package purgewright.report;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import purgewright.figure.PlanChart;
import purgewright.figure.PurgeWindowChart;
import purgewright.figure.Readout;
import purgewright.figure.SpreadChart;
import purgewright.figure.Theme;
import purgewright.figure.TimeChart;
import purgewright.fluids.unit.Dimension;
import purgewright.fluids.unit.UnitSystem;
import purgewright.fluids.unit.Units;
import purgewright.hazard.service.PlanResult;
import purgewright.hazard.service.RunResult;
import purgewright.hazard.sizing.Interlocks;
import purgewright.hazard.sizing.PurgeWindow;
import purgewright.hazard.sizing.Redline;
import purgewright.hazard.sizing.WearLimit;
import purgewright.hazard.studies.Intervals;
import purgewright.hazard.studies.SpreadResult;
import purgewright.report.Block.Bullets;
import purgewright.report.Block.Drawing;
import purgewright.report.Block.Grid;
import purgewright.report.Block.Heading;
import purgewright.report.Block.Steps;
import purgewright.report.Block.Text;

/** Redlines, purge window, duty, campaign and spread as sections of a report. */
final class StudyBlocks {
    /** Drawing units across the page: fewer of them are larger letters. */
    private static final double WIDTH = 840;

    private static final double HEIGHT = 520;
    /** Height of a drawing that can be lower, drawing units: about half a page. */
    private static final double TALLEST = 600;
    /** Lines of a calendar, outputs of a spread: a report is read, the CSV of the command has all. */
    private static final int MOST_EVENTS = 60;

    private static final int MOST_CHARTS = 3;

    private final Figures figures;
    private final UnitSystem units;
    private final Readout readout;
    private final List<Block> blocks = new ArrayList<>();

    StudyBlocks(UnitSystem units) {
        this.units = units;
        this.figures = new Figures(units);
        this.readout = units == UnitSystem.US ? Readout.US : Readout.SI;
    }

    /** Everything that was asked for, in the order a reviewer reads it. */
    List<Block> of(ReportInput input) {
        if (input.redlines() != null) {
            redlines(input.redlines());
        }
        if (input.window() != null) {
            window(input.window());
        }
        if (input.run() != null) {
            run(input.run());
        }
        if (input.plan() != null) {
            plan(input.plan());
        }
        if (input.spread() != null) {
            spread(input.spread());
        }
        return blocks;
    }

    private void redlines(ReportInput.Redlines all) {
        blocks.add(new Heading(2, "redlines", "Redlines and interlocks"));
        List<List<String>> rows = new ArrayList<>();
        // Readings that have the same to say say it once.
        Map<String, Set<String>> reasons = new LinkedHashMap<>();
        for (Redline r : all.redlines()) {
            rows.add(List.of(
                    r.label(),
                    r.lowest() ? "at least" : "at most",
                    r.usable() ? figures.quantity(r.redline(), r.unit()) : "none",
                    figures.quantity(r.physical(), r.unit()),
                    figures.quantity(r.uncertainty(), r.differenceUnit()),
                    figures.quantity(r.nominal(), r.unit())));
            reasons.computeIfAbsent(r.reason(), k -> new LinkedHashSet<>()).add(r.label());
        }
        if (rows.isEmpty()) {
            blocks.add(new Text("No reading of this case can carry a redline."));
        } else {
            blocks.add(new Text(
                    "Where separation is lost, moved to the safe side by the instrument's uncertainty and by the change"
                            + " until standstill."));
            blocks.add(new Grid(
                    "llrrrr",
                    List.of("reading", "", "redline", "physical limit", "uncertainty", "normal running"),
                    rows));
            List<String> lines = new ArrayList<>();
            reasons.forEach((reason, labels) -> lines.add(String.join("; ", labels) + ": " + reason));
            blocks.add(new Bullets(lines));
        }
        interlocks(all.interlocks());
        wear(all.wear());
    }

    private void interlocks(Interlocks table) {
        if (table.start().isEmpty()) {
            return;
        }
        blocks.add(new Heading(3, "interlocks", "Interlocks for the test procedure"));
        List<List<String>> rows = new ArrayList<>();
        for (Interlocks.Row r : table.rows()) {
            rows.add(List.of(
                    r.phases().isEmpty() ? r.reading() : r.reading() + " in " + String.join(", ", r.phases()),
                    r.lowest() ? "at least" : "at most",
                    figures.quantity(r.permit(), r.unit()),
                    figures.quantity(r.redline(), r.unit()),
                    r.slow() ? "slow changes" : "sudden loss",
                    r.blankOut() > 0 ? figures.quantity(r.blankOut(), "s") : "none",
                    r.votes() + " of " + r.sensors()));
        }
        if (!rows.isEmpty()) {
            blocks.add(new Grid(
                    "llrrllr", List.of("reading", "", "permit", "redline", "against", "blank-out", "votes"), rows));
        }
        steps("start", table.start());
        steps("stop", table.stop());
        if (!table.notes().isEmpty()) {
            blocks.add(new Bullets(table.notes()));
        }
    }

    private void steps(String which, List<String> steps) {
        blocks.add(new Heading(3, "order-of-" + which, "Order of " + which));
        blocks.add(new Steps(steps));
    }

    private void wear(List<WearLimit> limits) {
        if (limits.isEmpty()) {
            return;
        }
        blocks.add(new Heading(3, "wear", "How far each seal may wear"));
        List<List<String>> rows = new ArrayList<>();
        for (WearLimit w : limits) {
            boolean none = Double.isNaN(w.factor());
            rows.add(List.of(
                    w.passage(),
                    Double.isNaN(w.clearance()) ? "-" : figures.clearance(w.clearance()),
                    figures.clearance(w.printed()),
                    none
                            ? "-"
                            : w.beyond() ? "beyond " + Units.number(WearLimit.LARGEST, 3) : Units.number(w.factor(), 3),
                    w.lost() == null || w.lost().isEmpty()
                            ? "nothing"
                            : w.lost().replace('-', ' '),
                    Double.isNaN(w.life())
                            ? "-"
                            : Double.isInfinite(w.life())
                                    ? "no end"
                                    : Units.format(w.life(), Dimension.TIME, units, 3)));
        }
        String unit = ", " + figures.clearanceUnit();
        blocks.add(new Grid(
                "lrrrlr", List.of("seal", "drawing" + unit, "limit" + unit, "factor", "lost first", "life"), rows));
        List<String> byFlow = StudyText.byFlow(limits);
        if (!byFlow.isEmpty()) {
            blocks.add(new Text(StudyText.BY_FLOW + String.join(", ", byFlow) + "."));
        }
    }

    private void window(ReportInput.Window window) {
        PurgeWindow map = window.map();
        blocks.add(new Heading(2, "window", "Purge window"));
        PurgeWindowChart chart = PurgeWindowChart.draw(
                map,
                place(map.x()),
                window.unitX(),
                place(map.y()),
                window.unitY(),
                map.operatingX(),
                map.operatingY(),
                readout,
                Theme.LIGHT,
                WIDTH,
                HEIGHT);
        blocks.add(new Drawing(
                chart.figure(),
                "Where every criterion holds over " + place(map.x()) + " and " + place(map.y())
                        + ", seals as stated; each criterion's boundary is its own line."));
    }

    /** {@code /cavities/bottle line/pressure} as "bottle line, pressure". */
    private static String place(String pointer) {
        String[] parts = pointer.split("/");
        return parts.length < 4
                ? Words.place(pointer)
                : Words.place("/" + parts[parts.length - 2]) + ", " + Words.place("/" + parts[parts.length - 1]);
    }

    private void run(RunResult run) {
        blocks.add(new Heading(2, "duty", "Duty through time"));
        blocks.add(new Text(run.verdictLine()
                + (run.outcome() == RunResult.Outcome.FINISHED
                        ? "."
                        : ". " + run.note() + "; what follows holds up to that moment.")));
        List<List<String>> rows = new ArrayList<>();
        for (RunResult.PhaseUse p : run.phases()) {
            rows.add(List.of(
                    p.name(),
                    Figures.fixed(p.start(), 4),
                    Figures.fixed(p.end(), 4),
                    figures.mass(p.gas()),
                    figures.flow(p.meanFlow()),
                    figures.pressure(p.bottlePressure()),
                    p.leastCriterion().isEmpty() ? "-" : p.verdict().word(),
                    p.leastCriterion().isEmpty()
                            ? "-"
                            : Figures.margin(p.leastMargin()) + " "
                                    + p.leastCriterion().replace('-', ' ') + ", " + Words.place(p.leastPlace())));
        }
        blocks.add(new Grid(
                "lrrrrrll",
                List.of(
                        "phase",
                        "from, s",
                        "to, s",
                        "gas, " + figures.massUnit(),
                        "mean flow, " + figures.flowUnit(),
                        "bottle, " + figures.pressureUnit(),
                        "verdict",
                        "least margin"),
                rows));
        // The table first: it fills the page on which the section starts, where the chart would find no room.
        blocks.add(new Drawing(
                TimeChart.of(run, readout, Theme.LIGHT, WIDTH, TALLEST),
                "Bottle pressure, purge flow, pressures and least margins over the duty."));
        if (run.least() != null) {
            blocks.add(new Text("Least margin: " + Figures.margin(run.least().margin()) + " at "
                    + Figures.fixed(run.least().time(), 4) + " s, phase "
                    + run.least().phase() + ", "
                    + run.least().criterion().replace('-', ' ') + " at "
                    + Words.place(run.least().place()) + "."));
        }
        if (!run.notes().isEmpty()) {
            blocks.add(new Bullets(run.notes()));
        }
    }

    private void plan(PlanResult plan) {
        blocks.add(new Heading(2, "campaign", "Campaign and gas"));
        PlanResult.Order o = plan.order();
        List<List<String>> order = new ArrayList<>();
        if (plan.supply().banks() > 0) {
            order.add(List.of("bottles, the first filling included", Integer.toString(o.bottles())));
            order.add(List.of("swaps of a bank", Integer.toString(o.swaps())));
        }
        order.add(List.of("gas of one attempt", figures.mass(plan.use().perAttempt()) + " " + figures.massUnit()));
        plan.use()
                .elsewhere()
                .forEach((cavity, kg) -> order.add(List.of(
                        "besides, not from the supply: " + cavity, figures.mass(kg) + " " + figures.massUnit())));
        order.add(List.of("gas used", figures.mass(o.gasUsed()) + " " + figures.massUnit()));
        order.add(List.of("days", Integer.toString(o.days())));
        order.add(List.of(
                "cost",
                Double.isNaN(o.cost())
                        ? "no price is stated"
                        : String.format(Locale.ROOT, "%.0f %s", o.cost(), o.currency())
                                .strip()));
        PlanResult.Spread s = plan.spread();
        if (s != null && plan.supply().banks() > 0) {
            order.add(List.of(
                    "bottles with aborts and holds: half, 9 of 10, 19 of 20 campaigns",
                    s.p50() + ", " + s.p90() + ", " + s.p95()));
        }
        blocks.add(new Grid("lr", List.of("order", ""), order));
        blocks.add(new Drawing(
                PlanChart.draw(plan, readout, Theme.LIGHT, WIDTH, HEIGHT),
                "Gas left in the banks through the campaign, and how many bottles campaigns take."));
        List<List<String>> rows = new ArrayList<>();
        for (PlanResult.PlanEvent e : plan.events()) {
            if (rows.size() == MOST_EVENTS) {
                break;
            }
            List<String> pressures = new ArrayList<>();
            e.pressures().forEach(p -> pressures.add(figures.pressure(p)));
            rows.add(List.of(
                    Integer.toString(e.day()),
                    e.attempt() == 0 ? "" : Integer.toString(e.attempt()),
                    e.detail().isEmpty() ? e.what() : e.what().equals("swap") ? "swap " + e.detail() : e.detail(),
                    e.gas() > 0 ? figures.mass(e.gas()) : "",
                    plan.supply().banks() == 0 ? "" : figures.mass(e.left()),
                    e.bottles() == 0 ? "" : Integer.toString(e.bottles()),
                    String.join(" / ", pressures)));
        }
        blocks.add(new Grid(
                "rrlrrrr",
                List.of(
                        "day",
                        "attempt",
                        "what",
                        "gas, " + figures.massUnit(),
                        "left, " + figures.massUnit(),
                        "new bottles",
                        "banks, " + figures.pressureUnit()),
                rows));
        if (plan.events().size() > MOST_EVENTS) {
            blocks.add(new Text("and " + (plan.events().size() - MOST_EVENTS) + " more."));
        }
        if (!plan.notes().isEmpty()) {
            blocks.add(new Bullets(plan.notes()));
        }
    }

    private void spread(SpreadResult spread) {
        blocks.add(new Heading(2, "spread", "Spread: what is not known, and what it does"));
        blocks.add(new Text(spread.verdictLine() + ". Seed " + spread.settings().seed() + ", "
                + spread.counts().done() + " samples, " + spread.stopped() + "."));
        List<List<String>> inputs = new ArrayList<>();
        for (SpreadResult.Input i : spread.inputs()) {
            inputs.add(List.of(
                    place(i.place()),
                    figures.quantity(i.nominal(), i.unit()),
                    figures.quantity(i.low(), i.unit()),
                    figures.quantity(i.high(), i.unit()),
                    kind(i.words())));
        }
        blocks.add(new Grid("lrrrl", List.of("uncertain", "as stated", "5 %", "95 %", "distribution"), inputs));
        List<List<String>> criteria = new ArrayList<>();
        for (SpreadResult.CriterionProbability c : spread.criteria()) {
            criteria.add(List.of(
                    c.key().replace('-', ' '),
                    Long.toString(c.met()),
                    Long.toString(c.missed()),
                    Long.toString(c.unknown()),
                    Intervals.atLeast(c.probability().low())));
        }
        blocks.add(new Grid(
                "lrrrr", List.of("criterion", "met", "missed", "not known", "probability at least"), criteria));
        int shown = 0;
        for (SpreadResult.OutputSpread o : spread.outputs()) {
            if (shown++ == MOST_CHARTS) {
                break;
            }
            blocks.add(new Drawing(
                    SpreadChart.draw(spread, o, StudyBlocks::place, readout, Theme.LIGHT, WIDTH, HEIGHT),
                    "Spread of " + o.name() + ", and what moves it most."));
        }
        if (!spread.remarks().isEmpty()) {
            blocks.add(new Bullets(spread.remarks()));
        }
    }

    /** The kind of a distribution; its numbers, as typed, stand with the inputs. */
    static String kind(String words) {
        return words.replaceFirst("^(\\w+( form| of \\d+ dimensions?)?).*", "$1");
    }
}
