package purgewright.fluids;

import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.Map;

/**
 * A property that cannot be given: a key and typed values, so that the text can be reworded, translated or printed as JSON.
 *
 * <p>A search meets such a refusal often and goes on by another way; hence it is worded when asked, and keeps no stack trace: the two
 * took a tenth of a network's solve.
 */
public final class PropertyException extends RuntimeException {
    private static final long serialVersionUID = 1L;

    /** What went wrong. */
    public enum Key {
        /** Temperature outside the equation's range. Values: fluid, temperature, minimum, maximum. */
        TEMPERATURE_OUT_OF_RANGE,
        /** Pressure outside the equation's range. Values: fluid, pressure, minimum, maximum. */
        PRESSURE_OUT_OF_RANGE,
        /** Solid region. Values: fluid, temperature, pressure. */
        SOLID,
        /** No such state, for instance an enthalpy below the coldest liquid. Values: fluid, input names and values. */
        NO_SUCH_STATE,
        /** No published model and no estimate. Values: fluid, property. */
        NO_MODEL,
        /** Name not in the library. Values: name, suggestion (may be empty). */
        UNKNOWN_FLUID,
        /** A definition that makes no sense. Values: what, and the offending figures. */
        BAD_DEFINITION,
        /** An iteration did not settle. Values: fluid, input names and values. */
        NO_CONVERGENCE,
        /** The external property library is not there, or not usable. Values: library, what, reason, help. */
        LIBRARY_MISSING
    }

    private final Key key;
    private final transient Map<String, Object> values;

    /**
     * @param key what went wrong
     * @param values typed values named in the key's description: numbers in SI, or strings
     */
    public PropertyException(Key key, Map<String, Object> values) {
        this.key = key;
        this.values = Collections.unmodifiableMap(new LinkedHashMap<>(values));
    }

    /** Keeps none: see above. The cause may still be set. */
    @Override
    public Throwable fillInStackTrace() {
        return this;
    }

    @Override
    public String getMessage() {
        return key + " " + values();
    }

    /** What went wrong. */
    public Key key() {
        return key;
    }

    /** Typed values in SI. */
    public Map<String, Object> values() {
        return values == null ? Map.of() : values;
    }
}
