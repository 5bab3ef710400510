package purgewright.sealflow.network;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import purgewright.sealflow.model.Case;
import purgewright.sealflow.network.SolveResult.CavityState;
import purgewright.sealflow.network.SolveResult.Converged;
import purgewright.sealflow.network.SolveResult.PassageState;

/**
 * Why a cavity stands where it stands: what flows in and out, and what would change it most.
 *
 * @param cavity name
 * @param state its state
 * @param items one for each passage at the cavity, largest flow first
 * @param inflow sum of what flows in, kg/s
 * @param pressure inputs that move its pressure, strongest first; empty for a fixed cavity
 * @param fractions for each stream present, the inputs that move its share, strongest first
 */
public record Explanation(
        String cavity,
        CavityState state,
        List<Item> items,
        double inflow,
        List<Sensitivities.Sensitivity> pressure,
        Map<String, List<Sensitivities.Sensitivity>> fractions) {

    /**
     * One passage of the balance.
     *
     * @param passage name
     * @param other cavity at the other end
     * @param flow kg/s, positive into the cavity
     * @param share of all that flows in (or out, for an outflow)
     * @param ownPressure Pa, the cavity's at the passage's radius
     * @param otherPressure Pa, at the other end
     * @param choked true when the lower pressure has no say
     * @param streamFlows kg/s of each stream, positive into the cavity
     * @param pickUp where a separate liquid leaves the cavity unevenly, liquid over gas in what leaves as a multiple of that in the cavity; else 1
     */
    public record Item(
            String passage,
            String other,
            double flow,
            double share,
            double ownPressure,
            double otherPressure,
            boolean choked,
            Map<String, Double> streamFlows,
            double pickUp) {}

    /**
     * Explains one cavity of a solved case.
     *
     * @param solver the solver that solved it
     * @param model the case
     * @param solved its result
     * @param cavity which
     * @throws IllegalArgumentException when there is no such cavity or the result is not one of the case
     */
    public static Explanation of(NetworkSolver solver, Case model, Converged solved, String cavity) {
        CavityState state = solved.cavities().get(cavity);
        if (state == null) {
            throw new IllegalArgumentException("no cavity '" + cavity + "'");
        }
        double in = 0;
        double out = 0;
        for (PassageState p : solved.passages().values()) {
            double flow = inward(p, cavity);
            in += Math.max(flow, 0);
            out += Math.max(-flow, 0);
        }
        List<Item> items = new ArrayList<>();
        for (PassageState p : solved.passages().values()) {
            if (!p.from().equals(cavity) && !p.to().equals(cavity)) {
                continue;
            }
            boolean atTo = p.to().equals(cavity);
            double flow = inward(p, cavity);
            Map<String, Double> streams = new LinkedHashMap<>();
            p.streamFlows().forEach((name, f) -> streams.put(name, atTo ? f : -f));
            double all = flow >= 0 ? in : out;
            items.add(new Item(
                    p.name(),
                    atTo ? p.from() : p.to(),
                    flow,
                    all > 0 ? Math.abs(flow) / all : 0,
                    (atTo ? p.toState() : p.fromState()).pressure(),
                    (atTo ? p.fromState() : p.toState()).pressure(),
                    p.flow().choked(),
                    streams,
                    flow < 0 && uneven(p, state) ? pickUp(model, p.name()) : 1));
        }
        items.sort(Comparator.comparingDouble((Item i) -> -Math.abs(i.flow())).thenComparing(Item::passage));
        List<Sensitivities.Sensitivity> pressure = List.of();
        Map<String, List<Sensitivities.Sensitivity>> fractions = new LinkedHashMap<>();
        if (!state.fixed()) {
            Sensitivities s = Sensitivities.of(solver, model, solved);
            pressure = s.pressure(cavity);
            for (Map.Entry<String, Double> e : state.streamFractions().entrySet()) {
                if (e.getValue() > 0) {
                    fractions.put(e.getKey(), s.fraction(cavity, e.getKey()));
                }
            }
        }
        return new Explanation(cavity, state, List.copyOf(items), in, pressure, fractions);
    }

    /** True where what leaves is not what the cavity holds, and no diffusion but a liquid picked up unevenly is why. */
    private static boolean uneven(PassageState p, CavityState state) {
        return !state.fixed()
                && p.upstream().equals(state.name())
                && (!p.bulk().fractions().equals(state.streamFractions())
                        || p.bulk().enthalpy() != state.state().enthalpy());
    }

    private static double pickUp(Case model, String passage) {
        return model.passages().stream()
                .filter(s -> s.name().equals(passage))
                .findFirst()
                .orElseThrow()
                .pickUp();
    }

    private static double inward(PassageState p, String cavity) {
        if (p.to().equals(cavity)) {
            return p.flow().massFlow();
        }
        return p.from().equals(cavity) ? -p.flow().massFlow() : 0;
    }
}
