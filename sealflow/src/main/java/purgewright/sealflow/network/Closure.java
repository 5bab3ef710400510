package purgewright.sealflow.network;

import java.util.LinkedHashMap;
import java.util.Map;
import purgewright.fluids.FluidState;
import purgewright.fluids.PropertyException;
import purgewright.fluids.mixture.StreamMixer;
import purgewright.sealflow.model.Case;
import purgewright.sealflow.model.Cavity;
import purgewright.sealflow.network.SolveResult.CavityState;
import purgewright.sealflow.network.SolveResult.Converged;
import purgewright.sealflow.network.SolveResult.PassageState;

/**
 * Balances added up again from a finished result, by other code than the solver's: it reads names, flows and states and knows no
 * unknowns, no residuals and no derivatives. Where nothing flows (below 1e-14 kg/s everywhere, and 10 nW) nothing can be left over.
 *
 * @param mass largest mass balance left over in a solved cavity, as a share of the largest flow
 * @param energy the same for energy, as a share of the largest flow of energy (with what flows, as drag, through a wall), or of the largest flow times 1e5 J/kg if that is more
 * @param species the same for each stream, as a share of the largest flow
 * @param worst cavity with the largest of the three
 */
public record Closure(double mass, double energy, double species, String worst) {
    /** How well a temperature follows from an enthalpy. */
    private static final double ROUNDING_OF_TEMPERATURE = 2e-11;

    /**
     * @param model the case that was solved
     * @param result its result
     * @param mixer the mixer of its streams, for the enthalpy that diffusing streams carry
     */
    public static Closure of(Case model, Converged result, StreamMixer mixer) {
        Map<String, Double> mass = new LinkedHashMap<>();
        Map<String, Double> energy = new LinkedHashMap<>();
        Map<String, Double> rounding = new LinkedHashMap<>();
        Map<String, Map<String, Double>> species = new LinkedHashMap<>();
        double largestFlow = 0;
        double largestStream = 0;
        double largestEnergyFlow = 0;
        for (PassageState p : result.passages().values()) {
            double sum = 0;
            for (Map.Entry<String, Double> e : p.streamFlows().entrySet()) {
                sum += e.getValue();
                largestStream = Math.max(largestStream, Math.abs(e.getValue()));
                species.computeIfAbsent(p.from(), n -> new LinkedHashMap<>())
                        .merge(e.getKey(), -e.getValue(), Double::sum);
                species.computeIfAbsent(p.to(), n -> new LinkedHashMap<>())
                        .merge(e.getKey(), e.getValue(), Double::sum);
            }
            double enthalpyFlow = enthalpyFlow(p, result, mixer);
            mass.merge(p.from(), -sum, Double::sum);
            mass.merge(p.to(), sum, Double::sum);
            energy.merge(p.from(), -enthalpyFlow, Double::sum);
            energy.merge(p.to(), enthalpyFlow, Double::sum);
            energy.merge(p.to(), p.flow().heatAtTo(), Double::sum);
            energy.merge(p.from(), p.flow().heat() - p.flow().heatAtTo(), Double::sum);
            largestFlow = Math.max(largestFlow, Math.abs(sum));
            largestEnergyFlow = Math.max(
                    largestEnergyFlow,
                    Math.max(Math.abs(enthalpyFlow), Math.abs(p.flow().heat())));
        }
        for (CavityState c : result.cavities().values()) {
            energy.merge(c.name(), c.windage(), Double::sum);
            largestEnergyFlow = Math.max(largestEnergyFlow, Math.abs(c.windage()));
        }
        largestEnergyFlow = Math.max(largestEnergyFlow, walls(model, result, energy, rounding));

        boolean rest = largestStream < Descent.REST_FLOW;
        if (rest && largestEnergyFlow < Descent.REST_POWER) {
            return new Closure(0, 0, 0, "");
        }
        double flowUnit = Math.max(largestFlow, Descent.NO_FLOW);
        double energyUnit = Math.max(largestEnergyFlow, 1e5 * flowUnit);
        double worstMass = 0;
        double worstEnergy = 0;
        double worstSpecies = 0;
        double most = -1;
        String worst = "";
        for (CavityState c : result.cavities().values()) {
            if (c.fixed()) {
                continue;
            }
            double m = rest ? 0 : Math.abs(mass.getOrDefault(c.name(), 0.0)) / flowUnit;
            // No temperature is known closer than to its rounding, nor is the heat through a wall.
            double e = Math.max(0, Math.abs(energy.getOrDefault(c.name(), 0.0)) - rounding.getOrDefault(c.name(), 0.0))
                    / energyUnit;
            double s = 0;
            for (double left : species.getOrDefault(c.name(), Map.of()).values()) {
                s = rest ? 0 : Math.max(s, Math.abs(left) / flowUnit);
            }
            worstMass = Math.max(worstMass, m);
            worstEnergy = Math.max(worstEnergy, e);
            worstSpecies = Math.max(worstSpecies, s);
            if (Math.max(m, Math.max(e, s)) > most) {
                most = Math.max(m, Math.max(e, s));
                worst = c.name();
            }
        }
        return new Closure(worstMass, worstEnergy, worstSpecies, worst);
    }

