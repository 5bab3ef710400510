package purgewright.report;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import purgewright.fluids.unit.Dimension;
import purgewright.fluids.unit.UnitSystem;
import purgewright.fluids.unit.Units;
import purgewright.hazard.service.PlanResult;
import purgewright.hazard.service.PlanResult.Again;
import purgewright.hazard.service.PlanResult.Alternative;
import purgewright.hazard.service.PlanResult.Order;
import purgewright.hazard.service.PlanResult.PlanEvent;
import purgewright.hazard.service.PlanResult.Spread;
import purgewright.hazard.service.PlanResult.SupplyUse;

/** The report of {@code plan}: what to order, when to swap, what it costs. */
public final class PlanText {
    private static final int MOST_EVENTS = 60;

    private PlanText() {}

    /** The whole text. */
    public static String write(PlanResult plan, String title, String engine, UnitSystem units) {
        Figures f = new Figures(units);
        StringBuilder text = new StringBuilder();
        if (plan.again() != null) {
            again(text, plan.again(), f);
        }
        Order order = plan.order();
        String what = plan.supply().banks() == 0
                ? f.mass(order.gasUsed()) + " " + f.massUnit() + " of " + plan.gas()
                : order.bottles() + (order.bottles() == 1 ? " bottle of " : " bottles of ") + plan.gas() + ", "
                        + order.swaps() + (order.swaps() == 1 ? " swap of a bank" : " swaps of a bank");
        plan.unestablished()
                .forEach(
                        why -> Words.paragraph(text, "Supply:  ", "         ", "not established to be enough: " + why));
        if (!order.enough() && plan.unestablished().isEmpty()) {
            Words.paragraph(
                    text,
                    "Supply:  ",
                    "         ",
                    plan.supply().banks() == 0
                            ? "not enough, or not stated to be: see other ways of supply; what follows is what would be used"
                            : "not enough for one attempt: the campaign was given up, and what follows is no order");
        }
        Words.paragraph(
                text,
                "Order:   ",
                "         ",
                what + (Double.isNaN(order.cost()) ? "" : ", " + money(order.cost(), order.currency()))
                        + ", without aborts and with the durations stated");
        if (plan.spread() != null && plan.supply().banks() > 0) {
            Spread s = plan.spread();
            Words.paragraph(
                    text,
                    "         ",
                    "         ",
                    "with aborts and holds: " + s.p50() + " bottles in half of the campaigns, " + s.p90()
                            + " in nine of ten, " + s.p95() + " in nineteen of twenty");
        }
        plan.use()
                .elsewhere()
                .forEach((cavity, kg) -> Words.paragraph(
                        text,
                        "Besides: ",
                        "         ",
                        f.mass(kg) + " " + f.massUnit() + " in each attempt from " + cavity
                                + ", not drawn from the supply and not in the order"));
        Words.paragraph(text, "Case:    ", "         ", title);
        if (!plan.complete()) {
            text.append("Ended:   cancelled; the distribution rests on ")
                    .append(plan.spread() == null ? 0 : plan.spread().samples())
                    .append(" campaigns only\n");
        }
        use(text, plan, f);
        supply(text, plan.supply(), f);
        events(text, plan, f);
        cost(text, order, plan, f);
        spread(text, plan, f);
        alternatives(text, plan, f, units);
        if (!plan.notes().isEmpty()) {
            text.append("\nNotes\n");
            for (String note : plan.notes()) {
                Words.paragraph(text, "  - ", "    ", note);
            }
        }
        text.append("\nProperties: ").append(engine).append('\n');
        return text.toString();
    }

    private static String money(double amount, String currency) {
        return String.format(Locale.ROOT, "%,.0f", amount).replace(',', ' ')
                + (currency.isEmpty() ? "" : " " + currency);
    }

