package purgewright.gui.details;

import java.util.List;
import purgewright.fluids.unit.Dimension;

/**
 * One editable value of a place.
 *
 * @param path below the place, for instance {@code clearance} or {@code disc/gap}
 * @param label as shown: the word of the case file
 * @param dimension what it measures; null for a word
 * @param choices allowed words; empty for free text
 * @param fallback default as typed, shown as a prompt; empty when there is none
 * @param hint one sentence for the tooltip
 * @param slider true where trying values by dragging makes sense
 * @param required true when the place cannot do without
 */
public record FieldSpec(
        String path,
        String label,
        Dimension dimension,
        List<String> choices,
        String fallback,
        String hint,
        boolean slider,
        boolean required) {

    static FieldSpec word(String path, String hint) {
        return new FieldSpec(path, path.substring(path.indexOf('/') + 1), null, List.of(), "", hint, false, false);
    }

    static FieldSpec choice(String path, List<String> choices, String hint) {
        return new FieldSpec(path, path, null, choices, "", hint, false, false);
    }

    static FieldSpec quantity(String path, Dimension dimension, String hint) {
        return new FieldSpec(
                path,
                path.startsWith("rotor/") ? path.substring(6) : path.replace('/', ' '),
                dimension,
                List.of(),
                "",
                hint,
                false,
                false);
    }

    FieldSpec sliding() {
        return new FieldSpec(path, label, dimension, choices, fallback, hint, true, required);
    }
}
