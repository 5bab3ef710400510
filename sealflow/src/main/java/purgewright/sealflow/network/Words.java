package purgewright.sealflow.network;

import java.util.Locale;
import java.util.Map;
import purgewright.fluids.PropertyException;

/** Plain words for what the property engine refuses. */
final class Words {
    private Words() {}

    static String of(PropertyException e) {
        Map<String, Object> v = e.values();
        String fluid = String.valueOf(v.getOrDefault("fluid", v.getOrDefault("name", "the fluid")));
        return switch (e.key()) {
            case TEMPERATURE_OUT_OF_RANGE ->
                fluid + at(v, "temperature", "K") + " lies outside the range of its equation, "
                        + number(v.get("minimum"), "K") + " to " + number(v.get("maximum"), "K");
            case PRESSURE_OUT_OF_RANGE ->
                fluid + at(v, "pressure", "Pa") + " lies outside the range of its equation, "
                        + number(v.get("minimum"), "Pa") + " to " + number(v.get("maximum"), "Pa");
            case SOLID ->
                fluid + " would be solid at " + number(v.get("temperature"), "K") + " and "
                        + number(v.get("pressure"), "Pa");
            default -> fluid + ": " + e.key().name().toLowerCase(Locale.ROOT).replace('_', ' ') + " " + v;
        };
    }

    /** Of a state asked by heat or entropy the value is not known. */
    private static String at(Map<String, Object> v, String what, String unit) {
        return v.containsKey(what) ? " at " + number(v.get(what), unit) : " by its " + what;
    }

    private static String number(Object value, String unit) {
        return value instanceof Number n ? String.format(Locale.ROOT, "%.6g %s", n.doubleValue(), unit) : "?";
    }
}
