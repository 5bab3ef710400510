package purgewright.hazard.barrier;

import java.util.ArrayList;
import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import purgewright.fluids.mixture.StreamMixer;
import purgewright.hazard.flammability.Flammability;
import purgewright.hazard.flammability.Species;
import purgewright.sealflow.model.Case;

/**
 * The streams of a case with their composition and kind. Immutable.
 *
 * @param moleFractions species of each stream, by stream name, in the order of the case
 * @param kinds of each stream
 * @param unknown streams whose species are not all known, with the reason; they have no kind
 * @param burners burner temperature (K) of each burnt stream, by name
 */
public record StreamTable(
        Map<String, Map<String, Double>> moleFractions,
        Map<String, StreamKind> kinds,
        Map<String, String> unknown,
        Map<String, Double> burners) {

    /** Largest difference of mole fraction at which two streams count as one fluid [invented]. */
    private static final double SAME = 1e-3;

    /** Oxygen above which a gas counts as enriched, mole fraction (29 CFR 1910.146 [published]). */
    public static final double ENRICHED = 0.235;

    /** Reads the compositions from the mixer. */
    public static StreamTable of(StreamMixer mixer) {
        Map<String, Map<String, Double>> fractions = new LinkedHashMap<>();
        Map<String, Double> burners = new LinkedHashMap<>();
        for (int i = 0; i < mixer.size(); i++) {
            fractions.put(mixer.name(i), mixer.stream(i).moleFractions());
            double burner = mixer.burnerTemperature(i);
            if (!Double.isNaN(burner)) {
                burners.put(mixer.name(i), burner);
            }
        }
        return of(fractions, burners);
    }

    /** From compositions by stream name. */
    public static StreamTable of(Map<String, Map<String, Double>> fractions) {
        return of(fractions, Map.of());
    }

    private static StreamTable of(Map<String, Map<String, Double>> fractions, Map<String, Double> burners) {
        Map<String, StreamKind> kinds = new LinkedHashMap<>();
        Map<String, String> unknown = new LinkedHashMap<>();
        fractions.forEach((name, x) -> {
            try {
                kinds.put(name, StreamKind.of(x));
            } catch (IllegalArgumentException e) {
                unknown.put(name, e.getMessage());
            }
        });
        return new StreamTable(Collections.unmodifiableMap(new LinkedHashMap<>(fractions)), kinds, unknown, burners);
    }

    /** True when the stream is known to be inert. */
    public boolean inert(String stream) {
        return kinds.get(stream) == StreamKind.INERT;
    }

    /** True for air, and for a stated gas that gives oxygen but no more of it than air does: at most {@link #ENRICHED}. */
    public boolean air(String stream) {
        return Case.AIR.equals(stream)
                || (kinds.get(stream) == StreamKind.OXIDIZER
                        && Flammability.freeOxygen(moleFractions.get(stream)) <= ENRICHED);
    }

    /** True when one of two streams gives oxygen and the other takes it. */
    public boolean reactive(String a, String b) {
        StreamKind x = kinds.get(a);
        StreamKind y = kinds.get(b);
        return (x == StreamKind.OXIDIZER && y == StreamKind.FUEL) || (x == StreamKind.FUEL && y == StreamKind.OXIDIZER);
    }

    /**
     * True when two streams are the same fluid within a part in a thousand. Names of one species count as one: hydrogen and parahydrogen
     * differ in their properties, not in what they do to each other.
     */
    public boolean same(String a, String b) {
        if (a.equals(b)) {
            return true;
        }
        Map<String, Double> x = species(moleFractions.getOrDefault(a, Map.of()));
        Map<String, Double> y = species(moleFractions.getOrDefault(b, Map.of()));
        List<String> species = new ArrayList<>(x.keySet());
        species.addAll(y.keySet());
        return species.stream().allMatch(s -> Math.abs(x.getOrDefault(s, 0.0) - y.getOrDefault(s, 0.0)) <= SAME);
    }

    /** A composition by the species' own names; what is not known keeps its name. */
    private static Map<String, Double> species(Map<String, Double> moleFractions) {
        Map<String, Double> out = new LinkedHashMap<>();
        moleFractions.forEach((name, x) -> {
            Species known = Species.find(name);
            out.merge(known == null ? name : known.name(), x, Double::sum);
        });
        return out;
    }

    /** Mass share of all inert streams together. */
    public double inertShare(Map<String, Double> streamFractions) {
        double share = 0;
        for (Map.Entry<String, Double> e : streamFractions.entrySet()) {
            if (inert(e.getKey())) {
                share += e.getValue();
            }
        }
        return share;
    }
}
