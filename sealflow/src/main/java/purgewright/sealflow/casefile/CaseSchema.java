package purgewright.sealflow.casefile;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import purgewright.fluids.unit.Dimension;
import purgewright.fluids.unit.Units;
import purgewright.sealflow.casefile.Shape.Field;
import purgewright.sealflow.passage.PassageType;

/**
 * The JSON Schema (2020-12) of the case file, for editors and other tools. It is generated from the layout that the reader itself
 * works by; the committed resource is compared with the generator in a test. It knows form only: what a unit measures, which names
 * exist and how things hang together is the reader's to say.
 */
public final class CaseSchema {
    /** Resource and file name. */
    public static final String RESOURCE = "/purgewright/schema/case-1.schema.json";

    private static final String NUMBER = "[-+\u2212]?([0-9]+\\.?[0-9]*|\\.[0-9]+)([eE][-+]?[0-9]+)?";
    private static final String QUANTITY = "^\\s*" + NUMBER + "\\s*[^\\s0-9,.].*$";
    private static final String PLAIN = "^\\s*" + NUMBER + "\\s*(%|percent|ppm|1)?\\s*$";
    private static final String NAME = "^(?![0-9]+$)[^/~\\s]([^/~\\u0000-\\u001f]{0,98}[^/~\\s])?$";

    private CaseSchema() {}

    /** The schema as published with this version. */
    public static String text() {
        try (InputStream in = CaseSchema.class.getResourceAsStream(RESOURCE)) {
            if (in == null) {
                throw new IllegalStateException("the schema is not in this build: " + RESOURCE);
            }
            return new String(in.readAllBytes(), StandardCharsets.UTF_8);
        } catch (IOException broken) {
            throw new UncheckedIOException(broken);
        }
    }

    /** The schema made anew from the layout and the passage types. */
    public static String generate() {
        return new Generator(Layout.standard()).schema();
    }

    static String generate(Layout layout) {
        return new Generator(layout).schema();
    }

    private static final class Generator {
        private final Layout layout;
        private final Map<String, Node> definitions = new LinkedHashMap<>();

        Generator(Layout layout) {
            this.layout = layout;
        }

        String schema() {
            Map<String, Node> top = new LinkedHashMap<>();
            top.put("$schema", text("https://json-schema.org/draft/2020-12/schema"));
            top.put("title", text("Purgewright case, layout " + Layout.VERSION));
            top.put(
                    "description",
                    text(
                            "One machine's barrier: streams, cavities, passages, and what is asked of them. Quantities are texts"
                                    + " with a unit, for instance \"0.08 mm\". Generated; do not edit."));
            object(layout.root()).forEach(top::putIfAbsent);
            Map<String, Node> properties = new LinkedHashMap<>(((Node.Obj) top.get("properties")).members());
            properties.put(
                    "purgewright",
                    object("const", number(Layout.VERSION), "description", text("Version of the layout.")));
            top.put("properties", object(properties));
            Map<String, Node> sorted = new LinkedHashMap<>();
            definitions.keySet().stream().sorted().forEach(name -> sorted.put(name, definitions.get(name)));
            top.put("$defs", object(sorted));
            return Json.write(object(top));
        }

        private Map<String, Node> object(Shape.Fields shape) {
            Map<String, Node> made = new LinkedHashMap<>();
            made.put("title", text(shape.title()));
            made.putAll(closed(shape.fields()));
            List<String> alternatives =
                    switch (shape.title()) {
                        case "stream" -> List.of("fluid", "mix", "burn", "measured");
                        case "mix" -> List.of("mole", "mass");
                        case "wall" -> List.of("temperature", "cavity");
                        default -> List.of();
                    };
            if (!alternatives.isEmpty()) {
                made.put(
                        "oneOf",
                        array(alternatives.stream()
                                .map(name -> (Node) object("required", array(List.of(text(name)))))
                                .toList()));
            }
            return made;
        }

        private Map<String, Node> closed(List<Field> fields) {
            Map<String, Node> properties = new LinkedHashMap<>();
            List<Node> required = new ArrayList<>();
            for (Field field : fields) {
                properties.put(field.name(), property(field));
                if (field.required()) {
                    required.add(text(field.name()));
                }
            }
            properties.putIfAbsent("note", object("type", text("string"), "description", text("Free text.")));
            Map<String, Node> made = new LinkedHashMap<>();
            made.put("type", text("object"));
            made.put("properties", object(properties));
            if (!required.isEmpty()) {
                made.put("required", array(required));
            }
            made.put("additionalProperties", new Node.Bool(false, 0, 0));
            return made;
        }

        private Node property(Field field) {
            Map<String, Node> made = new LinkedHashMap<>(shape(field.shape()).members());
            String fallback = field.fallback() == null ? "" : " Default: " + field.fallback() + ".";
            made.put("description", text(field.description() + limits(field.shape()) + fallback));
            return object(made);
        }

        private static String limits(Shape shape) {
            String limits = shape instanceof Shape.Quantity quantity ? CaseReference.limits(quantity) : "";
            return limits.isEmpty() ? "" : " Allowed: " + limits + ".";
        }

