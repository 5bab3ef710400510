package purgewright.sealflow.model;

import java.util.List;
import java.util.Map;
import purgewright.fluids.mixture.StreamDefinition;

/**
 * One operating point of a machine's barrier, in SI. A duty phase or a fault is another Case made from this one; the solver takes
 * nothing else.
 *
 * @param about title, note, author, date as typed
 * @param surroundings pressure and temperature around the machine
 * @param rotor speed and growth data
 * @param streams in the order of the case file; an implicit stream {@code air} follows when a vent has none
 * @param cavities in the order of the case file
 * @param passages in the order of the case file
 * @param duty ordered phases; empty means the case itself is the single phase "steady"
 * @param criteria overrides of the default criteria, by key
 * @param extras sections read and checked but used by other rooms, by name: {@link Supply} and {@link Campaign} (see {@link
 *     #supply}, {@link #campaign}), main flows and wear rates by name, and as plain maps and lists with SI numbers, words and booleans: faults, uncertain,
 *     correlations, spread, waivers, room, instruments, plots
 */
public record Case(
        Map<String, String> about,
        Surroundings surroundings,
        Rotor rotor,
        List<StreamDefinition> streams,
        List<Cavity> cavities,
        List<PassageSpec> passages,
        List<DutyPhase> duty,
        Map<String, Object> criteria,
        Map<String, Object> extras) {

    /** Key of {@link #supply} in the extras. */
    public static final String SUPPLY = "supply";

    /** Key of {@link #mainFlow} in the extras: kg/s by stream. */
    public static final String MAIN_FLOWS = "main flows";

    /** Key of {@link #wearRate} in the extras: m/s by passage. */
    public static final String WEAR_RATES = "wear rates";

    /** Key of {@link #campaign} in the extras. */
    public static final String CAMPAIGN = "campaign";

    /** Name of the implicit stream that fills a vent without a stream. */
    public static final String AIR = "air";

    /**
     * @param pressure absolute, Pa
     * @param temperature K
     */
    public record Surroundings(double pressure, double temperature) {}

    /** Where the purge gas comes from; null when not stated. */
    public Supply supply() {
        return extras.get(SUPPLY) instanceof Supply supply ? supply : null;
    }

    /** What the machine pumps or expands of a stream in running, kg/s; NaN when not stated. */
    public double mainFlow(String stream) {
        return byName(MAIN_FLOWS, stream);
    }

    /** How fast a passage's clearance grows by wear, m/s; NaN when not stated. */
    public double wearRate(String passage) {
        return byName(WEAR_RATES, passage);
    }

    private double byName(String section, String name) {
        return extras.get(section) instanceof Map<?, ?> map && map.get(name) instanceof Number n
                ? n.doubleValue()
                : Double.NaN;
    }

    /** What the gas must last for; null when not stated. */
    public Campaign campaign() {
        return extras.get(CAMPAIGN) instanceof Campaign campaign ? campaign : null;
    }

    /** The cavity of that name; null when there is none. */
    public Cavity cavity(String name) {
        return cavities.stream().filter(c -> c.name().equals(name)).findFirst().orElse(null);
    }

    /** The passage of that name; null when there is none. */
    public PassageSpec passage(String name) {
        return passages.stream().filter(p -> p.name().equals(name)).findFirst().orElse(null);
    }
}
