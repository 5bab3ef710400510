package purgewright.sealflow.casefile;

import static purgewright.fluids.unit.Dimension.ANGULAR_SPEED;
import static purgewright.fluids.unit.Dimension.CONDUCTANCE;
import static purgewright.fluids.unit.Dimension.DENSITY;
import static purgewright.fluids.unit.Dimension.DROOP;
import static purgewright.fluids.unit.Dimension.EXPANSION;
import static purgewright.fluids.unit.Dimension.FREQUENCY;
import static purgewright.fluids.unit.Dimension.HEAT_CAPACITY;
import static purgewright.fluids.unit.Dimension.LENGTH;
import static purgewright.fluids.unit.Dimension.MASS;
import static purgewright.fluids.unit.Dimension.MASS_FLOW;
import static purgewright.fluids.unit.Dimension.MODULUS;
import static purgewright.fluids.unit.Dimension.MONEY;
import static purgewright.fluids.unit.Dimension.MONEY_PER_MASS;
import static purgewright.fluids.unit.Dimension.MONEY_PER_TIME;
import static purgewright.fluids.unit.Dimension.NUMBER;
import static purgewright.fluids.unit.Dimension.PRESSURE;
import static purgewright.fluids.unit.Dimension.PRESSURE_DIFFERENCE;
import static purgewright.fluids.unit.Dimension.SPEED;
import static purgewright.fluids.unit.Dimension.TEMPERATURE;
import static purgewright.fluids.unit.Dimension.TIME;
import static purgewright.fluids.unit.Dimension.VOLUME;
import static purgewright.fluids.unit.Dimension.VOLUME_FLOW;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import purgewright.fluids.unit.Dimension;
import purgewright.sealflow.casefile.Shape.Field;
import purgewright.sealflow.casefile.Shape.Key;
import purgewright.sealflow.casefile.Shape.Target;
import purgewright.sealflow.casefile.migrate.Migrations;
import purgewright.sealflow.model.PassageSpec;
import purgewright.sealflow.model.Role;
import purgewright.sealflow.passage.PassageField;
import purgewright.sealflow.passage.PassageType;
import purgewright.sealflow.passage.PassageTypes;

/**
 * The layout of a case file, version {@link #VERSION}: every section, field, unit and limit. The one place that says what a case
 * may contain; reader, schema, reference page and the typing of edits follow from it.
 */
final class Layout {
    /** Current version of the layout. */
    static final int VERSION = Migrations.CURRENT;

    /** Highest pressure taken, Pa: ten times what any seal of this trade sees, so that a slip of the unit is noticed. */
    private static final double HIGHEST_PRESSURE = 1e9;

    private static final double HIGHEST_TEMPERATURE = 1e4;
    private static final double LONGEST = 1e4;

    /** Fields that every passage may have. */
    private final List<Field> commonPassageFields;

    private final Map<String, List<Field>> typeFields = new LinkedHashMap<>();
    private final Map<String, List<Field>> ownFields = new HashMap<>();
    private final List<PassageType> types;
    private final Shape.Fields root;

    Layout(List<PassageType> types) {
        this.types = List.copyOf(types);
        commonPassageFields = commonPassageFields();
        for (PassageType type : types) {
            List<Field> fields = new ArrayList<>(commonPassageFields);
            for (PassageField own : type.fields()) {
                fields.removeIf(field -> field.name().equals(own.name()));
                fields.add(field(own));
            }
            typeFields.put(type.key(), List.copyOf(fields));
            ownFields.put(
                    type.key(),
                    fields.stream()
                            .filter(field -> child(commonPassageFields, field.name()) == null)
                            .toList());
        }
        root = root();
    }

    private static final class Holder {
        static final Layout DEFAULT = new Layout(PassageTypes.all());
    }

    /** With the passage types of the product. */
    static Layout standard() {
        return Holder.DEFAULT;
    }

    List<PassageType> types() {
        return types;
    }

    /** The type of that key; null for one that there is not. */
    PassageType type(String key) {
        for (PassageType type : types) {
            if (type.key().equals(key)) {
                return type;
            }
        }
        return null;
    }

    /** Common and own fields of a type; null for a type that there is none of. */
    List<Field> passageFields(String type) {
        return typeFields.get(type);
    }

    /** Fields of a type whose names are none of the common ones; none for a type that there is none of. */
    List<Field> ownFields(String type) {
        return ownFields.getOrDefault(type, List.of());
    }

    List<Field> commonFields() {
        return commonPassageFields;
    }

