package purgewright.hazard.service;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import purgewright.hazard.barrier.BarrierLayout;
import purgewright.hazard.barrier.StreamTable;
import purgewright.hazard.criteria.Setting;
import purgewright.hazard.criteria.SupplyRules;
import purgewright.hazard.finding.Draft;
import purgewright.hazard.finding.Finding;
import purgewright.hazard.finding.Scene;
import purgewright.hazard.finding.Verdict;
import purgewright.sealflow.campaign.DutyClock;
import purgewright.sealflow.campaign.DutyRun;
import purgewright.sealflow.campaign.DutyRun.Instant;
import purgewright.sealflow.model.Case;
import purgewright.sealflow.model.Cavity;
import purgewright.sealflow.model.Role;

/**
 * What fixed cavities of inert gas give besides the one that the stated supply feeds. Their gas comes out of no bottle of the case, so
 * that a budget which is silent about it is too small.
 */
final class OtherSources {
    /** Less than this is what a solver leaves over, kg. */
    private static final double NOTHING = 1e-6;

    private OtherSources() {}

    /**
     * One of them.
     *
     * @param cavity its name
     * @param stream in it
     * @param feeds true for one that feeds the barriers, false for a working or bearing cavity filled with inert gas
     * @param byPhase kg, net outflow, phases in which it gives something
     */
    record Given(String cavity, String stream, boolean feeds, Map<String, Double> byPhase) {
        /** kg. */
        double gas() {
            return byPhase.values().stream().mapToDouble(Double::doubleValue).sum();
        }

        /** "disc cavity gives 0.389 kg of barrier gas (pre-purge, hold)", with gas from elsewhere added. */
        String words(double kg, String often) {
            return String.format(
                    Locale.ROOT,
                    "%s gives %.4g kg of %s%s (%s), which is not drawn from the supply nor counted in the gas used: %s",
                    cavity,
                    kg,
                    stream,
                    often,
                    String.join(", ", byPhase.keySet()),
                    feeds
                            ? "the case states no supply for it, and how long it can give that is not established."
                            : "whatever fills " + cavity + " must hold that besides.");
        }
    }

    /** All that give something in a run, in the order of the case; none where no supply is stated. Linear between moments. */
    static List<Given> of(DutyClock clock, List<Instant> instants, PhaseSolve points) {
        Map<String, Map<String, Double>> gas = new LinkedHashMap<>();
        Map<String, Cavity> seen = new LinkedHashMap<>();
        for (int i = 1; i < instants.size(); i++) {
            Instant a = instants.get(i - 1);
            Instant b = instants.get(i);
            Case model = b.model();
            if (a.leg() != b.leg() || model.supply() == null) {
                continue;
            }
            String fed = DutyRun.cavity(model, model.supply());
            StreamTable streams = points.streams(model.streams());
            for (Cavity c : model.cavities()) {
                if (!c.name().equals(fed) && gives(model, c, streams)) {
                    double mean = (outflow(a, c.name()) + outflow(b, c.name())) / 2;
                    seen.put(c.name(), c);
                    gas.computeIfAbsent(c.name(), k -> new LinkedHashMap<>())
                            .merge(clock.legs().get(b.leg()).name(), mean * (b.time() - a.time()), Double::sum);
                }
            }
        }
        List<Given> out = new ArrayList<>();
        gas.forEach((name, by) -> {
            by.values().removeIf(kg -> !(kg > NOTHING));
            if (!by.isEmpty()) {
                Cavity c = seen.get(name);
                out.add(new Given(name, c.stream(), BarrierLayout.FEEDING.contains(c.role()), by));
            }
        });
        return out;
    }

    /** A fixed cavity of inert gas that is no vent or drain; one that works with an inert fluid of its own gives no purge. */
    private static boolean gives(Case model, Cavity c, StreamTable streams) {
        return BarrierLayout.source(model, c, streams)
                || (c.role() == Role.BEARING && c.fixed() && c.stream() != null && streams.inert(c.stream()));
    }

    private static double outflow(Instant at, String cavity) {
        return Math.max(0, -at.solve().cavities().get(cavity).netMassFlow());
    }

    /** A source of the barriers without a supply: how long it lasts is not established. What fills a working cavity is told of only. */
    static List<Finding> findings(List<Given> others) {
        List<Finding> out = new ArrayList<>();
        for (Given g : others) {
            if (g.feeds()) {
                out.add(Draft.of(
                                SupplyRules.SUPPLY,
                                Setting.cavityPlace(g.cavity()),
                                Scene.of(g.byPhase().keySet().iterator().next()))
                        .part("no supply")
                        .what(String.format(
                                Locale.ROOT,
                                "%s gives %.4g kg of %s in the run, and the case states no supply for it",
                                g.cavity(),
                                g.gas(),
                                g.stream()))
                        .how(
                                "its net outflow over time; only the cavity named in the supply is drawn from bottles, main or tank")
                        .source("balance of gas [definition]")
                        .mend("feed it from the cavity that the supply holds, or show by other means that it lasts")
                        .as(Verdict.NOT_ESTABLISHED));
            }
        }
        return out;
    }
}
