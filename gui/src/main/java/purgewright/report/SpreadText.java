package purgewright.report;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import purgewright.figure.SpreadPlots;
import purgewright.fluids.unit.Dimension;
import purgewright.fluids.unit.UnitSystem;
import purgewright.fluids.unit.Units;
import purgewright.hazard.studies.Intervals;
import purgewright.hazard.studies.SpreadResult;
import purgewright.hazard.studies.SpreadResult.Corner;
import purgewright.hazard.studies.SpreadResult.CriterionProbability;
import purgewright.hazard.studies.SpreadResult.Input;
import purgewright.hazard.studies.SpreadResult.LinearEffect;
import purgewright.hazard.studies.SpreadResult.OutputSpread;
import purgewright.hazard.studies.SpreadResult.RankCorrelation;
import purgewright.hazard.studies.SpreadResult.RedlineTrade;
import purgewright.hazard.studies.SpreadResult.SobolIndex;
import purgewright.hazard.studies.SpreadResult.TornadoBar;
import purgewright.hazard.studies.SpreadResult.TradePoint;
import purgewright.hazard.studies.SweepResult;

/** The report of {@code spread}. */
public final class SpreadText {
    /** Inputs shown of a ranking; the machine output has all. */
    private static final int MOST_ROWS = 8;
    /** Bars shorter than this share of the longest are the rounding of a solve. */
    private static final double NOTHING = 1e-4;
    /** Outputs of a corner or a sweep that fit a line. */
    private static final int MOST_COLUMNS = 4;

    private final Figures figures;
    private final StringBuilder text = new StringBuilder();
    private final Map<String, OutputSpread> outputs = new LinkedHashMap<>();
    private final Map<String, String> inputUnits = new LinkedHashMap<>();

    private SpreadText(UnitSystem units) {
        this.figures = new Figures(units);
    }

    /** The whole text, ending with a line feed. */
    public static String write(SpreadResult result, String version, UnitSystem units) {
        return new SpreadText(units).all(result, version);
    }

    /** The text of a sweep: a table of its points. */
    public static String sweep(SweepResult result, UnitSystem units) {
        return new SpreadText(units).points(result);
    }

    private String all(SpreadResult r, String version) {
        r.outputs().forEach(o -> outputs.put(o.place(), o));
        r.inputs().forEach(i -> inputUnits.put(i.place(), i.unit()));
        Words.paragraph(text, "Spread:  ", "         ", r.verdictLine());
        Words.paragraph(text, "Case:    ", "         ", r.identity().title());
        if (!r.complete()) {
            Words.paragraph(
                    text,
                    "Partial: ",
                    "         ",
                    r.stopped() + ": what follows rests on the samples done until then");
        }
        inputs(r.inputs());
        criteria(r.criteria());
        spread(r.outputs());
        tornado(r.tornado());
        ranks(r.ranks());
        linear(r);
        sobol(r.sobol());
        if (r.rare() != null) {
            text.append("\nRare failures, by subset simulation\n");
            Words.paragraph(
                    text,
                    "  ",
                    "  ",
                    r.rare().words()
                            + String.format(
                                    Locale.ROOT,
                                    "; interval %.2g to %.2g; %d solves",
                                    r.rare().low(),
                                    r.rare().high(),
                                    r.rare().solves()));
        }
        redlines(r.redlines());
        corners(r);
        if (!r.remarks().isEmpty()) {
            text.append("\nRemarks\n");
            r.remarks().forEach(m -> Words.paragraph(text, "  - ", "    ", m));
        }
        text.append("\nCautions\n");
        r.cautions().forEach(c -> Words.paragraph(text, "  - ", "    ", c));
        text.append("\nRun:        ")
                .append(r.settings().sampling().word())
                .append(", seed ")
                .append(r.settings().seed())
                .append(", ")
                .append(r.stopped())
                .append("\nMade from:  case ")
                .append(r.identity().hash(), 0, 16)
                .append("..., version ")
                .append(version)
                .append("\nProperties: ")
                .append(r.identity().engine())
                .append('\n');
        return text.toString();
    }

    private void inputs(List<Input> inputs) {
        text.append("\nUncertain\n");
        Table table = new Table("  ", "lrrrl");
        table.heading("place", "as stated", "5 %", "95 %", "distribution, SI");
        for (Input i : inputs) {
            table.row(
                    i.place(),
                    figures.quantity(i.nominal(), i.unit()),
                    figures.quantity(i.low(), i.unit()),
                    figures.quantity(i.high(), i.unit()),
                    i.words());
        }
        table.appendTo(text);
    }

    private void criteria(List<CriterionProbability> criteria) {
        text.append("\nEach criterion alone\n");
        Table table = new Table("  ", "lrrrr");
        table.heading("criterion", "met", "missed", "not known", "probability at least");
        for (CriterionProbability c : criteria) {
            table.row(
                    c.key().replace('-', ' '),
                    Long.toString(c.met()),
                    Long.toString(c.missed()),
                    Long.toString(c.unknown()),
                    Intervals.atLeast(c.probability().low()));
        }
        table.appendTo(text);
    }

