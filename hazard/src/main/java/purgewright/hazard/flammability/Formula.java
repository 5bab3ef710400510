package purgewright.hazard.flammability;

import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Set;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/** Reads a plain chemical formula such as {@code C12H26} into atoms by symbol. */
final class Formula {
    private static final Set<String> ELEMENTS =
            Set.of("H", "C", "N", "O", "S", "F", "He", "Ne", "Ar", "Kr", "Xe", "Cl", "D");
    private static final Pattern ATOM = Pattern.compile("([A-Z][a-z]?)([0-9]*\\.?[0-9]*)");

    private Formula() {}

    /** Atoms by symbol; null when the text is no formula of the elements known here. */
    static Map<String, Double> parse(String text) {
        Map<String, Double> atoms = new LinkedHashMap<>();
        Matcher m = ATOM.matcher(text);
        int end = 0;
        while (m.find() && m.start() == end) {
            if (!ELEMENTS.contains(m.group(1))) {
                return null;
            }
            double n = m.group(2).isEmpty() ? 1 : Double.parseDouble(m.group(2));
            atoms.merge("D".equals(m.group(1)) ? "H" : m.group(1), n, Double::sum);
            end = m.end();
        }
        return end == text.length() && end > 0 ? atoms : null;
    }
}
