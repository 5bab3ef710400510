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
    public static final Criteria DEFAULT = new Criteria(Map.of(), false, List.of());

    private final EnumMap<Limit, Double> own;
    private final boolean monitored;
    private final List<String> unknown;

    private Criteria(Map<Limit, Double> own, boolean monitored, List<String> unknown) {
        this.own = new EnumMap<>(Limit.class);
        this.own.putAll(own);
        this.monitored = monitored;
        this.unknown = List.copyOf(unknown);
    }

    /**
     * Reads a case's criteria.
     *
     * @param values SI numbers by key, booleans for flags; keys that are no limit are kept in {@link #unknown()}
     */
    public static Criteria of(Map<String, Object> values) {
        EnumMap<Limit, Double> own = new EnumMap<>(Limit.class);
        boolean monitored = false;
        List<String> unknown = new ArrayList<>();
        for (Map.Entry<String, Object> e : values.entrySet()) {
            Limit limit = find(e.getKey());
            if (limit != null && e.getValue() instanceof Number n) {
                own.put(limit, n.doubleValue());
            } else if (MONITORED.equals(e.getKey())) {
                monitored = Boolean.TRUE.equals(e.getValue()) || "true".equals(String.valueOf(e.getValue()));
            } else {
                unknown.add(e.getKey());
            }
        }
        return new Criteria(own, monitored, unknown);
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

    /** The value in force, SI. */
    public double get(Limit limit) {
        return own.getOrDefault(limit, limit.fallback());
    }

    /** Where the value in force comes from. */
    public String origin(Limit limit) {
        return own.containsKey(limit) ? "stated in the case, /criteria/" + limit.key() : limit.origin();
    }

    /** True when the case states this limit. */
    public boolean stated(Limit limit) {
        return own.containsKey(limit);
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
