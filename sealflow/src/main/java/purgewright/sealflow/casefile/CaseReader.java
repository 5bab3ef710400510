package purgewright.sealflow.casefile;

import java.util.ArrayList;
import java.util.Collection;
import java.util.Collections;
import java.util.Comparator;
import java.util.HashMap;
import java.util.HashSet;
import java.util.IdentityHashMap;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;
import purgewright.fluids.Engines;
import purgewright.fluids.PropertyEngine;
import purgewright.fluids.PropertyException;
import purgewright.fluids.mixture.StreamDefinition;
import purgewright.fluids.unit.DidYouMean;
import purgewright.fluids.unit.Dimension;
import purgewright.fluids.unit.GasDensity;
import purgewright.fluids.unit.UnitException;
import purgewright.fluids.unit.UnitSystem;
import purgewright.fluids.unit.Units;
import purgewright.sealflow.casefile.Shape.Field;
import purgewright.sealflow.casefile.Shape.Key;
import purgewright.sealflow.casefile.Shape.Target;
import purgewright.sealflow.gap.GapModel;
import purgewright.sealflow.gap.RunningGap;
import purgewright.sealflow.model.Campaign;
import purgewright.sealflow.model.Case;
import purgewright.sealflow.model.CaseValue;
import purgewright.sealflow.model.Cavity;
import purgewright.sealflow.model.DutyPhase;
import purgewright.sealflow.model.PassageSpec;
import purgewright.sealflow.model.Role;
import purgewright.sealflow.model.Rotor;
import purgewright.sealflow.model.Supply;
import purgewright.sealflow.passage.Conditions;
import purgewright.sealflow.passage.PassageField;
import purgewright.sealflow.passage.PassageType;

/**
 * One reading of a document: checked against the layout, turned into SI, checked for sense, made into the model. Every problem is
 * noted and reading goes on, so that a file's errors come all at once. A problem that only follows from another is not reported.
 */
final class CaseReader {
    private static final int MOST_PROBLEMS = 200;
    /** Beyond this the search for what was meant is not worth its time. */
    private static final int MOST_GUESSES = 60;

    private static final int LONGEST_NAME = 100;
    /** Deepest place that a layout could have. */
    private static final int DEEPEST_PLACE = 16;
    /** Phases times elements up to which every phase is read when the case is; beyond, a phase is read when it is solved. */
    private static final int PHASE_BUDGET = 30_000;

    private static final double SUM_TOLERANCE = 1e-6;

    /**
     * Dry air by mole, the implicit content of a vent: E. W. Lemmon, R. T. Jacobsen, S. G. Penoncello, D. G. Friend, J. Phys. Chem.
     * Ref. Data 29 (2000) 331, table 3 [from memory].
     */
    private static final Map<String, Double> DRY_AIR = dryAir();

    private final CaseDocument document;
    private final Node.Obj root;
    private final Layout layout;
    private final FluidNames fluids;
    private final Map<DutyPhase, Case> phases = new LinkedHashMap<>();
    private final List<CaseProblem> problems = new ArrayList<>();
    private final Map<Target, Set<String>> names = new HashMap<>();
    /** Gas of the objects being read, innermost last, for standard volume flows. */
    private final List<String> gases = new ArrayList<>();

    private Optional<String> purgeGas;
    private double surroundings = Double.NaN;
    /** What loose scalars measure in the object being read; null: anything. */
    private Dimension scalars;

    /** Defaults as values, by field; a field is one object of the layout. */
    private final Map<Field, Optional<Object>> fallbacks = new IdentityHashMap<>();

    /** Fields whose number is a difference of what its instrument reads. */
    private static final Set<String> DIFFERENCES = Set.of("sigma", "uncertainty", "noise");

    CaseReader(CaseDocument document, PropertyEngine engine) {
        this(document, engine, Layout.standard());
    }

    CaseReader(CaseDocument document, PropertyEngine engine, Layout layout) {
        this.document = document;
        this.root = document.root();
        this.layout = layout;
        this.fluids = new FluidNames(engine);
    }

    static PropertyEngine defaultEngine() {
        return Engines.embedded();
    }

    /**
     * @param phases whether each phase of the duty is read too
     * @throws CaseException with every problem
     */
    Case read(boolean phases) {
        Case made = null;
        try {
            collectNames();
            made = build(sections());
            if (problems.isEmpty() && phases) {
                checkPhases(made.duty());
            }
        } catch (Enough tooMany) {
            // What was found so far is plenty.
        }
        if (!problems.isEmpty()) {
            problems.sort(Comparator.comparingInt(CaseProblem::line).thenComparingInt(CaseProblem::column));
            if (problems.size() >= MOST_PROBLEMS) {
                problems.add(new CaseProblem(
                        "MORE", "", 0, 0, "there may be more problems", "mend these first, then look again"));
            }
            throw new CaseException(problems);
        }
        return made;
    }

    /** Ends a reading that found so many problems that more would help nobody; carries nothing. */
    private static final class Enough extends RuntimeException {
        private static final long serialVersionUID = 1L;

        Enough() {
            super(null, null, false, false);
        }
    }

    /** The cases of the duty's phases, as far as they were read to be checked. */
    Map<DutyPhase, Case> phases() {
        return Map.copyOf(phases);
    }

    private void checkPhases(List<DutyPhase> duty) {
        if ((long) duty.size() * (sizeOf("cavities") + sizeOf("passages")) > PHASE_BUDGET) {
            return;
        }
        for (DutyPhase phase : duty) {
            try {
                phases.put(phase, new CaseReader(document.with(phase), fluids.engine(), layout).read(false));
            } catch (CaseException wrong) {
                for (CaseProblem problem : wrong.problems()) {
                    report(
                            problem.key(),
                            Place.ROOT.child("duty").child(phase.name()),
                            "in this phase " + problem.place() + " is wrong: " + problem.message(),
                            problem.suggestion());
                }
            }
        }
    }

    // --- names
    // -----------------------------------------------------------------------------------------------------------

    private void collectNames() {
        names.put(Target.CAVITY, elementNames("cavities"));
        names.put(Target.PASSAGE, elementNames("passages"));
        names.put(Target.PHASE, elementNames("duty"));
        names.put(
                Target.STREAM,
                root.members().get("streams") instanceof Node.Obj streams
                        ? new LinkedHashSet<>(streams.members().keySet())
                        : Set.of());
    }

    private Set<String> elementNames(String section) {
        Set<String> found = new LinkedHashSet<>();
        if (root.members().get(section) instanceof Node.Arr array) {
            array.items().forEach(item -> Place.name(item).ifPresent(found::add));
        }
        return found;
    }

    // --- from layout to SI
    // ---------------------------------------------------------------------------------------------------

    private Map<String, Object> sections() {
        // Gauge pressures need the surroundings, so these are read before anything else.
        Node air = root.members().get("surroundings");
        Map<String, Object> readAir = Map.of();
        if (air != null) {
            Shape shape = layout.root().fields().stream()
                    .filter(field -> "surroundings".equals(field.name()))
                    .findFirst()
                    .orElseThrow()
                    .shape();
            readAir = map(convert(shape, air, Place.ROOT.child("surroundings"), null));
        }
        surroundings = number(readAir, "pressure", Units.STANDARD_PRESSURE);
        if (root.members().get("purgewright") instanceof Node.Text) {
            report(
                    "WRONG_TYPE",
                    Place.ROOT.child("purgewright"),
                    "the version of the layout stands in quotes",
                    "write 1");
        }
        Map<String, Object> sections = fields(layout.root().fields(), root, Place.ROOT, "case", "surroundings");
        sections.put("surroundings", readAir);
        return sections;
    }

    /** The SI value of a node: Double, String, Boolean, map or list; null when it is wrong, which has then been reported. */
    private Object convert(Shape shape, Node node, Place place, Node.Obj parent) {
        if (node instanceof Node.Null) {
            report("WRONG_TYPE", place, "null is no value", "leave the field out");
            return null;
        }
        if (shape instanceof Shape.Quantity quantity) {
            return quantity(quantity, node, place, parent);
        }
        if (shape instanceof Shape.Word word) {
            return word(word, node, place);
        }
        if (shape instanceof Shape.Text) {
            return text(node, place, "a text in quotes");
        }
        if (shape instanceof Shape.Name) {
            String name = text(node, place, "a name in quotes");
            return name != null && goodName(name, place) ? name : null;
        }
        if (shape instanceof Shape.Reference reference) {
            return reference(reference.target(), node, place);
        }
        if (shape instanceof Shape.Flag) {
            if (node instanceof Node.Bool bool) {
                return bool.value();
            }
            return wrongType(node, place, "true or false", "write true or false, without quotes");
        }
        if (shape instanceof Shape.Fields fields) {
            return node instanceof Node.Obj object
                    ? fields(fields.fields(), object, place, fields.title(), null)
                    : wrongType(node, place, "an object {...}", "");
        }
        if (shape instanceof Shape.PassageShape) {
            return node instanceof Node.Obj object
                    ? passage(object, place)
                    : wrongType(node, place, "an object {...} that describes a passage", "");
        }
        if (shape instanceof Shape.Entries entries) {
            return node instanceof Node.Obj object
                    ? entries(entries, object, place)
                    : wrongType(node, place, "an object {...}", "");
        }
        if (shape instanceof Shape.Items items) {
            return node instanceof Node.Arr array
                    ? items(items, array, place)
                    : wrongType(node, place, "a list [...]", "");
        }
        if (shape instanceof Shape.Either either) {
            return convert(Layout.choose(either, node), node, place, parent);
        }
        if (shape instanceof Shape.Scalar) {
            return scalar(node, place, scalars);
        }
        if (shape instanceof Shape.Typed) {
            if (node instanceof Node.Obj || node instanceof Node.Arr) {
                return wrongType(node, place, "one value", "");
            }
            return typed(node);
        }
        return free(node, place);
    }

