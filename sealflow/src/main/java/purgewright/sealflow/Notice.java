package purgewright.sealflow;

import java.util.Collections;
import java.util.Map;
import java.util.TreeMap;

/**
 * Something a calculation wants known: a rub, a correlation used outside its range, a choke, an extrapolated property. Hazard
 * turns notices into findings; sealflow never judges.
 *
 * @param key what, for instance {@code CHOKED}
 * @param place JSON Pointer with names, for instance {@code /passages/ring A}
 * @param values typed values in SI, or words
 */
public record Notice(Key key, String place, Map<String, Object> values) {
    /** Keeps the values sorted by name, so that a result reads the same in every run. */
    public Notice {
        values = Collections.unmodifiableMap(new TreeMap<>(values));
    }

    /** Kinds of notice; the values each carries are named here. */
    public enum Key {
        /** Least clearance below the contact limit. Values: least, limit (m). */
        RUB,
        /** A correlation outside its range. Values: model, quantity, value, minimum, maximum. */
        OUT_OF_RANGE,
        /** The passage is choked. Values: throatPressure (Pa). */
        CHOKED,
        /** A property outside the published range of its equation. Values: fluid, temperature (K), pressure (Pa). */
        EXTRAPOLATED,
        /** A component would freeze. Values: species, temperature, tripleTemperature (K). */
        FREEZES,
        /** A component is condensed in a gas cavity. Values: species, massFraction. */
        CONDENSED,
        /** The model used does not cover this regime. Values: model, reason. */
        NOT_ESTABLISHED,
        /** A model whose constant is invented or estimated was used. Values: model, constant, value. */
        ESTIMATE
    }
}