    Shape.Fields root() {
        if (root != null) {
            return root;
        }
        return new Shape.Fields(
                "case",
                List.of(
                        field("$schema", new Shape.Text(), "Where an editor finds the schema; not read."),
                        need(
                                "purgewright",
                                new Shape.Quantity(NUMBER, 1, false, VERSION, true),
                                "Version of the layout: 1."),
                        field("about", about(), "What the case is."),
                        field(
                                "surroundings",
                                surroundings(),
                                "The air around the machine; gauge pressures are above it."),
                        field("rotor", rotor(), "Speed, allowances, and the segments whose growth moves clearances."),
                        need(
                                "streams",
                                new Shape.Entries(Key.NAME, stream()),
                                "What flows: by name, one fluid, a mix, or what a burner gives."),
                        need("cavities", new Shape.Items(cavity(), 1, true), "Spaces of one pressure and mixture."),
                        need(
                                "passages",
                                new Shape.Items(new Shape.PassageShape(), 1, true),
                                "What joins two cavities: seals, orifices, lines, valves."),
                        field("supply", supply(), "Bottles, regulator and line that the purge gas comes from."),
                        field(
                                "duty",
                                new Shape.Items(phase(), 0, true),
                                "Phases in order; without them the case is one steady phase."),
                        field(
                                "criteria",
                                new Shape.Entries(
                                        Key.FREE,
                                        new Shape.Either(List.of(
                                                new Shape.Scalar(),
                                                new Shape.Items(new Shape.Scalar(), 0, false),
                                                new Shape.Entries(Key.FREE, new Shape.Scalar())))),
                                "What separation needs; each replaces a default."),
                        field("faults", faults(), "What may fail: \"automatic\", \"none\", or a list and switches."),
                        field(
                                "uncertain",
                                new Shape.Entries(Key.PLACE, distribution()),
                                "What is not known well: a distribution for each place."),
                        field(
                                "correlations",
                                new Shape.Items(correlation(), 0, false),
                                "Which uncertain values go together."),
                        field("spread", spread(), "How the spread of the result is looked at."),
                        field(
                                "campaign",
                                campaign(),
                                "Attempts, holds, reserve and prices: what the gas must last for."),
                        field(
                                "waivers",
                                new Shape.Items(waiver(), 0, false),
                                "Findings that somebody has accepted, by name, date and reason."),
                        field("room", room(), "The room that purge gas escapes into."),
                        field(
                                "instruments",
                                new Shape.Items(instrument(), 0, true),
                                "What is measured, how well and how fast."),
                        field("plots", new Shape.Free(), "How the window and the report draw; no effect on results.")));
    }

    private static Shape.Fields about() {
        Shape text = new Shape.Text();
        return new Shape.Fields(
                "about",
                List.of(
                        field("title", text, "Title, printed on every page."),
                        field("author", text, "Who wrote it."),
                        field("date", text, "When, for instance 2026-03-14."),
                        field("revision", text, "Revision of the case.")));
    }

    private static Shape.Fields surroundings() {
        return new Shape.Fields(
                "surroundings",
                List.of(
                        fallback(
                                "pressure",
                                pressure(),
                                "101.325 kPa",
                                "Absolute pressure of the air around the machine."),
                        fallback("temperature", temperature(), "15 degC", "Temperature of that air.")));
    }

    private static Shape.Fields rotor() {
        Shape.Fields segment = new Shape.Fields(
                "segment",
                List.of(
                        need("name", new Shape.Name(), "Unique name."),
                        field("material", new Shape.Text(), "What it is made of: a label; hydrogen asks for it."),
                        fallback(
                                "bore radius",
                                atLeastZero(LENGTH, LONGEST),
                                "0 mm",
                                "Bore; 0 for a solid shaft or disc."),
                        need("outer radius", positive(LENGTH, LONGEST), "Outer radius."),
                        need("temperature", temperature(), "Mean temperature in running."),
                        need("E", positive(MODULUS, 1e13), "Young's modulus."),
                        fallback("nu", number(0, 0.5), "0.3", "Poisson's ratio."),
                        need("density", positive(DENSITY, 1e5), "Density."),
                        need("expansion", between(EXPANSION, -1e-3, 1e-3), "Mean coefficient of thermal expansion."),
                        fallback(
                                "thin",
                                new Shape.Flag(),
                                "false",
                                "true for a thin ring, false for a disc or shaft.")));
        Shape allowance = atLeastZero(LENGTH, 1);
        return new Shape.Fields(
                "rotor",
                List.of(
                        fallback("speed", between(ANGULAR_SPEED, 0, 1e6), "0 rpm", "Speed of the shaft."),
                        fallback("whirl", allowance, "0 mm", "Radial amplitude of whirl."),
                        fallback("bearing play", allowance, "0 mm", "Radial play of the bearings."),
                        fallback("run-out", allowance, "0 mm", "Radial run-out."),
                        fallback("offset", allowance, "0 mm", "Radial offset of housing to shaft."),
                        fallback("tolerance", allowance, "0 mm", "Drawing tolerance of a clearance."),
                        fallback("thrust movement", allowance, "0 mm", "Axial movement under thrust."),
                        field(
                                "segments",
                                new Shape.Items(segment, 0, true),
                                "Lengths of rotor whose growth moves clearances.")));
    }

