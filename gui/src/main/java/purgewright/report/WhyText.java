package purgewright.report;

import java.util.List;
import java.util.Locale;
import java.util.Map;
import purgewright.fluids.unit.Dimension;
import purgewright.fluids.unit.UnitException;
import purgewright.fluids.unit.UnitSystem;
import purgewright.fluids.unit.Units;
import purgewright.hazard.service.CavityExplanation;
import purgewright.sealflow.casefile.CaseDocument;
import purgewright.sealflow.network.Explanation;
import purgewright.sealflow.network.Sensitivities.Sensitivity;

/** Why a cavity stands where it stands: the part of {@code check --why}. */
final class WhyText {
    /** More than these move little; the JSON has them all. */
    private static final int SHOWN = 8;

    private static final int SHOWN_SHARES = 4;
    /** Below this mass fraction a stream is a trace, of which the findings speak. */
    private static final double TRACE = 1e-6;

    private WhyText() {}

    static void append(StringBuilder text, CavityExplanation why, CaseDocument document, UnitSystem units) {
        text.append("\nWhy ")
                .append(why.cavity())
                .append(" stands there, phase ")
                .append(why.phase())
                .append('\n');
        Explanation e = why.explanation();
        if (e == null) {
            Words.paragraph(text, "  ", "  ", "Not established: " + why.reason());
            return;
        }
        Figures figures = new Figures(units);
        text.append("  pressure ")
                .append(figures.pressure(e.state().state().pressure()))
                .append(' ')
                .append(figures.pressureUnit())
                .append(e.state().fixed() ? ", as stated in the case\n" : "\n");
        Table balance = new Table("  ", "llrrrrl");
        balance.heading("passage", "other end", "flow in", "share", "here", "there", "");
        balance.heading("", "", figures.flowUnit(), "%", figures.pressureUnit(), figures.pressureUnit(), "");
        for (Explanation.Item item : e.items()) {
            balance.row(
                    item.passage(),
                    item.other(),
                    figures.flow(item.flow()),
                    Units.number(100 * item.share(), 3),
                    figures.pressure(item.ownPressure()),
                    figures.pressure(item.otherPressure()),
                    remark(item));
        }
        balance.appendTo(text);
        if (e.state().fixed()) {
            text.append("  Nothing moves a pressure that is stated.\n");
            return;
        }
        text.append(
                "\n  What moves its pressure most: change for 10 % more of one input, by the slope at the solution\n");
        Table moves = new Table("  ", "lrrr");
        moves.heading("input", "value", "change", "%");
        double own = e.state().state().pressure();
        e.pressure().stream().limit(SHOWN).forEach(s -> {
            double change = 0.1 * s.perShare();
            moves.row(s.place(), value(s, document, units), signed(change, units), percent(change / own));
        });
        moves.appendTo(text);
        composition(text, e, document, units);
        text.append("  Pressures and temperatures count from zero; a valve that opens is not foreseen.\n");
    }

    private static String remark(Explanation.Item item) {
        String liquid = item.pickUp() == 1 ? "" : "takes liquid at " + Units.number(item.pickUp(), 3) + " of its share";
        return item.choked() ? liquid.isEmpty() ? "choked" : "choked; " + liquid : liquid;
    }

    /** What moves the share of each stream that is not nearly all or nearly nothing of what is in the cavity. */
    private static void composition(StringBuilder text, Explanation e, CaseDocument document, UnitSystem units) {
        List<Map.Entry<String, List<Sensitivity>>> mixed = e.fractions().entrySet().stream()
                .filter(f -> share(e, f.getKey()) > TRACE && share(e, f.getKey()) < 1 - TRACE)
                .toList();
        // Of two streams one moves as the other does, the other way.
        int rows = mixed.size() == 2 ? 1 : mixed.size();
        for (int i = 0; i < rows; i++) {
            String stream = mixed.get(i).getKey();
            text.append("\n  What moves the share of ")
                    .append(stream)
                    .append(" in it most, now ")
                    .append(Units.number(100 * share(e, stream), 3))
                    .append(" % by mass: likewise\n");
            Table moves = new Table("  ", "lrr");
            moves.heading("input", "value", "change");
            moves.heading("", "", "% points");
            mixed.get(i).getValue().stream()
                    .limit(SHOWN_SHARES)
                    .forEach(s -> moves.row(s.place(), value(s, document, units), percent(0.1 * s.perShare())));
            moves.appendTo(text);
        }
    }

    private static double share(Explanation e, String stream) {
        return e.state().streamFractions().getOrDefault(stream, 0.0);
    }

    private static String signed(double pascal, UnitSystem units) {
        return (pascal > 0 ? "+" : "") + Units.format(pascal, Dimension.PRESSURE_DIFFERENCE, units, 3);
    }

    private static String percent(double share) {
        return String.format(Locale.ROOT, "%+.2f", 100 * share);
    }

    /** In the units of its kind when the case says which kind it is; else the bare SI number. */
    private static String value(Sensitivity s, CaseDocument document, UnitSystem units) {
        String typed = document == null ? "" : document.text(s.place()).orElse("");
        try {
            Dimension found = Units.parseAny(typed, Units.STANDARD_PRESSURE).dimension();
            // A difference has the units of what it is one of: the field says which it is.
            Dimension dimension = document.range(s.place())
                    .map(CaseDocument.Range::dimension)
                    .filter(d -> d.si().equals(found.si()))
                    .orElse(found);
            return Units.format(s.value(), dimension, units, 4);
        } catch (UnitException e) {
            return Units.number(s.value(), 4) + " (SI)";
        }
    }
}