    private void spread(List<OutputSpread> outputs) {
        text.append("\nSpread of the result\n");
        Table table = new Table("  ", "lrrrrrr");
        table.heading("quantity", "as stated", "mean", "sigma", "5 %", "50 %", "95 %");
        for (OutputSpread o : outputs) {
            table.row(
                    o.name() + (o.missing() > 0 ? " (" + o.missing() + " without)" : ""),
                    value(o.nominal(), o),
                    value(o.mean(), o),
                    step(o.deviation(), o),
                    value(o.quantiles().get(o.shares().indexOf(0.05)), o),
                    value(o.quantiles().get(o.shares().indexOf(0.5)), o),
                    value(o.quantiles().get(o.shares().indexOf(0.95)), o));
        }
        table.appendTo(text);
    }

    private void tornado(List<TornadoBar> bars) {
        Map<String, List<TornadoBar>> by = new LinkedHashMap<>();
        bars.forEach(b -> by.computeIfAbsent(b.output(), k -> new ArrayList<>()).add(b));
        by.forEach((output, rows) -> {
            OutputSpread o = outputs.get(output);
            if (o == null || !shown(output)) {
                return;
            }
            text.append("\nOne at a time, from its 5 % to its 95 % value: ")
                    .append(o.name())
                    .append('\n');
            Table table = new Table("  ", "lrrr");
            table.heading("input", "at 5 %", "at 95 %", "span");
            rows.stream()
                    .limit(MOST_ROWS)
                    .filter(b -> b.span() > NOTHING * rows.get(0).span())
                    .forEach(b -> table.row(b.input(), value(b.atLow(), o), value(b.atHigh(), o), step(b.span(), o)));
            if (table.isEmpty()) {
                text.append("  nothing moves it\n");
            } else {
                table.appendTo(text);
            }
        });
    }

    /** The least margin and what has no criterion's name in it: the machine output has the rest. */
    private static boolean shown(String output) {
        return "/margin".equals(output) || !output.contains("/margin/");
    }

    private void ranks(List<RankCorrelation> ranks) {
        Map<String, List<String>> by = new LinkedHashMap<>();
        for (RankCorrelation c : ranks) {
            // Within its interval of no correlation at all it says nothing.
            if (shown(c.output()) && c.low() * c.high() > 0) {
                by.computeIfAbsent(c.output(), k -> new ArrayList<>())
                        .add(String.format(Locale.ROOT, "%s %+.2f", c.input(), c.coefficient()));
            }
        }
        if (by.isEmpty()) {
            return;
        }
        text.append("\nRank correlation, where it is surely not nought\n");
        by.forEach((output, words) -> Words.paragraph(
                text,
                "  ",
                "      ",
                outputs.get(output).name() + ": "
                        + String.join("; ", words.subList(0, Math.min(MOST_ROWS, words.size())))));
    }

    private void linear(SpreadResult r) {
        Map<String, List<LinearEffect>> by = new LinkedHashMap<>();
        r.linear().forEach(l -> by.computeIfAbsent(l.output(), k -> new ArrayList<>())
                .add(l));
        if (by.isEmpty()) {
            return;
        }
        text.append("\nLinear, by slopes at the case as stated, against the samples\n");
        Table table = new Table("  ", "lrrll");
        table.heading("quantity", "sigma, linear", "sigma, samples", "most by", "slopes");
        by.forEach((output, rows) -> {
            OutputSpread o = outputs.get(output);
            if (o == null || !shown(output)) {
                return;
            }
            double sum = 0;
            boolean adjoint = false;
            for (LinearEffect l : rows) {
                sum += Double.isNaN(l.deviation()) ? 0 : l.deviation() * l.deviation();
                adjoint |= "adjoint".equals(l.method());
            }
            LinearEffect first = rows.get(0);
            table.row(
                    o.name(),
                    step(Math.sqrt(sum), o),
                    step(o.deviation(), o),
                    sum > 0 ? first.input() + " " + Figures.percent(first.share(), 2) : "-",
                    adjoint ? "adjoint" : "differences");
        });
        table.appendTo(text);
    }

    private void sobol(List<SobolIndex> indices) {
        Map<String, List<SobolIndex>> by = new LinkedHashMap<>();
        indices.forEach(
                i -> by.computeIfAbsent(i.output(), k -> new ArrayList<>()).add(i));
        by.forEach((output, rows) -> {
            OutputSpread o = outputs.get(output);
            if (o == null || !shown(output)) {
                return;
            }
            text.append("\nShares of the variance of ").append(o.name()).append(", plus or minus a standard error\n");
            Table table = new Table("  ", "lrr");
            table.heading("input", "alone", "with interactions");
            rows.forEach(i -> table.row(
                    i.input(),
                    Double.isNaN(i.first())
                            ? "-"
                            : String.format(Locale.ROOT, "%.3f +- %.3f", i.first(), i.firstError()),
                    Double.isNaN(i.total())
                            ? "-"
                            : String.format(Locale.ROOT, "%.3f +- %.3f", i.total(), i.totalError())));
            table.appendTo(text);
        });
    }