    private static Shape.Fields stream() {
        Shape fraction = number(0, 1);
        Shape.Fields mix = new Shape.Fields(
                "mix",
                List.of(
                        field(
                                "mole",
                                new Shape.Entries(Key.FLUID, fraction),
                                "Mole fractions by fluid; they add up to 1."),
                        field(
                                "mass",
                                new Shape.Entries(Key.FLUID, fraction),
                                "Mass fractions by fluid; they add up to 1.")));
        Shape.Fields burn = new Shape.Fields(
                "burn",
                List.of(
                        need(
                                "fuel",
                                new Shape.Word(List.of("methane", "hydrogen", "kerosene", "ethanol")),
                                "Fuel of the burner."),
                        need("oxidizer", new Shape.Word(List.of("oxygen", "air")), "Oxidizer of the burner."),
                        need(
                                "mixture ratio",
                                new Shape.Quantity(NUMBER, 0, true, 1000, false),
                                "Oxidizer to fuel by mass."),
                        need("pressure", pressure(), "Pressure of the burner."),
                        need("fuel temperature", temperature(), "Fuel at the burner's inlet."),
                        need("oxidizer temperature", temperature(), "Oxidizer at the burner's inlet."),
                        fallback("graphite", new Shape.Flag(), "false", "true to allow solid carbon.")));
        return new Shape.Fields(
                "stream",
                List.of(
                        field("fluid", new Shape.Reference(Target.FLUID), "One fluid of the library."),
                        field("mix", mix, "A mix of fluids by mole or by mass."),
                        field("burn", burn, "Equilibrium products of a burner, frozen afterwards."),
                        field(
                                "measured",
                                new Shape.Entries(Key.FORMULA, fraction),
                                "Combustion gas as measured: mole fractions by formula; they add up to 1."),
                        field(
                                "main flow",
                                positive(MASS_FLOW, 1e6),
                                "What the machine pumps or expands of it in running; losses are shown as shares of it.")));
    }

    private static Shape.Fields cavity() {
        Shape.Fields disc = new Shape.Fields(
                "disc",
                List.of(
                        need("inner radius", atLeastZero(LENGTH, LONGEST), "Where the disc face begins."),
                        need("outer radius", positive(LENGTH, LONGEST), "Where it ends."),
                        need("gap", positive(LENGTH, LONGEST), "Axial distance to the casing."),
                        fallback(
                                "core swirl",
                                new Shape.Word(List.of("stated", "through-flow")),
                                "stated",
                                "Whether the core turns at the cavity's `swirl ratio` (0.45 where none is given), or at what the "
                                        + "radial through-flow makes of it by a published correlation."),
                        fallback(
                                "looks",
                                new Shape.Word(List.of("unstated", "forward", "aft")),
                                "unstated",
                                "Which way along the shaft the face looks, towards this cavity; which end is forward is yours to choose. "
                                        + "Once every disc face says so, their forces add up to an axial thrust.")));
        Shape.Fields wall = new Shape.Fields(
                "wall",
                List.of(
                        field("area", positive(Dimension.AREA, 1e4), "Area; the conductance is then one by area."),
                        need(
                                "conductance",
                                new Shape.Quantity(CONDUCTANCE, 0, true, 1e9, false),
                                "Heat by kelvin through the whole wall, or by area where an area is given."),
                        field("temperature", temperature(), "Of the far side."),
                        field(
                                "cavity",
                                new Shape.Reference(Target.CAVITY),
                                "On the far side, in place of a temperature.")));
        return new Shape.Fields(
                "cavity",
                List.of(
                        need("name", new Shape.Name(), "Unique name."),
                        need(
                                "role",
                                new Shape.Word(Arrays.stream(Role.values())
                                        .map(Role::text)
                                        .toList()),
                                "What the cavity is for. Hazards are judged by what is in it, not by this word."),
                        field(
                                "stream",
                                new Shape.Reference(Target.STREAM),
                                "What is in a cavity of fixed pressure; a vent without one holds air."),
                        field("pressure", pressure(), "Given: the cavity is held at it. Left out: it is solved for."),
                        field("temperature", temperature(), "Of a cavity of fixed pressure."),
                        field("volume", positive(VOLUME, 1e6), "Matters over time only."),
                        field(
                                "radius",
                                atLeastZero(LENGTH, LONGEST),
                                "Where the pressure is meant, in a rotating cavity."),
                        field("swirl ratio", number(0, 1), "Core swirl over rotor speed."),
                        field("disc", disc, "A disc face that bounds the cavity."),
                        field("wall", wall, "Heat through a wall."),
                        field(
                                "circumferential variation",
                                atLeastZero(PRESSURE_DIFFERENCE, HIGHEST_PRESSURE),
                                "Half the peak-to-peak variation of pressure around the circumference.")));
    }

