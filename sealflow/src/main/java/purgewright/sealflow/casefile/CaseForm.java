package purgewright.sealflow.casefile;

import java.util.ArrayList;
import java.util.List;
import purgewright.fluids.unit.Dimension;
import purgewright.sealflow.casefile.Shape.Field;
import purgewright.sealflow.passage.PassageType;

/**
 * What may be typed at a place of a case, for a form: made from the layout that the reader works by, so that a form offers whatever
 * the reader takes. Objects inside an object (a wall, a bottle bank) are laid flat; lists of objects with names are places of their own.
 */
public final class CaseForm {
    private CaseForm() {}

    /** How a field is typed. */
    public enum Kind {
        /** A quantity with its unit, or a plain number. */
        QUANTITY,
        /** One word out of a list. */
        WORD,
        /** Free text. */
        TEXT,
        /** A quantity of whatever dimension fits, a number or a word. */
        VALUE,
        /** Several values, one after the other. */
        LIST,
        /** An object whose member names are free: a new member is a name and a value. */
        ENTRIES
    }

    /**
     * One field.
     *
     * @param path below the place, escaped as in a pointer, for instance {@code wall/conductance}
     * @param label as in the case file
     * @param kind how it is typed
     * @param dimension of a quantity; null for others
     * @param choices words or names that can stand there; empty for free text
     * @param required true when the object cannot do without
     * @param fallback default as typed; empty when there is none
     * @param description one sentence
     */
    public record Entry(
            String path,
            String label,
            Kind kind,
            Dimension dimension,
            List<String> choices,
            boolean required,
            String fallback,
            String description) {}

    /** Fields of the object at a place, in the order of the layout; empty where no object can stand. */
    public static List<Entry> of(CaseDocument document, String pointer) {
        List<String> steps = Place.steps(pointer);
        Shape shape = steps.isEmpty() ? Layout.standard().root() : Layout.shapeAt(document.root(), steps);
        List<Entry> out = new ArrayList<>();
        if (shape instanceof Shape.Either either) {
            Node node = Place.find(document.root(), steps);
            shape = node instanceof Node.Obj || node instanceof Node.Arr
                    ? Layout.choose(either, node)
                    : either.shapes().stream()
                            .filter(s -> s instanceof Shape.Fields)
                            .findFirst()
                            .orElse(either.shapes().get(0));
        }
        if (shape instanceof Shape.PassageShape) {
            String type = document.text(pointer + "/type").orElse("");
            List<Field> fields = Layout.standard().passageFields(type);
            fields(document, pointer, "", fields == null ? Layout.standard().commonFields() : fields, true, out);
        } else if (shape instanceof Shape.Fields known) {
            fields(document, pointer, "", known.fields(), true, out);
        } else if (shape instanceof Shape.Entries entries) {
            entries(document, pointer, "", "", entries, "", out);
        }
        return List.copyOf(out);
    }

    private static void fields(
            CaseDocument document,
            String pointer,
            String prefix,
            List<Field> fields,
            boolean standing,
            List<Entry> out) {
        for (Field field : fields) {
            String path = prefix + Place.escape(field.name());
            String label = prefix.isEmpty() ? field.name() : prefix.replace("/", " ") + field.name();
            one(document, pointer, path, label, field, standing, out);
        }
        if (prefix.isEmpty() && !pointer.isEmpty()) {
            out.add(new Entry("note", "note", Kind.TEXT, null, List.of(), false, "", "Free text."));
        }
    }

    private static void one(
            CaseDocument document,
            String pointer,
            String path,
            String label,
            Field field,
            boolean standing,
            List<Entry> out) {
        Shape shape = field.shape();
        String fallback = field.fallback() == null ? "" : field.fallback();
        boolean required = field.required() && standing;
        if (shape instanceof Shape.Either either) {
            Node node = Place.find(document.root(), Place.steps(pointer + "/" + path));
            shape = node == null ? either.shapes().get(0) : Layout.choose(either, node);
        }
        if (shape instanceof Shape.Fields inner) {
            boolean there = document.has(pointer + "/" + path);
            fields(document, pointer, path + "/", inner.fields(), there, out);
        } else if (shape instanceof Shape.Entries entries) {
            entries(document, pointer, path + "/", label + " ", entries, field.description(), out);
        } else if (shape instanceof Shape.Items items) {
            if (!items.named() && !(items.element() instanceof Shape.Fields)) {
                out.add(new Entry(
                        path,
                        label,
                        Kind.LIST,
                        null,
                        choices(document, items.element()),
                        required,
                        fallback,
                        field.description()));
            }
        } else if (!(shape instanceof Shape.Free)) {
            List<String> choices = field.name().equals("type") && pointer.startsWith("/passages/")
                    ? Layout.standard().types().stream()
                            .map(PassageType::key)
                            .sorted()
                            .toList()
                    : choices(document, shape);
            out.add(scalar(path, label, shape, choices, required, fallback, field.description()));
        }
    }

    /** Members that stand there, then a field for a new one. */
    private static void entries(
            CaseDocument document,
            String pointer,
            String prefix,
            String label,
            Shape.Entries entries,
            String description,
            List<Entry> out) {
        String place = prefix.isEmpty() ? pointer : pointer + "/" + prefix.substring(0, prefix.length() - 1);
        if (entries.value() instanceof Shape.Fields) {
            return; // each is a place of its own
        }
        for (String member : document.children(place)) {
            Shape shape = entries.value();
            if (shape instanceof Shape.Either either) {
                shape = either.shapes().get(0);
            }
            if (entries.key() == Shape.Key.PLACE && shape instanceof Shape.Typed && member.startsWith("/")) {
                // What may stand there is what may stand at the place it replaces.
                Shape there = Layout.shapeAt(document.root(), Place.steps(member));
                shape = there == null ? shape : there;
            }
            out.add(scalar(
                    prefix + Place.escape(member), member, shape, choices(document, shape), false, "", description));
        }
        out.add(new Entry(
                prefix.isEmpty() ? "" : prefix.substring(0, prefix.length() - 1),
                label.strip(),
                Kind.ENTRIES,
                null,
                keys(document, entries),
                false,
                "",
                description));
    }

    private static List<String> keys(CaseDocument document, Shape.Entries entries) {
        return entries.key() == Shape.Key.FLUID ? new FluidNames(CaseReader.defaultEngine()).all() : List.of();
    }

    private static Entry scalar(
            String path,
            String label,
            Shape shape,
            List<String> choices,
            boolean required,
            String fallback,
            String description) {
        Dimension dimension = shape instanceof Shape.Quantity quantity ? quantity.dimension() : null;
        Kind kind = dimension != null
                ? Kind.QUANTITY
                : !choices.isEmpty()
                        ? Kind.WORD
                        : shape instanceof Shape.Scalar || shape instanceof Shape.Typed ? Kind.VALUE : Kind.TEXT;
        return new Entry(path, label, kind, dimension, choices, required, fallback, description);
    }

    private static List<String> choices(CaseDocument document, Shape shape) {
        if (shape instanceof Shape.Word word) {
            return word.choices();
        }
        if (shape instanceof Shape.Flag) {
            return List.of("true", "false");
        }
        if (shape instanceof Shape.Reference reference) {
            return switch (reference.target()) {
                case CAVITY -> document.children("/cavities");
                case PASSAGE -> document.children("/passages");
                case STREAM -> document.children("/streams");
                case PHASE -> document.children("/duty");
                case FLUID -> new FluidNames(CaseReader.defaultEngine()).all();
                case PLACE -> List.of();
            };
        }
        return List.of();
    }
}