    private static String typed(Node node) {
        if (node instanceof Node.Text text) {
            return text.value();
        }
        return node instanceof Node.Num number ? number.literal() : Boolean.toString(((Node.Bool) node).value());
    }

    private Object free(Node node, Place place) {
        if (node instanceof Node.Obj object) {
            Map<String, Object> all = new LinkedHashMap<>();
            object.members().forEach((name, value) -> {
                Object read = free(value, place.child(name));
                if (read != null) {
                    all.put(name, read);
                }
            });
            return all;
        }
        if (node instanceof Node.Arr array) {
            List<Object> all = new ArrayList<>();
            for (Node item : array.items()) {
                Object read = free(item, place.child(Integer.toString(all.size())));
                if (read != null) {
                    all.add(read);
                }
            }
            return all;
        }
        if (node instanceof Node.Num number) {
            double value = Double.parseDouble(number.literal());
            return Double.isFinite(value) ? value : tooLarge(number.literal(), place);
        }
        return node instanceof Node.Null ? null : node instanceof Node.Bool bool ? (Object) bool.value() : typed(node);
    }

    private Object quantity(Shape.Quantity shape, Node node, Place place, Node.Obj parent) {
        Dimension dimension = shape.dimension();
        if (dimension == Dimension.CONDUCTANCE
                && parent != null
                && parent.members().containsKey("area")) {
            dimension = Dimension.HEAT_TRANSFER_COEFFICIENT;
        }
        Double value = value(dimension, node, place);
        if (value == null) {
            return null;
        }
        return inRange(shape, dimension, value, node, place) ? value : null;
    }

    /** SI value of a text with unit or of a plain number; null when it is neither. */
    private Double value(Dimension dimension, Node node, Place place) {
        if (node instanceof Node.Num number) {
            if (dimension == Dimension.NUMBER) {
                double value = Double.parseDouble(number.literal());
                return Double.isFinite(value) ? (Double) value : (Double) tooLarge(number.literal(), place);
            }
            report(
                    "MISSING_UNIT",
                    place,
                    number.literal() + " has no unit; " + Units.describe(dimension)
                            + " is expected, in quotes and with its unit",
                    "did you mean \"" + number.literal() + " "
                            + Units.commonUnits(dimension).get(0) + "\"?");
            return null;
        }
        if (!(node instanceof Node.Text text)) {
            wrongType(
                    node,
                    place,
                    Units.describe(dimension),
                    "write it like "
                            + (dimension == Dimension.NUMBER
                                    ? Units.example(dimension)
                                    : "\"" + Units.example(dimension) + "\""));
            return null;
        }
        try {
            return Units.parse(text.value(), dimension, surroundings, gas());
        } catch (UnitException wrong) {
            report(wrong.key().name(), place, wrong.getMessage(), wrong.suggestion());
        } catch (PropertyException noDensity) {
            report(
                    "NEEDS_GAS",
                    place,
                    "the gas has no density at the stated reference",
                    "give a mass flow such as \"7 g/s\"");
        }
        return null;
    }

    private Object tooLarge(String literal, Place place) {
        report("OUT_OF_RANGE", place, Json.shorten(literal) + " is too large a number", "");
        return null;
    }

    private boolean inRange(Shape.Quantity shape, Dimension dimension, double value, Node node, Place place) {
        String typed =
                node instanceof Node.Text text ? "\"" + Json.shorten(text.value()) + "\"" : Json.shorten(typed(node));
        if (shape.whole() && value != Math.rint(value)) {
            report("OUT_OF_RANGE", place, typed + " is no whole number", "");
            return false;
        }
        boolean below = shape.exclusive() ? !(value > shape.minimum()) : !(value >= shape.minimum());
        if (below || !(value <= shape.maximum())) {
            String minimum = Units.format(shape.minimum(), dimension, UnitSystem.SI, 6);
            String maximum = Units.format(shape.maximum(), dimension, UnitSystem.SI, 6);
            String limit = below ? (shape.exclusive() ? "more than " : "at least ") + minimum : "at most " + maximum;
            report("OUT_OF_RANGE", place, typed + " is out of range; " + place.step() + " must be " + limit, "");
            return false;
        }
        return true;
    }

    private Object scalar(Node node, Place place, Dimension dimension) {
        if (node instanceof Node.Obj || node instanceof Node.Arr) {
            return wrongType(node, place, "one value", "");
        }
        if (dimension != null) {
            return value(dimension, node, place);
        }
        if (node instanceof Node.Bool bool) {
            return bool.value();
        }
        if (node instanceof Node.Num) {
            return value(Dimension.NUMBER, node, place);
        }
        String text = ((Node.Text) node).value();
        if (!Units.looksNumeric(text)) {
            return text;
        }
        try {
            if (text.contains(" at ")) {
                return Units.parse(text, Dimension.MASS_FLOW, surroundings, gas());
            }
            return Units.parseAny(text, surroundings).si();
        } catch (UnitException wrong) {
            boolean limit = place.toString().startsWith("/criteria/");
            if (limit
                    && (wrong.key() == UnitException.Key.BELOW_ABSOLUTE_ZERO
                            || wrong.key() == UnitException.Key.BELOW_ZERO_KELVIN)) {
                // Most limits are differences, of which no zero is absolute.
                report("OUT_OF_RANGE", place, quote(text) + " is below 0: no limit can be", "");
            } else {
                report(wrong.key().name(), place, wrong.getMessage(), wrong.suggestion());
            }
            return null;
        }
    }

    private Object word(Shape.Word shape, Node node, Place place) {
        String word = text(node, place, "one of " + quotedList(shape.choices()));
        if (word == null || shape.choices().contains(word)) {
            return word;
        }
        report("UNKNOWN_WORD", place, quote(word) + " is not known as " + place.step(), guess(word, shape.choices()));
        return null;
    }

    private String text(Node node, Place place, String expected) {
        if (node instanceof Node.Text text) {
            if (HiddenMarks.in(text.value())) {
                report(
                        "BAD_TEXT",
                        place,
                        "this text holds a hidden character that changes how what follows is shown, figures too",
                        "type it anew; words written from right to left need none");
                return null;
            }
            return text.value();
        }
        wrongType(node, place, expected, "");
        return null;
    }

    private Object reference(Target target, Node node, Place place) {
        String name = text(node, place, "the name of a " + target.word);
        if (name == null) {
            return null;
        }
        return switch (target) {
            case FLUID -> fluid(name, place) ? name : null;
            case PLACE -> placeShape(name, place, true) == null ? null : name;
            default -> {
                Set<String> known = names.get(target);
                if (known.contains(name) || (target == Target.STREAM && Case.AIR.equals(name))) {
                    yield name;
                }
                report(
                        "UNKNOWN_" + target.name(),
                        place,
                        "there is no " + target.word + " " + quote(name),
                        guess(name, known));
                yield null;
            }
        };
    }

    private boolean fluid(String name, Place place) {
        if (fluids.knows(name)) {
            return true;
        }
        report("UNKNOWN_FLUID", place, quote(name) + " is no fluid of the library", guess(name, fluids.all()));
        return false;
    }