    private static List<Field> commonPassageFields() {
        return List.of(
                need("name", new Shape.Name(), "Unique name."),
                need("from", new Shape.Reference(Target.CAVITY), "Cavity from which flow counts positive."),
                need("to", new Shape.Reference(Target.CAVITY), "The other cavity."),
                need("type", new Shape.Text(), "Kind of passage."),
                fallback(
                        "count",
                        new Shape.Quantity(NUMBER, 1, false, 10000, true),
                        "1",
                        "Equal passages side by side."),
                field("worn clearance", positive(LENGTH, 1), "Clearance when worn, for the fault sweep."),
                field(
                        "wear rate",
                        positive(SPEED, 1e-3),
                        "How fast the clearance grows in running, for instance 2 um/h; gives a life."),
                field(
                        "clearance growth",
                        between(LENGTH, -0.1, 0.1),
                        "Change of clearance from cold to running; left out: from the rotor's segments, none without them."),
                fallback(
                        "calibration factor",
                        new Shape.Quantity(NUMBER, 0, true, 1000, false),
                        "1",
                        "Multiplies the flow; from a test."),
                field("stirring", number(0, 10), "beta in D + beta U c, the stirring that helps diffusion."),
                fallback(
                        PassageSpec.PICK_UP,
                        number(PassageSpec.LEAST_PICK_UP, PassageSpec.MOST_PICK_UP),
                        "1",
                        "Liquid to gas in what leaves a cavity here, over liquid to gas as the cavity holds them: 1 as held, 0.05 a vent"
                                + " that spray hardly reaches, 20 a drain at the lowest point."),
                fallback("closed", new Shape.Flag(), "false", "true for a valve that is shut: no flow."));
    }