    private static void again(StringBuilder text, Again a, Figures f) {
        Words.paragraph(text, "Again:   ", "         ", a.what());
        Table table = new Table("         ", "lr");
        table.row("in the banks", f.mass(a.inBanks()) + " " + f.massUnit());
        table.row("of that usable in one attempt", f.mass(a.usable()) + " " + f.massUnit());
        table.row("one attempt takes", f.mass(a.needed()) + " " + f.massUnit());
        table.row("reserve kept back", f.mass(a.reserve()) + " " + f.massUnit());
        table.row("bank in use at the end", f.quantity(a.endPressure(), "Pa"));
        table.row("whole attempts that remain", Integer.toString(a.attempts()));
        table.appendTo(text);
    }

    private static void use(StringBuilder text, PlanResult plan, Figures f) {
        text.append("\nGas of one attempt\n");
        Table table = new Table("  ", "lr");
        for (Map.Entry<String, Double> e : plan.use().byPhase().entrySet()) {
            table.row(e.getKey(), f.mass(e.getValue()) + " " + f.massUnit());
        }
        table.row("each attempt, all told", f.mass(plan.use().perAttempt()) + " " + f.massUnit());
        plan.use()
                .elsewhere()
                .forEach((cavity, kg) ->
                        table.row("besides, not from the supply: " + cavity, f.mass(kg) + " " + f.massUnit()));
        if (plan.use().perCampaign() > 0) {
            table.row("once a campaign", f.mass(plan.use().perCampaign()) + " " + f.massUnit());
        }
        table.row("lasts", Units.format(plan.use().duration(), Dimension.TIME, UnitSystem.SI, 4));
        table.row("greatest flow", f.quantity(plan.use().peakFlow(), "kg/s"));
        table.appendTo(text);
    }

    private static void supply(StringBuilder text, SupplyUse s, Figures f) {
        if (s.banks() == 0) {
            return;
        }
        text.append("\nBottles\n");
        Table table = new Table("  ", "lr");
        table.row("in the bank", s.bottles() + " in " + s.banks() + (s.banks() == 1 ? " bank" : " banks"));
        table.row("filling", f.mass(s.filling()) + " " + f.massUnit());
        table.row("of that usable, drawn as an attempt draws", f.mass(s.usable()) + " " + f.massUnit());
        table.row("least usable pressure", f.quantity(s.leastInlet(), "Pa"));
        table.row("  set by", s.leastInletReason());
        if (!Double.isNaN(s.dropout())) {
            table.row("regulator drops out at", f.quantity(s.dropout(), "Pa"));
        }
        if (!Double.isNaN(s.redline())) {
            table.row("first criterion is lost at", f.quantity(s.redline(), "Pa"));
        }
        table.row(
                "one bank makes a whole attempt from",
                Double.isNaN(s.startPressure()) ? "not even full" : f.quantity(s.startPressure(), "Pa"));
        table.row("attempts from full banks without a swap", Integer.toString(s.attemptsPerBank()));
        table.appendTo(text);
    }

    private static void events(StringBuilder text, PlanResult plan, Figures f) {
        text.append("\nCalendar: no aborts, durations as stated\n");
        int banks = plan.supply().banks();
        StringBuilder alignment = new StringBuilder("rrlrrr");
        List<String> heads = new ArrayList<>(List.of("day", "attempt", "", "gas", "left", "new"));
        List<String> units = new ArrayList<>(List.of("", "", "", f.massUnit(), f.massUnit(), "bottles"));
        for (int b = 1; b <= banks; b++) {
            alignment.append('r');
            heads.add("bank " + b);
            units.add(f.pressureUnit());
        }
        Table table = new Table("  ", alignment.toString());
        table.heading(heads.toArray(String[]::new));
        table.heading(units.toArray(String[]::new));
        int n = 0;
        for (PlanEvent e : plan.events()) {
            if (n++ >= MOST_EVENTS) {
                break;
            }
            List<String> cells = new ArrayList<>(List.of(
                    Integer.toString(e.day()),
                    e.attempt() == 0 ? "" : Integer.toString(e.attempt()),
                    e.detail().isEmpty() ? e.what() : e.what().equals("swap") ? "swap " + e.detail() : e.detail(),
                    e.gas() > 0 ? f.mass(e.gas()) : "",
                    banks == 0 ? "" : f.mass(e.left()),
                    e.bottles() == 0 ? "" : Integer.toString(e.bottles())));
            e.pressures().forEach(p -> cells.add(f.pressure(p)));
            table.row(cells.toArray(String[]::new));
        }
        table.appendTo(text);
        if (plan.events().size() > MOST_EVENTS) {
            text.append("  and ").append(plan.events().size() - MOST_EVENTS).append(" more; -o writes all\n");
        }
    }