    /**
     * Shape of a place named in the case; null when there is no such place, which is then reported.
     *
     * @param things whether a whole passage or instrument may be named, for its model's form or its error
     */
    private Shape placeShape(String pointer, Place place, boolean things) {
        List<String> steps;
        try {
            steps = Place.steps(pointer);
        } catch (IllegalArgumentException noPointer) {
            report("UNKNOWN_PLACE", place, quote(pointer) + " is no place", "write it like /passages/ring A/clearance");
            return null;
        }
        if (steps.size() > DEEPEST_PLACE) {
            report("UNKNOWN_PLACE", place, quote(pointer) + " is no place in this case: it is too deep", "");
            return null;
        }
        Node holder = root;
        Shape at = layout.root();
        for (int i = 0; i < steps.size(); i++) {
            Node next = holder == null ? null : Place.step(holder, steps.get(i));
            at = layout.step(at, holder, steps.get(i), next);
            boolean last = i == steps.size() - 1;
            if (at == null || (!last && next == null)) {
                report(
                        "UNKNOWN_PLACE",
                        place,
                        quote(pointer) + " is no place in this case: there is no " + quote(steps.get(i)),
                        guess(steps.get(i), choices(holder, layout.shape(root, steps.subList(0, i)))));
                return null;
            }
            holder = next;
        }
        boolean holdsMore = at instanceof Shape.Fields
                || at instanceof Shape.Items
                || at instanceof Shape.Entries
                || at instanceof Shape.PassageShape;
        boolean thing = things
                && holder != null
                && steps.size() == 2
                && List.of("passages", "instruments").contains(steps.get(0));
        if (steps.isEmpty() || (holdsMore && !thing)) {
            report(
                    "UNKNOWN_PLACE",
                    place,
                    quote(pointer) + " names a whole section, not one value",
                    "name a field in it");
            return null;
        }
        return at;
    }

    private Collection<String> choices(Node holder, Shape shape) {
        Set<String> all = new LinkedHashSet<>();
        if (holder instanceof Node.Obj object) {
            all.addAll(object.members().keySet());
            if (shape instanceof Shape.Fields fields) {
                fields.fields().forEach(field -> all.add(field.name()));
            } else if (shape instanceof Shape.PassageShape
                    && object.members().get("type") instanceof Node.Text type
                    && layout.passageFields(type.value()) != null) {
                layout.passageFields(type.value()).forEach(field -> all.add(field.name()));
            }
        } else if (holder instanceof Node.Arr array) {
            array.items().forEach(item -> Place.name(item).ifPresent(all::add));
        }
        return all;
    }

    private Map<String, Object> fields(List<Field> known, Node.Obj object, Place place, String what, String except) {
        Map<String, Object> read = new LinkedHashMap<>();
        boolean gas = enterGas(object);
        Dimension outer = scalars;
        if ("instrument".equals(what)) {
            scalars = measured(object, false);
        }
        int found = 0;
        for (Field field : known) {
            Node node = object.members().get(field.name());
            if (node != null) {
                found++;
            }
            if (field.name().equals(except)) {
                continue;
            }
            if (node == null) {
                if (field.required()) {
                    missing(field, object, place, what);
                }
                continue;
            }
            Dimension here = scalars;
            if (DIFFERENCES.contains(field.name())) {
                scalars = difference(scalars);
            }
            Object value = convert(field.shape(), node, place.child(field.name()), object);
            scalars = here;
            if (value != null) {
                read.put(field.name(), value);
            }
        }
        scalars = outer;
        if (found < object.members().size()) {
            unknownFields(known, object, place, what);
        }
        if (gas) {
            gases.remove(gases.size() - 1);
        }
        if (object.members().get("note") instanceof Node.Text note) {
            read.putIfAbsent("note", note.value());
        }
        return read;
    }

    private void missing(Field field, Node.Obj object, Place place, String what) {
        String example = "";
        if (field.shape() instanceof Shape.Quantity quantity) {
            example = quantity.plain()
                    ? quantity.whole() ? "4" : Units.example(Dimension.NUMBER)
                    : "\"" + Units.example(quantity.dimension()) + "\"";
        } else if (field.shape() instanceof Shape.Word word) {
            example = "\"" + word.choices().get(0) + "\"";
        }
        String article = "aeiou".indexOf(what.charAt(0)) >= 0 ? "an " : "a ";
        // A field that is there under a wrong name is reported as unknown, with this name as what was meant.
        Set<String> others =
                object.members().size() <= MOST_GUESSES ? object.members().keySet() : Set.of();
        for (String other : others) {
            if (problems.size() < MOST_GUESSES
                    && DidYouMean.nearest(other, List.of(field.name())).isPresent()) {
                return;
            }
        }
        report(
                "MISSING_FIELD",
                place,
                article + what + " needs \"" + field.name() + "\": " + lower(field.description()),
                example.isEmpty() ? "" : "for instance \"" + field.name() + "\": " + example);
    }

    private void unknownFields(List<Field> known, Node.Obj object, Place place, String what) {
        Set<String> allowed = null;
        for (String name : object.members().keySet()) {
            if (named(known, name)) {
                continue;
            }
            if ("note".equals(name)) {
                text(object.members().get(name), place.child(name), "a text in quotes");
                continue;
            }
            String article = "aeiou".indexOf(what.charAt(0)) >= 0 ? "an " : "a ";
            if (allowed == null) {
                allowed = known.stream().map(Field::name).collect(Collectors.toCollection(LinkedHashSet::new));
            }
            report(
                    "UNKNOWN_FIELD",
                    place.child(name),
                    article + what + " has no field " + quote(name),
                    guess(name, allowed));
        }
    }

    private static boolean named(List<Field> fields, String name) {
        for (Field field : fields) {
            if (field.name().equals(name)) {
                return true;
            }
        }
        return false;
    }

    private Map<String, Object> passage(Node.Obj object, Place place) {
        Node typeNode = object.members().get("type");
        String type = typeNode instanceof Node.Text text ? text.value() : null;
        List<Field> own = type == null ? null : layout.passageFields(type);
        if (own != null) {
            return fields(own, object, place, type, null);
        }
        if (type != null) {
            List<String> keys = layout.types().stream().map(each -> each.key()).toList();
            report("UNKNOWN_TYPE", place.child("type"), "there is no passage type " + quote(type), guess(type, keys));
        }
        // Without the type only the common fields are known; the others are looked at once it is.
        Set<String> names = layout.commonFields().stream().map(Field::name).collect(Collectors.toSet());
        Map<String, Node> known = new LinkedHashMap<>();
        object.members().forEach((name, value) -> {
            if (names.contains(name) || "note".equals(name)) {
                known.put(name, value);
            }
        });
        Node.Obj common = new Node.Obj(known, object.line(), object.column());
        return fields(layout.commonFields(), common, place, "passage", null);
    }

    private Map<String, Object> entries(Shape.Entries shape, Node.Obj object, Place place) {
        Map<String, Object> read = new LinkedHashMap<>();
        object.members().forEach((name, node) -> {
            Place here = place.child(name);
            if (shape.key() == Key.FREE && "note".equals(name)) {
                text(node, here, "a text in quotes");
                return;
            }
            Shape target = null;
            boolean good =
                    switch (shape.key()) {
                        case NAME -> goodName(name, here);
                        case FLUID -> fluid(name, here);
                        case FORMULA -> goodFormula(name, here);
                        case FREE -> true;
                        case PLACE -> {
                            target = placeShape(name, here, !(shape.value() instanceof Shape.Typed));
                            yield target != null;
                        }
                    };
            if (!good) {
                return;
            }
            Object value;
            if (shape.value() instanceof Shape.Typed) {
                value = override(target, node, here);
            } else if (shape.key() == Key.PLACE) {
                value = distribution(name, target, shape.value(), node, here);
            } else {
                value = convert(shape.value(), node, here, object);
            }
            if (value != null) {
                read.put(name, value);
            }
        });
        return read;
    }

    /** A value that replaces another: it must be one that could stand there; kept as typed. */
    private Object override(Shape target, Node node, Place place) {
        if (node instanceof Node.Obj || node instanceof Node.Arr) {
            return wrongType(node, place, "one value", "");
        }
        return convert(target, node, place, null) == null ? null : typed(node);
    }

