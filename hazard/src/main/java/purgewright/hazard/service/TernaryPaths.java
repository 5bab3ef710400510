package purgewright.hazard.service;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import purgewright.hazard.flammability.Ternary;
import purgewright.hazard.service.CheckResult.PhaseResult;
import purgewright.sealflow.network.SolveResult.CavityState;
import purgewright.sealflow.network.SolveResult.Converged;

/**
 * Where each solved cavity stands in the triangle of fuel, oxygen and inert in each phase, and how near it comes to the flammable region
 * on the straight way from one phase to the next.
 *
 * @param cavity name
 * @param stations one a phase, in the order of the duty; phases without a solution left out
 */
public record TernaryPaths(String cavity, List<Station> stations) {
    private static final int STEPS = 50;

    /**
     * One phase.
     *
     * @param phase name
     * @param at position at its steady state
     * @param nearest least distance to the region on the way here from the phase before; that of {@code at} for the first
     * @param crosses true when that way leads through the region
     */
    public record Station(String phase, Ternary at, double nearest, boolean crosses) {}

    /** The paths of all solved cavities, in the order of the case. */
    public static List<TernaryPaths> of(CheckResult result) {
        Map<String, List<Station>> stations = new LinkedHashMap<>();
        Map<String, Map<String, Double>> before = new LinkedHashMap<>();
        for (PhaseResult phase : result.phases()) {
            if (!(phase.solve() instanceof Converged solved)) {
                continue;
            }
            for (CavityState c : solved.cavities().values()) {
                if (c.fixed()) {
                    continue;
                }
                List<Ternary> way = before.containsKey(c.name())
                        ? Ternary.way(before.get(c.name()), c.moleFractions(), STEPS)
                        : List.of(Ternary.of(c.moleFractions()));
                Ternary at = way.get(way.size() - 1);
                double nearest = way.stream()
                        .mapToDouble(Ternary::distance)
                        .filter(d -> !Double.isNaN(d))
                        .min()
                        .orElse(Double.NaN);
                stations.computeIfAbsent(c.name(), k -> new ArrayList<>())
                        .add(new Station(phase.name(), at, nearest, way.stream().anyMatch(Ternary::inside)));
                before.put(c.name(), c.moleFractions());
            }
        }
        List<TernaryPaths> out = new ArrayList<>();
        stations.forEach((cavity, list) -> out.add(new TernaryPaths(cavity, List.copyOf(list))));
        return List.copyOf(out);
    }
}
