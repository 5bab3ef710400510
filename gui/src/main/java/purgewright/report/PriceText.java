package purgewright.report;

import java.util.ArrayList;
import java.util.List;
import purgewright.fluids.unit.UnitSystem;
import purgewright.hazard.sizing.BarrierPrice;
import purgewright.hazard.sizing.BarrierPrice.Carried;
import purgewright.hazard.sizing.BarrierPrice.Loss;

/** What the barrier costs, one line a phase: the line by which two seal packages compare. */
final class PriceText {
    private PriceText() {}

    static void append(StringBuilder text, List<BarrierPrice> prices, UnitSystem units) {
        append(text, prices, units, "");
    }

    /** @param of whose price it is, when that is not plain; begins with a space */
    static void append(StringBuilder text, List<BarrierPrice> prices, UnitSystem units, String of) {
        if (prices.isEmpty()) {
            return;
        }
        Figures figures = new Figures(units);
        text.append("\nPrice of the barrier" + of + "; in brackets the share of the main flow\n");
        Table table = new Table("  ", "lrrrrr");
        table.heading("phase", "purge", "pumped, lost", "back to pump", "drive gas lost", "shaft power");
        String unit = figures.flowUnit();
        table.heading("", unit, unit, unit, unit, "");
        boolean unknown = false;
        for (BarrierPrice p : prices) {
            table.row(
                    p.phase(),
                    figures.flow(p.purgeFlow()),
                    losses(p.pumped(), figures, false),
                    losses(p.pumped(), figures, true),
                    losses(p.drive(), figures, false),
                    figures.power(p.shaftPower()));
            for (Loss loss : p.pumped()) {
                unknown |= Double.isNaN(loss.mainFlow());
            }
            for (Loss loss : p.drive()) {
                unknown |= Double.isNaN(loss.mainFlow());
            }
        }
        table.appendTo(text);
        if (unknown) {
            text.append("  No share where the stream's \"main flow\" is not stated in the case.\n");
        }
        List<String> lines = new ArrayList<>();
        for (BarrierPrice p : prices) {
            for (Carried c : p.carried()) {
                lines.add((prices.size() > 1 ? p.phase() + ": " : "") + carried(c, figures));
            }
        }
        if (lines.isEmpty()) {
            text.append("  No purge gas runs into a pumped fluid or the drive gas.\n");
        }
        for (String line : lines) {
            Words.paragraph(text, "  ", "    ", line);
        }
    }

    private static String losses(List<Loss> losses, Figures figures, boolean returned) {
        if (losses.isEmpty()) {
            return "-";
        }
        List<String> parts = new ArrayList<>();
        for (Loss loss : losses) {
            double flow = returned ? loss.returned() : loss.lost();
            double share = returned ? loss.returnedShare() : loss.lostShare();
            String what = figures.flow(flow);
            if (!Double.isNaN(share)) {
                what += " (" + Figures.percent(share, 2) + ")";
            }
            parts.add(losses.size() > 1 ? loss.stream() + " " + what : what);
        }
        return String.join("; ", parts);
    }

    private static String carried(Carried c, Figures figures) {
        String kind = c.liquid() ? "void fraction" : "mole fraction";
        String line = "Purge gas into " + c.into() + " through " + c.passage() + ": " + figures.flow(c.flow()) + " "
                + figures.flowUnit() + ", " + kind + " " + Figures.percent(c.entryShare(), 2) + " where it enters";
        return Double.isNaN(c.share()) ? line : line + ", " + Figures.percent(c.share(), 2) + " once in the main flow";
    }
}