    private Object distribution(String pointer, Shape target, Shape shape, Node node, Place place) {
        String family =
                node instanceof Node.Obj object && object.members().get("distribution") instanceof Node.Text text
                        ? text.value()
                        : "";
        boolean passage = target instanceof Shape.PassageShape;
        if (passage != "model form".equals(family)) {
            report(
                    "UNKNOWN_PLACE",
                    place,
                    passage
                            ? quote(pointer)
                                    + " names a whole passage: only its model form has a distribution of its own"
                            : "a model form belongs to a whole passage",
                    passage
                            ? "name a field in it, or \"distribution\": \"model form\""
                            : "write it like /passages/ring A");
            return null;
        }
        Dimension dimension = null;
        if (target instanceof Shape.Quantity quantity) {
            dimension = quantity.dimension();
            if (quantity.whole()) {
                report("UNKNOWN_PLACE", place, quote(pointer) + " is a whole number and has no distribution", "");
                return null;
            }
        } else if (target instanceof Shape.Fields) {
            dimension = Place.find(root, Place.steps(pointer)) instanceof Node.Obj instrument
                    ? measured(instrument, true)
                    : null;
        }
        if (dimension == null && !passage) {
            report("UNKNOWN_PLACE", place, "what stands there is no quantity and has no distribution", "");
            return null;
        }
        Dimension outer = scalars;
        scalars = passage ? Dimension.NUMBER : dimension;
        Object read = convert(shape, node, place, null);
        scalars = outer;
        if (node instanceof Node.Obj object && !family.isEmpty()) {
            List<String> needed =
                    switch (family) {
                        case "uniform" -> List.of("low", "high");
                        case "normal" -> List.of("mean", "sigma");
                        case "lognormal" -> List.of("median", "geometric sigma");
                        case "triangular" -> List.of("low", "mode", "high");
                        case "beta" -> List.of("low", "high", "alpha", "beta");
                        case "empirical" -> List.of("values");
                        case "stack" -> List.of("parts");
                        default -> List.of();
                    };
            for (String need : needed) {
                if (!object.members().containsKey(need)) {
                    report("MISSING_FIELD", place, "a " + family + " distribution needs \"" + need + "\"", "");
                }
            }
            Map<String, Object> values = map(read);
            if (number(values, "low", 0) > number(values, "high", Double.POSITIVE_INFINITY)) {
                report("OUT_OF_RANGE", place.child("low"), "low is above high", "swap them");
            }
        }
        return read;
    }

    private static Dimension measured(Node.Obj instrument, boolean difference) {
        if (!(instrument.members().get("measures") instanceof Node.Text measures)) {
            return null;
        }
        return switch (measures.value()) {
            case "pressure" -> difference ? Dimension.PRESSURE_DIFFERENCE : Dimension.PRESSURE;
            case "pressure difference" -> Dimension.PRESSURE_DIFFERENCE;
            case "temperature" -> difference ? Dimension.TEMPERATURE_DIFFERENCE : Dimension.TEMPERATURE;
            case "flow" -> Dimension.MASS_FLOW;
            case "speed" -> Dimension.ANGULAR_SPEED;
            case "oxygen", "fuel" -> Dimension.NUMBER;
            default -> null;
        };
    }

    private static Dimension difference(Dimension dimension) {
        return dimension == Dimension.PRESSURE
                ? Dimension.PRESSURE_DIFFERENCE
                : dimension == Dimension.TEMPERATURE ? Dimension.TEMPERATURE_DIFFERENCE : dimension;
    }

    private List<Object> items(Shape.Items shape, Node.Arr array, Place place) {
        List<Object> read = new ArrayList<>();
        Map<String, Integer> seen = new HashMap<>();
        for (int i = 0; i < array.items().size(); i++) {
            Node node = array.items().get(i);
            String name = Place.name(node).orElse(null);
            boolean again = shape.named() && name != null && seen.containsKey(name);
            Place here = place.child(name == null || again || !addressable(name) ? Integer.toString(i) : name);
            if (again) {
                report(
                        "DUPLICATE_NAME",
                        here,
                        "the name " + quote(name) + " is taken already, in line "
                                + array.items().get(seen.get(name)).line(),
                        "give every one a name of its own");
            } else if (name != null) {
                seen.put(name, i);
            }
            Object value = convert(shape.element(), node, here, null);
            if (value != null) {
                read.add(value);
            }
        }
        if (array.items().size() < shape.minimum()) {
            report("MISSING_FIELD", place, "at least " + shape.minimum() + " must stand here", "");
        }
        return read;
    }

    private static boolean addressable(String name) {
        return !name.isEmpty() && !Place.digits(name);
    }

    private boolean goodName(String name, Place place) {
        String wrong = null;
        if (name.isBlank()) {
            wrong = "a name must have at least one letter";
        } else if (name.length() > LONGEST_NAME) {
            wrong = "a name has at most " + LONGEST_NAME + " characters, this has " + name.length();
        } else if (name.indexOf('/') >= 0 || name.indexOf('~') >= 0) {
            wrong = "the name " + quote(name) + " has a \"/\" or \"~\", which mean something in places";
        } else if (!addressable(name)) {
            wrong = "the name " + quote(name) + " is all digits and would be taken for an index";
        } else if (!name.equals(name.strip()) || hasControl(name)) {
            wrong = "the name " + quote(name) + " has white space at an end or a control character";
        } else if (HiddenMarks.in(name)) {
            wrong = "the name holds a hidden character that changes how what follows is shown, figures too";
        }
        if (wrong != null) {
            String mended = name.replace('/', '-').replace('~', '-').strip();
            report(
                    "BAD_NAME",
                    place,
                    wrong,
                    mended.isEmpty() || mended.equals(name) || mended.length() > LONGEST_NAME
                            ? "for instance \"ring A\""
                            : "for instance " + quote(mended));
        }
        return wrong == null;
    }

    private static boolean hasControl(String name) {
        for (int i = 0; i < name.length(); i++) {
            if (Character.isISOControl(name.charAt(i))) {
                return true;
            }
        }
        return false;
    }

    private boolean goodFormula(String formula, Place place) {
        if (formula.matches("([A-Z][a-z]?\\d{0,2}){1,6}")) {
            return true;
        }
        report("UNKNOWN_FLUID", place, quote(formula) + " is no chemical formula", "for instance \"CO2\" or \"H2O\"");
        return false;
    }

    // --- gas of a standard flow
    // -------------------------------------------------------------------------------------------

    private boolean enterGas(Node.Obj object) {
        for (String field : List.of("test fluid", "gas")) {
            if (object.members().get(field) instanceof Node.Text gas) {
                gases.add(gas.value());
                return true;
            }
        }
        return false;
    }

    /** Density of the gas that standard flows belong to here: a test fluid or supply gas around, else the gas of the supplies. */
    private GasDensity gas() {
        String name = gases.isEmpty() ? purgeGas() : gases.get(gases.size() - 1);
        if (name == null) {
            return null;
        }
        String fluid = name;
        if (root.members().get("streams") instanceof Node.Obj streams
                && streams.members().get(name) instanceof Node.Obj stream) {
            if (!(stream.members().get("fluid") instanceof Node.Text single)) {
                return null;
            }
            fluid = single.value();
        }
        if (!fluids.knows(fluid) || Case.AIR.equals(fluid)) {
            return null;
        }
        String known = fluid;
        return (pressure, temperature) -> fluids.engine()
                .pure(known)
                .atPressureTemperature(pressure, temperature)
                .density();
    }

    /** What the supplies hold, where it is one stream: asked for each quantity of the case, looked up once. */
    private String purgeGas() {
        if (purgeGas == null) {
            purgeGas = Optional.ofNullable(findPurgeGas());
        }
        return purgeGas.orElse(null);
    }

    private String findPurgeGas() {
        Set<String> found = new HashSet<>();
        if (root.members().get("cavities") instanceof Node.Arr cavities) {
            for (Node node : cavities.items()) {
                if (node instanceof Node.Obj cavity
                        && cavity.members().get("role") instanceof Node.Text role
                        && Role.SUPPLY.text().equals(role.value())
                        && cavity.members().get("stream") instanceof Node.Text stream) {
                    found.add(stream.value());
                }
            }
        }
        return found.size() == 1 ? found.iterator().next() : null;
    }

    // --- from SI to the model
    // -------------------------------------------------------------------------------------------------