    /** What a passage carries: its bulk with the enthalpy of where it comes from, each stream that diffuses with its own. */
    private static double enthalpyFlow(PassageState p, Converged result, StreamMixer mixer) {
        double h = p.bulk().enthalpy();
        double sum = p.bulk().massFlow() * h;
        for (int k = 0; k < mixer.size(); k++) {
            double beyond = p.streamFlows().getOrDefault(mixer.name(k), 0.0)
                    - p.bulk().massFlow() * p.bulk().fractions().getOrDefault(mixer.name(k), 0.0);
            if (Math.abs(beyond) <= 1e-15 * Math.abs(p.bulk().massFlow())) {
                sum += beyond * h;
                continue;
            }
            CavityState source = result.cavities().get(beyond > 0 ? p.from() : p.to());
            FluidState end = beyond > 0 ? p.fromState() : p.toState();
            sum += beyond * carried(mixer, k, end, source, h);
        }
        return sum;
    }

    private static double carried(StreamMixer mixer, int k, FluidState end, CavityState source, double fallback) {
        double moles = 0;
        double own = 0;
        for (int j = 0; j < mixer.size(); j++) {
            double n = source.streamFractions().getOrDefault(mixer.name(j), 0.0) / mixer.molarMass(j);
            moles += n;
            own = j == k ? n : own;
        }
        try {
            return Diffusion.carrier(mixer.stream(k), Math.max(1, end.pressure() * own / moles), end.temperature())
                    .enthalpy();
        } catch (PropertyException e) {
            return fallback;
        }
    }

    /** Adds what goes through the walls, and what rounding makes of it; returns the largest of it, W. */
    private static double walls(
            Case model, Converged result, Map<String, Double> energy, Map<String, Double> rounding) {
        double largest = 0;
        for (Cavity c : model.cavities()) {
            Cavity.Wall wall = c.wall();
            if (wall == null || !(wall.conductance() > 0)) {
                continue;
            }
            double own = result.cavities().get(c.name()).state().temperature();
            if (wall.cavity() == null) {
                double heat = wall.conductance() * (wall.temperature() - own);
                energy.merge(c.name(), heat, Double::sum);
                rounding.merge(c.name(), wallRounding(wall.conductance(), wall.temperature(), own), Double::sum);
                largest = Math.max(largest, Math.abs(heat));
                continue;
            }
            Cavity other = model.cavity(wall.cavity());
            boolean twice = other.wall() != null
                    && c.name().equals(other.wall().cavity())
                    && model.cavities().indexOf(other) < model.cavities().indexOf(c);
            if (!twice) {
                double far = result.cavities().get(wall.cavity()).state().temperature();
                double heat = wall.conductance() * (far - own);
                double unknown = wallRounding(wall.conductance(), far, own);
                rounding.merge(c.name(), unknown, Double::sum);
                rounding.merge(wall.cavity(), unknown, Double::sum);
                energy.merge(c.name(), heat, Double::sum);
                energy.merge(wall.cavity(), -heat, Double::sum);
                largest = Math.max(largest, Math.abs(heat));
            }
        }
        return largest;
    }

    /** What the rounding of temperatures makes of the heat through a wall, W: 2e-11 of what it would carry at absolute zero. */
    static double wallRounding(double conductance, double far, double own) {
        return ROUNDING_OF_TEMPERATURE * conductance * Math.max(far, own);
    }
}