    private static Shape.Fields supply() {
        Shape whole = new Shape.Quantity(NUMBER, 1, false, 100000, true);
        Shape.Fields bottles = new Shape.Fields(
                "bottles",
                List.of(
                        need("volume", positive(VOLUME, 1e4), "Of one bottle."),
                        need("filling pressure", pressure(), "Settled, at the temperature below."),
                        need("temperature", temperature(), "Settled."),
                        need("number", whole, "Bottles in all."),
                        fallback("banks", whole, "1", "Banks that are switched one after the other."),
                        field(
                                "wall conductance",
                                positive(CONDUCTANCE, 1e6),
                                "From the gas to the wall of one bottle; left out: no heat reaches the gas, the cold side."),
                        field(
                                "wall heat capacity",
                                positive(HEAT_CAPACITY, 1e9),
                                "Of the wall of one bottle; left out: the wall keeps its temperature."),
                        field(
                                "outside conductance",
                                positive(CONDUCTANCE, 1e6),
                                "From the air to the wall of one bottle; left out: no heat reaches the wall."),
                        field(
                                "unusable pressure",
                                pressure(),
                                "Below it a bottle counts as empty; left out: what the regulator needs at its inlet, without a regulator"
                                        + " 10 bar in `plan` (common practice) and nothing in `run`.")));
        Shape.Fields regulator = new Shape.Fields(
                "regulator",
                List.of(
                        need("set pressure", pressure(), "Outlet at no flow."),
                        fallback("droop", atLeastZero(DROOP, 1e12), "0 Pa s/kg", "Fall of the outlet with flow."),
                        fallback(
                                "inlet effect",
                                number(0, 0.2),
                                "0",
                                "Rise of the outlet per fall of the inlet; 0.005 to 0.01 for one stage."),
                        fallback(
                                "minimum inlet margin",
                                atLeastZero(PRESSURE_DIFFERENCE, HIGHEST_PRESSURE),
                                "0 Pa",
                                "Inlet over outlet below which it no longer regulates."),
                        fallback(
                                "accuracy",
                                atLeastZero(PRESSURE_DIFFERENCE, HIGHEST_PRESSURE),
                                "0 Pa",
                                "Half the band of the set pressure."),
                        field(
                                "relief pressure",
                                pressure(),
                                "Of the relief valve behind it; left out: no relief valve."),
                        field(
                                "relief diameter",
                                positive(LENGTH, 1),
                                "Seat of the relief valve; left out: it holds 1.1 times its pressure (common practice)."),
                        field(
                                "open diameter",
                                positive(LENGTH, 1),
                                "Seat of the regulator when it fails open; left out: a relief valve holds 1.1 times its pressure (common"
                                        + " practice).")));
        Shape.Fields line = new Shape.Fields(
                "supply line",
                List.of(
                        need("diameter", positive(LENGTH, 10), "Bore."),
                        need("length", positive(LENGTH, LONGEST), "Length."),
                        fallback(
                                "roughness",
                                atLeastZero(LENGTH, 0.1),
                                "1.5 um",
                                "Of the wall; 1.5 um for drawn tube (common practice)."),
                        fallback("loss coefficient", number(0, 1e6), "0", "Sum of bends and fittings.")));
        Shape.Fields plant = new Shape.Fields(
                "plant",
                List.of(
                        need("pressure", pressure(), "Of the main."),
                        fallback("temperature", temperature(), "15 degC", "Of its gas."),
                        field(
                                "greatest flow",
                                positive(MASS_FLOW, 1e5),
                                "That the main can give; left out: whatever the purge takes.")));
        Shape.Fields liquid = new Shape.Fields(
                "liquid",
                List.of(
                        need("volume", positive(VOLUME, 1e5), "Of liquid in the full tank."),
                        need("pressure", pressure(), "Of the tank and of the gas behind the vaporiser."),
                        fallback("temperature", temperature(), "5 degC", "Of the gas behind the vaporiser."),
                        field(
                                "vaporiser flow",
                                positive(MASS_FLOW, 1e5),
                                "That the vaporiser can warm; left out: whatever the purge takes."),
                        fallback("daily loss", number(0, 1), "0", "Share of a full tank that boils away in a day.")));
        return new Shape.Fields(
                "supply",
                List.of(
                        need(
                                "gas",
                                new Shape.Reference(Target.STREAM),
                                "The purge gas, the same as in the cavity it feeds."),
                        field(
                                "cavity",
                                new Shape.Reference(Target.CAVITY),
                                "The fixed cavity of inert gas that the supply holds at pressure."),
                        field("bottles", bottles, "The bank; left out for a plant supply."),
                        field("plant", plant, "A gas main; beside bottles it is compared with them."),
                        field(
                                "liquid",
                                liquid,
                                "A tank of liquefied gas with a vaporiser; beside bottles it is compared with them."),
                        field("regulator", regulator, "Between bottles and cavity."),
                        field("line", line, "From regulator to cavity."),
                        field("metering", new Shape.Reference(Target.PASSAGE), "The passage that meters the purge."),
                        field(
                                "receiver",
                                new Shape.Reference(Target.CAVITY),
                                "The cavity behind the check valve that holds gas when the supply is lost.")));
    }

    private static Shape.Fields phase() {
        return new Shape.Fields(
                "phase",
                List.of(
                        need("name", new Shape.Name(), "Unique name."),
                        field("duration", positive(TIME, 1e9), "How long it lasts."),
                        field("speed", between(ANGULAR_SPEED, 0, 1e6), "Speed of the rotor."),
                        field("set", overrides(), "Values that this phase replaces, by place."),
                        field(
                                "open",
                                new Shape.Items(new Shape.Reference(Target.PASSAGE), 0, false),
                                "Valves open in this phase."),
                        field(
                                "closed",
                                new Shape.Items(new Shape.Reference(Target.PASSAGE), 0, false),
                                "Valves shut in this phase."),
                        fallback(
                                "ramp",
                                atLeastZero(TIME, 1e9),
                                "0 s",
                                "Time in which values go from those before to these."),
                        field("history", new Shape.Text(), "CSV file of boundary values over time, beside the case.")));
    }

    private static Shape overrides() {
        return new Shape.Entries(Key.PLACE, new Shape.Typed());
    }

    private static Shape faults() {
        Shape.Fields fault = new Shape.Fields(
                "fault",
                List.of(
                        need("name", new Shape.Name(), "Unique name."),
                        field("set", overrides(), "Values that the fault replaces, by place."),
                        field(
                                "open",
                                new Shape.Items(new Shape.Reference(Target.PASSAGE), 0, false),
                                "Valves that stand open."),
                        field(
                                "closed",
                                new Shape.Items(new Shape.Reference(Target.PASSAGE), 0, false),
                                "Valves that stay shut."),
                        fallback("credible", new Shape.Flag(), "true", "false for a fault shown but not judged."),
                        field("common cause", new Shape.Text(), "Faults of one cause come together.")));
        Shape list = new Shape.Items(fault, 0, true);
        Shape.Fields switches = new Shape.Fields(
                "faults",
                List.of(
                        fallback(
                                "automatic", new Shape.Flag(), "true", "Whether the usual single faults are examined."),
                        fallback("pairs", new Shape.Flag(), "false", "Whether all pairs of them are."),
                        field("exclude", new Shape.Items(new Shape.Text(), 0, false), "Faults left out, by name."),
                        field("extra", list, "Faults of one's own.")));
        return new Shape.Either(List.of(new Shape.Word(List.of("automatic", "none")), switches, list));
    }

