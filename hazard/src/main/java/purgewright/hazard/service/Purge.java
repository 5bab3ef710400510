package purgewright.hazard.service;

import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import purgewright.fluids.mixture.StreamDefinition;
import purgewright.hazard.barrier.BarrierLayout;
import purgewright.hazard.criteria.Setting;
import purgewright.hazard.service.CheckResult.PhaseResult;
import purgewright.hazard.service.CheckResult.PurgeSummary;
import purgewright.sealflow.model.Case;
import purgewright.sealflow.model.Cavity;
import purgewright.sealflow.model.Role;
import purgewright.sealflow.network.SolveResult.CavityState;
import purgewright.sealflow.network.SolveResult.Converged;
import purgewright.sealflow.network.SolveResult.PassageState;

/** What the barriers cost. */
public final class Purge {
    private Purge() {}

    /** Purge flow into the barrier cavities at one operating point, kg/s; what fixed inert barrier cavities give counts too. */
    public static double flow(Case model, Converged solve, BarrierLayout layout) {
        Set<String> barriers = layout.barrierCavities();
        double flow = 0;
        for (PassageState p : solve.passages().values()) {
            if (layout.supply().contains(p.from()) && barriers.contains(p.to())) {
                flow += p.flow().massFlow();
            } else if (layout.supply().contains(p.to()) && barriers.contains(p.from())) {
                flow -= p.flow().massFlow();
            }
        }
        for (String name : barriers) {
            CavityState c = solve.cavities().get(name);
            if (c != null && c.fixed()) {
                for (PassageState p : solve.passages().values()) {
                    boolean inner = barriers.contains(p.from()) && barriers.contains(p.to());
                    boolean supply = layout.supply().contains(p.from())
                            || layout.supply().contains(p.to());
                    if (!inner && !supply && (p.from().equals(name) || p.to().equals(name))) {
                        flow += Setting.outflow(p, name);
                    }
                }
            }
        }
        return flow;
    }

    /** Gas that runs into each vent, mol/s. */
    static Map<String, Double> ventedMoles(Case model, Converged solve) {
        Map<String, Double> out = new LinkedHashMap<>();
        vented(model, solve)
                .forEach((vent, species) -> out.put(
                        vent,
                        species.values().stream()
                                .mapToDouble(Double::doubleValue)
                                .sum()));
        return out;
    }

    /** The same species by species, mol/s, by vent. */
    static Map<String, Map<String, Double>> vented(Case model, Converged solve) {
        Map<String, Map<String, Double>> out = new LinkedHashMap<>();
        for (PassageState p : solve.passages().values()) {
            boolean forward = p.flow().massFlow() > 0;
            Cavity to = model.cavity(forward ? p.to() : p.from());
            CavityState from = solve.cavities().get(forward ? p.from() : p.to());
            if (to != null && to.role() == Role.VENT && from != null) {
                double moles =
                        Math.abs(p.flow().massFlow()) / from.state().fluid().molarMass();
                Map<String, Double> species = out.computeIfAbsent(to.name(), k -> new LinkedHashMap<>());
                from.moleFractions().forEach((name, x) -> species.merge(name, x * moles, Double::sum));
            }
        }
        return out;
    }

    /** Relative difference below which two flows are the same. */
    private static final double SAME = 1e-6;

    /** Sums up the phases that converged. */
    static PurgeSummary summary(List<PhaseResult> phases, Map<String, BarrierLayout> layouts) {
        Map<String, Double> byPhase = new LinkedHashMap<>();
        double most = Double.NEGATIVE_INFINITY;
        String governing = "";
        Map<String, Double> windage = new LinkedHashMap<>();
        Map<String, Double> power = new LinkedHashMap<>();
        Set<String> gases = new LinkedHashSet<>();
        for (PhaseResult phase : phases) {
            BarrierLayout layout = layouts.get(phase.name());
            if (!(phase.solve() instanceof Converged solve) || layout == null) {
                continue;
            }
            double flow = flow(phase.model(), solve, layout);
            byPhase.put(phase.name(), flow);
            for (String source : layout.sources()) {
                gases.add(gas(phase.model(), phase.model().cavity(source).stream()));
            }
            // Of phases with the same flow the first, not the one that rounding favours.
            if (most < 0 || flow > most * (1 + SAME)) {
                most = flow;
                governing = phase.name();
                windage.clear();
                power.clear();
                solve.cavities().values().forEach(c -> {
                    if (c.windage() != 0) {
                        windage.put(c.name(), c.windage());
                    }
                });
                solve.passages().values().forEach(p -> {
                    if (p.flow().heat() != 0) {
                        power.put(p.name(), p.flow().heat());
                    }
                });
            }
        }
        return new PurgeSummary(
                byPhase.isEmpty() ? Double.NaN : most, byPhase, String.join(", ", gases), governing, windage, power);
    }

    private static String gas(Case model, String stream) {
        for (StreamDefinition s : model.streams()) {
            if (s.name().equals(stream)) {
                return s instanceof StreamDefinition.Single single ? single.fluid() : stream;
            }
        }
        return stream;
    }
}