    private Case build(Map<String, Object> sections) {
        Map<String, String> about = new LinkedHashMap<>();
        map(sections.get("about")).forEach((name, value) -> about.put(name, String.valueOf(value)));
        double airTemperature = number(map(sections.get("surroundings")), "temperature", 288.15);
        List<StreamDefinition> streams = streams(map(sections.get("streams")));
        List<Cavity> cavities = new ArrayList<>();
        for (Object each : list(sections.get("cavities"))) {
            cavities.add(cavity(map(each)));
        }
        if (cavities.stream().anyMatch(cavity -> Case.AIR.equals(cavity.stream()))
                && streams.stream().noneMatch(stream -> Case.AIR.equals(stream.name()))) {
            streams.add(air(Case.AIR));
        }
        List<PassageSpec> passages = new ArrayList<>();
        for (Object each : list(sections.get("passages"))) {
            passages.add(passage(map(each)));
        }
        checkConnections(cavities, passages);
        Rotor rotor = rotor(map(sections.get("rotor")));
        checkGeometry(passages, rotor);
        checkWorn(passages);
        checkInstruments(list(sections.get("instruments")));
        checkRoom(map(sections.get("room")), cavities);
        Map<String, Object> extras = new LinkedHashMap<>();
        for (String section :
                List.of("uncertain", "correlations", "spread", "waivers", "room", "instruments", "plots")) {
            if (sections.get(section) != null) {
                extras.put(section, frozen(sections.get(section)));
            }
        }
        Map<String, Object> mainFlows = numbers(map(sections.get("streams")), "main flow");
        if (!mainFlows.isEmpty()) {
            extras.put(Case.MAIN_FLOWS, mainFlows);
        }
        Map<String, Object> byPassage = new LinkedHashMap<>();
        for (Object each : list(sections.get("passages"))) {
            byPassage.put(String.valueOf(map(each).get("name")), each);
        }
        Map<String, Object> wearRates = numbers(byPassage, "wear rate");
        if (!wearRates.isEmpty()) {
            extras.put(Case.WEAR_RATES, wearRates);
        }
        if (sections.get("faults") != null) {
            extras.put("faults", frozen(faults(sections.get("faults"))));
        }
        List<DutyPhase> duty = duty(list(sections.get("duty")));
        if (sections.get("supply") != null) {
            Supply supply = supply(map(sections.get("supply")));
            String held = supply.cavity();
            // A phase of the duty may state what the case leaves open.
            boolean later = duty.stream().anyMatch(p -> p.set().containsKey("/cavities/" + held + "/pressure"));
            if (held != null && !later && cavities.stream().anyMatch(c -> held.equals(c.name()) && !c.fixed())) {
                report(
                        "NOT_FIXED",
                        Place.parse("/supply/cavity"),
                        "\"" + held + "\" has no pressure of its own, so that no supply can hold it",
                        "name a cavity with a stated pressure");
            }
            extras.put(Case.SUPPLY, supply);
        }
        if (sections.get("campaign") != null) {
            extras.put(Case.CAMPAIGN, campaign(map(sections.get("campaign"))));
        }
        return new Case(
                Collections.unmodifiableMap(about),
                new Case.Surroundings(surroundings, airTemperature),
                rotor,
                List.copyOf(streams),
                List.copyOf(cavities),
                List.copyOf(passages),
                duty,
                Collections.unmodifiableMap(map(frozen(sections.getOrDefault("criteria", Map.of())))),
                Collections.unmodifiableMap(extras));
    }

    /** One number of each entry that states it, by the entry's name. */
    private static Map<String, Object> numbers(Map<String, Object> entries, String field) {
        Map<String, Object> out = new LinkedHashMap<>();
        entries.forEach((name, value) -> {
            if (map(value).get(field) instanceof Number n) {
                out.put(name, n.doubleValue());
            }
        });
        return Collections.unmodifiableMap(out);
    }

    private List<StreamDefinition> streams(Map<String, Object> read) {
        List<StreamDefinition> streams = new ArrayList<>();
        read.forEach((name, value) -> {
            Place place = Place.ROOT.child("streams").child(name);
            Map<String, Object> fields = map(value);
            Node node = Place.find(root, place.steps());
            List<String> kinds = new ArrayList<>();
            for (String kind : List.of("fluid", "mix", "burn", "measured")) {
                if (node instanceof Node.Obj object && object.members().containsKey(kind)) {
                    kinds.add(kind);
                }
            }
            if (kinds.size() != 1) {
                report(
                        kinds.isEmpty() ? "MISSING_FIELD" : "CONFLICT",
                        place,
                        kinds.isEmpty()
                                ? "a stream needs \"fluid\", \"mix\", \"burn\" or \"measured\""
                                : "a stream is only one of " + quotedList(kinds),
                        "for instance \"fluid\": \"helium\"");
                return;
            }
            StreamDefinition made =
                    switch (kinds.get(0)) {
                        case "fluid" ->
                            Case.AIR.equals(fields.get("fluid"))
                                    ? air(name)
                                    : fields.get("fluid") instanceof String fluid
                                            ? new StreamDefinition.Single(name, fluid)
                                            : null;
                        case "mix" -> mix(name, map(fields.get("mix")), place.child("mix"));
                        case "burn" -> burn(name, map(fields.get("burn")));
                        default -> {
                            Map<String, Double> fractions = fractions(fields.get("measured"), place.child("measured"));
                            yield new StreamDefinition.Measured(name, fractions);
                        }
                    };
            if (Case.AIR.equals(name) && !air(name).equals(made)) {
                report(
                        "BAD_NAME",
                        place,
                        "a stream called \"air\" is what vents hold, so it must be the fluid air",
                        "give the stream another name");
            }
            if (made != null) {
                streams.add(made);
            }
        });
        return streams;
    }

    private static StreamDefinition air(String name) {
        return new StreamDefinition.Mix(name, DRY_AIR, true);
    }

    /** In a fixed order: that of {@code Map.of} changes from run to run, and results with it. */
    private static Map<String, Double> dryAir() {
        Map<String, Double> air = new LinkedHashMap<>();
        air.put("nitrogen", 0.7812);
        air.put("oxygen", 0.2096);
        air.put("argon", 0.0092);
        return Collections.unmodifiableMap(air);
    }

    private StreamDefinition mix(String name, Map<String, Object> fields, Place place) {
        Node node = Place.find(root, place.steps());
        boolean mole = node instanceof Node.Obj object && object.members().containsKey("mole");
        boolean mass = node instanceof Node.Obj object && object.members().containsKey("mass");
        if (mole == mass) {
            if (node instanceof Node.Obj) {
                report(
                        mole ? "CONFLICT" : "MISSING_FIELD",
                        place,
                        "a mix is given by \"mole\" or by \"mass\"" + (mole ? ", not by both" : ""),
                        "for instance \"mix\": {\"mole\": {\"nitrogen\": 0.79, \"oxygen\": 0.21}}");
            }
            return null;
        }
        String by = mole ? "mole" : "mass";
        return new StreamDefinition.Mix(name, fractions(fields.get(by), place.child(by)), mole);
    }

    private Map<String, Double> fractions(Object read, Place place) {
        Map<String, Double> fractions = new LinkedHashMap<>();
        map(read).forEach((name, value) -> {
            if (value instanceof Double fraction) {
                fractions.put(name, fraction);
            }
        });
        int written = Place.find(root, place.steps()) instanceof Node.Obj object
                ? object.members().size()
                : -1;
        double sum =
                fractions.values().stream().mapToDouble(Double::doubleValue).sum();
        if (written == fractions.size() && !(Math.abs(sum - 1) <= SUM_TOLERANCE)) {
            report(
                    "FRACTIONS_SUM",
                    place,
                    "the fractions add up to " + Units.number(sum, 8) + " instead of 1",
                    sum > 50 && Math.abs(sum - 100) < 1
                            ? "write fractions, not per cent: 0.79 for 79 %"
                            : sum < 1
                                    ? Units.number(1 - sum, 6) + " is missing"
                                    : Units.number(sum - 1, 6) + " is too much");
        }
        return Collections.unmodifiableMap(fractions);
    }

    private static StreamDefinition burn(String name, Map<String, Object> fields) {
        return new StreamDefinition.Burn(
                name,
                (String) fields.get("fuel"),
                (String) fields.get("oxidizer"),
                number(fields, "mixture ratio", Double.NaN),
                number(fields, "pressure", Double.NaN),
                number(fields, "fuel temperature", Double.NaN),
                number(fields, "oxidizer temperature", Double.NaN),
                Boolean.TRUE.equals(fields.get("graphite")));
    }

    private Cavity cavity(Map<String, Object> fields) {
        String name = (String) fields.get("name");
        Place place = Place.ROOT.child("cavities").child(String.valueOf(name));
        Node.Obj node = name != null && Place.find(root, place.steps()) instanceof Node.Obj object ? object : null;
        Role role = null;
        for (Role each : Role.values()) {
            if (each.text().equals(fields.get("role"))) {
                role = each;
            }
        }
        String stream = (String) fields.get("stream");
        if (node != null) {
            boolean fixed = node.members().containsKey("pressure");
            boolean vent = role == Role.VENT;
            if (fixed && !node.members().containsKey("stream")) {
                if (vent) {
                    stream = Case.AIR;
                } else if (role != null) {
                    report(
                            "STREAM_NEEDED",
                            place,
                            "the cavity is held at a pressure, so it must be said what is in it",
                            "add \"stream\"" + among(names.get(Target.STREAM))
                                    + ", or leave the pressure out to have it solved for");
                }
            }
            if (fixed && !node.members().containsKey("temperature")) {
                report(
                        "TEMPERATURE_NEEDED",
                        place,
                        "the cavity is held at a pressure, so it needs a temperature"
                                + (burnt(stream) ? "; the burner's own is not that of gas behind a turbine" : ""),
                        "for instance \"temperature\": \"288 K\"");
            }
            for (String given : List.of("stream", "temperature")) {
                if (!fixed && node.members().containsKey(given)) {
                    report(
                            "NOT_FIXED",
                            place.child(given),
                            "a cavity without a pressure is solved for, so \"" + given + "\" says nothing",
                            "add \"pressure\", or leave \"" + given + "\" out");
                }
            }
        }
        Cavity.Disc disc = null;
        if (fields.get("disc") != null) {
            Map<String, Object> read = map(fields.get("disc"));
            disc = new Cavity.Disc(
                    number(read, "inner radius", Double.NaN),
                    number(read, "outer radius", Double.NaN),
                    number(read, "gap", Double.NaN),
                    "through-flow".equals(read.get("core swirl")),
                    looks(read.get("looks")));
            if (disc.swirlFromFlow()) {
                if (fields.get("swirl ratio") != null) {
                    report(
                            "CONFLICT",
                            place.child("swirl ratio"),
                            "the core swirl is to follow from the through-flow, so no ratio can be stated",
                            "leave one of the two out");
                }
                if (fields.get("radius") == null) {
                    report(
                            "MISSING_FIELD",
                            place.child("disc").child("core swirl"),
                            "the swirl is that at the cavity's radius, and it states none",
                            "add \"radius\" to the cavity");
                }
            }
            if (disc.innerRadius() >= disc.outerRadius()) {
                report(
                        "OUT_OF_RANGE",
                        place.child("disc").child("inner radius"),
                        "the inner radius is not smaller than the outer one",
                        "");
            }
        }
        return new Cavity(
                name,
                role,
                stream,
                number(fields, "pressure", Double.NaN),
                number(fields, "temperature", Double.NaN),
                number(fields, "volume", Double.NaN),
                number(fields, "radius", Double.NaN),
                number(fields, "swirl ratio", Double.NaN),
                disc,
                fields.get("wall") == null ? null : wall(map(fields.get("wall")), name, place.child("wall")),
                number(fields, "circumferential variation", Double.NaN));
    }