    private static Shape.Fields distribution() {
        Shape value = new Shape.Scalar();
        return new Shape.Fields(
                "distribution",
                List.of(
                        need(
                                "distribution",
                                new Shape.Word(List.of(
                                        "uniform",
                                        "normal",
                                        "lognormal",
                                        "triangular",
                                        "beta",
                                        "empirical",
                                        "stack",
                                        "model form")),
                                "Family."),
                        field("low", value, "Lower end (uniform, triangular, beta)."),
                        field("high", value, "Upper end (uniform, triangular, beta)."),
                        field("mode", value, "Peak (triangular)."),
                        field("mean", value, "Mean (normal)."),
                        field("sigma", value, "Standard deviation (normal)."),
                        field("median", value, "Median (lognormal)."),
                        field(
                                "geometric sigma",
                                new Shape.Quantity(NUMBER, 1, true, 1000, false),
                                "Geometric standard deviation (lognormal)."),
                        field(
                                "alpha",
                                new Shape.Quantity(NUMBER, 0, true, 1e6, false),
                                "First shape parameter (beta)."),
                        field(
                                "beta",
                                new Shape.Quantity(NUMBER, 0, true, 1e6, false),
                                "Second shape parameter (beta)."),
                        field("values", new Shape.Items(value, 1, false), "Observed values (empirical)."),
                        field(
                                "parts",
                                new Shape.Items(stackPart(), 1, true),
                                "Dimensions with drawing limits that add up to the value (stack)."),
                        fallback(
                                "low share",
                                number(0, 1),
                                "0.25",
                                "Probability that the low end of the passage model's band is right (model form)."),
                        fallback(
                                "high share",
                                number(0, 1),
                                "0.25",
                                "Probability that the high end is right (model form); the rest is nominal."),
                        field("truncate low", value, "Nothing below it is drawn."),
                        field("truncate high", value, "Nothing above it is drawn.")));
    }

    private static Shape.Fields stackPart() {
        Shape value = new Shape.Scalar();
        return new Shape.Fields(
                "stack part",
                List.of(
                        need("name", new Shape.Name(), "Dimension on the drawing."),
                        need("low", value, "Lower drawing limit."),
                        need("high", value, "Upper drawing limit."),
                        fallback(
                                "factor",
                                number(-1000, 1000),
                                "1",
                                "With which it enters, for instance 0.5 and -0.5 for a radial clearance of two diameters."),
                        fallback(
                                "shape",
                                new Shape.Word(List.of("normal", "uniform", "triangular")),
                                "normal",
                                "How parts lie between the limits; normal: three sigma from the middle to a limit, rejects"
                                        + " sorted out.")));
    }

    private static Shape.Fields spread() {
        return new Shape.Fields(
                "spread",
                List.of(
                        field(
                                "target",
                                new Shape.Quantity(NUMBER, 0, true, 1, false),
                                "Probability that the separation must hold with; judged against the lower end of the"
                                        + " interval."),
                        field("samples", new Shape.Quantity(NUMBER, 1, false, 1e7, true), "How many."),
                        field(
                                "sampling",
                                new Shape.Word(List.of("latin hypercube", "sobol", "random")),
                                "How they are laid."),
                        field("confidence", new Shape.Quantity(NUMBER, 0, true, 1, false), "Of all intervals."),
                        field(
                                "false trips",
                                new Shape.Quantity(NUMBER, 0, true, 1, false),
                                "Allowed probability of a false trip in one run."),
                        field(
                                "outputs",
                                new Shape.Items(new Shape.Text(), 0, false),
                                "Quantities to follow, as places of the result.")));
    }

    private static Shape.Fields correlation() {
        return new Shape.Fields(
                "correlation",
                List.of(
                        need(
                                "between",
                                new Shape.Items(new Shape.Reference(Target.PLACE), 2, false),
                                "Two or more uncertain places."),
                        need("coefficient", number(-1, 1), "Rank correlation of each pair.")));
    }

