package purgewright.hazard.barrier;

import java.util.Map;
import purgewright.hazard.flammability.Species;

/** What a stream is, by the elements of its species, never by the role of the cavity it stands in. */
public enum StreamKind {
    /** Gives oxygen: its species' oxygen balance is on the side of free oxidizer. */
    OXIDIZER,
    /** Takes oxygen. */
    FUEL,
    /** Neither, within the trace. */
    INERT;

    /** Net oxygen demand per mole below which a stream counts as inert [invented: one part in a thousand]. */
    public static final double TRACE = 1e-3;

    /**
     * Kind of a composition: {@code demand = sum x_i nu_i} with nu_i the moles of O2 that a mole of species i takes.
     *
     * @param moleFractions by species
     * @throws IllegalArgumentException for a species whose elements are not known, with its name; and for a mixture whose fuel and
     *     oxygen balance each other, which is neither of the two and not inert either
     */
    public static StreamKind of(Map<String, Double> moleFractions) {
        double demand = oxygenDemand(moleFractions);
        if (demand > TRACE) {
            return FUEL;
        }
        if (demand < -TRACE) {
            return OXIDIZER;
        }
        double taken = 0;
        for (Map.Entry<String, Double> e : moleFractions.entrySet()) {
            taken += e.getValue() * Math.max(0, Species.find(e.getKey()).oxygenDemand());
        }
        if (taken > TRACE) {
            throw new IllegalArgumentException("fuel and oxygen in it balance each other: it is not inert");
        }
        return INERT;
    }

    /** Net moles of O2 that one mole of the mixture takes to burn; negative when oxygen is left over. */
    public static double oxygenDemand(Map<String, Double> moleFractions) {
        double demand = 0;
        for (Map.Entry<String, Double> e : moleFractions.entrySet()) {
            Species species = Species.find(e.getKey());
            if (species == null) {
                throw new IllegalArgumentException("elements of species \"" + e.getKey() + "\" are not known");
            }
            demand += e.getValue() * species.oxygenDemand();
        }
        return demand;
    }
}