    private static Cavity.Looks looks(Object word) {
        return "forward".equals(word)
                ? Cavity.Looks.FORWARD
                : "aft".equals(word) ? Cavity.Looks.AFT : Cavity.Looks.UNSTATED;
    }

    private boolean burnt(String stream) {
        return stream != null
                && Place.find(root, List.of("streams", stream)) instanceof Node.Obj object
                && object.members().containsKey("burn");
    }

    private Cavity.Wall wall(Map<String, Object> fields, String owner, Place place) {
        if (Place.find(root, place.steps()) instanceof Node.Obj object) {
            boolean temperature = object.members().containsKey("temperature");
            boolean cavity = object.members().containsKey("cavity");
            if (temperature == cavity) {
                report(
                        temperature ? "CONFLICT" : "MISSING_FIELD",
                        place,
                        "the far side of a wall has a temperature or is a cavity" + (temperature ? ", not both" : ""),
                        "");
            }
        }
        if (owner != null && owner.equals(fields.get("cavity"))) {
            report("SAME_CAVITY", place.child("cavity"), "the cavity is on both sides of its wall", "");
        }
        return new Cavity.Wall(
                number(fields, "conductance", Double.NaN) * number(fields, "area", 1),
                number(fields, "temperature", Double.NaN),
                (String) fields.get("cavity"));
    }

    private PassageSpec passage(Map<String, Object> fields) {
        String from = (String) fields.get("from");
        String to = (String) fields.get("to");
        String name = (String) fields.get("name");
        String type = (String) fields.get("type");
        if (from != null && from.equals(to)) {
            report(
                    "SAME_CAVITY",
                    Place.ROOT.child("passages").child(String.valueOf(name)).child("to"),
                    "the passage leads from " + quote(from) + " to itself",
                    "name the cavity on the other side");
        }
        Map<String, Object> own = new LinkedHashMap<>();
        List<Field> known = layout.ownFields(type);
        for (Field field : known) {
            Object value = fields.get(field.name());
            if (value != null) {
                own.put(field.name(), value);
            }
        }
        for (Field field : known) {
            if (field.fallback() != null && !own.containsKey(field.name())) {
                Object fallback = fallback(field);
                if (fallback != null) {
                    own.put(field.name(), fallback);
                }
            }
        }
        PassageType kind = type == null ? null : layout.type(type);
        String table = kind == null ? null : kind.table();
        if (table != null && LeakTable.names(own.get(table))) {
            readTable(own, fields, Place.ROOT.child("passages").child(String.valueOf(name)));
        }
        double pickUp = number(fields, PassageSpec.PICK_UP, 1);
        if (pickUp != 1) {
            own.put(PassageSpec.PICK_UP, pickUp);
        }
        double clearance = number(own, "clearance", number(own, "gap", Double.NaN));
        return new PassageSpec(
                name,
                from,
                to,
                type,
                (int) number(fields, "count", 1),
                number(own, "radius", Double.NaN),
                clearance,
                number(fields, "worn clearance", Double.NaN),
                number(fields, "clearance growth", Double.NaN),
                number(fields, "calibration factor", 1),
                number(fields, "stirring", Double.NaN),
                Boolean.TRUE.equals(fields.get("closed")),
                Collections.unmodifiableMap(own));
    }

    /**
     * Builds each passage once, at both ends of its model's band too, so that geometry that its law refuses is said with the other errors of
     * the file. A passage in which something else is wrong is left alone.
     */
    private void checkGeometry(List<PassageSpec> passages, Rotor rotor) {
        for (PassageSpec spec : passages) {
            PassageType type = layout.type(spec.type());
            Place place = Place.ROOT.child("passages").child(String.valueOf(spec.name()));
            if (type == null || isWrong(place)) {
                continue;
            }
            RunningGap gap = GapModel.running(type.gap(spec), spec, rotor);
            double clearance = gap == null ? spec.clearance() : gap.mean();
            for (Conditions.Bound end : Conditions.Bound.values()) {
                try {
                    type.build(spec, new Conditions(rotor.speed(), clearance, end));
                } catch (IllegalArgumentException refused) {
                    Optional<String> field = blamed(type, spec, refused.getMessage());
                    report("GEOMETRY", field.map(place::child).orElse(place), refused.getMessage(), type.mend());
                    break;
                }
            }
        }
    }

    /** A worn clearance opens the seal; below the drawing's, or of a passage that has none, it would make the fault "worn" harmless. */
    private void checkWorn(List<PassageSpec> passages) {
        for (PassageSpec spec : passages) {
            PassageType type = layout.type(spec.type());
            Place place = Place.ROOT
                    .child("passages")
                    .child(String.valueOf(spec.name()))
                    .child("worn clearance");
            if (type == null || Double.isNaN(spec.wornClearance()) || isWrong(place)) {
                continue;
            }
            double drawing = type.balances(spec) ? Double.NaN : CaseValue.clearance(spec);
            if (Double.isNaN(drawing)) {
                report(
                        "CONFLICT",
                        place,
                        "the passage has no clearance that could wear"
                                + (type.balances(spec) ? ": its gap follows from the forces on it" : ""),
                        "leave the worn clearance out");
            } else if (!(spec.wornClearance() >= drawing)) {
                report(
                        "CONFLICT",
                        place,
                        "the worn clearance "
                                + Units.format(spec.wornClearance(), Dimension.LENGTH, UnitSystem.SI, 3)
                                + " is below the clearance of the new seal, "
                                + Units.format(drawing, Dimension.LENGTH, UnitSystem.SI, 3),
                        "state the clearance at the end of its life, or leave it out: the criterion \"clearance factor\" then says how far it wears");
            }
        }
    }

    /** Instruments that could never trip, or of which nobody can say when. */
    private void checkInstruments(List<?> instruments) {
        for (Object each : instruments) {
            Map<String, Object> fields = map(each);
            Place place = Place.ROOT.child("instruments").child(String.valueOf(fields.get("name")));
            double votes = number(fields, "votes", 1);
            double sensors = number(fields, "sensors", 1);
            if (votes > sensors) {
                report(
                        "CONFLICT",
                        place.child("votes"),
                        String.format(
                                Locale.ROOT,
                                "%.0f of %.0f sensor%s can never agree",
                                votes,
                                sensors,
                                sensors == 1 ? "" : "s"),
                        "state at least as many \"sensors\" as \"votes\"");
            }
            if (fields.containsKey("persistence") && !fields.containsKey("sample rate")) {
                report(
                        "MISSING_FIELD",
                        place.child("persistence"),
                        "samples in a row take a time that nobody knows without a sample rate",
                        "state \"sample rate\", as in \"100 Hz\"");
            }
        }
    }

    private boolean isWrong(Place place) {
        if (problems.isEmpty()) {
            return false;
        }
        String pointer = Json.shorten(place.toString());
        return problems.stream()
                .anyMatch(p -> p.place().equals(pointer) || p.place().startsWith(pointer + "/"));
    }