    private static Shape.Fields campaign() {
        Shape.Fields hold = new Shape.Fields(
                "hold",
                List.of(
                        need("name", new Shape.Name(), "Unique name."),
                        need("duration", positive(TIME, 1e9), "How long it lasts, most likely."),
                        field("shortest", atLeastZero(TIME, 1e9), "The least it may last; left out: the duration."),
                        field("longest", positive(TIME, 1e9), "The most it may last; left out: the duration."),
                        field(
                                "phase",
                                new Shape.Reference(Target.PHASE),
                                "Phase of the duty whose purge it takes; left out: the first."),
                        fallback("per attempt", new Shape.Flag(), "true", "false for once a campaign.")));
        Shape.Fields check = new Shape.Fields(
                "leak check",
                List.of(
                        need("name", new Shape.Name(), "Unique name."),
                        need("gas", positive(MASS, 1e6), "That it takes."),
                        fallback(
                                "every",
                                new Shape.Word(List.of("attempt", "day", "campaign")),
                                "attempt",
                                "How often it comes.")));
        return new Shape.Fields(
                "campaign",
                List.of(
                        need(
                                "attempts",
                                new Shape.Quantity(NUMBER, 1, false, 100000, true),
                                "Runs to be made; an aborted one is made again."),
                        fallback(
                                "attempts per day",
                                new Shape.Quantity(NUMBER, 0, true, 1000, false),
                                "1",
                                "How many on a day."),
                        fallback("abort probability", number(0, 1), "0", "Of one attempt."),
                        field(
                                "duty per attempt",
                                new Shape.Items(new Shape.Reference(Target.PHASE), 0, false),
                                "Phases of one attempt, in order; left out: all."),
                        field(
                                "after abort",
                                new Shape.Items(new Shape.Reference(Target.PHASE), 0, false),
                                "Phases that make safe after an abort; left out: the last of an attempt."),
                        fallback(
                                "phase spread",
                                number(0, 1),
                                "0",
                                "Share by which a phase may last longer or shorter than stated."),
                        field("holds", new Shape.Items(hold, 0, true), "Waiting times with purge on."),
                        field("leak checks", new Shape.Items(check, 0, true), "Tests of tightness with the purge gas."),
                        fallback("reserve", number(0, 1), "0", "Share of the gas kept back."),
                        field("gas price", atLeastZero(MONEY_PER_MASS, 1e9), "By mass."),
                        field("bottle price", atLeastZero(MONEY, 1e9), "Of one filled bottle."),
                        field("bottle rental", atLeastZero(MONEY_PER_TIME, 1e9), "Of one bottle."),
                        field(
                                "rental time",
                                atLeastZero(TIME, 1e10),
                                "For which the bottles are kept; left out: the days of the campaign.")));
    }

    private static Shape.Fields waiver() {
        return new Shape.Fields(
                "waiver",
                List.of(
                        need("finding", new Shape.Text(), "Id of the finding."),
                        need("by", new Shape.Text(), "Who accepted it."),
                        need("date", new Shape.Text(), "When."),
                        need("reason", new Shape.Text(), "Why.")));
    }

    private static Shape.Fields room() {
        return new Shape.Fields(
                "room",
                List.of(
                        need("volume", positive(VOLUME, 1e9), "Free volume."),
                        need("ventilation", atLeastZero(VOLUME_FLOW, 1e6), "Fresh air."),
                        field("temperature", temperature(), "Of the room; left out: of the surroundings."),
                        field(
                                "vents",
                                new Shape.Items(new Shape.Reference(Target.CAVITY), 0, false),
                                "Vents that end in the room; left out: all."),
                        field("oxygen alarm", number(0, 0.21), "Oxygen fraction at which the alarm sounds."),
                        field(
                                "bank break rate",
                                atLeastZero(FREQUENCY, 1),
                                "How often the whole bottle bank breaks: gives the class of the oxygen deficiency hazard.")));
    }

    private static Shape.Fields instrument() {
        Shape value = new Shape.Scalar();
        return new Shape.Fields(
                "instrument",
                List.of(
                        need("name", new Shape.Name(), "Unique name."),
                        need(
                                "measures",
                                new Shape.Word(List.of(
                                        "pressure",
                                        "pressure difference",
                                        "temperature",
                                        "flow",
                                        "speed",
                                        "oxygen",
                                        "fuel")),
                                "What it measures."),
                        field("cavity", new Shape.Reference(Target.CAVITY), "Where."),
                        field("passage", new Shape.Reference(Target.PASSAGE), "Where."),
                        field("uncertainty", value, "Half the band, two sigma."),
                        field(
                                "noise",
                                value,
                                "Standard deviation of one sample's noise; left out: half the uncertainty."),
                        field("lag", atLeastZero(TIME, 1e6), "Time constant."),
                        field("sample rate", positive(FREQUENCY, 1e9), "Samples by time."),
                        field(
                                "persistence",
                                new Shape.Quantity(NUMBER, 1, false, 1e6, true),
                                "Samples in a row that trip."),
                        field("low redline", value, "Trips below."),
                        field("high redline", value, "Trips above."),
                        field("sensors", new Shape.Quantity(NUMBER, 1, false, 100, true), "How many there are."),
                        field("votes", new Shape.Quantity(NUMBER, 1, false, 100, true), "How many must agree.")));
    }

