package purgewright.gui.details;

import java.util.ArrayList;
import java.util.List;
import purgewright.fluids.unit.Dimension;
import purgewright.sealflow.casefile.CaseForm;

/**
 * One editable value of a place.
 *
 * @param path below the place, for instance {@code clearance} or {@code disc/gap}
 * @param label as shown: the word of the case file
 * @param kind how it is typed
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
        CaseForm.Kind kind,
        Dimension dimension,
        List<String> choices,
        String fallback,
        String hint,
        boolean slider,
        boolean required) {

    /** From the case's layout. */
    static FieldSpec of(String path, CaseForm.Entry entry, boolean slider) {
        List<String> choices = new ArrayList<>();
        if (entry.kind() == CaseForm.Kind.WORD) {
            if (!entry.required()) {
                choices.add("");
            }
            choices.addAll(entry.choices());
        }
        return new FieldSpec(
                path,
                entry.label(),
                entry.kind(),
                entry.dimension(),
                List.copyOf(choices),
                entry.fallback(),
                entry.description(),
                slider,
                entry.required());
    }

    /** The same under another label. */
    FieldSpec labelled(String other) {
        return new FieldSpec(path, other, kind, dimension, choices, fallback, hint, slider, required);
    }
}