    /** The field of a passage that a refusal names first; of a measured one its table, whose rows the refusals are about. */
    private static Optional<String> blamed(PassageType type, PassageSpec spec, String message) {
        String text = message.substring(message.indexOf(':') + 1);
        return type.fields().stream()
                .map(PassageField::name)
                .filter(name -> spec.fields().containsKey(name) && text.contains(name))
                .min(Comparator.comparingInt((String name) -> text.indexOf(name))
                        .thenComparing(Comparator.comparingInt(String::length).reversed()))
                .or(() -> Optional.of("table").filter(spec.fields()::containsKey));
    }

    /** Puts the rows of a CSV file in place of its name; what the file says of its test stands where the case says nothing. */
    private void readTable(Map<String, Object> own, Map<String, Object> typed, Place place) {
        String name = (String) own.get("table");
        try {
            LeakTable table = LeakTable.read(document.folder(), name);
            own.put("table", table.rows());
            for (Map.Entry<String, String> said : table.header().entrySet()) {
                Object value = said.getValue();
                if ("test temperature".equals(said.getKey())) {
                    value = Units.parse(said.getValue(), Dimension.TEMPERATURE);
                }
                Object here = typed.get(said.getKey());
                boolean same = here == null
                        || here.equals(value)
                        || (here instanceof Double a && value instanceof Double b && Math.abs(a - b) < 0.5);
                if (!same) {
                    report(
                            "CONTRADICTION",
                            place.child(said.getKey()),
                            "the case says " + said.getKey() + " " + here + ", " + name + " says " + said.getValue(),
                            "leave it out of the case");
                }
                own.put(said.getKey(), value);
            }
        } catch (LeakTable.Refused refused) {
            report("TABLE", place.child("table"), refused.getMessage(), refused.suggestion);
        } catch (UnitException bad) {
            report(
                    "TABLE",
                    place.child("table"),
                    name + ": " + bad.getMessage(),
                    "write it like '# test temperature: 20 degC'");
        }
    }

    /** The default of a field as a value; a default that is a sentence ("half the gap") stays with the passage type. */
    private Object fallback(Field field) {
        return fallbacks.computeIfAbsent(field, this::readFallback).orElse(null);
    }

    private Optional<Object> readFallback(Field field) {
        if (field.shape() instanceof Shape.Quantity quantity) {
            try {
                return Optional.of(Units.parse(field.fallback(), quantity.dimension(), surroundings));
            } catch (UnitException sentence) {
                return Optional.empty();
            }
        }
        return Optional.of(field.fallback());
    }

    /** What runs into a cavity that is no vent is not counted as released: such a name would make a room look fresh. */
    private void checkRoom(Map<String, Object> room, List<Cavity> cavities) {
        int i = 0;
        for (Object name : list(room.get("vents"))) {
            int at = i++;
            cavities.stream()
                    .filter(c -> c.name() != null && c.name().equals(name) && c.role() != Role.VENT)
                    .forEach(c -> report(
                            "NOT_A_VENT",
                            Place.ROOT.child("room").child("vents").child(String.valueOf(at)),
                            "the cavity " + quote(c.name()) + " is no vent: what enters it does not run into the room",
                            "name cavities whose role is \"vent\""));
        }
    }

    private void checkConnections(List<Cavity> cavities, List<PassageSpec> passages) {
        boolean sound = passages.stream().allMatch(each -> each.from() != null && each.to() != null)
                && cavities.stream().allMatch(each -> each.name() != null)
                && passages.size() == sizeOf("passages")
                && cavities.size() == sizeOf("cavities");
        if (!sound) {
            return;
        }
        Map<String, String> parent = new HashMap<>();
        cavities.forEach(cavity -> parent.put(cavity.name(), cavity.name()));
        Set<String> touched = new HashSet<>();
        for (PassageSpec passage : passages) {
            touched.add(passage.from());
            touched.add(passage.to());
            parent.put(find(parent, passage.from()), find(parent, passage.to()));
        }
        Set<String> held = new HashSet<>();
        for (Cavity cavity : cavities) {
            Place place = Place.ROOT.child("cavities").child(cavity.name());
            if (!touched.contains(cavity.name())) {
                report(
                        "ISOLATED_CAVITY",
                        place,
                        "the cavity " + quote(cavity.name()) + " is connected to nothing",
                        "add a passage from or to it, or remove it");
            }
            if (Place.find(root, place.child("pressure").steps()) != null) {
                held.add(find(parent, cavity.name()));
            }
        }
        Map<String, List<String>> loose = new LinkedHashMap<>();
        for (Cavity cavity : cavities) {
            String group = find(parent, cavity.name());
            if (touched.contains(cavity.name()) && !held.contains(group)) {
                loose.computeIfAbsent(group, key -> new ArrayList<>()).add(cavity.name());
            }
        }
        loose.values()
                .forEach(group -> report(
                        "NO_BOUNDARY",
                        Place.ROOT.child("cavities").child(group.get(0)),
                        "nothing holds the pressure of " + quotedList(group.subList(0, Math.min(5, group.size())))
                                + (group.size() > 5 ? " and others" : ""),
                        "give at least one cavity they lead to a pressure, a temperature and a stream"));
    }

    private int sizeOf(String section) {
        return root.members().get(section) instanceof Node.Arr array
                ? array.items().size()
                : -1;
    }

    private static String find(Map<String, String> parent, String name) {
        String at = name;
        while (!parent.get(at).equals(at)) {
            parent.put(at, parent.get(parent.get(at)));
            at = parent.get(at);
        }
        return at;
    }

    private static Rotor rotor(Map<String, Object> fields) {
        List<Rotor.Segment> segments = new ArrayList<>();
        for (Object each : list(fields.get("segments"))) {
            Map<String, Object> segment = map(each);
            segments.add(new Rotor.Segment(
                    (String) segment.get("name"),
                    number(segment, "bore radius", 0),
                    number(segment, "outer radius", Double.NaN),
                    number(segment, "temperature", Double.NaN),
                    number(segment, "E", Double.NaN),
                    number(segment, "nu", 0.3),
                    number(segment, "density", Double.NaN),
                    number(segment, "expansion", Double.NaN),
                    Boolean.TRUE.equals(segment.get("thin"))));
        }
        return new Rotor(
                number(fields, "speed", 0),
                number(fields, "whirl", 0),
                number(fields, "bearing play", 0),
                number(fields, "run-out", 0),
                number(fields, "offset", 0),
                number(fields, "tolerance", 0),
                number(fields, "thrust movement", 0),
                List.copyOf(segments));
    }

    private List<DutyPhase> duty(List<?> read) {
        List<DutyPhase> duty = new ArrayList<>();
        for (Object each : read) {
            Map<String, Object> fields = map(each);
            String name = String.valueOf(fields.get("name"));
            Place place = Place.ROOT.child("duty").child(name);
            Map<String, String> set = new LinkedHashMap<>();
            map(fields.get("set")).forEach((pointer, text) -> set.put(pointer, (String) text));
            if (fields.get("speed") != null) {
                document.text(place.child("speed").toString()).ifPresent(text -> set.put("/rotor/speed", text));
            }
            List<String> closed = strings(fields.get("closed"));
            for (String open : strings(fields.get("open"))) {
                if (closed.contains(open)) {
                    report("CONFLICT", place.child("open"), quote(open) + " is open and closed at once", "");
                }
                set.put("/passages/" + open + "/closed", "false");
            }
            duty.add(new DutyPhase(
                    name,
                    number(fields, "duration", Double.NaN),
                    Collections.unmodifiableMap(set),
                    closed,
                    number(fields, "ramp", 0),
                    (String) fields.get("history")));
        }
        return List.copyOf(duty);
    }