    // --- small words
    // -----------------------------------------------------------------------------------------------------

    private static Shape pressure() {
        return new Shape.Quantity(PRESSURE, 0, true, HIGHEST_PRESSURE, false);
    }

    private static Shape temperature() {
        return new Shape.Quantity(TEMPERATURE, 0, true, HIGHEST_TEMPERATURE, false);
    }

    private static Shape positive(Dimension dimension, double maximum) {
        return new Shape.Quantity(dimension, 0, true, maximum, false);
    }

    private static Shape atLeastZero(Dimension dimension, double maximum) {
        return new Shape.Quantity(dimension, 0, false, maximum, false);
    }

    private static Shape between(Dimension dimension, double minimum, double maximum) {
        return new Shape.Quantity(dimension, minimum, false, maximum, false);
    }

    private static Shape number(double minimum, double maximum) {
        return between(NUMBER, minimum, maximum);
    }

    private static Field need(String name, Shape shape, String description) {
        return new Field(name, shape, true, null, description);
    }

    private static Field field(String name, Shape shape, String description) {
        return new Field(name, shape, false, null, description);
    }

    private static Field fallback(String name, Shape shape, String fallback, String description) {
        return new Field(name, shape, false, fallback, description);
    }

    private static Field field(PassageField own) {
        Shape shape;
        if (own.dimension() != null) {
            shape = new Shape.Quantity(own.dimension(), own.minimum(), own.exclusive(), own.maximum(), own.whole());
        } else if (own.choices().isEmpty()) {
            shape = new Shape.Text();
        } else {
            shape = new Shape.Word(own.choices());
        }
        return new Field(own.name(), shape, own.required(), own.fallback(), own.description());
    }

    // --- finding a place's shape
    // -----------------------------------------------------------------------------------------

    /** What may stand at a place, by the standard layout; null when nothing may. */
    static Shape shapeAt(Node root, List<String> steps) {
        return standard().shape(root, steps);
    }

    /** What may stand at a place of a document; null when nothing may. Elements of lists must exist. */
    Shape shape(Node document, List<String> steps) {
        Shape shape = root;
        Node node = document;
        for (String step : steps) {
            Node next = node == null ? null : Place.step(node, step);
            shape = step(shape, node, step, next);
            node = next;
            if (shape == null) {
                return null;
            }
        }
        return shape;
    }

    /** What may stand one step below a node of the given shape; null when nothing may. {@code next} is what stands there, or null. */
    Shape step(Shape shape, Node node, String step, Node next) {
        Shape below = child(shape, node, step);
        return below instanceof Shape.Either either && next != null ? choose(either, next) : below;
    }

    private Shape child(Shape shape, Node node, String step) {
        if (shape instanceof Shape.Fields fields) {
            return child(fields.fields(), step);
        }
        if (shape instanceof Shape.PassageShape) {
            List<Field> fields =
                    node instanceof Node.Obj passage && passage.members().get("type") instanceof Node.Text type
                            ? typeFields.getOrDefault(type.value(), commonPassageFields)
                            : commonPassageFields;
            return child(fields, step);
        }
        if (shape instanceof Shape.Entries entries) {
            return entries.value();
        }
        if (shape instanceof Shape.Items items) {
            return node instanceof Node.Arr array && Place.index(array, step) >= 0 ? items.element() : null;
        }
        return shape instanceof Shape.Free ? shape : null;
    }

    private static Shape child(List<Field> fields, String step) {
        if ("note".equals(step)) {
            return new Shape.Text();
        }
        for (Field field : fields) {
            if (field.name().equals(step)) {
                return field.shape();
            }
        }
        return null;
    }

    /** What number may stand at a place; null when none may. */
    static CaseDocument.Range rangeAt(Node root, List<String> steps) {
        return shapeAt(root, steps) instanceof Shape.Quantity quantity
                ? new CaseDocument.Range(
                        quantity.dimension(),
                        quantity.minimum(),
                        quantity.exclusive(),
                        quantity.maximum(),
                        quantity.whole())
                : null;
    }

    /** The alternative that fits the kind of value, else the first. */
    static Shape choose(Shape.Either either, Node node) {
        for (Shape shape : either.shapes()) {
            boolean object = shape instanceof Shape.Fields || shape instanceof Shape.Entries;
            boolean array = shape instanceof Shape.Items;
            boolean fits = node instanceof Node.Obj ? object : node instanceof Node.Arr ? array : !object && !array;
            if (fits) {
                return shape;
            }
        }
        return either.shapes().get(0);
    }
}
