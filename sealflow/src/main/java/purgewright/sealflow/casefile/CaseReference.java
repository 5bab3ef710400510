package purgewright.sealflow.casefile;

import java.util.ArrayDeque;
import java.util.Deque;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import purgewright.fluids.unit.Dimension;
import purgewright.fluids.unit.UnitSystem;
import purgewright.fluids.unit.Units;
import purgewright.sealflow.casefile.Shape.Field;
import purgewright.sealflow.passage.PassageType;

/** The reference page of the case file, made from the layout that the reader works by. */
public final class CaseReference {
    private final StringBuilder out = new StringBuilder(32768);
    private final Layout layout;
    private final Deque<Shape.Fields> waiting = new ArrayDeque<>();
    private final Set<String> described = new HashSet<>();

    private CaseReference(Layout layout) {
        this.layout = layout;
    }

    /** The page as Markdown. */
    public static String markdown() {
        return new CaseReference(Layout.standard()).page();
    }

    private String page() {
        line("# The case file");
        line("");
        line(
                "*This page is generated from the layout that the program reads by; a test fails when it is out of date.*");
        line("");
        line(
                "A case is one JSON document (UTF-8). `purgewright new` writes one to start from, `purgewright schema` prints the JSON");
        line("Schema that editors use to complete and check while you type.");
        line("");
        line(
                "- **Quantities are texts with a unit**: `\"3.1 MPa\"`, `\"0.08 mm\"`, `\"36000 rpm\"`, `\"-183 degC\"`. A bare number is only");
        line(
                "  taken for pure numbers such as a count or a coefficient; those may also be written `\"5 %\"`. The decimal sign is a point.");
        line(
                "- **Pressure is absolute** unless the text says `gauge` (`\"45 psi gauge\"`, `\"45 psig\"`, `\"3 barg\"`); gauge is above the");
        line("  case's surroundings. `ata` is the technical atmosphere, absolute.");
        line(
                "- **Mass flow** may be written as a standard volume flow with its reference state: `\"40 L/min at 0 degC\"`,");
        line(
                "  `\"12 ft3/min at 60 degF\"`, at 101.325 kPa unless said (`\"40 L/min at 15 degC and 1 bar\"`). `scfm`, `slpm` and the like are");
        line("  refused, because trades differ in what they mean.");
        line("- **Names** have no `/` or `~`, are not all digits, and have at most 100 characters.");
        line("- **Places** are JSON Pointers in which a name may stand for an index: `/passages/ring A/clearance`.");
        line("- **Any object may have a `note`** with free text; JSON has no comments.");
        line(
                "- A file has at most 16 MB; all errors of a file are reported at once, each with its place, line and what would be right.");
        line("");
        line("## The sections");
        line("");
        table(layout.root().fields());
        described.add(layout.root().title());
        while (!waiting.isEmpty()) {
            Shape.Fields next = waiting.poll();
            line("## " + capital(next.title()));
            line("");
            table(next.fields());
        }
        passages();
        units();
        return out.toString();
    }

    private void passages() {
        line("## Passages");
        line("");
        line("Every passage may have these fields; the type adds its own.");
        line("");
        table(layout.commonFields());
        for (PassageType type : layout.types()) {
            line("### Type `" + type.key() + "`");
            line("");
            line(type.description());
            line("");
            List<String> common =
                    layout.commonFields().stream().map(Field::name).toList();
            table(layout.passageFields(type.key()).stream()
                    .filter(field -> !common.contains(field.name()))
                    .toList());
        }
    }

    private void units() {
        line("## Units");
        line("");
        line("| measures | usual units | example |");
        line("|---|---|---|");
        for (Dimension dimension : Dimension.values()) {
            if (dimension != Dimension.NUMBER) {
                line("| " + Units.describe(dimension).replaceFirst("^an? ", "") + " | `"
                        + String.join("`, `", Units.commonUnits(dimension)) + "` | `\"" + Units.example(dimension)
                        + "\"` |");
            }
        }
        line("");
        line(
                "Any product of units of the right dimension is taken (`kN/m`, `mg/min`, `Btu/(h ft2 degF)`), with the prefixes T, G, M, k, h,");
        line("da, d, c, m, u (or \u00b5), n, p before m, g, s, L, K, N, Pa, bar, J, W, P, rad and Hz.");
    }

    private void table(List<Field> fields) {
        line("| field | what stands there | needed | meaning |");
        line("|---|---|---|---|");
        for (Field field : fields) {
            String needed = field.required() ? "yes" : field.fallback() == null ? "" : "default " + field.fallback();
            line("| `" + field.name() + "` | " + what(field.shape()) + " | " + needed + " | "
                    + field.description().replace("|", "\\|") + " |");
        }
        line("");
    }

    private String what(Shape shape) {
        if (shape instanceof Shape.Quantity quantity) {
            String limits = limits(quantity);
            return Units.describe(quantity.dimension()).replaceFirst("plain ", quantity.whole() ? "whole " : "plain ")
                    + (limits.isEmpty() ? "" : ", " + limits);
        }
        if (shape instanceof Shape.Word word) {
            return "one of `" + String.join("`, `", word.choices()) + "`";
        }
        if (shape instanceof Shape.Text) {
            return "text";
        }
        if (shape instanceof Shape.Name) {
            return "a name";
        }
        if (shape instanceof Shape.Reference reference) {
            return "name of a " + reference.target().word;
        }
        if (shape instanceof Shape.Flag) {
            return "`true` or `false`";
        }
        if (shape instanceof Shape.Fields fields) {
            if (described.add(fields.title())) {
                waiting.add(fields);
            }
            return "[" + fields.title() + "](#" + fields.title().replace(' ', '-') + ")";
        }
        if (shape instanceof Shape.PassageShape) {
            return "[passage](#passages)";
        }
        if (shape instanceof Shape.Entries entries) {
            String key =
                    switch (entries.key()) {
                        case NAME -> "name";
                        case FLUID -> "fluid";
                        case FORMULA -> "formula";
                        case PLACE -> "place";
                        case FREE -> "key";
                    };
            return "by " + key + ": " + what(entries.value());
        }
        if (shape instanceof Shape.Items items) {
            return "list of: " + what(items.element());
        }
        if (shape instanceof Shape.Either either) {
            return String.join("; or ", either.shapes().stream().map(this::what).toList());
        }
        if (shape instanceof Shape.Scalar) {
            return "a quantity, number or word";
        }
        return shape instanceof Shape.Typed ? "a value as it could stand there" : "anything";
    }

    /** The limits of a quantity in words; empty when it has none. */
    static String limits(Shape.Quantity quantity) {
        String low = Double.isFinite(quantity.minimum())
                ? (quantity.exclusive() ? "more than " : "at least ") + value(quantity, quantity.minimum())
                : "";
        String high = Double.isFinite(quantity.maximum()) ? "at most " + value(quantity, quantity.maximum()) : "";
        return low.isEmpty() || high.isEmpty() ? low + high : low + ", " + high;
    }

    private static String value(Shape.Quantity quantity, double si) {
        return si == 0 ? "0" : Units.format(si, quantity.dimension(), UnitSystem.SI, 6);
    }

    private static String capital(String title) {
        return Character.toUpperCase(title.charAt(0)) + title.substring(1);
    }

    private void line(String text) {
        out.append(text).append('\n');
    }
}
