package purgewright.fluids.unit;

import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.Map;

/** A text that is not the quantity it should be: a key, typed values, one plain sentence and what would be right. */
public final class UnitException extends RuntimeException {
    private static final long serialVersionUID = 1L;

    /** What is wrong. All carry the value {@code text}. */
    public enum Key {
        /** No number at the start. */
        NOT_A_NUMBER,
        /** A comma in the number. */
        DECIMAL_COMMA,
        /** A number alone where a dimension is expected. Values: expected. */
        MISSING_UNIT,
        /** Not a unit. Values: unit. */
        UNKNOWN_UNIT,
        /** A unit of something else. Values: unit, expected. */
        WRONG_DIMENSION,
        /** "gauge" or "absolute" where no absolute pressure is expected. Values: expected. */
        GAUGE_NOT_ALLOWED,
        /** A gauge pressure, and nobody said what the surroundings are. */
        GAUGE_NEEDS_SURROUNDINGS,
        /** An absolute pressure below zero. Values: pressure (Pa). */
        BELOW_ABSOLUTE_ZERO,
        /** A temperature below zero kelvin. Values: temperature (K). */
        BELOW_ZERO_KELVIN,
        /** A volume flow of gas without the state it is measured at. Values: unit. */
        NEEDS_REFERENCE_STATE,
        /** A standard volume flow where the gas is not known. */
        NEEDS_GAS,
        /** Too large for a number of this machine, or absurdly long. */
        OUT_OF_RANGE
    }

    private final Key key;
    private final transient Map<String, Object> values;
    private final String suggestion;

    /**
     * @param key what is wrong
     * @param message one sentence in plain words
     * @param suggestion what would be right; may be empty
     * @param values typed values named in the key's description
     */
    public UnitException(Key key, String message, String suggestion, Map<String, Object> values) {
        super(message);
        this.key = key;
        this.suggestion = suggestion;
        this.values = Collections.unmodifiableMap(new LinkedHashMap<>(values));
    }

    /** What is wrong. */
    public Key key() {
        return key;
    }

    /** Typed values. */
    public Map<String, Object> values() {
        return values == null ? Map.of() : values;
    }

    /** What would be right, for instance {@code did you mean "0.08 mm"?}; may be empty. */
    public String suggestion() {
        return suggestion;
    }
}
