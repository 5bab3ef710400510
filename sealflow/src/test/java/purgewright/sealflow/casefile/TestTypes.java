package purgewright.sealflow.casefile;

import java.util.List;
import purgewright.fluids.unit.Dimension;
import purgewright.sealflow.model.PassageSpec;
import purgewright.sealflow.passage.Conditions;
import purgewright.sealflow.passage.Passage;
import purgewright.sealflow.passage.PassageField;
import purgewright.sealflow.passage.PassageType;

/** Passage types as the reader sees them, so that its tests do not depend on the seal library. Nothing flows through these. */
record TestTypes(String key, List<PassageField> fields) implements PassageType {
    private static final PassageField RADIUS =
            PassageField.positive("radius", Dimension.LENGTH, "Rotor surface at the gap.");
    private static final PassageField CLEARANCE =
            PassageField.positive("clearance", Dimension.LENGTH, "Cold clearance.");
    private static final PassageField DIAMETER = PassageField.positive("diameter", Dimension.LENGTH, "Bore.");
    private static final PassageField COEFFICIENT = PassageField.optional(
            "discharge coefficient", Dimension.NUMBER, "0.62", 0, 1, "Flow over that of the ideal throat.");

    static final Layout LAYOUT = new Layout(List.of(
            new TestTypes("orifice", List.of(DIAMETER, COEFFICIENT)),
            new TestTypes(
                    "line",
                    List.of(DIAMETER, PassageField.positive("length", Dimension.LENGTH, "Length of the line."))),
            new TestTypes(
                    "labyrinth",
                    List.of(
                            RADIUS,
                            CLEARANCE,
                            PassageField.count("teeth", 1, 100, "Number of teeth."),
                            PassageField.positive("pitch", Dimension.LENGTH, "From tooth to tooth."),
                            PassageField.positive("tip", Dimension.LENGTH, "Width of a tip."),
                            PassageField.choice(
                                    "arrangement",
                                    "straight",
                                    List.of("straight", "stepped", "interlocking"),
                                    "How the teeth stand."))),
            new TestTypes(
                    "floating ring",
                    List.of(RADIUS, CLEARANCE, PassageField.positive("length", Dimension.LENGTH, "Land."))),
            new TestTypes("face", List.of(PassageField.positive("gap", Dimension.LENGTH, "Film."))),
            new TestTypes(
                    "measured",
                    List.of(
                            PassageField.positive("flow", Dimension.MASS_FLOW, "Flow at the test."),
                            new PassageField(
                                    "test fluid",
                                    null,
                                    true,
                                    null,
                                    0,
                                    false,
                                    0,
                                    false,
                                    List.of(),
                                    "Gas of the test."))),
            new TestTypes(
                    "check valve",
                    List.of(
                            DIAMETER,
                            PassageField.optional(
                                    "cracking pressure",
                                    Dimension.PRESSURE_DIFFERENCE,
                                    "0 Pa",
                                    0,
                                    1e8,
                                    "Opens above it."),
                            COEFFICIENT))));

    @Override
    public String description() {
        return "A " + key + ".";
    }

    @Override
    public SealKind kind() {
        return SealKind.DUCT;
    }

    @Override
    public Passage build(PassageSpec spec, Conditions conditions) {
        return null;
    }
}
