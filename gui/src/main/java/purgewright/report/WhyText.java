package purgewright.report;

import java.util.Locale;
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
                    item.choked() ? "choked" : "");
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
        text.append("  Pressures and temperatures count from zero; a valve that opens is not foreseen.\n");
    }

    private static String signed(double pascal, UnitSystem units) {
        return (pascal > 0 ? "+" : "") + Units.format(pascal, Dimension.PRESSURE, units, 3);
    }

    private static String percent(double share) {
        return String.format(Locale.ROOT, "%+.2f", 100 * share);
    }

    /** In the units of its kind when the case says which kind it is; else the bare SI number. */
    private static String value(Sensitivity s, CaseDocument document, UnitSystem units) {
        String typed = document == null ? "" : document.text(s.place()).orElse("");
        try {
            Dimension dimension = Units.parseAny(typed, Units.STANDARD_PRESSURE).dimension();
            return Units.format(s.value(), dimension, units, 4);
        } catch (UnitException e) {
            return Units.number(s.value(), 4) + " (SI)";
        }
    }
}
