package purgewright.sealflow.passage;

import java.util.List;
import purgewright.fluids.unit.Dimension;
import purgewright.sealflow.SmoothStep;
import purgewright.sealflow.model.PassageSpec;

/** A hole: round, sharp or thick, with a discharge coefficient or the sharp edge's own. */
final class OrificeType implements PassageType {
    @Override
    public String key() {
        return "orifice";
    }

    @Override
    public String description() {
        return "A hole with a discharge coefficient; chokes with the real fluid, flashing liquids included.";
    }

    @Override
    public List<PassageField> fields() {
        return List.of(
                Fields.DIAMETER,
                PassageField.optional(
                        "thickness", Dimension.LENGTH, "0 mm", 0, 10, "Thickness of the wall; diffusion crosses it."),
                new PassageField(
                        "discharge coefficient",
                        Dimension.NUMBER,
                        false,
                        null,
                        0,
                        true,
                        1.05,
                        false,
                        List.of(),
                        "Flow over that of an ideal nozzle of the same area; without it, that of a sharp edge (0.61 rising with"
                                + " the pressure ratio), 0.81 for a wall two diameters thick."));
    }

    @Override
    public SealKind kind() {
        return SealKind.DUCT;
    }

    @Override
    public boolean meters() {
        return true;
    }

    @Override
    public Passage build(PassageSpec spec, Conditions conditions) {
        double d = Fields.positive(spec, "diameter", "m");
        double thickness = spec.number("thickness", 0);
        double coefficient = spec.number("discharge coefficient", Double.NaN);
        double thick = SmoothStep.of((thickness / d - 0.5) / 1.5);
        // A measured coefficient is good to 2 %, the sharp edge's to 5 % [common practice].
        double width = Double.isNaN(coefficient) ? 0.05 : 0.02;
        return new OpeningPassage(
                spec,
                Math.PI * d * d / 4,
                coefficient,
                thick,
                Fields.band(conditions.bound(), width, width),
                Fields.thin(conditions.bound()),
                d,
                thickness,
                true);
    }
}