        private Node.Obj shape(Shape shape) {
            if (shape instanceof Shape.Quantity quantity) {
                return quantity.plain() ? plain(quantity) : reference(dimension(quantity.dimension()));
            }
            if (shape instanceof Shape.Word word) {
                return object(
                        "enum",
                        array(word.choices().stream().map(Generator::text).toList()));
            }
            if (shape instanceof Shape.Name) {
                return object("type", text("string"), "pattern", text(NAME));
            }
            if (shape instanceof Shape.Reference reference && reference.target() == Shape.Target.PLACE) {
                return object("type", text("string"), "pattern", text("^/"));
            }
            if (shape instanceof Shape.Text || shape instanceof Shape.Reference) {
                return object("type", text("string"));
            }
            if (shape instanceof Shape.Flag) {
                return object("type", text("boolean"));
            }
            if (shape instanceof Shape.Fields fields) {
                if (!definitions.containsKey(fields.title())) {
                    definitions.put(fields.title(), object("type", text("object")));
                    definitions.put(fields.title(), object(object(fields)));
                }
                return reference(fields.title());
            }
            if (shape instanceof Shape.PassageShape) {
                return passage();
            }
            if (shape instanceof Shape.Entries entries) {
                return entries(entries);
            }
            if (shape instanceof Shape.Items items) {
                return object(
                        "type", text("array"), "items", shape(items.element()), "minItems", number(items.minimum()));
            }
            if (shape instanceof Shape.Either either) {
                return object(
                        "anyOf",
                        array(either.shapes().stream()
                                .map(each -> (Node) shape(each))
                                .toList()));
            }
            if (shape instanceof Shape.Scalar || shape instanceof Shape.Typed) {
                return object("type", texts("string", "number", "boolean"));
            }
            return object(Map.of());
        }

        private static Node.Obj plain(Shape.Quantity quantity) {
            Map<String, Node> made = new LinkedHashMap<>();
            made.put("type", texts(quantity.whole() ? "integer" : "number", "string"));
            if (Double.isFinite(quantity.minimum())) {
                made.put(quantity.exclusive() ? "exclusiveMinimum" : "minimum", number(quantity.minimum()));
            }
            if (Double.isFinite(quantity.maximum())) {
                made.put("maximum", number(quantity.maximum()));
            }
            made.put("pattern", text(PLAIN));
            return object(made);
        }

        private String dimension(Dimension dimension) {
            String name = Units.describe(dimension).replaceFirst("^an? ", "");
            definitions.computeIfAbsent(
                    name,
                    key -> object(
                            "title",
                            text(Units.describe(dimension) + " with its unit"),
                            "type",
                            text("string"),
                            "pattern",
                            text(dimension == Dimension.MONEY ? QUANTITY.replace(".*$", ".*|") + PLAIN : QUANTITY),
                            "examples",
                            texts(
                                    Units.example(dimension),
                                    "1 " + Units.commonUnits(dimension).get(0))));
            return name;
        }

        private Node.Obj entries(Shape.Entries entries) {
            Map<String, Node> made = new LinkedHashMap<>();
            made.put("type", text("object"));
            if (entries.key() == Shape.Key.NAME) {
                made.put("propertyNames", object("pattern", text(NAME)));
            } else if (entries.key() == Shape.Key.PLACE) {
                made.put("propertyNames", object("pattern", text("^/")));
            }
            made.put("additionalProperties", shape(entries.value()));
            return object(made);
        }

        /** The type says which of the closed descriptions a passage must meet. */
        private Node.Obj passage() {
            List<Node> keys = new ArrayList<>();
            List<Node> conditions = new ArrayList<>();
            for (PassageType type : layout.types()) {
                keys.add(text(type.key()));
                Map<String, Node> closed = new LinkedHashMap<>();
                closed.put("title", text(type.key()));
                closed.put("description", text(type.description()));
                closed.putAll(closed(layout.passageFields(type.key())));
                definitions.put("passage: " + type.key(), object(closed));
                conditions.add(object(
                        "if",
                        object(
                                "properties",
                                object("type", object("const", text(type.key()))),
                                "required",
                                texts("type")),
                        "then",
                        reference("passage: " + type.key())));
            }
            definitions.put(
                    "passage",
                    object(
                            "title",
                            text("passage"),
                            "type",
                            text("object"),
                            "properties",
                            object("type", object("enum", array(keys), "description", text("Kind of passage."))),
                            "required",
                            texts("name", "from", "to", "type"),
                            "allOf",
                            array(conditions)));
            return reference("passage");
        }

        // Small JSON tools; nothing here was read from a text, so it has no line.

        private static Node.Obj reference(String definition) {
            return object("$ref", text("#/$defs/" + definition.replace(" ", "%20")));
        }

        private static Node.Obj object(Map<String, Node> members) {
            return new Node.Obj(Collections.unmodifiableMap(new LinkedHashMap<>(members)), 0, 0);
        }

        private static Node.Obj object(Object... namesAndNodes) {
            Map<String, Node> members = new LinkedHashMap<>();
            for (int i = 0; i < namesAndNodes.length; i += 2) {
                members.put((String) namesAndNodes[i], (Node) namesAndNodes[i + 1]);
            }
            return object(members);
        }

        private static Node array(List<? extends Node> items) {
            return new Node.Arr(List.copyOf(items), 0, 0);
        }

        private static Node texts(String... items) {
            return array(Arrays.stream(items).map(Generator::text).toList());
        }

        private static Node text(String value) {
            return new Node.Text(value, 0, 0);
        }

        private static Node number(double value) {
            return new Node.Num(
                    value == Math.rint(value) && Math.abs(value) < 1e15
                            ? Long.toString((long) value)
                            : Double.toString(value),
                    0,
                    0);
        }
    }
}