    private static void cost(StringBuilder text, Order o, PlanResult plan, Figures f) {
        text.append("\nOrder\n");
        Table table = new Table("  ", "lr");
        if (plan.supply().banks() > 0) {
            table.row("bottles, the first filling included", Integer.toString(o.bottles()));
            table.row("swaps of a bank", Integer.toString(o.swaps()));
            table.row("gas bought", f.mass(o.gasBought()) + " " + f.massUnit());
            table.row("gas returned in the bottles", f.mass(o.gasReturned()) + " " + f.massUnit());
        }
        table.row("gas used", f.mass(o.gasUsed()) + " " + f.massUnit());
        table.row("days", Integer.toString(o.days()));
        if (!Double.isNaN(o.costGas())) {
            table.row("gas", money(o.costGas(), o.currency()));
        }
        if (!Double.isNaN(o.costRental())) {
            table.row("rental", money(o.costRental(), o.currency()));
        }
        table.row("cost", Double.isNaN(o.cost()) ? "no price is stated" : money(o.cost(), o.currency()));
        table.appendTo(text);
    }

    private static void spread(StringBuilder text, PlanResult plan, Figures f) {
        Spread s = plan.spread();
        if (s == null) {
            return;
        }
        text.append("\nWith aborts and durations as chance has them: ")
                .append(s.samples())
                .append(" campaigns, seed ")
                .append(s.seed())
                .append('\n');
        Table table = new Table("  ", "lrrr");
        table.heading("", "half", "9 of 10", "19 of 20");
        if (plan.supply().banks() > 0) {
            table.row("bottles", Integer.toString(s.p50()), Integer.toString(s.p90()), Integer.toString(s.p95()));
        }
        table.row("gas, " + f.massUnit(), f.mass(s.gas50()), f.mass(s.gas90()), f.mass(s.gas95()));
        table.row("attempts, aborted ones included", "", "", Integer.toString(s.attempts95()));
        table.appendTo(text);
        if (plan.supply().banks() > 0) {
            Table histogram = new Table("  ", "rrl");
            histogram.heading("bottles", "campaigns", "");
            int most = s.histogram().values().stream()
                    .mapToInt(Integer::intValue)
                    .max()
                    .orElse(1);
            for (Map.Entry<Integer, Integer> e : s.histogram().entrySet()) {
                histogram.row(e.getKey().toString(), e.getValue().toString(), "#".repeat((int)
                                Math.ceil(40.0 * e.getValue() / most)));
            }
            histogram.appendTo(text);
        }
        if (s.ranShort() > 0) {
            text.append("  In ")
                    .append(s.ranShort())
                    .append(" of them an attempt outran the banks, reserve included.\n");
        }
        if (s.unfinished() > 0) {
            text.append("  ").append(s.unfinished()).append(" were given up: full banks do not cover one attempt.\n");
        }
    }

    private static void alternatives(StringBuilder text, PlanResult plan, Figures f, UnitSystem units) {
        if (plan.alternatives().isEmpty()) {
            return;
        }
        text.append("\nOther ways of supply\n");
        for (Alternative a : plan.alternatives()) {
            String quantity = a.unit().equals("m3")
                    ? purgewright.fluids.unit.Units.format(
                                    a.quantity(), purgewright.fluids.unit.Dimension.VOLUME, units, 3)
                            + " of liquid"
                    : f.mass(a.quantity()) + " " + f.massUnit();
            Words.paragraph(
                    text,
                    "  ",
                    "    ",
                    a.name() + ": " + (a.enough() ? "enough; " : "not enough; ")
                            + (Double.isNaN(a.quantity()) ? "" : quantity + "; ") + a.what());
        }
    }
}
