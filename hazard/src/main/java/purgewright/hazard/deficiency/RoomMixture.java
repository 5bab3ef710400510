package purgewright.hazard.deficiency;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.Collectors;
import purgewright.hazard.finding.Draft;
import purgewright.hazard.finding.Finding;
import purgewright.hazard.finding.Scene;
import purgewright.hazard.flammability.Flammability;
import purgewright.hazard.flammability.LimitTable;
import purgewright.sealflow.model.Case;

/**
 * What the gas that runs into the case's {@code room} makes of its air: enriched with oxygen, or flammable. Well mixed, the fan extracts,
 * all at room temperature; a released species takes the share
 *
 * <pre>{@code
 * fan, Q > R : x' = (R y - Q x) / V        else : x' = R (y - x) / V
 * }</pre>
 *
 * <p>with y its share of the release R (m3/s); what is not released gas is fresh air. Not for gas that gathers under the roof or on the
 * floor, nor for a jet before it has mixed: both are richer than this mean. What freezes or rains out counts as gas.
 *
 * @param released share of each released species in the room, by name
 */
public record RoomMixture(Map<String, Double> released) {
    /** Key of the oxygen above that of air. */
    public static final String ENRICHED = "room-enriched";

    /** Key of the fuel in the room. */
    public static final String FLAMMABLE = "room-flammable";

    /** Fresh air. */
    public static final RoomMixture FRESH_AIR = new RoomMixture(Map.of());

    /** Share of the lower limit from which an atmosphere counts as hazardous: 29 CFR 1910.146 [published, transcription]. */
    public static final double FLAMMABLE_SHARE = 0.10;

    private static final double GAS_CONSTANT = 8.314462618;
    private static final double ABSENT = 1e-7;
    private static final String MIXED =
            "mean of a well-mixed room: nearer to the vent, under the roof (hydrogen, methane) or on the floor"
                    + " (cold gas) there is more [common practice]";

    public RoomMixture {
        released = Map.copyOf(released);
    }

    /** Volume fraction of oxygen, the air's and what was released. */
    public double oxygen() {
        double air =
                1 - released.values().stream().mapToDouble(Double::doubleValue).sum();
        return Release.FRESH * air + Flammability.freeOxygen(released);
    }

    /**
     * The mixture after a phase; the same where the case has no room.
     *
     * @param vented what runs into each vent, mol/s, by vent and species
     * @param duration s; NaN or infinite: for ever
     */
    public RoomMixture after(Case model, Map<String, Map<String, Double>> vented, double duration) {
        if (!(model.extras().get("room") instanceof Map<?, ?> room) || !(number(room.get("volume"), 0) > 0)) {
            return this;
        }
        double temperature =
                number(room.get("temperature"), model.surroundings().temperature());
        double molarVolume = GAS_CONSTANT * temperature / model.surroundings().pressure();
        Map<String, Double> flows = new LinkedHashMap<>();
        vented.forEach((vent, species) -> {
            if (!(room.get("vents") instanceof List<?> vents) || vents.isEmpty() || vents.contains(vent)) {
                species.forEach((name, n) -> flows.merge(name, n * molarVolume, Double::sum));
            }
        });
        double release =
                flows.values().stream().mapToDouble(Double::doubleValue).sum();
        double out = Math.max(release, number(room.get("ventilation"), 0));
        if (!(out > 0)) {
            return this;
        }
        double kept = Double.isNaN(duration) ? 0 : Math.exp(-out * duration / number(room.get("volume"), 0));
        Map<String, Double> shares = new LinkedHashMap<>();
        released.forEach((name, x) -> shares.merge(name, kept * x, Double::sum));
        flows.forEach((name, q) -> shares.merge(name, (1 - kept) * q / out, Double::sum));
        return new RoomMixture(shares);
    }

    /** Findings of a phase from this mixture to that at its end; the worse of the two counts. Empty where nothing of the kind is there. */
    public List<Finding> judge(RoomMixture end, boolean forEver, Scene scene) {
        List<Finding> out = new ArrayList<>();
        String when = forEver ? " in the long run" : ", the worse of the phase's two ends";
        if (Math.max(Flammability.freeOxygen(released), Flammability.freeOxygen(end.released)) > ABSENT) {
            out.add(Draft.of(ENRICHED, "/room", scene)
                    .what("Rise of the oxygen in the room above fresh air" + when)
                    .unit("1")
                    .how("well-mixed room, oxygen of the air and of what its vents bring, at room temperature")
                    .source("29 CFR 1910.146: enriched above 23.5 % [published, transcription]")
                    .mend("lead the oxygen vents outdoors, or more fresh air")
                    .caution(MIXED)
                    .atMost(
                            (forEver ? end.oxygen() : Math.max(oxygen(), end.oxygen())) - Release.FRESH,
                            RoomOxygen.ENRICHED - Release.FRESH));
        }
        RoomMixture worst = !forEver && fuel() > end.fuel() ? this : end;
        Map<String, Double> fuels = Flammability.fuels(worst.released);
        fuels.values().removeIf(x -> x <= ABSENT);
        if (!fuels.isEmpty()) {
            out.add(worst.flammable(fuels, when, scene));
        }
        return out;
    }

    /** A fuel without a limit in the table leaves the sum a lower bound: enough to fall short, never to hold. */
    private Finding flammable(Map<String, Double> fuels, String when, Scene scene) {
        double share = 0;
        List<String> sources = new ArrayList<>();
        List<String> unknown = new ArrayList<>();
        for (Map.Entry<String, Double> e : fuels.entrySet()) {
            LimitTable.Value limit = LimitTable.lowerLimit(e.getKey());
            if (limit.known()) {
                share += e.getValue() / limit.si();
                sources.add(e.getKey() + ": " + limit.note());
            } else {
                unknown.add(e.getKey());
            }
        }
        double margin = Draft.marginBelow(share, FLAMMABLE_SHARE);
        return Draft.of(FLAMMABLE, "/room", scene)
                .what("Fuel in the room as a share of its lower limit" + when)
                .unit("1")
                .how("well-mixed room, Le Chatelier, all fuel counted as gas"
                        + (unknown.isEmpty() ? "" : "; no lower limit is tabled of " + String.join(", ", unknown)))
                .source(
                        "29 CFR 1910.146: flammable gas above 10 % of its lower limit is hazardous [published, transcription]"
                                + sources.stream().map(x -> "; " + x).collect(Collectors.joining()))
                .mend("lead the fuel vents outdoors, or more fresh air")
                .caution(MIXED)
                .judged(share, FLAMMABLE_SHARE, unknown.isEmpty() || margin < 0 ? margin : Double.NaN);
    }

    /** Fuel's share of its lower limit, as far as limits are tabled; a fuel without one counts whole, to be found. */
    private double fuel() {
        return Flammability.fuels(released).entrySet().stream()
                .mapToDouble(e -> e.getValue()
                        / (LimitTable.lowerLimit(e.getKey()).known()
                                ? LimitTable.lowerLimit(e.getKey()).si()
                                : 1))
                .sum();
    }

    private static double number(Object value, double otherwise) {
        return value instanceof Number n ? n.doubleValue() : otherwise;
    }
}
