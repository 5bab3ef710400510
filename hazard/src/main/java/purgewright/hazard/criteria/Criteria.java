package purgewright.hazard.criteria;

import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;

/**
 * The limits that hold for one case: the defaults of {@link Limit} with the case's own values over them. Immutable.
 *
 * <p>{@code monitored} (true or false) says that oxygen is measured continuously.
 */
public final class Criteria {
    /** Key of the flag that oxygen is monitored continuously. */
    public static final String MONITORED = "monitored";

    /** The defaults. */
    public static final Criteria DEFAULT = new Criteria(Map.of(), Map.of(), null, false, List.of());

    /** Key of the name of a {@link Preset}. */
    public static final String PRESET = "preset";

    private final EnumMap<Limit, Double> own;
    private final Map<Limit, String> origins;
    private final Preset preset;
    private final boolean monitored;
    private final List<String> unknown;

    private Criteria(
            Map<Limit, Double> own,
            Map<Limit, String> origins,
            Preset presetOrNull,
            boolean monitored,
            List<String> unknown) {
        this.own = new EnumMap<>(Limit.class);
        this.own.putAll(own);
        this.origins = Map.copyOf(origins);
        this.preset = presetOrNull;
        this.monitored = monitored;
        this.unknown = List.copyOf(unknown);
    }

    /**
     * Reads a case's criteria.
     *
     * @param values by key: an SI number; an object of {@code value} (SI) and {@code origin}; a boolean for flags; a word for the preset.
     *     Keys that are no limit, and values that are none of these, are kept in {@link #unknown()}
     */
    public static Criteria of(Map<String, Object> values) {
        EnumMap<Limit, Double> own = new EnumMap<>(Limit.class);
        EnumMap<Limit, String> origins = new EnumMap<>(Limit.class);
        Preset preset = null;
        boolean monitored = false;
        List<String> unknown = new ArrayList<>();
        for (Map.Entry<String, Object> e : values.entrySet()) {
            Limit limit = find(e.getKey());
            if (limit != null && e.getValue() instanceof Number n) {
                own.put(limit, n.doubleValue());
            } else if (limit != null && e.getValue() instanceof Map<?, ?> m && m.get("value") instanceof Number n) {
                own.put(limit, n.doubleValue());
                if (m.get("origin") != null) {
                    origins.put(limit, String.valueOf(m.get("origin")));
                }
            } else if (PRESET.equals(e.getKey()) && Preset.find(String.valueOf(e.getValue())) != null) {
                preset = Preset.find(String.valueOf(e.getValue()));
            } else if (MONITORED.equals(e.getKey())) {
                monitored = Boolean.TRUE.equals(e.getValue()) || "true".equals(String.valueOf(e.getValue()));
            } else {
                unknown.add(e.getKey());
            }
        }
        return new Criteria(own, origins, preset, monitored, unknown);
    }

    /** The limit of that key; null when there is none. */
    public static Limit find(String key) {
        for (Limit limit : Limit.values()) {
            if (limit.key().equals(key)) {
                return limit;
            }
        }
        return null;
    }

    /** The value in force, SI: the case's own, else the preset's, else the default. */
    public double get(Limit limit) {
        Double stated = own.get(limit);
        return stated == null ? usual(limit) : stated;
    }

    /** Where the value in force comes from. */
    public String origin(Limit limit) {
        if (own.containsKey(limit)) {
            String why = origins.get(limit);
            return "stated in the case, /criteria/" + limit.key() + (why == null ? "" : ": " + why);
        }
        return preset != null && preset.values().containsKey(limit)
                ? "preset \"" + preset.name() + "\": " + preset.origins().get(limit)
                : limit.origin();
    }

    /** The preset in force; null for none. */
    public Preset preset() {
        return preset;
    }

    /** True when the case states this limit. */
    public boolean stated(Limit limit) {
        return own.containsKey(limit);
    }

    /** What the limit would be if the case did not state its own, SI: the preset's value, else the default. */
    public double usual(Limit limit) {
        return preset != null && preset.values().containsKey(limit)
                ? preset.values().get(limit)
                : limit.fallback();
    }

    /** Limits that the case makes easier to meet than they are by the preset or the default, in their order. */
    public List<Limit> loosened() {
        return own.keySet().stream().filter(k -> k.looser(own.get(k), usual(k))).toList();
    }

    /** The case's own words for where a limit of its own comes from; empty when it has none. */
    public String statedOrigin(Limit limit) {
        return origins.getOrDefault(limit, "");
    }

    /** True when oxygen is measured continuously. */
    public boolean monitored() {
        return monitored;
    }

    /** Keys of the case's criteria that could not be used, in order. */
    public List<String> unknown() {
        return unknown;
    }
}