    private void redlines(List<RedlineTrade> redlines) {
        if (redlines.isEmpty()) {
            return;
        }
        text.append("\nRedlines: false trips against losses missed\n");
        Table table = new Table("  ", "lrrrrr");
        table.heading("reading", "normal", "limit", "set point", "false trip", "missed loss");
        for (RedlineTrade t : redlines) {
            row(table, t.name() + (t.lowest() ? ", lowest" : ", highest"), t, t.atProposed());
            if (t.atStated() != null) {
                row(table, "  as stated in the case", t, t.atStated());
            }
        }
        table.appendTo(text);
        redlines.forEach(t -> Words.paragraph(text, "  - ", "    ", t.name() + ": " + t.words()));
    }

    private void row(Table table, String name, RedlineTrade t, TradePoint at) {
        table.row(
                name,
                figures.quantity(t.normal(), t.unit()),
                figures.quantity(t.physical(), t.unit()),
                figures.quantity(at.setPoint(), t.unit()),
                small(at.falseTrip()),
                small(at.missedLoss()));
    }

    private void corners(SpreadResult r) {
        if (r.corners().isEmpty()) {
            return;
        }
        List<Integer> columns = new ArrayList<>();
        for (int i = 0; i < r.outputs().size() && columns.size() < MOST_COLUMNS; i++) {
            if (!r.outputs().get(i).place().contains("/margin")) {
                columns.add(i);
            }
        }
        text.append("\nCorners\n");
        Table table = new Table("  ", "lrll" + "r".repeat(columns.size()));
        List<String> heading = new ArrayList<>(List.of("corner", "margin", "verdict", "governed by"));
        columns.forEach(i -> heading.add(r.outputs().get(i).name()));
        table.heading(heading.toArray(String[]::new));
        for (Corner c : r.corners()) {
            List<String> row = new ArrayList<>(List.of(
                    c.name(),
                    Figures.margin(c.margin()),
                    c.verdict().word(),
                    c.governing().replace('-', ' ')));
            columns.forEach(
                    i -> row.add(value(c.outputs().get(i), r.outputs().get(i).unit())));
            table.row(row.toArray(String[]::new));
        }
        table.appendTo(text);
    }

    private String points(SweepResult r) {
        Words.paragraph(text, "Case:    ", "         ", r.identity().title());
        Words.paragraph(
                text,
                "Sweep:   ",
                "         ",
                String.join(
                        " and ",
                        r.axes().stream()
                                .map(a -> a.place() + " (as stated " + value(a.nominal(), a.unit()) + ")")
                                .toList()));
        text.append('\n');
        int shown = Math.min(MOST_COLUMNS, r.outputs().size());
        Table table = new Table("  ", "r".repeat(r.axes().size()) + "rll" + "r".repeat(shown));
        List<String> heading = new ArrayList<>();
        r.axes().forEach(a -> heading.add(Words.place(a.place())));
        heading.addAll(List.of("margin", "verdict", "governed by"));
        r.outputs().subList(0, shown).forEach(o -> heading.add(SpreadPlots.words(o)));
        table.heading(heading.toArray(String[]::new));
        for (SweepResult.Point p : r.points()) {
            List<String> row = new ArrayList<>();
            for (int i = 0; i < p.at().size(); i++) {
                row.add(value(p.at().get(i), r.axes().get(i).unit()));
            }
            row.addAll(List.of(
                    Figures.margin(p.margin()),
                    p.verdict().word(),
                    p.governing().replace('-', ' ')));
            for (int i = 0; i < shown; i++) {
                double at = p.outputs().get(i);
                row.add(
                        r.outputs().get(i).startsWith("/margin")
                                ? Figures.margin(at)
                                : value(at, r.units().get(i)));
            }
            table.row(row.toArray(String[]::new));
        }
        table.appendTo(text);
        if (shown < r.outputs().size()) {
            text.append("  ").append(r.outputs().size() - shown).append(" more quantities: --json or --csv\n");
        }
        text.append("\nProperties: ").append(r.identity().engine()).append('\n');
        return text.toString();
    }

    private String value(double si, String unit) {
        return Double.isInfinite(si) ? (si > 0 ? "beyond all" : "below all") : figures.quantity(si, unit);
    }

    private String value(double si, OutputSpread o) {
        return o.place().contains("/margin") ? Figures.margin(si) : value(si, o.unit());
    }

    /** A difference of two values: a step of temperature is none on a scale with another zero. */
    private String step(double si, OutputSpread o) {
        if (o.place().contains("/margin") && !Double.isNaN(si)) {
            return String.format(Locale.ROOT, "%.1f %%", 100 * si);
        }
        return value(si, Dimension.difference(o.unit()));
    }

    private static String small(double p) {
        return Double.isNaN(p) ? "-" : p == 0 || p >= 1e-3 ? Units.number(p, 3) : String.format(Locale.ROOT, "%.1e", p);
    }
}
