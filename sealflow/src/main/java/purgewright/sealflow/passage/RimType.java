package purgewright.sealflow.passage;

import java.util.List;
import purgewright.fluids.FluidState;
import purgewright.fluids.unit.Dimension;
import purgewright.sealflow.gap.GapKind;
import purgewright.sealflow.model.PassageSpec;

/** The gap at the rim of a disc: a short slot, with the flow it needs against disc pumping beside the flow it passes. */
final class RimType implements PassageType {
    @Override
    public String key() {
        return "rim";
    }

    @Override
    public String description() {
        return "The gap at a disc's rim, axial or radial; says how far its flow keeps out what the disc would pump in.";
    }

    @Override
    public List<PassageField> fields() {
        return List.of(
                Fields.RADIUS,
                PassageField.positive("gap", Dimension.LENGTH, "Cold clearance, along the direction of the gap."),
                PassageField.choice(
                        "direction",
                        "axial",
                        List.of("axial", "radial"),
                        "Direction in which the clearance is measured."),
                Fields.maybe(
                        "overlap",
                        Dimension.LENGTH,
                        "Length of the gap in the direction of flow; without it, the gap itself."),
                PassageField.optional(
                        "inlet loss",
                        Dimension.NUMBER,
                        "0.5",
                        0,
                        10,
                        "Inlet loss in velocity heads beyond the head itself."),
                Fields.maybe(
                        "pressure variation",
                        Dimension.PRESSURE_DIFFERENCE,
                        "Half the peak-to-peak variation of pressure around the rim outside; it draws in like disc pumping does."),
                Fields.SEGMENT,
                Fields.STATOR_TEMPERATURE,
                Fields.STATOR_EXPANSION);
    }

    @Override
    public String page() {
        return "rim";
    }

    @Override
    public SealKind kind() {
        return SealKind.OPEN;
    }

    @Override
    public GapKind gap(PassageSpec spec) {
        return "axial".equals(spec.word("direction", "axial")) ? GapKind.AXIAL : GapKind.RADIAL;
    }

    @Override
    public Passage build(PassageSpec spec, Conditions conditions) {
        double radius = Fields.radius(spec);
        double gap = Fields.clearance(spec, conditions, spec.number("gap", Double.NaN));
        double overlap = spec.number("overlap", gap);
        double speed = conditions.rotorSpeed();
        boolean axial = "axial".equals(spec.word("direction", "axial"));
        double area = 2 * Math.PI * gap * (axial ? radius : radius + gap / 2);
        double friction = Fields.band(conditions.bound(), -0.2, -0.2);
        FrictionSlot slot = new FrictionSlot(
                2 * gap,
                overlap,
                Friction.SLOT,
                0.8e-6,
                spec.number("inlet loss", 0.5) * friction,
                0,
                Math.abs(speed) * radius,
                1,
                1);
        double variation = spec.number("pressure variation", 0);
        RimSealing.Shape shape = axial ? RimSealing.Shape.AXIAL : RimSealing.Shape.RADIAL;
        return new SlotSeal(spec, slot, area, 0, radius, gap, overlap, speed, Fields.slot(conditions.bound())) {
            @Override
            void note(Notices notices, FluidState up, double down, double mass, double viscosity) {
                if (variation > 0) {
                    double least = RimSealing.minimumFlowExternal(up.density(), radius, gap, variation);
                    notices.estimate("rim seal, pressure variation", "least sealing flow, kg/s", least);
                    notices.estimate(
                            "rim seal, pressure variation",
                            "effectiveness",
                            RimSealing.effectivenessExternal(shape, mass / least));
                }
                if (speed == 0) {
                    return;
                }
                double least = RimSealing.minimumFlow(shape, up.density(), radius, gap, speed);
                notices.estimate("rim seal, disc pumping", "least sealing flow, kg/s", least);
                notices.estimate(
                        "rim seal, disc pumping",
                        "effectiveness",
                        RimSealing.effectivenessPumping(shape, mass / least));
            }
        };
    }
}