    private Supply supply(Map<String, Object> fields) {
        Supply.Bottles bottles = null;
        if (fields.get("bottles") != null) {
            Map<String, Object> read = map(fields.get("bottles"));
            bottles = new Supply.Bottles(
                    number(read, "volume", Double.NaN),
                    number(read, "filling pressure", Double.NaN),
                    number(read, "temperature", Double.NaN),
                    (int) number(read, "number", 1),
                    (int) number(read, "banks", 1),
                    number(read, "wall conductance", Double.NaN),
                    number(read, "wall heat capacity", Double.NaN),
                    number(read, "outside conductance", Double.NaN),
                    number(read, "unusable pressure", Double.NaN));
            if (bottles.banks() > bottles.number()) {
                report("OUT_OF_RANGE", Place.parse("/supply/bottles/banks"), "there are more banks than bottles", "");
            }
        }
        Supply.Regulator regulator = null;
        if (fields.get("regulator") != null) {
            Map<String, Object> read = map(fields.get("regulator"));
            regulator = new Supply.Regulator(
                    number(read, "set pressure", Double.NaN),
                    number(read, "droop", 0),
                    number(read, "inlet effect", 0),
                    number(read, "minimum inlet margin", 0),
                    number(read, "accuracy", 0),
                    number(read, "relief pressure", Double.NaN),
                    number(read, "relief diameter", Double.NaN),
                    number(read, "open diameter", Double.NaN));
            if (bottles != null
                    && regulator.setPressure() + regulator.minimumInletMargin() >= bottles.fillingPressure()) {
                boolean margin = regulator.setPressure() < bottles.fillingPressure();
                report(
                        "OUT_OF_RANGE",
                        Place.parse("/supply/regulator/set pressure"),
                        "the regulator is set at or above the filling pressure of the bottles"
                                + (margin ? " less its minimum inlet margin" : ""),
                        "set it below "
                                + Units.format(
                                        bottles.fillingPressure() - (margin ? regulator.minimumInletMargin() : 0),
                                        Dimension.PRESSURE,
                                        UnitSystem.SI,
                                        4));
            }
            if (!Double.isNaN(regulator.reliefDiameter()) && Double.isNaN(regulator.reliefPressure())) {
                report(
                        "MISSING_FIELD",
                        Place.parse("/supply/regulator/relief diameter"),
                        "a relief valve needs the pressure at which it opens",
                        "state \"relief pressure\"");
            }
            if (regulator.reliefPressure() <= regulator.setPressure()) {
                report(
                        "OUT_OF_RANGE",
                        Place.parse("/supply/regulator/relief pressure"),
                        "the relief valve opens at or below the set pressure",
                        "");
            }
        }
        Supply.Line line = null;
        if (fields.get("line") != null) {
            Map<String, Object> read = map(fields.get("line"));
            line = new Supply.Line(
                    number(read, "diameter", Double.NaN),
                    number(read, "length", Double.NaN),
                    number(read, "roughness", Double.NaN),
                    number(read, "loss coefficient", 0));
        }
        Map<String, Object> main = map(fields.get("plant"));
        Map<String, Object> tank = map(fields.get("liquid"));
        return new Supply(
                (String) fields.get("gas"),
                (String) fields.get("cavity"),
                bottles,
                regulator,
                line,
                (String) fields.get("metering"),
                (String) fields.get("receiver"),
                fields.get("plant") == null
                        ? null
                        : new Supply.Plant(
                                number(main, "pressure", Double.NaN),
                                number(main, "temperature", 288.15),
                                number(main, "greatest flow", Double.NaN)),
                fields.get("liquid") == null
                        ? null
                        : new Supply.Liquid(
                                number(tank, "volume", Double.NaN),
                                number(tank, "pressure", Double.NaN),
                                number(tank, "temperature", 278.15),
                                number(tank, "vaporiser flow", Double.NaN),
                                number(tank, "daily loss", 0)));
    }

    private Campaign campaign(Map<String, Object> fields) {
        List<Campaign.Hold> holds = new ArrayList<>();
        for (Object each : list(fields.get("holds"))) {
            Map<String, Object> hold = map(each);
            double duration = number(hold, "duration", Double.NaN);
            double shortest = number(hold, "shortest", Double.NaN);
            double longest = number(hold, "longest", Double.NaN);
            if (shortest > duration || longest < duration) {
                report(
                        "OUT_OF_RANGE",
                        Place.parse("/campaign/holds").child((String) hold.get("name")),
                        "the duration must lie between the shortest and the longest",
                        "");
            }
            holds.add(new Campaign.Hold(
                    (String) hold.get("name"),
                    duration,
                    shortest,
                    longest,
                    (String) hold.get("phase"),
                    !Boolean.FALSE.equals(hold.get("per attempt"))));
        }
        List<Campaign.LeakCheck> checks = new ArrayList<>();
        for (Object each : list(fields.get("leak checks"))) {
            Map<String, Object> check = map(each);
            checks.add(new Campaign.LeakCheck(
                    (String) check.get("name"),
                    number(check, "gas", Double.NaN),
                    check.get("every") instanceof String word
                            ? Campaign.Every.valueOf(word.toUpperCase(Locale.ROOT))
                            : Campaign.Every.ATTEMPT));
        }
        if (number(fields, "abort probability", 0) > 0.99) {
            report(
                    "OUT_OF_RANGE",
                    Place.parse("/campaign/abort probability"),
                    "with it hardly a run would ever be made",
                    "at most 0.99");
        }
        return new Campaign(
                (int) number(fields, "attempts", 1),
                number(fields, "attempts per day", Double.NaN),
                number(fields, "abort probability", 0),
                strings(fields.get("duty per attempt")),
                strings(fields.get("after abort")),
                number(fields, "phase spread", 0),
                List.copyOf(holds),
                List.copyOf(checks),
                number(fields, "reserve", 0),
                currency(),
                number(fields, "gas price", Double.NaN),
                number(fields, "bottle price", Double.NaN),
                number(fields, "bottle rental", Double.NaN),
                number(fields, "rental time", Double.NaN));
    }

    /** The one currency of the prices; two are an error, since nobody knows the rate. */
    private String currency() {
        Set<String> found = new LinkedHashSet<>();
        for (String field : List.of("gas price", "bottle price", "bottle rental")) {
            document.text("/campaign/" + field).ifPresent(text -> {
                String unit = text.replaceFirst("^\\s*[-+]?[0-9.]+([eE][-+]?[0-9]+)?\\s*", "")
                        .replaceFirst("\\s*/.*$", "")
                        .strip();
                if (!unit.isEmpty()) {
                    found.add(unit);
                }
            });
        }
        if (found.size() > 1) {
            report(
                    "CONFLICT",
                    Place.ROOT.child("campaign"),
                    "prices stand in several currencies: " + quotedList(found),
                    "use one");
        }
        return found.isEmpty() ? "" : found.iterator().next();
    }

    /** The three ways of writing faults as one: automatic, pairs, exclude, extra. */
    private static Map<String, Object> faults(Object read) {
        Map<String, Object> all = new LinkedHashMap<>();
        boolean none = "none".equals(read);
        all.put("automatic", !none);
        all.put("pairs", false);
        all.put("exclude", List.of());
        all.put("extra", List.of());
        if (read instanceof List<?> list) {
            all.put("extra", list);
        } else if (read instanceof Map<?, ?>) {
            all.putAll(map(read));
        }
        return all;
    }

    // --- small tools
    // -----------------------------------------------------------------------------------------------------

    private static Object frozen(Object value) {
        if (value instanceof Map<?, ?> map) {
            Map<Object, Object> copy = new LinkedHashMap<>();
            map.forEach((name, each) -> copy.put(name, frozen(each)));
            return Collections.unmodifiableMap(copy);
        }
        return value instanceof List<?> list
                ? list.stream().map(CaseReader::frozen).toList()
                : value;
    }

    @SuppressWarnings("unchecked") // maps come from fields() and entries() alone
    private static Map<String, Object> map(Object value) {
        return value instanceof Map<?, ?> ? (Map<String, Object>) value : Map.of();
    }

    private static List<?> list(Object value) {
        return value instanceof List<?> list ? list : List.of();
    }

    private static List<String> strings(Object value) {
        return list(value).stream().map(String::valueOf).toList();
    }

    private static double number(Map<String, Object> fields, String name, double fallback) {
        return fields.get(name) instanceof Double value ? value : fallback;
    }

    private Object wrongType(Node node, Place place, String expected, String suggestion) {
        report("WRONG_TYPE", place, "here stands " + node.kind() + ", but " + expected + " is expected", suggestion);
        return null;
    }

    private void report(String key, Place place, String message, String suggestion) {
        if (problems.size() >= MOST_PROBLEMS) {
            throw new Enough();
        }
        // The value's own place; for something that is missing, what should hold it.
        Node node = root;
        for (String step : place.steps()) {
            Node next = Place.step(node, step);
            if (next == null) {
                break;
            }
            node = next;
        }
        problems.add(new CaseProblem(
                key,
                Json.shorten(place.toString()),
                node.line(),
                node.column(),
                Json.shorten(message),
                Json.shorten(suggestion)));
    }

    private String guess(String word, Collection<String> candidates) {
        if (problems.size() >= MOST_GUESSES || candidates.isEmpty()) {
            return "";
        }
        return DidYouMean.nearest(word, candidates)
                .map(found -> "did you mean " + quote(found) + "?")
                .orElseGet(() -> candidates.size() > 24 ? "" : "known here: " + quotedList(candidates));
    }

    private static String among(Collection<String> candidates) {
        return candidates.isEmpty() || candidates.size() > 8 ? "" : " (" + quotedList(candidates) + ")";
    }

    private static String quote(String text) {
        return "\"" + (text.length() > 60 ? text.substring(0, 60) + " ..." : text) + "\"";
    }

    private static String quotedList(Collection<String> words) {
        return words.stream().map(CaseReader::quote).collect(Collectors.joining(", "));
    }

    private static String lower(String sentence) {
        return sentence.isEmpty() ? sentence : Character.toLowerCase(sentence.charAt(0)) + sentence.substring(1);
    }
}
