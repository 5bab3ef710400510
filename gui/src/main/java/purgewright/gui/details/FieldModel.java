package purgewright.gui.details;

import java.util.Optional;
import javafx.beans.property.ReadOnlyStringProperty;
import javafx.beans.property.ReadOnlyStringWrapper;
import javafx.beans.property.SimpleStringProperty;
import javafx.beans.property.StringProperty;
import purgewright.fluids.unit.Dimension;
import purgewright.fluids.unit.UnitException;
import purgewright.fluids.unit.Units;
import purgewright.gui.text.Texts;
import purgewright.sealflow.casefile.CaseDocument;
import purgewright.sealflow.casefile.CaseException;
import purgewright.sealflow.casefile.CaseForm;
import purgewright.sealflow.casefile.CaseProblem;

/**
 * A field of the details panel: the text as typed, what it means in the shown units, and what is wrong with it. A text that the
 * case refuses stays in the field with its reason and never reaches the document.
 */
public final class FieldModel {
    private final DetailsModel details;
    private final FieldSpec spec;
    private final String pointer;
    private final StringProperty text = new SimpleStringProperty(this, "text", "");
    private final ReadOnlyStringWrapper problem = new ReadOnlyStringWrapper(this, "problem", "");
    private final ReadOnlyStringWrapper conversion = new ReadOnlyStringWrapper(this, "conversion", "");
    private boolean loading;

    FieldModel(DetailsModel details, String place, FieldSpec spec) {
        this.details = details;
        this.spec = spec;
        this.pointer = spec.path().isEmpty() ? place : place + "/" + spec.path();
        load();
        text.addListener((o, before, now) -> {
            if (!loading) {
                convert();
            }
        });
    }

    /** Takes the document's text into the field, unless the field holds a refused text. */
    void refresh() {
        if (problem.get().isEmpty()) {
            load();
        } else {
            convert();
        }
    }

    private void load() {
        loading = true;
        String now = details.text(spec, pointer);
        if (!now.equals(text.get())) {
            text.set(now);
        }
        loading = false;
        convert();
    }

    private void convert() {
        conversion.set(converted().orElse(""));
    }

    private Optional<String> converted() {
        if (spec.dimension() == null
                || spec.dimension() == Dimension.NUMBER
                || text.get().isBlank()) {
            return Optional.empty();
        }
        try {
            double si = Units.parse(text.get(), spec.dimension(), details.surroundingsPressure());
            String shown = details.readout().quantity(si, spec.dimension().symbol());
            return Optional.of(shown).filter(s -> !same(s, text.get().trim()));
        } catch (UnitException e) {
            return Optional.empty();
        }
    }

    /** True when both say the same number in the same unit: "4 um" needs no "4.00 µm" beside it. */
    static boolean same(String shown, String typed) {
        int a = shown.indexOf(' ');
        int b = typed.indexOf(' ');
        if (a < 0
                || b < 0
                || !shown.substring(a)
                        .trim()
                        .replace('µ', 'u')
                        .equals(typed.substring(b).trim())) {
            return false;
        }
        try {
            double x = Double.parseDouble(shown.substring(0, a).replace('−', '-'));
            double y = Double.parseDouble(typed.substring(0, b));
            return Math.abs(x - y) <= 0.005 * Math.abs(y);
        } catch (NumberFormatException e) {
            return false;
        }
    }

    /**
     * Offers the text to the case: taken over when the case can be read with it, else marked.
     *
     * @param merging true while a gesture goes on, so that its steps become one
     */
    public void commit(boolean merging) {
        commit(merging, true);
    }

    /** Takes the text over when the case can be read with it, and says nothing when not: more keys may follow. */
    public void attempt() {
        commit(true, false);
    }

    private void commit(boolean merging, boolean mark) {
        String typed = text.get().trim();
        CaseDocument before = details.document();
        String standing = details.text(spec, pointer);
        if (typed.equals(standing)) {
            problem.set("");
            details.refused();
            return;
        }
        CaseDocument after;
        try {
            after = typed.isEmpty() ? details.cleared(before, pointer) : details.written(before, spec, pointer, typed);
        } catch (IllegalArgumentException | CaseException e) {
            if (!mark) {
                return;
            }
            problem.set(e.getMessage() == null ? Texts.of("details.refused") : e.getMessage());
            details.refused();
            return;
        }
        Optional<CaseProblem> wrong = newProblem(before, after);
        if (wrong.isPresent()) {
            if (!mark) {
                return;
            }
            CaseProblem p = wrong.get();
            problem.set(p.suggestion().isEmpty() ? p.message() : p.message() + " – " + p.suggestion());
            details.refused();
            return;
        }
        problem.set("");
        details.refused();
        if (spec.kind() == CaseForm.Kind.ENTRIES) {
            text.set("");
        }
        details.apply(spec, pointer, after, merging, typed);
    }

    private Optional<CaseProblem> newProblem(CaseDocument before, CaseDocument after) {
        try {
            after.toCase();
            return Optional.empty();
        } catch (CaseException e) {
            Optional<CaseProblem> here =
                    e.problems().stream().filter(p -> p.place().equals(pointer)).findFirst();
            if (here.isPresent()) {
                return here;
            }
            return broken(before) ? Optional.empty() : e.problems().stream().findFirst();
        }
    }

    /** True when the document was already unreadable: then an edit elsewhere must not be held up by it. */
    private static boolean broken(CaseDocument document) {
        try {
            document.toCase();
            return false;
        } catch (CaseException e) {
            return true;
        }
    }

    /** Gives a refused text up and shows the document's again. */
    public void revert() {
        problem.set("");
        load();
        details.refused();
    }

    /** Gives up a text that the case has not taken over; where there is none, takes back the last step of the case. */
    public void undo() {
        if (text.get().trim().equals(details.text(spec, pointer))) {
            details.undo();
        } else {
            revert();
        }
    }

    /** Takes the last undone step of the case again; a text that the case has not taken over is given up. */
    public void redo() {
        revert();
        details.redo();
    }

    /** The leading number of the text times a factor, three significant digits, unit as typed; unchanged where there is none. */
    public static String scaled(String typed, double factor) {
        var matcher = java.util.regex.Pattern.compile("^\\s*([-+]?[0-9]*\\.?[0-9]+(?:[eE][-+]?[0-9]+)?)(.*)$")
                .matcher(typed);
        if (!matcher.matches()) {
            return typed;
        }
        double value = Double.parseDouble(matcher.group(1)) * factor;
        String number = new java.math.BigDecimal(value)
                .round(new java.math.MathContext(3))
                .stripTrailingZeros()
                .toPlainString();
        return number + matcher.group(2);
    }

    /** What kind of field this is. */
    public FieldSpec spec() {
        return spec;
    }

    /** Place in the case. */
    public String pointer() {
        return pointer;
    }

    /** Text as typed. */
    public StringProperty textProperty() {
        return text;
    }

    /** What is wrong; empty when nothing is. */
    public ReadOnlyStringProperty problemProperty() {
        return problem.getReadOnlyProperty();
    }

    /** The value in the shown units; empty when it reads the same. */
    public ReadOnlyStringProperty conversionProperty() {
        return conversion.getReadOnlyProperty();
    }
}
